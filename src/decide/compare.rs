//! Two studies compared with each other: what changed in what was asked, how the ranking moved, and what moved it.

use serde_json::Value;

use super::gone::barred;
use crate::quantity::brief;
use crate::requirements::Criterion;
use crate::study::{CriterionLine, OptionLine, RankedJob, Study, best_of_kinds};

/// What two studies differ in.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// Names and digests of the catalogs, where they differ.
    pub catalogs: Option<[String; 2]>,
    /// Currency of the second, which money is in.
    pub currency: String,
    /// Fields of the requirements: path, before, after.
    pub changes: Vec<FieldChange>,
    /// Rewarded goals whose line of value runs elsewhere now.
    pub rescaled: Vec<Rescaled>,
    /// Drive type that is first before and after; none where no option meets the limits.
    pub leads: [Option<String>; 2],
    /// Drive types that moved, in the order of the second ranking, then those that are gone.
    pub moves: Vec<Move>,
    /// How many kinds stayed where they were, with the same net value to the nearest unit of money.
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

/// A goal that is rewarded along another line of value than before.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rescaled {
    /// Name of the criterion.
    pub name: String,
    /// Where nothing is gained on it now, and where all of its worth, as the file has them.
    pub line: [String; 2],
    /// What it is worth now, as the file has it.
    pub worth: String,
}

/// A drive type that moved.
#[derive(Debug, Clone, PartialEq)]
pub struct Move {
    /// The kind.
    pub drive_type: String,
    /// Place and net value of its best option before.
    pub before: Option<(usize, f64)>,
    /// Place and net value of its best option after.
    pub after: Option<(usize, f64)>,
    /// What moved it.
    pub causes: Vec<Cause>,
}

