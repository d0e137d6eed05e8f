//! Whether the machine stands: moments about the edges of its base.

mod moments;
mod search;
#[cfg(test)]
mod tests;

use schemars::JsonSchema;
use serde::Serialize;

use super::slide::Straight;
use super::{Assist, Axis, Demand, Direction};
use crate::requirements::Base;
use moments::movers;
use search::{Known, Search};

/// How far the machine is from tipping, at rest, in the move and in an emergency stop.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Stability {
    /// Least part of the restoring moment left over at rest.
    pub margin_static: f64,
    /// The same in the move.
    pub margin_dynamic: f64,
    /// The same in an emergency stop.
    pub margin_emergency_stop: f64,
    /// Position of the load at the least of them.
    pub worst_position_m: f64,
    /// The edge it would tip over: `out` and `back` across the travel, `side` along it.
    pub edge: &'static str,
    /// Nearest to the back end that the combined centre of mass comes, along the base from its middle.
    pub centre_least_m: f64,
    /// Furthest out that it comes.
    pub centre_most_m: f64,
    /// Mass at the middle of the base that would bring the margin to the least allowed; 0 where it is met.
    pub ballast_kg: f64,
    /// Mass that would do at the end of the base opposite the edge, where it has twice the lever; left out where both ends need some,
    /// or where it is met.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ballast_at_end_kg: Option<f64>,
    /// Base length that would bring it there, the load's place from the middle unchanged; left out where it is met, or where no length does it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub length_needed_m: Option<f64>,
    /// Greatest level reaction over the weight on the floor, in the move or an emergency stop.
    pub sliding_ratio: f64,
}

impl Stability {
    /// The least margin.
    #[must_use]
    pub fn margin(&self) -> f64 {
        self.margin_static
            .min(self.margin_dynamic)
            .min(self.margin_emergency_stop)
    }
}

/// Stability over every instant of every case; `least` is the margin that ballast or a longer base must reach.
pub(super) fn of(
    axis: &Axis,
    straight: &Straight,
    base: &Base,
    assist: &Assist,
    demand: &Demand,
    least: f64,
) -> Stability {
    let mut search = Search::new(base, least);
    let [mut at_rest, mut moving, mut stopping] = [f64::INFINITY; 3];
    for case in &demand.cases {
        let mut known = [Known::default(); 3];
        let [standing, going, braking] = &mut known;
        for sample in &case.profile {
            let mut margin = |a_m_s2: f64, known: &mut Known| {
                let movers = movers(straight, base, assist, case.load_kg, sample.x_m, a_m_s2);
                known.margin(&mut search, &movers, sample.x_m)
            };
            // At rest it is the same whichever way it goes next.
            let still = (case.direction == Direction::Out).then(|| margin(0.0, standing));
            at_rest = at_rest.min(still.unwrap_or(at_rest));
            let stop = axis.stop_deceleration(sample.v_m_s.abs());
            // At constant speed it is as at rest.
            moving = moving.min(match still {
                Some(still) if sample.a_m_s2 == 0.0 => still,
                _ => margin(sample.a_m_s2, going),
            });
            stopping = stopping.min(margin(-case.direction.sign() * stop, braking));
        }
    }
    Stability {
        margin_static: at_rest,
        margin_dynamic: moving,
        margin_emergency_stop: stopping,
        length_needed_m: search.length_needed(),
        ballast_at_end_kg: search.ballast_at_end_kg(),
        ..search.found
    }
}
