//! Hand crank: a person turns a rack's pinion through spur gears, or the worm of a screw jack.
//!
//! The travel time sets the speed of the crank. Halving the force at the
//! handle doubles the turns, so several gearings are offered and the worth of
//! time, force and money chooses.

mod effort;
mod jack;
mod rack;

#[cfg(test)]
mod tests;

use std::collections::BTreeMap;
use std::sync::Arc;

use self::effort::{Effort, Gearing};
use super::efficient::{asked, efficient_of_same, habits};
use super::{Ask, Bench, Check, Family, Hours, Life, Made, Need, PartLine, Train, control, finish};
use crate::catalog::{Crank, LoadBrake};
use crate::demand::Demand;
use crate::quantity::{Si, show};
use crate::requirements::{Criterion, Stops};

/// The family.
pub struct HandCrank;

/// Name in files.
const NAME: &str = "hand_crank";
/// Two design times nearer than this part are one.
const SAME_TIME: f64 = 1e-3;

impl Family for HandCrank {
    fn name(&self) -> &'static str {
        NAME
    }
    fn words(&self) -> &'static str {
        "hand crank"
    }
    fn needs(&self) -> &'static [Need] {
        &[Need::Hand]
    }
    fn trains<'a>(&self, ask: &Ask<'a>, bench: &mut Bench<'a>) {
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
                bench.offer(finish(ask, train(ask, &demand, &grip, &site)));
            }
        }
        quicker.sort_by(f64::total_cmp);
        quicker.dedup_by(|p, q| (*p - *q).abs() <= SAME_TIME * *q);
        for time in quicker {
            let demand = ask.demand(time);
            for grip in at_time(ask, &demand, bench) {
                bench.offer(finish(ask, train(ask, &demand, &grip, &site)));
            }
        }
    }
}

/// What lies between the crank's shaft and the load.
#[derive(Debug, Clone)]
struct Drive<'a> {
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

impl Drive<'_> {
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
}

/// A drive with its crank, and the brake that holds the load where the drive does not.
#[derive(Debug, Clone)]
struct Grip<'a> {
    drive: Arc<Drive<'a>>,
    crank: &'a Crank,
    brake: Option<&'a LoadBrake>,
    effort: Effort,
    /// Those of the person, the crank and what holds: the same with every drive that gears alike.
    checks: Arc<[Check]>,
}

/// The grips worth judging at one design time, kind by kind.
fn at_time<'a>(ask: &Ask<'a>, demand: &Demand, bench: &mut Bench<'a>) -> Vec<Grip<'a>> {
    let effort = Effort::of(demand);
    let racks = grips(ask, &effort, rack::drives(ask, &effort, bench), bench);
    let jacks = grips(ask, &effort, jack::drives(ask, &effort, bench), bench);
    racks.into_iter().chain(jacks).collect()
}

/// Every drive with every crank that passes, less those beaten on price, handle force, mass and length.
fn grips<'a>(
    ask: &Ask<'a>,
    effort: &Effort,
    drives: Vec<Drive<'a>>,
    bench: &mut Bench<'a>,
) -> Vec<Grip<'a>> {
    let mut passing = Vec::new();
    let cranks = cranks(ask, bench);
    let drives = if bench.explains() {
        drives
    } else {
        worth_cranking(ask, drives)
    };
    // Of drives that gear and lock alike each crank makes the same: what fails is told of the first, and is no nearer of the rest.
    let mut known = BTreeMap::new();
    for drive in drives.into_iter().map(Arc::new) {
        let (brake, sound) = known.entry(drive.alike()).or_insert_with(|| {
            let (brake, held) = hold(ask, effort, &drive);
            let mut sound = Vec::new();
            for crank in cranks.iter().copied() {
                if !bench.explains() && effort::overtaxes(ask, effort, &drive.gearing, crank) {
                    continue;
                }
                let mut checks = effort::checks(ask, effort, &drive.gearing, crank);
                checks.extend(held.iter().cloned());
                if checks.iter().all(Check::passes) {
                    sound.push((crank, Arc::from(checks)));
                } else if bench.explains() {
                    // The drive itself has passed: what fails is the person, whatever smaller drive failed before.
                    bench.fails(drive.checks.iter().cloned().chain(checks).collect());
                }
            }
            (brake, worth_gripping(ask, sound))
        });
        passing.extend(sound.iter().map(|(crank, checks)| Grip {
            drive: Arc::clone(&drive),
            crank,
            brake: *brake,
            effort: *effort,
            checks: Arc::clone(checks),
        }));
    }
    let alike = |grip: &Grip| habits_of(grip.parts().iter());
    efficient_of_same(passing, alike, |grip| (grip.figures(ask), []))
}

