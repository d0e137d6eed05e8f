//! The requirements whose price is asked, and the steps by which each is relaxed and tightened.

use super::load;
use crate::quantity::{Kind, Si, exact, in_words, show};
use crate::requirements::{
    CRITERIA, Criterion, CriterionRow, Measure, PowerLoss, Requirements, Stops, Want,
};
use crate::study::{OptionLine, on_series};

/// Parts of what is asked: half to double in steps of the R5 series (ISO 3), and the step nearest to it.
const PARTS: [f64; 7] = [0.5, 0.63, 0.8, 1.0, 1.25, 1.6, 2.0];
/// Steps of a sound level, dB.
const LEVELS_DB: [f64; 7] = [-10.0, -6.0, -3.0, 0.0, 3.0, 6.0, 10.0];
/// Limits tried below what the first option reaches, as parts of it, and as levels below it, dB.
const BELOW: [f64; 6] = [0.5, 0.63, 0.8, 0.9, 0.95, 0.99];
const QUIETER_DB: [f64; 6] = [-10.0, -6.0, -3.0, -2.0, -1.0, -0.5];
/// Musts that are tried where the file has none: their limit is set below what the first option reaches.
const UNASKED: [Criterion; 6] = [
    Criterion::Purchase,
    Criterion::PositionError,
    Criterion::AddedMass,
    Criterion::ClosedLength,
    Criterion::Noise,
    Criterion::UpkeepHours,
];

/// A requirement with its steps, in the order of their values.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Path of the field.
    pub field: String,
    /// What people call it.
    pub words: String,
    /// Unit of its sizes; empty for words and for money, which has no price.
    pub unit: &'static str,
    /// The steps.
    pub steps: Vec<Step>,
    /// The criterion whose must it is, where options of a tighter step are those of a looser one that meet it.
    pub nested: Option<Criterion>,
}

/// One step.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// The value, as in a file.
    pub value: String,
    /// Its size, in SI or as a plain number; none for words.
    pub size: Option<f64>,
    /// Whether the file asks just that.
    pub asked: bool,
    /// What is to be set for it.
    pub changes: Vec<(String, String)>,
}

/// Every requirement whose price is asked.
#[must_use]
pub fn lines(job: &Requirements, first: Option<&OptionLine>) -> Vec<Line> {
    let mut lines = Vec::new();
    lines.push(load(job));
    lines.extend(radius(job));
    lines.extend(process(job));
    lines.extend(deflection(job));
    lines.push(stops(job));
    lines.push(power_loss(job));
    for row in CRITERIA {
        match job.wants.get(&row.criterion) {
            Some(want) => lines.push(stated(row, want)),
            None if UNASKED.contains(&row.criterion) => {
                let reached = first.and_then(|first| first.criteria.get(row.name()));
                lines.extend(reached.and_then(|reached| unstated(row, reached.raw)));
            }
            None => {}
        }
    }
    lines
}

/// What people call a want; hours without a name of their unit are nobody's.
fn called(row: &CriterionRow) -> String {
    let name = row.name().replace('_', " ");
    match row.criterion {
        Criterion::UpkeepHours => format!("{name} a year"),
        _ => name,
    }
}

/// The number as a file holds it.
fn text(row: &CriterionRow, size: f64) -> String {
    match row.measure {
        Measure::Quantity(kind) => in_words(kind, size),
        Measure::Number => show(size),
    }
}

/// Sizes about the one asked, smallest first.
fn about(row: &CriterionRow, size: f64) -> Vec<f64> {
    if row.measure == Measure::Quantity(Kind::Noise) {
        return LEVELS_DB.iter().map(|apart| size + apart).collect();
    }
    let sizes = PARTS.iter().map(|part| size * part);
    if row.unit == "parts" {
        let mut whole: Vec<f64> = sizes.map(f64::round).collect();
        whole.dedup_by(|p, q| p.to_bits() == q.to_bits());
        return whole;
    }
    if row.criterion == Criterion::TravelTime {
        // Times that trains are designed for anyway: what a tight one lets in is there under a looser one.
        let near = |time: f64| {
            if time.to_bits() == size.to_bits() {
                size
            } else {
                on_series(time)
            }
        };
        let mut times: Vec<f64> = sizes.map(near).collect();
        times.dedup_by(|p, q| (*p - *q).abs() <= 1e-9 * *q);
        return times;
    }
    sizes.collect()
}

/// A must that the file has. Where it passes the ideal there is no line between them left to reward in the file; the worth of
/// the first file counts all the same.
fn stated(row: &CriterionRow, want: &Want) -> Line {
    let passes = |size: f64| {
        want.reward
            .is_some_and(|reward| (size - reward.ideal) * (want.must - reward.ideal) <= 0.0)
    };
    let step = |size: f64| {
        let asked = size.to_bits() == want.must.to_bits();
        let value = text(row, size);
        let mut changes = vec![(format!("{}.must", row.path), value.clone())];
        if passes(size) {
            let gone = ["ideal", "worth", "sure"];
            changes.extend(gone.map(|field| (format!("{}.{field}", row.path), "null".into())));
        }
        Step {
            value,
            size: Some(size),
            asked,
            changes: if asked { Vec::new() } else { changes },
        }
    };
    let own_trains = matches!(row.criterion, Criterion::TravelTime | Criterion::Life);
    Line {
        field: format!("{}.must", row.path),
        words: called(row),
        unit: if row.unit.starts_with("money") {
            ""
        } else {
            row.unit
        },
        steps: about(row, want.must).into_iter().map(step).collect(),
        nested: (!own_trains).then_some(row.criterion),
    }
}

