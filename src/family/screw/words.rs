//! What a built-up screw is called, and what a person should know of how it holds and stops.

use core::f64::consts::TAU;

use super::NO_FORCE_N;
use super::built_up::drop_m;
use super::fit::{Fit, Hold, Seat};
use super::load::Moves;
use super::motor::Motor;
use crate::family::{Train, caution};
use crate::quantity::{Kind, in_words, show};
use crate::requirements::PowerLoss;

/// Names the train and says what follows from its hold.
pub(super) fn say(seat: Seat, moves: &Moves, train: &mut Train, fit: &Fit) {
    let (spindle, motor) = (seat.spindle, fit.pick.motor);
    let (geared, gear) = match fit.pick.gearbox {
        Some(gearbox) => (", geared", format!(" {}:1", show(gearbox.ratio))),
        None => ("", String::new()),
    };
    train.kind = format!("{}, {}{geared}", spindle.kind(), motor.kind());
    train.words = format!("{}, {}{gear}", spindle.words(), motor.words());
    let held = caution::held(&train.demand);
    if moves.holding_n > NO_FORCE_N {
        match fit.hold {
            Hold::Thread => train.cautions.push(format!(
                "The thread holds the load, {held}, by friction, judged at a part of it; shaking can loosen it: never rely on it where people are under the load."
            )),
            // What the load then does is said of every drive that does not hold.
            Hold::Motor | Hold::Nothing => {}
            Hold::Brake(_) | Hold::BuiltIn { .. } => train.cautions.push(format!(
                "The screw runs back under its load: without power only the brake holds it, against {held}; test the brake at every upkeep."
            )),
        }
    }
    let free = matches!(fit.hold, Hold::Nothing) && !spindle.locks;
    if free && moves.holding_n <= NO_FORCE_N && seat.ask.job.power_loss == PowerLoss::Hold {
        train.cautions.push(format!(
            "Nothing pulls at the load at rest, and so no brake is fitted: without power a push of some {} along the travel turns the screw and moves it.",
            in_words(Kind::Force, train.demand.worst.static_peak_n)
        ));
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
    if matches!(fit.pick.motor, Motor::Gear(_)) {
        train.remarks.push(
            "The DC motor stops on end switches or counted pulses and is slowed by its controller."
                .into(),
        );
    }
}
