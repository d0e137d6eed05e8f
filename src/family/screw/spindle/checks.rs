//! Every check of a screw and its supports that needs no motor.

use core::f64::consts::TAU;

use super::super::supports;
use super::{Spindle, Thread};
use crate::catalog::{BallScrew, SlidingScrew};
use crate::family::electric::{Cycle, rpm};
use crate::family::{Ask, Check};
use crate::mechanics::{bearing, column, combined, screw};
use crate::quantity::{Si, metres, newtons, pascals};

impl Spindle<'_> {
    /// Every check of the screw and its supports.
    pub(in crate::family::screw) fn checks(&self, ask: &Ask, cycle: &Cycle) -> Vec<Check> {
        let mut checks = vec![
            self.critical_speed(ask, cycle),
            self.column(ask, cycle),
            supports::life(self.support, self.lead_m(), ask, cycle),
            supports::at_rest(self.support, ask, cycle),
            Check::new(
                "screw_support.speed",
                rpm(cycle.speed_m_s / self.lead_m() * TAU),
                rpm(self.support.speed_most.si()),
                "rpm",
            )
            .from("n = v / l", "the part's limit")
            .given(
                &[("v", "m/s"), ("l", "mm")],
                &[cycle.speed_m_s, self.lead_m() * 1e3],
            ),
        ];
        match self.thread {
            Thread::Ball(s) => checks.extend(self.ball_checks(s, ask, cycle)),
            Thread::Sliding(s) => checks.extend(self.sliding_checks(s, ask, cycle)),
        }
        checks
    }

    fn critical_speed(&self, ask: &Ask, cycle: &Cycle) -> Check {
        let part = ask.job.rules.critical_speed_part;
        let whirl = screw::critical_speed(
            metres(self.root_m),
            metres(self.free_length_m),
            screw::FIXED_SUPPORTED,
            pascals(column::STEEL_MODULUS_PA),
            column::STEEL_DENSITY_KG_M3,
        );
        Check::new(
            "screw.critical_speed",
            rpm(cycle.speed_m_s / self.lead_m() * TAU),
            part * rpm(whirl.si()),
            "rpm",
        )
        .from(
            "part × (60/2π)(λ/L)² √(E I/(ρ A)), λ = 3.927 fixed-supported",
            "first bending frequency of a uniform beam",
        )
        .given(
            &[
                ("v", "m/s"),
                ("l", "mm"),
                ("d root", "mm"),
                ("L", "mm"),
                ("part", ""),
            ],
            &[
                cycle.speed_m_s,
                self.lead_m() * 1e3,
                self.root_m * 1e3,
                self.free_length_m * 1e3,
                part,
            ],
        )
        .rule("critical_speed_part")
    }

    fn column(&self, ask: &Ask, cycle: &Cycle) -> Check {
        let buckling = column::critical_load(
            metres(self.root_m),
            metres(self.free_length_m),
            column::Ends::FixedPinned.factor(),
            pascals(column::STEEL_YIELD_PA),
            pascals(column::STEEL_MODULUS_PA),
        );
        Check::new("screw.column", cycle.greatest_n, buckling.si(), "N")
            .factor(ask.job.rules.column_factor_screw)
            .from(
                "F the greatest force either way, against Euler π²EI/(K L)² or Johnson, K = 0.7 fixed-supported, L between the supports",
                "Shigley, §§ 4-12 and 4-13",
            )
            .given(
                &[
                    ("F", "N"),
                    ("d root", "mm"),
                    ("L", "mm"),
                    ("K", ""),
                    ("E", "GPa"),
                ],
                &[
                    cycle.greatest_n,
                    self.root_m * 1e3,
                    self.free_length_m * 1e3,
                    column::Ends::FixedPinned.factor(),
                    column::STEEL_MODULUS_PA / 1e9,
                ],
            )
            .rule("column_factor_screw")
    }

    /// Distance that the nut lasts.
    pub(super) fn nut_life_m(&self, ask: &Ask, cycle: &Cycle) -> f64 {
        match self.thread {
            Thread::Ball(s) => {
                let turns = bearing::rating_life(s.dynamic_rating, newtons(cycle.cube_mean_n), 3.0);
                combined::life_factor(ask.job.rules.reliability) * turns * self.lead_m()
            }
            Thread::Sliding(s) => {
                let pressure =
                    screw::nut_pressure(newtons(cycle.mean_n), s.mean_diameter(), s.nut_length);
                let rubbed = screw::rubbing_ratio(s.mean_diameter(), s.lead());
                let depth_per_m = s.wear_rate * pressure.si() * rubbed;
                if depth_per_m > 0.0 {
                    s.wear_most.si() / depth_per_m
                } else {
                    f64::INFINITY
                }
            }
        }
    }

    fn ball_checks(&self, s: &BallScrew, ask: &Ask, cycle: &Cycle) -> [Check; 3] {
        [
            Check::new(
                "ball_screw.dn",
                s.diameter.si() * 1e3 * rpm(cycle.speed_m_s / self.lead_m() * TAU),
                s.dn_most,
                "mm rpm",
            )
            .from("d · n", "the part's limit")
            .given(
                &[("d", "mm"), ("n", "rpm")],
                &[
                    s.diameter.si() * 1e3,
                    rpm(cycle.speed_m_s / self.lead_m() * TAU),
                ],
            ),
            Check::new(
                "ball_screw.life",
                ask.life_distance_m() / 1e3,
                self.nut_life_m(ask, cycle).min(1e12) / 1e3,
                "km",
            )
            .from(
                "a1 · (Ca/Fm)³ · 10⁶ · l, Fm cube mean, at most 10⁹ km",
                "ISO 3408-5; a1 ISO 281:2007, table 12",
            )
            .given(
                &[("Ca", "N"), ("Fm", "N"), ("l", "mm"), ("a1", "")],
                &[
                    s.dynamic_rating.si(),
                    cycle.cube_mean_n,
                    self.lead_m() * 1e3,
                    combined::life_factor(ask.job.rules.reliability),
                ],
            )
            .rule("reliability"),
            Check::new(
                "ball_screw.static",
                cycle.greatest_n,
                s.static_rating.si(),
                "N",
            )
            .factor(ask.job.rules.screw_static_factor)
            .from(
                "C0a / F, F the greatest of thrust, emergency stop and holding",
                "ISO 3408-5",
            )
            .given(
                &[("F", "N"), ("C0a", "N")],
                &[cycle.greatest_n, s.static_rating.si()],
            )
            .rule("screw_static_factor"),
        ]
    }

    fn sliding_checks(&self, s: &SlidingScrew, ask: &Ask, cycle: &Cycle) -> [Check; 4] {
        let pressure =
            |force_n| screw::nut_pressure(newtons(force_n), s.mean_diameter(), s.nut_length).si();
        let rubbed = screw::rubbing_ratio(s.mean_diameter(), s.lead());
        let mean_speed = rubbed * cycle.way_m / cycle.window_s();
        [
            Check::new(
                "sliding_nut.pressure",
                pressure(cycle.greatest_n) / 1e6,
                s.pressure_most.si() / 1e6,
                "MPa",
            )
            .from("2 F/(π dm L)", "Shigley, eq. 8-10")
            .given(
                &[("F", "N"), ("dm", "mm"), ("L", "mm")],
                &[
                    cycle.greatest_n,
                    s.mean_diameter().si() * 1e3,
                    s.nut_length.si() * 1e3,
                ],
            ),
            Check::new(
                "sliding_nut.pv",
                pressure(cycle.mean_n) / 1e6 * mean_speed,
                s.pv_most,
                "MPa m/s",
            )
            .from(
                "p · v over the cycle, ten minutes of it at most",
                "common practice, no source",
            )
            .given(
                &[("p", "MPa"), ("v", "m/s")],
                &[pressure(cycle.mean_n) / 1e6, mean_speed],
            ),
            Check::new(
                "sliding_nut.rubbing_speed",
                rubbed * cycle.speed_m_s,
                s.rubbing_speed_most.si(),
                "m/s",
            )
            .from("v √(π² dm² + l²)/l", "the part's limit")
            .given(
                &[("v", "m/s"), ("dm", "mm"), ("l", "mm")],
                &[
                    cycle.speed_m_s,
                    s.mean_diameter().si() * 1e3,
                    self.lead_m() * 1e3,
                ],
            ),
            Check::new(
                "sliding_nut.wear",
                ask.life_distance_m() / 1e3,
                self.nut_life_m(ask, cycle).min(1e12) / 1e3,
                "km",
            )
            .from(
                "allowed wear / (k · p · rubbed way per way)",
                "linear wear of plain bearings (Archard)",
            )
            .given(
                &[
                    ("wear", "mm"),
                    ("k", "m2/N"),
                    ("p", "MPa"),
                    ("rubbed way", ""),
                ],
                &[
                    s.wear_most.si() * 1e3,
                    s.wear_rate,
                    pressure(cycle.mean_n) / 1e6,
                    rubbed,
                ],
            ),
        ]
    }

    /// Whether a thread that is said to lock does so: asked where the load must hold and no brake is fitted.
    pub(in crate::family::screw) fn locking_check(&self, ask: &Ask) -> Option<Check> {
        let Thread::Sliding(s) = self.thread else {
            return None;
        };
        let counted = s.friction * ask.job.rules.self_locking_friction;
        Some(
            Check::new(
                "sliding_screw.self_locking",
                self.locking_friction(),
                counted,
                "",
            )
            .from(
                "l cosα/(π dm) against the friction that may be counted on, no collar",
                "Shigley, eq. 8-3",
            )
            .given(
                &[("l", "mm"), ("dm", "mm"), ("f", ""), ("part", "")],
                &[
                    self.lead_m() * 1e3,
                    s.mean_diameter().si() * 1e3,
                    s.friction,
                    ask.job.rules.self_locking_friction,
                ],
            )
            .rule("self_locking_friction"),
        )
    }
}
