//! From a sized cylinder and unit to a drive: valves, hoses, controls, running figures.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::press::{self, Press};
use super::work::{Sizing, StrokeLoads, UnitDuty};
use super::{NAME, Pair, checks};
use crate::catalog::{Control, Hose, OilAccumulator, OilValve, oil_function};
use crate::demand::Demand;
use crate::family::choose::{Merits, Shelf, front};
use crate::family::hazard::{
    COUNTERBALANCE, COUNTERBALANCES, HOT_OIL, OIL_JET, OIL_PUSHES, OIL_STAYS,
};
use crate::family::{
    Ask, Caution, Check, Custom, Drive, Figure, Hours, Life, Measurement, PartLine, Running, Stage,
    Words, count,
};
use crate::mechanics::hydraulics;
use crate::quantity::{Kind, Si, cubic_metres_per_second, show};
use crate::requirements::Stops;

const GAUGE: Measurement<1> = Measurement {
    stage: Stage::AtWork,
    measure: "Gauge at the oil unit, cylinder against its stop, nobody in the path",
    reading: Words::new("{} bar: set the relief valve to it"),
};
/// Where a pressure switch would stop the pump first.
const GAUGE_SWITCHED: Measurement<1> = Measurement {
    measure: "Gauge at the oil unit, the line to the cylinder shut off and nobody within reach of the press, the pressure switch set above the relief valve for this alone, then back and proved",
    ..GAUGE
};
const HEAT: Measurement<2> = Measurement {
    stage: Stage::AtWork,
    measure: "Thermometer in the oil, after an hour of full duty",
    reading: Words::new("steady below the limit: {} of heat against {} given off"),
};

/// Valves and hoses between unit and cylinder.
#[derive(Debug, Clone, Copy)]
pub(super) struct OilLines<'a> {
    directional: &'a OilValve,
    throttle: &'a OilValve,
    counterbalance: Option<&'a OilValve>,
    /// How many counterbalance valves: one a side that must not empty by itself.
    counterbalances: u32,
    hose: &'a Hose,
}

impl<'a> OilLines<'a> {
    /// Those worth having that pass, the cheapest first, or the checks that say what is missing.
    pub(super) fn choices(
        ask: &Ask<'a>,
        stock: &LineStock<'a>,
        work: &StrokeLoads,
        sizing: &Sizing,
    ) -> Result<Vec<Self>, Vec<Check>> {
        let set_pa = sizing.set_pa;
        let counterbalances = u32::from(work.locks_bore()) + u32::from(work.locks_rod());
        let counterbalance = if counterbalances > 0 {
            let setting = checks::setting_pa(ask, work, sizing.areas);
            let function = oil_function::COUNTERBALANCE;
            let valves = stock.valves(function, sizing, setting.max(set_pa))?;
            valves.into_iter().map(Some).collect()
        } else {
            vec![None]
        };
        // Counterbalance valves close only if their pilots drain.
        let centre = if counterbalances > 0 {
            oil_function::DRAINED
        } else {
            oil_function::DIRECTIONAL
        };
        let directional = stock.valves(centre, sizing, set_pa)?;
        let throttles = stock.valves(oil_function::FLOW_CONTROL, sizing, set_pa)?;
        let hoses = stock.hoses(ask, sizing)?;
        let mut all = Vec::new();
        for directional in directional {
            for throttle in &throttles {
                for counterbalance in &counterbalance {
                    all.extend(hoses.iter().map(|hose| Self {
                        directional,
                        throttle,
                        counterbalance: *counterbalance,
                        counterbalances,
                        hose,
                    }));
                }
            }
        }
        if all.len() == 1 {
            return Ok(all);
        }
        let (rates, goals) = (ask.life_cost(), ask.goals());
        let figures = |lines: &Self| goals.of_part(Merits::lines(&rates, &lines.parts(ask)));
        Ok(front(all, figures))
    }

    pub(super) fn checks(&self, ask: &Ask, work: &StrokeLoads, sizing: &Sizing) -> Vec<Check> {
        let valves = [self.directional, self.throttle];
        checks::of_lines(ask, work, sizing, &valves, self.counterbalance, self.hose)
    }

