//! What stopped a family, and by how much.

use super::file::{Failing, RuledOut};
use super::words::{amount, money};
use crate::family::Check;
use crate::requirements::{Criterion, Requirements};

/// A must of a want, as a check of the number reached.
#[must_use]
pub fn must(criterion: Criterion, raw: f64, must: f64) -> Check {
    let row = criterion.row();
    let (asked, there) = if row.more_is_better {
        (must, raw)
    } else {
        (raw, must)
    };
    Check::new(row.path, asked, there, row.unit)
        .from("no worse than the must", "the requirements file")
}

/// A family and assist that offer nothing, with the nearest attempt's failing checks, worst first.
#[must_use]
pub fn line(
    job: &Requirements,
    family: &'static str,
    assist: &'static str,
    fails: &[Check],
) -> RuledOut {
    let mut fails: Vec<Failing> = fails.iter().map(|check| failing(job, check)).collect();
    fails.sort_by(|p, q| {
        q.utilisation
            .total_cmp(&p.utilisation)
            .then_with(|| p.check.cmp(&q.check))
    });
    RuledOut {
        family,
        assist,
        fails,
        near_miss: None,
        with_words_changed: None,
    }
}

fn failing(job: &Requirements, check: &Check) -> Failing {
    Failing {
        check: check.id.into(),
        by: by(job, check),
        rule: check.rule,
        utilisation: check.utilisation(),
    }
}

/// By how much a check failed, in words.
fn by(job: &Requirements, check: &Check) -> String {
    if let Some(says) = &check.says {
        return says.clone();
    }
    let asked = check.demand * check.factor;
    match check.unit {
        "money" => format!(
            "{} {} against at most {}",
            money(asked),
            job.currency,
            money(check.capacity)
        ),
        "money a year" => {
            format!(
                "{} {} a year against at most {}",
                money(asked),
                job.currency,
                money(check.capacity)
            )
        }
        unit => format!(
            "needs {}, {} is the most",
            amount(asked, unit),
            amount(check.capacity, unit)
        ),
    }
}
