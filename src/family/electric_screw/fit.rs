//! A motor on a screw at a demand, with what holds the load and what joins them.

use super::NO_FORCE_N;
use super::load::{Line, Load, Moves};
use super::motor::{Motor, Still};
use super::pick::Pick;
use super::spindle::{Spindle, rpm};
use super::stock::Stock;
use crate::catalog::{Brake, Coupling, Gearbox};
use crate::family::check::SURELY;
use crate::family::{Ask, Check};
use crate::quantity::{AngularVelocity, Si, Torque};
use crate::requirements::PowerLoss;

/// A screw at a demand, waiting for a motor.
#[derive(Debug, Clone, Copy)]
pub(super) struct Seat<'s, 'a> {
    pub ask: &'s Ask<'a>,
    pub stock: &'s Stock<'a>,
    pub spindle: &'s Spindle<'a>,
    pub load: &'s Load<'s>,
    /// The coupling that the screw asks for, whatever brakes it.
    pub coupling: &'a Coupling,
}

/// What holds the load at rest.
#[derive(Debug, Clone, Copy)]
pub(super) enum Hold<'a> {
    /// Nothing to hold.
    Nothing,
    /// The thread.
    Thread,
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

impl Hold<'_> {
    /// Electricity that keeps a brake open.
    pub(super) fn power_w(&self) -> f64 {
        match self {
            Hold::BuiltIn { power_w, .. } => *power_w,
            Hold::Brake(brake) => brake.power.si(),
            _ => 0.0,
        }
    }
    /// Time in which a brake bites; none where there is no brake.
    pub(super) fn time_s(&self) -> Option<f64> {
        match self {
            Hold::BuiltIn { time_s, .. } => Some(*time_s),
            Hold::Brake(brake) => Some(brake.time.si()),
            _ => None,
        }
    }
    fn torque_n_m(&self) -> Option<f64> {
        match self {
            Hold::BuiltIn { torque_n_m, .. } => Some(*torque_n_m),
            Hold::Brake(brake) => Some(brake.torque.si()),
            _ => None,
        }
    }
    fn inertia_kg_m2(&self) -> f64 {
        match self {
            Hold::Brake(brake) => brake.inertia.si(),
            _ => 0.0,
        }
    }
}

/// A pick on a screw at a demand, with what holds it and what joins it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Fit<'a> {
    pub pick: Pick<'a>,
    pub hold: Hold<'a>,
    pub coupling: &'a Coupling,
    pub line: Line,
    /// Torque that the motor gives at rest.
    pub still: Still,
}

impl<'a> Fit<'a> {
    /// The fit of a pick, if it can be held: a servo that needs a brake must have one, and one that needs none must not.
    pub(super) fn new(seat: Seat<'_, 'a>, pick: Pick<'a>) -> Option<Self> {
        let Seat {
            ask, spindle, load, ..
        } = seat;
        let hold = hold(seat, &pick)?;
        let ratio = pick.ratio();
        let braked_n_m = hold.torque_n_m().unwrap_or(0.0) * ratio;
        let coupling = if braked_n_m > seat.coupling.torque.si() {
            seat.stock.coupling(ask, load, braked_n_m)?
        } else {
            seat.coupling
        };
        let [_, carried] = ask.moving_kg(ask.book.axis().loads_kg[1]);
        let arm = spindle.lead_m / core::f64::consts::TAU;
        Some(Self {
            pick,
            hold,
            coupling,
            line: Line {
                ratio,
                efficiency: pick.gearbox.map_or(1.0, |g| g.efficiency),
                inertia_kg_m2: shafts_kg_m2(seat, &pick, &hold, coupling),
                carried_kg_m2: carried * arm * arm / (ratio * ratio),
            },
            still: match hold {
                Hold::Motor => Still {
                    most_n_m: load.hold_n_m / ratio,
                    rms_n_m: load.rest_n_m.map(|torque| torque / ratio),
                },
                _ => Still::default(),
            },
        })
    }

    /// The same with another gearbox of the same ratio: neither what holds it nor what joins it hangs on that.
    pub(super) fn with(&self, seat: Seat<'_, 'a>, pick: Pick<'a>) -> Self {
        Self {
            pick,
            line: Line {
                efficiency: pick.gearbox.map_or(1.0, |g| g.efficiency),
                inertia_kg_m2: shafts_kg_m2(seat, &pick, &self.hold, self.coupling),
                ..self.line
            },
            ..*self
        }
    }

