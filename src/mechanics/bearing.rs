//! Rating life of rolling contacts: ball nuts and bearings.

use crate::quantity::{Force, Si};

/// Revolutions that nine in ten outlive.
///
/// `L10 = (C/P)^p · 10⁶`.
///
/// - `rating`: dynamic rating on the basis of a million turns, > 0
/// - `load`: equivalent (mean) load, ≥ 0; none gives no end of life
/// - `exponent`: 3 for balls, 10/3 for rollers
///
/// Source: ISO 281:2007, 5.2 (bearings); ISO 3408-5:2006 (ball screws, exponent 3).
///
/// ```
/// # use counterpoise::{mechanics::bearing, quantity::newtons};
/// // (15 kN / 2.5 kN)³ = 216 million turns
/// let life = bearing::rating_life(newtons(15e3), newtons(2.5e3), 3.0);
/// assert!((life / 1e6 - 216.0).abs() < 1e-9);
/// ```
pub fn rating_life(rating: Force, load: Force, exponent: f64) -> f64 {
    if load.si() <= 0.0 {
        return f64::INFINITY;
    }
    libm::pow(rating.si() / load.si(), exponent) * 1e6
}

/// The steady load that wears as much as a load that changes along the way.
///
/// `Fm = (Σ |F|³ s / Σ s)^(1/3)`.
///
/// - `steps`: pairs of load and the way (or turns) made under it, ≥ 0
///
/// Source: ISO 3408-5:2006, equivalent axial load; ISO 281 cube mean.
///
/// ```
/// # use counterpoise::{mechanics::bearing, quantity::newtons};
/// // (2³·500 + 4³·90 + 8³·20)/610 = 20 000/610 = 32.79 kN³, cube root 3.2006 kN
/// let steps = [(newtons(2e3), 500.0), (newtons(4e3), 90.0), (newtons(8e3), 20.0)];
/// assert!((bearing::cube_mean(steps).value - 3200.6).abs() < 0.1);
/// ```
pub fn cube_mean(steps: impl IntoIterator<Item = (Force, f64)>) -> Force {
    let (cubes, way) = steps.into_iter().fold((0.0, 0.0), |(cubes, way), (f, s)| {
        let f = f.si().abs();
        (cubes + f * f * f * s, way + s)
    });
    Force::from_si(if way > 0.0 {
        libm::cbrt(cubes / way)
    } else {
        0.0
    })
}
