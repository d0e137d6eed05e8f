//! A study as people read it. A renderer computes nothing.

mod text;

pub use text::{Page, screen};
