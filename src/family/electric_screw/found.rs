//! The trains of one design time that no other of their kind beats.

use crate::family::{Ask, PartLine, Train};
use crate::quantity::NoiseLevel;
use crate::requirements::Criterion;

/// Thread, motor, and whether there is a gearbox.
pub(super) type Kind = (&'static str, &'static str, bool);

/// A train with its figures.
struct One<'a> {
    kind: Kind,
    figures: [f64; 10],
    train: Train<'a>,
}

/// The trains found so far, in the order in which they were found.
#[derive(Default)]
pub(super) struct Found<'a>(Vec<One<'a>>);

impl<'a> Found<'a> {
    /// Whether a train found before is no worse in anything that counts than one of its kind with these figures.
    pub(super) fn beats(&self, kind: Kind, figures: &[f64; 10]) -> bool {
        let mut same = self.0.iter().filter(|one| one.kind == kind);
        same.any(|one| no_worse(&one.figures, figures))
    }

    /// Takes a train in, and drops those that it beats.
    pub(super) fn take(&mut self, kind: Kind, figures: [f64; 10], train: Train<'a>) {
        self.0
            .retain(|one| one.kind != kind || !no_worse(&figures, &one.figures));
        self.0.push(One {
            kind,
            figures,
            train,
        });
    }

    pub(super) fn into_trains(self) -> impl Iterator<Item = Train<'a>> {
        self.0.into_iter().map(|one| one.train)
    }
}

fn no_worse(ours: &[f64; 10], theirs: &[f64; 10]) -> bool {
    ours.iter().zip(theirs).all(|(p, q)| p <= q)
}

/// Everything by which a train can be better than another of its kind and time, less being better: money, and what the job wants.
pub(super) fn figures(ask: &Ask, train: &Train) -> [f64; 10] {
    let timing = &ask.job.timing;
    let sum = |of: fn(&PartLine) -> f64| train.parts.iter().map(of).sum::<f64>();
    let wanted = |criterion: Criterion, value: f64| {
        if ask.job.wants.contains_key(&criterion) {
            value
        } else {
            0.0
        }
    };
    let running = &train.running;
    let cycle_j = running.moving_j + running.holding_j;
    let sound =
        sum(|part| f64::from(part.quantity) * part.common.noise.map_or(0.0, NoiseLevel::energy));
    let lives = train.lives.iter().map(|life| life.years);
    [
        train.parts_cost() + train.made.iter().map(|made| made.material).sum::<f64>(),
        cycle_j * timing.cycles_per_year() + running.standby_w * 3600.0 * timing.hours_per_year(),
        sum(|p| f64::from(p.quantity) * (p.common.upkeep_hours + p.common.fit_hours)),
        wanted(Criterion::EnergyPerCycle, cycle_j),
        wanted(
            Criterion::AddedMass,
            sum(|p| f64::from(p.quantity) * p.mass_kg),
        ),
        wanted(Criterion::PartCount, sum(|p| f64::from(p.quantity))),
        wanted(Criterion::Noise, sound),
        wanted(
            Criterion::PositionError,
            train.position.iter().map(|(_, error)| error * error).sum(),
        ),
        wanted(Criterion::ClosedLength, train.closed_length_m),
        wanted(Criterion::Life, -lives.fold(f64::INFINITY, f64::min)),
    ]
}
