//! Trains built up of a screw, its supports, a motor and what goes between.

use std::sync::Arc;

use super::load::{Load, Moves};
use super::motor::{self, Motor};
use super::pick::{self, Fit, Hold, Pick, Range, Stock};
use super::spindle::Spindle;
use super::{NAME, NO_FORCE_N};
use crate::catalog::Coupling;
use crate::demand::Demand;
use crate::family::{self, Ask, Bench, Check, Hours, Life, Made, PartLine, Train};
use crate::quantity::{self, Si, in_words, show};
use crate::requirements::{Criterion, Mains, PowerLoss, Stops};

/// Offers trains at every design time.
pub(super) fn trains<'a>(ask: &Ask<'a>, mains: &Mains, bench: &mut Bench<'a>) {
    let spindles = Spindle::all(ask, |check| bench.fails(vec![check]));
    let stock = Stock::new(ask);
    for time_s in ask.times {
        let demand = ask.demand(*time_s);
        let moves = Moves::new(ask, &demand);
        let mut found = Vec::new();
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
                ask,
                mains,
                stock: &stock,
                demand: &demand,
                moves: &moves,
                spindle,
                spindle_checks: &checks,
                load: &load,
                coupling,
            };
            for range in &stock.ranges {
                at.offer(range, &mut found, bench);
            }
        }
        for one in found {
            bench.offer(one.train);
        }
    }
}

/// A train with its figures.
struct Found<'a> {
    kind: Kind,
    figures: [f64; 10],
    train: Train<'a>,
}

/// Thread, motor, and whether there is a gearbox.
type Kind = (&'static str, &'static str, bool);

impl Found<'_> {
    /// Whether it is no worse in anything that counts than a train of its kind with these figures.
    fn beats(&self, kind: Kind, figures: &[f64; 10]) -> bool {
        self.kind == kind && no_worse(&self.figures, figures)
    }
}

fn no_worse(ours: &[f64; 10], theirs: &[f64; 10]) -> bool {
    ours.iter().zip(theirs).all(|(p, q)| p <= q)
}

/// Everything by which a train can be better than another of its kind and time, less being better: money, and what the job wants.
fn figures(ask: &Ask, train: &Train) -> [f64; 10] {
    let timing = &ask.job.timing;
    let sum = |of: fn(&PartLine) -> f64| train.parts.iter().map(of).sum::<f64>();
    let wanted = |criterion: Criterion, value: f64| {
        if ask.job.wants.contains_key(&criterion) {
            value
        } else {
            0.0
        }
    };
    let running = &train.running;
    let cycle_j = running.moving_j + running.holding_j;
    let sound = sum(|part| {
        let loud = |level: crate::quantity::NoiseLevel| libm::pow(10.0, level.si() / 10.0);
        f64::from(part.quantity) * part.common.noise.map_or(0.0, loud)
    });
    let lives = train.lives.iter().map(|life| life.years);
    [
        train.parts_cost() + train.made.iter().map(|made| made.material).sum::<f64>(),
        cycle_j * timing.cycles_per_year() + running.standby_w * 3600.0 * timing.hours_per_year(),
        sum(|p| f64::from(p.quantity) * (p.common.upkeep_hours + p.common.fit_hours)),
        wanted(Criterion::EnergyPerCycle, cycle_j),
        wanted(
            Criterion::AddedMass,
            sum(|p| f64::from(p.quantity) * p.mass_kg),
        ),
        wanted(Criterion::PartCount, sum(|p| f64::from(p.quantity))),
        wanted(Criterion::Noise, sound),
        wanted(
            Criterion::PositionError,
            train.position.iter().map(|(_, error)| error * error).sum(),
        ),
        wanted(Criterion::ClosedLength, train.closed_length_m),
        wanted(Criterion::Life, -lives.fold(f64::INFINITY, f64::min)),
    ]
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
    for spindle in spindles {
        let same = worth
            .iter()
            .filter(|(other, _)| other.choice(ask) == spindle.choice(ask))
            .count();
        if same >= sizes {
            continue;
        }
        let checks = spindle.checks(ask, moves);
        if checks.iter().all(Check::passes) {
            worth.push((spindle, checks));
        } else {
            bench.fails(checks);
        }
    }
    worth
}

