//! The axis as its drive sees it: from a law of motion to forces, speeds and energies of every stroke.

use core::ops::Deref;
use std::sync::Arc;

use super::Assist;
use super::figures::{Case, Demand, Direction, Figures, Loading, Sample, Traverse};
use super::hinge::Swing;
use super::slide::Straight;
use super::sums::{emergency, integral, stroke_figures, worst};
use super::way::Way;
use crate::quantity::Si;
use crate::requirements::{Motion, PowerLoss, Slide, Stops, Task};

/// Two figures nearer than this are the same.
pub(super) const TIE: f64 = 1e-9;

/// An axis, ready to be evaluated: the timing of a [`Way`], of which it answers all that the way does.
#[derive(Debug, Clone)]
pub struct Axis {
    /// Travel of the drive, m.
    pub travel_m: f64,
    /// Least and most load, kg.
    pub loads_kg: [f64; 2],
    way: Arc<dyn Way>,
    cycle_s: f64,
    rest_out_s: f64,
    hold_only_at_ends: bool,
    stop_distance_m: Option<f64>,
    stop_deceleration: f64,
    stop_distance_default_m: f64,
}

impl Deref for Axis {
    type Target = dyn Way;

    fn deref(&self) -> &Self::Target {
        self.way.as_ref()
    }
}

impl Axis {
    /// The axis of a job; none of a hinge whose pins are not given.
    pub fn of(job: &Task) -> Option<Self> {
        Some(match &job.motion {
            Motion::Slide(slide) => Self::new(job, slide),
            Motion::Hinge(hinge) => Self::along(job, Arc::new(Swing::new(hinge)?)),
        })
    }

    /// A straight axis.
    pub fn new(job: &Task, slide: &Slide) -> Self {
        Self::along(job, Arc::new(Straight::new(slide)))
    }

    fn along(job: &Task, way: Arc<dyn Way>) -> Self {
        Self {
            travel_m: way.travel_m(),
            loads_kg: way.loads_kg(),
            way,
            cycle_s: job.timing.cycle_s(),
            rest_out_s: job.timing.rest_out.si(),
            hold_only_at_ends: job.power_loss == PowerLoss::MayMove && job.stops == Stops::Ends,
            stop_distance_m: job.base.and_then(|base| base.stop_distance).map(Si::si),
            stop_deceleration: job.rules.stop_deceleration,
            stop_distance_default_m: job.rules.stop_distance_default,
        }
    }

    /// Where the drive stands at the end of a stroke of the load.
    fn end_m(&self, direction: Direction) -> f64 {
        match self.drive(direction) {
            Direction::Out => self.travel_m,
            Direction::Back => 0.0,
        }
    }

    /// Deceleration of an emergency stop from a speed.
    pub fn stop_deceleration(&self, speed_m_s: f64) -> f64 {
        let over = |distance: f64| speed_m_s * speed_m_s / (2.0 * distance);
        match self.stop_distance_m {
            Some(distance) => over(distance),
            None => self
                .stop_deceleration
                .min(over(self.stop_distance_default_m)),
        }
    }

    /// The demand at a travel time, with an assist.
    pub fn demand(&self, job: &Task, assist: &Assist, travel_time_s: f64) -> Demand {
        let stop_m_s2 = self.stop_deceleration(self.unit_speed_m() / travel_time_s);
        let unsure_n = self.unsure_n(assist, job.rules.balance_tolerance);
        let (mut holding_push_n, mut holding_pull_n) = (unsure_n, unsure_n);
        let mut cases = Vec::with_capacity(4);
        for (load, mass_kg) in [Loading::Least, Loading::Most]
            .into_iter()
            .zip(self.loads_kg)
        {
            let (push, pull) = self.holding_range(assist, mass_kg);
            holding_push_n = holding_push_n.max(push);
            holding_pull_n = holding_pull_n.max(pull);
            let out = Traverse {
                assist,
                mass_kg,
                direction: Direction::Out,
                time_s: travel_time_s,
                stop_m_s2,
            };
            cases.extend(self.load_cases(load, &out, push.max(pull)));
        }
        let mut demand = Demand {
            travel_time_s,
            worst: worst(&cases),
            emergency_stop: emergency(stop_m_s2, &cases),
            cases,
            holding_push_n,
            holding_pull_n,
            hinge: None,
            stability: None,
            rails: None,
        };
        self.add_its_own(&mut demand, assist);
        let least = job.rules.stability_least;
        demand.stability = job
            .base
            .map(|base| self.stability(&base, assist, &demand, least));
        demand
    }

