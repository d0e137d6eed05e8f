//! The way that a load goes: what every kind of motion answers, one file or folder each.

use core::fmt::Debug;

use super::figures::{Case, Demand, Direction, Sample, Traverse, Turn};
use super::stability::{Body, Edge, Phase};
use super::{ArmLoad, Assist};
use crate::requirements::{Base, Law};

/// What of a way no place changes.
#[derive(Debug, Clone, Copy)]
pub struct Extent {
    /// Least and most load, kg.
    pub loads_kg: [f64; 2],
    /// The motion law.
    pub law: Law,
    /// Travel of the drive, m.
    pub travel_m: f64,
    /// Greatest speed of the drive, times the travel time.
    pub unit_speed_m: f64,
    /// Greatest acceleration of the drive, times the travel time squared.
    pub unit_acceleration_m: f64,
}

/// The way of a load with its drive. Places, speeds and forces are the drive's; positive is outward along it.
pub trait Way: Debug + Send + Sync {
    /// What of it no place changes.
    fn extent(&self) -> &Extent;

    /// Force of the drive at a place, accelerating from rest there in a direction of the drive; `upper` means that side of a jump.
    fn force_n(
        &self,
        assist: &Assist,
        mass_kg: f64,
        x_m: f64,
        a_m_s2: f64,
        drive: Direction,
        upper: bool,
    ) -> f64;
    /// Force to hold the load at rest at a place, friction not relied on.
    fn holding_n(&self, assist: &Assist, mass_kg: f64, x_m: f64, upper: bool) -> f64;
    /// Places between the ends at which holding is looked at.
    fn holding_places_m(&self) -> Vec<f64>;
    /// Force that the process pushes back with at rest, N, the greater at a jump.
    fn process_hold_n(&self, x_m: f64) -> f64;
    /// Force with which the process pushes the load at rest, the most over the way; at its centre of mass where it swings.
    fn process_push_n(&self) -> f64;
    /// What gravity asks of the drive at a place.
    fn weight_n(&self, assist: &Assist, mass_kg: f64, x_m: f64) -> f64;
    /// The same, least and most over the way.
    fn weights_n(&self, assist: &Assist, mass_kg: f64) -> [f64; 2];
    /// Holding force that no assist can be trusted to take away.
    fn unsure_n(&self, assist: &Assist, tolerance: f64) -> f64;

    /// Mass at the drive with the inertia of all that moves, at a place, and half its growth along the way, kg/m.
    fn moving_at(&self, assist: &Assist, mass_kg: f64, x_m: f64) -> (f64, f64);
    /// [`Way::force_n`] without acceleration, and [`Way::moving_at`], of one place: what both hang on is worked out once.
    fn force_and_mass(
        &self,
        assist: &Assist,
        mass_kg: f64,
        x_m: f64,
        drive: Direction,
        upper: bool,
    ) -> (f64, (f64, f64)) {
        let force_n = self.force_n(assist, mass_kg, x_m, 0.0, drive, upper);
        (force_n, self.moving_at(assist, mass_kg, x_m))
    }
    /// Least and most of that mass over the way.
    fn moving_kg(&self, assist: &Assist, mass_kg: f64) -> [f64; 2];
    /// Kinetic energy at the peak speed of the load.
    fn kinetic_j(&self, assist: &Assist, mass_kg: f64, time_s: f64) -> f64;

    /// Every instant of a stroke of the load, as the drive sees it and, where an arm turns, as the arm does.
    fn stroke(&self, stroke: &Traverse) -> (Vec<Sample>, Vec<Turn>);
    /// Greatest force on the drive in a stroke, moving or at rest.
    fn stroke_thrust_n(&self, stroke: &Traverse) -> f64;
    /// Adds what only this kind of motion has to a demand with all its cases.
    fn add_its_own(&self, demand: &mut Demand, assist: &Assist);
    /// What the load puts on the arm under it, over every instant; forces and accelerations squared, for there are many.
    fn arm_load_squared(&self, demand: &Demand) -> ArmLoad;

    /// The load and its assist above the base at an instant of a case.
    fn bodies(
        &self,
        base: &Base,
        assist: &Assist,
        case: &Case,
        index: usize,
        phase: Phase,
    ) -> [Body; 2];
    /// How the check of stability says that it is computed.
    fn stability_formula(&self) -> &'static str;
    /// The edges that the base may tip over.
    fn edges(&self) -> &'static [(&'static str, Edge)] {
        Edge::IN_PLANE
    }
    /// Whether a load at constant speed is on the base as at rest: what turns is drawn inward.
    fn rests_at_speed(&self) -> bool {
        false
    }

    /// The drive's direction in a stroke of the load, or the load's in one of the drive.
    fn drive(&self, direction: Direction) -> Direction {
        direction
    }
    /// Way of the load for a way of the drive, least and most.
    fn ways(&self) -> [f64; 2] {
        [1.0; 2]
    }
    /// Part of its weight that a drive lying along its way has square to it, the most over the way.
    fn across(&self) -> f64 {
        1.0
    }
    /// Whether going out lifts the load straight, so that a counterweight over sheaves may help.
    fn lifts(&self) -> bool {
        false
    }
    /// How much higher the load's centre of mass stands at one place of its way than at another, the most, m.
    fn rise_m(&self) -> f64 {
        0.0
    }
    /// Whether what goes down there falls, rather than running down a slope.
    fn is_steep(&self) -> bool {
        true
    }
    /// Whether the force at rest is the same all along.
    fn is_uniform(&self) -> bool {
        false
    }
    /// How near the guide is to binding: `2 μ d/b` (two-point couple).
    fn binding_ratio(&self) -> f64 {
        0.0
    }
    /// Distance between the drive's pins at its shortest and longest, where it stands between two.
    fn pins_m(&self) -> Option<[f64; 2]> {
        None
    }
    /// Radius at which a tail weight may sit on an arm.
    fn tail_radius_m(&self) -> Option<f64> {
        None
    }
    /// Mass times radius of the most load about what it turns on.
    fn balance_kg_m(&self) -> f64 {
        0.0
    }
}
