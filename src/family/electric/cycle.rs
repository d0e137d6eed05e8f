//! A cycle of the load as any electric drive sees it: forces, speeds and times, and the runs in which both stay the same.

use crate::demand::{Case, Demand, Loading, Sample};
use crate::family::Ask;
use crate::mechanics::bearing;
use crate::quantity::{Si, newtons};

/// Window of an S3 rating, s (IEC 60034-1: cycles of ten minutes).
pub(in crate::family) const DUTY_WINDOW_S: f64 = 600.0;
/// A life past this many years is as good as endless.
const ENDLESS_YEARS: f64 = 1000.0;

/// What a demand asks of a drive over a cycle.
#[derive(Debug, Clone, Copy)]
pub(in crate::family) struct Cycle {
    /// Greatest force, at rest or in motion.
    pub thrust_n: f64,
    /// Greatest force of all: thrust, emergency stop, holding.
    pub greatest_n: f64,
    /// Cube mean of the force over the way, the worse load.
    pub cube_mean_n: f64,
    /// Mean of the force over the way, the worse load.
    pub mean_n: f64,
    /// Force to be held at rest.
    pub holding_n: f64,
    /// RMS of the force held over the rests, with the least and the most load.
    pub rest_n: [f64; 2],
    /// Peak speed.
    pub speed_m_s: f64,
    /// Time in motion.
    pub run_s: f64,
    /// Length of the cycle.
    pub length_s: f64,
    /// The longer of the two rests.
    pub rest_longest_s: f64,
    /// Way in a cycle.
    pub way_m: f64,
}

/// A part of a stroke under one force and one acceleration; both count along the motion.
///
/// Most strokes have a handful where their profile has hundreds of instants: what is judged for every motor is judged run by run.
#[derive(Debug, Clone, Copy)]
pub(in crate::family) struct Run {
    /// Which load: 0 the least, 1 the most.
    pub load: usize,
    /// Force on the load; negative where the load drives.
    pub force_n: f64,
    /// Force that would start it there, from rest.
    pub start_n: f64,
    /// Acceleration.
    pub acceleration_m_s2: f64,
    /// Greatest speed, never negative.
    pub speed_m_s: f64,
    /// Time, by the trapezoid rule.
    pub time_s: f64,
    /// Way: speed times time.
    pub way_m: f64,
    /// Speed squared times time.
    pub speed_squares: f64,
}

impl Run {
    fn is_like(&self, other: &Self) -> bool {
        let same = |p: f64, q: f64| p.to_bits() == q.to_bits();
        same(self.force_n, other.force_n)
            && same(self.start_n, other.start_n)
            && same(self.acceleration_m_s2, other.acceleration_m_s2)
    }

    fn extend(&mut self, later: &Self) {
        self.speed_m_s = self.speed_m_s.max(later.speed_m_s);
        self.time_s += later.time_s;
        self.way_m += later.way_m;
        self.speed_squares += later.speed_squares;
    }
}

impl Cycle {
    pub(in crate::family) fn new(ask: &Ask, demand: &Demand) -> Self {
        let timing = &ask.job.timing;
        let run_s = 2.0 * demand.travel_time_s;
        let rest_s = (timing.cycle_s() - run_s).max(0.0);
        let out_s = timing.rest_out.si().min(rest_s);
        let loads = [Loading::Least, Loading::Most];
        let means = loads.map(|load| mean_forces_n(demand, load));
        Self {
            thrust_n: demand.thrust_n(),
            greatest_n: demand.greatest_n(),
            cube_mean_n: means[0][0].max(means[1][0]),
            mean_n: means[0][1].max(means[1][1]),
            holding_n: demand.held_n(),
            rest_n: loads.map(|load| {
                let mut same = demand.cases.iter().filter(|case| case.load == load);
                same.next().map_or(0.0, |case| case.figures.rms_rest_n)
            }),
            speed_m_s: demand.worst.peak_speed_m_s,
            run_s,
            length_s: timing.cycle_s().max(run_s),
            rest_longest_s: out_s.max(rest_s - out_s),
            way_m: 2.0 * ask.travel_m(),
        }
    }

    /// Time at rest.
    pub(in crate::family) fn rest_s(&self) -> f64 {
        self.length_s - self.run_s
    }

    /// Time over which heat is averaged: the cycle, but ten minutes of it at most, and never less than the run.
    pub(in crate::family) fn window_s(&self) -> f64 {
        self.length_s.min(DUTY_WINDOW_S.max(self.run_s))
    }

    /// Way before a brake bites, from the peak speed, the held force free to speed up all that moves with the lightest load:
    /// `v t + F t²/(2 m)`.
    pub(in crate::family) fn drop_m(&self, moving_kg: f64, brake_s: f64) -> f64 {
        self.speed_m_s * brake_s + self.holding_n / moving_kg * brake_s * brake_s / 2.0
    }
}

/// Years that a distance lasts at this job's rate.
pub(in crate::family) fn years(ask: &Ask, distance_m: f64) -> f64 {
    let a_year = ask.job.timing.cycles_per_year() * 2.0 * ask.travel_m();
    if a_year > 0.0 {
        (distance_m / a_year).min(ENDLESS_YEARS)
    } else {
        ENDLESS_YEARS
    }
}

/// The runs of every stroke of a demand.
pub(in crate::family) fn runs(demand: &Demand) -> Vec<Run> {
    demand.cases.iter().flat_map(runs_of).collect()
}

/// The runs of a stroke, in their order.
fn runs_of(case: &Case) -> Vec<Run> {
    let (profile, sign) = (&case.profile, case.direction.sign());
    let mut runs: Vec<Run> = Vec::new();
    for (index, sample) in profile.iter().enumerate() {
        let before = index.checked_sub(1).and_then(|at| profile.get(at));
        let after = profile.get(index + 1);
        let share_s = (after.unwrap_or(sample).t_s - before.unwrap_or(sample).t_s) / 2.0;
        let run = instant(case, sample, sign, share_s);
        match runs.last_mut() {
            Some(last) if last.is_like(&run) => last.extend(&run),
            _ => runs.push(run),
        }
    }
    runs
}

fn instant(case: &Case, sample: &Sample, sign: f64, share_s: f64) -> Run {
    let speed_m_s = (sign * sample.v_m_s).max(0.0);
    Run {
        load: usize::from(case.load == Loading::Most),
        force_n: sign * sample.force_n,
        start_n: sign * sample.static_force_n,
        acceleration_m_s2: sign * sample.a_m_s2,
        speed_m_s,
        time_s: share_s,
        way_m: share_s * speed_m_s,
        speed_squares: share_s * speed_m_s * speed_m_s,
    }
}

/// Cube mean and mean of the force over the way with one load.
fn mean_forces_n(demand: &Demand, load: Loading) -> [f64; 2] {
    let steps = || {
        let cases = demand.cases.iter().filter(move |case| case.load == load);
        let pairs = cases.flat_map(|case| case.profile.windows(2));
        pairs.filter_map(|pair| match pair {
            [p, q] => Some((
                f64::midpoint(p.force_n.abs(), q.force_n.abs()),
                (q.x_m - p.x_m).abs(),
            )),
            _ => None,
        })
    };
    let cube = bearing::cube_mean(steps().map(|(force, way)| (newtons(force), way)));
    let (work, way) = steps().fold((0.0, 0.0), |(work, way), (force, step)| {
        (work + force * step, way + step)
    });
    [cube.si(), if way > 0.0 { work / way } else { 0.0 }]
}
