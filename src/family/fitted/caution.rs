//! What can hurt somebody with any drive, whatever its family: as it follows from the demand, the parts and the place.
//!
//! Said of the drives that are kept alone: families try many more.

use super::surroundings;
use crate::demand::{Assist, Demand, Direction};
use crate::family::hazard::{
    BLOCK_LOAD, BLOCK_WEIGHT, CRUSHES, CRUSHES_SWUNG, Caution, DROPS, FALLS, GUARD, Group, JERKS,
    LETS_GO_BACK, LETS_GO_BOTH, LETS_GO_OUT, NIPS, ONE_MEANS, PIN_LOAD, PUSHED, RUNS_DOWN, STARTS,
    STRIKES, TOOL, TOOL_STAYS, WIND, ZERO, ZERO_FIRST,
};
use crate::family::{Ask, Drive, Figure, Words};
use crate::quantity::{G_M_S2, Kind, Si};
use crate::requirements::{Hinge, PowerLoss};

/// A push past which somebody in the way is hurt: what ISO 14120 allows a powered guard that nothing stops, from memory, N.
const HURTS_N: f64 = 75.0;
/// Energy of a blow past which somebody in the way is hurt: what it allows such a guard, J.
const HURTS_J: f64 = 4.0;
/// A force past which a closing edge is guarded: what EN 12453 (power-operated doors and gates) allows, from memory, N.
const PINCHES_N: f64 = 150.0;
/// Energy below this is not worth a word, J.
const NOTICED_J: f64 = 1.0;
/// Forces below this are rounding, N.
const NOTHING_N: f64 = 1e-6;
/// Where a hinged load is also looked at, for it presses harder there, m from the hinge.
const NEAR_HINGE_M: f64 = 0.1;
/// Radius of a hinged load's centre of mass from which it is as large as a gate or a boom, which wind turns: custom, no source, m.
const LARGE_LEAF_M: f64 = 1.0;

const OVERRUNS: Words<2> = Words::new(
    "{} the load drives the mechanism with up to {}; the drive holds it back throughout.",
);
const SHORT_LEVER: Words<2> = Words::new(
    "At its worst angle the drive has a lever of only {} about the hinge, its pin being {} from it: a small error in the place of a pin changes the force much.",
);

/// Adds to a drive that is kept what can hurt somebody and what a designer should know; the level of its noise is in dB(A).
pub fn add(ask: &Ask<'_>, drive: &mut Drive<'_>, noise_db: f64) {
    let pull = Pull::new(ask);
    if !pull.is_grave() {
        // What a load as light as that does is said in few words, and nothing of what holds it.
        drive
            .cautions
            .retain(|caution| caution.group != Group::LetGo);
    }
    let weak = |[push, back]: [f64; 2]| push.max(back) <= HURTS_N;
    if drive.presses_n.is_some_and(weak) {
        // Nor of a drive that is too weak to hurt.
        let fluid = [Group::Start, Group::Stored];
        drive
            .cautions
            .retain(|caution| !fluid.contains(&caution.group));
    }
    let mut found = let_go(ask, drive, &pull);
    found.extend(in_its_way(ask, drive));
    found.extend(stored(ask, drive, &pull));
    found.extend(surroundings::cautions(ask, drive, noise_db));
    drive.cautions.extend(found);
    drive.cautions.sort_by_key(Caution::place);
    let remarks = [overrunning(&drive.demand), short_lever(ask, &drive.demand)];
    drive.remarks.extend(remarks.into_iter().flatten());
}

/// What moves the load by itself, the assist aside.
struct Pull {
    mass_kg: f64,
    /// How far down it may go.
    rise_m: f64,
    /// What it has gained by then.
    energy_j: f64,
    /// What a spring, the wind or the work pushes it with.
    pushed_n: f64,
}

impl Pull {
    fn new(ask: &Ask<'_>) -> Self {
        let axis = ask.book.axis();
        let [_, mass_kg] = axis.loads_kg;
        let rise_m = axis.rise_m();
        Self {
            mass_kg,
            rise_m,
            energy_j: mass_kg * G_M_S2 * rise_m,
            pushed_n: axis.process_push_n(),
        }
    }
    fn falls(&self) -> bool {
        let is_above = self.rise_m > 0.0;
        is_above && (self.energy_j > HURTS_J || self.mass_kg * G_M_S2 > HURTS_N)
    }
    fn is_pushed(&self) -> bool {
        self.pushed_n > HURTS_N
    }
    /// Whether it hurts somebody when it is let go.
    fn is_grave(&self) -> bool {
        self.falls() || self.is_pushed()
    }
}

