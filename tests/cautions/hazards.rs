//! The hazards: how to know one from the numbers.

use super::drive::{air_pressure, check, press};
use super::hold::{self, Holder, by, held_both, holder};
use super::place;
use crate::recompute::base::{Case, G, at, quantity};
use crate::recompute::motion::{Instant, stop};
use crate::recompute::tipping;
use crate::recompute::worst::most;

/// A hazard and its caution.
pub struct Hazard {
    /// Its id, which its caution carries.
    pub id: &'static str,
    /// The numbers that the caution must carry, in SI, where the hazard is there.
    pub judge: fn(&Case) -> Option<Vec<f64>>,
}

const fn hazard(id: &'static str, judge: fn(&Case) -> Option<Vec<f64>>) -> Hazard {
    Hazard { id, judge }
}

pub const HAZARDS: &[Hazard] = &[
    // Gravity without power.
    hazard("load.falls", hold::falls),
    hazard("load.drops", hold::drops),
    hazard("load.pushed", hold::pushed),
    hazard("load.one_means", hold::alone),
    hazard("load.wind", wind),
    hazard("load.let_go", lets_go),
    hazard("screw.runs_back", |case| by(case, Holder::ScrewBrake)),
    hazard("electric_cylinder.brake_alone", |case| {
        by(case, Holder::CylinderBrake)
    }),
    hazard("screw.thread_alone", |case| by(case, Holder::Thread)),
    hazard("electric_cylinder.thread_alone", |case| {
        by(case, Holder::CylinderThread)
    }),
    hazard("rod_lock.alone", |case| by(case, Holder::RodLock)),
    hazard("air.trapped", |case| by(case, Holder::TrappedAir)),
    hazard("counterbalance.alone", |case| {
        // A valve a side, each against its own force.
        let sides = held_both(case);
        let both = sides.iter().all(|force| *force > 1.0);
        by(case, Holder::Counterbalance).map(|held| if both { sides.to_vec() } else { held })
    }),
    // The crank that spins.
    hazard("crank.spins", |case| by(case, Holder::LoadBrake)),
    hazard("jack.alone", |case| by(case, Holder::Jack)),
    // What is stored.
    hazard("energy.block", hold::blocked),
    hazard("counterweight.block", place::weight_blocked),
    hazard("energy.zero", |case| {
        let kinds = ["air_cylinders", "oil_cylinders"];
        let fluid = kinds.iter().find_map(|kind| strong(case, kind));
        fluid.map(|()| Vec::new())
    }),
    hazard("air.stays", stored_air),
    hazard("oil.stays", stored_oil),
    hazard("oil.accumulator", |case| {
        strong(case, "oil_accumulators").map(|()| Vec::new())
    }),
    hazard("pressure.vessel", place::vessel),
    hazard("oil.pressure_switch", pressed_work),
    hazard("oil.pushes", relief),
    hazard("air.first_stroke", |case| {
        let cylinder = strong(case, "air_cylinders");
        cylinder
            .filter(|()| lifted_by_air(case).is_none())
            .map(|()| Vec::new())
    }),
    hazard("air.first_stroke_gentle", lifted_by_air),
    // The motion.
    hazard("load.crushes", crushes),
    hazard("load.strikes", strikes),
    hazard("path.guard", guarded),
    hazard("drive.starts", starts),
    hazard("nip.points", nips),
    hazard("tool.closes", |case| {
        place::tool(case).map(|[force, _]| vec![force])
    }),
    hazard("tool.stays", |case| {
        let [_, kept] = place::tool(case)?;
        let holds = case.option["holds_without_power"] == true;
        (holds && kept > 150.0).then(|| vec![kept])
    }),
    hazard("load.arrives_hard", arrives_fast),
    hazard("load.jerks", jerks),
    // The counterweight.
    hazard("counterweight.runs", path),
    hazard("counterweight.rope_breaks", rope),
    hazard("counterweight.pulls_up", upward),
    // The hinge.
    hazard("counterweight.swings", on_the_tail),
    // The stand.
    hazard("machine.tips", tips),
    hazard("machine.stands_free", place::stands_free),
    hazard("machine.slides", slides),
    // The arm.
    hazard("arm.swings", super::arm::springy),
    // The place.
    hazard("site.explosive", place::explosive),
    hazard("electricity.shock", place::shock),
    hazard("electricity.wet", place::wet),
    hazard("oil.jet", |case| {
        case.part("oil_cylinders").map(|_| Vec::new())
    }),
    hazard("oil.hot", |case| {
        let limit = case.rule("oil_temperature_most") - 273.15;
        case.part("oil_cylinders").map(|_| vec![limit])
    }),
    hazard("site.cold", place::cold),
    hazard("site.hot", place::hot),
    hazard("noise", place::loud),
    hazard("site.washed", place::washed),
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
    let grave = hold::is_grave(case) && !ways.is_empty();
    (case.words("power_loss") == "may_move" && holder(case).is_none() && grave).then_some(ways)
}

