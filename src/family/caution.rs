//! Cautions that follow from the demand, whatever the family.

use super::{Ask, Train};
use crate::demand::{Demand, Direction};
use crate::quantity::{Kind, in_words};
use crate::requirements::PowerLoss;

/// A push past which a hand or arm in the way is hurt: the static limit of EN 12453 for powered doors, from memory, N.
const CRUSHING_N: f64 = 150.0;
/// Kinetic energy below this is not worth a word, J.
const NOTICED_J: f64 = 1.0;
/// Forces below this are rounding, N.
const NOTHING_N: f64 = 1e-6;

/// Adds the cautions about gravity, overrunning and crushing.
pub(super) fn add(ask: &Ask<'_>, train: &mut Train<'_>) {
    let list = [
        power_loss(ask, train),
        overrunning(&train.demand),
        crushing(&train.demand),
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

/// What somebody in the way would feel.
fn crushing(demand: &Demand) -> Option<String> {
    let force = demand.thrust_n();
    let energy_j = demand.worst.kinetic_energy_j;
    let moving = if energy_j >= NOTICED_J {
        format!(
            ", and the load carries {}",
            in_words(Kind::Energy, energy_j)
        )
    } else {
        String::new()
    };
    (force > CRUSHING_N).then(|| {
        format!(
            "Whoever is between the load and a fixed part is pressed with {} or more{moving}: guard the path, or keep people away.",
            newtons(force)
        )
    })
}

/// A force as people read it.
fn newtons(force_n: f64) -> String {
    in_words(Kind::Force, force_n)
}