/// What a range has shown so far.
#[derive(Default)]
struct Search<'a> {
    /// The best of each finer point among the picks that pass.
    best: Option<[f64; 4]>,
    /// How far the nearest that does not pass is used.
    nearest: Option<(f64, Fit<'a>)>,
}

/// A screw at a demand, waiting for a motor.
struct Place<'p, 'a> {
    ask: &'p Ask<'a>,
    mains: &'p Mains,
    stock: &'p Stock<'a>,
    demand: &'p Arc<Demand>,
    moves: &'p Moves,
    spindle: &'p Spindle<'a>,
    spindle_checks: &'p [Check],
    load: &'p Load<'p>,
    coupling: &'a Coupling,
}

impl<'a> Place<'_, 'a> {
    /// Finds the cheapest pick of a range that passes, and dearer ones that are better in something wanted; of a range with none it reports the nearest.
    fn offer(&self, range: &Range<'a>, found: &mut Vec<Found<'a>>, bench: &mut Bench<'a>) {
        let mut search = Search::default();
        match range {
            Range::Plain(picks) => picks
                .iter()
                .for_each(|pick| self.try_one(*pick, &mut search, found, bench)),
            Range::Geared(geared) if bench.explains() => geared
                .all(self.ask)
                .iter()
                .for_each(|pick| self.try_one(*pick, &mut search, found, bench)),
            Range::Geared(geared) => {
                let mut queue =
                    geared.queue(self.ask, self.stock, self.spindle, self.load, self.coupling);
                while let Some(pick) = queue.next(search.best) {
                    self.try_one(pick, &mut search, found, bench);
                }
            }
        }
        if let (Some((_, fit)), None) = (search.nearest, search.best) {
            bench.misses(fit.checks(self.ask, self.load, self.moves));
        }
    }

    /// Tries a pick, unless it is better in nothing than those before it.
    fn try_one(
        &self,
        pick: Pick<'a>,
        search: &mut Search<'a>,
        found: &mut Vec<Found<'a>>,
        bench: &mut Bench<'a>,
    ) {
        let (ask, load) = (self.ask, self.load);
        let points = pick.finer_points;
        let better = |best: [f64; 4]| points.iter().zip(best).any(|(new, old)| *new < old);
        if search.best.is_some_and(|best| !better(best)) {
            return;
        }
        // Where nobody asks what came nearest, it is enough to know that this does not.
        let brief = !bench.explains();
        if brief && pick.is_too_weak(ask, load) {
            return;
        }
        let Some(fit) = Fit::new(ask, self.stock, self.spindle, load, pick, self.coupling) else {
            return;
        };
        let judged = if brief {
            fit.sound(ask, load, self.moves).ok_or(f64::INFINITY)
        } else {
            fit.judged(ask, load, self.moves)
        };
        match judged {
            Ok(checks) => {
                let old = search.best.unwrap_or(points);
                search.best = Some(core::array::from_fn(|i| old[i].min(points[i])));
                self.found(&fit, checks, found, bench);
            }
            Err(used) if !brief && search.nearest.is_none_or(|(least, _)| used < least) => {
                search.nearest = Some((used, fit));
            }
            Err(_) => {}
        }
    }

    fn found(
        &self,
        fit: &Fit<'a>,
        checks: Vec<Check>,
        found: &mut Vec<Found<'a>>,
        bench: &mut Bench<'a>,
    ) {
        let ask = self.ask;
        let mut train = self.build(fit, checks);
        let fittings = family::fit(ask, &mut train);
        let motor = fit.pick.motor.kind();
        let kind = (self.spindle.kind(), motor, fit.pick.gearbox.is_some());
        let figures = figures(ask, &train);
        let beaten = found.iter().any(|other| other.beats(kind, &figures));
        // The one that beats it has passed what depends on the demand alone: words are wasted on this one.
        if beaten && train.passes() && family::bears_site(ask, &train, &fittings) {
            return;
        }
        self.say(&mut train, fit);
        let train = family::check_all(ask, train, &fittings);
        if !train.passes() {
            bench.misses(train.checks);
        } else if !beaten {
            found.retain(|other| other.kind != kind || !no_worse(&figures, &other.figures));
            found.push(Found {
                kind,
                figures,
                train,
            });
        }
    }

    /// A train without its words and without what all trains are checked for.
    fn build(&self, fit: &Fit<'a>, motor_checks: Vec<Check>) -> Train<'a> {
        let (ask, spindle) = (self.ask, self.spindle);
        let mut train = Train::new(NAME, "", Hours::Screw, Arc::clone(self.demand));
        train.holds |= !matches!(fit.hold, Hold::Motor);
        train.checks.extend_from_slice(self.spindle_checks);
        train.checks.extend(motor_checks);
        if matches!(fit.hold, Hold::Thread) {
            train.checks.extend(spindle.locking_check(ask));
        }
        self.parts(&mut train.parts, fit);
        self.electricity(&mut train, fit);
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
        let support = &self.spindle.support.common;
        let motor = fit.pick.motor;
        parts.push(self.spindle.line());
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
        let energy = motor.energy(self.load, &fit.line, fit.still, self.moves);
        let brake_w = fit.hold.power_w();
        // A stepper that a brake or its thread relieves is switched off at rest.
        let holding_j = match fit.hold {
            Hold::Brake(_) | Hold::BuiltIn { .. } | Hold::Thread => 0.0,
            Hold::Nothing | Hold::Motor => energy.holding_j,
        };
        let draw = Draw {
            peak_w: energy.peak_w,
            moving_j: energy.moving_j,
            holding_j,
            standby_w: motor.standby_w(),
            brake_w,
            rated_w: motor.rated_w(),
            run_s: self.moves.run_s,
        };
        draw.take(
            self.ask,
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
        self.spindle.free_length_m - self.spindle.bellows_m
            + self.spindle.support.length.si()
            + fit.coupling.length.si()
            + fit.pick.gearbox.map_or(0.0, |g| g.length.si())
            + fit.pick.motor.length_m()
            + brake
    }

    fn position(&self, fit: &Fit) -> Vec<(&'static str, f64)> {
        let (spindle, motor) = (self.spindle, fit.pick.motor);
        let lead = spindle.lead_m;
        let mut parts = vec![
            (
                "lead error over the travel",
                spindle.lead_error_m() * self.ask.slide.travel.si(),
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
        if matches!(motor, Motor::Gear(_)) && self.ask.job.stops == Stops::Ends {
            parts.push(("end switch", self.ask.job.rules.hard_stop_error));
        }
        parts
    }

    /// What it is called, and what a person should know of how it holds and stops.
    fn say(&self, train: &mut Train<'a>, fit: &Fit) {
        let (spindle, motor) = (self.spindle, fit.pick.motor);
        let (geared, gear) = match fit.pick.gearbox {
            Some(gearbox) => (", geared", format!(" {}:1", show(gearbox.ratio))),
            None => ("", String::new()),
        };
        train.kind = format!("{}, {}{geared}", spindle.kind(), motor.kind());
        train.words = format!("{}, {}{gear}", spindle.words(), motor.words());
        if self.moves.holding_n > NO_FORCE_N {
            match fit.hold {
                Hold::Thread => train.cautions.push(
                    "The thread holds the load by friction, judged at a part of it; shaking can loosen it: never rely on it where people are under the load.".into(),
                ),
                Hold::Motor => train.cautions.push(
                    "Only the motor holds the load: without power it runs down.".into(),
                ),
                Hold::Nothing => {}
                Hold::Brake(_) | Hold::BuiltIn { .. } => train.cautions.push(
                    "The screw runs back under its load: without power only the brake holds it; test the brake at every upkeep.".into(),
                ),
            }
        }
        let free = matches!(fit.hold, Hold::Nothing) && !spindle.locks;
        if free && self.moves.holding_n <= NO_FORCE_N && self.ask.job.power_loss == PowerLoss::Hold
        {
            train.cautions.push(format!(
                "Nothing pulls at the load at rest, and so no brake is fitted: without power a push of some {} along the travel turns the screw and moves it.",
                in_words(quantity::Kind::Force, train.demand.worst.static_peak_n)
            ));
        }
        if let Some(time_s) = fit.hold.time_s() {
            // The rotor and the screw turn with the load, and weigh on it far more than its own mass.
            let turn = core::f64::consts::TAU * fit.line.ratio / self.spindle.lead_m;
            let turning_kg = fit.line.inertia_kg_m2 * turn * turn;
            let least_kg = self.ask.slide.load.least.si() + self.ask.assist.assist.moving_mass_kg();
            let drop = drop_m(self.moves, least_kg + turning_kg, time_s);
            train.remarks.push(format!(
                "If the power fails in motion, the load runs on by up to {} mm in the {} ms before the brake bites.",
                show(drop * 1e3),
                show(time_s * 1e3)
            ));
        }
        if matches!(fit.pick.motor, Motor::Gear(_)) {
            train.remarks.push(
                "The DC motor stops on end switches or counted pulses and is slowed by its controller.".into(),
            );
        }
    }
}

/// Way before a brake bites, from the peak speed, the held force free to speed up all that moves with the lightest load: `v t + F t²/(2 m)`.
pub(super) fn drop_m(moves: &Moves, load_kg: f64, time_s: f64) -> f64 {
    moves.speed_m_s * time_s + moves.holding_n / load_kg * time_s * time_s / 2.0
}

/// What a train draws, without its controls and supply.
pub(super) struct Draw {
    /// Greatest power of the motor.
    pub peak_w: f64,
    pub moving_j: f64,
    pub holding_j: f64,
    pub standby_w: f64,
    /// Power of an open brake, from the controls.
    pub brake_w: f64,
    /// Power that the controls are made for, where it is more than what is drawn.
    pub rated_w: f64,
    pub run_s: f64,
}

impl Draw {
    /// Adds supply and controls to a train, its running figures, and the check of the mains.
    pub(super) fn take<'a>(
        &self,
        ask: &Ask<'a>,
        mains: &Mains,
        train: &mut Train<'a>,
        supply_voltage_v: Option<f64>,
        serves: &str,
    ) {
        let (mut efficiency, mut standby_w) = (1.0, self.standby_w);
        if let Some(voltage) = supply_voltage_v {
            let fits = |s: &crate::catalog::PowerSupply| {
                (s.voltage.si() - voltage).abs() < 0.5 && s.power.si() >= self.peak_w
            };
            let largest = ask
                .catalog
                .power_supplies
                .iter()
                .filter(|s| (s.voltage.si() - voltage).abs() < 0.5)
                .map(|s| s.power.si())
                .fold(0.0, f64::max);
            let supply = pick::cheapest(ask, &ask.catalog.power_supplies, |s| &s.common, fits);
            let most = supply.map_or(largest, |s| s.power.si());
            train.checks.push(
                Check::new("power_supply.power", self.peak_w, most, "W")
                    .from(
                        "greatest shaft power and loss of the motor",
                        "energy balance",
                    )
                    .given(&[("P", "W")], &[self.peak_w]),
            );
            if let Some(supply) = supply {
                train
                    .parts
                    .push(PartLine::pieces("power_supplies", &supply.common, 1));
                efficiency = supply.efficiency;
                standby_w += supply.standby.si();
            }
        }
        let peak_w = self.peak_w / efficiency + self.brake_w + standby_w;
        let several = ask.job.stops != Stops::Ends;
        match family::control(ask.catalog, serves, peak_w.max(self.rated_w), several) {
            Some(control) => {
                train
                    .parts
                    .push(PartLine::pieces("controls", &control.common, 1));
                standby_w += control.standby.si();
            }
            None => train.checks.push(Check::of(
                "controls.present",
                false,
                format!(
                    "asked: controls of {} W for a {serves} drive; gives: none in the catalog",
                    show(peak_w)
                ),
            )),
        }
        train.checks.push(
            Check::new("mains.power", peak_w, mains.power.si(), "W")
                .from(
                    "(greatest shaft power and loss)/η supply + brake + standby",
                    "energy balance",
                )
                .given(&[("P", "W")], &[peak_w]),
        );
        train.running.moving_j = self.moving_j / efficiency + self.brake_w * self.run_s;
        train.running.holding_j = self.holding_j / efficiency;
        train.running.standby_w = standby_w;
    }
}
