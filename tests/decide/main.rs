//! The deciding layer: its linear programs against brute force, and every change it prints made and ranked again.

#[allow(dead_code, reason = "each test takes what it needs")]
#[path = "../support/mod.rs"]
mod support;

mod compare;
mod grid;
mod opinion;
mod price;
mod printed;
mod words;
