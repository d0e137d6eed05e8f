//! The bearings that hold a screw: which are fitted, and what they are checked for.

use super::spindle::Thread;
use crate::catalog::ScrewSupport;
use crate::family::choose::{Merits, Shelf};
use crate::family::electric::Cycle;
use crate::family::{Ask, Check, check};
use crate::mechanics::{bearing, combined};
use crate::quantity::{Si, newtons};

/// The cycles of the longest and of the shortest design time.
pub(super) fn extremes(ask: &Ask) -> Vec<Cycle> {
    let ends = [ask.times.first(), ask.times.last()];
    let cycle = |time: &f64| Cycle::new(ask, &ask.demand(*time));
    ends.into_iter().flatten().map(cycle).collect()
}

/// All supports, with the material of their brackets.
pub(super) fn shelf<'a>(ask: &Ask<'a>) -> Shelf<'a, ScrewSupport> {
    let rates = ask.life_cost();
    Shelf::with(ask, &ask.catalog.screw_supports, |support| {
        let part = Merits::part(&rates, &support.common);
        let figures = Merits {
            purchase: part.purchase + rates.material(support.bracket_material),
            length_m: support.length.si(),
            ..part
        };
        (&support.common, figures)
    })
}

/// Of the supports next in size to a screw the cheapest that bear each of some cycles, and others that are better in
/// something wanted; the strongest where none does.
pub(super) fn fitting<'a>(
    ask: &Ask<'a>,
    thread: Thread,
    shelf: &Shelf<'a, ScrewSupport>,
    cycles: &[Cycle],
) -> Vec<&'a ScrewSupport> {
    let takes = |support: &ScrewSupport| support.screw_diameter.si() >= thread.diameter_m() - 1e-9;
    let sizes = shelf.iter().filter(|support| takes(support));
    let sizes = sizes.map(|support| support.screw_diameter.si());
    let size_m = sizes.fold(f64::INFINITY, f64::min);
    let fits = |support: &ScrewSupport| takes(support) && support.screw_diameter.si() <= size_m;
    let bears = |support: &ScrewSupport, cycle: &Cycle| {
        at_rest(support, ask, cycle).passes() && life(support, thread.lead_m(), ask, cycle).passes()
    };
    let mut list: Vec<&ScrewSupport> = Vec::new();
    for cycle in cycles {
        let mut some = shelf.choices(|support| fits(support) && bears(support, cycle));
        if some.is_empty() {
            let next = shelf.iter().filter(|support| fits(support));
            some.extend(next.max_by(|p, q| p.static_rating.si().total_cmp(&q.static_rating.si())));
        }
        for support in some {
            if list
                .iter()
                .all(|known| known.common.id != support.common.id)
            {
                list.push(support);
            }
        }
    }
    list
}

/// Supports at rest under the greatest force.
pub(super) fn at_rest(support: &ScrewSupport, ask: &Ask, cycle: &Cycle) -> Check {
    check!(
        "screw_support.static", cycle.greatest_n => support.static_rating.si(), "N";
        "C0a / F", "ISO 76, static safety factor";
        ("F", cycle.greatest_n, "N"), ("C0a", support.static_rating.si(), "N")
    )
    .factor(ask.job.rules.screw_static_factor)
    .rule("screw_static_factor")
}

/// Distance that supports last.
pub(super) fn life_m(support: &ScrewSupport, lead_m: f64, ask: &Ask, cycle: &Cycle) -> f64 {
    let turns = bearing::rating_life(support.dynamic_rating, newtons(cycle.cube_mean_n), 3.0);
    combined::life_factor(ask.job.rules.reliability) * turns * lead_m
}

/// Life of supports against the distance asked.
pub(super) fn life(support: &ScrewSupport, lead_m: f64, ask: &Ask, cycle: &Cycle) -> Check {
    check!(
        "screw_support.life",
        ask.life_distance_m() / 1e3 => life_m(support, lead_m, ask, cycle).min(1e12) / 1e3, "km";
        "a1 · (C/Fm)³ · 10⁶ · l, at most 10⁹ km", "ISO 281, rating life; a1 its table 12";
        ("C", support.dynamic_rating.si(), "N"), ("Fm", cycle.cube_mean_n, "N"), ("l", lead_m * 1e3, "mm"),
        ("a1", combined::life_factor(ask.job.rules.reliability), "")
    )
    .rule("reliability")
}
