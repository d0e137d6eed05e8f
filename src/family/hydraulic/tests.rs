//! Laws and scratch jobs of the hydraulic family.

use super::Hydraulic;
use crate::demand::Assist;
use crate::family::sample;

#[test]
fn press_trains() {
    sample::build(
        &Hydraulic,
        &sample::press(),
        Assist::None,
        &[5.0, 4.0, 3.15, 2.5],
        |bench| {
            sample::print("press 40 kN, 150 mm", bench);
            assert!(!bench.sound.is_empty());
        },
    );
}
