//! What an electric drive draws: its supply, its controls, the mains.

use super::Electrics;
use crate::catalog::{Control, PowerSupply};
use crate::family::{Check, Drive, PartLine, check, site, some_or_none};
use crate::quantity::{Si, Voltage, show};
use crate::requirements::Mains;

/// What a drive draws, without its controls and supply.
#[derive(Debug, Clone, Copy)]
pub(in crate::family) struct Draw {
    /// Greatest power of the motor with its loss, and the part of it that is at the shaft then.
    pub shaft_w: f64,
    pub peak_w: f64,
    /// Of a cycle.
    pub moving_j: f64,
    pub holding_j: f64,
    pub standby_w: f64,
    /// Power of an open brake, from the controls.
    pub brake_w: f64,
    /// Power that the controls are made for, where it is more than what is drawn.
    pub rated_w: f64,
    pub run_s: f64,
    /// How it comes to its voltage.
    pub wiring: Wiring,
    /// Which controls it takes, as the catalog calls them.
    pub serves: &'static str,
}

/// How a motor comes to its voltage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::family) enum Wiring {
    /// The site feeds it as it is.
    Direct,
    /// The site feeds it where it is ordered wound for this voltage.
    Wound(f64),
    /// A supply of this voltage goes between.
    Supply(f64),
}

impl Wiring {
    /// Of a part of a direct voltage that may be wound for others.
    pub(in crate::family) fn of(
        mains: Option<&Mains>,
        voltage: Voltage,
        windings: Option<&Vec<Voltage>>,
    ) -> Self {
        let fed =
            |volts: &Voltage| mains.is_some_and(|mains| site::feeds_direct(mains, volts.si()));
        if fed(&voltage) {
            return Self::Direct;
        }
        let wound = windings.into_iter().flatten().find(|volts| fed(volts));
        wound.map_or(Self::Supply(voltage.si()), |volts| Self::Wound(volts.si()))
    }

    /// Voltage of the supply that goes between.
    pub(in crate::family) fn supply_v(self) -> Option<f64> {
        match self {
            Self::Supply(volts) => Some(volts),
            Self::Direct | Self::Wound(_) => None,
        }
    }
}

/// A supply and controls for a drive; none where none in the catalog is strong enough.
#[derive(Debug, Clone, Copy)]
pub(in crate::family) struct Feed<'a> {
    supply: Option<&'a PowerSupply>,
    control: Option<&'a Control>,
}

impl Draw {
    /// The cheapest supply and controls, and others that are better in something that the file has a goal for.
    pub(in crate::family) fn feeds<'a>(&self, electrics: &Electrics<'a>) -> Vec<Feed<'a>> {
        let supplies = self
            .wiring
            .supply_v()
            .map(|volts| electrics.supplies(volts, self.peak_w));
        let mut feeds = Vec::with_capacity(1);
        for supply in some_or_none(supplies.unwrap_or_default()) {
            let controls_w = self.controls_w(supply);
            for control in some_or_none(electrics.controls(self.serves, controls_w)) {
                feeds.push(Feed { supply, control });
            }
        }
        feeds
    }

    /// Power for which controls are chosen.
    fn controls_w(&self, supply: Option<&PowerSupply>) -> f64 {
        let drawn_w = self.mains_peak_w(supply) + self.brake_w + self.standby_w(supply);
        drawn_w.max(self.rated_w)
    }

    /// Greatest power of the motor before its supply.
    fn mains_peak_w(&self, supply: Option<&PowerSupply>) -> f64 {
        self.peak_w / efficiency(supply)
    }

    fn standby_w(&self, supply: Option<&PowerSupply>) -> f64 {
        self.standby_w + supply.map_or(0.0, |supply| supply.standby.si())
    }

    /// Adds supply and controls to a drive, what it draws when it runs, and their checks.
    pub(in crate::family) fn add<'a>(
        &self,
        electrics: &Electrics<'a>,
        feed: Feed<'a>,
        drive: &mut Drive<'a>,
    ) {
        let Feed { supply, control } = feed;
        if let Wiring::Wound(volts) = self.wiring {
            drive.remarks.push(format!(
                "Order the motor wound for {} V, which the site feeds it without a supply between.",
                show(volts)
            ));
        }
        if let Some(volts) = self.wiring.supply_v() {
            let strongest = || electrics.strongest_supply(volts);
            let most_w = supply.or_else(strongest).map_or(0.0, |s| s.power.si());
            drive.checks.push(self.supply_check(most_w));
        }
        drive
            .parts
            .extend(supply.map(|supply| PartLine::part(supply, 1)));
        if let Some(control) = control {
            drive.parts.push(PartLine::part(control, 1));
        } else {
            let says = format!(
                "the catalog has no controls of {} W for a {} drive",
                show(self.controls_w(supply)),
                self.serves
            );
            drive
                .checks
                .push(Check::of("controls.present", false, says));
        }
        drive.checks.push(self.mains_check(&electrics.mains, feed));
        drive.running.moving_j = self.moving_j / efficiency(supply) + self.brake_w * self.run_s;
        drive.running.holding_j = self.holding_j / efficiency(supply);
        drive.running.standby_w = self.all_standby_w(feed);
    }

    /// Whether there are controls and the mains suffice, as [`Draw::add`] checks: known before a drive is put together.
    pub(super) fn is_fed(&self, electrics: &Electrics, feed: Feed) -> bool {
        feed.control.is_some() && self.mains_check(&electrics.mains, feed).passes()
    }

    /// Standby of motor, supply and controls.
    fn all_standby_w(&self, Feed { supply, control }: Feed) -> f64 {
        self.standby_w(supply) + control.map_or(0.0, |control| control.standby.si())
    }

    fn supply_check(&self, most_w: f64) -> Check {
        check!(
            "power_supply.power", self.peak_w => most_w, "W";
            "greatest while it drives of T ω + k T² + P0; of a stepper k = 0 and P0 its loss in motion; L = P (1/η − 1) at the rated point of others: of a servo k = L/Tr² and P0 = 0, of a direct-current motor k = ω0/Ts of its line but at most L/Tr², P0 = L − k Tr²",
            "energy balance";
            ("shaft", self.shaft_w, "W"), ("loss", self.peak_w - self.shaft_w, "W")
        )
    }

    fn mains_check(&self, mains: &Mains, feed: Feed) -> Check {
        let (greatest_w, standby_w) = (self.mains_peak_w(feed.supply), self.all_standby_w(feed));
        let all_w = greatest_w + self.brake_w + standby_w;
        check!(
            "mains.power", all_w => mains.power.si(), "W";
            "(greatest power of the motor with its loss: while it drives T ω + k T² + P0)/η supply + open brake + standby of motor, supply and controls",
            "energy balance";
            ("P/η", greatest_w, "W"), ("brake", self.brake_w, "W"), ("standby", standby_w, "W")
        )
    }
}

fn efficiency(supply: Option<&PowerSupply>) -> f64 {
    supply.map_or(1.0, |supply| supply.efficiency)
}
