//! What a demand asks of an oil cylinder, and what a cylinder makes of it: pressures, flows, heat.

use crate::catalog::{OilCooler, OilCylinder, OilPowerUnit};
use crate::demand::{Demand, Direction};
use crate::family::choose::{Ladder, Merits, Shelf};
use crate::family::{Ask, NO_FORCE_N, PartLine};
use crate::mechanics::hydraulics::{self, Losses};
use crate::quantity::{Area, Pressure, Si, metres_per_second, newtons, pascals};
use crate::requirements::Task;

/// Forces of one direction: with the pump behind them, and of the load against it.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Stroke {
    /// Greatest force that the pump must give, N.
    pub driving_n: f64,
    /// Greatest force of the load along the motion, N.
    pub overrunning_n: f64,
    /// Whether the load overruns at steady speed too, not only while it slows down.
    pub runs_away: bool,
}

/// What the demand asks, whatever the cylinder.
#[derive(Debug, Clone, Copy)]
pub(super) struct StrokeLoads {
    pub out: Stroke,
    pub back: Stroke,
    /// Force to hold at rest against moving back, and against moving out, N.
    pub hold_push_n: f64,
    pub hold_pull_n: f64,
    /// Forces of an emergency stop, N.
    pub stop_push_n: f64,
    pub stop_pull_n: f64,
    pub peak_speed_m_s: f64,
    /// Heat that the load gives back in a cycle, less what it takes, the worst load, J.
    pub returned_j: f64,
    pub travel_time_s: f64,
}

impl StrokeLoads {
    pub(super) fn of(demand: &Demand) -> Self {
        let stroke = |direction: Direction| {
            let sign = direction.sign();
            let mut stroke = Stroke::default();
            for sample in demand.strokes(direction).flat_map(|case| &case.profile) {
                for force in [sample.force_n, sample.static_force_n] {
                    stroke.driving_n = stroke.driving_n.max(sign * force);
                    stroke.overrunning_n = stroke.overrunning_n.max(-sign * force);
                }
                stroke.runs_away |= -sign * sample.static_force_n > NO_FORCE_N;
            }
            stroke
        };
        let returned =
            |case: &crate::demand::Case| case.figures.work_out_j - case.figures.work_in_j;
        let returned = demand.cases.iter().map(returned);
        Self {
            out: stroke(Direction::Out),
            back: stroke(Direction::Back),
            hold_push_n: demand.holding_push_n,
            hold_pull_n: demand.holding_pull_n,
            stop_push_n: demand.emergency_stop.push_peak_n,
            stop_pull_n: demand.emergency_stop.pull_peak_n,
            peak_speed_m_s: demand.worst.peak_speed_m_s,
            returned_j: returned.fold(f64::NEG_INFINITY, f64::max),
            travel_time_s: demand.travel_time_s,
        }
    }
    /// Greatest push on the rod, N.
    pub(super) fn rod_push_n(&self) -> f64 {
        self.out
            .driving_n
            .max(self.back.overrunning_n)
            .max(self.hold_push_n)
            .max(self.stop_push_n)
    }
    /// Whether the bore side must be kept from emptying by itself.
    pub(super) fn locks_bore(&self) -> bool {
        self.back.runs_away || self.hold_push_n > NO_FORCE_N
    }
    /// Whether the rod side must be kept from emptying by itself.
    pub(super) fn locks_rod(&self) -> bool {
        self.out.runs_away || self.hold_pull_n > NO_FORCE_N
    }
    /// Pressure of the load behind a counterbalance valve, Pa, at worst.
    pub(super) fn locked_pa(&self, areas: Areas) -> f64 {
        let bore = self.hold_push_n.max(self.back.overrunning_n) / areas.bore.value;
        let rod = self.hold_pull_n.max(self.out.overrunning_n) / areas.rod.value;
        match (self.locks_bore(), self.locks_rod()) {
            (true, true) => bore.max(rod),
            (true, false) => bore,
            (false, true) => rod,
            (false, false) => 0.0,
        }
    }
}

