//! A study as people read it. A renderer computes nothing.

mod page;
mod price;
mod sure;
mod text;

pub use page::Page;
pub use price::price_screen;
pub use text::screen;
