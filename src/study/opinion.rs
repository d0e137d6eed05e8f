//! What a study file holds of other ways of weighing; the names are the file format's.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::file::Label;

/// What other ways of weighing say of the first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SecondOpinion {
    /// The first under worths made of nothing but the order and the total of the file's, for each of three usual ways; empty
    /// where fewer than two goals are worth anything.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub by_order: Vec<ByOrder>,
    /// How much of all worths of the same total speaks for the first; none where fewer than two goals are worth anything.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub over_all_worths: Option<OverAllWorths>,
    /// The drive type nearest to a point that has the best of everything.
    pub nearest_target: NearestIdeal,
}

/// The first under worths made of an order.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ByOrder {
    /// `rank_order_centroid`, `rank_sum` or `reciprocal_rank`.
    pub way: Label,
    /// The worths, by name of the goal.
    pub worths: BTreeMap<Label, f64>,
    /// Id of the option that is first.
    pub option: String,
    /// Its drive type.
    pub drive_type: String,
}

/// The first against the runner-up over all worths of one total.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OverAllWorths {
    /// The total.
    pub total: f64,
    /// Id of the runner-up, the best option of the second drive type.
    pub rival: String,
    /// Share of all ways to divide the total for which the first beats it, each way as likely as another.
    pub share: f64,
}

/// What is nearest to the best of everything.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct NearestIdeal {
    /// Id of the option.
    pub option: String,
    /// Its drive type.
    pub drive_type: String,
    /// How near: 1 with the best of everything, 0 with the worst.
    pub closeness: f64,
    /// How near the first of the ranking is.
    pub closeness_of_first: f64,
}
