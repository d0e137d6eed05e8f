//! What a demand asks of any screw, and what a screw asks of its motor, instant by instant.

use core::cell::{Cell, OnceCell};
use core::f64::consts::TAU;

use super::DUTY_WINDOW_S;
use super::spindle::Spindle;
use crate::demand::{Case, Demand, Loading};
use crate::family::Ask;
use crate::mechanics::bearing;
use crate::quantity::{Si, newtons};

/// The figures of a demand that every screw is checked against.
#[derive(Debug, Clone, Copy)]
pub(super) struct Moves {
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
    /// Time in motion in a cycle.
    pub run_s: f64,
    /// Length of a cycle.
    pub cycle_s: f64,
    /// The longer of the two rests.
    pub rest_longest_s: f64,
    /// Way in a cycle.
    pub way_m: f64,
    /// Greatest force along the motion and against it, from rest.
    start_n: [f64; 2],
    /// The same at the instants at which it does not slow down.
    drive_n: [f64; 2],
}

impl Moves {
    pub(super) fn new(ask: &Ask, demand: &Demand) -> Self {
        let run_s = 2.0 * demand.travel_time_s;
        let mut moves = Self {
            thrust_n: demand.thrust_n(),
            greatest_n: demand
                .thrust_n()
                .max(demand.emergency_stop.force_peak_n)
                .max(demand.held_n()),
            cube_mean_n: 0.0,
            mean_n: 0.0,
            holding_n: demand.held_n(),
            rest_n: [Loading::Least, Loading::Most].map(|loading| {
                let mut same = demand.cases.iter().filter(|case| case.load == loading);
                same.next().map_or(0.0, |case| case.figures.rms_rest_n)
            }),
            speed_m_s: demand.worst.peak_speed_m_s,
            run_s,
            cycle_s: ask.job.timing.cycle_s().max(run_s),
            rest_longest_s: {
                let rest_s = (ask.job.timing.cycle_s() - run_s).max(0.0);
                let out_s = ask.job.timing.rest_out.si().min(rest_s);
                out_s.max(rest_s - out_s)
            },
            way_m: 2.0 * ask.travel_m(),
            start_n: [0.0; 2],
            drive_n: [0.0; 2],
        };
        for case in &demand.cases {
            moves.take_greatest(case);
        }
        for loading in [Loading::Least, Loading::Most] {
            let steps = || steps_of(demand, loading);
            let cube = bearing::cube_mean(steps().map(|(force, way)| (newtons(force), way))).si();
            let (work, way) = steps().fold((0.0, 0.0), |(work, way), (force, step)| {
                (work + force * step, way + step)
            });
            moves.cube_mean_n = moves.cube_mean_n.max(cube);
            if way > 0.0 {
                moves.mean_n = moves.mean_n.max(work / way);
            }
        }
        moves
    }

    fn take_greatest(&mut self, case: &Case) {
        let sign = case.direction.sign();
        let take = |[along, against]: &mut [f64; 2], force: f64| {
            *along = along.max(force);
            *against = against.max(-force);
        };
        for sample in &case.profile {
            take(&mut self.start_n, sign * sample.static_force_n);
            if sign * sample.a_m_s2 >= 0.0 {
                take(&mut self.drive_n, sign * sample.force_n);
            }
        }
    }

    /// Time over which heat is averaged: the cycle, but ten minutes of it at most, and never less than the run.
    pub(super) fn window_s(&self) -> f64 {
        self.cycle_s.min(DUTY_WINDOW_S.max(self.run_s))
    }
}

/// Force and way of each step of the strokes with one load.
fn steps_of(demand: &Demand, loading: Loading) -> impl Iterator<Item = (f64, f64)> {
    demand
        .cases
        .iter()
        .filter(move |case| case.load == loading)
        .flat_map(|case| case.profile.windows(2))
        .filter_map(|pair| match pair {
            [p, q] => Some((
                f64::midpoint(p.force_n.abs(), q.force_n.abs()),
                (q.x_m - p.x_m).abs(),
            )),
            _ => None,
        })
}

