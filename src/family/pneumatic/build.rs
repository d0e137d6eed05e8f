//! Putting a train together: its parts, what it uses, what must be said of it.

use std::sync::Arc;

use super::end::End;
use super::hold::{Hold, NOTHING_N};
use super::line::{Line, by_air};
use super::motion::{Leg, Motion};
use super::supply::{self, Supply};
use super::{NAME, statics};
use crate::catalog::{AirPreparation, AirReceiver, AirValve, BASIC_STROKES_M, Compressor};
use crate::demand::Demand;
use crate::family::{
    Ask, Bench, Check, Hours, Life, Made, PartLine, Train, caution, control, finish,
};
use crate::mechanics::pneumatics::receiver_volume;
use crate::quantity::{G_M_S2, Si, cubic_metres, pascals, show};
use crate::requirements::Stops;

/// A stroke nearer than this to a basic one is it.
const STROKE_NEAR_M: f64 = 1e-6;
/// More receivers than this are no answer.
const MOST_RECEIVERS: f64 = 10.0;
const LITRE_PER_MIN: f64 = 60_000.0;
const LITRE: f64 = 1000.0;
/// One litre a second and bar, in m³/(s·Pa).
const LITRE_PER_S_BAR: f64 = 1e-8;

/// Free air that the supply gives, m³/s.
fn given_m3_s(compressor: Option<&Compressor>, site_flow: Option<f64>) -> f64 {
    site_flow.or(compressor.map(|c| c.flow.si())).unwrap_or(0.0)
}

/// A cylinder with its line, throttles, ends and way to hold.
#[derive(Debug, Clone, Copy)]
pub(super) struct Design<'a, 'd, 'm> {
    pub ask: &'d Ask<'a>,
    pub motion: &'d Motion<'a, 'm>,
    pub hold: Hold<'a>,
    pub line: &'d Line<'a>,
    pub legs: &'d [Leg; 2],
    pub ends: &'d [End<'a>; 2],
    pub demand: &'d Arc<Demand>,
}

