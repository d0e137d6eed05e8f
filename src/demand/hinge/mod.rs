//! The demand of a hinged arm: torque over the swing, and what it asks of a drive between two pins.

mod seen;
mod stroke;

use core::f64::consts::TAU;

use self::stroke::Pose;
use super::axis::TIE;
use super::figures::{Case, Demand, Direction, Sample, Traverse, Turn};
use super::instants::instants;
use super::process::{Curve, Process};
use super::stability::{Body, Edge, Phase};
use super::way::{Extent, Way};
use super::{ArmLoad, Assist, TailWeight};
use crate::mechanics::linkage::{Lever, Pins};
use crate::quantity::{G_M_S2, Si};
use crate::requirements::{Base, Hinge};

/// Steps of the swing at which levers and holding are looked at.
const STEPS: u32 = 240;

/// How stability is computed of a hinge whose axis is level.
const SWINGS_UP: &str = "(restoring - overturning)/restoring about the worst edge of the base, least over every instant, either load, at rest, in the move \
and in an emergency stop; moments: weight of the machine; of the load, at x = load_reach + r cos(phi + psi), z = load_height + r sin(phi + psi), \
its weight, its level inertia force m ax at the height z, its upright one m az, and the couple Ic phi'' against the turning; the same of a tail weight at radius -rt, angle phi; \
ax = -r(phi'' sin + phi'^2 cos), az = r(phi'' cos - phi'^2 sin); at rest phi' = phi'' = 0; in the stop phi' of the instant and phi'' = -sgn a/|lever|, \
a = v^2/(2 stop_distance), without one the lesser of rules.stop_deceleration and v^2/(2 rules.stop_distance_default), v the drive's speed";
/// How stability is computed of a hinge whose axis is upright.
const SWINGS_AROUND: &str = "(restoring - overturning)/restoring about the worst of the four edges of the base, least over every instant, either load, at rest, in the move \
and in an emergency stop; moments: weight of the machine; of the load, at x = load_reach + r cos(phi + psi), y = r sin(phi + psi) from the middle of the width, height load_height, \
its weight and its level inertia forces m ax about the edges out and back, m ay about those left (y > 0) and right; \
ax = -r(phi'' sin + phi'^2 cos), ay = r(phi'' cos - phi'^2 sin); at rest phi' = phi'' = 0; in the stop phi' of the instant and phi'' = -sgn a/|lever|, \
a = v^2/(2 stop_distance), without one the lesser of rules.stop_deceleration and v^2/(2 rules.stop_distance_default), v the drive's speed";

/// An arm on a hinge, with a drive from a pin on the base to a pin on the arm; the hinge is the origin, x level, y up.
#[derive(Debug, Clone)]
pub(in crate::demand) struct Swing {
    extent: Extent,
    from_rad: f64,
    range_rad: f64,
    level: bool,
    radius_m: f64,
    angle_rad: f64,
    /// Inertia of the most load about its centre of mass, over its mass.
    inertia_per_kg: f64,
    friction_n_m: f64,
    /// Torque over the angle from the back end.
    process: Process,
    pins: Pins,
    /// The angles at which they stand.
    pins_rad: [f64; 2],
    /// Whether the drive lengthens as the arm goes out.
    extends: bool,
    length_m: [f64; 2],
    lever_m: [f64; 2],
    tail_radius_m: Option<f64>,
    /// Instants of the arm's stroke out and of the one back, with where it stands.
    poses: [Vec<Pose>; 2],
}

