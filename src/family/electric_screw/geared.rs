//! Motors with gearboxes, kept apart: what can be told of one of the two is told once for all its pairs.

use super::fit::{Fit, Seat};
use super::load::{Line, Load};
use super::motor::{Motor, Reach, Still};
use super::pick::{self, Pick};
use super::points::{Half, Wanted};
use crate::catalog::Gearbox;
use crate::family::check::SURELY;
use crate::family::{Ask, Check, site};
use crate::quantity::Si;

/// The motors of one type, each with every gearbox.
#[derive(Debug)]
pub(super) struct Geared<'a> {
    /// In the order in which they are taken: those that bear the site first.
    pub motors: Vec<Member<Motor<'a>>>,
    /// The gearboxes, ratio by ratio.
    pub series: Vec<Series<'a>>,
    pub wanted: Wanted,
}

/// A motor or a gearbox with what it brings to a pair.
#[derive(Debug, Clone, Copy)]
pub(super) struct Member<T> {
    pub part: T,
    /// Whether it does not bear the site.
    pub out: bool,
    pub half: Half,
    pub reach: Reach,
}

/// The gearboxes of one ratio.
#[derive(Debug)]
pub(super) struct Series<'a> {
    pub ratio: f64,
    /// For a motor that bears the site, and by price alone for one that is no better off with a gearbox that does.
    pub lists: [Vec<Member<&'a Gearbox>>; 2],
}

impl<'a> Geared<'a> {
    pub(super) fn new(ask: &Ask<'a>, motors: &[Motor<'a>]) -> Self {
        let of = |motor: &Motor<'a>| Member {
            part: *motor,
            out: !site::suits(ask.job, motor.common()),
            half: Half::of_motor(motor),
            reach: motor.reach(ask),
        };
        let mut motors: Vec<_> = motors.iter().map(of).collect();
        motors.sort_by(|p, q| pick::order(ask, p.part.common(), q.part.common()));
        let mut boxes: Vec<&Gearbox> = ask.catalog.gearboxes.iter().collect();
        boxes.sort_by(|p, q| p.ratio.total_cmp(&q.ratio));
        let same = |p: &&Gearbox, q: &&Gearbox| p.ratio.to_bits() == q.ratio.to_bits();
        Self {
            motors,
            series: boxes
                .chunk_by(same)
                .filter_map(|same| Series::new(ask, same))
                .collect(),
            wanted: Wanted::of(ask),
        }
    }

    /// Every pair, in the order in which they are taken.
    #[cfg(test)]
    pub(super) fn pairs(&self, ask: &Ask<'a>) -> Vec<Pick<'a>> {
        let with = |motor: &Member<Motor<'a>>| {
            let motor = motor.part;
            let boxes = self.series.iter().flat_map(|series| &series.lists[0]);
            boxes.map(move |gearbox| Pick::new(ask, self.wanted, motor, Some(gearbox.part)))
        };
        pick::sorted(ask, self.motors.iter().flat_map(with).collect())
    }
}

impl<'a> Series<'a> {
    fn new(ask: &Ask<'a>, boxes: &[&'a Gearbox]) -> Option<Self> {
        let of = |gearbox: &&'a Gearbox| Member {
            part: *gearbox,
            out: !site::suits(ask.job, &gearbox.common),
            half: Half::of_gearbox(gearbox),
            reach: pick::reach(gearbox),
        };
        let mut in_order: Vec<_> = boxes.iter().map(of).collect();
        in_order.sort_by(|p, q| pick::order(ask, &p.part.common, &q.part.common));
        let mut by_price = in_order.clone();
        by_price.sort_by(|p, q| {
            let (p, q) = (&p.part.common, &q.part.common);
            p.price.total_cmp(&q.price).then_with(|| p.id.cmp(&q.id))
        });
        Some(Self {
            ratio: boxes.first()?.ratio,
            lists: [in_order, by_price],
        })
    }
}

/// Between what gearboxes of one ratio lie.
#[derive(Debug)]
pub(super) struct Spread<'a> {
    first: &'a Gearbox,
    efficiency: [f64; 2],
    inertia_kg_m2: [f64; 2],
    pub least: Half,
}

