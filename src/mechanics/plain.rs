//! Plain bearings: pressure, rubbing speed, their product, and wear of bushes and ways.

use core::f64::consts::PI;

use crate::quantity::{Force, Length, Si};

/// Pressure of a plain bearing over the area that it covers, Pa.
///
/// `p = F / (w · l)`: of a bush, diameter times length; of a pad, width times length.
///
/// - `load`: square to the surface, ≥ 0
/// - `width`, `length`: of the bearing, > 0
///
/// Source: projected area, Shigley's *Mechanical Engineering Design*, § 12-14.
///
/// ```
/// # use counterpoise::{mechanics::plain, quantity::{metres, newtons}};
/// // 1500 N on 25 × 30 mm: 2 MPa
/// let pressure = plain::pressure_pa(newtons(1500.0), metres(0.025), metres(0.03));
/// assert!((pressure - 2e6).abs() < 1e-6);
/// ```
pub fn pressure_pa(load: Force, width: Length, length: Length) -> f64 {
    load.si() / (width.si() * length.si())
}

/// Speed at which a pin rubs in its bush, m/s.
///
/// `v = π · d · n`
///
/// - `diameter`: of the pin, > 0
/// - `turns_per_s`: ≥ 0
///
/// Source: way round the pin, a turn at a time.
///
/// ```
/// # use counterpoise::{mechanics::plain, quantity::metres};
/// // π · 25 mm · 2/s = 157.1 mm/s
/// assert!((plain::rubbing_speed_m_s(metres(0.025), 2.0) - 0.1571).abs() < 1e-4);
/// ```
pub fn rubbing_speed_m_s(diameter: Length, turns_per_s: f64) -> f64 {
    PI * diameter.si() * turns_per_s
}

/// Pressure times rubbing speed, which the heat of a plain bearing goes with, Pa·m/s.
///
/// `p · v`
///
/// Source: Shigley's *Mechanical Engineering Design*, § 12-15.
///
/// ```
/// # use counterpoise::mechanics::plain;
/// // 2 MPa · 0.1571 m/s = 0.3142 MPa·m/s
/// assert!((plain::pv(2e6, 0.1571) - 0.3142e6).abs() < 1.0);
/// ```
pub fn pv(pressure_pa: f64, speed_m_s: f64) -> f64 {
    pressure_pa * speed_m_s
}

/// Depth worn off a plain bearing, m.
///
/// `h = k · p · s`
///
/// - `rate`: depth per pressure and path rubbed, m²/N
/// - `pressure_pa`: mean over the path
/// - `path_m`: rubbed, ≥ 0
///
/// Source: Archard's law of wear.
///
/// ```
/// # use counterpoise::mechanics::plain;
/// // 2·10⁻¹⁶ m²/N · 0.5 MPa · 1000 km = 0.1 mm
/// assert!((plain::wear_m(2e-16, 0.5e6, 1e6) - 1e-4).abs() < 1e-12);
/// ```
pub fn wear_m(rate: f64, pressure_pa: f64, path_m: f64) -> f64 {
    rate * pressure_pa * path_m
}
