//! Air cylinders: forces, flow, free air, and the stroke as it really goes.

mod cylinder;
mod flow;
mod rosenbrock;
mod stroke;

pub use super::hydraulics::piston_area;
pub use cylinder::{end_energy, free_air_per_cycle, receiver_volume};
pub use flow::{Path, in_series, tube};
pub use stroke::{AirStroke, Arrival, COARSE, FINE, StrokeOutcome};

/// Density of free air, kg/m³ (ISO 8778 reference, as used by ISO 6358).
pub const FREE_AIR_DENSITY_KG_M3: f64 = 1.185;
/// Absolute pressure of free air, Pa (ISO 8778).
pub const FREE_AIR_PRESSURE_PA: f64 = 100_000.0;
/// Temperature of free air, K (ISO 8778).
pub const FREE_AIR_TEMPERATURE_K: f64 = 293.15;
/// Specific gas constant of dry air, J/(kg·K).
pub const GAS_CONSTANT: f64 = 287.05;