    fn parts(&self, ask: &Ask) -> Vec<PartLine<'a>> {
        let valve = |valve: &'a OilValve, count| PartLine::part(valve, count);
        let mut parts = vec![
            valve(self.directional, 1).beside(),
            valve(self.throttle, 2).beside(),
        ];
        let counterbalance = self.counterbalance;
        parts.extend(counterbalance.map(|part| valve(part, self.counterbalances)));
        parts.push(hose_line(ask, self.hose));
        parts
    }
}

/// Two hoses of the length that the job takes.
fn hose_line<'a>(ask: &Ask, hose: &'a Hose) -> PartLine<'a> {
    let length_m = ask.travel_m() + ask.job.site.units.distance.si();
    PartLine {
        quantity: 2,
        ..PartLine::cut(hose, length_m, hose.price_per_metre, hose.mass_per_length)
    }
}

/// The valves of each function, and the hoses.
pub(super) struct LineStock<'a> {
    valves: BTreeMap<&'a str, Shelf<'a, OilValve>>,
    hoses: Shelf<'a, Hose>,
}

impl<'a> LineStock<'a> {
    pub(super) fn new(ask: &Ask<'a>) -> Self {
        let rates = ask.life_cost();
        let mut valves: BTreeMap<&str, Vec<&OilValve>> = BTreeMap::new();
        for valve in &ask.catalog.oil_valves {
            valves.entry(&valve.function).or_default().push(valve);
        }
        let shelf = |(function, same): (&'a str, Vec<&'a OilValve>)| {
            // All others stand beside the machine.
            let rides = function == oil_function::COUNTERBALANCE;
            let shelf = Shelf::with(ask, same, |valve| {
                let common = &valve.common;
                let mass_kg = if rides { common.mass.si() } else { 0.0 };
                (common, Merits::piece(&rates, common, common.price, mass_kg))
            });
            (function, shelf)
        };
        Self {
            valves: valves.into_iter().map(shelf).collect(),
            hoses: Shelf::with(ask, &ask.catalog.hoses, |hose| {
                (&hose.common, Merits::line(&rates, &hose_line(ask, hose)))
            }),
        }
    }

    /// The valves of a function worth having for the flow and a pressure.
    fn valves(
        &self,
        function: &str,
        sizing: &Sizing,
        pressure_pa: f64,
    ) -> Result<Vec<&'a OilValve>, Vec<Check>> {
        let wide = |valve: &OilValve| valve.flow.si() >= sizing.line_m3_s;
        let fits = |valve: &OilValve| wide(valve) && valve.pressure.si() >= pressure_pa;
        let valves = self.valves.get(function);
        let fitting = valves
            .map(|valves| valves.choices(fits))
            .unwrap_or_default();
        if !fitting.is_empty() {
            return Ok(fitting);
        }
        let all = || valves.into_iter().flat_map(Shelf::iter);
        let flow = all().map(|valve| valve.flow.si()).fold(0.0, f64::max);
        let strong = all().filter(|valve| wide(valve));
        let pressure = strong.map(|valve| valve.pressure.si()).fold(0.0, f64::max);
        let missing = if flow < sizing.line_m3_s {
            let (needed, given) = (sizing.line_m3_s * 60e3, flow * 60e3);
            Check::new("oil_valve.flow", needed, given, "L/min")
                .from("Q = A v_peak <= the largest valve", "continuity")
        } else {
            let (needed, given) = (pressure_pa / 1e5, pressure / 1e5);
            Check::new("oil_valve.pressure", needed, given, "bar")
                .from("pressure <= rating of the valves wide enough", "catalog")
        };
        Err(vec![missing])
    }

    /// The hoses worth having for the flow, filling and emptying the bore side, and the pressure.
    fn hoses(&self, ask: &Ask<'a>, sizing: &Sizing) -> Result<Vec<&'a Hose>, Vec<Check>> {
        let rules = &ask.job.rules;
        let most = rules.oil_return_speed_most.min(rules.oil_line_speed_most);
        let flow = cubic_metres_per_second(sizing.line_m3_s);
        let speed = |hose: &Hose| hydraulics::line_speed(flow, hose.bore).si();
        let pressure = checks::line_pressure(sizing);
        let strong = |hose: &Hose| hose.pressure.si() >= pressure;
        let fitting = self
            .hoses
            .choices(|hose| speed(hose) <= most && strong(hose));
        if !fitting.is_empty() {
            return Ok(fitting);
        }
        let widest = self.hoses.iter().filter(|hose| strong(hose)).map(speed);
        let widest = widest.fold(f64::INFINITY, f64::min);
        let missing = if widest.is_finite() {
            Check::new("hose.return_speed", widest, most, "m/s")
                .from(
                    "w = 4 Q/(π d²), the widest hose for the pressure",
                    "continuity",
                )
                .rule("oil_return_speed_most")
        } else {
            let ratings = self.hoses.iter().map(|hose| hose.pressure.si());
            let best = ratings.fold(0.0, f64::max);
            Check::new("hose.pressure", pressure / 1e5, best / 1e5, "bar")
                .from("pressure <= rating of the hoses", "catalog")
        };
        Err(vec![missing])
    }
}

