//! What the job needs and how much: the file, its fields, its defaults.

mod criterion;
mod model;
mod rules;

pub use criterion::{CRITERIA, CriterionRow, Measure};
pub use model::*;
pub use rules::{RULES, Rule, Rules};
