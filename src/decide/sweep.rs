//! The requirements whose price is asked, and the steps by which each is relaxed and tightened.

use serde_json::json;

use super::change::{
    DEFLECTION, LOAD, POWER_LOSS, RADIUS, STOPS, hinge, limit_to, load, load_changes, nearer,
    power_loss, resized, stops,
};
use crate::quantity::{Kind, Si, exact, in_words};
use crate::requirements::{CRITERIA, Criterion, CriterionRow, Goal, Measure, Requirements};
use crate::study::{Change, OptionLine, on_series};

/// Parts of what is asked: half to double in steps of the R5 series (ISO 3), and the step nearest to it.
const PARTS: [f64; 7] = [0.5, 0.63, 0.8, 1.0, 1.25, 1.6, 2.0];
/// Steps of a sound level, dB.
const LEVELS_DB: [f64; 7] = [-10.0, -6.0, -3.0, 0.0, 3.0, 6.0, 10.0];
/// Limits tried below what the first option reaches, as parts of it, and as levels below it, dB.
const BELOW: [f64; 6] = [0.5, 0.63, 0.8, 0.9, 0.95, 0.99];
const QUIETER_DB: [f64; 6] = [-10.0, -6.0, -3.0, -2.0, -1.0, -0.5];
/// What a file asks that has no limit.
const NO_LIMIT: &str = "no limit";
/// Limits that are tried where the file has none: their limit is set below what the first option reaches.
const UNASKED: [Criterion; 6] = [
    Criterion::Purchase,
    Criterion::PositionError,
    Criterion::AddedMass,
    Criterion::ClosedLength,
    Criterion::Noise,
    Criterion::MaintenanceHours,
];

/// A requirement with its steps, in the order of their values.
#[derive(Debug, Clone, PartialEq)]
pub struct Sweep {
    /// Path of the field.
    pub field: String,
    /// What people call it.
    pub words: String,
    /// Unit of its sizes; empty for words and for money, which has no price.
    pub unit: &'static str,
    /// The steps.
    pub steps: Vec<SweepStep>,
    /// The criterion whose limit it is, where options of a tighter step are those of a looser one that meet it.
    pub nested: Option<Criterion>,
}

/// One step.
#[derive(Debug, Clone, PartialEq)]
pub struct SweepStep {
    /// The value, as in a file.
    pub value: String,
    /// Its size, in SI or as a plain number; none for words.
    pub size: Option<f64>,
    /// The fields changed for it; none where the file asks just that.
    pub changes: Vec<Change>,
}

impl SweepStep {
    /// Whether the file asks just that.
    pub fn is_asked(&self) -> bool {
        self.changes.is_empty()
    }
}

/// Every requirement whose price is asked.
pub fn sweeps(job: &Requirements, first: Option<&OptionLine>) -> Vec<Sweep> {
    let most = load(job).most.si();
    let heavier = |part| Some(load_changes(job, part));
    let mut sweeps = vec![size_sweep(
        LOAD,
        "greatest load",
        (Kind::Mass, most),
        heavier,
    )];
    sweeps.extend(radius(job));
    sweeps.extend(process(job));
    sweeps.extend(deflection(job));
    sweeps.push(choice("stops", "stops", &STOPS, stops(job)));
    let fails = "when the power fails";
    sweeps.push(choice("power_loss", fails, &POWER_LOSS, power_loss(job)));
    for row in CRITERIA {
        match job.goals.get(&row.criterion) {
            Some(goal) => sweeps.push(stated(row, goal)),
            None if UNASKED.contains(&row.criterion) => {
                let reached = first.and_then(|first| first.criteria.get(row.name()));
                sweeps.extend(reached.and_then(|reached| unstated(row, reached.raw)));
            }
            None => {}
        }
    }
    sweeps
}

/// What people call a goal; hours without a name of their unit are nobody's.
fn called(row: &CriterionRow) -> String {
    let name = row.name().replace('_', " ");
    match row.criterion {
        Criterion::MaintenanceHours => format!("{name} a year"),
        _ => name,
    }
}

