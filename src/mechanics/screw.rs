//! Ball screws and sliding screws: torque, self-locking, whirling, pressure and wear.

use core::f64::consts::{PI, TAU};

use crate::quantity::{
    AngularVelocity, Force, Lead, Length, Pressure, Si, Torque, metres, newton_metres, pascals,
    radians_per_second,
};

/// Half the angle of the ISO metric trapezoidal thread, rad (ISO 2901: 30° in all).
pub const TRAPEZOIDAL_HALF_ANGLE: f64 = PI / 12.0;
/// First bending eigenvalue `λ` of a shaft built in at one end and simply supported at the other.
pub const FIXED_SUPPORTED: f64 = 3.926_602_312;
/// The same, built in at one end, free at the other.
pub const FIXED_FREE: f64 = 1.875_104_069;
/// The same, simply supported at both ends.
pub const SUPPORTED: f64 = PI;

/// Torque that turns a ball screw against an axial load.
///
/// `T = F · l / (2π · η)`: over one turn, work in equals work out plus friction.
///
/// - `thrust`: axial load on the nut, guide friction included
/// - `lead`: travel per turn; a two-start screw has twice its pitch
/// - `efficiency`: driving forward, 0 < η ≤ 1
///
/// Source: Budynas & Nisbett, *Shigley's Mechanical Engineering Design*, § 8-2.
///
/// ```
/// # use counterpoise::{mechanics::screw, quantity::{Lead, Si, newtons}};
/// // 3000 · 0.005/(2π · 0.9) = 2.653 N·m
/// let torque = screw::drive_torque(newtons(3000.0), Lead::from_si(0.005), 0.9);
/// assert!((torque.value - 2.653).abs() < 1e-3);
/// ```
pub fn drive_torque(thrust: Force, lead: Lead, efficiency: f64) -> Torque {
    newton_metres(thrust.si() * lead.si() / (TAU * efficiency))
}

/// Efficiency of a ball screw that its load drives.
///
/// `η' = max(0, 2 - 1/η)`: the same friction work, taken from the load.
///
/// - `efficiency`: driving forward, 0 < η ≤ 1
///
/// Source: the usual approximation of ISO 3408-5 style efficiency pairs.
///
/// ```
/// // 2 - 1/0.9 = 0.8889
/// assert!((counterpoise::mechanics::screw::reverse_efficiency(0.9) - 0.8889).abs() < 1e-4);
/// ```
pub fn reverse_efficiency(efficiency: f64) -> f64 {
    (2.0 - 1.0 / efficiency).max(0.0)
}

/// Torque with which an axial load drives a ball screw backward.
///
/// `T' = F · l · η' / (2π)`.
///
/// - `thrust`, `lead`, `efficiency`: as for [`drive_torque`]; `η'` is [`reverse_efficiency`]
///
/// Source: Budynas & Nisbett, *Shigley's Mechanical Engineering Design*, § 8-2 (energy balance).
///
/// ```
/// # use counterpoise::{mechanics::screw, quantity::{Lead, Si, newtons}};
/// // 3000 · 0.005 · 0.8889/(2π) = 2.122 N·m
/// let torque = screw::back_drive_torque(newtons(3000.0), Lead::from_si(0.005), 0.9);
/// assert!((torque.value - 2.122).abs() < 1e-3);
/// ```
pub fn back_drive_torque(thrust: Force, lead: Lead, efficiency: f64) -> Torque {
    newton_metres(thrust.si() * lead.si() * reverse_efficiency(efficiency) / TAU)
}

/// Torque on the thread of a sliding screw that moves its load forward ("raises" it).
///
/// `T = (F dm/2)(l + π f dm secα)/(π dm - f l secα)`.
///
/// - `thrust`: axial load, ≥ 0; `mean_diameter` > 0; `lead`: travel per turn
/// - `friction`: of the thread, 0…1; `half_angle`: of the thread in the axial plane, rad
///
/// Source: Budynas & Nisbett, *Shigley's Mechanical Engineering Design*, eq. 8-5.
///
/// ```
/// # use counterpoise::{mechanics::screw, quantity::{Lead, Si, metres, newtons}};
/// // 6400 N, dm 30, l 8, f 0.08, square: 96·(8 + 7.540)/(94.248 - 0.64) = 15.94 N·m
/// let torque = screw::raise_torque(newtons(6400.0), metres(0.03), Lead::from_si(0.008), 0.08, 0.0);
/// assert!((torque.value - 15.94).abs() < 5e-3);
/// ```
pub fn raise_torque(
    thrust: Force,
    mean_diameter: Length,
    lead: Lead,
    friction: f64,
    half_angle: f64,
) -> Torque {
    let (d, l, f) = (
        mean_diameter.si(),
        lead.si(),
        friction / libm::cos(half_angle),
    );
    newton_metres(thrust.si() * d / 2.0 * (l + PI * f * d) / (PI * d - f * l))
}