/// What happens when the load is let go, beside what each family says of what holds it.
fn let_go(ask: &Ask<'_>, drive: &Drive, pull: &Pull) -> Vec<Caution> {
    let axis = ask.book.axis();
    let mass = Figure::Quantity(Kind::Mass, pull.mass_kg);
    let energy = Figure::Quantity(Kind::Energy, pull.energy_j);
    let length = |metres| Figure::Quantity(Kind::Length, metres);
    let mut list = Vec::new();
    if pull.falls() && axis.is_steep() {
        list.push(FALLS.with([mass, length(pull.rise_m), energy]));
    } else if pull.falls() {
        list.push(RUNS_DOWN.with([mass, length(axis.travel_m), energy]));
    } else if pull.energy_j >= NOTICED_J {
        list.push(DROPS.with([mass, energy]));
    }
    if pull.is_pushed() {
        list.push(PUSHED.with([Figure::force(pull.pushed_n)]));
    }
    if pull.is_grave() {
        list.extend(power_loss(ask, drive));
        if drive.holds && drive.demand.held_n() > NOTHING_N {
            list.push(ONE_MEANS.with([]));
        }
    }
    let catches_wind = |hinge: &Hinge| !hinge.axis_level || hinge.radius.si() >= LARGE_LEAF_M;
    if ask.job.motion.hinge().is_some_and(catches_wind) {
        list.push(WIND.with([]));
    }
    list
}

/// What moves the load when the power fails and nothing is asked to hold it.
fn power_loss(ask: &Ask<'_>, drive: &Drive) -> Option<Caution> {
    let demand = &drive.demand;
    if ask.job.power_loss == PowerLoss::Hold || drive.holds {
        return None;
    }
    let (back, out) = (demand.holding_push_n, demand.holding_pull_n);
    match (back > NOTHING_N, out > NOTHING_N) {
        (false, false) => None,
        (true, false) => Some(LETS_GO_BACK.with([Figure::force(back)])),
        (false, true) => Some(LETS_GO_OUT.with([Figure::force(out)])),
        (true, true) => Some(LETS_GO_BOTH.with([Figure::force(back), Figure::force(out)])),
    }
}

/// Whoever is in the way while it moves, and when it starts by itself.
fn in_its_way(ask: &Ask<'_>, drive: &Drive) -> Vec<Caution> {
    let demand = &drive.demand;
    let law_j = demand.worst.kinetic_energy_j;
    let energy_j = drive.arrives_j.map_or(law_j, |arrives| arrives.max(law_j));
    let (pressed_n, more) = pressed(ask, drive);
    let mut list = Vec::new();
    list.extend(roughness(ask, drive));
    let tool = tool(ask);
    if let Some([force_n, kept_n]) = tool {
        list.push(TOOL.with([Figure::force(force_n)]));
        if kept_n > PINCHES_N && drive.holds {
            list.push(TOOL_STAYS.with([Figure::force(kept_n)]));
        }
    }
    if pressed_n > HURTS_N {
        list.push(crushing(ask, pressed_n, more));
    }
    list.extend(nips(drive, pressed_n).map(|what| NIPS.with([Figure::Word(what)])));
    if energy_j > HURTS_J {
        list.push(STRIKES.with([Figure::Quantity(Kind::Energy, energy_j)]));
    }
    // What a tool needs guards its path as well.
    if pressed_n > PINCHES_N && tool.is_none() {
        list.push(GUARD.with([]));
    }
    // Only a drive that follows nobody's hand starts by itself.
    if drive.presses_n.is_some() && (pressed_n > HURTS_N || energy_j > HURTS_J) {
        list.push(STARTS.with([]));
    }
    list
}

/// What somebody in the way would feel at the load: the drive's own force with the weight that it carries.
fn pressed(ask: &Ask<'_>, drive: &Drive) -> (f64, &'static str) {
    let axis = ask.book.axis();
    let (pressed_n, more) = match drive.presses_n {
        Some([push, pull]) => {
            let weights = axis.loads_kg.map(|load| ask.weight_n(load));
            let weights = weights.into_iter().flatten();
            let least = weights.clone().fold(f64::INFINITY, f64::min);
            let most = weights.fold(f64::NEG_INFINITY, f64::max);
            ((push - least).max(pull + most), "up to")
        }
        None => (drive.demand.thrust_n(), "at least"),
    };
    // Where the load goes a shorter way than its drive, it presses with more.
    (pressed_n / axis.ways()[0], more)
}

