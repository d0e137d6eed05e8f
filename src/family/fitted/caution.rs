//! Cautions that follow from the demand, whatever the family.

use crate::demand::{Demand, Direction};
use crate::family::hazard::{
    CRUSHES, CRUSHES_MOVING, Caution, JERKS, LETS_GO_BACK, LETS_GO_BOTH, LETS_GO_OUT, OVERRUNS,
    SHORT_LEVER,
};
use crate::family::{Ask, Drive, Figure};
use crate::quantity::{G_M_S2, Kind};
use crate::requirements::PowerLoss;

/// A push past which somebody in the way is hurt: what ISO 14120 allows a powered guard that nothing stops, from memory, N.
const CRUSHING_N: f64 = 75.0;
/// Kinetic energy that it allows such a guard, J.
const CRUSHING_J: f64 = 4.0;
/// Kinetic energy below this is not worth a word, J.
const NOTICED_J: f64 = 1.0;
/// Forces below this are rounding, N.
const NOTHING_N: f64 = 1e-6;

/// Adds the cautions about gravity, overrunning, crushing and rough motion.
pub(in crate::family) fn add(ask: &Ask<'_>, drive: &mut Drive<'_>) {
    let list = [
        power_loss(ask, drive),
        overrunning(&drive.demand),
        crushing(ask, drive),
        roughness(ask, drive),
        short_lever(ask, &drive.demand),
    ];
    drive.cautions.extend(list.into_iter().flatten());
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

/// Where the load runs ahead of the drive by itself.
fn overrunning(demand: &Demand) -> Option<Caution> {
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
        (true, false) => "on the way out",
        (false, true) => "on the way back",
        (true, true) => "both ways",
    };
    Some(OVERRUNS.with([Figure::Word(way), Figure::force(out.max(back))]))
}

/// What somebody in the way would feel: the drive's own force with the weight that it carries.
fn crushing(ask: &Ask<'_>, drive: &Drive) -> Option<Caution> {
    let demand = &drive.demand;
    let law_j = demand.worst.kinetic_energy_j;
    let energy_j = drive.arrives_j.map_or(law_j, |arrives| arrives.max(law_j));
    let axis = ask.book.axis();
    let weights = axis.loads_kg.map(|load| ask.weight_n(load));
    let (pressed_n, more) = match drive.presses_n {
        Some([push, pull]) => {
            let weights = weights.into_iter().flatten();
            let least = weights.clone().fold(f64::INFINITY, f64::min);
            let most = weights.fold(f64::NEG_INFINITY, f64::max);
            ((push - least).max(pull + most), "up to")
        }
        None => (demand.thrust_n(), "at least"),
    };
    // Where the load goes a shorter way than its drive, it presses with more.
    let pressed_n = pressed_n / axis.ways()[0];
    if pressed_n <= CRUSHING_N && energy_j <= CRUSHING_J {
        return None;
    }
    let (more, pressed) = (Figure::Word(more), Figure::force(pressed_n));
    Some(if energy_j >= NOTICED_J {
        CRUSHES_MOVING.with([more, pressed, Figure::Quantity(Kind::Energy, energy_j)])
    } else {
        CRUSHES.with([more, pressed])
    })
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
fn short_lever(ask: &Ask<'_>, demand: &Demand) -> Option<Caution> {
    let hinge = demand.hinge.as_ref()?;
    (hinge.lever_least_m < ask.job.rules.short_lever * hinge.arm_pin_m).then(|| {
        let length = |metres| Figure::Quantity(Kind::Length, metres);
        SHORT_LEVER.with([length(hinge.lever_least_m), length(hinge.arm_pin_m)])
    })
}
