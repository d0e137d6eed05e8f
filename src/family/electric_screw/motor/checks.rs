//! Every check of a motor, and of parts that run for a part of the time.

use super::super::DUTY_WINDOW_S;
use super::super::load::{Instant, Line, Load, Moves};
use super::super::spindle::rpm;
use super::{Motor, Still};
use crate::catalog::GearMotor;
use crate::family::{Ask, Check};
use crate::quantity::{Si, Time};

impl Motor<'_> {
    /// Peak torque against what there is at that speed: the worst instant, starts included.
    pub(in crate::family::electric_screw) fn peak<'l>(
        &self,
        ask: &Ask,
        load: &'l Load,
        line: &Line,
        still: Still,
    ) -> Check {
        let rules = &ask.job.rules;
        let (id, formula, source) = match self {
            Motor::Servo(_) => (
                "servo_motor.peak_torque",
                "T screw/(η_g i) + J α, T screw = F l/(2π η), against the peak torque at that speed",
                "drive torque: Shigley, § 8-2; margin: common practice, no source",
            ),
            Motor::Stepper(_) => (
                "stepper_motor.pull_out",
                "T screw/(η_g i) + J α, T screw = F l/(2π η), against the pull-out torque at that speed over its margin",
                "drive torque: Shigley, § 8-2; margins: common practice, no source",
            ),
            Motor::Gear(_) => (
                "gear_motor.torque_line",
                "T screw + J α, T screw = F l/(2π η), against Ts (1 - n/n0) and the gear head",
                "drive torque: Shigley, § 8-2; margin: common practice, no source",
            ),
        };
        let rest = self.capacity_n_m(0.0, false, rules.stepper_margin);
        // Demand and capacity of the instant at which the one is the greatest part of the other.
        let mut worst = (0.0, rest);
        let mut instant: Option<&Instant> = None;
        let mut take = |asked: f64, given: f64, at: Option<&'l Instant>| {
            if asked * worst.1 > worst.0 * given {
                worst = (asked, given);
                instant = at;
            }
        };
        take(still.most_n_m, rest, None);
        for at in load.telling() {
            let torque = line.torque_n_m(at);
            let given = self.capacity_n_m(
                at.speed_rad_s * line.ratio,
                torque < 0.0,
                rules.stepper_margin,
            );
            take(torque.abs(), given, Some(at));
            take(line.without_inertia(at.start_n_m).abs(), rest, Some(at));
        }
        let of = |figure: fn(&Instant) -> f64| instant.map_or(0.0, figure);
        Check::new(id, worst.0, worst.1, "N m")
            .factor(rules.drive_margin)
            .from(formula, source)
            .given(
                &[
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
                &[
                    of(|at| at.torque_n_m),
                    of(|at| at.start_n_m),
                    rpm(of(|at| at.speed_rad_s)),
                    of(|at| at.acceleration_rad_s2),
                    line.inertia_kg_m2 * 1e4,
                    line.ratio,
                    line.efficiency,
                    still.most_n_m,
                    load.efficiencies()[0],
                ],
            )
            .rule("drive_margin")
    }

    /// Every check of the motor but the peak.
    pub(in crate::family::electric_screw) fn other_checks(
        &self,
        ask: &Ask,
        load: &Load,
        line: &Line,
        still: Still,
        moves: &Moves,
    ) -> Vec<Check> {
        let rules = &ask.job.rules;
        let speed = rpm(load.speed_most_rad_s * line.ratio);
        let limit = rpm(self.speed_most_rad_s());
        match self {
            Motor::Servo(_) => {
                let at = load.speed_rms_rad_s() * line.ratio;
                vec![
                    Check::new("servo_motor.speed", speed, limit, "rpm")
                        .from("n = v i / l", "the part's limit").given(&[("n screw", "rpm"), ("i", "")], &[rpm(load.speed_most_rad_s), line.ratio]),
                    Check::new(
                        "servo_motor.continuous_torque",
                        load.rms_cycle_n_m(line, still.rms_n_m),
                        self.continuous_n_m(at).unwrap_or(0.0),
                        "N m",
                    )
                    .factor(rules.drive_margin)
                    .from(
                        "√(Σ T² t / cycle) against the continuous torque at the RMS speed",
                        "heat goes with torque squared; margin: common practice, no source",
                    ).given(&[("T rms", "N m"), ("n rms", "rpm")], &[load.rms_cycle_n_m(line, still.rms_n_m), rpm(at)])
                    .rule("drive_margin"),
                    Check::new(
                        "servo_motor.standstill_torque",
                        // A rest shorter than the motor's heat is part of the RMS above.
                        if moves.rest_longest_s >= DUTY_WINDOW_S { still.most_n_m } else { 0.0 },
                        self.continuous_n_m(0.0).unwrap_or(0.0),
                        "N m",
                    )
                    .factor(rules.drive_margin)
                    .from(
                        "F_hold l/(2π i) held for ten minutes or more against the continuous torque at rest",
                        "IEC 60034-1 cycle of ten minutes; margin: common practice, no source",
                    ).given(&[("T still", "N m"), ("rest", "s")], &[still.most_n_m, moves.rest_longest_s])
                    .rule("drive_margin"),
                    self.inertia_ratio("servo_motor.inertia_ratio", ask, line),
                ]
            }
            Motor::Stepper(_) => vec![
                Check::new("stepper_motor.speed", speed, limit, "rpm")
                    .from("n = v i / l", "end of the pull-out curve")
                    .given(
                        &[("n screw", "rpm"), ("i", "")],
                        &[rpm(load.speed_most_rad_s), line.ratio],
                    ),
                self.inertia_ratio("stepper_motor.inertia_ratio", ask, line),
            ],
            Motor::Gear(m) => vec![
                running_life("gear_motor.running_life", ask, moves.run_s, m.running_life),
                Check::new("gear_motor.speed", speed, limit, "rpm")
                    .from("n = v / l", "the speed without load")
                    .given(
                        &[("n screw", "rpm"), ("i", "")],
                        &[rpm(load.speed_most_rad_s), line.ratio],
                    ),
                duty_of(m, load, line, moves),
            ],
        }
    }

    /// Whether a motor that runs for a part of the time passes the check of its duty; any other does.
    pub(in crate::family::electric_screw) fn runs_cool(
        &self,
        load: &Load,
        line: &Line,
        moves: &Moves,
    ) -> bool {
        match self {
            Motor::Gear(m) => duty_of(m, load, line, moves).passes(),
            Motor::Servo(_) | Motor::Stepper(_) => true,
        }
    }

    fn inertia_ratio(&self, id: &'static str, ask: &Ask, line: &Line) -> Check {
        Check::new(
            id,
            line.load_inertia_kg_m2(self.inertia_kg_m2()) / self.inertia_kg_m2(),
            ask.job.rules.inertia_ratio_most,
            "",
        )
        .from(
            "((m + k² mc + sheaves)(l/2π)² + J screw)/i² + J coupling, brake and gearbox, over J motor; J screw = π/32 ρ L d⁴, d midway between outer and root",
            "common practice, no source",
        )
        .given(
            &[("J load", "kg cm2"), ("J motor", "kg cm2"), ("i", "")],
            &[
                line.load_inertia_kg_m2(self.inertia_kg_m2()) * 1e4,
                self.inertia_kg_m2() * 1e4,
                line.ratio,
            ],
        )
        .rule("inertia_ratio_most")
    }
}

