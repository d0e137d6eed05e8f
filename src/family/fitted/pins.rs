//! What a drive between two pins bears beside its force, stated with its numbers: its pins rub, and its own weight bends it.

use crate::family::{Ask, Drive};
use crate::quantity::{G_M_S2, Kind, in_words, show};

/// What the kinds of part are called that hang between two pins.
const HANGS: [&str; 4] = [
    "air_cylinders",
    "oil_cylinders",
    "electric_cylinders",
    "screw_jacks",
];

/// Adds what rubs and what bends, where the drive stands between two pins.
pub(in crate::family) fn add(ask: &Ask<'_>, drive: &mut Drive<'_>) {
    let remarks = [rubs(ask, drive), bends(drive)];
    drive.remarks.extend(remarks.into_iter().flatten());
}

/// Force that the bushes of the two pins add where the force is greatest: `μ r (|β'| + |1 − β'|)/lever · F`.
fn rubs(ask: &Ask<'_>, drive: &Drive<'_>) -> Option<String> {
    let hinge = drive.demand.hinge.as_ref()?;
    let rules = &ask.job.rules;
    let (friction, radius_m) = (rules.drive_pin_friction, rules.drive_pin_radius);
    let part = friction * radius_m * hinge.pins_turn_per_m;
    let force_n = drive.demand.thrust_n();
    Some(format!(
        "Not in the forces: the bushes of the drive's two pins rub. With friction {} on pins of {} \
         (rules.drive_pin_friction, rules.drive_pin_radius) they add {} where the force is greatest, {} % of it.",
        show(friction),
        in_words(Kind::Length, 2.0 * radius_m),
        in_words(Kind::Force, part * force_n),
        show(part * 100.0)
    ))
}

/// Side load of the drive's own weight, which the pins bear half each.
fn bends(drive: &Drive<'_>) -> Option<String> {
    drive.demand.hinge.as_ref()?;
    let hangs = |kind: &str| HANGS.contains(&kind);
    let drive = drive.parts.iter().find(|line| hangs(line.kind))?;
    let weight_n = drive.mass_kg * G_M_S2;
    Some(format!(
        "The drive's own weight of {} hangs between its pins: lying level, each pin carries half of it, {}, square to the rod beside the force.",
        in_words(Kind::Force, weight_n),
        in_words(Kind::Force, weight_n / 2.0)
    ))
}
