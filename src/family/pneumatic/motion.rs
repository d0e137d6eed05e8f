//! How a cylinder on its line really moves: least times, and the throttles that give the asked time.

use core::cell::RefCell;

use super::line::Line;
use crate::catalog::AirCylinder;
use crate::demand::Direction;
use crate::family::Ask;
use crate::mechanics::pneumatics::{Arrival, Outcome, Stroke, piston_area};
use crate::quantity::{ATMOSPHERE_PA, Si};

/// How near the travel time must come to the asked one, relative.
const NEAR: f64 = 1e-3;
/// Trials of a throttle.
const TRIALS_MOST: u32 = 30;

/// A cylinder at a pressure under the job's loads.
#[derive(Debug)]
pub(super) struct Motion<'a, 'b> {
    ask: &'b Ask<'a>,
    pub cylinder: &'a AirCylinder,
    /// Gauge pressure of the supply, Pa.
    pub pressure_pa: f64,
    /// Bore and annulus, m².
    pub areas_m2: [f64; 2],
    /// Least times with throttles open, by line, as far as they were asked for.
    open: RefCell<Vec<(usize, f64)>>,
}

/// One direction with its throttle set: how each load arrives.
#[derive(Debug, Clone)]
pub(super) struct Leg {
    /// Conductance of the throttle, m³/(s·Pa).
    pub throttle: f64,
    /// Each load, kg, and its arrival.
    pub arrivals: Vec<(f64, Arrival)>,
}

impl<'a, 'b> Motion<'a, 'b> {
    pub fn new(ask: &'b Ask<'a>, cylinder: &'a AirCylinder, pressure_pa: f64) -> Self {
        let bore = piston_area(cylinder.bore).value;
        Self {
            ask,
            cylinder,
            pressure_pa,
            areas_m2: [bore, bore - piston_area(cylinder.rod).value],
            open: RefCell::default(),
        }
    }

    /// The loads that differ, kg.
    fn loads_kg(&self) -> Vec<f64> {
        let [least, most] = self.ask.book.axis().loads_kg;
        if least < most {
            vec![most, least]
        } else {
            vec![most]
        }
    }

    /// All that moves with a load, kg: rod, piston and assist included.
    pub fn moving_kg(&self, load_kg: f64) -> f64 {
        load_kg
            + self.ask.assist.assist.moving_mass_kg()
            + self.cylinder.moving_mass.si()
            + self.cylinder.moving_mass_per_length.si() * self.ask.slide.travel.si()
    }

    /// Dead volume of bore and annulus side, tube included, m³.
    pub fn dead_m3(&self, line: &Line) -> [f64; 2] {
        let share = self.ask.job.rules.air_dead_volume * self.ask.slide.travel.si();
        self.areas_m2
            .map(|area| share * area + line.tube_volume_m3())
    }

    /// Force against the stroke at a position along it, N, inertia aside.
    fn load_n(&self, direction: Direction, load_kg: f64, along_m: f64) -> f64 {
        let axis = self.ask.book.axis();
        let x_m = match direction {
            Direction::Out => along_m,
            Direction::Back => axis.travel_m - along_m,
        };
        let upper = direction == Direction::Out;
        direction.sign()
            * axis.force_n(&self.ask.assist.assist, load_kg, x_m, 0.0, direction, upper)
    }

    /// Runs one stroke.
    fn run(
        &self,
        line: &Line,
        direction: Direction,
        load_kg: f64,
        throttle: f64,
        patience_s: f64,
    ) -> Outcome {
        let [bore, annulus] = self.areas_m2;
        let [bore_dead, annulus_dead] = self.dead_m3(line);
        let out = direction == Direction::Out;
        let (fill_area_m2, exhaust_area_m2) = if out {
            (bore, annulus)
        } else {
            (annulus, bore)
        };
        let (fill_dead_m3, exhaust_dead_m3) = if out {
            (bore_dead, annulus_dead)
        } else {
            (annulus_dead, bore_dead)
        };
        let constant = (self.ask.slide.process.is_empty() && !self.ask.slide.overhang_grows)
            .then(|| self.load_n(direction, load_kg, 0.0));
        Stroke {
            travel_m: self.ask.slide.travel.si(),
            mass_kg: self.moving_kg(load_kg),
            fill_area_m2,
            exhaust_area_m2,
            fill_dead_m3,
            exhaust_dead_m3,
            fill: line.fill(self.cylinder),
            exhaust: line.exhaust(self.cylinder, throttle),
            supply_pa: self.pressure_pa + ATMOSPHERE_PA,
            seal_n: self.ask.job.rules.air_seal_friction * self.pressure_pa * bore,
            load_n: |along: f64| constant.unwrap_or_else(|| self.load_n(direction, load_kg, along)),
            patience_s,
        }
        .run()
    }

