//! Reading the motion: which kind, its law, its load.

use super::super::{Law, LoadRange, Motion};
use super::{choice, hinge, slide};
use crate::problem::Problem;
use crate::quantity::{Mass, Si};
use crate::reading::{Object, Sink};

/// Reads `motion`.
pub(super) fn read(object: Option<Object>, sink: &Sink) -> Option<Motion> {
    let mut object = object?;
    // Of an unknown kind nothing else can be told, so its fields are not read.
    let is_slide = choice(
        &mut object,
        "kind",
        sink,
        &[("slide", true), ("hinge", false)],
    )?;
    let motion = if is_slide {
        slide::read(&mut object, sink).map(Motion::Slide)
    } else {
        hinge::read(&mut object, sink).map(|hinge| Motion::Hinge(Box::new(hinge)))
    };
    object.finish();
    motion
}

/// Reads `motion.load`.
pub(super) fn load(object: &mut Object) -> Option<LoadRange> {
    let mut load = object.object("load")?;
    let least = load.optional::<Mass>("least");
    let most = load.required::<Mass>("most");
    if let (Some(least), Some(most)) = (least, most)
        && least.si() > most.si()
    {
        load.fault("least", "is more than \"most\"");
    }
    load.finish();
    Some(LoadRange {
        least: least?,
        most: most?,
    })
}

/// Reads `motion.law` and `motion.ramps`.
pub(super) fn law(object: &mut Object, sink: &Sink) -> Option<Law> {
    let trapezoid = Law::Trapezoid {
        start: 1.0,
        end: 1.0,
    };
    let law = choice(
        object,
        "law",
        sink,
        &[
            ("trapezoid", trapezoid),
            ("cycloidal", Law::Cycloidal),
            ("polynomial_345", Law::Polynomial345),
            ("polynomial_4567", Law::Polynomial4567),
            ("modified_sine", Law::ModifiedSine),
            ("modified_trapezoid", Law::ModifiedTrapezoid),
            ("harmonic", Law::Harmonic),
        ],
    );
    let ramps: Option<Vec<f64>> = object.optional("ramps");
    let law = law?;
    if law == trapezoid {
        return ramps.and_then(|ramps| trapezoid_with(object, &ramps));
    }
    if ramps.is_some() {
        object.fault(
            "ramps",
            "are given, but only the law \"trapezoid\" has ramps",
        );
    }
    Some(law)
}

/// Least part of the stroke's time that a ramp may take: below it the acceleration is a blow, and no figure holds.
const RAMP_LEAST: f64 = 1e-4;

/// Ramps are two parts of the stroke's time, positive, at most all of it together.
fn trapezoid_with(object: &Object, ramps: &[f64]) -> Option<Law> {
    let wrong = match *ramps {
        [start, end] if start <= 0.0 || end <= 0.0 => "must both be more than 0",
        [start, end] if start.min(end) < RAMP_LEAST => {
            "must both be at least 0.0001 of the stroke's time"
        }
        [start, end] if start + end > 1.0 + 1e-12 => "must not sum to more than 1",
        [start, end] => return Some(Law::Trapezoid { start, end }),
        _ => "must be two numbers, the part spent speeding up and the part spent slowing down",
    };
    object.fault("ramps", wrong);
    None
}

/// Most points of the process force: more than a stroke has instants that matter, and few enough to be looked at one by one.
/// A point makes 3 KB of study, and a study that could not be read back would not be compared.
const MOST_POINTS: usize = 1_500;

/// Reads `motion.process`, whose points go forward and jump at most once at a position.
pub(super) fn process<Q: Si, F: Si>(object: &mut Object, sink: &Sink) -> Option<Vec<(Q, [F; 3])>> {
    let path = object.path_of("process");
    let list = match object.raw("process")? {
        crate::reading::Tree::List(list) => list,
        other => {
            object.fault("process", format!("is {}, not a list", other.kind()));
            return None;
        }
    };
    if list.len() > MOST_POINTS {
        let message = format!("has {} points, more than {MOST_POINTS}", list.len());
        sink.add(
            Problem::at(path, message)
                .hint("keep the points at which the force bends; it runs straight between them"),
        );
        return None;
    }
    let mut points: Vec<(Q, [F; 3])> = Vec::with_capacity(list.len());
    let mut whole = true;
    for (index, item) in list.iter().enumerate() {
        let point = Object::new(item, format!("{path}[{index}]"), sink).and_then(point);
        match point {
            Some(point) => points.push(point),
            None => whole = false,
        }
    }
    if whole {
        forward(&points, &path, sink);
    }
    whole.then_some(points)
}

fn point<Q: Si, F: Si>(mut object: Object) -> Option<(Q, [F; 3])> {
    let at = object.required("at");
    let forces = ["out", "back", "hold"].map(|key| object.optional(key));
    object.finish();
    let [out, back, hold] = forces;
    Some((at?, [out?, back?, hold?]))
}

fn forward<Q: Si, F: Si>(points: &[(Q, [F; 3])], path: &str, sink: &Sink) {
    for (index, pair) in points.windows(2).enumerate() {
        if let [(before, _), (after, _)] = pair
            && after.si() < before.si()
        {
            let message = "lies before the position ahead of it in the list";
            let fault = Problem::at(format!("{path}[{}].at", index + 1), message);
            sink.add(fault.hint("list the points in the order of their positions"));
        }
    }
    for (index, three) in points.windows(3).enumerate() {
        if let [(first, _), _, (last, _)] = three
            && first.si().total_cmp(&last.si()).is_eq()
        {
            let place = format!("{path}[{}].at", index + 2);
            let fault = Problem::at(place, "is the third point at one position");
            sink.add(fault.hint("two points at one position are a jump; leave the middle one out"));
        }
    }
}
