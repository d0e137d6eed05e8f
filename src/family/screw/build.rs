//! Trains built up of a screw, its supports, a motor and what goes between.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::draw::{Draw, Electrics};
use super::fit::{Fit, Hold, Seat};
use super::found::{Found, figures};
use super::load::{Line, Load, Moves};
use super::motor::{self, Motor};
use super::nearest::nearest;
use super::pick::Pick;
use super::points::{Points, better};
use super::queue::Queue;
use super::spindle::Spindle;
use super::stock::{Range, Stock};
use super::{NAME, words};
use crate::demand::Demand;
use crate::family::check::SURELY;
use crate::family::{self, Ask, Bench, Check, Hours, Life, Made, PartLine, Train};
use crate::quantity::Si;
use crate::requirements::{Criterion, Mains, Stops};

/// Offers trains at every design time.
pub(super) fn trains<'a>(
    ask: &Ask<'a>,
    mains: &Mains,
    electrics: &Electrics<'a>,
    bench: &mut Bench<'a>,
) {
    let spindles = Spindle::all(ask, |check| bench.fails(vec![check]));
    let stock = Stock::new(ask);
    for time_s in ask.times {
        let demand = ask.demand(*time_s);
        if !bench.explains() && family::is_hopeless(ask, &demand) {
            continue;
        }
        let moves = Moves::new(ask, &demand);
        let mut found = Found::default();
        for (spindle, checks) in worth_driving(ask, &spindles, &moves, bench) {
            let load = Load::new(spindle, &demand, &moves);
            let Some(coupling) = stock.coupling(ask, &load, 0.0) else {
                bench.fails(vec![Check::of(
                    "coupling.present",
                    false,
                    "asked: a coupling; gives: none in the catalog",
                )]);
                continue;
            };
            let at = Place {
                seat: Seat {
                    ask,
                    stock: &stock,
                    spindle,
                    load: &load,
                    coupling,
                },
                mains,
                electrics,
                demand: &demand,
                moves: &moves,
                spindle_checks: &checks,
            };
            for range in &stock.ranges {
                at.offer(range, &mut found, bench);
            }
        }
        for train in found.into_trains() {
            bench.offer(train);
        }
    }
}

/// The screws that pass every check of their own: of those that differ in nothing but size the cheapest, two where a longer life is rewarded.
fn worth_driving<'s, 'a>(
    ask: &Ask<'a>,
    spindles: &'s [Spindle<'a>],
    moves: &Moves,
    bench: &mut Bench<'a>,
) -> Vec<(&'s Spindle<'a>, Vec<Check>)> {
    let life = ask.job.wants.get(&Criterion::Life);
    let sizes = 1 + usize::from(life.is_some_and(|want| want.reward.is_some()));
    let mut worth: Vec<(&Spindle, Vec<Check>)> = Vec::new();
    let mut taken = BTreeMap::new();
    for spindle in spindles {
        let same: &mut usize = taken.entry(spindle.choice).or_default();
        if *same >= sizes {
            continue;
        }
        let checks = spindle.checks(ask, moves);
        if checks.iter().all(Check::passes) {
            *same += 1;
            worth.push((spindle, checks));
        } else {
            bench.fails(checks);
        }
    }
    worth
}

/// A screw at a demand, and what goes into any train of it.
struct Place<'p, 'a> {
    seat: Seat<'p, 'a>,
    mains: &'p Mains,
    electrics: &'p Electrics<'a>,
    demand: &'p Arc<Demand>,
    moves: &'p Moves,
    spindle_checks: &'p [Check],
}

