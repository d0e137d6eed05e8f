//! Whether the machine stands: moments about the edges of its base.

mod moments;
mod search;
#[cfg(test)]
#[path = "../../../tests/unit/demand/stability.rs"]
mod tests;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Assist, Axis, Demand, Direction};
use crate::requirements::Base;
pub use moments::{Body, Edge};
use search::{Latest, Tipping};

/// Name of an edge of a base.
pub type EdgeName = &'static str;

/// How far the machine is from tipping, at rest, in the move and in an emergency stop.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Stability {
    /// Least part of the restoring moment left over at rest.
    pub margin_static: f64,
    /// The same in the move.
    pub margin_dynamic: f64,
    /// The same in an emergency stop.
    pub margin_emergency_stop: f64,
    /// Position of the load at the least of them; of the drive, where a hinge turns the load.
    pub worst_position_m: f64,
    /// Arm angle of a hinge then.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub worst_angle_rad: Option<f64>,
    /// The edge it would tip over: `out` and `back` across the travel, `side` along it; about an upright hinge `left` and `right` as one
    /// looks out.
    #[serde(deserialize_with = "moments::edge_name")]
    pub edge: EdgeName,
    /// Nearest to the back end that the combined centre of mass comes, along the base from its middle.
    pub centre_least_m: f64,
    /// Furthest out that it comes.
    pub centre_most_m: f64,
    /// How far it comes across the base, to the right (below 0) and to the left; only where a load swings about an upright axis.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub centre_aside_m: Option<[f64; 2]>,
    /// Mass at the middle of the base that would bring the margin to the least allowed; 0 where it is met.
    pub ballast_kg: f64,
    /// Mass that would do at the end of the base opposite the edge, where it has twice the lever; left out where both ends need some,
    /// or where it is met.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ballast_at_end_kg: Option<f64>,
    /// Base length that would bring it there, the load's place from the middle unchanged; left out where it is met, or where no length does it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub length_needed_m: Option<f64>,
    /// Base width that would, beside that length where both are named.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub width_needed_m: Option<f64>,
    /// How it is computed.
    #[serde(skip)]
    pub formula: &'static str,
    /// Greatest level reaction over the weight on the floor, in the move or an emergency stop.
    pub sliding_ratio: f64,
}

impl Stability {
    /// The least margin.
    pub fn margin(&self) -> f64 {
        self.margin_static
            .min(self.margin_dynamic)
            .min(self.margin_emergency_stop)
    }
}

impl Axis {
    /// Stability over every instant of every case; `least` is the margin that ballast or a larger base must reach.
    pub(super) fn stability(
        &self,
        base: &Base,
        assist: &Assist,
        demand: &Demand,
        least: f64,
    ) -> Stability {
        let mut search = Tipping::new(base, self.edges(), least);
        let [mut at_rest, mut moving, mut stopping] = [f64::INFINITY; 3];
        for case in &demand.cases {
            let mut latest = [Latest::default(); 3];
            let [standing, going, braking] = &mut latest;
            for (index, sample) in case.profile.iter().enumerate() {
                let angle_rad = case.swing.get(index).map(|turn| turn.angle_rad);
                let mut margin = |phase: Phase, latest: &mut Latest| {
                    let bodies = self.bodies(base, assist, case, index, phase);
                    latest.margin(&mut search, &bodies, (sample.x_m, angle_rad))
                };
                // At rest it is the same whichever way it goes next.
                let still =
                    (case.direction == Direction::Out).then(|| margin(Phase::Still, standing));
                at_rest = at_rest.min(still.unwrap_or(at_rest));
                moving = moving.min(match still {
                    Some(still) if sample.a_m_s2 == 0.0 && self.rests_at_speed() => still,
                    _ => margin(Phase::Moving, going),
                });
                let stop_m_s2 = self.stop_deceleration(sample.v_m_s.abs());
                stopping = stopping.min(margin(Phase::Stopping(stop_m_s2), braking));
            }
        }
        let [length_needed_m, width_needed_m] = search.size_needed();
        Stability {
            formula: self.stability_formula(),
            margin_static: at_rest,
            margin_dynamic: moving,
            margin_emergency_stop: stopping,
            length_needed_m,
            width_needed_m,
            ballast_at_end_kg: search.ballast_at_end_kg(),
            ..search.found
        }
    }
}

/// What an instant is looked at for.
#[derive(Debug, Clone, Copy)]
pub enum Phase {
    /// The load at rest there.
    Still,
    /// In its move.
    Moving,
    /// In an emergency stop of the drive from the speed of the instant, with a deceleration in m/s².
    Stopping(f64),
}
