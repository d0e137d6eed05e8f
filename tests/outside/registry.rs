//! Which test holds which row, which rows wait and why, and how many sources stand behind those that are held.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use super::rows::{all, text};
use super::table::HELD_BY;

/// Rows that no test holds, with the reason.
#[rustfmt::skip]
const WAITING: &[(&[&str], &str)] = &[
    (
        &["beam-moduli-metals"],
        "beams are of steel at 205 GPa, as the method says, and of aluminium at 70; the other metals are not offered",
    ),
    (
        &["col-end-factors-practical"],
        "the project takes theoretical lengths and leaves practice to its buckling factors of 2.5 to 5; for built-in ends the practical 0.65 makes the load 1.7 times less",
    ),
    (
        &["pn-nozzle-choked-1", "pn-nozzle-cengel"],
        "no function goes from a throat to a flow: conductances are data of the catalog",
    ),
    (
        &["hy-orifice-1", "hy-line-white-oil", "hy-colebrook"],
        "losses of valves and lines are rules, no function computes them",
    ),
    (
        &["hy-throttle-heat-1"],
        "the heat of oil is balanced at the tank, no function gives the rise at a throttle",
    ),
    (
        &["mot-sync-speed"],
        "no drive has an induction motor whose speed matters; the oil unit's stands in the catalog as flow",
    ),
    (
        &["human-en1005-3"],
        "the project cranks and does nothing else by hand; its two forces are rules of the trade",
    ),
    (
        &["slidercrank-1"],
        "no drive has a crank mechanism",
    ),
    (
        &["cap-exercise-27", "cap-1"],
        "no rope holds by friction on its sheave: a counterweight's is fixed at both ends",
    ),
];

/// Works that a row's source may name: what they are called here, and the words they are known by.
#[rustfmt::skip]
const WORKS: &[(&str, &[&str])] = &[
    // Standards and definitions.
    ("AISC steel design commentary", &["AISC"]),
    ("ASME B1.5", &["ASME B1.5"]),
    ("BIPM SI brochure", &["BIPM"]),
    ("CGPM 1901", &["CGPM"]),
    ("BS 5950", &["BS 5950"]),
    ("EN 12385-4 / ISO 2408", &["EN 12385"]),
    ("EN 81-20", &["EN 81-20"]),
    ("EN 1993-1-2", &["EN 1993"]),
    ("IEC 60034-1", &["IEC 60034"]),
    ("IEC 60072-1", &["IEC 60072"]),
    ("ISO 3", &["ISO 3,"]),
    ("ISO 54", &["ISO 54"]),
    ("ISO 281", &["ISO 281"]),
    ("ISO 2902", &["ISO 2902"]),
    ("ISO 2904 / DIN 103", &["ISO 2904", "DIN 103"]),
    ("ISO 3320", &["ISO 3320"]),
    ("ISO 3408", &["ISO 3408"]),
    ("ISO 4308-1", &["ISO 4308"]),
    ("ISO 4393", &["ISO 4393"]),
    ("ISO 6020", &["ISO 6020"]),
    ("ISO 6358", &["ISO 6358"]),
    ("ISO 6432", &["ISO 6432"]),
    ("ISO 7181", &["ISO 7181"]),
    ("ISO 8778", &["ISO 8778"]),
    ("ISO 14728", &["ISO 14728"]),
    ("ISO 15552", &["ISO 15552"]),
    ("ISO 80000", &["ISO 80000"]),
    ("MIL-STD-1472", &["MIL-STD-1472"]),
    ("NEMA ICS 16", &["NEMA ICS 16"]),
    ("NIST SP 811", &["NIST SP 811"]),
    ("United States rope regulations", &["California Title 8"]),
    ("U.S. Standard Atmosphere 1976", &["U.S. Standard Atmosphere"]),
    // Handbooks and textbooks.
    ("Beer & Johnston", &["Beer & Johnston, Mechanics of Materials"]),
    ("Blevins", &["Blevins"]),
    ("CRC Handbook of Chemistry and Physics", &["CRC Handbook"]),
    ("Dubbel, Roloff/Matek", &["Dubbel"]),
    ("Edwards & Barron, Barron & Barrett", &["Edwards & Barron 1994"]),
    ("Esposito", &["Esposito"]),
    ("Faires", &["Faires"]),
    ("Gere & Goodno", &["Gere & Goodno"]),
    ("Goodwin & Wright", &["Goodwin & Wright"]),
    ("Halliday, Resnick & Walker", &["Halliday"]),
    ("Hamrock", &["Hamrock"]),
    ("Harris", &["Harris"]),
    ("Hillier & Lieberman", &["Hillier"]),
    ("Hwang & Yoon", &["Hwang & Yoon"]),
    ("Juvinall & Marshek", &["Juvinall"]),
    ("Khurmi & Gupta", &["Khurmi"]),
    ("Machinery's Handbook", &["Machinery's Handbook"]),
    ("Marks' Standard Handbook", &["Marks'"]),
    ("Mott", &["Mott, "]),
    ("NACA Report 1135", &["NACA Report 1135"]),
    ("Norton, Design of Machinery", &["Norton"]),
    ("OpenStax College Physics", &["OpenStax College Physics"]),
    ("OpenStax University Physics", &["OpenStax University Physics"]),
    ("Rankine", &["Rankine"]),
    ("Serway & Jewett", &["Serway"]),
    ("Shigley", &["Shigley's Mechanical Engineering Design"]),
    ("Slocum", &["Slocum"]),
    ("Stillwell, Seaver & Edwards", &["Stillwell"]),
    ("Strakosch", &["Strakosch"]),
    ("Timoshenko & Gere", &["Timoshenko"]),
    ("Winston", &["Winston, "]),
    // Public pages and general-purpose libraries.
    ("agricultural handbook page on man as a power source", &["public agricultural handbook page"]),
    ("engineering tables site, human force and power", &["Public engineering tables site"]),
    ("engineering examination item", &["Public engineering examination item"]),
    ("CoolProp", &["CoolProp"]),
    ("NumPy", &["numpy"]),
    ("pymcdm", &["pymcdm"]),
    ("SciPy", &["scipy"]),
];

