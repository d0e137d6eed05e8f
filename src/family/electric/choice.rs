//! Which motors with which gearboxes are worth building: the cheapest that passes, and others that are better in something
//! that the file has a goal for.

use std::collections::BTreeMap;

use super::drive::{Gear, MotorDrive};
use super::holding::Holding;
use super::motor::Motor;
use super::parts::{Electrics, coupling_n_m};
use super::shaft::Shaft;
use crate::catalog::{Common, Gearbox};
use crate::family::check::is_enough;
use crate::family::choose::{
    Bounds, CHOICES_MOST, LifeCost, Merits, Pairs, ParetoFront, Place, Rank, least,
};
use crate::family::fitted::site;
use crate::family::{Ask, Bench, Check};
use crate::quantity::Si;

/// Most drives of one type of motor that are built though they fail for something else, such as their supply: the built-in
/// catalog has not so many.
const FAILING_MOST: usize = 800;

/// Motors of one type with gearboxes, or without: all of them, or one that is none.
#[derive(Debug)]
pub(super) struct Range<'a> {
    pub(super) motors: Vec<Motor<'a>>,
    pub(super) ranks: Vec<Rank<'a>>,
    figures: Vec<Merits>,
    pub(super) series: Vec<Series<'a>>,
}

/// Gearboxes of one ratio and efficiency, in the order in which they are taken.
#[derive(Debug, Clone)]
pub(super) struct Series<'a> {
    pub(super) gearboxes: Vec<(Option<&'a Gearbox>, Gear)>,
    pub(super) ranks: Vec<Rank<'a>>,
    figures: Vec<Merits>,
    /// The best of each figure that the checks look at, and of those that goals do.
    best: Gear,
    least: Merits,
    /// The same, but with the inertia of the heaviest.
    heaviest: Gear,
}

impl<'a> Electrics<'a> {
    /// Hands every drive of a shaft that is worth building to `take`: of motors of one type, with a gearbox or without, the
    /// cheapest that passes, and more expensive ones that are better in something that the file has a goal for. `take` says whether
    /// what it built passes whatever else it is checked for; one that does not stands in nobody's way.
    ///
    /// Where none of a type passes the bench is told what came nearest.
    pub(in crate::family) fn choose<'s>(
        &'s self,
        ask: &'s Ask<'a>,
        shaft: &'s Shaft<'s>,
        bench: &mut Bench<'a>,
        mut take: impl FnMut(&MotorDrive<'s, 'a>, &mut Bench<'a>) -> bool,
    ) {
        if self.coupling(ask, shaft, 0.0).is_none() {
            let says = "the catalog has no coupling";
            bench.fails(vec![Check::of("coupling.present", false, says)]);
            return;
        }
        for range in &self.ranges {
            let mut search = Search::new(self, ask, shaft, range);
            let lists = search.ranks();
            let mut pairs = Pairs::new(&range.ranks, &lists);
            let mut none_passes = true;
            let mut failing = 0;
            while let Some(place) = pairs.next(&mut search) {
                let Some(motor_drive) = search.drive(place).filter(MotorDrive::passes) else {
                    continue;
                };
                none_passes = false;
                let mut sound = take(&motor_drive, bench);
                for other in self.joined_otherwise(&motor_drive) {
                    sound |= take(&other, bench);
                }
                if sound || search.is_out(place) {
                    search.taken.take(search.figures(place), ());
                } else {
                    failing += 1;
                }
                if search.taken.len() == CHOICES_MOST || failing == FAILING_MOST {
                    break;
                }
            }
            if none_passes
                && bench.explains()
                && let Some(motor_drive) = search.nearest()
            {
                bench.misses(motor_drive.checks());
            }
        }
    }

