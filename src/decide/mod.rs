//! What deciding turns on: everything that makes the study again with something changed.

mod price;
mod resolve;
mod steps;

pub use price::prices;
pub use resolve::{Change, NoStudy, Resolver};