/// One instant at the screw; torque and acceleration count along the motion.
#[derive(Debug, Clone, Copy)]
pub(super) struct Instant {
    /// Torque that turns the screw; negative where the load drives it.
    pub torque_n_m: f64,
    /// Torque that would start it here, from rest.
    pub start_n_m: f64,
    /// Speed, never negative.
    pub speed_rad_s: f64,
    /// Acceleration.
    pub acceleration_rad_s2: f64,
    /// Its share of time, by the trapezoid rule.
    pub share_s: f64,
}

impl Instant {
    fn differs_in_speed_only(&self, other: &Self) -> bool {
        let same = |p: f64, q: f64| p.to_bits() == q.to_bits();
        same(self.torque_n_m, other.torque_n_m)
            && same(self.start_n_m, other.start_n_m)
            && same(self.acceleration_rad_s2, other.acceleration_rad_s2)
    }
}

/// Sums over a cycle with one load from which the RMS torque of any motor follows.
#[derive(Debug, Clone, Copy, Default)]
struct Sums {
    drive_drive: f64,
    brake_brake: f64,
    drive_turn: f64,
    brake_turn: f64,
    turn_turn: f64,
}

/// What a screw asks of its motor over all cases of a demand.
#[derive(Debug)]
pub(super) struct Load<'l> {
    spindle: &'l Spindle<'l>,
    demand: &'l Demand,
    /// Greatest torque to start or to keep turning, without inertia.
    pub drive_most_n_m: f64,
    /// Greatest speed of the screw.
    pub speed_most_rad_s: f64,
    /// Torque of the held force on the screw, no friction credited.
    pub hold_n_m: f64,
    /// Greatest torque on the screw of all: driving, held, in an emergency stop.
    pub greatest_n_m: f64,
    /// RMS over the rests of that torque, with the least and the most load.
    pub rest_n_m: [f64; 2],
    rest_s: f64,
    /// The longer of the two rests.
    pub rest_longest_s: f64,
    cycle_s: f64,
    /// Instant by instant, once a motor is strong and fast enough to look.
    course: OnceCell<Course>,
    /// The telling instant that asked too much of the last motor that was not strong enough: it is looked at first.
    hardest: Cell<usize>,
}

/// What a screw asks of its motor, instant by instant.
#[derive(Debug, Default)]
struct Course {
    /// The instants at which a motor may have to drive, of the least and of the most load.
    driving: [Vec<Instant>; 2],
    /// The instants that can be the worst for a motor: of neighbours that differ in speed only, the fastest.
    telling: Vec<Instant>,
    /// Least and greatest torque of the telling instants, and their greatest acceleration either way.
    torques_n_m: [f64; 2],
    turning_rad_s2: f64,
    /// Speed of the screw squared times time, of the least and of the most load.
    speed_squares: [f64; 2],
    sums: [Sums; 2],
}

/// What turns with the screw: the ratio, the efficiency and inertia between motor and screw.
#[derive(Debug, Clone, Copy)]
pub(super) struct Line {
    /// Turns of the motor per turn of the screw.
    pub ratio: f64,
    /// Efficiency of the gearbox.
    pub efficiency: f64,
    /// All inertia at the motor shaft but that of what the screw carries, whose `m·a` is in the force.
    pub inertia_kg_m2: f64,
    /// Inertia of what the screw carries, as the motor sees it.
    pub carried_kg_m2: f64,
}

impl Line {
    /// Inertia that a motor of its own inertia sees on its shaft.
    pub(super) fn load_inertia_kg_m2(&self, motor_kg_m2: f64) -> f64 {
        self.inertia_kg_m2 - motor_kg_m2 + self.carried_kg_m2
    }
    /// Torque of the motor at an instant.
    pub(super) fn torque_n_m(&self, at: &Instant) -> f64 {
        self.without_inertia(at.torque_n_m)
            + self.inertia_kg_m2 * self.ratio * at.acceleration_rad_s2
    }
    /// A torque at the screw as the motor sees it: the gearbox loses on the way there, and helps to brake.
    pub(super) fn without_inertia(&self, screw_n_m: f64) -> f64 {
        if screw_n_m >= 0.0 {
            screw_n_m / (self.efficiency * self.ratio)
        } else {
            screw_n_m * self.efficiency / self.ratio
        }
    }
}

