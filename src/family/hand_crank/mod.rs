//! Hand crank: a person turns a rack's pinion through spur gears, or the worm of a screw jack.
//!
//! The travel time sets the speed of the crank. Halving the force at the
//! handle doubles the turns, so several gearings are offered and the worth of
//! time, force and money chooses.

mod effort;
mod jack;
mod rack;

#[cfg(test)]
#[path = "../../../tests/unit/family/hand_crank.rs"]
mod tests;

use std::collections::BTreeMap;
use std::sync::Arc;

use self::effort::{Effort, Gearing};
use super::choose::{Carries, Merits, Shelf, front};
use super::drive::SAME_TIME;
use super::hazard::{CRANK_FAST, CRANK_SPINS, JACK_ALONE};
use super::{
    Ask, Bench, Caution, Check, Custom, Drive, Family, Figure, Hours, Life, Measurement, Need,
    Pace, PartLine, Stage, Words, check, control, finish, site,
};
use crate::catalog::{Control, Crank, LoadBrake};
use crate::demand::Demand;
use crate::quantity::{Kind, Si, show};
use crate::requirements::Stops;

/// The family.
pub struct HandCrank;

/// Name in files.
const NAME: &str = "hand_crank";
const HANDLE: Measurement<1> = Measurement {
    stage: Stage::AtWork,
    measure: "Spring scale square to the crank handle, greatest load",
    reading: Words::new("{} at most"),
};

impl Family for HandCrank {
    fn name(&self) -> &'static str {
        NAME
    }
    fn words(&self) -> &'static str {
        "hand crank"
    }
    fn pace(&self) -> Pace {
        Pace::Hand
    }
    fn covers(&self) -> &'static [&'static str] {
        &["hand crank"]
    }
    fn needs(&self) -> &'static [Need] {
        &[Need::Hand]
    }
    fn grows_with_load(&self) -> &'static [&'static str] {
        &["crank.hand_force", "load_brake.torque"]
    }
    fn drives<'a>(&self, ask: &Ask<'a>, bench: &mut Bench<'a>) {
        let site = effort::of_site(ask);
        if !site.iter().all(Check::passes) {
            if !bench.explains() || ask.job.site.hand.is_none() {
                bench.fails(site);
                return;
            }
            // Turned too often by somebody who is there: it might be turned less often, and what else stops it is worth knowing.
            bench.fails_always(site.clone());
        }
        let mut quicker: Vec<f64> = Vec::new();
        for time in ask.times {
            let demand = ask.demand(*time);
            for grip in at_time(ask, &demand, bench) {
                quicker.extend(natural_fastest(ask, &grip, *time));
                offer(ask, &demand, &grip, &site, bench);
            }
        }
        quicker.sort_by(f64::total_cmp);
        quicker.dedup_by(|p, q| (*p - *q).abs() <= SAME_TIME * *q);
        for time in quicker {
            let demand = ask.demand(time);
            for grip in at_time(ask, &demand, bench) {
                offer(ask, &demand, &grip, &site, bench);
            }
        }
    }
}

/// What lies between the crank's shaft and the load.
#[derive(Debug, Clone)]
struct CrankDrive<'a> {
    kind: &'static str,
    row: &'static Hours,
    words: String,
    parts: Vec<PartLine<'a>>,
    gearing: Gearing,
    checks: Vec<Check>,
    /// Friction with which its thread just locks, and that it has; none where nothing locks.
    locks: Option<(f64, f64)>,
    closed_length_m: f64,
    travel_life_m: Option<f64>,
}

impl CrankDrive<'_> {
    /// What a crank, and whatever holds the load, know of it, to the bit.
    fn alike(&self) -> ([u64; 3], Option<[u64; 2]>) {
        let Gearing {
            lead_m,
            efficiency,
            starting_efficiency,
        } = self.gearing;
        let locks = |(needed, friction): (f64, f64)| [needed, friction].map(f64::to_bits);
        let gearing = [lead_m, efficiency, starting_efficiency].map(f64::to_bits);
        (gearing, self.locks.map(locks))
    }
    /// What it brings, with all its parts.
    fn figures(&self, ask: &Ask, parts: &[PartLine]) -> Merits {
        Merits {
            length_m: self.closed_length_m,
            life: -self.travel_life_m.unwrap_or(f64::INFINITY),
            ..Merits::lines(&ask.life_cost(), parts)
        }
    }
}

