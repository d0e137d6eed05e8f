//! Reading a straight axis.

use super::super::{ProcessPoint, Slide};
use super::motion;
use crate::quantity::{Force, Length, Si, show};
use crate::reading::{Object, Sink};

/// Reads the fields of a slide from `motion`.
pub(super) fn read(object: &mut Object, sink: &Sink) -> Option<Slide> {
    let incline = object.required("incline");
    let travel = object.required("travel");
    let load = motion::load(object);
    let offset = object.optional("offset");
    let drive_offset = object.optional::<Length>("drive_offset");
    let overhang = object.optional("overhang");
    let overhang_grows = object.optional("overhang_grows");
    let drag = object.optional("drag");
    let guide = object.object("guide").map(|mut guide| {
        let fields = (
            guide.optional::<f64>("friction"),
            guide.optional::<Length>("bearing_spacing"),
            guide.optional("supplied"),
        );
        guide.finish();
        fields
    });
    let process = motion::process::<Length, Force>(object, sink);
    let law = motion::law(object, sink);
    let (friction, spacing, supplied) = guide?;
    if let (Some(friction), Some(spacing), Some(drive_offset)) = (friction, spacing, drive_offset) {
        binding(friction, spacing, drive_offset, object, sink);
    }
    let point = |(at, [out, back, hold]): (Length, [Force; 3])| ProcessPoint {
        at,
        out,
        back,
        hold,
    };
    Some(Slide {
        incline: incline?,
        travel: travel?,
        load: load?,
        offset: offset?,
        drive_offset: drive_offset?,
        overhang: overhang?,
        overhang_grows: overhang_grows?,
        drag: drag?,
        guide_friction: friction?,
        bearing_spacing: spacing?,
        guide_supplied: supplied?,
        process: process?.into_iter().map(point).collect(),
        law: law?,
    })
}

/// A drive beside its guide jams it where `2 μ d/b` reaches 1 (two-point couple).
fn binding(friction: f64, spacing: Length, drive_offset: Length, object: &Object, sink: &Sink) {
    let ratio = 2.0 * friction * drive_offset.si() / spacing.si();
    // Zero, negative and immense figures have faults of their own.
    if ratio.is_finite() && ratio >= 1.0 && spacing.si() > 0.0 {
        let needed_mm = 2.0 * friction * drive_offset.si() * 1000.0;
        let message = format!(
            "jams the guide: twice friction times drive_offset over bearing_spacing is {}, and must be below 1",
            show(ratio)
        );
        sink.add(object.problem("drive_offset", message).hint(format!(
            "bring the drive nearer to the guide line, or set the guide bearings more than {} mm apart",
            show(needed_mm)
        )));
    }
}
