//! Hydraulic cylinder: a fixed pump on its tank, a directional valve, a throttle for each stroke.
//!
//! The throttles set the speed, so the pump works against its relief valve
//! while the cylinder moves; the relief valve is set to what the harder stroke
//! needs, not to what the unit could bear.

mod build;
mod checks;
mod press;
mod work;

#[cfg(test)]
mod tests;

use std::collections::BTreeMap;
use std::sync::Arc;

use self::build::{Lines, Outline, Valves};
use self::press::Press;
use self::work::{Areas, Run, Sizing, Work};
use super::efficient::{asked, efficient, efficient_of_same, habits};
use super::ladder::Ladder;
use super::{Ask, Bench, Check, Family, Need, PartLine, Running, Train, choose, controls, finish};
use crate::catalog::{Control, OilAccumulator, OilCooler, OilCylinder, OilPowerUnit};
use crate::demand::Demand;
use crate::mechanics::hydraulics;
use crate::quantity::Si;
use crate::requirements::{Criterion, Stops};

/// The family.
pub struct Hydraulic;

/// Name in files.
const NAME: &str = "hydraulic";
/// Two design times nearer than this part are one.
const SAME_TIME: f64 = 1e-3;

impl Family for Hydraulic {
    fn name(&self) -> &'static str {
        NAME
    }
    fn words(&self) -> &'static str {
        "hydraulic cylinder"
    }
    fn needs(&self) -> &'static [Need] {
        &[Need::Mains, Need::Oil]
    }
    fn trains<'a>(&self, ask: &Ask<'a>, bench: &mut Bench<'a>) {
        let site = checks::of_site(ask);
        if !site.iter().all(Check::passes) {
            bench.fails(site);
            return;
        }
        let stock = Stock::new(ask, bench.explains());
        let mut quicker = Vec::new();
        let mut any = false;
        for time in ask.times {
            let trains = at_time(ask, &stock, &ask.demand(*time), bench);
            any |= !trains.is_empty();
            for (pair, train) in trains {
                quicker.extend(natural_fastest(ask, pair, *time).map(|fastest| (pair, fastest)));
                bench.offer(finish(ask, train));
            }
        }
        for (pair, time) in quicker {
            let demand = ask.demand(time);
            let work = Work::of(&demand);
            let sizing = Sizing::of(ask.job, &work, Areas::of(pair.cylinder));
            let lines = Lines::choose(ask, &stock.valves, &work, &sizing);
            if let Ok(train) = attempt(ask, &stock, &demand, &work, pair, &lines) {
                bench.offer(finish(ask, train));
            }
        }
        if !any
            && bench.explains()
            && let Some(time) = ask.times.first()
        {
            nearest(ask, &stock, &ask.demand(*time), bench);
        }
    }
}

/// The two parts that the rest of a train follows from.
#[derive(Debug, Clone, Copy)]
struct Pair<'a> {
    cylinder: &'a OilCylinder,
    unit: &'a OilPowerUnit,
    /// The controls of the unit's motor, where the catalog has such.
    controls: Option<&'a Control>,
}

/// What stands to choose from, sorted once for all design times.
struct Stock<'a> {
    cylinders: Vec<&'a OilCylinder>,
    coolers: Ladder<'a, OilCooler>,
    controls: choose::Ladder<'a, Control>,
    valves: Valves<'a>,
}

impl<'a> Stock<'a> {
    /// Every cylinder where it is asked what came nearest, else those worth having.
    fn new(ask: &Ask<'a>, explains: bool) -> Self {
        let all: Vec<_> = ask.catalog.oil_cylinders.iter().collect();
        let several = ask.job.stops != Stops::Ends;
        Self {
            cylinders: if explains {
                all
            } else {
                worth_having(ask, all)
            },
            coolers: work::coolers(ask),
            controls: controls(ask, "oil", several),
            valves: Valves::of(ask),
        }
    }
}

/// What follows from bore and rod alone: of cylinders of the same size it is the same.
struct Size<'a> {
    /// Units with their controls, and what each does.
    units: Vec<(&'a OilPowerUnit, Option<&'a Control>, Run<'a>)>,
    lines: Result<Lines<'a>, Vec<Check>>,
    /// Lines that pass, with the accumulator of a press; none where one is missing or fails.
    ready: Option<(Lines<'a>, Option<&'a OilAccumulator>)>,
}

impl<'a> Size<'a> {
    fn new(ask: &Ask<'a>, stock: &Stock<'a>, work: &Work, sizing: &Sizing) -> Self {
        let with_controls = |(unit, run): (&'a OilPowerUnit, Run<'a>)| {
            (unit, stock.controls.first(unit.motor_power.si()), run)
        };
        let units = units(ask, &stock.coolers, work, sizing).into_iter();
        let lines = Lines::choose(ask, &stock.valves, work, sizing);
        let press = Press::of(ask, work.travel_time_s);
        let kept_up = press
            .map(|press| press.accumulator(ask, sizing))
            .transpose();
        let passes = |lines: &&Lines| lines.checks(ask, work, sizing).iter().all(Check::passes);
        let passing = lines.as_ref().ok().filter(passes).copied();
        let ready = passing.zip(kept_up.ok());
        Self {
            units: units.map(with_controls).collect(),
            ready: ready.map(|(lines, kept_up)| (lines, kept_up.map(|(part, _)| part))),
            lines,
        }
    }
}

