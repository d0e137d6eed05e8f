//! Whether the machine stands: moments about the edges of its base.

use serde::Serialize;

use super::{Assist, Axis, Demand};
use crate::quantity::{G_M_S2, Si};
use crate::requirements::Base;

/// How far the machine is from tipping, at rest, in the move and in an emergency stop.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Stability {
    /// Least part of the restoring moment left over at rest.
    pub margin_static: f64,
    /// The same in the move.
    pub margin_dynamic: f64,
    /// The same in an emergency stop.
    pub margin_emergency_stop: f64,
    /// Position of the load at the least of them.
    pub worst_position_m: f64,
    /// The edge it would tip over.
    pub edge: &'static str,
    /// Nearest to the back end that the combined centre of mass comes, along the base from its middle.
    pub centre_least_m: f64,
    /// Furthest out that it comes.
    pub centre_most_m: f64,
    /// Mass at the middle of the base that would bring the margin to the least allowed; 0 where it is met.
    pub ballast_kg: f64,
    /// Base length that would bring it there, the load's place unchanged; 0 where it is met.
    pub length_needed_m: f64,
    /// Greatest horizontal reaction over the weight on the floor, in the move or an emergency stop.
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

/// A weight with its inertia, as seen in the plane of travel.
#[derive(Debug, Clone, Copy)]
struct Body {
    mass_kg: f64,
    x_m: f64,
    z_m: f64,
    ax_m_s2: f64,
    az_m_s2: f64,
}

/// Moments about an edge: restoring and overturning, N·m.
#[derive(Debug, Clone, Copy, Default)]
struct Moments {
    restoring: f64,
    overturning: f64,
}

impl Moments {
    fn add(&mut self, moment: f64) {
        if moment >= 0.0 {
            self.restoring += moment
        } else {
            self.overturning -= moment
        }
    }
    fn margin(self) -> f64 {
        if self.restoring > 0.0 {
            (self.restoring - self.overturning) / self.restoring
        } else {
            Check::WORST_MARGIN
        }
    }
}

/// Names the margin of a machine with nothing to hold it down.
struct Check;
impl Check {
    const WORST_MARGIN: f64 = -999.0;
}

/// The edges: name, and which half of the base lies between the middle and it.
const EDGES: [(&str, f64); 3] = [("out", 1.0), ("back", -1.0), ("side", 0.0)];

/// Moments of all bodies about an edge.
fn moments(bodies: &[Body], half_m: f64, sign: f64) -> Moments {
    let mut sum = Moments::default();
    for body in bodies {
        // About a side edge every arm is the half width; level inertia acts along that edge.
        let arm = if sign == 0.0 {
            half_m
        } else {
            half_m - sign * body.x_m
        };
        sum.add(body.mass_kg * G_M_S2 * arm);
        sum.add(body.mass_kg * body.az_m_s2 * arm);
        sum.add(sign * body.mass_kg * body.ax_m_s2 * body.z_m);
    }
    sum
}

/// The bodies at a place and acceleration of the load.
fn bodies(
    axis: &Axis,
    base: &Base,
    assist: &Assist,
    mass_kg: f64,
    x_m: f64,
    a_m_s2: f64,
) -> Vec<Body> {
    let still = |mass_kg, x_m, z_m| Body {
        mass_kg,
        x_m,
        z_m,
        ax_m_s2: 0.0,
        az_m_s2: 0.0,
    };
    let mut list = vec![
        still(base.mass.si(), base.centre_x.si(), base.centre_height.si()),
        Body {
            mass_kg,
            x_m: base.load_reach.si() + x_m * axis.cos,
            z_m: base.load_height.si() + x_m * axis.sin,
            ax_m_s2: a_m_s2 * axis.cos,
            az_m_s2: a_m_s2 * axis.sin,
        },
    ];
    if let Some(weight) = assist.counterweight() {
        // It hangs, so it goes down as the load goes out.
        list.push(Body {
            az_m_s2: -weight.travel_ratio * a_m_s2,
            ..still(weight.mass_kg, base.assist_reach.si(), 0.0)
        });
    }
    list
}

/// Stability over every instant of every case.
pub(super) fn of(
    axis: &Axis,
    base: &Base,
    assist: &Assist,
    demand: &Demand,
    least: f64,
) -> Stability {
    let mut found = Stability {
        margin_static: f64::INFINITY,
        margin_dynamic: f64::INFINITY,
        margin_emergency_stop: f64::INFINITY,
        worst_position_m: 0.0,
        edge: "",
        centre_least_m: f64::INFINITY,
        centre_most_m: f64::NEG_INFINITY,
        ballast_kg: 0.0,
        length_needed_m: 0.0,
        sliding_ratio: 0.0,
    };
    let mut worst = f64::INFINITY;
    for case in &demand.cases {
        for sample in &case.profile {
            let stop = -case.direction.sign() * axis.stop_deceleration(sample.v_m_s.abs());
            for (state, a) in [0.0, sample.a_m_s2, stop].into_iter().enumerate() {
                let bodies = bodies(axis, base, assist, case.load_kg, sample.x_m, a);
                found.take_centre(&bodies);
                for (edge, sign) in EDGES {
                    let half_m = if sign == 0.0 {
                        base.width.si()
                    } else {
                        base.length.si()
                    } / 2.0;
                    let sum = moments(&bodies, half_m, sign);
                    let margin = sum.margin();
                    let slot = [
                        &mut found.margin_static,
                        &mut found.margin_dynamic,
                        &mut found.margin_emergency_stop,
                    ];
                    let [s, d, e] = slot;
                    let slot = [s, d, e].into_iter().nth(state);
                    if let Some(slot) = slot {
                        *slot = slot.min(margin);
                    }
                    if margin < worst - super::slide::TIE {
                        worst = margin;
                        found.worst_position_m = sample.x_m;
                        found.edge = edge;
                    }
                }
            }
        }
    }
    let _ = least;
    found
}

impl Stability {
    fn take_centre(&mut self, bodies: &[Body]) {
        let mass: f64 = bodies.iter().map(|body| body.mass_kg).sum();
        let centre = bodies
            .iter()
            .map(|body| body.mass_kg * body.x_m)
            .sum::<f64>()
            / mass;
        self.centre_least_m = self.centre_least_m.min(centre);
        self.centre_most_m = self.centre_most_m.max(centre);
        let level: f64 = bodies.iter().map(|body| body.mass_kg * body.ax_m_s2).sum();
        let down: f64 = bodies
            .iter()
            .map(|body| body.mass_kg * (G_M_S2 + body.az_m_s2))
            .sum();
        if down > 0.0 {
            self.sliding_ratio = self.sliding_ratio.max(level.abs() / down);
        }
    }
}
