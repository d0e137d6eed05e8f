//! Two studies held against each other: what changed in what was asked, how the ranking moved, and what moved it.
//!
//! Works on studies as files hold them, so that one made last year with another catalog can be compared as well.

use serde_json::Value;

/// What two studies differ in.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// Names and digests of the catalogs, where they differ.
    pub catalogs: Option<[String; 2]>,
    /// Currency of the second, which money is in.
    pub currency: String,
    /// Fields of the requirements: path, before, after.
    pub changes: Vec<FieldChange>,
    /// Kinds of train that moved, in the order of the second ranking, then those that are gone.
    pub moves: Vec<Move>,
    /// How many kinds stayed where they were, with the same net worth.
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
                .is_some_and(|(now, then)| now == place && (worth - then).abs() < A_CENT)
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
        moves,
        unmoved,
    }
}

fn at<'v>(value: &'v Value, path: &[&str]) -> Option<&'v Value> {
    path.iter().try_fold(value, |value, key| value.get(key))
}

fn text(value: &Value, path: &[&str]) -> Option<String> {
    at(value, path)?.as_str().map(str::to_owned)
}

fn number(value: &Value, path: &[&str]) -> Option<f64> {
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
    if before != after {
        into.push(FieldChange {
            field: path.to_owned(),
            before: before.map(plain),
            after: after.map(plain),
        });
    }
}

/// A leaf as a file holds it, a text without its quotes.
fn plain(value: &Value) -> String {
    value
        .as_str()
        .map_or_else(|| value.to_string(), str::to_owned)
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

/// Why an option of one study has no like in the other.
fn barred(option: &Value, other: &Value) -> Vec<Cause> {
    let broken = musts(option, other);
    if !broken.is_empty() {
        return broken;
    }
    let of = |key: &str| text(option, &[key]);
    let lines = other.get("ruled_out").and_then(Value::as_array);
    let line = lines.into_iter().flatten().find(|line| {
        text(line, &["family"]) == of("family") && text(line, &["assist"]) == of("assist")
    });
    let fails = line
        .and_then(|line| line.get("fails"))
        .and_then(Value::as_array);
    let checks: Vec<Cause> = fails
        .into_iter()
        .flatten()
        .filter_map(|fail| {
            Some(Cause::Check {
                id: text(fail, &["check"])?,
                by: text(fail, &["by"])?,
            })
        })
        .collect();
    if checks.is_empty() {
        tightest(option)
    } else {
        checks
    }
}

/// Musts of another study that an option does not meet.
fn musts(option: &Value, other: &Value) -> Vec<Cause> {
    let wants = at(other, &["requirements", "wants"]).and_then(Value::as_object);
    let broken = wants.into_iter().flatten().filter_map(|(name, want)| {
        let row = crate::requirements::CRITERIA
            .iter()
            .find(|row| row.name() == name)?;
        let reaches = number(option, &["criteria", name, "raw"])?;
        let must = want.get("must")?;
        let limit = match row.measure {
            crate::requirements::Measure::Quantity(kind) => {
                crate::quantity::parse_as(must.as_str()?, kind).ok()?
            }
            crate::requirements::Measure::Number => must.as_f64()?,
        };
        let worse = if row.more_is_better {
            reaches < limit
        } else {
            reaches > limit
        };
        let apart = (reaches - limit).abs() > 1e-6 * limit.abs();
        (worse && apart).then(|| Cause::Must {
            name: name.clone(),
            reaches,
            must: plain(must),
            unit: row.unit.to_owned(),
        })
    });
    broken.collect()
}

fn tightest(option: &Value) -> Vec<Cause> {
    let checks = option.get("checks").and_then(Value::as_array);
    let measured = checks
        .into_iter()
        .flatten()
        .filter(|check| check.get("says").is_none());
    let tightest = measured.max_by(|p, q| {
        let of = |check: &Value| number(check, &["utilisation"]).unwrap_or(0.0);
        of(p).total_cmp(&of(q))
    });
    let cause = tightest.and_then(|check| {
        Some(Cause::Tightest {
            id: text(check, &["id"])?,
            utilisation: number(check, &["utilisation"])?,
        })
    });
    cause.into_iter().collect()
}
