//! Which motor, gearbox and brake go on a screw.

use core::cmp::Ordering;

use super::NO_FORCE_N;
use super::geared::{Geared, Half};
use super::load::{Line, Load, Moves};
use super::motor::{Motor, SURELY, Still};
use super::spindle::{Spindle, rpm};
use crate::catalog::{Brake, Common, Coupling, Gearbox};
use crate::family::{Ask, Check, site};
use crate::quantity::Si;
use crate::requirements::PowerLoss;

/// So many instants are looked at sooner than checks are made.
const FEW_INSTANTS: usize = 64;

/// A motor, and a gearbox where there is one.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pick<'a> {
    pub motor: Motor<'a>,
    pub gearbox: Option<&'a Gearbox>,
    /// Where it can be better than a cheaper one, as far as the job wants it, less being better: turn error at the screw, sound, mass, length.
    pub finer_points: [f64; 4],
}

impl<'a> Pick<'a> {
    pub(super) fn new(ask: &Ask, motor: Motor<'a>, gearbox: Option<&'a Gearbox>) -> Self {
        let mut pick = Self {
            motor,
            gearbox,
            finer_points: [0.0; 4],
        };
        let box_half = gearbox.map_or(Half::default(), Half::of_gearbox);
        pick.finer_points = Half::points(ask, pick.ratio(), Half::of_motor(&motor), box_half);
        pick
    }
    pub(super) fn price(&self) -> f64 {
        self.motor.common().price + self.gearbox.map_or(0.0, |g| g.common.price)
    }
    fn commons(&self) -> impl Iterator<Item = &'a Common> {
        core::iter::once(self.motor.common()).chain(self.gearbox.map(|g| &g.common))
    }
    pub(super) fn ratio(&self) -> f64 {
        self.gearbox.map_or(1.0, |g| g.ratio)
    }
    /// Whether motor or gearbox is too slow or too weak, whatever holds the load and joins them: its bound would be past 1.
    pub(super) fn is_too_weak(&self, ask: &Ask, load: &Load) -> bool {
        let line = Line {
            ratio: self.ratio(),
            efficiency: self.gearbox.map_or(1.0, |g| g.efficiency),
            inertia_kg_m2: 0.0,
            carried_kg_m2: 0.0,
        };
        self.motor.first_bound(ask, load, &line, Still::default()) > 1.0 + 1e-9
            || self.gearbox.is_some_and(|g| is_weak(ask, load, g))
    }
    fn ids(&self) -> (&'a str, &'a str) {
        (
            &self.motor.common().id,
            self.gearbox.map_or("", |g| g.common.id.as_str()),
        )
    }
}

/// Whether a gearbox is too slow or too weak, whatever motor it has: a hair wider than its checks.
pub(super) fn is_weak(ask: &Ask, load: &Load, gearbox: &Gearbox) -> bool {
    let speed = load.speed_most_rad_s * gearbox.ratio;
    let torque = load.drive_most_n_m.max(load.greatest_n_m) * ask.job.rules.drive_margin;
    speed > gearbox.speed_most.si() * SURELY || torque > gearbox.peak_torque.si() * SURELY
}

/// Picks of one type of motor, in the order in which they are taken.
#[derive(Debug)]
pub(super) enum Range<'a> {
    /// Without gearboxes.
    Plain(Vec<Pick<'a>>),
    /// With them.
    Geared(Geared<'a>),
}

/// What stands to choose from for a screw, all in the order in which it is taken.
#[derive(Debug)]
pub(super) struct Stock<'a> {
    /// All picks of one type of motor, geared or not.
    pub ranges: [Range<'a>; 5],
    brakes: Vec<&'a Brake>,
    couplings: Vec<&'a Coupling>,
}

impl<'a> Stock<'a> {
    pub(super) fn new(ask: &Ask<'a>) -> Self {
        Self {
            ranges: ranges(ask),
            brakes: in_order(ask, &ask.catalog.brakes, |brake| &brake.common),
            couplings: in_order(ask, &ask.catalog.couplings, |coupling| &coupling.common),
        }
    }

    /// The coupling for a screw at a demand.
    ///
    /// `braked_n_m`: torque of a brake on the motor's side, which stops the screw through the coupling.
    pub(super) fn coupling(&self, ask: &Ask, load: &Load, braked_n_m: f64) -> Option<&'a Coupling> {
        let most = load.drive_most_n_m.max(load.greatest_n_m);
        let asked = (most * ask.job.rules.drive_margin).max(braked_n_m);
        first_for(&self.couplings, |c| c.torque.si(), asked)
    }
}

