//! What the reader takes for granted, what it writes out, and that nothing makes it fall over.

use std::fs;

use counterpoise::quantity::Si;
use counterpoise::requirements::{Criterion, Motion, Reading, read};
use proptest::prelude::*;
use serde_json::{Value, json};

fn file(path: &str) -> Vec<u8> {
    fs::read(format!("{}/{path}", env!("CARGO_MANIFEST_DIR"))).expect("the file can be read")
}

fn kiln() -> Value {
    serde_json::from_slice(&file("examples/kiln-door.json")).expect("the example is JSON")
}

#[track_caller]
fn reading(bytes: &[u8], sets: &[(&str, &str)]) -> Reading {
    let sets: Vec<_> = sets
        .iter()
        .map(|(path, value)| ((*path).to_owned(), (*value).to_owned()))
        .collect();
    read(bytes, &sets).unwrap_or_else(|faults| {
        let texts: Vec<_> = faults.iter().map(ToString::to_string).collect();
        panic!("{}", texts.join("\n"))
    })
}

#[track_caller]
fn refusals(sets: &[(&str, &str)]) -> Vec<String> {
    let sets: Vec<_> = sets
        .iter()
        .map(|(path, value)| ((*path).to_owned(), (*value).to_owned()))
        .collect();
    let faults = read(&file("examples/kiln-door.json"), &sets).expect_err("a fault");
    faults
        .iter()
        .map(|fault| format!("{} {}", fault.path, fault.message))
        .collect()
}

/// The least a file may say.
fn sparse() -> Value {
    json!({
        "goals": { "travel_time": { "limit": "20 s", "target": "6 s", "worth": 80 } },
        "site": {},
        "timing": { "cycles_per_hour": 4 },
        "motion": { "load": { "most": "187 lb" }, "travel": "1.2 m", "incline": "90 deg", "kind": "slide" },
        "currency": "EUR",
        "format": "counterpoise-requirements/2"
    })
}

#[test]
fn a_completed_file_reads_back_the_same() {
    let lid = serde_json::from_slice(&file("tests/requirements/lid.json")).expect("JSON");
    for source in [kiln(), sparse(), lid] {
        let first = reading(source.to_string().as_bytes(), &[]);
        let again = reading(first.document.to_string().as_bytes(), &[]);
        assert_eq!(first.requirements, again.requirements);
        assert_eq!(first.document.to_string(), again.document.to_string());
        // What was filled in stands in the file now; what is absent is still said.
        for assumption in &again.assumptions {
            assert!(first.assumptions.contains(assumption), "{assumption:?}");
            let pointer = format!("/{}", assumption.field.replace('.', "/"));
            assert_eq!(first.document.pointer(&pointer), None, "{assumption:?}");
        }
    }
}

#[test]
fn what_is_left_out_is_taken_and_said() {
    let made = reading(sparse().to_string().as_bytes(), &[]);
    let taken = |field: &str| {
        let line = made.assumptions.iter().find(|line| line.field == field);
        line.map_or("", |line| line.value.as_str())
    };
    for (field, value) in [
        ("motion.load.least", "187 lb"),
        ("motion.guide.bearing_spacing", "300 mm"),
        ("motion.guide.friction", "0.05"),
        ("motion.ramps", "0.333, 0.333"),
        ("motion.process", "none"),
        ("timing.hours_per_day", "8"),
        ("power_loss", "hold"),
        ("site.air", "none"),
        ("site.hand", "nobody"),
        ("site.explosive_atmosphere", "false"),
        ("goals.travel_time.sure", "fairly"),
        ("rates.labour_per_hour", "40"),
    ] {
        assert_eq!(taken(field), value, "{field}");
    }
    assert!(made.assumptions.iter().all(|line| !line.reason.is_empty()));
    let job = &made.requirements;
    assert!(job.site.mains.is_none() && job.base.is_none());
    let keys: Vec<_> = made
        .document
        .as_object()
        .expect("an object")
        .keys()
        .collect();
    assert_eq!(
        keys,
        [
            "format",
            "title",
            "currency",
            "motion",
            "timing",
            "stops",
            "power_loss",
            "site",
            "goals",
            "rates"
        ]
    );
}

