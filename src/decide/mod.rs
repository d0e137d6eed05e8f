//! What deciding turns on: everything that makes the study again with something changed.

mod change;
mod compare;
mod course;
mod fresh_look;
mod gone;
mod near_miss;
mod price;
mod proving;
mod resolve;
mod robustness;
mod second_opinion;
mod sweep;
pub mod weighing;
pub mod worths;

pub use compare::{Cause, Comparison, FieldChange, Move, Rescaled, compare};
pub use course::course;
pub use fresh_look::fresh_look;
pub use near_miss::near_misses;
pub use price::prices;
pub use proving::{Proof, proving_plan};
pub use resolve::{NoStudy, Resolver};
pub use robustness::robustness;
pub use second_opinion::second_opinion;
