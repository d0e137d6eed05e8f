//! The axis as its drive sees it: from a law of motion to forces, speeds and energies of every stroke.

use super::figures::{Case, Demand, Direction, Emergency, Figures, Loading, Sample, Stroke, Turn};
use super::hinge::Swing;
use super::process::Curve;
use super::slide::Straight;
use super::sums::{emergency, integral, stroke_figures, worst};
use super::{Assist, guide, stability};
use crate::quantity::Si;
use crate::requirements::{Hinge, Law, Motion, PowerLoss, Slide, Stops, Task};

/// Two figures nearer than this are the same.
pub(super) const TIE: f64 = 1e-9;

/// An axis, ready to be evaluated.
#[derive(Debug, Clone)]
pub struct Axis {
    /// Travel of the drive, m.
    pub travel_m: f64,
    /// Least and most load, kg.
    pub loads_kg: [f64; 2],
    pub(super) path: Path,
    law: Law,
    cycle_s: f64,
    rest_out_s: f64,
    hold_only_at_ends: bool,
    stop_distance_m: Option<f64>,
    stop_deceleration: f64,
    stop_distance_default_m: f64,
}

/// How the load goes.
#[derive(Debug, Clone)]
pub(super) enum Path {
    /// Along a straight line, as its drive.
    Straight(Straight),
    /// About a hinge, its drive between two pins.
    Swing(Swing),
}

impl Axis {
    fn on(job: &Task, path: Path, travel_m: f64, loads_kg: [f64; 2], law: Law) -> Self {
        Self {
            travel_m,
            loads_kg,
            path,
            law,
            cycle_s: job.timing.cycle_s(),
            rest_out_s: job.timing.rest_out.si(),
            hold_only_at_ends: job.power_loss == PowerLoss::MayMove && job.stops == Stops::Ends,
            stop_distance_m: job.base.and_then(|base| base.stop_distance).map(Si::si),
            stop_deceleration: job.rules.stop_deceleration,
            stop_distance_default_m: job.rules.stop_distance_default,
        }
    }

    /// A straight axis.
    #[must_use]
    pub fn new(job: &Task, slide: &Slide) -> Self {
        let loads_kg = [slide.load.least.si(), slide.load.most.si()];
        let path = Path::Straight(Straight::new(slide));
        Self::on(job, path, slide.travel.si(), loads_kg, slide.law)
    }

    /// A hinged axis with a drive between two pins; none where the pins are not given.
    #[must_use]
    pub fn hinged(job: &Task, hinge: &Hinge) -> Option<Self> {
        let swing = Swing::new(hinge)?;
        let loads_kg = [hinge.load.least.si(), hinge.load.most.si()];
        let travel_m = swing.stroke_m();
        Some(Self::on(
            job,
            Path::Swing(swing),
            travel_m,
            loads_kg,
            hinge.law,
        ))
    }

    /// The axis of a job; none of a hinge whose pins are not given.
    #[must_use]
    pub fn of(job: &Task) -> Option<Self> {
        match &job.motion {
            Motion::Slide(slide) => Some(Self::new(job, slide)),
            Motion::Hinge(hinge) => Self::hinged(job, hinge),
        }
    }

    /// Distance between the drive's pins at its shortest and longest, where it stands between two.
    #[must_use]
    pub fn pins_m(&self) -> Option<[f64; 2]> {
        match &self.path {
            Path::Straight(_) => None,
            Path::Swing(swing) => Some(swing.lengths_m()),
        }
    }

    /// Radius at which a tail weight may sit on a hinged arm.
    #[must_use]
    pub fn tail_radius_m(&self) -> Option<f64> {
        match &self.path {
            Path::Straight(_) => None,
            Path::Swing(swing) => swing.tail_radius_m(),
        }
    }