impl<'a> Spread<'a> {
    pub(super) fn of<'m>(boxes: impl IntoIterator<Item = &'m Member<&'a Gearbox>>) -> Option<Self>
    where
        'a: 'm,
    {
        let mut boxes = boxes.into_iter();
        let first = boxes.next()?;
        let start = Self {
            first: first.part,
            efficiency: [first.part.efficiency; 2],
            inertia_kg_m2: [first.part.inertia.si(); 2],
            least: first.half,
        };
        let widened = |[low, high]: [f64; 2], value: f64| [low.min(value), high.max(value)];
        Some(boxes.fold(start, |spread, gearbox| Self {
            first: spread.first,
            efficiency: widened(spread.efficiency, gearbox.part.efficiency),
            inertia_kg_m2: widened(spread.inertia_kg_m2, gearbox.part.inertia.si()),
            least: spread.least.least(gearbox.half),
        }))
    }

    fn line(&self, efficiency: f64) -> Line {
        Line {
            ratio: self.first.ratio,
            efficiency,
            inertia_kg_m2: 0.0,
            carried_kg_m2: 0.0,
        }
    }

    /// How far a motor is used at least, by speed and by torque from rest.
    pub(super) fn first_bound(&self, ask: &Ask, load: &Load, motor: Reach) -> f64 {
        let line = self.line(self.efficiency[1]);
        motor.first_bound(ask, load, &line, Still::default())
    }

    /// Brake and coupling follow from motor and ratio: the fit of a motor is the same with each of them but for what they weigh.
    fn fit(&self, seat: Seat<'_, 'a>, motor: &Member<Motor<'a>>) -> Option<Fit<'a>> {
        let pick = Pick {
            motor: motor.part,
            gearbox: Some(self.first),
            reach: motor.reach,
            finer_points: [0.0; 4],
        };
        Fit::new(seat, pick)
    }

    /// Inertia at the motor's shaft with the lightest and with the heaviest of them.
    fn shafts_kg_m2(&self, fit: &Fit) -> [f64; 2] {
        let rest = fit.line.inertia_kg_m2 - self.first.inertia.si();
        self.inertia_kg_m2.map(|own| own + rest)
    }

    /// A motor that may pass with one of them: none is better than the best of each figure together.
    pub(super) fn joined(
        &self,
        seat: Seat<'_, 'a>,
        motor: &Member<Motor<'a>>,
    ) -> Option<Joined<'a>> {
        let Seat { ask, load, .. } = seat;
        if self.first_bound(ask, load, motor.reach) > SURELY {
            return None;
        }
        let fit = self.fit(seat, motor)?;
        let line = self.line(self.efficiency[1]);
        if motor.reach.first_bound(ask, load, &line, fit.still) > SURELY {
            return None;
        }
        let [least, most] = self.shafts_kg_m2(&fit);
        let lightest = Line {
            inertia_kg_m2: least,
            ..fit.line
        };
        let part = motor.part;
        if part.last_bound(ask, load, &lightest) > SURELY {
            return None;
        }
        let inertia = [least / SURELY, most * SURELY];
        if !part.may_turn(ask, load, line.ratio, self.efficiency, inertia) {
            return None;
        }
        if fit.is_held_badly(ask, load) {
            return None;
        }
        Some(self.behind(seat, fit))
    }

