//! What stands to choose from for a screw, sorted once for all screws and design times.

use super::geared::Geared;
use super::load::Load;
use super::motor::Motor;
use super::pick::{self, Pick};
use super::points::Wanted;
use crate::catalog::{Brake, Coupling};
use crate::family::Ask;
use crate::family::ladder::Ladder;
use crate::quantity::Si;

/// Picks of one type of motor, in the order in which they are taken.
#[derive(Debug)]
pub(super) enum Range<'a> {
    /// Without gearboxes.
    Plain(Vec<Pick<'a>>),
    /// With them.
    Geared(Geared<'a>),
}

/// What stands to choose from for a screw, all in the order in which it is taken.
#[derive(Debug)]
pub(super) struct Stock<'a> {
    /// All picks of one type of motor, geared or not.
    pub ranges: [Range<'a>; 5],
    pub brakes: Ladder<'a, Brake>,
    couplings: Ladder<'a, Coupling>,
}

impl<'a> Stock<'a> {
    pub(super) fn new(ask: &Ask<'a>) -> Self {
        let brakes = pick::in_order(ask, &ask.catalog.brakes, |brake| &brake.common);
        let couplings = pick::in_order(ask, &ask.catalog.couplings, |c| &c.common);
        Self {
            ranges: ranges(ask),
            brakes: Ladder::new(brakes, |brake| brake.torque.si()),
            couplings: Ladder::new(couplings, |coupling| coupling.torque.si()),
        }
    }

    /// The coupling for a screw at a demand.
    ///
    /// `braked_n_m`: torque of a brake on the motor's side, which stops the screw through the coupling.
    pub(super) fn coupling(&self, ask: &Ask, load: &Load, braked_n_m: f64) -> Option<&'a Coupling> {
        let most = load.most_n_m();
        let asked = (most * ask.job.rules.drive_margin).max(braked_n_m);
        self.couplings.first_or_strongest(asked)
    }
}

/// All picks of one type of motor, geared or not: those that bear the site first, then the cheapest.
fn ranges<'a>(ask: &Ask<'a>) -> [Range<'a>; 5] {
    let catalog = ask.catalog;
    let servos: Vec<_> = catalog.servo_motors.iter().map(Motor::Servo).collect();
    let steppers: Vec<_> = catalog.stepper_motors.iter().map(Motor::Stepper).collect();
    let gear_motors: Vec<_> = catalog.gear_motors.iter().map(Motor::Gear).collect();
    let wanted = Wanted::of(ask);
    let plain = |motors: &[Motor<'a>]| {
        let of = |motor: &Motor<'a>| Pick::new(ask, wanted, *motor, None);
        Range::Plain(pick::sorted(ask, motors.iter().map(of).collect()))
    };
    let geared = |motors: &[Motor<'a>]| Range::Geared(Geared::new(ask, motors));
    [
        plain(&servos),
        geared(&servos),
        plain(&steppers),
        geared(&steppers),
        plain(&gear_motors),
    ]
}
