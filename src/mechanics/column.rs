//! Buckling of straight columns: rods and screws in compression.

use core::f64::consts::PI;

use crate::quantity::{Force, Length, Pressure, Si, newtons};

/// Young's modulus of steel, Pa (method page).
pub const STEEL_MODULUS_PA: f64 = 205e9;
/// Density of steel, kg/m³ (method page).
pub const STEEL_DENSITY_KG_M3: f64 = 7850.0;
/// Yield strength of steel unless a part says otherwise, Pa (method page).
pub const STEEL_YIELD_PA: f64 = 350e6;

/// How the ends of a column are held; the factor `K` of its effective length is the theoretical one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ends {
    /// One built in, one free: `K = 2`.
    FixedFree,
    /// Both pinned: `K = 1`.
    Pinned,
    /// One built in, one pinned: `K = 0.7` (0.699 in theory).
    FixedPinned,
    /// Both built in: `K = 0.5`.
    Fixed,
}

impl Ends {
    /// Effective length over length.
    pub fn factor(self) -> f64 {
        match self {
            Ends::FixedFree => 2.0,
            Ends::Pinned => 1.0,
            Ends::FixedPinned => 0.7,
            Ends::Fixed => 0.5,
        }
    }
}

/// Slenderness past which Euler governs and below which Johnson does: `√(2π²E/Sy)`.
///
/// - `modulus`: Young's modulus; `yield_strength`: of the material, both > 0
///
/// Source: Mott, *Machine Elements in Mechanical Design*, § 6-4 (column constant).
///
/// ```
/// # use counterpoise::{mechanics::column, quantity::pascals};
/// // √(2 π² · 206e9 / 355e6) = √11454 = 107.0
/// let c = column::transition_slenderness(pascals(206e9), pascals(355e6));
/// assert!((c - 107.02).abs() < 0.01);
/// ```
pub fn transition_slenderness(modulus: Pressure, yield_strength: Pressure) -> f64 {
    (2.0 * PI * PI * (modulus / yield_strength).value).sqrt()
}

/// Load at which a round rod buckles, Euler or Johnson by its slenderness.
///
/// Euler `π²EI/(K L)²`; Johnson `A Sy (1 - Sy (K L/r)²/(4π²E))`, with `r = d/4`.
///
/// - `diameter`: of the solid rod, or the root of a thread, > 0
/// - `length`: free length, ≥ 0
/// - `end_factor`: effective over free length `K`; see [`Ends::factor`]
///
/// Source: Budynas & Nisbett, *Shigley's Mechanical Engineering Design*, §§ 4-12 and 4-13.
///
/// ```
/// # use counterpoise::{mechanics::column, quantity::{metres, pascals}};
/// // d 20 mm, L 600 mm, pinned: slenderness 120 > 107, so Euler: π² · 206e9 · 7.854e-9 / 0.36 = 44.36 kN
/// let load = column::critical_load(metres(0.02), metres(0.6), 1.0, pascals(355e6), pascals(206e9));
/// assert!((load.value - 44_356.0).abs() < 1.0);
/// ```
pub fn critical_load(
    diameter: Length,
    length: Length,
    end_factor: f64,
    yield_strength: Pressure,
    modulus: Pressure,
) -> Force {
    let d = diameter.si();
    let area = PI * d * d / 4.0;
    let slenderness = end_factor * length.si() / (d / 4.0);
    let stress = if slenderness > transition_slenderness(modulus, yield_strength) {
        PI * PI * modulus.si() / (slenderness * slenderness)
    } else {
        let sy = yield_strength.si();
        sy * (1.0 - sy * slenderness * slenderness / (4.0 * PI * PI * modulus.si()))
    };
    newtons(area * stress)
}
