//! Two studies compared with each other: what is said of what moved, and why.

use anstyle::Style;
use counterpoise::catalog::built_in;
use counterpoise::decide::{Resolver, compare};
use counterpoise::report::{Page, compare_screen};
use counterpoise::study::{RankedJob, to_json};

fn made(name: &str, sets: &[(&str, &str)]) -> RankedJob {
    let path = format!("{}/examples/{name}.json", env!("CARGO_MANIFEST_DIR"));
    let bytes = std::fs::read(path).expect("the example is there");
    let sets: Vec<(String, String)> = sets
        .iter()
        .map(|(field, value)| ((*field).to_owned(), (*value).to_owned()))
        .collect();
    let catalog = built_in().expect("the catalog is sound");
    let resolver = Resolver::new(&bytes, &sets, catalog).expect("it is ranked");
    let text = to_json(resolver.study()).expect("numbers");
    RankedJob::read(text.as_bytes()).expect("it is a study")
}

/// What is said of an example and of it with changes.
fn told(name: &str, before: &[(&str, &str)], after: &[(&str, &str)]) -> String {
    let page = Page {
        width: 500,
        heading: Style::new(),
    };
    compare_screen(&compare(&made(name, before), &made(name, after)), page)
}

/// Air of a workshop.
const AIR: (&str, &str) = (
    "site.air",
    r#"{ "pressure": "6 bar", "flow": "200 L/min" }"#,
);

#[test]
fn a_supply_taken_away_is_named() {
    let says = told("tray-pusher", &[], &[("site.air", "null")]);
    let out = "Out: air cylinder (was 1): it needs air, and there is none on site.";
    assert!(says.contains(out), "{says}");
    let brings = "Before: it brings a compressor, and there was air on site";
    assert!(says.contains(brings), "{says}");
    assert!(!says.contains("no longer passes"), "{says}");
    let says = told("tray-pusher", &[("site.air", "null")], &[AIR]);
    assert!(
        says.contains("Before: it needs air, and there was none on site"),
        "{says}"
    );
    assert!(!says.contains("no longer passes"), "{says}");
    let says = told("kiln-door", &[], &[("site.hand", "null")]);
    let nobody = "it needs somebody to crank, and there is nobody";
    let count = says.matches(nobody).count();
    assert_eq!(count, 1, "one reason, one line: {says}");
}

#[test]
fn a_change_of_the_lead_is_said_first() {
    let says = told("tray-pusher", &[], &[("site.air", "null")]);
    let (_, moved) = says
        .split_once("How the ranking moved")
        .expect("the heading");
    let first = moved.trim_start().lines().next().expect("a line");
    assert_eq!(
        first.trim(),
        "First is ball screw, stepper, no longer air cylinder."
    );
    let says = told("kiln-door", &[], &[("goals.noise.worth", "41")]);
    assert!(
        says.contains("First stays rack and pinion crank."),
        "{says}"
    );
}

#[test]
fn a_want_on_another_line_of_value_says_so() {
    let says = told("kiln-door", &[], &[("goals.noise.target", "50 dB")]);
    assert!(
        says.contains("The value of noise is counted along another line now: from 0 at "),
        "{says}"
    );
    assert!(
        says.contains(" at 50 dB. Net values move by that alone"),
        "{says}"
    );
    let says = told("kiln-door", &[], &[("goals.noise.worth", "41")]);
    assert!(!says.contains("another line"), "{says}");
}

#[test]
fn a_process_is_told_point_by_point_without_braces() {
    let says = told(
        "tray-pusher",
        &[],
        &[(
            "motion.process",
            r#"[ { "at": "0 mm", "out": "20 N", "back": "0 N", "hold": "0 N" } ]"#,
        )],
    );
    assert!(says.contains("motion.process"), "{says}");
    assert!(!says.contains(['{', '"']), "{says}");
}

/// A kind that has another place for no reason of its own is not told apart, and what prints as before did not move.
#[test]
fn what_prints_the_same_did_not_move() {
    let says = told("kiln-door", &[], &[("site.hand", "null")]);
    assert_eq!(says.matches("Only others moved").count(), 1, "{says}");
    assert!(!says.contains("others moved past it"), "{says}");
    for after in [
        ("goals.noise.worth", "41"),
        ("rates.electricity_per_kwh", "0.3001"),
    ] {
        let says = told("kiln-door", &[], &[after]);
        for line in says.lines().filter(|line| line.contains(": stays ")) {
            let (_, nets) = line.split_once("net value ").expect("its net value");
            let (was, rest) = nets.split_once(" → ").unwrap_or((nets, ""));
            assert!(!rest.starts_with(&format!("{was} ")), "{line}");
        }
    }
}

/// A lid of 45 kg for one of 38 kg: its inertia as a bar, m r²/3 with r = 0.42 m, goes with it, and what each drive gains or
/// loses adds up to its net value.
#[test]
fn a_heavier_lid_says_what_it_moves() {
    let says = told("vat-lid", &[], &[("motion.load.most", "45 kg")]);
    for asked in [
        "motion.load.most: 38 kg → 45 kg",
        "motion.inertia: 2.2344 kg m2 → 2.646 kg m2",
        "First stays electric cylinder, ball screw.",
    ] {
        assert!(says.contains(asked), "{asked}: {says}");
    }
    let minus = |text: &str| text.replace('−', "-");
    let mut moved = 0;
    // What only others moved says that its net value is what it was.
    let lines = says.lines().filter(|line| line.contains("net value "));
    for line in lines.filter(|line| !line.contains("is what it was")) {
        let line = minus(line);
        let (_, worth) = line.split_once("net value ").expect("it says so");
        let (worths, parts) = worth.split_once(" EUR: ").expect("what moved it");
        let (before, after) = worths.split_once(" → ").expect("two worths");
        let number = |text: &str| text.parse::<f64>().expect("a number");
        let gain = number(after) - number(before);
        let given = parts.split('(').skip(1).filter_map(|part| {
            let (part, _) = part.split_once(" EUR)")?;
            part.trim_start_matches('+').parse::<f64>().ok()
        });
        let (count, sum) = given.fold((0.0, 0.0), |(n, sum), part| (n + 1.0, sum + part));
        // Each is rounded to whole money.
        assert!(
            (sum - gain).abs() <= 0.5 * count + 1.0,
            "{line}: {sum} for {gain}"
        );
        moved += 1;
    }
    assert!(moved >= 4, "{says}");
}
