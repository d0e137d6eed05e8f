//! Whether the machine stands: moments about the edges of its base.

mod moments;
mod search;
#[cfg(test)]
mod tests;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::axis::Path;
use super::figures::Case;
use super::{Assist, Axis, Demand, Direction};
use crate::requirements::Base;
use moments::{Body, Edge};
use search::{Known, Search};

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

/// Stability over every instant of every case; `least` is the margin that ballast or a larger base must reach.
pub(super) fn of(
    axis: &Axis,
    base: &Base,
    assist: &Assist,
    demand: &Demand,
    least: f64,
) -> Stability {
    let edges = match &axis.path {
        Path::Swing(swing) if !swing.is_level() => Edge::AROUND,
        _ => Edge::IN_PLANE,
    };
    let mut search = Search::new(base, edges, least);
    let [mut at_rest, mut moving, mut stopping] = [f64::INFINITY; 3];
    for case in &demand.cases {
        let mut known = [Known::default(); 3];
        let [standing, going, braking] = &mut known;
        for (index, sample) in case.profile.iter().enumerate() {
            let mut margin = |motion: Motion, known: &mut Known| {
                let place = place(axis, base, assist, case, index, motion);
                known.margin(&mut search, &place, sample.x_m)
            };
            // At rest it is the same whichever way it goes next.
            let still = (case.direction == Direction::Out).then(|| margin(Motion::Still, standing));
            at_rest = at_rest.min(still.unwrap_or(at_rest));
            // Along a straight way, at constant speed it is as at rest; on a hinge the load is drawn inward.
            moving = moving.min(match still {
                Some(still) if sample.a_m_s2 == 0.0 && case.swing.is_empty() => still,
                _ => margin(Motion::Going, going),
            });
            stopping = stopping.min(margin(Motion::Stopping, braking));
        }
    }
    let [length_needed_m, width_needed_m] = search.size_needed();
    Stability {
        margin_static: at_rest,
        margin_dynamic: moving,
        margin_emergency_stop: stopping,
        length_needed_m,
        width_needed_m,
        ballast_at_end_kg: search.ballast_at_end_kg(),
        ..search.found
    }
}

/// What an instant is looked at for.
#[derive(Debug, Clone, Copy)]
enum Motion {
    Still,
    Going,
    Stopping,
}

/// Bodies at an instant of a stroke, and the arm's angle on a hinge; stopped, they have the speed of the instant.
fn place(
    axis: &Axis,
    base: &Base,
    assist: &Assist,
    case: &Case,
    index: usize,
    motion: Motion,
) -> Place {
    let sample = case.profile[index];
    let sign = case.direction.sign();
    let stop_m_s2 = match motion {
        Motion::Stopping => axis.stop_deceleration(sample.v_m_s.abs()),
        Motion::Still | Motion::Going => 0.0,
    };
    match &axis.path {
        Path::Straight(straight) => {
            let a_m_s2 = match motion {
                Motion::Still => 0.0,
                Motion::Going => sample.a_m_s2,
                Motion::Stopping => -sign * stop_m_s2,
            };
            Place {
                bodies: moments::slid(straight, base, assist, case.load_kg, sample.x_m, a_m_s2),
                angle_rad: None,
            }
        }
        Path::Swing(swing) => {
            let turn = case.swing[index];
            let (speed, acceleration) = match motion {
                Motion::Still => (0.0, 0.0),
                Motion::Going => (turn.speed_rad_s, turn.acceleration_rad_s2),
                Motion::Stopping => {
                    let stop = swing.stop_rad_s2(turn.angle_rad, stop_m_s2);
                    (turn.speed_rad_s, -sign * stop)
                }
            };
            let motion = (turn.angle_rad, speed, acceleration);
            Place {
                bodies: moments::swung(swing, base, assist, case.load_kg, motion),
                angle_rad: Some(turn.angle_rad),
            }
        }
    }
}

/// The moving bodies, and the arm's angle on a hinge.
#[derive(Debug, Clone, Copy)]
struct Place {
    bodies: [Body; 2],
    angle_rad: Option<f64>,
}
