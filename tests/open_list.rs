//! Lists of what a test leaves open, each line a name and its cause.

use std::collections::BTreeMap;
use std::fs;

/// What the list in a folder leaves open, each with its cause.
pub fn open_in(folder: &str) -> BTreeMap<String, String> {
    let text = fs::read_to_string(format!("{folder}/open.txt")).expect("the list");
    let lines = text.lines().filter(|line| !line.starts_with('#'));
    let pair = |line: &str| {
        line.split_once(": ")
            .map(|(name, why)| (name.into(), why.into()))
    };
    lines
        .map(|line| pair(line).expect("a name and a cause"))
        .collect()
}
