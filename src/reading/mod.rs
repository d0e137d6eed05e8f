//! Strict reading of JSON: every fault with its path, none hidden by another.

mod object;
mod tree;

pub use object::{FromTree, MISSING, Object, Shape, Sink, UNKNOWN, nearest, quote};
pub use tree::{Tree, parse};
