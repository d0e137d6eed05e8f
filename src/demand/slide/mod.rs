//! A load that goes straight, as its drive does.

mod guide;
mod thrust;

pub use guide::{CarriageLoad, RailDemand};

use self::thrust::Thrust;
use super::axis::TIE;
use super::figures::{Case, Demand, Direction, Sample, Traverse, Turn};
use super::instants::{StrokeInstant, instants};
use super::process::{Curve, Process};
use super::stability::{Body, Phase};
use super::way::{Extent, Way};
use super::{ArmLoad, Assist, Counterweight};
use crate::quantity::{G_M_S2, Si};
use crate::requirements::{Base, Slide};

/// How stability is computed.
const STABILITY: &str = "(restoring - overturning)/restoring about the worst edge, least of at rest, in the move and in an emergency stop";

/// A straight way of the load, which is also that of its drive.
#[derive(Debug, Clone)]
pub(super) struct Straight {
    extent: Extent,
    /// Sine of the incline.
    sin: f64,
    /// Cosine of the incline, never negative.
    cos: f64,
    offset_m: f64,
    drive_offset_m: f64,
    overhang_m: f64,
    overhang_grows: bool,
    drag_n: f64,
    friction: f64,
    spacing_m: f64,
    process: Process,
    /// Whether rails must be bought for it.
    rails_wanted: bool,
    /// Instants of a stroke out and of one back.
    instants: [Vec<StrokeInstant>; 2],
}

