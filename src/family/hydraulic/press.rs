//! Keeping a force up at the end of a stroke: a press holds with the pump off, on a pressure switch and an accumulator.

use super::work::Sizing;
use crate::catalog::OilAccumulator;
use crate::family::Ask;
use crate::quantity::{Kind, Si, in_words, show};

/// Process forces at rest below this are none, N.
const NO_FORCE_N: f64 = 1.0;
/// Part of the pressure that may be lost before the switch starts the pump again (common practice, no source).
const MAY_SINK: f64 = 0.1;
/// Gas pressure over the pressure of the oil (common practice, no source).
const FILLING: f64 = 0.9;

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
        let ends = [at(ask.slide.travel.si(), rest_out), at(0.0, rest_back)];
        let pressing = ends.into_iter().filter(|end| end.force_n > NO_FORCE_N);
        pressing.max_by(|p, q| p.rest_s.total_cmp(&q.rest_s))
    }

    /// Oil that an accumulator gives while its pressure sinks by [`MAY_SINK`], over its gas volume, isothermal:
    /// `p0/p2 - p0/p1`.
    fn given_part() -> f64 {
        FILLING / (1.0 - MAY_SINK) - FILLING
    }

    /// The cheapest accumulator that lasts the rest, or the largest, which the pump then fills again in between.
    pub(super) fn accumulator<'a>(
        &self,
        ask: &Ask<'a>,
        sizing: &Sizing,
    ) -> Option<&'a OilAccumulator> {
        let asked_m3 = ask.job.rules.oil_leak * self.rest_s / Self::given_part();
        let bears = |part: &&OilAccumulator| part.pressure.si() >= sizing.set_pa;
        let all = || ask.catalog.oil_accumulators.iter().filter(bears);
        let lasting = all().filter(|part| part.volume.si() >= asked_m3);
        lasting
            .min_by(|p, q| p.common.price.total_cmp(&q.common.price))
            .or_else(|| all().max_by(|p, q| p.volume.si().total_cmp(&q.volume.si())))
    }

    /// What it does, in a sentence.
    pub(super) fn remark(&self, ask: &Ask, part: &OilAccumulator) -> String {
        let lasts_s =
            part.volume.si() * Self::given_part() / ask.job.rules.oil_leak.max(f64::MIN_POSITIVE);
        format!(
            "While {} is kept up the pump is off: at {} mL/min of leakage the accumulator loses {} % of it in {}, then the pressure switch starts the pump.",
            in_words(Kind::Force, self.force_n),
            show(ask.job.rules.oil_leak * 60e6),
            show(MAY_SINK * 100.0),
            in_words(Kind::Time, lasts_s.min(1e7))
        )
    }

    /// What must be known of the force.
    pub(super) fn cautions(&self, sizing: &Sizing) -> [String; 2] {
        [
            format!(
                "Set the pressure switch to the {} that the work is to get, and prove it with the gauge: if it fails, the relief valve lets up to {} through to the work.",
                in_words(Kind::Force, self.force_n),
                in_words(Kind::Force, sizing.set_pa * sizing.areas.bore.value)
            ),
            "The accumulator keeps oil under pressure with the power off: open its safety block before a line is opened.".into(),
        ]
    }
}