    /// What tells quickly which gearboxes surely fail behind the motor of a fit.
    pub(super) fn behind(&self, seat: Seat<'_, 'a>, fit: Fit<'a>) -> Joined<'a> {
        let Seat { ask, load, .. } = seat;
        let (part, ratio) = (fit.pick.motor, fit.line.ratio);
        let load_kg_m2 = fit.line.load_inertia_kg_m2(part.inertia_kg_m2());
        let own_kg_m2 = self.first.inertia.si();
        let [lossy, fine] = self.efficiency;
        let rest_n_m = fit.still.rms_n_m;
        let turns_kg_m2 = part.turns_kg_m2(ask);
        Joined {
            turns_kg_m2,
            others_load_kg_m2: load_kg_m2 - own_kg_m2,
            rms_most_n_m: part.rms_most_n_m(ask, load, ratio),
            rms_by_rating: 1.0 / (ratio * ask.job.rules.drive_margin),
            others_kg_m2: fit.line.inertia_kg_m2 - own_kg_m2,
            squares: (lossy.to_bits() == fine.to_bits())
                .then(|| load.squares_by_inertia(ratio, fine, rest_n_m)),
            fit,
        }
    }

    /// A motor's fit, and between what its bound lies with all of them; none where it cannot be held.
    pub(super) fn bounds(
        &self,
        seat: Seat<'_, 'a>,
        motor: &Member<Motor<'a>>,
    ) -> Option<(Fit<'a>, [f64; 2])> {
        let Seat { ask, load, .. } = seat;
        let fit = self.fit(seat, motor)?;
        let [lossy, fine] = self.efficiency;
        let shafts = self.shafts_kg_m2(&fit);
        let (ratio, rest_n_m) = (self.first.ratio, fit.still.rms_n_m);
        let part = motor.part;
        let heat = part.heat_between(ask, load, ratio, rest_n_m, self.efficiency, shafts);
        let of = |efficiency: f64, inertia_kg_m2: f64, heat: f64| {
            let line = self.line(efficiency);
            let first = motor.reach.first_bound(ask, load, &line, fit.still);
            let line = Line {
                inertia_kg_m2,
                ..fit.line
            };
            first.max(heat).max(part.last_bound(ask, load, &line))
        };
        let bounds = [
            of(fine, shafts[0], heat[0]) / SURELY,
            of(lossy, shafts[1], heat[1]) * SURELY,
        ];
        Some((fit, bounds))
    }
}

/// A motor that may pass with some gearbox of a ratio, and what tells quickly which ones surely fail behind it.
pub(super) struct Joined<'a> {
    /// Its fit with the first of them.
    pub fit: Fit<'a>,
    /// Inertia of a load that the motor turns at most, and of all of the load but the gearbox.
    turns_kg_m2: f64,
    others_load_kg_m2: f64,
    /// RMS torque that the heat of the motor allows, and what a gearbox allows by its rating.
    rms_most_n_m: f64,
    rms_by_rating: f64,
    /// Inertia at the motor's shaft of all but the gearbox.
    others_kg_m2: f64,
    /// Square of the RMS torque by the inertia, with the least and the most load, where all have the same efficiency.
    squares: Option<[[f64; 3]; 2]>,
}

impl Joined<'_> {
    /// Square of the RMS torque with a gearbox, less what rounding may make of it; 0 where they differ in efficiency.
    fn square(&self, gearbox_kg_m2: f64) -> f64 {
        let j = self.others_kg_m2 + gearbox_kg_m2;
        let of = |[a, b, c]: [f64; 3]| {
            let (b, c) = (b * j, c * j * j);
            a + b + c - 1e-9 * (a + b.abs() + c)
        };
        let squares = self.squares.into_iter().flatten().map(of);
        squares.fold(0.0, f64::max)
    }

    /// Whether a gearbox of the ratio may do behind it, told by its inertia and its rating alone.
    pub(super) fn may_take(&self, gearbox: &Gearbox) -> bool {
        let own_kg_m2 = gearbox.inertia.si();
        let rms_n_m = (gearbox.rated_torque.si() * self.rms_by_rating).min(self.rms_most_n_m);
        self.others_load_kg_m2 + own_kg_m2 <= self.turns_kg_m2 * SURELY
            && self.square(own_kg_m2) <= rms_n_m * rms_n_m * SURELY * SURELY * SURELY
    }

    /// How far a pair with a gearbox is used at least, a hair less than by its checks; by the gearbox only where the motor
    /// surely does.
    pub(super) fn least_used(&self, gearbox: &Gearbox, motor_does: bool) -> f64 {
        let own_kg_m2 = gearbox.inertia.si();
        let rms_n_m = self.square(own_kg_m2).sqrt();
        let turns = (self.others_load_kg_m2 + own_kg_m2) / self.turns_kg_m2;
        let motor = turns.max(rms_n_m / self.rms_most_n_m);
        let rating = rms_n_m / (gearbox.rated_torque.si() * self.rms_by_rating);
        let used = if motor_does { motor.max(rating) } else { motor };
        used.min(Check::WORST) / SURELY
    }
}
