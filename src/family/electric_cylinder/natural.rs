//! Cylinders at the fastest time that their own line gives.

use std::collections::BTreeMap;

use super::checks::{checks, double_strokes, force, running, stroke};
use super::{CylinderWork, fed, speed_at};
use crate::catalog::ElectricCylinder;
use crate::family::electric::Electrics;
use crate::family::{Ask, Bench, Check};

/// What is known of times at which some cylinder is the fastest, by their bits: many a line gives the same.
#[derive(Default)]
pub(super) struct Known {
    thrusts_n: BTreeMap<u64, f64>,
    works: BTreeMap<u64, CylinderWork>,
}

impl Known {
    fn thrust_n(&mut self, ask: &Ask, time_s: f64) -> f64 {
        let thrust = || ask.book.thrust_n(&ask.assist.assist, time_s);
        *self
            .thrusts_n
            .entry(time_s.to_bits())
            .or_insert_with(thrust)
    }
    fn work(&mut self, ask: &Ask, time_s: f64) -> &CylinderWork {
        let work = || CylinderWork::new(ask, ask.demand(time_s));
        self.works.entry(time_s.to_bits()).or_insert_with(work)
    }
}

/// Offers a cylinder at the fastest time its line gives, where that lies inside the design times.
pub(super) fn natural<'a>(
    ask: &Ask<'a>,
    electrics: &Electrics<'a>,
    part: &'a ElectricCylinder,
    known: &mut Known,
    bench: &mut Bench<'a>,
) {
    let (Some(longest), Some(shortest)) = (ask.times.first(), ask.times.last()) else {
        return;
    };
    let travel_per_time = ask.book.axis().unit_speed_m();
    // From the force at the longest time; twice corrected by the force at the time it gives, and rounded up.
    let mut time_s = *longest;
    for _ in 0..3 {
        let speed = speed_at(part, known.thrust_n(ask, time_s));
        if speed <= 0.0 {
            return;
        }
        time_s = round_up(travel_per_time / speed);
        if time_s <= *shortest || time_s >= *longest {
            return;
        }
    }
    // What the part cannot do whatever the rest of the demand is not worth working that out.
    let cheap = [
        stroke(ask, part),
        double_strokes(ask, part),
        running(ask, part, 2.0 * time_s),
        force(ask, part, known.thrust_n(ask, time_s)),
    ];
    if !cheap.iter().all(Check::passes) {
        return;
    }
    let work = known.work(ask, time_s);
    let checks = checks(ask, part, work);
    if checks.iter().all(Check::passes) {
        for drive in fed(ask, electrics, part, work, &checks) {
            bench.offer(drive);
        }
    }
}

/// Up to the next of three significant digits.
fn round_up(value: f64) -> f64 {
    let step = libm::pow(10.0, libm::floor(libm::log10(value)) - 2.0);
    libm::ceil(value / step - 1e-9) * step
}
