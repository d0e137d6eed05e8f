//! Why a kind of train of one study has no like in the other.

use serde_json::Value;

use super::compare::{Cause, at, number, plain, text};
use crate::quantity::{Kind, parse_as};
use crate::requirements::{CRITERIA, Measure};
use crate::study::{amount, is_loaded};

/// What a train may need of the place and the job, and how that is said where it is not there, now and before.
const NEEDS: &[Need] = &[
    Need {
        of: |option| is(option, "pneumatic") && !has_part(option, "compressors"),
        missing: |asked| lacks(asked, "air"),
        says: [
            "it needs air, and there is none on site",
            "it needs air, and there was none on site",
        ],
    },
    Need {
        of: |option| is(option, "pneumatic") && has_part(option, "compressors"),
        missing: |asked| !lacks(asked, "air"),
        says: [
            "it brings a compressor, and there is air on site",
            "it brings a compressor, and there was air on site",
        ],
    },
    Need {
        of: |option| {
            is(option, "electric_screw")
                || is(option, "hydraulic")
                || has_part(option, "compressors")
        },
        missing: |asked| lacks(asked, "mains"),
        says: [
            "it needs electricity, and there is none on site",
            "it needs electricity, and there was none on site",
        ],
    },
    Need {
        of: |option| is(option, "hand_crank"),
        missing: |asked| lacks(asked, "hand"),
        says: [
            "it needs somebody to crank, and there is nobody",
            "it needs somebody to crank, and there was nobody",
        ],
    },
    Need {
        of: |option| is(option, "hydraulic"),
        missing: |asked| at(asked, &["site", "oil_tolerated"]) == Some(&Value::Bool(false)),
        says: [
            "it works with oil, and none is tolerated",
            "it works with oil, and none was tolerated",
        ],
    },
    Need {
        of: |option| is(option, "pneumatic"),
        missing: |asked| asks(asked, "stops", "anywhere"),
        says: [
            "it stops at its ends, or coarsely on a rod lock, and is to stop anywhere",
            "it stops at its ends, or coarsely on a rod lock, and was to stop anywhere",
        ],
    },
    Need {
        of: |option| option.get("holds_without_power") == Some(&Value::Bool(false)),
        missing: |asked| asks(asked, "power_loss", "hold"),
        says: [
            "it does not hold the load when the power fails, and is to",
            "it does not hold the load when the power fails, and was to",
        ],
    },
];

/// Checks whose limit is a figure of the place: its path, its kind, and how many SI units make one of the check's.
const SUPPLIES: &[(&str, &[&str], Kind, f64)] = &[
    (
        "air_supply.flow",
        &["site", "air", "flow"],
        Kind::Flow,
        1e-3 / 60.0,
    ),
    ("mains.power", &["site", "mains", "power"], Kind::Power, 1.0),
    (
        "compressor.mains",
        &["site", "mains", "power"],
        Kind::Power,
        1.0,
    ),
    (
        "crank.hand_force",
        &["site", "hand", "force"],
        Kind::Force,
        1.0,
    ),
];

/// Something that a train needs.
struct Need {
    /// Whether an option needs it.
    of: fn(&Value) -> bool,
    /// Whether what is asked leaves it out.
    missing: fn(&Value) -> bool,
    /// How that is said of the second study, and of the first.
    says: [&'static str; 2],
}

fn is(option: &Value, family: &str) -> bool {
    option.get("family").and_then(Value::as_str) == Some(family)
}

fn has_part(option: &Value, kind: &str) -> bool {
    let parts = option.get("parts").and_then(Value::as_array);
    parts
        .into_iter()
        .flatten()
        .any(|part| part.get("kind").and_then(Value::as_str) == Some(kind))
}

fn lacks(asked: &Value, supply: &str) -> bool {
    at(asked, &["site", supply]).is_none_or(Value::is_null)
}

fn asks(asked: &Value, field: &str, word: &str) -> bool {
    asked.get(field).and_then(Value::as_str) == Some(word)
}

/// Why an option of one study has no like in the other: what it needs and is not there, a must that it breaks, a check that
/// ruled its family out; else its tightest check, where it stands.
pub(super) fn barred(option: &Value, other: &Value) -> Vec<Cause> {
    let asked = other.get("requirements").unwrap_or(&Value::Null);
    let lacks = NEEDS
        .iter()
        .filter(|need| (need.of)(option) && (need.missing)(asked));
    let mut causes: Vec<Cause> = lacks.map(|need| Cause::Lacks { says: need.says }).collect();
    let looks: [fn(&Value, &Value) -> Vec<Cause>; 4] =
        [supplies, musts, ruled_out, |option, _| tightest(option)];
    for look in looks {
        if causes.is_empty() {
            causes = look(option, other);
        }
    }
    causes
}

/// Supplies of the other study that an option is not content with.
fn supplies(option: &Value, other: &Value) -> Vec<Cause> {
    let asked = other.get("requirements").unwrap_or(&Value::Null);
    let checks = option.get("checks").and_then(Value::as_array);
    let short = checks.into_iter().flatten().filter_map(|check| {
        let id = text(check, &["id"])?;
        let (_, path, kind, unit) = SUPPLIES.iter().find(|(of, ..)| *of == id)?;
        let there = parse_as(at(asked, path)?.as_str()?, *kind).ok()? / unit;
        let needs = number(check, &["demand"])? * number(check, &["factor"])?;
        let of = text(check, &["unit"])?;
        (needs > there * (1.0 + 1e-6)).then(|| Cause::Check {
            id,
            by: format!(
                "needs {}, {} is the most",
                amount(needs, &of),
                amount(there, &of)
            ),
        })
    });
    short.collect()
}

/// The checks that ruled the family out with its assist.
fn ruled_out(option: &Value, other: &Value) -> Vec<Cause> {
    let of = |key: &str| text(option, &[key]);
    let lines = other.get("ruled_out").and_then(Value::as_array);
    let line = lines.into_iter().flatten().find(|line| {
        text(line, &["family"]) == of("family") && text(line, &["assist"]) == of("assist")
    });
    let fails = line
        .and_then(|line| line.get("fails"))
        .and_then(Value::as_array);
    fails
        .into_iter()
        .flatten()
        .filter_map(|fail| {
            Some(Cause::Check {
                id: text(fail, &["check"])?,
                by: text(fail, &["by"])?,
            })
        })
        .collect()
}

/// Musts of another study that an option does not meet.
fn musts(option: &Value, other: &Value) -> Vec<Cause> {
    let wants = at(other, &["requirements", "wants"]).and_then(Value::as_object);
    let broken = wants.into_iter().flatten().filter_map(|(name, want)| {
        let row = CRITERIA.iter().find(|row| row.name() == name)?;
        let reaches = number(option, &["criteria", name, "raw"])?;
        let must = want.get("must")?;
        let limit = match row.measure {
            Measure::Quantity(kind) => parse_as(must.as_str()?, kind).ok()?,
            Measure::Number => must.as_f64()?,
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
        .filter(|check| check.get("says").is_none())
        .filter(|check| text(check, &["id"]).is_some_and(|id| is_loaded(&id)));
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
