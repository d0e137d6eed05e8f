//! The instants at which a stroke is looked at.

use super::Direction;
use super::law::UnitStroke;
use super::process::Process;
use crate::requirements::Law;

/// Equally spaced instants of a stroke.
const INSTANTS: u32 = 241;
/// Two instants nearer than this, as parts of the stroke time, are one.
const APART: f64 = 1e-12;

/// An instant of the unit stroke, and the side of a jump that is meant.
#[derive(Debug, Clone, Copy)]
pub(super) struct StrokeInstant {
    /// Part of the stroke time.
    pub tau: f64,
    /// Whether the side of a jump that comes first is meant.
    pub before: bool,
    /// The exact position, where it is a break of the process force.
    pub x_m: Option<f64>,
    /// The unit stroke there.
    pub unit: UnitStroke,
}

/// The grid, both sides of each jump of the law, and of each break of the process force.
pub(super) fn instants(
    law: Law,
    process: &Process,
    travel_m: f64,
    direction: Direction,
) -> Vec<StrokeInstant> {
    let at = |tau: f64, before: bool, x_m: Option<f64>| StrokeInstant {
        tau,
        before,
        x_m,
        unit: law.at(tau, before),
    };
    let breaks = process.breakpoints(travel_m).map(|x| {
        let done = match direction {
            Direction::Out => x,
            Direction::Back => travel_m - x,
        } / travel_m;
        (law.instant_of(done), Some(x))
    });
    let jumps = law.jumps().into_iter().map(|tau| (tau, None));
    let special: Vec<(f64, Option<f64>)> = jumps.chain(breaks).collect();
    let mut list: Vec<StrokeInstant> = special
        .iter()
        .flat_map(|(tau, x_m)| [true, false].map(|before| at(*tau, before, *x_m)))
        .collect();
    let grid = (0..INSTANTS).map(|i| f64::from(i) / f64::from(INSTANTS - 1));
    let alone = |tau: &f64| special.iter().all(|(other, _)| (other - tau).abs() > APART);
    list.extend(grid.filter(alone).map(|tau| at(tau, tau >= 1.0, None)));
    list.sort_by(|p, q| p.tau.total_cmp(&q.tau).then(q.before.cmp(&p.before)));
    list
}
