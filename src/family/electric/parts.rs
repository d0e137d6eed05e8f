//! The electric parts of a catalog, put in order once for all shafts and design times.

use super::choice::Range;
use super::motor::Motor;
use super::shaft::Shaft;
use crate::catalog::{Brake, Common, Control, Coupling, PowerSupply};
use crate::family::choose::{Ladder, Merits, Shelf};
use crate::family::{Ask, Bench, Check, controls};
use crate::quantity::{Length, Si};
use crate::requirements::{Mains, Stops};

/// A supply whose voltage is nearer than this to that of a motor serves it.
const SAME_VOLTAGE_V: f64 = 0.5;
/// What controls of electric drives serve, as in the catalog.
const SERVES: [&str; 3] = ["servo", "stepper", "dc"];

/// The electric parts of a catalog, put in order once for all shafts and design times.
#[derive(Debug)]
pub(in crate::family) struct Electrics<'a> {
    pub(in crate::family) mains: Mains,
    /// Motors of one type each, with gearboxes or without.
    pub(super) ranges: [Range<'a>; 5],
    pub(super) brakes: Ladder<'a, Brake>,
    pub(super) couplings: Ladder<'a, Coupling>,
    /// Of each voltage that a part needs.
    supplies: Vec<(f64, Ladder<'a, PowerSupply>)>,
    /// Of each use.
    controls: [(&'static str, Ladder<'a, Control>); 3],
}

impl<'a> Electrics<'a> {
    pub(in crate::family) fn new(ask: &Ask<'a>, mains: Mains) -> Self {
        let catalog = ask.catalog;
        let servos: Vec<_> = catalog.servo_motors.iter().map(Motor::Servo).collect();
        let steppers: Vec<_> = catalog.stepper_motors.iter().map(Motor::Stepper).collect();
        let gear_motors: Vec<_> = catalog.gear_motors.iter().map(Motor::Gear).collect();
        let several = ask.job.stops != Stops::Ends;
        let of_volts = |volts| (volts, supplies(ask, volts));
        Self {
            mains,
            ranges: [
                Range::plain(ask, &servos),
                Range::geared(ask, &servos),
                Range::plain(ask, &steppers),
                Range::geared(ask, &steppers),
                Range::plain(ask, &gear_motors),
            ],
            brakes: Shelf::with(ask, &catalog.brakes, |brake| {
                with_length(ask, &brake.common, brake.length)
            })
            .ladder(|brake| brake.torque.si()),
            couplings: Shelf::with(ask, &catalog.couplings, |coupling| {
                with_length(ask, &coupling.common, coupling.length)
            })
            .ladder(|coupling| coupling.torque.si()),
            supplies: voltages(ask).into_iter().map(of_volts).collect(),
            controls: SERVES.map(|serves| (serves, controls(ask, serves, several))),
        }
    }

    /// The electric parts for a site with mains; where there are none the bench is told.
    pub(in crate::family) fn of_site(ask: &Ask<'a>, bench: &mut Bench<'a>) -> Option<Self> {
        let mains = ask.job.site.mains;
        if mains.is_none() {
            let says = "the site has no electricity";
            bench.fails(vec![Check::of("mains.present", false, says)]);
        }
        mains.map(|mains| Self::new(ask, mains))
    }

    /// The cheapest brake for a torque at a speed, else the strongest, so that a check can say what is missing.
    pub(super) fn brake(&self, torque_n_m: f64, speed_rad_s: f64) -> Option<&'a Brake> {
        let first = self.brakes.first_or_strongest(torque_n_m)?;
        if first.speed_most.si() >= speed_rad_s {
            return Some(first);
        }
        let mut quick = self.brakes.choices(torque_n_m).into_iter();
        Some(
            quick
                .find(|brake| brake.speed_most.si() >= speed_rad_s)
                .unwrap_or(first),
        )
    }

    /// The cheapest coupling for a shaft, else the strongest.
    ///
    /// `braked_n_m`: torque of a brake on the motor's side, which stops the shaft through the coupling.
    pub(super) fn coupling(
        &self,
        ask: &Ask,
        shaft: &Shaft,
        braked_n_m: f64,
    ) -> Option<&'a Coupling> {
        self.couplings
            .first_or_strongest(coupling_n_m(ask, shaft, braked_n_m))
    }

    pub(super) fn supplies(&self, volts: f64, power_w: f64) -> Vec<&'a PowerSupply> {
        self.ladder(volts)
            .map_or_else(Vec::new, |ladder| ladder.choices(power_w))
    }

    pub(super) fn strongest_supply(&self, volts: f64) -> Option<&'a PowerSupply> {
        self.ladder(volts).and_then(Ladder::strongest)
    }

    fn ladder(&self, volts: f64) -> Option<&Ladder<'a, PowerSupply>> {
        let same = |(of, _): &&(f64, _)| of.to_bits() == volts.to_bits();
        self.supplies.iter().find(same).map(|(_, ladder)| ladder)
    }

    pub(super) fn controls(&self, serves: &str, power_w: f64) -> Vec<&'a Control> {
        let same = |(of, _): &&(&str, _)| *of == serves;
        let ladder = self.controls.iter().find(same);
        ladder.map_or_else(Vec::new, |(_, ladder)| ladder.choices(power_w))
    }
}

fn with_length<'a>(ask: &Ask, common: &'a Common, length: Length) -> (&'a Common, Merits) {
    let figures = Merits {
        length_m: length.si(),
        ..Merits::part(&ask.life_cost(), common)
    };
    (common, figures)
}

/// Torque that a coupling is chosen for.
pub(super) fn coupling_n_m(ask: &Ask, shaft: &Shaft, braked_n_m: f64) -> f64 {
    (shaft.most_n_m() * ask.job.rules.drive_margin).max(braked_n_m)
}

/// Voltages that some part needs.
fn voltages(ask: &Ask) -> Vec<f64> {
    let catalog = ask.catalog;
    let gear_motors = catalog.gear_motors.iter().map(|m| m.voltage.si());
    let steppers = catalog.stepper_motors.iter().map(|m| m.voltage.si());
    let cylinders = catalog.electric_cylinders.iter().map(|c| c.voltage.si());
    let mut voltages: Vec<f64> = gear_motors.chain(steppers).chain(cylinders).collect();
    voltages.sort_by(f64::total_cmp);
    voltages.dedup();
    voltages
}

fn supplies<'a>(ask: &Ask<'a>, volts: f64) -> Ladder<'a, PowerSupply> {
    let rates = ask.life_cost();
    let all = ask.catalog.power_supplies.iter();
    let same = all.filter(|supply| (supply.voltage.si() - volts).abs() < SAME_VOLTAGE_V);
    let figures = |supply: &'a PowerSupply| {
        let figures = Merits::part(&rates, &supply.common);
        (
            &supply.common,
            figures.drawing(&rates, 0.0, supply.standby.si()),
        )
    };
    Shelf::with(ask, same, figures).ladder(|supply| supply.power.si())
}