/// A drive with its crank, and the brake that holds the load where the drive does not.
#[derive(Debug, Clone)]
struct Grip<'a> {
    mechanism: Arc<CrankDrive<'a>>,
    crank: &'a Crank,
    brake: Option<&'a LoadBrake>,
    effort: Effort,
    /// Those of the person, the crank and what holds: the same with every drive that gears alike.
    checks: Arc<[Check]>,
}

/// The grips worth judging at one design time, kind by kind.
fn at_time<'a>(ask: &Ask<'a>, demand: &Demand, bench: &mut Bench<'a>) -> Vec<Grip<'a>> {
    let effort = Effort::of(demand);
    let racks = grips(ask, &effort, rack::mechanisms(ask, &effort, bench), bench);
    let jacks = grips(ask, &effort, jack::mechanisms(ask, &effort, bench), bench);
    racks.into_iter().chain(jacks).collect()
}

/// Every drive with every crank that passes, less those beaten on price, handle force, mass and length.
fn grips<'a>(
    ask: &Ask<'a>,
    effort: &Effort,
    mechanisms: Vec<CrankDrive<'a>>,
    bench: &mut Bench<'a>,
) -> Vec<Grip<'a>> {
    let mut passing = Vec::new();
    let cranks = cranks(ask, bench);
    let mechanisms = if bench.explains() {
        mechanisms
    } else {
        worth_cranking(ask, mechanisms)
    };
    // Of drives that gear and lock alike each crank makes the same: what fails is told of the first, and is no nearer of the rest.
    let mut known = BTreeMap::new();
    for mechanism in mechanisms.into_iter().map(Arc::new) {
        let sound = known
            .entry(mechanism.alike())
            .or_insert_with(|| held_grips(ask, effort, &mechanism, &cranks, bench));
        passing.extend(sound.iter().map(|(brake, crank, checks)| Grip {
            mechanism: Arc::clone(&mechanism),
            crank,
            brake: *brake,
            effort: *effort,
            checks: Arc::clone(checks),
        }));
    }
    front(passing, |grip| {
        let parts = grip.parts();
        (site::unsuited(ask.job, &parts), grip.figures(ask, &parts))
    })
}

/// A brake, where one is needed, and a crank with the checks that it, whoever turns it and what holds have passed.
type HeldCrank<'a> = (Option<&'a LoadBrake>, &'a Crank, Arc<[Check]>);

/// Every way to hold a drive with every crank that passes.
fn held_grips<'a>(
    ask: &Ask<'a>,
    effort: &Effort,
    mechanism: &CrankDrive,
    cranks: &[&'a Crank],
    bench: &mut Bench<'a>,
) -> Vec<HeldCrank<'a>> {
    let mut all = Vec::new();
    for (brake, held) in hold(ask, effort, mechanism) {
        let mut sound = Vec::new();
        for crank in cranks.iter().copied() {
            if !bench.explains() && effort::overtaxes(ask, effort, &mechanism.gearing, crank) {
                continue;
            }
            let mut checks = effort::checks(ask, effort, &mechanism.gearing, crank);
            checks.extend(held.iter().cloned());
            if checks.iter().all(Check::passes) {
                sound.push((brake, crank, Arc::from(checks)));
            } else if bench.explains() {
                // The drive itself has passed: what fails is the person, whatever smaller drive failed before.
                bench.fails(mechanism.checks.iter().cloned().chain(checks).collect());
            }
        }
        // Those that passed are strong enough.
        all.extend(front(sound, |(_, crank, _)| crank_figures(ask, crank)));
    }
    all
}

/// Of drives that gear and lock alike those that no other is no worse than.
fn worth_cranking<'a>(ask: &Ask<'a>, mechanisms: Vec<CrankDrive<'a>>) -> Vec<CrankDrive<'a>> {
    let goals = ask.goals();
    front(mechanisms, |mechanism| {
        let unsuited = site::unsuited(ask.job, &mechanism.parts);
        let figures = mechanism.figures(ask, &mechanism.parts);
        ((mechanism.alike(), unsuited), goals.of_drive(figures))
    })
}

