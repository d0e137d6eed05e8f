//! A screw cut to the job with its supports: its torque, its parts, its life.

use std::collections::BTreeMap;

mod checks;

use super::supports::{self, extremes};
use super::words::SCREW;
use crate::catalog::{BallScrew, Common, ScrewSupport, SlidingScrew};
use crate::family::choose::{Goals, Merits};
use crate::family::electric::{Cycle, Mechanism, years};
use crate::family::{Ask, Check, Life, PartLine, check, site};
use crate::mechanics::{column, motor, screw};
use crate::quantity::{Lead, Si, metres, newtons};

/// Lives past this are not told apart, as in the study.
const LIFE_MOST_YEARS: f64 = 100.0;

/// What tells screws apart that drive the same load.
pub(super) type Worth = ((&'static str, u64, bool), (Vec<f64>, Merits));

/// The thread.
#[derive(Debug, Clone, Copy)]
pub(super) enum Thread<'a> {
    Ball(&'a BallScrew),
    Sliding(&'a SlidingScrew),
}

/// What both threads state under one name.
macro_rules! of_either {
    ($thread:expr, $screw:ident => $figure:expr) => {
        match $thread {
            Thread::Ball($screw) => $figure,
            Thread::Sliding($screw) => $figure,
        }
    };
}

impl<'a> Thread<'a> {
    pub(super) fn common(self) -> &'a Common {
        of_either!(self, s => &s.common)
    }
    pub(super) fn diameter_m(self) -> f64 {
        of_either!(self, s => s.diameter.si())
    }
    fn lead(self) -> Lead {
        match self {
            Thread::Ball(s) => s.lead,
            Thread::Sliding(s) => s.lead(),
        }
    }
    pub(super) fn lead_m(self) -> f64 {
        self.lead().si()
    }
}

/// A screw cut to the job, with its supports.
#[derive(Debug, Clone)]
pub(super) struct Spindle<'a> {
    pub thread: Thread<'a>,
    pub support: &'a ScrewSupport,
    /// Torque by force, inertia, whether it locks.
    pub mechanism: Mechanism,
    /// Between its bearings.
    pub free_length_m: f64,
    /// Length of folded bellows in that, where the site asks for them.
    pub bellows_m: f64,
    /// Whether it runs under bellows.
    pub covered: bool,
    /// What screw, supports and their brackets cost and bring.
    bought: Merits,
    root_m: f64,
    diameter_m: f64,
}

impl<'a> Spindle<'a> {
    /// Every screw that is long enough, with the lightest supports that bear the longest and the shortest design time, those
    /// that cost least over the horizon first; the checks of one that is too short go to `fails`.
    pub(super) fn all(ask: &Ask<'a>, mut fails: impl FnMut(Check)) -> Vec<Self> {
        let ball = ask.catalog.ball_screws.iter().map(Thread::Ball);
        let sliding = ask.catalog.sliding_screws.iter().map(Thread::Sliding);
        let shelf = supports::shelf(ask);
        let ends = extremes(ask);
        let mut sizes = BTreeMap::new();
        let on_supports = |thread: Thread<'a>| {
            let (diameter_m, lead_m) = (thread.diameter_m(), thread.lead_m());
            // Screws of one size and lead ask the same of their supports.
            let fitting = sizes
                .entry([diameter_m, lead_m].map(f64::to_bits))
                .or_insert_with(|| supports::fitting(ask, thread, &shelf, &ends));
            let size = Some(metres(diameter_m));
            let choices = site::cover_choices(ask, thread.common(), size);
            let on = |support: &&'a ScrewSupport| {
                let support = *support;
                choices
                    .iter()
                    .map(move |covered| Self::new(ask, thread, support, *covered))
            };
            fitting.iter().flat_map(on).collect::<Vec<_>>()
        };
        let mut all = Vec::new();
        for spindle in ball.chain(sliding).flat_map(on_supports) {
            let length = spindle.length_check(ask);
            if length.passes() {
                all.push(spindle);
            } else {
                fails(length);
            }
        }
        let goals = ask.goals();
        let life_cost = |spindle: &Self| goals.life_cost(&spindle.bought);
        all.sort_by(|p, q| {
            let cost = life_cost(p).total_cmp(&life_cost(q));
            cost.then_with(|| p.id().cmp(q.id()))
        });
        all
    }

    fn length_check(&self, ask: &Ask) -> Check {
        let (bought_m, most_m) = (self.bought_length_m(), self.length_most_m());
        check!(
            "screw.length", bought_m => most_m, "m";
            "travel + nut + overrun at both ends + journals", "geometry";
            ("S", ask.travel_m(), "m")
        )
    }

    fn new(ask: &Ask<'a>, thread: Thread<'a>, support: &'a ScrewSupport, covered: bool) -> Self {
        let diameter_m = thread.diameter_m();
        let lead_m = thread.lead_m();
        let root_m = of_either!(thread, s => s.root_diameter.si());
        let nut_length_m = of_either!(thread, s => s.nut_length.si());
        // Bellows lie folded between nut and bearings: the screw is longer by them.
        let bellows_m = site::bellows_m(ask, covered, Some(metres(diameter_m)));
        let free_length_m =
            ask.travel_m() + nut_length_m + 2.0 * ask.job.rules.screw_overrun + bellows_m;
        // The torque is taken over a bar of the mean of nominal and root diameter.
        let bar = metres(f64::midpoint(diameter_m, root_m));
        let length = metres(free_length_m + support.length.si());
        let mut spindle = Self {
            thread,
            support,
            mechanism: Mechanism {
                travel_per_turn_m: [lead_m; 2],
                driving_m: [0.0; 2],
                driven_m: [0.0; 2],
                inertia_kg_m2: motor::bar_inertia(bar, length, column::STEEL_DENSITY_KG_M3).si(),
                locks: false,
                words: &SCREW,
            },
            free_length_m,
            bellows_m,
            covered,
            bought: Merits::NONE,
            root_m,
            diameter_m,
        };
        spindle.take_torques(ask);
        spindle.bought = spindle.bought(ask);
        spindle
    }

    /// Torque is proportional to force: worked out once for a newton.
    fn take_torques(&mut self, ask: &Ask) {
        let (one, lead) = (newtons(1.0), self.thread.lead());
        let locking_friction = self.locking_friction();
        let mechanism = &mut self.mechanism;
        match self.thread {
            Thread::Ball(s) => {
                let driven = -screw::back_drive_torque(one, lead, s.efficiency).si();
                mechanism.driving_m = [screw::drive_torque(one, lead, s.efficiency).si(); 2];
                mechanism.driven_m = [driven; 2];
                mechanism.locks = driven >= 0.0;
            }
            Thread::Sliding(s) => {
                let (mean, angle) = (s.mean_diameter(), screw::TRAPEZOIDAL_HALF_ANGLE);
                let rules = &ask.job.rules;
                let support = self.support;
                for (at, times) in [1.0, rules.starting_friction].into_iter().enumerate() {
                    let friction = support.friction * times;
                    let collar = screw::collar_torque(one, friction, support.mean_diameter).si();
                    let friction = s.friction * times;
                    let raise = screw::raise_torque(one, mean, lead, friction, angle).si();
                    let lower = screw::lower_torque(one, mean, lead, friction, angle).si();
                    mechanism.driving_m[at] = raise + collar;
                    mechanism.driven_m[at] = lower + collar;
                }
                let counted = s.friction * rules.self_locking_friction;
                mechanism.locks = locking_friction <= counted;
            }
        }
    }

    /// Least thread friction at which it locks; none for a ball screw.
    fn locking_friction(&self) -> f64 {
        match self.thread {
            Thread::Ball(_) => f64::INFINITY,
            Thread::Sliding(s) => screw::self_locking_friction(
                s.mean_diameter(),
                s.lead(),
                screw::TRAPEZOIDAL_HALF_ANGLE,
            ),
        }
    }

    pub(super) fn lead_m(&self) -> f64 {
        self.thread.lead_m()
    }
    pub(super) fn id(&self) -> &'a str {
        &self.thread.common().id
    }
    pub(super) fn kind(&self) -> &'static str {
        match self.thread {
            Thread::Ball(_) => "ball screw",
            Thread::Sliding(_) => "sliding screw",
        }
    }
    /// Sizes and name for the table.
    pub(super) fn words(&self) -> String {
        let (d, l) = (self.diameter_m * 1e3, self.lead_m() * 1e3);
        let size = format!("{}×{}", crate::quantity::show(d), crate::quantity::show(l));
        match self.thread {
            Thread::Ball(_) => format!("{size} ball screw"),
            Thread::Sliding(_) => format!("Tr {size} screw"),
        }
    }
    fn lead_error_m(&self) -> f64 {
        let in_300_mm = of_either!(self.thread, s => s.lead_error.si());
        in_300_mm / 0.3
    }
    fn backlash_m(&self) -> f64 {
        of_either!(self.thread, s => s.backlash.si())
    }
    fn length_most_m(&self) -> f64 {
        of_either!(self.thread, s => s.length_most.si())
    }
    fn bought_length_m(&self) -> f64 {
        self.free_length_m + self.support.length.si()
    }
    /// The screw as bought.
    pub(super) fn line(&self) -> PartLine<'a> {
        let length = self.bought_length_m();
        of_either!(self.thread, s => PartLine::cut(s, length, s.price_per_metre, s.mass_per_length))
    }
    /// The whole position that it leaves open: error of the lead over the travel, and play of the nut.
    pub(super) fn position(&self, ask: &Ask) -> [(&'static str, f64); 2] {
        let lead_error_m = self.lead_error_m() * ask.travel_m();
        [
            ("lead error over the travel", lead_error_m),
            ("play of the nut", self.backlash_m()),
        ]
    }

    /// Screw, supports and their brackets.
    fn bought(&self, ask: &Ask) -> Merits {
        let rates = ask.life_cost();
        let bellows = site::bellows_line(ask, self.covered, Some(metres(self.diameter_m)));
        let bellows = bellows.map_or(Merits::NONE, |line| Merits::line(&rates, &line));
        let parts = Merits::line(&rates, &self.line())
            + Merits::part(&rates, &self.support.common)
            + bellows;
        let errors = self.position(ask).map(|(_, error)| error * error);
        Merits {
            purchase: parts.purchase + rates.material(self.support.bracket_material),
            error: errors.iter().sum(),
            length_m: self.bought_length_m(),
            ..parts
        }
    }

    /// By what another may be better that drives the same load: of the same sort what it costs and brings, how much it takes
    /// to turn it, and how long it lasts.
    pub(super) fn worth(&self, ask: &Ask, goals: &Goals, cycle: &Cycle) -> Worth {
        let lives = self.lives(ask, cycle).into_iter().map(|life| life.years);
        let all = Merits {
            // The study tells no lives apart past this.
            life: -lives.fold(LIFE_MOST_YEARS, f64::min),
            ..self.bought
        };
        let mechanism = &self.mechanism;
        let sort = (self.kind(), self.lead_m().to_bits(), mechanism.locks);
        let turns = vec![mechanism.driving_m[0], mechanism.inertia_kg_m2];
        (sort, (turns, goals.of_part(all)))
    }

    /// What it and its support cost over the horizon.
    pub(super) fn life_cost(&self, ask: &Ask) -> f64 {
        ask.goals().life_cost(&self.bought)
    }

    /// Lives of nut and support.
    pub(super) fn lives(&self, ask: &Ask, cycle: &Cycle) -> Vec<Life> {
        let support_m = supports::life_m(self.support, self.lead_m(), ask, cycle);
        vec![
            Life::new("screw nut", years(ask, self.nut_life_m(ask, cycle))),
            Life::new("screw support", years(ask, support_m)),
        ]
    }
}