/// Sizes about the one asked, smallest first.
fn sizes_about(row: &CriterionRow, size: f64) -> Vec<f64> {
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
        // Times that drives are designed for anyway: what a tight one lets in is there under a looser one.
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

/// A limit that the file has. Where it passes the target there is no line between them left to reward in the file; the worth of
/// the first file counts all the same.
fn stated(row: &CriterionRow, goal: &Goal) -> Sweep {
    let passes = |size: f64| {
        goal.reward
            .is_some_and(|reward| (size - reward.target) * (goal.limit - reward.target) <= 0.0)
    };
    let step = |size: f64| {
        let mut changes = Vec::new();
        if size.to_bits() != goal.limit.to_bits() {
            changes.push(limit_to(row, goal.limit, size));
            if passes(size) {
                let gone = ["target", "worth", "sure"];
                changes.extend(gone.map(|key| Change::without(format!("{}.{key}", row.path))));
            }
        }
        SweepStep {
            value: row.measure.words(size),
            size: Some(size),
            changes,
        }
    };
    let steps = sizes_about(row, goal.limit).into_iter().map(step).collect();
    let own_trains = matches!(row.criterion, Criterion::TravelTime | Criterion::Life);
    let nested = (!own_trains).then_some(row.criterion);
    of_must(row, steps, nested)
}

/// A limit that the file has not: limits below what the first option reaches.
fn unstated(row: &CriterionRow, reached: f64) -> Option<Sweep> {
    let sizes: Vec<f64> = if row.measure == Measure::Quantity(Kind::Noise) {
        QUIETER_DB.iter().map(|apart| reached + apart).collect()
    } else {
        BELOW.iter().map(|part| reached * part).collect()
    };
    if sizes.iter().any(|size| *size <= 0.0) {
        return None;
    }
    let limit = |size: f64| {
        let value = row.measure.words(size);
        SweepStep {
            changes: vec![Change::new(row.limit(), NO_LIMIT, &value)],
            value,
            size: Some(size),
        }
    };
    let mut steps: Vec<SweepStep> = sizes.into_iter().map(limit).collect();
    steps.push(SweepStep {
        value: NO_LIMIT.into(),
        size: None,
        changes: Vec::new(),
    });
    Some(of_must(row, steps, Some(row.criterion)))
}

fn of_must(row: &CriterionRow, steps: Vec<SweepStep>, nested: Option<Criterion>) -> Sweep {
    let is_money = row.unit.starts_with("money");
    Sweep {
        field: row.limit(),
        words: called(row),
        unit: if is_money { "" } else { row.unit },
        steps,
        nested,
    }
}

/// A size about the one asked, in parts of it, each with the fields changed for it.
fn size_sweep(
    field: &str,
    words: &str,
    (kind, asked): (Kind, f64),
    changes: impl Fn(f64) -> Option<Vec<Change>>,
) -> Sweep {
    let step = |part: &f64| {
        let apart = part.to_bits() != 1.0_f64.to_bits();
        SweepStep {
            value: in_words(kind, asked * part),
            size: Some(asked * part),
            changes: changes(*part).filter(|_| apart).unwrap_or_default(),
        }
    };
    let unit = match kind {
        Kind::Mass => "kg",
        Kind::Force => "N",
        Kind::Torque => "N m",
        _ => "m",
    };
    Sweep {
        field: field.into(),
        words: words.into(),
        unit,
        steps: PARTS.iter().map(step).collect(),
        nested: None,
    }
}

/// How far a hinged load's centre of mass is from the hinge.
fn radius(job: &Requirements) -> Option<Sweep> {
    let radius_m = hinge(job)?.radius.si();
    let words = "centre of mass from the hinge";
    let further = |part| nearer(job, part);
    Some(size_sweep(RADIUS, words, (Kind::Length, radius_m), further))
}

/// How far the arm under the load may bend.
fn deflection(job: &Requirements) -> Option<Sweep> {
    let limit_m = job.structure?.deflection_limit?.si();
    let further = |part| {
        let change = resized(DEFLECTION, Kind::Length, limit_m, limit_m * part);
        Some(vec![change])
    };
    let words = "deflection of the arm";
    Some(size_sweep(
        DEFLECTION,
        words,
        (Kind::Length, limit_m),
        further,
    ))
}

/// The force of the process, or its torque, all of it together.
fn process(job: &Requirements) -> Option<Sweep> {
    let curves = job.motion.kind().process();
    let (unit, words) = match curves.kind {
        Kind::Torque => ("N m", "torque of the process"),
        _ => ("N", "force of the process"),
    };
    let sizes = curves.points.iter().flat_map(|(_, sizes)| *sizes);
    let most = sizes.fold(0.0, |most: f64, size| most.max(size.abs()));
    let changes = |part: f64| {
        let point = |(at, sizes): &(f64, [f64; 3])| {
            let at = format!("{} {}", exact(*at), curves.place_unit);
            let [out, back, hold] = sizes.map(|size| format!("{} {unit}", exact(size * part)));
            json!({ "at": at, "out": out, "back": back, "hold": hold })
        };
        let points: Vec<_> = curves.points.iter().map(point).collect();
        Some(vec![Change::set("motion.process", points)])
    };
    (most > 0.0).then(|| size_sweep("motion.process", words, (curves.kind, most), changes))
}

fn choice(field: &str, words: &str, all: &[&str], asked: usize) -> Sweep {
    let step = |(index, value): (usize, &&str)| {
        let change = || Change::new(field, all[asked], *value);
        SweepStep {
            value: (*value).into(),
            size: None,
            changes: (index != asked).then(change).into_iter().collect(),
        }
    };
    Sweep {
        field: field.into(),
        words: words.into(),
        unit: "",
        steps: all.iter().enumerate().map(step).collect(),
        nested: None,
    }
}
