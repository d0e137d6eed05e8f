//! How a cylinder on its line really moves: least times, and the throttles that give the asked time.

use core::cell::{Cell, RefCell};
use std::rc::Rc;

use super::line::Line;
use super::strokes;
use crate::catalog::AirCylinder;
use crate::demand::Direction;
use crate::family::Ask;
use crate::mechanics::pneumatics::{AirStroke, Arrival, COARSE, FINE, StrokeOutcome, piston_area};
use crate::quantity::{ATMOSPHERE_PA, Si};

/// How near the travel time must come to the asked one, relative.
const NEAR: f64 = 1e-3;
/// The same of a hinge: where the lever shrinks on the way, a hundredth of the throttle may be a thousandth of the time and a
/// hundredth of the speed of arrival.
const NEAR_ON_A_HINGE: f64 = 2e-5;
/// Trials of a throttle.
const TRIALS_MOST: u32 = 30;
/// Trials that bring it nearer on a hinge, and the greatest step of one, as a logarithm.
const REFINED_MOST: u32 = 5;
const REFINED_BY: f64 = 0.2;

/// Logarithm of a throttle, that of the time it takes over the asked one, and how it goes.
type Trial = (f64, f64, StrokeOutcome);

/// A line and direction by number, and each load, kg, with its stroke.
type OpenStrokes = (usize, Rc<[(f64, StrokeOutcome)]>);

/// A cylinder at a pressure under the job's loads.
#[derive(Debug)]
pub(super) struct LoadedCylinder<'a, 'b> {
    ask: &'b Ask<'a>,
    pub cylinder: &'a AirCylinder,
    /// Gauge pressure of the supply, Pa.
    pub pressure_pa: f64,
    /// Bore and annulus, m².
    pub areas_m2: [f64; 2],
    /// Strokes with throttles open, by line and direction, as far as they were asked for.
    open: RefCell<Vec<OpenStrokes>>,
}

/// One direction with its throttle set: how each load arrives.
#[derive(Debug, Clone)]
pub(super) struct Leg {
    /// Conductance of the throttle, m³/(s·Pa).
    pub throttle: f64,
    /// Each load, kg, and its arrival.
    pub arrivals: Vec<(f64, Arrival)>,
}

impl Leg {
    /// The greatest speed at which a load arrives, m/s.
    pub fn fastest_m_s(&self) -> f64 {
        let speeds = self.arrivals.iter().map(|(_, at)| at.end_speed_m_s);
        speeds.fold(0.0, f64::max)
    }
}

impl<'a, 'b> LoadedCylinder<'a, 'b> {
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

    /// How near the travel time must come to the asked one, relative.
    fn near(&self) -> f64 {
        if self.ask.slide().is_some() {
            NEAR
        } else {
            NEAR_ON_A_HINGE
        }
    }

    /// Mass of piston and rod at no stroke, and of the rod's stroke.
    fn own_kg(&self) -> [f64; 2] {
        let per_m = self.cylinder.moving_mass_per_length.si();
        [self.cylinder.moving_mass.si(), per_m * self.ask.travel_m()]
    }

    /// All that moves with a load at a place, kg at the rod: rod, piston and assist included; and half its growth along the way.
    pub fn moving_at(&self, load_kg: f64, x_m: f64) -> (f64, f64) {
        let axis = self.ask.book.axis();
        let (moved_kg, growth) = axis.moving_at(&self.ask.assist.assist, load_kg, x_m);
        let [fixed_kg, rod_kg] = self.own_kg();
        let mass_kg = moved_kg + fixed_kg + rod_kg;
        (mass_kg, growth)
    }

    /// Greatest kinetic energy as the load comes to an end, J: air drives it faster there than the law of motion.
    pub fn arrival_j(&self, legs: &[Leg; 2]) -> f64 {
        let [_, most_kg] = self.ask.book.axis().loads_kg;
        let of = |(leg, at_m): (&Leg, f64)| {
            let (mass_kg, _) = self.moving_at(most_kg, at_m);
            let speeds = leg.arrivals.iter().map(|(_, a)| a.end_speed_m_s);
            let fastest = speeds.fold(0.0, f64::max);
            0.5 * mass_kg * fastest * fastest
        };
        let ends = legs.iter().zip([self.ask.travel_m(), 0.0]);
        ends.map(of).fold(0.0, f64::max)
    }

    /// Dead volume of bore and annulus side, tube included, m³.
    pub fn dead_m3(&self, line: &Line) -> [f64; 2] {
        let share = self.ask.job.rules.air_dead_volume * self.ask.travel_m();
        self.areas_m2
            .map(|area| share * area + line.tube_volume_m3())
    }

