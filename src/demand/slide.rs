//! The demand of a straight axis.

use super::Assist;
use super::figures::{Direction, Sample, Stroke};
use super::instants::{self, Instant};
use super::process::{Curve, Process};
use crate::quantity::{G_M_S2, Si};
use crate::requirements::Slide;

/// A straight way of the load, which is also that of its drive.
#[derive(Debug, Clone)]
pub(super) struct Straight {
    /// Travel, m.
    travel_m: f64,
    /// Sine of the incline.
    pub sin: f64,
    /// Cosine of the incline, never negative.
    pub cos: f64,
    pub offset_m: f64,
    pub drive_offset_m: f64,
    pub overhang_m: f64,
    pub overhang_grows: bool,
    drag_n: f64,
    friction: f64,
    pub spacing_m: f64,
    pub process: Process,
    /// Whether rails must be bought for it.
    pub rails_wanted: bool,
    /// Instants of a stroke out and of one back.
    instants: [Vec<Instant>; 2],
}

impl Straight {
    /// From the requirements.
    pub(super) fn new(slide: &Slide) -> Self {
        let incline = slide.incline.si();
        // A vertical axis has no weight across it: what is left of cos(90°) is rounding.
        let cos = libm::cos(incline);
        let process = Process::new(&slide.process);
        let stroke = |direction| instants::of(slide.law, &process, slide.travel.si(), direction);
        Self {
            instants: [stroke(Direction::Out), stroke(Direction::Back)],
            travel_m: slide.travel.si(),
            sin: libm::sin(incline),
            cos: if cos < 1e-12 { 0.0 } else { cos },
            offset_m: slide.offset.si(),
            drive_offset_m: slide.drive_offset.si(),
            overhang_m: slide.overhang.si(),
            overhang_grows: slide.overhang_grows,
            drag_n: slide.drag.si(),
            friction: slide.guide_friction,
            spacing_m: slide.bearing_spacing.si(),
            process,
            rails_wanted: !slide.guide_supplied,
        }
    }

    /// How near the guide is to binding: `2 μ d/b` (two-point couple).
    pub(super) fn binding_ratio(&self) -> f64 {
        2.0 * self.friction * self.drive_offset_m / self.spacing_m
    }

    /// Whether nothing depends on the place.
    pub(super) fn uniform(&self) -> bool {
        self.process.is_empty() && !self.overhang_grows
    }

    /// Force of the drive along "out" at a position, moving or about to move in a direction.
    ///
    /// `F = Q + assist + sgn·(μ·max(m g|cosθ|, 2M/b) + F_drag + sheave friction)` with
    /// `Q = m(a + g sinθ) + sgn·P` and `M = |Q|e + |F|d + m g|cosθ|c`, solved for `F`.
    pub(super) fn force_n(
        &self,
        assist: &Assist,
        mass_kg: f64,
        x_m: f64,
        a_m_s2: f64,
        direction: Direction,
        upper: bool,
    ) -> f64 {
        let going = Going::new(self, assist, mass_kg, direction);
        going.at(x_m, upper).force_n(a_m_s2)
    }

    /// What gravity asks of the drive along "out".
    pub(super) fn weight_n(&self, assist: &Assist, mass_kg: f64) -> f64 {
        mass_kg * G_M_S2 * self.sin - assist.pull_n()
    }

    /// Every instant of a stroke.
    pub(super) fn stroke(&self, stroke: &Stroke) -> Vec<Sample> {
        let Stroke {
            assist,
            mass_kg,
            direction,
            time_s,
            stop_m_s2,
        } = *stroke;
        let sign = direction.sign();
        let going = Going::new(self, assist, mass_kg, direction);
        let (v, a) = (self.travel_m / time_s, self.travel_m / (time_s * time_s));
        // Where nothing depends on the place, the forces of a neighbour with the same acceleration are known.
        let uniform = self.uniform();
        let mut last: Option<(f64, [f64; 3])> = None;
        let sample = |instant: &Instant| {
            let unit = instant.unit;
            let x_m = instant.x_m.unwrap_or(match direction {
                Direction::Out => self.travel_m * unit.s,
                Direction::Back => self.travel_m * (1.0 - unit.s),
            });
            let upper = instant.before != (direction == Direction::Out);
            let a_m_s2 = sign * a * unit.a;
            let [force_n, static_force_n, stop_force_n] = match last {
                Some((same, forces)) if uniform && same.to_bits() == a_m_s2.to_bits() => forces,
                _ => {
                    let place = going.at(x_m, upper);
                    [a_m_s2, 0.0, -sign * stop_m_s2].map(|a_m_s2| place.force_n(a_m_s2))
                }
            };
            last = Some((a_m_s2, [force_n, static_force_n, stop_force_n]));
            Sample {
                t_s: instant.tau * time_s,
                x_m,
                v_m_s: sign * v * unit.v,
                a_m_s2,
                force_n,
                static_force_n,
                stop_force_n,
            }
        };
        self.instants[usize::from(direction == Direction::Back)]
            .iter()
            .map(sample)
            .collect()
    }
}

/// A load on its way: what of the force on the drive no place changes.
struct Going<'a> {
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

impl<'a> Going<'a> {
    fn new(axis: &'a Straight, assist: &Assist, mass_kg: f64, direction: Direction) -> Self {
        let sign = direction.sign();
        Self {
            axis,
            mass_kg,
            sign,
            curve: match direction {
                Direction::Out => Curve::Out,
                Direction::Back => Curve::Back,
            },
            weight_across_n: mass_kg * G_M_S2 * axis.cos,
            assist_kg: assist.moving_mass_kg(),
            assist_n: assist.pull_n(),
            drag_n: sign * (axis.drag_n + assist.friction_n()),
            binding: axis.binding_ratio(),
        }
    }

    fn at(&self, x_m: f64, upper: bool) -> Place<'_> {
        let axis = self.axis;
        Place {
            going: self,
            process_n: self.sign * axis.process.at(self.curve, x_m, upper),
            overhang_m: axis.overhang_m + if axis.overhang_grows { x_m } else { 0.0 },
        }
    }
}

/// A load on its way at a place.
struct Place<'a> {
    going: &'a Going<'a>,
    process_n: f64,
    overhang_m: f64,
}

impl Place<'_> {
    /// As [`Straight::force_n`].
    fn force_n(&self, a_m_s2: f64) -> f64 {
        let (going, axis) = (self.going, self.going.axis);
        let sign = going.sign;
        let q = going.mass_kg * (a_m_s2 + G_M_S2 * axis.sin) + self.process_n;
        // Everything but guide friction; the couple of the load without the drive's.
        let free = q + going.assist_kg * a_m_s2 - going.assist_n + going.drag_n;
        let couple = q.abs() * axis.offset_m + going.weight_across_n * self.overhang_m;
        let by_weight = free + sign * axis.friction * going.weight_across_n;
        let by_couple = axis.friction * 2.0 * couple / axis.spacing_m;
        if by_couple + going.binding * by_weight.abs() <= axis.friction * going.weight_across_n {
            return by_weight;
        }
        // The couple governs: F = base + sgn·β|F|, with one root since β < 1.
        let base = free + sign * by_couple;
        base / (1.0 - sign * base.signum() * going.binding)
    }
}
