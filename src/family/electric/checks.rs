//! What a motor drive is checked for: each comparison once, asked for its number in a search and made into a check.

use super::comparison::{Headroom, rpm};
use super::cycle::DUTY_WINDOW_S;
use super::drive::MotorDrive;
use super::duty::{DutyRating, running_hours, running_life};
use super::motor::Motor;
use super::shaft::Turning;
use crate::catalog::GearMotor;
use crate::family::check::is_enough;
use crate::family::{Check, Expected, Figure, Given, Measurement, Stage, Words, check};
use crate::quantity::Si;

const SERVO_TORQUE: Measurement<1> = Measurement {
    stage: Stage::AtWork,
    measure: "Effective torque as the servo drive shows it, after an hour of full duty",
    reading: Words::new("{} N m"),
};

/// Every comparison of a drive, the quickest first: how far the hardest of each group is used.
///
/// `or_more` asks for the least with so much inertia or more, and so for what any heavier gearbox is used at least.
const LOOKS: [fn(&MotorDrive, bool) -> f64; 3] = [
    |motor_drive, or_more| motor_drive.motor_used(or_more),
    |motor_drive, or_more| motor_drive.gearbox_and_brake_used(or_more),
    |motor_drive, or_more| motor_drive.rest_used(or_more),
];

const MARGIN_SOURCE: &str = "drive torque: Shigley, § 8-2; margin: common practice, no source";

impl MotorDrive<'_, '_> {
    /// How far the hardest check is used; a drive that fails a quick look is not looked at further.
    pub(super) fn used(&self, or_more: bool) -> f64 {
        let mut most = 0.0_f64;
        for look in LOOKS {
            most = most.max(look(self, or_more));
            if !is_enough(most) {
                break;
            }
        }
        most
    }

    pub(super) fn passes(&self) -> bool {
        is_enough(self.used(false))
    }

    /// The motor, but for what is looked at run by run.
    pub(super) fn motor_used(&self, or_more: bool) -> f64 {
        let last = match self.motor {
            Motor::Servo(_) | Motor::Stepper(_) => self.inertia_ratio(),
            Motor::Gear(m) => running_hours(self.ask, self.shaft.cycle.run_s, m.running_life),
        };
        self.motor_quick_used()
            .max(last.used())
            .max(self.continuous(or_more).map_or(0.0, Headroom::used))
    }

    /// The motor's speed, and its torque from rest, without which it has none at any speed.
    pub(super) fn motor_quick_used(&self) -> f64 {
        let rules = &self.ask.job.rules;
        let start_n_m = self.line.without_inertia(self.shaft.drive_most_n_m);
        let given_n_m = self.motor.capacity_n_m(0.0, false, rules.stepper_margin);
        let start = Headroom::new(start_n_m.max(self.still.most_n_m), given_n_m);
        self.turns(self.motor.speed_most_rad_s())
            .used()
            .max(start.with_factor(rules.drive_margin).used())
    }

    fn gearbox_and_brake_used(&self, or_more: bool) -> f64 {
        let mut most = 0.0_f64;
        if self.gearbox.is_some() {
            most = self
                .turns(self.gear.speed_most_rad_s)
                .used()
                .max(self.greatest(self.gear.peak_n_m).used())
                .max(self.gear_heat(or_more).used());
        }
        if let Some(torque) = self.holding.torque_n_m() {
            most = most.max(self.brake_hold(torque).used());
        }
        if let Some(brake) = self.holding.brake() {
            most = most.max(self.turns(brake.speed_most.si()).used());
        }
        most
    }

    fn rest_used(&self, or_more: bool) -> f64 {
        let braked = self.holding.torque_n_m();
        let duty = match self.motor {
            Motor::Gear(m) => {
                let part = self.part_of_rated(m, or_more);
                rating(m).comparison(self.shaft.cycle, part).used()
            }
            Motor::Servo(_) | Motor::Stepper(_) => 0.0,
        };
        duty.max(self.greatest(self.coupling.torque.si()).used())
            .max(braked.map_or(0.0, |torque| self.braked(torque).used()))
            .max(self.standstill().map_or(0.0, Headroom::used))
            .max(self.peak(or_more).0.used())
    }

