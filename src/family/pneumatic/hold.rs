//! Holding when the power fails: a rod lock, trapped air, or nothing to hold.

use super::motion::LoadedCylinder;
use crate::catalog::RodLock;
use crate::demand::Demand;
pub(super) use crate::family::NO_FORCE_N as NOTHING_N;
use crate::family::choose::{Merits, Shelf};
use crate::family::{Ask, Check, check};
use crate::quantity::Si;
use crate::requirements::{Criterion, PowerLoss, Stops};

/// How the load is held.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Hold<'a> {
    /// It rests by itself, or may move.
    Nothing,
    /// By air trapped between check valves.
    Trapped,
    /// By a lock on the rod.
    Locked(&'a RodLock),
}

impl Hold<'_> {
    /// What it adds to the drive type.
    pub fn words(&self) -> &'static str {
        match self {
            Hold::Nothing => "",
            Hold::Trapped => ", trapped air",
            Hold::Locked(_) => ", rod lock",
        }
    }
}

/// Whether the load has to be held when the power fails: even where nothing pulls at it, the air in a cylinder would drive
/// it on or back.
pub(super) fn needed(ask: &Ask) -> bool {
    ask.job.power_loss == PowerLoss::Hold
}

/// The ways to hold that this job leaves open with a cylinder, each with its checks (which may fail).
pub(super) fn ways<'a>(
    ask: &Ask<'a>,
    motion: &LoadedCylinder,
    demand: &Demand,
) -> Vec<(Hold<'a>, Vec<Check>)> {
    let several = ask.job.stops == Stops::Several;
    let needed = needed(ask);
    if !needed && !several {
        return vec![(Hold::Nothing, Vec::new())];
    }
    let mut ways = Vec::new();
    if !several {
        ways.push((Hold::Trapped, creep(ask).into_iter().collect()));
    }
    ways.extend(locks(ask, motion, demand));
    ways
}

/// Whether the job bears the creep of trapped air; no check where it names no position error.
fn creep(ask: &Ask) -> Option<Check> {
    let creep = ask.job.rules.trapped_air_creep * 1e3;
    let goal = ask.job.built_for(Criterion::PositionError)?;
    let check = check!(
        "check_valve.creep", creep => goal.limit * 1e3, "mm";
        "creep ≤ position error that the job allows", "common practice, no source";
        ("creep", creep, "mm"),
    );
    Some(check.rule("trapped_air_creep"))
}

/// The locks worth having that hold, else the dearest there is for the rod.
fn locks<'a>(
    ask: &Ask<'a>,
    motion: &LoadedCylinder,
    demand: &Demand,
) -> Vec<(Hold<'a>, Vec<Check>)> {
    let rod = motion.cylinder.rod.si();
    let fits = |lock: &&RodLock| (lock.rod.si() - rod).abs() < 1e-6;
    let rates = ask.life_cost();
    let shelf = Shelf::with(ask, ask.catalog.rod_locks.iter().filter(fits), |lock| {
        let figures = Merits {
            length_m: lock.length.si(),
            ..Merits::part(&rates, &lock.common)
        };
        (&lock.common, figures)
    });
    let checks = |lock: &RodLock| lock_checks(ask, motion, demand, lock);
    let mut locks = shelf.choices(|lock| checks(lock).iter().all(Check::passes));
    if locks.is_empty() {
        locks.extend(shelf.iter().last());
    }
    if !locks.is_empty() {
        let locked = |lock: &'a RodLock| (Hold::Locked(lock), checks(lock).into());
        return locks.into_iter().map(locked).collect();
    }
    let says = format!(
        "the catalog has no lock for a {} mm rod",
        crate::quantity::show(rod * 1e3)
    );
    let check = Check::of("rod_lock.size", false, says)
        .from("a lock of the rod's diameter", "data of the catalog");
    vec![(Hold::Nothing, vec![check])]
}

fn lock_checks(ask: &Ask, motion: &LoadedCylinder, demand: &Demand, lock: &RodLock) -> [Check; 2] {
    let trapped = motion.pressure_pa * motion.areas_m2[0];
    let asked = demand.holding_push_n.max(demand.holding_pull_n) + trapped;
    [
        check!(
            "rod_lock.holding", asked => lock.holding_force.si(), "N";
            "F hold + p_g A of trapped air ≤ holding force", "common practice, no source";
            ("F hold", demand.holding_push_n.max(demand.holding_pull_n), "N"),
            ("p_g A", trapped, "N"),
        )
        .factor(ask.job.rules.rod_lock_factor)
        .rule("rod_lock_factor"),
        check!(
            "rod_lock.release_pressure", lock.release_pressure.si() / 1e5 => motion.pressure_pa / 1e5, "bar";
            "pressure that opens it ≤ p_g", "data of the part";
            ("p opens", lock.release_pressure.si() / 1e5, "bar"),
            ("p_g", motion.pressure_pa / 1e5, "bar"),
        ),
    ]
}
