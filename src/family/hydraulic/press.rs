//! Keeping a force up at the end of a stroke: a press holds with the pump off, on a pressure switch and an accumulator.

use super::work::Sizing;
use crate::catalog::OilAccumulator;
use crate::family::choose::Shelf;
use crate::family::hazard::{ACCUMULATOR, PRESSURE_SWITCH};
use crate::family::{Ask, Caution, Check, Figure, NO_FORCE_N, check};
use crate::mechanics::hydraulics;
use crate::quantity::{Kind, Si, cubic_metres, in_words, show};

/// Millilitres a minute in a cubic metre a second.
const ML_PER_MIN: f64 = 60e6;
/// A time past this is said as this, s.
const LONGEST_SAID_S: f64 = 1e6;

/// Whether an accumulator of a rating withstands the set pressure.
pub(super) fn withstanding(sizing: &Sizing, rating_pa: f64) -> Check {
    let set_bar = sizing.set_pa / 1e5;
    check!(
        "oil_accumulator.pressure", set_bar => rating_pa / 1e5, "bar";
        "set pressure <= rating", "catalog";
        ("p", set_bar, "bar"),
    )
}

/// A force that the process asks for at rest.
#[derive(Debug, Clone, Copy)]
pub(super) struct Press {
    /// The force, N.
    force_n: f64,
    /// How long it is kept up in a cycle, s.
    rest_s: f64,
}

impl Press {
    /// The force kept up at one of the ends, the longer rest of both; none where the process asks for none.
    pub(super) fn of(ask: &Ask, travel_time_s: f64) -> Option<Self> {
        let timing = &ask.job.timing;
        let rest_out = timing.rest_out.si();
        let rest_back = (timing.cycle_s() - 2.0 * travel_time_s - rest_out).max(0.0);
        let at = |x_m: f64, rest_s: f64| Self {
            force_n: ask.book.axis().process_hold_n(x_m),
            rest_s,
        };
        let ends = [at(ask.travel_m(), rest_out), at(0.0, rest_back)];
        let pressing = ends.into_iter().filter(|end| end.force_n > NO_FORCE_N);
        pressing.max_by(|p, q| p.rest_s.total_cmp(&q.rest_s))
    }

    /// The accumulators worth having that last the rest, or the largest, which the pump then fills again in between.
    ///
    /// # Errors
    /// The check that none withstands the pressure.
    pub(super) fn accumulators<'a>(
        &self,
        ask: &Ask<'a>,
        sizing: &Sizing,
    ) -> Result<Vec<&'a OilAccumulator>, Check> {
        let rules = &ask.job.rules;
        let leaked = cubic_metres(rules.oil_leak * self.rest_s);
        let needed = hydraulics::accumulator_volume(
            leaked,
            rules.accumulator_filling,
            rules.accumulator_sink,
        );
        let all = &ask.catalog.oil_accumulators;
        let accumulators = Shelf::new(ask, all, |part| &part.common);
        let withstands = |part: &OilAccumulator| part.pressure.si() >= sizing.set_pa;
        let lasting = accumulators.choices(|part| withstands(part) && part.volume >= needed);
        if !lasting.is_empty() {
            return Ok(lasting);
        }
        let strong = accumulators.iter().filter(|part| withstands(part));
        let largest = strong.max_by(|p, q| p.volume.si().total_cmp(&q.volume.si()));
        largest.map(|part| vec![part]).ok_or_else(|| {
            let ratings = all.iter().map(|part| part.pressure.si());
            withstanding(sizing, ratings.fold(0.0, f64::max))
        })
    }

    /// What it does, in a sentence.
    pub(super) fn remark(&self, ask: &Ask, part: &OilAccumulator) -> String {
        let rules = &ask.job.rules;
        let one = hydraulics::accumulator_volume(
            cubic_metres(1.0),
            rules.accumulator_filling,
            rules.accumulator_sink,
        );
        let lasts_s = part.volume.si() / one.si() / rules.oil_leak.max(f64::MIN_POSITIVE);
        let then = if lasts_s >= self.rest_s {
            "longer than it is asked to"
        } else {
            "and the pressure switch starts the pump again in between"
        };
        format!(
            "While {} is kept up the pump is off: at {} mL/min of leakage the accumulator loses {} % of it in {}, {then}.",
            in_words(Kind::Force, self.force_n),
            show(rules.oil_leak * ML_PER_MIN),
            show(rules.accumulator_sink * 100.0),
            in_words(Kind::Time, lasts_s.min(LONGEST_SAID_S)),
        )
    }

    /// What must be known of the force.
    pub(super) fn cautions(&self, sizing: &Sizing) -> [Caution; 2] {
        [
            PRESSURE_SWITCH.with([
                Figure::force(self.force_n),
                Figure::force(sizing.pushes_n()),
            ]),
            ACCUMULATOR.with([]),
        ]
    }
}