impl Swing {
    /// From the requirements; none where the pins are not given.
    pub(in crate::demand) fn new(hinge: &Hinge) -> Option<Self> {
        let [base, arm] = hinge.anchors?;
        let from_rad = hinge.from.si();
        let swing_rad = hinge.to.si() - from_rad;
        let process = Process::new(hinge, from_rad);
        let pins = Pins {
            base: base.map(Si::si),
            arm: arm.map(Si::si),
        };
        let stroke = |direction| instants(hinge.law, &process, swing_rad, direction);
        let [out, back] = [stroke(Direction::Out), stroke(Direction::Back)];
        let mut swing = Self {
            extent: Extent {
                loads_kg: [hinge.load.least.si(), hinge.load.most.si()],
                law: hinge.law,
                travel_m: 0.0,
                unit_speed_m: 0.0,
                unit_acceleration_m: 0.0,
            },
            from_rad,
            range_rad: swing_rad,
            level: hinge.axis_level,
            radius_m: hinge.radius.si(),
            angle_rad: hinge.angle.si(),
            inertia_per_kg: hinge.inertia.si() / hinge.load.most.si(),
            friction_n_m: hinge.pivot_friction.si(),
            process,
            pins,
            pins_rad: pins.angles_rad(),
            extends: true,
            length_m: [0.0; 2],
            lever_m: [0.0; 2],
            tail_radius_m: hinge.tail_radius.map(Si::si),
            poses: Default::default(),
        };
        swing.poses = [
            swing.poses(&out, Direction::Out),
            swing.poses(&back, Direction::Back),
        ];
        swing.measure();
        Some(swing)
    }

    /// What follows from the pins over the whole swing.
    fn measure(&mut self) {
        self.extends = self.lever(self.from_rad).lever_m > 0.0;
        let ends = [0.0, self.range_rad].map(|turned| self.lever(self.from_rad + turned).length_m);
        // The lever does not change sign, so the ends are the extremes.
        self.length_m = [ends[0].min(ends[1]), ends[0].max(ends[1])];
        self.extent.travel_m = self.length_m[1] - self.length_m[0];
        let levers = || self.angles().map(|at| self.lever(at).lever_m.abs());
        self.lever_m = [
            levers().fold(f64::INFINITY, f64::min),
            levers().fold(0.0, f64::max),
        ];
        for direction in [Direction::Out, Direction::Back] {
            for pose in &self.poses[usize::from(direction == Direction::Back)] {
                let (speed, acceleration) = self.drive_motion(pose, direction, 1.0);
                let extent = &mut self.extent;
                extent.unit_speed_m = extent.unit_speed_m.max(speed.abs());
                extent.unit_acceleration_m = extent.unit_acceleration_m.max(acceleration.abs());
            }
        }
    }

