//! What holds the load without power, and against what.

use crate::recompute::base::{Case, G, at, quantity};
use crate::recompute::motion;

/// What holds the load when the power fails.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Holder {
    ScrewBrake,
    CylinderBrake,
    Thread,
    CylinderThread,
    RodLock,
    TrappedAir,
    Counterbalance,
    LoadBrake,
    Jack,
}

/// Judged by the parts, and by the figures of the thread.
pub fn holder(case: &Case) -> Option<Holder> {
    let has = |kind: &str| case.part(kind).is_some();
    if let Some(cylinder) = case.part("electric_cylinders") {
        return Some(if cylinder.opt("brake_time").is_some() {
            Holder::CylinderBrake
        } else {
            Holder::CylinderThread
        });
    }
    if has("load_brakes") {
        return Some(Holder::LoadBrake);
    }
    if has("screw_jacks") {
        return Some(Holder::Jack);
    }
    let built_in = case
        .part("servo_motors")
        .is_some_and(|motor| motor.opt("brake_torque").is_some());
    if has("brakes") || built_in {
        return Some(Holder::ScrewBrake);
    }
    if let Some(screw) = case.part("sliding_screws") {
        // tan λ cos 15° over the part of the friction that the rule counts on.
        let lead = screw.f("pitch") * screw.f("starts");
        let mean = screw.f("diameter") - screw.f("pitch") / 2.0;
        let needed = lead / (std::f64::consts::PI * mean) * 15f64.to_radians().cos();
        return (needed <= screw.f("friction") * case.rule("self_locking_friction"))
            .then_some(Holder::Thread);
    }
    if has("rod_locks") {
        return Some(Holder::RodLock);
    }
    if has("check_valves") {
        return Some(Holder::TrappedAir);
    }
    let valves = case.parts("oil_valves");
    valves
        .iter()
        .any(|valve| valve.text("function") == "counterbalance")
        .then_some(Holder::Counterbalance)
}

/// Greatest force at rest back and out: weight, process and counterweight, and what its balance cannot be trusted in.
pub fn held_both(case: &Case) -> [f64; 2] {
    if case.given.hinge.is_some() {
        return motion::holding_both(case).into();
    }
    let list = at(&case.study["requirements"], "motion.process").and_then(|p| p.as_array());
    let points: Vec<(f64, f64)> = list
        .into_iter()
        .flatten()
        .map(|point| {
            let one = |key: &str| point.get(key).and_then(quantity).unwrap_or(0.0);
            (one("at"), one("hold"))
        })
        .collect();
    let travel = case.travel();
    let ends = case.words("power_loss") == "may_move" && case.words("stops") == "ends";
    let inside = |x: &f64| *x > 0.0 && *x < travel && !ends;
    let mut holds: Vec<f64> = [0.0, travel]
        .into_iter()
        .chain(points.iter().map(|point| point.0).filter(inside))
        .flat_map(|x| values(&points, x))
        .collect();
    if holds.is_empty() {
        holds.push(0.0);
    }
    let pull = case.assist("travel_ratio") * case.assist("counterweight_kg") * G;
    let unsure = case.rule("balance_tolerance") * pull;
    let (mut back, mut out) = (unsure, unsure);
    for stroke in case.strokes() {
        for hold in &holds {
            let force = stroke.mass * G * case.incline().sin() + hold - pull;
            back = back.max(force);
            out = out.max(-force);
        }
    }
    [back, out]
}

/// What a piecewise linear table says at a place, on both sides of a jump.
fn values(points: &[(f64, f64)], x: f64) -> Vec<f64> {
    let (Some(first), Some(last)) = (points.first(), points.last()) else {
        return vec![0.0];
    };
    let here: Vec<f64> = points
        .iter()
        .filter(|point| point.0 == x)
        .map(|point| point.1)
        .collect();
    if !here.is_empty() {
        return here;
    }
    if x < first.0 {
        return vec![first.1];
    }
    let pair = points
        .windows(2)
        .find(|pair| pair[0].0 < x && x < pair[1].0);
    vec![pair.map_or(last.1, |pair| {
        pair[0].1 + (pair[1].1 - pair[0].1) * (x - pair[0].0) / (pair[1].0 - pair[0].0)
    })]
}