/// What moved a drive type.
#[derive(Debug, Clone, PartialEq)]
pub enum Cause {
    /// A part of its net value changed: the criterion, its number before and after with the unit, and money gained.
    Criterion {
        /// Name of the criterion.
        name: String,
        /// Before.
        before: f64,
        /// After.
        after: f64,
        /// Unit of both.
        unit: String,
        /// Change of net value by it.
        gain: f64,
    },
    /// The best option reaches this and the other study's limit is that: it is out there.
    Limit {
        /// Name of the criterion.
        name: String,
        /// What the option reaches.
        reaches: f64,
        /// What the other study asks, as its file has it.
        limit: String,
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

/// Net value changes below this are rounding.
const A_CENT: f64 = 0.01;
/// Net value changes below this print as no change.
const NOTHING: f64 = 0.5;

/// Holds two studies against each other.
pub fn compare(before: &RankedJob, after: &RankedJob) -> Comparison {
    let (old, new) = (kinds(&before.study), kinds(&after.study));
    let place = |kinds: &[&OptionLine], drive_type: &str| {
        let place = kinds
            .iter()
            .position(|option| option.drive_type == drive_type)?;
        Some((place + 1, kinds.get(place)?.net_value))
    };
    let line = |option: &OptionLine, causes| Move {
        drive_type: option.drive_type.clone(),
        before: place(&old, &option.drive_type),
        after: place(&new, &option.drive_type),
        causes,
    };
    let there = new.iter().map(|option| {
        let was = old
            .iter()
            .find(|known| known.drive_type == option.drive_type);
        let causes = match was {
            Some(was) => criteria((was, before), (option, after)),
            None => barred(option, before),
        };
        line(option, causes)
    });
    let (same, mut moves): (Vec<Move>, Vec<Move>) = there.partition(stayed);
    let gone = old
        .iter()
        .filter(|option| place(&new, &option.drive_type).is_none());
    moves.extend(gone.map(|option| line(option, barred(option, after))));
    let documents = [before, after].map(|side| Some(&side.study.requirements));
    let mut changes = Vec::new();
    differ("", documents, &mut changes);
    Comparison {
        catalogs: catalogs(&before.study, &after.study),
        currency: after.job.currency.clone(),
        changes,
        rescaled: rescaled(before, after),
        leads: [&old, &new].map(|kinds| kinds.first().map(|option| option.drive_type.clone())),
        moves,
        unmoved: same.len(),
    }
}

/// The best option of each drive type.
fn kinds(study: &Study) -> Vec<&OptionLine> {
    best_of_kinds(&study.options).collect()
}

/// Whether a kind is where it was, with the same net value to the nearest unit of money.
fn stayed(moved: &Move) -> bool {
    let both = moved.before.zip(moved.after);
    both.is_some_and(|((was, worth), (is, then))| was == is && (worth - then).abs() < NOTHING)
}

/// Goals rewarded in both whose limit or target is another.
fn rescaled(before: &RankedJob, after: &RankedJob) -> Vec<Rescaled> {
    let goals = |side: &RankedJob, criterion| side.job.goals.get(criterion)?.reward;
    let rewarded = after.job.goals.keys();
    let rewarded = rewarded.filter(|key| goals(before, key).and(goals(after, key)).is_some());
    let line =
        |side, criterion: Criterion| ["limit", "target"].map(|end| goal_text(side, criterion, end));
    let lines = rewarded.filter_map(|criterion| {
        let is = line(after, *criterion);
        (line(before, *criterion) != is).then(|| Rescaled {
            name: criterion.name().into(),
            line: is,
            worth: goal_text(after, *criterion, "worth"),
        })
    });
    lines.collect()
}

/// What a study's file says of a goal.
pub(super) fn goal_text(side: &RankedJob, criterion: Criterion, key: &str) -> String {
    let document = &side.study.requirements;
    let path = ["goals", criterion.name(), key];
    let found = path.iter().try_fold(document, |value, key| value.get(key));
    found.map(plain).unwrap_or_default()
}

fn catalogs(before: &Study, after: &Study) -> Option<[String; 2]> {
    let name = |study: &Study| format!("{} {}", study.catalog.name, study.catalog.digest);
    let both = [name(before), name(after)];
    (both[0] != both[1]).then_some(both)
}

/// Every leaf that differs, in the order of the format.
fn differ(path: &str, both: [Option<&Value>; 2], into: &mut Vec<FieldChange>) {
    if both.iter().flatten().any(|value| value.is_object()) {
        let fields = both.map(|value| value.and_then(Value::as_object));
        let [was, is] = fields.map(|fields| fields.into_iter().flatten().map(|(key, _)| key));
        let new = is.filter(|key| fields[0].is_none_or(|was| !was.contains_key(*key)));
        for key in was.chain(new) {
            let inner = if path.is_empty() {
                key.clone()
            } else {
                format!("{path}.{key}")
            };
            let of = fields.map(|fields| fields.and_then(|fields| fields.get(key)));
            differ(&inner, of, into);
        }
        return;
    }
    if let [Some(Value::Array(was)), Some(Value::Array(is))] = both
        && was.len() == is.len()
        && is.iter().any(Value::is_object)
    {
        for (index, (was, is)) in was.iter().zip(is).enumerate() {
            differ(&format!("{path}[{index}]"), [Some(was), Some(is)], into);
        }
        return;
    }
    let [before, after] = both;
    if before != after {
        let [before, after] = both.map(|value| value.map(plain));
        let field = path.to_owned();
        into.push(FieldChange {
            field,
            before,
            after,
        });
    }
}

/// A leaf as people read it: a text without its quotes, a number to four digits, a list without its brackets.
fn plain(value: &Value) -> String {
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

/// The parts of net value that changed, the largest first.
fn criteria(
    (old, before): (&OptionLine, &RankedJob),
    (new, after): (&OptionLine, &RankedJob),
) -> Vec<Cause> {
    let years = |side: &RankedJob| side.job.rates.horizon_years;
    let gained = |line: &CriterionLine| line.value.zip(line.worth).map_or(0.0, |(v, w)| v * w);
    let mut causes = Vec::new();
    for (name, is) in &new.criteria {
        let Some(was) = old.criteria.get(name) else {
            continue;
        };
        let gain = match &**name {
            "purchase" => was.raw - is.raw,
            "running_cost" => was.raw * years(before) - is.raw * years(after),
            _ => gained(is) - gained(was),
        };
        if gain.abs() >= A_CENT {
            causes.push(Cause::Criterion {
                name: name.to_string(),
                before: was.raw,
                after: is.raw,
                unit: is.unit.to_string(),
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
