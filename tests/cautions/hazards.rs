//! The hazards: how to know one from the numbers, and the words by which its caution is known.

use super::drive::{air_pressure, check, press};
use super::hold::{Holder, by, held, held_both, holder};
use crate::recompute::base::{Case, G, at, quantity};
use crate::recompute::motion::{Instant, stop};
use crate::recompute::tipping;
use crate::recompute::worst::most;

/// A hazard and its caution.
pub struct Hazard {
    /// Words that stand in its caution and in no other.
    pub says: &'static str,
    /// The numbers that the caution must carry, in SI, where the hazard is there.
    pub judge: fn(&Case) -> Option<Vec<f64>>,
}

const fn hazard(says: &'static str, judge: fn(&Case) -> Option<Vec<f64>>) -> Hazard {
    Hazard { says, judge }
}

pub const HAZARDS: &[Hazard] = &[
    // Gravity without power.
    hazard("When the power fails nothing is asked to hold", lets_go),
    hazard("The screw runs back under its load", |case| {
        by(case, Holder::ScrewBrake)
    }),
    hazard("only the cylinder's brake holds", |case| {
        by(case, Holder::CylinderBrake)
    }),
    hazard("The thread holds the load", |case| by(case, Holder::Thread)),
    hazard("The cylinder holds the load", |case| {
        by(case, Holder::CylinderThread)
    }),
    hazard("only the rod lock holds", |case| by(case, Holder::RodLock)),
    hazard("Only trapped air holds", |case| {
        by(case, Holder::TrappedAir)
    }),
    hazard("Only the counterbalance valve", |case| {
        // A valve a side, each against its own force.
        let sides = held_both(case);
        let both = sides.iter().all(|force| *force > 1.0);
        by(case, Holder::Counterbalance).map(|held| if both { sides.to_vec() } else { held })
    }),
    // The crank that spins.
    hazard(
        "Only the load brake keeps the crank from spinning",
        |case| by(case, Holder::LoadBrake),
    ),
    hazard("Only the friction of the jack holds", |case| {
        by(case, Holder::Jack)
    }),
    hazard("The crank turns at", fast_crank),
    hazard("Nothing pulls at the load at rest", pushed_away),
    // What is stored.
    hazard("vent it before anybody reaches in", stored_air),
    hazard("The oil may stand at", stored_oil),
    hazard("The accumulator keeps oil under pressure", |case| {
        case.part("oil_accumulators").map(|_| Vec::new())
    }),
    hazard("Set the pressure switch", pressed_work),
    hazard("At the relief valve's setting", relief),
    hazard("The first stroke after venting", |case| {
        case.part("air_cylinders").map(|_| Vec::new())
    }),
    hazard(
        "the soft-start valve brings the pressure up gently",
        lifted_by_air,
    ),
    // The motion.
    hazard("The load overruns", overruns),
    hazard("Whoever is between the load and a fixed part", crushes),
    hazard("it arrives at up to", arrives_fast),
    hazard("it is sped up and slowed down with up to", jerks),
    // The counterweight.
    hazard("m up and down beside the machine", path),
    hazard("If the rope or its fastening breaks", rope),
    hazard("the counterweight pulls it up with", upward),
    // The hinge.
    hazard("swings on the arm's tail", on_the_tail),
    hazard(
        "At its worst angle the drive has a lever of only",
        short_lever,
    ),
    // The stand.
    hazard("near tipping", tips),
    hazard("The machine may slide", slides),
    // The arm.
    hazard("The arm swings", super::arm::springy),
];

/// Pull of a counterweight on a rope.
fn weight_n(case: &Case) -> Option<f64> {
    (case.assist("counterweight_kg") > 0.0 && case.given.hinge.is_none())
        .then(|| case.assist("counterweight_kg") * case.assist("travel_ratio") * G)
}

fn lets_go(case: &Case) -> Option<Vec<f64>> {
    let ways: Vec<f64> = held_both(case)
        .into_iter()
        .filter(|force| *force > 1e-6)
        .collect();
    (case.words("power_loss") == "may_move" && holder(case).is_none() && !ways.is_empty())
        .then_some(ways)
}

