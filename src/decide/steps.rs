//! The requirements whose price is asked, and the steps by which each is relaxed and tightened.

use crate::quantity::{Kind, Si, exact, in_words, show};
use crate::requirements::{
    CRITERIA, Criterion, CriterionRow, Measure, Motion, PowerLoss, ProcessPoint, Requirements,
    Stops, Want,
};
use crate::study::OptionLine;

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
    lines.extend(load(job));
    lines.extend(process(job));
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
        words: row.name().replace('_', " "),
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
        words: row.name().replace('_', " "),
        unit: if row.unit.starts_with("money") {
            ""
        } else {
            row.unit
        },
        steps,
        nested: Some(row.criterion),
    })
}

/// The greatest load; the least goes down with it where it must.
fn load(job: &Requirements) -> Option<Line> {
    let Motion::Slide(slide) = &job.motion else {
        return None;
    };
    let (least, most) = (slide.load.least.si(), slide.load.most.si());
    let step = |part: &f64| {
        let value = in_words(Kind::Mass, most * part);
        let asked = part.to_bits() == 1.0_f64.to_bits();
        let mut changes = vec![("motion.load.most".into(), value.clone())];
        if most * part <= least {
            changes.push(("motion.load.least".into(), value.clone()));
        }
        Step {
            value,
            size: Some(most * part),
            asked,
            changes: if asked { Vec::new() } else { changes },
        }
    };
    Some(Line {
        field: "motion.load.most".into(),
        words: "greatest load".into(),
        unit: "kg",
        steps: PARTS.iter().map(step).collect(),
        nested: None,
    })
}

/// The force of the process, all of it together.
fn process(job: &Requirements) -> Option<Line> {
    let Motion::Slide(slide) = &job.motion else {
        return None;
    };
    let forces = |point: &ProcessPoint| [point.out, point.back, point.hold].map(Si::si);
    let sizes = slide.process.iter().flat_map(forces).map(f64::abs);
    let most = sizes.fold(0.0, f64::max);
    let point = |point: &ProcessPoint, part: f64| {
        let [out, back, hold] = forces(point).map(|force| format!("{} N", exact(force * part)));
        let at = format!("{} m", exact(point.at.si()));
        serde_json::json!({ "at": at, "out": out, "back": back, "hold": hold })
    };
    let step = |part: &f64| {
        let asked = part.to_bits() == 1.0_f64.to_bits();
        let points: Vec<_> = slide.process.iter().map(|p| point(p, *part)).collect();
        let field = String::from("motion.process");
        Step {
            value: in_words(Kind::Force, most * part),
            size: Some(most * part),
            asked,
            changes: if asked {
                Vec::new()
            } else {
                vec![(field, serde_json::Value::from(points).to_string())]
            },
        }
    };
    (most > 0.0).then(|| Line {
        field: "motion.process".into(),
        words: "force of the process".into(),
        unit: "N",
        steps: PARTS.iter().map(step).collect(),
        nested: None,
    })
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
