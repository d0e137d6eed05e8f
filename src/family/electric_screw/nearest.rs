//! Of the picks of a range of which none passes the one that comes nearest.
//!
//! A pick is used no less than its motor by speed and by torque from rest. The motors are looked at in the order of
//! that bound: once it is past how far the nearest so far is used, none that is left can be nearer.

use core::cmp::{Ordering, Reverse};
use std::collections::BinaryHeap;

use super::fit::{Fit, Seat};
use super::geared::{Geared, Member, Series, Spread};
use super::load::{Line, Load, Moves};
use super::motor::{Motor, Reach, Still};
use super::pick::{self, Pick, Turn};
use super::stock::Range;
use crate::catalog::Gearbox;
use crate::family::check::SURELY;
use crate::family::{Ask, Check};

/// The fit that is used least, the first of equals in the order in which they are taken.
pub(super) fn nearest<'a>(seat: Seat<'_, 'a>, range: &Range<'a>, moves: &Moves) -> Option<Fit<'a>> {
    let mut search = Search {
        seat,
        moves,
        nearest: None,
    };
    match range {
        Range::Plain(picks) => search.plain(picks),
        Range::Geared(geared) => search.geared(geared),
    }
    search.nearest.map(|(_, fit)| fit)
}

/// A bound and which motor and gearboxes it is of.
struct Bound(f64, usize, usize);

impl Ord for Bound {
    fn cmp(&self, other: &Self) -> Ordering {
        let place = (self.1, self.2).cmp(&(other.1, other.2));
        self.0.total_cmp(&other.0).then(place)
    }
}
impl PartialOrd for Bound {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
impl PartialEq for Bound {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}
impl Eq for Bound {}

/// How far the nearest so far is used, and its fit.
struct Search<'s, 'a> {
    seat: Seat<'s, 'a>,
    moves: &'s Moves,
    nearest: Option<(f64, Fit<'a>)>,
}

impl<'a> Search<'_, 'a> {
    /// Whether a pick that is used at least so far may be the nearest.
    fn may_be_nearer(&self, bound: f64) -> bool {
        self.nearest.as_ref().is_none_or(|(used, _)| bound <= *used)
    }

    fn try_one(&mut self, fit: Fit<'a>) {
        let (ask, load) = (self.seat.ask, self.seat.load);
        // What is used more than the nearest by what is quick to tell is used more by all its checks.
        let least = fit.least_used(ask, load);
        if !self.may_be_nearer(least) {
            return;
        }
        // Where that does not end it, its peaks count as well.
        let ends = least * SURELY * SURELY > 1.0;
        if let Some((most, _)) = self.nearest
            && !ends
            && most < Check::WORST
            && fit.pick.motor.stalls(ask, load, &fit.line, most)
        {
            return;
        }
        let used = fit.used(ask, load, self.moves);
        let nearer = |(least, nearest): &(f64, Fit<'a>)| {
            let turn = |pick: &Pick<'a>| Turn::of(ask, pick);
            let order = used.total_cmp(least);
            order
                .then_with(|| turn(&fit.pick).order(&turn(&nearest.pick)))
                .is_lt()
        };
        if self.nearest.as_ref().is_none_or(nearer) {
            self.nearest = Some((used, fit));
        }
    }

    fn plain(&mut self, picks: &[Pick<'a>]) {
        let (ask, load) = (self.seat.ask, self.seat.load);
        let line = Line {
            ratio: 1.0,
            efficiency: 1.0,
            inertia_kg_m2: 0.0,
            carried_kg_m2: 0.0,
        };
        let bound = |pick: &Pick| pick.reach.first_bound(ask, load, &line, Still::default());
        let bounds = picks.iter().enumerate();
        let mut left: BinaryHeap<_> = bounds
            .map(|(index, pick)| Reverse(Bound(bound(pick), index, 0)))
            .collect();
        while let Some(Reverse(Bound(bound, index, _))) = left.pop()
            && self.may_be_nearer(bound)
            && let Some(pick) = picks.get(index)
        {
            if let Some(fit) = Fit::new(self.seat, *pick) {
                self.try_one(fit);
            }
        }
    }

    fn geared(&mut self, geared: &Geared<'a>) {
        let (ask, load) = (self.seat.ask, self.seat.load);
        let of = |series| Boxes::of(ask, load, series);
        let all: Vec<Boxes> = geared.series.iter().filter_map(of).collect();
        let mut left = Vec::new();
        for (place, boxes) in all.iter().enumerate() {
            let bound = |motor: Reach| boxes.spread.first_bound(ask, load, motor);
            let motors = geared.motors.iter().enumerate();
            left.extend(motors.map(|(at, motor)| Reverse(Bound(bound(motor.reach), at, place))));
        }
        let mut left = BinaryHeap::from(left);
        while let Some(Reverse(Bound(bound, at, place))) = left.pop()
            && self.may_be_nearer(bound)
        {
            if let (Some(motor), Some(boxes)) = (geared.motors.get(at), all.get(place)) {
                self.with_boxes(motor, boxes);
            }
        }
    }

    /// A motor with each gearbox of a ratio.
    fn with_boxes(&mut self, motor: &Member<Motor<'a>>, boxes: &Boxes<'a>) {
        let Some((first, [least, most])) = boxes.spread.bounds(self.seat, motor) else {
            return;
        };
        if !self.may_be_nearer(least) {
            return;
        }
        let with = boxes.spread.behind(self.seat, first);
        for (used, gearbox) in &boxes.least_used_first {
            // Where the motor does with any of them, the gearbox itself is what a pick is used by at least.
            if most <= 1.0 && !self.may_be_nearer(*used) {
                return;
            }
            if !self.may_be_nearer(with.least_used(gearbox, most <= 1.0)) {
                continue;
            }
            // Finer points tell nothing of what is nearest.
            let pick = Pick {
                gearbox: Some(gearbox),
                finer_points: [0.0; 4],
                ..first.pick
            };
            self.try_one(first.with(self.seat, pick));
        }
    }
}

/// Gearboxes of one ratio, each with how far it is used itself.
struct Boxes<'a> {
    spread: Spread<'a>,
    least_used_first: Vec<(f64, &'a Gearbox)>,
}

impl<'a> Boxes<'a> {
    fn of(ask: &Ask, load: &Load, series: &Series<'a>) -> Option<Self> {
        let all = &series.lists[0];
        let used = |member: &Member<&'a Gearbox>| {
            let gearbox = member.part;
            (pick::least_used(ask, load, gearbox), gearbox)
        };
        let mut least_used_first: Vec<_> = all.iter().map(used).collect();
        least_used_first.sort_by(|p, q| p.0.total_cmp(&q.0));
        Some(Self {
            spread: Spread::of(all)?,
            least_used_first,
        })
    }
}