/// Areas of the two sides of a piston.
#[derive(Debug, Clone, Copy)]
pub(super) struct Areas {
    pub bore: Area,
    pub rod: Area,
}

impl Areas {
    pub(super) fn of(cylinder: &OilCylinder) -> Self {
        Self {
            bore: hydraulics::piston_area(cylinder.bore),
            rod: hydraulics::annulus_area(cylinder.bore, cylinder.rod),
        }
    }
}

/// What a cylinder makes of the work.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sizing {
    pub areas: Areas,
    /// Pressure at the pump, the greater of both strokes: what its relief valve is set to, Pa.
    pub set_pa: f64,
    /// Flow of the pump, the greater of both strokes, m³/s.
    pub flow_m3_s: f64,
    /// Flow in the line of the bore side, which is pumped in going out and returned coming back, m³/s.
    pub line_m3_s: f64,
    /// Greatest pressure that the work puts on the side oil is metered out of, Pa: rod side going out, bore side coming back.
    pub rod_side_pa: f64,
    pub bore_side_pa: f64,
    /// Greatest pressure of oil trapped at rest or in an emergency stop, Pa.
    pub trapped_pa: f64,
}

impl Sizing {
    /// What the cylinder pushes with when something stops it, N: all that the relief valve lets through.
    pub(super) fn pushes_n(&self) -> f64 {
        self.set_pa * self.areas.bore.value
    }
    pub(super) fn of(job: &Task, work: &StrokeLoads, areas: Areas) -> Self {
        let rules = &job.rules;
        let losses = Losses {
            efficiency: rules.oil_efficiency,
            line: pascals(rules.oil_line_loss),
            back: pascals(rules.oil_return_loss),
        };
        let pressure = |stroke: Stroke, area, other| -> Pressure {
            let force = newtons(stroke.driving_n);
            hydraulics::working_pressure(force, rules.drive_margin, area, other, losses)
        };
        let set = pressure(work.out, areas.bore, areas.rod)
            .max(pressure(work.back, areas.rod, areas.bore));
        let speed = metres_per_second(work.peak_speed_m_s);
        let metered = |stroke: Stroke, inlet, outlet| {
            if stroke.overrunning_n <= NO_FORCE_N {
                return 0.0;
            }
            hydraulics::outlet_pressure(set, inlet, outlet, newtons(stroke.overrunning_n)).si()
        };
        let push = work.hold_push_n.max(work.stop_push_n) / areas.bore.value;
        let pull = work.hold_pull_n.max(work.stop_pull_n) / areas.rod.value;
        Self {
            areas,
            set_pa: set.si(),
            flow_m3_s: hydraulics::pump_flow(areas.bore, speed, rules.oil_volumetric).si(),
            line_m3_s: (areas.bore * speed).value,
            rod_side_pa: metered(work.out, areas.bore, areas.rod),
            bore_side_pa: metered(work.back, areas.rod, areas.bore),
            trapped_pa: push.max(pull),
        }
    }
}

/// What a power unit does in this job, with the cooler that it needs.
#[derive(Debug, Clone, Copy)]
pub(super) struct UnitDuty<'a> {
    /// Power at the pump's shaft while the cylinder moves, W.
    pub shaft_w: f64,
    /// Power from the mains then, W.
    pub mains_w: f64,
    /// Electricity of both strokes, J.
    pub moving_j: f64,
    /// Electricity between strokes and of the cooler's fan, averaged over the cycle, W.
    pub standby_w: f64,
    /// Heat into the oil, averaged over the cycle, W.
    pub heat_w: f64,
    /// Heat that tank and cooler give off on the hottest day, W.
    pub rejection_w: f64,
    /// A cooler that does, where the tank alone does not.
    pub cooler: Option<&'a OilCooler>,
}

/// Oil over air at which a catalog states the heat given off, K.
const STATED_RISE_K: f64 = 40.0;

