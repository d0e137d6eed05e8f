//! How the built machine is proved: what to measure, where, and the reading to expect, at rest and at full speed and load.
//!
//! Every reading is a number of the option's own demand, checks and criteria; a slow trial proves nothing about a fast one.

use crate::quantity::show;
use crate::requirements::{PowerLoss, Requirements};
use crate::study::{CheckLine, OptionLine, amount};

/// One thing to measure.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Proof {
    /// What, and where.
    pub measure: String,
    /// The reading to expect.
    pub reading: String,
}

/// Shares of the speed at which a machine is run up before its full speed.
const COAST_SHARE: f64 = 0.5;

/// The proving plan of an option.
#[must_use]
pub fn proving_plan(option: &OptionLine, job: &Requirements) -> Vec<Proof> {
    let mut plan = at_rest(option);
    plan.extend(at_speed(option));
    plan.extend(fluids(option));
    plan.extend(power_off(option, job));
    plan.extend(at_the_end(option));
    plan
}

fn proof(measure: impl Into<String>, reading: impl Into<String>) -> Proof {
    Proof {
        measure: measure.into(),
        reading: reading.into(),
    }
}

fn at_rest(option: &OptionLine) -> Vec<Proof> {
    let worst = &option.demand.worst;
    let mut plan = Vec::new();
    if worst.holding_n > 1.0 {
        plan.push(proof(
            "Drive uncoupled, greatest load on: hang a scale where the drive pulls, load standing still",
            format!("{} at most holding", amount(worst.holding_n, "N")),
        ));
    }
    plan.push(proof(
        "The same scale, load just made to move, at several places of the travel",
        format!(
            "{} at most, greatest at {}; more means more friction than was assumed",
            amount(worst.static_peak_n, "N"),
            amount(worst.worst_position_m, "m")
        ),
    ));
    plan
}

fn at_speed(option: &OptionLine) -> Vec<Proof> {
    let worst = &option.demand.worst;
    let mut plan = vec![
        proof(
            "Stop-watch or end switches, each way, least and greatest load, first slowly, then at full speed",
            format!("{} each way", amount(option.design_travel_time_s, "s")),
        ),
        proof(
            "Load cell between drive and load, full speed, greatest load",
            format!(
                "{} at the peak{}",
                amount(worst.dynamic_peak_n, "N"),
                worst
                    .dynamic_over_static
                    .filter(|ratio| *ratio > 1.01)
                    .map(|ratio| format!(
                        ", {ratio:.2} times what it takes at rest: a slow trial does not show it"
                    ))
                    .unwrap_or_default()
            ),
        ),
        proof(
            "Speed in the middle of the travel",
            format!("{} at most", amount(worst.peak_speed_m_s, "m/s")),
        ),
    ];
    if let Some(noise) = option.criteria.get("noise").filter(|noise| noise.raw > 0.0) {
        plan.push(proof(
            "Sound level meter 1 m away, full speed",
            format!("{} dB(A) or less", show(noise.raw)),
        ));
    }
    plan
}

/// A number that a check was given.
fn given(checks: &[CheckLine], id: &str, symbol: &str) -> Option<f64> {
    let check = checks.iter().find(|check| check.id == id)?;
    let given = check.given.iter().find(|given| given.symbol == symbol)?;
    Some(given.value)
}

fn fluids(option: &OptionLine) -> Vec<Proof> {
    let checks = &option.checks;
    let mut plan = Vec::new();
    if let Some(litres) = given(checks, "air_supply.flow", "V_cycle") {
        plan.push(proof(
            "Flow meter in the air line, ten cycles",
            format!("{} L of free air a cycle", show(litres)),
        ));
    }
    if let Some(pressure) = given(checks, "oil_cylinder.rod_side_pressure", "p") {
        plan.push(proof(
            "Gauge at the oil unit, cylinder against its stop",
            format!("{} bar: set the relief valve to it", show(pressure)),
        ));
    }
    if let Some(heat) = checks.iter().find(|check| check.id == "oil_unit.heat") {
        plan.push(proof(
            "Thermometer in the oil, after an hour of full duty",
            format!(
                "steady below the limit: {} of heat against {} given off",
                amount(heat.demand, "W"),
                amount(heat.capacity, "W")
            ),
        ));
    }
    if let Some(torque) = given(checks, "servo_motor.continuous_torque", "T rms") {
        plan.push(proof(
            "Effective torque as the servo drive shows it, after an hour of full duty",
            format!("{} N m", show(torque)),
        ));
    }
    if let Some(force) = given(checks, "crank.hand_force", "F").and_then(|_| {
        let check = checks.iter().find(|check| check.id == "crank.hand_force")?;
        Some(check.demand)
    }) {
        plan.push(proof(
            "Spring scale square to the crank handle, greatest load",
            format!("{} at most", amount(force, "N")),
        ));
    }
    plan
}

fn power_off(option: &OptionLine, job: &Requirements) -> Vec<Proof> {
    let stop = &option.demand.emergency_stop;
    let speed = option.demand.worst.peak_speed_m_s;
    let mut plan = Vec::new();
    if stop.deceleration_m_s2 > 0.0 {
        let coast = |speed: f64| speed * speed / (2.0 * stop.deceleration_m_s2);
        plan.push(proof(
            "Emergency stop from half, then from full speed, greatest load, both ways: way to standstill",
            format!(
                "{}, then {} after the stop acts: four times, not twice",
                amount(coast(COAST_SHARE * speed), "m"),
                amount(coast(speed), "m")
            ),
        ));
    }
    let held = job.power_loss == PowerLoss::Hold && option.demand.worst.holding_n > 1.0;
    let measure = "Power switched off in mid-travel, greatest load, nobody near: mark the place, look again after an hour";
    plan.push(match (held, option.holds_without_power) {
        (true, _) | (false, true) => proof(
            measure,
            "it stays where it is, but for the play and creep that the remarks name",
        ),
        (false, false) => proof(
            measure,
            "it may move: see that nothing and nobody is in its way",
        ),
    });
    plan
}

fn at_the_end(option: &OptionLine) -> Vec<Proof> {
    let error = option.criteria.get("position_error");
    let mut plan: Vec<Proof> = error
        .map(|error| {
            proof(
                "Dial gauge at each stopping place, twenty cycles at full speed: greatest less least reading",
                format!("twice {} or less", amount(error.raw, "m")),
            )
        })
        .into_iter()
        .collect();
    if let Some(stability) = &option.demand.stability {
        plan.push(proof(
            "Feeler gauge under the foot at the edge that lifts first, greatest load, emergency stop from full speed",
            format!("no foot lifts; the margin is {}", show(stability.margin())),
        ));
    }
    plan
}