    /// Arm angles over the swing.
    fn angles(&self) -> impl Iterator<Item = f64> + '_ {
        (0..=STEPS).map(|step| self.from_rad + self.range_rad * f64::from(step) / f64::from(STEPS))
    }

    fn lever(&self, angle_rad: f64) -> Lever {
        self.pins.at(angle_rad)
    }

    /// The arm angle at a stroke of the drive.
    fn angle_at(&self, x_m: f64) -> f64 {
        let length_m = self.length_m[0] + x_m;
        let angle = self
            .pins
            .angle_between(self.pins_rad, length_m, self.extends);
        let turned = (angle - self.from_rad).rem_euclid(TAU);
        // What rounding leaves below the back end is the back end.
        let turned = if turned > self.range_rad + 0.5 * (TAU - self.range_rad) {
            0.0
        } else {
            turned.min(self.range_rad)
        };
        self.from_rad + turned
    }

    /// Inertia about the hinge with a load and an assist.
    fn inertia_kg_m2(&self, assist: &Assist, mass_kg: f64) -> f64 {
        let tail = assist
            .tail()
            .map_or(0.0, |t| t.mass_kg * t.radius_m * t.radius_m);
        mass_kg * (self.inertia_per_kg + self.radius_m * self.radius_m) + tail
    }

    /// Torque that gravity asks of the drive, outward.
    fn gravity_n_m(&self, assist: &Assist, mass_kg: f64, angle_rad: f64) -> f64 {
        let cosines = [angle_rad + self.angle_rad, angle_rad].map(libm::cos);
        self.gravity_by_cosines(assist, mass_kg, cosines)
    }

    /// The same by the cosines of the angles of the load's centre of mass and of the arm.
    fn gravity_by_cosines(&self, assist: &Assist, mass_kg: f64, [load, arm]: [f64; 2]) -> f64 {
        if !self.level {
            return 0.0;
        }
        let load = mass_kg * self.radius_m * load;
        let tail = assist.tail().map_or(0.0, |t| t.mass_kg * t.radius_m);
        G_M_S2 * (load - tail * arm)
    }

    /// Torque of friction and process against a stroke of the arm.
    fn against_n_m(&self, angle_rad: f64, direction: Direction, upper: bool) -> f64 {
        let curve = Curve::against(direction);
        self.friction_n_m + self.process.at(curve, angle_rad - self.from_rad, upper)
    }

    /// Force of the drive where the arm stands, accelerating from rest in a direction of the drive, on a side of a jump.
    fn force_at(
        &self,
        assist: &Assist,
        mass_kg: f64,
        (angle, lever): (f64, Lever),
        a_m_s2: f64,
        (drive, upper): (Direction, bool),
    ) -> f64 {
        let (direction, lever) = (self.drive(drive), lever.lever_m);
        let torque = self.gravity_n_m(assist, mass_kg, angle)
            + self.inertia_kg_m2(assist, mass_kg) * a_m_s2 / lever
            + direction.sign() * self.against_n_m(angle, direction, upper == self.extends);
        torque / lever
    }

    /// Mass at the drive where it has a lever, and half its growth along the way.
    fn mass_at(&self, assist: &Assist, mass_kg: f64, lever: Lever) -> (f64, f64) {
        let inertia = self.inertia_kg_m2(assist, mass_kg);
        let squared = lever.lever_m * lever.lever_m;
        (
            inertia / squared,
            -inertia * lever.slope_m / (squared * squared),
        )
    }

    fn holding_n_m(&self, assist: &Assist, mass_kg: f64, angle_rad: f64, upper: bool) -> f64 {
        let turned = angle_rad - self.from_rad;
        self.gravity_n_m(assist, mass_kg, angle_rad) + self.process.at(Curve::Hold, turned, upper)
    }

    /// Peak speed and acceleration of the arm.
    fn peaks_rad(&self, time_s: f64) -> (f64, f64) {
        (
            self.extent.law.cv() * self.range_rad / time_s,
            self.extent.law.ca() * self.range_rad / (time_s * time_s),
        )
    }

    /// Weight and inertia that a kilogram at the load's centre of mass feels, square to the hinge or along it.
    fn felt_m_s2(&self, angle: f64, speed: f64, acceleration: f64) -> f64 {
        let (sin, cos) = (
            libm::sin(angle + self.angle_rad),
            libm::cos(angle + self.angle_rad),
        );
        let (along, inward) = (self.radius_m * acceleration, self.radius_m * speed * speed);
        let (x, y) = (-along * sin - inward * cos, along * cos - inward * sin);
        if self.level {
            (x * x + (y + G_M_S2) * (y + G_M_S2)).sqrt()
        } else {
            (x * x + y * y + G_M_S2 * G_M_S2).sqrt()
        }
    }

    /// A mass that turns with the arm, its radius at an angle; the pivot stands at the load's reach and height.
    fn body(
        &self,
        base: &Base,
        (mass_kg, radius_m): (f64, f64),
        at: f64,
        (speed, acceleration): (f64, f64),
    ) -> Body {
        let (sin, cos) = (libm::sin(at), libm::cos(at));
        let along = -acceleration * sin - speed * speed * cos;
        let aside = acceleration * cos - speed * speed * sin;
        let body = Body {
            mass_kg,
            x_m: base.load_reach.si() + radius_m * cos,
            z_m: base.load_height.si(),
            ax_m_s2: radius_m * along,
            ..Body::default()
        };
        if self.level {
            Body {
                z_m: body.z_m + radius_m * sin,
                az_m_s2: radius_m * aside,
                ..body
            }
        } else {
            Body {
                y_m: radius_m * sin,
                ay_m_s2: radius_m * aside,
                ..body
            }
        }
    }
}

impl Way for Swing {
    fn extent(&self) -> &Extent {
        &self.extent
    }

