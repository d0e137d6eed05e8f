//! What stopped a family, by how much, and what would let it back in.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::change::Change;
use super::file::Label;
use super::words::{amount, money};
use crate::family::Check;
use crate::requirements::{Criterion, Requirements};

/// A family that offers nothing with an assist.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
pub struct RuledOut {
    /// Family.
    pub family: Label,
    /// Assist.
    pub assist: Label,
    /// What stopped the attempt that came nearest.
    pub fails: Vec<Failing>,
    /// What stopped the nearest attempt with other parts that passes all of those, where there is one.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub otherwise: Vec<Failing>,
    /// What would still stop it after the change that lets others back in which the same stops now, where that was asked for.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub then_fails: Vec<Failing>,
    /// The least change that would let it back in, where that was asked for and is worth saying: with the words of the file
    /// untouched, else with words changed.
    #[serde(flatten, skip_serializing_if = "Option::is_none")]
    pub near_miss: Option<NearMiss>,
    /// Beside a change of numbers alone, the least change that changes words too.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub with_words_changed: Option<NearMiss>,
}

impl RuledOut {
    /// The family and the assist.
    pub fn pair(&self) -> (&str, &str) {
        (&self.family, &self.assist)
    }
}

/// A change of the requirements that lets a family back in, tried.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct NearMiss {
    /// The fields changed.
    pub least_change: Vec<Change>,
    /// The place it would then have among the drive types.
    pub then_rank: usize,
    /// How many drive types there would then be.
    pub then_of: usize,
    /// Its net value then, on the value scale of the file.
    pub then_net_value: f64,
    /// Money to buy, make and fit it then; what the change itself costs is not counted.
    pub then_purchase: f64,
    /// Its net value then less that of what is first now, where anything is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub then_gain: Option<f64>,
    /// The drive in plain words.
    pub then_drive: String,
}

/// A check or must that failed.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
pub struct Failing {
    /// Its id.
    pub check: String,
    /// By how much, in words.
    pub by: String,
    /// Rule of the trade behind it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rule: Option<Label>,
    /// How far it is over: `demand × factor / capacity`.
    pub utilisation: f64,
}

/// A limit of a goal, as a check of the number reached.
pub fn limit_to(criterion: Criterion, raw: f64, limit: f64) -> Check {
    let row = criterion.row();
    let (asked, there) = if row.more_is_better {
        (limit, raw)
    } else {
        (raw, limit)
    };
    Check::new(row.path, asked, there, row.unit)
        .from("no worse than the limit", "the requirements file")
}

/// A family and assist that offer nothing, with the nearest attempt's failing checks, worst first, and those of the nearest
/// attempt with other parts that pass them.
pub fn line(
    job: &Requirements,
    family: &'static str,
    assist: &'static str,
    (fails, otherwise): (&[Check], &[Check]),
) -> RuledOut {
    RuledOut {
        family: family.into(),
        assist: assist.into(),
        fails: worst_first(job, fails),
        otherwise: worst_first(job, otherwise),
        then_fails: Vec::new(),
        near_miss: None,
        with_words_changed: None,
    }
}

pub(super) fn worst_first(job: &Requirements, fails: &[Check]) -> Vec<Failing> {
    let mut fails: Vec<Failing> = fails.iter().map(|check| failing(job, check)).collect();
    fails.sort_by(|p, q| {
        q.utilisation
            .total_cmp(&p.utilisation)
            .then_with(|| p.check.cmp(&q.check))
    });
    fails
}

fn failing(job: &Requirements, check: &Check) -> Failing {
    Failing {
        check: check.id.into(),
        by: shortfall_words(job, check),
        rule: check.rule.map(Label::from),
        utilisation: check.utilisation(),
    }
}

/// By how much a check failed, in words.
fn shortfall_words(job: &Requirements, check: &Check) -> String {
    if let Some(says) = &check.says {
        return says.clone();
    }
    let asked = check.demand * check.factor;
    match check.unit {
        "money" | "money a year" => {
            let each = check.unit.trim_start_matches("money");
            let [asked, most] = [asked, check.capacity].map(money);
            format!("{asked} {}{each} against at most {most}", job.currency)
        }
        unit => {
            // Whose limit it is: what a rule of the trade sets can be set otherwise.
            let limit = check.rule.filter(|rule| sets_limit(job, rule, check));
            let whose = limit.map_or_else(String::new, |rule| format!(" (rules.{rule})"));
            let [needs, most] = [asked, check.capacity].map(|size| amount(size, unit));
            format!("needs {needs}; the limit is {most}{whose}")
        }
    }
}

/// Whether the limit of a check is the number of its rule, and nothing else.
fn sets_limit(job: &Requirements, rule: &str, check: &Check) -> bool {
    let number = job.rules.get(rule);
    number.is_some_and(|number| (number - check.capacity).abs() <= 1e-9 * number.abs())
}
