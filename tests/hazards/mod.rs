//! Jobs chosen for their hazards, each with what a safety engineer would have said of it, written before any output was seen.
//!
//! What must be said, never be said, be in the parts list, or be wolf stands in `jobs.json`, with the figures worked by hand.
//! Held: each job is ranked, what hangs is held by every drive that is offered for it, and what must be said is said.

mod said;

use std::collections::BTreeSet;
use std::fs;
use std::sync::OnceLock;

use counterpoise::catalog;
use counterpoise::requirements::{PowerLoss, Requirements};
use counterpoise::study::{Study, study};
use serde_json::Value;

use crate::support;

const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/hazards");

/// A job: its file, what its list says, as read, ranked.
type Job = (String, Value, Requirements, Study);

/// The jobs, ranked once.
fn jobs() -> &'static [Job] {
    static JOBS: OnceLock<Vec<Job>> = OnceLock::new();
    JOBS.get_or_init(ranked_jobs)
}

fn ranked_jobs() -> Vec<Job> {
    let text = |name: &str| fs::read_to_string(format!("{FOLDER}/{name}")).expect("a file");
    let jobs: Vec<Value> = serde_json::from_str(&text("jobs.json")).expect("the list of jobs");
    let parts = catalog::built_in().expect("the built-in catalog is sound");
    let ranked = |job: Value| {
        let file = job["file"].as_str().expect("a name").to_owned();
        let reading = support::reading(&text(&file), &[]);
        let study = study(&reading, parts).expect("its pins are given");
        (file, job, reading.requirements, study)
    };
    jobs.into_iter().map(ranked).collect()
}

#[test]
fn every_hazardous_job_is_ranked_and_what_is_to_be_held_is_held() {
    let mut named = BTreeSet::new();
    let mut held = 0;
    for (file, job, requirements, study) in jobs() {
        named.insert(file.clone());
        let said = job["must_say"].as_array().expect("a list");
        for hazard in said {
            for field in ["hazard", "figure", "words"] {
                let is_said = hazard[field].as_str().is_some_and(|text| !text.is_empty());
                assert!(is_said, "{file}: a hazard without its {field}");
            }
        }
        assert!(!study.options.is_empty(), "{file}: no drive");
        if requirements.power_loss == PowerLoss::Hold {
            for option in &study.options {
                assert!(option.holds_without_power, "{file}: {} lets go", option.id);
                held += 1;
            }
        }
    }
    assert!(held > 0, "no job asks for its load to be held");
    let files = fs::read_dir(FOLDER).expect("the folder");
    let texts = files.map(|file| file.expect("a file").file_name().into_string());
    let there: BTreeSet<String> = texts
        .map(|name| name.expect("a name of UTF-8"))
        .filter(|name| !["jobs.json", "open.txt", "mod.rs", "said.rs"].contains(&name.as_str()))
        .collect();
    assert_eq!(there, named, "files and list differ");
}
