//! Putting a train together: its parts, what it uses, what must be said of it.

use std::sync::Arc;

use super::end::End;
use super::hold::{Hold, NOTHING_N};
use super::line::{Line, by_air};
use super::motion::{Leg, LoadedCylinder};
use super::supply::{self, Supply};
use super::{LITRE_PER_MIN, NAME, statics};
use crate::catalog::{
    AirCylinder, AirPreparation, AirReceiver, AirValve, BASIC_STROKES_M, Compressor,
};
use crate::demand::Demand;
use crate::family::choose::{PartChoice, Shelf, sets};
use crate::family::hazard::{
    AIR_STAYS, ARRIVES_HARD, FIRST_STROKE, FIRST_STROKE_GENTLE, ROD_LOCK, TRAPPED_AIR,
};
use crate::family::{
    Ask, Bench, Caution, Check, Figure, Hours, Life, Made, Measurement, PartLine, Stage, Train,
    Words, check, control, finish,
};
use crate::mechanics::pneumatics::receiver_volume;
use crate::quantity::{G_M_S2, Kind, Si, cubic_metres, pascals, show};
use crate::requirements::Stops;

/// A stroke nearer than this to a basic one is it.
const STROKE_NEAR_M: f64 = 1e-6;
/// More receivers than this are no answer.
const MOST_RECEIVERS: f64 = 10.0;
const LITRE: f64 = 1000.0;
/// One litre a second and bar, in m³/(s·Pa).
const LITRE_PER_S_BAR: f64 = 1e-8;

const ARRIVAL: Measurement<1> = Measurement {
    stage: Stage::AtSpeed,
    measure: "Light gate in the last tenth of the travel, each way, throttles as set",
    reading: Words::new("{} at most"),
};
const AIR_OF_A_CYCLE: Measurement<1> = Measurement {
    stage: Stage::AtWork,
    measure: "Flow meter in the air line, ten cycles",
    reading: Words::new("{} L of free air a cycle"),
};
const STOP: Measurement<0> = Measurement {
    stage: Stage::Stopped,
    measure: "Emergency stop in mid-travel, greatest load, nobody near: way to standstill",
    reading: Words::new(
        "air stops at no set place: see where it comes to rest, and guard to there",
    ),
};

/// Free air that the supply gives, m³/s.
fn given_m3_s(compressor: Option<&Compressor>, site_flow: Option<f64>) -> f64 {
    site_flow.or(compressor.map(|c| c.flow.si())).unwrap_or(0.0)
}

/// A cylinder with its line, throttles, ends and way to hold.
#[derive(Debug, Clone, Copy)]
pub(super) struct Design<'a, 'd, 'm> {
    pub ask: &'d Ask<'a>,
    pub motion: &'d LoadedCylinder<'a, 'm>,
    pub hold: Hold<'a>,
    pub line: &'d Line<'a>,
    pub legs: &'d [Leg; 2],
    pub ends: &'d [End<'a>; 2],
    pub demand: &'d Arc<Demand>,
}

/// Preparation units of a kind worth having that pass a flow of free air, or the check that none does.
fn preparation<'a>(
    ask: &Ask<'a>,
    soft_start: bool,
    flow_m3_s: f64,
) -> Result<Vec<PartChoice<'a>>, Check> {
    let id = if soft_start {
        "soft_start.flow"
    } else {
        "air_preparation.flow"
    };
    let all = ask.catalog.air_preparation.iter();
    let units = all.filter(|unit| unit.soft_start == soft_start);
    let shelf = Shelf::new(ask, units, |unit| &unit.common);
    let check = |given_m3_s: f64| {
        let [asked, given] = [flow_m3_s, given_m3_s].map(|flow| flow * LITRE_PER_MIN);
        check!(
            id, asked => given, "L/min";
            "V_cycle/2 over the time of the faster stroke <= flow of the unit (free air)",
            "continuity; data of the part";
            ("q", asked, "L/min"),
        )
    };
    let fitting = shelf.choices(|unit| unit.flow.si() >= flow_m3_s);
    if fitting.is_empty() {
        return Err(check(
            shelf.iter().map(|unit| unit.flow.si()).fold(0.0, f64::max),
        ));
    }
    let choice = |unit: &'a AirPreparation| PartChoice {
        checks: vec![check(unit.flow.si())],
        ..PartLine::pieces("air_preparation", &unit.common, 1).into()
    };
    Ok(fitting.into_iter().map(choice).collect())
}

