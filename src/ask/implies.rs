//! What the answers so far imply, by the study's own demand.

use super::draft::Draft;
use super::question::Question;
use crate::demand::{Assist, Axis, Book, Demand};
use crate::quantity::{G_M_S2, Kind, System, show};
use crate::requirements::Requirements;

/// Forces (N) and torques (N m) below this are nothing.
const NOTHING: f64 = 0.05;
/// Ratios nearer to one than this are called the same.
const SAME: f64 = 0.005;
/// Ratios nearer to one than this are not worth a word.
const SMALL: f64 = 0.05;

/// What follows from an answer, one sentence a line; nothing where the load, the travel and the way are not known yet.
pub fn implies(question: &Question, draft: &Draft, system: System) -> Vec<String> {
    let slide = ["motion.travel", "motion.incline", "motion.load.most"];
    let hinge = [
        "motion.from",
        "motion.centre_of_mass.radius",
        "motion.load.most",
    ];
    let needed = if draft.kind() == "hinge" {
        hinge
    } else {
        slide
    };
    if !question.mechanics || !has_all(draft, &needed) {
        return Vec::new();
    }
    let Ok(reading) = draft.reading() else {
        return Vec::new();
    };
    let job = &reading.requirements;
    let Some(axis) = Axis::of(job) else {
        return Vec::new();
    };
    let book = Book::new(job, axis);
    let asked = book.at(&Assist::None, job.travel_time_limit_s);
    let mut lines = vec![at_rest(&asked, system)];
    if has_all(draft, &["motion.anchors"]) {
        lines.extend(pinned(&asked, system));
    }
    if has_all(
        draft,
        &["goals.travel_time.limit", "timing.cycles_per_hour"],
    ) {
        let half = book.at(&Assist::None, job.travel_time_limit_s / 2.0);
        lines.push(in_time(&asked, system));
        lines.push(in_half(&half, system));
        lines.extend(busy(job));
    }
    lines
}

fn has_all(draft: &Draft, paths: &[&str]) -> bool {
    paths.iter().all(|path| draft.get(path).is_some())
}

/// What moving the load takes: forces along a line, torques about a hinge.
struct Moving {
    kind: Kind,
    holding: f64,
    at_rest: f64,
    in_motion: f64,
    /// Motion over rest, where something is asked at rest.
    ratio: Option<f64>,
    speed: String,
}

impl Moving {
    fn of(asked: &Demand, system: System) -> Self {
        let worst = &asked.worst;
        let Some(arm) = &asked.hinge else {
            return Self {
                kind: Kind::Force,
                holding: worst.holding_n,
                at_rest: worst.static_peak_n,
                in_motion: worst.dynamic_peak_n,
                ratio: worst.dynamic_over_static,
                speed: system.words(Kind::Speed, worst.peak_speed_m_s),
            };
        };
        Self {
            kind: Kind::Torque,
            holding: arm.holding_n_m,
            at_rest: arm.static_peak_n_m,
            in_motion: arm.dynamic_peak_n_m,
            ratio: (arm.static_peak_n_m > NOTHING)
                .then(|| arm.dynamic_peak_n_m / arm.static_peak_n_m),
            speed: format!("{} deg/s", show(arm.peak_speed_rad_s.to_degrees())),
        }
    }
}

fn at_rest(asked: &Demand, system: System) -> String {
    let effort = Moving::of(asked, system);
    let words = |amount| system.words(effort.kind, amount);
    if effort.holding < NOTHING {
        return format!(
            "At rest nothing has to be held; to set it going against friction takes {}.",
            words(effort.at_rest)
        );
    }
    // A force in newtons tells little to who weighs in kilograms; pounds tell by themselves.
    let weight = match (system, effort.kind) {
        (System::Metric, Kind::Force) => {
            let hangs = system.words(Kind::Mass, effort.holding / G_M_S2);
            format!(", as {hangs} that hang")
        }
        (_, Kind::Torque) => " about the hinge".into(),
        _ => String::new(),
    };
    format!(
        "To hold it at rest takes {}{weight}; to set it going, friction included, {}.",
        words(effort.holding),
        words(effort.at_rest)
    )
}

