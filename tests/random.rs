//! Random sound requirement files: every one is ranked without a fault, and no option breaks what was asked.

use std::borrow::Cow;
use std::sync::OnceLock;

use crate::jobs;
use crate::support;
use counterpoise::catalog;
use counterpoise::requirements::{Criterion, Reading};
use counterpoise::study::{Study, study, to_json};
use serde_json::Value;

/// Files tried, each from its own number.
const FILES: usize = 300;

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
        for (criterion, goal) in &job.goals {
            let raw = option.criteria[criterion.name()].raw;
            let limit = if *criterion == Criterion::TravelTime {
                job.travel_time_limit_s
            } else {
                goal.limit
            };
            let kept = if criterion.row().more_is_better {
                raw >= limit * (1.0 - 1e-9)
            } else {
                raw <= limit * (1.0 + 1e-9)
            };
            assert!(
                kept,
                "file {seed}: {} has {raw} where {limit} is the limit of {}",
                option.id,
                criterion.name()
            );
        }
        assert!(
            option.net_value.is_finite() && option.purchase > 0.0,
            "file {seed}: {}",
            option.id
        );
    }
    for pair in ranked.options.windows(2) {
        assert!(
            pair[0].net_value >= pair[1].net_value,
            "file {seed}: out of order"
        );
    }
}

/// The study of a file, as the program writes it: made once for all tests that look at it, and held to its limits as it is.
///
/// More than [`FILES`] are made as they are asked for.
pub fn written(seed: u64) -> Cow<'static, str> {
    static WRITTEN: [OnceLock<String>; FILES] = [const { OnceLock::new() }; FILES];
    let made = || {
        let reading = support::reading(&jobs::text(seed), &[]);
        let parts = catalog::built_in().expect("the built-in catalog is sound");
        let ranked = study(&reading, parts).expect("a slide is ranked");
        keeps_the_musts(&reading, &ranked, seed);
        to_json(&ranked).expect("all are numbers")
    };
    let place = usize::try_from(seed).ok();
    match place.and_then(|place| WRITTEN.get(place)) {
        Some(kept) => kept.get_or_init(made).into(),
        None => made().into(),
    }
}

#[test]
fn random_sound_files_rank_without_a_fault() {
    let mut with_options = 0;
    // The sheets of `recompute`, which look at the same studies, begin at the other end.
    for seed in (0..FILES as u64).rev() {
        let json: Value = serde_json::from_str(&written(seed)).expect("a study is JSON");
        for part in ["demand", "options", "ruled_out"] {
            all_numbers(&json[part], part, seed);
        }
        let options = json["options"].as_array().expect("options");
        with_options += u32::from(!options.is_empty());
    }
    // Odd as the jobs are, the test would say little if hardly any had an answer.
    assert!(
        f64::from(with_options) > 0.3 * 300.0,
        "{with_options} of {FILES} have an option"
    );
    println!("{with_options} of {FILES} files have an option");
}
