//! All tests of the program, as one: it is linked once, and no core waits for the last of a subject.
//!
//! `cargo test field::` runs those of one subject.

mod air_stroke;
mod ask;
mod bad;
mod bad_catalog;
mod catalog_command;
mod catalog_laws;
mod cautions;
mod cli;
mod decide;
mod demand_cases;
mod examples;
mod explain;
mod families;
mod families_law;
mod field;
mod guides;
mod hazards;
mod hinge;
mod hostile;
mod layers;
mod machine_faults;
mod open_list;
mod outside;
mod own_catalog;
mod random;
mod readme;
mod recompute;
mod requirements;
mod sanity;
mod schema;
mod signed;
mod site;

#[path = "support/jobs.rs"]
mod jobs;
#[allow(dead_code, reason = "the benchmark takes what no test does")]
mod support;
