//! Laws and scratch jobs of the hand crank.

use super::HandCrank;
use crate::demand::{Assist, Counterweight};
use crate::family::sample;

fn counterweight() -> Assist {
    Assist::Counterweight(Counterweight {
        mass_kg: 80.0,
        travel_ratio: 1.0,
        sheaves: 2,
        loss_per_sheave: 0.02,
        sheave_mass_kg: 1.0,
    })
}

#[test]
fn door_trains() {
    for cycles in [4.0, 0.5] {
        for assist in [Assist::None, counterweight()] {
            let mut job = sample::door();
            job.timing.cycles_per_hour = cycles;
            let times = [40.0, 31.5, 25.0, 20.0, 16.0, 12.5, 10.0, 8.0, 6.3];
            sample::build(&HandCrank, &job, assist, &times, |bench| {
                sample::print(
                    &format!("door, {cycles} cycles/h, {}", assist.name()),
                    bench,
                );
                assert!(!bench.sound.is_empty());
            });
        }
    }
}