    /// Least time of the slower direction and load with the throttles open, s; endless where one does not arrive.
    pub fn open_time_s(&self, index: usize, line: &Line) -> f64 {
        if let Some((_, time)) = self.open.borrow().iter().find(|(at, _)| *at == index) {
            return *time;
        }
        let patience = self.ask.times.iter().copied().fold(0.0, f64::max) * 4.0;
        let mut time = 0.0_f64;
        for direction in [Direction::Out, Direction::Back] {
            for load in self.loads_kg() {
                let outcome = self.run(line, direction, load, line.throttle_open(), patience);
                time = time.max(outcome.time_s());
            }
        }
        self.open.borrow_mut().push((index, time));
        time
    }

    /// Both directions with the throttles set so that the slower load takes the asked time.
    pub fn settled(&self, line: &Line, time_s: f64) -> Option<[Leg; 2]> {
        let out = self.leg(line, Direction::Out, time_s)?;
        let back = self.leg(line, Direction::Back, time_s)?;
        Some([out, back])
    }

    fn leg(&self, line: &Line, direction: Direction, time_s: f64) -> Option<Leg> {
        let loads = self.loads_kg();
        let open = line.throttle_open();
        let slowest = loads
            .iter()
            .map(|load| {
                let outcome = self.run(line, direction, *load, open, 2.0 * time_s);
                (*load, outcome.time_s())
            })
            .reduce(|p, q| if q.1 > p.1 { q } else { p })?;
        let mut throttle = self.throttle(line, direction, slowest.0, time_s, slowest.1)?;
        let at = |throttle: f64| {
            let arrival =
                |load: &f64| match self.run(line, direction, *load, throttle, 3.0 * time_s) {
                    Outcome::Arrives(arrival) => Some((*load, arrival)),
                    Outcome::Stalls(_) => None,
                };
            loads.iter().map(arrival).collect::<Option<Vec<_>>>()
        };
        let mut arrivals = at(throttle);
        // The other load may be the slower one once the throttle is closed.
        for load in loads
            .iter()
            .filter(|load| load.to_bits() != slowest.0.to_bits())
        {
            let late = arrivals.as_ref().is_none_or(|list| {
                list.iter()
                    .any(|(_, arrival)| arrival.time_s > time_s * (1.0 + 2.0 * NEAR))
            });
            if late {
                throttle = self.throttle(line, direction, *load, time_s, 0.0)?;
                arrivals = at(throttle);
            }
        }
        Some(Leg {
            throttle,
            arrivals: arrivals?,
        })
    }

    /// The throttle at which a load takes the asked time, or fully open where even that is slower.
    fn throttle(
        &self,
        line: &Line,
        direction: Direction,
        load_kg: f64,
        time_s: f64,
        open_time_s: f64,
    ) -> Option<f64> {
        let open = line.throttle_open();
        // Logarithm of the time over the asked one: about minus one for one in that of the conductance.
        let late = |throttle: f64| {
            let outcome = self.run(line, direction, load_kg, throttle, 4.0 * time_s);
            libm::log(outcome.time_s() / time_s).min(1.5)
        };
        let at_open = if open_time_s > 0.0 {
            libm::log(open_time_s / time_s)
        } else {
            late(open)
        };
        if !at_open.is_finite() {
            return None;
        }
        if at_open > -NEAR {
            return Some(open);
        }
        // Choked at all times, the exhaust side leaves at a speed of C·10⁵ Pa over its area.
        let area = self.areas_m2[usize::from(direction == Direction::Out)];
        let guess = 1.2 * area * self.ask.slide.travel.si() / (time_s * 1e5);
        let mut high = (libm::log(open), at_open);
        let mut at = libm::log(guess.min(0.7 * open));
        let mut low: Option<(f64, f64)> = None;
        let mut side = 0;
        for _ in 0..TRIALS_MOST {
            let value = late(libm::exp(at));
            if value.abs() <= NEAR {
                return Some(libm::exp(at));
            }
            if value > 0.0 {
                if side == 1 {
                    high.1 *= 0.5;
                }
                side = 1;
                low = Some((at, value));
            } else {
                if let (-1, Some(low)) = (side, low.as_mut()) {
                    low.1 *= 0.5;
                }
                side = -1;
                high = (at, value);
            }
            at = match low {
                Some(low) => {
                    let share = low.1 / (low.1 - high.1);
                    low.0 + share.clamp(0.02, 0.98) * (high.0 - low.0)
                }
                // Still too fast: on by the slope, and a little further so that the next one lies on the other side.
                None => at + 1.3 * value - 0.02,
            };
        }
        // What is left is a jump of the time at some throttle: the faster side keeps the asked time.
        Some(libm::exp(high.0))
    }
}
