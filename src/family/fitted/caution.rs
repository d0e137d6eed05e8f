//! Cautions that follow from the demand, whatever the family.

use crate::demand::{Demand, Direction};
use crate::family::{Ask, Train};
use crate::quantity::{G_M_S2, Kind, in_words, show};
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
pub(in crate::family) fn add(ask: &Ask<'_>, train: &mut Train<'_>) {
    let list = [
        power_loss(ask, train),
        overrunning(&train.demand),
        crushing(ask, train),
        roughness(ask, train),
        short_lever(ask, &train.demand),
    ];
    train.cautions.extend(list.into_iter().flatten());
}

/// What moves the load when the power fails and nothing is asked to hold it.
fn power_loss(ask: &Ask<'_>, train: &Train) -> Option<String> {
    let demand = &train.demand;
    if ask.job.power_loss == PowerLoss::Hold || train.holds {
        return None;
    }
    let (back, out) = (demand.holding_push_n, demand.holding_pull_n);
    let ways = match (back > NOTHING_N, out > NOTHING_N) {
        (false, false) => return None,
        (true, false) => format!("back with up to {}", newtons(back)),
        (false, true) => format!("out with up to {}", newtons(out)),
        (true, true) => format!(
            "back with up to {} or out with up to {}, by load and place",
            newtons(back),
            newtons(out)
        ),
    };
    Some(format!(
        "When the power fails nothing is asked to hold the load: it is pulled {ways}, and nobody may be in its way."
    ))
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
        (true, false) => "on the way out",
        (false, true) => "on the way back",
        (true, true) => "both ways",
    };
    Some(format!(
        "The load overruns {way}: by itself it drives the drive with up to {}, which must be held back at every instant.",
        newtons(out.max(back))
    ))
}

/// What somebody in the way would feel: the drive's own force with the weight that it carries.
fn crushing(ask: &Ask<'_>, train: &Train) -> Option<String> {
    let demand = &train.demand;
    let law_j = demand.worst.kinetic_energy_j;
    let energy_j = train.arrives_j.map_or(law_j, |arrives| arrives.max(law_j));
    let axis = ask.book.axis();
    let weights = axis.loads_kg.map(|load| ask.weight_n(load));
    let (force, more) = match train.presses_n {
        Some([push, pull]) => {
            let weights = weights.into_iter().flatten();
            let least = weights.clone().fold(f64::INFINITY, f64::min);
            let most = weights.fold(f64::NEG_INFINITY, f64::max);
            ((push - least).max(pull + most), "up to ")
        }
        None => (demand.thrust_n(), "at least "),
    };
    // Where the load goes a shorter way than its drive, it presses with more.
    let force = force / axis.ways()[0];
    if force <= CRUSHING_N && energy_j <= CRUSHING_J {
        return None;
    }
    let moving = if energy_j >= NOTICED_J {
        format!(
            ", and the load carries {}",
            in_words(Kind::Energy, energy_j)
        )
    } else {
        String::new()
    };
    Some(format!(
        "Whoever is between the load and a fixed part is pressed with {more}{}{moving}: guard the path, or keep people away.",
        newtons(force)
    ))
}

/// Where what lies loose on the load slides; how an air cylinder moves is its own matter.
fn roughness(ask: &Ask<'_>, train: &Train) -> Option<String> {
    let demand = &train.demand;
    let hinge = demand.hinge.as_ref();
    let acceleration = hinge.map_or(demand.worst.peak_acceleration_m_s2, |hinge| {
        hinge.peak_acceleration_m_s2
    });
    (train.family != crate::family::pneumatic::NAME && acceleration > ask.job.rules.loose_slides).then(|| {
        format!(
            "The load is not moved gently: it is sped up and slowed down with up to {} m/s² ({} g); what lies loose on it slides.",
            show(acceleration),
            show((acceleration / G_M_S2 * 10.0).round() / 10.0)
        )
    })
}

/// Where the drive of a hinge pulls nearly at the hinge itself.
fn short_lever(ask: &Ask<'_>, demand: &Demand) -> Option<String> {
    let hinge = demand.hinge.as_ref()?;
    (hinge.lever_least_m < ask.job.rules.short_lever * hinge.arm_pin_m).then(|| {
        format!(
            "At its worst angle the drive has a lever of only {} about the hinge, its pin being {} from it: a small error in the place of a pin changes the force much.",
            in_words(Kind::Length, hinge.lever_least_m),
            in_words(Kind::Length, hinge.arm_pin_m)
        )
    })
}

/// What has to be held at rest, as people read it.
pub(in crate::family) fn held(demand: &Demand) -> String {
    newtons(demand.held_n())
}

/// A force as people read it.
pub(in crate::family) fn newtons(force_n: f64) -> String {
    in_words(Kind::Force, force_n)
}
