//! A motor on an output shaft, with its gearbox, what holds the load and what joins them.

use super::Electrics;
use super::holding::Holding;
use super::motor::{Motor, Still};
use super::shaft::{DriveLine, Shaft};
use super::supply::Draw;
use crate::catalog::{Coupling, Gearbox};
use crate::family::check::SURELY;
use crate::family::{Ask, PartLine};
use crate::quantity::Si;

/// What the checks look at of a gearbox, or of none.
#[derive(Debug, Clone, Copy)]
pub(super) struct Gear {
    pub ratio: f64,
    pub efficiency: f64,
    pub inertia_kg_m2: f64,
    pub rated_n_m: f64,
    pub peak_n_m: f64,
    pub speed_most_rad_s: f64,
}

impl Gear {
    pub(super) fn new(gearbox: Option<&Gearbox>) -> Self {
        let none = Self {
            ratio: 1.0,
            efficiency: 1.0,
            inertia_kg_m2: 0.0,
            rated_n_m: f64::INFINITY,
            peak_n_m: f64::INFINITY,
            speed_most_rad_s: f64::INFINITY,
        };
        gearbox.map_or(none, |gearbox| Self {
            ratio: gearbox.ratio,
            efficiency: gearbox.efficiency,
            inertia_kg_m2: gearbox.inertia.si(),
            rated_n_m: gearbox.rated_torque.si(),
            peak_n_m: gearbox.peak_torque.si(),
            speed_most_rad_s: gearbox.speed_most.si(),
        })
    }

    /// Whether it is quick and strong enough for a shaft, whatever motor it has: a hair wider than its checks.
    pub(super) fn is_strong_enough(&self, ask: &Ask, shaft: &Shaft) -> bool {
        let torque_n_m = shaft.most_n_m() * ask.job.rules.drive_margin;
        shaft.speed_most_rad_s * self.ratio <= self.speed_most_rad_s * SURELY
            && torque_n_m <= self.peak_n_m * SURELY
    }

    /// The best of each figure of two of one ratio and efficiency: what fails with that fails with either.
    pub(super) fn better(self, other: Self) -> Self {
        Self {
            inertia_kg_m2: self.inertia_kg_m2.min(other.inertia_kg_m2),
            rated_n_m: self.rated_n_m.max(other.rated_n_m),
            peak_n_m: self.peak_n_m.max(other.peak_n_m),
            speed_most_rad_s: self.speed_most_rad_s.max(other.speed_most_rad_s),
            ..self
        }
    }
}

/// A motor on an output shaft, with its gearbox, what holds the load and what joins them.
#[derive(Debug, Clone, Copy)]
pub(in crate::family) struct MotorDrive<'s, 'a> {
    pub(super) ask: &'s Ask<'a>,
    pub shaft: &'s Shaft<'s>,
    pub motor: Motor<'a>,
    pub gearbox: Option<&'a Gearbox>,
    pub(super) gear: Gear,
    pub holding: Holding<'a>,
    pub coupling: &'a Coupling,
    pub line: DriveLine,
    /// Torque that the motor gives at rest.
    pub(super) still: Still,
}

