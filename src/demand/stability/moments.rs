//! Weights and inertia forces about the edges of a base.

use super::EdgeName;
use crate::quantity::{G_M_S2, Si};
use crate::requirements::Base;
use serde::{Deserialize, Deserializer};

/// Margin of a machine with nothing to hold it down; no infinity, so that a study can hold it.
pub(super) const WORST_MARGIN: f64 = -999.0;

/// A weight with its inertia: x out along the base, y across it to the left of who looks out, z up.
#[derive(Debug, Clone, Copy, Default)]
pub struct Body {
    pub mass_kg: f64,
    pub x_m: f64,
    pub y_m: f64,
    pub z_m: f64,
    pub ax_m_s2: f64,
    pub ay_m_s2: f64,
    pub az_m_s2: f64,
    /// `Ic φ̈` of a body that turns in the plane of x and z, from x towards z: what it takes, the base feels the other way.
    pub couple_n_m: f64,
}

/// An edge of the base.
#[derive(Debug, Clone, Copy)]
pub enum Edge {
    /// Across the travel, on the side it goes out to (+1) or comes back from (−1).
    End(f64),
    /// Along the travel, to the left of who looks out (+1) or to the right (−1).
    Side(f64),
}

impl Edge {
    /// Of a machine whose masses all stay in the middle of its width: both sides are alike.
    pub(in crate::demand) const IN_PLANE: &'static [(&'static str, Edge)] = &[
        ("out", Edge::End(1.0)),
        ("back", Edge::End(-1.0)),
        ("side", Edge::Side(1.0)),
    ];
    /// Of an arm that swings about an upright axis, over all four.
    pub(in crate::demand) const AROUND: &'static [(&'static str, Edge)] = &[
        ("out", Edge::End(1.0)),
        ("back", Edge::End(-1.0)),
        ("left", Edge::Side(1.0)),
        ("right", Edge::Side(-1.0)),
    ];
    /// From the middle of the base to the edge.
    pub(super) fn half_m(self, base: &Base) -> f64 {
        match self {
            Edge::End(_) => base.length.si() / 2.0,
            Edge::Side(_) => base.width.si() / 2.0,
        }
    }
}

/// The name of an edge that a file has.
pub(super) fn edge_name<'d, D: Deserializer<'d>>(file: D) -> Result<EdgeName, D::Error> {
    let name = String::deserialize(file)?;
    let mut known = Edge::IN_PLANE.iter().chain(Edge::AROUND);
    let found = known.find(|(edge, _)| *edge == name);
    found
        .map(|(edge, _)| *edge)
        .ok_or_else(|| serde::de::Error::custom(format!("{name:?} is no edge of a base")))
}

/// Moments about an edge: restoring and overturning, N·m.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Moments {
    pub(super) restoring: f64,
    pub(super) overturning: f64,
}

impl Moments {
    /// With those of more bodies: each weight, each level and upright inertia force and each couple is one moment.
    pub(super) fn and(mut self, edge: Edge, half_m: f64, bodies: &[Body]) -> Self {
        for body in bodies.iter().filter(|body| body.mass_kg > 0.0) {
            // Level inertia along an edge does not tip over it, nor does a couple in its own plane.
            let (arm, level, couple) = match edge {
                Edge::End(sign) => (
                    half_m - sign * body.x_m,
                    sign * body.ax_m_s2 * body.z_m,
                    -sign * body.couple_n_m,
                ),
                Edge::Side(sign) => (
                    half_m - sign * body.y_m,
                    sign * body.ay_m_s2 * body.z_m,
                    0.0,
                ),
            };
            self.add(body.mass_kg * G_M_S2 * arm);
            if body.az_m_s2 != 0.0 {
                self.add(body.mass_kg * body.az_m_s2 * arm);
            }
            if level != 0.0 {
                self.add(body.mass_kg * level);
            }
            if couple != 0.0 {
                self.add(couple);
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
