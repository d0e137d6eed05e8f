//! Every check computed a second time, as on a sheet of paper, from the study and the catalog alone.
//!
//! Every option of all examples and of 305 random files, each from its own number, must agree within 0.5 %.

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

mod air;
mod air_stroke;
pub mod base;
mod bearing;
mod common;
mod crank;
mod cylinder;
mod guide;
mod life;
mod money;
mod more_jobs;
pub mod motion;
mod motor;
mod oil;
mod screw;
mod site;
pub mod steel;
pub mod swing;
pub mod tipping;
pub mod worst;

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::random;
use base::{Books, Case, Shared};
use serde_json::Value;

/// Greatest difference, as a part of the study's figure.
const TOLERANCE: f64 = 0.005;
/// Below this size in its own unit a figure is as good as nought.
const FLOOR: f64 = 1e-6;

/// Random files tried, each from its own number; `RECOMPUTE_FILES` asks for more.
const FILES: u64 = 190;
/// Random slides without a guide of their own.
const SLIDES: u64 = 65;
/// Random hinges.
const HINGE_FILES: u64 = 50;

/// Disagreements kept open, a line each: check, file (or `any file`), and why. One that has gone must leave the list.
const OPEN: &str = include_str!("open.txt");

/// The line of a disagreement that is known.
fn open(what: &str, place: &str) -> Option<&'static str> {
    OPEN.lines().find(|line| {
        let mut words = line.split(" | ");
        words.next() == Some(what)
            && words.next().is_some_and(|file| {
                let here = place.strip_prefix(file).is_some_and(|r| r.starts_with(' '));
                file == "any file" || here
            })
    })
}

/// The worst difference of each figure, and those that do not agree.
#[derive(Default)]
struct Findings {
    worst: BTreeMap<String, (f64, usize)>,
    faults: Vec<String>,
    unknown: BTreeSet<String>,
    /// Lines of the open disagreements that were met.
    open: BTreeSet<&'static str>,
}

impl Findings {
    /// Takes in what another thread has found.
    fn add(&mut self, other: Self) {
        for (what, (off, count)) in other.worst {
            let row = self.worst.entry(what).or_default();
            *row = (row.0.max(off), row.1 + count);
        }
        self.faults.extend(other.faults);
        self.unknown.extend(other.unknown);
        self.open.extend(other.open);
    }

    /// A disagreement that has gone must leave the list.
    fn all_met(&self, here: impl Fn(&str) -> bool) {
        let gone = OPEN
            .lines()
            .find(|line| here(line) && !self.open.contains(line));
        assert_eq!(gone, None, "this disagreement has gone: strike its line");
    }

    fn compare(&mut self, what: &str, place: &str, mine: f64, theirs: f64) {
        let off = (mine - theirs).abs() / theirs.abs().max(FLOOR);
        let off = if off.is_nan() { f64::INFINITY } else { off };
        if off > TOLERANCE {
            if let Some(line) = open(what, place) {
                self.open.insert(line);
                return;
            }
            self.faults
                .push(format!("{place}: {what} is {theirs}, the sheet has {mine}"));
        }
        let row = self.worst.entry(what.to_owned()).or_default();
        *row = (row.0.max(off), row.1 + 1);
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
        found.compare(
            what,
            &place,
            *mine,
            told[*what].as_f64().unwrap_or(f64::NAN),
        );
    }
    let air = air::Air::of(case);
    let mut met: BTreeMap<&str, usize> = BTreeMap::new();
    for check in case.option["checks"].as_array().expect("checks") {
        verdict(found, &place, check);
        let id = check["id"].as_str().unwrap_or("");
        // A check that is made at both ends stands in the list twice.
        let nth = *met.entry(id).and_modify(|n| *n += 1).or_default();
        if let Some((demand, capacity)) = common::recompute(case, id)
            .or_else(|| guide::recompute(case, id))
            .or_else(|| crank::recompute(case, id))
            .or_else(|| oil::recompute(case, id))
            .or_else(|| cylinder::recompute(case, id))
            .or_else(|| screw::recompute(case, id))
            .or_else(|| motor::recompute(case, id))
            .or_else(|| swing::recompute(case, id))
            .or_else(|| bearing::recompute(case, id))
            .or_else(|| air.as_ref()?.recompute(id, nth))
        {
            let told = check["demand"].as_f64().unwrap_or(f64::NAN);
            let taken_from = air.as_ref().map_or(0.0, |air| air.minuend(id));
            found.compare(id, &place, demand + taken_from, told + taken_from);
            found.compare(
                id,
                &place,
                capacity,
                check["capacity"].as_f64().unwrap_or(f64::NAN),
            );
        } else {
            found.unknown.insert(id.to_owned());
        }
    }
    for (what, mine, theirs) in money::figures(case) {
        found.compare(what, &place, mine, theirs);
    }
}

