//! Wire ropes over sheaves: strength, stretch, bending, and what a sheave costs.

use crate::quantity::{
    Angle, Area, Force, G_M_S2, Length, Mass, MomentOfInertia, Pressure, Si, kilograms, metres,
    newtons, pascals,
};

/// Minimum breaking force of a wire rope.
///
/// `Fmin = K · d² · Rr`
///
/// - `diameter`: nominal, > 0
/// - `factor`: breaking force factor of the rope's class, 0.25 to 0.45 (6x19 with fibre core 0.33)
/// - `grade`: tensile grade of the wires, 1570 to 2160 `MPa`
///
/// Source: EN 12385-4 and ISO 2408 (factors from memory).
///
/// ```
/// # use counterpoise::{mechanics::rope, quantity::{metres, pascals}};
/// // 0.33 · 0.010² · 1770e6 = 58.41 kN
/// let force = rope::breaking_force(metres(0.010), 0.33, pascals(1770e6));
/// assert!((force.value - 58_410.0).abs() < 1.0);
/// ```
pub fn breaking_force(diameter: Length, factor: f64, grade: Pressure) -> Force {
    newtons(factor * diameter.si() * diameter.si() * grade.si())
}

/// Thinnest rope for a pull, before the next nominal diameter is taken.
///
/// `d = √(Zp · S / (K · Rr))`
///
/// - `pull`: greatest rope pull, ≥ 0
/// - `design_factor`: breaking force over pull, > 1
/// - `factor`, `grade`: as in [`breaking_force`]
///
/// Source: ISO 4308-1 with EN 12385-4.
///
/// ```
/// # use counterpoise::{mechanics::rope, quantity::{newtons, pascals}};
/// // √(4 · 10 000 / (0.33 · 1770e6)) = √(6.848e-5) = 8.275 mm
/// let d = rope::least_diameter(newtons(10_000.0), 4.0, 0.33, pascals(1770e6));
/// assert!((d.value - 8.275e-3).abs() < 1e-6);
/// ```
pub fn least_diameter(pull: Force, design_factor: f64, factor: f64, grade: Pressure) -> Length {
    metres((design_factor * pull.si() / (factor * grade.si())).sqrt())
}

/// Greatest tension of the rope that a counterweight hangs on.
///
/// `S = mc · (g + k·|a|)`: the weight is slowed or sped up with `k` times the load's acceleration.
///
/// - `counterweight`: its mass, ≥ 0
/// - `travel_ratio`: its travel over the load's, > 0
/// - `acceleration`: of the load, m/s², either sign
///
/// Source: Newton's second law.
///
/// ```
/// # use counterpoise::{mechanics::rope, quantity::kilograms};
/// // 250 · (9.80665 + 1 · 0.6) = 2602 N
/// let tension = rope::tension(kilograms(250.0), 1.0, 0.6);
/// assert!((tension.value - 2601.7).abs() < 0.1);
/// ```
pub fn tension(counterweight: Mass, travel_ratio: f64, acceleration: f64) -> Force {
    newtons(counterweight.si() * (G_M_S2 + travel_ratio * acceleration.abs()))
}

/// Acceleration of a counterweight over free fall: at 1 its rope goes slack.
///
/// `k·|a| / g`
///
/// - `travel_ratio`: its travel over the load's, > 0
/// - `acceleration`: of the load, m/s², either sign
///
/// Source: Newton's second law; a weight in free fall carries no tension.
///
/// ```
/// # use counterpoise::mechanics::rope;
/// // 2 · 3 / 9.80665 = 0.6118
/// assert!((rope::slackness(2.0, 3.0) - 0.6118).abs() < 1e-4);
/// ```
pub fn slackness(travel_ratio: f64, acceleration: f64) -> f64 {
    travel_ratio * acceleration.abs() / G_M_S2
}

/// Load on a sheave's pin from the rope over it.
///
/// `R = 2 · S · sin(α/2)`: both falls pull alike, α apart from straight on.
///
/// - `tension`: of the rope, ≥ 0
/// - `wrap`: angle of the rope about the sheave, 0 to π
///
/// Source: equilibrium of two equal forces.
///
/// ```
/// # use core::f64::consts::PI;
/// # use counterpoise::{mechanics::rope, quantity::{Angle, Si, newtons}};
/// // A quarter turn: √2 · 1000 = 1414 N; half a turn: 2000 N
/// let quarter = rope::pin_load(newtons(1000.0), Angle::from_si(PI / 2.0));
/// assert!((quarter.value - 1414.2).abs() < 0.1);
/// let half = rope::pin_load(newtons(1000.0), Angle::from_si(PI));
/// assert!((half.value - 2000.0).abs() < 0.1);
/// ```
pub fn pin_load(tension: Force, wrap: Angle) -> Force {
    newtons(2.0 * tension.si() * libm::sin(wrap.si() / 2.0))
}

