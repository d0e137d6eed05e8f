//! A study as people read it. A renderer computes nothing.

mod compare;
mod course;
mod page;
mod parts;
mod price;
mod ruled_out;
mod sheet;
mod standing;
mod sure;
mod swing;
mod text;
mod verdict;

pub use compare::compare_screen;
pub use page::Page;
pub use parts::{checked_screen, found_screen, kinds_screen, parts_screen};
pub use price::price_screen;
pub use sheet::sheet;
pub use standing::{standing, standing_alone};
pub use text::{screen, screen_in};