impl<'s, 'a> MotorDrive<'s, 'a> {
    /// With the cheapest brake and coupling that are strong enough; none where the motor cannot hold the load as it must.
    pub(super) fn new(
        ask: &'s Ask<'a>,
        shaft: &'s Shaft<'s>,
        electrics: &Electrics<'a>,
        motor: Motor<'a>,
        (gearbox, gear): (Option<&'a Gearbox>, Gear),
    ) -> Option<Self> {
        let ratio = gear.ratio;
        let holding = Holding::new(ask, shaft, electrics, motor, ratio)?;
        let braked_n_m = holding.torque_n_m().unwrap_or(0.0) * ratio;
        let coupling = electrics.coupling(ask, shaft, braked_n_m)?;
        let still = match holding {
            Holding::Motor => Still {
                most_n_m: shaft.hold_n_m / ratio,
                rms_n_m: shaft.rest_n_m.map(|torque| torque / ratio),
            },
            _ => Still::default(),
        };
        let line = DriveLine {
            ratio,
            efficiency: gear.efficiency,
            inertia_kg_m2: 0.0,
            carried_kg_m2: shaft.carried_kg_m2 / (ratio * ratio),
        };
        let motor_drive = Self {
            ask,
            shaft,
            motor,
            gearbox,
            gear,
            holding,
            coupling,
            line,
            still,
        };
        Some(motor_drive.joined_by(holding, coupling))
    }

    /// The same with another brake or coupling.
    pub(super) fn joined_by(mut self, holding: Holding<'a>, coupling: &'a Coupling) -> Self {
        (self.holding, self.coupling) = (holding, coupling);
        self.line.inertia_kg_m2 = self.motor.inertia_kg_m2()
            + holding.brake().map_or(0.0, |brake| brake.inertia.si())
            + coupling.inertia.si()
            + self.gear.inertia_kg_m2
            + self.shaft.mechanism.inertia_kg_m2 / (self.line.ratio * self.line.ratio);
        self
    }

    /// Whether it has the same brake and coupling.
    pub(super) fn is_joined_like(&self, other: &Self) -> bool {
        let brake_id =
            |motor_drive: &Self| motor_drive.holding.brake().map(|brake| &brake.common.id);
        self.coupling.common.id == other.coupling.common.id && brake_id(self) == brake_id(other)
    }

    /// Torque that a brake is chosen for.
    pub(super) fn brake_n_m(&self) -> f64 {
        self.shaft.hold_n_m / self.line.ratio * self.ask.job.rules.brake_factor
    }

    /// Motor, gearbox and brake.
    pub(in crate::family) fn parts(&self) -> impl Iterator<Item = PartLine<'a>> {
        let gearbox = self.gearbox.map(|gearbox| PartLine::part(gearbox, 1));
        let brake = self.holding.brake().map(|brake| PartLine::part(brake, 1));
        let motor = core::iter::once(self.motor.line());
        motor.chain(gearbox).chain(brake)
    }

    /// What joins it to the shaft.
    pub(in crate::family) fn coupling_line(&self) -> PartLine<'a> {
        PartLine::part(self.coupling, 1)
    }

    /// Along the axis, coupling and brake included.
    pub(in crate::family) fn length_m(&self) -> f64 {
        let brake = self.holding.brake();
        self.coupling.length.si()
            + self.gearbox.map_or(0.0, |gearbox| gearbox.length.si())
            + self.motor.length_m()
            + brake.map_or(0.0, |brake| brake.length.si())
    }

    /// Force on the load that the motor gives at rest, when something stops it.
    pub(in crate::family) fn stalled_n(&self) -> f64 {
        let turned = self.line.ratio * self.line.efficiency * self.motor.stalled_n_m();
        self.shaft.mechanism.thrust_n(turned)
    }

    /// What position a step of the motor and the play of the gearbox leave open, as travel.
    pub(in crate::family) fn position(&self) -> impl Iterator<Item = (&'static str, f64)> {
        let travel_m = |angle_rad: f64| {
            angle_rad / core::f64::consts::TAU * self.shaft.mechanism.travel_per_turn_m[1]
        };
        let step = travel_m(self.motor.step_error_rad()) / self.line.ratio;
        let play = self
            .gearbox
            .map(|gearbox| ("play of the gearbox", travel_m(gearbox.backlash.si())));
        core::iter::once(("step of the motor", step)).chain(play)
    }

    /// What it draws of its supply, its controls and the mains.
    pub(in crate::family) fn draw(&self) -> Draw {
        let energy = self.motor.energy(self.shaft, &self.line, self.still);
        // A stepper that a brake or its mechanism relieves is switched off at rest.
        let holding_j = match self.holding {
            Holding::Brake(_) | Holding::BuiltIn { .. } | Holding::Mechanism => 0.0,
            Holding::Nothing | Holding::Motor => energy.holding_j,
        };
        Draw {
            shaft_w: energy.shaft_w,
            peak_w: energy.peak_w,
            moving_j: energy.moving_j,
            holding_j,
            standby_w: self.motor.standby_w(),
            brake_w: self.holding.power_w(),
            rated_w: self.motor.rated_w(),
            run_s: self.shaft.cycle.run_s,
            wiring: self.motor.wiring(self.ask.job.site.mains.as_ref()),
            serves: self.motor.controls(),
        }
    }
}
