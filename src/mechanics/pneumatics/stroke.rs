//! The stroke of an air cylinder as it really goes: filling, breakaway, run, arrival.
//!
//! Two isothermal chambers, ISO 6358 flow on both sides. The piston rests until
//! the net force is positive along the stroke, then
//! `M v̇ = p1 A1 − p2 A2 − p_a (A1 − A2) − F(x) − F_seal`,
//! `ṗ1 = (R T ṁ1 − p1 A1 v)/V1`, `ṗ2 = (−R T ṁ2 + p2 A2 v)/V2`.
//! Should it come to rest on the way it stays until the net force is positive
//! again, or runs back where the load overcomes seal friction the other way.

use super::flow::Path;
use super::rosenbrock::{Jacobian, State, step};
use super::{FREE_AIR_TEMPERATURE_K, GAS_CONSTANT};
use crate::quantity::ATMOSPHERE_PA;

/// Error of a step that keeps travel time and speeds within about 0.05 %.
pub const FINE: f64 = 5e-5;
/// Error of a step for trials: travel times within about 0.1 % in half the time.
pub const COARSE: f64 = 1e-3;
/// Steps after which the stroke is given up.
const STEPS_MOST: u32 = 5_000;
/// Starts, stops and turns after which the stroke is given up: it chatters about a jump of the load.
const EVENTS_MOST: u32 = 200;
/// Gas constant times temperature, J/kg.
const RT: f64 = GAS_CONSTANT * FREE_AIR_TEMPERATURE_K;
/// Part of the travel over which the speed of arrival is taken.
const LAST_PART: f64 = 0.9;

/// One stroke: everything in SI, position counted along the stroke from its start.
#[derive(Debug, Clone, Copy)]
pub struct AirStroke<F, M> {
    /// Length of the stroke, m, > 0.
    pub travel_m: f64,
    /// Everything that moves at a position, as mass at the rod, kg, > 0, and half of what it grows by along the stroke, kg/m.
    pub moving: M,
    /// Piston area of the filling side, m².
    pub fill_area_m2: f64,
    /// Piston area of the exhausting side, m².
    pub exhaust_area_m2: f64,
    /// Volume of the filling side at the start, m³, > 0: clearance and tube.
    pub fill_dead_m3: f64,
    /// Volume of the exhausting side at the end, m³, > 0: clearance and tube.
    pub exhaust_dead_m3: f64,
    /// From the supply to the filling side.
    pub fill: Path,
    /// From the exhausting side to the atmosphere.
    pub exhaust: Path,
    /// Absolute pressure of the supply, Pa.
    pub supply_pa: f64,
    /// Friction of the seals, N, ≥ 0.
    pub seal_n: f64,
    /// Force of the load against the stroke at a position, N, inertia aside; negative overruns.
    pub load_n: F,
    /// Time after which it counts as not arriving, s.
    pub patience_s: f64,
    /// Error allowed in a step, relative to each state's scale: [`FINE`] or [`COARSE`].
    pub tolerance: f64,
}

/// How a stroke ended at its far stop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arrival {
    /// From switching the valve, s.
    pub time_s: f64,
    /// Of that, until the piston moves, s.
    pub start_s: f64,
    /// Greatest speed in the last tenth of the travel, m/s.
    pub end_speed_m_s: f64,
    /// Greatest speed of all, m/s.
    pub peak_speed_m_s: f64,
}

/// How a stroke ended.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum StrokeOutcome {
    /// At its far stop.
    Arrives(Arrival),
    /// Not within its time; how far it had come, m.
    Stalls(f64),
}

impl StrokeOutcome {
    /// Travel time, s; endless where it does not arrive.
    pub fn time_s(&self) -> f64 {
        match self {
            StrokeOutcome::Arrives(arrival) => arrival.time_s,
            StrokeOutcome::Stalls(_) => f64::INFINITY,
        }
    }
}

/// Which way the piston goes, if it does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum PistonMotion {
    Held,
    Along,
    Against,
}