/// The study of an example, as the program writes it; with more arguments if need be.
fn study(path: &Path, more: &[&str]) -> Value {
    let out = Command::new(env!("CARGO_BIN_EXE_counterpoise"))
        .args(["rank", "--json", "-"])
        .args(more)
        .arg(path)
        .output()
        .expect("the program runs");
    serde_json::from_slice(&out.stdout).expect("a study")
}

/// Every option of a study, and the order they stand in.
fn sheet(found: &mut Findings, name: &str, study: &Value, books: &Books) -> usize {
    let ranked = study["options"].as_array().expect("options");
    let shared = Shared::default();
    for one in ranked {
        option(found, name, &Case::among(study, one, books, &shared));
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
    println!("{options} options; open: {:#?}", found.open);
    assert!(options > 0, "no file has an option");
    let first: Vec<_> = found.faults.iter().take(25).collect();
    assert!(
        first.is_empty(),
        "{} disagree: {first:#?}",
        found.faults.len()
    );
    assert!(found.unknown.is_empty(), "no sheet for {:?}", found.unknown);
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
        options += sheet(&mut found, &name, &study(&path, &[]), &books);
    }
    conclude(&found, options);
    let random =
        |line: &str| ["file ", "slide ", "hinge "].map(|name| line.contains(&format!("| {name}")));
    found.all_met(|line| !random(line).contains(&true));
}

/// Other hinges: laws, an upright axis, torques of a process, a drive that draws the arm up, a heavy tail.
const HINGES: &[&[(&str, &str)]] = &[
    &[("motion.law", "cycloidal"), ("motion.inertia", "4 kg m2")],
    &[("motion.axis", "upright"), ("motion.law", "modified_sine")],
    &[(
        "motion.process",
        r#"[{"at": "10 deg", "out": "5 Nm", "back": "0 Nm"}, {"at": "40 deg", "out": "20 Nm", "back": "8 Nm", "hold": "12 Nm"}]"#,
    )],
    &[(
        "motion.anchors",
        r#"{"base": ["-300 mm", "560 mm"], "arm": ["190 mm", "20 mm"]}"#,
    )],
    &[("motion.tail_radius", "500 mm"), ("motion.to", "101 deg")],
    &[
        ("motion.from", "-30 deg"),
        ("motion.to", "30 deg"),
        ("stops", "anywhere"),
    ],
];

#[test]
fn other_hinges_agree_with_the_sheet() {
    let (books, mut found, mut options) = (Books::read(), Findings::default(), 0);
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/vat-lid.json");
    let text = std::fs::read(path).expect("the example is there");
    let parts = counterpoise::catalog::built_in().expect("the built-in catalog is sound");
    for sets in HINGES {
        let owned = |(path, value): &(&str, &str)| ((*path).to_owned(), (*value).to_owned());
        let changes: Vec<_> = sets.iter().map(owned).collect();
        let reading = counterpoise::requirements::read(&text, &changes).expect("a sound file");
        let ranked = counterpoise::study::study(&reading, parts).expect("a hinge is ranked");
        let json = counterpoise::study::to_json(&ranked).expect("all are numbers");
        let study = serde_json::from_str(&json).expect("a study is JSON");
        let before = found.faults.len();
        let count = sheet(&mut found, "vat-lid", &study, &books);
        assert!(count > 0, "no option with {sets:?}");
        for fault in &mut found.faults[before..] {
            *fault = format!("{sets:?} {fault}");
        }
        options += count;
    }
    conclude(&found, options);
}

/// A catalog of one's own that differs from the built-in one in its hinge bearings: all but one sort are far too dear.
fn dear_but(sort: &str) -> PathBuf {
    let own = Path::new(env!("CARGO_MANIFEST_DIR")).join("catalog/hinge_bearings.json");
    let text = std::fs::read_to_string(own).expect("the catalog is there");
    let mut file: Value = serde_json::from_str(&text).expect("JSON");
    for part in file["parts"].as_array_mut().expect("parts") {
        if part["sort"] != sort {
            part["price"] = 5000.0.into();
        }
    }
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("recompute-{sort}"));
    std::fs::create_dir_all(&folder).expect("a folder");
    std::fs::write(folder.join("hinge_bearings.json"), file.to_string()).expect("a file");
    folder
}