#[test]
fn a_short_travel_keeps_its_bearings_apart() {
    let made = reading(
        sparse().to_string().as_bytes(),
        &[("motion.travel", "120 mm")],
    );
    let Motion::Slide(slide) = made.requirements.task.motion else {
        panic!("a slide");
    };
    assert!((slide.bearing_spacing.si() - 0.1).abs() < 1e-15);
}

#[test]
fn a_must_that_does_not_fit_the_cycle_is_tightened() {
    // By hand: 15 cycles an hour are 240 s each; rests of 120 s twice would fill it, of 100 s twice leave 20 s a stroke.
    let made = reading(
        &file("examples/kiln-door.json"),
        &[
            ("timing.cycles_per_hour", "15"),
            ("timing.rest_out", "100 s"),
            ("timing.rest_back", "100 s"),
        ],
    );
    assert!((made.requirements.travel_time_limit_s - 20.0).abs() < 1e-12);
    assert!((made.requirements.goals[&Criterion::TravelTime].limit - 40.0).abs() < 1e-12);
    let line = made
        .assumptions
        .iter()
        .find(|line| line.field == "goals.travel_time.limit");
    assert_eq!(line.map(|line| line.value.as_str()), Some("20 s"));
    assert_eq!(made.document["goals"]["travel_time"]["limit"], "40 s");
}

#[test]
fn changes_are_made_added_and_taken_back() {
    let made = reading(
        &file("examples/kiln-door.json"),
        &[
            ("goals.noise.limit", "70 dB"),
            ("motion.process", "[{\"at\": \"0 mm\"}]"),
            ("motion.process[0].out", "50 N"),
            ("motion.process[1]", "{\"at\": \"900 mm\"}"),
            ("goals.added_mass", "null"),
            ("goals.closed_length.limit", "1.5 m"),
            ("site.oil_tolerated", "false"),
            ("timing.cycles_per_hour", "5"),
            ("rules.inertia_ratio_most", "5"),
            ("site.nothing.here", "null"),
            ("title", "\"Another door\""),
        ],
    );
    let job = &made.requirements;
    assert!((job.goals[&Criterion::Noise].limit - 70.0).abs() < 1e-12);
    assert!(!job.goals.contains_key(&Criterion::AddedMass));
    assert!((job.goals[&Criterion::ClosedLength].limit - 1.5).abs() < 1e-12);
    assert!(!job.site.oil_tolerated);
    assert_eq!(job.title, "Another door");
    let Motion::Slide(slide) = &job.motion else {
        panic!("a slide");
    };
    assert_eq!(slide.process.len(), 2);
    assert!((slide.process[0].out.si() - 50.0).abs() < 1e-12);
    let rule = made
        .assumptions
        .iter()
        .find(|line| line.field == "rules.inertia_ratio_most");
    assert_eq!(
        rule.map(|line| line.reason.as_str()),
        Some(
            "greatest load inertia over motor inertia: the file changes it from 10, common practice"
        )
    );
}

#[test]
fn a_change_that_cannot_be_made_names_its_path() {
    assert_eq!(
        refusals(&[
            ("goals..limit", "1"),
            ("stops.x", "1"),
            ("motion.load[0]", "1"),
            ("motion.process[3]", "{}")
        ]),
        [
            "--set \"goals..limit\" is not a path",
            "--set stops.x cannot be set: stops is a text, not an object",
            "--set motion.load[0] cannot be set: motion.load is an object, not a list",
            "--set motion.process[3] cannot be set: motion.process is an empty list",
        ]
    );
    assert_eq!(
        refusals(&[("goals.nois.limit", "1")])[0],
        "goals.nois is not a field that is known here"
    );
    assert_eq!(
        refusals(&[("motion.load.most", "85")])[0],
        "motion.load.most needs a unit"
    );
}

#[test]
fn an_answer_the_person_was_not_sure_of_is_an_assumption() {
    let made = reading(
        &file("examples/kiln-door.json"),
        &[("unsure", "[\"motion.offset\"]")],
    );
    let line = made
        .assumptions
        .iter()
        .find(|line| line.field == "motion.offset");
    assert_eq!(line.map(|line| line.value.as_str()), Some("40 mm"));
}

