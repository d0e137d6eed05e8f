//! Unit tests of `mechanics::screw`.

use super::*;
use crate::quantity::newtons;

/// Twice as long whirls at a quarter of the speed.
#[test]
fn critical_speed_falls_with_the_square_of_length() {
    let at = |length| {
        critical_speed(
            metres(0.013),
            metres(length),
            FIXED_SUPPORTED,
            pascals(205e9),
            7850.0,
        )
        .si()
    };
    for length in [0.2, 0.5, 1.3] {
        assert!((at(length) / at(2.0 * length) - 4.0).abs() < 1e-9);
    }
}

/// At the least friction that locks, lowering asks for nothing; with more it asks for torque.
#[test]
fn a_thread_locks_where_lowering_asks_for_torque() {
    let (mean, lead) = (metres(0.018), Lead::from_si(0.004));
    let least = self_locking_friction(mean, lead, TRAPEZOIDAL_HALF_ANGLE);
    let lower = |f| lower_torque(newtons(1e3), mean, lead, f, TRAPEZOIDAL_HALF_ANGLE).si();
    assert!(lower(least).abs() < 1e-12);
    assert!(lower(least * 1.1) > 0.0 && lower(least * 0.9) < 0.0);
}