    /// Mass times radius of the most load about a hinge.
    #[must_use]
    pub fn balance_kg_m(&self) -> f64 {
        match &self.path {
            Path::Straight(_) => 0.0,
            Path::Swing(swing) => self.loads_kg[1] * swing.radius_m(),
        }
    }

    /// Whether going out lifts the load straight, so that a counterweight over sheaves may help.
    #[must_use]
    pub fn lifts(&self) -> bool {
        matches!(&self.path, Path::Straight(straight) if straight.sin > 0.0)
    }

    /// Part of its weight that a drive lying along its way has square to it, the most over the way.
    #[must_use]
    pub fn across(&self) -> f64 {
        match &self.path {
            Path::Straight(straight) => straight.cos,
            Path::Swing(_) => 1.0,
        }
    }

    /// Whether the force at rest is the same all along.
    #[must_use]
    pub fn is_uniform(&self) -> bool {
        matches!(&self.path, Path::Straight(straight) if straight.uniform())
    }

    /// Way of the load for a way of the drive, least and most.
    #[must_use]
    pub fn ways(&self) -> [f64; 2] {
        match &self.path {
            Path::Straight(_) => [1.0; 2],
            Path::Swing(swing) => swing.ways(),
        }
    }

    /// How near the guide is to binding: `2 μ d/b` (two-point couple).
    #[must_use]
    pub fn binding_ratio(&self) -> f64 {
        match &self.path {
            Path::Straight(straight) => straight.binding_ratio(),
            Path::Swing(_) => 0.0,
        }
    }

    /// Force of the drive along its way at a place, moving or about to move in a direction of the drive.
    #[must_use]
    pub fn force_n(
        &self,
        assist: &Assist,
        mass_kg: f64,
        x_m: f64,
        a_m_s2: f64,
        drive: Direction,
        upper: bool,
    ) -> f64 {
        match &self.path {
            Path::Straight(line) => line.force_n(assist, mass_kg, x_m, a_m_s2, drive, upper),
            Path::Swing(swing) => swing.force_n(assist, mass_kg, x_m, a_m_s2, drive, upper),
        }
    }

    /// Force to hold the load at rest at a place, friction not relied on; positive pushes outward.
    #[must_use]
    pub fn holding_n(&self, assist: &Assist, mass_kg: f64, x_m: f64, upper: bool) -> f64 {
        match &self.path {
            Path::Straight(straight) => {
                straight.weight_n(assist, mass_kg) + straight.process.at(Curve::Hold, x_m, upper)
            }
            Path::Swing(swing) => swing.holding_n(assist, mass_kg, x_m, upper),
        }
    }

    /// What gravity asks of the drive at a place; positive pushes outward.
    #[must_use]
    pub fn weight_n(&self, assist: &Assist, mass_kg: f64, x_m: f64) -> f64 {
        match &self.path {
            Path::Straight(straight) => straight.weight_n(assist, mass_kg),
            Path::Swing(swing) => swing.weight_n(assist, mass_kg, x_m),
        }
    }

    /// The same, least and most over the way.
    #[must_use]
    pub fn weights_n(&self, assist: &Assist, mass_kg: f64) -> [f64; 2] {
        match &self.path {
            Path::Straight(straight) => [straight.weight_n(assist, mass_kg); 2],
            Path::Swing(swing) => swing.weights_n(assist, mass_kg),
        }
    }

    /// Mass at the drive with the inertia of all that moves, at a place, and half its growth along the way, kg/m.
    #[must_use]
    pub fn moving_at(&self, assist: &Assist, mass_kg: f64, x_m: f64) -> (f64, f64) {
        match &self.path {
            Path::Straight(_) => (mass_kg + assist.moving_mass_kg(), 0.0),
            Path::Swing(swing) => swing.moving_at(assist, mass_kg, x_m),
        }
    }

    /// Least and most of that mass over the way.
    #[must_use]
    pub fn moving_kg(&self, assist: &Assist, mass_kg: f64) -> [f64; 2] {
        match &self.path {
            Path::Straight(_) => [mass_kg + assist.moving_mass_kg(); 2],
            Path::Swing(swing) => swing.moving_kg(assist, mass_kg),
        }
    }

