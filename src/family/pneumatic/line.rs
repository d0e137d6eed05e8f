//! Valve, tubes and flow controls: what stands between the supply and the cylinder.

use crate::catalog::{AirCylinder, AirTube, AirValve, CheckValve, FlowControl};
use crate::family::{Ask, PartLine};
use crate::mechanics::pneumatics::{Path, in_series, piston_area, tube};
use crate::quantity::{Si, metres};
use crate::requirements::Requirements;

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

    fn price(&self) -> f64 {
        self.parts().iter().map(PartLine::cost).sum()
    }
}

/// The lines worth trying at a pressure, cheapest first, each passing more than the one before.
pub(super) fn lines<'a>(ask: &Ask<'a>, pressure_pa: f64, trapping: bool) -> Vec<Line<'a>> {
    let catalog = ask.catalog;
    let tube_length_m = ask.slide.travel.si() + ask.job.rules.air_tube_extra;
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
    let mut all = Vec::new();
    let by_air = by_air(ask.job);
    for valve in catalog
        .air_valves
        .iter()
        .filter(|valve| (valve.power.si() == 0.0) == by_air)
    {
        let works = valve.pressure_least.si()..=valve.pressure_most.si();
        if !works.contains(&pressure_pa) {
            continue;
        }
        for hose in &catalog.air_tubes {
            if hose.pressure_most.si() < pressure_pa {
                continue;
            }
            for check in &checks {
                let mut ways = vec![
                    path(valve.conductance, valve.critical_ratio),
                    tube(hose.bore, metres(tube_length_m)),
                ];
                ways.extend(check.map(|check| path(check.conductance, check.critical_ratio)));
                let common = in_series(&ways);
                all.extend(catalog.flow_controls.iter().map(|control| Line {
                    valve,
                    tube: hose,
                    control,
                    check: *check,
                    tube_length_m,
                    common,
                }));
            }
        }
    }
    worth_trying(all)
}

/// Whether the valves are worked by pneumatic logic: no electricity, or no spark allowed.
pub(super) fn by_air(job: &Requirements) -> bool {
    job.site.mains.is_none() || job.site.explosive_atmosphere
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