    /// Speed of what turns with the motor.
    fn turns(&self, most_rad_s: f64) -> Headroom {
        Headroom::speeds(self.shaft.speed_most_rad_s * self.line.ratio, most_rad_s)
    }

    /// Greatest torque on what turns with the shaft.
    fn greatest(&self, most_n_m: f64) -> Headroom {
        Headroom::new(self.shaft.most_n_m(), most_n_m).with_factor(self.ask.job.rules.drive_margin)
    }

    fn brake_hold(&self, brake_n_m: f64) -> Headroom {
        Headroom::new(self.shaft.hold_n_m / self.line.ratio, brake_n_m)
            .with_factor(self.ask.job.rules.brake_factor)
    }

    /// What a brake does to the coupling.
    fn braked(&self, brake_n_m: f64) -> Headroom {
        Headroom::new(brake_n_m * self.line.ratio, self.coupling.torque.si())
    }

    fn rms_n_m(&self, or_more: bool) -> f64 {
        self.shaft
            .rms_cycle_n_m(&self.line, self.still.rms_n_m, or_more)
    }

    /// What proves a motor that is sized on its heat: the drive shows it.
    pub fn proof(&self) -> Option<Expected> {
        let servo = matches!(self.motor, Motor::Servo(_));
        servo.then(|| SERVO_TORQUE.reads([Figure::Number(self.rms_n_m(false))]))
    }

    fn gear_heat(&self, or_more: bool) -> Headroom {
        Headroom::new(self.rms_n_m(or_more) * self.line.ratio, self.gear.rated_n_m)
            .with_factor(self.ask.job.rules.drive_margin)
    }

    /// RMS torque against the continuous torque at the RMS speed; none where heat does not follow torque.
    fn continuous(&self, or_more: bool) -> Option<Headroom> {
        let speed_rad_s = self.shaft.speed_rms_rad_s * self.line.ratio;
        let given_n_m = self.motor.continuous_n_m(speed_rad_s)?;
        let margin = self.ask.job.rules.drive_margin;
        Some(Headroom::new(self.rms_n_m(or_more), given_n_m).with_factor(margin))
    }

    /// Torque held in a long rest; a rest shorter than the motor's heat is part of the RMS over the cycle.
    fn standstill(&self) -> Option<Headroom> {
        let given_n_m = self.motor.continuous_n_m(0.0)?;
        let long = self.shaft.cycle.rest_longest_s >= DUTY_WINDOW_S;
        let held_n_m = if long { self.still.most_n_m } else { 0.0 };
        let margin = self.ask.job.rules.drive_margin;
        Some(Headroom::new(held_n_m, given_n_m).with_factor(margin))
    }

    fn inertia_ratio(&self) -> Headroom {
        let own = self.motor.inertia_kg_m2();
        Headroom::new(
            self.line.load_inertia_kg_m2(own) / own,
            self.ask.job.rules.inertia_ratio_most,
        )
    }

    fn part_of_rated(&self, motor: &GearMotor, or_more: bool) -> f64 {
        self.shaft.rms_moving_n_m(&self.line, or_more) / motor.rated_torque.si()
    }

    /// The run that asks the greatest part of the torque there is, starts and rests included; none where it is a rest.
    fn peak(&self, or_more: bool) -> (Headroom, Option<&Turning>) {
        let rules = &self.ask.job.rules;
        let (line, margin) = (&self.line, rules.stepper_margin);
        let rest = self.motor.capacity_n_m(0.0, false, margin);
        let fastest = self.shaft.speed_most_rad_s * line.ratio;
        let least = self.motor.capacity_n_m(fastest, false, margin);
        let mut worst = Headroom::new(self.still.most_n_m, rest);
        let mut run = None;
        for at in &self.shaft.turning {
            let torque = line.torque_n_m(at);
            let eased = or_more && at.eased_by_inertia();
            // No motor gives more at a higher speed: most runs are not the hardest even with the least that there is.
            if !eased && Headroom::new(torque.abs(), least).is_harder_than(worst) {
                let speed = at.speed_rad_s * line.ratio;
                let given = self.motor.capacity_n_m(speed, torque < 0.0, margin);
                let moving = Headroom::new(torque.abs(), given);
                if moving.is_harder_than(worst) {
                    (worst, run) = (moving, Some(at));
                }
            }
            let starting = Headroom::new(line.without_inertia(at.start_n_m).abs(), rest);
            if starting.is_harder_than(worst) {
                (worst, run) = (starting, Some(at));
            }
        }
        (worst.with_factor(rules.drive_margin), run)
    }

