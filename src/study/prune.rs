//! Within a drive type, what another option beats on everything is dropped.

use std::collections::{BTreeMap, BTreeSet};

use super::judge::Judged;
use crate::family::choose::front;
use crate::quantity::to_digits;
use crate::requirements::{Criterion, Requirements};

/// Drops options for which another of the same kind is no worse on purchase,
/// running cost and every rewarded criterion, and better on one.
pub fn drop_dominated(job: &Requirements, options: &mut Vec<Judged>) {
    // Of equals the first by id stays.
    let mut by_id: Vec<usize> = (0..options.len()).collect();
    by_id.sort_by(|p, q| options[*p].id.cmp(&options[*q].id));
    let kept = front(by_id, |index| {
        let option = &options[*index];
        let money = [option.cost.purchase, option.cost.running.total()];
        (option.kind.as_str(), marks(job, money, &option.criteria))
    });
    let kept: BTreeSet<usize> = kept.into_iter().collect();
    let mut index = 0..;
    options.retain(|_| index.next().is_none_or(|index| kept.contains(&index)));
}

/// Money and rewarded criteria, rounded, smaller is better.
pub fn marks(job: &Requirements, money: [f64; 2], criteria: &BTreeMap<Criterion, f64>) -> Vec<f64> {
    let rewarded = job
        .goals
        .iter()
        .filter(|(_, goal)| goal.reward.is_some())
        .map(|(criterion, _)| *criterion);
    let of = |criterion: Criterion| {
        let raw = criteria.get(&criterion).copied().unwrap_or(0.0);
        let rounded = to_digits(raw, 4);
        if criterion.row().more_is_better {
            -rounded
        } else {
            rounded
        }
    };
    let money = money.map(|money| (money * 100.0).round() / 100.0);
    money.into_iter().chain(rewarded.map(of)).collect()
}
