//! Every check of a screw and its supports that needs no motor.

use core::f64::consts::TAU;

use super::super::supports;
use super::{Spindle, Thread};
use crate::catalog::{BallScrew, SlidingScrew};
use crate::family::electric::{Cycle, rpm};
use crate::family::{Ask, Check, check, site};
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
            check!(
                "screw_support.speed",
                rpm(cycle.speed_m_s / self.lead_m() * TAU) => rpm(self.support.speed_most.si()), "rpm";
                "n = v / l", "the part's limit";
                ("v", cycle.speed_m_s, "m/s"), ("l", self.lead_m() * 1e3, "mm")
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
        check!(
            "screw.critical_speed", rpm(cycle.speed_m_s / self.lead_m() * TAU) => part * rpm(whirl.si()), "rpm";
            "part × (60/2π)(λ/L)² √(E I/(ρ A)), λ = 3.927 fixed-supported",
            "first bending frequency of a uniform beam";
            ("v", cycle.speed_m_s, "m/s"), ("l", self.lead_m() * 1e3, "mm"), ("d root", self.root_m * 1e3, "mm"),
            ("L", self.free_length_m * 1e3, "mm"), ("part", part, "")
        )
        .rule("critical_speed_part")
    }

    fn column(&self, ask: &Ask, cycle: &Cycle) -> Check {
        let (root, length) = (metres(self.root_m), metres(self.free_length_m));
        let buckling = column::steel_load(root, length, column::Ends::FixedPinned);
        check!(
            "screw.column", cycle.greatest_n => buckling.si(), "N";
            "F the greatest force either way, against Euler π²EI/(K L)² or Johnson, K = 0.7 fixed-supported, L between the supports",
            "Shigley, §§ 4-12 and 4-13";
            ("F", cycle.greatest_n, "N"), ("d root", self.root_m * 1e3, "mm"), ("L", self.free_length_m * 1e3, "mm"),
            ("K", column::Ends::FixedPinned.factor(), ""), ("E", column::STEEL_MODULUS_PA / 1e9, "GPa")
        )
        .factor(ask.job.rules.column_factor_screw)
        .rule("column_factor_screw")
    }

    /// The part of its life that dirt leaves the nut.
    fn life_left(&self, ask: &Ask) -> f64 {
        site::life_left(ask.job, self.thread.common(), self.covered)
    }

    /// Distance that the nut lasts.
    pub(super) fn nut_life_m(&self, ask: &Ask, cycle: &Cycle) -> f64 {
        let clean_m = match self.thread {
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
        };
        clean_m * self.life_left(ask)
    }

    fn ball_checks(&self, s: &BallScrew, ask: &Ask, cycle: &Cycle) -> [Check; 3] {
        [
            check!(
                "ball_screw.dn",
                s.diameter.si() * 1e3 * rpm(cycle.speed_m_s / self.lead_m() * TAU) => s.dn_most, "mm rpm";
                "d · n", "the part's limit";
                ("d", s.diameter.si() * 1e3, "mm"), ("n", rpm(cycle.speed_m_s / self.lead_m() * TAU), "rpm")
            ),
            check!(
                "ball_screw.life", ask.life_distance_m() / 1e3 => self.nut_life_m(ask, cycle).min(1e12) / 1e3, "km";
                "a1 · (Ca/Fm)³ · 10⁶ · l · k, Fm cube mean, k the part of its life that dirt leaves it, at most 10⁹ km",
                "ISO 3408-5; a1 ISO 281:2007, table 12; k common practice, no source";
                ("Ca", s.dynamic_rating.si(), "N"), ("Fm", cycle.cube_mean_n, "N"), ("l", self.lead_m() * 1e3, "mm"),
                ("a1", combined::life_factor(ask.job.rules.reliability), ""), ("k", self.life_left(ask), "")
            )
            .rule(life_rule(self.life_left(ask))),
            check!(
                "ball_screw.static", cycle.greatest_n => s.static_rating.si(), "N";
                "C0a / F, F the greatest of thrust, emergency stop and holding", "ISO 3408-5";
                ("F", cycle.greatest_n, "N"), ("C0a", s.static_rating.si(), "N")
            )
            .factor(ask.job.rules.screw_static_factor)
            .rule("screw_static_factor"),
        ]
    }

    fn sliding_checks(&self, s: &SlidingScrew, ask: &Ask, cycle: &Cycle) -> [Check; 4] {
        let pressure =
            |force_n| screw::nut_pressure(newtons(force_n), s.mean_diameter(), s.nut_length).si();
        let rubbed = screw::rubbing_ratio(s.mean_diameter(), s.lead());
        let mean_speed = rubbed * cycle.way_m / cycle.window_s();
        [
            check!(
                "sliding_nut.pressure", pressure(cycle.greatest_n) / 1e6 => s.pressure_most.si() / 1e6, "MPa";
                "2 F/(π dm L)", "Shigley, eq. 8-10";
                ("F", cycle.greatest_n, "N"), ("dm", s.mean_diameter().si() * 1e3, "mm"),
                ("L", s.nut_length.si() * 1e3, "mm")
            ),
            check!(
                "sliding_nut.pv", pressure(cycle.mean_n) / 1e6 * mean_speed => s.pv_most, "MPa m/s";
                "p · v over the cycle, ten minutes of it at most", "common practice, no source";
                ("p", pressure(cycle.mean_n) / 1e6, "MPa"), ("v", mean_speed, "m/s")
            ),
            check!(
                "sliding_nut.rubbing_speed", rubbed * cycle.speed_m_s => s.rubbing_speed_most.si(), "m/s";
                "v √(π² dm² + l²)/l", "the part's limit";
                ("v", cycle.speed_m_s, "m/s"), ("dm", s.mean_diameter().si() * 1e3, "mm"),
                ("l", self.lead_m() * 1e3, "mm")
            ),
            check!(
                "sliding_nut.wear", ask.life_distance_m() / 1e3 => self.nut_life_m(ask, cycle).min(1e12) / 1e3, "km";
                "c · allowed wear / (k · p · rubbed way per way), c the part of its life that dirt leaves it",
                "linear wear of plain bearings (Archard); c common practice, no source";
                ("wear", s.wear_most.si() * 1e3, "mm"), ("k", s.wear_rate, "m2/N"),
                ("p", pressure(cycle.mean_n) / 1e6, "MPa"), ("rubbed way", rubbed, ""), ("c", self.life_left(ask), "")
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
            check!(
                "sliding_screw.self_locking", self.locking_friction() => counted, "";
                "l cosα/(π dm) against the friction that may be counted on, no collar", "Shigley, eq. 8-3";
                ("l", self.lead_m() * 1e3, "mm"), ("dm", s.mean_diameter().si() * 1e3, "mm"), ("f", s.friction, ""),
                ("part", ask.job.rules.self_locking_friction, "")
            )
            .rule("self_locking_friction"),
        )
    }
}

/// The rule that a rating life rests on most.
fn life_rule(left: f64) -> &'static str {
    if left < 1.0 {
        "grit_life"
    } else {
        "reliability"
    }
}