    /// Every check of motor, gearbox, brake and coupling.
    pub(in crate::family) fn checks(&self) -> Vec<Check> {
        let mut checks = vec![self.peak_check()];
        self.motor_checks(&mut checks);
        if self.gearbox.is_some() {
            self.gearbox_checks(&mut checks);
        }
        self.brake_checks(&mut checks);
        checks.push(self.greatest_check(
            "coupling.torque",
            self.coupling.torque.si(),
            "the part's limit",
        ));
        if let Some(torque) = self.holding.torque_n_m() {
            checks.push(check!(
                "coupling.brake_torque", self.braked(torque), "N m";
                self.shaft.mechanism.words.braked, "the part's limit";
                ("T brake", torque, "N m"), ("i", self.line.ratio, ""),
            ));
        }
        checks
    }

    fn peak_check(&self) -> Check {
        let words = self.shaft.mechanism.words;
        let [servo, stepper, gear] = words.peak;
        let (id, formula, source) = match self.motor {
            Motor::Servo(_) => ("servo_motor.peak_torque", servo, MARGIN_SOURCE),
            Motor::Stepper(_) => (
                "stepper_motor.pull_out",
                stepper,
                "drive torque: Shigley, § 8-2; margins: common practice, no source",
            ),
            Motor::Gear(_) => ("gear_motor.torque_line", gear, MARGIN_SOURCE),
        };
        let (compared, run) = self.peak(false);
        let of = |figure: fn(&Turning) -> f64| run.map_or(0.0, figure);
        compared
            .check(id, "N m")
            .from(formula, source)
            .with(Given::new(
                words.peak_symbols,
                [
                    of(|at| at.torque_n_m),
                    of(|at| at.start_n_m),
                    rpm(of(|at| at.speed_rad_s)),
                    of(|at| at.acceleration_rad_s2),
                    self.line.inertia_kg_m2 * 1e4,
                    self.line.ratio,
                    self.line.efficiency,
                    self.still.most_n_m,
                    self.shaft.mechanism.efficiencies()[0],
                ],
            ))
            .rule("drive_margin")
    }

    /// Every check of the motor but the peak.
    fn motor_checks(&self, checks: &mut Vec<Check>) {
        let [geared, plain] = self.shaft.mechanism.words.speed;
        let most_rad_s = self.motor.speed_most_rad_s();
        match self.motor {
            Motor::Servo(_) => {
                checks.push(self.speed_check(
                    "servo_motor.speed",
                    most_rad_s,
                    geared,
                    "the part's limit",
                ));
                self.heat_checks(checks);
                checks.push(self.inertia_check("servo_motor.inertia_ratio"));
            }
            Motor::Stepper(_) => {
                let end = "end of the pull-out curve";
                checks.push(self.speed_check("stepper_motor.speed", most_rad_s, geared, end));
                checks.push(self.inertia_check("stepper_motor.inertia_ratio"));
            }
            Motor::Gear(m) => {
                let cycle = self.shaft.cycle;
                let lasts = m.running_life;
                checks.push(running_life(
                    "gear_motor.running_life",
                    self.ask,
                    cycle.run_s,
                    lasts,
                ));
                let free = "the speed without load";
                checks.push(self.speed_check("gear_motor.speed", most_rad_s, plain, free));
                let part = self.part_of_rated(m, false);
                checks.push(rating(m).check("gear_motor.duty", cycle, part));
            }
        }
    }

