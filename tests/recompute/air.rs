//! Checks of the air cylinder, its rod lock, absorbers and air.

use super::air_stroke::{ATMOSPHERE, Nozzle, Run, Way};
use super::base::{Case, G, PartUse};
use super::motion::Stroke;
use super::steel::{disc, strut};
use super::swing::between_pins;
use super::worst::held;

/// How near to a limit, as a part of it, two integrations cannot say on which side of it they are.
const ON_THE_LIMIT: f64 = 1e-3;
const BAR: f64 = 1e5;
const L_MIN: f64 = 1e-3 / 60.0;
/// Pressure of free air (ISO 8778).
const FREE: f64 = 1e5;
/// Length of the joint on a rod, in diameters of the rod; found from the study, stated nowhere.
const JOINT: f64 = 2.5;

/// The air drive of one option.
pub struct Air<'a> {
    case: &'a Case<'a>,
    cylinder: PartUse<'a>,
    pressure: f64,
    bore: f64,
    ring: f64,
    /// Least time of the slowest stroke, s.
    least: f64,
    /// Time of the quickest stroke behind its throttle, s.
    quickest: f64,
    /// Arrivals of both loads at the far and at the near end.
    ends: [Vec<End>; 2],
}

/// Volumes of air receivers, L: what a stroke lacks, what it asks in all, and what is bought.
struct Receivers {
    lacks: f64,
    asked: f64,
    bought: f64,
}

/// One load at one end: its energy, J, its speed, m/s, and the force that still pushes it, N.
struct End {
    moving: f64,
    speed: f64,
    thrust: f64,
}

/// Restrictions of the filling and of the emptying side; the throttle as it is set.
fn ports(case: &Case, throttle: Option<f64>) -> Option<(Nozzle, Nozzle)> {
    let cylinder = case.part("air_cylinders")?;
    let valve = case.part("air_valves")?;
    let tube = case.part("air_tubes")?;
    let control = case.part("flow_controls")?;
    let nozzle = |p: &PartUse, field: &str| Nozzle(p.f(field), p.f("critical_ratio"));
    let mut all = vec![
        nozzle(&valve, "conductance"),
        Nozzle::tube(tube.f("bore"), tube.length_m()),
        nozzle(&cylinder, "conductance"),
    ];
    if let Some(check) = case.part("check_valves") {
        all.push(nozzle(&check, "conductance"));
    }
    let mut inlet = all.clone();
    inlet.push(nozzle(&control, "free_conductance"));
    let open = control.f("conductance");
    all.push(Nozzle(
        throttle.unwrap_or(open),
        control.f("critical_ratio"),
    ));
    Some((Nozzle::row(&inlet), Nozzle::row(&all)))
}

/// What the loads of one direction do behind a throttle set so that the slowest lasts as long as asked.
fn metered(case: &Case, ways: &[Way], open: &[Run]) -> Option<Vec<Run>> {
    let asked = case.time();
    let slowest = |runs: &[Run]| runs.iter().map(|r| r.time).fold(0.0, f64::max);
    let mut best = open.to_vec();
    if slowest(open) >= asked {
        return Some(best);
    }
    // Logarithm of the conductance, and that of the time over the asked one: nearly a straight line.
    let full = case.part("flow_controls")?.f("conductance").ln();
    let (mut low, mut high) = (full - 9.2, full);
    let mut last = (full, (slowest(open) / asked).ln());
    let mut next = full + last.1;
    for _ in 0..40 {
        if next <= low || next >= high {
            next = (low + high) / 2.0;
        }
        let set = ports(case, Some(next.exp()))?;
        let runs: Vec<_> = ways.iter().map(|w| w.run(set, 2.0 * asked)).collect();
        let off = (slowest(&runs) / asked).ln();
        if off > 0.0 {
            low = next;
        } else {
            high = next;
        }
        if off.is_finite() {
            best = runs;
        }
        if off.abs() < 2e-5 {
            break;
        }
        let slope = (off - last.1) / (next - last.0);
        let step = if slope.is_finite() {
            -off / slope
        } else {
            f64::NAN
        };
        last = (next, off);
        next = if step.is_finite() { next + step } else { low };
    }
    Some(best)
}

