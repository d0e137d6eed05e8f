//! The motors that a drive may have, seen alike: torque over speed, heat, rest.

use super::drive::Gear;
use super::shaft::{DriveLine, Shaft};
use super::supply::Wiring;
use crate::catalog::{Common, GearMotor, ServoMotor, StepperMotor};
use crate::family::check::SURELY;
use crate::family::{Ask, PartLine};
use crate::mechanics::motor;
use crate::quantity::{Si, radians_per_second};
use crate::requirements::Mains;

/// A motor with its drive.
#[derive(Debug, Clone, Copy)]
pub(in crate::family) enum Motor<'a> {
    Servo(&'a ServoMotor),
    Stepper(&'a StepperMotor),
    Gear(&'a GearMotor),
}

/// Torque that the motor itself gives at rest; nothing where a brake or the mechanism holds.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Still {
    /// The greatest.
    pub most_n_m: f64,
    /// Its RMS over the rests, with the least and the most load.
    pub rms_n_m: [f64; 2],
}

/// What all motors state under one name.
macro_rules! of_any {
    ($motor:expr, $part:ident => $figure:expr) => {
        match $motor {
            Motor::Servo($part) => $figure,
            Motor::Stepper($part) => $figure,
            Motor::Gear($part) => $figure,
        }
    };
}

impl<'a> Motor<'a> {
    pub(in crate::family) fn common(&self) -> &'a Common {
        of_any!(self, m => &m.common)
    }
    /// It alone, as a part.
    pub(super) fn line(&self) -> PartLine<'a> {
        of_any!(self, m => PartLine::part(*m, 1))
    }
    /// Which controls it takes.
    pub(in crate::family) fn controls(&self) -> &'static str {
        match self {
            Motor::Servo(_) => "servo",
            Motor::Stepper(_) => "stepper",
            Motor::Gear(_) => "dc",
        }
    }
    /// Type, for the drive type.
    pub(in crate::family) fn kind(&self) -> &'static str {
        match self {
            Motor::Servo(_) => "servo",
            Motor::Stepper(_) => "stepper",
            Motor::Gear(_) => "DC motor",
        }
    }
    /// Size and type, for the table.
    pub(in crate::family) fn words(&self) -> String {
        let show = crate::quantity::show;
        match self {
            Motor::Servo(m) => format!("{} W servo", show(m.power.si())),
            Motor::Stepper(m) => format!("{} N·m stepper", show(m.holding_torque.si())),
            Motor::Gear(m) => format!("{} W DC motor", show(m.power.si())),
        }
    }
    pub(in crate::family) fn inertia_kg_m2(&self) -> f64 {
        of_any!(self, m => m.inertia.si())
    }
    pub(in crate::family) fn length_m(&self) -> f64 {
        of_any!(self, m => m.length.si())
    }
    pub(in crate::family) fn step_error_rad(&self) -> f64 {
        of_any!(self, m => m.step_error.si())
    }
    /// How it comes to its voltage; a servo drive is on the mains.
    pub(super) fn wiring(&self, mains: Option<&Mains>) -> Wiring {
        match self {
            Motor::Servo(_) => Wiring::Direct,
            Motor::Stepper(m) => Wiring::of(mains, m.voltage, None),
            Motor::Gear(m) => Wiring::of(mains, m.voltage, m.windings.as_ref()),
        }
    }
    /// Power that its controls are made for; 0 where what it draws says that.
    pub(super) fn rated_w(&self) -> f64 {
        match self {
            Motor::Servo(m) => m.power.si(),
            Motor::Gear(m) => m.power.si(),
            Motor::Stepper(_) => 0.0,
        }
    }
    /// Electricity it draws while switched on, whatever it does.
    pub(super) fn standby_w(&self) -> f64 {
        match self {
            Motor::Servo(m) => m.standby.si(),
            Motor::Stepper(_) | Motor::Gear(_) => 0.0,
        }
    }

    pub(super) fn speed_most_rad_s(&self) -> f64 {
        match self {
            Motor::Servo(m) => m.speed_most.si(),
            Motor::Stepper(m) => m.speeds.last().map_or(0.0, |n| n.si()),
            Motor::Gear(m) => m.no_load_speed.si(),
        }
    }

    /// Greatest torque at a speed: of a servo for seconds, of a stepper over the margin of its pull-out, of a DC motor on its line.
    pub(super) fn capacity_n_m(&self, speed_rad_s: f64, braking: bool, stepper_margin: f64) -> f64 {
        match self {
            Motor::Servo(m) => falling(
                speed_rad_s,
                (m.rated_speed.si(), m.peak_torque.si()),
                (m.speed_most.si(), m.peak_at_most.si()),
            ),
            Motor::Stepper(m) => pull_out(m, speed_rad_s) / stepper_margin,
            // Shorted or reversed, it brakes up to what the gear head bears.
            Motor::Gear(m) if braking => m.torque_most.si(),
            Motor::Gear(m) => {
                let speed = radians_per_second(speed_rad_s);
                let line = motor::line_torque(m.stall_torque, m.no_load_speed, speed);
                line.si().min(m.torque_most.si())
            }
        }
    }

    /// Greatest torque when something stops it.
    pub(in crate::family) fn stalled_n_m(&self) -> f64 {
        self.capacity_n_m(0.0, false, 1.0)
    }

    /// Torque that it can hold for ever at a speed; a stepper's current does not follow its torque.
    pub(super) fn continuous_n_m(&self, speed_rad_s: f64) -> Option<f64> {
        match self {
            Motor::Servo(m) => Some(falling(
                speed_rad_s,
                (m.rated_speed.si(), m.rated_torque.si()),
                (m.speed_most.si(), m.torque_at_most.si()),
            )),
            Motor::Stepper(_) | Motor::Gear(_) => None,
        }
    }

    /// Whether it is too slow behind a gear, or too weak to start the load: a hair wider than its checks, for no motor gives
    /// more torque at a higher speed.
    pub(super) fn is_too_weak(&self, ask: &Ask, shaft: &Shaft, gear: &Gear) -> bool {
        let rules = &ask.job.rules;
        let start = shaft.drive_most_n_m / (gear.efficiency * gear.ratio);
        let given = self.capacity_n_m(0.0, false, rules.stepper_margin);
        shaft.speed_most_rad_s * gear.ratio > self.speed_most_rad_s() * SURELY
            || start * rules.drive_margin > given * SURELY
    }

    /// How long its brushes or gears last, s; endless where nothing is stated.
    pub(super) fn running_life_s(&self) -> f64 {
        match self {
            Motor::Servo(_) | Motor::Stepper(_) => f64::INFINITY,
            Motor::Gear(m) => m.running_life.si(),
        }
    }

    /// What it loses at its rated point, a stepper whenever it runs.
    pub(super) fn loss_w(&self) -> f64 {
        match self {
            Motor::Servo(m) => m.power.si() * (1.0 / m.efficiency - 1.0),
            Motor::Stepper(m) => m.running_loss.si(),
            Motor::Gear(m) => m.power.si() * (1.0 / m.efficiency - 1.0),
        }
    }

    /// Electricity in a cycle for moving and for holding, J, and the greatest power, W, the motor's own.
    pub(super) fn energy(&self, shaft: &Shaft, line: &DriveLine, still: Still) -> Energy {
        let rest_s = shaft.cycle.rest_s();
        let (copper, always_w, holding_j) = match self {
            Motor::Servo(m) => {
                // The loss at the rated point is taken as all copper: it goes with the torque squared.
                let rated = m.rated_torque.si();
                let copper = self.loss_w() / (rated * rated);
                let [least, most] = still.rms_n_m;
                let held = least.max(most);
                (copper, 0.0, copper * held * held * rest_s)
            }
            Motor::Stepper(m) => (0.0, self.loss_w(), m.rest_power.si() * rest_s),
            Motor::Gear(m) => {
                // A brushed motor on its straight line heats its copper with the torque squared, T² ω0/Ts; what else it loses
                // at the rated point it loses always.
                let rated = m.rated_torque.si();
                let loss_w = self.loss_w();
                let by_line = m.no_load_speed.si() / m.stall_torque.si();
                let copper = by_line.min(loss_w / (rated * rated));
                (copper, loss_w - copper * rated * rated, 0.0)
            }
        };
        let drawn = shaft.drawn(line, copper);
        Energy {
            moving_j: drawn.moving_j + always_w * shaft.cycle.run_s,
            holding_j,
            shaft_w: drawn.shaft_w,
            peak_w: drawn.peak_w + always_w,
        }
    }
}

/// Electricity at a motor.
#[derive(Debug, Clone, Copy)]
pub(super) struct Energy {
    pub moving_j: f64,
    pub holding_j: f64,
    /// Greatest power with the motor's loss, and the part of it that is at the shaft then.
    pub peak_w: f64,
    pub shaft_w: f64,
}

/// Level up to the first point, then a straight line through the second, then nothing.
fn falling(speed: f64, level: (f64, f64), end: (f64, f64)) -> f64 {
    if speed <= level.0 {
        level.1
    } else if speed > end.0 * (1.0 + 1e-9) {
        0.0
    } else {
        level.1 + (end.1 - level.1) * (speed - level.0) / (end.0 - level.0)
    }
}

/// Pull-out torque on the curve, straight between its points.
fn pull_out(m: &StepperMotor, speed_rad_s: f64) -> f64 {
    let points = || {
        m.speeds
            .iter()
            .zip(&m.pull_out)
            .map(|(n, t)| (n.si(), t.si()))
    };
    let between = points()
        .zip(points().skip(1))
        .find(|(_, high)| speed_rad_s <= high.0);
    between.map_or(0.0, |(low, high)| falling(speed_rad_s, low, high))
}
