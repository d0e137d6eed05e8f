//! All options that pass every check of a job, to be ranked under one set of limits after another.
//!
//! Most changes of a file that are tried change a limit, and a limit puts options out without making others: the drives
//! are made once for all of them.

use std::collections::BTreeMap;

use super::generate;
use super::groundwork::Groundwork;
use super::judge::{Judged, broken_musts};
use super::prune::marks;
use crate::family::choose::front;
use crate::requirements::{Brief, Criterion, Requirements};

/// An option with what its place in the ranking follows from.
#[derive(Debug, Clone, PartialEq)]
pub struct Contender {
    /// Its id.
    pub id: String,
    /// Its drive type, assist included.
    pub drive_type: String,
    /// The drive with its assist in plain words.
    pub words: String,
    /// Family name.
    pub family: &'static str,
    /// Assist name.
    pub assist: &'static str,
    /// Every criterion.
    pub criteria: BTreeMap<Criterion, f64>,
    /// Money to buy, make and fit it.
    pub purchase: f64,
    /// Money a year to run it.
    pub running_cost_per_year: f64,
    /// Its net value.
    pub net_value: f64,
}

impl Contender {
    fn of(judged: &Judged) -> Self {
        Self {
            id: judged.id.clone(),
            drive_type: judged.kind.clone(),
            words: judged.words(),
            family: judged.drive.family,
            assist: judged.assist.assist.name(),
            criteria: judged.criteria.clone(),
            purchase: judged.cost.purchase,
            running_cost_per_year: judged.cost.running.total(),
            net_value: judged.net_value,
        }
    }

    fn marks(&self, job: &Requirements) -> Vec<f64> {
        let money = [self.purchase, self.running_cost_per_year];
        marks(job, money, &self.criteria)
    }
}

/// The options of a job that pass every check.
#[derive(Debug)]
pub struct Pool {
    /// All that the options hang on.
    brief: Brief,
    candidates: Vec<Contender>,
}

impl Pool {
    /// All of a job, or those of one family with one sort of assist.
    pub(super) fn new(asked: &Groundwork, only: Option<(&str, &str)>) -> Self {
        let assists = only.map_or_else(|| asked.assists(), |(_, sort)| asked.assists_of(sort));
        let base = asked.base();
        let candidates = generate::sound_trains(only, &base, &assists, asked.by, Contender::of);
        Self {
            brief: asked.brief.clone(),
            candidates,
        }
    }

    /// Whether another job has just the same options but for its limits.
    pub fn serves(&self, job: &Requirements) -> bool {
        self.brief == Brief::new(job)
    }

    /// Those that meet a job's limits, in no order.
    pub fn meeting(&self, job: &Requirements) -> impl Iterator<Item = &Contender> {
        let meets = move |option: &&Contender| broken_musts(job, &option.criteria).is_empty();
        self.candidates.iter().filter(meets)
    }

    /// The best of each drive type under a job's limits, in the order of the ranking.
    pub fn best_of_kinds(&self, job: &Requirements) -> Vec<&Contender> {
        let mut kinds: BTreeMap<&str, Vec<&Contender>> = BTreeMap::new();
        for option in self.meeting(job) {
            kinds.entry(&option.drive_type).or_default().push(option);
        }
        let mut best: Vec<&Contender> = kinds
            .into_values()
            .filter_map(|alike| best(job, alike))
            .collect();
        best.sort_by(|p, q| order(p, q));
        best
    }
}

fn order(p: &Contender, q: &Contender) -> core::cmp::Ordering {
    let worth = q.net_value.total_cmp(&p.net_value);
    worth.then_with(|| p.id.cmp(&q.id))
}

/// The first in the ranking of one drive type: of those that no other beats on every count.
fn best<'c>(job: &Requirements, mut alike: Vec<&'c Contender>) -> Option<&'c Contender> {
    // Of equals the first by id stays.
    alike.sort_by(|p, q| p.id.cmp(&q.id));
    let unbeaten = front(alike, |option| option.marks(job));
    unbeaten.into_iter().min_by(|p, q| order(p, q))
}
