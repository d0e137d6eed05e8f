//! Drives about a motor drive: what a family builds on a shaft, with every drive, supply and controls that are worth it.

use std::collections::BTreeMap;

use super::drive::MotorDrive;
use super::holding::Holding;
use super::motor::Motor;
use super::parts::Electrics;
use super::shaft::Shaft;
use crate::family::choose::{Goals, Merits, ParetoFront};
use crate::family::fitted::{self, Fittings};
use crate::family::{Ask, Bench, Check, Drive, Life};
use crate::quantity::{Si, show};
use crate::requirements::Stops;

/// A mechanism at a demand, waiting for a motor: what its family says of it.
pub(in crate::family) trait Seat<'a> {
    /// Its sort, which begins the drive type, such as `ball screw`.
    fn sort(&self) -> &'static str;
    /// Its name with its sizes, for the table.
    fn words(&self) -> String;
    /// What the motor turns.
    fn shaft(&self) -> &Shaft<'_>;
    /// The checks of the mechanism itself: all pass.
    fn checks(&self) -> &[Check];
    /// Whether a mechanism that is said to lock does so.
    fn locking_check(&self) -> Option<Check> {
        None
    }
    /// A drive without its name, its supply and controls, what its motor leaves open and wears, and the checks of mechanism
    /// and drive.
    fn drive(&self, motor_drive: &MotorDrive<'_, 'a>) -> Drive<'a>;
    /// Adds its cautions, and what proves it beside what proves any drive.
    fn say(&self, motor_drive: &MotorDrive<'_, 'a>, drive: &mut Drive<'a>);
}

/// Sort of mechanism, motor, and whether there is a gearbox.
type ElectricKind = (&'static str, &'static str, bool);

/// Offers the drives of seats at one design time that nothing beats there.
pub(in crate::family) fn offer<'a, S: Seat<'a>>(
    ask: &Ask<'a>,
    electrics: &Electrics<'a>,
    seats: &[S],
    bench: &mut Bench<'a>,
) {
    let builder = DriveBuilder {
        ask,
        goals: ask.goals(),
        electrics,
    };
    // Words are said of those alone that nothing at this design time beats.
    let mut drafts: Drafts<S> = (ParetoFront::default(), BTreeMap::new());
    for seat in seats {
        electrics.choose(ask, seat.shaft(), bench, |motor_drive, bench| {
            builder.take(seat, *motor_drive, &mut drafts, bench)
        });
    }
    for draft in drafts.0.into_items() {
        bench.offer(builder.finish(draft));
    }
}

/// A drive without its words and without what all drives are checked for.
struct DraftDrive<'s, 'a, S> {
    seat: &'s S,
    motor_drive: MotorDrive<'s, 'a>,
    drive: Drive<'a>,
    fittings: Fittings<'a>,
}

/// The drafts that nothing beats, and what the cheapest of each kind costs over the horizon.
type Drafts<'s, 'a, S> = (
    ParetoFront<(ElectricKind, Merits), DraftDrive<'s, 'a, S>>,
    BTreeMap<ElectricKind, f64>,
);

/// A device for speed, for catalogs of many makers: of the built-in one there are 45 at most at a design time.
const DRAFTS_MOST: usize = 800;

struct DriveBuilder<'s, 'a> {
    ask: &'s Ask<'a>,
    goals: Goals,
    electrics: &'s Electrics<'a>,
}