/// Inertia of a turning sheave, seen as mass at the load.
///
/// `m = J · ks² / R²`
///
/// - `inertia`: about the pin, ≥ 0
/// - `diameter`: of the rope's centre line, > 0
/// - `speed_ratio`: rope speed against the sheave over load speed, ≥ 0
///
/// Source: equal kinetic energy.
///
/// ```
/// # use counterpoise::{mechanics::rope, quantity::{kilogram_square_metres, metres}};
/// // 0.9 · 1² / 0.12² = 62.5 kg
/// let mass = rope::sheave_mass(kilogram_square_metres(0.9), metres(0.24), 1.0);
/// assert!((mass.value - 62.5).abs() < 1e-9);
/// ```
pub fn sheave_mass(inertia: MomentOfInertia, diameter: Length, speed_ratio: f64) -> Mass {
    let radius = diameter.si() / 2.0;
    kilograms(inertia.si() * speed_ratio * speed_ratio / (radius * radius))
}

/// Elastic stretch of a rope.
///
/// `δ = S · L / (A · E)`
///
/// - `pull`: ≥ 0
/// - `length`: under that pull, ≥ 0
/// - `metal_area`: section of all wires, > 0
/// - `modulus`: of the rope, not of its wire; near 83 `GPa` for 6x19
///
/// Source: Budynas & Nisbett, *Shigley's Mechanical Engineering Design*, § 17-6.
///
/// ```
/// # use counterpoise::{mechanics::rope, quantity::{metres, newtons, pascals, square_metres}};
/// // 5000 · 12 / (40e-6 · 83e9) = 18.07 mm
/// let stretch = rope::elongation(newtons(5000.0), metres(12.0), square_metres(40e-6), pascals(83e9));
/// assert!((stretch.value - 0.018_07).abs() < 1e-5);
/// ```
pub fn elongation(pull: Force, length: Length, metal_area: Area, modulus: Pressure) -> Length {
    metres(pull.si() * length.si() / (metal_area.value * modulus.si()))
}

/// Bending stress in the outer wires of a rope on a sheave.
///
/// `σ = E · dw / D`
///
/// - `modulus`: of the rope
/// - `wire`: diameter of an outer wire, > 0
/// - `sheave`: diameter, > 0
///
/// Source: Budynas & Nisbett, *Shigley's Mechanical Engineering Design*, § 17-6.
///
/// ```
/// # use counterpoise::{mechanics::rope, quantity::{metres, pascals}};
/// // 83e9 · 0.0006 / 0.25 = 199.2 MPa
/// let stress = rope::bending_stress(pascals(83e9), metres(0.0006), metres(0.25));
/// assert!((stress.value - 199.2e6).abs() < 1.0);
/// ```
pub fn bending_stress(modulus: Pressure, wire: Length, sheave: Length) -> Pressure {
    pascals(modulus.si() * wire.si() / sheave.si())
}

/// Counterweight that balances two loads best, with constant friction and no process force.
///
/// `mc = ((m1 + m2)·g·sinθ + (m2 - m1)·a + Ff2 - Ff1) / (2·k·g)`: the pull out with the most load
/// and the pull back with the least are then the same.
///
/// - `least`, `most`: loads, ≥ 0
/// - `sine`: of the incline, > 0
/// - `acceleration`: peak, m/s², ≥ 0
/// - `friction_difference`: with the most load less that with the least
/// - `travel_ratio`: counterweight's travel over the load's, > 0
///
/// Source: Newton's second law for both; the greatest of two lines is least where they cross.
///
/// ```
/// # use counterpoise::{mechanics::rope, quantity::{kilograms, newtons}};
/// // ((80 + 85) · 9.80665 + 5 · 0.5 + 2) / (2 · 9.80665) = 82.73 kg
/// let mass = rope::best_counterweight(kilograms(80.0), kilograms(85.0), 1.0, 0.5, newtons(2.0), 1.0);
/// assert!((mass.value - 82.73).abs() < 0.01);
/// ```
pub fn best_counterweight(
    least: Mass,
    most: Mass,
    sine: f64,
    acceleration: f64,
    friction_difference: Force,
    travel_ratio: f64,
) -> Mass {
    let (m1, m2) = (least.si(), most.si());
    kilograms(
        ((m1 + m2) * G_M_S2 * sine + (m2 - m1) * acceleration + friction_difference.si())
            / (2.0 * travel_ratio * G_M_S2),
    )
}
