//! Within a kind of train, what another option beats on everything is dropped.

use std::collections::BTreeMap;

use super::judge::Judged;
use crate::quantity::to_digits;
use crate::requirements::{Criterion, Requirements};

/// Drops options for which another of the same kind is no worse on purchase,
/// running cost and every rewarded criterion, and better on one.
pub fn drop_dominated(job: &Requirements, options: &mut Vec<Judged>) {
    let marks_of = |option: &Judged| {
        let money = [option.cost.purchase, option.cost.running.total()];
        marks(job, money, &option.criteria)
    };
    let marks: Vec<Vec<f64>> = options.iter().map(marks_of).collect();
    let mut kinds: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (index, option) in options.iter().enumerate() {
        kinds.entry(&option.kind).or_default().push(index);
    }
    let beats = |ours: usize, rival: usize| {
        let first = || options[ours].id < options[rival].id;
        beats(&marks[ours], &marks[rival], first)
    };
    let mut keep = vec![false; options.len()];
    for alike in kinds.into_values() {
        // Those that none before them beats: what a later one drops, and all that it beat, that one beats as well.
        let mut front: Vec<usize> = Vec::new();
        for this in alike {
            if let Some(at) = front.iter().position(|&kept| beats(kept, this)) {
                // What beat one beats its like: it is asked first.
                front.swap(0, at);
            } else {
                front.retain(|&kept| !beats(this, kept));
                front.push(this);
            }
        }
        for kept in front {
            keep[kept] = true;
        }
    }
    let mut kept = keep.into_iter();
    options.retain(|_| kept.next().unwrap_or(true));
}

/// Money and rewarded criteria, rounded, smaller is better.
#[must_use]
pub fn marks(job: &Requirements, money: [f64; 2], criteria: &BTreeMap<Criterion, f64>) -> Vec<f64> {
    let rewarded = job
        .wants
        .iter()
        .filter(|(_, want)| want.reward.is_some())
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

/// Whether marks, the smaller the better, are no worse anywhere and better somewhere; of equals, the first by id stays.
#[must_use]
pub fn beats(ours: &[f64], rival: &[f64], first: impl Fn() -> bool) -> bool {
    let pairs = || ours.iter().zip(rival);
    pairs().all(|(this, that)| this <= that) && (pairs().any(|(this, that)| this < that) || first())
}
