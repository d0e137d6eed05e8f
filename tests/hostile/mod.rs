//! Hostile input: whatever the bytes, a refusal with a place and a reason or a study of numbers, and never a panic.
//!
//! `HOSTILE_TIMES=50` tries fifty times as many, `HOSTILE_SEED=7` others, `--nocapture` prints how they ended.

#![allow(
    clippy::similar_names,
    reason = "a limit and a most are what the field calls them"
)]

mod catalogs;
mod extreme;
mod law;
mod mutate;
mod whole;

use std::cell::Cell;

use crate::jobs;
use counterpoise::catalog::{self, Catalog, File, Stock};
use counterpoise::reading::{self, Tree};
use counterpoise::study::RankedJob;
use law::{Tally, obeyed};
use proptest::prelude::*;
use proptest::sample::{Index, select};
use proptest::test_runner::{Config, RngAlgorithm, TestCaseError, TestRng, TestRunner};

/// Files that are made unsound.
const SOUND: &[&str] = &[
    include_str!("../requirements/complete.json"),
    include_str!("../requirements/lid.json"),
    include_str!("../../examples/kiln-door.json"),
    include_str!("../../examples/veneer-press.json"),
    include_str!("../../examples/tray-pusher.json"),
    include_str!("../../examples/cellar-shutter.json"),
    include_str!("../../examples/backdrop-lift.json"),
];

/// Jobs that hostile catalogs are tried on.
const JOBS: &[&str] = &[
    include_str!("../../examples/kiln-door.json"),
    include_str!("../../examples/veneer-press.json"),
    include_str!("../../examples/tray-pusher.json"),
    include_str!("../../examples/cellar-shutter.json"),
];

/// A number from the environment, or another.
fn from_environment(name: &str, otherwise: u32) -> u32 {
    std::env::var(name)
        .ok()
        .and_then(|text| text.parse().ok())
        .unwrap_or(otherwise)
}

/// A runner that tries the same cases each time, on every machine.
fn runner(cases: u32, test: u8) -> TestRunner {
    let config = Config {
        cases: cases * from_environment("HOSTILE_TIMES", 1),
        failure_persistence: None,
        max_shrink_iters: 200,
        max_shrink_time: 20_000,
        ..Config::default()
    };
    let mut seed = [test; 32];
    for (byte, given) in seed
        .iter_mut()
        .skip(1)
        .zip(from_environment("HOSTILE_SEED", 1).to_le_bytes())
    {
        *byte = given;
    }
    TestRunner::new_with_rng(config, TestRng::from_seed(RngAlgorithm::ChaCha, &seed))
}

/// Tries a strategy of texts and changes under the law.
fn try_all<T: std::fmt::Debug>(
    name: &str,
    (cases, test): (u32, u8),
    strategy: &impl Strategy<Value = T>,
    input: impl Fn(T) -> (Vec<u8>, Vec<(String, String)>),
    full: bool,
) -> [u32; 3] {
    let parts = catalog::built_in().expect("the built-in catalog is sound");
    let tally = Tally::default();
    let ran = runner(cases, test).run(strategy, |case| {
        let (bytes, sets) = input(case);
        let shown = format!("{sets:?}\n{}", String::from_utf8_lossy(&bytes));
        verdict(obeyed(&bytes, &sets, parts, full, &tally), name, &shown)
    });
    let ends = tally.print(name);
    if let Err(fault) = ran {
        panic!("{name}: {fault}");
    }
    ends
}

/// What a runner makes of one case; a hunt (`HOSTILE_HUNT`) prints what is broken and goes on, to find many faults in one run.
fn verdict<T>(end: Result<T, String>, name: &str, input: &str) -> Result<(), TestCaseError> {
    match end {
        Err(fault) if std::env::var_os("HOSTILE_HUNT").is_some() => {
            println!(
                "BROKEN {name}: {fault}\n  {}",
                input.chars().take(4000).collect::<String>()
            );
            Ok(())
        }
        Err(fault) => Err(TestCaseError::fail(fault)),
        Ok(_) => Ok(()),
    }
}

fn tree(text: &str) -> Tree {
    reading::parse(text.as_bytes()).expect("the file is sound")
}

#[test]
fn bytes() {
    let noise = prop::collection::vec(any::<u8>(), 0..400);
    try_all(
        "arbitrary bytes",
        (2000, 1),
        &noise,
        |bytes| (bytes, Vec::new()),
        false,
    );
    // A sound file with some bytes overwritten comes further than noise does.
    let spoilt = (
        select(SOUND),
        prop::collection::vec((any::<Index>(), any::<u8>()), 1..4),
    );
    let overwrite = |(text, marks): (&str, Vec<(Index, u8)>)| {
        let mut bytes = text.as_bytes().to_vec();
        for (at, byte) in marks {
            let at = at.index(bytes.len());
            bytes[at] = byte;
        }
        (bytes, Vec::new())
    };
    try_all("spoilt bytes", (150, 2), &spoilt, overwrite, false);
}

