//! What a built-up screw is called, what its checks say, and what a person should know of how it holds and stops.

use core::f64::consts::TAU;

use super::spindle::Spindle;
use crate::family::electric::{Holding, Motor, MotorDrive, ShaftWords};
use crate::family::hazard::{PUSHED_AWAY, SCREW_RUNS_BACK, THREAD_ALONE};
use crate::family::{Ask, Figure, NO_FORCE_N, Train};
use crate::quantity::show;
use crate::requirements::PowerLoss;

/// The words of a screw's checks.
pub(super) static SCREW: ShaftWords = ShaftWords {
    peak: [
        "T screw/(η_g i) + J α, T screw = F l/(2π η), against the peak torque at that speed",
        "T screw/(η_g i) + J α, T screw = F l/(2π η), against the pull-out torque at that speed over its margin",
        "T screw + J α, T screw = F l/(2π η), against Ts (1 - n/n0) and the gear head",
    ],
    peak_symbols: &[
        ("T screw", "N m"),
        ("T screw from rest", "N m"),
        ("n screw", "rpm"),
        ("α screw", "rad/s2"),
        ("J on the motor", "kg cm2"),
        ("i", ""),
        ("η_g", ""),
        ("T still", "N m"),
        ("η", ""),
    ],
    speed: ["n = v i / l", "n = v / l"],
    speed_symbols: &[("n screw", "rpm"), ("i", "")],
    standstill: "F_hold l/(2π i) held for ten minutes or more against the continuous torque at rest",
    inertia: "((m + k² mc + sheaves)(l/2π)² + J screw)/i² + J coupling, brake and gearbox, over J motor; J screw = π/32 ρ L d⁴, d midway between outer and root",
    greatest: "F l/(2π η), the greatest of moving, from rest, held and in an emergency stop",
    greatest_symbols: &[
        ("T driving", "N m"),
        ("T greatest", "N m"),
        ("l", "mm"),
        ("η", ""),
        ("η from rest", ""),
    ],
    brake: "F hold l/(2π i), no friction credited",
    braked: "brake torque × i: the brake stops the screw through it",
};

/// Names the train and says what follows from how it holds.
pub(super) fn say(ask: &Ask, spindle: &Spindle, drive: &MotorDrive, train: &mut Train) {
    let cycle = drive.shaft.cycle;
    let (geared, gear) = match drive.gearbox {
        Some(gearbox) => (", geared", format!(" {}:1", show(gearbox.ratio))),
        None => ("", String::new()),
    };
    train.kind = format!("{}, {}{geared}", spindle.kind(), drive.motor.kind());
    train.words = format!("{}, {}{gear}", spindle.words(), drive.motor.words());
    let held = Figure::force(train.demand.held_n());
    let pulls = cycle.holding_n > NO_FORCE_N;
    match drive.holding {
        Holding::Mechanism if pulls => train.cautions.push(THREAD_ALONE.with([held])),
        Holding::Brake(_) | Holding::BuiltIn { .. } if pulls => {
            train.cautions.push(SCREW_RUNS_BACK.with([held]));
        }
        Holding::Nothing
            if !spindle.mechanism.locks && !pulls && ask.job.power_loss == PowerLoss::Hold =>
        {
            let push = Figure::force(train.demand.worst.static_peak_n);
            train.cautions.push(PUSHED_AWAY.with([push]));
        }
        // What the load then does is said of every drive that does not hold.
        _ => {}
    }
    if let Some(time_s) = drive.holding.time_s() {
        // The rotor and the screw turn with the load, and weigh on it far more than its own mass.
        let turn = TAU * drive.line.ratio / spindle.lead_m();
        let turning_kg = drive.line.inertia_kg_m2 * turn * turn;
        let [least_kg, _] = ask.moving_kg(ask.book.axis().loads_kg[0]);
        let drop_m = cycle.drop_m(least_kg + turning_kg, time_s);
        train.remarks.push(format!(
            "If the power fails in motion, the load runs on by up to {} mm in the {} ms before the brake bites.",
            show(drop_m * 1e3),
            show(time_s * 1e3)
        ));
    }
    train.proofs.extend(drive.proof());
    if matches!(drive.motor, Motor::Gear(_)) {
        train.remarks.push(
            "The DC motor stops on end switches or counted pulses and is slowed by its controller."
                .into(),
        );
    }
}
