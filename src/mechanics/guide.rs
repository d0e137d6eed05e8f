//! Guides of straight axes: loads on carriages, life of ball rails, and when a plain guide jams.

use crate::quantity::{Force, Length, Si, Torque, metres, newtons};

/// Distance that the dynamic rating of a ball rail guide stands for, m.
pub const RATED_DISTANCE_M: f64 = 100_000.0;

/// Greatest offset of the drive's line from a plain guide before it jams, the drawer effect.
///
/// `d = b / (2μ)`: past it, friction of the two bearings grows faster than the pull.
///
/// - `spacing`: of the two bearings along travel, > 0
/// - `friction`: coefficient, > 0
///
/// Source: statics with friction at both guide ends (two-point couple).
///
/// ```
/// # use counterpoise::{mechanics::guide, quantity::metres};
/// // 0.2 / (2 · 0.25) = 0.4 m
/// let offset = guide::jamming_offset(metres(0.2), 0.25);
/// assert!((offset.value - 0.4).abs() < 1e-12);
/// ```
pub fn jamming_offset(spacing: Length, friction: f64) -> Length {
    metres(spacing.si() / (2.0 * friction))
}

/// How near a guide is to jamming: 1 is jammed.
///
/// `2·μ·d / b`
///
/// - `friction`: coefficient, ≥ 0
/// - `drive_offset`: of the drive's line from the guide line, ≥ 0
/// - `spacing`: of the two bearings along travel, > 0
///
/// Source: statics with friction at both guide ends (two-point couple).
///
/// ```
/// # use counterpoise::{mechanics::guide, quantity::metres};
/// // 2 · 0.05 · 0.3 / 0.2 = 0.15
/// assert!((guide::binding_ratio(0.05, metres(0.3), metres(0.2)) - 0.15).abs() < 1e-12);
/// ```
pub fn binding_ratio(friction: f64, drive_offset: Length, spacing: Length) -> f64 {
    2.0 * friction * drive_offset.si() / spacing.si()
}

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

/// Load on each of four carriages from a load square to their plane, off their middle.
///
/// `P = F/4 ± F·x/(2b) ± F·y/(2w)`; in the order front near, front far, rear near, rear far, where
/// the load stands to the front and near side.
///
/// - `load`: square to the plane of the carriages
/// - `along`, `across`: of the load from the middle
/// - `spacing`: of the carriages along the rails, `b` > 0
/// - `rails`: distance between the rails, `w` > 0
///
/// Source: stiff plate on four equal springs.
///
/// ```
/// # use counterpoise::{mechanics::guide, quantity::{metres, newtons}};
/// // 2000/4 ± 2000·0.1/0.8 ± 2000·0.05/0.6: 500 + 250 + 166.7 = 916.7 N on the nearest
/// let loads = guide::on_four(newtons(2000.0), metres(0.1), metres(0.05), metres(0.4), metres(0.3));
/// assert!((loads[0].value - 916.7).abs() < 0.1);
/// ```
pub fn on_four(
    load: Force,
    along: Length,
    across: Length,
    spacing: Length,
    rails: Length,
) -> [Force; 4] {
    let f = load.si();
    let pitch = f * along.si() / (2.0 * spacing.si());
    let roll = f * across.si() / (2.0 * rails.si());
    [
        f / 4.0 + pitch + roll,
        f / 4.0 + pitch - roll,
        f / 4.0 - pitch + roll,
        f / 4.0 - pitch - roll,
    ]
    .map(newtons)
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

/// Dynamic rating on the 50 km basis from that on the 100 km basis.
///
/// `C50 = C100 · 2^(1/p)`, `p` 3 for balls and 10/3 for rollers: the same life under both.
///
/// - `rating`: on the 100 km basis
/// - `rollers`: whether rollers carry, not balls
///
/// Source: ISO 14728-1 (1.26 and 1.23).
///
/// ```
/// # use counterpoise::{mechanics::guide, quantity::newtons};
/// // 20 kN · 1.2599 = 25.20 kN
/// let rating = guide::rating_50_km(newtons(20_000.0), false);
/// assert!((rating.value - 25_198.4).abs() < 0.1);
/// ```
pub fn rating_50_km(rating: Force, rollers: bool) -> Force {
    let exponent = if rollers { 0.3 } else { 1.0 / 3.0 };
    newtons(rating.si() * libm::pow(2.0, exponent))
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