fn fast_crank(case: &Case) -> Option<Vec<f64>> {
    let rpm = check(case, "crank.speed");
    (rpm > case.rule("hand_speed_easy")).then(|| vec![rpm])
}

/// A screw that nothing holds, since nothing pulls at it, is pushed away.
fn pushed_away(case: &Case) -> Option<Vec<f64>> {
    let screw = case
        .part("ball_screws")
        .or_else(|| case.part("sliding_screws"));
    let free = screw.is_some() && holder(case).is_none() && held(case) <= 1e-6;
    (free && case.words("power_loss") != "may_move").then(|| vec![most(case, |i| i.still.abs())])
}

fn stored_air(case: &Case) -> Option<Vec<f64>> {
    case.part("air_cylinders")?;
    Some(vec![air_pressure(case), press(case)?[0]])
}

fn stored_oil(case: &Case) -> Option<Vec<f64>> {
    case.part("oil_cylinders")?;
    Some(vec![check(case, "hose.pressure") * 1e5])
}

/// Force that the process asks for at rest at an end.
fn kept_up(case: &Case) -> Option<f64> {
    let list = at(&case.study["requirements"], "motion.process").and_then(|p| p.as_array())?;
    let ends = [list.first()?, list.last()?];
    let hold = |point: &&serde_json::Value| point.get("hold").and_then(quantity).unwrap_or(0.0);
    let most = ends.iter().map(hold).fold(0.0, f64::max);
    (most > 1.0).then_some(most)
}

fn pressed_work(case: &Case) -> Option<Vec<f64>> {
    case.part("oil_cylinders")?;
    Some(vec![kept_up(case)?, press(case)?[0]])
}

fn relief(case: &Case) -> Option<Vec<f64>> {
    case.part("oil_cylinders")?;
    kept_up(case)
        .is_none()
        .then(|| press(case).map(|both| vec![both[0]]))?
}

/// One stroke lifts where weight and counterweight do not balance to nothing.
fn lifted_by_air(case: &Case) -> Option<Vec<f64>> {
    case.part("air_cylinders")?;
    weights(case)
        .iter()
        .any(|force| force.abs() > 1e-6)
        .then(Vec::new)
}

/// The drive must hold back: at rest, about to move, it pulls against the stroke.
fn overruns(case: &Case) -> Option<Vec<f64>> {
    let all = case
        .strokes()
        .iter()
        .flat_map(|s| s.instants.iter().map(move |i| -s.sign * i.still));
    let ahead = all.fold(0.0, f64::max);
    (ahead > 1e-6).then(|| vec![ahead])
}

/// Forces of weight at the drive, of each load at each instant.
fn weights(case: &Case) -> Vec<f64> {
    let pull = weight_n(case).unwrap_or(0.0);
    let mut all = Vec::new();
    for s in case.strokes() {
        match &case.given.hinge {
            Some(hinge) => all.extend(
                s.instants
                    .iter()
                    .map(|i| hinge.weight_at_drive(&case.course, s.mass, i.arm.0)),
            ),
            None => all.push(s.mass * G * case.incline().sin() - pull),
        }
    }
    all
}

/// Shortest and longest lever of the drive on the arm.
fn levers(case: &Case) -> (f64, f64) {
    let each = case.strokes().iter().flat_map(|s| &s.instants);
    let hinge = case.given.hinge.as_ref();
    each.filter_map(|i| Some(hinge?.lever(i.arm.0).first.abs()))
        .fold((f64::INFINITY, 0.0), |(short, long), lever| {
            (short.min(lever), long.max(lever))
        })
}

/// Below a quarter of the pin's distance from the hinge (method, 1.3).
fn short_lever(case: &Case) -> Option<Vec<f64>> {
    let pin = case.given.hinge.as_ref()?.pin();
    let short = levers(case).0;
    (short < pin / 4.0).then(|| vec![short, pin])
}

