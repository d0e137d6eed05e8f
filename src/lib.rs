//! An advisor for people who design one-off machines that move.
//!
//! One way through: requirements → demand → options → checks → worth → study
//! → report. The modules stand in layer order; each uses itself and those
//! above it in this list (`requirements` and `catalog` do not see each other).

pub mod problem;

pub mod quantity;

pub mod reading;

pub mod refusal;

pub mod mechanics;

pub mod requirements;

pub mod catalog;

pub mod demand;

pub mod family;

pub mod study;

pub mod decide;

pub mod ask;

pub mod report;

pub mod cli;

#[cfg(test)]
extern crate self as counterpoise;
/// What unit tests and tests share.
#[cfg(test)]
#[allow(dead_code, reason = "each test takes what it needs")]
#[path = "../tests/support/mod.rs"]
mod support;