fn held() -> BTreeMap<&'static str, &'static str> {
    let pairs = HELD_BY
        .iter()
        .flat_map(|(test, ids)| ids.iter().map(|id| (*id, *test)));
    pairs.collect()
}

fn waiting() -> BTreeMap<&'static str, &'static str> {
    let pairs = WAITING
        .iter()
        .flat_map(|(ids, why)| ids.iter().map(|id| (*id, *why)));
    pairs.collect()
}

/// Every id in quotes in the sources of the tests, with the test that names it.
fn named() -> Vec<(String, String)> {
    let ids: BTreeSet<&str> = all().iter().map(|row| text(row, "id")).collect();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/outside");
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).expect("the folder of the tests") {
        let path = entry.expect("an entry").path();
        let stem = path
            .file_stem()
            .and_then(|stem| stem.to_str())
            .expect("a name");
        if path.extension().is_none_or(|ending| ending != "rs")
            || ["registry", "table"].contains(&stem)
        {
            continue;
        }
        let code = fs::read_to_string(&path).expect("the source can be read");
        let (mut inner, mut test) = (String::new(), String::new());
        for line in code.lines() {
            if let Some(name) = line
                .strip_prefix("mod ")
                .and_then(|rest| rest.strip_suffix(" {"))
            {
                inner = format!("{name}::");
            }
            if let Some((name, _)) = line
                .trim_start()
                .strip_prefix("fn ")
                .and_then(|rest| rest.split_once(['(', '<']))
            {
                name.clone_into(&mut test);
            }
            for id in line
                .split('"')
                .skip(1)
                .step_by(2)
                .filter(|word| ids.contains(word))
            {
                found.push((id.to_owned(), format!("{stem}::{inner}{test}")));
            }
        }
    }
    found
}

#[test]
fn every_row_is_held_once_or_waits() {
    let (held, waiting) = (held(), waiting());
    let listed: usize = HELD_BY.iter().map(|(_, ids)| ids.len()).sum();
    assert_eq!(listed, held.len(), "a row stands twice in the table");
    let listed: usize = WAITING.iter().map(|(ids, _)| ids.len()).sum();
    assert_eq!(listed, waiting.len(), "a row waits twice");
    let ids: BTreeSet<&str> = all().iter().map(|row| text(row, "id")).collect();
    assert_eq!(ids.len(), all().len(), "two rows have one id");
    for id in &ids {
        assert!(
            held.contains_key(id) != waiting.contains_key(id),
            "{id} is held or waits, one of both"
        );
    }
    assert_eq!(
        ids.len(),
        held.len() + waiting.len(),
        "a listed row is in no file"
    );
    for (id, why) in waiting {
        println!("{id} waits: {why}");
    }
}

/// The table says what the sources of the tests do: each row is named once, in the test that the table names.
#[test]
fn the_table_is_what_the_tests_do() {
    let mut left = held();
    for (id, test) in named() {
        assert_eq!(
            left.remove(id.as_str()),
            Some(test.as_str()),
            "{id} in {test}"
        );
    }
    assert!(left.is_empty(), "no test names {left:?}");
}

/// Rows held, and the works behind them. A closed form or a rule of the trade is a row, but no source.
#[test]
fn sources_are_many() {
    let held = held();
    let rows: Vec<_> = all()
        .iter()
        .filter(|row| held.contains_key(text(row, "id")))
        .collect();
    let names = |words: &[&str]| {
        rows.iter()
            .filter(|row| words.iter().any(|word| text(row, "source").contains(word)))
            .count()
    };
    for (work, words) in WORKS {
        let count = names(words);
        assert!(count > 0, "no row that is held names {work}");
        println!("{work}: {count}");
    }
    let from_memory = rows
        .iter()
        .filter(|row| {
            text(row, "provenance") == "memory" || text(row, "source").contains("recalled")
        })
        .count();
    println!(
        "{} rows held, {from_memory} of them from memory, {} works named",
        rows.len(),
        WORKS.len()
    );
    assert!(rows.len() >= 150 && WORKS.len() >= 25);
    let own = rows
        .iter()
        .filter(|row| text(row, "id").starts_with("own-"))
        .count();
    assert!(own >= 35, "{own} rows beyond the collection");
}

/// A row without a source, or with a tolerance that lets everything pass, is no check.
#[test]
fn rows_are_sound() {
    for row in all() {
        let id = text(row, "id");
        assert!(!text(row, "source").is_empty(), "{id} has no source");
        let practice = text(row, "provenance") == "common practice";
        assert_eq!(
            practice,
            text(row, "source").contains("common practice, no source"),
            "{id}"
        );
        let rel = row["rel_tol"].as_f64().unwrap_or(1.0);
        assert!(rel <= 0.1, "{id}: {rel}");
        for (key, value) in row["expected"].as_object().expect("expected values") {
            let value = value.as_f64().unwrap_or(0.0);
            let abs = row["abs_tol"].as_f64().unwrap_or(0.0);
            assert!(
                value == 0.0 || abs < 0.12 * value.abs(),
                "{id}, {key}: {abs} of {value}"
            );
        }
    }
}
