//! From a sized cylinder and unit to a train: valves, hoses, controls, running figures.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::press::Press;
use super::work::{Run, Sizing, Work};
use super::{NAME, Pair, checks};
use crate::catalog::{Control, Hose, OilAccumulator, OilCooler, OilValve, oil_function};
use crate::demand::Demand;
use crate::family::{Ask, Check, Hours, Life, Made, PartLine, Running, Train, caution};
use crate::mechanics::hydraulics;
use crate::quantity::{Si, cubic_metres_per_second, show};
use crate::requirements::Stops;

/// Valves and hoses between unit and cylinder.
#[derive(Debug, Clone, Copy)]
pub(super) struct Lines<'a> {
    directional: &'a OilValve,
    throttle: &'a OilValve,
    counterbalance: Option<&'a OilValve>,
    /// How many counterbalance valves: one a side that must not empty by itself.
    counterbalances: u32,
    hose: &'a Hose,
}

impl<'a> Lines<'a> {
    /// The cheapest that pass, or the checks that say what is missing.
    pub(super) fn choose(
        ask: &Ask<'a>,
        valves: &Valves<'a>,
        work: &Work,
        sizing: &Sizing,
    ) -> Result<Self, Vec<Check>> {
        let counterbalances = u32::from(work.locks_bore()) + u32::from(work.locks_rod());
        let counterbalance = (counterbalances > 0)
            .then(|| {
                let setting = checks::setting_pa(ask, work, sizing.areas);
                valve(
                    valves,
                    oil_function::COUNTERBALANCE,
                    sizing,
                    setting.max(sizing.set_pa),
                )
            })
            .transpose()?;
        // Counterbalance valves close only if their pilots drain.
        let centre = if counterbalances > 0 {
            oil_function::DRAINED
        } else {
            oil_function::DIRECTIONAL
        };
        Ok(Self {
            directional: valve(valves, centre, sizing, sizing.set_pa)?,
            throttle: valve(valves, oil_function::FLOW_CONTROL, sizing, sizing.set_pa)?,
            counterbalance,
            counterbalances,
            hose: hose(ask, sizing)?,
        })
    }
    pub(super) fn checks(&self, ask: &Ask, work: &Work, sizing: &Sizing) -> Vec<Check> {
        let valves = [self.directional, self.throttle];
        checks::of_lines(ask, work, sizing, &valves, self.counterbalance, self.hose)
    }
}

/// The valves of each function, cheapest first.
pub(super) struct Valves<'a>(BTreeMap<&'a str, Vec<&'a OilValve>>);

impl<'a> Valves<'a> {
    pub(super) fn of(ask: &Ask<'a>) -> Self {
        let mut valves: BTreeMap<&str, Vec<&OilValve>> = BTreeMap::new();
        for valve in &ask.catalog.oil_valves {
            valves.entry(&valve.function).or_default().push(valve);
        }
        for same in valves.values_mut() {
            same.sort_by(|p, q| p.common.price.total_cmp(&q.common.price));
        }
        Self(valves)
    }
}

/// The cheapest valve of a function for the flow and a pressure.
fn valve<'a>(
    valves: &Valves<'a>,
    function: &str,
    sizing: &Sizing,
    pressure_pa: f64,
) -> Result<&'a OilValve, Vec<Check>> {
    let all = || valves.0.get(function).into_iter().flatten().copied();
    let fits = |valve: &&OilValve| {
        valve.flow.si() >= sizing.line_m3_s && valve.pressure.si() >= pressure_pa
    };
    all().find(fits).ok_or_else(|| {
        let flow = all().map(|valve| valve.flow.si()).fold(0.0, f64::max);
        let wide = all().filter(|valve| valve.flow.si() >= sizing.line_m3_s);
        let pressure = wide.map(|valve| valve.pressure.si()).fold(0.0, f64::max);
        let missing = if flow < sizing.line_m3_s {
            Check::new(
                "oil_valve.flow",
                sizing.line_m3_s * 60e3,
                flow * 60e3,
                "L/min",
            )
            .from("Q = A v_peak <= the largest valve", "continuity")
        } else {
            Check::new(
                "oil_valve.pressure",
                pressure_pa / 1e5,
                pressure / 1e5,
                "bar",
            )
            .from("pressure <= rating of the valves wide enough", "catalog")
        };
        vec![missing]
    })
}

