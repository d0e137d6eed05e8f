//! Guides of straight axes: loads on carriages, life of ball rails, and when a plain guide jams.

use crate::quantity::{Force, Length, Si, Torque, metres, newtons};

/// Distance that the dynamic rating of a ball rail guide stands for, m.
pub const RATED_DISTANCE_M: f64 = 100_000.0;

/// Load on each of two carriages of one rail from a couple in the plane of travel.
///
/// `P = M / b`
///
/// - `couple`: about the middle of the carriages, ≥ 0
/// - `spacing`: of the carriages along the rail, > 0
///
/// Source: balance of moments.
///
/// ```
/// # use counterpoise::{mechanics::guide, quantity::{metres, newton_metres}};
/// // 800 N hanging 0.25 m off the rail, carriages 0.2 m apart: 200 / 0.2 = 1000 N
/// let load = guide::couple_on_two(newton_metres(200.0), metres(0.2));
/// assert!((load.value - 1000.0).abs() < 1e-9);
/// ```
pub fn couple_on_two(couple: Torque, spacing: Length) -> Force {
    newtons(couple.si() / spacing.si())
}

/// Load that would tire the balls of one carriage as much as a couple across the rail does.
///
/// `P = 2·M / s`: the couple is borne by the ball rows, about half the rail's width to either side.
///
/// - `couple`: across the rail, on one carriage, ≥ 0
/// - `size`: width of the rail, > 0
///
/// Source: balance of moments on two rows of balls; a data sheet's moment rating is near `C0·s/2`
/// (common practice, no source).
///
/// ```
/// # use counterpoise::{mechanics::guide, quantity::{metres, newton_metres}};
/// // 2 · 15 / 0.015 = 2000 N
/// let load = guide::couple_across(newton_metres(15.0), metres(0.015));
/// assert!((load.value - 2000.0).abs() < 1e-9);
/// ```
pub fn couple_across(couple: Torque, size: Length) -> Force {
    newtons(2.0 * couple.si() / size.si())
}

/// Distance that nine in ten ball rail guides live through.
///
/// `L10 = 100 km · (C/P)³`
///
/// - `rating`: dynamic, on the 100 km basis, > 0
/// - `load`: equivalent, ≥ 0; no load gives no end
///
/// Source: ISO 14728-1.
///
/// ```
/// # use counterpoise::{mechanics::guide, quantity::newtons};
/// // 100 km · (20/3)³ = 100 km · 296.3 = 29 630 km
/// let life = guide::rail_life(newtons(20_000.0), newtons(3000.0));
/// assert!((life.value - 29.63e6).abs() < 1e4);
/// ```
pub fn rail_life(rating: Force, load: Force) -> Length {
    let ratio = rating.si() / load.si();
    metres(RATED_DISTANCE_M * ratio * ratio * ratio)
}

/// Deflection amid a shaft between two end supports, under two bushes that stand at its middle.
///
/// `δ = P · a · (3 L² − 4 a²) / (24 · E · I)`, `a = (L − b)/2`, `I = π d⁴/64`
///
/// - `load`: on each of the two bushes, ≥ 0
/// - `spacing`: of the bushes, `b`, 0 to `span`
/// - `span`: between the end supports, which let the shaft turn, > 0
/// - `diameter`: of the shaft, > 0
/// - `modulus_pa`: of its material, > 0
///
/// Source: beam on two supports under two equal loads as far from its ends, Shigley's *Mechanical Engineering Design*,
/// table A-9, twin loads.
///
/// ```
/// # use counterpoise::{mechanics::guide, quantity::{metres, newtons}};
/// // a = 0.4 m, I = 7854 mm⁴: 100·0.4·(3 − 0.64)/(24·205·10⁹·7.854·10⁻⁹) = 94.4/38 642 = 2.443 mm
/// let sag = guide::shaft_deflection(newtons(100.0), metres(0.2), metres(1.0), metres(0.02), 205e9);
/// assert!((sag.value - 2.443e-3).abs() < 1e-6);
/// // With both bushes on one spot it is a load of 2 P at the middle: 2·P·L³/(48·E·I) = 2.588 mm
/// let spot = guide::shaft_deflection(newtons(100.0), metres(0.0), metres(1.0), metres(0.02), 205e9);
/// assert!((spot.value - 2.588e-3).abs() < 1e-6);
/// ```
pub fn shaft_deflection(
    load: Force,
    spacing: Length,
    span: Length,
    diameter: Length,
    modulus_pa: f64,
) -> Length {
    let (l, d) = (span.si(), diameter.si());
    let a = (l - spacing.si()) / 2.0;
    let second_moment = core::f64::consts::PI / 64.0 * d * d * d * d;
    metres(load.si() * a * (3.0 * l * l - 4.0 * a * a) / (24.0 * modulus_pa * second_moment))
}
