//! Electric drives: whatever a motor turns, a screw, a drum, a belt, chooses its motor, gearbox, brake, coupling, supply and
//! controls here, with their checks and what they draw.
//!
//! A family says what its [`Mechanism`] makes of torque, takes the [`Cycle`] and the runs of a demand, makes the [`Shaft`] of
//! both, and seats its mechanism on it: [`offer`] builds the drives of each [`Seat`]. Behind it [`Electrics::choose`] hands
//! out each [`MotorDrive`] that passes and is worth building, the cheapest first; each [`Draw`] of one says which supplies
//! and controls may feed it.
//!
//! Energy is counted by a simple model: while it moves, the motor's shaft work over its efficiency (a stepper: shaft work
//! and its constant loss), nothing recovered in braking; an open brake draws its coil power; at rest a motor that holds
//! loses as the square of its torque; then the standby of drives, supplies and controls. The 24 V of a brake come out of
//! the controls.

mod checks;
mod choice;
mod comparison;
mod cycle;
mod drive;
mod duty;
mod holding;
mod motor;
mod parts;
mod seat;
mod shaft;
mod supply;
#[cfg(test)]
#[path = "../../../tests/unit/family/electric.rs"]
mod tests;

pub(super) use comparison::rpm;
pub(super) use cycle::{Cycle, runs, years};
pub(super) use drive::MotorDrive;
pub(super) use duty::{DutyRating, running_life};
pub(super) use holding::Holding;
pub(super) use parts::Electrics;
pub(super) use seat::{Seat, offer};
pub(super) use shaft::{Mechanism, Shaft, ShaftWords};
pub(super) use supply::{Draw, Feed, Wiring};
