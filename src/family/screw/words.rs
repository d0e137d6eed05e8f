//! What a built-up screw is called, what its checks say, and what a person should know of how it holds and stops.

use super::spindle::Spindle;
use crate::family::electric::{Holding, MotorDrive, ShaftWords};
use crate::family::hazard::{PUSHED_AWAY, SCREW_RUNS_BACK, THREAD_ALONE};
use crate::family::{Ask, Drive, Figure, NO_FORCE_N};
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

/// Says what follows from how it holds.
pub(super) fn say(ask: &Ask, spindle: &Spindle, motor_drive: &MotorDrive, drive: &mut Drive) {
    let cycle = motor_drive.shaft.cycle;
    let held = Figure::force(drive.demand.held_n());
    let pulls = cycle.holding_n > NO_FORCE_N;
    match motor_drive.holding {
        Holding::Mechanism if pulls => drive.cautions.push(THREAD_ALONE.with([held])),
        Holding::Brake(_) | Holding::BuiltIn { .. } if pulls => {
            drive.cautions.push(SCREW_RUNS_BACK.with([held]));
        }
        Holding::Nothing
            if !spindle.mechanism.locks && !pulls && ask.job.power_loss == PowerLoss::Hold =>
        {
            let push = Figure::force(drive.demand.worst.static_peak_n);
            drive.cautions.push(PUSHED_AWAY.with([push]));
        }
        // What the load then does is said of every drive that does not hold.
        _ => {}
    }
}
