//! How the built machine is proved: what to measure, where, and the reading to expect, at rest and at full speed and load.
//!
//! Every reading is a number of the option's own demand, checks and criteria; a slow trial proves nothing about a fast one.

use super::course::assist;
use crate::demand::Axis;
use crate::family::{Family, Pace, Stage, family};
use crate::quantity::show;
use crate::requirements::{PowerLoss, Requirements};
use crate::study::{OptionLine, amount};

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
pub fn proving_plan(option: &OptionLine, job: &Requirements) -> Vec<Proof> {
    let pace = family(&option.family).map_or(Pace::Law, Family::pace);
    let mut plan = at_rest(option, job);
    plan.extend(at_speed(option, pace));
    plan.extend(own(option, Stage::AtWork));
    plan.extend(after_stop(option, job, pace));
    plan.push(power_off(option, job, pace));
    plan.extend(at_the_end(option));
    plan
}

fn proof(measure: impl Into<String>, reading: impl Into<String>) -> Proof {
    Proof {
        measure: measure.into(),
        reading: reading.into(),
    }
}

/// What the family itself has measured at a stage.
fn own(option: &OptionLine, stage: Stage) -> impl Iterator<Item = Proof> {
    let proofs = option.proofs.iter().filter(move |own| own.stage == stage);
    proofs.map(|own| proof(own.measure, own.reading.to_string()))
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
    plan.push(if job.motion.kind().process().points.is_empty() {
        proof(
            "Drive uncoupled, greatest load on: a scale where the drive pulls, load just made to move, at several places of the travel",
            format!(
                "{} at most; more means more friction than was assumed",
                amount(worst.static_peak_n, "N")
            ),
        )
    } else {
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
    });
    plan
}

fn at_speed(option: &OptionLine, pace: Pace) -> Vec<Proof> {
    let worst = &option.demand.worst;
    let mut plan = vec![proof(
        "Stop-watch or end switches, each way, least and greatest load, first slowly, then at full speed",
        format!("{} each way", amount(option.design_travel_time_s, "s")),
    )];
    if pace != Pace::Medium {
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
    plan.extend(own(option, Stage::AtSpeed));
    if let Some(noise) = option.criteria.get("noise").filter(|noise| noise.raw > 0.0) {
        plan.push(proof(
            "Sound level meter 1 m away, full speed",
            format!("{} dB(A) or less", show(noise.raw)),
        ));
    }
    plan
}

/// The way to standstill after an emergency stop.
fn after_stop(option: &OptionLine, job: &Requirements, pace: Pace) -> Vec<Proof> {
    let stop = &option.demand.emergency_stop;
    let speed = option.demand.worst.peak_speed_m_s;
    let mut plan: Vec<Proof> = own(option, Stage::Stopped).collect();
    if pace == Pace::Law && stop.deceleration_m_s2 > 0.0 {
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
    plan
}

/// What the load does when the power fails.
fn power_off(option: &OptionLine, job: &Requirements, pace: Pace) -> Proof {
    let held = job.power_loss == PowerLoss::Hold && option.demand.worst.holding_n > LEAST_READ_N;
    let measure = if pace == Pace::Hand {
        "Handle let go in mid-travel, greatest load, nobody near: mark the place, look again after an hour"
    } else {
        "Power switched off in mid-travel, greatest load, nobody near: mark the place, look again after an hour"
    };
    // Without a lock or trapped air a piston is driven on by the air that is in it, or drifts as it is vented.
    let reading = if pace == Pace::Medium && !held {
        "it runs on to an end or drifts: see where to, and keep clear"
    } else if held || option.holds_without_power {
        "it stays where it is, but for the play and creep that the remarks name"
    } else {
        "it may move: see that nothing and nobody is in its way"
    };
    proof(measure, reading)
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
