//! The drive families: what drives each can build for a demand, and the checks each limit pass.
//!
//! A family is one file (or folder) here and one entry in [`FAMILIES`]. It
//! offers complete drives with their checks; it never judges them against the
//! wants and never ranks: that is the study's.

mod check;
pub mod choose;
mod drive;
mod electric;
mod electric_cylinder;
mod fitted;
pub mod hand_crank;
mod hazard;
pub mod hydraulic;
mod need;
mod pneumatic;
mod proof;
mod screw;
mod sentence;

#[cfg(test)]
#[path = "../../tests/unit/family/sample.rs"]
mod sample;

pub use check::{Check, Given};
pub(crate) use check::{check, given};
pub use choose::Bench;
pub use drive::{Ask, Custom, Drive, Fitted, Fitting, Life, PartLine, Running};
use fitted::control;
pub use fitted::guide::{GuideDetail, guide_detail, let_in_by_friction};
pub use fitted::pivot::Pivots;
pub use fitted::stand::tipping;
pub use fitted::{assist, finish, site, structure};
use fitted::{controls, is_hopeless};
pub use hazard::{Caution, Exposed, Hazard};
pub use need::{Need, may_need, option_needs};
pub use pneumatic::Strokes;
pub use proof::{Expected, Measurement, Pace, Stage};
pub use sentence::{Figure, Sentence, Words};

use crate::requirements::Hours;

/// A force smaller than this is none, N: what rounding leaves of a balance.
const NO_FORCE_N: f64 = 1e-6;

/// A family of drives.
pub trait Family: Sync {
    /// Its name in files, such as `pneumatic`.
    fn name(&self) -> &'static str;
    /// What people call it, such as "air cylinder".
    fn words(&self) -> &'static str;
    /// Common names of the kinds of drives that it covers, its own among them first.
    fn covers(&self) -> &'static [&'static str];
    /// What all its drives need of the site and of the job.
    fn needs(&self) -> &'static [Need];
    /// Its checks of thrust, holding and peak torque, by id: for a fixed drive without assist on an upward slide a heavier
    /// load never lowers them.
    fn grows_with_load(&self) -> &'static [&'static str];
    /// What sets the pace of its drives.
    fn pace(&self) -> Pace {
        Pace::Law
    }
    /// Offers every drive worth judging for one assist, at every design time it can be built for.
    fn drives<'a>(&self, ask: &Ask<'a>, bench: &mut Bench<'a>);
}

/// Every family, in the order of the file format.
pub const FAMILIES: &[&dyn Family] = &[
    &pneumatic::Pneumatic,
    &hydraulic::Hydraulic,
    &screw::ElectricScrew,
    &hand_crank::HandCrank,
];

/// The family of a name.
pub fn family(name: &str) -> Option<&'static dyn Family> {
    FAMILIES
        .iter()
        .copied()
        .find(|family| family.name() == name)
}
