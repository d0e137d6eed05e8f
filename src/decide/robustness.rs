//! Whether the first would stay first if the worths were other than guessed, and what would put another kind before it.

use std::collections::BTreeMap;

use super::worths::{self, Alternative, WorthSet};
use crate::family::choose::front;
use crate::quantity::to_digits;
use crate::requirements::{Criterion, Requirements, Reward};
use crate::study::{OptionLine, OtherWorth, Robustness, Study};

/// Money below which a lead is rounding.
const A_HAIR: f64 = 1e-6;

/// The options of a study as alternatives, by drive type in the order of the ranking.
pub(super) struct Contest<'s> {
    /// The goals that are rewarded, in the order of the worths.
    pub criteria: Vec<(Criterion, Reward)>,
    /// Each kind with its options that no other of it beats.
    pub kinds: Vec<(&'s str, Vec<(&'s OptionLine, Alternative)>)>,
    /// Years over which running is counted.
    pub years: f64,
}

impl<'s> Contest<'s> {
    pub(super) fn new(study: &'s Study, job: &Requirements) -> Self {
        let criteria: Vec<(Criterion, Reward)> = job
            .goals
            .iter()
            .filter_map(|(criterion, goal)| Some((*criterion, goal.reward?)))
            .collect();
        let mut field = Self {
            criteria,
            kinds: Vec::new(),
            years: job.rates.horizon_years,
        };
        let mut places: BTreeMap<&str, usize> = BTreeMap::new();
        let mut kinds: Vec<(&str, Vec<(&OptionLine, Alternative)>)> = Vec::new();
        for option in &study.options {
            let place = *places.entry(&option.drive_type).or_insert(kinds.len());
            if place == kinds.len() {
                kinds.push((&option.drive_type, Vec::new()));
            }
            if let Some((_, list)) = kinds.get_mut(place) {
                list.push((option, field.alternative(option)));
            }
        }
        let kept = |(kind, list)| (kind, unbeaten(list, |(_, this)| this));
        field.kinds = kinds.into_iter().map(kept).collect();
        field
    }

    /// What an option reaches on the rewarded goals, and costs over the years.
    pub(super) fn alternative(&self, option: &OptionLine) -> Alternative {
        let value = |(criterion, _): &(Criterion, Reward)| {
            let line = option.criteria.get(criterion.name());
            line.and_then(|line| line.value).unwrap_or(0.0)
        };
        Alternative {
            values: self.criteria.iter().map(value).collect(),
            cost: option.purchase + option.running_cost_per_year * self.years,
        }
    }

    pub(super) fn worths(&self) -> Vec<f64> {
        self.criteria
            .iter()
            .map(|(_, reward)| reward.worth)
            .collect()
    }

    /// The alternatives of all other kinds that could set the mark under some worths.
    fn rivals(&self, of: &str) -> Vec<&Alternative> {
        let others = self.kinds.iter().filter(|(kind, _)| *kind != of);
        let all: Vec<&Alternative> = others
            .flat_map(|(_, list)| list.iter().map(|(_, alternative)| alternative))
            .collect();
        unbeaten(all, |this| this)
    }
}

/// Those that no other beats on every value and on cost: as no worth is negative, the others can never set the mark.
fn unbeaten<T>(all: Vec<T>, alternative: impl Fn(&T) -> &Alternative) -> Vec<T> {
    front(all, |item| {
        let this = alternative(item);
        let values = this.values.iter().map(|value| -value);
        core::iter::once(this.cost)
            .chain(values)
            .collect::<Vec<_>>()
    })
}

/// For every drive type, in the order of the ranking: whether it can be best, and what would make it so.
pub fn robustness(study: &Study, job: &Requirements) -> Vec<Robustness> {
    let field = Contest::new(study, job);
    if field.kinds.len() < 2 {
        return Vec::new();
    }
    field
        .kinds
        .iter()
        .map(|(kind, list)| of_kind(&field, kind, list))
        .collect()
}

fn of_kind(field: &Contest, kind: &str, list: &[(&OptionLine, Alternative)]) -> Robustness {
    let rivals = field.rivals(kind);
    let set = WorthSet {
        ranges: field
            .criteria
            .iter()
            .map(|(_, reward)| {
                let apart = reward.worth * reward.unsure;
                ((reward.worth - apart).max(0.0), reward.worth + apart)
            })
            .collect(),
        sum: None,
    };
    let mut margin = f64::NEG_INFINITY;
    let mut best = list.first().map_or("", |(option, _)| option.id.as_str());
    for (option, this) in list {
        if let Some(found) = worths::margin(this, &rivals, &set, margin) {
            margin = found;
            best = &option.id;
        }
    }
    let now = field.worths();
    let first = list
        .iter()
        .map(|(_, this)| this.net(&now))
        .fold(f64::NEG_INFINITY, f64::max)
        >= rivals
            .iter()
            .map(|rival| rival.net(&now))
            .fold(f64::NEG_INFINITY, f64::max);
    Robustness {
        option: best.to_owned(),
        drive_type: kind.to_owned(),
        can_be_best: margin >= -A_HAIR,
        margin,
        overtakes_when: if first {
            Vec::new()
        } else {
            single(field, &rivals, list)
        },
        least_change: if first {
            Vec::new()
        } else {
            least(field, &rivals, list)
        },
    }
}

