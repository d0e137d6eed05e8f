//! By answers from a file, and without a terminal.

use std::path::Path;

use assert_cmd::Command;
use assert_cmd::assert::Assert;

use super::{NAMES, example, study, value};

fn ask(folder: &Path, arguments: &[&str], answers: &str) -> Assert {
    Command::cargo_bin("counterpoise")
        .expect("the program is built")
        .current_dir(folder)
        .env("NO_COLOR", "1")
        .arg("ask")
        .args(arguments)
        .write_stdin(answers)
        .assert()
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).expect("output is UTF-8")
}

/// All that a person reads, spaces and line breaks alike.
fn said(run: &Assert) -> String {
    let words = text(&run.get_output().stderr);
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn answers_from_a_file_give_the_same_study() {
    for name in NAMES {
        let example = example(name);
        let folder = tempfile::tempdir().expect("a folder");
        let answers = format!("{}\nrank\n", example.lines.join("\n"));
        let run = ask(folder.path(), &["made.json", "--answers", "-"], &answers).success();
        assert_eq!(
            study(&folder.path().join("made.json")),
            study(&example.file),
            "{name}"
        );
        let output = run.get_output();
        for text in [text(&output.stdout), text(&output.stderr)] {
            assert!(!text.contains('\u{1b}'), "no escapes with NO_COLOR");
            assert!(
                text.lines().all(|line| line.chars().count() <= 80),
                "80 columns"
            );
        }
    }
}

#[test]
fn answers_by_name_go_on_with_a_file_whatever_their_order() {
    for name in NAMES {
        let example = example(name);
        let folder = tempfile::tempdir().expect("a folder");
        let made = folder.path().join("made.json");
        let begun = example.lines[..4].join("\n");
        ask(folder.path(), &["made.json", "--answers", "-"], &begun).code(2);
        let mut lines: Vec<String> = example
            .answers
            .iter()
            .map(|(question, text)| format!("{question} = {text}"))
            .collect();
        lines.reverse();
        let all = lines.join("\n");
        ask(folder.path(), &["made.json", "--answers", "-"], &all).success();
        assert_eq!(study(&made), study(&example.file), "{name}");
    }
}

#[test]
fn without_a_terminal_it_says_what_to_do_instead() {
    let folder = tempfile::tempdir().expect("a folder");
    let run = ask(folder.path(), &["made.json"], "").code(2);
    let says = said(&run);
    assert!(says.contains("counterpoise rank"), "{says}");
    assert!(says.contains("counterpoise schema requirements"), "{says}");
    assert!(!folder.path().join("made.json").exists());
}

#[test]
fn answers_that_run_out_leave_a_file_that_rank_refuses() {
    let folder = tempfile::tempdir().expect("a folder");
    let run = ask(
        folder.path(),
        &["made.json", "--answers", "-"],
        "Door\n900 mm, up\n",
    )
    .code(2);
    assert!(said(&run).contains("the answers came to their end"));
    let run = Command::cargo_bin("counterpoise")
        .expect("the program is built")
        .current_dir(folder.path())
        .args(["rank", "made.json"])
        .assert()
        .code(2);
    let says = said(&run);
    for missing in [
        "motion.load.most",
        "timing.cycles_per_hour",
        "site",
        "goals.travel_time",
    ] {
        assert!(says.contains(missing), "{missing}: {says}");
    }
}

#[test]
fn what_an_answer_implies_and_rules_out_is_said_at_once() {
    let folder = tempfile::tempdir().expect("a folder");
    let lines = "Pusher\n250 mm, level\n2 kg, 6 kg\n15 N\n600 an hour, 10, 180\n3500 EUR, 40\n1 s, 0.5 s, 300\nanywhere\n";
    let run = ask(folder.path(), &["made.json", "--answers", "-"], lines).code(2);
    let says = said(&run);
    // 600 an hour, 10 hours, 180 days: 300 hours of seconds a year at 40.
    assert!(says.contains("a second saved on every cycle at 40 an hour is 12000 EUR a year, 60000 over the 5 years"), "{says}");
    // 1.5 times the mean speed of 250 mm in 1 s.
    assert!(says.contains("In 1 s: at most "), "{says}");
    assert!(says.contains("375 mm/s"), "{says}");
    assert!(says.contains("In half the time, 0.5 s: "), "{says}");
    assert!(says.contains("750 mm/s"), "{says}");
    assert!(says.contains("It rules out air cylinder drives"), "{says}");
    assert!(says.contains("if its two ends were enough"), "{says}");
    assert!(
        !says.contains("when the power fails? "),
        "a level slide is not asked what it holds"
    );
    // Held against the program's own ranking of the two files.
    let file = folder.path().join("made.json");
    let families = |stops: &str| {
        let mut job = value(&file);
        job["stops"] = stops.into();
        job["site"] = serde_json::json!({ "mains": { "power": "2.3 kW" } });
        job["power_loss"] = "may_move".into();
        job.as_object_mut().expect("an object").remove("unfinished");
        let path = folder.path().join(format!("{stops}.json"));
        std::fs::write(&path, job.to_string()).expect("a file");
        study(&path)
    };
    assert!(
        !families("anywhere")
            .contains("\"family\": \"pneumatic\",\n      \"assist\": \"none\",\n      \"design")
    );
    assert!(
        families("ends")
            .contains("\"family\": \"pneumatic\",\n      \"assist\": \"none\",\n      \"design")
    );
}

#[test]
fn one_part_can_be_asked_again_and_what_moved_is_shown() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut job = value(&example("door").file);
    job["rules"] = serde_json::json!({ "inertia_ratio_most": 8 });
    let file = folder.path().join("made.json");
    std::fs::write(&file, job.to_string()).expect("a file");
    let answers = "40 s, 4 s, 20\nnoise, added_mass\n\n\n";
    let run = ask(
        folder.path(),
        &["made.json", "--only", "goals", "--answers", "-"],
        answers,
    )
    .success();
    let shown = text(&run.get_output().stdout);
    assert!(
        shown.contains("goals.travel_time.limit: 15 s → 40 s"),
        "{shown}"
    );
    assert!(shown.contains("How the ranking moved"), "{shown}");
    let after = value(&file);
    assert_eq!(after["rules"], job["rules"], "what nobody asks about stays");
    assert_eq!(after["goals"]["noise"], job["goals"]["noise"]);
    assert!(after.get("unfinished").is_none());
    ask(
        folder.path(),
        &["made.json", "--only", "colour", "--answers", "-"],
        "",
    )
    .code(2);
}