/// A must that the file has not: limits below what the first option reaches.
fn unstated(row: &CriterionRow, reached: f64) -> Option<Line> {
    let sizes: Vec<f64> = if row.measure == Measure::Quantity(Kind::Noise) {
        QUIETER_DB.iter().map(|apart| reached + apart).collect()
    } else {
        BELOW.iter().map(|part| reached * part).collect()
    };
    let limit = |size: f64| {
        let value = text(row, size);
        Step {
            changes: vec![(format!("{}.must", row.path), value.clone())],
            value,
            size: Some(size),
            asked: false,
        }
    };
    if sizes.iter().any(|size| *size <= 0.0) {
        return None;
    }
    let mut steps: Vec<Step> = sizes.into_iter().map(limit).collect();
    steps.push(Step {
        value: "no limit".into(),
        size: None,
        asked: true,
        changes: Vec::new(),
    });
    Some(Line {
        field: format!("{}.must", row.path),
        words: called(row),
        unit: if row.unit.starts_with("money") {
            ""
        } else {
            row.unit
        },
        steps,
        nested: Some(row.criterion),
    })
}

/// Steps of a size about the one asked, each with what is to be set for it.
fn scaled(
    kind: Kind,
    asked: f64,
    changes: impl Fn(f64, &str) -> Vec<(String, String)>,
) -> Vec<Step> {
    let step = |part: &f64| {
        let value = in_words(kind, asked * part);
        let as_asked = part.to_bits() == 1.0_f64.to_bits();
        Step {
            changes: if as_asked {
                Vec::new()
            } else {
                changes(*part, &value)
            },
            value,
            size: Some(asked * part),
            asked: as_asked,
        }
    };
    PARTS.iter().map(step).collect()
}

/// A line of such steps.
fn line(field: &str, words: &str, unit: &'static str, steps: Vec<Step>) -> Line {
    Line {
        field: field.into(),
        words: words.into(),
        unit,
        steps,
        nested: None,
    }
}

/// The greatest load; the least goes down with it where it must.
fn load(job: &Requirements) -> Line {
    let most = load::of(job).most.si();
    let steps = scaled(Kind::Mass, most, |part, _| {
        load::sets(&load::scaled(job, part))
    });
    line("motion.load.most", "greatest load", "kg", steps)
}

/// How far a hinged load's centre of mass is from the hinge.
fn radius(job: &Requirements) -> Option<Line> {
    let radius_m = load::hinge(job)?.radius.si();
    let steps = scaled(Kind::Length, radius_m, |part, _| {
        load::nearer(job, part).map_or_else(Vec::new, |changes| load::sets(&changes))
    });
    let words = "centre of mass from the hinge";
    Some(line("motion.centre_of_mass.radius", words, "m", steps))
}

/// How far the arm under the load may bend.
fn deflection(job: &Requirements) -> Option<Line> {
    let limit_m = job.structure?.deflection_must?.si();
    let field = "structure.deflection.must";
    let steps = scaled(Kind::Length, limit_m, |_, value| {
        vec![(field.into(), value.into())]
    });
    Some(line(field, "deflection of the arm", "m", steps))
}

/// The force of the process, or its torque, all of it together.
fn process(job: &Requirements) -> Option<Line> {
    let curves = job.motion.kind().process();
    let sizes = curves.points.iter().flat_map(|(_, sizes)| sizes);
    let most = sizes.fold(0.0, |most: f64, size| most.max(size.abs()));
    let (unit, words) = match curves.kind {
        Kind::Torque => ("N m", "torque of the process"),
        _ => ("N", "force of the process"),
    };
    let steps = scaled(curves.kind, most, |part, _| {
        let point = |(at, sizes): &(f64, [f64; 3])| {
            let [out, back, hold] = sizes.map(|size| format!("{} {unit}", exact(size * part)));
            let at = format!("{} {}", exact(*at), curves.place_unit);
            serde_json::json!({ "at": at, "out": out, "back": back, "hold": hold })
        };
        let points: Vec<_> = curves.points.iter().map(point).collect();
        vec![(
            "motion.process".into(),
            serde_json::Value::from(points).to_string(),
        )]
    });
    (most > 0.0).then(|| line("motion.process", words, unit, steps))
}

fn choice(field: &str, words: &str, of: &[&str], asked: usize) -> Line {
    let step = |(index, value): (usize, &&str)| Step {
        value: (*value).into(),
        size: None,
        asked: index == asked,
        changes: if index == asked {
            Vec::new()
        } else {
            vec![(field.into(), (*value).into())]
        },
    };
    Line {
        field: field.into(),
        words: words.into(),
        unit: "",
        steps: of.iter().enumerate().map(step).collect(),
        nested: None,
    }
}

fn stops(job: &Requirements) -> Line {
    let asked = match job.stops {
        Stops::Ends => 0,
        Stops::Several => 1,
        Stops::Anywhere => 2,
    };
    choice("stops", "stops", &["ends", "several", "anywhere"], asked)
}

fn power_loss(job: &Requirements) -> Line {
    let asked = match job.power_loss {
        PowerLoss::MayMove => 0,
        PowerLoss::Hold => 1,
    };
    let words = "when the power fails";
    choice("power_loss", words, &["may_move", "hold"], asked)
}