/// A cylinder at the job's stroke.
pub(super) fn cylinder_line<'a>(ask: &Ask, cylinder: &'a AirCylinder) -> PartLine<'a> {
    let travel_m = ask.travel_m();
    let mut line = PartLine::cut(
        "air_cylinders",
        &cylinder.common,
        travel_m,
        cylinder.price_per_metre,
        cylinder.mass_per_length.si(),
    );
    let basic = |stroke: &f64| (stroke - travel_m).abs() < STROKE_NEAR_M;
    if !BASIC_STROKES_M.iter().any(basic) {
        line.price += cylinder.made_to_length_price;
    }
    line
}

impl<'a> Design<'a, '_, '_> {
    /// Offers the train with the air of the site, or with each compressor that keeps up.
    pub fn offer(&self, bench: &mut Bench<'a>, supply: Supply, checks: &[Check]) {
        let air_m3 =
            supply::air_per_cycle_m3(self.ask, self.motion, self.motion.dead_m3(self.line));
        match supply {
            Supply::Site(_, flow) => {
                let mut checks = checks.to_vec();
                checks.push(supply::site_check(self.ask, air_m3, flow));
                self.offer_with(bench, None, air_m3, checks, Some(flow));
            }
            Supply::Compressor(pressure) => match supply::compressors(self.ask, pressure, air_m3) {
                Ok(list) => {
                    for (compressor, own) in list {
                        let checks = checks.iter().chain(&own).cloned().collect();
                        self.offer_with(bench, Some(compressor), air_m3, checks, None);
                    }
                }
                Err(nearest) => bench.misses(checks.iter().chain(&nearest).cloned().collect()),
            },
        }
    }

    /// Free air drawn while the piston moves, the faster of both strokes, m³/s.
    fn peak_flow_m3_s(&self, air_m3: f64) -> f64 {
        let fastest = self
            .legs
            .iter()
            .flat_map(|leg| leg.arrivals.iter().map(|(_, arrival)| arrival.time_s))
            .fold(f64::INFINITY, f64::min);
        0.5 * air_m3 / fastest
    }

    /// Volume that must give what the supply falls short of in a stroke, m³, beside a compressor's own tank:
    /// `(V_stroke − q t) p_0/Δp`.
    fn buffer_m3(
        &self,
        compressor: Option<&Compressor>,
        air_m3: f64,
        site_flow: Option<f64>,
    ) -> f64 {
        let stroke_m3 = 0.5 * air_m3;
        let time_s = stroke_m3 / self.peak_flow_m3_s(air_m3);
        let short_m3 = stroke_m3 - given_m3_s(compressor, site_flow) * time_s;
        let drop = pascals(self.ask.job.rules.air_receiver_drop);
        receiver_volume(cubic_metres(short_m3), drop).si() - compressor.map_or(0.0, |c| c.tank.si())
    }

