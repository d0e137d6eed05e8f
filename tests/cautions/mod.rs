//! Cautions and hazards: each option's cautions against the hazards that its numbers have, both ways.
//!
//! The hazards are judged from the study and the catalog alone, on the sheets of `tests/recompute`, which know nothing of
//! `src`: where a hazard is there, its caution must be, with the right numbers; where it is not, neither may the caution.

#![allow(
    clippy::similar_names,
    clippy::many_single_char_names,
    clippy::manual_midpoint,
    clippy::match_same_arms,
    clippy::float_cmp,
    missing_docs,
    reason = "the symbols are those of the method"
)]

mod arm;
mod drive;
mod hazards;
mod hold;

use std::collections::BTreeMap;
use std::path::Path;

use crate::recompute::base::{Books, Case};
use serde_json::Value;

use hazards::{HAZARDS, Hazard};

/// Random files tried, each from its own number.
const FILES: u64 = 60;
/// Cautions are written with three digits.
const TOLERANCE: f64 = 0.006;
/// What stands under every study.
const STANDING: &str = "Preliminary sizing, not a design approval: risk assessment (ISO 12100), fluid power (ISO 4413, ISO 4414), control reliability (ISO 13849-1), local codes and licensed practice decide.";

/// Every number of a sentence that has a unit, in SI; a plain one as it stands.
fn numbers(text: &str) -> Vec<f64> {
    let words: Vec<&str> = text
        .split([' ', '(', ')'])
        .map(|word| word.trim_end_matches([',', ';', ':', '.']))
        .collect();
    let mut found = Vec::new();
    for (index, word) in words.iter().enumerate() {
        let Ok(number) = word.parse::<f64>() else {
            continue;
        };
        let factor = match words.get(index + 1).copied().unwrap_or_default() {
            "kN" | "kJ" => 1e3,
            "MN" | "MJ" => 1e6,
            "mm" | "mN" | "mJ" => 1e-3,
            "bar" => 1e5,
            _ => 1.0,
        };
        found.push(number * factor);
    }
    found
}

/// A study as its file has it, and the hazards that the cautions of each option are of.
struct Ranked {
    study: Value,
    hazards: Vec<Vec<&'static str>>,
}

