//! Random sound requirement files: every one is ranked without a fault, and no option breaks what was asked.

use crate::jobs;
use crate::support;
use counterpoise::catalog;
use counterpoise::requirements::{Criterion, Reading};
use counterpoise::study::{Study, study, to_json};
use serde_json::Value;

/// Files tried, each from its own number.
const FILES: u64 = 300;

/// Fields of a study that may say "none".
const MAY_BE_NULL: &[&str] = &[
    "value",
    "worth",
    "length_m",
    "assist_detail",
    "dynamic_over_static",
    "stability",
    "rule",
];

/// Every number is one: text has no way to write a NaN or an infinity but `null`.
fn all_numbers(value: &Value, key: &str, seed: u64) {
    match value {
        Value::Null => assert!(
            MAY_BE_NULL.contains(&key),
            "file {seed}: {key} is no number"
        ),
        Value::Array(items) => items.iter().for_each(|item| all_numbers(item, key, seed)),
        Value::Object(fields) => fields
            .iter()
            .for_each(|(key, item)| all_numbers(item, key, seed)),
        _ => {}
    }
}

/// What was asked is kept by every option.
fn keeps_the_musts(reading: &Reading, ranked: &Study, seed: u64) {
    let job = &reading.requirements;
    for option in &ranked.options {
        for check in &option.checks {
            assert!(
                check.passes,
                "file {seed}: {} fails {}",
                option.id, check.id
            );
        }
        for (criterion, want) in &job.wants {
            let raw = option.criteria[criterion.name()].raw;
            let must = if *criterion == Criterion::TravelTime {
                job.travel_time_must_s
            } else {
                want.must
            };
            let kept = if criterion.row().more_is_better {
                raw >= must * (1.0 - 1e-9)
            } else {
                raw <= must * (1.0 + 1e-9)
            };
            assert!(
                kept,
                "file {seed}: {} has {raw} where {must} is the must of {}",
                option.id,
                criterion.name()
            );
        }
        assert!(
            option.net_worth.is_finite() && option.purchase > 0.0,
            "file {seed}: {}",
            option.id
        );
    }
    for pair in ranked.options.windows(2) {
        assert!(
            pair[0].net_worth >= pair[1].net_worth,
            "file {seed}: out of order"
        );
    }
}

#[test]
fn random_sound_files_rank_without_a_fault() {
    let parts = catalog::built_in().expect("the built-in catalog is sound");
    let mut with_options = 0;
    for seed in 0..FILES {
        let reading = support::reading(&jobs::text(seed), &[]);
        let ranked = study(&reading, parts).expect("a slide is ranked");
        keeps_the_musts(&reading, &ranked, seed);
        let json: Value = serde_json::from_str(&to_json(&ranked).expect("all are numbers"))
            .expect("a study is JSON");
        for part in ["demand", "options", "ruled_out"] {
            all_numbers(&json[part], part, seed);
        }
        with_options += u32::from(!ranked.options.is_empty());
    }
    // Odd as the jobs are, the test would say little if hardly any had an answer.
    assert!(
        f64::from(with_options) > 0.3 * 300.0,
        "{with_options} of {FILES} have an option"
    );
    println!("{with_options} of {FILES} files have an option");
}
