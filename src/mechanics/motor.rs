//! Motors: inertia at the shaft and speed-torque lines.

use core::f64::consts::PI;

use crate::quantity::{
    AngularVelocity, Length, MomentOfInertia, Si, Torque, kilogram_square_metres, newton_metres,
};

/// Moment of inertia of a solid round bar about its axis.
///
/// `J = π ρ L d⁴/32`.
///
/// - `diameter`, `length` ≥ 0; `density`: kg/m³
///
/// Source: mechanics of solids, any handbook.
///
/// ```
/// # use counterpoise::{mechanics::motor, quantity::metres};
/// // π · 7850 · 1.5 · 0.032⁴/32 = 1.212e-3 kg·m²
/// let j = motor::bar_inertia(metres(0.032), metres(1.5), 7850.0);
/// assert!((j.value - 1.2122e-3).abs() < 1e-7);
/// ```
pub fn bar_inertia(diameter: Length, length: Length, density: f64) -> MomentOfInertia {
    let d2 = diameter.si() * diameter.si();
    kilogram_square_metres(PI * density * length.si() * d2 * d2 / 32.0)
}

/// Torque of a direct-current motor at a speed on its straight line; none at or past the speed without load.
///
/// `T = Ts (1 - n/n0)`.
///
/// - `stall`: torque at rest; `no_load`: speed without load, > 0; `speed` ≥ 0
///
/// Source: any text on electrical machines (permanent-magnet motor on a constant voltage).
///
/// ```
/// # use counterpoise::{mechanics::motor, quantity::{newton_metres, rpm}};
/// // 6 N·m · (1 - 500/600) = 1 N·m
/// let torque = motor::line_torque(newton_metres(6.0), rpm(600.0), rpm(500.0));
/// assert!((torque.value - 1.0).abs() < 1e-9);
/// ```
pub fn line_torque(stall: Torque, no_load: AngularVelocity, speed: AngularVelocity) -> Torque {
    newton_metres((stall.si() * (1.0 - speed.si() / no_load.si())).max(0.0))
}