    fn force_n(
        &self,
        assist: &Assist,
        mass_kg: f64,
        x_m: f64,
        a_m_s2: f64,
        drive: Direction,
        upper: bool,
    ) -> f64 {
        let angle = self.angle_at(x_m);
        let at = (angle, self.lever(angle));
        self.force_at(assist, mass_kg, at, a_m_s2, (drive, upper))
    }
    fn holding_n(&self, assist: &Assist, mass_kg: f64, x_m: f64, upper: bool) -> f64 {
        let angle = self.angle_at(x_m);
        let torque = self.holding_n_m(assist, mass_kg, angle, upper == self.extends);
        torque / self.lever(angle).lever_m
    }
    fn holding_places_m(&self) -> Vec<f64> {
        let breaks = self.process.breakpoints(self.range_rad);
        let breaks: Vec<f64> = breaks.map(|turned| self.from_rad + turned).collect();
        let angles = self.angles().chain(breaks);
        angles
            .map(|angle| self.lever(angle).length_m - self.length_m[0])
            .collect()
    }
    fn process_hold_n(&self, x_m: f64) -> f64 {
        let angle = self.angle_at(x_m);
        self.process.greatest_hold(angle - self.from_rad) / self.lever(angle).lever_m.abs()
    }
    fn process_push_n(&self) -> f64 {
        self.process.greatest_push(self.range_rad) / self.radius_m
    }
    fn weight_n(&self, assist: &Assist, mass_kg: f64, x_m: f64) -> f64 {
        let angle = self.angle_at(x_m);
        self.gravity_n_m(assist, mass_kg, angle) / self.lever(angle).lever_m
    }
    fn weights_n(&self, assist: &Assist, mass_kg: f64) -> [f64; 2] {
        let weight = |at| self.gravity_n_m(assist, mass_kg, at) / self.lever(at).lever_m;
        let range = [f64::INFINITY, f64::NEG_INFINITY];
        self.angles()
            .map(weight)
            .fold(range, |[least, most], weight| {
                [least.min(weight), most.max(weight)]
            })
    }
    fn unsure_n(&self, assist: &Assist, tolerance: f64) -> f64 {
        assist.tail().map_or(0.0, |t| {
            tolerance * t.mass_kg * G_M_S2 * t.radius_m / self.lever_m[0]
        })
    }

    fn moving_at(&self, assist: &Assist, mass_kg: f64, x_m: f64) -> (f64, f64) {
        self.mass_at(assist, mass_kg, self.lever(self.angle_at(x_m)))
    }
    fn force_and_mass(
        &self,
        assist: &Assist,
        mass_kg: f64,
        x_m: f64,
        drive: Direction,
        upper: bool,
    ) -> (f64, (f64, f64)) {
        let angle = self.angle_at(x_m);
        let lever = self.lever(angle);
        let force_n = self.force_at(assist, mass_kg, (angle, lever), 0.0, (drive, upper));
        (force_n, self.mass_at(assist, mass_kg, lever))
    }
    fn moving_kg(&self, assist: &Assist, mass_kg: f64) -> [f64; 2] {
        let inertia = self.inertia_kg_m2(assist, mass_kg);
        [self.lever_m[1], self.lever_m[0]].map(|lever| inertia / (lever * lever))
    }
    fn kinetic_j(&self, assist: &Assist, mass_kg: f64, time_s: f64) -> f64 {
        let (speed, _) = self.peaks_rad(time_s);
        0.5 * self.inertia_kg_m2(assist, mass_kg) * speed * speed
    }