/// Each worth that alone would put a kind first.
fn single(
    field: &Contest,
    rivals: &[&Alternative],
    list: &[(&OptionLine, Alternative)],
) -> Vec<OtherWorth> {
    let ours: Vec<&Alternative> = list.iter().map(|(_, this)| this).collect();
    let now = field.worths();
    let one = |(index, (criterion, _)): (usize, &(Criterion, Reward))| {
        let exact = worths::overtaking(&ours, rivals, &now, index)?;
        let worth_now = *now.get(index)?;
        let leads = |worth: f64| {
            let mut then = now.clone();
            if let Some(place) = then.get_mut(index) {
                *place = worth;
            }
            lead(&ours, rivals, &then) >= -A_HAIR
        };
        Some(OtherWorth {
            criterion: criterion.name().into(),
            worth_now,
            worth_then: round_outward(exact, worth_now, leads)?,
        })
    };
    field.criteria.iter().enumerate().filter_map(one).collect()
}

/// By how much the best of some alternatives leads the best rival.
fn lead(ours: &[&Alternative], rivals: &[&Alternative], worths: &[f64]) -> f64 {
    let best = |of: &[&Alternative]| {
        of.iter()
            .map(|this| this.net(worths))
            .fold(f64::NEG_INFINITY, f64::max)
    };
    best(ours) - best(rivals)
}

/// A threshold with as few digits as still overtake, rounded away from the present worth.
fn round_outward(exact: f64, now: f64, leads: impl Fn(f64) -> bool) -> Option<f64> {
    let outward = if exact >= now { 1.0 } else { -1.0 };
    (3..=9)
        .flat_map(|digits| rounded(exact, outward, digits))
        .find(|worth| (worth - exact) * outward >= 0.0 && leads(*worth))
}

/// A worth to so many digits, the nearest and the next further out.
fn rounded(exact: f64, outward: f64, digits: u8) -> [f64; 2] {
    let near = to_digits(exact, digits);
    let decade = libm::floor(libm::log10(exact.abs().max(1e-9)));
    let step = libm::pow(10.0, decade - f64::from(digits) + 1.0);
    [near, near + outward * step].map(|worth| to_digits(worth.max(0.0), digits))
}

/// Worths that change together, with as few digits as still overtake; those that stay are left as they are.
fn all_away(exact: &[f64], now: &[f64], leads: impl Fn(&[f64]) -> bool) -> Option<Vec<f64>> {
    let outward = |then: f64, now: f64| if then >= now { 1.0 } else { -1.0 };
    let candidates = |digits: u8| {
        let pairs: Vec<[f64; 2]> = exact
            .iter()
            .zip(now)
            .map(|(then, now)| {
                if changes(*then, *now) {
                    rounded(*then, outward(*then, *now), digits)
                } else {
                    [*now; 2]
                }
            })
            .collect();
        let near = pairs.iter().map(|[near, _]| *near).collect();
        let further = pairs.iter().map(|[_, further]| *further).collect();
        [near, further]
    };
    (3..=9)
        .flat_map(candidates)
        .find(|worths: &Vec<f64>| leads(worths))
}

/// Whether a worth is other than it was, by more than rounding.
fn changes(then: f64, now: f64) -> bool {
    (then - now).abs() > 1e-9 * now.max(1.0)
}

/// The worths of the least total relative change that puts a kind first; those that stay are left out.
fn least(
    field: &Contest,
    rivals: &[&Alternative],
    list: &[(&OptionLine, Alternative)],
) -> Vec<OtherWorth> {
    let now = field.worths();
    let mut found: Option<(f64, Vec<f64>)> = None;
    for (_, this) in list {
        let ceiling = found.as_ref().map_or(f64::INFINITY, |(sum, _)| *sum);
        found = worths::least_change(this, rivals, &now, ceiling).or(found);
    }
    let Some((_, exact)) = found else {
        return Vec::new();
    };
    let ours: Vec<&Alternative> = list.iter().map(|(_, this)| this).collect();
    let leads = |worths: &[f64]| lead(&ours, rivals, worths) >= -A_HAIR;
    let then = all_away(&exact, &now, leads).unwrap_or(exact);
    let pairs = field.criteria.iter().zip(now.iter().zip(then));
    let changed = pairs.filter(|(_, (now, then))| changes(*then, **now));
    changed
        .map(|((criterion, _), (now, then))| OtherWorth {
            criterion: criterion.name().into(),
            worth_now: *now,
            worth_then: then,
        })
        .collect()
}
