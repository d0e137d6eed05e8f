//! The README's screens are what the program prints.
//!
//! `UPDATE_README=1 cargo test readme::` writes them anew.

use assert_cmd::Command;

const OPEN: &str = "```text\n";
const CLOSE: &str = "```\n";

/// Commands of the README whose screen follows them.
const SHOWN: [&str; 5] = [
    "rank examples/kiln-door.json",
    "price examples/tray-pusher.json",
    "compare examples/kiln-door.json -",
    "catalog check examples/shelf",
    "catalog list examples/shelf --kind cranks",
];

/// What the program prints; a command that reads standard input is given the kiln door with a heavier load.
fn screen(command: &str) -> String {
    let kiln = include_str!("../examples/kiln-door.json");
    let run = Command::cargo_bin("counterpoise")
        .expect("the program is built")
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env("NO_COLOR", "1")
        .args(command.split(' '))
        .write_stdin(kiln.replace("85 kg", "150 kg"))
        .assert()
        .success();
    String::from_utf8(run.get_output().stdout.clone()).expect("output is UTF-8")
}

#[test]
fn the_readmes_screens_are_what_the_program_prints() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/README.md");
    let mut text = std::fs::read_to_string(path).expect("the README is there");
    for command in SHOWN {
        let typed = format!("cargo run --release -- {command}");
        let at = text
            .find(&typed)
            .unwrap_or_else(|| panic!("{typed} stands in the README"));
        let start = at + text[at..].find(OPEN).expect("a screen follows") + OPEN.len();
        let end = start + text[start..].find(CLOSE).expect("the screen ends");
        let screen = screen(command);
        if std::env::var_os("UPDATE_README").is_some() {
            text.replace_range(start..end, &screen);
        } else {
            assert!(
                text[start..end] == screen,
                "the README shows another screen after {typed}; see the head of this test"
            );
        }
    }
    if std::env::var_os("UPDATE_README").is_some() {
        std::fs::write(path, text).expect("the README can be written");
    }
}

/// Between the pieces of a conversation that the README shows.
const GAP: &str = "  ⋮\n";

#[test]
fn the_readmes_conversation_is_what_ask_says() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/README.md");
    let text = std::fs::read_to_string(path).expect("the README is there");
    let (_, after) = text
        .split_once("cargo run --release -- ask door.json\n")
        .expect("the command stands in the README");
    let (_, after) = after.split_once(OPEN).expect("a screen follows");
    let (shown, _) = after.split_once(CLOSE).expect("the screen ends");
    let answers: Vec<&str> = include_str!("ask/door.txt")
        .lines()
        .filter_map(|line| Some(line.split_once(" = ")?.1))
        .collect();
    let folder = tempfile::tempdir().expect("a folder");
    let run = Command::cargo_bin("counterpoise")
        .expect("the program is built")
        .current_dir(folder.path())
        .env("NO_COLOR", "1")
        .args(["ask", "door.json", "--answers", "-"])
        .write_stdin(format!("{}\nrank\n", answers.join("\n")))
        .assert()
        .success();
    let said = String::from_utf8(run.get_output().stderr.clone()).expect("output is UTF-8");
    let mut rest = said.as_str();
    let mut pieces = 0;
    for piece in shown.split(GAP) {
        let (_, later) = rest
            .split_once(piece)
            .unwrap_or_else(|| panic!("this is not said, or not there:\n{piece}\nbut:\n{said}"));
        rest = later;
        pieces += 1;
    }
    assert!(pieces > 2, "the README shows pieces of a conversation");
}
