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
        let turning =
            motor + axis.field("couplings", "inertia")? + screw.inertia() / (ratio * ratio);
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
            let (mc, k, _, _) = axis.assist();
            let mass = axis.req(&["motion", "load", "most"]) + k * k * mc;
            let load = mass * (train.screw.lead / (2.0 * PI)).powi(2) + train.screw.inertia();
            let beside = load / train.ratio.powi(2) + axis.field("couplings", "inertia")?;
            (beside / train.motor, axis.rule("inertia_ratio_most", 10.0))
        }
        "gear_motor.torque_line" | "servo_motor.peak_torque" | "stepper_motor.pull_out" => {
            return worst_torque(axis, &train);
        }
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
