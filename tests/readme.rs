//! The README's screen is what the program prints.
//!
//! `UPDATE_README=1 cargo test --test readme` writes it anew.

use assert_cmd::Command;

const OPEN: &str = "```text\n";
const CLOSE: &str = "```\n";

#[test]
fn the_readmes_screen_is_what_the_program_prints() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/README.md");
    let text = std::fs::read_to_string(path).expect("the README is there");
    assert!(
        text.contains("cargo run --release -- rank examples/kiln-door.json"),
        "the command stands in the README"
    );
    let run = Command::cargo_bin("counterpoise")
        .expect("the program is built")
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env("NO_COLOR", "1")
        .args(["rank", "examples/kiln-door.json"])
        .assert()
        .success();
    let screen = String::from_utf8(run.get_output().stdout.clone()).expect("output is UTF-8");
    let start = text.find(OPEN).expect("the README has a screen") + OPEN.len();
    let end = start + text[start..].find(CLOSE).expect("the screen ends");
    if std::env::var_os("UPDATE_README").is_some() {
        std::fs::write(path, format!("{}{screen}{}", &text[..start], &text[end..]))
            .expect("the README can be written");
    } else {
        assert!(
            text[start..end] == screen,
            "the README shows another screen; see the head of this test"
        );
    }
}
