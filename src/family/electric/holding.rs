//! What holds the load at rest.

use super::Electrics;
use super::motor::Motor;
use super::shaft::Shaft;
use crate::catalog::Brake;
use crate::family::{Ask, NO_FORCE_N};
use crate::quantity::Si;
use crate::requirements::PowerLoss;

/// What holds the load at rest.
#[derive(Debug, Clone, Copy)]
pub(in crate::family) enum Holding<'a> {
    /// Nothing to hold.
    Nothing,
    /// The mechanism, which the load cannot turn.
    Mechanism,
    /// The motor, energised.
    Motor,
    /// The brake in the servo.
    BuiltIn {
        torque_n_m: f64,
        power_w: f64,
        time_s: f64,
    },
    /// A brake of its own.
    Brake(&'a Brake),
}

impl<'a> Holding<'a> {
    /// What holds on a shaft that a motor turns so many times as fast: the mechanism, a brake where it must hold without
    /// power or the motor cannot, else the motor.
    ///
    /// None where a servo that needs a brake has none, or one that needs none has one: that only costs more.
    pub(super) fn new(
        ask: &Ask,
        shaft: &Shaft,
        electrics: &Electrics<'a>,
        motor: Motor,
        ratio: f64,
    ) -> Option<Self> {
        let built_in = match motor {
            Motor::Servo(m) => m.brake_torque.zip(m.brake_power).zip(m.brake_time),
            Motor::Stepper(_) | Motor::Gear(_) => None,
        };
        // A plain DC controller cannot hold a torque at rest: such a motor needs the brake even where the load may move.
        let by_brake = ask.job.power_loss == PowerLoss::Hold || matches!(motor, Motor::Gear(_));
        let plain = if shaft.cycle.holding_n <= NO_FORCE_N {
            Some(Holding::Nothing)
        } else if shaft.mechanism.locks {
            Some(Holding::Mechanism)
        } else {
            (!by_brake).then_some(Holding::Motor)
        };
        match (plain, motor, built_in) {
            (Some(plain), _, None) => Some(plain),
            (Some(_), _, Some(_)) | (None, Motor::Servo(_), None) => None,
            (None, _, Some(((torque, power), time))) => Some(Holding::BuiltIn {
                torque_n_m: torque.si(),
                power_w: power.si(),
                time_s: time.si(),
            }),
            (None, Motor::Stepper(_) | Motor::Gear(_), None) => {
                let torque_n_m = shaft.hold_n_m / ratio * ask.job.rules.brake_factor;
                let brake = electrics.brake(torque_n_m, shaft.speed_most_rad_s * ratio);
                brake.map(Holding::Brake)
            }
        }
    }

    /// Electricity that keeps a brake open.
    pub(in crate::family) fn power_w(&self) -> f64 {
        match self {
            Holding::BuiltIn { power_w, .. } => *power_w,
            Holding::Brake(brake) => brake.power.si(),
            _ => 0.0,
        }
    }
    /// Time in which a brake bites; none where there is no brake.
    pub(in crate::family) fn time_s(&self) -> Option<f64> {
        match self {
            Holding::BuiltIn { time_s, .. } => Some(*time_s),
            Holding::Brake(brake) => Some(brake.time.si()),
            _ => None,
        }
    }
    pub(super) fn torque_n_m(&self) -> Option<f64> {
        match self {
            Holding::BuiltIn { torque_n_m, .. } => Some(*torque_n_m),
            Holding::Brake(brake) => Some(brake.torque.si()),
            _ => None,
        }
    }
    pub(super) fn brake(&self) -> Option<&'a Brake> {
        match self {
            Holding::Brake(brake) => Some(brake),
            _ => None,
        }
    }
}
