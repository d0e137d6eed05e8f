//! The motors a screw may have, seen alike: torque over speed, heat, rest.

use core::f64::consts::TAU;

mod checks;

use super::DUTY_WINDOW_S;
use super::load::{Instant, Line, Load, Moves};
use crate::catalog::{Common, GearMotor, ServoMotor, StepperMotor};
use crate::family::Ask;
use crate::family::check::SURELY;
use crate::mechanics::motor;
use crate::quantity::{Si, radians_per_second};

pub(super) use checks::{duty, running_life};

/// A motor with its drive.
#[derive(Debug, Clone, Copy)]
pub(super) enum Motor<'a> {
    Servo(&'a ServoMotor),
    Stepper(&'a StepperMotor),
    Gear(&'a GearMotor),
}

/// The greatest speed of a part and the greatest torque: of a motor at rest, of a gearbox whenever.
#[derive(Debug, Clone, Copy)]
pub(super) struct Reach {
    pub speed_rad_s: f64,
    pub torque_n_m: f64,
}

impl Reach {
    /// How far a motor is used by speed and by the torque that it needs at rest, besides what it holds.
    pub(super) fn first_bound(self, ask: &Ask, load: &Load, line: &Line, still: Still) -> f64 {
        let speed = load.speed_most_rad_s * line.ratio;
        let torque = line
            .without_inertia(load.drive_most_n_m)
            .max(still.most_n_m);
        let margin = ask.job.rules.drive_margin;
        part(speed, self.speed_rad_s).max(part(torque * margin, self.torque_n_m))
    }
}

/// Torque that the motor itself gives at rest; nothing where a brake or the thread holds.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Still {
    /// The greatest.
    pub most_n_m: f64,
    /// Its RMS over the rests, with the least and the most load.
    pub rms_n_m: [f64; 2],
}

impl<'a> Motor<'a> {
    pub(super) fn common(&self) -> &'a Common {
        match self {
            Motor::Servo(m) => &m.common,
            Motor::Stepper(m) => &m.common,
            Motor::Gear(m) => &m.common,
        }
    }
    /// Kind of part.
    pub(super) fn part_kind(&self) -> &'static str {
        match self {
            Motor::Servo(_) => "servo_motors",
            Motor::Stepper(_) => "stepper_motors",
            Motor::Gear(_) => "gear_motors",
        }
    }
    /// Which controls it takes.
    pub(super) fn controls(&self) -> &'static str {
        match self {
            Motor::Servo(_) => "servo",
            Motor::Stepper(_) => "stepper",
            Motor::Gear(_) => "dc",
        }
    }
    /// Type, for the kind of train.
    pub(super) fn kind(&self) -> &'static str {
        match self {
            Motor::Servo(_) => "servo",
            Motor::Stepper(_) => "stepper",
            Motor::Gear(_) => "DC motor",
        }
    }
    /// Size and type, for the table.
    pub(super) fn words(&self) -> String {
        let show = crate::quantity::show;
        match self {
            Motor::Servo(m) => format!("{} W servo", show(m.power.si())),
            Motor::Stepper(m) => format!("{} N·m stepper", show(m.holding_torque.si())),
            Motor::Gear(m) => format!("{} W DC motor", show(m.power.si())),
        }
    }
    pub(super) fn inertia_kg_m2(&self) -> f64 {
        match self {
            Motor::Servo(m) => m.inertia.si(),
            Motor::Stepper(m) => m.inertia.si(),
            Motor::Gear(m) => m.inertia.si(),
        }
    }
    pub(super) fn length_m(&self) -> f64 {
        match self {
            Motor::Servo(m) => m.length.si(),
            Motor::Stepper(m) => m.length.si(),
            Motor::Gear(m) => m.length.si(),
        }
    }
    pub(super) fn step_error_rad(&self) -> f64 {
        match self {
            Motor::Servo(m) => m.step_error.si(),
            Motor::Stepper(m) => m.step_error.si(),
            Motor::Gear(m) => m.step_error.si(),
        }
    }
    /// Voltage of the supply it needs; a servo drive is on the mains.
    pub(super) fn supply_voltage_v(&self) -> Option<f64> {
        match self {
            Motor::Servo(_) => None,
            Motor::Stepper(m) => Some(m.voltage.si()),
            Motor::Gear(m) => Some(m.voltage.si()),
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

    fn speed_most_rad_s(&self) -> f64 {
        match self {
            Motor::Servo(m) => m.speed_most.si(),
            Motor::Stepper(m) => m.speeds.last().map_or(0.0, |n| n.si()),
            Motor::Gear(m) => m.no_load_speed.si(),
        }
    }

    /// Greatest torque at a speed: of a servo for seconds, of a stepper over the margin of its pull-out, of a DC motor on its line.
    fn capacity_n_m(&self, speed_rad_s: f64, braking: bool, stepper_margin: f64) -> f64 {
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
    pub(super) fn stalled_n_m(&self) -> f64 {
        self.capacity_n_m(0.0, false, 1.0)
    }

    /// Torque that it can hold for ever at a speed; a stepper's current does not follow its torque.
    fn continuous_n_m(&self, speed_rad_s: f64) -> Option<f64> {
        match self {
            Motor::Servo(m) => Some(falling(
                speed_rad_s,
                (m.rated_speed.si(), m.rated_torque.si()),
                (m.speed_most.si(), m.torque_at_most.si()),
            )),
            Motor::Stepper(_) | Motor::Gear(_) => None,
        }
    }

    /// Its greatest speed and its torque at rest.
    pub(super) fn reach(&self, ask: &Ask) -> Reach {
        Reach {
            speed_rad_s: self.speed_most_rad_s(),
            torque_n_m: self.capacity_n_m(0.0, false, ask.job.rules.stepper_margin),
        }
    }

    /// Whether it is sized on the heat of its cycle.
    pub(super) fn heats(&self) -> bool {
        matches!(self, Motor::Servo(_))
    }

    /// How far it is used by what it holds in a rest that is long enough to heat it.
    pub(super) fn standing(&self, ask: &Ask, load: &Load, still: Still) -> f64 {
        let asked = still.most_n_m * ask.job.rules.drive_margin;
        let given = self.continuous_n_m(0.0);
        let given = given.filter(|_| asked > 0.0 && load.rest_longest_s >= DUTY_WINDOW_S);
        given.map_or(0.0, |given| part(asked, given))
    }

    /// The greatest RMS torque over the cycle that its heat allows; endless where it is not sized on that.
    pub(super) fn rms_most_n_m(&self, ask: &Ask, load: &Load, ratio: f64) -> f64 {
        let most = self.continuous_n_m(load.speed_rms_rad_s() * ratio);
        most.map_or(f64::INFINITY, |most| most / ask.job.rules.drive_margin)
    }

    /// How far it is used by heat with an RMS torque over the cycle.
    pub(super) fn heat(&self, ask: &Ask, load: &Load, line: &Line, rms_n_m: f64) -> f64 {
        if !self.heats() {
            return 0.0;
        }
        let most = self.continuous_n_m(load.speed_rms_rad_s() * line.ratio);
        part(rms_n_m * ask.job.rules.drive_margin, most.unwrap_or(0.0))
    }

    /// Whether some instant surely asks more than so many times the torque that there is.
    pub(super) fn stalls(&self, ask: &Ask, load: &Load, line: &Line, times: f64) -> bool {
        load.some_instant(|at| self.is_short(ask, line, times, at))
    }

    /// The same of the instant that asked too much of the motor before.
    pub(super) fn stalls_likewise(&self, ask: &Ask, load: &Load, line: &Line) -> bool {
        load.hardest_instant(|at| self.is_short(ask, line, 1.0, at))
    }

    /// Whether an instant surely asks more than so many times the torque that there is.
    fn is_short(&self, ask: &Ask, line: &Line, times: f64, at: &Instant) -> bool {
        let rules = &ask.job.rules;
        let torque = line.torque_n_m(at);
        let speed = at.speed_rad_s * line.ratio;
        let given = self.capacity_n_m(speed, torque < 0.0, rules.stepper_margin);
        torque.abs() * rules.drive_margin > times * given * SURELY
    }

    /// Whether every instant, and heat, may do behind some gearbox between these figures.
    pub(super) fn may_turn(
        &self,
        ask: &Ask,
        load: &Load,
        ratio: f64,
        efficiency: [f64; 2],
        inertia_kg_m2: [f64; 2],
    ) -> bool {
        let rules = &ask.job.rules;
        let [lossy, fine] = efficiency.map(|efficiency| Line {
            ratio,
            efficiency,
            inertia_kg_m2: 0.0,
            carried_kg_m2: 0.0,
        });
        let given = |speed| self.capacity_n_m(speed, false, rules.stepper_margin);
        // At the greatest speed the torque is least: where that is enough for all there is no need to look at each.
        let heavy = Line {
            inertia_kg_m2: inertia_kg_m2[0].abs().max(inertia_kg_m2[1].abs()),
            ..fine
        };
        let most = load.surely_enough_n_m(&heavy) * rules.drive_margin;
        let idle = most <= given(load.speed_most_rad_s * ratio) * SURELY;
        let stalls = !idle
            && load.some_instant(|at| {
                let turns = [lossy, fine].map(|line| line.without_inertia(at.torque_n_m));
                let speeds = inertia_kg_m2.map(|inertia| inertia * ratio * at.acceleration_rad_s2);
                let low = turns[0].min(turns[1]) + speeds[0].min(speeds[1]);
                let high = turns[0].max(turns[1]) + speeds[0].max(speeds[1]);
                let asked = low.max(-high).max(0.0);
                asked * rules.drive_margin > given(at.speed_rad_s * ratio) * SURELY
            });
        if stalls {
            return false;
        }
        let [heat, _] = self.heat_between(ask, load, ratio, [0.0; 2], efficiency, inertia_kg_m2);
        heat <= SURELY
    }

    /// Between what it is used by heat behind gearboxes between these figures, with an RMS torque at rest.
    pub(super) fn heat_between(
        &self,
        ask: &Ask,
        load: &Load,
        ratio: f64,
        rest_n_m: [f64; 2],
        efficiency: [f64; 2],
        inertia_kg_m2: [f64; 2],
    ) -> [f64; 2] {
        let margin = ask.job.rules.drive_margin;
        let Some(most) = self.continuous_n_m(load.speed_rms_rad_s() * ratio) else {
            return [0.0; 2];
        };
        let asked = load.rms_cycle_between_n_m(ratio, rest_n_m, efficiency, inertia_kg_m2);
        asked.map(|asked| part(asked * margin, most))
    }

    /// The greatest inertia of a load on its shaft; endless where it is not sized on that.
    pub(super) fn turns_kg_m2(&self, ask: &Ask) -> f64 {
        match self {
            Motor::Gear(_) => f64::INFINITY,
            _ => self.inertia_kg_m2() * ask.job.rules.inertia_ratio_most,
        }
    }

    /// How far it is used by the hours that it runs, or by the inertia it turns.
    pub(super) fn last_bound(&self, ask: &Ask, load: &Load, line: &Line) -> f64 {
        match self {
            Motor::Gear(m) => part(load.run_s() * ask.life_cycles(), m.running_life.si()),
            _ => part(
                line.load_inertia_kg_m2(self.inertia_kg_m2()),
                self.inertia_kg_m2() * ask.job.rules.inertia_ratio_most,
            ),
        }
    }

    /// Electricity in a cycle for moving and for holding, J, and the greatest power, W, the motor's own.
    pub(super) fn energy(&self, load: &Load, line: &Line, still: Still, moves: &Moves) -> Energy {
        let rest_s = moves.cycle_s - moves.run_s;
        let (copper, always_w, holding_j) = match self {
            Motor::Servo(m) => {
                // The loss at the rated point is taken as all copper: it goes with the torque squared.
                let rated = m.rated_torque.si();
                let copper = m.power.si() * (1.0 / m.efficiency - 1.0) / (rated * rated);
                let [least, most] = still.rms_n_m;
                let held = least.max(most);
                (copper, 0.0, copper * held * held * rest_s)
            }
            Motor::Stepper(m) => (0.0, m.running_loss.si(), m.rest_power.si() * rest_s),
            Motor::Gear(m) => {
                // A brushed motor on its straight line heats its copper with the torque squared, T² ω0/Ts; what else it loses
                // at the rated point it loses always.
                let rated = m.rated_torque.si();
                let loss_w = m.power.si() * (1.0 / m.efficiency - 1.0);
                let by_line = m.no_load_speed.si() / m.stall_torque.si();
                let copper = by_line.min(loss_w / (rated * rated));
                (copper, loss_w - copper * rated * rated, 0.0)
            }
        };
        let drawn = load.drawn(line, copper);
        Energy {
            moving_j: drawn.moving_j + always_w * moves.run_s,
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

/// What is asked as a part of what is given; endless where nothing is.
fn part(asked: f64, given: f64) -> f64 {
    if given > 0.0 {
        asked / given
    } else {
        f64::INFINITY
    }
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

/// Angle of a screw or motor as travel.
pub(super) fn travel_m(angle_rad: f64, lead_m: f64) -> f64 {
    angle_rad / TAU * lead_m
}
