//! How the built machine is proved: what to measure, where, and the reading to expect, at rest and at full speed and load.
//!
//! Every reading is a number of the option's own demand, checks and criteria; a slow trial proves nothing about a fast one.

use super::course::assist;
use crate::demand::Axis;
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

/// Less than this no scale in a workshop shows.
const LEAST_READ_N: f64 = 1.0;
/// Shares of the speed at which a machine is run up before its full speed.
const COAST_SHARE: f64 = 0.5;

/// The proving plan of an option.
#[must_use]
pub fn proving_plan(option: &OptionLine, job: &Requirements) -> Vec<Proof> {
    let mut plan = at_rest(option, job);
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

fn is_air(option: &OptionLine) -> bool {
    option.family == "pneumatic"
}

/// What gravity alone asks of the drive with the greatest load, which a scale shows while nothing works on the load.
fn weighed_n(option: &OptionLine, job: &Requirements) -> f64 {
    let Some(axis) = Axis::of(job) else {
        return 0.0;
    };
    let weights = axis.weights_n(&assist(option), axis.loads_kg[1]);
    weights.map(f64::abs).into_iter().fold(0.0, f64::max)
}

fn at_rest(option: &OptionLine, job: &Requirements) -> Vec<Proof> {
    let worst = &option.demand.worst;
    let mut plan = Vec::new();
    let weighed = weighed_n(option, job);
    if weighed > LEAST_READ_N {
        plan.push(proof(
            "Drive uncoupled, greatest load on: hang a scale where the drive pulls, load standing still",
            format!("{} at most holding", amount(weighed, "N")),
        ));
    }
    plan.push(if !job.motion.kind().process().points.is_empty() {
        proof(
            "Load cell between drive and load, greatest load, crept through the work",
            format!(
                "{} at most, greatest at {}",
                amount(worst.static_peak_n, "N"),
                option.demand.hinge.as_ref().map_or_else(
                    || amount(worst.worst_position_m, "m"),
                    |hinge| format!("{} deg", show(hinge.worst_angle_rad.to_degrees())),
                )
            ),
        )
    } else {
        proof(
            "Drive uncoupled, greatest load on: a scale where the drive pulls, load just made to move, at several places of the travel",
            format!(
                "{} at most; more means more friction than was assumed",
                amount(worst.static_peak_n, "N")
            ),
        )
    });
    plan
}

fn at_speed(option: &OptionLine) -> Vec<Proof> {
    let worst = &option.demand.worst;
    let mut plan = vec![proof(
        "Stop-watch or end switches, each way, least and greatest load, first slowly, then at full speed",
        format!("{} each way", amount(option.design_travel_time_s, "s")),
    )];
    if is_air(option) {
        // Air follows no law of motion: what can be told is how fast it comes to its ends.
        plan.extend(arrival_m_s(option).map(|speed| {
            proof(
                "Light gate in the last tenth of the travel, each way, throttles as set",
                format!("{} at most", amount(speed, "m/s")),
            )
        }));
    } else {
        plan.push(proof(
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
        ));
        plan.push(proof(
            "Speed in the middle of the travel",
            format!("{} at most", amount(worst.peak_speed_m_s, "m/s")),
        ));
    }
    if let Some(noise) = option.criteria.get("noise").filter(|noise| noise.raw > 0.0) {
        plan.push(proof(
            "Sound level meter 1 m away, full speed",
            format!("{} dB(A) or less", show(noise.raw)),
        ));
    }
    plan
}

/// The greatest speed at which an air cylinder comes to an end.
fn arrival_m_s(option: &OptionLine) -> Option<f64> {
    let ends = ["air_cylinder.cushion", "shock_absorber.energy"];
    let checks = option
        .checks
        .iter()
        .filter(|check| ends.contains(&&*check.id));
    let speeds = checks.filter_map(|check| check.given.iter().find(|given| given.symbol == "v"));
    speeds.map(|given| given.value).reduce(f64::max)
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
        let switched = option
            .parts
            .iter()
            .any(|part| part.kind == "oil_accumulators");
        plan.push(proof(
            if switched {
                "Gauge at the oil unit, cylinder against its stop, pressure switch bypassed"
            } else {
                "Gauge at the oil unit, cylinder against its stop"
            },
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
    if is_air(option) {
        plan.push(proof(
            "Emergency stop in mid-travel, greatest load, nobody near: way to standstill",
            "air stops at no set place: see where it comes to rest, and guard to there",
        ));
    } else if option.family != "hand_crank" && stop.deceleration_m_s2 > 0.0 {
        let coast = |speed: f64| speed * speed / (2.0 * stop.deceleration_m_s2);
        plan.push(proof(
            "Emergency stop from half, then from full speed, greatest load, both ways: way to standstill",
            format!(
                "{}, then {} after the stop acts: four times, not twice. {}",
                amount(coast(COAST_SHARE * speed), "m"),
                amount(coast(speed), "m"),
                if job.base.and_then(|base| base.stop_distance).is_some() {
                    "That is what base.stop_distance asks; a longer one only loads the machine less"
                } else {
                    "That is no forecast but the hard stop which the parts are sized for (rules.stop_deceleration, rules.stop_distance_default), since base.stop_distance is not given: a longer way loads them less, a shorter one more"
                }
            ),
        ));
    }
    let held = job.power_loss == PowerLoss::Hold && option.demand.worst.holding_n > LEAST_READ_N;
    let measure = if option.family == "hand_crank" {
        "Handle let go in mid-travel, greatest load, nobody near: mark the place, look again after an hour"
    } else {
        "Power switched off in mid-travel, greatest load, nobody near: mark the place, look again after an hour"
    };
    // Without a lock or trapped air a piston is driven on by the air that is in it, or drifts as it is vented.
    let driven = option.family == "pneumatic" && !held;
    plan.push(match (held, option.holds_without_power) {
        _ if driven => proof(
            measure,
            "it runs on to an end or drifts: see where to, and keep clear",
        ),
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
