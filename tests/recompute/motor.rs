//! Motors, gearboxes and brakes of a screw, as plain as a spreadsheet.

use crate::axis::Axis;
use crate::screw::{Screw, greatest_torque};
use std::f64::consts::PI;

struct Train {
    screw: Screw,
    kind: &'static str,
    ratio: f64,
    gear: f64,
    /// Inertia that turns at the motor's speed without the load.
    turning: f64,
    /// Inertia of the motor with what is built on it.
    motor: f64,
}

impl Train {
    fn of(axis: &Axis) -> Option<Self> {
        let screw = Screw::of(axis)?;
        let kind = ["servo_motors", "stepper_motors", "gear_motors"]
            .into_iter()
            .find(|kind| axis.part(kind).is_some())?;
        let gearbox = |field| axis.field("gearboxes", field);
        let ratio = gearbox("ratio").unwrap_or(1.0);
        let motor = axis.field(kind, "inertia")?;
        // What turns at the motor's speed beside its rotor: a brake, and a gearbox stated at its fast shaft.
        let beside =
            axis.field("brakes", "inertia").unwrap_or(0.0) + gearbox("inertia").unwrap_or(0.0);
        let coupling = axis.field("couplings", "inertia")?;
        let turning = motor + beside + coupling + screw.inertia() / (ratio * ratio);
        Some(Self {
            screw,
            kind,
            ratio,
            gear: gearbox("efficiency").unwrap_or(1.0),
            turning,
            motor,
        })
    }

    fn rpm(&self, v: f64) -> f64 {
        v.abs() / self.screw.lead * self.ratio * 60.0
    }

    /// Motor torque along the motion, against a thrust along the motion.
    fn torque(&self, thrust: f64, starting: f64, along: f64) -> f64 {
        let screw = self.screw.torque(thrust, starting);
        let geared = if screw >= 0.0 {
            screw / (self.gear * self.ratio)
        } else {
            screw * self.gear / self.ratio
        };
        geared + self.turning * along * 2.0 * PI / self.screw.lead * self.ratio
    }

    fn at(&self, i: &crate::axis::Instant, sign: f64) -> f64 {
        self.torque(sign * i.f, 1.0, sign * i.a)
    }
}

/// Demand and capacity of a check in its own unit.
pub fn recompute(axis: &Axis, check: &str) -> Option<(f64, f64)> {
    let train = Train::of(axis)?;
    let motor = |field| axis.field(train.kind, field);
    let gearbox = |field| axis.field("gearboxes", field);
    let speed = train.rpm(axis.peak_speed());
    let brake = axis
        .field("brakes", "torque")
        .or_else(|| axis.field(train.kind, "brake_torque"));
    let rpm = |value: f64| value * 30.0 / PI;
    Some(match check {
        "brake.speed" => (speed, rpm(axis.field("brakes", "speed_most")?)),
        "brake.torque" => (
            axis.holding() * train.screw.lead / (2.0 * PI * train.ratio),
            brake?,
        ),
        "coupling.brake_torque" => (brake? * train.ratio, axis.field("couplings", "torque")?),
        "gearbox.peak_torque" => (greatest_torque(axis, &train.screw), gearbox("peak_torque")?),
        "gearbox.speed" => (speed, rpm(gearbox("speed_most")?)),
        "gear_motor.speed" => (speed, rpm(motor("no_load_speed")?)),
        "gear_motor.running_life" => (
            2.0 * axis.travel_time() * axis.cycles_asked() / 3600.0,
            motor("running_life")? / 3600.0,
        ),
        "servo_motor.speed" => (speed, rpm(motor("speed_most")?)),
        "stepper_motor.speed" => (speed, pull_out(axis)?.last()?.0),
        "servo_motor.inertia_ratio" | "stepper_motor.inertia_ratio" => {
            let (mc, k, _, sheaves) = axis.assist();
            let mass = axis.req(&["motion", "load", "most"]) + k * k * mc + sheaves;
            let load = mass * (train.screw.lead / (2.0 * PI)).powi(2) / train.ratio.powi(2);
            (
                (load + train.turning - train.motor) / train.motor,
                axis.rule("inertia_ratio_most", 10.0),
            )
        }
        "gear_motor.torque_line" | "servo_motor.peak_torque" | "stepper_motor.pull_out" => {
            return worst_torque(axis, &train);
        }
        "gear_motor.duty" => {
            let rated = motor("rated_torque")?;
            let run = moving(axis, &train) / (rated * rated);
            duty(axis, "gear_motors", run)?
        }
        "gearbox.torque" => (rms(axis, &train).0 * train.ratio, gearbox("rated_torque")?),
        "servo_motor.standstill_torque" => (standstill(axis, &train), motor("rated_torque")?),
        "servo_motor.continuous_torque" => {
            let (torque, speed) = rms(axis, &train);
            (torque, continuous(axis, speed)?)
        }
        "power_supply.power" => (power(axis, &train)?, axis.field("power_supplies", "power")?),
        "mains.power" => (
            from_mains(axis, power(axis, &train)?, train.kind),
            axis.req(&["site", "mains", "power"]),
        ),
        _ => return None,
    })
}

