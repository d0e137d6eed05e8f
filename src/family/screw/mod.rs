//! Electric screws: ball and sliding screws built up with a motor, and ready-made electric cylinders.

mod build;
mod spindle;
mod supports;
#[cfg(test)]
#[path = "../../../tests/unit/family/screw.rs"]
mod tests;
mod words;

use super::electric::Electrics;
use super::{Ask, Bench, Check, Family, Need, electric_cylinder};

/// The family's name in files.
pub(super) const NAME: &str = "electric_screw";

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
    fn covers(&self) -> &'static [&'static str] {
        &["electric screw"]
    }
    fn needs(&self) -> &'static [Need] {
        &[Need::Mains]
    }
    fn grows_with_load(&self) -> &'static [&'static str] {
        &[
            "screw.column",
            "servo_motor.peak_torque",
            "stepper_motor.pull_out",
            "gear_motor.torque_line",
            "electric_cylinder.force",
            "brake.torque",
        ]
    }
    fn drives<'a>(&self, ask: &Ask<'a>, bench: &mut Bench<'a>) {
        let Some(electrics) = Electrics::of_site(ask, bench) else {
            return;
        };
        if ask.pins_m().is_some() {
            let says = "asked: a drive between two pins; gives: a screw on a base, for a load on a straight guide";
            bench.fails(vec![Check::of("screw.mounting", false, says)]);
        } else {
            build::drives(ask, &electrics, bench);
        }
        electric_cylinder::drives(ask, &electrics, bench);
    }
}
