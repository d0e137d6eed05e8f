//! Running for a part of the time, and running out: what motors share with ready-made cylinders.

use super::comparison::Headroom;
use super::cycle::Cycle;
use crate::family::{Ask, Check, check};
use crate::quantity::{Si, Time};

/// For how long a part runs at its rating, as the catalog states it.
#[derive(Debug, Clone, Copy)]
pub(in crate::family) struct DutyRating {
    /// Cyclic duration factor (IEC 60034-1, S3).
    pub factor: f64,
    /// Single run from cold (S2).
    pub short_time: Time,
    /// Rest after which it counts as cold.
    pub cooling: Time,
}

impl DutyRating {
    /// Whether it cools down in every cycle.
    fn is_cold_again(&self, cycle: &Cycle) -> bool {
        cycle.rest_s() >= self.cooling.si()
    }

    /// Heat of its run: S3 over ten minutes at most, or S2 where it runs once and cools.
    ///
    /// `ED (T/T rated)²`: the same heat as the rated load for a shorter time.
    pub(in crate::family) fn comparison(&self, cycle: &Cycle, load_factor: f64) -> Headroom {
        let heat = load_factor * load_factor;
        if self.is_cold_again(cycle) {
            Headroom::new(cycle.run_s * heat, self.short_time.si())
        } else {
            Headroom::new(cycle.run_s / cycle.window_s() * heat, self.factor)
        }
    }

    pub(in crate::family) fn check(
        &self,
        id: &'static str,
        cycle: &Cycle,
        load_factor: f64,
    ) -> Check {
        let compared = self.comparison(cycle, load_factor);
        if self.is_cold_again(cycle) {
            check!(
                id, compared, "s";
                "run × (T/T rated)² against the single run from cold", "IEC 60034-1, duty type S2";
                ("run", cycle.run_s, "s"), ("T/T rated", load_factor, ""),
            )
        } else {
            check!(
                id, compared, "";
                "run / cycle (ten minutes at most) × (T/T rated)² against the cyclic duration factor",
                "IEC 60034-1, duty type S3";
                ("run", cycle.run_s, "s"), ("cycle", cycle.window_s(), "s"), ("T/T rated", load_factor, ""),
            )
        }
    }
}

/// Running time over the years asked against what brushes or gears last.
pub(in crate::family) fn running_hours(ask: &Ask, run_s: f64, lasts: Time) -> Headroom {
    let hours = |seconds: f64| seconds / 3600.0;
    Headroom::new(hours(run_s * ask.life_cycles()), hours(lasts.si()))
}

pub(in crate::family) fn running_life(
    id: &'static str,
    ask: &Ask,
    run_s: f64,
    lasts: Time,
) -> Check {
    check!(
        id, running_hours(ask, run_s, lasts), "h";
        "2 T · cycles over the years asked", "the part's rating";
        ("run in a cycle", run_s, "s"), ("cycles", ask.life_cycles(), ""),
    )
}
