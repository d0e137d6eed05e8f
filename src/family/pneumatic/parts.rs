//! The parts of a drive beside its cylinder and line: for each need those that would do.

use super::build::Design;
use super::hold::Hold;
use super::line::by_air;
use super::supply::{self, DrawnAir};
use super::{LITRE, LITRE_PER_MIN, statics};
use crate::catalog::{
    AirCylinder, AirPreparation, AirReceiver, AirTube, AirValve, BASIC_STROKES_M,
};
use crate::family::choose::{Merits, PartChoice, Shelf};
use crate::family::{Ask, Check, PartLine, check, controls, count};
use crate::mechanics::pneumatics::receiver_volume;
use crate::quantity::{Si, cubic_metres, pascals};
use crate::requirements::Stops;

/// A stroke nearer than this to a basic one is it.
const STROKE_NEAR_M: f64 = 1e-6;
/// More receivers than this are no answer.
const MOST_RECEIVERS: f64 = 10.0;

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
    let (price, mass) = (cylinder.price_per_metre, cylinder.mass_per_length);
    let mut line = PartLine::cut(cylinder, travel_m, price, mass);
    let basic = |stroke: &f64| (stroke - travel_m).abs() < STROKE_NEAR_M;
    if !BASIC_STROKES_M.iter().any(basic) {
        line.price += cylinder.made_to_length_price;
    }
    line
}

impl<'a> Design<'a, '_, '_> {
    /// Free air drawn while the piston moves, the faster of both strokes, m³/s.
    pub(super) fn peak_flow_m3_s(&self, cycle_m3: f64) -> f64 {
        let fastest = self
            .legs
            .iter()
            .flat_map(|leg| leg.arrivals.iter().map(|(_, arrival)| arrival.time_s))
            .fold(f64::INFINITY, f64::min);
        0.5 * cycle_m3 / fastest
    }

    /// Volume that must give what the supply falls short of in a stroke, m³, beside a compressor's own tank:
    /// `(V_stroke − q t) p_0/Δp`.
    pub(super) fn buffer_m3(&self, air: DrawnAir<'a>) -> f64 {
        let stroke_m3 = 0.5 * air.cycle_m3;
        let time_s = stroke_m3 / self.peak_flow_m3_s(air.cycle_m3);
        let short_m3 = stroke_m3 - air.flow_m3_s * time_s;
        let drop = pascals(self.ask.job.rules.air_receiver_drop);
        receiver_volume(cubic_metres(short_m3), drop).si()
            - air.compressor.map_or(0.0, |c| c.tank.si())
    }