    fn stroke(&self, stroke: &Traverse) -> (Vec<Sample>, Vec<Turn>) {
        let poses = &self.poses[usize::from(stroke.direction == Direction::Back)];
        poses.iter().map(|pose| self.instant(stroke, pose)).unzip()
    }
    fn stroke_thrust_n(&self, stroke: &Traverse) -> f64 {
        let (assist, mass_kg, direction) = (stroke.assist, stroke.mass_kg, stroke.direction);
        let inertia = self.inertia_kg_m2(assist, mass_kg);
        let force = |pose: &Pose| {
            let (_, acceleration) = self.arm_motion(pose.instant.unit, direction, stroke.time_s);
            let still = self.still_n_m(assist, mass_kg, pose, direction);
            let torque = still + inertia * acceleration;
            let forces = [torque, still].map(|torque| (torque / pose.lever.lever_m).abs());
            forces[0].max(forces[1])
        };
        let poses = &self.poses[usize::from(direction == Direction::Back)];
        poses.iter().map(force).fold(0.0, f64::max)
    }
    fn add_its_own(&self, demand: &mut Demand, assist: &Assist) {
        demand.hinge = Some(self.hinge_demand(assist, &demand.cases, demand.travel_time_s));
    }
    fn arm_load_squared(&self, demand: &Demand) -> ArmLoad {
        let mut found = ArmLoad::default();
        for case in &demand.cases {
            for (turn, sample) in case.swing.iter().zip(&case.profile) {
                let moving =
                    self.felt_m_s2(turn.angle_rad, turn.speed_rad_s, turn.acceleration_rad_s2);
                let still = self.felt_m_s2(turn.angle_rad, 0.0, 0.0);
                for felt in [moving, still] {
                    let force = felt * felt * case.load_kg * case.load_kg;
                    found.felt_m_s2 = found.felt_m_s2.max(felt * felt);
                    if force > found.force_n * (1.0 + TIE) {
                        (found.force_n, found.position_m) = (force, sample.x_m);
                    }
                }
            }
        }
        found
    }

    fn bodies(
        &self,
        base: &Base,
        assist: &Assist,
        case: &Case,
        index: usize,
        phase: Phase,
    ) -> [Body; 2] {
        let turn = &case.swing[index];
        let angle = turn.angle_rad;
        let (speed, acceleration) = match phase {
            Phase::Still => (0.0, 0.0),
            Phase::Moving => (turn.speed_rad_s, turn.acceleration_rad_s2),
            // The drive is stopped, and the arm by it.
            Phase::Stopping(stop_m_s2) => {
                let stop = stop_m_s2 / self.lever(angle).lever_m.abs();
                (turn.speed_rad_s, -case.direction.sign() * stop)
            }
        };
        let body = |mass_kg: f64, radius_m: f64, at: f64| {
            self.body(base, (mass_kg, radius_m), at, (speed, acceleration))
        };
        let mut load = body(case.load_kg, self.radius_m, angle + self.angle_rad);
        if self.level {
            load.couple_n_m = case.load_kg * self.inertia_per_kg * acceleration;
        }
        let weight = |tail: TailWeight| body(tail.mass_kg, -tail.radius_m, angle);
        [load, assist.tail().map_or(Body::default(), weight)]
    }
    fn stability_formula(&self) -> &'static str {
        if self.level { SWINGS_UP } else { SWINGS_AROUND }
    }
    fn edges(&self) -> &'static [(&'static str, Edge)] {
        if self.level {
            Edge::IN_PLANE
        } else {
            Edge::AROUND
        }
    }

    fn drive(&self, direction: Direction) -> Direction {
        match (self.extends, direction) {
            (true, same) => same,
            (false, Direction::Out) => Direction::Back,
            (false, Direction::Back) => Direction::Out,
        }
    }
    fn ways(&self) -> [f64; 2] {
        [self.lever_m[1], self.lever_m[0]].map(|lever| self.radius_m / lever)
    }
    fn pins_m(&self) -> Option<[f64; 2]> {
        Some(self.length_m)
    }
    fn tail_radius_m(&self) -> Option<f64> {
        self.tail_radius_m.filter(|_| self.level)
    }
    fn rise_m(&self) -> f64 {
        if !self.level {
            return 0.0;
        }
        let heights = self.angles().map(|angle| libm::sin(angle + self.angle_rad));
        let range = [f64::INFINITY, f64::NEG_INFINITY];
        let [least, most] = heights.fold(range, |[least, most], height| {
            [least.min(height), most.max(height)]
        });
        self.radius_m * (most - least)
    }
    fn balance_kg_m(&self) -> f64 {
        self.extent.loads_kg[1] * self.radius_m
    }
}
