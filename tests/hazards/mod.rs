//! Jobs chosen for their hazards, each with what a safety engineer would have said of it, written before any output was seen.
//!
//! What must be said, never be said, be in the parts list, or be wolf stands in `jobs.json`, with the figures worked by hand.
//! Held today: each job is read and ranked, and what hangs is held by every drive that is offered for it.

use std::collections::BTreeSet;
use std::fs;

use counterpoise::catalog;
use counterpoise::requirements::PowerLoss;
use counterpoise::study::study;
use serde_json::Value;

use crate::support;

const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/hazards");

#[test]
fn every_hazardous_job_is_ranked_and_what_is_to_be_held_is_held() {
    let text = |name: &str| fs::read_to_string(format!("{FOLDER}/{name}")).expect("a file");
    let jobs: Vec<Value> = serde_json::from_str(&text("jobs.json")).expect("the list of jobs");
    let parts = catalog::built_in().expect("the built-in catalog is sound");
    let mut named = BTreeSet::new();
    let mut held = 0;
    for job in &jobs {
        let file = job["file"].as_str().expect("a name");
        named.insert(file.to_owned());
        let said = job["must_say"].as_array().expect("a list");
        for hazard in said {
            for field in ["hazard", "figure", "words"] {
                let is_said = hazard[field].as_str().is_some_and(|text| !text.is_empty());
                assert!(is_said, "{file}: a hazard without its {field}");
            }
        }
        let reading = support::reading(&text(file), &[]);
        let study = study(&reading, parts).expect("its pins are given");
        assert!(!study.options.is_empty(), "{file}: no drive");
        if reading.requirements.power_loss == PowerLoss::Hold {
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
        .filter(|name| name != "jobs.json" && name != "mod.rs")
        .collect();
    assert_eq!(there, named, "files and list differ");
}
