//! Whether the machine stands with this drive: tipping, and sliding on the floor.

use crate::demand::{Demand, Stability};
use crate::family::hazard::{MACHINE_SLIDES, NEAR_TIPPING, NEAR_TIPPING_SWUNG};
use crate::family::{Ask, Caution, Check, Drive, Figure, check};
use crate::quantity::{G_M_S2, Kind, enough, in_words, show};
use crate::requirements::Task;

/// A tipping margin less than this above the least allowed is called near.
const NEAR: f64 = 0.1;
/// The least margin that a check divides by, where the rule asks for none.
const NO_MARGIN: f64 = 1e-9;

/// The check of stability of a demand, where there is a base to stand on.
pub fn tipping(job: &Task, demand: &Demand) -> Option<Check> {
    let stability = job.base.and(demand.stability)?;
    let least = job.rules.stability_least;
    let mut check = check!(
        "machine.stability", least.max(NO_MARGIN) => stability.margin(), "";
        stability.formula, "moments of a rigid body on a hard floor; limit common practice, no source";
        ("margin at rest", stability.margin_static, ""),
        ("margin in the move", stability.margin_dynamic, ""),
        ("margin in a stop", stability.margin_emergency_stop, ""),
    )
    .rule("stability_least");
    if !check.passes() {
        check.says = Some(mend(&stability, job.rules.stability_least));
    }
    Some(check)
}

/// Adds the check of stability and the cautions about tipping and sliding, where there is a base.
pub(in crate::family) fn add(ask: &Ask<'_>, drive: &mut Drive<'_>) {
    let (Some(base), Some(stability)) = (ask.job.base, drive.demand.stability) else {
        return;
    };
    let Some(check) = tipping(ask.job, &drive.demand) else {
        return;
    };
    let least = ask.job.rules.stability_least;
    if check.passes() && stability.margin() < least + NEAR {
        let left = [stability.margin(), least].map(Figure::Number);
        drive.cautions.push(near_tipping(&stability, left));
    }
    drive.checks.push(check);
    drive.remarks.push(wander(&stability));
    if !base.bolted && stability.sliding_ratio > ask.job.rules.floor_friction {
        let ratios = [stability.sliding_ratio, ask.job.rules.floor_friction];
        drive
            .cautions
            .push(MACHINE_SLIDES.with(ratios.map(Figure::Number)));
    }
}

/// The caution of a machine that is near tipping, of whose restoring moment a part is left and a part is asked.
fn near_tipping(stability: &Stability, [left, asked]: [Figure; 2]) -> Caution {
    let edge = Figure::Word(stability.edge);
    if let Some(angle) = stability.worst_angle_rad {
        let degrees = Figure::Number((angle.to_degrees() * 10.0).round() / 10.0);
        NEAR_TIPPING_SWUNG.with([edge, degrees, left, asked])
    } else {
        let out_m = Figure::Number(stability.worst_position_m);
        NEAR_TIPPING.with([edge, out_m, left, asked])
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
        "it tips too easily over its {} edge with {}: {} of the restoring moment is left; the least is {} (rules.stability_least)",
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