impl Straight {
    /// From the requirements.
    pub(super) fn new(slide: &Slide) -> Self {
        let incline = slide.incline.si();
        // A vertical axis has no weight across it: what is left of cos(90°) is rounding.
        let cos = libm::cos(incline);
        let process = Process::new(slide, 0.0);
        let travel_m = slide.travel.si();
        let stroke = |direction| instants(slide.law, &process, travel_m, direction);
        Self {
            instants: [stroke(Direction::Out), stroke(Direction::Back)],
            extent: Extent {
                loads_kg: [slide.load.least.si(), slide.load.most.si()],
                law: slide.law,
                travel_m,
                unit_speed_m: slide.law.cv() * travel_m,
                unit_acceleration_m: slide.law.ca() * travel_m,
            },
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

    /// What the process puts on the load along the travel, both sides of a jump, and, at rest, what it asks to be held.
    fn on_the_load(&self, direction: Direction, x_m: f64, still: bool) -> [f64; 4] {
        if self.process.is_empty() {
            return [0.0; 4];
        }
        let curve = Curve::against(direction);
        let at = |curve, upper| self.process.at(curve, x_m, upper);
        let [lower, upper] = [false, true].map(|side| direction.sign() * at(curve, side));
        if still {
            [lower, upper, at(Curve::Hold, false), at(Curve::Hold, true)]
        } else {
            [lower, upper, lower, upper]
        }
    }
}

impl Way for Straight {
    fn extent(&self) -> &Extent {
        &self.extent
    }

    fn force_n(
        &self,
        assist: &Assist,
        mass_kg: f64,
        x_m: f64,
        a_m_s2: f64,
        direction: Direction,
        upper: bool,
    ) -> f64 {
        let thrust = Thrust::new(self, assist, mass_kg, direction);
        thrust.at(x_m, upper).force_n(a_m_s2)
    }
    fn holding_n(&self, assist: &Assist, mass_kg: f64, x_m: f64, upper: bool) -> f64 {
        self.weight_n(assist, mass_kg, x_m) + self.process.at(Curve::Hold, x_m, upper)
    }
    fn holding_places_m(&self) -> Vec<f64> {
        self.process.breakpoints(self.extent.travel_m).collect()
    }
    fn process_hold_n(&self, x_m: f64) -> f64 {
        self.process.greatest_hold(x_m)
    }
    fn process_push_n(&self) -> f64 {
        self.process.greatest_push(self.extent.travel_m)
    }
    fn weight_n(&self, assist: &Assist, mass_kg: f64, _: f64) -> f64 {
        mass_kg * G_M_S2 * self.sin - assist.pull_n()
    }
    fn weights_n(&self, assist: &Assist, mass_kg: f64) -> [f64; 2] {
        [self.weight_n(assist, mass_kg, 0.0); 2]
    }
    fn unsure_n(&self, assist: &Assist, tolerance: f64) -> f64 {
        tolerance * assist.pull_n()
    }

    fn moving_at(&self, assist: &Assist, mass_kg: f64, _: f64) -> (f64, f64) {
        (mass_kg + assist.moving_mass_kg(), 0.0)
    }
    fn moving_kg(&self, assist: &Assist, mass_kg: f64) -> [f64; 2] {
        [mass_kg + assist.moving_mass_kg(); 2]
    }
    fn kinetic_j(&self, assist: &Assist, mass_kg: f64, time_s: f64) -> f64 {
        let speed = self.extent.unit_speed_m / time_s;
        0.5 * (mass_kg + assist.moving_mass_kg()) * speed * speed
    }

    fn stroke(&self, stroke: &Traverse) -> (Vec<Sample>, Vec<Turn>) {
        let (direction, time_s) = (stroke.direction, stroke.time_s);
        let sign = direction.sign();
        let thrust = Thrust::new(self, stroke.assist, stroke.mass_kg, direction);
        let travel_m = self.extent.travel_m;
        let (v, a) = (travel_m / time_s, travel_m / (time_s * time_s));
        // Where nothing depends on the place, the forces of a neighbour with the same acceleration are known.
        let uniform = self.is_uniform();
        let mut last: Option<(f64, [f64; 3])> = None;
        let sample = |instant: &StrokeInstant| {
            let unit = instant.unit;
            let x_m = instant.x_m.unwrap_or(match direction {
                Direction::Out => travel_m * unit.s,
                Direction::Back => travel_m * (1.0 - unit.s),
            });
            let upper = instant.before != (direction == Direction::Out);
            let a_m_s2 = sign * a * unit.a;
            let [force_n, static_force_n, stop_force_n] = match last {
                Some((same, forces)) if uniform && same.to_bits() == a_m_s2.to_bits() => forces,
                _ => {
                    let place = thrust.at(x_m, upper);
                    [a_m_s2, 0.0, -sign * stroke.stop_m_s2].map(|a_m_s2| place.force_n(a_m_s2))
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
        let instants = &self.instants[usize::from(direction == Direction::Back)];
        (instants.iter().map(sample).collect(), Vec::new())
    }
    fn stroke_thrust_n(&self, stroke: &Traverse) -> f64 {
        let (samples, _) = self.stroke(stroke);
        samples.iter().map(Sample::thrust_n).fold(0.0, f64::max)
    }
    fn add_its_own(&self, demand: &mut Demand, _: &Assist) {
        let stop_m_s2 = demand.emergency_stop.deceleration_m_s2;
        let rails = || RailDemand::new(self, &demand.cases, stop_m_s2);
        demand.rails = self.rails_wanted.then(rails);
    }
    fn arm_load_squared(&self, demand: &Demand) -> ArmLoad {
        let mut found = ArmLoad::default();
        let stop_m_s2 = demand.emergency_stop.deceleration_m_s2;
        let across = G_M_S2 * self.cos;
        for case in &demand.cases {
            let (kg, sign) = (case.load_kg, case.direction.sign());
            for sample in &case.profile {
                for a_m_s2 in [0.0, sample.a_m_s2, -sign * stop_m_s2] {
                    let along = a_m_s2 + G_M_S2 * self.sin;
                    found.felt_m_s2 = found.felt_m_s2.max(square(along, across));
                    for process in self.on_the_load(case.direction, sample.x_m, a_m_s2 == 0.0) {
                        let force = square(kg * along + process, kg * across);
                        if force > found.force_n * (1.0 + TIE) {
                            (found.force_n, found.position_m) = (force, sample.x_m);
                        }
                    }
                }
            }
        }
        found
    }

    fn bodies(
        &self,
        base: &Base,
        assist: &Assist,
        case: &Case,
        index: usize,
        phase: Phase,
    ) -> [Body; 2] {
        let sample = &case.profile[index];
        let a_m_s2 = match phase {
            Phase::Still => 0.0,
            Phase::Moving => sample.a_m_s2,
            Phase::Stopping(stop_m_s2) => -case.direction.sign() * stop_m_s2,
        };
        let load = Body {
            mass_kg: case.load_kg,
            x_m: base.load_reach.si() + sample.x_m * self.cos,
            z_m: base.load_height.si() + sample.x_m * self.sin,
            ax_m_s2: a_m_s2 * self.cos,
            az_m_s2: a_m_s2 * self.sin,
            ..Body::default()
        };
        // A counterweight hangs: it goes straight down as the load goes out, so its height does not matter.
        let hanging = |weight: &Counterweight| Body {
            mass_kg: weight.mass_kg,
            x_m: base.assist_reach.si(),
            az_m_s2: -weight.travel_ratio * a_m_s2,
            ..Body::default()
        };
        [
            load,
            assist.counterweight().map_or(Body::default(), hanging),
        ]
    }
    fn stability_formula(&self) -> &'static str {
        STABILITY
    }
    fn rests_at_speed(&self) -> bool {
        true
    }

    fn across(&self) -> f64 {
        self.cos
    }
    fn lifts(&self) -> bool {
        self.sin > 0.0
    }
    fn rise_m(&self) -> f64 {
        self.extent.travel_m * self.sin.abs()
    }
    fn is_steep(&self) -> bool {
        self.sin.abs() > self.cos.abs()
    }
    fn is_uniform(&self) -> bool {
        self.process.is_empty() && !self.overhang_grows
    }
    fn binding_ratio(&self) -> f64 {
        2.0 * self.friction * self.drive_offset_m / self.spacing_m
    }
}

/// Square of two parts at a right angle.
fn square(along: f64, across: f64) -> f64 {
    along * along + across * across
}