impl<'a> Air<'a> {
    pub fn of(case: &'a Case<'a>) -> Option<Self> {
        let cylinder = case.part("air_cylinders")?;
        let bought = case.part("compressors").map(|c| c.f("pressure"));
        let pressure = bought.or(case.req("site.air.pressure"))?;
        let bore = disc(cylinder.f("bore"));
        let ring = bore - disc(cylinder.f("rod"));
        let mut air = Self {
            case,
            cylinder,
            pressure,
            bore,
            ring,
            least: 0.0,
            quickest: f64::INFINITY,
            ends: [Vec::new(), Vec::new()],
        };
        let open = ports(case, None)?;
        for sign in [1.0, -1.0] {
            let strokes: Vec<_> = case.strokes().iter().filter(|s| s.sign == sign).collect();
            let ways: Option<Vec<_>> = strokes.iter().map(|s| Way::of(case, s, pressure)).collect();
            let ways = ways?;
            let runs: Vec<_> = ways
                .iter()
                .map(|w| w.run(open, 20.0 * case.time()))
                .collect();
            air.least = runs.iter().map(|r| r.time).fold(air.least, f64::max);
            let runs = metered(case, &ways, &runs)?;
            air.quickest = runs.iter().map(|r| r.time).fold(air.quickest, f64::min);
            for (stroke, run) in strokes.into_iter().zip(runs) {
                air.arrives(stroke, run);
            }
        }
        Some(air)
    }

    /// Keeps an arrival at an end.
    fn arrives(&mut self, stroke: &Stroke, run: Run) {
        let case = self.case;
        let k = case.assist("travel_ratio");
        let rod = self.cylinder.f("moving_mass")
            + self.cylinder.f("moving_mass_per_length") * case.travel();
        let hung = k * k * case.assist("counterweight_kg") + case.assist("sheave_mass_kg");
        let out = stroke.sign > 0.0;
        let side = if out { self.bore } else { self.ring };
        let pull = k * case.assist("counterweight_kg") * G;
        let last = stroke.instants.last().expect("a stroke has an end");
        let weight = match &case.given.hinge {
            Some(hinge) => hinge.weight_at_drive(&case.course, stroke.mass, last.arm.0),
            None => stroke.mass * G * case.incline().sin() - pull,
        };
        self.ends[usize::from(!out)].push(End {
            moving: (last.apparent.0 + hung + rod) * run.arrival * run.arrival / 2.0,
            speed: run.arrival,
            thrust: self.pressure * side - stroke.sign * weight,
        });
    }

    /// Energy of an end over the way that stops it.
    fn energy(&self, end: usize, way: f64) -> f64 {
        let each = self.ends[end].iter();
        each.map(|e| e.moving + e.thrust.max(0.0) * way)
            .fold(0.0, f64::max)
    }

    /// Ends that the cylinder's own cushion stops, and ends that need an absorber.
    fn stopped_by(&self, cushion: bool) -> Vec<usize> {
        let (rated, way) = (
            self.cylinder.f("cushion_energy"),
            self.cylinder.f("cushion_length"),
        );
        let within = |limit: f64| -> Vec<usize> {
            let ends = (0..2).filter(|end| self.energy(*end, way) <= limit);
            ends.collect()
        };
        let checks = self.case.option["checks"].as_array().expect("checks");
        let is_of_it = |check: &&serde_json::Value| check["id"] == "air_cylinder.cushion";
        let said = checks.iter().filter(is_of_it).count();
        // On the very limit the study says on which side of it an end is.
        let parts = [1.0, 1.0 + ON_THE_LIMIT, 1.0 - ON_THE_LIMIT];
        let all = parts.map(|part| within(rated * part));
        let alike = all.iter().find(|own| own.len() == said);
        let own = alike.unwrap_or(&all[0]);
        (0..2).filter(|end| own.contains(end) == cushion).collect()
    }

    /// Greatest of a figure at rest over the strokes of one direction.
    fn still(&self, sign: f64, figure: impl Fn(f64) -> f64) -> f64 {
        let strokes = self.case.strokes().iter().filter(|s| s.sign == sign);
        strokes
            .flat_map(|s| &s.instants)
            .map(|i| figure(i.still))
            .fold(f64::NEG_INFINITY, f64::max)
    }

    fn load_factor(&self) -> (f64, f64) {
        let (case, p) = (self.case, self.pressure);
        let push = self.still(1.0, |f| f).max(self.still(-1.0, |f| f));
        let pull = self.still(1.0, |f| -f).max(self.still(-1.0, |f| -f));
        let fast = case.travel() / case.time() > case.rule("load_factor_fast_speed");
        let limit = if fast {
            "load_factor_fast_most"
        } else {
            "load_factor_most"
        };
        let ratio = (push / (p * self.bore)).max(pull / (p * self.ring));
        (ratio.max(0.0), case.rule(limit))
    }

