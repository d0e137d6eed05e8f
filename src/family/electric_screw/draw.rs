//! What an electric drive draws: its supply, its controls, the mains.

use super::pick;
use crate::catalog::{Control, PowerSupply};
use crate::family::ladder::Ladder;
use crate::family::{Ask, Check, PartLine, Train, choose, controls};
use crate::quantity::{Si, show};
use crate::requirements::{Mains, Stops};

/// A supply whose voltage is nearer than this to that of a motor serves it.
const SAME_VOLTAGE_V: f64 = 0.5;
/// What controls of electric drives serve, as in the catalog.
const SERVES: [&str; 3] = ["servo", "stepper", "dc"];

/// Supplies and controls, sorted once for all trains.
#[derive(Debug)]
pub(super) struct Electrics<'a> {
    /// Of each voltage that a part asks for.
    supplies: Vec<(f64, Ladder<'a, PowerSupply>)>,
    /// Of each use.
    controls: [(&'static str, choose::Ladder<'a, Control>); 3],
}

impl<'a> Electrics<'a> {
    pub(super) fn new(ask: &Ask<'a>) -> Self {
        let catalog = ask.catalog;
        let gear_motors = catalog.gear_motors.iter().map(|m| m.voltage.si());
        let steppers = catalog.stepper_motors.iter().map(|m| m.voltage.si());
        let cylinders = catalog.electric_cylinders.iter().map(|c| c.voltage.si());
        let mut voltages: Vec<f64> = gear_motors.chain(steppers).chain(cylinders).collect();
        voltages.sort_by(f64::total_cmp);
        voltages.dedup();
        let cheapest_first = pick::in_order(ask, &catalog.power_supplies, |s| &s.common);
        let supplies = |voltage: f64| {
            let same = |s: &&PowerSupply| (s.voltage.si() - voltage).abs() < SAME_VOLTAGE_V;
            let supplies = cheapest_first.iter().copied().filter(same);
            (voltage, Ladder::new(supplies, |s| s.power.si()))
        };
        let several = ask.job.stops != Stops::Ends;
        let controls = |serves: &'static str| (serves, controls(ask, serves, several));
        Self {
            supplies: voltages.into_iter().map(supplies).collect(),
            controls: SERVES.map(controls),
        }
    }

    fn supplies(&self, voltage: f64) -> Option<&Ladder<'a, PowerSupply>> {
        let same = |(of, _): &&(f64, _)| of.to_bits() == voltage.to_bits();
        self.supplies.iter().find(same).map(|(_, ladder)| ladder)
    }

    fn control(&self, serves: &str, power_w: f64) -> Option<&'a Control> {
        let (_, ladder) = self.controls.iter().find(|(of, _)| *of == serves)?;
        ladder.first(power_w)
    }
}

/// What a train draws, without its controls and supply.
pub(super) struct Draw {
    /// Greatest power of the motor with its loss, and the part of it that is at the shaft then.
    pub shaft_w: f64,
    pub peak_w: f64,
    pub moving_j: f64,
    pub holding_j: f64,
    pub standby_w: f64,
    /// Power of an open brake, from the controls.
    pub brake_w: f64,
    /// Power that the controls are made for, where it is more than what is drawn.
    pub rated_w: f64,
    pub run_s: f64,
}

impl Draw {
    /// Adds supply and controls to a train, its running figures, and the check of the mains.
    pub(super) fn take<'a>(
        &self,
        electrics: &Electrics<'a>,
        mains: &Mains,
        train: &mut Train<'a>,
        supply_voltage_v: Option<f64>,
        serves: &str,
    ) {
        let (mut efficiency, mut standby_w) = (1.0, self.standby_w);
        if let Some(voltage) = supply_voltage_v {
            let supplies = electrics.supplies(voltage);
            let supply = supplies.and_then(|all| all.first(self.peak_w));
            let strongest = supplies.and_then(Ladder::strongest);
            let most = supply.or(strongest).map_or(0.0, |s| s.power.si());
            train.checks.push(
                Check::new("power_supply.power", self.peak_w, most, "W")
                    .from(
                        "greatest while it drives of T ω + k T² + P0; of a stepper k = 0 and P0 its loss in motion; L = P (1/η − 1) at the rated point of others: of a servo k = L/Tr² and P0 = 0, of a direct-current motor k = ω0/Ts of its line but at most L/Tr², P0 = L − k Tr²",
                        "energy balance",
                    )
                    .given(
                        &[("shaft", "W"), ("loss", "W")],
                        &[self.shaft_w, self.peak_w - self.shaft_w],
                    ),
            );
            if let Some(supply) = supply {
                train
                    .parts
                    .push(PartLine::pieces("power_supplies", &supply.common, 1));
                efficiency = supply.efficiency;
                standby_w += supply.standby.si();
            }
        }
        let controls_w = self.peak_w / efficiency + self.brake_w + standby_w;
        let asked_w = controls_w.max(self.rated_w);
        match electrics.control(serves, asked_w) {
            Some(control) => {
                train
                    .parts
                    .push(PartLine::pieces("controls", &control.common, 1));
                standby_w += control.standby.si();
            }
            None => train.checks.push(Check::of(
                "controls.present",
                false,
                format!(
                    "asked: controls of {} W for a {serves} drive; gives: none in the catalog",
                    show(asked_w)
                ),
            )),
        }
        let greatest_w = self.peak_w / efficiency;
        train.checks.push(
            Check::new(
                "mains.power",
                greatest_w + self.brake_w + standby_w,
                mains.power.si(),
                "W",
            )
            .from(
                "(greatest power of the motor with its loss: while it drives T ω + k T² + P0)/η supply + open brake + standby of motor, supply and controls",
                "energy balance",
            )
            .given(
                &[("P/η", "W"), ("brake", "W"), ("standby", "W")],
                &[greatest_w, self.brake_w, standby_w],
            ),
        );
        train.running.moving_j = self.moving_j / efficiency + self.brake_w * self.run_s;
        train.running.holding_j = self.holding_j / efficiency;
        train.running.standby_w = standby_w;
    }
}
