//! What the arm or beam under the load must carry.

use super::{Axis, Demand};

/// The greatest that the load puts on the arm that carries it, at rest, in the move or in an emergency stop.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct ArmLoad {
    /// Resultant of weight, inertia and process force on the load.
    pub force_n: f64,
    /// Weight and inertia of each kilogram that rides along, such as the arm's own.
    pub felt_m_s2: f64,
    /// Where the load stands then.
    pub position_m: f64,
    /// Greatest acceleration in the move.
    pub acceleration_m_s2: f64,
    /// The load with it, at the most.
    pub load_kg: f64,
}

impl Axis {
    /// What an arm under the load carries, taken over every position, load and direction: of a slide
    /// `√(Q² + (m g cosθ)²)` with `Q = m(a + g sinθ) ± P`; of a hinge what accelerates the load, less its weight.
    pub fn arm_load(&self, demand: &Demand) -> ArmLoad {
        let found = self.arm_load_squared(demand);
        let hinge = demand.hinge.as_ref();
        let along = demand.worst.peak_acceleration_m_s2;
        ArmLoad {
            force_n: found.force_n.sqrt(),
            felt_m_s2: found.felt_m_s2.sqrt(),
            acceleration_m_s2: hinge.map_or(along, |hinge| hinge.peak_acceleration_m_s2),
            load_kg: self.loads_kg[1],
            ..found
        }
    }
}

#[cfg(test)]
#[path = "../../tests/unit/demand/arm.rs"]
mod tests;
