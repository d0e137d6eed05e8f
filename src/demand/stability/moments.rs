//! Weights and inertia forces about the edges of a base.

use crate::demand::Assist;
use crate::demand::slide::Straight;
use crate::quantity::{G_M_S2, Si};
use crate::requirements::Base;

/// Margin of a machine with nothing to hold it down; no infinity, so that a study can hold it.
pub(super) const WORST_MARGIN: f64 = -999.0;

/// A weight with its inertia, as seen in the plane of travel.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Body {
    pub(super) mass_kg: f64,
    pub(super) x_m: f64,
    pub(super) z_m: f64,
    pub(super) ax_m_s2: f64,
    pub(super) az_m_s2: f64,
}

/// An edge of the base.
#[derive(Debug, Clone, Copy)]
pub(super) enum Edge {
    /// Across the travel, on the side it goes out to (+1) or comes back from (−1).
    End(f64),
    /// Along the travel.
    Side,
}

impl Edge {
    pub(super) const ALL: [(&'static str, Edge); 3] = [
        ("out", Edge::End(1.0)),
        ("back", Edge::End(-1.0)),
        ("side", Edge::Side),
    ];
    /// From the middle of the base to the edge.
    pub(super) fn half_m(self, base: &Base) -> f64 {
        match self {
            Edge::End(_) => base.length.si() / 2.0,
            Edge::Side => base.width.si() / 2.0,
        }
    }
}

/// Moments about an edge: restoring and overturning, N·m.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Moments {
    pub(super) restoring: f64,
    pub(super) overturning: f64,
}

impl Moments {
    /// With those of more bodies: each weight and each level and upright inertia force is one moment.
    pub(super) fn and(mut self, edge: Edge, half_m: f64, bodies: &[Body]) -> Self {
        for body in bodies.iter().filter(|body| body.mass_kg > 0.0) {
            // Everything stands in the middle of the width; level inertia acts along the side edges.
            let (arm, level) = match edge {
                Edge::End(sign) => (half_m - sign * body.x_m, sign * body.ax_m_s2 * body.z_m),
                Edge::Side => (half_m, 0.0),
            };
            self.add(body.mass_kg * G_M_S2 * arm);
            if body.az_m_s2 != 0.0 {
                self.add(body.mass_kg * body.az_m_s2 * arm);
            }
            if level != 0.0 {
                self.add(body.mass_kg * level);
            }
        }
        self
    }
    fn add(&mut self, moment: f64) {
        if moment >= 0.0 {
            self.restoring += moment;
        } else {
            self.overturning -= moment;
        }
    }
    pub(super) fn margin(self) -> f64 {
        if self.restoring > 0.0 && self.overturning == 0.0 {
            1.0
        } else if self.restoring > 0.0 {
            ((self.restoring - self.overturning) / self.restoring).max(WORST_MARGIN)
        } else {
            WORST_MARGIN
        }
    }
    /// Mass at the middle that leaves `least` of the restoring moment: `(O/(1 - least) - R)/(g·half)`.
    pub(super) fn ballast_kg(self, half_m: f64, least: f64) -> f64 {
        ((self.overturning / (1.0 - least) - self.restoring) / (G_M_S2 * half_m)).max(0.0)
    }
}

/// What stands still.
pub(super) fn machine(base: &Base) -> Body {
    Body {
        mass_kg: base.mass.si(),
        x_m: base.centre_x.si(),
        z_m: base.centre_height.si(),
        ..Body::default()
    }
}

/// Load and counterweight at a place and acceleration of the load.
pub(super) fn movers(
    axis: &Straight,
    base: &Base,
    assist: &Assist,
    mass_kg: f64,
    x_m: f64,
    a_m_s2: f64,
) -> [Body; 2] {
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
    [load, weight]
}
