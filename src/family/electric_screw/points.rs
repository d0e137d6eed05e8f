//! Where a motor with its gearbox can be better than a cheaper one.

use super::motor::Motor;
use crate::catalog::{Common, Gearbox};
use crate::family::Ask;
use crate::quantity::{NoiseLevel, Si};
use crate::requirements::Criterion;

/// Turn error at the screw, sound, mass, length; less is better, and nothing is below 0.
pub(super) type Points = [f64; 4];

/// Whether one is better in something than the best known of each.
pub(super) fn better(points: &Points, best: Option<Points>) -> bool {
    best.is_none_or(|best| points.iter().zip(best).any(|(new, old)| *new < old))
}

/// Which of the points the job wants.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wanted([bool; 4]);

impl Wanted {
    pub(super) fn of(ask: &Ask) -> Self {
        let criteria = [
            Criterion::PositionError,
            Criterion::Noise,
            Criterion::AddedMass,
            Criterion::ClosedLength,
        ];
        Self(criteria.map(|criterion| ask.job.wants.contains_key(&criterion)))
    }

    /// What a motor and a gearbox come to, as far as the job wants it.
    pub(super) fn points(self, ratio: f64, motor: Half, gearbox: Half) -> Points {
        let [turn, sound, mass, length] = self.0;
        let of = |wanted: bool, value: f64| if wanted { value } else { 0.0 };
        [
            of(turn, motor.turn_rad / ratio + gearbox.turn_rad),
            of(sound, motor.sound + gearbox.sound),
            of(mass, motor.mass_kg + gearbox.mass_kg),
            of(length, motor.length_m + gearbox.length_m),
        ]
    }
}

/// What a motor or a gearbox brings to the points of both.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Half {
    /// Step of the motor, play of the gearbox.
    turn_rad: f64,
    /// Sound as energy.
    sound: f64,
    mass_kg: f64,
    length_m: f64,
}

impl Half {
    fn new(common: &Common, turn_rad: f64, length_m: f64) -> Self {
        Self {
            turn_rad,
            sound: common.noise.map_or(0.0, NoiseLevel::energy),
            mass_kg: common.mass.si(),
            length_m,
        }
    }
    pub(super) fn of_motor(motor: &Motor) -> Self {
        Self::new(motor.common(), motor.step_error_rad(), motor.length_m())
    }
    pub(super) fn of_gearbox(gearbox: &Gearbox) -> Self {
        let (play, length) = (gearbox.backlash.si(), gearbox.length.si());
        Self::new(&gearbox.common, play, length)
    }
    /// The least of each of two.
    pub(super) fn least(self, other: Self) -> Self {
        Self {
            turn_rad: self.turn_rad.min(other.turn_rad),
            sound: self.sound.min(other.sound),
            mass_kg: self.mass_kg.min(other.mass_kg),
            length_m: self.length_m.min(other.length_m),
        }
    }
}
