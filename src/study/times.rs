//! Design times: a fixed series, so that they do not move with the requirement.

use super::judge::ValueScale;
use crate::requirements::{Criterion, Requirements};

/// R10 preferred numbers (ISO 3), one decade.
const R10: [f64; 10] = [1.0, 1.25, 1.6, 2.0, 2.5, 3.15, 4.0, 5.0, 6.3, 8.0];
/// Without a target, how much faster than the limit is looked at.
const FASTER: f64 = 8.0;

/// Travel times to design for, longest first: the limit, the target, and the R10 numbers between. A job that has been changed
/// keeps the limit and target of the scale it is judged on: what was good under the tighter limit is there under the looser.
pub fn design_times(job: &Requirements, scale: &ValueScale) -> Vec<f64> {
    let limit = job.travel_time_limit_s;
    let target = |goals: &ValueScale| {
        let goal = goals.get(&Criterion::TravelTime)?;
        Some((goal.limit, goal.reward.map(|reward| reward.target)))
    };
    let own = target(&job.goals).and_then(|(_, target)| target);
    let mut times = between(
        limit,
        own.map_or(limit / FASTER, |target| target.min(limit)),
    );
    let (limit_before, target_before) = target(scale).unzip();
    let before = limit_before.into_iter().chain(target_before.flatten());
    times.extend(before.filter(|time| *time < limit));
    times.sort_by(|p, q| q.total_cmp(p));
    times.dedup_by(|p, q| (*p - *q).abs() <= 1e-9 * *q);
    times
}

/// The time of the series nearest to a time, by their ratio.
pub fn on_series(time_s: f64) -> f64 {
    let apart = |time: &f64| libm::log(time / time_s).abs();
    let near = series(time_s / 2.0, time_s * 2.0).into_iter();
    near.min_by(|p, q| apart(p).total_cmp(&apart(q)))
        .unwrap_or(time_s)
}

/// The series over whole decades, longest first.
#[allow(
    clippy::cast_possible_truncation,
    reason = "decades of times in seconds are few"
)]
fn series(least: f64, most: f64) -> Vec<f64> {
    let decade = |time: f64| libm::floor(libm::log10(time)) as i32;
    let mut times = Vec::new();
    for power in (decade(least)..=decade(most)).rev() {
        for number in R10.iter().rev() {
            // Read as text: 6.3e-1 is the same number on every machine, 6.3 × 10⁻¹ need not be.
            times.push(format!("{number}e{power}").parse().unwrap_or(most));
        }
    }
    times
}

fn between(most: f64, least: f64) -> Vec<f64> {
    let mut times = vec![most];
    let within = |time: &f64| *time < most * (1.0 - 1e-9) && *time > least * (1.0 + 1e-9);
    times.extend(series(least, most).into_iter().filter(within));
    if least < most {
        times.push(least);
    }
    times
}

#[cfg(test)]
#[path = "../../tests/unit/study/times.rs"]
mod tests;
