//! Reading a hinged axis, with its dead centres.

use core::f64::consts::PI;

use super::super::Hinge;
use super::site::{part, whole};
use super::{choice, motion};
use crate::mechanics::linkage::Pins;
use crate::quantity::{Angle, Length, Si, Torque, show};
use crate::reading::{MISSING, Object, Sink};

/// Greatest swing, rad.
const SWING: f64 = 350.0 * PI / 180.0;
/// Least lever of the actuator over the radius of its arm pin (method, section on hinges).
const LEVER_LEAST: f64 = 0.05;
/// Steps of the swing at which the lever is looked at.
const STEPS: u32 = 720;

/// Reads the fields of a hinge from `motion`.
pub(super) fn read(object: &mut Object, sink: &Sink) -> Option<Hinge> {
    let from = object.required::<Angle>("from");
    let to = object.required::<Angle>("to");
    let axis_level = choice(object, "axis", sink, &[("level", true), ("upright", false)]);
    let load = motion::load(object);
    let centre = object.object("centre_of_mass").map(|mut centre| {
        let fields = (centre.required("radius"), centre.optional("angle"));
        centre.finish();
        fields
    });
    let inertia = object.optional("inertia");
    let pivot_friction = object.optional("pivot_friction");
    let tail_radius = object.optional("tail_radius");
    let anchors = pins(object);
    let anchor_zones = zones(object);
    let process = motion::process::<Angle, Torque>(object, sink);
    let law = motion::law(object, sink);
    if let (Some(from), Some(to)) = (from, to)
        && swing(from, to, object)
        && let Some(Some(anchors)) = anchors
    {
        dead_centre(from, to, anchors, object, sink);
    }
    if matches!((&anchors, &anchor_zones), (Some(Some(_)), Some(Some(_)))) {
        object.fault(
            "anchor_zones",
            "are given although the anchors are; keep one of the two",
        );
    }
    let (radius, angle) = centre?;
    let point = |(at, [out, back, hold]): (Angle, [Torque; 3])| (at, out, back, hold);
    Some(Hinge {
        from: from?,
        to: to?,
        axis_level: axis_level?,
        load: load?,
        radius: radius?,
        angle: angle?,
        inertia: inertia?,
        pivot_friction: pivot_friction?,
        tail_radius,
        anchors: anchors?,
        anchor_zones: anchor_zones?,
        process: process?.into_iter().map(point).collect(),
        law: law?,
    })
}

fn swing(from: Angle, to: Angle, object: &Object) -> bool {
    if from.si() >= to.si() {
        object.fault("from", "must be less than \"to\"");
        return false;
    }
    if to.si() - from.si() >= SWING {
        object.fault("to", "must be less than 350 deg from \"from\"");
        return false;
    }
    true
}

fn two(object: &mut Object, key: &'static str) -> Option<[Length; 2]> {
    let list: Vec<Length> = object.required(key)?;
    if let [first, second] = *list.as_slice() {
        return Some([first, second]);
    }
    object.fault(key, "must be two lengths");
    None
}

/// Outer `None`: a fault; inner: not given.
fn pins(object: &mut Object) -> Option<Option<[[Length; 2]; 2]>> {
    part(object, "anchors", |anchors| {
        let (base, arm) = (two(anchors, "base"), two(anchors, "arm"));
        if arm.is_some_and(|[x, y]| x.si() == 0.0 && y.si() == 0.0) {
            anchors.fault("arm", "lies on the pivot, where no force turns the arm");
            return None;
        }
        Some([base?, arm?])
    })
}

fn zones(object: &mut Object) -> Option<Option<[[[Length; 2]; 2]; 2]>> {
    part(object, "anchor_zones", |zones| {
        let (base, arm) = (zone(zones, "base"), zone(zones, "arm"));
        Some([base?, arm?])
    })
}

/// Least and most of x and y, where a pin may be.
fn zone(zones: &mut Object, key: &'static str) -> Option<[[Length; 2]; 2]> {
    if zones.raw(key).is_none() {
        zones.fault(key, MISSING);
        return None;
    }
    whole(zones.object(key)?, |zone| {
        let (x, y) = (two(zone, "x"), two(zone, "y"));
        for (key, pair) in [("x", x), ("y", y)] {
            if pair.is_some_and(|[least, most]| least.si() > most.si()) {
                zone.fault(key, "must have its least first");
            }
        }
        Some([x?, y?])
    })
}

/// Refuses an actuator without a lever: below 5 % of the arm pin's radius, or changing sign, is a dead centre.
fn dead_centre(
    from: Angle,
    to: Angle,
    [base, arm]: [[Length; 2]; 2],
    object: &Object,
    sink: &Sink,
) {
    let pins = Pins {
        base: base.map(Si::si),
        arm: arm.map(Si::si),
    };
    let radius = pins.arm_radius_m();
    let lever = |angle: f64| pins.at(angle).lever_m;
    if let Some(angle) = no_lever(&lever, from.si(), to.si(), LEVER_LEAST * radius) {
        let message = format!(
            "have a dead centre near {} deg, where the drive's lever is below 5 % of the arm pin's radius",
            show(angle.to_degrees())
        );
        let fault = object.problem("anchors", message);
        sink.add(fault.hint("move the pins so that the line between them stays clear of the pivot over the whole swing"));
    }
}

/// The angle at which the lever changes sign, or else at which it is least, if that is below the least allowed.
fn no_lever(lever: &dyn Fn(f64) -> f64, from: f64, to: f64, least: f64) -> Option<f64> {
    let angle_of = |step: u32| from + (to - from) * f64::from(step) / f64::from(STEPS);
    let mut weakest = from;
    for step in 1..=STEPS {
        let (before, here) = (angle_of(step - 1), angle_of(step));
        if lever(before) * lever(here) < 0.0 {
            return Some(change_of_sign(lever, before, here));
        }
        if lever(here).abs() < lever(weakest).abs() {
            weakest = here;
        }
    }
    (lever(weakest).abs() < least).then_some(weakest)
}

/// Halves the interval around a change of sign until it is a point.
fn change_of_sign(lever: &dyn Fn(f64) -> f64, mut low: f64, mut high: f64) -> f64 {
    let start = lever(low);
    for _ in 0..50 {
        let middle = f64::midpoint(low, high);
        if lever(middle) * start > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high)
}
