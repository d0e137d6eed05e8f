//! What is said of a guide: how it is built, what it leaves free, and why no other sort was taken.

use super::checks::{SlideSpeeds, deflection_m};
use super::layout::{Build, Layout, Sort};
use super::{bears_place, excess, worst_failing};
use crate::family::{Ask, Check};
use crate::quantity::{Kind, Si, in_words, show};

/// What another sort is looked at beside: it rubs more or less than the job is computed with.
const FRICTION: &str = "guide.friction";

/// The guide in plain words.
pub(super) fn built(ask: &Ask<'_>, layout: &Layout<'_>) -> String {
    let apart = |bearings: &str| {
        format!(
            "taken to stand {} m apart like the {bearings} along them",
            show(ask.bearing_spacing_m())
        )
    };
    let size = show(layout.build.size().si() * 1e3);
    match layout.build {
        Build::Rail(_) if layout.lines == 1 => {
            format!("one rail of size {size} mm with two carriages")
        }
        Build::Rail(_) => format!(
            "two rails of size {size} mm with two carriages each, {}",
            apart("carriages")
        ),
        Build::Shaft(_, support) => format!(
            "two {size} mm shafts {} with two {} bushes each, {}",
            if support.along {
                "held along their length"
            } else {
                "in end blocks"
            },
            if layout.build.sort() == Sort::BallShaft {
                "ball"
            } else {
                "plain"
            },
            apart("bushes")
        ),
        Build::Way(_) => format!(
            "two plain ways {size} mm wide with two bronze pads each, {}",
            apart("pads")
        ),
    }
}

/// What can still turn or move, and what stops it.
pub(super) fn freedom(ask: &Ask<'_>, layout: &Layout<'_>) -> String {
    match layout.build {
        Build::Rail(_) if layout.lines == 1 => "One rail lets the load go along it and nothing else: it carries every couple in its own width, and nothing has to be set parallel.".into(),
        Build::Rail(_) => "Two rails let the load go along them and nothing else. They share the couples, and must lie parallel or they press against each other: set the second by the first.".into(),
        Build::Shaft(..) => {
            let bends = deflection_m(ask, layout).map_or_else(
                || " A foot along each keeps it from bending.".into(),
                |bent| format!(" Between its end blocks a shaft bends by {} at most.", in_words(Kind::Length, bent)),
            );
            format!(
                "About one {} mm shaft the load could turn; the second, {} beside it, stops that. Fixed on both it would be stopped twice: let the bushes of one float across.{bends}",
                show(layout.build.size().si() * 1e3),
                in_words(Kind::Length, ask.bearing_spacing_m()),
            )
        }
        Build::Way(_) => "On two flat ways the load could drift to the side and lift: gibs at one way stop the drift, keepers under both the lift. The other way only carries, so that the two need not lie parallel to a hair.".into(),
    }
}

/// Why each sort that was not taken was not.
pub(super) fn not_taken(
    ask: &Ask<'_>,
    taken: &Layout<'_>,
    all: &[Layout<'_>],
    motion: SlideSpeeds,
) -> Vec<String> {
    let others = Sort::ALL
        .into_iter()
        .filter(|sort| *sort != taken.build.sort());
    others
        .filter_map(|sort| {
            let same = all.iter().filter(|layout| layout.build.sort() == sort);
            let (_, nearest) = same
                .map(|layout| (excess(ask, layout, motion, FRICTION), layout))
                .reduce(|p, q| {
                    let apart = q.0.total_cmp(&p.0);
                    if apart.is_lt() || apart.is_eq() && q.1.before(p.1) {
                        q
                    } else {
                        p
                    }
                })?;
            Some(why_not(ask, taken, nearest, motion))
        })
        .collect()
}

fn why_not(ask: &Ask<'_>, taken: &Layout<'_>, other: &Layout<'_>, motion: SlideSpeeds) -> String {
    let sort = other.build.sort().words();
    let size = show(other.build.size().si() * 1e3);
    if let Some(check) = worst_failing(ask, other, motion, FRICTION) {
        return format!("{sort}, which at {size} mm {}", falls_short(&check));
    }
    if !bears_place(ask, other) {
        return format!("{sort}, which do not withstand the place, under bellows or bare");
    }
    let costlier = other.cost - taken.cost;
    let costs = format!(
        "{} {} {} to buy, fit and keep",
        show(costlier.abs().round()),
        ask.job.currency,
        if costlier < 0.0 {
            "cheaper"
        } else {
            "more expensive"
        }
    );
    let (rubs, computed) = (other.build.friction(), ask.guide_friction());
    if rubs > computed * (1.0 + 1e-9) {
        return format!(
            "{sort}, which rub with {}; the job is computed with {}: motion.guide.friction={} lets them in, at {size} mm {costs}",
            show(rubs),
            show(computed),
            show(rubs),
        );
    }
    format!("{sort}, at {size} mm {costs}")
}

/// How a guide falls short.
fn falls_short(check: &Check) -> String {
    let (asked, most) = (show(check.demand * check.factor), show(check.capacity));
    match check.id {
        "guide.life" => format!("last {most} km where {asked} km are asked"),
        "guide.wear" => format!("wear by {asked} mm where {most} mm may go"),
        "guide.pv" => format!("run hot, p·v {asked} MPa m/s where the limit is {most}"),
        "guide.pressure" => format!("are pressed with {asked} MPa where the limit is {most}"),
        "guide.speed" => format!("run at {most} m/s at most where {asked} is asked"),
        "guide.shaft_deflection" => format!("bend by {asked} mm where the limit is {most} mm"),
        "guide.static" => format!("carry {most} N where {asked} N are required"),
        _ => format!("come {most} m long at most where {asked} m are asked"),
    }
}
