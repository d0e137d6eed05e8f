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
    #[must_use]
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
mod tests {
    use super::*;
    use crate::demand::Assist;
    use crate::quantity::{Angle, Si, kilograms, metres};
    use crate::requirements::{LoadRange, Slide};
    use crate::support::{about, axis};

    fn load(incline_deg: f64, time_s: f64) -> ArmLoad {
        let load = LoadRange {
            least: kilograms(10.0),
            most: kilograms(20.0),
        };
        let slide = Slide {
            incline: Angle::from_si(incline_deg.to_radians()),
            travel: metres(0.6),
            load,
            process: Vec::new(),
            ..axis()
        };
        let job = about(&slide);
        let axis = Axis::new(&job, &slide);
        axis.arm_load(&axis.demand(&job, &Assist::None, time_s))
    }

    #[test]
    fn weight_and_inertia_of_a_lift_add_up() {
        // 0.6 m up in 2 s, thirds: v = 0.45 m/s, a = 0.675 m/s²; a stop at 5 m/s² (v²/4 mm is more).
        // Braked on the way down: 20 (9.80665 + 5) = 296.1 N; felt 14.807 m/s².
        let up = load(90.0, 2.0);
        assert!((up.force_n - 296.133).abs() < 0.01, "{up:?}");
        assert!((up.acceleration_m_s2 - 0.675).abs() < 1e-9, "{up:?}");
    }

    #[test]
    fn across_a_level_travel_they_add_as_a_right_angle() {
        // 20 √(9.80665² + 5²) = 220.16 N.
        let level = load(0.0, 2.0);
        assert!((level.force_n - 220.155).abs() < 0.01, "{level:?}");
        assert!((level.felt_m_s2 - 11.0078).abs() < 1e-3, "{level:?}");
    }
}
