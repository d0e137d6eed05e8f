//! Every instant of a stroke of the arm: what of it hangs on the place alone is worked out once.

use super::Swing;
use crate::demand::figures::{Direction, Sample, Traverse, Turn};
use crate::demand::instants::StrokeInstant;
use crate::demand::law::UnitStroke;
use crate::demand::{Assist, TailWeight};
use crate::mechanics::linkage::Lever;
use crate::quantity::G_M_S2;

/// An instant of a stroke and what follows from where the arm stands then, whatever its time and load.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pose {
    pub instant: StrokeInstant,
    angle_rad: f64,
    pub lever: Lever,
    /// Sine and cosine of the angles of the load's centre of mass and of the arm.
    load: (f64, f64),
    arm: (f64, f64),
    /// Torque of friction and process against the stroke.
    against_n_m: f64,
}

impl Swing {
    /// The instants of a stroke with where the arm stands.
    pub(super) fn poses(&self, instants: &[StrokeInstant], direction: Direction) -> Vec<Pose> {
        let of = |instant: &StrokeInstant| {
            let angle_rad = self.angle_of(instant, direction);
            let upper = instant.before != (direction == Direction::Out);
            let turned = |angle: f64| (libm::sin(angle), libm::cos(angle));
            Pose {
                instant: *instant,
                angle_rad,
                lever: self.lever(angle_rad),
                load: turned(angle_rad + self.angle_rad),
                arm: turned(angle_rad),
                against_n_m: self.against_n_m(angle_rad, direction, upper),
            }
        };
        instants.iter().map(of).collect()
    }

    fn angle_of(&self, instant: &StrokeInstant, direction: Direction) -> f64 {
        let turned = instant.x_m.unwrap_or(match direction {
            Direction::Out => self.range_rad * instant.unit.s,
            Direction::Back => self.range_rad * (1.0 - instant.unit.s),
        });
        self.from_rad + turned
    }

    /// Arm speed and acceleration of an instant.
    pub(super) fn arm_motion(
        &self,
        unit: UnitStroke,
        direction: Direction,
        time_s: f64,
    ) -> (f64, f64) {
        let sign = direction.sign();
        let speed = sign * self.range_rad * unit.v / time_s;
        (speed, sign * self.range_rad * unit.a / (time_s * time_s))
    }

    /// Speed and acceleration of the drive: `ẋ = ℓ' φ̇`, `ẍ = ℓ'' φ̇² + ℓ' φ̈`.
    pub(super) fn drive_motion(
        &self,
        pose: &Pose,
        direction: Direction,
        time_s: f64,
    ) -> (f64, f64) {
        let lever = pose.lever;
        let (speed, acceleration) = self.arm_motion(pose.instant.unit, direction, time_s);
        let along = lever.slope_m * speed * speed + lever.lever_m * acceleration;
        (lever.lever_m * speed, along)
    }

    /// An instant of a stroke of the arm, as the drive sees it and as the arm does.
    pub(super) fn instant(&self, stroke: &Traverse, pose: &Pose) -> (Sample, Turn) {
        let (assist, mass_kg, direction) = (stroke.assist, stroke.mass_kg, stroke.direction);
        let (time_s, stop_m_s2) = (stroke.time_s, stroke.stop_m_s2);
        let sign = direction.sign();
        let inertia = self.inertia_kg_m2(assist, mass_kg);
        let lever = pose.lever;
        let (speed, acceleration) = self.arm_motion(pose.instant.unit, direction, time_s);
        let (v_m_s, a_m_s2) = self.drive_motion(pose, direction, time_s);
        let still = self.still_n_m(assist, mass_kg, pose, direction);
        let torque = still + inertia * acceleration;
        // The drive is stopped, and the arm by it.
        let stopping = still - sign * inertia * stop_m_s2 / lever.lever_m.abs();
        let force_n = torque / lever.lever_m;
        let pivot = |force: f64, speed: f64, acceleration: f64| {
            self.pivot_n(assist, mass_kg, pose, (speed, acceleration), force)
        };
        let at_rest = pivot(still / lever.lever_m, 0.0, 0.0);
        let stop_rad_s2 = -sign * stop_m_s2 / lever.lever_m.abs();
        let stop = pivot(stopping / lever.lever_m, speed, stop_rad_s2);
        let t_s = pose.instant.tau * time_s;
        (
            Sample {
                t_s,
                x_m: lever.length_m - self.length_m[0],
                v_m_s,
                a_m_s2,
                force_n,
                static_force_n: still / lever.lever_m,
                stop_force_n: stopping / lever.lever_m,
            },
            Turn {
                t_s,
                angle_rad: pose.angle_rad,
                speed_rad_s: speed,
                acceleration_rad_s2: acceleration,
                torque_n_m: torque,
                static_torque_n_m: still,
                pivot_n: pivot(force_n, speed, acceleration),
                other_pivot_n: at_rest.max(stop),
            },
        )
    }

    /// Torque that the arm asks standing still there, about to go on with the stroke.
    pub(super) fn still_n_m(
        &self,
        assist: &Assist,
        mass_kg: f64,
        pose: &Pose,
        direction: Direction,
    ) -> f64 {
        let gravity = self.gravity_by_cosines(assist, mass_kg, [pose.load.1, pose.arm.1]);
        gravity + direction.sign() * pose.against_n_m
    }

    /// Force on the pivot, square to its axis: what accelerates the masses, less their weight and the drive.
    fn pivot_n(
        &self,
        assist: &Assist,
        mass_kg: f64,
        pose: &Pose,
        (speed, acceleration): (f64, f64),
        force_n: f64,
    ) -> f64 {
        let tail = assist.tail().unwrap_or(TailWeight {
            mass_kg: 0.0,
            radius_m: 0.0,
        });
        let bodies = [
            (mass_kg, self.radius_m, pose.load),
            (tail.mass_kg, -tail.radius_m, pose.arm),
        ];
        let lever = pose.lever;
        let [mut x, mut y] = lever.along.map(|part| -force_n * part / lever.length_m);
        for (mass, radius, (sin, cos)) in bodies {
            x += mass * radius * (-acceleration * sin - speed * speed * cos);
            y += mass * radius * (acceleration * cos - speed * speed * sin);
            if self.level {
                y += mass * G_M_S2;
            }
        }
        (x * x + y * y).sqrt()
    }
}
