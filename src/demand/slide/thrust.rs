//! Force of the drive on a load that goes straight.

use super::Straight;
use crate::demand::process::Curve;
use crate::demand::way::Way;
use crate::demand::{Assist, Direction};
use crate::quantity::G_M_S2;

/// The force of the drive on a load in one direction: what of it no place changes.
pub(super) struct Thrust<'a> {
    axis: &'a Straight,
    mass_kg: f64,
    sign: f64,
    curve: Curve,
    weight_across_n: f64,
    assist_kg: f64,
    assist_n: f64,
    /// Drag of the guide's seals and friction of the sheaves, along "out".
    drag_n: f64,
    binding: f64,
}

impl<'a> Thrust<'a> {
    pub fn new(axis: &'a Straight, assist: &Assist, mass_kg: f64, direction: Direction) -> Self {
        let sign = direction.sign();
        Self {
            axis,
            mass_kg,
            sign,
            curve: Curve::against(direction),
            weight_across_n: mass_kg * G_M_S2 * axis.cos,
            assist_kg: assist.moving_mass_kg(),
            assist_n: assist.pull_n(),
            drag_n: sign * (axis.drag_n + assist.friction_n()),
            binding: axis.binding_ratio(),
        }
    }

    pub fn at(&self, x_m: f64, upper: bool) -> ThrustAt<'_> {
        let axis = self.axis;
        ThrustAt {
            thrust: self,
            process_n: self.sign * axis.process.at(self.curve, x_m, upper),
            overhang_m: axis.overhang_m + if axis.overhang_grows { x_m } else { 0.0 },
        }
    }
}

/// The same at a place.
pub(super) struct ThrustAt<'a> {
    thrust: &'a Thrust<'a>,
    process_n: f64,
    overhang_m: f64,
}

impl ThrustAt<'_> {
    /// Force along "out", moving with an acceleration or about to move.
    ///
    /// `F = Q + assist + sgn·(μ·max(m g|cosθ|, 2M/b) + F_drag + sheave friction)` with
    /// `Q = m(a + g sinθ) + sgn·P` and `M = |Q|e + |F|d + m g|cosθ|c`, solved for `F`.
    pub fn force_n(&self, a_m_s2: f64) -> f64 {
        let (thrust, axis) = (self.thrust, self.thrust.axis);
        let sign = thrust.sign;
        let q = thrust.mass_kg * (a_m_s2 + G_M_S2 * axis.sin) + self.process_n;
        // Everything but guide friction; the couple of the load without the drive's.
        let free = q + thrust.assist_kg * a_m_s2 - thrust.assist_n + thrust.drag_n;
        let couple = q.abs() * axis.offset_m + thrust.weight_across_n * self.overhang_m;
        let by_weight = free + sign * axis.friction * thrust.weight_across_n;
        let by_couple = axis.friction * 2.0 * couple / axis.spacing_m;
        if by_couple + thrust.binding * by_weight.abs() <= axis.friction * thrust.weight_across_n {
            return by_weight;
        }
        // The couple governs: F = base + sgn·β|F|, with one root since β < 1.
        let base = free + sign * by_couple;
        base / (1.0 - sign * base.signum() * thrust.binding)
    }
}
