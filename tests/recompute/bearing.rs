//! Checks of a hinge's two bearings and its pin: what they bear, across the pin and along it, and for how long.

use std::f64::consts::PI;

use super::base::{Case, G, PartUse};
use super::life::{a1, life_left};
use super::motion::{Instant, stop};
use super::steel::disc;
use super::swing::Hinge;
use super::worst::most;

/// Distance of the two bearings of a hinge; found from the study, stated nowhere.
const APART: f64 = 0.3;
/// A life past this is written as this, in turns.
const TURNS_MOST: f64 = 1e18;

/// Single-row deep-groove bearings (Shigley, table 11-1; ISO 281, table 3): `Fa/C0`, `e`, `Y`; X is 0.56.
const DEEP_GROOVE: &[(f64, f64, f64)] = &[
    (0.014, 0.19, 2.30),
    (0.021, 0.21, 2.15),
    (0.028, 0.22, 1.99),
    (0.042, 0.24, 1.85),
    (0.056, 0.26, 1.71),
    (0.070, 0.27, 1.63),
    (0.084, 0.28, 1.55),
    (0.110, 0.30, 1.45),
    (0.17, 0.34, 1.31),
    (0.28, 0.38, 1.15),
    (0.42, 0.42, 1.04),
    (0.56, 0.44, 1.00),
];

/// A row of the table, by straight lines, its ends held.
fn deep_groove(part: f64) -> (f64, f64) {
    let end = |row: (f64, f64, f64)| (row.1, row.2);
    let last = DEEP_GROOVE.len() - 1;
    let Some(next) = DEEP_GROOVE.iter().position(|row| row.0 > part) else {
        return end(DEEP_GROOVE[last]);
    };
    if next == 0 {
        return end(DEEP_GROOVE[0]);
    }
    let (low, high) = (DEEP_GROOVE[next - 1], DEEP_GROOVE[next]);
    let t = (part - low.0) / (high.0 - low.0);
    (low.1 + t * (high.1 - low.1), low.2 + t * (high.2 - low.2))
}

/// Half the angle of the cone of a taper pair or of crossed rollers.
fn contact(sort: &str) -> f64 {
    if sort == "taper_pair" { 14.0 } else { 45.0_f64 }.to_radians()
}

/// Static equivalent load (ISO 76), double rows for pairs.
fn at_rest(sort: &str, fr: f64, fa: f64) -> f64 {
    let (x, y) = match sort {
        "deep_groove" => (0.6, 0.5),
        "angular_pair" => (1.0, 0.52),
        "taper_pair" | "crossed_roller" => (1.0, 0.44 / contact(sort).tan()),
        _ => (1.0, 0.0),
    };
    (x * fr + y * fa).max(fr)
}

/// Equivalent load of a turning bearing (ISO 281), double rows for pairs.
fn turning(sort: &str, fr: f64, fa: f64, rating: f64) -> f64 {
    let (e, y1, x, y) = match sort {
        "deep_groove" => {
            let (e, y) = deep_groove(fa / rating);
            (e, 0.0, 0.56, y)
        }
        "angular_pair" => (1.14, 0.55, 0.57, 0.93),
        "taper_pair" | "crossed_roller" => {
            let tan = contact(sort).tan();
            (1.5 * tan, 0.45 / tan, 0.67, 0.67 / tan)
        }
        _ => return fr,
    };
    if fa <= e * fr {
        fr + y1 * fa
    } else {
        x * fr + y * fa
    }
}

/// The instant with the arm at rest, about to start.
fn at_rest_there(i: &Instant) -> Instant {
    Instant {
        f: i.still,
        arm: (i.arm.0, 0.0, 0.0),
        ..*i
    }
}

/// Greatest force on a hinge, at rest, in the move and in an emergency stop.
fn peak(case: &Case, hinge: &Hinge) -> f64 {
    let deceleration = stop(case, most(case, |i| i.v.abs()));
    let mut peak = 0.0_f64;
    for stroke in case.strokes() {
        // In an emergency stop the drive slows down by the rule, and the arm by as much over the lever.
        let inertia = hinge.inertia(&case.course, stroke.mass);
        for i in &stroke.instants {
            let slowing = -stroke.sign * deceleration / hinge.lever(i.arm.0).first;
            let f = i.still + inertia * slowing / hinge.lever(i.arm.0).first;
            let arm = (i.arm.0, i.arm.1, slowing);
            let (braked, rest) = (Instant { f, arm, ..*i }, at_rest_there(i));
            for i in [i, &rest, &braked] {
                peak = peak.max(hinge.pivot(&case.course, stroke.mass, i));
            }
        }
    }
    peak
}

/// Mean force on the hinge over the swing, to the power `p`, of the worse load.
fn mean(case: &Case, hinge: &Hinge, p: f64) -> f64 {
    let mut worst = 0.0_f64;
    for load in case.strokes().chunks(2) {
        let (mut sum, mut way) = (0.0, 0.0);
        for stroke in load {
            let part = |i: &Instant| hinge.pivot(&case.course, stroke.mass, i).powf(p);
            for two in stroke.instants.windows(2) {
                let step = (two[1].arm.0 - two[0].arm.0).abs();
                sum += step * (part(&two[0]) + part(&two[1])) / 2.0;
                way += step;
            }
        }
        worst = worst.max((sum / way).powf(1.0 / p));
    }
    worst
}

pub fn recompute(case: &Case, id: &str) -> Option<(f64, f64)> {
    let hinge = case.given.hinge.as_ref()?;
    let used: PartUse = case.part("hinge_bearings")?;
    let (part, sort) = (|field| used.f(field), used.text("sort"));
    // On an upright axis the weight loads the pin along it and tilts the arm.
    let heaviest = case.strokes().iter().map(|s| s.mass).fold(0.0, f64::max);
    let weight = if hinge.level { 0.0 } else { heaviest * G };
    let moment = weight * hinge.radius;
    // A couple of the two bearings holds it.
    let tilt = moment / APART;
    let across = |force: f64| force / 2.0 + tilt;
    let swing = hinge.to - hinge.from;
    let rubbed = part("bore") / 2.0 * swing;
    // A bush bears its half on bore times width; the couple presses it as steadily as the arm does.
    let pressure = || across(mean(case, hinge, 1.0)) / (part("bore") * part("width"));
    Some(match id {
        "hinge_bearing.static" => (
            at_rest(sort, across(peak(case, hinge)), weight),
            part("static_rating"),
        ),
        "hinge_bearing.axial" => (weight, part("axial_most")),
        "hinge_bearing.life" => {
            let fr = across(mean(case, hinge, 3.0));
            let load = turning(sort, fr, weight, part("static_rating"));
            let turns = (part("dynamic_rating") / load).powf(part("life_exponent")) * 1e6;
            (
                case.cycles_asked() * 2.0 * swing / (2.0 * PI),
                (life_left(case, &used, false) * a1(case) * turns).min(TURNS_MOST),
            )
        }
        "hinge_bearing.pv" => (pressure() / 1e6 * rubbed / case.time(), part("pv_most")),
        "hinge_bearing.wear" => {
            let deep = part("wear_rate") * pressure() * 2.0 * rubbed * case.cycles_asked();
            let deep = deep / life_left(case, &used, false);
            (deep * 1e3, part("wear_most") * 1e3)
        }
        "hinge_pin.shear" => (
            across(peak(case, hinge)) / disc(part("bore")) / 1e6,
            0.577 * 350.0,
        ),
        _ => return None,
    })
}
