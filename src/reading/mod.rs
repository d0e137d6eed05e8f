//! Strict reading of JSON: every fault with its path, none hidden by another.

mod object;
mod place;
pub mod schema;
mod tree;

pub use object::{FromTree, MISSING, Object, Shape, Sink, UNKNOWN, fault_at, join, nearest, quote};
pub use place::{place_at, point};
pub use tree::{Tree, parse};
