//! Strict reading of JSON: every fault with its path, none hidden by another.

mod object;
pub mod schema;
mod tree;

pub use object::{FromTree, MISSING, Object, Shape, Sink, UNKNOWN, fault_at, join, nearest, quote};
pub use tree::{Tree, parse};
