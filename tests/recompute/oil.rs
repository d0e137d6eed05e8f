//! Checks of the oil cylinder, its unit, valves and hoses.

use super::base::{Case, PartUse};
use super::motion::Instant;
use super::steel::{disc, strut};
use super::worst::{area, held, most, stop_push_pull};

const BAR: f64 = 1e5;
const L_MIN: f64 = 1e-3 / 60.0;

/// Greatest of a figure over the strokes of one direction, nought at least.
fn way(case: &Case, sign: f64, figure: impl Fn(&Instant) -> f64) -> f64 {
    let strokes = case.strokes().iter().filter(|s| s.sign == sign);
    strokes
        .flat_map(|s| &s.instants)
        .map(figure)
        .fold(0.0, f64::max)
}

/// Forces of a load that runs ahead, on the way back and on the way out.
fn overrun(case: &Case) -> (f64, f64) {
    let out = way(case, 1.0, |i| (-i.f).max(-i.still));
    (way(case, -1.0, |i| i.f.max(i.still)), out)
}

/// What both strokes ask of the oil.
struct Oil<'a> {
    cylinder: PartUse<'a>,
    unit: PartUse<'a>,
    bore: f64,
    ring: f64,
    /// Setting of the relief valve, Pa.
    set: f64,
    /// Greatest flow into the bore side, without leaks, m³/s.
    flow: f64,
}

impl<'a> Oil<'a> {
    fn of(case: &Case<'a>) -> Option<Self> {
        let cylinder = case.part("oil_cylinders")?;
        let unit = case.part("oil_power_units")?;
        let bore = disc(cylinder.f("bore"));
        let ring = bore - disc(cylinder.f("rod"));
        let push = way(case, 1.0, |i| i.f.max(i.still));
        let pull = way(case, -1.0, |i| (-i.f).max(-i.still));
        let needs = |force: f64, side: f64, other: f64| {
            force * case.rule("drive_margin") / (side * case.rule("oil_efficiency"))
                + case.rule("oil_line_loss")
                + case.rule("oil_return_loss") * other / side
        };
        let set = needs(push, bore, ring).max(needs(pull, ring, bore));
        let flow = bore * most(case, |i| i.v.abs());
        Some(Self {
            cylinder,
            unit,
            bore,
            ring,
            set,
            flow,
        })
    }

    /// Pressure of the rod side going out and of the bore side coming back, where the load runs ahead.
    fn metered(&self, case: &Case) -> (f64, f64) {
        let (back, out) = overrun(case);
        let rod_side = (self.set * self.bore + out) / self.ring;
        let bore_side = (self.set * self.ring + back) / self.bore;
        (
            if out > 0.0 { rod_side } else { 0.0 },
            if back > 0.0 { bore_side } else { 0.0 },
        )
    }

    /// Pressure that the load alone makes, held at rest or in an emergency stop.
    fn trapped(&self, case: &Case) -> f64 {
        let (push, pull) = stop_push_pull(case);
        let (up, down) = held(case);
        (push.max(up) / self.bore).max(pull.max(down) / self.ring)
    }

    /// Power at the pump's shaft.
    fn power(&self, case: &Case) -> f64 {
        self.set * self.unit.f("flow") / case.rule("oil_pump_efficiency")
    }

    /// Heat into the oil, W, and what tank and coolers give off on the hottest day.
    fn heat(&self, case: &Case) -> (f64, f64) {
        let mut work = f64::INFINITY;
        for load in case.strokes().chunks(2) {
            let net: f64 = load.iter().map(|s| area(&s.instants, |i| i.f * i.v)).sum();
            work = work.min(net);
        }
        // Each rest apart: the pump runs on through a short one and is switched off for a long one.
        let out = case.or("timing.rest_out", 0.0);
        let back = case.cycle_s() - 2.0 * case.time() - out;
        let short = |rest: f64| {
            if rest <= case.rule("oil_idle_rest") {
                rest
            } else {
                0.0
            }
        };
        // Idling power is what the mains give; the motor's own loss does not warm the oil.
        let idle = self.unit.f("idle") * self.unit.f("motor_efficiency");
        let idle = idle * (short(out) + short(back)) / case.cycle_s();
        let pumped = (self.power(case) * 2.0 * case.time() - work) / case.cycle_s();
        let hot = case.or("site.units.temperature.most", 313.15);
        let coolers: f64 = case
            .parts("oil_coolers")
            .iter()
            .map(|c| c.f("rejection") * c.quantity())
            .sum();
        let oil = case.rule("oil_temperature_most");
        let off = (self.unit.f("rejection") + coolers) * (oil - hot) / 40.0;
        (pumped + idle, off)
    }
}