/// The trains worth judging at one design time.
fn at_time<'a>(
    ask: &Ask<'a>,
    stock: &Stock<'a>,
    demand: &Arc<Demand>,
    bench: &mut Bench<'a>,
) -> Vec<(Pair<'a>, Train<'a>)> {
    let work = Work::of(demand);
    let mut sound = Vec::new();
    for &cylinder in &stock.cylinders {
        let sizing = Sizing::of(ask.job, &work, Areas::of(cylinder));
        let own = checks::of_cylinder(ask, &work, &sizing, cylinder);
        if own.iter().all(Check::passes) {
            sound.push((cylinder, sizing));
        } else {
            bench.fails(own);
        }
    }
    let mut sizes = BTreeMap::new();
    let mut outlines = Vec::new();
    for (cylinder, sizing) in sound {
        let size = sizes
            .entry(size(cylinder))
            .or_insert_with(|| Size::new(ask, stock, &work, &sizing));
        for &(unit, controls, ref run) in &size.units {
            let pair = Pair {
                cylinder,
                unit,
                controls,
            };
            // Cylinder and unit pass by themselves.
            if let Some((lines, accumulator)) = &size.ready
                && controls.is_some()
            {
                let outline = Outline::new(ask, pair, run, lines, *accumulator);
                outlines.push((pair, figures(ask, &outline)));
            } else if bench.explains()
                && let Err(checks) = attempt(ask, stock, demand, &work, pair, &size.lines)
            {
                bench.fails(checks);
            }
        }
    }
    // Only the trains that no other beats are built.
    let efficient = efficient(outlines, |(_, figures)| *figures).into_iter();
    let built = efficient.filter_map(|(pair, _)| {
        let lines = &sizes.get(&size(pair.cylinder))?.lines;
        let train = attempt(ask, stock, demand, &work, pair, lines).ok()?;
        Some((pair, train))
    });
    built.collect()
}

/// Bore and rod, to the bit.
fn size(cylinder: &OilCylinder) -> [u64; 2] {
    [cylinder.bore, cylinder.rod].map(|length| length.si().to_bits())
}

/// Of the cylinders of one bore and rod those that no other is no worse than in all that a train can differ in by them.
///
/// What stays passes whatever those that go would pass, so that none of them need be checked.
fn worth_having<'a>(ask: &Ask<'a>, all: Vec<&'a OilCylinder>) -> Vec<&'a OilCylinder> {
    let travel_m = ask.travel_m();
    let years = ask.job.wants.contains_key(&Criterion::Life);
    // The rest must be the same, so that another passes whatever this one passes.
    let same = |cylinder: &&OilCylinder| {
        let life_m = if years {
            cylinder.travel_life.si()
        } else {
            0.0
        };
        let figures = [
            cylinder.pressure.si(),
            cylinder.speed_most.si(),
            cylinder.stroke_most.si(),
            cylinder.rod_end.si(),
            life_m,
        ];
        (
            size(cylinder),
            figures.map(f64::to_bits),
            habits(&cylinder.common),
        )
    };
    efficient_of_same(all, same, |cylinder| {
        let common = &cylinder.common;
        let mass_kg = common.mass.si() + cylinder.mass_per_length.si() * travel_m;
        let counted = [
            common.price + cylinder.price_per_metre * travel_m,
            asked(ask, Criterion::AddedMass, mass_kg),
            asked(ask, Criterion::ClosedLength, cylinder.closed_length.si()),
        ];
        // Seals that last longer are renewed no more often; how long all of them last is another matter.
        (counted, [-cylinder.travel_life.si()])
    })
}

/// What trains of one design time differ in, less being better: money, and what the customer asked about.
fn figures(ask: &Ask, outline: &Outline) -> [f64; 6] {
    let parts = &outline.parts;
    let on_machine = parts.iter().filter(|part| part.on_machine);
    let mass: f64 = on_machine
        .map(|part| f64::from(part.quantity) * part.mass_kg)
        .sum();
    let noise = parts.iter().filter_map(|part| part.common.noise);
    let consumables = parts.iter().map(|part| part.common.consumables);
    [
        parts.iter().map(PartLine::cost).sum(),
        yearly(ask, &outline.running) + consumables.sum::<f64>(),
        asked(ask, Criterion::Noise, noise.map(Si::si).fold(0.0, f64::max)),
        asked(ask, Criterion::AddedMass, mass),
        asked(ask, Criterion::ClosedLength, outline.closed_length_m),
        asked(ask, Criterion::Life, -outline.seal_years),
    ]
}