/// Torque on the thread of a sliding screw that lets its load move back; negative where the load drives the screw.
///
/// `T = (F dm/2)(π f dm secα - l)/(π dm + f l secα)`.
///
/// - inputs as for [`raise_torque`]
///
/// Source: Budynas & Nisbett, *Shigley's Mechanical Engineering Design*, eq. 8-2 with the secant of 8-5.
///
/// ```
/// # use counterpoise::{mechanics::screw, quantity::{Lead, Si, metres, newtons}};
/// // 96·(7.540 - 8)/(94.248 + 0.64) = -0.466 N·m
/// let torque = screw::lower_torque(newtons(6400.0), metres(0.03), Lead::from_si(0.008), 0.08, 0.0);
/// assert!((torque.value + 0.466).abs() < 1e-3);
/// ```
pub fn lower_torque(
    thrust: Force,
    mean_diameter: Length,
    lead: Lead,
    friction: f64,
    half_angle: f64,
) -> Torque {
    let (d, l, f) = (
        mean_diameter.si(),
        lead.si(),
        friction / libm::cos(half_angle),
    );
    newton_metres(thrust.si() * d / 2.0 * (PI * f * d - l) / (PI * d + f * l))
}

/// Torque lost in the collar or thrust bearing of a screw.
///
/// `T = F fc dc/2`.
///
/// - `thrust` ≥ 0; `friction`: of the collar; `mean_diameter`: at which it acts
///
/// Source: Budynas & Nisbett, *Shigley's Mechanical Engineering Design*, eq. 8-6.
///
/// ```
/// # use counterpoise::{mechanics::screw, quantity::{metres, newtons}};
/// // 6400 · 0.08 · 0.02 = 10.24 N·m
/// let torque = screw::collar_torque(newtons(6400.0), 0.08, metres(0.04));
/// assert!((torque.value - 10.24).abs() < 1e-9);
/// ```
pub fn collar_torque(thrust: Force, friction: f64, mean_diameter: Length) -> Torque {
    newton_metres(thrust.si() * friction * mean_diameter.si() / 2.0)
}

/// Least thread friction at which a screw holds its load by itself, no collar counted.
///
/// `f = l cosα/(π dm)`: the lowering torque is zero.
///
/// - `mean_diameter` > 0; `lead`; `half_angle`: as for [`raise_torque`]
///
/// Source: Budynas & Nisbett, *Shigley's Mechanical Engineering Design*, eq. 8-3.
///
/// ```
/// # use counterpoise::{mechanics::screw, quantity::{Lead, Si, metres}};
/// // 8/(π · 30) = 0.0849
/// let least = screw::self_locking_friction(metres(0.03), Lead::from_si(0.008), 0.0);
/// assert!((least - 0.0849).abs() < 1e-4);
/// ```
pub fn self_locking_friction(mean_diameter: Length, lead: Lead, half_angle: f64) -> f64 {
    lead.si() * libm::cos(half_angle) / (PI * mean_diameter.si())
}

/// Pitch (mean) diameter of a trapezoidal thread.
///
/// `d2 = d - P/2`.
///
/// Source: ISO 2904, basic dimensions.
///
/// ```
/// # use counterpoise::{mechanics::screw, quantity::metres};
/// // Tr 16 × 4: 16 - 2 = 14 mm
/// assert!((screw::pitch_diameter(metres(0.016), metres(0.004)).value - 0.014).abs() < 1e-12);
/// ```
pub fn pitch_diameter(nominal: Length, pitch: Length) -> Length {
    metres(nominal.si() - pitch.si() / 2.0)
}

