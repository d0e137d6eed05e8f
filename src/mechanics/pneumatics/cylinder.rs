//! Cylinder at rest: areas, forces, the air of a cycle, the energy at the end.

use core::f64::consts::PI;

use super::FREE_AIR_PRESSURE_PA;
use crate::quantity::{
    Area, Energy, Force, GaugePressure, Length, Mass, Pressure, Si, Velocity, Volume, cubic_metres,
    joules, metres, newtons, square_metres,
};

/// Area of a piston or rod: `A = π d²/4`.
///
/// - `diameter`: of bore or rod, ≥ 0
///
/// Source: geometry.
///
/// ```
/// # use counterpoise::{mechanics::pneumatics::piston_area, quantity::metres};
/// // π · 50²/4 = 1963 mm²
/// assert!((piston_area(metres(0.05)).value - 1.963e-3).abs() < 1e-6);
/// ```
pub fn piston_area(diameter: Length) -> Area {
    let d = diameter.si();
    square_metres(PI * d * d / 4.0)
}

/// Thrust of a cylinder going out, friction aside: `F = p_g · A`.
///
/// - `bore`: > 0; `pressure`: gauge, ≥ 0
///
/// Source: definition of pressure; ISO 15552 and ISO 6432 name the bores.
///
/// ```
/// # use counterpoise::{mechanics::pneumatics::push_force, quantity::{metres, GaugePressure, Si}};
/// // 6 bar on 50 mm: 0.6 N/mm² · 1963 mm² = 1178 N
/// let force = push_force(metres(0.05), GaugePressure::from_si(6e5));
/// assert!((force.value - 1178.1).abs() < 0.1);
/// ```
pub fn push_force(bore: Length, pressure: GaugePressure) -> Force {
    newtons(pressure.si() * piston_area(bore).value)
}

/// Pull of a cylinder going back, friction aside: `F = p_g · (A − A_rod)`.
///
/// - `bore` > `rod` > 0; `pressure`: gauge, ≥ 0
///
/// Source: definition of pressure.
///
/// ```
/// # use counterpoise::{mechanics::pneumatics::pull_force, quantity::{metres, GaugePressure, Si}};
/// // 6 bar on 50 mm less a rod of 20 mm: 0.6 · (1963.5 − 314.2) = 989.6 N
/// let force = pull_force(metres(0.05), metres(0.02), GaugePressure::from_si(6e5));
/// assert!((force.value - 989.6).abs() < 0.1);
/// ```
pub fn pull_force(bore: Length, rod: Length, pressure: GaugePressure) -> Force {
    newtons(pressure.si() * (piston_area(bore).value - piston_area(rod).value))
}

/// Least bore that carries a load at a load factor: `d = √(4 F/(π p_g λ))`.
///
/// - `load`: ≥ 0; `pressure`: gauge, > 0; `load_factor`: load over thrust, 0 < λ ≤ 1
///
/// Source: the thrust solved for the bore.
///
/// ```
/// # use counterpoise::{mechanics::pneumatics::bore_for_load, quantity::{newtons, GaugePressure, Si}};
/// // 1000 N at 6 bar and 0.7: √(4000/(π · 0.42)) = 55.06 mm
/// let bore = bore_for_load(newtons(1000.0), GaugePressure::from_si(6e5), 0.7);
/// assert!((bore.value - 0.05506).abs() < 1e-5);
/// ```
pub fn bore_for_load(load: Force, pressure: GaugePressure, load_factor: f64) -> Length {
    metres((4.0 * load.si() / (PI * pressure.si() * load_factor)).sqrt())
}

/// Free air of one double stroke.
///
/// `V = (V_swept · p_abs + V_dead · p_g)/100 kPa`: the swept volumes are filled from
/// nothing to the supply, the dead volumes from the atmosphere to the supply.
///
/// - `swept`: both strokes together, `(2A − A_rod) S`, ≥ 0
/// - `dead`: clearances and tubes of both ends, ≥ 0
/// - `pressure`: gauge, ≥ 0
///
/// Source: Boyle's law to the reference atmosphere of ISO 8778.
///
/// ```
/// # use counterpoise::{mechanics::pneumatics::free_air_per_cycle, quantity::{cubic_metres, GaugePressure, Si}};
/// // 0.7226 L swept at 6 bar gauge: 0.7226 · 7.01325 = 5.068 L, and 0.05 L dead · 6 = 0.3 L
/// let air = free_air_per_cycle(cubic_metres(0.7226e-3), cubic_metres(0.05e-3), GaugePressure::from_si(6e5));
/// assert!((air.value - 5.368e-3).abs() < 1e-6);
/// ```
pub fn free_air_per_cycle(swept: Volume, dead: Volume, pressure: GaugePressure) -> Volume {
    let gauge = pressure.si();
    cubic_metres((swept.si() * pressure.absolute().si() + dead.si() * gauge) / FREE_AIR_PRESSURE_PA)
}

/// Volume of a receiver that gives so much free air while its pressure falls.
///
/// `V = V_free · 100 kPa/Δp`, at constant temperature.
///
/// - `free_air`: that it gives, m³ at the reference atmosphere, ≥ 0
/// - `drop`: fall of its pressure, > 0
///
/// Source: Boyle's law to the reference atmosphere of ISO 8778.
///
/// ```
/// # use counterpoise::{mechanics::pneumatics::receiver_volume, quantity::{cubic_metres, pascals}};
/// // 60 L of free air while the pressure falls by 1.5 bar: 60 · 1/1.5 = 40 L
/// let v = receiver_volume(cubic_metres(0.06), pascals(1.5e5));
/// assert!((v.value - 0.04).abs() < 1e-9);
/// ```
pub fn receiver_volume(free_air: Volume, drop: Pressure) -> Volume {
    cubic_metres(free_air.si() * FREE_AIR_PRESSURE_PA / drop.si())
}

/// Energy that a cushion or shock absorber takes at the end of a stroke: `E = ½ M v² + F s`.
///
/// - `mass`: all that moves, > 0; `speed`: as it arrives, ≥ 0
/// - `force`: of drive and weight along the stroke; negative where weight helps to stop
/// - `length`: of cushion or absorber stroke, ≥ 0
///
/// Source: work and energy; Budynas & Nisbett, *Shigley's Mechanical Engineering Design*, § 4-17 (impact by energy).
///
/// ```
/// # use counterpoise::{mechanics::pneumatics::end_energy, quantity::{kilograms, metres, metres_per_second, newtons}};
/// // ½ · 20 · 0.8² = 6.4 J, and 900 N over 20 mm = 18 J
/// let energy = end_energy(kilograms(20.0), metres_per_second(0.8), newtons(900.0), metres(0.02));
/// assert!((energy.value - 24.4).abs() < 1e-9);
/// ```
pub fn end_energy(mass: Mass, speed: Velocity, force: Force, length: Length) -> Energy {
    joules(0.5 * mass.si() * speed.si() * speed.si() + force.si() * length.si())
}
