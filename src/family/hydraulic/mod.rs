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
#[path = "../../../tests/unit/family/hydraulic.rs"]
mod tests;

use std::collections::BTreeMap;
use std::sync::Arc;

use self::build::{LineStock, OilDrive, OilLines, Outline};
use self::press::Press;
use self::work::{Areas, Sizing, StrokeLoads, UnitDuty};
use super::choose::{Carries, Ladder, Merits, ParetoFront, front};
use super::{Ask, Bench, Check, Drive, Family, Need, PartLine, controls, finish, site};
use crate::catalog::{Control, OilAccumulator, OilCooler, OilCylinder, OilPowerUnit, OilSealKit};
use crate::demand::Demand;
use crate::mechanics::hydraulics;
use crate::quantity::Si;
use crate::requirements::Stops;

/// The family.
pub struct Hydraulic;

/// Name in files.
const NAME: &str = "hydraulic";

impl Family for Hydraulic {
    fn name(&self) -> &'static str {
        NAME
    }
    fn words(&self) -> &'static str {
        "hydraulic cylinder"
    }
    fn covers(&self) -> &'static [&'static str] {
        &["oil cylinder"]
    }
    fn needs(&self) -> &'static [Need] {
        &[Need::Mains, Need::Oil]
    }
    fn grows_with_load(&self) -> &'static [&'static str] {
        &["oil_cylinder.pressure", "oil_cylinder.rod_buckling"]
    }
    fn drives<'a>(&self, ask: &Ask<'a>, bench: &mut Bench<'a>) {
        let site = checks::of_site(ask);
        if !site.iter().all(Check::passes) {
            bench.fails(site);
            return;
        }
        let stock = OilStock::new(ask, bench.explains());
        let mut quicker: Vec<(Pair, f64)> = Vec::new();
        let mut any = false;
        for time in ask.times {
            let drives = at_time(ask, &stock, &ask.demand(*time), bench);
            any |= !drives.is_empty();
            for (pair, drive) in drives {
                if let Some(fastest) = natural_fastest(ask, pair, *time)
                    && !quicker.iter().any(|(known, _)| known.has_parts_of(&pair))
                {
                    quicker.push((pair, fastest));
                }
                bench.offer(finish(ask, drive));
            }
        }
        for (pair, time) in quicker {
            for drive in quick_trains(ask, &stock, pair, &ask.demand(time)) {
                bench.offer(finish(ask, drive));
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

/// The two parts that the rest of a drive follows from.
#[derive(Debug, Clone, Copy)]
struct Pair<'a> {
    cylinder: &'a OilCylinder,
    unit: &'a OilPowerUnit,
    /// The controls of the unit's motor, where the catalog has such.
    controls: Option<&'a Control>,
    /// Seals, where they are renewed.
    kit: Option<&'a OilSealKit>,
}

impl Pair<'_> {
    /// Whether another is of the same parts.
    fn has_parts_of(&self, other: &Self) -> bool {
        let ids = |pair: &Self| {
            let controls = pair.controls.map(|part| core::ptr::from_ref(&part.common));
            let kit = pair.kit.map(|part| core::ptr::from_ref(&part.common));
            let own = [&pair.cylinder.common, &pair.unit.common].map(core::ptr::from_ref);
            (own, controls, kit)
        };
        ids(self) == ids(other)
    }
}

/// What stands to choose from, sorted once for all design times.
struct OilStock<'a> {
    cylinders: Vec<&'a OilCylinder>,
    coolers: Ladder<'a, OilCooler>,
    controls: Ladder<'a, Control>,
    lines: LineStock<'a>,
}

impl<'a> OilStock<'a> {
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
            lines: LineStock::new(ask),
        }
    }
}

/// What follows from bore and rod alone: of cylinders of the same size it is the same.
struct Size<'a> {
    /// Units with their controls, and what each does.
    units: Vec<(&'a OilPowerUnit, Option<&'a Control>, UnitDuty<'a>)>,
    /// Lines worth having, or what is missing.
    lines: Result<Vec<OilLines<'a>>, Vec<Check>>,
    /// Accumulators worth having, none where the job does not press.
    accumulators: Result<Vec<Option<&'a OilAccumulator>>, Check>,
    /// Lines that pass, each with each accumulator.
    ready: Vec<(OilLines<'a>, Option<&'a OilAccumulator>)>,
}

impl<'a> Size<'a> {
    fn new(ask: &Ask<'a>, stock: &OilStock<'a>, work: &StrokeLoads, sizing: &Sizing) -> Self {
        let lines = OilLines::choices(ask, &stock.lines, work, sizing);
        let accumulators = match Press::of(ask, work.travel_time_s) {
            Some(press) => press
                .accumulators(ask, sizing)
                .map(|all| all.into_iter().map(Some).collect()),
            None => Ok(vec![None]),
        };
        let passes = |lines: &&OilLines| lines.checks(ask, work, sizing).iter().all(Check::passes);
        let passing = lines.iter().flatten().filter(passes);
        let with = |lines: &OilLines<'a>| {
            let all = accumulators.iter().flatten().copied();
            let lines = *lines;
            all.map(move |accumulator| (lines, accumulator))
        };
        Self {
            units: units(ask, stock, work, sizing),
            ready: passing.flat_map(with).collect(),
            lines,
            accumulators,
        }
    }

    /// What is tried to tell why nothing passes: the first of all, or what is missing.
    fn first(&self, pair: Pair<'a>, run: UnitDuty<'a>) -> Result<OilDrive<'a>, Vec<Check>> {
        let lines = self.lines.as_ref().map_err(Clone::clone)?;
        let lines = *lines.first().ok_or_else(Vec::new)?;
        let accumulator = match &self.accumulators {
            Ok(all) => all.first().copied().flatten(),
            Err(_) => None,
        };
        Ok(OilDrive {
            pair,
            run,
            lines,
            accumulator,
        })
    }
}

