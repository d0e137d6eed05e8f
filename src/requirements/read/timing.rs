//! Reading the timing and the rates, and whether the strokes fit the cycle.

use std::collections::BTreeMap;

use super::super::{Criterion, Goal, Rates, Timing};
use super::Assumption;
use super::site::whole;
use crate::problem::Problem;
use crate::quantity::{Si, exact, nine_digits, show};
use crate::reading::{Object, Sink};

/// Reads `timing`.
pub(super) fn read(object: Option<Object>) -> Option<Timing> {
    whole(object?, |timing| {
        record!(timing => Timing {
            optional rest_out, rest_back;
            required cycles_per_hour;
            optional hours_per_day, days_per_year, years;
        })
    })
}

/// Reads `rates`.
pub(super) fn rates(object: Option<Object>) -> Option<Rates> {
    whole(object?, |rates| {
        record!(rates => Rates {
            optional electricity_per_kwh, labour_per_hour, horizon_years, per_catalog_unit;
        })
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
        let rests = show(rests_s);
        let message = format!("has rests of {rests} s, which leave no time to move in {cycle}");
        let fault = Problem::at("timing", message);
        sink.add(fault.hint("ask for fewer cycles an hour or shorter rests"));
        return None;
    }
    if let Some(reward) = goal.reward
        && !fits(reward.target)
    {
        let message = format!(
            "does not fit: twice {} s and rests of {} s are more than {cycle}",
            show(reward.target),
            show(rests_s)
        );
        let fault = Problem::at("goals.travel_time.target", message);
        sink.add(fault.hint(format!(
            "at most {} s fits; or ask for fewer cycles an hour or shorter rests",
            show(left_s)
        )));
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