#[test]
fn nobody_is_asked_for_what_a_beginner_cannot_know() {
    for question in counterpoise::ask::questions() {
        let all = [question.asks, question.why, question.more]
            .join(" ")
            .to_lowercase();
        for word in [
            "ramp",
            "motion law",
            "bearing spacing",
            "inertia",
            "gear ratio",
            "efficiency",
        ] {
            assert!(!all.contains(word), "{word} in {}", question.id);
        }
    }
}

#[test]
fn the_help_names_the_parts_that_can_be_asked_again() {
    let run = Command::cargo_bin("counterpoise")
        .expect("the program is built")
        .args(["ask", "--help"])
        .assert()
        .success();
    let help = text(&run.get_output().stdout);
    for part in counterpoise::ask::parts() {
        assert!(help.contains(part), "{part}: {help}");
    }
}

#[test]
fn what_is_wrong_with_a_part_is_said_by_its_place() {
    let folder = tempfile::tempdir().expect("a folder");
    let lines =
        "Door\n900 mm, up\n85 kg\nnone\n4 an hour\n4000 EUR\n6 s, 20 s, 80\n20 s, 6 s\n20, 6, 80\n";
    let run = ask(folder.path(), &["made.json", "--answers", "-"], lines).code(2);
    let says = said(&run);
    assert!(
        says.contains(
            "Not taken: the second part must be better than the first part, which here is less."
        ),
        "{says}"
    );
    assert!(
        says.contains("Not taken: three parts are asked for"),
        "{says}"
    );
    assert!(
        says.contains("Not taken: \"20\" needs a unit; write \"20 s\" or \"0.333 min\""),
        "{says}"
    );
}
