//! What the answers so far imply, by the study's own demand.

use super::draft::Draft;
use super::question::Question;
use crate::demand::{Assist, Axis, Book, Demand};
use crate::quantity::{G_M_S2, Kind, System, show};
use crate::requirements::Requirements;

/// Forces below this are nothing, N.
const NOTHING_N: f64 = 0.05;
/// Ratios nearer to one than this are called the same.
const SAME: f64 = 0.005;

/// What follows from an answer, one sentence a line; nothing where the load, the travel and the way are not known yet.
#[must_use]
pub fn implies(question: &Question, draft: &Draft, system: System) -> Vec<String> {
    if !question.mechanics
        || !known(
            draft,
            &["motion.travel", "motion.incline", "motion.load.most"],
        )
    {
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
    let asked = book.at(&Assist::None, job.travel_time_must_s);
    let mut lines = vec![at_rest(&asked, system)];
    if known(draft, &["wants.travel_time.must", "timing.cycles_per_hour"]) {
        let half = book.at(&Assist::None, job.travel_time_must_s / 2.0);
        lines.push(in_time(&asked, system));
        lines.push(in_half(&half, system));
        lines.extend(busy(job));
    }
    lines
}

fn known(draft: &Draft, paths: &[&str]) -> bool {
    paths.iter().all(|path| draft.get(path).is_some())
}

fn at_rest(asked: &Demand, system: System) -> String {
    let worst = &asked.worst;
    let force = |newtons| system.words(Kind::Force, newtons);
    if worst.holding_n < NOTHING_N {
        return format!(
            "At rest nothing has to be held; to set it going against friction takes {}.",
            force(worst.static_peak_n)
        );
    }
    // A force in newtons tells little to who weighs in kilograms; pounds tell by themselves.
    let weight = match system {
        System::Metric => {
            let hangs = system.words(Kind::Mass, worst.holding_n / G_M_S2);
            format!(", as {hangs} that hang")
        }
        System::Us => String::new(),
    };
    format!(
        "To hold it at rest takes {}{weight}; to set it going, friction included, {}.",
        force(worst.holding_n),
        force(worst.static_peak_n)
    )
}

fn in_time(asked: &Demand, system: System) -> String {
    let worst = &asked.worst;
    let times = match worst.dynamic_over_static {
        Some(ratio) if (ratio - 1.0).abs() < SAME => ", as at rest".to_owned(),
        Some(ratio) => format!(", {} times that at rest", show(ratio)),
        None => String::new(),
    };
    format!(
        "In {}: at most {} in motion{times}, {} and {}.",
        system.words(Kind::Time, asked.travel_time_s),
        system.words(Kind::Force, worst.dynamic_peak_n),
        system.words(Kind::Speed, worst.peak_speed_m_s),
        system.words(Kind::Power, worst.peak_power_w),
    )
}

fn in_half(half: &Demand, system: System) -> String {
    let worst = &half.worst;
    format!(
        "In half the time, {}: {} in motion, {} and {}.",
        system.words(Kind::Time, half.travel_time_s),
        system.words(Kind::Force, worst.dynamic_peak_n),
        system.words(Kind::Speed, worst.peak_speed_m_s),
        system.words(Kind::Power, worst.peak_power_w),
    )
}

/// How much of each cycle the strokes take, where that is worth a word.
fn busy(job: &Requirements) -> Option<String> {
    let part = 2.0 * job.travel_time_must_s / job.timing.cycle_s();
    (part > 0.1).then(|| {
        format!(
            "Both strokes in that time fill {} % of a cycle.",
            show(100.0 * part)
        )
    })
}

/// What money to think of at a want: what a saved second, an hour or a year comes to at the rates so far.
#[must_use]
pub fn anchor(question: &Question, draft: &Draft) -> Option<String> {
    use crate::requirements::Criterion;
    let criterion = question.want?;
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
        Criterion::UpkeepHours => format!("An hour a year is {}.", over(rates.labour_per_hour)),
        Criterion::RunningCost => format!("10 a year is {}.", over(10.0)),
        _ => format!(
            "To compare: 10 hours of work are {} {}{}.",
            show(10.0 * rates.labour_per_hour),
            job.currency,
            draft
                .number("wants.purchase.must", None)
                .map_or_else(String::new, |budget| {
                    format!(", a tenth of the budget is {}", show(0.1 * budget))
                })
        ),
    })
}