impl<'s, 'a> DriveBuilder<'s, 'a> {
    /// Takes the drives of a drive to the best, one for each choice of its supply and controls; whether one of them passes.
    fn take<S: Seat<'a>>(
        &self,
        seat: &'s S,
        motor_drive: MotorDrive<'s, 'a>,
        (best, cheapest): &mut Drafts<'s, 'a, S>,
        bench: &mut Bench<'a>,
    ) -> bool {
        let (ask, draw) = (self.ask, motor_drive.draw());
        let mut sound = false;
        for feed in draw.feeds(self.electrics) {
            if !bench.explains() && !draw.is_fed(self.electrics, feed) {
                continue;
            }
            let mut drive = seat.drive(&motor_drive);
            motor_drive.add(&mut drive);
            draw.add(self.electrics, feed, &mut drive);
            let fittings = fitted::fit(ask, &mut drive);
            let passes = drive.passes() && fitted::bears_site(ask, &drive, &fittings);
            sound |= passes;
            let kind = (
                seat.sort(),
                motor_drive.motor.kind(),
                motor_drive.gearbox.is_some(),
            );
            let worth = (kind, self.goals.of_drive(Merits::drive(ask, &drive)));
            let unwanted = if passes {
                let costs = self.goals.life_cost(&worth.1);
                let cheapest = cheapest.entry(kind).or_insert(f64::INFINITY);
                let is_cheapest = costs < *cheapest;
                *cheapest = cheapest.min(costs);
                // Beyond so many only a cheaper one of its kind is worth a look.
                best.len() >= DRAFTS_MOST && !is_cheapest || best.beats(&worth)
            } else {
                !bench.explains()
            };
            if unwanted {
                continue;
            }
            drive.checks.splice(0..0, own_checks(seat, &motor_drive));
            if passes {
                let draft = DraftDrive {
                    seat,
                    motor_drive,
                    drive,
                    fittings,
                };
                best.take(worth, draft);
            } else {
                // Nothing is said of it but what it fails.
                bench.misses(fitted::check(ask, drive, &fittings).checks);
            }
        }
        sound
    }

    fn finish<S: Seat<'a>>(&self, draft: DraftDrive<'s, 'a, S>) -> Drive<'a> {
        let DraftDrive {
            seat,
            motor_drive,
            mut drive,
            fittings,
        } = draft;
        drive.kind = motor_drive.kind_of(seat.sort());
        drive.words = motor_drive.words_of(&seat.words());
        seat.say(&motor_drive, &mut drive);
        motor_drive.say(&mut drive);
        fitted::check(self.ask, drive, &fittings)
    }
}

/// Every check of mechanism and drive: those of a drive that was chosen pass.
fn own_checks<'a, S: Seat<'a>>(seat: &S, motor_drive: &MotorDrive<'_, 'a>) -> Vec<Check> {
    let mut checks = seat.checks().to_vec();
    checks.extend(motor_drive.checks());
    if matches!(motor_drive.holding, Holding::Mechanism) {
        checks.extend(seat.locking_check());
    }
    checks
}

impl MotorDrive<'_, '_> {
    /// Adds what it leaves open of a position, how it holds, and what of it wears.
    fn add(&self, drive: &mut Drive) {
        drive.holds |= !matches!(self.holding, Holding::Motor);
        // Stopped by something in its way, the motor gives what it can at rest.
        drive.presses_n = drive.presses_n.or(Some([self.stalled_n(); 2]));
        drive.position.extend(self.position());
        if let Motor::Gear(m) = self.motor {
            let job = self.ask.job;
            if job.stops == Stops::Ends {
                drive
                    .position
                    .push(("end switch", job.rules.hard_stop_error));
            }
            let running_s = self.shaft.cycle.run_s * job.timing.cycles_per_year();
            drive.lives.push(Life {
                what: "brushes of the motor",
                years: m.running_life.si() / running_s,
            });
        }
    }

    /// What a drive with a sort of mechanism is called among kinds of drives.
    fn kind_of(&self, sort: &str) -> String {
        let geared = self.gearbox.map_or("", |_| ", geared");
        format!("{sort}, {}{geared}", self.motor.kind())
    }

    /// Name of a drive with a mechanism, with sizes.
    fn words_of(&self, mechanism: &str) -> String {
        let gear = self.gearbox;
        let gear = gear.map_or_else(String::new, |gear| format!(" {}:1", show(gear.ratio)));
        format!("{mechanism}, {}{gear}", self.motor.words())
    }

    /// Says how it stops, and what proves it.
    fn say(&self, drive: &mut Drive) {
        if let Some(time_s) = self.holding.time_s() {
            // The rotor and the shaft turn with the load, and weigh on it far more than its own mass.
            let turn = self.shaft.mechanism.turn_per_m() * self.line.ratio;
            let turning_kg = self.line.inertia_kg_m2 * turn * turn;
            let [least_kg, _] = self.ask.moving_kg(self.ask.book.axis().loads_kg[0]);
            let drop_m = self.shaft.cycle.drop_m(least_kg + turning_kg, time_s);
            drive.remarks.push(format!(
                "If the power fails in motion, the load runs on by up to {} mm in the {} ms before the brake bites.",
                show(drop_m * 1e3),
                show(time_s * 1e3)
            ));
        }
        drive.proofs.extend(self.proof());
        if matches!(self.motor, Motor::Gear(_)) {
            drive.remarks.push(
                "The DC motor stops on end switches or counted pulses and is slowed by its controller."
                    .into(),
            );
        }
    }
}