/// An instant with its rates.
#[derive(Debug, Clone, Copy)]
struct StateRate {
    y: State,
    rate: State,
}

impl<F: Fn(f64) -> f64, M: Fn(f64) -> (f64, f64)> AirStroke<F, M> {
    /// Runs the stroke.
    pub fn run(&self) -> StrokeOutcome {
        let mut now: State = [0.0, 0.0, ATMOSPHERE_PA, self.supply_pa];
        let mut going = self.next(&now);
        let (mut time_s, mut start_s, mut end_speed, mut peak) = (0.0, 0.0, 0.0_f64, 0.0_f64);
        let mut h = self.first_step();
        let mut events = 0;
        let mut rate = self.rates(going, now);
        for _ in 0..STEPS_MOST {
            if time_s > self.patience_s
                || (going == PistonMotion::Held && self.stuck_for_good(now[0]))
            {
                return StrokeOutcome::Stalls(now[0]);
            }
            let before = StateRate { y: now, rate };
            let (y, used, next_h) = self.accepted(going, &before, h, peak);
            let (y, used, event) = self.until_event(going, &before, y, used);
            let after = StateRate {
                y,
                rate: self.rates(going, y),
            };
            peak = peak.max(y[1]);
            if y[0] > LAST_PART * self.travel_m {
                end_speed = end_speed.max(self.fastest_at_end(&before, &after, used));
            }
            time_s += used;
            h = next_h;
            now = y;
            rate = after.rate;
            if event {
                events += 1;
                if events > EVENTS_MOST {
                    return StrokeOutcome::Stalls(y[0]);
                }
                if going == PistonMotion::Along && y[0] >= self.travel_m * (1.0 - 1e-9) {
                    if time_s > self.patience_s {
                        return StrokeOutcome::Stalls(self.travel_m);
                    }
                    return StrokeOutcome::Arrives(Arrival {
                        time_s,
                        start_s,
                        end_speed_m_s: end_speed,
                        peak_speed_m_s: peak.max(end_speed),
                    });
                }
                if y[0] <= 0.0 {
                    now[0] = 0.0;
                }
                now[1] = 0.0;
                going = match going {
                    PistonMotion::Held => self.leaving(&now),
                    PistonMotion::Along | PistonMotion::Against => self.next(&now),
                };
                if now[0] <= 0.0 {
                    start_s = time_s;
                }
                h = h.min(self.first_step());
                rate = self.rates(going, now);
            }
        }
        StrokeOutcome::Stalls(now[0])
    }

    /// Force along the stroke at a place, seals aside.
    fn force_n(&self, [x, _, p1, p2]: &State) -> f64 {
        let (a1, a2) = (self.fill_area_m2, self.exhaust_area_m2);
        p1 * a1 - p2 * a2 - ATMOSPHERE_PA * (a1 - a2) - (self.load_n)(*x)
    }

    /// What a piston at rest does next.
    fn next(&self, y: &State) -> PistonMotion {
        let force = self.force_n(y);
        if force > self.seal_n {
            PistonMotion::Along
        } else if y[0] > 0.0 && force < -self.seal_n {
            PistonMotion::Against
        } else {
            PistonMotion::Held
        }
    }

    /// Which way a held piston leaves: the event that ended its rest is within rounding of one limit or the other.
    fn leaving(&self, y: &State) -> PistonMotion {
        if self.force_n(y) > 0.0 || self.seal_n == 0.0 {
            PistonMotion::Along
        } else {
            PistonMotion::Against
        }
    }

    /// Whether even full pressure against an empty exhaust does not move it on.
    fn stuck_for_good(&self, x: f64) -> bool {
        self.force_n(&[x, 0.0, self.supply_pa, ATMOSPHERE_PA]) <= self.seal_n
    }

    /// `M ẍ + M' ẋ²/2 = F`, by Lagrange.
    fn acceleration(&self, going: PistonMotion, y: &State) -> f64 {
        let net_n = match going {
            PistonMotion::Held => return 0.0,
            PistonMotion::Along => self.force_n(y) - self.seal_n,
            PistonMotion::Against => self.force_n(y) + self.seal_n,
        };
        let (mass_kg, growth) = (self.moving)(y[0]);
        (net_n - growth * y[1] * y[1]) / mass_kg
    }

