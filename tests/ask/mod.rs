//! Whole interviews: the real program at a pseudo-terminal, and by answers from a file.

#![allow(
    missing_docs,
    clippy::missing_panics_doc,
    clippy::must_use_candidate,
    reason = "helpers of one test"
)]

mod laws;
mod replay;
mod screen;
mod talk;
mod terminal;

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use assert_cmd::Command;

/// An example with its answers by the name of the question.
pub struct Example {
    pub file: PathBuf,
    pub answers: BTreeMap<String, String>,
    /// The answers in their order.
    pub lines: Vec<String>,
}

/// The examples: a door that is lifted, in metric units, a feeder in inches and pounds, and a hinged lid.
pub const NAMES: [&str; 3] = ["door", "feeder", "lid"];

pub fn example(name: &str) -> Example {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/ask");
    let text =
        std::fs::read_to_string(folder.join(format!("{name}.txt"))).expect("the answers are there");
    let pair = |line: &str| {
        line.split_once(" = ")
            .map(|(id, text)| (id.to_owned(), text.to_owned()))
    };
    Example {
        file: folder.join(format!("{name}.json")),
        answers: text.lines().filter_map(pair).collect(),
        lines: text
            .lines()
            .filter_map(pair)
            .map(|(_, text)| text)
            .collect(),
    }
}

/// The study of a file, as the program writes it.
pub fn study(file: &Path) -> String {
    let run = Command::cargo_bin("counterpoise")
        .expect("the program is built")
        .args(["rank", "--json", "-"])
        .arg(file)
        .assert()
        .success();
    String::from_utf8(run.get_output().stdout.clone()).expect("a study is UTF-8")
}

/// A file as JSON.
pub fn value(file: &Path) -> serde_json::Value {
    let text = std::fs::read_to_string(file).expect("the file is there");
    serde_json::from_str(&text).expect("the file is JSON")
}