/// All picks of one type of motor, geared or not: those that bear the site first, then the cheapest.
fn ranges<'a>(ask: &Ask<'a>) -> [Range<'a>; 5] {
    let catalog = ask.catalog;
    let servos: Vec<_> = catalog.servo_motors.iter().map(Motor::Servo).collect();
    let steppers: Vec<_> = catalog.stepper_motors.iter().map(Motor::Stepper).collect();
    let gear_motors: Vec<_> = catalog.gear_motors.iter().map(Motor::Gear).collect();
    let plain = |motors: &[Motor<'a>]| {
        let of = |motor: &Motor<'a>| Pick::new(ask, *motor, None);
        Range::Plain(sorted(ask, motors.iter().map(of).collect()))
    };
    let geared = |motors: &[Motor<'a>]| Range::Geared(Geared::new(ask, motors));
    [
        plain(&servos),
        geared(&servos),
        plain(&steppers),
        geared(&steppers),
        plain(&gear_motors),
    ]
}

/// Picks in the order in which they are taken.
pub(super) fn sorted<'a>(ask: &Ask, range: Vec<Pick<'a>>) -> Vec<Pick<'a>> {
    let bears = |pick: &Pick| pick.commons().all(|common| site::suits(ask.job, common));
    let mut keyed: Vec<_> = range
        .into_iter()
        .map(|pick| (!bears(&pick), pick.price(), pick))
        .collect();
    keyed.sort_by(|p, q| {
        p.0.cmp(&q.0)
            .then_with(|| p.1.total_cmp(&q.1))
            .then_with(|| p.2.ids().cmp(&q.2.ids()))
    });
    keyed.into_iter().map(|(_, _, pick)| pick).collect()
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
    pub(super) fn new(
        ask: &Ask<'a>,
        stock: &Stock<'a>,
        spindle: &Spindle,
        load: &Load,
        pick: Pick<'a>,
        coupling: &'a Coupling,
    ) -> Option<Self> {
        let hold = hold(ask, stock, spindle, load, &pick)?;
        let ratio = pick.ratio();
        let braked_n_m = hold.torque_n_m().unwrap_or(0.0) * ratio;
        let coupling = if braked_n_m > coupling.torque.si() {
            stock.coupling(ask, load, braked_n_m)?
        } else {
            coupling
        };
        let carried = ask.slide.load.most.si() + ask.assist.assist.moving_mass_kg();
        let arm = spindle.lead_m / core::f64::consts::TAU;
        let shafts = pick.motor.inertia_kg_m2()
            + hold.inertia_kg_m2()
            + coupling.inertia.si()
            + pick.gearbox.map_or(0.0, |g| g.inertia.si())
            + spindle.inertia_kg_m2 / (ratio * ratio);
        Some(Self {
            pick,
            hold,
            coupling,
            line: Line {
                ratio,
                efficiency: pick.gearbox.map_or(1.0, |g| g.efficiency),
                inertia_kg_m2: shafts,
                carried_kg_m2: carried * arm * arm / (ratio * ratio),
            },
            still: match hold {
                Hold::Motor => Still {
                    most_n_m: load.hold_n_m / ratio,
                    rms_n_m: load.rest_n_m / ratio,
                },
                _ => Still::default(),
            },
        })
    }

    /// Every check where all of them pass, else how far it is used.
    pub(super) fn judged(&self, ask: &Ask, load: &Load, moves: &Moves) -> Result<Vec<Check>, f64> {
        let used = self.bound(ask, load);
        if used > 1.0 + 1e-9 {
            return Err(used);
        }
        let checks = self.checks(ask, load, moves);
        if checks.iter().all(Check::passes) {
            Ok(checks)
        } else {
            Err(checks.iter().map(Check::utilisation).fold(0.0, f64::max))
        }
    }

    /// As [`Fit::judged`], where it does not matter how far it is used: the quickest to tell first.
    pub(super) fn sound(&self, ask: &Ask, load: &Load, moves: &Moves) -> Option<Vec<Check>> {
        let motor = self.pick.motor;
        let within = |bound: f64| bound <= 1.0 + 1e-9;
        let stalls = || motor.stalls(ask, load, &self.line);
        let few = load.telling().len() <= FEW_INSTANTS;
        if !within(motor.first_bound(ask, load, &self.line, self.still))
            || !within(motor.last_bound(ask, load, &self.line))
            || (few && stalls())
        {
            return None;
        }
        let mut checks = self.checks_but_peak(ask, load, moves);
        if !checks.iter().all(Check::passes)
            || (!few && stalls())
            || !within(motor.bound(ask, load, &self.line, self.still))
        {
            return None;
        }
        checks.insert(0, motor.peak(ask, load, &self.line, self.still));
        checks.iter().all(Check::passes).then_some(checks)
    }

    /// How far it is used by what can be told in closed form.
    pub(super) fn bound(&self, ask: &Ask, load: &Load) -> f64 {
        let motor = self.pick.motor.bound(ask, load, &self.line, self.still);
        if motor > 1.0 + 1e-9 {
            return motor;
        }
        let rest = self.quick_checks(ask, load);
        rest.iter().map(Check::utilisation).fold(motor, f64::max)
    }

    /// The checks of gearbox and brake.
    pub(super) fn quick_checks(&self, ask: &Ask, load: &Load) -> Vec<Check> {
        let mut checks = Vec::new();
        if let Some(gearbox) = self.pick.gearbox {
            checks.push(
                Check::new(
                    "gearbox.speed",
                    rpm(load.speed_most_rad_s * gearbox.ratio),
                    rpm(gearbox.speed_most.si()),
                    "rpm",
                )
                .from("n = v i / l", "the part's limit")
                .given(
                    &[("n screw", "rpm"), ("i", "")],
                    &[rpm(load.speed_most_rad_s), gearbox.ratio],
                ),
            );
            checks.push(
                Check::new(
                    "gearbox.torque",
                    load.rms_cycle_n_m(&self.line, self.still.rms_n_m) * gearbox.ratio,
                    gearbox.rated_torque.si(),
                    "N m",
                )
                .factor(ask.job.rules.drive_margin)
                .from("RMS of motor torque × i", "the part's rating")
                .given(
                    &[("T rms", "N m"), ("i", "")],
                    &[
                        load.rms_cycle_n_m(&self.line, self.still.rms_n_m),
                        gearbox.ratio,
                    ],
                )
                .rule("drive_margin"),
            );
            checks.push(
                Check::new(
                    "gearbox.peak_torque",
                    load.drive_most_n_m.max(load.greatest_n_m),
                    gearbox.peak_torque.si(),
                    "N m",
                )
                .factor(ask.job.rules.drive_margin)
                .from(
                    "F l/(2π η), the greatest of moving, from rest, held and in an emergency stop",
                    "the part's rating",
                )
                .given(
                    &[("T driving", "N m"), ("T greatest", "N m")],
                    &[load.drive_most_n_m, load.greatest_n_m],
                )
                .rule("drive_margin"),
            );
        }
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
            checks.push(
                Check::new(
                    "brake.speed",
                    rpm(load.speed_most_rad_s * self.line.ratio),
                    rpm(brake.speed_most.si()),
                    "rpm",
                )
                .from("n = v i / l", "the part's limit")
                .given(
                    &[("n screw", "rpm"), ("i", "")],
                    &[rpm(load.speed_most_rad_s), self.line.ratio],
                ),
            );
        }
        checks
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
            Check::new(
                "coupling.torque",
                load.drive_most_n_m.max(load.greatest_n_m),
                self.coupling.torque.si(),
                "N m",
            )
            .factor(ask.job.rules.drive_margin)
            .from(
                "F l/(2π η), the greatest of moving, from rest, held and in an emergency stop",
                "the part's limit",
            )
            .given(
                &[("T driving", "N m"), ("T greatest", "N m")],
                &[load.drive_most_n_m, load.greatest_n_m],
            )
            .rule("drive_margin"),
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

