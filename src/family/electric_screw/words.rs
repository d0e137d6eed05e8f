//! What a built-up screw is called, and what a person should know of how it holds and stops.

use core::f64::consts::TAU;

use super::NO_FORCE_N;
use super::built_up::drop_m;
use super::fit::{Fit, Hold, Seat};
use super::load::Moves;
use super::motor::Motor;
use crate::family::hazard::{PUSHED_AWAY, SCREW_RUNS_BACK, THREAD_ALONE};
use crate::family::{Figure, Measurement, Stage, Train, Words};
use crate::quantity::show;
use crate::requirements::PowerLoss;

const SERVO_TORQUE: Measurement<1> = Measurement {
    stage: Stage::AtWork,
    measure: "Effective torque as the servo drive shows it, after an hour of full duty",
    reading: Words::new("{} N m"),
};

/// Names the train and says what follows from its hold.
pub(super) fn say(seat: Seat, moves: &Moves, train: &mut Train, fit: &Fit) {
    let (spindle, motor) = (seat.spindle, fit.pick.motor);
    let (geared, gear) = match fit.pick.gearbox {
        Some(gearbox) => (", geared", format!(" {}:1", show(gearbox.ratio))),
        None => ("", String::new()),
    };
    train.kind = format!("{}, {}{geared}", spindle.kind(), motor.kind());
    train.words = format!("{}, {}{gear}", spindle.words(), motor.words());
    let held = Figure::force(train.demand.held_n());
    let pulled = moves.holding_n > NO_FORCE_N;
    let free = matches!(fit.hold, Hold::Nothing) && !spindle.locks;
    match fit.hold {
        Hold::Thread if pulled => train.cautions.push(THREAD_ALONE.with([held])),
        Hold::Brake(_) | Hold::BuiltIn { .. } if pulled => {
            train.cautions.push(SCREW_RUNS_BACK.with([held]));
        }
        // What a load that is pulled then does is said of every drive that does not hold.
        _ if free && !pulled && seat.ask.job.power_loss == PowerLoss::Hold => {
            let push = Figure::force(train.demand.worst.static_peak_n);
            train.cautions.push(PUSHED_AWAY.with([push]));
        }
        _ => {}
    }
    if let Some(time_s) = fit.hold.time_s() {
        // The rotor and the screw turn with the load, and weigh on it far more than its own mass.
        let turn = TAU * fit.line.ratio / seat.spindle.lead_m;
        let turning_kg = fit.line.inertia_kg_m2 * turn * turn;
        let [least_kg, _] = seat.ask.moving_kg(seat.ask.book.axis().loads_kg[0]);
        let drop = drop_m(moves, least_kg + turning_kg, time_s);
        train.remarks.push(format!(
            "If the power fails in motion, the load runs on by up to {} mm in the {} ms before the brake bites.",
            show(drop * 1e3),
            show(time_s * 1e3)
        ));
    }
    if matches!(motor, Motor::Servo(_)) {
        let rms_n_m = seat.load.rms_cycle_n_m(&fit.line, fit.still.rms_n_m);
        train
            .proofs
            .push(SERVO_TORQUE.reads([Figure::Number(rms_n_m)]));
    }
    if matches!(motor, Motor::Gear(_)) {
        train.remarks.push(
            "The DC motor stops on end switches or counted pulses and is slowed by its controller."
                .into(),
        );
    }
}