    /// The drive with other brakes and couplings that are better in something wanted.
    fn joined_otherwise<'s>(&self, motor_drive: &MotorDrive<'s, 'a>) -> Vec<MotorDrive<'s, 'a>> {
        let (ask, shaft, ratio) = (motor_drive.ask, motor_drive.shaft, motor_drive.line.ratio);
        let holdings = match motor_drive.holding {
            Holding::Brake(_) => {
                let brakes = self.brakes.choices(motor_drive.brake_n_m());
                brakes.into_iter().map(Holding::Brake).collect()
            }
            other => vec![other],
        };
        let mut all = Vec::new();
        for holding in holdings {
            let braked_n_m = holding.torque_n_m().unwrap_or(0.0) * ratio;
            let couplings = self.couplings.choices(coupling_n_m(ask, shaft, braked_n_m));
            let others = couplings
                .into_iter()
                .map(|coupling| motor_drive.joined_by(holding, coupling));
            all.extend(others.filter(|other| !other.is_joined_like(motor_drive) && other.passes()));
        }
        all.truncate(CHOICES_MOST);
        all
    }
}

impl<'a> Range<'a> {
    pub(super) fn plain(ask: &Ask<'a>, motors: &[Motor<'a>]) -> Self {
        Self::new(ask, motors, vec![Series::none()])
    }

    pub(super) fn geared(ask: &Ask<'a>, motors: &[Motor<'a>]) -> Self {
        Self::new(ask, motors, Series::all(ask))
    }

    fn new(ask: &Ask<'a>, motors: &[Motor<'a>], series: Vec<Series<'a>>) -> Self {
        let rates = ask.life_cost();
        let all = ranked(ask, motors.iter().copied(), |motor| {
            (motor.common(), motor_figures(&rates, motor))
        });
        Self {
            motors: all.iter().map(|(_, motor, _)| *motor).collect(),
            ranks: all.iter().map(|(rank, ..)| *rank).collect(),
            figures: all.iter().map(|(.., figures)| *figures).collect(),
            series,
        }
    }
}

impl<'a> Series<'a> {
    /// No gearbox.
    fn none() -> Self {
        let nothing = Rank {
            out: 0,
            cost: 0.0,
            id: "",
        };
        Self {
            gearboxes: vec![(None, Gear::new(None))],
            ranks: vec![nothing],
            figures: vec![NOTHING],
            best: Gear::new(None),
            heaviest: Gear::new(None),
            least: NOTHING,
        }
    }

    /// All gearboxes.
    fn all(ask: &Ask<'a>) -> Vec<Self> {
        let mut alike: BTreeMap<[u64; 2], Vec<&'a Gearbox>> = BTreeMap::new();
        for gearbox in &ask.catalog.gearboxes {
            let same = [gearbox.ratio, gearbox.efficiency].map(f64::to_bits);
            alike.entry(same).or_default().push(gearbox);
        }
        let series = |same: &Vec<&'a Gearbox>| Self::new(ask, same);
        alike.values().filter_map(series).collect()
    }

    fn new(ask: &Ask<'a>, same: &[&'a Gearbox]) -> Option<Self> {
        let rates = ask.life_cost();
        let all = ranked(ask, same.iter().copied(), |gearbox| {
            let figures = Merits {
                error: gearbox.backlash.si(),
                length_m: gearbox.length.si(),
                ..Merits::part(&rates, &gearbox.common)
            };
            (&gearbox.common, figures)
        });
        let figures: Vec<Merits> = all.iter().map(|(.., figures)| *figures).collect();
        let gears = all.iter().map(|(_, gearbox, _)| Gear::new(Some(gearbox)));
        let most_kg_m2 = gears.clone().map(|gear| gear.inertia_kg_m2);
        let best = gears.reduce(Gear::better)?;
        Some(Self {
            gearboxes: all
                .iter()
                .map(|(_, gearbox, _)| (Some(*gearbox), Gear::new(Some(gearbox))))
                .collect(),
            ranks: all.iter().map(|(rank, ..)| *rank).collect(),
            best,
            heaviest: Gear {
                inertia_kg_m2: most_kg_m2.fold(0.0, f64::max),
                ..best
            },
            least: figures.iter().copied().reduce(Merits::least)?,
            figures,
        })
    }
}

