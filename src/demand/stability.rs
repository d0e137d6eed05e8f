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
    /// The edge it would tip over: `out` and `back` across the travel, `side` along it.
    pub edge: &'static str,
    /// Nearest to the back end that the combined centre of mass comes, along the base from its middle.
    pub centre_least_m: f64,
    /// Furthest out that it comes.
    pub centre_most_m: f64,
    /// Mass at the middle of the base that would bring the margin to the least allowed; 0 where it is met.
    pub ballast_kg: f64,
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

/// Margin of a machine with nothing to hold it down; no infinity, so that a study can hold it.
const WORST_MARGIN: f64 = -999.0;
/// Past so many base lengths no longer base is looked for.
const LENGTHS_TRIED: f64 = 64.0;
/// A base length is found to this part of it.
const LENGTH_PRECISION: f64 = 1e-6;

/// A weight with its inertia, as seen in the plane of travel.
#[derive(Debug, Clone, Copy, Default)]
struct Body {
    mass_kg: f64,
    x_m: f64,
    z_m: f64,
    ax_m_s2: f64,
    az_m_s2: f64,
}

/// An edge of the base.
#[derive(Debug, Clone, Copy)]
enum Edge {
    /// Across the travel, on the side it goes out to (+1) or comes back from (−1).
    End(f64),
    /// Along the travel.
    Side,
}

impl Edge {
    const ALL: [(&'static str, Edge); 3] = [
        ("out", Edge::End(1.0)),
        ("back", Edge::End(-1.0)),
        ("side", Edge::Side),
    ];
    /// From the middle of the base to the edge.
    fn half_m(self, base: &Base) -> f64 {
        match self {
            Edge::End(_) => base.length.si() / 2.0,
            Edge::Side => base.width.si() / 2.0,
        }
    }
}

/// Moments about an edge: restoring and overturning, N·m.
#[derive(Debug, Clone, Copy, Default)]
struct Moments {
    restoring: f64,
    overturning: f64,
}

impl Moments {
    /// Of all bodies: each weight and each level and upright inertia force is one moment.
    fn about(edge: Edge, half_m: f64, bodies: &[Body]) -> Self {
        let mut sum = Self::default();
        for body in bodies {
            // Everything stands in the middle of the width; level inertia acts along the side edges.
            let (arm, level) = match edge {
                Edge::End(sign) => (half_m - sign * body.x_m, sign * body.ax_m_s2 * body.z_m),
                Edge::Side => (half_m, 0.0),
            };
            sum.add(body.mass_kg * G_M_S2 * arm);
            sum.add(body.mass_kg * body.az_m_s2 * arm);
            sum.add(body.mass_kg * level);
        }
        sum
    }
    fn add(&mut self, moment: f64) {
        if moment >= 0.0 {
            self.restoring += moment;
        } else {
            self.overturning -= moment;
        }
    }
    fn margin(self) -> f64 {
        if self.restoring > 0.0 {
            ((self.restoring - self.overturning) / self.restoring).max(WORST_MARGIN)
        } else {
            WORST_MARGIN
        }
    }
    /// Mass at the middle that leaves `least` of the restoring moment: `(O/(1 - least) - R)/(g·half)`.
    fn ballast_kg(self, half_m: f64, least: f64) -> f64 {
        ((self.overturning / (1.0 - least) - self.restoring) / (G_M_S2 * half_m)).max(0.0)
    }
}

/// Machine, load and counterweight at a place and acceleration of the load.
fn bodies(
    axis: &Axis,
    base: &Base,
    assist: &Assist,
    mass_kg: f64,
    x_m: f64,
    a_m_s2: f64,
) -> [Body; 3] {
    let machine = Body {
        mass_kg: base.mass.si(),
        x_m: base.centre_x.si(),
        z_m: base.centre_height.si(),
        ..Body::default()
    };
    let load = Body {
        mass_kg,
        x_m: base.load_reach.si() + x_m * axis.cos,
        z_m: base.load_height.si() + x_m * axis.sin,
        ax_m_s2: a_m_s2 * axis.cos,
        az_m_s2: a_m_s2 * axis.sin,
    };
    // A counterweight hangs: it goes straight down as the load goes out, so its height does not matter.
    let weight = assist
        .counterweight()
        .map_or(Body::default(), |weight| Body {
            mass_kg: weight.mass_kg,
            x_m: base.assist_reach.si(),
            az_m_s2: -weight.travel_ratio * a_m_s2,
            ..Body::default()
        });
    [machine, load, weight]
}

/// Stability over every instant of every case; `least` is the margin that ballast or a longer base must reach.
pub(super) fn of(
    axis: &Axis,
    base: &Base,
    assist: &Assist,
    demand: &Demand,
    least: f64,
) -> Stability {
    let mut search = Search::new(base, least);
    let [mut at_rest, mut moving, mut stopping] = [f64::INFINITY; 3];
    for case in &demand.cases {
        for sample in &case.profile {
            let mut margin = |a_m_s2: f64| {
                let bodies = bodies(axis, base, assist, case.load_kg, sample.x_m, a_m_s2);
                search.margin(&bodies, sample.x_m)
            };
            let stop = axis.stop_deceleration(sample.v_m_s.abs());
            at_rest = at_rest.min(margin(0.0));
            moving = moving.min(margin(sample.a_m_s2));
            stopping = stopping.min(margin(-case.direction.sign() * stop));
        }
    }
    Stability {
        margin_static: at_rest,
        margin_dynamic: moving,
        margin_emergency_stop: stopping,
        length_needed_m: search.length_needed(),
        ..search.found
    }
}

/// The worst found so far, and what would mend it.
struct Search<'a> {
    base: &'a Base,
    least: f64,
    worst: f64,
    found: Stability,
    /// Half the base length that every instant so far is content with; none where no length is.
    half_m: Option<f64>,
}

