//! What is fitted beside the drive of an option, in numbers: its assist and its guide.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::file::Label;
use crate::family::GuideDetail;

/// The counterweight of an option.
#[derive(Debug, Clone, Default, Serialize, Deserialize, JsonSchema)]
pub struct AssistDetail {
    /// Mass.
    pub counterweight_kg: f64,
    /// Its travel over the load's.
    pub travel_ratio: f64,
    /// How many sheaves.
    pub sheaves: u32,
    /// Loss per sheave.
    pub loss_per_sheave: f64,
    /// Inertia of the sheaves as mass at the load.
    pub sheave_mass_kg: f64,
    /// Radius at which it sits on the tail of a hinged arm, which has no rope and no sheaves.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tail_radius_m: Option<f64>,
}

/// The guide of an option.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct GuideLine {
    /// `profile_rail`, `shafts_with_ball_bushes`, `shafts_with_plain_bushes` or `plain_ways`.
    pub sort: Label,
    /// How many rails, shafts or ways.
    pub lines: u32,
    /// Its own coefficient of friction; the demand is computed with `motion.guide.friction`.
    pub friction: f64,
    /// What can still turn or move, and what stops it.
    pub freedom: String,
    /// Every other sort, and why it was not taken.
    pub not_taken: Vec<String>,
}

impl From<GuideDetail> for GuideLine {
    fn from(detail: GuideDetail) -> Self {
        Self {
            sort: detail.sort.into(),
            lines: detail.lines,
            friction: detail.friction,
            freedom: detail.freedom,
            not_taken: detail.not_taken,
        }
    }
}
