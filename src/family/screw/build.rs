//! Drives built up of a screw, its supports, a motor and what goes between.

use std::sync::Arc;

use super::spindle::Spindle;
use super::{NAME, words};
use crate::demand::Demand;
use crate::family::choose::ParetoFront;
use crate::family::electric::{self, Cycle, Electrics, MotorDrive, Shaft, runs};
use crate::family::{self, Ask, Bench, Check, Custom, Drive, Hours, PartLine};
use crate::quantity::Si;

/// Offers drives at every design time.
pub(super) fn drives<'a>(ask: &Ask<'a>, electrics: &Electrics<'a>, bench: &mut Bench<'a>) {
    let spindles = Spindle::all(ask, |check| bench.fails(vec![check]));
    for time_s in ask.times {
        let demand = ask.demand(*time_s);
        if !bench.explains() && family::is_hopeless(ask, &demand) {
            continue;
        }
        let cycle = Cycle::new(ask, &demand);
        let runs = runs(&demand);
        let mut seats = Vec::new();
        for (spindle, checks) in worth_driving(ask, &spindles, &cycle, bench) {
            seats.push(SpindleSeat {
                ask,
                demand: &demand,
                shaft: Shaft::new(ask, spindle.mechanism, &cycle, &runs),
                spindle,
                checks,
            });
        }
        electric::offer(ask, electrics, &seats, bench);
    }
}

/// Most screws that wait for a motor; of the built-in catalog there are 50.
const SEATS_MOST: usize = 400;

/// The screws that pass every check of their own and that no cheaper one of their sort is as good as.
fn worth_driving<'s, 'a>(
    ask: &Ask<'a>,
    spindles: &'s [Spindle<'a>],
    cycle: &Cycle,
    bench: &mut Bench<'a>,
) -> Vec<(&'s Spindle<'a>, Vec<Check>)> {
    let goals = ask.goals();
    let mut best = ParetoFront::default();
    for spindle in spindles {
        let worth = spindle.worth(ask, &goals, cycle);
        if best.beats(&worth) {
            continue;
        }
        let checks = spindle.checks(ask, cycle);
        if checks.iter().all(Check::passes) {
            best.take(worth, (spindle, checks));
        } else {
            bench.fails(checks);
        }
    }
    let mut best: Vec<_> = best.into_items().collect();
    if best.len() > SEATS_MOST {
        // A device for speed, for catalogs of many makers: the cheapest stay.
        best.sort_by(|(p, _), (q, _)| p.life_cost(ask).total_cmp(&q.life_cost(ask)));
        best.truncate(SEATS_MOST);
    }
    best
}

/// A screw at a demand, waiting for a motor.
struct SpindleSeat<'s, 'a> {
    ask: &'s Ask<'a>,
    demand: &'s Arc<Demand>,
    spindle: &'s Spindle<'a>,
    /// Those of the screw itself.
    checks: Vec<Check>,
    shaft: Shaft<'s>,
}

impl<'a> electric::Seat<'a> for SpindleSeat<'_, 'a> {
    fn sort(&self) -> &'static str {
        self.spindle.kind()
    }
    fn words(&self) -> String {
        self.spindle.words()
    }
    fn shaft(&self) -> &Shaft<'_> {
        &self.shaft
    }
    fn checks(&self) -> &[Check] {
        &self.checks
    }
    fn locking_check(&self) -> Option<Check> {
        self.spindle.locking_check(self.ask)
    }

    fn drive(&self, motor_drive: &MotorDrive<'_, 'a>) -> Drive<'a> {
        let (ask, spindle, cycle) = (self.ask, self.spindle, self.shaft.cycle);
        let mut drive = Drive::new(NAME, "", Hours::SCREW, Arc::clone(self.demand));
        let support = PartLine::part(spindle.support, 1);
        drive.parts.push(spindle.line());
        drive
            .covered
            .extend(spindle.covered.then_some(spindle.id()));
        drive.parts.extend(motor_drive.parts());
        drive.parts.extend([support, motor_drive.coupling_line()]);
        // What all drives are checked for adds the bellows.
        drive.closed_length_m = spindle.free_length_m - spindle.bellows_m
            + spindle.support.length.si()
            + motor_drive.length_m();
        drive.position.extend(spindle.position(ask));
        drive.lives = spindle.lives(ask, cycle);
        drive.custom = vec![Custom {
            what: "nut bracket and motor plate",
            material: spindle.support.bracket_material,
        }];
        drive
    }

    fn say(&self, motor_drive: &MotorDrive<'_, 'a>, drive: &mut Drive<'a>) {
        words::say(self.ask, self.spindle, motor_drive, drive);
    }
}