fn worst_torque(axis: &Axis, train: &Train) -> Option<(f64, f64)> {
    let start = axis.rule("starting_friction", 1.33);
    let line = torque_line(axis, train)?;
    let mut worst = (0.0, at_speed(&line, 0.0));
    for (_, sign, stroke) in axis.cases() {
        for i in stroke {
            let moving = (train.at(i, sign).abs(), at_speed(&line, train.rpm(i.v)));
            let rest = (
                train.torque(sign * i.at_rest, start, 0.0).abs(),
                at_speed(&line, 0.0),
            );
            for (demand, limit) in [moving, rest] {
                if demand / limit > worst.0 / worst.1 {
                    worst = (demand, limit);
                }
            }
        }
    }
    Some(worst)
}

/// Corners of the line of greatest torque over speed in rpm, and the most torque the gear head bears.
struct Line {
    corners: Vec<(f64, f64)>,
    most: f64,
}

fn torque_line(axis: &Axis, train: &Train) -> Option<Line> {
    let motor = |field| axis.field(train.kind, field);
    let rpm = |field| motor(field).map(|speed| speed * 30.0 / PI);
    let mut most = f64::INFINITY;
    let corners = match train.kind {
        "gear_motors" => {
            most = motor("torque_most")?;
            vec![(0.0, motor("stall_torque")?), (rpm("no_load_speed")?, 0.0)]
        }
        "servo_motors" => {
            let peak = motor("peak_torque")?;
            vec![
                (0.0, peak),
                (rpm("rated_speed")?, peak),
                (rpm("speed_most")?, motor("peak_at_most")?),
            ]
        }
        _ => {
            let margin = axis.rule("stepper_margin", 1.5);
            pull_out(axis)?
                .into_iter()
                .map(|(n, torque)| (n, torque / margin))
                .collect()
        }
    };
    Some(Line { corners, most })
}

/// Torque at a speed; none past the end of the line.
fn at_speed(line: &Line, rpm: f64) -> f64 {
    let between = line.corners.windows(2).find(|two| rpm <= two[1].0);
    let torque = between.map_or(0.0, |two| {
        two[0].1 + (two[1].1 - two[0].1) * (rpm - two[0].0) / (two[1].0 - two[0].0)
    });
    torque.min(line.most)
}

fn pull_out(axis: &Axis) -> Option<Vec<(f64, f64)>> {
    let part = axis.part("stepper_motors")?.1;
    let (speeds, torques) = (part["speeds"].as_array()?, part["pull_out"].as_array()?);
    speeds
        .iter()
        .zip(torques)
        .map(|(n, t)| Some((crate::axis::si(n)? * 30.0 / PI, crate::axis::si(t)?)))
        .collect()
}

/// RMS of motor torque over the cycle of the worse load, and of its speed in rpm; at rest a brake or the thread holds.
fn rms(axis: &Axis, train: &Train) -> (f64, f64) {
    let mut worst = (0.0_f64, 0.0_f64);
    let cases: Vec<_> = axis.cases().collect();
    for pair in cases.chunks(2) {
        let (mut torque, mut speed) = (0.0, 0.0);
        for (_, sign, stroke) in pair {
            for two in stroke.windows(2) {
                let half = (two[1].t - two[0].t) / 2.0;
                for i in two {
                    torque += half * train.at(i, *sign).powi(2);
                    speed += half * train.rpm(i.v).powi(2);
                }
            }
        }
        let at_rest = rests(axis, train, pair[0].0);
        torque += at_rest
            .iter()
            .map(|(held, time)| held * held * time)
            .sum::<f64>();
        let over = |sum: f64| (sum / axis.cycle()).sqrt();
        worst = (worst.0.max(over(torque)), worst.1.max(over(speed)));
    }
    worst
}