    /// Free air of a cycle, m³.
    pub fn cycle(&self) -> Option<f64> {
        let tube = self.case.part("air_tubes")?;
        let lines = 2.0 * disc(tube.f("bore")) * tube.length_m();
        let swept = (self.bore + self.ring) * self.case.travel();
        let dead = self.case.rule("air_dead_volume") * swept + lines;
        Some((swept * (self.pressure + ATMOSPHERE) + dead * self.pressure) / FREE)
    }

    /// Free air that flows in during the quickest stroke, m³/s.
    fn inrush(&self) -> Option<f64> {
        Some(self.cycle()? / 2.0 / self.quickest)
    }

    /// Receivers make up for what the source does not give during a stroke.
    fn receivers(&self) -> Option<Receivers> {
        let case = self.case;
        let source = case.part("compressors");
        let gives = source.as_ref().map(|c| c.f("flow"));
        let gives = gives.or(case.req("site.air.flow"))?;
        let litres = 1e3 * FREE / case.rule("air_receiver_drop");
        let tank = source.map_or(0.0, |c| c.f("tank")) * 1e3;
        let all = case.parts("air_receivers");
        let bought: f64 = all.iter().map(|r| r.f("volume") * r.quantity()).sum();
        let asked = self.cycle()? / 2.0 * litres;
        Some(Receivers {
            lacks: asked - gives * self.quickest * litres - tank,
            asked,
            bought: bought * 1e3,
        })
    }

    /// The greater of two figures whose difference a check demands: a little of it may be much of the difference.
    pub fn minuend(&self, id: &str) -> f64 {
        let all = self.receivers().filter(|_| id == "air_receiver.volume");
        all.map_or(0.0, |r| r.asked)
    }

    /// The filter and what lets the air in gently; the pressure that valves and tubes bear and ask for.
    fn line(&self, id: &str) -> Option<(f64, f64)> {
        let (case, p) = (self.case, self.pressure / BAR);
        let flows = |gently: bool| {
            let all = case.parts("air_preparation");
            let one = all.iter().find(|part| part.yes("soft_start") == gently)?;
            Some((self.inrush()? / L_MIN, one.f("flow") / L_MIN))
        };
        Some(match id {
            "air_preparation.flow" => return flows(false),
            "soft_start.flow" => return flows(true),
            "air_receiver.volume" => {
                let r = self.receivers()?;
                (r.lacks, r.bought)
            }
            "air_line.pressure" => {
                let all = ["air_valves", "air_tubes", "check_valves"].map(|kind| case.parts(kind));
                let rated = all.iter().flatten().map(|part| part.f("pressure_most"));
                (p, rated.fold(f64::INFINITY, f64::min) / BAR)
            }
            "air_valve.least_pressure" => {
                let all = case.parts("air_valves");
                let needs = all.iter().map(|valve| valve.f("pressure_least"));
                (needs.fold(0.0, f64::max) / BAR, p)
            }
            _ => return None,
        })
    }

    fn exhaust(&self) -> f64 {
        let thrust = self.pressure * self.bore;
        let seal = self.case.rule("air_seal_friction") * thrust;
        let out = self.still(1.0, |f| (thrust - f - seal) / self.ring);
        let back = self.still(-1.0, |f| (self.pressure * self.ring + f - seal) / self.bore);
        out.max(back)
    }

    fn supply(&self, id: &str) -> Option<(f64, f64)> {
        let case = self.case;
        let flow = self.cycle()? / case.cycle_s();
        Some(match id {
            "air_supply.flow" => (flow / L_MIN, case.req("site.air.flow")? / L_MIN),
            "compressor.duty" => {
                let bought = case.part("compressors")?;
                let limit = bought.f("duty_most").min(case.rule("compressor_duty_most"));
                (flow / bought.f("flow"), limit)
            }
            "compressor.mains" => (
                case.part("compressors")?.f("power"),
                case.or("site.mains.power", 0.0),
            ),
            "air_receiver.pressure" => (
                self.pressure / BAR,
                case.part("air_receivers")?.f("pressure_most") / BAR,
            ),
            _ => return None,
        })
    }