/// What else than price and mass is known of parts.
fn habits_of<'l, 'a: 'l>(parts: impl Iterator<Item = &'l PartLine<'a>>) -> Vec<[u64; 9]> {
    parts.map(|line| habits(line.common)).collect()
}

/// Of drives that gear and lock alike those that no other is no worse than.
fn worth_cranking<'a>(ask: &Ask<'a>, drives: Vec<Drive<'a>>) -> Vec<Drive<'a>> {
    let alike = |drive: &Drive| (drive.alike(), habits_of(drive.parts.iter()));
    efficient_of_same(drives, alike, |drive| {
        let mass_kg = drive.parts.iter().map(|part| part.mass_kg).sum();
        let life_m = drive.travel_life_m.unwrap_or(f64::INFINITY);
        let counted = [
            drive.parts.iter().map(PartLine::cost).sum(),
            asked(ask, Criterion::AddedMass, mass_kg),
            asked(ask, Criterion::ClosedLength, drive.closed_length_m),
            asked(ask, Criterion::Life, -life_m),
        ];
        (counted, [])
    })
}

/// A crank with the checks that it and whoever turns it have passed.
type Sound<'a> = (&'a Crank, Arc<[Check]>);

/// Of cranks of one radius that pass those that no other is no worse than: how strong they are counts no more.
fn worth_gripping<'a>(ask: &Ask<'a>, sound: Vec<Sound<'a>>) -> Vec<Sound<'a>> {
    let alike = |(crank, _): &Sound| (crank.radius.si().to_bits(), habits(&crank.common));
    efficient_of_same(sound, alike, |(crank, _)| {
        let mass_kg = asked(ask, Criterion::AddedMass, crank.common.mass.si());
        ([crank.common.price, mass_kg], [])
    })
}

/// The cranks worth trying: of one radius those that no other is no worse than; all where it is asked what came nearest.
fn cranks<'a>(ask: &Ask<'a>, bench: &Bench<'a>) -> Vec<&'a Crank> {
    let all: Vec<&Crank> = ask.catalog.cranks.iter().collect();
    if bench.explains() {
        return all;
    }
    let same = |crank: &&Crank| (crank.radius.si().to_bits(), habits(&crank.common));
    efficient_of_same(all, same, |crank| {
        let mass_kg = crank.common.mass.si();
        let counted = [
            crank.common.price,
            asked(ask, Criterion::AddedMass, mass_kg),
        ];
        (counted, [-crank.force.si()])
    })
}

impl<'a> Grip<'a> {
    fn parts(&self) -> Vec<PartLine<'a>> {
        let own = self.own_parts().into_iter().flatten();
        self.drive.parts.iter().cloned().chain(own).collect()
    }
    /// The brake, where there is one, and the crank.
    fn own_parts(&self) -> [Option<PartLine<'a>>; 2] {
        let brake = |brake: &'a LoadBrake| PartLine::pieces("load_brakes", &brake.common, 1);
        let crank = PartLine::pieces("cranks", &self.crank.common, 1);
        [self.brake.map(brake), Some(crank)]
    }
    /// Price, and what the customer asked about: less is better.
    fn figures(&self, ask: &Ask) -> [f64; 5] {
        let own = self.own_parts();
        let parts = || self.drive.parts.iter().chain(own.iter().flatten());
        let force = self.drive.gearing.hand_force_n(&self.effort, self.crank);
        [
            parts().map(PartLine::cost).sum(),
            asked(ask, Criterion::HandForce, force),
            asked(
                ask,
                Criterion::AddedMass,
                parts().map(|part| part.mass_kg).sum(),
            ),
            asked(ask, Criterion::ClosedLength, self.drive.closed_length_m),
            asked(
                ask,
                Criterion::Life,
                -self.drive.travel_life_m.unwrap_or(f64::INFINITY),
            ),
        ]
    }
}

