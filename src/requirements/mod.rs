//! What the job needs and how much: the file, its fields, its defaults.

mod criterion;
mod fields;
mod fill;
mod model;
mod motion;
mod read;
mod rules;
mod schema;
mod set;

pub use criterion::{CRITERIA, CriterionRow, Measure};
pub use fields::{FIELDS, Field, FieldRange, Holds, On, Without, field_at};
pub use model::*;
pub use motion::*;
pub use read::{Assumption, Reading, read};
pub use rules::{Hours, RULES, Rule, Rules, Work};
pub use schema::schema;
pub use set::concerns;