/// All that is chosen for a drive.
#[derive(Debug, Clone, Copy)]
pub(super) struct OilDrive<'a> {
    pub pair: Pair<'a>,
    pub run: UnitDuty<'a>,
    pub lines: OilLines<'a>,
    /// Of a press.
    pub accumulator: Option<&'a OilAccumulator>,
}

/// The drive whose checks all pass; fails where the catalog has no controls for it.
pub(super) fn drive<'a>(
    ask: &Ask<'a>,
    demand: &Arc<Demand>,
    chosen: &OilDrive<'a>,
    sizing: &Sizing,
    checks: Vec<Check>,
) -> Result<Drive<'a>, Vec<Check>> {
    let OilDrive {
        pair: Pair { cylinder, unit, .. },
        run,
        lines,
        accumulator,
    } = chosen;
    if chosen.pair.controls.is_none() {
        let says = "the catalog has no controls for an oil unit of this power";
        return Err(vec![Check::of("controls.oil", false, says)]);
    }
    let press = Press::of(ask, demand.travel_time_s);
    let outline = Outline::new(ask, chosen);
    let mut drive = Drive::new(NAME, "oil cylinder", Hours::OIL, Arc::clone(demand));
    drive.words = format!(
        "{}/{} mm oil cylinder, {} kW",
        show(cylinder.bore.si() * 1e3),
        show(cylinder.rod.si() * 1e3),
        show(unit.motor_power.si() / 1e3)
    );
    drive.holds |= lines.counterbalance.is_some();
    drive.parts = outline.parts;
    drive.custom = vec![Custom {
        what: "mounting plate and rod bracket",
        material: 0.0,
    }];
    drive.checks = checks;
    drive.running = outline.running;
    drive.position = vec![match ask.job.stops {
        Stops::Ends => ("hard stop", ask.job.rules.hard_stop_error),
        Stops::Several | Stops::Anywhere => ("directional valve", ask.job.rules.oil_valve_error),
    }];
    drive.closed_length_m = outline.closed_length_m;
    drive.lives = vec![Life::new("seals of the oil cylinder", outline.seal_years)];
    drive.remarks = remarks(sizing, run, unit.tank.si());
    drive
        .remarks
        .extend(checks::stops_and_holds(ask, lines.counterbalance.is_some()));
    let gauge = if press.is_some() {
        &GAUGE_SWITCHED
    } else {
        &GAUGE
    };
    let watts = |heat_w| Figure::Quantity(Kind::Power, heat_w);
    drive.proofs = vec![
        gauge.reads([Figure::Number(sizing.set_pa / 1e5)]),
        HEAT.reads([watts(run.heat_w), watts(run.rejection_w)]),
    ];
    let hottest_k = ask.job.rules.oil_temperature_most;
    drive.cautions = cautions(lines, sizing, press.as_ref(), demand, hottest_k);
    drive.presses_n =
        Some([sizing.areas.bore, sizing.areas.rod].map(|area| sizing.set_pa * area.value));
    if let Some((press, accumulator)) = press.zip(*accumulator) {
        let check = press::withstanding(sizing, accumulator.pressure.si());
        drive.checks.push(check);
        drive.remarks.push(press.remark(ask, accumulator));
        drive.cautions.extend(press.cautions(sizing));
    }
    Ok(drive)
}