#[test]
fn json() {
    let text = |value: Tree| (mutate::changed(value, &[]).into_bytes(), Vec::new());
    try_all("arbitrary JSON", (1500, 3), &mutate::value(), text, false);
}

#[test]
fn mutated_files() {
    let changes = prop::collection::vec((any::<Index>(), mutate::change()), 1..4);
    let input = |(text, changes): (&str, Vec<(Index, mutate::Change)>)| {
        (
            mutate::changed(tree(text), &changes).into_bytes(),
            Vec::new(),
        )
    };
    let [refused, ranked, none] = try_all(
        "mutated files",
        (600, 4),
        &(select(SOUND), changes),
        input,
        false,
    );
    // A mutation that only ever refuses would say nothing about what is computed.
    assert!(refused > 0 && ranked + none > 0);
}

#[test]
fn extreme_files() {
    let base = prop_oneof![
        1 => select(SOUND).prop_map(str::to_owned),
        2 => (0_u64..10_000).prop_map(jobs::text),
    ];
    let input = |(text, sets): (String, Vec<extreme::Set>)| (text.into_bytes(), sets);
    let [_, ranked, none] = try_all(
        "extreme sound files",
        (100, 5),
        &(base, extreme::sets()),
        input,
        false,
    );
    assert!(ranked > 0 && none > 0);
}

#[test]
fn extreme_files_made_again_with_changes() {
    let input = |(seed, sets): (u64, Vec<extreme::Set>)| (jobs::text(seed).into_bytes(), sets);
    let strategy = (0_u64..10_000, extreme::sets());
    let [_, ranked, none] = try_all("extreme files in full", (1, 6), &strategy, input, true);
    assert!(ranked + none > 0);
}

/// Tries folders of parts under the law.
fn try_catalogs<T: std::fmt::Debug>(
    name: &str,
    (cases, test): (u32, u8),
    strategy: &impl Strategy<Value = T>,
    file: impl Fn(&Stock, &T) -> File,
) -> [u32; 3] {
    let stock = Stock::built_in().expect("the built-in catalog is sound");
    let tally = Tally::default();
    let ran = runner(cases, test).run(&(strategy, select(JOBS)), |(case, job)| {
        let file = file(&stock, &case);
        let shown = String::from_utf8_lossy(&file.bytes).into_owned();
        verdict(catalogs::obeys(file, job.as_bytes(), &tally), name, &shown)
    });
    let ends = tally.print(name);
    if let Err(fault) = ran {
        panic!("{name}: {fault}");
    }
    ends
}

#[test]
fn mutated_catalogs() {
    let json = (catalogs::few(), catalogs::changes());
    try_catalogs(
        "mutated JSON catalogs",
        (80, 7),
        &json,
        |stock, (few, changes)| few.json(stock, changes),
    );
    let csv = (catalogs::few(), catalogs::cells());
    try_catalogs(
        "spoilt CSV catalogs",
        (80, 8),
        &csv,
        |stock, (few, cells)| few.csv(stock, cells),
    );
}

#[test]
fn extreme_catalogs() {
    let strategy = (catalogs::few(), catalogs::factors());
    let [refused, ranked, none] = try_catalogs(
        "extreme catalogs",
        (80, 9),
        &strategy,
        |stock, (few, factors)| few.scaled(stock, factors),
    );
    assert!(refused > 0 && ranked + none > 0);
}

#[test]
fn mutated_studies_held_against_each_other() {
    let parts = catalog::built_in().expect("the built-in catalog is sound");
    let text = study_of(SOUND[2], parts).to_string();
    let before = RankedJob::read(text.as_bytes()).expect("it is ours");
    let strategy = prop::collection::vec((any::<Index>(), mutate::change()), 1..6);
    let compared = Cell::new(0);
    let count = |end: bool| compared.set(compared.get() + u32::from(end));
    let ran = runner(60, 10).run(&strategy, |changes| {
        let text = mutate::changed(tree(&text), &changes);
        let end = law::compared(&before, text.as_bytes()).map(count);
        verdict(end, "mutated studies", &text)
    });
    if let Err(fault) = ran {
        panic!("mutated studies: {fault}");
    }
    assert!(compared.get() > 0, "every study was refused");
}