/// Cheapest preparation unit of a kind that passes a flow of free air.
fn preparation<'a>(
    ask: &Ask<'a>,
    soft_start: bool,
    flow_m3_s: f64,
) -> (Option<&'a AirPreparation>, Check) {
    let id = if soft_start {
        "soft_start.flow"
    } else {
        "air_preparation.flow"
    };
    let units = || {
        let all = ask.catalog.air_preparation.iter();
        all.filter(|unit| unit.soft_start == soft_start)
    };
    let part = units()
        .filter(|unit| unit.flow.si() >= flow_m3_s)
        .min_by(|p, q| p.common.price.total_cmp(&q.common.price));
    let largest = units().map(|unit| unit.flow.si()).fold(0.0, f64::max);
    let given = part.map_or(largest, |unit| unit.flow.si());
    let (asked, given) = (flow_m3_s * LITRE_PER_MIN, given * LITRE_PER_MIN);
    let check = Check::new(id, asked, given, "L/min")
        .from(
            "V_cycle/2 over the time of the faster stroke <= flow of the unit (free air)",
            "continuity; data of the part",
        )
        .given(&[("q", "L/min")], &[asked]);
    (part, check)
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

    /// The cheapest receiver for that, or so many of the largest, with its check; none where the supply keeps up.
    fn receiver(
        &self,
        compressor: Option<&Compressor>,
        air_m3: f64,
        site_flow: Option<f64>,
    ) -> (Option<PartLine<'a>>, Vec<Check>) {
        let asked_m3 = self.buffer_m3(compressor, air_m3, site_flow);
        if asked_m3 <= 0.0 {
            return (None, Vec::new());
        }
        let pressure_pa = self.motion.pressure_pa;
        let receivers = || self.ask.catalog.air_receivers.iter();
        let bears = |part: &&AirReceiver| part.pressure_most.si() >= pressure_pa;
        let price = |p: &&AirReceiver, q: &&AirReceiver| p.common.price.total_cmp(&q.common.price);
        let size = |p: &&AirReceiver, q: &&AirReceiver| p.volume.si().total_cmp(&q.volume.si());
        let wide = receivers()
            .filter(bears)
            .filter(|part| part.volume.si() >= asked_m3);
        let part = wide
            .min_by(price)
            .or_else(|| receivers().filter(bears).max_by(size));
        let rating = receivers()
            .map(|part| part.pressure_most.si())
            .fold(0.0, f64::max);
        let rating = part.map_or(rating, |part| part.pressure_most.si());
        let check = Check::new(
            "air_receiver.pressure",
            pressure_pa / 1e5,
            rating / 1e5,
            "bar",
        )
        .from("working pressure <= rating", "catalog")
        .given(&[("p", "bar")], &[pressure_pa / 1e5]);
        let Some(part) = part else {
            return (None, vec![check]);
        };
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a small whole number, at least 1"
        )]
        let count = libm::ceil(asked_m3 / part.volume.si()).clamp(1.0, MOST_RECEIVERS) as u32;
        let volume = Check::new(
            "air_receiver.volume",
            asked_m3 * LITRE,
            part.volume.si() * f64::from(count) * LITRE,
            "L",
        )
        .from(
            "(V_cycle/2 − q t) p_0/Δp, less the tank of the compressor <= volume of the receivers; t of the faster stroke",
            "Boyle's law",
        )
        .given(
            &[("V_cycle/2", "L"), ("q", "L/min"), ("Δp", "bar")],
            &[
                0.5 * air_m3 * LITRE,
                given_m3_s(compressor, site_flow) * LITRE_PER_MIN,
                self.ask.job.rules.air_receiver_drop / 1e5,
            ],
        )
        .rule("air_receiver_drop");
        let line = PartLine::pieces("air_receivers", &part.common, count).beside();
        (Some(line), vec![check, volume])
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
        let ask = self.ask;
        let kind = match compressor {
            Some(_) => format!("air cylinder{}, compressor", self.hold.words()),
            None => format!("air cylinder{}", self.hold.words()),
        };
        let mut train = Train::new(NAME, kind, Hours::AIR, Arc::clone(self.demand));
        train.holds |= !matches!(self.hold, Hold::Nothing);
        train.checks = checks;
        let parts = self.parts(&mut train, compressor, self.peak_flow_m3_s(air_m3));
        train.parts.extend(parts);
        let (receiver, checks) = self.receiver(compressor, air_m3, site_flow);
        train.parts.extend(receiver);
        train.checks.extend(checks);
        train
            .checks
            .extend(self.line.checks(self.motion.pressure_pa));
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
        bench.offer(finish(ask, train));
    }

    /// Its parts; what the catalog lacks is added as a failing check.
    fn parts(
        &self,
        train: &mut Train<'a>,
        compressor: Option<&'a Compressor>,
        peak_m3_s: f64,
    ) -> Vec<PartLine<'a>> {
        let ask = self.ask;
        let mut parts = vec![self.cylinder()];
        parts.extend(self.line.parts());
        if let Hold::Locked(lock) = self.hold {
            parts.push(PartLine::pieces("rod_locks", &lock.common, 1));
        }
        if let Some(valve) = self.holding_valve() {
            parts.push(PartLine::pieces("air_valves", &valve.common, 1));
        }
        parts.extend(self.absorbers());
        let kinds = [(false, true), (true, self.lifts())];
        for (soft_start, wanted) in kinds {
            if !wanted {
                continue;
            }
            let (unit, passes) = preparation(ask, soft_start, peak_m3_s);
            parts.extend(unit.map(|unit| PartLine::pieces("air_preparation", &unit.common, 1)));
            train.checks.push(passes);
        }
        let several = ask.job.stops != Stops::Ends;
        let serves = if by_air(ask.job) { "air_logic" } else { "air" };
        if let Some(control) = control(ask, serves, self.line.valve.power.si(), several).first() {
            parts.push(PartLine::pieces("controls", &control.common, 1));
            train.running.standby_w += control.standby.si();
        } else {
            let says = "the catalog has no controls for these valves";
            train.checks.push(Check::of("controls.air", false, says));
        }
        if let Some(compressor) = compressor {
            parts.push(PartLine::pieces("compressors", &compressor.common, 1).beside());
        }
        let renewals = statics::renewals(ask, self.motion);
        if let Some(kit) = statics::seals(ask, self.motion)
            && renewals > 0.0
        {
            #[allow(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "a whole number from 0 to 100"
            )]
            parts.push(PartLine::pieces("seal_kits", &kit.common, renewals as u32).beside());
        }
        parts
    }

    /// The small valve that vents the lock, or the check valves' pilots, when the power fails: the main valve need not.
    fn holding_valve(&self) -> Option<&'a AirValve> {
        let by_air = by_air(self.ask.job);
        let suits = |valve: &&AirValve| (valve.power.si() == 0.0) == by_air;
        let price = |p: &&AirValve, q: &&AirValve| {
            p.common
                .price
                .total_cmp(&q.common.price)
                .then_with(|| p.common.id.cmp(&q.common.id))
        };
        let valves = self.ask.catalog.air_valves.iter().filter(suits);
        (self.hold != Hold::Nothing)
            .then(|| valves.min_by(price))
            .flatten()
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

    /// The cylinder at the job's stroke.
    fn cylinder(&self) -> PartLine<'a> {
        let (cylinder, travel_m) = (self.motion.cylinder, self.ask.travel_m());
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

    fn running(&self, train: &mut Train<'a>, compressor: Option<&Compressor>, air_m3: f64) {
        let coil_w = self.line.valve.power.si();
        // The coil is on from the start of the outward stroke to that of the return.
        train.running.moving_j = coil_w * self.demand.travel_time_s;
        train.running.holding_j = coil_w * self.ask.job.timing.rest_out.si();
        train.running.air_m3 = air_m3;
        train.running.air_leak_m3_h = compressor.map_or(0.0, |compressor| {
            self.ask.job.rules.compressor_leak * compressor.flow.si() * 3600.0
        });
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
    fn hard_arrival(&self) -> Option<String> {
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
            format!(
                "The load is not moved gently: it arrives at up to {} m/s and is stopped with some {} m/s² ({} g); what lies loose on it slides.",
                show(speed),
                show((deceleration * 10.0).round() / 10.0),
                show((deceleration / G_M_S2 * 10.0).round() / 10.0)
            )
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
        let speed = |leg: &Leg| {
            let speeds = leg.arrivals.iter().map(|(_, a)| a.end_speed_m_s);
            show(speeds.fold(0.0, f64::max))
        };
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
        let bar = show(self.motion.pressure_pa / 1e5);
        let forces = self
            .motion
            .areas_m2
            .map(|area| self.motion.pressure_pa * area);
        train.presses_n = Some(forces);
        train.arrives_j = Some(self.motion.arrival_j(self.legs));
        let thrust = caution::newtons(forces[0]);
        train.cautions.push(format!(
            "Air at {bar} bar stays in the cylinder after switching off and can push with {thrust}: vent it before anybody reaches in."
        ));
        let gently = if self.lifts() {
            "the soft-start valve brings the pressure up gently; "
        } else {
            ""
        };
        train.cautions.push(format!(
            "The first stroke after venting meets no air on the exhaust side, so its flow control does not slow it: {gently}keep clear until both ends have been reached once."
        ));
        if self.hold == Hold::Trapped && self.demand.held_n() <= NOTHING_N {
            train.remarks.push(format!(
                "When the power fails, air trapped on both sides keeps the load in place, to some {} mm.",
                show(self.ask.job.rules.trapped_air_creep * 1e3)
            ));
        } else if self.hold == Hold::Trapped {
            train.cautions.push(format!(
                "Only trapped air holds the load, against {}: it lets it sink by some {} mm and leaks further with time; nobody may be under it.",
                caution::held(self.demand),
                show(self.ask.job.rules.trapped_air_creep * 1e3)
            ));
        }
        // Where nothing holds the load, what it does then is said as of every drive.
        if matches!(self.hold, Hold::Locked(_)) && self.demand.held_n() > NOTHING_N {
            train.cautions.push(format!(
                "Without air only the rod lock holds the load, against {}; test it at every upkeep.",
                caution::held(self.demand)
            ));
        }
    }
}
