//! Hostile input: whatever the bytes, a refusal with a place and a reason or a study of numbers, and never a panic.
//!
//! `HOSTILE_TIMES=50` tries fifty times as many, `HOSTILE_SEED=7` others, `--nocapture` prints how they ended.

mod extreme;
mod law;
mod mutate;

use counterpoise::catalog;
use counterpoise::reading::{self, Tree};
use law::{Tally, obeyed};
use proptest::prelude::*;
use proptest::sample::{Index, select};
use proptest::test_runner::{Config, RngAlgorithm, TestCaseError, TestRng, TestRunner};

#[path = "../support/jobs.rs"]
mod jobs;

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
        if std::env::var_os("HOSTILE_HUNT").is_some() {
            // What is being tried stands in a file, should it never end.
            let now = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("{name}.now"));
            std::fs::write(
                now,
                format!("{}\n{sets:?}", String::from_utf8_lossy(&bytes)),
            )
            .expect("a file");
        }
        match obeyed(&bytes, &sets, parts, full, &tally) {
            // A hunt goes on, to find many faults in one run.
            Err(fault) if std::env::var_os("HOSTILE_HUNT").is_some() => {
                let (text, _) = (String::from_utf8_lossy(&bytes), ());
                println!(
                    "BROKEN: {fault}\n  {sets:?}\n  {}",
                    text.replace('\n', " ")
                        .chars()
                        .take(4000)
                        .collect::<String>()
                );
                Ok(())
            }
            Err(fault) => Err(TestCaseError::fail(fault)),
            Ok(_) => Ok(()),
        }
    });
    let ends = tally.print(name);
    if let Err(fault) = ran {
        panic!("{name}: {fault}");
    }
    ends
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
        (900, 4),
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
        (150, 5),
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
    let [_, ranked, none] = try_all("extreme files in full", (6, 6), &strategy, input, true);
    assert!(ranked + none > 0);
}