    /// The receivers worth having for that, or so many of the largest; the check that none withstands the pressure. None where
    /// the supply keeps up.
    fn receivers(&self, air: DrawnAir<'a>) -> Result<Vec<PartChoice<'a>>, Check> {
        let asked_m3 = self.buffer_m3(air);
        if asked_m3 <= 0.0 {
            return Ok(Vec::new());
        }
        let pressure_pa = self.motion.pressure_pa;
        let all = &self.ask.catalog.air_receivers;
        let receivers = Shelf::new(self.ask, all, |part| &part.common);
        let withstands = |part: &AirReceiver| part.pressure_most.si() >= pressure_pa;
        let mut fitting =
            receivers.choices(|part| withstands(part) && part.volume.si() >= asked_m3);
        if fitting.is_empty() {
            let size = |p: &&AirReceiver, q: &&AirReceiver| p.volume.si().total_cmp(&q.volume.si());
            // Of as large ones the cheapest: the last of the greatest would be the dearest.
            let mut dearest_first: Vec<_> =
                receivers.iter().filter(|part| withstands(part)).collect();
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
        let choice = |part: &'a AirReceiver| {
            let (count, volume) = self.receiver_volume(part, asked_m3, air);
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
    fn receiver_volume(&self, part: &AirReceiver, asked_m3: f64, air: DrawnAir) -> (u32, Check) {
        let least = libm::ceil(asked_m3 / part.volume.si());
        let count = count(least.clamp(1.0, MOST_RECEIVERS));
        let volume = check!(
            "air_receiver.volume", asked_m3 * LITRE => part.volume.si() * f64::from(count) * LITRE, "L";
            "(V_cycle/2 − q t) p_0/Δp, less the tank of the compressor <= volume of the receivers; t of the faster stroke",
            "Boyle's law";
            ("V_cycle/2", 0.5 * air.cycle_m3 * LITRE, "L"), ("q", air.flow_m3_s * LITRE_PER_MIN, "L/min"),
            ("Δp", self.ask.job.rules.air_receiver_drop / 1e5, "bar"),
        )
        .rule("air_receiver_drop");
        (count, volume)
    }

    /// Whether weight, less the counterweight, pulls along the travel: one stroke lifts.
    pub(super) fn lifts(&self) -> bool {
        let loads = self.ask.book.axis().loads_kg.into_iter();
        let mut weights = loads.flat_map(|load| self.ask.weight_n(load));
        weights.any(|weight| weight.abs() > 1e-6)
    }

    /// What it is made of: each need with the parts that would do, and a failing check where the catalog has none.
    pub(super) fn needs(&self, air: DrawnAir<'a>) -> (Vec<Vec<PartChoice<'a>>>, Vec<Check>) {
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
                match preparation(ask, soft_start, self.peak_flow_m3_s(air.cycle_m3)) {
                    Ok(units) => needs.push(units),
                    Err(check) => missing.push(check),
                }
            }
        }
        let several = ask.job.stops != Stops::Ends;
        let serves = if by_air(ask.job) { "air_logic" } else { "air" };
        let power_w = self.line.valve.power.si();
        let controls = controls(ask, serves, several).choices(power_w);
        if controls.is_empty() {
            let says = "the catalog has no controls for these valves";
            missing.push(Check::of("controls.air", false, says));
        }
        needs.push(controls.into_iter().map(PartChoice::controls).collect());
        if let Some(compressor) = air.compressor {
            let line = PartLine::pieces("compressors", &compressor.common, 1);
            needs.push(fixed(line.beside()));
            needs.push(self.supply_tubes());
        }
        if let Some(dryer) = air.dryer {
            let flow = self.peak_flow_m3_s(air.cycle_m3);
            needs.push(vec![PartChoice {
                checks: vec![supply::dryer_check(flow, dryer.flow.si())],
                ..PartLine::pieces("air_dryers", &dryer.common, 1).into()
            }]);
        }
        needs.push(self.seals());
        match self.receivers(air) {
            Ok(receivers) => needs.push(receivers),
            Err(check) => missing.push(check),
        }
        (needs, missing)
    }

    /// The tubes worth having from the compressor to the machine, as wide as those to the cylinder.
    fn supply_tubes(&self) -> Vec<PartChoice<'a>> {
        let (rates, length_m) = (self.ask.life_cost(), self.ask.job.site.units.distance.si());
        let line = |tube: &'a AirTube| {
            PartLine::cut(tube, length_m, tube.price_per_metre, tube.mass_per_length).beside()
        };
        let tubes = Shelf::with(self.ask, &self.ask.catalog.air_tubes, |tube| {
            (&tube.common, Merits::line(&rates, &line(tube)))
        });
        let fits = |tube: &AirTube| {
            tube.bore.si() >= self.line.tube_bore_m()
                && tube.pressure_most.si() >= self.motion.pressure_pa
        };
        let choices = tubes.choices(fits).into_iter();
        choices.map(|tube| line(tube).into()).collect()
    }

    /// The seals that it takes over its life.
    fn seals(&self) -> Vec<PartChoice<'a>> {
        let renewals = statics::renewals(self.ask, self.motion);
        if renewals <= 0.0 {
            return Vec::new();
        }
        let kits = statics::seals(self.ask, self.motion).into_iter();
        kits.map(|kit| {
            PartLine::pieces("seal_kits", &kit.common, count(renewals))
                .beside()
                .into()
        })
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
        let valves = Shelf::new(self.ask, valves, |valve| &valve.common);
        let valves = valves.choices(|_| true).into_iter();
        valves
            .map(|valve| PartLine::pieces("air_valves", &valve.common, 1).into())
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
}
