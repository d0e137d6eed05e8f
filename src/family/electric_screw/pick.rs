//! A motor, with a gearbox or without, and the order in which such are taken.

use core::cmp::Ordering;

use super::geared::Member;
use super::load::{Line, Load};
use super::motor::{Motor, Reach, Still};
use super::points::{Half, Points, Wanted};
use crate::catalog::{Common, Gearbox};
use crate::family::check::SURELY;
use crate::family::{Ask, Check, site};
use crate::quantity::Si;

/// A motor, and a gearbox where there is one.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pick<'a> {
    pub motor: Motor<'a>,
    pub gearbox: Option<&'a Gearbox>,
    /// What the motor reaches.
    pub reach: Reach,
    /// Where it can be better than a cheaper one, as far as the job wants it.
    pub finer_points: Points,
}

impl<'a> Pick<'a> {
    pub(super) fn new(
        ask: &Ask,
        wanted: Wanted,
        motor: Motor<'a>,
        gearbox: Option<&'a Gearbox>,
    ) -> Self {
        let box_half = gearbox.map_or(Half::default(), Half::of_gearbox);
        let ratio = gearbox.map_or(1.0, |g| g.ratio);
        Self {
            motor,
            gearbox,
            reach: motor.reach(ask),
            finer_points: wanted.points(ratio, Half::of_motor(&motor), box_half),
        }
    }
    pub(super) fn price(&self) -> f64 {
        self.motor.common().price + self.gearbox.map_or(0.0, |g| g.common.price)
    }
    fn commons(&self) -> impl Iterator<Item = &'a Common> {
        core::iter::once(self.motor.common()).chain(self.gearbox.map(|g| &g.common))
    }
    pub(super) fn ratio(&self) -> f64 {
        self.gearbox.map_or(1.0, |g| g.ratio)
    }
    /// Whether motor or gearbox is too slow or too weak, whatever holds the load and joins them: its bound would be past 1.
    pub(super) fn is_too_weak(&self, ask: &Ask, load: &Load) -> bool {
        let line = Line {
            ratio: self.ratio(),
            efficiency: self.gearbox.map_or(1.0, |g| g.efficiency),
            inertia_kg_m2: 0.0,
            carried_kg_m2: 0.0,
        };
        self.reach.first_bound(ask, load, &line, Still::default()) > 1.0 + 1e-9
            || self
                .gearbox
                .is_some_and(|g| is_weak(ask, load, g.ratio, reach(g)))
    }
    fn ids(&self) -> (&'a str, &'a str) {
        (
            &self.motor.common().id,
            self.gearbox.map_or("", |g| g.common.id.as_str()),
        )
    }
}

/// Whether a gearbox is too slow or too weak, whatever motor it has: a hair wider than its checks.
pub(super) fn is_weak(ask: &Ask, load: &Load, ratio: f64, reach: Reach) -> bool {
    let speed = load.speed_most_rad_s * ratio;
    let torque = load.most_n_m() * ask.job.rules.drive_margin;
    speed > reach.speed_rad_s * SURELY || torque > reach.torque_n_m * SURELY
}

/// The greatest speed and torque of a gearbox.
pub(super) fn reach(gearbox: &Gearbox) -> Reach {
    Reach {
        speed_rad_s: gearbox.speed_most.si(),
        torque_n_m: gearbox.peak_torque.si(),
    }
}

/// How far a gearbox is used at least by speed and by torque, whatever motor it has: a hair less than by its checks.
pub(super) fn least_used(ask: &Ask, load: &Load, gearbox: &Gearbox) -> f64 {
    let speed = load.speed_most_rad_s * gearbox.ratio / gearbox.speed_most.si();
    let torque = load.most_n_m() * ask.job.rules.drive_margin;
    let used = speed.max(torque / gearbox.peak_torque.si());
    used.min(Check::WORST) / SURELY
}

/// By what picks stand in order: those that bear the site first, then the cheapest, then by id.
pub(super) struct Turn<'a> {
    out: bool,
    price: f64,
    ids: (&'a str, &'a str),
}

impl<'a> Turn<'a> {
    pub(super) fn of(ask: &Ask, pick: &Pick<'a>) -> Self {
        let bears = |common: &Common| site::suits(ask.job, common);
        Self {
            out: !pick.commons().all(bears),
            price: pick.price(),
            ids: pick.ids(),
        }
    }
    pub(super) fn of_pair(motor: &Member<Motor<'a>>, gearbox: &Member<&'a Gearbox>) -> Self {
        let (p, q) = (motor.part.common(), &gearbox.part.common);
        Self {
            out: motor.out || gearbox.out,
            price: p.price + q.price,
            ids: (&p.id, &q.id),
        }
    }
    /// The order but for ids.
    pub(super) fn price_order(&self, other: &Self) -> Ordering {
        let out = self.out.cmp(&other.out);
        out.then_with(|| self.price.total_cmp(&other.price))
    }
    pub(super) fn order(&self, other: &Self) -> Ordering {
        self.price_order(other)
            .then_with(|| self.ids.cmp(&other.ids))
    }
}

/// Picks in the order in which they are taken.
pub(super) fn sorted<'a>(ask: &Ask, picks: Vec<Pick<'a>>) -> Vec<Pick<'a>> {
    let mut turns: Vec<_> = picks
        .into_iter()
        .map(|pick| (Turn::of(ask, &pick), pick))
        .collect();
    turns.sort_by(|(p, _), (q, _)| p.order(q));
    turns.into_iter().map(|(_, pick)| pick).collect()
}

/// Which of two parts is taken first: one that bears the site, then the cheaper, then by id.
pub(super) fn order(ask: &Ask, p: &Common, q: &Common) -> Ordering {
    let out = |common| !site::suits(ask.job, common);
    out(p)
        .cmp(&out(q))
        .then_with(|| p.price.total_cmp(&q.price))
        .then_with(|| p.id.cmp(&q.id))
}

/// All parts in that order.
pub(super) fn in_order<'p, T>(
    ask: &Ask,
    parts: &'p [T],
    common: impl Fn(&T) -> &Common,
) -> Vec<&'p T> {
    let mut parts: Vec<&T> = parts.iter().collect();
    parts.sort_by(|p, q| order(ask, common(p), common(q)));
    parts
}
