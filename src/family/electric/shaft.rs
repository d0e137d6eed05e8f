//! The output shaft that a motor turns, through a gearbox or not: what its mechanism asks of it, run by run.

use core::f64::consts::TAU;

use super::cycle::{Cycle, Run};
use crate::family::Ask;

/// What turns the torque of a shaft into force on the load: a screw, a drum, a pinion.
#[derive(Debug, Clone, Copy)]
pub(in crate::family) struct Mechanism {
    /// Travel of the load for a turn, the least and the most: the lead of a screw, the circumference of a drum's innermost and
    /// outermost layer. Speeds are those of the least; what is held, carried and placed is that of the most.
    pub travel_per_turn_m: [f64; 2],
    /// Torque that a newton against the motion takes, in motion and from rest.
    pub driving_m: [f64; 2],
    /// Torque that a newton along the motion takes, in motion and from rest; negative where the load then turns the shaft.
    pub driven_m: [f64; 2],
    /// Of what turns with the shaft.
    pub inertia_kg_m2: f64,
    /// Whether the load cannot turn the shaft.
    pub locks: bool,
    /// What its checks say.
    pub words: &'static ShaftWords,
}

/// Formulas and symbols in the checks of what drives a shaft, in the words of its mechanism.
#[derive(Debug)]
pub(in crate::family) struct ShaftWords {
    /// Peak torque: of a servo, a stepper, a direct-current motor.
    pub peak: [&'static str; 3],
    /// Symbols of a peak: torque at the shaft, the same from rest, its speed and acceleration, inertia on the motor, ratio,
    /// efficiency of the gearbox, torque held at rest, efficiency of the mechanism.
    pub peak_symbols: &'static [(&'static str, &'static str); 9],
    /// Speed behind a gearbox, and without one.
    pub speed: [&'static str; 2],
    /// Symbols of a speed: of the shaft, ratio.
    pub speed_symbols: &'static [(&'static str, &'static str); 2],
    /// Torque held at rest by the motor.
    pub standstill: &'static str,
    /// Inertia of the load over that of the motor.
    pub inertia: &'static str,
    /// Greatest torque of all.
    pub greatest: &'static str,
    /// Symbols of it: driving, greatest, travel for a turn in mm, efficiency in motion and from rest.
    pub greatest_symbols: &'static [(&'static str, &'static str); 5],
    /// Torque on a brake.
    pub brake: &'static str,
    /// Torque of a brake on what joins it to the shaft.
    pub braked: &'static str,
}

impl Mechanism {
    /// Torque that turns the shaft while a force along the motion is asked (negative: the load drives).
    pub(in crate::family) fn turning_n_m(&self, force_n: f64) -> f64 {
        torque_n_m(force_n, self.driving_m[0], self.driven_m[0])
    }
    /// The same from rest.
    pub(in crate::family) fn starting_n_m(&self, force_n: f64) -> f64 {
        torque_n_m(force_n, self.driving_m[1], self.driven_m[1])
    }
    /// Force that a torque on the shaft gives against the load.
    pub(in crate::family) fn thrust_n(&self, torque_n_m: f64) -> f64 {
        torque_n_m / self.driving_m[0].max(f64::MIN_POSITIVE)
    }
    /// Angle that the shaft turns for a metre of travel, the most.
    pub(super) fn turn_per_m(&self) -> f64 {
        TAU / self.travel_per_turn_m[0]
    }
    /// The same, the least: a force at rest divided by it is the torque that holds it.
    fn least_turn_per_m(&self) -> f64 {
        TAU / self.travel_per_turn_m[1]
    }
    /// Efficiency while it drives: in motion, and from rest.
    pub(super) fn efficiencies(&self) -> [f64; 2] {
        let target = self.travel_per_turn_m[1] / TAU;
        [
            target / self.turning_n_m(1.0),
            target / self.starting_n_m(1.0),
        ]
    }
}

fn torque_n_m(force_n: f64, driving_m: f64, driven_m: f64) -> f64 {
    if force_n >= 0.0 {
        force_n * driving_m
    } else {
        -force_n * driven_m
    }
}

/// A run as the shaft sees it; torque and acceleration count along the motion.
#[derive(Debug, Clone, Copy)]
pub(super) struct Turning {
    load: usize,
    /// Torque that turns the shaft; negative where the load drives it.
    pub torque_n_m: f64,
    /// Torque that would start it there, from rest.
    pub start_n_m: f64,
    /// Greatest speed, never negative.
    pub speed_rad_s: f64,
    pub acceleration_rad_s2: f64,
    time_s: f64,
    angle_rad: f64,
}

impl Turning {
    fn new(mechanism: &Mechanism, run: &Run) -> Self {
        let turn = mechanism.turn_per_m();
        Self {
            load: run.load,
            torque_n_m: mechanism.turning_n_m(run.force_n),
            start_n_m: mechanism.starting_n_m(run.start_n),
            speed_rad_s: run.speed_m_s * turn,
            acceleration_rad_s2: run.acceleration_m_s2 * turn,
            time_s: run.time_s,
            angle_rad: run.way_m * turn,
        }
    }

    /// Whether inertia relieves the motor: it brakes a shaft that is driven, or drives one that is braked.
    pub(super) fn eased_by_inertia(&self) -> bool {
        self.torque_n_m * self.acceleration_rad_s2 < 0.0
    }
}

/// Sums over a cycle with one load from which the RMS torque of any motor follows.
#[derive(Debug, Clone, Copy, Default)]
struct Sums {
    drive_drive: f64,
    brake_brake: f64,
    drive_turn: f64,
    brake_turn: f64,
    turn_turn: f64,
}

impl Sums {
    fn add(&mut self, at: &Turning) {
        let (motor_drive, brake) = (at.torque_n_m.max(0.0), at.torque_n_m.min(0.0));
        let turning = at.acceleration_rad_s2;
        self.drive_drive += at.time_s * motor_drive * motor_drive;
        self.brake_brake += at.time_s * brake * brake;
        self.drive_turn += at.time_s * motor_drive * turning;
        self.brake_turn += at.time_s * brake * turning;
        self.turn_turn += at.time_s * turning * turning;
    }

    /// Sum of motor torque squared times time, N²m²s, with at least so much inertia where `or_more`, else with just that.
    fn squares(&self, line: &DriveLine, or_more: bool) -> f64 {
        let (i, n) = (line.ratio, line.efficiency);
        let mixed = self.drive_turn / n + self.brake_turn * n;
        let mut j = line.inertia_kg_m2;
        if or_more && mixed < 0.0 {
            // Inertia that is eased by the load as often as not: the sum is least at its vertex.
            j = j.max(-mixed / (i * i * self.turn_turn));
        }
        self.drive_drive / (n * n * i * i)
            + self.brake_brake * n * n / (i * i)
            + 2.0 * j * mixed
            + j * j * i * i * self.turn_turn
    }
}

/// What stands between a motor and the shaft.
#[derive(Debug, Clone, Copy)]
pub(in crate::family) struct DriveLine {
    /// Turns of the motor per turn of the shaft.
    pub ratio: f64,
    /// Efficiency of the gearbox.
    pub efficiency: f64,
    /// All inertia at the motor's shaft but that of the load, whose `m·a` is in the force.
    pub inertia_kg_m2: f64,
    /// Inertia of the load, as the motor sees it.
    pub carried_kg_m2: f64,
}

impl DriveLine {
    /// Inertia that a motor of its own inertia sees on its shaft.
    pub(super) fn load_inertia_kg_m2(&self, motor_kg_m2: f64) -> f64 {
        self.inertia_kg_m2 - motor_kg_m2 + self.carried_kg_m2
    }
    /// Torque of the motor in a run.
    pub(super) fn torque_n_m(&self, at: &Turning) -> f64 {
        self.without_inertia(at.torque_n_m)
            + self.inertia_kg_m2 * self.ratio * at.acceleration_rad_s2
    }
    /// A torque at the shaft as the motor sees it: the gearbox loses on the way there, and helps to brake.
    pub(super) fn without_inertia(&self, shaft_n_m: f64) -> f64 {
        if shaft_n_m >= 0.0 {
            shaft_n_m / (self.efficiency * self.ratio)
        } else {
            shaft_n_m * self.efficiency / self.ratio
        }
    }
}

/// A shaft that a mechanism turns through a cycle.
#[derive(Debug)]
pub(in crate::family) struct Shaft<'c> {
    pub mechanism: Mechanism,
    pub cycle: &'c Cycle,
    /// Greatest torque to start or to keep turning, without inertia.
    pub drive_most_n_m: f64,
    pub speed_most_rad_s: f64,
    /// RMS speed over the cycle.
    pub speed_rms_rad_s: f64,
    /// Torque of the held force, no friction credited.
    pub hold_n_m: f64,
    /// Greatest torque of all: driving, held, in an emergency stop.
    pub greatest_n_m: f64,
    /// RMS over the rests of the torque held, with the least and the most load.
    pub rest_n_m: [f64; 2],
    /// Inertia of the most load, as the shaft sees it.
    pub carried_kg_m2: f64,
    /// Run by run.
    pub(super) turning: Vec<Turning>,
    sums: [Sums; 2],
}

impl<'c> Shaft<'c> {
    /// The shaft of a mechanism under the runs of a demand.
    pub(in crate::family) fn new(
        ask: &Ask,
        mechanism: Mechanism,
        cycle: &'c Cycle,
        runs: &[Run],
    ) -> Self {
        let turn = mechanism.turn_per_m();
        let least_turn = mechanism.least_turn_per_m();
        let [_, carried_kg] = ask.moving_kg(ask.book.axis().loads_kg[1]);
        let arm_m = mechanism.travel_per_turn_m[1] / TAU;
        let mut shaft = Self {
            mechanism,
            cycle,
            drive_most_n_m: 0.0,
            speed_most_rad_s: cycle.speed_m_s * turn,
            speed_rms_rad_s: 0.0,
            hold_n_m: cycle.holding_n / least_turn,
            greatest_n_m: mechanism.turning_n_m(cycle.greatest_n),
            rest_n_m: cycle.rest_n.map(|force| force / least_turn),
            carried_kg_m2: carried_kg * arm_m * arm_m,
            turning: runs
                .iter()
                .map(|run| Turning::new(&mechanism, run))
                .collect(),
            sums: Default::default(),
        };
        let mut speed_squares = [0.0; 2];
        for (run, at) in runs.iter().zip(&shaft.turning) {
            let mut most = shaft.drive_most_n_m.max(at.start_n_m);
            if at.acceleration_rad_s2 >= 0.0 {
                most = most.max(at.torque_n_m);
            }
            shaft.drive_most_n_m = most;
            if let (Some(sums), Some(squares)) = (
                shaft.sums.get_mut(run.load),
                speed_squares.get_mut(run.load),
            ) {
                sums.add(at);
                *squares += run.speed_squares * turn * turn;
            }
        }
        let most = speed_squares[0].max(speed_squares[1]);
        shaft.speed_rms_rad_s = (most / cycle.length_s).sqrt();
        shaft
    }

