//! An option judged: its criteria against the wants, and its net worth.

use std::collections::BTreeMap;

use super::detail::AssistDetail;
use super::file::{CheckLine, CriterionLine, OptionDemand, OptionLine, PartEntry};
use super::money::{self, Cost};
use super::{criteria, ruled_out};
use crate::demand::Assist;
use crate::family::{Check, Fitted, Train};
use crate::requirements::{Criterion, Requirements, Want};

/// The wants by which criteria are turned into money: the job's own, or, where a change of the job is tried, those before it.
pub type ValueScale = BTreeMap<Criterion, Want>;

/// By what drives are judged.
#[derive(Debug, Clone, Copy)]
pub struct Judging<'j> {
    /// The job: its money and its musts.
    pub job: &'j Requirements,
    /// What criteria are worth.
    pub scale: &'j ValueScale,
}

/// A train with what it costs and is worth.
#[derive(Debug, Clone)]
pub struct Judged<'a> {
    /// The train.
    pub train: Train<'a>,
    /// Its assist.
    pub assist: &'a Fitted<'a>,
    /// Its id.
    pub id: String,
    /// Its kind of train, assist included.
    pub kind: String,
    /// What it costs.
    pub cost: Cost,
    /// Every criterion.
    pub criteria: BTreeMap<Criterion, f64>,
    /// What it is worth beyond what it costs.
    pub net_worth: f64,
}

impl<'a> Judged<'a> {
    /// Judges a train: its money by the job, what its criteria are worth by the scale.
    #[must_use]
    pub fn new(Judging { job, scale }: Judging, train: Train<'a>, assist: &'a Fitted<'a>) -> Self {
        let cost = money::cost(job, &train, assist);
        let criteria: BTreeMap<_, _> = criteria::raw(job, &train, assist, &cost)
            .into_iter()
            .collect();
        let gained: f64 = criteria
            .iter()
            .filter_map(|(criterion, raw)| scale.get(criterion).and_then(|want| gain(want, *raw)))
            .sum();
        let kind = match assist.assist.weight_kg() {
            Some(_) => format!("{} + counterweight", train.kind),
            None => train.kind.clone(),
        };
        Self {
            id: train.id(&assist.tag),
            kind,
            net_worth: gained - cost.purchase - cost.running.total() * job.rates.horizon_years,
            train,
            assist,
            cost,
            criteria,
        }
    }

    /// As a study holds it.
    #[must_use]
    pub fn line(&self, rank: usize, Judging { job, scale }: Judging) -> OptionLine {
        let train = &self.train;
        let unit = job.rates.per_catalog_unit;
        let part = |part: &crate::family::PartLine| PartEntry {
            id: part.common.id.clone(),
            name: part.common.name.clone(),
            kind: part.kind.into(),
            quantity: part.quantity,
            length_m: part.length_m,
            price: part.price * unit,
            cost: part.cost() * unit,
            mass_kg: part.mass_kg,
            on_machine: part.on_machine,
        };
        let criterion = |(criterion, raw): (&Criterion, &f64)| {
            let reward = scale
                .get(criterion)
                .and_then(|want| want.reward.map(|reward| (want.must, reward)));
            let line = CriterionLine {
                raw: *raw,
                unit: criterion.row().unit.into(),
                value: reward.map(|(must, reward)| value(must, reward.ideal, *raw)),
                worth: reward.map(|(_, reward)| reward.worth),
            };
            (criterion.name().into(), line)
        };
        OptionLine {
            rank,
            id: self.id.clone(),
            train: self.kind.clone(),
            words: self.words(),
            family: train.family.into(),
            assist: self.assist.assist.name().into(),
            design_travel_time_s: train.travel_time_s,
            parts: money::parts(train, self.assist).map(part).collect(),
            made: self.cost.made.clone(),
            hours: self.cost.hours.clone(),
            assist_detail: self.assist_detail(),
            guide_detail: None,
            demand: OptionDemand {
                hinge: self.train.demand.hinge.clone(),
                travel_time_s: train.demand.travel_time_s,
                worst: train.demand.worst,
                emergency_stop: train.demand.emergency_stop,
                stability: train.demand.stability,
            },
            checks: train.checks.iter().map(CheckLine::from).collect(),
            holds_without_power: train.holds,
            criteria: self.criteria.iter().map(criterion).collect(),
            purchase: self.cost.purchase,
            running_cost_per_year: self.cost.running.total(),
            running: self.cost.running,
            net_worth: self.net_worth,
            gives: Vec::new(),
            gives_up: Vec::new(),
            proofs: train.proofs.clone(),
            remarks: train.remarks.clone(),
            cautions: train.cautions.iter().map(ToString::to_string).collect(),
            hazards: train.cautions.clone(),
        }
    }

    /// The drive with its assist in plain words.
    #[must_use]
    pub fn words(&self) -> String {
        match self.assist.assist.weight_kg() {
            Some(mass_kg) => format!(
                "{} + {} kg counterweight",
                self.train.words,
                crate::quantity::show(mass_kg)
            ),
            None => self.train.words.clone(),
        }
    }

    fn assist_detail(&self) -> Option<AssistDetail> {
        match self.assist.assist {
            Assist::None => None,
            Assist::Counterweight(weight) => Some(AssistDetail {
                counterweight_kg: weight.mass_kg,
                travel_ratio: weight.travel_ratio,
                sheaves: weight.sheaves,
                loss_per_sheave: weight.loss_per_sheave,
                sheave_mass_kg: weight.sheave_mass_kg,
                tail_radius_m: None,
            }),
            Assist::Tail(tail) => Some(AssistDetail {
                counterweight_kg: tail.mass_kg,
                travel_ratio: 0.0,
                sheaves: 0,
                loss_per_sheave: 0.0,
                sheave_mass_kg: 0.0,
                tail_radius_m: Some(tail.radius_m),
            }),
        }
    }
}

/// The musts that criteria break, as checks.
#[must_use]
pub fn broken_musts(job: &Requirements, criteria: &BTreeMap<Criterion, f64>) -> Vec<Check> {
    let broken = |(criterion, want): (&Criterion, &Want)| {
        let raw = criteria.get(criterion)?;
        let must = if *criterion == Criterion::TravelTime {
            job.travel_time_must_s
        } else {
            want.must
        };
        let check = ruled_out::must(*criterion, *raw, must);
        (!check.passes()).then_some(check)
    };
    job.wants.iter().filter_map(broken).collect()
}

/// 0 at the must, 1 at the ideal or better, linear between; where a must has been let out further than the scale's, below 0
/// beyond it on the same line.
#[must_use]
pub fn value(must: f64, ideal: f64, raw: f64) -> f64 {
    ((raw - must) / (ideal - must)).min(1.0)
}

/// Money gained on a want.
fn gain(want: &Want, raw: f64) -> Option<f64> {
    want.reward
        .map(|reward| reward.worth * value(want.must, reward.ideal, raw))
}