impl<'l> Load<'l> {
    /// Greatest torque that the motor's line bears: to start, driving, held, in an emergency stop.
    pub fn most_n_m(&self) -> f64 {
        self.drive_most_n_m.max(self.greatest_n_m)
    }
    pub(super) fn new(spindle: &'l Spindle, demand: &'l Demand, moves: &Moves) -> Self {
        let turn = TAU / spindle.lead_m;
        // Torque goes with force, along the motion and against it: the greatest is that of the greatest force.
        let ([start, start_back], [drive, drive_back]) = (moves.start_n, moves.drive_n);
        let drive_most_n_m = spindle
            .starting_n_m(start)
            .max(spindle.starting_n_m(-start_back))
            .max(spindle.turning_n_m(drive))
            .max(spindle.turning_n_m(-drive_back))
            .max(0.0);
        Self {
            spindle,
            demand,
            drive_most_n_m,
            speed_most_rad_s: moves.speed_m_s * turn,
            hold_n_m: moves.holding_n / turn,
            greatest_n_m: spindle.turning_n_m(moves.greatest_n),
            rest_n_m: moves.rest_n.map(|force| force / turn),
            rest_s: moves.cycle_s - moves.run_s,
            rest_longest_s: moves.rest_longest_s,
            cycle_s: moves.cycle_s,
            course: OnceCell::new(),
            hardest: Cell::new(0),
        }
    }

    /// Lead of the screw, m.
    pub(super) fn lead_m(&self) -> f64 {
        self.spindle.lead_m
    }
    /// Efficiency of the screw, nut and collar together, driving: in motion, and from rest.
    pub(super) fn efficiencies(&self) -> [f64; 2] {
        let ideal = self.spindle.lead_m / TAU;
        [
            ideal / self.spindle.turning_n_m(1.0),
            ideal / self.spindle.starting_n_m(1.0),
        ]
    }

    fn course(&self) -> &Course {
        self.course
            .get_or_init(|| Course::new(self.spindle, self.demand))
    }

    /// The instants that can be the worst for a motor.
    pub(super) fn telling(&self) -> &[Instant] {
        &self.course().telling
    }

    /// Whether something is past what there is at some telling instant; the one that was the last time is looked at first.
    pub(super) fn some_instant(&self, past: impl Fn(&Instant) -> bool) -> bool {
        let telling = self.telling();
        if telling.get(self.hardest.get()).is_some_and(&past) {
            return true;
        }
        let found = telling.iter().position(past);
        self.hardest.set(found.unwrap_or(self.hardest.get()));
        found.is_some()
    }

    /// Whether something is past what there is at the instant that was the hardest for the motor before.
    pub(super) fn hardest_instant(&self, past: impl Fn(&Instant) -> bool) -> bool {
        let telling = self.course.get().map(|course| &course.telling);
        telling.is_some_and(|telling| telling.get(self.hardest.get()).is_some_and(past))
    }

    /// Sum of torque squared times time over a cycle as a square of the inertia at the motor, `a + b j + c j²`, with the
    /// least and the most load, divided by the cycle.
    pub(super) fn squares_by_inertia(
        &self,
        ratio: f64,
        efficiency: f64,
        rest_n_m: [f64; 2],
    ) -> [[f64; 3]; 2] {
        let (i, n) = (ratio, efficiency);
        let of = |s: &Sums, rest_n_m: f64| {
            let level = s.drive_drive / (n * n * i * i) + s.brake_brake * n * n / (i * i);
            [
                level + rest_n_m * rest_n_m * self.rest_s,
                2.0 * (s.drive_turn / n + s.brake_turn * n),
                i * i * s.turn_turn,
            ]
            .map(|sum| sum / self.cycle_s)
        };
        let [least, most] = &self.course().sums;
        [of(least, rest_n_m[0]), of(most, rest_n_m[1])]
    }

