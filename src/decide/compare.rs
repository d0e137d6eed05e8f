//! Two studies held against each other: what changed in what was asked, how the ranking moved, and what moved it.
//!
//! Works on studies as files hold them, so that one made last year with another catalog can be compared as well.

use serde_json::Value;

use super::gone::barred;
use crate::quantity::brief;

/// What two studies differ in.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// Names and digests of the catalogs, where they differ.
    pub catalogs: Option<[String; 2]>,
    /// Currency of the second, which money is in.
    pub currency: String,
    /// Fields of the requirements: path, before, after.
    pub changes: Vec<FieldChange>,
    /// Rewarded wants whose line of value runs elsewhere now.
    pub rescaled: Vec<Rescaled>,
    /// Kind of train that is first before and after; none where no option meets the musts.
    pub leads: [Option<String>; 2],
    /// Kinds of train that moved, in the order of the second ranking, then those that are gone.
    pub moves: Vec<Move>,
    /// How many kinds stayed where they were, with the same net worth to the nearest unit of money.
    pub unmoved: usize,
}

/// A field of the requirements that differs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FieldChange {
    /// Its path.
    pub field: String,
    /// Before; none where it was not there.
    pub before: Option<String>,
    /// After; none where it is not there.
    pub after: Option<String>,
}

/// A want that is rewarded along another line of value than before.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rescaled {
    /// Name of the criterion.
    pub name: String,
    /// Where nothing is gained on it now, and where all of its worth, as the file has them.
    pub line: [String; 2],
    /// What it is worth now, as the file has it.
    pub worth: String,
}

/// A kind of train that moved.
#[derive(Debug, Clone, PartialEq)]
pub struct Move {
    /// The kind.
    pub train: String,
    /// Place and net worth of its best option before.
    pub before: Option<(usize, f64)>,
    /// Place and net worth of its best option after.
    pub after: Option<(usize, f64)>,
    /// What moved it.
    pub causes: Vec<Cause>,
}

/// What moved a kind of train.
#[derive(Debug, Clone, PartialEq)]
pub enum Cause {
    /// A part of its net worth changed: the criterion, its number before and after with the unit, and money gained.
    Criterion {
        /// Name of the criterion.
        name: String,
        /// Before.
        before: f64,
        /// After.
        after: f64,
        /// Unit of both.
        unit: String,
        /// Change of net worth by it.
        gain: f64,
    },
    /// The best option reaches this and the other study's must is that: it is out there.
    Must {
        /// Name of the criterion.
        name: String,
        /// What the option reaches.
        reaches: f64,
        /// What the other study asks, as its file has it.
        must: String,
        /// Unit of what it reaches.
        unit: String,
    },
    /// It needs what the other study has not: how that is said of the second study, and of the first.
    Lacks {
        /// Both sentences.
        says: [&'static str; 2],
    },
    /// A check failed, as the study that rules the family out has it.
    Check {
        /// Id of the check.
        id: String,
        /// By how much, in words.
        by: String,
    },
    /// Nothing of that in the files: the tightest check where it stood.
    Tightest {
        /// Id of the check.
        id: String,
        /// Its utilisation.
        utilisation: f64,
    },
}

/// Net worth changes below this are rounding.
const A_CENT: f64 = 0.01;
/// Net worth changes below this print as no change.
const NOTHING: f64 = 0.5;

/// Holds two studies against each other.
#[must_use]
pub fn compare(before: &Value, after: &Value) -> Comparison {
    let mut changes = Vec::new();
    differ(
        "",
        before.get("requirements"),
        after.get("requirements"),
        &mut changes,
    );
    let (old, new) = (kinds(before), kinds(after));
    let mut moves = Vec::new();
    let mut unmoved = 0;
    for (train, place, option) in &new {
        let was = old.iter().find(|(known, _, _)| known == train);
        let causes = match was {
            Some((_, _, known)) => criteria(known, before, option, after),
            None => barred(option, before),
        };
        let line = Move {
            train: (*train).to_owned(),
            before: was.map(|(_, place, known)| (*place, net(known))),
            after: Some((*place, net(option))),
            causes,
        };
        let same = line.before.is_some_and(|(place, worth)| {
            line.after
                .is_some_and(|(now, then)| now == place && (worth - then).abs() < NOTHING)
        });
        if same {
            unmoved += 1;
        } else {
            moves.push(line);
        }
    }
    for (train, place, option) in &old {
        if new.iter().all(|(known, _, _)| known != train) {
            moves.push(Move {
                train: (*train).to_owned(),
                before: Some((*place, net(option))),
                after: None,
                causes: barred(option, after),
            });
        }
    }
    Comparison {
        catalogs: catalogs(before, after),
        currency: text(after, &["requirements", "currency"]).unwrap_or_default(),
        changes,
        rescaled: rescaled(before, after),
        leads: [&old, &new].map(|kinds| kinds.first().map(|(train, ..)| (*train).to_owned())),
        moves,
        unmoved,
    }
}

/// Wants rewarded in both whose must or ideal is another.
fn rescaled(before: &Value, after: &Value) -> Vec<Rescaled> {
    let wants = |study| at(study, &["requirements", "wants"]).and_then(Value::as_object);
    let pairs = wants(after).into_iter().flatten().filter_map(|(name, is)| {
        let was = wants(before)?.get(name)?;
        let ends = |want: &Value| ["must", "ideal"].map(|end| want.get(end).map(plain));
        let ([Some(_), Some(_)], [Some(must), Some(ideal)]) = (ends(was), ends(is)) else {
            return None;
        };
        (ends(was) != ends(is)).then(|| Rescaled {
            name: name.clone(),
            line: [must, ideal],
            worth: is.get("worth").map(plain).unwrap_or_default(),
        })
    });
    pairs.collect()
}

pub(super) fn at<'v>(value: &'v Value, path: &[&str]) -> Option<&'v Value> {
    path.iter().try_fold(value, |value, key| value.get(key))
}