    /// How far it is used by what ends it: by what can be told in closed form where that is past 1, else by every check.
    pub(super) fn used(&self, ask: &Ask, load: &Load, moves: &Moves) -> f64 {
        let used = self.bound(ask, load);
        if used > 1.0 + 1e-9 {
            return used;
        }
        let checks = self.checks(ask, load, moves);
        checks.iter().map(Check::utilisation).fold(0.0, f64::max)
    }

    /// Every check where all of them pass, the quickest to tell first.
    pub(super) fn sound(&self, ask: &Ask, load: &Load, moves: &Moves) -> Option<Vec<Check>> {
        let motor = self.pick.motor;
        let line = &self.line;
        if self.is_hopeless(ask, load)
            || !motor.runs_cool(load, line, moves)
            || motor.stalls(ask, load, line, 1.0)
        {
            return None;
        }
        let mut checks = self.checks_but_peak(ask, load, moves);
        if !checks.iter().all(Check::passes) {
            return None;
        }
        checks.insert(0, motor.peak(ask, load, &self.line, self.still));
        checks.iter().all(Check::passes).then_some(checks)
    }

    /// Whether some check surely fails, told without making one.
    pub(super) fn is_hopeless(&self, ask: &Ask, load: &Load) -> bool {
        let motor = self.pick.motor;
        let past = |bound: f64| bound > 1.0 + 1e-9;
        if past(self.first_bound(ask, load))
            || past(motor.last_bound(ask, load, &self.line))
            || past(motor.standing(ask, load, self.still) / SURELY)
            || past(self.coupling_used(ask, load))
        {
            return true;
        }
        let rms_n_m = self.rms_n_m(load);
        past(self.rest_used(ask, load, rms_n_m))
            || past(motor.heat(ask, load, &self.line, rms_n_m))
            || motor.stalls_likewise(ask, load, &self.line)
    }

    /// Whether what holds and what joins it surely fails: with any gearbox of its ratio.
    pub(super) fn is_held_badly(&self, ask: &Ask, load: &Load) -> bool {
        let used = self
            .coupling_used(ask, load)
            .max(self.hold_used(ask, load))
            .max(self.pick.motor.standing(ask, load, self.still));
        used / SURELY > 1.0 + 1e-9
    }

    /// How far the brake is used.
    fn hold_used(&self, ask: &Ask, load: &Load) -> f64 {
        let ratio = self.line.ratio;
        let mut used = 0.0_f64;
        if let Some(torque) = self.hold.torque_n_m() {
            used = used.max(load.hold_n_m / ratio * ask.job.rules.brake_factor / torque);
        }
        if let Hold::Brake(brake) = self.hold {
            used = used.max(load.speed_most_rad_s * ratio / brake.speed_most.si());
        }
        used
    }

    /// RMS torque of the motor over the cycle, where it or the gearbox is sized on that.
    fn rms_n_m(&self, load: &Load) -> f64 {
        if self.pick.motor.heats() || self.pick.gearbox.is_some() {
            load.rms_cycle_n_m(&self.line, self.still.rms_n_m)
        } else {
            0.0
        }
    }

    fn first_bound(&self, ask: &Ask, load: &Load) -> f64 {
        let reach = self.pick.reach;
        reach.first_bound(ask, load, &self.line, self.still)
    }

    /// How far the motor is used by what can be told in closed form; past 1 it is no use to look closer.
    fn motor_bound(&self, ask: &Ask, load: &Load, rms_n_m: f64) -> f64 {
        let motor = self.pick.motor;
        self.first_bound(ask, load)
            .max(motor.heat(ask, load, &self.line, rms_n_m))
            .max(motor.last_bound(ask, load, &self.line))
    }

    /// How far it is used at least by what [`Fit::bound`] counts: the same, but for a hair, and no check is made.
    pub(super) fn least_used(&self, ask: &Ask, load: &Load) -> f64 {
        let rms_n_m = self.rms_n_m(load);
        let motor = self.motor_bound(ask, load, rms_n_m);
        if motor > 1.0 + 1e-9 {
            return motor;
        }
        motor.max(self.rest_used(ask, load, rms_n_m))
    }