/// What one option's cautions lack, say wrongly or say without need.
fn faults(
    case: &Case,
    hazards: &[&'static str],
    seen: &mut BTreeMap<&'static str, usize>,
) -> Vec<String> {
    let said = case.option["cautions"].as_array().expect("cautions");
    let said: Vec<&str> = said.iter().filter_map(Value::as_str).collect();
    let mut faults = Vec::new();
    if said.len() != hazards.len() {
        faults.push(format!("{} cautions of {hazards:?}", said.len()));
    }
    for Hazard { id, judge } in HAZARDS {
        let all = hazards
            .iter()
            .zip(&said)
            .filter(|(hazard, _)| *hazard == id);
        let here: Vec<&str> = all.map(|(_, text)| *text).collect();
        match (judge(case), here.as_slice()) {
            (None, []) => {}
            (None, [text, ..]) => faults.push(format!("without need: {text}")),
            (Some(expected), []) => faults.push(format!("missing: {id} {expected:?}")),
            (Some(expected), [text]) => {
                *seen.entry(id).or_default() += 1;
                let given = numbers(text);
                let near = |number: f64| {
                    let off =
                        |given: &f64| (given - number).abs() <= TOLERANCE * number.abs() + 1e-9;
                    given.iter().any(off)
                };
                if let Some(number) = expected.iter().find(|number| !near(**number)) {
                    faults.push(format!("should say {number} SI: {text}"));
                }
            }
            (Some(_), [text, ..]) => faults.push(format!("twice: {text}")),
        }
    }
    for (hazard, text) in hazards.iter().zip(said) {
        if !HAZARDS.iter().any(|known| known.id == *hazard) {
            faults.push(format!("of no known hazard, {hazard}: {text}"));
        }
    }
    faults.extend(hold::claim(case));
    faults
}

/// The cautions of the study are those of its first three drive types, each with their places.
fn of_the_study(study: &Value) -> Vec<String> {
    let mut kinds: Vec<&Value> = Vec::new();
    for option in study["options"].as_array().expect("options") {
        if kinds
            .iter()
            .all(|kind| kind["drive_type"] != option["drive_type"])
        {
            kinds.push(option);
        }
    }
    kinds.truncate(3);
    let mut faults = Vec::new();
    let lines = study["cautions"].as_array().expect("cautions");
    let lines: Vec<&str> = lines.iter().filter_map(Value::as_str).collect();
    if lines.last() != Some(&STANDING) {
        faults.push("the standing sentence is not last".into());
    }
    for (index, kind) in kinds.iter().enumerate() {
        for text in kind["cautions"].as_array().expect("cautions") {
            let text = text.as_str().expect("a text");
            let place = (index + 1).to_string();
            let goes_for = |line: &&str| match line.strip_suffix(text) {
                Some("") => true,
                Some(marks) => marks
                    .trim_matches(['(', ')', ' '])
                    .split(", ")
                    .any(|mark| mark == place),
                None => false,
            };
            if !lines.iter().any(goes_for) {
                faults.push(format!("place {place} lacks in the study: {text}"));
            }
        }
    }
    faults
}

/// Judges a study; gives how many options it had.
fn judge(
    name: &str,
    ranked: &Ranked,
    books: &Books,
    found: &mut Vec<String>,
    seen: &mut BTreeMap<&'static str, usize>,
) -> usize {
    let study = &ranked.study;
    let options = study["options"].as_array().expect("options");
    for (option, hazards) in options.iter().zip(&ranked.hazards) {
        let id = option["id"].as_str().unwrap_or_default();
        let all = faults(&Case::new(study, option, books), hazards, seen);
        found.extend(all.into_iter().map(|fault| format!("{name} {id}: {fault}")));
    }
    found.extend(
        of_the_study(study)
            .into_iter()
            .map(|fault| format!("{name}: {fault}")),
    );
    options.len()
}

fn study(text: &str, sets: &[(&str, &str)]) -> Ranked {
    let parts = counterpoise::catalog::built_in().expect("the built-in catalog is sound");
    let owned = |(path, value): &(&str, &str)| ((*path).to_owned(), (*value).to_owned());
    let changes: Vec<_> = sets.iter().map(owned).collect();
    let reading =
        counterpoise::requirements::read(text.as_bytes(), &changes).expect("a sound file");
    let ranked = counterpoise::study::study(&reading, parts).expect("a slide is ranked");
    let json = counterpoise::study::to_json(&ranked).expect("all are numbers");
    let options = ranked.options.iter();
    Ranked {
        study: serde_json::from_str(&json).expect("a study is JSON"),
        hazards: options.map(|option| option.hazards.clone()).collect(),
    }
}

fn conclude(found: &[String], options: usize, seen: &BTreeMap<&'static str, usize>) {
    println!("{options} options");
    for (id, count) in seen {
        println!("{count:6} {id}");
    }
    let first: Vec<_> = found.iter().take(20).collect();
    assert!(found.is_empty(), "{} faults: {first:#?}", found.len());
    assert!(options > 0);
}

#[test]
fn the_cautions_of_every_example_are_its_hazards() {
    let (books, mut found, mut seen, mut options) = (Books::read(), Vec::new(), BTreeMap::new(), 0);
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    for entry in std::fs::read_dir(folder).expect("the examples are there") {
        let path = entry.expect("a file").path();
        if path.extension().is_some_and(|ending| ending == "json") {
            let text = std::fs::read_to_string(&path).expect("a text");
            let name = path.file_stem().unwrap_or_default().to_string_lossy();
            options += judge(&name, &study(&text, &[]), &books, &mut found, &mut seen);
        }
    }
    conclude(&found, options, &seen);
}

/// An arm that swings slowly: quick options swing on after a stop, slow ones do not.
#[test]
fn a_springy_arm_is_said_to_swing() {
    let (books, mut found, mut seen) = (Books::read(), Vec::new(), BTreeMap::new());
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/dipping-arm.json");
    let text = std::fs::read_to_string(path).expect("a text");
    let long = [
        ("structure.length", "900 mm"),
        ("structure.deflection.limit", "100 mm"),
        ("rules.structure_factor", "1"),
    ];
    let long = study(&text, &long);
    let options = judge("dipping-arm", &long, &books, &mut found, &mut seen);
    conclude(&found, options, &seen);
    let swinging = seen.get("arm.swings").copied().unwrap_or(0);
    assert!((1..options).contains(&swinging), "{swinging} of {options}");
}

#[test]
fn the_cautions_of_random_files_are_their_hazards() {
    let (books, mut found, mut seen, mut options) = (Books::read(), Vec::new(), BTreeMap::new(), 0);
    for seed in 0..FILES {
        let name = format!("file {seed}");
        let study = study(&crate::jobs::text(seed), &[]);
        options += judge(&name, &study, &books, &mut found, &mut seen);
    }
    conclude(&found, options, &seen);
}

#[test]
fn every_hazard_has_a_file_that_has_it() {
    let (books, mut found, mut seen, mut options) = (Books::read(), Vec::new(), BTreeMap::new(), 0);
    let low =
        r#"{ "length": "1.5 m", "width": "0.8 m", "mass": "2 kg", "centre_height": "20 mm" }"#;
    let cases: [(&str, &[(&str, &str)]); 11] = [
        (
            "kiln-door",
            &[
                ("motion.travel", "200 mm"),
                ("motion.load.most", "1500 kg"),
                ("base.mass", "4000 kg"),
                ("goals.travel_time.limit", "300 s"),
            ],
        ),
        ("tray-pusher", &[("rules.loose_slides", "2")]),
        ("kiln-door", &[]),
        (
            "kiln-door",
            &[
                ("base.length", "0.8 m"),
                ("base.mass", "150 kg"),
                ("base.load_reach", "0.86 m"),
            ],
        ),
        ("tray-pusher", &[("base", low)]),
        ("tray-pusher", &[("base", low), ("base.bolted", "true")]),
        ("tile-fence", &[]),
        ("vat-lid", &[]),
        ("vat-lid", &[("motion.to", "101 deg")]),
        ("veneer-press", &[]),
        (
            "gutter-rolls",
            &[("motion.incline", "90 deg"), ("power_loss", "may_move")],
        ),
    ];
    for (name, sets) in cases {
        let path = format!("{}/examples/{name}.json", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(path).expect("the example is there");
        options += judge(name, &study(&text, sets), &books, &mut found, &mut seen);
    }
    // A hazard that no file has proves nothing.
    // What an arm does has a test of its own.
    let ids = HAZARDS.iter().map(|hazard| hazard.id);
    let ids = ids.filter(|id| *id != "arm.swings");
    let never: Vec<_> = ids.filter(|id| !seen.contains_key(id)).collect();
    conclude(&found, options, &seen);
    assert!(never.is_empty(), "never seen: {never:?}");
}
