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

/// The held force where this is what holds it, and there is something to hold.
pub fn by(case: &Case, who: Holder) -> Option<Vec<f64>> {
    let force = held(case);
    (holder(case) == Some(who) && force > 1e-6).then(|| vec![force])
}

/// The study's own word on it.
pub fn claim(case: &Case) -> Option<String> {
    let claims = case.option["holds_without_power"].as_bool();
    let holds = holder(case).is_some() || held(case) <= 1e-6;
    (claims != Some(holds))
        .then(|| format!("holds without power: {claims:?}, by {:?}", holder(case)))
}
