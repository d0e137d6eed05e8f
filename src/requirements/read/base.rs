//! Reading the base and the structure.

use super::super::{Base, Material, Structure};
use super::choice;
use super::site::part;
use crate::mechanics::beam::Section;
use crate::quantity::{Length, Si};
use crate::reading::{MISSING, Object, Sink};

/// Reads `base`.
#[allow(
    clippy::option_option,
    reason = "a fault is not the same as a field left out"
)]
pub(super) fn read(top: &mut Object) -> Option<Option<Base>> {
    part(top, "base", |base| {
        let length = base.required("length");
        let width = base.required("width");
        let mass = base.required("mass");
        let centre_height = base.required("centre_height");
        let centre_x = base.optional("centre_x");
        let load_reach = base.optional("load_reach");
        let load_height = base.optional("load_height");
        let assist_reach = base.optional("assist_reach");
        let stop_distance = base.optional("stop_distance");
        let bolted = base.optional("bolted");
        Some(Base {
            length: length?,
            width: width?,
            mass: mass?,
            centre_height: centre_height?,
            centre_x: centre_x?,
            load_reach: load_reach?,
            load_height: load_height?,
            assist_reach: assist_reach?,
            stop_distance,
            bolted: bolted?,
        })
    })
}

/// Reads `structure`.
#[allow(
    clippy::option_option,
    reason = "a fault is not the same as a field left out"
)]
pub(super) fn structure(top: &mut Object, sink: &Sink) -> Option<Option<Structure>> {
    part(top, "structure", |beam| {
        let section = section(beam, sink);
        let length = beam.required("length");
        let material = choice(
            beam,
            "material",
            sink,
            &[
                ("steel", Material::Steel),
                ("aluminium", Material::Aluminium),
                ("oak", Material::Oak),
                ("pine", Material::Pine),
            ],
        );
        let both_ends = choice(
            beam,
            "support",
            sink,
            &[("cantilever", false), ("both_ends", true)],
        );
        let deflection = part(beam, "deflection", |limit| limit.required("limit"));
        Some(Structure {
            section: section?,
            length: length?,
            material: material?,
            both_ends: both_ends?,
            deflection_limit: deflection?,
        })
    })
}

/// The section; a round one has a width only, a hollow one a wall below half its size.
fn section(beam: &mut Object, sink: &Sink) -> Option<Section> {
    let name = choice(
        beam,
        "shape",
        sink,
        &[
            ("rectangle", (false, false)),
            ("box", (false, true)),
            ("round", (true, false)),
            ("tube", (true, true)),
        ],
    );
    let width = beam.required::<Length>("width");
    let height = beam.optional::<Length>("height");
    let wall = beam.optional::<Length>("wall");
    let (round, hollow) = name?;
    let mut sound = true;
    for (key, given, asked) in [
        ("height", beam.raw("height").is_some(), !round),
        ("wall", beam.raw("wall").is_some(), hollow),
    ] {
        if given != asked {
            let message = if asked {
                MISSING
            } else {
                "is a figure that this shape does not have"
            };
            beam.fault(key, message);
            sound = false;
        }
    }
    let width = width?;
    let side = if round { width } else { height? };
    if let Some(wall) = wall.filter(|_| hollow)
        && 2.0 * wall.si() >= width.si().min(side.si())
    {
        beam.fault(
            "wall",
            "must be less than half the width and half the height",
        );
        sound = false;
    }
    if !sound {
        return None;
    }
    let (width_m, height_m) = (width.si(), side.si());
    Some(match (round, hollow) {
        (false, false) => Section::Rectangle { width_m, height_m },
        (false, true) => Section::Box {
            width_m,
            height_m,
            wall_m: wall?.si(),
        },
        (true, false) => Section::Round {
            diameter_m: width_m,
        },
        (true, true) => Section::Tube {
            diameter_m: width_m,
            wall_m: wall?.si(),
        },
    })
}