    /// Force that the process pushes back with at rest, N, the greater at a jump.
    #[must_use]
    pub fn process_hold_n(&self, x_m: f64) -> f64 {
        match &self.path {
            Path::Straight(straight) => {
                let at = |upper| straight.process.at(Curve::Hold, x_m, upper).abs();
                at(true).max(at(false))
            }
            Path::Swing(swing) => swing.process_hold_n(x_m),
        }
    }

    /// Greatest speed of the drive, times the travel time.
    #[must_use]
    pub fn unit_speed_m(&self) -> f64 {
        match &self.path {
            Path::Straight(_) => self.law.cv() * self.travel_m,
            Path::Swing(swing) => swing.unit_speed_m(),
        }
    }

    fn peak_acceleration(&self, time_s: f64) -> f64 {
        match &self.path {
            Path::Straight(_) => self.law.ca() * self.travel_m / (time_s * time_s),
            Path::Swing(swing) => swing.unit_acceleration_m() / (time_s * time_s),
        }
    }

    fn kinetic_j(&self, assist: &Assist, mass_kg: f64, time_s: f64) -> f64 {
        match &self.path {
            Path::Straight(_) => {
                let speed = self.unit_speed_m() / time_s;
                0.5 * (mass_kg + assist.moving_mass_kg()) * speed * speed
            }
            Path::Swing(swing) => swing.kinetic_j(assist, mass_kg, self.law.cv(), time_s),
        }
    }

    /// Holding force that no assist can be trusted to take away.
    fn unsure_n(&self, assist: &Assist, tolerance: f64) -> f64 {
        match &self.path {
            Path::Straight(_) => tolerance * assist.pull_n(),
            Path::Swing(swing) => swing.unsure_n(assist, tolerance),
        }
    }

