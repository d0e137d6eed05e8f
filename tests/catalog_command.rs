//! `counterpoise catalog` and `--catalog` as a whole process: exit status, streams, folders that are wrong.

use std::fs;
use std::path::Path;

use assert_cmd::Command;
use assert_cmd::assert::Assert;

fn run(arguments: &[&str]) -> Assert {
    let mut command = Command::cargo_bin("counterpoise").expect("the program is built");
    command
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env("NO_COLOR", "1")
        .args(arguments)
        .assert()
}

fn out(assert: &Assert) -> String {
    String::from_utf8(assert.get_output().stdout.clone()).expect("output is UTF-8")
}

fn errors(assert: &Assert) -> String {
    String::from_utf8(assert.get_output().stderr.clone()).expect("errors are UTF-8")
}

fn path(folder: &Path) -> &str {
    folder.to_str().expect("a plain path")
}

const CRANKS: &str =
    "id,name,price,mass [kg],ingress,radius [mm],force [N]\r\nmine,crank,3,1,IP65,200,300\r\n";

/// A folder with these files.
fn folder(files: &[(&str, &[u8])]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, bytes) in files {
        fs::write(folder.path().join(name), bytes).expect("a file");
    }
    folder
}

#[test]
fn own_parts_are_ranked_and_named_in_the_study() {
    let shop = folder(&[
        ("cranks.only.csv", CRANKS.as_bytes()),
        ("notes.txt", b"\xff"),
    ]);
    let job = [
        "rank",
        "examples/kiln-door.json",
        "--json",
        "-",
        "--catalog",
        path(shop.path()),
    ];
    let study = out(&run(&job).code(0).stderr(""));
    let study: serde_json::Value = serde_json::from_str(&study).expect("a study");
    let name = shop.path().file_name().expect("a name").to_string_lossy();
    assert_eq!(study["catalog"]["name"], format!("built-in with {name}"));
    let options = study["options"].as_array().expect("options");
    let parts = options
        .iter()
        .flat_map(|option| option["parts"].as_array().expect("parts"));
    let cranks: Vec<_> = parts.filter(|part| part["kind"] == "cranks").collect();
    assert!(!cranks.is_empty());
    assert!(cranks.iter().all(|part| part["id"] == "mine"), "{cranks:?}");
}

/// The screen names the catalog where it is not the built-in one, and only there.
#[test]
fn rank_and_explain_name_the_catalog() {
    let shop = folder(&[("cranks.csv", CRANKS.as_bytes())]);
    let name = shop
        .path()
        .file_name()
        .expect("a name")
        .to_string_lossy()
        .into_owned();
    for command in [
        &["rank", "examples/kiln-door.json"][..],
        &["explain", "examples/kiln-door.json", "1"],
    ] {
        let words = |arguments: &[&str]| {
            out(&run(arguments).code(0))
                .split_whitespace()
                .collect::<Vec<_>>()
                .join(" ")
        };
        let own = words(&[command, &["--catalog", path(shop.path())]].concat());
        assert!(
            own.contains(&format!("Parts: built-in with {name} (digest fnv1a-")),
            "{own}"
        );
        assert!(!words(command).contains("Parts: built-in"), "{command:?}");
    }
}

#[test]
fn rank_refuses_what_check_refuses() {
    let shop = folder(&[("cranks.csv", CRANKS.replace("200", "200 kg").as_bytes())]);
    let check = errors(
        &run(&["catalog", "check", path(shop.path())])
            .code(2)
            .stdout(""),
    );
    let job = [
        "rank",
        "examples/kiln-door.json",
        "--catalog",
        path(shop.path()),
    ];
    let rank = errors(&run(&job).code(2).stdout(""));
    assert_eq!(check, rank);
    assert!(
        check.starts_with(
            "error: cranks.csv line 2: mine.radius has a unit that does not fit, \"kg\""
        ),
        "{check}"
    );
}

