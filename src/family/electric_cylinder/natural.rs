//! Cylinders at the fastest time that their own line gives.

use std::collections::BTreeMap;

use super::super::draw::Electrics;
use super::{Asked, build, checks, double_strokes, force, running, speed_at, stroke};
use crate::catalog::ElectricCylinder;
use crate::family::{Ask, Bench, Check};
use crate::requirements::Mains;

/// What is known of times at which some cylinder is the fastest, by their bits: many a line gives the same.
#[derive(Default)]
pub(super) struct Known {
    thrusts_n: BTreeMap<u64, f64>,
    asked: BTreeMap<u64, Asked>,
}

impl Known {
    fn thrust_n(&mut self, ask: &Ask, time_s: f64) -> f64 {
        let thrust = || ask.book.thrust_n(&ask.assist.assist, time_s);
        *self
            .thrusts_n
            .entry(time_s.to_bits())
            .or_insert_with(thrust)
    }
    fn asked(&mut self, ask: &Ask, time_s: f64) -> &Asked {
        let asked = || Asked::new(ask, ask.demand(time_s));
        self.asked.entry(time_s.to_bits()).or_insert_with(asked)
    }
}

/// Offers a cylinder at the fastest time its line gives, where that lies inside the design times.
pub(super) fn natural<'a>(
    ask: &Ask<'a>,
    supply: (&Mains, &Electrics<'a>),
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
    let asked = known.asked(ask, time_s);
    let checks = checks(ask, part, asked);
    if checks.iter().all(Check::passes) {
        bench.offer(build(ask, supply, part, asked, checks));
    }
}

/// Up to the next of three significant digits.
fn round_up(value: f64) -> f64 {
    let step = libm::pow(10.0, libm::floor(libm::log10(value)) - 2.0);
    libm::ceil(value / step - 1e-9) * step
}
