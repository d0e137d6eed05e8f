//! Reading the goals and the changed rules.

use std::collections::BTreeMap;

use super::super::fields::{FieldRange, Holds};
use super::super::{CRITERIA, Criterion, CriterionRow, Goal, Measure, RULES, Reward, Rules};
use super::range::beyond;
use super::{Assumption, choice};
use crate::problem::Problem;
use crate::quantity::{exact, parse_as};
use crate::reading::{MISSING, Object, Sink, Tree, quote};

/// How far a worth may be off, by the words of `sure`.
const SURE: &[(&str, f64)] = &[("little", 1.0), ("fairly", 0.5), ("very", 0.2)];

/// Reads `goals`.
pub(super) fn read(object: Option<Object>, sink: &Sink) -> Option<BTreeMap<Criterion, Goal>> {
    let mut object = object?;
    let mut goals = BTreeMap::new();
    let mut whole = true;
    for row in CRITERIA {
        if object.raw(row.name()).is_none() {
            if row.criterion == Criterion::TravelTime {
                object.fault(row.name(), MISSING);
                whole = false;
            }
            continue;
        }
        match object
            .object(row.name())
            .and_then(|goal| read_want(goal, row, sink))
        {
            Some(goal) => {
                goals.insert(row.criterion, goal);
            }
            None => whole = false,
        }
    }
    object.finish();
    whole.then_some(goals)
}

fn read_want(mut object: Object, row: &CriterionRow, sink: &Sink) -> Option<Goal> {
    let limit = figure(&mut object, "limit", row, sink);
    if object.raw("limit").is_none() {
        object.fault("limit", MISSING);
    }
    if !row.rewardable {
        limit_only(&mut object, row);
        object.finish();
        return Some(Goal {
            limit: limit?,
            reward: None,
        });
    }
    let target = figure(&mut object, "target", row, sink);
    let worth = object.optional::<f64>("worth");
    let given = |object: &mut Object, key| object.raw(key).is_some();
    let (has_target, has_worth) = (given(&mut object, "target"), given(&mut object, "worth"));
    let has_sure = given(&mut object, "sure");
    let unsure = if has_sure {
        choice(&mut object, "sure", sink, SURE)
    } else {
        None
    };
    match (has_target, has_worth) {
        (true, false) => object.fault(
            "worth",
            "is missing; a target needs what reaching it is worth",
        ),
        (false, true) => object.fault(
            "target",
            "is missing; a worth needs the target that it is paid for",
        ),
        (false, false) if has_sure => object.fault("sure", "is given without target and worth"),
        _ => {}
    }
    if let (Some(limit), Some(target)) = (limit, target) {
        let better = if row.more_is_better {
            target > limit
        } else {
            target < limit
        };
        if !better {
            let way = if row.more_is_better { "more" } else { "less" };
            object.fault(
                "target",
                format!("must be better than \"limit\", which here is {way}"),
            );
        }
    }
    object.finish();
    let reward = if has_target || has_worth {
        Some(Reward {
            target: target?,
            worth: worth?,
            unsure: unsure?,
        })
    } else {
        None
    };
    Some(Goal {
        limit: limit?,
        reward,
    })
}

/// Money, and hours that are paid, are not rewarded a second time.
fn limit_only(object: &mut Object, row: &CriterionRow) {
    let has_worth = object.raw("worth").is_some();
    for key in ["target", "worth", "sure"] {
        // Beside a worth, `sure` may be the default; the worth's own fault is enough.
        if object.raw(key).is_some() && !(key == "sure" && has_worth) {
            object.fault(
                key,
                format!(
                    "is not taken: {} has a limit only, it is money already",
                    row.name()
                ),
            );
        }
    }
}

/// A limit or a target, in its SI or plain unit and not below what can be.
fn figure(object: &mut Object, key: &'static str, row: &CriterionRow, sink: &Sink) -> Option<f64> {
    let place = object.path_of(key);
    let tree = object.raw(key)?;
    let quoted = || quote(key, tree);
    let value = match (row.measure, tree) {
        (Measure::Number, _) => object.optional::<f64>(key)?,
        (Measure::Quantity(kind), Tree::Text(text)) => match parse_as(text, kind) {
            Ok(value) => value,
            Err(fault) => {
                sink.add(
                    Problem::at(place, fault.message)
                        .read(quoted())
                        .hint(fault.hint),
                );
                return None;
            }
        },
        (Measure::Quantity(kind), Tree::Number(number)) => {
            let fault = parse_as(&exact(*number), kind).err()?;
            sink.add(
                Problem::at(place, fault.message)
                    .read(quoted())
                    .hint(fault.hint),
            );
            return None;
        }
        (Measure::Quantity(_), other) => {
            sink.add(
                Problem::at(place, format!("is {}, not a quantity", other.kind())).read(quoted()),
            );
            return None;
        }
    };
    if let Some(range) = impossible(row, value) {
        sink.add(Problem::at(place, range).read(quoted()));
        return None;
    }
    Some(value)
}

/// Why a figure cannot be asked for, if so.
fn impossible(row: &CriterionRow, value: f64) -> Option<String> {
    if row.range == FieldRange::Any {
        return (value < 0.0).then(|| "must not be negative".into());
    }
    let (holds, unit) = match row.measure {
        Measure::Quantity(kind) => (Holds::Quantity(kind), String::new()),
        Measure::Number => (Holds::Number, format!(" {}", row.unit)),
    };
    beyond(value, holds, row.range).map(|range| range + &unit)
}

/// Reads `rules`; a changed rule is an assumption.
pub(super) fn rules(object: Option<Object>, assumptions: &mut Vec<Assumption>) -> Rules {
    let mut rules = Rules::default();
    let Some(mut object) = object else {
        return rules;
    };
    for rule in RULES {
        let Some(value) = object.optional::<f64>(rule.key) else {
            continue;
        };
        let in_unit = |value: f64| {
            format!("{} {}", exact(value), rule.unit)
                .trim_end()
                .to_owned()
        };
        if value < rule.least || value > rule.most {
            object.fault(
                rule.key,
                format!("must be {} to {}", exact(rule.least), in_unit(rule.most)),
            );
            continue;
        }
        rules.set(rule.key, value);
        if value.total_cmp(&rule.default).is_ne() {
            assumptions.push(Assumption::new(
                format!("rules.{}", rule.key),
                in_unit(value),
                format!(
                    "{}: the file changes it from {}, common practice",
                    rule.meaning,
                    in_unit(rule.default)
                ),
            ));
        }
    }
    object.finish();
    rules
}