#[test]
fn a_sound_folder_is_said_to_be() {
    let shop = folder(&[
        ("cranks.only.csv", CRANKS.as_bytes()),
        ("Crank-80.JSON", b"{\"format\":\"counterpoise-catalog/1\",\"kind\":\"spur_gears\",\"parts\":[{\"id\":\"spur-gear-16-2\",\"name\":\"gear\",\"price\":3,\"mass\":\"1 kg\",\"ingress\":\"IP54\",\"ratio\":2,\"torque\":\"16 Nm\",\"efficiency\":0.96}]}"),
    ]);
    let text = out(&run(&["catalog", "check", path(shop.path())])
        .code(0)
        .stderr(""));
    assert!(text.contains("is sound: 2 parts in 2 files"), "{text}");
    assert!(
        text.contains("stand instead of the 8 built-in ones"),
        "{text}"
    );
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("spur-gear-16-2"), "{text}");
    let listed = out(&run(&["catalog", "list", path(shop.path()), "--kind", "cranks"]).code(0));
    assert!(
        listed.contains("mine") && listed.contains("cranks.only.csv"),
        "{listed}"
    );
    assert!(!listed.contains("crank-80"), "{listed}");
}

#[test]
fn wrong_folders_are_told_apart() {
    let says = |folder: &Path, text: &str| {
        let run = run(&["catalog", "check", path(folder)]).code(2).stdout("");
        let errors = errors(&run);
        assert!(errors.contains(text), "{errors}");
    };
    let empty = folder(&[("readme.txt", b"")]);
    says(empty.path(), "holds no *.json or *.csv file");
    says(&empty.path().join("none"), "cannot be read");
    says(&empty.path().join("readme.txt"), "is a file, not a folder");
    let inside = folder(&[]);
    fs::create_dir(inside.path().join("cranks.csv")).expect("a folder");
    says(inside.path(), "cranks.csv: is not a file");
    let huge = folder(&[]);
    let file = fs::File::create(huge.path().join("cranks.csv")).expect("a file");
    file.set_len((4 << 20) + 1).expect("a length");
    says(
        huge.path(),
        "cranks.csv: is larger than 4 MiB, which no file of parts is",
    );
}

#[test]
fn three_ids_and_a_count_are_named_of_the_built_in_parts_that_are_replaced() {
    let listed = out(&run(&["catalog", "list", "--kind", "cranks", "--csv"]).code(0));
    let shop = folder(&[("cranks.csv", listed.as_bytes())]);
    let text = out(&run(&["catalog", "check", path(shop.path())]).code(0));
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        words.contains("crank-80, ") && words.contains(" and 5 more"),
        "{text}"
    );
    assert!(words.contains("what they do"), "{text}");
}

#[test]
fn lists_keep_to_80_columns_without_colour() {
    let kinds = out(&run(&["catalog", "list"]).code(0).stderr(""));
    let mut lists = vec![kinds.clone()];
    for kind in counterpoise::catalog::KINDS {
        assert!(kinds.contains(kind.name), "{}", kind.name);
    }
    for kind in [
        "air_cylinders",
        "controls",
        "stepper_motors",
        "oil_power_units",
    ] {
        lists.push(out(&run(&["catalog", "list", "--kind", kind]).code(0)));
    }
    lists.push(out(
        &run(&["catalog", "list", "--find", "servo brake"]).code(0)
    ));
    for list in lists {
        assert!(!list.contains('\u{1b}'));
        let widest = list
            .lines()
            .map(console::measure_text_width)
            .max()
            .unwrap_or(0);
        assert!(widest <= 80, "{widest} columns:\n{list}");
    }
}

#[test]
fn wrong_questions_are_refused() {
    for (arguments, text) in [
        (
            &["--kind", "air_cylinder"][..],
            "did you mean \"air_cylinders\"?",
        ),
        (
            &["--kind", "cranks", "--fields", "radus"],
            "did you mean \"radius\"?",
        ),
        (&["--where", "bore>=40"], "needs a unit"),
        (&["--csv"], "--kind"),
        (
            &["--kind", "cranks", "--csv", "--fields", "radius"],
            "cannot be used with",
        ),
    ] {
        let list = ["catalog", "list"]
            .iter()
            .chain(arguments)
            .copied()
            .collect::<Vec<_>>();
        let errors = errors(&run(&list).code(2).stdout(""));
        assert!(errors.contains(text), "{errors}");
    }
}
