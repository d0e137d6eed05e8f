//! An option judged: its criteria against the goals, and its net value.

use std::collections::BTreeMap;

use super::detail::AssistDetail;
use super::file::{CheckLine, CriterionLine, OptionDemand, OptionLine, PartEntry};
use super::money::{self, Cost};
use super::{criteria, ruled_out};
use crate::demand::Assist;
use crate::family::{Check, Drive, Fitted};
use crate::requirements::{Criterion, Goal, Requirements};

/// The goals by which criteria are turned into money: the job's own, or, where a change of the job is tried, those before it.
pub type ValueScale = BTreeMap<Criterion, Goal>;

/// By what drives are judged.
#[derive(Debug, Clone, Copy)]
pub struct Judging<'j> {
    /// The job: its money and its limits.
    pub job: &'j Requirements,
    /// What criteria are worth.
    pub scale: &'j ValueScale,
}

/// A drive with what it costs and is worth.
#[derive(Debug, Clone)]
pub struct Judged<'a> {
    /// The drive.
    pub drive: Drive<'a>,
    /// Its assist.
    pub assist: &'a Fitted<'a>,
    /// Its id.
    pub id: String,
    /// Its drive type, assist included.
    pub kind: String,
    /// What it costs.
    pub cost: Cost,
    /// Every criterion.
    pub criteria: BTreeMap<Criterion, f64>,
    /// What it is worth beyond what it costs.
    pub net_value: f64,
}

impl<'a> Judged<'a> {
    /// Judges a drive: its money by the job, what its criteria are worth by the scale.
    pub fn new(Judging { job, scale }: Judging, drive: Drive<'a>, assist: &'a Fitted<'a>) -> Self {
        let cost = money::cost(job, &drive, assist);
        let criteria: BTreeMap<_, _> = criteria::raw(job, &drive, assist, &cost)
            .into_iter()
            .collect();
        let gained: f64 = criteria
            .iter()
            .filter_map(|(criterion, raw)| scale.get(criterion).and_then(|goal| gain(goal, *raw)))
            .sum();
        let kind = match assist.assist.weight_kg() {
            Some(_) => format!("{} + counterweight", drive.kind),
            None => drive.kind.clone(),
        };
        Self {
            id: drive.id(&assist.tag),
            kind,
            net_value: gained - cost.purchase - cost.running.total() * job.rates.horizon_years,
            drive,
            assist,
            cost,
            criteria,
        }
    }

    /// As a study holds it.
    pub fn line(&self, rank: usize, Judging { job, scale }: Judging) -> OptionLine {
        let drive = &self.drive;
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
                .and_then(|goal| goal.reward.map(|reward| (goal.limit, reward)));
            let line = CriterionLine {
                raw: *raw,
                unit: criterion.row().unit.into(),
                value: reward.map(|(limit, reward)| value(limit, reward.target, *raw)),
                worth: reward.map(|(_, reward)| reward.worth),
            };
            (criterion.name().into(), line)
        };
        OptionLine {
            rank,
            id: self.id.clone(),
            drive_type: self.kind.clone(),
            words: self.words(),
            family: drive.family.into(),
            assist: self.assist.assist.name().into(),
            design_travel_time_s: drive.travel_time_s,
            parts: money::parts(drive, self.assist).map(part).collect(),
            custom: self.cost.custom.clone(),
            hours: self.cost.hours.clone(),
            assist_detail: self.assist_detail(),
            guide_detail: None,
            demand: OptionDemand {
                hinge: self.drive.demand.hinge.clone(),
                travel_time_s: drive.demand.travel_time_s,
                worst: drive.demand.worst,
                emergency_stop: drive.demand.emergency_stop,
                stability: drive.demand.stability,
            },
            checks: drive.checks.iter().map(CheckLine::from).collect(),
            holds_without_power: drive.holds,
            criteria: self.criteria.iter().map(criterion).collect(),
            purchase: self.cost.purchase,
            running_cost_per_year: self.cost.running.total(),
            running: self.cost.running,
            net_value: self.net_value,
            gives: Vec::new(),
            gives_up: Vec::new(),
            proofs: drive.proofs.clone(),
            remarks: drive.remarks.clone(),
            cautions: drive.cautions.iter().map(ToString::to_string).collect(),
            hazards: drive
                .cautions
                .iter()
                .map(|caution| caution.hazard)
                .collect(),
        }
    }

    /// The drive with its assist in plain words.
    pub fn words(&self) -> String {
        match self.assist.assist.weight_kg() {
            Some(mass_kg) => format!(
                "{} + {} kg counterweight",
                self.drive.words,
                crate::quantity::show(mass_kg)
            ),
            None => self.drive.words.clone(),
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

/// The limits that criteria break, as checks.
pub fn broken_musts(job: &Requirements, criteria: &BTreeMap<Criterion, f64>) -> Vec<Check> {
    let broken = |(criterion, goal): (&Criterion, &Goal)| {
        let raw = criteria.get(criterion)?;
        let limit = if *criterion == Criterion::TravelTime {
            job.travel_time_limit_s
        } else {
            goal.limit
        };
        let check = ruled_out::limit_to(*criterion, *raw, limit);
        (!check.passes()).then_some(check)
    };
    job.goals.iter().filter_map(broken).collect()
}

/// 0 at the limit, 1 at the target or better, linear between; where a limit has been let out further than the scale's, below 0
/// beyond it on the same line.
pub fn value(limit: f64, target: f64, raw: f64) -> f64 {
    ((raw - limit) / (target - limit)).min(1.0)
}

/// Money gained on a goal.
fn gain(goal: &Goal, raw: f64) -> Option<f64> {
    goal.reward
        .map(|reward| reward.worth * value(goal.limit, reward.target, raw))
}