    /// How far gearbox and brake are used, a hair less than by [`Fit::quick_checks`].
    fn rest_used(&self, ask: &Ask, load: &Load, rms_n_m: f64) -> f64 {
        let (rules, ratio) = (&ask.job.rules, self.line.ratio);
        let speed = load.speed_most_rad_s * ratio;
        let mut used = self.hold_used(ask, load);
        if let Some(gearbox) = self.pick.gearbox {
            let most = load.drive_most_n_m.max(load.greatest_n_m);
            let rms = rms_n_m * ratio;
            used = used
                .max(speed / gearbox.speed_most.si())
                .max(most * rules.drive_margin / gearbox.peak_torque.si())
                .max(rms * rules.drive_margin / gearbox.rated_torque.si());
        }
        used.min(Check::WORST) / SURELY
    }

    /// How far the coupling is used, a hair less than by its checks.
    fn coupling_used(&self, ask: &Ask, load: &Load) -> f64 {
        let most = load.drive_most_n_m.max(load.greatest_n_m) * ask.job.rules.drive_margin;
        let braked = self.hold.torque_n_m().unwrap_or(0.0) * self.line.ratio;
        let used = most.max(braked) / self.coupling.torque.si();
        used.min(Check::WORST) / SURELY
    }

    /// How far it is used by what can be told in closed form.
    pub(super) fn bound(&self, ask: &Ask, load: &Load) -> f64 {
        let motor = self.motor_bound(ask, load, self.rms_n_m(load));
        if motor > 1.0 + 1e-9 {
            return motor;
        }
        let rest = self.quick_checks(ask, load);
        rest.iter().map(Check::utilisation).fold(motor, f64::max)
    }

    /// The checks of gearbox and brake.
    pub(super) fn quick_checks(&self, ask: &Ask, load: &Load) -> Vec<Check> {
        let gearbox = self.pick.gearbox;
        let mut checks =
            gearbox.map_or_else(Vec::new, |gearbox| self.of_gearbox(ask, load, gearbox));
        if let Some(torque) = self.hold.torque_n_m() {
            checks.push(
                Check::new(
                    "brake.torque",
                    load.hold_n_m / self.line.ratio,
                    torque,
                    "N m",
                )
                .factor(ask.job.rules.brake_factor)
                .from(
                    "F hold l/(2π i), no friction credited",
                    "energy balance; factor: common practice, no source",
                )
                .given(
                    &[("T hold", "N m"), ("i", "")],
                    &[load.hold_n_m, self.line.ratio],
                )
                .rule("brake_factor"),
            );
        }
        if let Hold::Brake(brake) = self.hold {
            checks.push(speed(
                "brake.speed",
                load,
                self.line.ratio,
                brake.speed_most,
            ));
        }
        checks
    }

    /// The checks of the gearbox.
    fn of_gearbox(&self, ask: &Ask, load: &Load, gearbox: &Gearbox) -> Vec<Check> {
        let rms_n_m = load.rms_cycle_n_m(&self.line, self.still.rms_n_m);
        vec![
            speed("gearbox.speed", load, gearbox.ratio, gearbox.speed_most),
            Check::new(
                "gearbox.torque",
                rms_n_m * gearbox.ratio,
                gearbox.rated_torque.si(),
                "N m",
            )
            .factor(ask.job.rules.drive_margin)
            .from("RMS of motor torque × i", "the part's rating")
            .given(&[("T rms", "N m"), ("i", "")], &[rms_n_m, gearbox.ratio])
            .rule("drive_margin"),
            greatest_torque("gearbox.peak_torque", ask, load, gearbox.peak_torque)
                .from(GREATEST, "the part's rating"),
        ]
    }

    /// Every check of motor, gearbox, coupling and brake.
    pub(super) fn checks(&self, ask: &Ask, load: &Load, moves: &Moves) -> Vec<Check> {
        let motor = self.pick.motor;
        let peak = motor.peak(ask, load, &self.line, self.still);
        let rest = self.checks_but_peak(ask, load, moves);
        core::iter::once(peak).chain(rest).collect()
    }