/// What holds the load when the handle is let go: the cheapest load brake, or the drive itself, with its check.
fn hold<'a>(
    ask: &Ask<'a>,
    effort: &Effort,
    drive: &Drive,
) -> (Option<&'a LoadBrake>, Option<Check>) {
    if effort.hold_n() <= 0.0 {
        return (None, None);
    }
    let locking = drive.locks.map(|(needed, friction)| {
        let counted = friction * ask.job.rules.self_locking_friction;
        Check::new("screw_jack.self_locking", needed, counted, "")
            .from(
                "tan λ cos 15° ≤ 0.6 f (the rule's part of f); the worm's own friction is not counted",
                "Shigley's Mechanical Engineering Design, § 8-2; part: common practice, no source",
            ).given(&[("tan λ cos 15°", ""), ("f", ""), ("part", "")], &[needed, friction, ask.job.rules.self_locking_friction])
            .rule("self_locking_friction")
    });
    if let Some(check) = locking.filter(Check::passes) {
        return (None, Some(check));
    }
    let torque = drive.gearing.holding_torque_n_m(effort);
    let factor = ask.job.rules.brake_factor;
    let suits = |brake: &&LoadBrake| brake.both_ways || !effort.holds_both_ways();
    let brakes = || ask.catalog.load_brakes.iter().filter(suits);
    let brake = brakes()
        .filter(|brake| brake.torque.si() >= torque * factor)
        .min_by(|p, q| p.common.price.total_cmp(&q.common.price));
    let strongest = brakes().map(|brake| brake.torque.si()).fold(0.0, f64::max);
    let capacity = brake.map_or(strongest, |brake| brake.torque.si());
    let check = Check::new("load_brake.torque", torque, capacity, "N m")
        .factor(factor)
        .from(
            "F_hold l/(2π) on the crank's shaft, friction not relied on; a balanced load counts as a part of its counterweight",
            "work over one turn; factor common practice, no source",
        )
        .given(
            &[("F hold", "N"), ("l", "mm")],
            &[effort.hold_n(), drive.gearing.lead_m * 1e3],
        )
        .rule("brake_factor");
    (brake, Some(check))
}

/// The travel time at which the person is at the limit of speed or power, if it lies between two design times.
fn natural_fastest(ask: &Ask, grip: &Grip, time_s: f64) -> Option<f64> {
    let fastest = grip.drive.gearing.fastest_s(ask, &grip.effort);
    let least = ask.times.iter().copied().fold(f64::INFINITY, f64::min);
    let next = ask
        .times
        .iter()
        .copied()
        .filter(|t| *t < time_s)
        .fold(0.0, f64::max);
    let between = fastest < time_s * (1.0 - SAME_TIME) && fastest > next * (1.0 + SAME_TIME);
    (between && fastest > least).then_some(fastest)
}

fn train<'a>(ask: &Ask<'a>, demand: &Arc<Demand>, grip: &Grip<'a>, site: &[Check]) -> Train<'a> {
    let (drive, crank) = (&grip.drive, grip.crank);
    let mut train = Train::new(NAME, drive.kind, drive.row, Arc::clone(demand));
    train.words = format!(
        "{} mm hand crank, {}",
        show(crank.radius.si() * 1e3),
        drive.words
    );
    // A load brake or a self-locking jack is part of every train that has something to hold.
    train.holds = true;
    train.parts = grip.parts();
    let several = ask.job.stops != Stops::Ends;
    let guards = control(ask, "hand", 0.0, several);
    let guard = guards.first();
    train
        .parts
        .extend(guard.map(|guard| PartLine::pieces("controls", &guard.common, 1)));
    train.made = vec![Made {
        what: "bracket of the crank",
        hours: 0.0,
        material: 0.0,
    }];
    train.checks = site.to_vec();
    train.checks.extend(drive.checks.iter().cloned());
    train.checks.extend(grip.checks.iter().cloned());
    train.running.cranking_s = 2.0 * grip.effort.travel_time_s;
    train.position = vec![("by hand", ask.job.rules.hand_error)];
    train.closed_length_m = drive.closed_length_m;
    train.hand_force_n = drive.gearing.hand_force_n(&grip.effort, crank);
    let yearly_m = 2.0 * ask.travel_m() * ask.job.timing.cycles_per_year();
    train.lives = drive
        .travel_life_m
        .map(|life| Life {
            what: "nut of the screw jack",
            years: life / yearly_m,
        })
        .into_iter()
        .collect();
    train.remarks = remarks(ask, grip);
    train.cautions = cautions(ask, grip);
    train
}

fn remarks(ask: &Ask, grip: &Grip) -> Vec<String> {
    let gearing = &grip.drive.gearing;
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

fn cautions(ask: &Ask, grip: &Grip) -> Vec<String> {
    let rules = &ask.job.rules;
    let mut cautions = Vec::new();
    let rpm = grip.drive.gearing.crank_rpm(ask, &grip.effort);
    if rpm > rules.hand_speed_easy {
        cautions.push(format!(
            "The crank turns at {} rpm; {} rpm is easy.",
            show(rpm),
            show(rules.hand_speed_easy)
        ));
    }
    let hold = show(grip.effort.hold_n());
    if grip.brake.is_some() {
        cautions.push(format!(
            "Only the load brake keeps the crank from spinning under {hold} N of load when the handle is let go; a ratchet would hold but could not lower. Nobody may be under the load: one tooth or one brake is all that holds it."
        ));
    } else if grip.effort.hold_n() > 0.0 {
        cautions.push(format!(
            "Only the friction of the jack holds {hold} N of load; it must not be relied on where people are below."
        ));
    }
    cautions
}