impl<'a> Search<'a> {
    fn new(base: &'a Base, least: f64) -> Self {
        let found = Stability {
            margin_static: f64::INFINITY,
            margin_dynamic: f64::INFINITY,
            margin_emergency_stop: f64::INFINITY,
            worst_position_m: 0.0,
            edge: "",
            centre_least_m: f64::INFINITY,
            centre_most_m: f64::NEG_INFINITY,
            ballast_kg: 0.0,
            length_needed_m: None,
            sliding_ratio: 0.0,
        };
        Self {
            base,
            least,
            worst: f64::INFINITY,
            found,
            half_m: Some(base.length.si() / 2.0),
        }
    }

    /// The least margin of an instant over the edges, remembering what it shows.
    fn margin(&mut self, bodies: &[Body], position_m: f64) -> f64 {
        self.take_centre(bodies);
        let mut least = f64::INFINITY;
        for (name, edge) in Edge::ALL {
            let half_m = edge.half_m(self.base);
            let moments = Moments::about(edge, half_m, bodies);
            let margin = moments.margin();
            least = least.min(margin);
            if margin < self.worst - super::slide::TIE {
                self.worst = margin;
                self.found.worst_position_m = position_m;
                self.found.edge = name;
            }
            if margin < self.least {
                let ballast = moments.ballast_kg(half_m, self.least);
                self.found.ballast_kg = self.found.ballast_kg.max(ballast);
                self.lengthen(edge, bodies);
            }
        }
        least
    }

    /// Lengthens the base until this instant is content, too.
    fn lengthen(&mut self, edge: Edge, bodies: &[Body]) {
        let content = |half_m: f64| Moments::about(edge, half_m, bodies).margin() >= self.least;
        let Some(mut low) = self.half_m else {
            return;
        };
        if content(low) {
            return;
        }
        let mut high = low;
        while !content(high) {
            high *= 2.0;
            if high > LENGTHS_TRIED * self.base.length.si() {
                self.half_m = None;
                return;
            }
        }
        while high - low > LENGTH_PRECISION * high {
            let middle = f64::midpoint(low, high);
            if content(middle) {
                high = middle;
            } else {
                low = middle;
            }
        }
        self.half_m = Some(high);
    }

    /// The base length that mends the margin, where one is needed and does.
    fn length_needed(&self) -> Option<f64> {
        self.half_m
            .map(|half_m| 2.0 * half_m)
            .filter(|length| *length > self.base.length.si())
    }

    fn take_centre(&mut self, bodies: &[Body]) {
        let sum = |of: fn(&Body) -> f64| bodies.iter().map(of).sum::<f64>();
        let centre = sum(|body| body.mass_kg * body.x_m) / sum(|body| body.mass_kg);
        self.found.centre_least_m = self.found.centre_least_m.min(centre);
        self.found.centre_most_m = self.found.centre_most_m.max(centre);
        let level = sum(|body| body.mass_kg * body.ax_m_s2);
        let down = sum(|body| body.mass_kg * (G_M_S2 + body.az_m_s2));
        if down > 0.0 {
            self.found.sliding_ratio = self.found.sliding_ratio.max(level.abs() / down);
        }
    }
}