    /// A torque past which no instant goes for a motor on a line that is no finer and no heavier than this one.
    pub(super) fn surely_enough_n_m(&self, line: &Line) -> f64 {
        let Course {
            torques_n_m: [least, most],
            turning_rad_s2,
            ..
        } = *self.course();
        let turns = line
            .without_inertia(most)
            .max(-line.without_inertia(least))
            .max(0.0);
        turns + line.inertia_kg_m2 * line.ratio * turning_rad_s2
    }

    /// RMS speed of the screw over the cycle.
    pub(super) fn speed_rms_rad_s(&self) -> f64 {
        let squares = self.course().speed_squares;
        let most = squares.into_iter().fold(0.0, f64::max);
        (most / self.cycle_s).sqrt()
    }

    /// Sum of torque squared times time of the motion, with the least and the most load, N²m²s.
    fn squares(&self, line: &Line) -> [f64; 2] {
        let (i, n, j) = (line.ratio, line.efficiency, line.inertia_kg_m2);
        let of = |s: &Sums| {
            s.drive_drive / (n * n * i * i)
                + s.brake_brake * n * n / (i * i)
                + 2.0 * j * (s.drive_turn / n + s.brake_turn * n)
                + j * j * i * i * s.turn_turn
        };
        self.course().sums.each_ref().map(of)
    }

    /// Between what the RMS torque of the motor over the cycle lies behind gearboxes between these figures.
    pub(super) fn rms_cycle_between_n_m(
        &self,
        ratio: f64,
        rest_n_m: [f64; 2],
        [lossy, fine]: [f64; 2],
        [light, heavy]: [f64; 2],
    ) -> [f64; 2] {
        let both = |p: f64, q: f64| [p.min(q), p.max(q)];
        let of = |(s, rest_n_m): (&Sums, f64)| {
            let held = rest_n_m * rest_n_m * self.rest_s;
            let drive = both(s.drive_turn / lossy, s.drive_turn / fine);
            let brake = both(s.brake_turn * lossy, s.brake_turn * fine);
            let mixed = [drive[0] + brake[0], drive[1] + brake[1]];
            let least = s.drive_drive / (fine * fine * ratio * ratio)
                + s.brake_brake * lossy * lossy / (ratio * ratio)
                + 2.0 * (mixed[0] * light).min(mixed[0] * heavy)
                + light * light * ratio * ratio * s.turn_turn;
            let most = s.drive_drive / (lossy * lossy * ratio * ratio)
                + s.brake_brake * fine * fine / (ratio * ratio)
                + 2.0 * (mixed[1] * light).max(mixed[1] * heavy)
                + heavy * heavy * ratio * ratio * s.turn_turn;
            [least + held, most + held]
        };
        let worst = self.course().sums.iter().zip(rest_n_m).map(of);
        let squares = worst.fold([0.0_f64; 2], |p, q| [p[0].max(q[0]), p[1].max(q[1])]);
        squares.map(|squares| (squares / self.cycle_s).sqrt())
    }

    /// RMS torque of the motor over the cycle, with the RMS of what it holds at rest, the worse load.
    pub(super) fn rms_cycle_n_m(&self, line: &Line, rest_n_m: [f64; 2]) -> f64 {
        let cycles = self.squares(line).into_iter().zip(rest_n_m);
        let worst = cycles.map(|(moving, rest)| moving + rest * rest * self.rest_s);
        (worst.fold(0.0, f64::max) / self.cycle_s).sqrt()
    }

    /// Time in motion in a cycle.
    pub(super) fn run_s(&self) -> f64 {
        self.cycle_s - self.rest_s
    }

    /// RMS torque of the motor while it moves.
    pub(super) fn rms_moving_n_m(&self, line: &Line) -> f64 {
        let worst = self.squares(line).into_iter().fold(0.0, f64::max);
        (worst / (self.cycle_s - self.rest_s)).sqrt()
    }