fn on_the_tail(case: &Case) -> Option<Vec<f64>> {
    let (mc, tail) = (
        case.assist("counterweight_kg"),
        case.assist("tail_radius_m"),
    );
    (mc * tail > 0.0).then(|| vec![mc, tail])
}

/// Past what a powered guard may press with and carry (ISO 14120, from memory: 75 N, 4 J).
fn crushes(case: &Case) -> Option<Vec<f64>> {
    let weights = weights(case);
    let least = weights.iter().copied().fold(f64::INFINITY, f64::min);
    let heaviest = weights.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let force = match press(case) {
        Some([push, back]) => (push - least).max(back + heaviest),
        None => most(case, |i| i.f.abs().max(i.still.abs())),
    };
    // The load on an arm goes farther than its drive, and presses with less by as much.
    let force = force
        * case
            .given
            .hinge
            .as_ref()
            .map_or(1.0, |hinge| levers(case).1 / hinge.radius);
    let (mc, k) = (case.assist("counterweight_kg"), case.assist("travel_ratio"));
    let mass = case.strokes().iter().map(|s| s.mass).fold(0.0, f64::max);
    let moving = mass + k * k * mc + case.assist("sheave_mass_kg");
    let slide = moving * most(case, |i| i.v.abs()).powi(2) / 2.0;
    let swung = most(case, |i| i.apparent.0 * i.v * i.v / 2.0);
    let by_law = if case.given.hinge.is_some() {
        swung
    } else {
        slide
    };
    let energy = by_law.max(arrival(case, moving));
    let mut says = vec![force];
    if energy >= 1.0 {
        says.push(energy);
    }
    (force > 75.0 || energy > 4.0).then_some(says)
}

/// Energy with which an air cylinder comes to an end, at the speed that its cushion or shock absorber was given, out and
/// back, with piston and rod.
fn arrival(case: &Case, moving: f64) -> f64 {
    let Some(part) = case.part("air_cylinders") else {
        return 0.0;
    };
    let rod = part.f("moving_mass") + part.f("moving_mass_per_length") * case.travel();
    let all = || case.strokes().iter().flat_map(|s| &s.instants);
    let far = all().map(|i| i.x).fold(f64::NEG_INFINITY, f64::max);
    let near = all().map(|i| i.x).fold(f64::INFINITY, f64::min);
    let at = |end: f64| {
        let there = all().filter(|i| (i.x - end).abs() < 1e-9);
        there.map(|i| i.apparent.0).fold(0.0, f64::max)
    };
    let masses = if case.given.hinge.is_some() {
        [at(far), at(near)]
    } else {
        [moving; 2]
    };
    let ends = ["air_cylinder.cushion", "shock_absorber.energy"];
    let checks = case.option["checks"].as_array().expect("checks");
    let met = checks
        .iter()
        .filter(|check| ends.iter().any(|end| check["id"] == *end));
    let speed = |check: &serde_json::Value| {
        let given = check["given"].as_array()?;
        given.iter().find(|one| one["symbol"] == "v")?["value"].as_f64()
    };
    met.filter_map(speed)
        .zip(masses)
        .map(|(v, mass)| (mass + rod) * v * v / 2.0)
        .fold(0.0, f64::max)
}

/// The speed that the remark rounds, as a check of the same end was given it.
fn in_full(case: &Case, rounded: f64) -> f64 {
    let checks = case.option["checks"].as_array();
    let given = checks.into_iter().flatten().filter_map(|check| {
        let all = check["given"].as_array()?;
        all.iter().find(|one| one["symbol"] == "v")?["value"].as_f64()
    });
    let near = |v: &f64| (v - rounded).abs() <= 0.005 * rounded;
    given.filter(near).fold(rounded, |_, v| v)
}

