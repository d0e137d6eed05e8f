//! The bearings that hold a screw: which are fitted, and what they are checked for.

use super::load::Moves;
use super::spindle::Thread;
use crate::catalog::ScrewSupport;
use crate::family::{Ask, Check};
use crate::mechanics::{bearing, combined};
use crate::quantity::{Si, newtons};

/// The moves of the longest and of the shortest design time.
pub(super) fn extremes(ask: &Ask) -> Vec<Moves> {
    let ends = [ask.times.first(), ask.times.last()];
    let moves = |time: &f64| Moves::new(ask, &ask.demand(*time));
    ends.into_iter().flatten().map(moves).collect()
}

/// The supports next in size to a screw of a diameter, in their order.
pub(super) fn next_in_size<'a>(
    diameter_m: f64,
    cheapest_first: &[&'a ScrewSupport],
) -> Vec<&'a ScrewSupport> {
    let takes = |support: &&ScrewSupport| support.screw_diameter.si() >= diameter_m - 1e-9;
    let wide = || cheapest_first.iter().copied().filter(takes);
    let sizes = wide().map(|support| support.screw_diameter.si());
    let size = sizes.fold(f64::INFINITY, f64::min);
    wide()
        .filter(|support| support.screw_diameter.si() <= size)
        .collect()
}

/// Of the supports next in size to a screw, the cheapest that bears each of some moves; the strongest where none does.
pub(super) fn fitting<'a>(
    ask: &Ask<'a>,
    thread: Thread,
    next: &[&'a ScrewSupport],
    moves: &[Moves],
) -> Vec<&'a ScrewSupport> {
    let next = || next.iter().copied();
    let bears = |support: &ScrewSupport, moves: &Moves| {
        at_rest(support, ask, moves).passes() && life(support, thread.lead_m(), ask, moves).passes()
    };
    let strongest = || next().max_by(|p, q| p.static_rating.si().total_cmp(&q.static_rating.si()));
    let chosen = |moves| {
        next()
            .find(|support| bears(support, moves))
            .or_else(strongest)
    };
    let mut list: Vec<_> = moves.iter().filter_map(chosen).collect();
    list.dedup_by(|p, q| p.common.id == q.common.id);
    list
}

/// Supports at rest under the greatest force.
pub(super) fn at_rest(support: &ScrewSupport, ask: &Ask, moves: &Moves) -> Check {
    Check::new(
        "screw_support.static",
        moves.greatest_n,
        support.static_rating.si(),
        "N",
    )
    .factor(ask.job.rules.screw_static_factor)
    .from("C0a / F", "ISO 76, static safety factor")
    .given(
        &[("F", "N"), ("C0a", "N")],
        &[moves.greatest_n, support.static_rating.si()],
    )
    .rule("screw_static_factor")
}

/// Distance that supports last.
pub(super) fn life_m(support: &ScrewSupport, lead_m: f64, ask: &Ask, moves: &Moves) -> f64 {
    let turns = bearing::rating_life(support.dynamic_rating, newtons(moves.cube_mean_n), 3.0);
    combined::life_factor(ask.job.rules.reliability) * turns * lead_m
}

/// Life of supports against the distance asked.
pub(super) fn life(support: &ScrewSupport, lead_m: f64, ask: &Ask, moves: &Moves) -> Check {
    Check::new(
        "screw_support.life",
        ask.life_distance_m() / 1e3,
        life_m(support, lead_m, ask, moves).min(1e12) / 1e3,
        "km",
    )
    .from(
        "a1 · (C/Fm)³ · 10⁶ · l, at most 10⁹ km",
        "ISO 281, rating life; a1 its table 12",
    )
    .given(
        &[("C", "N"), ("Fm", "N"), ("l", "mm"), ("a1", "")],
        &[
            support.dynamic_rating.si(),
            moves.cube_mean_n,
            lead_m * 1e3,
            combined::life_factor(ask.job.rules.reliability),
        ],
    )
    .rule("reliability")
}