    /// The receivers worth having for that, or so many of the largest; the check that none withstands the pressure. None where
    /// the supply keeps up.
    fn receivers(
        &self,
        compressor: Option<&Compressor>,
        air_m3: f64,
        site_flow: Option<f64>,
    ) -> Result<Vec<PartChoice<'a>>, Check> {
        let asked_m3 = self.buffer_m3(compressor, air_m3, site_flow);
        if asked_m3 <= 0.0 {
            return Ok(Vec::new());
        }
        let pressure_pa = self.motion.pressure_pa;
        let all = &self.ask.catalog.air_receivers;
        let shelf = Shelf::new(self.ask, all, |part| &part.common);
        let withstands = |part: &AirReceiver| part.pressure_most.si() >= pressure_pa;
        let mut fitting = shelf.choices(|part| withstands(part) && part.volume.si() >= asked_m3);
        if fitting.is_empty() {
            let size = |p: &&AirReceiver, q: &&AirReceiver| p.volume.si().total_cmp(&q.volume.si());
            // Of as large ones the cheapest: the last of the greatest would be the dearest.
            let mut dearest_first: Vec<_> = shelf.iter().filter(|part| withstands(part)).collect();
            dearest_first.reverse();
            fitting.extend(dearest_first.into_iter().max_by(size));
        }
        let pressure = |rating_pa: f64| {
            check!(
                "air_receiver.pressure", pressure_pa / 1e5 => rating_pa / 1e5, "bar";
                "working pressure <= rating", "catalog";
                ("p", pressure_pa / 1e5, "bar"),
            )
        };
        if fitting.is_empty() {
            let ratings = all.iter().map(|part| part.pressure_most.si());
            return Err(pressure(ratings.fold(0.0, f64::max)));
        }
        let flow_m3_s = given_m3_s(compressor, site_flow);
        let choice = |part: &'a AirReceiver| {
            let (count, volume) = self.receiver_volume(part, asked_m3, air_m3, flow_m3_s);
            PartChoice {
                checks: vec![pressure(part.pressure_most.si()), volume],
                ..PartLine::pieces("air_receivers", &part.common, count)
                    .beside()
                    .into()
            }
        };
        Ok(fitting.into_iter().map(choice).collect())
    }

    /// How many of a receiver are needed, at most some, with the check of their volume.
    fn receiver_volume(
        &self,
        part: &AirReceiver,
        asked_m3: f64,
        air_m3: f64,
        flow_m3_s: f64,
    ) -> (u32, Check) {
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a small whole number, at least 1"
        )]
        let count = libm::ceil(asked_m3 / part.volume.si()).clamp(1.0, MOST_RECEIVERS) as u32;
        let volume = check!(
            "air_receiver.volume", asked_m3 * LITRE => part.volume.si() * f64::from(count) * LITRE, "L";
            "(V_cycle/2 − q t) p_0/Δp, less the tank of the compressor <= volume of the receivers; t of the faster stroke",
            "Boyle's law";
            ("V_cycle/2", 0.5 * air_m3 * LITRE, "L"), ("q", flow_m3_s * LITRE_PER_MIN, "L/min"),
            ("Δp", self.ask.job.rules.air_receiver_drop / 1e5, "bar"),
        )
        .rule("air_receiver_drop");
        (count, volume)
    }

    /// Whether weight, less the counterweight, pulls along the travel: one stroke lifts.
    fn lifts(&self) -> bool {
        let loads = self.ask.book.axis().loads_kg.into_iter();
        let mut weights = loads.flat_map(|load| self.ask.weight_n(load));
        weights.any(|weight| weight.abs() > 1e-6)
    }

    fn offer_with(
        &self,
        bench: &mut Bench<'a>,
        compressor: Option<&'a Compressor>,
        air_m3: f64,
        checks: Vec<Check>,
        site_flow: Option<f64>,
    ) {
        let (needs, missing) = self.needs(compressor, air_m3, site_flow);
        let train = self.without_parts(compressor, air_m3, checks, site_flow);
        for set in sets(self.ask, needs) {
            let mut train = train.clone();
            for PartChoice {
                line,
                standby_w,
                checks,
            } in set
            {
                train.parts.push(line);
                train.running.standby_w += standby_w;
                train.checks.extend(checks);
            }
            train.checks.extend(missing.iter().cloned());
            train
                .checks
                .extend(self.line.checks(self.motion.pressure_pa));
            bench.offer(finish(self.ask, train));
        }
    }

    /// A train with all but its parts.
    fn without_parts(
        &self,
        compressor: Option<&'a Compressor>,
        air_m3: f64,
        checks: Vec<Check>,
        site_flow: Option<f64>,
    ) -> Train<'a> {
        let kind = match compressor {
            Some(_) => format!("air cylinder{}, compressor", self.hold.words()),
            None => format!("air cylinder{}", self.hold.words()),
        };
        let mut train = Train::new(NAME, kind, Hours::AIR, Arc::clone(self.demand));
        train.holds |= !matches!(self.hold, Hold::Nothing);
        train.checks = checks;
        let bore = show(self.motion.cylinder.bore.si() * 1e3);
        train.words = format!("{bore} mm air cylinder{}", self.hold.words());
        let made = |what| Made {
            what,
            hours: 0.0,
            material: 0.0,
        };
        train.made.push(made("bracket for the cylinder"));
        if self.ends.iter().any(|end| end.absorber.is_some()) {
            train.made.push(made("brackets for the shock absorbers"));
        }
        self.running(&mut train, compressor, air_m3);
        self.position_and_life(&mut train);
        self.say(&mut train, compressor, air_m3, site_flow);
        let fastest_m_s = self.legs.iter().map(Leg::fastest_m_s).fold(0.0, f64::max);
        train.proofs = vec![
            ARRIVAL.reads([Figure::Quantity(Kind::Speed, fastest_m_s)]),
            STOP.reads([]),
        ];
        if site_flow.is_some() {
            let litres = Figure::Number(air_m3 * LITRE);
            train.proofs.push(AIR_OF_A_CYCLE.reads([litres]));
        }
        train
    }

    /// What it is made of: each need with the parts that would do, and a failing check where the catalog has none.
    fn needs(
        &self,
        compressor: Option<&'a Compressor>,
        air_m3: f64,
        site_flow: Option<f64>,
    ) -> (Vec<Vec<PartChoice<'a>>>, Vec<Check>) {
        let (ask, mut missing) = (self.ask, Vec::new());
        let fixed = |line: PartLine<'a>| vec![PartChoice::from(line)];
        let mut needs = vec![fixed(cylinder_line(ask, self.motion.cylinder))];
        needs.extend(self.line.parts().into_iter().map(fixed));
        if let Hold::Locked(lock) = self.hold {
            needs.push(fixed(PartLine::pieces("rod_locks", &lock.common, 1)));
        }
        needs.push(self.holding_valves());
        needs.extend(self.absorbers().into_iter().map(fixed));
        for (soft_start, needed) in [(false, true), (true, self.lifts())] {
            if needed {
                match preparation(ask, soft_start, self.peak_flow_m3_s(air_m3)) {
                    Ok(units) => needs.push(units),
                    Err(check) => missing.push(check),
                }
            }
        }
        let several = ask.job.stops != Stops::Ends;
        let serves = if by_air(ask.job) { "air_logic" } else { "air" };
        let controls = control(ask, serves, self.line.valve.power.si(), several);
        if controls.is_empty() {
            let says = "the catalog has no controls for these valves";
            missing.push(Check::of("controls.air", false, says));
        }
        needs.push(controls.into_iter().map(PartChoice::controls).collect());
        if let Some(compressor) = compressor {
            let line = PartLine::pieces("compressors", &compressor.common, 1);
            needs.push(fixed(line.beside()));
        }
        needs.push(self.seals());
        match self.receivers(compressor, air_m3, site_flow) {
            Ok(receivers) => needs.push(receivers),
            Err(check) => missing.push(check),
        }
        (needs, missing)
    }

    /// The seals that it takes over its life.
    fn seals(&self) -> Vec<PartChoice<'a>> {
        let renewals = statics::renewals(self.ask, self.motion);
        if renewals <= 0.0 {
            return Vec::new();
        }
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a whole number from 0 to 100"
        )]
        let sets = renewals as u32;
        let kits = statics::seals(self.ask, self.motion).into_iter();
        kits.map(|kit| PartLine::pieces("seal_kits", &kit.common, sets).beside())
            .map(PartChoice::from)
            .collect()
    }

    /// The small valve that vents the lock, or the check valves' pilots, when the power fails: the main valve need not.
    fn holding_valves(&self) -> Vec<PartChoice<'a>> {
        if self.hold == Hold::Nothing {
            return Vec::new();
        }
        let by_air = by_air(self.ask.job);
        let suits = |valve: &&AirValve| (valve.power.si() == 0.0) == by_air;
        let valves = self.ask.catalog.air_valves.iter().filter(suits);
        let shelf = Shelf::new(self.ask, valves, |valve| &valve.common);
        let valves = shelf.choices(|_| true).into_iter();
        valves
            .map(|valve| PartLine::pieces("air_valves", &valve.common, 1))
            .map(PartChoice::from)
            .collect()
    }

    /// The shock absorbers of both ends, one line where they are alike.
    fn absorbers(&self) -> Vec<PartLine<'a>> {
        let mut lines: Vec<PartLine> = Vec::new();
        for absorber in self.ends.iter().filter_map(|end| end.absorber) {
            match lines
                .iter_mut()
                .find(|line| line.common.id == absorber.common.id)
            {
                Some(line) => line.quantity += 1,
                None => lines.push(PartLine::pieces("shock_absorbers", &absorber.common, 1)),
            }
        }
        lines
    }

    fn running(&self, train: &mut Train<'a>, compressor: Option<&Compressor>, air_m3: f64) {
        let coil_w = self.line.valve.power.si();
        // The coil is on from the start of the outward stroke to that of the return.
        train.running.moving_j = coil_w * self.demand.travel_time_s;
        train.running.holding_j = coil_w * self.ask.job.timing.rest_out.si();
        train.running.air_m3 = air_m3;
        let leak = |compressor| supply::leak_m3_h(self.ask, compressor);
        train.running.air_leak_m3_h = compressor.map_or(0.0, leak);
    }

    fn position_and_life(&self, train: &mut Train<'a>) {
        let ask = self.ask;
        let rules = &ask.job.rules;
        train.position.push(if ask.job.stops == Stops::Several {
            ("rod lock", rules.air_lock_error)
        } else {
            ("hard stop", rules.hard_stop_error)
        });
        let cylinder = self.motion.cylinder;
        let travel_m = ask.travel_m();
        train.closed_length_m = cylinder.zero_stroke_length.si() + travel_m;
        if let Hold::Locked(lock) = self.hold {
            train.closed_length_m += lock.length.si();
        }
        let yearly = ask.job.timing.cycles_per_year() * 2.0 * travel_m;
        let sets = 1.0 + statics::renewals(ask, self.motion);
        if yearly > 0.0 {
            train.lives.push(Life {
                what: "cylinder seals",
                years: sets * cylinder.seal_life.si() / yearly,
            });
        }
    }

    /// How hard the ends are met, where what lies loose on the load would slide.
    fn hard_arrival(&self) -> Option<Caution> {
        let cushion_m = self.motion.cylinder.cushion_length.si();
        let met = self.legs.iter().zip(self.ends).map(|(leg, end)| {
            let speed = leg
                .arrivals
                .iter()
                .map(|(_, a)| a.end_speed_m_s)
                .fold(0.0, f64::max);
            let within_m = end
                .absorber
                .map_or(cushion_m, |absorber| absorber.stroke.si());
            (speed, speed * speed / (2.0 * within_m))
        });
        let (speed, deceleration) = met.max_by(|p, q| p.1.total_cmp(&q.1))?;
        (deceleration > self.ask.job.rules.loose_slides).then(|| {
            let tenth = |value: f64| Figure::Number((value * 10.0).round() / 10.0);
            ARRIVES_HARD.with([
                Figure::Number(speed),
                tenth(deceleration),
                tenth(deceleration / G_M_S2),
            ])
        })
    }

    /// What a designer should know, and what could hurt somebody.
    fn say(
        &self,
        train: &mut Train<'a>,
        compressor: Option<&Compressor>,
        air_m3: f64,
        site_flow: Option<f64>,
    ) {
        let throttle = |leg: &Leg| show(leg.throttle / LITRE_PER_S_BAR);
        let speed = |leg: &Leg| show(leg.fastest_m_s());
        train.cautions.extend(self.hard_arrival());
        let [out, back] = self.legs;
        train.remarks.push(format!(
            "The flow controls are set to {} L/(s bar) for the way out and {} for the way back; the load then arrives at {} and {} m/s.",
            throttle(out), throttle(back), speed(out), speed(back)
        ));
        train.remarks.push(format!(
            "A cycle takes {} L of free air at {} bar.",
            show(air_m3 * LITRE),
            show(self.motion.pressure_pa / 1e5)
        ));
        train
            .remarks
            .push("The rod is free to turn; the guide keeps the load from turning with it.".into());
        let renewals = statics::renewals(self.ask, self.motion);
        if renewals > 0.0 {
            train.remarks.push(format!(
                "The seals are renewed {} over the life asked.",
                if renewals > 1.0 {
                    format!("{renewals} times")
                } else {
                    "once".into()
                }
            ));
        }
        if self.buffer_m3(compressor, air_m3, site_flow) > 0.0 {
            train.remarks.push(format!(
                "While it moves the cylinder draws {} L/min of free air, more than the {} L/min that come: a receiver near it gives the rest and is filled again in the rests.",
                show(self.peak_flow_m3_s(air_m3) * LITRE_PER_MIN),
                show(given_m3_s(compressor, site_flow) * LITRE_PER_MIN)
            ));
        }
        self.warn(train);
    }

    fn warn(&self, train: &mut Train<'a>) {
        let (pressure_pa, held) = (self.motion.pressure_pa, Figure::force(self.demand.held_n()));
        let forces = self.motion.areas_m2.map(|area| pressure_pa * area);
        train.presses_n = Some(forces);
        train.arrives_j = Some(self.motion.arrival_j(self.legs));
        let bar = Figure::Number(pressure_pa / 1e5);
        train
            .cautions
            .push(AIR_STAYS.with([bar, Figure::force(forces[0])]));
        train.cautions.push(if self.lifts() {
            FIRST_STROKE_GENTLE.with([])
        } else {
            FIRST_STROKE.with([])
        });
        let creep_mm = self.ask.job.rules.trapped_air_creep * 1e3;
        let pulls = self.demand.held_n() > NOTHING_N;
        // Where nothing holds the load, what it does then is said as of every drive.
        match self.hold {
            Hold::Trapped if !pulls => train.remarks.push(format!(
                "When the power fails, air trapped on both sides keeps the load in place, to some {} mm.",
                show(creep_mm)
            )),
            Hold::Trapped => {
                let caution = TRAPPED_AIR.with([held, Figure::Number(creep_mm)]);
                train.cautions.push(caution);
            }
            Hold::Locked(_) if pulls => train.cautions.push(ROD_LOCK.with([held])),
            Hold::Locked(_) | Hold::Nothing => {}
        }
    }
}
