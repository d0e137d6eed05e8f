//! Whether the machine stands with this train: tipping, and sliding on the floor.

use crate::demand::{Demand, Stability};
use crate::family::{Ask, Check, Train};
use crate::quantity::{G_M_S2, Kind, enough, in_words, show};
use crate::requirements::{Motion, Requirements};

/// Of a straight way.
const SLIDES: &str = "(restoring - overturning)/restoring about the worst edge, least of at rest, in the move and in an emergency stop";
/// Of a hinge whose axis is level.
const SWINGS_UP: &str = "(restoring - overturning)/restoring about the worst edge of the base, least over every instant, either load, at rest, in the move \
and in an emergency stop; moments: weight of the machine; of the load, at x = load_reach + r cos(phi + psi), z = load_height + r sin(phi + psi), \
its weight, its level inertia force m ax at the height z, its upright one m az, and the couple Ic phi'' against the turning; the same of a tail weight at radius -rt, angle phi; \
ax = -r(phi'' sin + phi'^2 cos), az = r(phi'' cos - phi'^2 sin); at rest phi' = phi'' = 0; in the stop phi' of the instant and phi'' = -sgn a/|lever|, \
a = v^2/(2 stop_distance), without one the lesser of rules.stop_deceleration and v^2/(2 rules.stop_distance_default), v the drive's speed";
/// Of a hinge whose axis is upright.
const SWINGS_AROUND: &str = "(restoring - overturning)/restoring about the worst of the four edges of the base, least over every instant, either load, at rest, in the move \
and in an emergency stop; moments: weight of the machine; of the load, at x = load_reach + r cos(phi + psi), y = r sin(phi + psi) from the middle of the width, height load_height, \
its weight and its level inertia forces m ax about the edges out and back, m ay about those left (y > 0) and right; \
ax = -r(phi'' sin + phi'^2 cos), ay = r(phi'' cos - phi'^2 sin); at rest phi' = phi'' = 0; in the stop phi' of the instant and phi'' = -sgn a/|lever|, \
a = v^2/(2 stop_distance), without one the lesser of rules.stop_deceleration and v^2/(2 rules.stop_distance_default), v the drive's speed";
/// A tipping margin less than this above the least allowed is called near.
const NEAR: f64 = 0.1;
/// The least margin that a check divides by, where the rule asks for none.
const NO_MARGIN: f64 = 1e-9;

/// The check of stability of a demand, where there is a base to stand on.
#[must_use]
pub fn tipping(job: &Requirements, demand: &Demand) -> Option<Check> {
    let stability = job.base.and(demand.stability)?;
    let least = job.rules.stability_least;
    let mut check = Check::new(
        "machine.stability",
        least.max(NO_MARGIN),
        stability.margin(),
        "",
    )
    .from(
        formula(job),
        "moments of a rigid body on a hard floor; limit common practice, no source",
    )
    .given(
        &[
            ("margin at rest", ""),
            ("margin in the move", ""),
            ("margin in a stop", ""),
        ],
        &[
            stability.margin_static,
            stability.margin_dynamic,
            stability.margin_emergency_stop,
        ],
    )
    .rule("stability_least");
    if !check.passes() {
        check.says = Some(mend(&stability, job.rules.stability_least));
    }
    Some(check)
}

/// What is computed, by the way the load goes.
fn formula(job: &Requirements) -> &'static str {
    match &job.motion {
        Motion::Slide(_) => SLIDES,
        Motion::Hinge(hinge) if hinge.axis_level => SWINGS_UP,
        Motion::Hinge(_) => SWINGS_AROUND,
    }
}

/// Adds the check of stability and the cautions about tipping and sliding, where there is a base.
pub(in crate::family) fn add(ask: &Ask<'_>, train: &mut Train<'_>) {
    let (Some(base), Some(stability)) = (ask.job.base, train.demand.stability) else {
        return;
    };
    let Some(check) = tipping(ask.job, &train.demand) else {
        return;
    };
    let least = ask.job.rules.stability_least;
    if check.passes() && stability.margin() < least + NEAR {
        train.cautions.push(format!(
            "The machine is near tipping over its {} edge with {}: {} of the restoring moment is left, {} is asked.",
            stability.edge,
            place(&stability),
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

/// Where the load stands when the machine is nearest to tipping.
fn place(stability: &Stability) -> String {
    match stability.worst_angle_rad {
        Some(angle) => {
            let degrees = (angle.to_degrees() * 10.0).round() / 10.0;
            format!("the arm at {} deg", show(degrees))
        }
        None => format!("the load {} m out", show(stability.worst_position_m)),
    }
}

/// How far the combined centre of mass wanders.
fn centre(stability: &Stability) -> String {
    let along = format!(
        "the combined centre of mass wanders from {} to {} mm beyond the middle of the base",
        show(stability.centre_least_m * 1000.0),
        show(stability.centre_most_m * 1000.0)
    );
    match stability.centre_aside_m {
        Some([right, left]) => format!(
            "{along}, and across it from {} to {} mm left of the middle",
            show(right * 1000.0),
            show(left * 1000.0)
        ),
        None => along,
    }
}

/// How far the combined centre of mass wanders, and where it is nearest to tipping.
fn wander(stability: &Stability) -> String {
    let centre = centre(stability);
    let centre = centre.strip_prefix("the").unwrap_or(&centre);
    format!(
        "The{centre}; it is nearest to tipping over its {} edge with {}, with {} of the restoring moment left.",
        stability.edge,
        place(stability),
        show(stability.margin())
    )
}

/// What is left, and what ballast or base would bring it to the least allowed.
fn mend(stability: &Stability, least: f64) -> String {
    let mut says = format!(
        "it tips too easily over its {} edge with {}: {} of the restoring moment is left, {} is the least by rules.stability_least",
        stability.edge,
        place(stability),
        show(stability.margin()),
        show(least),
    );
    let mut ways = Vec::new();
    if stability.ballast_kg > 0.0 {
        let middle = show(enough(stability.ballast_kg));
        ways.push(format!("{middle} kg of ballast at the middle of the base"));
    }
    if let Some(at_end) = stability.ballast_at_end_kg {
        let opposite = match stability.edge {
            "out" => "back",
            "back" => "out",
            "left" => "right",
            _ => "left",
        };
        ways.push(format!(
            "{} kg over its {opposite} edge",
            show(enough(at_end))
        ));
        // What a bolt in the floor bears is another's sum; the margin is that of a machine that only stands.
        ways.push(format!(
            "bolts there that hold it down with {}, which are not counted",
            in_words(Kind::Force, enough(at_end * G_M_S2))
        ));
    }
    let sizes = [
        (stability.length_needed_m, "long"),
        (stability.width_needed_m, "wide"),
    ];
    let size = |(size_m, way): (Option<f64>, &str)| {
        let size = in_words(Kind::Length, enough(size_m?));
        Some(format!("{size} {way}"))
    };
    let sizes: Vec<String> = sizes.into_iter().filter_map(size).collect();
    if !sizes.is_empty() {
        ways.push(format!("a base {}", sizes.join(" and ")));
    }
    if !ways.is_empty() {
        says = format!("{says}; {} would do", ways.join(", or "));
    }
    format!("{says}; {}", centre(stability))
}
