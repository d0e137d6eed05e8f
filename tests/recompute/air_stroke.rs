//! A stroke of an air cylinder: two isothermal chambers, ISO 6358 flow, an integrator of its own (Bogacki and Shampine).

use super::base::Case;
use super::motion::{Instant, Stroke};
use super::steel::disc;

/// Pressure of the atmosphere, gas constant, temperature and density of free air (method, preamble).
pub const ATMOSPHERE: f64 = 101_325.0;
const GAS: f64 = 287.05;
const WARM: f64 = 293.15;
const FREE: f64 = 1.185;
/// Greatest error of a step, in parts of the state's own size.
const PRECISION: f64 = 3e-8;

/// A restriction: conductance, m³/(s·Pa), and critical ratio.
#[derive(Clone, Copy)]
pub struct Nozzle(pub f64, pub f64);

impl Nozzle {
    /// A tube, its bore and length in metres (ISO 6358).
    pub fn tube(d: f64, length: f64) -> Self {
        let c = 0.029 * d * d / (length / d.powf(1.25) + 510.0).sqrt();
        Self(c, 474.0 * c / (d * d))
    }
    /// Several, one behind the other.
    pub fn row(list: &[Self]) -> Self {
        let c = list
            .iter()
            .map(|n| n.0.powi(-3))
            .sum::<f64>()
            .powf(-1.0 / 3.0);
        let loss: f64 = list.iter().map(|n| (1.0 - n.1) / (n.0 * n.0)).sum();
        // Many alike in a row would have less than nought, which no restriction has.
        Self(c, (1.0 - c * c * loss).max(0.0))
    }
    /// Mass that flows from one pressure to a lower one, kg/s; negative the other way.
    fn flow(self, from: f64, to: f64) -> f64 {
        if to > from {
            return -self.flow(to, from);
        }
        let r = to / from;
        let part = |r: f64| {
            (1.0 - ((r - self.1) / (1.0 - self.1)).powi(2))
                .max(0.0)
                .sqrt()
        };
        let psi = if r <= self.1 {
            1.0
        } else if r <= 0.999 {
            part(r)
        } else {
            part(0.999) * (1.0 - r) / 0.001
        };
        self.0 * from * FREE * psi
    }
}

/// One stroke of one load, seen along its own way.
pub struct Way {
    travel: f64,
    supply: f64,
    /// Areas of the side that fills and of the side that empties.
    fill: f64,
    empty: f64,
    /// Volume behind the piston at each end.
    dead: (f64, f64),
    /// Mass that moves with the rod beside the load.
    hung: f64,
    /// Way, mass of the load as the rod feels it, and how it grows along the way.
    mass: Vec<(f64, f64, f64)>,
    seal: f64,
    /// Way and force of the load against the stroke.
    load: Vec<(f64, f64)>,
}

/// Way, speed, pressure of the filling and of the emptying side.
type State = [f64; 4];

/// What a stroke takes: time, and the greatest speed over its last tenth.
#[derive(Clone, Copy)]
pub struct Run {
    pub time: f64,
    pub arrival: f64,
}

impl Way {
    pub fn of(case: &Case, stroke: &Stroke, supply_gauge: f64) -> Option<Self> {
        let cylinder = case.part("air_cylinders")?;
        let tube = case.part("air_tubes")?;
        let travel = case.travel();
        let bore = disc(cylinder.f("bore"));
        let ring = bore - disc(cylinder.f("rod"));
        let (fill, empty) = if stroke.sign > 0.0 {
            (bore, ring)
        } else {
            (ring, bore)
        };
        let line = disc(tube.f("bore")) * tube.length_m();
        let dead = |area: f64| case.rule("air_dead_volume") * area * travel + line;
        let k = case.assist("travel_ratio");
        let rod = cylinder.f("moving_mass") + cylinder.f("moving_mass_per_length") * travel;
        let hung = k * k * case.assist("counterweight_kg") + case.assist("sheave_mass_kg");
        let along = |x: f64| if stroke.sign > 0.0 { x } else { travel - x };
        let load = stroke
            .instants
            .iter()
            .map(|i| (along(i.x), stroke.sign * i.still))
            .collect();
        let felt = |i: &Instant| (along(i.x), i.apparent.0, stroke.sign * i.apparent.1);
        Some(Self {
            travel,
            supply: supply_gauge + ATMOSPHERE,
            fill,
            empty,
            dead: (dead(fill), dead(empty)),
            hung: hung + rod,
            mass: stroke.instants.iter().map(felt).collect(),
            seal: case.rule("air_seal_friction") * supply_gauge * bore,
            load,
        })
    }

    /// Moving mass at a way, and how it grows.
    fn moving(&self, x: f64) -> (f64, f64) {
        let i = self.mass.partition_point(|p| p.0 <= x);
        let last = self.mass.len() - 1;
        let (low, high) = (self.mass[i.saturating_sub(1)], self.mass[i.min(last)]);
        let part = if high.0 > low.0 {
            (x - low.0) / (high.0 - low.0)
        } else {
            0.0
        };
        (
            self.hung + low.1 + (high.1 - low.1) * part,
            low.2 + (high.2 - low.2) * part,
        )
    }

    /// Force of the load against the stroke at a way.
    fn against(&self, x: f64) -> f64 {
        let i = self.load.partition_point(|p| p.0 <= x);
        let (Some(low), Some(high)) = (self.load.get(i.wrapping_sub(1)), self.load.get(i)) else {
            let end = if i == 0 {
                self.load.first()
            } else {
                self.load.last()
            };
            return end.map_or(0.0, |p| p.1);
        };
        low.1 + (high.1 - low.1) * (x - low.0) / (high.0 - low.0)
    }