/// What drives of a design time are told apart by, without their checks and words.
pub(super) struct Outline<'a> {
    pub parts: Vec<PartLine<'a>>,
    pub running: Running,
    pub closed_length_m: f64,
    pub seal_years: f64,
}

impl<'a> Outline<'a> {
    pub(super) fn new(ask: &Ask<'a>, chosen: &OilDrive<'a>) -> Self {
        let OilDrive { pair, run, .. } = chosen;
        let (cylinder, travel) = (pair.cylinder, ask.travel_m());
        let standby_w = pair.controls.map_or(0.0, |controls| controls.standby.si());
        let yearly_m = 2.0 * travel * ask.job.timing.cycles_per_year();
        let seals_m = cylinder.travel_life.si() * (1.0 + checks::renewals(ask, cylinder));
        Self {
            parts: parts(ask, chosen),
            running: Running {
                moving_j: run.moving_j,
                standby_w: run.standby_w + standby_w,
                ..Running::default()
            },
            closed_length_m: travel + cylinder.closed_length.si(),
            seal_years: seals_m / yearly_m,
        }
    }

    /// What counts of it.
    pub(super) fn figures(&self, ask: &Ask) -> Merits {
        let rates = ask.life_cost();
        let figures = Merits {
            length_m: self.closed_length_m,
            life: -self.seal_years,
            ..Merits::lines(&rates, &self.parts)
        };
        let Running {
            moving_j,
            standby_w,
            ..
        } = self.running;
        ask.goals()
            .of_drive(figures.drawing(&rates, moving_j, standby_w))
    }
}

fn parts<'a>(ask: &Ask<'a>, chosen: &OilDrive<'a>) -> Vec<PartLine<'a>> {
    let OilDrive {
        pair,
        run,
        lines,
        accumulator,
    } = chosen;
    let cylinder = pair.cylinder;
    let mut parts = vec![
        super::cylinder_line(ask, cylinder),
        PartLine::part(pair.unit, 1).beside(),
    ];
    parts.extend(lines.parts(ask));
    if let Some(kit) = pair.kit {
        let renewals = count(checks::renewals(ask, cylinder));
        parts.push(PartLine::part(kit, renewals).beside());
    }
    parts.extend(run.cooler_line());
    let controls = |part: &'a Control| PartLine::part(part, 1);
    parts.extend(pair.controls.map(controls));
    let pressing = |part: &'a OilAccumulator| PartLine::part(part, 1);
    parts.extend(accumulator.map(pressing));
    parts
}

fn remarks(sizing: &Sizing, run: &UnitDuty, tank_m3: f64) -> Vec<String> {
    vec![
        format!(
            "The relief valve is set at {} bar; the harder stroke needs {} L/min.",
            show(sizing.set_pa / 1e5),
            show(sizing.flow_m3_s * 60e3)
        ),
        format!(
            "The {} L of oil take up {} W on average; {} can give off {} W on the hottest day.",
            show(tank_m3 * 1e3),
            show(run.heat_w),
            if run.cooler.is_some() {
                "tank and cooler"
            } else {
                "the tank"
            },
            show(run.rejection_w)
        ),
    ]
}

fn cautions(
    lines: &OilLines,
    sizing: &Sizing,
    press: Option<&Press>,
    demand: &Demand,
    hottest_k: f64,
) -> Vec<Caution> {
    let bar = Figure::Number(checks::line_pressure(sizing) / 1e5);
    let hottest = Figure::Quantity(Kind::Temperature, hottest_k);
    let mut cautions = vec![
        OIL_STAYS.with([bar]),
        OIL_JET.with([]),
        HOT_OIL.with([hottest]),
    ];
    if press.is_none() {
        cautions.push(OIL_PUSHES.with([Figure::force(sizing.pushes_n())]));
    }
    let (back, out) = (demand.holding_push_n, demand.holding_pull_n);
    match lines.counterbalances {
        0 => {}
        1 => cautions.push(COUNTERBALANCE.with([Figure::force(demand.held_n())])),
        _ => cautions.push(COUNTERBALANCES.with([Figure::force(back), Figure::force(out)])),
    }
    cautions
}