/// What the drive gives between its pins, once it is known where they are.
fn pinned(asked: &Demand, system: System) -> Option<String> {
    let (arm, worst) = (asked.hinge.as_ref()?, &asked.worst);
    let length = |metres| system.words(Kind::Length, metres);
    Some(format!(
        "Between its pins, {} to {} apart, the drive gives up to {} at rest and {} in motion; its lever about the hinge \
         goes from {} to {}.",
        length(arm.length_least_m),
        length(arm.length_most_m),
        system.words(Kind::Force, worst.static_peak_n),
        system.words(Kind::Force, worst.dynamic_peak_n),
        length(arm.lever_least_m),
        length(arm.lever_most_m),
    ))
}

fn in_time(asked: &Demand, system: System) -> String {
    let effort = Moving::of(asked, system);
    let times = match effort.ratio {
        Some(ratio) if (ratio - 1.0).abs() < SAME => ", as at rest".to_owned(),
        // A few per cent more are no surprise.
        Some(ratio) if (ratio - 1.0).abs() < SMALL => String::new(),
        Some(ratio) => format!(", {} times that at rest", show(ratio)),
        None => String::new(),
    };
    format!(
        "In {}: at most {} in motion{times}, {} and {}.",
        system.words(Kind::Time, asked.travel_time_s),
        system.words(effort.kind, effort.in_motion),
        effort.speed,
        system.words(Kind::Power, asked.worst.peak_power_w),
    )
}

fn in_half(half: &Demand, system: System) -> String {
    let effort = Moving::of(half, system);
    format!(
        "In half the time, {}: {} in motion, {} and {}.",
        system.words(Kind::Time, half.travel_time_s),
        system.words(effort.kind, effort.in_motion),
        effort.speed,
        system.words(Kind::Power, half.worst.peak_power_w),
    )
}

/// How much of each cycle the strokes take, where that is worth a word.
fn busy(job: &Requirements) -> Option<String> {
    let part = 2.0 * job.travel_time_limit_s / job.timing.cycle_s();
    (part > 0.1).then(|| {
        format!(
            "Both strokes in that time fill {} % of a cycle.",
            show(100.0 * part)
        )
    })
}

/// What money to think of at a goal: what a saved second, an hour or a year comes to at the rates so far.
pub fn anchor(question: &Question, draft: &Draft) -> Option<String> {
    use crate::requirements::Criterion;
    let criterion = question.goal?;
    let job = draft.reading().ok()?.requirements;
    let (rates, timing) = (&job.rates, &job.timing);
    let years = show(rates.horizon_years);
    let over = |a_year: f64| {
        format!(
            "{} {} a year, {} over the {years} years that money is counted over",
            show(a_year),
            job.currency,
            show(a_year * rates.horizon_years)
        )
    };
    let hour = show(rates.labour_per_hour);
    Some(match criterion {
        Criterion::TravelTime => format!(
            "If somebody waits for it, a second saved on every cycle at {hour} an hour is {}.",
            over(timing.cycles_per_year() / 3600.0 * rates.labour_per_hour)
        ),
        Criterion::EnergyPerCycle => format!(
            "One kJ saved on every cycle is {}.",
            over(timing.cycles_per_year() / 3600.0 * rates.electricity_per_kwh)
        ),
        Criterion::MaintenanceHours => {
            format!("An hour a year is {}.", over(rates.labour_per_hour))
        }
        Criterion::RunningCost => format!("10 a year is {}.", over(10.0)),
        _ => format!(
            "To compare: 10 hours of work are {} {}{}.",
            show(10.0 * rates.labour_per_hour),
            job.currency,
            draft
                .number("goals.purchase.limit", None)
                .map_or_else(String::new, |budget| {
                    format!(", a tenth of the budget is {}", show(0.1 * budget))
                })
        ),
    })
}
