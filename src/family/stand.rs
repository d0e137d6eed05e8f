//! Whether the machine stands with this train: tipping, and sliding on the floor.

use super::{Ask, Check, Train};
use crate::demand::{Demand, Stability};
use crate::quantity::show;
use crate::requirements::Requirements;

/// A tipping margin less than this above the least allowed is called near.
const NEAR: f64 = 0.1;
/// The least margin that a check divides by, where the rule asks for none.
const NO_MARGIN: f64 = 1e-9;

/// The check of stability of a demand, where there is a base to stand on.
#[must_use]
pub fn tipping(job: &Requirements, demand: &Demand) -> Option<Check> {
    let stability = job.base.and(demand.stability)?;
    let least = job.rules.stability_least;
    let mut check = Check::new("machine.stability", least.max(NO_MARGIN), stability.margin(), "")
        .from(
            "(restoring - overturning)/restoring about the worst edge, least of at rest, in the move and in an emergency stop",
            "moments of a rigid body on a hard floor; limit common practice, no source",
        ).given(&[("margin at rest", ""), ("margin in the move", ""), ("margin in a stop", "")], &[stability.margin_static, stability.margin_dynamic, stability.margin_emergency_stop])
        .rule("stability_least");
    if !check.passes() {
        check.says = Some(mend(&stability));
    }
    Some(check)
}

/// Adds the check of stability and the cautions about tipping and sliding, where there is a base.
pub(super) fn add(ask: &Ask<'_>, train: &mut Train<'_>) {
    let (Some(base), Some(stability)) = (ask.job.base, train.demand.stability) else {
        return;
    };
    let Some(check) = tipping(ask.job, &train.demand) else {
        return;
    };
    let least = ask.job.rules.stability_least;
    if check.passes() && stability.margin() < least + NEAR {
        train.cautions.push(format!(
            "The machine is near tipping over its {} edge with the load {} m out: {} of the restoring moment is left, {} is asked.",
            stability.edge,
            show(stability.worst_position_m),
            show(stability.margin()),
            show(least)
        ));
    }
    train.checks.push(check);
    train.remarks.push(wander(&stability));
    if !base.bolted && stability.sliding_ratio > ask.job.rules.floor_friction {
        train.cautions.push(format!(
            "The machine may slide: it pushes on the floor with {} of its weight, friction bears {}. Bolt it down or move more gently.",
            show(stability.sliding_ratio),
            show(ask.job.rules.floor_friction)
        ));
    }
}

/// How far the combined centre of mass wanders.
fn wander(stability: &Stability) -> String {
    format!(
        "The combined centre of mass wanders from {} to {} mm beyond the middle of the base.",
        show(stability.centre_least_m * 1000.0),
        show(stability.centre_most_m * 1000.0)
    )
}

/// What is left, and what ballast or base would bring it to the least allowed.
fn mend(stability: &Stability) -> String {
    let left = show(stability.margin());
    let base = stability
        .length_needed_m
        .map_or_else(String::new, |length| {
            format!(", or a base {} m long", show(length))
        });
    format!(
        "{left} of the restoring moment is left over the {} edge with the load {} m out; {} kg of ballast at the middle of the base would do{base}",
        stability.edge,
        show(stability.worst_position_m),
        show(stability.ballast_kg)
    )
}
