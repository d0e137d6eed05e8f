//! What is cheaper, no worse, beaten or first of a shelf: decided here, by the same money as the study's.
//!
//! A family asks its parts of a [`Shelf`], tells its drives apart by [`Merits`], keeps those that no other beats on a
//! [`ParetoFront`], and looks at combinations of two parts in the order of [`Pairs`]. No physics is in here: what a part can
//! carry comes in as a number or a closure.

mod bench;
mod figures;
mod front;
mod life_cost;
mod pairs;
mod sets;
mod shelf;
mod taken;

/// Most parts or drives of a kind that are looked at, the cheapest first, where each is better than all before it in something.
///
/// A device for speed: the built-in catalog has three at most. One of a hundred makers has hundreds that are a little better in
/// something and cost more, and every part of a drive multiplies them.
pub const CHOICES_MOST: usize = 48;

pub use bench::Bench;
pub use figures::{Goals, Merits};
pub use front::{NoWorse, ParetoFront, front};
pub use life_cost::{Bought, LifeCost};
pub use pairs::{Bounds, Pairs, Place, Rank, least};
pub use sets::{PartChoice, sets};
pub use shelf::{Carries, Ladder, Shelf};
pub use taken::Taken;