    fn volumes(&self, x: f64) -> (f64, f64) {
        (
            self.fill_dead_m3 + self.fill_area_m2 * x,
            self.exhaust_dead_m3 + self.exhaust_area_m2 * (self.travel_m - x),
        )
    }

    fn rates(&self, going: PistonMotion, y: State) -> State {
        let [x, v, p1, p2] = y;
        let v = if going == PistonMotion::Held { 0.0 } else { v };
        let (v1, v2) = self.volumes(x);
        let (m1, ..) = self.fill.mass_flow(self.supply_pa, p1);
        let (m2, ..) = self.exhaust.mass_flow(p2, ATMOSPHERE_PA);
        [
            v,
            self.acceleration(going, &y),
            (RT * m1 - p1 * self.fill_area_m2 * v) / v1,
            (p2 * self.exhaust_area_m2 * v - RT * m2) / v2,
        ]
    }

    fn jacobian(&self, going: PistonMotion, at: &StateRate) -> Jacobian {
        let [x, v, p1, p2] = at.y;
        let (a1, a2) = (self.fill_area_m2, self.exhaust_area_m2);
        let (v1, v2) = self.volumes(x);
        let (_, _, slope1) = self.fill.mass_flow(self.supply_pa, p1);
        let (_, slope2, _) = self.exhaust.mass_flow(p2, ATMOSPHERE_PA);
        let free = f64::from(u8::from(going != PistonMotion::Held));
        let reach = 1e-5 * self.travel_m;
        let (mass_kg, growth) = (self.moving)(x);
        // Forces over the place and the pressures; a mass that grows adds its own part, or a step is only of first order.
        let mut by_x = ((self.load_n)(x - reach) - (self.load_n)(x + reach)) / (2.0 * reach);
        if growth != 0.0 {
            let (low, high) = ((x - reach).max(0.0), (x + reach).min(self.travel_m));
            let a_m_s2 = |x: f64| self.acceleration(going, &[x, v, p1, p2]);
            by_x = mass_kg * (a_m_s2(high) - a_m_s2(low)) / (high - low);
        }
        Jacobian {
            position_by_speed: free,
            speed: [by_x, a1, -a2].map(|by| by * free / mass_kg),
            speed_by_speed: -2.0 * growth * v * free / mass_kg,
            fill: [
                -a1 / v1 * at.rate[2],
                -p1 * a1 / v1 * free,
                (RT * slope1 - a1 * v * free) / v1,
            ],
            exhaust: [
                a2 / v2 * at.rate[3],
                p2 * a2 / v2 * free,
                (a2 * v * free - RT * slope2) / v2,
            ],
        }
    }

    /// A step short against the quickest chamber.
    fn first_step(&self) -> f64 {
        let pace = |path: Path, dead: f64| dead / (path.conductance * 1e5);
        let quick = pace(self.fill, self.fill_dead_m3)
            .min(pace(self.exhaust, self.exhaust_dead_m3))
            .min(self.patience_s);
        (0.05 * quick).max(1e-9)
    }

    /// The first step from `h` downward whose error is small enough: state, step used, step to try next.
    fn accepted(
        &self,
        going: PistonMotion,
        at: &StateRate,
        h: f64,
        peak: f64,
    ) -> (State, f64, f64) {
        let jacobian = self.jacobian(going, at);
        let mut h = h.min(0.1 * self.patience_s);
        loop {
            let (y, error) = step(at.y, at.rate, &jacobian, h, |y| self.rates(going, y));
            // A speed counts against the fastest so far, or against a crawl of a tenth of the travel in the patience.
            let scale = [
                self.travel_m,
                peak.max(0.1 * self.travel_m / self.patience_s),
                at.y[2],
                at.y[3],
            ];
            let off = error
                .iter()
                .zip(scale)
                .map(|(e, s)| (e / s).abs())
                .fold(0.0, f64::max)
                / self.tolerance;
            let sound = y.iter().all(|part| part.is_finite()) && y[2] > 0.0 && y[3] > 0.0;
            if !sound {
                h *= 0.25;
            } else if off <= 1.0 {
                let grow = 0.9 * libm::pow(off.max(1e-6), -0.25);
                return (y, h, h * grow.clamp(0.3, 5.0));
            } else {
                h *= (0.9 * libm::pow(off, -0.25)).clamp(0.1, 0.8);
            }
            if h < 1e-13 {
                return (at.y, 1e-13, 1e-9);
            }
        }
    }

