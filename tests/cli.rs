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
        "net value",
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
    assert_eq!(study["format"], "counterpoise-study/2");
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
            "goals.purchase.limit=5",
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
                "goals.noise.limit",
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

fn example(name: &str) -> String {
    std::fs::read_to_string(format!("examples/{name}.json")).expect("the example is there")
}

#[test]
fn price_explain_and_compare_read_standard_input() {
    let kiln = example("kiln-door");
    for arguments in [
        vec!["price", "-"],
        vec!["explain", "-", "1"],
        vec!["compare", "examples/tray-pusher.json", "-"],
        vec!["compare", "-", "examples/tray-pusher.json"],
    ] {
        let run = counterpoise()
            .args(&arguments)
            .write_stdin(kiln.as_bytes())
            .assert()
            .code(0)
            .stderr("");
        let screen = text(&run.get_output().stdout);
        let widest = screen.lines().map(console::measure_text_width).max();
        assert!(
            widest.is_some_and(|columns| columns <= 80),
            "{arguments:?}: {widest:?}\n{screen}"
        );
        assert!(screen.lines().count() > 10, "{arguments:?}:\n{screen}");
    }
}

#[test]
fn price_writes_its_steps_into_the_study() {
    let run = counterpoise()
        .args(["price", "examples/tray-pusher.json", "--json", "-"])
        .assert()
        .code(0)
        .stderr("");
    let study: serde_json::Value =
        serde_json::from_slice(&run.get_output().stdout).expect("the study is JSON");
    let prices = study["requirement_prices"].as_array().expect("prices");
    let fields: Vec<&str> = prices
        .iter()
        .filter_map(|price| price["field"].as_str())
        .collect();
    for field in [
        "goals.travel_time.limit",
        "motion.load.most",
        "goals.position_error.limit",
        "stops",
        "power_loss",
        "goals.noise.limit",
        "goals.added_mass.limit",
        "goals.closed_length.limit",
        "goals.maintenance_hours.limit",
        "goals.purchase.limit",
    ] {
        assert!(fields.contains(&field), "{field} has no price: {fields:?}");
    }
    for price in prices {
        let steps = price["steps"].as_array().expect("steps").len();
        let words = ["stops", "power_loss"]
            .iter()
            .any(|field| price["field"] == **field);
        assert!(words || steps > 5, "{} has {steps} steps", price["field"]);
    }
}

#[test]
fn full_adds_near_misses_another_look_and_prices() {
    let run = counterpoise()
        .args(["rank", "examples/tile-fence.json", "--full", "--json", "-"])
        .assert()
        .code(0);
    let study: serde_json::Value =
        serde_json::from_slice(&run.get_output().stdout).expect("the study is JSON");
    assert!(study["requirement_prices"].is_array() && study["fresh_look"].is_array());
    assert_eq!(
        study["ruled_out"][0]["least_change"],
        serde_json::json!([{ "field": "stops", "from": "anywhere", "to": "ends" }])
    );
    let plain = counterpoise()
        .args(["rank", "examples/tile-fence.json", "--json", "-"])
        .assert()
        .code(0);
    let plain: serde_json::Value =
        serde_json::from_slice(&plain.get_output().stdout).expect("the study is JSON");
    assert!(plain["requirement_prices"].is_null() && plain["robustness"].is_array());
    assert_eq!(plain["options"], study["options"]);
}

#[test]
fn an_option_that_is_none_and_two_standard_inputs_are_refused() {
    let run = counterpoise()
        .args(["explain", "examples/tray-pusher.json", "99"])
        .assert()
        .code(2)
        .stdout("");
    let message = text(&run.get_output().stderr);
    assert!(
        message.contains("\"99\" is no option of this study"),
        "{message}"
    );
    assert!(message.contains("give a place from 1 to"), "{message}");
    let run = counterpoise()
        .args(["compare", "-", "-"])
        .assert()
        .code(2)
        .stdout("");
    let message = text(&run.get_output().stderr);
    assert!(
        message.contains("both files cannot come from standard input"),
        "{message}"
    );
    let run = counterpoise()
        .args(["compare", "examples/tray-pusher.json", "no-such-file.json"])
        .assert()
        .code(2)
        .stdout("");
    assert!(text(&run.get_output().stderr).contains("no-such-file.json"));
    counterpoise()
        .args([
            "explain",
            "examples/kiln-door.json",
            "1",
            "--set",
            "goals.purchase.limit=5",
        ])
        .assert()
        .code(3)
        .stdout("");
}

#[test]
fn a_study_made_from_other_parts_is_told() {
    let run = counterpoise()
        .args(["rank", "examples/tray-pusher.json", "--json", "-"])
        .assert()
        .code(0);
    let other = text(&run.get_output().stdout).replace("fnv1a-", "fnv1a-0");
    let run = counterpoise()
        .args(["compare", "-", "examples/tray-pusher.json"])
        .write_stdin(other)
        .assert()
        .code(0);
    let screen = text(&run.get_output().stdout);
    assert!(screen.contains("made from different parts"), "{screen}");
    assert!(screen.contains("No kind of drive moved"), "{screen}");
}

#[test]
fn a_schema_is_printed_alone_and_the_same_twice() {
    for of in ["requirements", "study", "catalog"] {
        let once = || {
            let run = counterpoise()
                .args(["schema", of])
                .assert()
                .code(0)
                .stderr("");
            run.get_output().stdout.clone()
        };
        let bytes = once();
        let schema: serde_json::Value = serde_json::from_slice(&bytes).expect("a schema is JSON");
        assert_eq!(
            schema["$schema"],
            "https://json-schema.org/draft/2020-12/schema"
        );
        assert_eq!(
            schema["title"],
            format!("counterpoise-{of}/{}", if of == "catalog" { 1 } else { 2 })
        );
        assert_eq!(bytes, once());
    }
    for (wrong, says) in [
        (vec!["schema"], "<OF>"),
        (vec!["schema", "parts"], "requirements, study, catalog"),
    ] {
        let run = counterpoise().args(&wrong).assert().code(2).stdout("");
        assert!(text(&run.get_output().stderr).contains(says));
    }
}

#[test]
fn whatever_names_a_drive_or_a_price_ends_in_what_decides_beyond_it() {
    let study = counterpoise()
        .args(["rank", "examples/kiln-door.json", "--json", "-"])
        .assert()
        .code(0);
    let study: serde_json::Value =
        serde_json::from_slice(&study.get_output().stdout).expect("the study is JSON");
    let first = study["options"][0]["id"].as_str().expect("an id");
    for command in [
        vec!["rank", "examples/kiln-door.json"],
        vec!["explain", "examples/kiln-door.json", first],
        vec!["price", "examples/tray-pusher.json"],
        vec![
            "compare",
            "examples/kiln-door.json",
            "examples/kiln-door.json",
        ],
        vec!["catalog", "list"],
        vec!["catalog", "list", "--kind", "ropes"],
    ] {
        let run = counterpoise().args(&command).assert().code(0);
        let screen = text(&run.get_output().stdout);
        let words: Vec<_> = screen.split_whitespace().collect();
        assert!(
            words.join(" ").ends_with(
                "Not for lifting or carrying people. Parts, prices and hours of the built-in catalog are invented. \
                 Preliminary sizing, not a design approval: risk assessment (ISO 12100), fluid power (ISO 4413, \
                 ISO 4414), control reliability (ISO 13849-1), local codes and licensed practice decide."
            ),
            "{command:?}"
        );
    }
}
