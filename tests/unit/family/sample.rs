//! Jobs for the tests of the families, and what a family offers for one.

use crate::catalog::{Catalog, built_in};
use crate::demand::{Assist, Axis, Book};
use crate::family::site::suiting;
use crate::family::{Ask, Bench, Family, Fitted, Strokes};
use crate::requirements::{Brief, Requirements};
use crate::support::{lift, slide};

/// The lift of one load, with strong mains and without air, in its own time.
const DOOR: [(&str, &str); 7] = [
    ("motion.load.least", "85 kg"),
    ("motion.drag", "20 N"),
    ("site.mains.voltage", "400 V"),
    ("site.mains.power", "6 kW"),
    ("site.air", "null"),
    ("site.temperature.most", "35 degC"),
    ("goals.travel_time.limit", "390 s"),
];

/// A vertical 85 kg door, 900 mm up, four cycles an hour, with changes.
#[track_caller]
pub(super) fn door(sets: &[(&str, &str)]) -> Requirements {
    lift(&[DOOR.as_slice(), sets].concat())
}

/// A level press, 40 kN over 150 mm, 50 kg of ram, 60 cycles an hour, with changes.
#[track_caller]
pub(super) fn press(sets: &[(&str, &str)]) -> Requirements {
    let press = [
        ("motion.incline", "0 deg"),
        ("motion.travel", "150 mm"),
        ("motion.load", r#"{ "most": "50 kg" }"#),
        ("motion.process", r#"[{ "at": "0 mm", "out": "40 kN" }]"#),
        ("timing.cycles_per_hour", "60"),
        ("timing.rest_out", "5 s"),
        ("timing.rest_back", "5 s"),
    ];
    door(&[press.as_slice(), sets].concat())
}

/// The built-in catalog.
pub(super) fn parts() -> &'static Catalog {
    built_in().expect("the built-in catalog is sound")
}

/// Asks for a job with an assist that costs nothing.
pub(super) fn asking<T>(
    job: &Requirements,
    assist: Assist,
    times: &[f64],
    look: impl FnOnce(&Ask) -> T,
) -> T {
    let book = Book::new(job, Axis::new(job, slide(job)));
    let fitted = Fitted {
        assist,
        ..Fitted::none()
    };
    let suited = suiting(job, parts());
    look(&Ask {
        job: &Brief::new(job),
        catalog: suited.as_ref().unwrap_or(parts()),
        assist: &fitted,
        times,
        book: &book,
        strokes: &Strokes::default(),
    })
}

/// Lets a family build its drives and hands the bench to a test.
pub(super) fn build<T>(
    family: &Family,
    job: &Requirements,
    assist: Assist,
    times: &[f64],
    look: impl FnOnce(&mut Bench) -> T,
) -> T {
    asking(job, assist, times, |ask| {
        let mut bench = Bench::default();
        (family.drives)(ask, &mut bench);
        look(&mut bench)
    })
}
