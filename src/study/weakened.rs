//! Rules of safety that a file sets less safe than is usual.

use crate::quantity::show;
use crate::requirements::{RULES, Rules};

/// Rules whose greater value is the safer.
const SAFER_HIGH: &[&str] = &[
    "stability_least",
    "drive_margin",
    "rope_factor_least",
    "sheave_ratio_least",
    "balance_tolerance",
    "rod_lock_factor",
    "rod_buckling_factor_air",
    "rod_buckling_factor_oil",
    "counterbalance_setting",
    "stepper_margin",
    "column_factor_screw",
    "screw_static_factor",
    "screw_overrun",
    "brake_factor",
    "tooth_factor",
    "structure_factor",
    "guide_static_factor",
    "hinge_static_factor",
    "pin_factor",
    "crank_radius_heavy",
];

/// Rules whose smaller value is the safer.
const SAFER_LOW: &[&str] = &[
    "binding_most",
    "floor_friction",
    "slack_move_most",
    "slack_stop_most",
    "load_factor_most",
    "load_factor_fast_most",
    "load_factor_held_most",
    "oil_temperature_most",
    "self_locking_friction",
    "critical_speed_part",
    "hand_force_spell",
    "hand_force_often",
    "hand_speed_most",
    "hand_power_most",
    "hand_power_peak",
];

/// A sentence that names each of them with its usual value; none where the file weakens nothing.
pub fn weakened_rules(rules: &Rules) -> Option<String> {
    let weakened = RULES.iter().filter_map(|rule| {
        let value = rules.get(rule.key)?;
        let weaker = (SAFER_HIGH.contains(&rule.key) && value < rule.default)
            || (SAFER_LOW.contains(&rule.key) && value > rule.default);
        let values = [value, rule.default].map(show);
        weaker.then(|| format!("{} {} (usual {})", rule.key, values[0], values[1]))
    });
    let list: Vec<String> = weakened.collect();
    (!list.is_empty()).then(|| {
        format!(
            "Weakened rules. The file sets rules of safety weaker than is usual, so that drives may pass here that otherwise fail: {}.",
            list.join(", ")
        )
    })
}

#[cfg(test)]
#[path = "../../tests/unit/study/weakened.rs"]
mod tests;
