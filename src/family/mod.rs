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
mod hand_crank;
mod hazard;
mod hydraulic;
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
pub use fitted::caution::add as add_cautions;
pub use fitted::guide::{GuideDetail, guide_detail, let_in_by_friction};
pub use fitted::pivot::Pivots;
pub use fitted::stand::tipping;
pub use fitted::{assist, finish, site, structure};
use fitted::{controls, is_hopeless};
pub use hazard::{Caution, Exposed, Group, HAZARDS, Hazard};
pub use need::{Need, may_need, option_needs};
pub use pneumatic::Strokes;
pub use proof::{Expected, Measurement, Pace, Stage};
pub use sentence::{Figure, Sentence, Words};

use crate::requirements::Hours;

/// A force smaller than this is none, N: what rounding leaves of a balance.
const NO_FORCE_N: f64 = 1e-6;

/// Each of some parts, or that there is none.
fn some_or_none<P>(parts: Vec<&P>) -> Vec<Option<&P>> {
    if parts.is_empty() {
        vec![None]
    } else {
        parts.into_iter().map(Some).collect()
    }
}

/// A whole number as a count of pieces.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a cast keeps to what a count can be"
)]
fn count(whole: f64) -> u32 {
    whole as u32
}

/// A family of drives.
pub struct Family {
    /// Its name in files, such as `pneumatic`.
    pub name: &'static str,
    /// What people call it, such as "air cylinder".
    pub words: &'static str,
    /// Common names of the kinds of drives that it covers, its own among them first.
    pub covers: &'static [&'static str],
    /// What all its drives need of the site and of the job.
    pub needs: &'static [Need],
    /// What sets the pace of its drives.
    pub pace: Pace,
    /// Offers every drive worth judging for one assist, at every design time it can be built for.
    pub drives: for<'a> fn(&Ask<'a>, &mut Bench<'a>),
}

/// Every family, in the order of the file format.
pub const FAMILIES: &[Family] = &[
    pneumatic::FAMILY,
    hydraulic::FAMILY,
    screw::FAMILY,
    hand_crank::FAMILY,
];

/// The family of a name.
pub fn family(name: &str) -> Option<&'static Family> {
    FAMILIES.iter().find(|family| family.name == name)
}
