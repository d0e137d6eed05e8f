//! The arm that swings on: how fast it swings with the load on, against how long the motion is sped up.

use crate::recompute::base::{Case, at, quantity};

/// Modulus in Pa and density in kg/m³ of what an arm is made of.
fn stuff(name: &str) -> (f64, f64) {
    match name {
        "aluminium" => (70e9, 2700.0),
        "oak" => (12.27e9, 700.0),
        "pine" => (8.55e9, 450.0),
        _ => (205e9, 7850.0),
    }
}

/// Second moment and area of the section.
fn section(case: &Case) -> (f64, f64) {
    let (b, t) = (
        case.or("structure.width", f64::NAN),
        case.or("structure.wall", 0.0),
    );
    let pi = std::f64::consts::PI;
    match case.words("structure.shape") {
        "round" => (pi * b.powi(4) / 64.0, pi * b * b / 4.0),
        "tube" => {
            let c = b - 2.0 * t;
            (
                pi * (b.powi(4) - c.powi(4)) / 64.0,
                pi * (b * b - c * c) / 4.0,
            )
        }
        _ => {
            let h = case.or("structure.height", f64::NAN);
            let (c, k) = if t > 0.0 {
                (b - 2.0 * t, h - 2.0 * t)
            } else {
                (0.0, 0.0)
            };
            ((b * h.powi(3) - c * k.powi(3)) / 12.0, b * h - c * k)
        }
    }
}

/// Swings a second, the ramp, how many swings it lasts, how far it swings on, and the travel time that would do.
pub fn springy(case: &Case) -> Option<Vec<f64>> {
    if !case.given("structure") {
        return None;
    }
    let (modulus, density) = stuff(case.words("structure.material"));
    let (second, area) = section(case);
    let long = case.or("structure.length", f64::NAN);
    let (spring, part) = match case.words("structure.support") {
        "both_ends" => (48.0, 17.0 / 35.0),
        _ => (3.0, 33.0 / 140.0),
    };
    let mass = case.or("motion.load.most", f64::NAN) + part * density * area * long;
    let omega = (spring * modulus * second / long.powi(3) / mass).sqrt();
    let hertz = omega / std::f64::consts::TAU;
    let ramps = at(&case.study["requirements"], "motion.ramps");
    let shorter = match case.words("motion.law") {
        "" | "trapezoid" => ramps
            .and_then(|list| list.as_array())
            .map_or(1.0 / 3.0, |list| {
                let each = |ramp| quantity(ramp).unwrap_or(f64::NAN);
                list.iter().map(each).fold(1.0, f64::min)
            }),
        _ => 0.5,
    };
    let ramp = shorter * case.time();
    let least = case.rule("structure_swings_least");
    let accelerates = case.option["demand"]["worst"]["peak_acceleration_m_s2"].as_f64()?;
    let on = 2.0 * accelerates / (omega * omega);
    (hertz * ramp < least).then(|| {
        vec![
            hertz,
            ramp,
            hertz * ramp,
            least,
            on,
            least / (hertz * shorter),
        ]
    })
}
