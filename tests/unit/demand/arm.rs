//! Unit tests of `demand::arm`.

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