    /// Force along the stroke, the seals aside.
    fn push(&self, s: State) -> f64 {
        let [x, _, p1, p2] = s;
        let shut = self.fill - self.empty;
        p1 * self.fill - p2 * self.empty - ATMOSPHERE * shut - self.against(x)
    }

    /// Sense in which a piston at rest begins to run: 1 along, -1 back, 0 where its seals hold it.
    fn begins(&self, s: State) -> f64 {
        let push = self.push(s);
        if push > self.seal {
            1.0
        } else if push < -self.seal && s[0] > 0.0 {
            // At its starting end the cover holds it.
            -1.0
        } else {
            0.0
        }
    }

    /// Whether a piston no longer runs in a sense, or no longer rests.
    fn ends(&self, s: State, sense: f64) -> bool {
        if sense == 0.0 {
            return self.begins(s) != 0.0;
        }
        sense * s[1] < 0.0 || sense < 0.0 && s[0] <= 0.0
    }

    fn slope(&self, s: State, sense: f64, (inlet, outlet): (Nozzle, Nozzle)) -> State {
        let [x, v, p1, p2] = s;
        let (v, a) = if sense == 0.0 {
            (0.0, 0.0)
        } else {
            // A mass that grows takes up motion by itself: M v' + M' v²/2 = F.
            let (mass, growth) = self.moving(x);
            let force = self.push(s) - sense * self.seal;
            (v, (force - growth * v * v / 2.0) / mass)
        };
        let (first, second) = (
            self.dead.0 + self.fill * x,
            self.dead.1 + self.empty * (self.travel - x),
        );
        let gain = GAS * WARM * inlet.flow(self.supply, p1);
        let loss = GAS * WARM * outlet.flow(p2, ATMOSPHERE);
        [
            v,
            a,
            (gain - p1 * self.fill * v) / first,
            (p2 * self.empty * v - loss) / second,
        ]
    }

    /// One step, and its error.
    fn step(&self, s: State, h: f64, sense: f64, ports: (Nozzle, Nozzle)) -> (State, f64) {
        let scale = [self.travel, self.travel, self.supply, self.supply];
        let k1 = self.slope(s, sense, ports);
        let to = |k: &[(State, f64)]| -> State {
            std::array::from_fn(|i| s[i] + h * k.iter().map(|(k, w)| k[i] * w).sum::<f64>())
        };
        let k2 = self.slope(to(&[(k1, 0.5)]), sense, ports);
        let k3 = self.slope(to(&[(k2, 0.75)]), sense, ports);
        let next = to(&[(k1, 2.0 / 9.0), (k2, 1.0 / 3.0), (k3, 4.0 / 9.0)]);
        let k4 = self.slope(next, sense, ports);
        let off = |i: usize| {
            let d = -5.0 / 72.0 * k1[i] + k2[i] / 12.0 + k3[i] / 9.0 - k4[i] / 8.0;
            (h * d / scale[i]).abs()
        };
        (next, (0..4).map(off).fold(0.0, f64::max))
    }

    /// The shortest part of a step after which the piston no longer does what it did.
    fn turn(&self, s: State, h: f64, sense: f64, ports: (Nozzle, Nozzle)) -> f64 {
        let (mut low, mut high) = (0.0, h);
        for _ in 0..40 {
            let middle = (low + high) / 2.0;
            if self.ends(self.step(s, middle, sense, ports).0, sense) {
                high = middle;
            } else {
                low = middle;
            }
        }
        high
    }

    /// Runs to the end of the travel, or gives up after the longest time.
    pub fn run(&self, ports: (Nozzle, Nozzle), longest: f64) -> Run {
        let tenth = 0.9 * self.travel;
        let mut s: State = [0.0, 0.0, ATMOSPHERE, self.supply];
        let mut sense = self.begins(s);
        let (mut t, mut h, mut arrival) = (0.0, 1e-5, 0.0_f64);
        while t < longest {
            let (mut next, error) = self.step(s, h, sense, ports);
            if error > PRECISION && h > 1e-9 {
                h *= (0.9 * (PRECISION / error).cbrt()).max(0.2);
                continue;
            }
            let turns = self.ends(next, sense);
            if turns {
                h = self.turn(s, h, sense, ports);
                next = self.step(s, h, sense, ports).0;
            }
            if next[0] >= self.travel {
                let part = (self.travel - s[0]) / (next[0] - s[0]);
                arrival = arrival.max(s[1] + (next[1] - s[1]) * part);
                return Run {
                    time: t + h * part,
                    arrival,
                };
            }
            if next[0] >= tenth {
                // A step into the last tenth counts from where that begins.
                if s[0] < tenth {
                    let part = (tenth - s[0]) / (next[0] - s[0]);
                    arrival = arrival.max(s[1] + (next[1] - s[1]) * part);
                }
                arrival = arrival.max(next[1]);
            }
            s = next;
            t += h;
            if turns {
                (s[0], s[1]) = (s[0].max(0.0), 0.0);
                sense = self.begins(s);
                h = 1e-5;
                continue;
            }
            let grow = 0.9 * (PRECISION / error.max(1e-12)).cbrt();
            h = (h * grow.clamp(0.2, 3.0)).min(longest / 50.0);
            // Short steps over the last part, so that no peak of a swinging load is passed over.
            if s[0] > 0.88 * self.travel {
                h = h.min(0.002 * self.travel / s[1].abs().max(1e-3 * self.travel / longest));
            }
        }
        Run {
            time: f64::INFINITY,
            arrival: 0.0,
        }
    }
}