/// What tells cranks apart that cannot be compared, and what counts of a crank.
fn crank_figures<'a>(ask: &Ask, crank: &'a Crank) -> ((u64, Option<&'a str>), Merits) {
    let common = &crank.common;
    let unsuited = (!site::suits(ask.job, common)).then_some(common.id.as_str());
    let figures = Merits::part(&ask.life_cost(), common);
    (
        (crank.radius.si().to_bits(), unsuited),
        ask.goals().of_drive(figures),
    )
}

/// The cranks worth trying: of one radius those that no other is no worse than; all where it is asked what came nearest.
fn cranks<'a>(ask: &Ask<'a>, bench: &Bench<'a>) -> Vec<&'a Crank> {
    let all = ask.catalog.cranks.iter();
    if bench.explains() {
        return all.collect();
    }
    front(all, |crank| {
        let (alike, figures) = crank_figures(ask, crank);
        (alike, Carries(crank.force.si(), figures))
    })
}

impl<'a> Grip<'a> {
    fn parts(&self) -> Vec<PartLine<'a>> {
        let own = self.own_parts().into_iter().flatten();
        self.mechanism.parts.iter().cloned().chain(own).collect()
    }
    /// The brake, where there is one, and the crank.
    fn own_parts(&self) -> [Option<PartLine<'a>>; 2] {
        let brake = |brake: &'a LoadBrake| PartLine::pieces("load_brakes", &brake.common, 1);
        let crank = PartLine::pieces("cranks", &self.crank.common, 1);
        [self.brake.map(brake), Some(crank)]
    }
    /// What counts of it.
    fn figures(&self, ask: &Ask, parts: &[PartLine]) -> Merits {
        let figures = Merits {
            hand_force_n: self
                .mechanism
                .gearing
                .hand_force_n(&self.effort, self.crank),
            ..self.mechanism.figures(ask, parts)
        };
        ask.goals().of_drive(figures)
    }
}

/// What holds the load when the handle is let go: the load brakes worth having, or the drive itself, each with its check.
fn hold<'a>(
    ask: &Ask<'a>,
    effort: &Effort,
    mechanism: &CrankDrive,
) -> Vec<(Option<&'a LoadBrake>, Option<Check>)> {
    if effort.hold_n() <= 0.0 {
        return vec![(None, None)];
    }
    let locking = mechanism.locks.map(|(needed, friction)| {
        let counted = friction * ask.job.rules.self_locking_friction;
        check!(
            "screw_jack.self_locking", needed => counted, "";
            "tan λ cos 15° ≤ 0.6 f (the rule's part of f); the worm's own friction is not counted",
            "Shigley's Mechanical Engineering Design, § 8-2; part: common practice, no source";
            ("tan λ cos 15°", needed, ""), ("f", friction, ""),
            ("part", ask.job.rules.self_locking_friction, ""),
        )
        .rule("self_locking_friction")
    });
    if let Some(check) = locking.filter(Check::passes) {
        return vec![(None, Some(check))];
    }
    let torque = mechanism.gearing.holding_torque_n_m(effort);
    let factor = ask.job.rules.brake_factor;
    let suits = |brake: &&LoadBrake| brake.both_ways || !effort.holds_both_ways();
    let brakes = ask.catalog.load_brakes.iter().filter(suits);
    let shelf = Shelf::new(ask, brakes, |brake| &brake.common);
    let check = |capacity_n_m: f64| {
        check!(
            "load_brake.torque", torque => capacity_n_m, "N m";
            "F_hold l/(2π) on the crank's shaft, friction not relied on; a balanced load counts as a part of its counterweight",
            "work over one turn; factor common practice, no source";
            ("F hold", effort.hold_n(), "N"), ("l", mechanism.gearing.lead_m * 1e3, "mm"),
        )
        .factor(factor)
        .rule("brake_factor")
    };
    let fitting = shelf.choices(|brake| brake.torque.si() >= torque * factor);
    if fitting.is_empty() {
        let torques = shelf.iter().map(|brake| brake.torque.si());
        return vec![(None, Some(check(torques.fold(0.0, f64::max))))];
    }
    let held = |brake: &'a LoadBrake| (Some(brake), Some(check(brake.torque.si())));
    fitting.into_iter().map(held).collect()
}