    /// Greatest torque that the drive line bears: to start, driving, held, in an emergency stop.
    pub(super) fn most_n_m(&self) -> f64 {
        self.drive_most_n_m.max(self.greatest_n_m)
    }

    /// RMS torque of the motor over the cycle, with the RMS of what it holds at rest, the worse load.
    ///
    /// `or_more`: the least that it is with so much inertia or more.
    pub(super) fn rms_cycle_n_m(&self, line: &DriveLine, rest_n_m: [f64; 2], or_more: bool) -> f64 {
        let cycles = self.sums.iter().zip(rest_n_m);
        let worst = cycles
            .map(|(sums, rest)| sums.squares(line, or_more) + rest * rest * self.cycle.rest_s());
        (worst.fold(0.0, f64::max) / self.cycle.length_s).sqrt()
    }

    /// RMS torque of the motor while it moves.
    pub(super) fn rms_moving_n_m(&self, line: &DriveLine, or_more: bool) -> f64 {
        let worst = self.sums.iter().map(|sums| sums.squares(line, or_more));
        (worst.fold(0.0, f64::max) / self.cycle.run_s).sqrt()
    }

    /// What the motor takes in a cycle while it drives, its copper heated by a loss that goes with the torque squared, the
    /// worse load for each figure; braking gives nothing back.
    pub(super) fn drawn(&self, line: &DriveLine, loss_by_torque_squared: f64) -> Drawn {
        let mut loads = [Drawn::default(); 2];
        for at in &self.turning {
            let torque = line.torque_n_m(at).max(0.0);
            let Some(drawn) = loads.get_mut(at.load).filter(|_| torque > 0.0) else {
                continue;
            };
            let copper_w = loss_by_torque_squared * torque * torque;
            let shaft_w = torque * at.speed_rad_s * line.ratio;
            drawn.moving_j += torque * at.angle_rad * line.ratio + copper_w * at.time_s;
            if shaft_w + copper_w > drawn.peak_w {
                (drawn.shaft_w, drawn.peak_w) = (shaft_w, shaft_w + copper_w);
            }
        }
        let [least, most] = loads;
        let hardest = if least.peak_w > most.peak_w {
            least
        } else {
            most
        };
        Drawn {
            moving_j: least.moving_j.max(most.moving_j),
            ..hardest
        }
    }
}

/// What a motor takes while it drives.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Drawn {
    /// In a cycle.
    pub moving_j: f64,
    /// Greatest power with the loss, and the part of it that is at the shaft then.
    pub peak_w: f64,
    pub shaft_w: f64,
}