fn duty_of(m: &GearMotor, load: &Load, line: &Line, moves: &Moves) -> Check {
    duty(
        "gear_motor.duty",
        moves,
        load.rms_moving_n_m(line) / m.rated_torque.si(),
        [m.duty, m.short_time.si(), m.cooling.si()],
    )
}

/// Running time over the years asked against what brushes or gears last.
pub(in crate::family::electric_screw) fn running_life(
    id: &'static str,
    ask: &Ask,
    run_s: f64,
    lasts: Time,
) -> Check {
    let hours = |seconds: f64| seconds / 3600.0;
    Check::new(id, hours(run_s * ask.life_cycles()), hours(lasts.si()), "h")
        .from("2 T · cycles over the years asked", "the part's rating")
        .given(
            &[("run in a cycle", "s"), ("cycles", "")],
            &[run_s, ask.life_cycles()],
        )
}

/// Heat of a part-time motor: S3 over ten minutes at most, or S2 where it runs once and cools.
///
/// `ED (T/T rated)²`: the same heat as the rated torque for a shorter time.
pub(in crate::family::electric_screw) fn duty(
    id: &'static str,
    moves: &Moves,
    load_ratio: f64,
    part: [f64; 3],
) -> Check {
    let [factor, short_time_s, cooling_s] = part;
    let heat = load_ratio * load_ratio;
    if moves.cycle_s - moves.run_s >= cooling_s {
        return Check::new(id, moves.run_s * heat, short_time_s, "s")
            .from(
                "run × (T/T rated)² against the single run from cold",
                "IEC 60034-1, duty type S2",
            )
            .given(
                &[("run", "s"), ("T/T rated", "")],
                &[moves.run_s, load_ratio],
            );
    }
    Check::new(id, moves.run_s / moves.window_s() * heat, factor, "")
        .from(
            "run / cycle (ten minutes at most) × (T/T rated)² against the cyclic duration factor",
            "IEC 60034-1, duty type S3",
        )
        .given(
            &[("run", "s"), ("cycle", "s"), ("T/T rated", "")],
            &[moves.run_s, moves.window_s(), load_ratio],
        )
}