    /// Every check that does not look at each instant.
    pub(super) fn checks_but_peak(&self, ask: &Ask, load: &Load, moves: &Moves) -> Vec<Check> {
        let motor = self.pick.motor;
        let mut checks = motor.other_checks(ask, load, &self.line, self.still, moves);
        checks.extend(self.quick_checks(ask, load));
        checks.push(
            greatest_torque("coupling.torque", ask, load, self.coupling.torque)
                .from(GREATEST, "the part's limit"),
        );
        if let Some(torque) = self.hold.torque_n_m() {
            checks.push(
                Check::new(
                    "coupling.brake_torque",
                    torque * self.line.ratio,
                    self.coupling.torque.si(),
                    "N m",
                )
                .from(
                    "brake torque × i: the brake stops the screw through it",
                    "the part's limit",
                )
                .given(&[("T brake", "N m"), ("i", "")], &[torque, self.line.ratio]),
            );
        }
        checks
    }
}

/// How the greatest torque on the screw comes about.
const GREATEST: &str =
    "F l/(2π η), the greatest of moving, from rest, held and in an emergency stop";

/// The check of what bears the greatest torque on the screw.
fn greatest_torque(id: &'static str, ask: &Ask, load: &Load, bears: Torque) -> Check {
    let [running, starting] = load.efficiencies();
    Check::new(id, load.most_n_m(), bears.si(), "N m")
        .factor(ask.job.rules.drive_margin)
        .given(
            &[
                ("T driving", "N m"),
                ("T greatest", "N m"),
                ("l", "mm"),
                ("η", ""),
                ("η from rest", ""),
            ],
            &[
                load.drive_most_n_m,
                load.greatest_n_m,
                load.lead_m() * 1e3,
                running,
                starting,
            ],
        )
        .rule("drive_margin")
}

/// The check of what turns so many times as fast as the screw.
fn speed(id: &'static str, load: &Load, ratio: f64, most: AngularVelocity) -> Check {
    Check::new(
        id,
        rpm(load.speed_most_rad_s * ratio),
        rpm(most.si()),
        "rpm",
    )
    .from("n = v i / l", "the part's limit")
    .given(
        &[("n screw", "rpm"), ("i", "")],
        &[rpm(load.speed_most_rad_s), ratio],
    )
}

/// Inertia at the motor's shaft of all that turns.
fn shafts_kg_m2(seat: Seat, pick: &Pick, hold: &Hold, coupling: &Coupling) -> f64 {
    let ratio = pick.ratio();
    pick.motor.inertia_kg_m2()
        + hold.inertia_kg_m2()
        + coupling.inertia.si()
        + pick.gearbox.map_or(0.0, |g| g.inertia.si())
        + seat.spindle.inertia_kg_m2 / (ratio * ratio)
}

/// What holds the load: the thread, a brake where it must hold without power or the motor cannot, else the motor.
fn hold<'a>(seat: Seat<'_, 'a>, pick: &Pick) -> Option<Hold<'a>> {
    let Seat {
        ask, spindle, load, ..
    } = seat;
    let braked_servo = match pick.motor {
        Motor::Servo(m) => m.brake_torque.zip(m.brake_power).zip(m.brake_time),
        _ => None,
    };
    let needed = load.hold_n_m * core::f64::consts::TAU / spindle.lead_m > NO_FORCE_N;
    // A plain DC controller cannot hold a torque at rest: such a motor needs the brake even where the load may move.
    let by_brake = ask.job.power_loss == PowerLoss::Hold || matches!(pick.motor, Motor::Gear(_));
    let plain = match (needed, spindle.locks) {
        (false, _) => Some(Hold::Nothing),
        (true, true) => Some(Hold::Thread),
        (true, false) if !by_brake => Some(Hold::Motor),
        (true, false) => None,
    };
    if let Some(plain) = plain {
        // A servo with a brake that nothing needs only costs more.
        return braked_servo.is_none().then_some(plain);
    }
    if let Motor::Servo(_) = pick.motor {
        return braked_servo.map(|((torque, power), time)| Hold::BuiltIn {
            torque_n_m: torque.si(),
            power_w: power.si(),
            time_s: time.si(),
        });
    }
    let asked = load.hold_n_m / pick.ratio() * ask.job.rules.brake_factor;
    seat.stock.brakes.first_or_strongest(asked).map(Hold::Brake)
}