    /// What is above zero once the present way of going has ended.
    fn over(&self, going: PistonMotion, y: &State) -> f64 {
        match going {
            PistonMotion::Held if y[0] > 0.0 => self.force_n(y).abs() - self.seal_n,
            PistonMotion::Held => self.force_n(y) - self.seal_n,
            PistonMotion::Along => ((y[0] - self.travel_m) / self.travel_m).max(-y[1]),
            PistonMotion::Against => (-y[0] / self.travel_m).max(y[1]),
        }
    }

    /// Cuts a step short where the present way of going ends within it.
    fn until_event(
        &self,
        going: PistonMotion,
        at: &StateRate,
        y: State,
        h: f64,
    ) -> (State, f64, bool) {
        let last = self.over(going, &y);
        if last < 0.0 {
            return (y, h, false);
        }
        let jacobian = self.jacobian(going, at);
        let (mut low, mut high) = ((0.0, self.over(going, &at.y).min(0.0)), (h, last));
        let mut found = (y, h);
        // Illinois: regula falsi that halves a side which does not move.
        let scale = last.abs().max(low.1.abs()).max(1e-300);
        let mut side = 0;
        for _ in 0..40 {
            if (high.1 <= 1e-10 * scale && high.1 >= 0.0) || high.0 - low.0 <= 1e-9 * h {
                break;
            }
            let share = if low.1 == 0.0 {
                0.5
            } else {
                (low.1 / (low.1 - high.1)).clamp(0.001, 0.999)
            };
            let trial = low.0 + share * (high.0 - low.0);
            let (y, _) = step(at.y, at.rate, &jacobian, trial, |y| self.rates(going, y));
            let value = self.over(going, &y);
            if value >= 0.0 {
                high = (trial, value);
                found = (y, trial);
                if side == 1 {
                    low.1 *= 0.5;
                }
                side = 1;
            } else {
                low = (trial, value);
                if side == -1 {
                    high.1 *= 0.5;
                }
                side = -1;
            }
        }
        (found.0, found.1, true)
    }

    /// Greatest speed of a step within the last part of the travel, from the cubic through both ends.
    fn fastest_at_end(&self, before: &StateRate, after: &StateRate, h: f64) -> f64 {
        const PARTS: u32 = 16;
        let line = LAST_PART * self.travel_m;
        let from = if before.y[0] >= line {
            0.0
        } else {
            let (mut low, mut high) = (0.0, 1.0);
            for _ in 0..30 {
                let middle = f64::midpoint(low, high);
                if cubic(before, after, h, 0, middle) < line {
                    low = middle;
                } else {
                    high = middle;
                }
            }
            high
        };
        (0..=PARTS)
            .map(|part| from + (1.0 - from) * f64::from(part) / f64::from(PARTS))
            .map(|share| cubic(before, after, h, 1, share))
            .fold(0.0, f64::max)
    }
}

/// A state within a step, by Hermite's cubic.
fn cubic(before: &StateRate, after: &StateRate, h: f64, state: usize, share: f64) -> f64 {
    let (s, r) = (share, 1.0 - share);
    let (y0, y1) = (before.y[state], after.y[state]);
    let (d0, d1) = (before.rate[state] * h, after.rate[state] * h);
    r * r * (1.0 + 2.0 * s) * y0 + s * s * (3.0 - 2.0 * s) * y1 + s * r * (r * d0 - s * d1)
}
