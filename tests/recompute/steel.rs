//! Round steel bars.

use std::f64::consts::PI;

/// Modulus of steel and yield of a bar that states none (method, preamble).
pub const STEEL: f64 = 205e9;
const YIELD: f64 = 350e6;

/// Area of a circle.
pub fn disc(d: f64) -> f64 {
    PI * d * d / 4.0
}

/// What a round strut of an effective length carries: Euler where slender, Johnson where stout.
pub fn strut(d: f64, length: f64) -> f64 {
    let slender = length / (d / 4.0);
    if slender >= (2.0 * PI * PI * STEEL / YIELD).sqrt() {
        disc(d) * PI * PI * STEEL / (slender * slender)
    } else {
        disc(d) * YIELD * (1.0 - YIELD * slender * slender / (4.0 * PI * PI * STEEL))
    }
}
