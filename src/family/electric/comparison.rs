//! What a check compares, apart from its words: a search asks for the number, the drive that is taken gets the check.

use core::f64::consts::TAU;

use crate::family::Check;
use crate::family::check::utilisation;

/// What is required, times a factor, against what there is.
#[derive(Debug, Clone, Copy)]
pub(in crate::family) struct Headroom {
    required: f64,
    factor: f64,
    available: f64,
}

impl Headroom {
    pub(in crate::family) fn new(required: f64, available: f64) -> Self {
        Self {
            required,
            factor: 1.0,
            available,
        }
    }
    pub(in crate::family) fn with_factor(self, factor: f64) -> Self {
        Self { factor, ..self }
    }
    /// Of two speeds in rad/s, in turns per minute.
    pub(in crate::family) fn speeds(required_rad_s: f64, available_rad_s: f64) -> Self {
        Self::new(rpm(required_rad_s), rpm(available_rad_s))
    }
    /// The part of what there is that is used, as of the check.
    pub(in crate::family) fn used(self) -> f64 {
        utilisation(self.required, self.factor, self.available)
    }
    /// Whether it is the harder of the two.
    pub(super) fn is_harder_than(self, other: Self) -> bool {
        self.required * other.available > other.required * self.available
    }
    pub(in crate::family) fn check(self, id: &'static str, unit: &'static str) -> Check {
        Check::new(id, self.required, self.available, unit).factor(self.factor)
    }
}

/// Turns per minute of a speed in rad/s.
pub(in crate::family) fn rpm(rad_s: f64) -> f64 {
    rad_s * 60.0 / TAU
}
