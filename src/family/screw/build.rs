//! Trains built up of a screw, its supports, a motor and what goes between.

use std::sync::Arc;

use super::spindle::Spindle;
use super::{NAME, words};
use crate::demand::Demand;
use crate::family::choose::{Goals, Merits, ParetoFront};
use crate::family::electric::{Cycle, Electrics, Holding, Motor, MotorDrive, Shaft, runs};
use crate::family::fitted::Fittings;
use crate::family::{self, Ask, Bench, Check, Hours, Life, Made, PartLine, Train};
use crate::quantity::Si;
use crate::requirements::Stops;

/// Thread, motor, and whether there is a gearbox.
type ScrewKind = (&'static str, &'static str, bool);

/// Offers trains at every design time.
pub(super) fn trains<'a>(ask: &Ask<'a>, electrics: &Electrics<'a>, bench: &mut Bench<'a>) {
    let goals = ask.goals();
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
            seats.push(Seat {
                ask,
                goals,
                electrics,
                demand: &demand,
                shaft: Shaft::new(ask, spindle.mechanism, &cycle, &runs),
                spindle,
                checks,
            });
        }
        // Words are said of those alone that nothing at this design time beats.
        let mut best: ParetoFront<(ScrewKind, Merits), DraftTrain> = ParetoFront::default();
        for seat in &seats {
            electrics.choose(ask, &seat.shaft, bench, |drive, bench| {
                seat.draft(*drive, &mut best, bench)
            });
        }
        for draft in best.into_items() {
            bench.offer(draft.finish());
        }
    }
}

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
    best.into_items().collect()
}

/// A screw at a demand, waiting for a motor.
struct Seat<'s, 'a> {
    ask: &'s Ask<'a>,
    goals: Goals,
    electrics: &'s Electrics<'a>,
    demand: &'s Arc<Demand>,
    spindle: &'s Spindle<'a>,
    /// Those of the screw itself.
    checks: Vec<Check>,
    shaft: Shaft<'s>,
}

/// A train without its words and without what all trains are checked for.
struct DraftTrain<'s, 'a> {
    seat: &'s Seat<'s, 'a>,
    drive: MotorDrive<'s, 'a>,
    train: Train<'a>,
    fittings: Fittings<'a>,
}

impl<'a> DraftTrain<'_, 'a> {
    fn finish(self) -> Train<'a> {
        let Self {
            seat, mut train, ..
        } = self;
        words::say(seat.ask, seat.spindle, &self.drive, &mut train);
        family::check_all(seat.ask, train, &self.fittings)
    }
}

impl<'s, 'a> Seat<'s, 'a> {
    /// Takes the trains of a drive to the best, one for each choice of its supply and controls; whether one of them passes.
    fn draft(
        &'s self,
        drive: MotorDrive<'s, 'a>,
        best: &mut ParetoFront<(ScrewKind, Merits), DraftTrain<'s, 'a>>,
        bench: &mut Bench<'a>,
    ) -> bool {
        let (ask, draw) = (self.ask, drive.draw());
        let mut sound = false;
        for feed in draw.feeds(self.electrics) {
            let mut train = self.train(&drive);
            draw.add(self.electrics, feed, &mut train);
            let fittings = family::fit(ask, &mut train);
            let passes = train.passes() && family::bears_site(ask, &train, &fittings);
            sound |= passes;
            let kind = (
                self.spindle.kind(),
                drive.motor.kind(),
                drive.gearbox.is_some(),
            );
            let worth = (kind, self.goals.of_drive(Merits::train(ask, &train)));
            let unwanted = if passes {
                best.beats(&worth)
            } else {
                !bench.explains()
            };
            if unwanted {
                continue;
            }
            let own = self.own_checks(&drive);
            train.checks.splice(0..0, own);
            let draft = DraftTrain {
                seat: self,
                drive,
                train,
                fittings,
            };
            if passes {
                best.take(worth, draft);
            } else {
                bench.misses(draft.finish().checks);
            }
        }
        sound
    }

    /// Every check of screw and motor: those of a drive that was chosen pass.
    fn own_checks(&self, drive: &MotorDrive<'s, 'a>) -> Vec<Check> {
        let mut checks = self.checks.clone();
        checks.extend(drive.checks());
        if matches!(drive.holding, Holding::Mechanism) {
            checks.extend(self.spindle.locking_check(self.ask));
        }
        checks
    }

    /// A train without its supply and controls, and without the checks of screw and motor.
    fn train(&self, drive: &MotorDrive<'s, 'a>) -> Train<'a> {
        let (ask, spindle, cycle) = (self.ask, self.spindle, self.shaft.cycle);
        let mut train = Train::new(NAME, "", Hours::SCREW, Arc::clone(self.demand));
        train.holds |= !matches!(drive.holding, Holding::Motor);
        let support = PartLine::pieces("screw_supports", &spindle.support.common, 1);
        train.parts.push(spindle.line());
        train.parts.extend(drive.parts());
        train.parts.extend([support, drive.coupling_line()]);
        // Stopped by something in its way, the motor gives what it can at rest.
        train.presses_n = Some([drive.stalled_n(); 2]);
        // What all trains are checked for adds the bellows.
        train.closed_length_m = spindle.free_length_m - spindle.bellows_m
            + spindle.support.length.si()
            + drive.length_m();
        train.position.extend(spindle.position(ask));
        train.position.extend(drive.position());
        train.lives = spindle.lives(ask, cycle);
        if let Motor::Gear(m) = drive.motor {
            if ask.job.stops == Stops::Ends {
                let error_m = ask.job.rules.hard_stop_error;
                train.position.push(("end switch", error_m));
            }
            let running_s = cycle.run_s * ask.job.timing.cycles_per_year();
            train.lives.push(Life {
                what: "brushes of the motor",
                years: m.running_life.si() / running_s,
            });
        }
        train.made = vec![Made {
            what: "nut bracket and motor plate",
            hours: 0.0,
            material: spindle.support.bracket_material,
        }];
        train
    }
}
