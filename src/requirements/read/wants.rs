//! Reading the wants and the changed rules.

use std::collections::BTreeMap;

use super::super::fields::{FieldRange, Holds};
use super::super::{CRITERIA, Criterion, CriterionRow, Measure, RULES, Reward, Rules, Want};
use super::range::beyond;
use super::{Assumption, choice};
use crate::problem::Problem;
use crate::quantity::{Misread, exact, parse_as};
use crate::reading::{MISSING, Object, Sink, Tree, quote};

/// How far a worth may be off, by the words of `sure`.
const SURE: &[(&str, f64)] = &[("little", 1.0), ("fairly", 0.5), ("very", 0.2)];

/// Reads `wants`.
pub(super) fn read(object: Option<Object>, sink: &Sink) -> Option<BTreeMap<Criterion, Want>> {
    let mut object = object?;
    let mut wants = BTreeMap::new();
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
            .and_then(|want| read_want(want, row, sink))
        {
            Some(want) => {
                wants.insert(row.criterion, want);
            }
            None => whole = false,
        }
    }
    object.finish();
    whole.then_some(wants)
}

fn read_want(mut object: Object, row: &CriterionRow, sink: &Sink) -> Option<Want> {
    let must = figure(&mut object, "must", row, sink);
    if object.raw("must").is_none() {
        object.fault("must", MISSING);
    }
    if !row.rewardable {
        must_only(&mut object, row);
        object.finish();
        return Some(Want {
            must: must?,
            reward: None,
        });
    }
    let ideal = figure(&mut object, "ideal", row, sink);
    let worth = object.optional::<f64>("worth");
    let given = |object: &mut Object, key| object.raw(key).is_some();
    let (has_ideal, has_worth) = (given(&mut object, "ideal"), given(&mut object, "worth"));
    let has_sure = given(&mut object, "sure");
    let unsure = if has_sure {
        choice(&mut object, "sure", sink, SURE)
    } else {
        None
    };
    match (has_ideal, has_worth) {
        (true, false) => object.fault(
            "worth",
            "is missing; an ideal needs what reaching it is worth",
        ),
        (false, true) => object.fault(
            "ideal",
            "is missing; a worth needs the ideal that it is paid for",
        ),
        (false, false) if has_sure => object.fault("sure", "is given without ideal and worth"),
        _ => {}
    }
    if let (Some(must), Some(ideal)) = (must, ideal) {
        let better = if row.more_is_better {
            ideal > must
        } else {
            ideal < must
        };
        if !better {
            let way = if row.more_is_better { "more" } else { "less" };
            object.fault(
                "ideal",
                format!("must be better than \"must\", which here is {way}"),
            );
        }
    }
    object.finish();
    let reward = if has_ideal || has_worth {
        Some(Reward {
            ideal: ideal?,
            worth: worth?,
            unsure: unsure?,
        })
    } else {
        None
    };
    Some(Want {
        must: must?,
        reward,
    })
}

/// Money, and hours that are paid, are not rewarded a second time.
fn must_only(object: &mut Object, row: &CriterionRow) {
    let has_worth = object.raw("worth").is_some();
    for key in ["ideal", "worth", "sure"] {
        // Beside a worth, `sure` may be the default; the worth's own fault is enough.
        if object.raw(key).is_some() && !(key == "sure" && has_worth) {
            object.fault(
                key,
                format!(
                    "is not taken: {} has a must only, it is money already",
                    row.name()
                ),
            );
        }
    }
}

/// A must or an ideal, in its SI or plain unit and not below what can be.
fn figure(object: &mut Object, key: &'static str, row: &CriterionRow, sink: &Sink) -> Option<f64> {
    let place = object.path_of(key);
    let tree = object.raw(key)?;
    let quoted = || quote(key, tree);
    let value = match row.measure {
        Measure::Number => object.optional::<f64>(key)?,
        Measure::Quantity(kind) => {
            let text = match tree {
                Tree::Text(text) => text.clone(),
                Tree::Number(number) => exact(*number),
                other => {
                    let message = format!("is {}, not a quantity", other.kind());
                    sink.add(Problem::at(place, message).read(quoted()));
                    return None;
                }
            };
            let misread = |fault: Misread| {
                let problem = Problem::at(&place, fault.message).read(quoted());
                sink.add(problem.hint(fault.hint));
            };
            parse_as(&text, kind).map_err(misread).ok()?
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
        rules.set(rule, value);
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