    /// The drive's direction in a stroke of the load.
    fn drive(&self, direction: Direction) -> Direction {
        match &self.path {
            Path::Straight(_) => direction,
            Path::Swing(swing) => swing.other(direction),
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
    #[must_use]
    pub fn stop_deceleration(&self, speed_m_s: f64) -> f64 {
        let over = |distance: f64| speed_m_s * speed_m_s / (2.0 * distance);
        match self.stop_distance_m {
            Some(distance) => over(distance),
            None => self
                .stop_deceleration
                .min(over(self.stop_distance_default_m)),
        }
    }

    /// The motion law.
    #[must_use]
    pub fn law(&self) -> Law {
        self.law
    }

    /// The demand at a travel time, with an assist.
    #[must_use]
    pub fn demand(&self, job: &Task, assist: &Assist, travel_time_s: f64) -> Demand {
        let speed = self.unit_speed_m() / travel_time_s;
        let mut demand = Demand {
            travel_time_s,
            worst: Figures::default(),
            cases: Vec::with_capacity(4),
            holding_push_n: 0.0,
            holding_pull_n: 0.0,
            emergency_stop: Emergency {
                deceleration_m_s2: self.stop_deceleration(speed),
                ..Emergency::default()
            },
            hinge: None,
            stability: None,
            rails: None,
        };
        for (loading, mass_kg) in [Loading::Least, Loading::Most]
            .into_iter()
            .zip(self.loads_kg)
        {
            let (push, pull) = self.holding_range(assist, mass_kg);
            let unsure_n = self.unsure_n(assist, job.rules.balance_tolerance);
            demand.holding_push_n = demand.holding_push_n.max(push).max(unsure_n);
            demand.holding_pull_n = demand.holding_pull_n.max(pull).max(unsure_n);
            let stroke = |direction| {
                self.stroke(&Stroke {
                    assist,
                    mass_kg,
                    direction,
                    time_s: travel_time_s,
                    stop_m_s2: demand.emergency_stop.deceleration_m_s2,
                })
            };
            let strokes = [stroke(Direction::Out), stroke(Direction::Back)];
            let mut cycle = self.cycle(
                strokes.each_ref().map(|(profile, _)| profile.as_slice()),
                travel_time_s,
                self.rest_squares(assist, mass_kg, travel_time_s),
            );
            cycle.holding_n = push.max(pull);
            for (direction, (profile, swing)) in
                [Direction::Out, Direction::Back].into_iter().zip(strokes)
            {
                let mut figures = stroke_figures(&profile, cycle);
                figures.peak_speed_m_s = speed;
                figures.peak_acceleration_m_s2 = self.peak_acceleration(travel_time_s);
                figures.kinetic_energy_j = self.kinetic_j(assist, mass_kg, travel_time_s);
                figures.binding_ratio = self.binding_ratio();
                demand.cases.push(Case {
                    load: loading,
                    direction,
                    drive: self.drive(direction),
                    load_kg: mass_kg,
                    figures,
                    static_push_n: profile.iter().map(|s| s.static_force_n).fold(0.0, f64::max),
                    static_pull_n: profile
                        .iter()
                        .map(|s| -s.static_force_n)
                        .fold(0.0, f64::max),
                    profile,
                    swing,
                });
            }
        }
        demand.emergency_stop = emergency(demand.emergency_stop.deceleration_m_s2, &demand.cases);
        demand.worst = worst(&demand.cases);
        match &self.path {
            Path::Straight(straight) => {
                demand.rails = straight.rails_wanted.then(|| {
                    guide::of(
                        straight,
                        &demand.cases,
                        demand.emergency_stop.deceleration_m_s2,
                    )
                });
            }
            Path::Swing(swing) => {
                let [least, most] = self.loads_kg;
                let form = (self.law.cv(), self.law.ca(), travel_time_s);
                demand.hinge = Some(swing.demand(assist, most, &demand.cases, form, least));
            }
        }
        let least = job.rules.stability_least;
        let of = |base| stability::of(self, &base, assist, &demand, least);
        demand.stability = job.base.map(of);
        demand
    }

    /// Greatest force on the drive at rest or in motion, either load, either way: what a drive is sized on.
    #[must_use]
    pub fn thrust_n(&self, assist: &Assist, travel_time_s: f64) -> f64 {
        let mut most = 0.0_f64;
        for mass_kg in self.loads_kg {
            for direction in [Direction::Out, Direction::Back] {
                most = most.max(self.stroke_thrust_n(&Stroke {
                    assist,
                    mass_kg,
                    direction,
                    time_s: travel_time_s,
                    stop_m_s2: 0.0,
                }));
            }
        }
        most
    }

    fn stroke_thrust_n(&self, stroke: &Stroke) -> f64 {
        match &self.path {
            Path::Straight(straight) => {
                let force = |sample: &Sample| sample.force_n.abs().max(sample.static_force_n.abs());
                straight
                    .stroke(stroke)
                    .iter()
                    .map(force)
                    .fold(0.0, f64::max)
            }
            Path::Swing(swing) => swing.thrust_n(stroke),
        }
    }

    fn stroke(&self, stroke: &Stroke) -> (Vec<Sample>, Vec<Turn>) {
        match &self.path {
            Path::Straight(straight) => (straight.stroke(stroke), Vec::new()),
            Path::Swing(swing) => swing.stroke(stroke),
        }
    }

    /// Greatest push and pull that hold a load, over where it may come to rest.
    fn holding_range(&self, assist: &Assist, mass_kg: f64) -> (f64, f64) {
        let ends = [0.0, self.travel_m];
        let mut places = ends.to_vec();
        if !self.hold_only_at_ends {
            match &self.path {
                Path::Straight(line) => places.extend(line.process.breakpoints(self.travel_m)),
                Path::Swing(swing) => places.extend(swing.places_m()),
            }
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