/// What no gearbox adds to a motor.
const NOTHING: Merits = Merits {
    life: 0.0,
    ..Merits::NONE
};

/// The motors of one type on a shaft.
pub(super) struct Search<'s, 'a> {
    electrics: &'s Electrics<'a>,
    ask: &'s Ask<'a>,
    shaft: &'s Shaft<'s>,
    pub(super) range: &'s Range<'a>,
    /// Of each series the gearboxes that are quick and strong enough, whatever motor they have.
    strong: Vec<Vec<usize>>,
    /// What passed so far.
    taken: ParetoFront<Merits, ()>,
}

impl<'s, 'a> Search<'s, 'a> {
    pub(super) fn new(
        electrics: &'s Electrics<'a>,
        ask: &'s Ask<'a>,
        shaft: &'s Shaft<'s>,
        range: &'s Range<'a>,
    ) -> Self {
        let strong = |series: &Series| {
            let gears = series.gearboxes.iter().enumerate();
            let strong = gears.filter(|(_, (_, gear))| gear.is_strong_enough(ask, shaft));
            strong.map(|(at, _)| at).collect()
        };
        Self {
            electrics,
            ask,
            shaft,
            range,
            strong: range.series.iter().map(strong).collect(),
            taken: ParetoFront::default(),
        }
    }

    /// Those gearboxes by what they cost.
    fn ranks(&self) -> Vec<Vec<Rank<'a>>> {
        let lists = self.strong.iter().zip(&self.range.series);
        let ranks = |(strong, series): (&Vec<usize>, &Series<'a>)| {
            let ranks = strong.iter().filter_map(|at| series.ranks.get(*at));
            ranks.copied().collect()
        };
        lists.map(ranks).collect()
    }

    /// A motor with the gearbox of a series at a place among all.
    pub(super) fn geared(&self, list: usize, row: usize, at: usize) -> Option<MotorDrive<'s, 'a>> {
        let gearbox = self.range.series.get(list)?.gearboxes.get(at)?;
        self.with(row, *gearbox)
    }

    fn with(&self, row: usize, gearbox: (Option<&'a Gearbox>, Gear)) -> Option<MotorDrive<'s, 'a>> {
        let motor = self.range.motors.get(row)?;
        MotorDrive::new(self.ask, self.shaft, self.electrics, *motor, gearbox)
    }

    /// A motor with the best that a gearbox of a series could be.
    fn at_best(&self, list: usize, row: usize) -> Option<MotorDrive<'s, 'a>> {
        let series = self.range.series.get(list)?;
        let (some, _) = series.gearboxes.first()?;
        self.with(row, (*some, series.best))
    }

    fn column(&self, (list, _, column): Place) -> usize {
        let strong = self.strong.get(list).and_then(|strong| strong.get(column));
        strong.copied().unwrap_or(usize::MAX)
    }

    fn drive(&self, place: Place) -> Option<MotorDrive<'s, 'a>> {
        self.geared(place.0, place.1, self.column(place))
    }

    /// What counts of a motor with the gearbox of a series at a place among all.
    pub(super) fn worth(&self, (list, row, at): Place) -> Merits {
        let series = self.range.series.get(list);
        let gearbox = series.and_then(|series| series.figures.get(at));
        self.together(list, row, gearbox.unwrap_or(&NOTHING))
    }

    fn figures(&self, place: Place) -> Merits {
        self.worth((place.0, place.1, self.column(place)))
    }

    /// What counts of both: a motor's step is as much smaller behind a gearbox as that is slower.
    fn together(&self, list: usize, row: usize, gearbox: &Merits) -> Merits {
        let motor = self.range.figures.get(row).unwrap_or(&NOTHING);
        let ratio = self.range.series.get(list).map_or(1.0, |s| s.best.ratio);
        Merits {
            error: motor.error / ratio + gearbox.error,
            ..*motor + *gearbox
        }
    }

    /// Whether one of the two does not withstand the site.
    fn is_out(&self, place: Place) -> bool {
        let (list, row, _) = place;
        let motor = self.range.ranks.get(row);
        let series = self.range.series.get(list);
        let gearbox = series.and_then(|series| series.ranks.get(self.column(place)));
        [motor, gearbox]
            .into_iter()
            .flatten()
            .any(|rank| rank.out > 0)
    }

    /// Of all pairs the one that is used least of what it is used most.
    pub(super) fn nearest(&self) -> Option<MotorDrive<'s, 'a>> {
        let lists: Vec<Vec<Rank>> = self.range.series.iter().map(|s| s.ranks.clone()).collect();
        let quick = |list, row| {
            let best = self.at_best(list, row);
            best.map_or(f64::INFINITY, |best| best.motor_quick_used())
        };
        let close = |list, row| self.close_bound(list, row).unwrap_or(f64::INFINITY);
        let used = |(list, row, at): Place| Some(self.geared(list, row, at)?.used(false));
        let (list, row, at) = least(&self.range.ranks, &lists, [&quick, &close], used)?;
        self.geared(list, row, at)
    }
}