/// The seals of a cylinder worth having, none where they last.
fn kits<'a>(ask: &Ask<'a>, cylinder: &OilCylinder) -> Vec<Option<&'a OilSealKit>> {
    if checks::renewals(ask, cylinder) <= 0.0 {
        return vec![None];
    }
    let kits = checks::seals(ask, cylinder);
    kits.into_iter().map(Some).collect()
}

/// The drives worth judging at one design time.
fn at_time<'a>(
    ask: &Ask<'a>,
    stock: &OilStock<'a>,
    demand: &Arc<Demand>,
    bench: &mut Bench<'a>,
) -> Vec<(Pair<'a>, Drive<'a>)> {
    let work = StrokeLoads::of(demand);
    let mut sizes = BTreeMap::new();
    // Only the drives that no other beats are built.
    let mut best = ParetoFront::default();
    for &cylinder in &stock.cylinders {
        let sizing = Sizing::of(ask.job, &work, Areas::of(cylinder));
        let own = checks::of_cylinder(ask, &work, &sizing, cylinder);
        if !own.iter().all(Check::passes) {
            bench.fails(own);
            continue;
        }
        let size = sizes
            .entry(size(cylinder))
            .or_insert_with(|| Size::new(ask, stock, &work, &sizing));
        let kits = kits(ask, cylinder);
        for &(unit, controls, run) in &size.units {
            let pair = |kit| Pair {
                cylinder,
                unit,
                controls,
                kit,
            };
            // Cylinder and unit pass by themselves.
            if controls.is_some() && !size.ready.is_empty() {
                for (kit, (lines, accumulator)) in all_pairs(&kits, &size.ready) {
                    let chosen = OilDrive {
                        pair: pair(kit),
                        run,
                        lines,
                        accumulator,
                    };
                    best.take(Outline::new(ask, &chosen).figures(ask), chosen);
                }
            } else if bench.explains() {
                let first = size.first(pair(kits.first().copied().flatten()), run);
                if let Err(checks) =
                    attempt(ask, demand, &work, pair(None), &run, first).and_then(|drive| {
                        match &size.accumulators {
                            Ok(_) => Ok(drive),
                            Err(missing) => Err(vec![missing.clone()]),
                        }
                    })
                {
                    bench.fails(checks);
                }
            }
        }
    }
    let built = best.into_items().filter_map(|chosen| {
        let drive = attempt(ask, demand, &work, chosen.pair, &chosen.run, Ok(chosen)).ok()?;
        Some((chosen.pair, drive))
    });
    built.collect()
}

fn all_pairs<P: Copy, Q: Copy>(rows: &[P], columns: &[Q]) -> impl Iterator<Item = (P, Q)> {
    let with = |row: &P| {
        let row = *row;
        columns.iter().map(move |column| (row, *column))
    };
    rows.iter().flat_map(with)
}

/// The drives of a pair at a design time of its own.
fn quick_trains<'a>(
    ask: &Ask<'a>,
    stock: &OilStock<'a>,
    pair: Pair<'a>,
    demand: &Arc<Demand>,
) -> Vec<Drive<'a>> {
    let work = StrokeLoads::of(demand);
    let sizing = Sizing::of(ask.job, &work, Areas::of(pair.cylinder));
    let size = Size::new(ask, stock, &work, &sizing);
    let runs = UnitDuty::all(ask, &stock.coolers, &work, sizing.set_pa, pair.unit);
    let mut drives = Vec::new();
    for (run, (lines, accumulator)) in all_pairs(&runs, &size.ready) {
        let chosen = OilDrive {
            pair,
            run,
            lines,
            accumulator,
        };
        drives.extend(attempt(ask, demand, &work, pair, &run, Ok(chosen)).ok());
    }
    drives
}

/// Bore and rod, to the bit.
fn size(cylinder: &OilCylinder) -> [u64; 2] {
    [cylinder.bore, cylinder.rod].map(|length| length.si().to_bits())
}

