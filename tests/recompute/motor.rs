//! Motors, gearboxes and brakes of a screw, as plain as a spreadsheet.

use std::f64::consts::PI;

use super::base::{Case, quantity};
use super::motion::{Instant, Stroke, held_at};
use super::screw::{Screw, greatest_torque};
use super::worst::{area, held_most, most};

struct Drive {
    screw: Screw,
    kind: &'static str,
    ratio: f64,
    gear: f64,
    /// Inertia that turns at the motor's speed without the load.
    turning: f64,
    /// Inertia of the motor with what is built on it.
    motor: f64,
}

impl Drive {
    fn of(case: &Case) -> Option<Self> {
        let screw = Screw::of(case)?;
        let kind = ["servo_motors", "stepper_motors", "gear_motors"]
            .into_iter()
            .find(|kind| case.part(kind).is_some())?;
        let gearbox = |field| case.field("gearboxes", field);
        let ratio = gearbox("ratio").unwrap_or(1.0);
        let motor = case.field(kind, "inertia")?;
        // What turns at the motor's speed beside its rotor: a brake, and a gearbox stated at its fast shaft.
        let beside =
            case.field("brakes", "inertia").unwrap_or(0.0) + gearbox("inertia").unwrap_or(0.0);
        let coupling = case.field("couplings", "inertia")?;
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

    fn at(&self, stroke: &Stroke, i: &Instant) -> f64 {
        self.torque(stroke.sign * i.f, 1.0, stroke.sign * i.a)
    }
}

/// Demand and capacity of a check in its own unit.
pub fn recompute(case: &Case, check: &str) -> Option<(f64, f64)> {
    let drive = Drive::of(case)?;
    let motor = |field| case.field(drive.kind, field);
    let gearbox = |field| case.field("gearboxes", field);
    let speed = drive.rpm(most(case, |i| i.v.abs()));
    let brake = case
        .field("brakes", "torque")
        .or_else(|| case.field(drive.kind, "brake_torque"));
    let rpm = |value: f64| value * 30.0 / PI;
    Some(match check {
        "brake.speed" => (speed, rpm(case.field("brakes", "speed_most")?)),
        "brake.torque" => (
            held_most(case) * drive.screw.lead / (2.0 * PI * drive.ratio),
            brake?,
        ),
        "coupling.brake_torque" => (brake? * drive.ratio, case.field("couplings", "torque")?),
        "gearbox.peak_torque" => (greatest_torque(case, &drive.screw), gearbox("peak_torque")?),
        "gearbox.speed" => (speed, rpm(gearbox("speed_most")?)),
        "gear_motor.speed" => (speed, rpm(motor("no_load_speed")?)),
        "gear_motor.running_life" => (
            2.0 * case.time() * case.cycles_asked() / 3600.0,
            motor("running_life")? / 3600.0,
        ),
        "servo_motor.speed" => (speed, rpm(motor("speed_most")?)),
        "stepper_motor.speed" => (speed, pull_out(case)?.last()?.0),
        "servo_motor.inertia_ratio" | "stepper_motor.inertia_ratio" => {
            let (mc, k) = (case.assist("counterweight_kg"), case.assist("travel_ratio"));
            let hung = k * k * mc + case.assist("sheave_mass_kg");
            let mass = case.or("motion.load.most", f64::NAN) + hung;
            let load = mass * (drive.screw.lead / (2.0 * PI)).powi(2) / drive.ratio.powi(2);
            (
                (load + drive.turning - drive.motor) / drive.motor,
                case.rule("inertia_ratio_most"),
            )
        }
        "gear_motor.torque_line" | "servo_motor.peak_torque" | "stepper_motor.pull_out" => {
            return worst_torque(case, &drive);
        }
        "gear_motor.duty" => {
            let rated = motor("rated_torque")?;
            let run = moving(case, &drive) / (rated * rated);
            duty(case, "gear_motors", run)?
        }
        "gearbox.torque" => (rms(case, &drive).0 * drive.ratio, gearbox("rated_torque")?),
        "servo_motor.standstill_torque" => (standstill(case, &drive), motor("rated_torque")?),
        "servo_motor.continuous_torque" => {
            let (torque, speed) = rms(case, &drive);
            (torque, continuous(case, speed)?)
        }
        "power_supply.power" => (power(case, &drive)?, case.field("power_supplies", "power")?),
        "mains.power" => (
            from_mains(case, power(case, &drive)?, drive.kind),
            case.or("site.mains.power", 0.0),
        ),
        _ => return None,
    })
}

fn worst_torque(case: &Case, drive: &Drive) -> Option<(f64, f64)> {
    let start = case.rule("starting_friction");
    let line = torque_line(case, drive)?;
    let mut worst = (0.0, at_speed(&line, 0.0));
    for stroke in case.strokes() {
        for i in &stroke.instants {
            let moving = (drive.at(stroke, i).abs(), at_speed(&line, drive.rpm(i.v)));
            let rest = (
                drive.torque(stroke.sign * i.still, start, 0.0).abs(),
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

fn torque_line(case: &Case, drive: &Drive) -> Option<Line> {
    let motor = |field| case.field(drive.kind, field);
    let rpm = |field| motor(field).map(|speed| speed * 30.0 / PI);
    let mut most = f64::INFINITY;
    let corners = match drive.kind {
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
            let margin = case.rule("stepper_margin");
            pull_out(case)?
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

fn pull_out(case: &Case) -> Option<Vec<(f64, f64)>> {
    let part = case.part("stepper_motors")?.record;
    let (speeds, torques) = (part["speeds"].as_array()?, part["pull_out"].as_array()?);
    speeds
        .iter()
        .zip(torques)
        .map(|(n, t)| Some((quantity(n)? * 30.0 / PI, quantity(t)?)))
        .collect()
}

/// RMS of motor torque over the cycle of the worse load, and of its speed in rpm; at rest a brake or the thread holds.
fn rms(case: &Case, drive: &Drive) -> (f64, f64) {
    let mut worst = (0.0_f64, 0.0_f64);
    for load in case.strokes().chunks(2) {
        let sum = |figure: &dyn Fn(&Stroke, &Instant) -> f64| -> f64 {
            load.iter()
                .map(|s| area(&s.instants, |i| figure(s, i)))
                .sum()
        };
        let held: f64 = rests(case, drive, load[0].mass)
            .iter()
            .map(|(held, time)| held * held * time)
            .sum();
        let over = |sum: f64| (sum / case.cycle_s()).sqrt();
        let torque = over(sum(&|s, i| drive.at(s, i).powi(2)) + held);
        let speed = over(sum(&|_, i| drive.rpm(i.v).powi(2)));
        worst = (worst.0.max(torque), worst.1.max(speed));
    }
    worst
}

/// Torque at rest and how long, at the out end and the back end: none where a brake or the thread holds, else without
/// credit for friction.
fn rests(case: &Case, drive: &Drive, m: f64) -> [(f64, f64); 2] {
    let out = case.or("timing.rest_out", 0.0);
    let back = case.cycle_s() - out - 2.0 * case.time();
    let at = |x| {
        let held = held_at(case, m, x).abs() * drive.screw.lead / (2.0 * PI * drive.ratio);
        if still(case, drive) { 0.0 } else { held }
    };
    [(at(case.travel()), out), (at(0.0), back)]
}

/// Whether a brake or the thread itself holds at rest.
fn still(case: &Case, drive: &Drive) -> bool {
    let locked = super::screw::recompute(case, "sliding_screw.self_locking")
        .is_some_and(|(slope, friction)| slope <= friction);
    let braked = case.part("brakes").is_some() || case.field(drive.kind, "brake_torque").is_some();
    locked || braked
}

/// Torque of the force to hold, wherever it is greatest, where some rest lasts ten minutes or more.
fn standstill(case: &Case, drive: &Drive) -> f64 {
    let rests = rests(case, drive, f64::NAN);
    let long = rests.iter().any(|(_, time)| *time >= 600.0);
    if long && !still(case, drive) {
        held_most(case) * drive.screw.lead / (2.0 * PI * drive.ratio)
    } else {
        0.0
    }
}

fn continuous(case: &Case, rpm: f64) -> Option<f64> {
    let motor = |field| case.field("servo_motors", field);
    let (rated, most) = (
        motor("rated_speed")? * 30.0 / PI,
        motor("speed_most")? * 30.0 / PI,
    );
    let part = ((rpm - rated) / (most - rated)).clamp(0.0, 1.0);
    Some(motor("rated_torque")? + part * (motor("torque_at_most")? - motor("rated_torque")?))
}

/// Torque squared times time in motion, of the worse load.
fn moving(case: &Case, drive: &Drive) -> f64 {
    let heat = |s: &Stroke| area(&s.instants, |i| drive.at(s, i).powi(2));
    let loads = case.strokes().chunks(2);
    loads
        .map(|load| load.iter().map(heat).sum())
        .fold(0.0, f64::max)
}

/// A run of so many seconds at the rated torque, as a cyclic duration (S3) or from cold (S2) as the study's unit says.
pub fn duty(case: &Case, kind: &str, run: f64) -> Option<(f64, f64)> {
    let checks = case.option["checks"].as_array()?;
    let check = checks
        .iter()
        .find(|c| c["id"].as_str().is_some_and(|id| id.contains("r.duty")))?;
    Some(if check["unit"] == "s" {
        (run, case.field(kind, "short_time")?)
    } else {
        (run / case.cycle_s().min(600.0), case.field(kind, "duty")?)
    })
}

/// Greatest electrical power of a motor while it drives: T ω + k T² + P0.
fn power(case: &Case, drive: &Drive) -> Option<f64> {
    let (k, fixed) = losses(case, drive.kind)?;
    let mut most = 0.0_f64;
    for stroke in case.strokes() {
        for i in &stroke.instants {
            let (torque, speed) = (drive.at(stroke, i), drive.rpm(i.v) * PI / 30.0);
            if torque > 0.0 {
                most = most.max(torque * speed + k * torque * torque);
            }
        }
    }
    Some(most + fixed)
}

/// Loss per torque squared, k, and fixed loss, P0, of a kind of motor.
fn losses(case: &Case, kind: &str) -> Option<(f64, f64)> {
    let motor = |field| case.field(kind, field);
    if kind == "stepper_motors" {
        return Some((0.0, motor("running_loss")?));
    }
    let lost = motor("power")? * (1.0 / motor("efficiency")? - 1.0);
    let squared = motor("rated_torque")?.powi(2);
    if kind == "servo_motors" {
        return Some((lost / squared, 0.0));
    }
    let line = motor("no_load_speed")? / motor("stall_torque")?;
    let k = line.min(lost / squared);
    Some((k, lost - k * squared))
}

/// Power taken from the mains: through the supply, with the brake and what stands by.
pub fn from_mains(case: &Case, power: f64, kind: &str) -> f64 {
    let of = |kind: &str, field| case.field(kind, field).unwrap_or(0.0);
    let supply = case.field("power_supplies", "efficiency").unwrap_or(1.0);
    let brake = of("brakes", "power") + of(kind, "brake_power");
    (power / supply)
        + brake
        + of(kind, "standby")
        + of("power_supplies", "standby")
        + of("controls", "standby")
}