    fn stop(&self, id: &str, nth: usize) -> Option<(f64, f64)> {
        let case = self.case;
        if id == "air_cylinder.cushion" {
            let end = *self.stopped_by(true).get(nth)?;
            let way = self.cylinder.f("cushion_length");
            return Some((self.energy(end, way), self.cylinder.f("cushion_energy")));
        }
        let end = *self.stopped_by(false).get(nth)?;
        let all = case.parts("shock_absorbers");
        // Two like ones stand in one line of the list.
        let absorber = all.get(nth).or(all.first())?;
        let energy = self.energy(end, absorber.f("stroke"));
        let often = case.or("timing.cycles_per_hour", f64::NAN);
        Some(match id {
            "shock_absorber.energy" => (energy, absorber.f("energy")),
            "shock_absorber.energy_per_hour" => (energy * often, absorber.f("energy_per_hour")),
            "shock_absorber.speed" => {
                let speeds = self.ends[end].iter().map(|e| e.speed);
                (speeds.fold(0.0, f64::max), absorber.f("speed_most"))
            }
            _ => return None,
        })
    }

    fn holds(&self, id: &str) -> Option<(f64, f64)> {
        let (case, p) = (self.case, self.pressure);
        Some(match id {
            "air_cylinder.load_factor_held" => {
                let (up, down) = held(case);
                let ratio = (up / (p * self.bore)).max(down / (p * self.ring));
                (ratio, case.rule("load_factor_held_most"))
            }
            "rod_lock.holding" => {
                let (up, down) = held(case);
                let force = case.part("rod_locks")?.f("holding_force");
                (up.max(down) + p * self.bore, force)
            }
            "rod_lock.release_pressure" => {
                (case.part("rod_locks")?.f("release_pressure") / BAR, p / BAR)
            }
            "check_valve.creep" => match case.req("goals.position_error.limit") {
                Some(error) => (case.rule("trapped_air_creep") * 1e3, error * 1e3),
                // A job that names no error bears any creep.
                None => (1.0, 1.0),
            },
            _ => return None,
        })
    }

    pub fn recompute(&self, id: &str, nth: usize) -> Option<(f64, f64)> {
        let (case, cylinder, p) = (self.case, &self.cylinder, self.pressure);
        Some(match id {
            "air_cylinder.buckling" => {
                let rod = cylinder.f("rod");
                let guided = 0.7 * (case.travel() + JOINT * rod);
                (
                    p * self.bore,
                    strut(rod, between_pins(case).unwrap_or(guided)),
                )
            }
            "air_cylinder.cold" => {
                let cold = case.or("site.temperature.least", 278.15);
                (
                    {
                        let damp = cold < case.rule("air_temperature_least");
                        f64::from(u8::from(damp && case.part("air_dryers").is_none())) + 1.0
                    },
                    1.0,
                )
            }
            "air_cylinder.heat" => {
                let hot = case.or("site.temperature.most", 313.15);
                (
                    f64::from(u8::from(hot > case.rule("air_temperature_most"))) + 1.0,
                    1.0,
                )
            }
            "air_cylinder.exhaust_pressure" => {
                (self.exhaust() / BAR, cylinder.f("pressure_most") / BAR)
            }
            "air_cylinder.load_factor" => self.load_factor(),
            "air_cylinder.seal_life" => {
                let kits = case.part("seal_kits").map_or(0.0, |k| k.quantity());
                let way = 2.0 * case.travel() * case.cycles_asked();
                (way / 1e3, cylinder.f("seal_life") * (1.0 + kits) / 1e3)
            }
            "air_cylinder.side_load" => {
                let rod = cylinder.f("moving_mass_per_length") * case.travel();
                let b = cylinder.f("bearing_span");
                (
                    rod * G * case.incline().cos().abs() / 8.0,
                    cylinder.f("side_load_most") * b / (b + case.travel()),
                )
            }
            "air_cylinder.smooth_speed" => {
                let least = case.rule("air_speed_least");
                (least * 1e3, case.travel() / case.time() * 1e3)
            }
            "air_cylinder.stops" => {
                let lock = case.part("rod_locks").is_some();
                let fits = match case.words("stops") {
                    "anywhere" => false,
                    "several" => lock,
                    _ => true,
                };
                (if fits { 1.0 } else { 2.0 }, 1.0)
            }
            "air_cylinder.stroke" => (case.travel() * 1e3, cylinder.f("stroke_most") * 1e3),
            "air_cylinder.stroke_time" => (self.least, case.time()),
            "air_cylinder.cushion"
            | "shock_absorber.energy"
            | "shock_absorber.energy_per_hour"
            | "shock_absorber.speed" => return self.stop(id, nth),
            _ => {
                let other = self.supply(id).or_else(|| self.holds(id));
                return other.or_else(|| self.line(id));
            }
        })
    }
}
