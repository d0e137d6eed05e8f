//! How the built machine is proved: what to measure, where, and the reading to expect, at rest and at full speed and load.
//!
//! Every reading is a number of the option's own demand, checks and criteria; a slow trial proves nothing about a fast one.
//! The drive stays coupled: a load cell is fitted between drive and load while something else carries the load.

use super::course::assist;
use crate::demand::{Assist, Axis};
use crate::family::{Need, Pace, Stage, family, may_need};
use crate::quantity::{Si, show};
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
    let pace = family(&option.family).map_or(Pace::Law, |family| family.pace);
    let mut plan = at_rest(option, job, pace);
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

/// What gravity alone asks of the drive with the greatest load, which a load cell shows while nothing works on the load.
fn weighed_n(option: &OptionLine, job: &Requirements) -> f64 {
    let Some(axis) = Axis::of(job) else {
        return 0.0;
    };
    let weights = axis.weights_n(&assist(option), axis.loads_kg[1]);
    weights.map(f64::abs).into_iter().fold(0.0, f64::max)
}

/// Whether something moves the load by itself, with the assist or without: then something else carries it before it is touched.
fn moves_by_itself(option: &OptionLine, job: &Requirements) -> bool {
    let weight = |axis: Axis| axis.weights_n(&Assist::None, axis.loads_kg[1]);
    let bare = Axis::of(job).map_or([0.0; 2], weight);
    let held_n = option.demand.worst.holding_n;
    held_n > LEAST_READ_N || bare.iter().any(|force| force.abs() > LEAST_READ_N)
}

/// Whether the drive runs on oil.
fn is_on_oil(option: &OptionLine) -> bool {
    family(&option.family).is_some_and(|family| may_need(family, Need::Oil))
}

/// What is done before a load cell is fitted: the load is carried by something else, and the drive can push nothing.
fn made_safe(option: &OptionLine, job: &Requirements, pace: Pace) -> Proof {
    let load = amount(job.motion.kind().load().most.si(), "kg");
    let mut steps = Vec::new();
    if moves_by_itself(option, job) {
        steps.push(format!(
            "the load rests on its stop, or is blocked, propped or slung with tackle rated for {load} and for any spring or wind on it"
        ));
    }
    if &*option.assist != "none" {
        steps.push("the counterweight is pinned".into());
    }
    let still = match pace {
        Pace::Hand => "the handle is taken off or tied",
        Pace::Medium => "the drive is locked off, then vented, with zero on the gauge",
        Pace::Law if is_on_oil(option) => {
            "the drive is locked off, then its oil relieved, with zero on the gauge"
        }
        Pace::Law => "the drive is switched off and locked off",
    };
    steps.push(still.into());
    steps.push("nobody is in the path".into());
    proof(
        "Before a load cell is fitted between drive and load, and before it is taken out",
        steps.join("; "),
    )
}

fn at_rest(option: &OptionLine, job: &Requirements, pace: Pace) -> Vec<Proof> {
    let worst = &option.demand.worst;
    let mut plan = vec![made_safe(option, job, pace)];
    let weighed = weighed_n(option, job);
    if weighed > LEAST_READ_N {
        plan.push(proof(
            "Load cell between drive and load, greatest load, held by the drive, standing still",
            format!("{} at most", amount(weighed, "N")),
        ));
    }
    plan.push(if job.motion.kind().process().points.is_empty() {
        proof(
            "Load cell, greatest load, just made to move, at several places of the travel",
            format!(
                "{} at most; more means more friction than was assumed",
                amount(worst.static_peak_n, "N")
            ),
        )
    } else {
        proof(
            "Load cell, greatest load, crept through the work, nobody within reach of it",
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
        "Stop-watch or end switches, each way, least and greatest load, path clear, first slowly, then at full speed",
        format!("{} each way", amount(option.design_travel_time_s, "s")),
    )];
    if pace != Pace::Medium {
        plan.push(proof(
            "Load cell, full speed, greatest load, path clear",
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
            "Emergency stop from half, then from full speed, greatest load, both ways, path clear: way to standstill",
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
    let how = if pace == Pace::Hand {
        "Handle let go in mid-travel, standing clear of its circle"
    } else {
        "Power switched off in mid-travel"
    };
    let caught = if moves_by_itself(option, job) {
        "first the least, then the greatest load, a stop, prop or slack slings close under or behind it to catch it, path clear"
    } else {
        "greatest load, path clear"
    };
    // Without a lock or trapped air a piston is driven on by the air that is in it, or drifts as it is vented.
    let reading = if pace == Pace::Medium && !held {
        "it runs on to an end or drifts: see where to, and guard to there"
    } else if held || option.holds_without_power {
        "it stays where it is, but for the play and creep that the remarks name"
    } else {
        "nothing holds it: it goes to its stop, and nothing and nobody may be in its way"
    };
    proof(
        format!("{how}, {caught}: mark the place, look again after an hour"),
        reading,
    )
}

fn at_the_end(option: &OptionLine) -> Vec<Proof> {
    let error = option.criteria.get("position_error");
    let mut plan: Vec<Proof> = error
        .map(|error| {
            proof(
                "Dial gauge at each stopping place, read from clear of the path, twenty cycles at full speed: spread of the readings, greatest minus least",
                format!("{} or less", amount(2.0 * error.raw, "m")),
            )
        })
        .into_iter()
        .collect();
    if let Some(stability) = &option.demand.stability {
        plan.push(proof(
            "Feeler strip laid under the foot at the edge that lifts first, machine tethered, everybody clear, greatest load, emergency stop from full speed",
            format!("no foot lifts; the margin is {}", show(stability.margin())),
        ));
    }
    plan
}
