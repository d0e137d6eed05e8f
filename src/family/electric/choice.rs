//! Which motors with which gearboxes are worth building: the cheapest that passes, and others that are better in something
//! that the file has a goal for.

use std::collections::BTreeMap;

use super::drive::{Gear, MotorDrive};
use super::motor::Motor;
use super::shaft::Shaft;
use crate::catalog::{Brake, Common, Control, Coupling, Gearbox, PowerSupply};
use crate::family::check::is_enough;
use crate::family::choose::{
    Bounds, Figures, Front, Goals, Ladder, LifeCost, Pairs, Place, Rank, Shelf, least,
};
use crate::family::fitted::site;
use crate::family::{Ask, Bench, Check};
use crate::quantity::Si;
use crate::requirements::Stops;

/// A supply whose voltage is nearer than this to that of a motor serves it.
const SAME_VOLTAGE_V: f64 = 0.5;
/// What controls of electric drives serve, as in the catalog.
const SERVES: [&str; 3] = ["servo", "stepper", "dc"];
/// A pair used no further than this passes.
const ENOUGH: f64 = 1.0 + 1e-9;

/// The electric parts of a catalog, put in order once for all shafts and design times.
#[derive(Debug)]
pub(in crate::family) struct Electrics<'a> {
    /// Motors of one type each, with gearboxes or without.
    ranges: [Range<'a>; 5],
    brakes: Ladder<'a, Brake>,
    couplings: Ladder<'a, Coupling>,
    /// Of each voltage that a part needs.
    supplies: Vec<(f64, Ladder<'a, PowerSupply>)>,
    /// Of each use.
    controls: [(&'static str, Ladder<'a, Control>); 3],
}

/// Motors of one type with gearboxes, or without: all of them, or one that is none.
#[derive(Debug)]
struct Range<'a> {
    motors: Vec<Motor<'a>>,
    ranks: Vec<Rank<'a>>,
    figures: Vec<Figures>,
    series: Vec<Series<'a>>,
}

/// Gearboxes of one ratio and efficiency, in the order in which they are taken.
#[derive(Debug)]
struct Series<'a> {
    gearboxes: Vec<(Option<&'a Gearbox>, Gear)>,
    ranks: Vec<Rank<'a>>,
    figures: Vec<Figures>,
    /// The best of each figure that the checks look at, and of those that goals do.
    best: Gear,
    least: Figures,
}

impl<'a> Electrics<'a> {
    pub(in crate::family) fn new(ask: &Ask<'a>) -> Self {
        let catalog = ask.catalog;
        let servos: Vec<_> = catalog.servo_motors.iter().map(Motor::Servo).collect();
        let steppers: Vec<_> = catalog.stepper_motors.iter().map(Motor::Stepper).collect();
        let gear_motors: Vec<_> = catalog.gear_motors.iter().map(Motor::Gear).collect();
        let none = [Series::none()];
        let geared = Series::all(ask);
        Self {
            ranges: [
                Range::new(ask, &servos, &none),
                Range::new(ask, &servos, &geared),
                Range::new(ask, &steppers, &none),
                Range::new(ask, &steppers, &geared),
                Range::new(ask, &gear_motors, &none),
            ],
            brakes: Shelf::with(ask, &catalog.brakes, |brake| {
                let length_m = brake.length.si();
                (&brake.common, with_length(ask, &brake.common, length_m))
            })
            .ladder(|brake| brake.torque.si()),
            couplings: Shelf::with(ask, &catalog.couplings, |coupling| {
                let length_m = coupling.length.si();
                (&coupling.common, with_length(ask, &coupling.common, length_m))
            })
            .ladder(|coupling| coupling.torque.si()),
            supplies: voltages(ask)
                .into_iter()
                .map(|volts| (volts, supplies(ask, volts)))
                .collect(),
            controls: SERVES.map(|serves| (serves, controls(ask, serves))),
        }
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

    /// Hands every drive of a shaft that is worth building to `take`: of motors of one type, with a gearbox or without, the
    /// cheapest that passes, and dearer ones that are better in something that the file has a goal for. `take` says whether
    /// what it built passes whatever else it is checked for; one that does not stands in nobody's way.
    ///
    /// Of motors none of which passes the bench is told what came nearest.
    pub(in crate::family) fn choose<'t>(
        &self,
        ask: &Ask<'a>,
        shaft: &Shaft,
        bench: &mut Bench<'t>,
        mut take: impl FnMut(&MotorDrive<'_, 'a>, &mut Bench<'t>) -> bool,
    ) {
        if self.coupling(ask, shaft, 0.0).is_none() {
            let says = "asked: a coupling; gives: none in the catalog";
            bench.fails(vec![Check::of("coupling.present", false, says)]);
            return;
        }
        for range in &self.ranges {
            let mut search = Search::new(self, ask, shaft, range);
            let mut pairs = Pairs::new(&range.ranks, &search.lists);
            let mut some = false;
            while let Some(place) = pairs.next(&mut search.worth) {
            }
        }
    }
}
