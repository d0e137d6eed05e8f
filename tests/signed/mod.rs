//! Everyday jobs sized by hand, as two experienced designers would, before any program saw them: the forces at the worst place,
//! and the drives to which a designer puts their name as the first.
//!
//! Source: common practice, no source; the arithmetic of each sizing stands beside its job in `jobs.json`. The settings are invented.

use std::fs;
use std::sync::OnceLock;

use counterpoise::catalog;
use counterpoise::study::{Study, study};
use serde_json::Value;

use crate::open_list::open_in;
use crate::support;

const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/signed");

/// The jobs, each with its name and its study; ranked once.
fn jobs() -> &'static [(String, Value, Study)] {
    static JOBS: OnceLock<Vec<(String, Value, Study)>> = OnceLock::new();
    JOBS.get_or_init(ranked_jobs)
}

fn ranked_jobs() -> Vec<(String, Value, Study)> {
    let text = |name: &str| fs::read_to_string(format!("{FOLDER}/{name}")).expect("a file");
    let jobs: Vec<Value> = serde_json::from_str(&text("jobs.json")).expect("the list of jobs");
    let parts = catalog::built_in().expect("the built-in catalog is sound");
    let ranked = |job: Value| {
        let file = job["file"].as_str().expect("a name");
        let reading = support::reading(&text(file), &[]);
        let name = file.trim_end_matches(".json").to_owned();
        let study = study(&reading, parts).expect("its pins are given");
        (name, job, study)
    };
    jobs.into_iter().map(ranked).collect()
}

/// Family and assist of the first place, as the list of jobs names them.
fn first(study: &Study) -> Option<String> {
    let option = study.options.first()?;
    Some(match &*option.assist {
        "none" => option.family.to_string(),
        assist => format!("{}+{assist}", option.family),
    })
}

#[test]
fn a_designer_signs_the_first_place_of_all_but_the_open_jobs() {
    let (jobs, mut open) = (jobs(), open_in(FOLDER));
    let mut signed = 0;
    let mut wrong = Vec::new();
    for (name, job, study) in jobs {
        let first = first(study);
        let would = job["sign"].as_array().expect("drives");
        let is_signed = first
            .as_deref()
            .is_some_and(|first| would.iter().any(|one| one == first));
        signed += u32::from(is_signed);
        if open.remove(name).is_some() == is_signed {
            wrong.push(format!("{name}: first is {first:?}, signed are {would:?}"));
        }
    }
    assert!(
        wrong.is_empty(),
        "open.txt is not what is seen:\n{}",
        wrong.join("\n")
    );
    assert!(open.is_empty(), "no such jobs: {open:?}");
    println!("{signed} of {} signed", jobs.len());
}

/// To the digits of a slide rule: force to half a per cent, power to 2.5 %.
#[test]
fn force_and_power_at_the_worst_place_are_those_sized_by_hand() {
    for (name, job, study) in jobs() {
        let worst = &study.demand.worst;
        let near = |what: &str, got: f64, share: f64| {
            let sized = job[what].as_f64().expect("a number");
            assert!(
                (got / sized - 1.0).abs() <= share,
                "{name}: {what} {got}, by hand {sized}"
            );
        };
        near(
            "worst_force_n",
            worst.static_peak_n.max(worst.dynamic_peak_n),
            0.005,
        );
        near("peak_power_w", worst.peak_power_w, 0.025);
    }
}
