//! Reading the timing and the rates, and whether the strokes fit the cycle.

use std::collections::BTreeMap;

use super::super::{Criterion, Goal, Rates, Timing};
use super::Assumption;
use crate::problem::Problem;
use crate::quantity::{Si, exact, nine_digits, show};
use crate::reading::{Object, Sink};

/// Reads `timing`.
pub(super) fn read(object: Option<Object>) -> Option<Timing> {
    let mut object = object?;
    let rest_out = object.optional("rest_out");
    let rest_back = object.optional("rest_back");
    let cycles_per_hour = object.required("cycles_per_hour");
    let hours_per_day = object.optional("hours_per_day");
    let days_per_year = object.optional("days_per_year");
    let years = object.optional("years");
    object.finish();
    Some(Timing {
        rest_out: rest_out?,
        rest_back: rest_back?,
        cycles_per_hour: cycles_per_hour?,
        hours_per_day: hours_per_day?,
        days_per_year: days_per_year?,
        years: years?,
    })
}

/// Reads `rates`.
pub(super) fn rates(object: Option<Object>) -> Option<Rates> {
    let mut object = object?;
    let electricity_per_kwh = object.optional("electricity_per_kwh");
    let labour_per_hour = object.optional("labour_per_hour");
    let horizon_years = object.optional("horizon_years");
    let per_catalog_unit = object.optional("per_catalog_unit");
    object.finish();
    Some(Rates {
        electricity_per_kwh: electricity_per_kwh?,
        labour_per_hour: labour_per_hour?,
        horizon_years: horizon_years?,
        per_catalog_unit: per_catalog_unit?,
    })
}

/// The longest travel time that the goal and the cycle both accept, s.
///
/// Two strokes and the rests make a cycle. The target must fit it, or with no
/// target the rests alone; a limit that does not fit is tightened to what does.
pub(super) fn fit(
    timing: &Timing,
    goals: &BTreeMap<Criterion, Goal>,
    sink: &Sink,
    assumptions: &mut Vec<Assumption>,
) -> Option<f64> {
    let goal = goals.get(&Criterion::TravelTime)?;
    let cycle_s = timing.cycle_s();
    let rests_s = timing.rest_out.si() + timing.rest_back.si();
    if !cycle_s.is_finite() || cycle_s <= 0.0 {
        // The range of cycles_per_hour says so.
        return None;
    }
    let left_s = (cycle_s - rests_s) / 2.0;
    // Strokes that fill the cycle to the last digit fit it.
    let fits = |time_s: f64| 2.0 * time_s + rests_s <= cycle_s * (1.0 + 1e-9);
    let cycle = format!(
        "a cycle of {} s ({} an hour)",
        show(cycle_s),
        show(timing.cycles_per_hour)
    );
    if left_s <= 0.0 {
        sink.add(
            Problem::at(
                "timing",
                format!(
                    "has rests of {} s, which leave no time to move in {cycle}",
                    show(rests_s)
                ),
            )
            .hint("ask for fewer cycles an hour or shorter rests"),
        );
        return None;
    }
    if let Some(reward) = goal.reward
        && !fits(reward.target)
    {
        sink.add(
            Problem::at(
                "goals.travel_time.target",
                format!(
                    "does not fit: twice {} s and rests of {} s are more than {cycle}",
                    show(reward.target),
                    show(rests_s)
                ),
            )
            .hint(format!(
                "at most {} s fits; or ask for fewer cycles an hour or shorter rests",
                show(left_s)
            )),
        );
        return None;
    }
    if fits(goal.limit) {
        return Some(goal.limit);
    }
    let left_s = nine_digits(left_s);
    assumptions.push(Assumption::new(
        "goals.travel_time.limit",
        format!("{} s", exact(left_s)),
        format!(
            "tightened from {} s to what {cycle} leaves beside rests of {} s; the value scale keeps the original",
            show(goal.limit),
            show(rests_s)
        ),
    ));
    Some(left_s)
}
