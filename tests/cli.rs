//! The program as a whole process: exit status, streams, the same bytes twice.

use assert_cmd::Command;

fn counterpoise() -> Command {
    let mut command = Command::cargo_bin("counterpoise").expect("the program is built");
    command
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env("NO_COLOR", "1");
    command
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).expect("output is UTF-8")
}

#[test]
fn a_job_is_ranked_on_one_screen_of_80_columns() {
    let run = counterpoise()
        .args(["rank", "examples/kiln-door.json"])
        .assert()
        .code(0)
        .stderr("");
    let screen = text(&run.get_output().stdout);
    for heading in [
        "Kiln door",
        "net worth",
        "Why, and what the others trade",
        "Assumed",
        "Cautions",
    ] {
        assert!(
            screen.contains(heading),
            "{heading} is missing from:\n{screen}"
        );
    }
    let widest = screen
        .lines()
        .map(console::measure_text_width)
        .max()
        .unwrap_or(0);
    assert!(widest <= 80, "{widest} columns:\n{screen}");
}

#[test]
fn json_to_standard_output_is_the_study_alone_and_the_same_twice() {
    let once = || {
        let run = counterpoise()
            .args(["rank", "examples/tray-pusher.json", "--json", "-"])
            .assert()
            .code(0)
            .stderr("");
        run.get_output().stdout.clone()
    };
    let bytes = once();
    let study: serde_json::Value = serde_json::from_slice(&bytes).expect("the study is JSON");
    assert_eq!(study["format"], "counterpoise-study/1");
    assert!(
        study["options"]
            .as_array()
            .is_some_and(|options| !options.is_empty())
    );
    assert_eq!(bytes, once());
}

#[test]
fn a_study_file_is_written_whole_and_read_again_as_requirements() {
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("study.json");
    counterpoise()
        .args(["rank", "examples/kiln-door.json", "--json"])
        .arg(&out)
        .assert()
        .code(0);
    let study: serde_json::Value =
        serde_json::from_slice(&std::fs::read(&out).expect("written")).expect("JSON");
    let again = counterpoise()
        .args(["rank", "-", "--json", "-"])
        .write_stdin(study["requirements"].to_string())
        .assert()
        .code(0);
    let second: serde_json::Value =
        serde_json::from_slice(&again.get_output().stdout).expect("JSON");
    assert_eq!(
        study["options"], second["options"],
        "the requirements in a study give the same study"
    );
}

#[test]
fn nothing_fits_is_status_3_with_the_study_still_written() {
    let run = counterpoise()
        .args([
            "rank",
            "examples/kiln-door.json",
            "--set",
            "wants.purchase.must=5",
            "--json",
            "-",
        ])
        .assert()
        .code(3);
    let study: serde_json::Value =
        serde_json::from_slice(&run.get_output().stdout).expect("the study is JSON");
    assert_eq!(study["options"], serde_json::json!([]));
    let families: Vec<_> = study["ruled_out"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|line| &line["family"])
        .collect();
    for family in ["pneumatic", "hydraulic", "electric_screw", "hand_crank"] {
        assert!(
            families.iter().any(|name| *name == family),
            "{family} says what put it out"
        );
    }
    let fails = |line: &serde_json::Value| {
        line["fails"]
            .as_array()
            .is_some_and(|fails| !fails.is_empty())
    };
    assert!(
        study["ruled_out"]
            .as_array()
            .expect("a list")
            .iter()
            .all(fails)
    );
}

#[test]
fn wrong_input_is_status_2_with_nothing_on_standard_output() {
    let wrong = [
        (vec!["rank", "examples/none-such.json"], "cannot be read"),
        (
            vec![
                "rank",
                "examples/kiln-door.json",
                "--set",
                "wants.noise.must",
            ],
            "has no equals sign",
        ),
        (
            vec![
                "rank",
                "examples/kiln-door.json",
                "--set",
                "motion.load.most=85",
            ],
            "needs a unit",
        ),
        (
            vec![
                "rank",
                "examples/kiln-door.json",
                "--set",
                "motion.lod.most=85 kg",
            ],
            "load",
        ),
        (vec!["rank"], "FILE"),
    ];
    for (arguments, says) in wrong {
        let run = counterpoise().args(&arguments).assert().code(2).stdout("");
        let fault = text(&run.get_output().stderr);
        assert!(fault.contains(says), "{arguments:?} says: {fault}");
    }
}

#[test]
fn a_set_changes_the_job_for_one_run() {
    let run = counterpoise()
        .args([
            "rank",
            "examples/kiln-door.json",
            "--set",
            "motion.travel=1.2 m",
        ])
        .assert()
        .code(0);
    assert!(text(&run.get_output().stdout).contains("1.2 m"));
}