/// What holds the load: the thread, a brake where it must hold without power or the motor cannot, else the motor.
fn hold<'a>(
    ask: &Ask<'a>,
    stock: &Stock<'a>,
    spindle: &Spindle,
    load: &Load,
    pick: &Pick,
) -> Option<Hold<'a>> {
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
    first_for(&stock.brakes, |b| b.torque.si(), asked).map(Hold::Brake)
}

/// Which of two parts is taken first: one that bears the site, then the cheaper, then by id.
pub(super) fn order(ask: &Ask, p: &Common, q: &Common) -> Ordering {
    let out = |common| !site::suits(ask.job, common);
    out(p)
        .cmp(&out(q))
        .then_with(|| p.price.total_cmp(&q.price))
        .then_with(|| p.id.cmp(&q.id))
}

/// The first part that fits, in that order.
pub(super) fn cheapest<'p, T>(
    ask: &Ask,
    parts: &'p [T],
    common: impl Fn(&T) -> &Common,
    fits: impl Fn(&T) -> bool,
) -> Option<&'p T> {
    parts
        .iter()
        .filter(|part| fits(part))
        .min_by(|p, q| order(ask, common(p), common(q)))
}

/// All parts in that order.
pub(super) fn in_order<'p, T>(
    ask: &Ask,
    parts: &'p [T],
    common: impl Fn(&T) -> &Common,
) -> Vec<&'p T> {
    let mut parts: Vec<&T> = parts.iter().collect();
    parts.sort_by(|p, q| order(ask, common(p), common(q)));
    parts
}

/// The first part that bears so much, or the strongest, so that a check can say what is missing.
fn first_for<'p, T>(parts: &[&'p T], bears: impl Fn(&T) -> f64, asked: f64) -> Option<&'p T> {
    let strongest = || parts.iter().max_by(|p, q| bears(p).total_cmp(&bears(q)));
    let first = parts.iter().find(|part| bears(part) >= asked);
    first.or_else(strongest).copied()
}
