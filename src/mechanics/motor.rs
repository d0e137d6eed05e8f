//! Motors: inertia at the shaft, root-mean-square torque, duty and speed-torque lines.

use core::f64::consts::{PI, TAU};

use crate::quantity::{
    AngularVelocity, Lead, Length, Mass, MomentOfInertia, Si, Time, Torque, kilogram_square_metres,
    newton_metres,
};

/// Inertia that a motor sees through a reducer.
///
/// `J' = J/i²`.
///
/// - `inertia`: of the load; `ratio`: turns of the motor per turn of the load, > 0
///
/// Source: equal kinetic energy at the motor shaft.
///
/// ```
/// # use counterpoise::{mechanics::motor, quantity::kilogram_square_metres};
/// // 2.5/20² = 0.00625 kg·m²
/// let seen = motor::reflected_inertia(kilogram_square_metres(2.5), 20.0);
/// assert!((seen.value - 0.00625).abs() < 1e-12);
/// ```
pub fn reflected_inertia(inertia: MomentOfInertia, ratio: f64) -> MomentOfInertia {
    kilogram_square_metres(inertia.si() / (ratio * ratio))
}

/// Inertia at a screw or pinion of a mass that moves along.
///
/// `J = m (l/2π)²`.
///
/// - `mass` ≥ 0; `lead`: travel per turn
///
/// Source: equal kinetic energy.
///
/// ```
/// # use counterpoise::{mechanics::motor, quantity::{Lead, Si, kilograms}};
/// // 15 · (0.01/2π)² = 3.800e-5 kg·m²
/// let seen = motor::inertia_of_mass(kilograms(15.0), Lead::from_si(0.01));
/// assert!((seen.value - 3.800e-5).abs() < 1e-8);
/// ```
pub fn inertia_of_mass(mass: Mass, lead: Lead) -> MomentOfInertia {
    let arm = lead.si() / TAU;
    kilogram_square_metres(mass.si() * arm * arm)
}

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

/// Root mean square of a torque that changes in steps.
///
/// `T = √(Σ Ti² ti / Σ ti)`.
///
/// - `steps`: torque and how long it lasts
///
/// Source: definition; heat in a winding goes with the square of the torque.
///
/// ```
/// # use counterpoise::{mechanics::motor, quantity::{newton_metres, seconds}};
/// // (20²·0.2 + 8²·1 + 12²·0.2)/2 = 86.4, √ = 9.295 N·m
/// let steps = [(20.0, 0.2), (8.0, 1.0), (-12.0, 0.2), (0.0, 0.6)];
/// let rms = motor::rms_torque(steps.map(|(t, s)| (newton_metres(t), seconds(s))));
/// assert!((rms.value - 9.295).abs() < 1e-3);
/// ```
pub fn rms_torque(steps: impl IntoIterator<Item = (Torque, Time)>) -> Torque {
    let (squares, time) = steps
        .into_iter()
        .fold((0.0, 0.0), |(squares, time), (torque, step)| {
            (
                squares + torque.si() * torque.si() * step.si(),
                time + step.si(),
            )
        });
    newton_metres(if time > 0.0 {
        (squares / time).sqrt()
    } else {
        0.0
    })
}

/// Cyclic duration factor of intermittent periodic duty.
///
/// `ED = run/cycle`.
///
/// - `run`: time under load in a cycle; `cycle` > 0
///
/// Source: IEC 60034-1, duty type S3.
///
/// ```
/// # use counterpoise::{mechanics::motor, quantity::seconds};
/// // 150 s in 600 s: 0.25
/// assert!((motor::duty_factor(seconds(150.0), seconds(600.0)) - 0.25).abs() < 1e-12);
/// ```
pub fn duty_factor(run: Time, cycle: Time) -> f64 {
    run.si() / cycle.si()
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