/// Minor diameter of the external trapezoidal thread.
///
/// `d3 = d - P - 2 ac`, crest clearance `ac` 0.15 mm for P = 1.5, 0.25 mm for P 2…5, 0.5 mm for P 6…12 mm, 1 mm above.
///
/// Source: ISO 2904, basic dimensions; ISO 2901 for the clearance.
///
/// ```
/// # use counterpoise::{mechanics::screw, quantity::metres};
/// // Tr 16 × 4: 16 - 4 - 0.5 = 11.5 mm
/// assert!((screw::minor_diameter(metres(0.016), metres(0.004)).value - 0.0115).abs() < 1e-12);
/// ```
pub fn minor_diameter(nominal: Length, pitch: Length) -> Length {
    let p = pitch.si();
    let clearance = match p {
        p if p < 0.001_9 => 0.15e-3,
        p if p < 0.005_5 => 0.25e-3,
        p if p < 0.013 => 0.5e-3,
        _ => 1e-3,
    };
    metres(nominal.si() - p - 2.0 * clearance)
}

/// Speed at which a screw begins to whirl.
///
/// `ω = (λ/L)² √(E I/(ρ A))`, for a round shaft `(λ/L)² (d/4) √(E/ρ)`.
///
/// - `root_diameter` > 0; `length`: unsupported, > 0
/// - `eigenvalue`: `λ`, such as [`FIXED_SUPPORTED`]
/// - `modulus`, `density`: of the shaft, kg/m³
///
/// Source: first bending frequency of a uniform beam (Euler–Bernoulli).
///
/// ```
/// # use counterpoise::{mechanics::screw, quantity::{metres, pascals}};
/// // d 17 mm, L 1 m, fixed-supported: 15.418 · 0.00425 · 5122.7 = 335.7 rad/s = 3205 rpm
/// let speed = screw::critical_speed(metres(0.017), metres(1.0), screw::FIXED_SUPPORTED, pascals(206e9), 7850.0);
/// assert!((speed.value - 335.68).abs() < 0.02);
/// ```
pub fn critical_speed(
    root_diameter: Length,
    length: Length,
    eigenvalue: f64,
    modulus: Pressure,
    density: f64,
) -> AngularVelocity {
    let wave = eigenvalue / length.si();
    radians_per_second(wave * wave * root_diameter.si() / 4.0 * (modulus.si() / density).sqrt())
}

/// Pressure on the thread of a sliding nut.
///
/// `p = F/(π dm (P/2)(L/P)) = 2 F/(π dm L)`: thread height half the pitch, every thread of the nut bearing.
///
/// - `thrust` ≥ 0; `mean_diameter`, `nut_length` > 0
///
/// Source: Budynas & Nisbett, *Shigley's Mechanical Engineering Design*, eq. 8-10.
///
/// ```
/// # use counterpoise::{mechanics::screw, quantity::{metres, newtons}};
/// // 1000 N on dm 14, nut 24 mm: 2000/(π · 14 · 24) = 1.895 MPa
/// let p = screw::nut_pressure(newtons(1000.0), metres(0.014), metres(0.024));
/// assert!((p.value / 1e6 - 1.895).abs() < 1e-3);
/// ```
pub fn nut_pressure(thrust: Force, mean_diameter: Length, nut_length: Length) -> Pressure {
    pascals(2.0 * thrust.si() / (PI * mean_diameter.si() * nut_length.si()))
}

/// Way rubbed by the thread per way travelled.
///
/// `√(π² dm² + l²)/l`.
///
/// - `mean_diameter` > 0, `lead` > 0
///
/// Source: geometry of the helix.
///
/// ```
/// # use counterpoise::{mechanics::screw, quantity::{Lead, Si, metres}};
/// // √(43.98² + 4²)/4 = 11.04
/// assert!((screw::rubbing_ratio(metres(0.014), Lead::from_si(0.004)) - 11.04).abs() < 5e-3);
/// ```
pub fn rubbing_ratio(mean_diameter: Length, lead: Lead) -> f64 {
    let round = PI * mean_diameter.si() / lead.si();
    (round * round + 1.0).sqrt()
}

#[cfg(test)]
#[path = "../../tests/unit/mechanics/screw.rs"]
mod tests;
