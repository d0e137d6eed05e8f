//! What the demand says: per case, and the worst of them.

use crate::demand::Assist;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{RailDemand, Stability};

/// Which load is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs, reason = "each name is its meaning")]
pub enum Loading {
    Least,
    Most,
}

/// Which way the stroke goes.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs, reason = "each name is its meaning")]
pub enum Direction {
    #[default]
    Out,
    Back,
}

impl Direction {
    /// +1 out, −1 back.
    pub fn sign(self) -> f64 {
        match self {
            Direction::Out => 1.0,
            Direction::Back => -1.0,
        }
    }
}

/// One stroke: what goes which way, and how quickly.
#[derive(Debug, Clone, Copy)]
pub struct Traverse<'s> {
    /// What helps the drive.
    pub assist: &'s Assist,
    /// The load.
    pub mass_kg: f64,
    /// Which way it goes.
    pub direction: Direction,
    /// Travel time.
    pub time_s: f64,
    /// Deceleration of the drive in an emergency stop.
    pub stop_m_s2: f64,
}

/// One instant of a stroke; signs count outward.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Sample {
    /// Time from the start of the stroke.
    pub t_s: f64,
    /// Position from the back end.
    pub x_m: f64,
    /// Speed.
    pub v_m_s: f64,
    /// Acceleration.
    pub a_m_s2: f64,
    /// Force of the drive on the load.
    pub force_n: f64,
    /// The same at rest there, about to move (acceleration zero, breakaway included).
    pub static_force_n: f64,
    /// The same in an emergency stop from the peak speed.
    #[serde(skip)]
    pub stop_force_n: f64,
}

/// The figures of a case, or the worst over all cases.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Figures {
    /// Greatest force at rest, breakaway included.
    pub static_peak_n: f64,
    /// Greatest force in motion.
    pub dynamic_peak_n: f64,
    /// The second over the first; left out where nothing is asked at rest.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dynamic_over_static: Option<f64>,
    /// Greatest force outward, at rest or in motion.
    pub push_peak_n: f64,
    /// Greatest force backward, at rest or in motion.
    pub pull_peak_n: f64,
    /// Force to hold the load at rest, friction not relied on.
    pub holding_n: f64,
    /// RMS of the holding force over the rests: each end's own, for as long as the load rests there.
    pub rms_rest_n: f64,
    /// RMS force while moving.
    pub rms_moving_n: f64,
    /// RMS force over the cycle, holding at every instant not moving.
    pub rms_cycle_n: f64,
    /// RMS force over the cycle, nothing to hold.
    pub rms_cycle_no_hold_n: f64,
    /// Peak speed.
    pub peak_speed_m_s: f64,
    /// Peak acceleration.
    pub peak_acceleration_m_s2: f64,
    /// The larger of the next two.
    pub peak_power_w: f64,
    /// Peak power into the load.
    pub peak_motoring_power_w: f64,
    /// Peak power out of the load.
    pub peak_braking_power_w: f64,
    /// Work into the load in a cycle.
    pub work_in_j: f64,
    /// Work out of the load in a cycle.
    pub work_out_j: f64,
    /// Kinetic energy at peak speed, counterweight and sheaves included.
    pub kinetic_energy_j: f64,
    /// How near the guide is to binding: `2 μ d/b`.
    pub binding_ratio: f64,
    /// Where the greatest force stands.
    pub worst_position_m: f64,
}

/// An instant of the arm itself.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Turn {
    /// Time from the start of the stroke.
    pub t_s: f64,
    /// Arm angle above level.
    pub angle_rad: f64,
    /// Its speed.
    pub speed_rad_s: f64,
    /// Its acceleration.
    pub acceleration_rad_s2: f64,
    /// Torque of the drive on the arm, outward.
    pub torque_n_m: f64,
    /// The same at rest there, about to move.
    pub static_torque_n_m: f64,
    /// Force on the pivot, square to its axis.
    pub pivot_n: f64,
    /// The greatest there at rest or in an emergency stop from the drive's peak speed.
    #[serde(skip)]
    pub other_pivot_n: f64,
}