/// Electricity of a year, in the file's currency.
fn yearly(ask: &Ask, running: &Running) -> f64 {
    let timing = &ask.job.timing;
    let moving = running.moving_j * timing.cycles_per_year();
    let standby = running.standby_w * 3600.0 * timing.hours_per_year();
    (moving + standby) / 3.6e6 * ask.job.rates.electricity_per_kwh
}

/// The units that pass for a cylinder and are not beaten on price, running cost and noise.
fn units<'a>(
    ask: &Ask<'a>,
    coolers: &Ladder<'a, OilCooler>,
    work: &Work,
    sizing: &Sizing,
) -> Vec<(&'a OilPowerUnit, Run<'a>)> {
    let passing = ask.catalog.oil_power_units.iter().filter_map(|unit| {
        if unit.flow.si() < sizing.flow_m3_s || unit.pressure.si() < sizing.set_pa {
            return None;
        }
        let run = Run::of(ask, coolers, work, sizing.set_pa, unit);
        checks::unit_passes(ask, sizing, &run, unit).then_some((unit, run))
    });
    let noise = |unit: &OilPowerUnit| unit.common.noise.map_or(0.0, Si::si);
    efficient(passing.collect(), |(unit, run)| {
        let running = Running {
            moving_j: run.moving_j,
            standby_w: run.standby_w,
            ..Running::default()
        };
        [
            unit.common.price + run.cooler_price(),
            yearly(ask, &running) + unit.common.consumables,
            asked(ask, Criterion::Noise, noise(unit)),
        ]
    })
}

/// A whole train of a pair, or the checks at which it ended.
fn attempt<'a>(
    ask: &Ask<'a>,
    stock: &Stock<'a>,
    demand: &Arc<Demand>,
    work: &Work,
    pair: Pair<'a>,
    lines: &Result<Lines<'a>, Vec<Check>>,
) -> Result<Train<'a>, Vec<Check>> {
    let sizing = Sizing::of(ask.job, work, Areas::of(pair.cylinder));
    let run = Run::of(ask, &stock.coolers, work, sizing.set_pa, pair.unit);
    let mut checks = checks::of_cylinder(ask, work, &sizing, pair.cylinder);
    checks.extend(checks::of_unit(ask, &sizing, &run, pair.unit));
    let lines = match lines {
        Ok(lines) => lines,
        Err(missing) => {
            checks.extend(missing.iter().cloned());
            return Err(checks);
        }
    };
    checks.extend(lines.checks(ask, work, &sizing));
    if !checks.iter().all(Check::passes) {
        return Err(checks);
    }
    build::train(ask, demand, pair, &sizing, &run, lines, checks)
}

/// The travel time at which a pair runs at the whole flow of its pump, if that is worth a design time.
fn natural_fastest(ask: &Ask, pair: Pair, time_s: f64) -> Option<f64> {
    let area = hydraulics::piston_area(pair.cylinder.bore);
    let speed = hydraulics::piston_speed(pair.unit.flow, area, ask.job.rules.oil_volumetric);
    let fastest = ask.book.axis().unit_speed_m() / speed.si();
    let least = ask.times.iter().copied().fold(f64::INFINITY, f64::min);
    // Where a shorter time of the series lies between, that one offers this pair again.
    let next = ask
        .times
        .iter()
        .copied()
        .filter(|t| *t < time_s)
        .fold(0.0, f64::max);
    let between = fastest < time_s * (1.0 - SAME_TIME) && fastest > next * (1.0 + SAME_TIME);
    (between && fastest > least).then_some(fastest)
}

/// Where nothing passes: how near each cylinder comes with the unit that suits it best.
fn nearest<'a>(ask: &Ask<'a>, stock: &Stock<'a>, demand: &Arc<Demand>, bench: &mut Bench<'a>) {
    let work = Work::of(demand);
    // As in `at_time`: what a unit makes of a cylinder follows from its bore and rod.
    let mut known = BTreeMap::new();
    for cylinder in &ask.catalog.oil_cylinders {
        let sizing = Sizing::of(ask.job, &work, Areas::of(cylinder));
        let own = checks::of_cylinder(ask, &work, &sizing, cylinder);
        let unit: &Vec<Check> = known.entry(size(cylinder)).or_insert_with(|| {
            let tried = ask.catalog.oil_power_units.iter().map(|unit| {
                let run = Run::of(ask, &stock.coolers, &work, sizing.set_pa, unit);
                let checks = checks::of_unit(ask, &sizing, &run, unit);
                let worst = checks.iter().map(Check::utilisation).fold(0.0, f64::max);
                (worst, checks)
            });
            let best = tried.min_by(|p, q| p.0.total_cmp(&q.0));
            best.map(|(_, checks)| checks).unwrap_or_default()
        });
        bench.fails(own.into_iter().chain(unit.iter().cloned()).collect());
    }
    if ask.catalog.oil_cylinders.is_empty() {
        bench.fails(vec![Check::of(
            "oil_cylinder.any",
            false,
            "the catalog has no oil cylinder",
        )]);
    }
}
