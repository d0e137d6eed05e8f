//! Whether the machine stands with this train: tipping, and sliding on the floor.

use super::{Ask, Check, Train};
use crate::demand::{Demand, Stability};
use crate::quantity::{show, to_digits};
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

/// How far the combined centre of mass wanders, and where it is nearest to tipping.
fn wander(stability: &Stability) -> String {
    format!(
        "The combined centre of mass wanders from {} to {} mm beyond the middle of the base; it is nearest to tipping over its {} edge \
         with the load {} m out, with {} of the restoring moment left.",
        show(stability.centre_least_m * 1000.0),
        show(stability.centre_most_m * 1000.0),
        stability.edge,
        show(stability.worst_position_m),
        show(stability.margin())
    )
}

/// Three digits, rounded up, so that what is named is enough.
pub(super) fn enough(value: f64) -> String {
    let nearest = to_digits(value, 3);
    // A step of the last digit is no more than a hundredth.
    let step = libm::pow(10.0, libm::floor(libm::log10(value.abs())) - 2.0);
    show(if nearest < value {
        nearest + step
    } else {
        nearest
    })
}

/// What is left, and what ballast or base would bring it to the least allowed.
fn mend(stability: &Stability) -> String {
    let mut says = format!(
        "{} of the restoring moment is left over the {} edge with the load {} m out, while the combined centre of mass wanders from {} to {} mm \
         beyond the middle of the base",
        show(stability.margin()),
        stability.edge,
        show(stability.worst_position_m),
        show(stability.centre_least_m * 1000.0),
        show(stability.centre_most_m * 1000.0)
    );
    let mut ways = Vec::new();
    if stability.ballast_kg > 0.0 {
        let middle = enough(stability.ballast_kg);
        ways.push(format!("{middle} kg of ballast at the middle of the base"));
    }
    if let Some(at_end) = stability.ballast_at_end_kg {
        let end = if stability.edge == "out" {
            "back"
        } else {
            "out"
        };
        ways.push(format!("{} kg over its {end} edge", enough(at_end)));
    }
    if let Some(length) = stability.length_needed_m {
        ways.push(format!("a base {} m long", enough(length)));
    }
    if !ways.is_empty() {
        says = format!("{says}; {} would do", ways.join(", or "));
    }
    says
}