/// What the hinge itself sees, and the drive's geometry over the swing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HingeDemand {
    /// Greatest torque at rest, breakaway included.
    pub static_peak_n_m: f64,
    /// Greatest torque in motion.
    pub dynamic_peak_n_m: f64,
    /// Greatest torque to hold, friction not relied on.
    pub holding_n_m: f64,
    /// Peak speed of the arm.
    pub peak_speed_rad_s: f64,
    /// Peak acceleration of the arm.
    pub peak_acceleration_rad_s2: f64,
    /// Peak acceleration of the load's centre of mass, towards the hinge and along its path together.
    pub peak_acceleration_m_s2: f64,
    /// Greatest force on the pivot, square to its axis, at rest, in motion or in an emergency stop.
    pub pivot_peak_n: f64,
    /// Cube mean of that force over the angle swung, the worse load: what wears a rolling bearing.
    pub pivot_mean_n: f64,
    /// Plain mean of it: what wears a bush.
    pub pivot_plain_mean_n: f64,
    /// Angle swung out.
    pub swing_rad: f64,
    /// Force along the pivot's axis: the weight, where the axis is upright.
    pub pivot_axial_n: f64,
    /// Moment that tilts an upright pivot: the weight on its radius.
    pub pivot_moment_n_m: f64,
    /// Distance between the drive's pins at its shortest.
    pub length_least_m: f64,
    /// Distance between the drive's pins at its longest.
    pub length_most_m: f64,
    /// Least lever of the drive about the hinge.
    pub lever_least_m: f64,
    /// Greatest lever of the drive about the hinge.
    pub lever_most_m: f64,
    /// Radius of the drive's pin on the arm.
    pub arm_pin_m: f64,
    /// Arm angle at which the drive's force is greatest.
    pub worst_angle_rad: f64,
    /// How far the drive's two pins turn in their bushes for a way of the drive, where its force is greatest:
    /// `(|β'| + |1 − β'|)/lever`, the drive turning by `β'` for a turn of the arm.
    pub pins_turn_per_m: f64,
    /// How force, stroke and lever run over the swing with the most load.
    pub swing: Vec<SwingRow>,
}

/// One angle of the swing.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SwingRow {
    /// Arm angle above level.
    pub angle_rad: f64,
    /// Torque at rest, about to go out.
    pub torque_n_m: f64,
    /// Lever of the drive.
    pub lever_m: f64,
    /// Stroke of the drive from its shortest.
    pub stroke_m: f64,
    /// Force of the drive at rest, about to go out; positive pushes.
    pub static_out_n: f64,
    /// The same about to come back.
    pub static_back_n: f64,
}

/// One load, one direction.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Case {
    /// Which load.
    pub load: Loading,
    /// Which way.
    pub direction: Direction,
    /// Which way the drive goes: the other way where it shortens as a hinged arm goes out.
    #[serde(skip)]
    pub drive: Direction,
    /// The load.
    #[serde(skip)]
    pub load_kg: f64,
    /// Its figures.
    #[serde(flatten)]
    pub figures: Figures,
    /// Greatest force outward at rest, breakaway included.
    #[serde(skip)]
    pub static_push_n: f64,
    /// Greatest force backward at rest, breakaway included.
    #[serde(skip)]
    pub static_pull_n: f64,
    /// Every instant.
    pub profile: Vec<Sample>,
    /// Every instant of a hinged arm.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub swing: Vec<Turn>,
}

/// What an emergency stop from the peak speed asks.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Emergency {
    /// Deceleration.
    pub deceleration_m_s2: f64,
    /// Greatest force on the drive.
    pub force_peak_n: f64,
    /// Greatest of it outward.
    pub push_peak_n: f64,
    /// Greatest of it backward.
    pub pull_peak_n: f64,
}

/// What the drive is asked for at one travel time, with one assist.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Demand {
    /// Travel time of either stroke.
    pub travel_time_s: f64,
    /// The worst over all cases.
    pub worst: Figures,
    /// Least out, least back, most out, most back.
    pub cases: Vec<Case>,
    /// Greatest force that holds the load against moving back (push), friction not relied on, balance not trusted.
    #[serde(skip)]
    pub holding_push_n: f64,
    /// The same against moving out (pull).
    #[serde(skip)]
    pub holding_pull_n: f64,
    /// Emergency stop.
    pub emergency_stop: Emergency,
    /// What a hinge sees, where there is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hinge: Option<HingeDemand>,
    /// Stability on its base, where there is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stability: Option<Stability>,
    /// What a rail guide must carry, where the need brings no guide of its own.
    #[serde(skip)]
    pub rails: Option<RailDemand>,
}

impl Demand {
    /// Force that what holds the load is sized on: the holding force, and with a counterweight at least what loads,
    /// blocks and rope differ by from their nominal masses (`rules.balance_tolerance`).
    pub fn held_n(&self) -> f64 {
        self.holding_push_n.max(self.holding_pull_n)
    }
    /// Force that a drive is sized on: the larger of at rest and in motion.
    pub fn thrust_n(&self) -> f64 {
        self.worst.static_peak_n.max(self.worst.dynamic_peak_n)
    }
    /// The cases of one direction of the drive.
    pub fn strokes(&self, direction: Direction) -> impl Iterator<Item = &Case> {
        self.cases
            .iter()
            .filter(move |case| case.drive == direction)
    }
    /// Every instant of every stroke.
    pub fn samples(&self) -> impl Iterator<Item = &Sample> {
        self.cases.iter().flat_map(|case| case.profile.iter())
    }
}