/// Air cylinders meet their ends with the speeds that the study tells, over a cushion or a shock absorber.
fn arrives_fast(case: &Case) -> Option<Vec<f64>> {
    let cylinder = case.part("air_cylinders")?;
    let remarks = case.option["remarks"].as_array()?;
    let told = remarks
        .iter()
        .filter_map(|text| text.as_str())
        .find(|text| text.contains("then arrives at"))?;
    let speeds = super::numbers(told.split("then arrives at").nth(1)?);
    let speeds = [speeds[0], speeds[1]].map(|rounded| in_full(case, rounded));
    let cushion = cylinder.f("cushion_length");
    let mut absorbers: Vec<f64> = Vec::new();
    for part in case.parts("shock_absorbers") {
        let twice = part.quantity() > 1.5;
        absorbers.extend(std::iter::repeat_n(
            part.f("stroke"),
            if twice { 2 } else { 1 },
        ));
    }
    // Two absorbers stand in the order out, back; one is where it is needed more, at the harder end.
    let harder = usize::from(speeds[1] > speeds[0]);
    let within = |end: usize| match absorbers.as_slice() {
        [one, other] => [*one, *other][end],
        [one] if end == harder => *one,
        _ => cushion,
    };
    let slowed = [0, 1].map(|end| speeds[end] * speeds[end] / (2.0 * within(end)));
    let worst = usize::from(slowed[1] > slowed[0]);
    // Which of two that are met as hard is said hangs on the digits that the study does not show.
    let alike = slowed[1 - worst] > 0.98 * slowed[worst];
    let says = if alike {
        Vec::new()
    } else {
        vec![speeds[worst]]
    };
    (slowed[worst] > case.rule("loose_slides")).then_some(says)
}

fn jerks(case: &Case) -> Option<Vec<f64>> {
    // On an arm the centre of mass is pulled round as well as along.
    let round = |i: &Instant, r: f64| r * i.arm.2.hypot(i.arm.1 * i.arm.1);
    let radius = case.given.hinge.as_ref().map(|hinge| hinge.radius);
    let worst = most(case, |i| radius.map_or(i.a.abs(), |r| round(i, r)));
    (case.part("air_cylinders").is_none() && worst > case.rule("loose_slides")).then(|| vec![worst])
}

fn path(case: &Case) -> Option<Vec<f64>> {
    weight_n(case)?;
    Some(vec![
        case.assist("counterweight_kg"),
        case.assist("travel_ratio") * case.travel(),
    ])
}

fn rope(case: &Case) -> Option<Vec<f64>> {
    weight_n(case)?;
    let alone = case.or("motion.load.most", f64::NAN) * G * case.incline().sin();
    let made_for = most(case, |i| i.f.abs().max(i.still.abs())).max(case.holding_n());
    Some(vec![alone, made_for])
}

fn upward(case: &Case) -> Option<Vec<f64>> {
    let pull = weight_n(case)?;
    let least = case.or("motion.load.least", case.or("motion.load.most", f64::NAN));
    let up = pull - least * G * case.incline().sin();
    (up > 1e-9).then(|| vec![least, up, pull])
}

fn tips(case: &Case) -> Option<Vec<f64>> {
    if !case.given("base") {
        return None;
    }
    let (left, least) = (tipping::margin(case), case.rule("stability_least"));
    (left < least + 0.1).then(|| vec![left, least])
}

/// The level reaction over the weight on the floor, in the move and in a stop.
fn slides(case: &Case) -> Option<Vec<f64>> {
    if !case.given("base") || case.yes("base.bolted") {
        return None;
    }
    let (sin, cos) = case.incline().sin_cos();
    let (frame, mc) = (
        case.or("base.mass", f64::NAN),
        case.assist("counterweight_kg"),
    );
    let mut worst = 0.0_f64;
    for stroke in case.strokes() {
        for i in &stroke.instants {
            for a in [i.a, -stroke.sign * stop(case, i.v)] {
                let down = frame * G
                    + stroke.mass * (G + a * sin)
                    + mc * (G - case.assist("travel_ratio") * a);
                worst = worst.max((stroke.mass * a * cos).abs() / down);
            }
        }
    }
    (worst > case.rule("floor_friction")).then(|| vec![worst, case.rule("floor_friction")])
}