/// Of the cylinders of one bore and rod those that no other is no worse than in all that a drive can differ in by them.
///
/// What stays passes whatever those that go would pass, so that none of them need be checked.
fn worth_having<'a>(ask: &Ask<'a>, all: Vec<&'a OilCylinder>) -> Vec<&'a OilCylinder> {
    let (rates, goals) = (ask.life_cost(), ask.goals());
    let travel_m = ask.travel_m();
    let figures = |cylinder: &&OilCylinder| {
        // These must be the same, so that another passes whatever this one passes.
        let same = [
            cylinder.pressure.si(),
            cylinder.speed_most.si(),
            cylinder.stroke_most.si(),
            cylinder.rod_end.si(),
        ];
        let line = PartLine::cut(
            "oil_cylinders",
            &cylinder.common,
            travel_m,
            cylinder.price_per_metre,
            cylinder.mass_per_length.si(),
        );
        let figures = Merits {
            length_m: cylinder.closed_length.si(),
            life: -cylinder.travel_life.si(),
            ..Merits::line(&rates, &line)
        };
        // Seals that last longer are renewed no more often; how long all of them last is another matter.
        let carries = Carries(cylinder.travel_life.si(), goals.of_drive(figures));
        let suits = site::suits(ask.job, &cylinder.common);
        ((size(cylinder), same.map(f64::to_bits), suits), carries)
    };
    front(all, figures)
}

/// The units that pass for a cylinder, with their controls, and are not beaten on what they cost, draw and bring.
fn units<'a>(
    ask: &Ask<'a>,
    stock: &OilStock<'a>,
    work: &StrokeLoads,
    sizing: &Sizing,
) -> Vec<(&'a OilPowerUnit, Option<&'a Control>, UnitDuty<'a>)> {
    let (rates, goals) = (ask.life_cost(), ask.goals());
    let mut best = ParetoFront::default();
    for unit in &ask.catalog.oil_power_units {
        if unit.flow.si() < sizing.flow_m3_s || unit.pressure.si() < sizing.set_pa {
            continue;
        }
        for run in UnitDuty::all(ask, &stock.coolers, work, sizing.set_pa, unit) {
            if !checks::unit_passes(ask, sizing, &run, unit) {
                continue;
            }
            let line = PartLine::pieces("oil_power_units", &unit.common, 1).beside();
            let parts = [Some(line), run.cooler_line()];
            let figures = Merits::lines(&rates, parts.iter().flatten());
            let running = figures.drawing(&rates, run.moving_j, run.standby_w);
            best.take(goals.of_drive(running), (unit, run));
        }
    }
    let with_controls = |(unit, run): (&'a OilPowerUnit, UnitDuty<'a>)| {
        let controls = stock.controls.choices(unit.motor_power.si());
        let all: Vec<_> = if controls.is_empty() {
            vec![None]
        } else {
            controls.into_iter().map(Some).collect()
        };
        all.into_iter().map(move |controls| (unit, controls, run))
    };
    best.into_items().flat_map(with_controls).collect()
}

/// A whole drive, or the checks at which it ended.
fn attempt<'a>(
    ask: &Ask<'a>,
    demand: &Arc<Demand>,
    work: &StrokeLoads,
    pair: Pair<'a>,
    run: &UnitDuty<'a>,
    chosen: Result<OilDrive<'a>, Vec<Check>>,
) -> Result<Drive<'a>, Vec<Check>> {
    let sizing = Sizing::of(ask.job, work, Areas::of(pair.cylinder));
    let mut checks = checks::of_cylinder(ask, work, &sizing, pair.cylinder);
    checks.extend(checks::of_unit(ask, &sizing, run, pair.unit));
    let chosen = match chosen {
        Ok(chosen) => chosen,
        Err(missing) => {
            checks.extend(missing);
            return Err(checks);
        }
    };
    checks.extend(chosen.lines.checks(ask, work, &sizing));
    if !checks.iter().all(Check::passes) {
        return Err(checks);
    }
    build::drive(ask, demand, &chosen, &sizing, checks)
}

/// The travel time at which a pair runs at the whole flow of its pump, if that is worth a design time.
fn natural_fastest(ask: &Ask, pair: Pair, time_s: f64) -> Option<f64> {
    let area = hydraulics::piston_area(pair.cylinder.bore);
    let speed = hydraulics::piston_speed(pair.unit.flow, area, ask.job.rules.oil_volumetric);
    ask.time_between(ask.book.axis().unit_speed_m() / speed.si(), time_s)
}

/// Where nothing passes: how near each cylinder comes with the unit that suits it best.
fn nearest<'a>(ask: &Ask<'a>, stock: &OilStock<'a>, demand: &Arc<Demand>, bench: &mut Bench<'a>) {
    let work = StrokeLoads::of(demand);
    // As in `at_time`: what a unit makes of a cylinder follows from its bore and rod.
    let mut known = BTreeMap::new();
    for cylinder in &ask.catalog.oil_cylinders {
        let sizing = Sizing::of(ask.job, &work, Areas::of(cylinder));
        let own = checks::of_cylinder(ask, &work, &sizing, cylinder);
        let unit: &Vec<Check> = known.entry(size(cylinder)).or_insert_with(|| {
            let tried = ask.catalog.oil_power_units.iter().map(|unit| {
                let runs = UnitDuty::all(ask, &stock.coolers, &work, sizing.set_pa, unit);
                let first = runs
                    .first()
                    .map(|run| checks::of_unit(ask, &sizing, run, unit));
                let checks = first.unwrap_or_default();
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