/// Changes from the command line that nobody would write.
#[test]
fn changes_from_the_command_line() {
    let path = prop_oneof![
        "[a-z_.\\[\\]0-9]{0,20}",
        "\\PC{0,10}",
        select(counterpoise::requirements::FIELDS)
            .prop_map(|field| field.path.replace("[]", "[7]")),
        select(
            &[
                "motion.process[18446744073709551615].at",
                "motion.process[0][0]",
                "motion[0]",
                "..",
                "[",
                "]",
                "a[",
                "a[]",
                "a[-1]",
                "a[0]x"
            ][..]
        )
        .prop_map(str::to_owned),
    ];
    let value = mutate::value().prop_map(|value| mutate::changed(value, &[]));
    let strategy = (
        select(SOUND),
        prop::collection::vec((path, prop_oneof![value, "\\PC{0,10}"]), 1..4),
    );
    let input = |(text, sets): (&str, Vec<extreme::Set>)| (text.as_bytes().to_vec(), sets);
    try_all("changes", (300, 11), &strategy, input, false);
}

fn study_of(text: &str, parts: &Catalog) -> serde_json::Value {
    let reading =
        counterpoise::requirements::read(text.as_bytes(), &[]).expect("the file is sound");
    let made = counterpoise::study::study(&reading, parts).expect("it ranks");
    serde_json::to_value(made).expect("it can be written")
}

#[test]
fn whole_processes() {
    let folder = tempfile::tempdir().expect("a folder");
    let strategy = (
        select(SOUND),
        prop::collection::vec((any::<Index>(), mutate::change()), 1..3),
    );
    let ran = runner(20, 12).run(&strategy, |(text, changes)| {
        let text = mutate::changed(tree(text), &changes);
        std::fs::write(folder.path().join("job.json"), &text).expect("a file");
        verdict(
            whole::obeys(&["rank", "job.json", "--json", "-"], folder.path()),
            "processes",
            &text,
        )
    });
    if let Err(fault) = ran {
        panic!("processes: {fault}");
    }
}

/// Files as large as are read, and one that is larger.
#[test]
fn large_files() {
    let folder = tempfile::tempdir().expect("a folder");
    let write =
        |name: &str, bytes: &[u8]| std::fs::write(folder.path().join(name), bytes).expect("a file");
    let obeys = |name: &str, arguments: &[&str]| {
        let ended = whole::obeys(arguments, folder.path());
        println!("{name}, {arguments:?}: {ended:?}");
        ended.unwrap_or_else(|fault| panic!("{name}: {arguments:?}: {fault}"));
    };
    for (name, bytes) in whole::large().into_iter().chain(whole::people()) {
        write("job.json", &bytes);
        obeys(name, &["rank", "job.json"]);
    }
    write("job.json", SOUND[2].as_bytes());
    write("study.json", &whole::large_study());
    obeys("study", &["compare", "study.json", "job.json"]);
    std::fs::create_dir(folder.path().join("shelf")).expect("a folder");
    for (name, file, bytes) in whole::large_catalogs() {
        write(file, &bytes);
        obeys(name, &["catalog", "check", "shelf"]);
        obeys(name, &["rank", "job.json", "--catalog", "shelf"]);
        std::fs::remove_file(folder.path().join(file)).expect("it is ours");
    }
    for (file, bytes) in whole::many_rows() {
        write(&file, &bytes);
    }
    obeys("many rows", &["catalog", "check", "shelf"]);
}

/// The largest process that is accepted makes a study that is read back.
#[test]
fn the_largest_study_compares() {
    let folder = tempfile::tempdir().expect("a folder");
    let (before, after) = SOUND[2]
        .split_once("\"drag\": \"10 N\"")
        .expect("the job has drag");
    let rank = |count: u32| {
        let point = |index: u32| {
            let at = f64::from(index) * 900.0 / f64::from(count) + 1e-9;
            let force = f64::from(index % 50) + 1.0 / 3.0;
            format!(
                r#"{{"at":"{at:.12}mm","out":"{force:.12}N","back":"{force:.12}N","hold":"0.123456789N"}}"#
            )
        };
        let points: Vec<_> = (0..count).map(point).collect();
        let job = format!("{before}\"process\": [{}]{after}", points.join(","));
        std::fs::write(folder.path().join("job.json"), job).expect("a file");
        whole::obeys(&["rank", "job.json", "--json", "study.json"], folder.path())
    };
    assert_eq!(rank(1501).expect("it ends").0, 2);
    let (code, _) = rank(1500).expect("it ends");
    assert!(code == 0 || code == 3);
    let size = std::fs::metadata(folder.path().join("study.json"))
        .expect("a study")
        .len();
    assert!(size > 3 << 20, "{size}");
    for (one, other) in [("study.json", "job.json"), ("job.json", "study.json")] {
        let (code, _) = whole::obeys(&["compare", one, other], folder.path()).expect("it ends");
        assert!(code == 0 || code == 3);
    }
}