    fn heat_checks(&self, checks: &mut Vec<Check>) {
        let at = self.shaft.speed_rms_rad_s * self.line.ratio;
        let continuous = self.continuous(false).map(|compared| {
            check!(
                "servo_motor.continuous_torque", compared, "N m";
                "√(Σ T² t / cycle) against the continuous torque at the RMS speed",
                "heat goes with torque squared; margin: common practice, no source";
                ("T rms", self.rms_n_m(false), "N m"), ("n rms", rpm(at), "rpm"),
            )
            .rule("drive_margin")
        });
        let standstill = self.standstill().map(|compared| {
            check!(
                "servo_motor.standstill_torque", compared, "N m";
                self.shaft.mechanism.words.standstill,
                "IEC 60034-1 cycle of ten minutes; margin: common practice, no source";
                ("T still", self.still.most_n_m, "N m"), ("rest", self.shaft.cycle.rest_longest_s, "s"),
            )
            .rule("drive_margin")
        });
        checks.extend(continuous);
        checks.extend(standstill);
    }

    fn gearbox_checks(&self, checks: &mut Vec<Check>) {
        let [geared, _] = self.shaft.mechanism.words.speed;
        let most_rad_s = self.gear.speed_most_rad_s;
        checks.push(self.speed_check("gearbox.speed", most_rad_s, geared, "the part's limit"));
        checks.push(
            check!(
                "gearbox.torque", self.gear_heat(false), "N m";
                "RMS of motor torque × i", "the part's rating";
                ("T rms", self.rms_n_m(false), "N m"), ("i", self.line.ratio, ""),
            )
            .rule("drive_margin"),
        );
        let peak_n_m = self.gear.peak_n_m;
        checks.push(self.greatest_check("gearbox.peak_torque", peak_n_m, "the part's rating"));
    }

    fn brake_checks(&self, checks: &mut Vec<Check>) {
        let words = self.shaft.mechanism.words;
        if let Some(torque) = self.holding.torque_n_m() {
            checks.push(
                check!(
                    "brake.torque", self.brake_hold(torque), "N m";
                    words.brake, "energy balance; factor: common practice, no source";
                    ("T hold", self.shaft.hold_n_m, "N m"), ("i", self.line.ratio, ""),
                )
                .rule("brake_factor"),
            );
        }
        if let Some(brake) = self.holding.brake() {
            let most_rad_s = brake.speed_most.si();
            checks.push(self.speed_check(
                "brake.speed",
                most_rad_s,
                words.speed[0],
                "the part's limit",
            ));
        }
    }

    fn speed_check(
        &self,
        id: &'static str,
        most_rad_s: f64,
        formula: &'static str,
        source: &'static str,
    ) -> Check {
        let given = Given::new(
            self.shaft.mechanism.words.speed_symbols,
            [rpm(self.shaft.speed_most_rad_s), self.line.ratio],
        );
        let turns = self.turns(most_rad_s).check(id, "rpm");
        turns.from(formula, source).with(given)
    }

    fn greatest_check(&self, id: &'static str, most_n_m: f64, source: &'static str) -> Check {
        let mechanism = &self.shaft.mechanism;
        let [running, starting] = mechanism.efficiencies();
        self.greatest(most_n_m)
            .check(id, "N m")
            .from(mechanism.words.greatest, source)
            .with(Given::new(
                mechanism.words.greatest_symbols,
                [
                    self.shaft.drive_most_n_m,
                    self.shaft.greatest_n_m,
                    mechanism.travel_per_turn_m[1] * 1e3,
                    running,
                    starting,
                ],
            ))
            .rule("drive_margin")
    }

    fn inertia_check(&self, id: &'static str) -> Check {
        let own = self.motor.inertia_kg_m2();
        check!(
            id, self.inertia_ratio(), "";
            self.shaft.mechanism.words.inertia, "common practice, no source";
            ("J load", self.line.load_inertia_kg_m2(own) * 1e4, "kg cm2"), ("J motor", own * 1e4, "kg cm2"),
            ("i", self.line.ratio, ""),
        )
        .rule("inertia_ratio_most")
    }
}

fn rating(m: &GearMotor) -> DutyRating {
    DutyRating {
        factor: m.duty,
        short_time: m.short_time,
        cooling: m.cooling,
    }
}