#[test]
fn a_hinge_is_read_with_its_bar_inertia() {
    let made = reading(&file("tests/requirements/lid.json"), &[]);
    let Motion::Hinge(hinge) = made.requirements.task.motion else {
        panic!("a hinge");
    };
    // By hand: 30 kg · (0.4 m)² / 3 = 1.6 kg m².
    assert!((hinge.inertia.si() - 1.6).abs() < 1e-12);
    assert!(hinge.axis_level && hinge.anchors.is_some());
}

#[test]
fn a_file_that_says_everything_leaves_little_to_assume() {
    let made = reading(&file("tests/requirements/complete.json"), &[]);
    let fields: Vec<_> = made
        .assumptions
        .iter()
        .map(|line| line.field.as_str())
        .collect();
    assert_eq!(fields, ["goals.travel_time.sure", "goals.added_mass.sure"]);
    let structure = made.requirements.structure.expect("a structure");
    assert!(structure.both_ends && structure.deflection_limit.is_some());
    let noise = made.requirements.goals[&Criterion::Noise]
        .reward
        .expect("a reward");
    assert!((noise.unsure - 0.2).abs() < 1e-12);
}

#[test]
fn every_example_is_read() {
    let folder = format!("{}/examples", env!("CARGO_MANIFEST_DIR"));
    for entry in fs::read_dir(folder).expect("examples") {
        let path = entry.expect("an entry").path();
        if path.extension().is_some_and(|ending| ending == "json") {
            reading(&fs::read(&path).expect("an example"), &[]);
        }
    }
}

/// Any JSON, with keys and texts that the format knows among them.
fn any_json() -> impl Strategy<Value = Value> {
    let words = prop::sample::select(vec![
        "85 kg",
        "900 mm",
        "-1 m",
        "slide",
        "hinge",
        "level",
        "nan",
        "1e400 N",
        "",
        "0 s",
        "trapezoid",
        "\u{202e}x",
    ]);
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<f64>().prop_map(Value::from),
        words.prop_map(Value::from),
        ".{0,12}".prop_map(Value::from),
    ];
    let keys = prop::sample::select(vec![
        "format",
        "motion",
        "kind",
        "travel",
        "load",
        "most",
        "process",
        "at",
        "anchors",
        "base",
        "arm",
        "goals",
        "travel_time",
        "limit",
        "target",
        "worth",
        "site",
        "air",
        "rules",
        "unsure",
        "structure",
        "x",
    ]);
    leaf.prop_recursive(4, 40, 6, move |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..4).prop_map(Value::from),
            prop::collection::vec((keys.clone(), inner), 0..6).prop_map(|fields| fields
                .into_iter()
                .map(|(key, value)| (key.to_owned(), value))
                .collect()),
        ]
    })
}

/// Paths of every value of a document.
fn pointers(value: &Value, here: &str, found: &mut Vec<String>) {
    found.push(here.to_owned());
    match value {
        Value::Object(fields) => fields
            .iter()
            .for_each(|(key, inner)| pointers(inner, &format!("{here}/{key}"), found)),
        Value::Array(items) => {
            for (index, inner) in items.iter().enumerate() {
                pointers(inner, &format!("{here}/{index}"), found);
            }
        }
        _ => {}
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes_are_read_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        let _ = read(&bytes, &[]);
    }

    #[test]
    fn any_json_is_read_or_refused(value in any_json()) {
        let _ = read(value.to_string().as_bytes(), &[]);
    }

    #[test]
    fn a_changed_file_is_read_or_refused(
        hinge in any::<bool>(),
        changes in prop::collection::vec((any::<prop::sample::Index>(), any_json()), 1..4),
    ) {
        let source = if hinge { file("tests/requirements/lid.json") } else { file("examples/kiln-door.json") };
        let mut document: Value = serde_json::from_slice(&source).expect("JSON");
        for (place, value) in changes {
            let mut found = Vec::new();
            pointers(&document, "", &mut found);
            if let Some(old) = document.pointer_mut(&found[place.index(found.len())]) {
                *old = value;
            }
        }
        if let Ok(made) = read(document.to_string().as_bytes(), &[]) {
            let again = read(made.document.to_string().as_bytes(), &[]).expect("a completed file reads");
            prop_assert_eq!(made.requirements, again.requirements);
        }
    }

    #[test]
    fn any_change_is_made_or_refused(path in "[a-z.\\[\\]0-9]{0,20}", value in ".{0,20}") {
        let _ = read(&file("examples/kiln-door.json"), &[(path, value)]);
    }
}
