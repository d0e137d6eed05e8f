//! Every check computed a second time, as on a sheet of paper, from the study and the catalog alone.

#![allow(
    clippy::manual_midpoint,
    clippy::many_single_char_names,
    clippy::match_same_arms,
    clippy::similar_names,
    reason = "the symbols are those of the method"
)]
#![allow(
    clippy::float_cmp,
    missing_docs,
    reason = "a test; words are compared, not results"
)]

mod base;
mod common;
mod crank;
mod money;
mod motion;
mod site;
mod tipping;
mod worst;

#[path = "../support/jobs.rs"]
mod jobs;

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::process::Command;

use base::{Books, Case};
use serde_json::Value;

/// Greatest difference, as a part of the study's figure.
const TOLERANCE: f64 = 0.005;
/// Below this size in its own unit a figure is as good as nought.
const FLOOR: f64 = 1e-6;

/// Random files tried, each from its own number.
const FILES: u64 = 30;

/// Checks that no sheet computes yet; the test prints them.
const NOT_YET: &str = include_str!("not_yet.txt");

/// The worst difference of each figure, and those that do not agree.
#[derive(Default)]
struct Findings {
    worst: BTreeMap<String, (f64, usize)>,
    faults: Vec<String>,
    unknown: BTreeSet<String>,
}

impl Findings {
    fn compare(&mut self, what: &str, place: &str, mine: f64, theirs: f64) {
        let off = (mine - theirs).abs() / theirs.abs().max(FLOOR);
        let off = if off.is_nan() { f64::INFINITY } else { off };
        let row = self.worst.entry(what.to_owned()).or_default();
        *row = (row.0.max(off), row.1 + 1);
        if off > TOLERANCE {
            self.faults
                .push(format!("{place}: {what} is {theirs}, the sheet has {mine}"));
        }
    }
}

/// A check's own arithmetic: utilisation and verdict follow from its three figures.
fn verdict(found: &mut Findings, place: &str, check: &Value) {
    let figure = |key: &str| check[key].as_f64().unwrap_or(f64::NAN);
    let used = figure("demand") * figure("factor") / figure("capacity");
    found.compare("utilisation", place, used, figure("utilisation"));
    let passes = used <= 1.0 + 1e-9;
    if check["passes"].as_bool() != Some(passes) {
        found
            .faults
            .push(format!("{place}: {} is used to {used}", check["id"]));
    }
}

fn option(found: &mut Findings, name: &str, case: &Case) {
    let place = format!("{name} {}", case.option["id"].as_str().unwrap_or(""));
    let told = &case.option["demand"]["worst"];
    for (what, mine) in worst::figures(case) {
        found.compare(what, &place, mine, told[what].as_f64().unwrap_or(f64::NAN));
    }
    for check in case.option["checks"].as_array().expect("checks") {
        verdict(found, &place, check);
        let id = check["id"].as_str().unwrap_or("");
        if let Some((demand, capacity)) =
            common::recompute(case, id).or_else(|| crank::recompute(case, id))
        {
            found.compare(
                id,
                &place,
                demand,
                check["demand"].as_f64().unwrap_or(f64::NAN),
            );
            found.compare(
                id,
                &place,
                capacity,
                check["capacity"].as_f64().unwrap_or(f64::NAN),
            );
        } else {
            let jack = case.part("screw_jacks").is_some();
            let stem = if jack { "jack: " } else { "" };
            found.unknown.insert(format!("{stem}{id}"));
        }
    }
    for (what, mine, theirs) in money::figures(case) {
        found.compare(what, &place, mine, theirs);
    }
}

/// The study of an example, as the program writes it.
fn study(path: &Path) -> Value {
    let out = Command::new(env!("CARGO_BIN_EXE_counterpoise"))
        .args(["rank", "--json", "-"])
        .arg(path)
        .output()
        .expect("the program runs");
    serde_json::from_slice(&out.stdout).expect("a study")
}

/// Every option of a study, and the order they stand in.
fn sheet(found: &mut Findings, name: &str, study: &Value, books: &Books) -> usize {
    let ranked = study["options"].as_array().expect("options");
    for one in ranked {
        option(found, name, &Case::new(study, one, books));
    }
    found.faults.extend(money::order(name, ranked));
    ranked.len()
}

/// Prints the worst of each figure and fails where one does not agree.
fn conclude(found: &Findings, options: usize) {
    for (what, (off, count)) in &found.worst {
        println!(
            "{what}: {count} figures, the worst off by {:.4} %",
            off * 100.0
        );
    }
    // An entry that ends in a star stands for all that begin so.
    let listed = |id: &str| {
        NOT_YET.lines().any(|line| {
            line.strip_suffix('*')
                .map_or(line == id, |stem| id.starts_with(stem))
        })
    };
    let new: Vec<_> = found.unknown.iter().filter(|id| !listed(id)).collect();
    println!("{options} options; not yet: {:?}", found.unknown);
    assert!(options > 0, "no file has an option");
    assert!(new.is_empty(), "no sheet for {new:?}");
    let first: Vec<_> = found.faults.iter().take(25).collect();
    assert!(
        first.is_empty(),
        "{} disagree: {first:#?}",
        found.faults.len()
    );
}

#[test]
fn every_example_agrees_with_the_sheet() {
    let (books, mut found, mut options) = (Books::read(), Findings::default(), 0);
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .expect("the examples are there")
        .map(|entry| entry.expect("a file").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .collect();
    files.sort();
    for path in files {
        let name = path
            .file_stem()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned();
        options += sheet(&mut found, &name, &study(&path), &books);
    }
    conclude(&found, options);
}

#[test]
fn random_files_agree_with_the_sheet() {
    let (books, mut found, mut options) = (Books::read(), Findings::default(), 0);
    let parts = counterpoise::catalog::built_in().expect("the built-in catalog is sound");
    for seed in 0..FILES {
        let text = jobs::text(seed);
        let reading = counterpoise::requirements::read(text.as_bytes(), &[]).expect("a sound file");
        let ranked = counterpoise::study::study(&reading, parts).expect("a slide is ranked");
        let json = counterpoise::study::to_json(&ranked).expect("all are numbers");
        let study = serde_json::from_str(&json).expect("a study is JSON");
        options += sheet(&mut found, &format!("file {seed}"), &study, &books);
    }
    conclude(&found, options);
}
