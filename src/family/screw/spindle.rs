//! A screw cut to the job with its supports: its torque, its parts, its life.

use core::f64::consts::TAU;
use std::collections::BTreeMap;

mod checks;

use super::load::Moves;
use super::pick;
use super::supports::{self, extremes};
use super::years;
use crate::catalog::{BallScrew, ScrewSupport, SlidingScrew};
use crate::family::{Ask, Check, Life, PartLine, site};
use crate::mechanics::{column, motor, screw};
use crate::quantity::{Lead, Si, metres, newtons};
use crate::requirements::Criterion;

/// The thread.
#[derive(Debug, Clone, Copy)]
pub(super) enum Thread<'a> {
    Ball(&'a BallScrew),
    Sliding(&'a SlidingScrew),
}

impl Thread<'_> {
    pub(super) fn diameter_m(self) -> f64 {
        match self {
            Thread::Ball(s) => s.diameter.si(),
            Thread::Sliding(s) => s.diameter.si(),
        }
    }
    pub(super) fn lead_m(self) -> f64 {
        match self {
            Thread::Ball(s) => s.lead.si(),
            Thread::Sliding(s) => s.lead().si(),
        }
    }
}

/// A screw cut to the job, with its supports.
#[derive(Debug, Clone)]
pub(super) struct Spindle<'a> {
    pub thread: Thread<'a>,
    pub support: &'a ScrewSupport,
    pub lead_m: f64,
    /// Between its bearings.
    pub free_length_m: f64,
    /// Length of folded bellows in that, where the site asks for them.
    pub bellows_m: f64,
    pub inertia_kg_m2: f64,
    /// Whether the thread holds a load by itself.
    pub locks: bool,
    /// What makes it a different choice from another: thread, lead, whether it locks and, where that is wanted, how fine it is.
    pub choice: (bool, u64, bool, u64),
    /// Torque per force: turning against it, turned by it, and both from rest.
    drive: f64,
    driven: f64,
    start: f64,
    start_driven: f64,
    root_m: f64,
    diameter_m: f64,
}

