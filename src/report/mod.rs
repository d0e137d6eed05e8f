//! A study as people read it. A renderer computes nothing.

mod compare;
mod page;
mod price;
mod sheet;
mod sure;
mod text;

pub use compare::compare_screen;
pub use page::Page;
pub use price::price_screen;
pub use sheet::sheet;
pub use text::screen;