impl<'a> UnitDuty<'a> {
    /// A fixed pump gives its whole flow at its set pressure while the flow control throttles: what the load does not take is
    /// heat. One for each cooler worth having, where the tank alone does not give it off.
    pub(super) fn all(
        ask: &Ask<'a>,
        coolers: &Ladder<'a, OilCooler>,
        work: &StrokeLoads,
        set_pa: f64,
        unit: &OilPowerUnit,
    ) -> Vec<Self> {
        let rules = &ask.job.rules;
        let shaft_w =
            hydraulics::pump_power(pascals(set_pa), unit.flow, rules.oil_pump_efficiency).si();
        let moving_s = 2.0 * work.travel_time_s;
        let cycle_s = ask.job.timing.cycle_s();
        let idle_w = unit.idle.si() * idling_s(ask.job, moving_s) / cycle_s;
        // Of the idling electricity the oil gets what reaches the shaft.
        let heat_w =
            (shaft_w * moving_s + work.returned_j) / cycle_s + idle_w * unit.motor_efficiency;
        let tank_w = unit.rejection.si() * rise(ask.job);
        let alone = Self {
            shaft_w,
            mains_w: shaft_w / unit.motor_efficiency,
            moving_j: shaft_w / unit.motor_efficiency * moving_s,
            standby_w: idle_w,
            heat_w: heat_w.max(0.0),
            rejection_w: tank_w,
            cooler: None,
        };
        let left_w = heat_w - tank_w;
        if left_w <= 0.0 {
            return vec![alone];
        }
        let coolers = coolers.choices(left_w);
        if coolers.is_empty() {
            return vec![alone];
        }
        let with = |cooler| alone.with_cooler(ask, cooler, left_w);
        coolers.into_iter().map(with).collect()
    }

    /// The same with a cooler for what heat is left.
    fn with_cooler(&self, ask: &Ask, cooler: &'a OilCooler, left_w: f64) -> Self {
        let cooler_w = cooler.rejection.si() * rise(ask.job);
        let fan_w = cooler.power.si();
        // Its thermostat runs the fan as long as it takes.
        let fan_runs_w = if cooler_w > 0.0 {
            fan_w * left_w / cooler_w
        } else {
            0.0
        };
        Self {
            mains_w: self.mains_w + fan_w,
            standby_w: self.standby_w + fan_runs_w,
            rejection_w: self.rejection_w + cooler_w,
            cooler: Some(cooler),
            ..*self
        }
    }

    /// Power of the cooler's fan, W.
    pub(super) fn fan_w(&self) -> f64 {
        self.cooler.map_or(0.0, |cooler| cooler.power.si())
    }

    /// Its cooler, which stands beside the machine.
    pub(super) fn cooler_line(&self) -> Option<PartLine<'a>> {
        let line = |cooler: &'a OilCooler| PartLine::part(cooler, 1);
        self.cooler.map(|cooler| line(cooler).beside())
    }
}

/// Time in a cycle during which the unit idles: the rests that are too short to switch it off.
fn idling_s(job: &Task, moving_s: f64) -> f64 {
    let rest_out = job.timing.rest_out.si();
    let rest_back = (job.timing.cycle_s() - moving_s - rest_out).max(0.0);
    let short = |rest: &f64| *rest <= job.rules.oil_idle_rest;
    [rest_out, rest_back].into_iter().filter(short).sum()
}

/// The hottest oil over the hottest air where the unit stands, as a part of the rise that a catalog states heat at.
fn rise(job: &Task) -> f64 {
    (job.rules.oil_temperature_most - job.site.units.hottest.si()).max(0.0) / STATED_RISE_K
}

/// The coolers by the heat that they give off on the hottest day.
pub(super) fn coolers<'a>(ask: &Ask<'a>) -> Ladder<'a, OilCooler> {
    let (rise, rates) = (rise(ask.job), ask.life_cost());
    let shelf = Shelf::with(ask, &ask.catalog.oil_coolers, |cooler| {
        let common = &cooler.common;
        (common, Merits::piece(&rates, common, common.price, 0.0))
    });
    shelf.ladder(|cooler| cooler.rejection.si() * rise)
}