impl<'a> Spindle<'a> {
    /// Every screw that is long enough, with the lightest supports that bear the longest and the shortest design time;
    /// the checks of one that is not go to `fails`.
    pub(super) fn all(ask: &Ask<'a>, mut fails: impl FnMut(Check)) -> Vec<Self> {
        let ball = ask.catalog.ball_screws.iter().map(Thread::Ball);
        let sliding = ask.catalog.sliding_screws.iter().map(Thread::Sliding);
        let supports = pick::in_order(ask, &ask.catalog.screw_supports, |support| &support.common);
        let mut all = Vec::new();
        let moves = extremes(ask);
        let mut sizes = BTreeMap::new();
        let on_supports = |thread: Thread<'a>| {
            let (diameter_m, lead_m) = (thread.diameter_m(), thread.lead_m());
            // Screws of one size and lead ask the same of their supports.
            let fitting = sizes
                .entry([diameter_m, lead_m].map(f64::to_bits))
                .or_insert_with(|| {
                    let next = supports::next_in_size(diameter_m, &supports);
                    supports::fitting(ask, thread, &next, &moves)
                });
            let on = |support: &&'a ScrewSupport| Self::new(ask, thread, support);
            fitting.iter().map(on).collect::<Vec<_>>()
        };
        for spindle in ball.chain(sliding).flat_map(on_supports) {
            let length = Check::new(
                "screw.length",
                spindle.bought_length_m(),
                spindle.length_most_m(),
                "m",
            )
            .from("travel + nut + overrun at both ends + journals", "geometry")
            .given(&[("S", "m")], &[ask.travel_m()]);
            if length.passes() {
                all.push(spindle);
            } else {
                fails(length);
            }
        }
        all.sort_by(|p, q| {
            p.price()
                .total_cmp(&q.price())
                .then_with(|| p.id().cmp(q.id()))
        });
        all
    }

    fn new(ask: &Ask<'a>, thread: Thread<'a>, support: &'a ScrewSupport) -> Self {
        let diameter_m = thread.diameter_m();
        let lead_m = thread.lead_m();
        let (root_m, nut_length_m) = match thread {
            Thread::Ball(s) => (s.root_diameter.si(), s.nut_length.si()),
            Thread::Sliding(s) => (s.root_diameter.si(), s.nut_length.si()),
        };
        let common = match thread {
            Thread::Ball(s) => &s.common,
            Thread::Sliding(s) => &s.common,
        };
        // Bellows lie folded between nut and bearings: the screw is longer by them.
        let bellows_m = site::bellows_m(ask, common, Some(metres(diameter_m)));
        let free_length_m =
            ask.travel_m() + nut_length_m + 2.0 * ask.job.rules.screw_overrun + bellows_m;
        // The torque is taken over a bar of the mean of nominal and root diameter.
        let bar = metres(f64::midpoint(diameter_m, root_m));
        let length = metres(free_length_m + support.length.si());
        let mut spindle = Self {
            thread,
            support,
            lead_m,
            free_length_m,
            bellows_m,
            inertia_kg_m2: motor::bar_inertia(bar, length, column::STEEL_DENSITY_KG_M3).si(),
            locks: false,
            choice: Default::default(),
            drive: 0.0,
            driven: 0.0,
            start: 0.0,
            start_driven: 0.0,
            root_m,
            diameter_m,
        };
        spindle.take_torques(ask);
        spindle.choice = spindle.choice(ask);
        spindle
    }

    /// Torque is proportional to force: worked out once for a newton.
    fn take_torques(&mut self, ask: &Ask) {
        let (one, lead) = (newtons(1.0), Lead::from_si(self.lead_m));
        match self.thread {
            Thread::Ball(s) => {
                self.drive = screw::drive_torque(one, lead, s.efficiency).si();
                self.driven = -screw::back_drive_torque(one, lead, s.efficiency).si();
                (self.start, self.start_driven) = (self.drive, self.driven);
                self.locks = self.driven >= 0.0;
            }
            Thread::Sliding(s) => {
                let (mean, angle) = (s.mean_diameter(), screw::TRAPEZOIDAL_HALF_ANGLE);
                let rules = &ask.job.rules;
                let collar = |times: f64| {
                    let friction = self.support.friction * times;
                    screw::collar_torque(one, friction, self.support.mean_diameter).si()
                };
                let both = |times: f64| {
                    let friction = s.friction * times;
                    (
                        screw::raise_torque(one, mean, lead, friction, angle).si() + collar(times),
                        screw::lower_torque(one, mean, lead, friction, angle).si() + collar(times),
                    )
                };
                let (running, starting) = (both(1.0), both(rules.starting_friction));
                (self.drive, self.driven) = running;
                (self.start, self.start_driven) = starting;
                self.locks = self.locking_friction() <= s.friction * rules.self_locking_friction;
            }
        }
    }

    /// Torque that turns the screw while a force along the motion is asked (negative: the load drives).
    pub(super) fn turning_n_m(&self, force_n: f64) -> f64 {
        if force_n >= 0.0 {
            force_n * self.drive
        } else {
            -force_n * self.driven
        }
    }
    /// Force that a torque on the screw gives against the load.
    pub(super) fn thrust_n(&self, torque_n_m: f64) -> f64 {
        torque_n_m / self.drive.max(f64::MIN_POSITIVE)
    }
    /// The same from rest.
    pub(super) fn starting_n_m(&self, force_n: f64) -> f64 {
        if force_n >= 0.0 {
            force_n * self.start
        } else {
            -force_n * self.start_driven
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

    pub(super) fn id(&self) -> &'a str {
        match self.thread {
            Thread::Ball(s) => &s.common.id,
            Thread::Sliding(s) => &s.common.id,
        }
    }
    pub(super) fn kind(&self) -> &'static str {
        match self.thread {
            Thread::Ball(_) => "ball screw",
            Thread::Sliding(_) => "sliding screw",
        }
    }
    /// Sizes and name for the table.
    pub(super) fn words(&self) -> String {
        let (d, l) = (self.diameter_m * 1e3, self.lead_m * 1e3);
        let size = format!("{}×{}", crate::quantity::show(d), crate::quantity::show(l));
        match self.thread {
            Thread::Ball(_) => format!("{size} ball screw"),
            Thread::Sliding(_) => format!("Tr {size} screw"),
        }
    }
    pub(super) fn lead_error_m(&self) -> f64 {
        let in_300_mm = match self.thread {
            Thread::Ball(s) => s.lead_error.si(),
            Thread::Sliding(s) => s.lead_error.si(),
        };
        in_300_mm / 0.3
    }
    pub(super) fn backlash_m(&self) -> f64 {
        match self.thread {
            Thread::Ball(s) => s.backlash.si(),
            Thread::Sliding(s) => s.backlash.si(),
        }
    }
    fn length_most_m(&self) -> f64 {
        match self.thread {
            Thread::Ball(s) => s.length_most.si(),
            Thread::Sliding(s) => s.length_most.si(),
        }
    }
    fn bought_length_m(&self) -> f64 {
        self.free_length_m + self.support.length.si()
    }
    /// The screw as bought.
    pub(super) fn line(&self) -> PartLine<'a> {
        let length = self.bought_length_m();
        match self.thread {
            Thread::Ball(s) => PartLine::cut(
                "ball_screws",
                &s.common,
                length,
                s.price_per_metre,
                s.mass_per_length.si(),
            ),
            Thread::Sliding(s) => PartLine::cut(
                "sliding_screws",
                &s.common,
                length,
                s.price_per_metre,
                s.mass_per_length.si(),
            ),
        }
    }
    /// Price of screw and supports.
    pub(super) fn price(&self) -> f64 {
        self.line().price + self.support.common.price
    }
    fn choice(&self, ask: &Ask) -> (bool, u64, bool, u64) {
        let precise = ask.job.wants.contains_key(&Criterion::PositionError);
        let fine = if precise { self.lead_error_m() } else { 0.0 };
        (
            matches!(self.thread, Thread::Ball(_)),
            self.lead_m.to_bits(),
            self.locks,
            fine.to_bits(),
        )
    }

    /// Lives of nut and support.
    pub(super) fn lives(&self, ask: &Ask, moves: &Moves) -> Vec<Life> {
        vec![
            Life {
                what: "screw nut",
                years: years(ask, self.nut_life_m(ask, moves)),
            },
            Life {
                what: "screw support",
                years: years(ask, supports::life_m(self.support, self.lead_m, ask, moves)),
            },
        ]
    }
}

/// Turns per minute of a speed in rad/s.
pub(super) fn rpm(rad_s: f64) -> f64 {
    rad_s * 60.0 / TAU
}