    /// The cases of one load: out, and back as quickly.
    fn load_cases(&self, load: Loading, out: &Traverse, holding_n: f64) -> [Case; 2] {
        let Traverse {
            assist,
            mass_kg: load_kg,
            time_s,
            ..
        } = *out;
        let strokes = [Direction::Out, Direction::Back]
            .map(|direction| (direction, self.stroke(&Traverse { direction, ..*out })));
        let profiles = strokes
            .each_ref()
            .map(|(_, (profile, _))| profile.as_slice());
        let cycle = Figures {
            holding_n,
            peak_speed_m_s: self.unit_speed_m() / time_s,
            peak_acceleration_m_s2: self.unit_acceleration_m() / (time_s * time_s),
            kinetic_energy_j: self.kinetic_j(assist, load_kg, time_s),
            binding_ratio: self.binding_ratio(),
            ..self.cycle(profiles, time_s, self.rest_squares(assist, load_kg, time_s))
        };
        strokes.map(|(direction, (profile, swing))| {
            let most = |force: fn(&Sample) -> f64| profile.iter().map(force).fold(0.0, f64::max);
            Case {
                load,
                direction,
                drive: self.drive(direction),
                load_kg,
                figures: stroke_figures(&profile, cycle),
                static_push_n: most(|s| s.static_force_n),
                static_pull_n: most(|s| -s.static_force_n),
                profile,
                swing,
            }
        })
    }

    /// Greatest force on the drive at rest or in motion, either load, either way: what a drive is sized on.
    pub fn thrust_n(&self, assist: &Assist, time_s: f64) -> f64 {
        let mut most = 0.0_f64;
        for mass_kg in self.loads_kg {
            for direction in [Direction::Out, Direction::Back] {
                let stroke = Traverse {
                    assist,
                    mass_kg,
                    direction,
                    time_s,
                    stop_m_s2: 0.0,
                };
                most = most.max(self.stroke_thrust_n(&stroke));
            }
        }
        most
    }

    /// Greatest push and pull that hold a load, over where it may come to rest.
    fn holding_range(&self, assist: &Assist, mass_kg: f64) -> (f64, f64) {
        let ends = [0.0, self.travel_m];
        let mut places = ends.to_vec();
        if !self.hold_only_at_ends {
            places.extend(self.holding_places_m());
        }
        // Both sides of a jump count, at the ends too: there the load stands on the point itself.
        let forces = places.iter().flat_map(|x| [(*x, false), (*x, true)]);
        forces.fold((0.0_f64, 0.0_f64), |(push, pull), (x, upper)| {
            let force = self.holding_n(assist, mass_kg, x, upper);
            (push.max(force), pull.max(-force))
        })
    }

    /// Holding force squared times time of one load: `rest_out` at the out end, the rest of the cycle at the back end.
    fn rest_squares(&self, assist: &Assist, mass_kg: f64, time_s: f64) -> f64 {
        let rest_s = self.rest_s(time_s);
        let out_s = self.rest_out_s.min(rest_s);
        let greater = |x_m: f64| {
            let side = |upper| self.holding_n(assist, mass_kg, x_m, upper).abs();
            side(false).max(side(true))
        };
        let (out_n, back_n) = (
            greater(self.end_m(Direction::Out)),
            greater(self.end_m(Direction::Back)),
        );
        out_n * out_n * out_s + back_n * back_n * (rest_s - out_s)
    }

    /// What two strokes leave of the cycle.
    fn rest_s(&self, time_s: f64) -> f64 {
        (self.cycle_s - 2.0 * time_s).max(0.0)
    }

    /// Work and RMS of one load over a cycle: out, back and the rests.
    fn cycle(&self, profiles: [&[Sample]; 2], time_s: f64, rest_squares: f64) -> Figures {
        let sum = |f: fn(&Sample) -> f64| {
            profiles
                .iter()
                .map(|profile| integral(profile, f))
                .sum::<f64>()
        };
        let squares = sum(|s| s.force_n * s.force_n);
        let rest_s = self.rest_s(time_s);
        let cycle_s = rest_s + 2.0 * time_s;
        Figures {
            rms_rest_n: if rest_s > 0.0 {
                (rest_squares / rest_s).sqrt()
            } else {
                0.0
            },
            rms_cycle_n: ((squares + rest_squares) / cycle_s).sqrt(),
            rms_cycle_no_hold_n: (squares / cycle_s).sqrt(),
            work_in_j: sum(|s| (s.force_n * s.v_m_s).max(0.0)),
            work_out_j: sum(|s| (-s.force_n * s.v_m_s).max(0.0)),
            ..Figures::default()
        }
    }
}
