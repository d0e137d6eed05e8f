//! Jobs for tests, read the one way through: a JSON text and changes to it.
//!
//! The unit tests of the crate include this file as well.

use counterpoise::requirements::{self, Base, Motion, Reading, Requirements, Slide};

/// A straight lift of 80 to 85 kg over 900 mm in 20 s, a third of it to speed up and a third to slow down,
/// as a workshop would state it: every supply is there, and no base.
pub const LIFT: &str = r#"{
    "format": "counterpoise-requirements/2",
    "title": "lift",
    "currency": "EUR",
    "motion": {
        "kind": "slide",
        "incline": "90 deg",
        "travel": "900 mm",
        "load": { "least": "80 kg", "most": "85 kg" },
        "guide": { "bearing_spacing": "400 mm" }
    },
    "timing": { "rest_out": "60 s", "rest_back": "60 s", "cycles_per_hour": 4 },
    "site": {
        "mains": { "power": "2.5 kW" },
        "air": { "flow": "150 L/min" },
        "hand": {}
    },
    "goals": { "travel_time": { "limit": "20 s" } }
}"#;

/// Reads a text with changes, as `--set` makes them.
///
/// # Panics
/// Where the text or a change is wrong: the test is.
#[track_caller]
pub fn reading(text: &str, sets: &[(&str, &str)]) -> Reading {
    let owned = |(path, value): &(&str, &str)| ((*path).to_owned(), (*value).to_owned());
    let changes: Vec<_> = sets.iter().map(owned).collect();
    requirements::read(text.as_bytes(), &changes)
        .unwrap_or_else(|faults| panic!("{sets:?}: {faults:?}"))
}

/// Reads an example with changes.
#[track_caller]
pub fn example(name: &str, sets: &[(&str, &str)]) -> Reading {
    let path = format!("{}/examples/{name}.json", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).expect("the example is there");
    reading(&text, sets)
}

/// The lift with changes.
#[track_caller]
pub fn lift(sets: &[(&str, &str)]) -> Requirements {
    reading(LIFT, sets).requirements
}

/// The axis of a job.
pub fn slide(job: &Requirements) -> &Slide {
    match &job.motion {
        Motion::Slide(slide) => slide,
        Motion::Hinge(_) => unreachable!("the jobs of the tests slide"),
    }
}

/// The axis of a job, to be changed.
pub fn slide_mut(job: &mut Requirements) -> &mut Slide {
    match &mut job.motion {
        Motion::Slide(slide) => slide,
        Motion::Hinge(_) => unreachable!("the jobs of the tests slide"),
    }
}

/// The axis of the lift.
pub fn axis() -> Slide {
    slide(&lift(&[])).clone()
}

/// The job of the lift about another axis.
pub fn about(slide: &Slide) -> Requirements {
    let mut job = lift(&[]);
    job.motion = Motion::Slide(slide.clone());
    job
}

/// A base of 1.2 m by 0.8 m and 150 kg, the load of the lift above its middle.
pub fn base() -> Base {
    let base =
        r#"{ "length": "1.2 m", "width": "0.8 m", "mass": "150 kg", "centre_height": "0.7 m" }"#;
    lift(&[("base", base)]).base.expect("it was set")
}