/// The cheapest hose for the flow, filling and emptying the bore side, and the pressure.
fn hose<'a>(ask: &Ask<'a>, sizing: &Sizing) -> Result<&'a Hose, Vec<Check>> {
    let rules = &ask.job.rules;
    let most = rules.oil_return_speed_most.min(rules.oil_line_speed_most);
    let flow = cubic_metres_per_second(sizing.line_m3_s);
    let speed = |hose: &Hose| hydraulics::line_speed(flow, hose.bore).si();
    let pressure = checks::line_pressure(sizing);
    let fits = |hose: &&Hose| speed(hose) <= most && hose.pressure.si() >= pressure;
    let length = ask.travel_m() + rules.oil_hose_length;
    let cost = |hose: &Hose| hose.common.price + hose.price_per_metre * length;
    let hoses = &ask.catalog.hoses;
    hoses
        .iter()
        .filter(fits)
        .min_by(|p, q| cost(p).total_cmp(&cost(q)))
        .ok_or_else(|| {
            let widest = hoses
                .iter()
                .filter(|hose| hose.pressure.si() >= pressure)
                .map(speed)
                .fold(f64::INFINITY, f64::min);
            let missing = if widest.is_finite() {
                Check::new("hose.return_speed", widest, most, "m/s")
                    .from(
                        "w = 4 Q/(π d²), the widest hose for the pressure",
                        "continuity",
                    )
                    .rule("oil_return_speed_most")
            } else {
                let best = hoses
                    .iter()
                    .map(|hose| hose.pressure.si())
                    .fold(0.0, f64::max);
                Check::new("hose.pressure", pressure / 1e5, best / 1e5, "bar")
                    .from("pressure <= rating of the hoses", "catalog")
            };
            vec![missing]
        })
}

/// The train of a pair whose checks all pass; fails where the catalog has no controls for it.
pub(super) fn train<'a>(
    ask: &Ask<'a>,
    demand: &Arc<Demand>,
    pair: Pair<'a>,
    sizing: &Sizing,
    run: &Run<'a>,
    lines: &Lines<'a>,
    checks: Vec<Check>,
) -> Result<Train<'a>, Vec<Check>> {
    let motor_w = pair.unit.motor_power.si();
    if pair.controls.is_none() {
        let says = "the catalog has no controls for an oil unit of this power";
        return Err(vec![Check::of("controls.oil", false, says)]);
    }
    let (cylinder, unit) = (pair.cylinder, pair.unit);
    let press = Press::of(ask, demand.travel_time_s);
    let kept_up = press.map(|press| press.accumulator(ask, sizing));
    let kept_up = kept_up.transpose().map_err(|missing| vec![missing])?;
    let accumulator = kept_up.as_ref().map(|(accumulator, _)| *accumulator);
    let outline = Outline::new(ask, pair, run, lines, accumulator);
    let mut train = Train::new(NAME, "oil cylinder", Hours::OIL, Arc::clone(demand));
    train.words = format!(
        "{}/{} mm oil cylinder, {} kW",
        show(cylinder.bore.si() * 1e3),
        show(cylinder.rod.si() * 1e3),
        show(motor_w / 1e3)
    );
    train.holds |= lines.counterbalance.is_some();
    train.parts = outline.parts;
    train.made = vec![Made {
        what: "mounting plate and rod bracket",
        hours: 0.0,
        material: 0.0,
    }];
    train.checks = checks;
    train.running = outline.running;
    train.position = vec![match ask.job.stops {
        Stops::Ends => ("hard stop", ask.job.rules.hard_stop_error),
        Stops::Several | Stops::Anywhere => ("directional valve", ask.job.rules.oil_valve_error),
    }];
    train.closed_length_m = outline.closed_length_m;
    train.lives = vec![Life {
        what: "seals of the oil cylinder",
        years: outline.seal_years,
    }];
    train.remarks = remarks(sizing, run, unit.tank.si());
    train
        .remarks
        .extend(checks::stops_and_holds(ask, lines.counterbalance.is_some()));
    train.cautions = cautions(lines, sizing, press.as_ref(), demand);
    train.presses_n =
        Some([sizing.areas.bore, sizing.areas.rod].map(|area| sizing.set_pa * area.value));
    if let Some((press, (accumulator, check))) = press.zip(kept_up) {
        train.checks.push(check);
        train.remarks.push(press.remark(ask, accumulator));
        train.cautions.extend(press.cautions(sizing));
    }
    Ok(train)
}

/// What trains of a design time are told apart by, without their checks and words.
pub(super) struct Outline<'a> {
    pub parts: Vec<PartLine<'a>>,
    pub running: Running,
    pub closed_length_m: f64,
    pub seal_years: f64,
}