/// More wind than is stated turns what hangs on an upright hinge, and what is as large as a boom.
fn wind(case: &Case) -> Option<Vec<f64>> {
    let hinge = case.given.hinge.as_ref()?;
    (case.words("motion.axis") == "upright" || hinge.radius >= 1.0).then(Vec::new)
}

/// A drive that has such a part and is strong enough to hurt with it.
fn strong(case: &Case, kind: &str) -> Option<()> {
    case.part(kind)?;
    press(case)?.iter().any(|force| *force > 75.0).then_some(())
}

fn stored_air(case: &Case) -> Option<Vec<f64>> {
    strong(case, "air_cylinders")?;
    Some(vec![air_pressure(case), press(case)?[0]])
}

fn stored_oil(case: &Case) -> Option<Vec<f64>> {
    strong(case, "oil_cylinders")?;
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
    strong(case, "air_cylinders")?;
    weights(case)
        .iter()
        .any(|force| force.abs() > 1e-6)
        .then(Vec::new)
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

fn on_the_tail(case: &Case) -> Option<Vec<f64>> {
    let (mc, tail) = (
        case.assist("counterweight_kg"),
        case.assist("tail_radius_m"),
    );
    (mc * tail > 0.0).then(|| vec![mc, tail])
}

/// What somebody in the way is pressed with, and what the load carries when it strikes.
fn in_the_way(case: &Case) -> (f64, f64) {
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
    (force, by_law.max(arrival(case, moving)))
}

/// Past what a powered guard may press with (ISO 14120, from memory: 75 N, 4 J); on an arm at 100 mm from the hinge as well.
fn crushes(case: &Case) -> Option<Vec<f64>> {
    let (force, _) = in_the_way(case);
    let mut says = vec![force];
    let radius = case.given.hinge.as_ref().map(|hinge| hinge.radius);
    says.extend(radius.filter(|r| *r > 0.1).map(|r| force * r / 0.1));
    (force > 75.0).then_some(says)
}

fn strikes(case: &Case) -> Option<Vec<f64>> {
    let (_, energy) = in_the_way(case);
    (energy > 4.0).then(|| vec![energy])
}

/// Past what a power-operated gate may pinch with (EN 12453, from memory: 150 N); what a tool needs guards its path as well.
fn guarded(case: &Case) -> Option<Vec<f64>> {
    (in_the_way(case).0 > 150.0 && place::tool(case).is_none()).then(Vec::new)
}

/// Nobody's hand on a crank starts by itself.
fn starts(case: &Case) -> Option<Vec<f64>> {
    let (force, energy) = in_the_way(case);
    (press(case).is_some() && (force > 75.0 || energy > 4.0)).then(Vec::new)
}

/// A hand at the crank is always near its rack; a screw turns by itself.
fn nips(case: &Case) -> Option<Vec<f64>> {
    let kinds = ["ball_screws", "sliding_screws"];
    let screw = kinds.iter().any(|kind| case.part(kind).is_some());
    let draws = case.part("racks").is_some() || (screw && in_the_way(case).0 > 75.0);
    draws.then(Vec::new)
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
    // Two absorbers stand in the order out, back; one is where it is needed more, which its check says by the speed there.
    let checks = case.option["checks"].as_array();
    let mut its = checks.into_iter().flatten().filter_map(|check| {
        let given = check["given"].as_array()?;
        let speed = given.iter().find(|one| one["symbol"] == "v")?;
        (check["id"] == "shock_absorber.energy").then(|| speed["value"].as_f64())?
    });
    let off = |end: usize, speed: f64| (speeds[end] - speed).abs();
    let harder = its
        .next_back()
        .map_or(0, |speed| usize::from(off(1, speed) < off(0, speed)));
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
    weight_n(case).filter(|_| hold::is_grave(case))?;
    let alone = case.or("motion.load.most", f64::NAN) * G * case.incline().sin();
    let made_for = most(case, |i| i.f.abs().max(i.still.abs())).max(case.holding_n());
    Some(vec![alone, made_for])
}

fn upward(case: &Case) -> Option<Vec<f64>> {
    let pull = weight_n(case).filter(|_| hold::is_grave(case))?;
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
