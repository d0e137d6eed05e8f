//! The motors a screw may have, seen alike: torque over speed, heat, rest.

use core::f64::consts::TAU;

use super::DUTY_WINDOW_S;
use super::load::{Instant, Line, Load, Moves};
use super::spindle::rpm;
use crate::catalog::{Common, GearMotor, ServoMotor, StepperMotor};
use crate::family::{Ask, Check};
use crate::mechanics::motor;
use crate::quantity::{Si, Time, radians_per_second};

/// A bound must be past 1 by more than rounding to put a motor out.
pub(super) const SURELY: f64 = 1.0 + 1e-6;

/// A motor with its drive.
#[derive(Debug, Clone, Copy)]
pub(super) enum Motor<'a> {
    Servo(&'a ServoMotor),
    Stepper(&'a StepperMotor),
    Gear(&'a GearMotor),
}

/// Torque that the motor itself gives at rest; nothing where a brake or the thread holds.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Still {
    /// The greatest.
    pub most_n_m: f64,
    /// Its RMS over the rests.
    pub rms_n_m: f64,
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

    /// How far it is used by speed and by the torque that it needs at rest, besides what it holds.
    pub(super) fn first_bound(&self, ask: &Ask, load: &Load, line: &Line, still: Still) -> f64 {
        let speed = load.speed_most_rad_s * line.ratio;
        let torque = line
            .without_inertia(load.drive_most_n_m)
            .max(still.most_n_m);
        let at_rest = self.capacity_n_m(0.0, false, ask.job.rules.stepper_margin);
        let margin = ask.job.rules.drive_margin;
        part(speed, self.speed_most_rad_s()).max(part(torque * margin, at_rest))
    }

    /// How far it is used by what can be told in closed form; past 1 it is no use to look closer.
    pub(super) fn bound(&self, ask: &Ask, load: &Load, line: &Line, still: Still) -> f64 {
        let margin = ask.job.rules.drive_margin;
        let bound = self.first_bound(ask, load, line, still);
        let heat = match self.continuous_n_m(0.0) {
            Some(_) => {
                let most = self.continuous_n_m(load.speed_rms_rad_s() * line.ratio);
                let asked = load.rms_cycle_n_m(line, still.rms_n_m) * margin;
                part(asked, most.unwrap_or(0.0))
            }
            None => 0.0,
        };
        bound.max(heat).max(self.last_bound(ask, load, line))
    }

    /// Whether some instant surely asks more torque than there is.
    pub(super) fn stalls(&self, ask: &Ask, load: &Load, line: &Line) -> bool {
        let rules = &ask.job.rules;
        load.telling().iter().any(|at| {
            let torque = line.torque_n_m(at);
            let speed = at.speed_rad_s * line.ratio;
            let given = self.capacity_n_m(speed, torque < 0.0, rules.stepper_margin);
            torque.abs() * rules.drive_margin > given * SURELY
        })
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
        let stalls = load.telling().iter().any(|at| {
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
        self.continuous_n_m(load.speed_rms_rad_s() * ratio)
            .is_none_or(|most| {
                let asked = load.least_rms_cycle_n_m(ratio, efficiency, inertia_kg_m2);
                asked * rules.drive_margin <= most * SURELY
            })
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

    /// Peak torque against what there is at that speed: the worst instant, starts included.
    pub(super) fn peak<'l>(&self, ask: &Ask, load: &'l Load, line: &Line, still: Still) -> Check {
        let rules = &ask.job.rules;
        let (id, formula, source) = match self {
            Motor::Servo(_) => (
                "servo_motor.peak_torque",
                "F l/(2π η η_g i) + J α against the peak torque at that speed",
                "drive torque: Shigley, § 8-2; margin: common practice, no source",
            ),
            Motor::Stepper(_) => (
                "stepper_motor.pull_out",
                "F l/(2π η η_g i) + J α against the pull-out torque at that speed over its margin",
                "drive torque: Shigley, § 8-2; margins: common practice, no source",
            ),
            Motor::Gear(_) => (
                "gear_motor.torque_line",
                "F l/(2π η) + J α against Ts (1 - n/n0) and the gear head",
                "drive torque: Shigley, § 8-2; margin: common practice, no source",
            ),
        };
        let rest = self.capacity_n_m(0.0, false, rules.stepper_margin);
        // Demand and capacity of the instant at which the one is the greatest part of the other.
        let mut worst = (0.0, rest);
        let mut instant: Option<&Instant> = None;
        let mut take = |asked: f64, given: f64, at: Option<&'l Instant>| {
            if asked * worst.1 > worst.0 * given {
                worst = (asked, given);
                instant = at;
            }
        };
        take(still.most_n_m, rest, None);
        for at in load.telling() {
            let torque = line.torque_n_m(at);
            let given = self.capacity_n_m(
                at.speed_rad_s * line.ratio,
                torque < 0.0,
                rules.stepper_margin,
            );
            take(torque.abs(), given, Some(at));
            take(line.without_inertia(at.start_n_m).abs(), rest, Some(at));
        }
        let of = |figure: fn(&Instant) -> f64| instant.map_or(0.0, figure);
        Check::new(id, worst.0, worst.1, "N m")
            .factor(rules.drive_margin)
            .from(formula, source)
            .given(
                &[
                    ("T screw", "N m"),
                    ("T screw from rest", "N m"),
                    ("n screw", "rpm"),
                    ("α screw", "rad/s2"),
                    ("J on the motor", "kg cm2"),
                    ("i", ""),
                    ("η_g", ""),
                    ("T still", "N m"),
                ],
                &[
                    of(|at| at.torque_n_m),
                    of(|at| at.start_n_m),
                    rpm(of(|at| at.speed_rad_s)),
                    of(|at| at.acceleration_rad_s2),
                    line.inertia_kg_m2 * 1e4,
                    line.ratio,
                    line.efficiency,
                    still.most_n_m,
                ],
            )
            .rule("drive_margin")
    }

    /// Every check of the motor but the peak.
    pub(super) fn other_checks(
        &self,
        ask: &Ask,
        load: &Load,
        line: &Line,
        still: Still,
        moves: &Moves,
    ) -> Vec<Check> {
        let rules = &ask.job.rules;
        let speed = rpm(load.speed_most_rad_s * line.ratio);
        let limit = rpm(self.speed_most_rad_s());
        match self {
            Motor::Servo(_) => {
                let at = load.speed_rms_rad_s() * line.ratio;
                vec![
                    Check::new("servo_motor.speed", speed, limit, "rpm")
                        .from("n = v i / l", "the part's limit").given(&[("n screw", "rpm"), ("i", "")], &[rpm(load.speed_most_rad_s), line.ratio]),
                    Check::new(
                        "servo_motor.continuous_torque",
                        load.rms_cycle_n_m(line, still.rms_n_m),
                        self.continuous_n_m(at).unwrap_or(0.0),
                        "N m",
                    )
                    .factor(rules.drive_margin)
                    .from(
                        "√(Σ T² t / cycle) against the continuous torque at the RMS speed",
                        "heat goes with torque squared; margin: common practice, no source",
                    ).given(&[("T rms", "N m"), ("n rms", "rpm")], &[load.rms_cycle_n_m(line, still.rms_n_m), rpm(at)])
                    .rule("drive_margin"),
                    Check::new(
                        "servo_motor.standstill_torque",
                        // A rest shorter than the motor's heat is part of the RMS above.
                        if moves.rest_longest_s >= DUTY_WINDOW_S { still.most_n_m } else { 0.0 },
                        self.continuous_n_m(0.0).unwrap_or(0.0),
                        "N m",
                    )
                    .factor(rules.drive_margin)
                    .from(
                        "F_hold l/(2π i) held for ten minutes or more against the continuous torque at rest",
                        "IEC 60034-1 cycle of ten minutes; margin: common practice, no source",
                    ).given(&[("T still", "N m"), ("rest", "s")], &[still.most_n_m, moves.rest_longest_s])
                    .rule("drive_margin"),
                    self.inertia_ratio("servo_motor.inertia_ratio", ask, line),
                ]
            }
            Motor::Stepper(_) => vec![
                Check::new("stepper_motor.speed", speed, limit, "rpm")
                    .from("n = v i / l", "end of the pull-out curve")
                    .given(
                        &[("n screw", "rpm"), ("i", "")],
                        &[rpm(load.speed_most_rad_s), line.ratio],
                    ),
                self.inertia_ratio("stepper_motor.inertia_ratio", ask, line),
            ],
            Motor::Gear(m) => vec![
                running_life("gear_motor.running_life", ask, moves.run_s, m.running_life),
                Check::new("gear_motor.speed", speed, limit, "rpm")
                    .from("n = v / l", "the speed without load")
                    .given(
                        &[("n screw", "rpm"), ("i", "")],
                        &[rpm(load.speed_most_rad_s), line.ratio],
                    ),
                duty(
                    "gear_motor.duty",
                    moves,
                    load.rms_moving_n_m(line) / m.rated_torque.si(),
                    [m.duty, m.short_time.si(), m.cooling.si()],
                ),
            ],
        }
    }

    fn inertia_ratio(&self, id: &'static str, ask: &Ask, line: &Line) -> Check {
        Check::new(
            id,
            line.load_inertia_kg_m2(self.inertia_kg_m2()) / self.inertia_kg_m2(),
            ask.job.rules.inertia_ratio_most,
            "",
        )
        .from(
            "((m + k² mc)(l/2π)² + J screw)/i² + J coupling, over J motor",
            "common practice, no source",
        )
        .given(
            &[("J load", "kg cm2"), ("J motor", "kg cm2"), ("i", "")],
            &[
                line.load_inertia_kg_m2(self.inertia_kg_m2()) * 1e4,
                self.inertia_kg_m2() * 1e4,
                line.ratio,
            ],
        )
        .rule("inertia_ratio_most")
    }

    /// Electricity in a cycle for moving and for holding, J, and the greatest power, W, the motor's own.
    pub(super) fn energy(&self, load: &Load, line: &Line, still: Still, moves: &Moves) -> Energy {
        let (work_j, shaft_w) = load.work_and_power(line);
        let rest_s = moves.cycle_s - moves.run_s;
        match self {
            Motor::Servo(m) => {
                // Loss at the rated point, taken as all copper: it goes with the torque squared.
                let loss_w = m.power.si() * (1.0 / m.efficiency - 1.0);
                let part = still.rms_n_m / m.rated_torque.si();
                Energy {
                    moving_j: work_j / m.efficiency,
                    holding_j: loss_w * part * part * rest_s,
                    peak_w: shaft_w / m.efficiency,
                }
            }
            Motor::Stepper(m) => Energy {
                moving_j: work_j + m.running_loss.si() * moves.run_s,
                holding_j: m.rest_power.si() * rest_s,
                peak_w: shaft_w + m.running_loss.si(),
            },
            Motor::Gear(m) => Energy {
                moving_j: work_j / m.efficiency,
                holding_j: 0.0,
                peak_w: shaft_w / m.efficiency,
            },
        }
    }
}

/// Electricity at a motor.
#[derive(Debug, Clone, Copy)]
pub(super) struct Energy {
    pub moving_j: f64,
    pub holding_j: f64,
    pub peak_w: f64,
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

/// Running time over the years asked against what brushes or gears last.
pub(super) fn running_life(id: &'static str, ask: &Ask, run_s: f64, lasts: Time) -> Check {
    let hours = |seconds: f64| seconds / 3600.0;
    Check::new(id, hours(run_s * ask.life_cycles()), hours(lasts.si()), "h")
        .from("2 T · cycles over the years asked", "the part's rating")
        .given(
            &[("run in a cycle", "s"), ("cycles", "")],
            &[run_s, ask.life_cycles()],
        )
}

/// Heat of a part-time motor: S3 over ten minutes at most, or S2 where it runs once and cools.
///
/// `ED (T/T rated)²`: the same heat as the rated torque for a shorter time.
pub(super) fn duty(id: &'static str, moves: &Moves, load_ratio: f64, part: [f64; 3]) -> Check {
    let [factor, short_time_s, cooling_s] = part;
    let heat = load_ratio * load_ratio;
    if moves.cycle_s - moves.run_s >= cooling_s {
        return Check::new(id, moves.run_s * heat, short_time_s, "s")
            .from(
                "run × (T/T rated)² against the single run from cold",
                "IEC 60034-1, duty type S2",
            )
            .given(
                &[("run", "s"), ("T/T rated", "")],
                &[moves.run_s, load_ratio],
            );
    }
    Check::new(id, moves.run_s / moves.window_s() * heat, factor, "")
        .from(
            "run / cycle (ten minutes at most) × (T/T rated)² against the cyclic duration factor",
            "IEC 60034-1, duty type S3",
        )
        .given(
            &[("run", "s"), ("cycle", "s"), ("T/T rated", "")],
            &[moves.run_s, moves.window_s(), load_ratio],
        )
}

/// Angle of a screw or motor as travel.
pub(super) fn travel_m(angle_rad: f64, lead_m: f64) -> f64 {
    angle_rad / TAU * lead_m
}