impl<'a> Place<'_, 'a> {
    /// Finds the cheapest pick of a range that passes, and dearer ones that are better in something wanted; of a range with none it reports the nearest.
    fn offer(&self, range: &Range<'a>, found: &mut Found<'a>, bench: &mut Bench<'a>) {
        // The best of each finer point among the picks that pass.
        let mut best: Option<Points> = None;
        match range {
            Range::Plain(picks) => {
                for pick in picks {
                    // Nothing is below 0: where no finer point is wanted, the first that passes is the last to be tried.
                    if best.is_some_and(|best| best.iter().all(|point| *point <= 0.0)) {
                        break;
                    }
                    self.try_one(*pick, &mut best, found, bench);
                }
            }
            Range::Geared(geared) => {
                let mut queue = Queue::new(self.seat, geared);
                while let Some(pick) = queue.next(best) {
                    self.try_one(pick, &mut best, found, bench);
                }
            }
        }
        if best.is_none()
            && bench.explains()
            && let Some(fit) = nearest(self.seat, range, self.moves)
        {
            let (ask, load) = (self.seat.ask, self.seat.load);
            bench.misses(fit.checks(ask, load, self.moves));
        }
    }

    /// Tries a pick, unless it is better in nothing than those before it.
    fn try_one(
        &self,
        pick: Pick<'a>,
        best: &mut Option<Points>,
        found: &mut Found<'a>,
        bench: &mut Bench<'a>,
    ) {
        let (ask, load) = (self.seat.ask, self.seat.load);
        let points = pick.finer_points;
        if !better(&points, *best) || pick.is_too_weak(ask, load) {
            return;
        }
        // What the screw alone is too heavy for, or too much running, needs no fit.
        let (motor, ratio) = (pick.motor, pick.ratio());
        let line = Line {
            ratio,
            efficiency: 1.0,
            inertia_kg_m2: motor.inertia_kg_m2()
                + self.seat.spindle.inertia_kg_m2 / (ratio * ratio),
            carried_kg_m2: 0.0,
        };
        if motor.last_bound(ask, load, &line) > SURELY {
            return;
        }
        let Some(fit) = Fit::new(self.seat, pick) else {
            return;
        };
        if let Some(checks) = fit.sound(ask, load, self.moves) {
            let old = best.unwrap_or(points);
            *best = Some(core::array::from_fn(|i| old[i].min(points[i])));
            self.found(&fit, checks, found, bench);
        }
    }

    fn found(
        &self,
        fit: &Fit<'a>,
        checks: Vec<Check>,
        found: &mut Found<'a>,
        bench: &mut Bench<'a>,
    ) {
        let ask = self.seat.ask;
        let mut train = self.build(fit, checks);
        let fittings = family::fit(ask, &mut train);
        let motor = fit.pick.motor.kind();
        let kind = (self.seat.spindle.kind(), motor, fit.pick.gearbox.is_some());
        let figures = figures(ask, &train);
        let beaten = found.beats(kind, &figures);
        // The one that beats it has passed what depends on the demand alone: words are wasted on this one.
        if beaten && train.passes() && family::bears_site(ask, &train, &fittings) {
            return;
        }
        words::say(self.seat, self.moves, &mut train, fit);
        let train = family::check_all(ask, train, &fittings);
        if !train.passes() {
            bench.misses(train.checks);
        } else if !beaten {
            found.take(kind, figures, train);
        }
    }

    /// A train without its words and without what all trains are checked for.
    fn build(&self, fit: &Fit<'a>, motor_checks: Vec<Check>) -> Train<'a> {
        let (ask, spindle) = (self.seat.ask, self.seat.spindle);
        let mut train = Train::new(NAME, "", Hours::Screw, Arc::clone(self.demand));
        train.holds |= !matches!(fit.hold, Hold::Motor);
        train.checks.extend_from_slice(self.spindle_checks);
        train.checks.extend(motor_checks);
        if matches!(fit.hold, Hold::Thread) {
            train.checks.extend(spindle.locking_check(ask));
        }
        self.parts(&mut train.parts, fit);
        self.electricity(&mut train, fit);
        // Stopped by something in its way, the motor gives what it can at rest.
        let turned = fit.line.ratio * fit.line.efficiency * fit.pick.motor.stalled_n_m();
        train.presses_n = Some([spindle.thrust_n(turned); 2]);
        train.closed_length_m = self.closed_length_m(fit);
        train.position = self.position(fit);
        train.lives = spindle.lives(ask, self.moves);
        if let Motor::Gear(m) = fit.pick.motor {
            let running_s = self.moves.run_s * ask.job.timing.cycles_per_year();
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

    fn parts(&self, parts: &mut Vec<PartLine<'a>>, fit: &Fit<'a>) {
        let support = &self.seat.spindle.support.common;
        let motor = fit.pick.motor;
        parts.push(self.seat.spindle.line());
        parts.push(PartLine::pieces(motor.part_kind(), motor.common(), 1));
        if let Some(gearbox) = fit.pick.gearbox {
            parts.push(PartLine::pieces("gearboxes", &gearbox.common, 1));
        }
        if let Hold::Brake(brake) = fit.hold {
            parts.push(PartLine::pieces("brakes", &brake.common, 1));
        }
        parts.push(PartLine::pieces("screw_supports", support, 1));
        parts.push(PartLine::pieces("couplings", &fit.coupling.common, 1));
    }

    /// Supply, controls, energy, and the mains.
    fn electricity(&self, train: &mut Train<'a>, fit: &Fit<'a>) {
        let motor = fit.pick.motor;
        let energy = motor.energy(self.seat.load, &fit.line, fit.still, self.moves);
        let brake_w = fit.hold.power_w();
        // A stepper that a brake or its thread relieves is switched off at rest.
        let holding_j = match fit.hold {
            Hold::Brake(_) | Hold::BuiltIn { .. } | Hold::Thread => 0.0,
            Hold::Nothing | Hold::Motor => energy.holding_j,
        };
        let draw = Draw {
            shaft_w: energy.shaft_w,
            peak_w: energy.peak_w,
            moving_j: energy.moving_j,
            holding_j,
            standby_w: motor.standby_w(),
            brake_w,
            rated_w: motor.rated_w(),
            run_s: self.moves.run_s,
        };
        draw.take(
            self.electrics,
            self.mains,
            train,
            motor.supply_voltage_v(),
            motor.controls(),
        );
    }

    fn closed_length_m(&self, fit: &Fit) -> f64 {
        let brake = match fit.hold {
            Hold::Brake(brake) => brake.length.si(),
            _ => 0.0,
        };
        // What all trains are checked for adds the bellows.
        self.seat.spindle.free_length_m - self.seat.spindle.bellows_m
            + self.seat.spindle.support.length.si()
            + fit.coupling.length.si()
            + fit.pick.gearbox.map_or(0.0, |g| g.length.si())
            + fit.pick.motor.length_m()
            + brake
    }

    fn position(&self, fit: &Fit) -> Vec<(&'static str, f64)> {
        let (spindle, motor) = (self.seat.spindle, fit.pick.motor);
        let lead = spindle.lead_m;
        let mut parts = vec![
            (
                "lead error over the travel",
                spindle.lead_error_m() * self.seat.ask.travel_m(),
            ),
            ("play of the nut", spindle.backlash_m()),
            (
                "step of the motor",
                motor::travel_m(motor.step_error_rad(), lead) / fit.line.ratio,
            ),
        ];
        if let Some(gearbox) = fit.pick.gearbox {
            let play = motor::travel_m(gearbox.backlash.si(), lead);
            parts.push(("play of the gearbox", play));
        }
        if matches!(motor, Motor::Gear(_)) && self.seat.ask.job.stops == Stops::Ends {
            parts.push(("end switch", self.seat.ask.job.rules.hard_stop_error));
        }
        parts
    }
}

/// Way before a brake bites, from the peak speed, the held force free to speed up all that moves with the lightest load: `v t + F t²/(2 m)`.
pub(super) fn drop_m(moves: &Moves, load_kg: f64, time_s: f64) -> f64 {
    moves.speed_m_s * time_s + moves.holding_n / load_kg * time_s * time_s / 2.0
}