/// The travel time at which the person is at the limit of speed or power, if it lies between two design times.
fn natural_fastest(ask: &Ask, grip: &Grip, time_s: f64) -> Option<f64> {
    let fastest = grip.mechanism.gearing.fastest_s(ask, &grip.effort);
    ask.time_between(fastest, time_s)
}

/// Offers a grip with each guard worth having.
fn offer<'a>(
    ask: &Ask<'a>,
    demand: &Arc<Demand>,
    grip: &Grip<'a>,
    site: &[Check],
    bench: &mut Bench<'a>,
) {
    let several = ask.job.stops != Stops::Ends;
    let guards = control(ask, "hand", 0.0, several);
    let line = |guard: &'a Control| PartLine::pieces("controls", &guard.common, 1);
    let mut lines: Vec<_> = guards.into_iter().map(line).map(Some).collect();
    if lines.is_empty() {
        lines.push(None);
    }
    for guard in lines {
        let mut drive = drive(ask, demand, grip, site);
        drive.parts.extend(guard);
        bench.offer(finish(ask, drive));
    }
}

fn drive<'a>(ask: &Ask<'a>, demand: &Arc<Demand>, grip: &Grip<'a>, site: &[Check]) -> Drive<'a> {
    let (mechanism, crank) = (&grip.mechanism, grip.crank);
    let mut drive = Drive::new(NAME, mechanism.kind, mechanism.row, Arc::clone(demand));
    drive.words = format!(
        "{} mm hand crank, {}",
        show(crank.radius.si() * 1e3),
        mechanism.words
    );
    // A load brake or a self-locking jack is part of every drive that has something to hold.
    drive.holds = true;
    drive.parts = grip.parts();
    drive.custom = vec![Custom {
        what: "bracket of the crank",
        hours: 0.0,
        material: 0.0,
    }];
    drive.checks = site.to_vec();
    drive.checks.extend(mechanism.checks.iter().cloned());
    drive.checks.extend(grip.checks.iter().cloned());
    drive.running.cranking_s = 2.0 * grip.effort.travel_time_s;
    drive.position = vec![("by hand", ask.job.rules.hand_error)];
    drive.closed_length_m = mechanism.closed_length_m;
    drive.hand_force_n = mechanism.gearing.hand_force_n(&grip.effort, crank);
    let handle = Figure::Quantity(Kind::Force, drive.hand_force_n);
    drive.proofs = vec![HANDLE.reads([handle])];
    let yearly_m = 2.0 * ask.travel_m() * ask.job.timing.cycles_per_year();
    drive.lives = mechanism
        .travel_life_m
        .map(|life| Life {
            what: "nut of the screw jack",
            years: life / yearly_m,
        })
        .into_iter()
        .collect();
    drive.remarks = remarks(ask, grip);
    drive.cautions = cautions(ask, grip);
    drive
}

fn remarks(ask: &Ask, grip: &Grip) -> Vec<String> {
    let gearing = &grip.mechanism.gearing;
    let turns = gearing.turns(ask);
    let force = gearing.hand_force_n(&grip.effort, grip.crank);
    vec![format!(
        "A stroke takes {} turns at {} rpm with at most {} N at the handle ({} W on average, {} W at the hardest place); half the force would take {} turns.",
        show(turns),
        show(gearing.crank_rpm(ask, &grip.effort)),
        show(force),
        show(gearing.power_w(&grip.effort)),
        show(effort::peak_power_w(ask, &grip.effort, gearing, grip.crank)),
        show(2.0 * turns)
    )]
}

fn cautions(ask: &Ask, grip: &Grip) -> Vec<Caution> {
    let easy = ask.job.rules.hand_speed_easy;
    let mut cautions = Vec::new();
    let rpm = grip.mechanism.gearing.crank_rpm(ask, &grip.effort);
    if rpm > easy {
        cautions.push(CRANK_FAST.with([rpm, easy].map(Figure::Number)));
    }
    let hold = Figure::Number(grip.effort.hold_n());
    if grip.brake.is_some() {
        cautions.push(CRANK_SPINS.with([hold]));
    } else if grip.effort.hold_n() > 0.0 {
        cautions.push(JACK_ALONE.with([hold]));
    }
    cautions
}