impl Search<'_, '_> {
    /// What a motor with any gearbox of a series is used at least; none where it cannot hold the load as it must.
    ///
    /// A drive whose motor fails is looked at no further, so that its gearbox counts only where no gearbox of the series makes
    /// the motor fail: heat goes with inertia as a parabola, its greatest is at one of the ends.
    fn close_bound(&self, list: usize, row: usize) -> Option<f64> {
        let series = self.range.series.get(list)?;
        let (some, _) = series.gearboxes.first()?;
        let best = self.at_best(list, row)?;
        let heaviest = self.with(row, (*some, series.heaviest))?;
        let motor = best.motor_used(true);
        let does = |motor_drive: &MotorDrive| is_enough(motor_drive.motor_used(false));
        Some(if does(&best) && does(&heaviest) {
            best.used(true)
        } else {
            motor
        })
    }
}

impl Bounds for Search<'_, '_> {
    /// Whether a motor may do with some gearbox of a series: one that is the best of each figure.
    fn row(&mut self, list: usize, row: usize) -> bool {
        let Some(series) = self.range.series.get(list) else {
            return false;
        };
        let Some(motor) = self.range.motors.get(row) else {
            return false;
        };
        !self.taken.beats(&self.together(list, row, &series.least))
            && !motor.is_too_weak(self.ask, self.shaft, &series.best)
            && self.at_best(list, row).is_some_and(|best| {
                // With one gearbox, or none, its own pair is looked at as quickly.
                is_enough(if series.gearboxes.len() > 1 {
                    best.used(true)
                } else {
                    best.motor_used(true)
                })
            })
    }
    fn pair(&mut self, list: usize, row: usize, column: usize) -> bool {
        !self.taken.beats(&self.figures((list, row, column)))
    }
}

/// Parts in the order in which they are taken, each with what counts of it.
fn ranked<'a, P: Copy>(
    ask: &Ask,
    parts: impl Iterator<Item = P>,
    of: impl Fn(&P) -> (&'a Common, Merits),
) -> Vec<(Rank<'a>, P, Merits)> {
    let goals = ask.goals();
    let line = |part: P| {
        let (common, figures) = of(&part);
        let rank = Rank {
            out: u8::from(!site::suits(ask.job, common)),
            cost: goals.life_cost(&figures),
            id: &common.id,
        };
        (rank, part, goals.of_part(figures))
    };
    let mut all: Vec<_> = parts.map(line).collect();
    all.sort_by(|(p, ..), (q, ..)| p.order(q));
    all
}

/// What a motor brings; its loss stands for the energy of a cycle, where that is a goal.
fn motor_figures(rates: &LifeCost, motor: &Motor) -> Merits {
    let figures = Merits {
        error: motor.step_error_rad(),
        length_m: motor.length_m(),
        life: -motor.running_life_s(),
        cycle_j: motor.loss_w(),
        ..Merits::part(rates, motor.common())
    };
    figures.drawing(rates, 0.0, motor.standby_w())
}
