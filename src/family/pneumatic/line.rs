//! Valve, tubes and flow controls: what stands between the supply and the cylinder.

use crate::catalog::{AirCylinder, AirTube, AirValve, CheckValve, FlowControl};
use crate::family::{Ask, Check, PartLine};
use crate::mechanics::pneumatics::{Path, in_series, piston_area, tube};
use crate::quantity::{Si, metres};
use crate::requirements::Task;

/// A line must pass so much more than a cheaper one to be worth its price.
const WORTH_MORE: f64 = 1.02;

/// A valve with its two tubes, flow controls and, where air is to be trapped, check valves.
#[derive(Debug, Clone, Copy)]
pub(super) struct Line<'a> {
    pub valve: &'a AirValve,
    tube: &'a AirTube,
    control: &'a FlowControl,
    pub check: Option<&'a CheckValve>,
    tube_length_m: f64,
    /// From the valve to the cylinder's port, throttle and its free way aside.
    common: Path,
}

fn path(conductance: crate::quantity::Conductance, critical_ratio: f64) -> Path {
    Path {
        conductance: conductance.si(),
        critical_ratio,
    }
}

/// A cylinder's port as a path.
fn port(cylinder: &AirCylinder) -> Path {
    path(cylinder.conductance, cylinder.critical_ratio)
}

impl<'a> Line<'a> {
    /// From the supply into the cylinder, past the throttle's check.
    pub fn fill(&self, cylinder: &AirCylinder) -> Path {
        let free = path(self.control.free_conductance, self.control.critical_ratio);
        in_series(&[self.common, free, port(cylinder)])
    }

    /// From the cylinder to the atmosphere, with the throttle at a conductance.
    pub fn exhaust(&self, cylinder: &AirCylinder, throttle: f64) -> Path {
        let throttle = Path {
            conductance: throttle,
            critical_ratio: self.control.critical_ratio,
        };
        in_series(&[self.common, throttle, port(cylinder)])
    }

    /// Conductance of the throttle, fully open.
    pub fn throttle_open(&self) -> f64 {
        self.control.conductance.si()
    }

    /// Volume of one tube.
    pub fn tube_volume_m3(&self) -> f64 {
        piston_area(self.tube.bore).value * self.tube_length_m
    }

    /// Its parts.
    pub fn parts(&self) -> Vec<PartLine<'a>> {
        let tube = PartLine::cut(
            "air_tubes",
            &self.tube.common,
            self.tube_length_m,
            self.tube.price_per_metre,
            self.tube.mass_per_length.si(),
        );
        let mut parts = vec![
            PartLine::pieces("air_valves", &self.valve.common, 1),
            PartLine {
                quantity: 2,
                ..tube
            },
            PartLine::pieces("flow_controls", &self.control.common, 2),
        ];
        if let Some(check) = self.check {
            parts.push(PartLine::pieces("check_valves", &check.common, 2));
        }
        parts
    }

    /// Whether its parts bear a pressure, and whether it shifts the valve.
    pub fn checks(&self, pressure_pa: f64) -> [Check; 2] {
        let bar = |pascals: f64| pascals / 1e5;
        let check = self.check.map_or(f64::INFINITY, |c| c.pressure_most.si());
        let weakest = self
            .valve
            .pressure_most
            .si()
            .min(self.tube.pressure_most.si())
            .min(check);
        let given = &[("p_g", "bar")];
        [
            Check::new("air_line.pressure", bar(pressure_pa), bar(weakest), "bar")
                .from(
                    "p_g <= the least rating of valve, tube and check valve",
                    "data of the parts",
                )
                .given(given, &[bar(pressure_pa)]),
            Check::new(
                "air_valve.least_pressure",
                bar(self.valve.pressure_least.si()),
                bar(pressure_pa),
                "bar",
            )
            .from("pressure that shifts the valve <= p_g", "data of the part")
            .given(given, &[bar(pressure_pa)]),
        ]
    }

    fn price(&self) -> f64 {
        self.parts().iter().map(PartLine::cost).sum()
    }
}