pub fn held(case: &Case) -> f64 {
    held_both(case).into_iter().fold(0.0, f64::max)
}

/// The held force where this is what holds it, and there is something to hold that hurts when it is let go.
pub fn by(case: &Case, who: Holder) -> Option<Vec<f64>> {
    let force = held(case);
    (holder(case) == Some(who) && force > 1e-6 && is_grave(case)).then(|| vec![force])
}

/// The most mass, and how far down its centre may go.
fn drop(case: &Case) -> (f64, f64) {
    let mass = case.strokes().iter().map(|s| s.mass).fold(0.0, f64::max);
    let down = match &case.given.hinge {
        Some(_) if case.words("motion.axis") == "upright" => 0.0,
        Some(hinge) => {
            let offset = case.or("motion.centre_of_mass.angle", 0.0);
            let steps =
                (0..=720).map(|i| hinge.from + (hinge.to - hinge.from) * f64::from(i) / 720.0);
            let heights = steps.map(|angle| hinge.radius * (angle + offset).sin());
            let ends = heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), height| {
                (low.min(height), high.max(height))
            });
            ends.1 - ends.0
        }
        None => case.travel() * case.incline().sin().abs(),
    };
    (mass, if down > 1e-9 { down } else { 0.0 })
}

/// More than 75 N or 4 J coming down hurts (ISO 14120, from memory, as of powered guards).
fn comes_down(case: &Case) -> bool {
    let (mass, down) = drop(case);
    down > 0.0 && (mass * G * down > 4.0 || mass * G > 75.0)
}

/// What comes down: its mass, how far, and the energy that it has by then.
pub fn falls(case: &Case) -> Option<Vec<f64>> {
    let (mass, down) = drop(case);
    let steep = case.given.hinge.is_some() || case.incline().sin().abs() > 0.5_f64.sqrt();
    let way = if steep { down } else { case.travel() };
    comes_down(case).then(|| vec![mass, way, mass * G * down])
}

/// What comes down and hurts nobody.
pub fn drops(case: &Case) -> Option<Vec<f64>> {
    let (mass, down) = drop(case);
    let energy = mass * G * down;
    (energy >= 1.0 && !comes_down(case)).then(|| vec![mass, energy])
}

/// What the process pushes at rest; at the centre of mass of what swings.
pub fn pushed(case: &Case) -> Option<Vec<f64>> {
    let table: Vec<_> = case.given.points.iter().map(|p| (p.0, p.3)).collect();
    let both = |at: f64| {
        let side = |beyond| motion::along(&table, at, beyond).abs();
        side(false).max(side(true))
    };
    let hinge = case.given.hinge.as_ref();
    let (ends, over) = hinge.map_or(([0.0, case.travel()], 1.0), |hinge| {
        ([hinge.from, hinge.to], hinge.radius)
    });
    let inside = table.iter().map(|point| point.0);
    let inside = inside.filter(|at| (ends[0]..=ends[1]).contains(at));
    let most = inside.chain(ends).map(both).fold(0.0, f64::max);
    (most / over > 75.0).then(|| vec![most / over])
}

/// Whether somebody is hurt when it is let go.
pub fn is_grave(case: &Case) -> bool {
    comes_down(case) || pushed(case).is_some()
}

/// One means alone: whatever holds, for no drive has two.
pub fn alone(case: &Case) -> Option<Vec<f64>> {
    (holder(case).is_some() && held(case) > 1e-6 && is_grave(case)).then(Vec::new)
}

/// What is done before what holds it is touched.
pub fn blocked(case: &Case) -> Option<Vec<f64>> {
    is_grave(case).then(Vec::new)
}

/// The study's own word on it.
pub fn claim(case: &Case) -> Option<String> {
    let claims = case.option["holds_without_power"].as_bool();
    let holds = holder(case).is_some() || held(case) <= 1e-6;
    (claims != Some(holds))
        .then(|| format!("holds without power: {claims:?}, by {:?}", holder(case)))
}
