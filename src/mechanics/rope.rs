//! Wire ropes over sheaves: tension, slack, the load on a pin, and what a sheave weighs in motion.

use crate::quantity::{
    Angle, Force, G_M_S2, Length, Mass, MomentOfInertia, Si, kilograms, newtons,
};

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
