//! What a person does at a crank.

use core::f64::consts::TAU;

use crate::quantity::{AngularVelocity, Force, Lead, Length, Power, Si, newtons, watts};

/// Force at the handle of a crank.
///
/// `H = F l/(2π R η)`: over one turn, work at the handle equals work on the load plus friction.
///
/// - `force`: of the load along the travel, N, ≥ 0
/// - `lead`: travel per turn of the crank, m, > 0
/// - `radius`: of the crank, m, > 0
/// - `efficiency`: from crank to load, 0 < η ≤ 1
///
/// Source: work balance over one turn.
///
/// ```
/// # use counterpoise::{mechanics::human, quantity::{Lead, Si, metres, newtons}};
/// // 834 N · 0.0314 m / (2π · 0.25 m · 0.9) = 26.19/1.414 = 18.52 N
/// let hand = human::hand_force(newtons(834.0), Lead::from_si(0.0314), metres(0.25), 0.9);
/// assert!((hand.value - 18.52).abs() < 0.01);
/// ```
pub fn hand_force(force: Force, lead: Lead, radius: Length, efficiency: f64) -> Force {
    newtons(force.si() * lead.si() / (TAU * radius.si() * efficiency))
}

/// Turns of a crank for a travel.
///
/// `n = S/l`.
///
/// - `travel`: m, ≥ 0
/// - `lead`: travel per turn of the crank, m, > 0
///
/// Source: definition of the travel per turn.
///
/// ```
/// # use counterpoise::{mechanics::human, quantity::{Lead, Si, metres}};
/// // 900 mm at 31.4 mm a turn: 28.66 turns
/// assert!((human::crank_turns(metres(0.9), Lead::from_si(0.0314)) - 28.66).abs() < 0.01);
/// ```
pub fn crank_turns(travel: Length, lead: Lead) -> f64 {
    travel.si() / lead.si()
}

/// Power of a person at a crank.
///
/// `P = H R ω`.
///
/// - `force`: at the handle, along its path, N, ≥ 0
/// - `radius`: of the crank, m, > 0
/// - `speed`: of the crank, rad/s, ≥ 0
///
/// Source: definition of power.
///
/// ```
/// # use counterpoise::{mechanics::human, quantity::{metres, newtons, rpm}};
/// // 130 N · 0.4 m · 25 rpm (2.618 rad/s) = 136.1 W
/// let power = human::crank_power(newtons(130.0), metres(0.4), rpm(25.0));
/// assert!((power.value - 136.1).abs() < 0.1);
/// ```
pub fn crank_power(force: Force, radius: Length, speed: AngularVelocity) -> Power {
    watts(force.si() * radius.si() * speed.si())
}