/// Power of the coolers' fans.
fn fans(case: &Case) -> f64 {
    let coolers = case.parts("oil_coolers");
    coolers.iter().map(|c| c.f("power") * c.quantity()).sum()
}

/// The valve that a check is about: the least rating of all where it has none of its own.
fn valve(case: &Case, function: &str, field: &str) -> f64 {
    let valves = case.parts("oil_valves");
    let fits = valves
        .iter()
        .filter(|v| function.is_empty() || v.text("function") == function);
    fits.map(|v| v.f(field)).fold(f64::INFINITY, f64::min)
}

fn one_counterbalance(valves: &[PartUse]) -> bool {
    let closing = valves
        .iter()
        .filter(|v| v.text("function") == "counterbalance");
    closing.map(PartUse::quantity).sum::<f64>() < 1.5
}

pub fn recompute(case: &Case, id: &str) -> Option<(f64, f64)> {
    let oil = Oil::of(case)?;
    let rated = oil.cylinder.f("pressure") / BAR;
    let hose = case.part("hoses")?;
    let (rod_side, bore_side) = oil.metered(case);
    let wet = oil.flow / disc(hose.f("bore"));
    Some(match id {
        "oil_cylinder.pressure" => (oil.set / BAR, rated),
        "oil_cylinder.rod_side_pressure" => (rod_side / BAR, rated),
        "oil_cylinder.bore_side_pressure" => (bore_side / BAR, rated),
        "oil_cylinder.trapped_pressure" => (oil.trapped(case) / BAR, rated),
        "oil_cylinder.rod_buckling" => {
            let free = case.travel() + oil.cylinder.f("rod_end");
            // Held or stopped, the rod is pushed by the load, whatever the pump gives.
            let push = stop_push_pull(case).0.max(held(case).0);
            let rod = oil.cylinder.f("rod");
            let free = super::swing::between_pins(case).unwrap_or(0.7 * free);
            (push.max(oil.set * oil.bore), strut(rod, free))
        }
        "oil_cylinder.seal_life" => {
            let kits = case.part("oil_seal_kits").map_or(0.0, |k| k.quantity());
            let way = 2.0 * case.travel() * case.cycles_asked();
            (
                way / 1e3,
                oil.cylinder.f("travel_life") * (1.0 + kits) / 1e3,
            )
        }
        "oil_cylinder.speed" => (most(case, |i| i.v.abs()), oil.cylinder.f("speed_most")),
        "oil_cylinder.stroke" => (case.travel() * 1e3, oil.cylinder.f("stroke_most") * 1e3),
        "oil_unit.pressure" => (oil.set / BAR, oil.unit.f("pressure") / BAR),
        "oil_unit.flow" => (
            oil.flow / case.rule("oil_volumetric") / L_MIN,
            oil.unit.f("flow") / L_MIN,
        ),
        "oil_unit.motor_power" => (oil.power(case), oil.unit.f("motor_power")),
        "oil_unit.mains_power" => (
            oil.power(case) / oil.unit.f("motor_efficiency") + fans(case),
            case.or("site.mains.power", 0.0),
        ),
        "oil_unit.heat" => oil.heat(case),
        "oil_valve.pressure" => (oil.set / BAR, valve(case, "", "pressure") / BAR),
        "oil_valve.flow" => (oil.flow / L_MIN, valve(case, "", "flow") / L_MIN),
        "counterbalance.setting" => {
            let ((up, down), (back, out)) = (held(case), overrun(case));
            let sides = (up.max(back) / oil.bore, down.max(out) / oil.ring);
            // One valve closes the side on which the load rests.
            let load = match (case.parts("oil_valves"), up > 0.0, down > 0.0) {
                (valves, true, false) if one_counterbalance(&valves) => sides.0,
                (valves, false, true) if one_counterbalance(&valves) => sides.1,
                _ => sides.0.max(sides.1),
            };
            let least = valve(case, "counterbalance", "pressure");
            (
                case.rule("counterbalance_setting") * load / BAR,
                least / BAR,
            )
        }
        "hose.pressure" => {
            let worst = oil.set.max(rod_side).max(bore_side).max(oil.trapped(case));
            (worst / BAR, hose.f("pressure") / BAR)
        }
        "hose.pressure_speed" => (wet, case.rule("oil_line_speed_most")),
        "hose.return_speed" => (wet, case.rule("oil_return_speed_most")),
        "oil_accumulator.pressure" => (
            oil.set / BAR,
            case.part("oil_accumulators")?.f("pressure") / BAR,
        ),
        _ => return None,
    })
}