    /// What the motor takes in a cycle while it drives, its copper heated by a loss that goes with the torque squared, the
    /// worse load for each figure; braking gives nothing back.
    pub(super) fn drawn(&self, line: &Line, loss_by_torque_squared: f64) -> Drawn {
        let of = |instants: &Vec<Instant>| {
            instants.iter().fold(Drawn::default(), |drawn, at| {
                let torque = line.torque_n_m(at).max(0.0);
                let shaft_w = torque * at.speed_rad_s * line.ratio;
                let all_w = shaft_w + loss_by_torque_squared * torque * torque;
                let moving_j = drawn.moving_j + all_w * at.share_s;
                if all_w > drawn.peak_w {
                    return Drawn {
                        moving_j,
                        shaft_w,
                        peak_w: all_w,
                    };
                }
                Drawn { moving_j, ..drawn }
            })
        };
        let [least, most] = self.course().driving.each_ref().map(of);
        let hardest = if least.peak_w > most.peak_w {
            least
        } else {
            most
        };
        Drawn {
            moving_j: least.moving_j.max(most.moving_j),
            ..hardest
        }
    }
}

/// What a motor takes while it drives.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Drawn {
    /// In a cycle.
    pub moving_j: f64,
    /// Greatest power with the loss, and the part of it that is at the shaft then.
    pub peak_w: f64,
    pub shaft_w: f64,
}

impl Course {
    fn new(spindle: &Spindle, demand: &Demand) -> Self {
        let turn = TAU / spindle.lead_m;
        let mut course = Self::default();
        for case in &demand.cases {
            let which = usize::from(case.load == Loading::Most);
            course.take(spindle, case, turn, which);
        }
        course
    }

    fn take(&mut self, spindle: &Spindle, case: &Case, turn: f64, which: usize) {
        let sign = case.direction.sign();
        let profile = &case.profile;
        for (index, sample) in profile.iter().enumerate() {
            let before = index.checked_sub(1).and_then(|i| profile.get(i));
            let after = profile.get(index + 1);
            let share_s = (after.unwrap_or(sample).t_s - before.unwrap_or(sample).t_s) / 2.0;
            let at = Instant {
                torque_n_m: spindle.turning_n_m(sign * sample.force_n),
                start_n_m: spindle.starting_n_m(sign * sample.static_force_n),
                speed_rad_s: (sign * sample.v_m_s).max(0.0) * turn,
                acceleration_rad_s2: sign * sample.a_m_s2 * turn,
                share_s,
            };
            let (drive, brake) = (at.torque_n_m.max(0.0), at.torque_n_m.min(0.0));
            let turning = at.acceleration_rad_s2;
            if let Some(sums) = self.sums.get_mut(which) {
                sums.drive_drive += share_s * drive * drive;
                sums.brake_brake += share_s * brake * brake;
                sums.drive_turn += share_s * drive * turning;
                sums.brake_turn += share_s * brake * turning;
                sums.turn_turn += share_s * turning * turning;
            }
            if let Some(squares) = self.speed_squares.get_mut(which) {
                *squares += share_s * at.speed_rad_s * at.speed_rad_s;
            }
            self.tell(at);
            if let Some(driving) = self.driving.get_mut(which)
                && (at.torque_n_m > 0.0 || turning > 0.0)
            {
                driving.push(at);
            }
        }
    }

    /// Keeps an instant among the telling ones: no motor gives more torque at a higher speed.
    fn tell(&mut self, at: Instant) {
        let [least, most] = &mut self.torques_n_m;
        *least = least.min(at.torque_n_m);
        *most = most.max(at.torque_n_m);
        self.turning_rad_s2 = self.turning_rad_s2.max(at.acceleration_rad_s2.abs());
        match self.telling.last_mut() {
            Some(before) if before.differs_in_speed_only(&at) => {
                before.speed_rad_s = before.speed_rad_s.max(at.speed_rad_s);
            }
            _ => self.telling.push(at),
        }
    }
}