/// Torque at rest and how long, at the out end and the back end: none where a brake or the thread holds, else without
/// credit for friction.
fn rests(axis: &Axis, train: &Train, m: f64) -> [(f64, f64); 2] {
    let locked = crate::screw::recompute(axis, "sliding_screw.self_locking")
        .is_some_and(|(slope, friction)| slope <= friction);
    let braked = axis.part("brakes").is_some() || axis.field(train.kind, "brake_torque").is_some();
    let out = axis.req(&["timing", "rest_out"]);
    let back = axis.cycle() - out - 2.0 * axis.travel_time();
    let at = |x| {
        let held = axis.held_at(m, x).abs() * train.screw.lead / (2.0 * PI * train.ratio);
        if locked || braked { 0.0 } else { held }
    };
    [(at(axis.req(&["motion", "travel"])), out), (at(0.0), back)]
}

/// Greatest torque that is held for ten minutes or more.
fn standstill(axis: &Axis, train: &Train) -> f64 {
    axis.cases()
        .flat_map(|(m, _, _)| rests(axis, train, m))
        .filter(|(_, time)| *time >= 600.0)
        .map(|(torque, _)| torque)
        .fold(0.0, f64::max)
}

fn continuous(axis: &Axis, rpm: f64) -> Option<f64> {
    let motor = |field| axis.field("servo_motors", field);
    let (rated, most) = (
        motor("rated_speed")? * 30.0 / PI,
        motor("speed_most")? * 30.0 / PI,
    );
    let part = ((rpm - rated) / (most - rated)).clamp(0.0, 1.0);
    Some(motor("rated_torque")? + part * (motor("torque_at_most")? - motor("rated_torque")?))
}

/// Torque squared times time in motion, of the worse load.
fn moving(axis: &Axis, train: &Train) -> f64 {
    let mut worst: f64 = 0.0;
    let cases: Vec<_> = axis.cases().collect();
    for pair in cases.chunks(2) {
        let mut sum = 0.0;
        for (_, sign, stroke) in pair {
            for two in stroke.windows(2) {
                let squares = train.at(&two[0], *sign).powi(2) + train.at(&two[1], *sign).powi(2);
                sum += (two[1].t - two[0].t) / 2.0 * squares;
            }
        }
        worst = worst.max(sum);
    }
    worst
}

/// A run of so many seconds at the rated torque, as a cyclic duration (S3) or from cold (S2) as the study's unit says.
pub fn duty(axis: &Axis, kind: &str, run: f64) -> Option<(f64, f64)> {
    let checks = axis.option["checks"].as_array()?;
    let check = checks
        .iter()
        .find(|c| c["id"].as_str().is_some_and(|id| id.ends_with(".duty")))?;
    Some(if check["unit"] == "s" {
        (run, axis.field(kind, "short_time")?)
    } else {
        (run / axis.cycle().min(600.0), axis.field(kind, "duty")?)
    })
}

/// Greatest electrical power of a motor: at its shaft, with its loss.
fn power(axis: &Axis, train: &Train) -> Option<f64> {
    let shaft =
        |sign: f64, i: &crate::axis::Instant| train.at(i, sign) * train.rpm(i.v) * PI / 30.0;
    let most = axis
        .cases()
        .flat_map(|(_, sign, stroke)| stroke.iter().map(move |i| shaft(sign, i)))
        .fold(0.0, f64::max);
    match axis.field(train.kind, "running_loss") {
        Some(loss) => Some(most + loss),
        None => Some(most / axis.field(train.kind, "efficiency")?),
    }
}

/// Power taken from the mains: through the supply, with the brake and what stands by.
pub fn from_mains(axis: &Axis, power: f64, kind: &str) -> f64 {
    let of = |kind: &str, field| axis.field(kind, field).unwrap_or(0.0);
    let supply = axis.field("power_supplies", "efficiency").unwrap_or(1.0);
    let brake = of("brakes", "power") + of(kind, "brake_power");
    (power / supply)
        + brake
        + of(kind, "standby")
        + of("power_supplies", "standby")
        + of("controls", "standby")
}