/// A hinged load presses hardest where it is nearest to its hinge.
fn crushing(ask: &Ask<'_>, pressed_n: f64, more: &'static str) -> Caution {
    let (more, pressed) = (Figure::Word(more), Figure::force(pressed_n));
    let radius_m = ask.job.motion.hinge().map(|hinge| hinge.radius.si());
    match radius_m.filter(|radius_m| *radius_m > NEAR_HINGE_M) {
        Some(radius_m) => {
            let near = Figure::force(pressed_n * radius_m / NEAR_HINGE_M);
            CRUSHES_SWUNG.with([more, pressed, near])
        }
        None => CRUSHES.with([more, pressed]),
    }
}

/// The force with which a tool meets its work at the end of the way out, and that which is kept up there; a spring gives its
/// force back on the way home.
fn tool(ask: &Ask<'_>) -> Option<[f64; 2]> {
    ask.slide()?;
    let points = ask.job.motion.kind().process().points;
    let force = |(_, [out, _, hold]): &(f64, [f64; 3])| out.max(*hold);
    let (first, last) = (points.first()?, points.last()?);
    let (_, [_, back, kept_n]) = *last;
    let closes = force(last) > PINCHES_N && force(last) > 2.0 * force(first) && back >= 0.0;
    closes.then(|| [force(last), kept_n])
}

/// What of a drive draws in fingers; a hand at the crank is always near its rack.
fn nips(drive: &Drive, pressed_n: f64) -> impl Iterator<Item = &'static str> {
    let has = |kinds: &[&str]| drive.parts.iter().any(|part| kinds.contains(&part.kind));
    let screw = pressed_n > HURTS_N && has(&["ball_screws", "sliding_screws"]);
    let all = [
        (has(&["racks"]), "pinion and rack"),
        (screw, "the turning screw"),
    ];
    all.into_iter().filter_map(|(is, what)| is.then_some(what))
}

/// What comes before anybody reaches in: the load is carried by something else first, then what pushes is let off.
fn stored(ask: &Ask<'_>, drive: &Drive, pull: &Pull) -> Vec<Caution> {
    let is_fluid = |caution: &Caution| matches!(caution.hazard, "air.stays" | "oil.stays");
    let fluid = drive.cautions.iter().any(is_fluid);
    let mut list = Vec::new();
    if pull.falls() {
        list.push(BLOCK_LOAD.with([]));
    } else if pull.is_pushed() {
        list.push(PIN_LOAD.with([]));
    }
    if ask.assist.assist != Assist::None {
        list.push(BLOCK_WEIGHT.with([]));
    }
    if fluid {
        let zero = if list.is_empty() { &ZERO } else { &ZERO_FIRST };
        list.push(zero.with([]));
    }
    list
}

/// Where the load runs ahead of the drive by itself.
fn overrunning(demand: &Demand) -> Option<String> {
    let ahead = |direction: Direction| {
        demand
            .strokes(direction)
            .map(|case| match direction {
                Direction::Out => case.static_pull_n,
                Direction::Back => case.static_push_n,
            })
            .fold(0.0, f64::max)
    };
    let (out, back) = (ahead(Direction::Out), ahead(Direction::Back));
    let way = match (out > NOTHING_N, back > NOTHING_N) {
        (false, false) => return None,
        (true, false) => "On the way out",
        (false, true) => "On the way back",
        (true, true) => "On both ways",
    };
    let figures = [Figure::Word(way), Figure::force(out.max(back))];
    Some(OVERRUNS.with(figures).to_string())
}

/// Where what lies loose on the load slides; a drive that comes to its ends in its own way says so itself.
fn roughness(ask: &Ask<'_>, drive: &Drive) -> Option<Caution> {
    let demand = &drive.demand;
    let hinge = demand.hinge.as_ref();
    let acceleration = hinge.map_or(demand.worst.peak_acceleration_m_s2, |hinge| {
        hinge.peak_acceleration_m_s2
    });
    (drive.arrives_j.is_none() && acceleration > ask.job.rules.loose_slides).then(|| {
        let in_g = (acceleration / G_M_S2 * 10.0).round() / 10.0;
        JERKS.with([Figure::Number(acceleration), Figure::Number(in_g)])
    })
}

/// Where the drive of a hinge pulls nearly at the hinge itself.
fn short_lever(ask: &Ask<'_>, demand: &Demand) -> Option<String> {
    let hinge = demand.hinge.as_ref()?;
    (hinge.lever_least_m < ask.job.rules.short_lever * hinge.arm_pin_m).then(|| {
        let length = |metres| Figure::Quantity(Kind::Length, metres);
        let figures = [length(hinge.lever_least_m), length(hinge.arm_pin_m)];
        SHORT_LEVER.with(figures).to_string()
    })
}
