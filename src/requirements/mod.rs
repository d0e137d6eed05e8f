//! What the job needs and how much: the file, its fields, its defaults.

mod criterion;
mod model;
mod rules;

pub use criterion::{CRITERIA, CriterionRow, Measure};
pub use model::*;
pub use rules::{RULES, Rule, Rules};
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Assumption {
    pub field: String,
    pub value: String,
    pub reason: String,
}
pub struct Reading {
    pub requirements: Requirements,
    pub assumptions: Vec<Assumption>,
    pub document: serde_json::Value,
}
pub fn read(_: &[u8], _: &[(String, String)]) -> Result<Reading, crate::problem::Problems> {
    Err(vec![])
}