    /// At a position along a stroke the force against it, N, inertia aside; all that moves, and half its growth along the stroke.
    fn along(&self, direction: Direction, load_kg: f64, along_m: f64) -> (f64, (f64, f64)) {
        let axis = self.ask.book.axis();
        let x_m = match direction {
            Direction::Out => along_m,
            Direction::Back => axis.travel_m - along_m,
        };
        let (assist, upper) = (&self.ask.assist.assist, direction == Direction::Out);
        let (force_n, (moved_kg, growth)) =
            axis.force_and_mass(assist, load_kg, x_m, direction, upper);
        let [fixed_kg, rod_kg] = self.own_kg();
        let sign = direction.sign();
        (
            sign * force_n,
            (moved_kg + fixed_kg + rod_kg, sign * growth),
        )
    }

    /// Runs one stroke.
    fn run(
        &self,
        line: &Line,
        direction: Direction,
        load_kg: f64,
        throttle: f64,
        patience_s: f64,
        tolerance: f64,
    ) -> StrokeOutcome {
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
        let uniform = self.ask.book.axis().is_uniform();
        let start = self.along(direction, load_kg, 0.0);
        let constant = uniform.then_some(start.0);
        let straight = self.ask.slide().is_some();
        let mass = straight.then_some(start.1);
        // A stroke asks force and mass of a place in turn.
        let last = Cell::new((0.0, start));
        let at = |along: f64| {
            let (place, known) = last.get();
            if along.to_bits() == f64::to_bits(place) {
                return known;
            }
            let found = self.along(direction, load_kg, along);
            last.set((along, found));
            found
        };
        let stroke = AirStroke {
            travel_m: self.ask.travel_m(),
            moving: |along: f64| mass.unwrap_or_else(|| at(along).1),
            fill_area_m2,
            exhaust_area_m2,
            fill_dead_m3,
            exhaust_dead_m3,
            fill: line.fill(self.cylinder),
            exhaust: line.exhaust(self.cylinder, throttle),
            supply_pa: self.pressure_pa + ATMOSPHERE_PA,
            seal_n: self.ask.job.rules.air_seal_friction * self.pressure_pa * bore,
            load_n: |along: f64| constant.unwrap_or_else(|| at(along).0),
            patience_s,
            tolerance,
        };
        let assist = &self.ask.assist.assist;
        let key = strokes::key(&stroke, out, load_kg, self.own_kg(), assist);
        self.ask.strokes.outcome(key, || stroke.run())
    }

    /// How each load goes in a direction with the throttles open; run once for each line.
    fn open(&self, index: usize, line: &Line, direction: Direction) -> Rc<[(f64, StrokeOutcome)]> {
        let back = usize::from(direction == Direction::Back);
        let key = 2 * index + back;
        if let Some((_, found)) = self.open.borrow().iter().find(|(at, _)| *at == key) {
            return Rc::clone(found);
        }
        let patience = self.ask.times.iter().copied().fold(0.0, f64::max) * 4.0;
        let run = |load: f64| {
            let open = line.throttle_open();
            (load, self.run(line, direction, load, open, patience, FINE))
        };
        let found: Rc<[_]> = self.loads_kg().into_iter().map(run).collect();
        self.open.borrow_mut().push((key, Rc::clone(&found)));
        found
    }

    /// Least time of the slower direction and load with the throttles open, s; endless where one does not arrive.
    pub fn open_time_s(&self, index: usize, line: &Line) -> f64 {
        self.open_time_within_s(index, line, f64::INFINITY)
    }

    /// The same, or that of one direction where it alone takes longer than some time.
    pub fn open_time_within_s(&self, index: usize, line: &Line, most_s: f64) -> f64 {
        let mut time = 0.0_f64;
        for direction in [Direction::Out, Direction::Back] {
            if time <= most_s {
                let open = self.open(index, line, direction);
                let times = open.iter().map(|(_, outcome)| outcome.time_s());
                time = times.fold(time, f64::max);
            }
        }
        time
    }

    /// Volume swept by the smaller side of the piston, m³.
    pub fn swept_m3(&self) -> f64 {
        self.areas_m2[1] * self.ask.travel_m()
    }

    /// Both directions with the throttles set so that the slower load takes the asked time.
    pub fn settled(&self, index: usize, line: &Line, time_s: f64) -> Option<[Leg; 2]> {
        let out = self.leg(index, line, Direction::Out, time_s)?;
        let back = self.leg(index, line, Direction::Back, time_s)?;
        Some([out, back])
    }