/// The lines worth trying at a pressure, cheapest first, each passing more than the one before.
pub(super) fn lines<'a>(ask: &Ask<'a>, pressure_pa: f64, trapping: bool) -> Vec<Line<'a>> {
    let catalog = ask.catalog;
    let tube_length_m = ask.travel_m() + ask.job.rules.air_tube_extra;
    let checks: Vec<Option<&CheckValve>> = if trapping {
        let bears = |check: &&CheckValve| check.pressure_most.si() >= pressure_pa;
        catalog
            .check_valves
            .iter()
            .filter(bears)
            .map(Some)
            .collect()
    } else {
        vec![None]
    };
    let by_air = by_air(ask.job);
    let works = |valve: &&AirValve| {
        (valve.power.si() == 0.0) == by_air
            && (valve.pressure_least.si()..=valve.pressure_most.si()).contains(&pressure_pa)
    };
    let valves = catalog.air_valves.iter().filter(works);
    let bears = |hose: &&AirTube| hose.pressure_most.si() >= pressure_pa;
    let hoses = catalog.air_tubes.iter().filter(bears);
    // Each slot by itself first: what passes less than something cheaper is in no line worth trying.
    let valves = thinned(valves.map(|valve| {
        let way = path(valve.conductance, valve.critical_ratio);
        (valve.common.price, way.conductance, (valve, way))
    }));
    let hoses = thinned(hoses.map(|hose| {
        let price = hose.common.price + hose.price_per_metre * tube_length_m;
        let way = tube(hose.bore, metres(tube_length_m));
        (2.0 * price, way.conductance, (hose, way))
    }));
    let checks = thinned(checks.into_iter().map(|check| {
        let way = check.map(|check| path(check.conductance, check.critical_ratio));
        let passes = way.map_or(f64::INFINITY, |way| way.conductance);
        let price = check.map_or(0.0, |check| check.common.price);
        (2.0 * price, passes, (check, way))
    }));
    let controls = thinned(catalog.flow_controls.iter().map(|control| {
        (
            2.0 * control.common.price,
            control.conductance.si(),
            control,
        )
    }));
    let mut ways = Vec::new();
    for (valve_price, _, (valve, valve_way)) in valves {
        for (hose_price, _, (hose, hose_way)) in &hoses {
            for (check_price, _, (check, check_way)) in &checks {
                let mut paths = vec![valve_way, *hose_way];
                paths.extend(*check_way);
                let common = in_series(&paths);
                let price = valve_price + hose_price + check_price;
                ways.push((price, common.conductance, (valve, *hose, *check, common)));
            }
        }
    }
    let mut all = Vec::new();
    for (_, _, (valve, tube, check, common)) in thinned(ways.into_iter()) {
        all.extend(controls.iter().map(|(_, _, control)| Line {
            valve,
            tube,
            control,
            check,
            tube_length_m,
            common,
        }));
    }
    worth_trying(all)
}

/// Whether the valves are worked by pneumatic logic: no electricity, or no spark allowed.
pub(super) fn by_air(job: &Task) -> bool {
    job.site.mains.is_none() || job.site.explosive_atmosphere
}

/// Drops each item, of a price and a conductance, that passes no more than something cheaper.
fn thinned<T>(items: impl Iterator<Item = (f64, f64, T)>) -> Vec<(f64, f64, T)> {
    // A price must be lower by more than rounding: sums of them must be, too.
    const CHEAPER: f64 = 1.0 - 1e-12;
    let mut items: Vec<_> = items.enumerate().collect();
    items.sort_by(|(_, p), (_, q)| p.0.total_cmp(&q.0));
    let prices: Vec<(f64, f64)> = items.iter().map(|(_, item)| (item.0, item.1)).collect();
    let (mut next, mut most) = (0, f64::NEG_INFINITY);
    items.retain(|(_, (price, passes, _))| {
        while let Some((cheaper, way)) = prices.get(next)
            && *cheaper < price * CHEAPER
        {
            most = most.max(*way);
            next += 1;
        }
        *passes > most
    });
    items.sort_by_key(|(index, _)| *index);
    items.into_iter().map(|(_, item)| item).collect()
}

fn worth_trying(all: Vec<Line<'_>>) -> Vec<Line<'_>> {
    let passes = |line: &Line| {
        let throttle = path(line.control.conductance, line.control.critical_ratio);
        in_series(&[line.common, throttle]).conductance
    };
    let mut ranked: Vec<(f64, f64, Line)> = all
        .into_iter()
        .map(|line| (line.price(), passes(&line), line))
        .collect();
    ranked.sort_by(|p, q| p.0.total_cmp(&q.0).then(q.1.total_cmp(&p.1)));
    let mut most = 0.0;
    ranked.retain(|(_, passes, _)| {
        let more = *passes > WORTH_MORE * most;
        if more {
            most = *passes;
        }
        more
    });
    ranked.into_iter().map(|(_, _, line)| line).collect()
}