impl<'a> Outline<'a> {
    pub(super) fn new(
        ask: &Ask<'a>,
        pair: Pair<'a>,
        run: &Run<'a>,
        lines: &Lines<'a>,
        accumulator: Option<&'a OilAccumulator>,
    ) -> Self {
        let (cylinder, travel) = (pair.cylinder, ask.travel_m());
        let mut parts = parts(ask, pair, lines);
        let cooler = |cooler: &'a OilCooler| PartLine::pieces("oil_coolers", &cooler.common, 1);
        parts.extend(run.cooler.map(|part| cooler(part).beside()));
        let controls = |part: &'a Control| PartLine::pieces("controls", &part.common, 1);
        parts.extend(pair.controls.map(controls));
        let pressing =
            |part: &'a OilAccumulator| PartLine::pieces("oil_accumulators", &part.common, 1);
        parts.extend(accumulator.map(pressing));
        let standby_w = pair.controls.map_or(0.0, |controls| controls.standby.si());
        let yearly_m = 2.0 * travel * ask.job.timing.cycles_per_year();
        let seals_m = cylinder.travel_life.si() * (1.0 + checks::renewals(ask, cylinder));
        Self {
            parts,
            running: Running {
                moving_j: run.moving_j,
                standby_w: run.standby_w + standby_w,
                ..Running::default()
            },
            closed_length_m: travel + cylinder.closed_length.si(),
            seal_years: seals_m / yearly_m,
        }
    }
}

fn parts<'a>(ask: &Ask<'a>, pair: Pair<'a>, lines: &Lines<'a>) -> Vec<PartLine<'a>> {
    let (cylinder, unit) = (pair.cylinder, pair.unit);
    let travel = ask.travel_m();
    let hose = PartLine::cut(
        "hoses",
        &lines.hose.common,
        travel + ask.job.rules.oil_hose_length,
        lines.hose.price_per_metre,
        lines.hose.mass_per_length.si(),
    );
    let mut parts = vec![
        PartLine::cut(
            "oil_cylinders",
            &cylinder.common,
            travel,
            cylinder.price_per_metre,
            cylinder.mass_per_length.si(),
        ),
        PartLine::pieces("oil_power_units", &unit.common, 1).beside(),
        PartLine::pieces("oil_valves", &lines.directional.common, 1).beside(),
        PartLine::pieces("oil_valves", &lines.throttle.common, 2).beside(),
    ];
    if let Some(valve) = lines.counterbalance {
        parts.push(PartLine::pieces(
            "oil_valves",
            &valve.common,
            lines.counterbalances,
        ));
    }
    parts.push(PartLine {
        quantity: 2,
        ..hose
    });
    let renewals = checks::renewals(ask, cylinder);
    if let Some(kit) = checks::seals(ask, cylinder).filter(|_| renewals > 0.0) {
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a whole number from 0 to 100"
        )]
        parts.push(PartLine::pieces("oil_seal_kits", &kit.common, renewals as u32).beside());
    }
    parts
}

fn remarks(sizing: &Sizing, run: &Run, tank_m3: f64) -> Vec<String> {
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

fn cautions(lines: &Lines, sizing: &Sizing, press: Option<&Press>, demand: &Demand) -> Vec<String> {
    let mut cautions = vec![format!(
        "The oil may stand at {} bar with the power off: let the pressure off before a line is opened.",
        show(checks::line_pressure(sizing) / 1e5)
    )];
    if press.is_none() {
        cautions.push(format!(
        "At the relief valve's setting the cylinder pushes with up to {}, whatever the load asks: frame and tool must bear that.",
        crate::quantity::in_words(crate::quantity::Kind::Force, sizing.set_pa * sizing.areas.bore.value)
    ));
    }
    cautions.extend(held_by_valves(lines.counterbalances, demand));
    cautions
}

/// What counterbalance valves hold, each its side.
fn held_by_valves(valves: u32, demand: &Demand) -> Option<String> {
    let newtons = caution::newtons;
    match valves {
        0 => None,
        1 => Some(format!(
            "Only the counterbalance valve holds the load, against {}: bolt it straight to the cylinder, since a hose between them that bursts lets the load fall.",
            caution::held(demand)
        )),
        _ => Some(format!(
            "Only the counterbalance valves hold the load, against {} back and {} out: bolt each straight to its side of the cylinder, since a hose between them that bursts lets the load go.",
            newtons(demand.holding_push_n),
            newtons(demand.holding_pull_n)
        )),
    }
}