    fn leg(&self, index: usize, line: &Line, direction: Direction, time_s: f64) -> Option<Leg> {
        let open = self.open(index, line, direction);
        let slower = |p: (f64, StrokeOutcome), q: (f64, StrokeOutcome)| {
            if q.1.time_s() > p.1.time_s() { q } else { p }
        };
        let first = open.iter().copied().reduce(slower)?;
        let mut leg = self.throttled(line, direction, time_s, first)?;
        // The other load at that throttle: it may be the slower one once the throttle is closed.
        for other in open
            .iter()
            .filter(|(load, _)| load.to_bits() != first.0.to_bits())
        {
            let run = |load: f64, throttle: f64| match self.run(
                line,
                direction,
                load,
                throttle,
                3.0 * time_s,
                FINE,
            ) {
                StrokeOutcome::Arrives(arrival) => Some((load, arrival)),
                StrokeOutcome::Stalls(_) => None,
            };
            let arrival = run(other.0, leg.throttle);
            let late = arrival.is_none_or(|(_, a)| a.time_s > time_s * (1.0 + 2.0 * self.near()));
            if late {
                leg = self.throttled(line, direction, time_s, *other)?;
                leg.arrivals.push(run(first.0, leg.throttle)?);
            } else {
                leg.arrivals.extend(arrival);
            }
        }
        Some(leg)
    }

    /// The throttle at which a load takes the asked time, or fully open where even that is hardly quicker.
    fn throttled(
        &self,
        line: &Line,
        direction: Direction,
        time_s: f64,
        (load_kg, open): (f64, StrokeOutcome),
    ) -> Option<Leg> {
        let leg = |throttle: f64, outcome: StrokeOutcome| match outcome {
            StrokeOutcome::Arrives(arrival) => Some(Leg {
                throttle,
                arrivals: vec![(load_kg, arrival)],
            }),
            StrokeOutcome::Stalls(_) => None,
        };
        // Logarithm of the time over the asked one: about minus one for one in that of the conductance.
        let late = |outcome: &StrokeOutcome| libm::log(outcome.time_s() / time_s).min(1.5);
        let (mut high, mut best) = (
            (libm::log(line.throttle_open()), late(&open)),
            (line.throttle_open(), open),
        );
        if high.1 > -self.near() {
            return leg(best.0, best.1);
        }
        let mut before = high;
        let mut at = self.first_guess(line, direction, time_s, &open);
        let mut low: Option<(f64, f64)> = None;
        let mut side = 0;
        for _ in 0..TRIALS_MOST {
            let throttle = libm::exp(at);
            let outcome = self.run(line, direction, load_kg, throttle, 4.0 * time_s, COARSE);
            let value = late(&outcome);
            if value.abs() <= NEAR {
                let patience = 4.0 * time_s;
                let fine = |at: f64| {
                    let throttle = libm::exp(at);
                    let fine = self.run(line, direction, load_kg, throttle, patience, FINE);
                    (at, late(&fine), fine)
                };
                let (at, _, outcome) = self.refined(fine(at), before, fine);
                return leg(libm::exp(at), outcome);
            }
            before = (at, value);
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
                best = (throttle, outcome);
            }
            at = match low {
                Some(low) => {
                    let share = low.1 / (low.1 - high.1);
                    low.0 + share.clamp(0.02, 0.98) * (high.0 - low.0)
                }
                // Still too fast: on by the slope, and a little further so that the next one lies on the other side.
                None => at + 1.1 * value - 2.0 * NEAR,
            };
        }
        // What is left is a jump of the time at some throttle: the faster side keeps the asked time.
        leg(best.0, best.1)
    }

    /// A throttle that is nearly right brought nearer, where it must be: by the slope between the last two.
    fn refined(&self, first: Trial, mut before: (f64, f64), fine: impl Fn(f64) -> Trial) -> Trial {
        let (mut last, mut best) = (first, first);
        for _ in 0..REFINED_MOST {
            if best.1.abs() <= self.near() {
                break;
            }
            let slope = (last.1 - before.1) / (last.0 - before.0);
            let step = -last.1 / slope;
            if !step.is_finite() || step.abs() > REFINED_BY {
                break;
            }
            before = (last.0, last.1);
            last = fine(last.0 + step);
            if last.1.abs() < best.1.abs() {
                best = last;
            }
        }
        best
    }

    /// Logarithm of a throttle that should be near: the whole exhaust way, choked, passes a volume of
    /// `C · 10⁵ Pa` in a second, whatever its pressure; what the way back to the open stroke teaches mends it.
    fn first_guess(
        &self,
        line: &Line,
        direction: Direction,
        time_s: f64,
        open: &StrokeOutcome,
    ) -> f64 {
        let area = self.areas_m2[usize::from(direction == Direction::Out)];
        let start_s = match open {
            StrokeOutcome::Arrives(arrival) => arrival.start_s,
            StrokeOutcome::Stalls(_) => 0.0,
        };
        let moving_s = (time_s - start_s).max(0.5 * time_s);
        let whole = 1.05 * area * self.ask.travel_m() / (moving_s * 1e5);
        let open_whole = line
            .exhaust(self.cylinder, line.throttle_open())
            .conductance;
        // 1/C³ of the throttle is that of the whole way less that of the rest.
        let rest = open_whole.powi(-3) - line.throttle_open().powi(-3);
        let throttle = 1.0 / libm::cbrt((whole.powi(-3) - rest).max(open_whole.powi(-3)));
        libm::log(throttle.min(0.9 * line.throttle_open()))
    }
}