#[test]
fn every_sort_of_hinge_bearing_agrees_with_the_sheet() {
    let (books, mut found, mut options) = (Books::read(), Findings::default(), 0);
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/vat-lid.json");
    let sets = [
        "motion.load={\"least\": \"90 kg\", \"most\": \"110 kg\"}",
        "goals.purchase.limit=30000",
        "site.mains.power=\"10 kW\"",
        "site.water=dry",
        "rules.reliability=0.97",
    ];
    // Needles bear nothing along an upright pin.
    for (sort, axis) in [
        ("needle", "level"),
        ("crossed_roller", "level"),
        ("deep_groove", "upright"),
        ("angular_pair", "upright"),
        ("taper_pair", "upright"),
        ("crossed_roller", "upright"),
    ] {
        let catalog = dear_but(sort);
        let (axis, catalog) = (format!("motion.axis={axis}"), catalog.to_string_lossy());
        let mut more = vec!["--catalog", &catalog, "--set", &axis];
        more.extend(sets.iter().flat_map(|set| ["--set", *set]));
        let study = study(&path, &more);
        let name = sort.replace('_', "-");
        let bears = |one: &Value| one["id"].as_str().is_some_and(|id| id.contains(&name));
        let ranked = study["options"].as_array().expect("options");
        assert!(ranked.iter().any(bears), "none turns on {sort}, {axis}");
        options += sheet(&mut found, &format!("{sort} {axis}"), &study, &books);
    }
    conclude(&found, options);
}

/// The study of a file's text, as the program writes it.
fn made(text: &str) -> String {
    let parts = counterpoise::catalog::built_in().expect("the built-in catalog is sound");
    let reading = counterpoise::requirements::read(text.as_bytes(), &[])
        .unwrap_or_else(|faults| panic!("the file is sound: {faults:?} {text}"));
    let ranked = counterpoise::study::study(&reading, parts).expect("a file is ranked");
    counterpoise::study::to_json(&ranked).expect("all are numbers")
}

/// A sort of random file: what it is called, the study of the file of a number, and how many there are.
type Sort = (&'static str, fn(u64) -> Cow<'static, str>, u64);

/// Every how-many-th random file of a sort, from a first one: the findings and the count of options.
fn some_files(first: u64, step: usize, sort: Sort, books: &Books) -> (Findings, usize) {
    let (mut found, mut options) = (Findings::default(), 0);
    let (name, study, files) = sort;
    for seed in (first..files).step_by(step) {
        let study = serde_json::from_str(&study(seed)).expect("a study is JSON");
        options += sheet(&mut found, &format!("{name} {seed}"), &study, books);
    }
    (found, options)
}

/// All random files of a sort, on two threads; checks that must be met many times.
fn files_agree(sort: Sort, often: &[&str]) {
    let books = Books::read();
    let halves = std::thread::scope(|scope| {
        let other = scope.spawn(|| some_files(1, 2, sort, &books));
        let one = some_files(0, 2, sort, &books);
        [one, other.join().expect("the other half is done")]
    });
    let (mut found, mut options) = (Findings::default(), 0);
    for (half, count) in halves {
        found.add(half);
        options += count;
    }
    conclude(&found, options);
    let number = |line: &str| {
        line.split(" | ")
            .nth(1)?
            .strip_prefix(sort.0)?
            .trim()
            .parse()
            .ok()
    };
    found.all_met(|line| number(line).is_some_and(|seed: u64| seed < sort.2));
    for check in often {
        let met = found.worst.get(*check).map_or(0, |row| row.1);
        assert!(met >= 50, "{check} is met {met} times");
    }
}

/// The number of files that is asked for, a part of which each sort has.
fn asked(usual: u64) -> u64 {
    let more = std::env::var("RECOMPUTE_FILES").ok();
    let more: Option<u64> = more.and_then(|n| n.parse().ok());
    more.map_or(usual, |n| n * usual / FILES)
}

#[test]
fn random_files_agree_with_the_sheet() {
    files_agree(("file", random::written, asked(FILES)), &["guide.binding"]);
}

#[test]
fn random_slides_without_a_guide_agree_with_the_sheet() {
    let often = [
        "guide.rail_length",
        "guide.shaft_deflection",
        "guide.pressure",
        "guide.way_length",
    ];
    let study = |seed| Cow::from(made(&more_jobs::slide(seed)));
    files_agree(("slide", study, asked(SLIDES)), &often);
}

#[test]
fn random_hinges_agree_with_the_sheet() {
    let often = ["machine.stability", "hinge_bearing.axial"];
    let study = |seed| Cow::from(made(&more_jobs::hinge(seed)));
    files_agree(("hinge", study, asked(HINGE_FILES)), &often);
}