pub(super) fn text(value: &Value, path: &[&str]) -> Option<String> {
    at(value, path)?.as_str().map(str::to_owned)
}

pub(super) fn number(value: &Value, path: &[&str]) -> Option<f64> {
    at(value, path)?.as_f64()
}

fn net(option: &Value) -> f64 {
    number(option, &["net_worth"]).unwrap_or(0.0)
}

fn catalogs(before: &Value, after: &Value) -> Option<[String; 2]> {
    let name = |study: &Value| {
        let part = |key| text(study, &["catalog", key]).unwrap_or_default();
        format!("{} {}", part("name"), part("digest"))
    };
    let both = [name(before), name(after)];
    (both[0] != both[1]).then_some(both)
}

/// The best option of each kind of train with its place among them.
fn kinds(study: &Value) -> Vec<(&str, usize, &Value)> {
    let mut kinds: Vec<(&str, usize, &Value)> = Vec::new();
    let options = study.get("options").and_then(Value::as_array);
    for option in options.into_iter().flatten() {
        let train = option
            .get("train")
            .and_then(Value::as_str)
            .unwrap_or_default();
        if kinds.iter().all(|(known, _, _)| *known != train) {
            kinds.push((train, kinds.len() + 1, option));
        }
    }
    kinds
}

/// Every leaf that differs, in the order of the format.
fn differ(path: &str, before: Option<&Value>, after: Option<&Value>, into: &mut Vec<FieldChange>) {
    let object = |value: Option<&Value>| value.is_some_and(Value::is_object);
    if object(before) || object(after) {
        let keys = |value: Option<&Value>| -> Vec<String> {
            let fields = value.and_then(Value::as_object);
            fields
                .map(|fields| fields.keys().cloned().collect())
                .unwrap_or_default()
        };
        let mut all = keys(before);
        all.extend(
            keys(after)
                .into_iter()
                .filter(|key| !keys(before).contains(key)),
        );
        for key in all {
            let inner = if path.is_empty() {
                key.clone()
            } else {
                format!("{path}.{key}")
            };
            let of = |value: Option<&Value>| value.and_then(|value| value.get(&key)).cloned();
            differ(&inner, of(before).as_ref(), of(after).as_ref(), into);
        }
        return;
    }
    if let (Some(Value::Array(was)), Some(Value::Array(is))) = (before, after)
        && was.len() == is.len()
        && is.iter().any(Value::is_object)
    {
        for (index, (was, is)) in was.iter().zip(is).enumerate() {
            differ(&format!("{path}[{index}]"), Some(was), Some(is), into);
        }
        return;
    }
    if before != after {
        into.push(FieldChange {
            field: path.to_owned(),
            before: before.map(plain),
            after: after.map(plain),
        });
    }
}

/// A leaf as people read it: a text without its quotes, a number to four digits, a list without its brackets.
pub(super) fn plain(value: &Value) -> String {
    let each = |items: &[Value], between: &str| {
        let texts: Vec<String> = items.iter().map(plain).collect();
        texts.join(between)
    };
    match value {
        Value::String(text) => text.clone(),
        Value::Number(number) => number.as_f64().map_or_else(|| number.to_string(), brief),
        Value::Array(items) if items.iter().any(Value::is_object) => each(items, "; "),
        Value::Array(items) => each(items, ", "),
        Value::Object(fields) => {
            let texts = fields
                .iter()
                .map(|(key, value)| format!("{key} {}", plain(value)));
            texts.collect::<Vec<_>>().join(", ")
        }
        other => other.to_string(),
    }
}

/// The parts of net worth that changed, the largest first.
fn criteria(old: &Value, before: &Value, new: &Value, after: &Value) -> Vec<Cause> {
    let years =
        |study: &Value| number(study, &["requirements", "rates", "horizon_years"]).unwrap_or(0.0);
    let mut causes = Vec::new();
    let names = at(new, &["criteria"]).and_then(Value::as_object);
    for name in names.into_iter().flatten().map(|(name, _)| name.as_str()) {
        let of = |option: &Value, key: &str| number(option, &["criteria", name, key]);
        let (Some(was), Some(is)) = (of(old, "raw"), of(new, "raw")) else {
            continue;
        };
        let gained = |option: &Value| {
            of(option, "value")
                .zip(of(option, "worth"))
                .map_or(0.0, |(value, worth)| value * worth)
        };
        let gain = match name {
            "purchase" => was - is,
            "running_cost" => was * years(before) - is * years(after),
            _ => gained(new) - gained(old),
        };
        if gain.abs() >= A_CENT {
            causes.push(Cause::Criterion {
                name: name.to_owned(),
                before: was,
                after: is,
                unit: text(new, &["criteria", name, "unit"]).unwrap_or_default(),
                gain,
            });
        }
    }
    let size = |cause: &Cause| match cause {
        Cause::Criterion { gain, .. } => gain.abs(),
        _ => 0.0,
    };
    causes.sort_by(|p, q| size(q).total_cmp(&size(p)));
    causes
}
