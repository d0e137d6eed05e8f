//! Electric screws: ball and sliding screws built up with a motor, and ready-made electric cylinders.
//!
//! Energy is counted by a simple model: while it moves, the motor's shaft work
//! over its efficiency (a stepper: shaft work and its constant loss), nothing
//! recovered in braking; an open brake draws its coil power; at rest a motor
//! that holds loses as the square of its torque; then the standby of drives,
//! supplies and controls. The 24 V of a brake come out of the controls.

#[cfg(test)]
mod all_pairs;
mod built_up;
mod cylinder;
mod draw;
mod fit;
mod found;
mod geared;
mod load;
mod motor;
mod nearest;
mod pick;
mod points;
mod queue;
mod spindle;
mod stock;
mod supports;
#[cfg(test)]
mod tests;
mod words;

use self::draw::Electrics;
use super::{Ask, Bench, Check, Family, NO_FORCE_N};

/// The family's name in files.
const NAME: &str = "electric_screw";
/// Window of an S3 rating, s (IEC 60034-1: cycles of ten minutes).
const DUTY_WINDOW_S: f64 = 600.0;
/// A life past this many years is as good as endless.
const ENDLESS_YEARS: f64 = 1000.0;
/// Screws turned by motors.
#[derive(Debug)]
pub struct ElectricScrew;

impl Family for ElectricScrew {
    fn name(&self) -> &'static str {
        NAME
    }
    fn words(&self) -> &'static str {
        "electric screw"
    }
    fn trains<'a>(&self, ask: &Ask<'a>, bench: &mut Bench<'a>) {
        let Some(mains) = ask.job.site.mains else {
            bench.fails(vec![Check::of(
                "mains.present",
                false,
                "asked: electricity; gives: no mains at the site",
            )]);
            return;
        };
        let electrics = Electrics::new(ask);
        if ask.pins_m().is_some() {
            let says = "asked: a drive between two pins; gives: a screw on a base, for a load on a straight guide";
            bench.fails(vec![Check::of("screw.mounting", false, says)]);
        } else {
            built_up::trains(ask, &mains, &electrics, bench);
        }
        cylinder::trains(ask, &mains, &electrics, bench);
    }
}

/// Years that a distance lasts at this job's rate.
fn years(ask: &Ask, distance_m: f64) -> f64 {
    let a_year = ask.job.timing.cycles_per_year() * 2.0 * ask.travel_m();
    if a_year > 0.0 {
        (distance_m / a_year).min(ENDLESS_YEARS)
    } else {
        ENDLESS_YEARS
    }
}
