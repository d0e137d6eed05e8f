//! The schemas against an independent validator: every file that the program reads or writes, and those it refuses.

use std::fs;
use std::path::{Path, PathBuf};

use crate::support;
use boon::{Compiler, SchemaIndex, Schemas};
use counterpoise::decide::{Resolver, fresh_look, near_misses, prices};
use counterpoise::requirements::Reading;
use counterpoise::study::{study, to_json};
use counterpoise::{catalog, quantity, requirements};
use serde_json::{Value, json};

/// A schema ready to judge; nothing is fetched, so a reference to another place is a fault.
struct Judge {
    schemas: Schemas,
    index: SchemaIndex,
}

impl Judge {
    fn new(schema: Value) -> Self {
        let mut schemas = Schemas::new();
        let mut compiler = Compiler::new();
        compiler.use_loader(Box::new(boon::SchemeUrlLoader::new()));
        let place = schema["$id"].as_str().expect("it has an id").to_owned();
        compiler
            .add_resource(&place, schema)
            .expect("the schema is one");
        let index = compiler
            .compile(&place, &mut schemas)
            .unwrap_or_else(|fault| panic!("{fault:#}"));
        Self { schemas, index }
    }
    fn fault(&self, file: &Value) -> Option<String> {
        let verdict = self.schemas.validate(file, self.index);
        verdict.err().map(|fault| format!("{fault:#}"))
    }
    #[track_caller]
    fn accepts(&self, file: &Value, name: &str) {
        if let Some(fault) = self.fault(file) {
            panic!("{name}: {fault}");
        }
    }
}

fn folder(name: &str) -> Vec<PathBuf> {
    let place = Path::new(env!("CARGO_MANIFEST_DIR")).join(name);
    let mut files: Vec<_> = fs::read_dir(place)
        .expect("the folder is there")
        .map(|entry| entry.expect("an entry can be read").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .collect();
    files.sort();
    files
}

fn stem(path: &Path) -> &str {
    path.file_stem()
        .and_then(|name| name.to_str())
        .expect("names are UTF-8")
}

fn json_of(path: &Path) -> Value {
    let text = fs::read_to_string(path).expect("the file can be read");
    serde_json::from_str(&text).unwrap_or_else(|fault| panic!("{}: {fault}", path.display()))
}

/// Closes every object, so that a field the schema does not know is a fault.
fn close(schema: &mut Value) {
    match schema {
        Value::Object(fields) => {
            let is_object = fields.get("type") == Some(&json!("object"));
            if is_object
                && fields.contains_key("properties")
                && !fields.contains_key("additionalProperties")
            {
                fields.insert("unevaluatedProperties".into(), false.into());
            }
            // The requirements are closed, and rely on parts of theirs that are not.
            let inner = fields
                .iter_mut()
                .filter(|(name, _)| *name != "requirements");
            inner.for_each(|(_, schema)| close(schema));
        }
        Value::Array(items) => items.iter_mut().for_each(close),
        _ => {}
    }
}

#[test]
fn every_example_is_as_the_schema_says() {
    let judge = Judge::new(requirements::schema());
    let files = [folder("examples"), folder("tests/requirements")].concat();
    assert!(files.len() >= 10);
    for path in files {
        judge.accepts(&json_of(&path), stem(&path));
    }
}

/// Refused by the schema as well as by the program.
const TOLD: &[&str] = &[
    "bare-number",
    "blank-key",
    "control-characters",
    "cycles-never",
    "cycles-too-few",
    "cycles-zero",
    "decimal-comma",
    "friction-range",
    "ideal-without-worth",
    "load-missing",
    "must-missing",
    "must-only",
    "negative-offset",
    "no-unit",
    "not-an-object",
    "not-finite",
    "other-format",
    "people-in-a-note",
    "ramps-zero",
    "rule-range",
    "several",
    "site-missing",
    "slide-field-of-hinge",
    "structure",
    "too-deep",
    "travel-time-missing",
    "unfinished",
    "unfitting-unit",
    "unknown-field",
    "unknown-rule",
    "unknown-unit",
    "unknown-want",
    "worth-negative",
    "wrong-choice",
];
/// Refused by the program alone: a number with its unit is too large or small, several fields do not go together, or
/// a key stands twice, which is gone before a validator sees it.
const NOT_TOLD: &[&str] = &[
    "almost-nothing",
    "binding",
    "dead-centre",
    "duplicate-key",
    "from-past-to",
    "ideal-no-better",
    "ideal-past-cycle",
    "incline-range",
    "least-above-most",
    "load-range",
    "past-limit",
    "people",
    "process-backwards",
    "process-three",
    "ramps-short",
    "ramps-sum",
    "rests-past-cycle",
    "swing",
    "temperature",
    "travel-range",
    "unsure",
];
/// No JSON, so no validator sees it.
const NOT_JSON: &[&str] = &["byte-order-mark", "not-json", "not-utf-8", "trailing-text"];

#[test]
fn what_the_program_refuses_is_told_by_the_schema_where_a_schema_can() {
    let judge = Judge::new(requirements::schema());
    let (mut told, mut not_told, mut not_json) = (Vec::new(), Vec::new(), Vec::new());
    let files = folder("tests/bad");
    for path in &files {
        let read = fs::read(path).expect("the file can be read");
        match serde_json::from_slice::<Value>(&read) {
            Err(_) => not_json.push(stem(path)),
            Ok(file) if judge.fault(&file).is_some() => told.push(stem(path)),
            Ok(_) => not_told.push(stem(path)),
        }
    }
    assert_eq!(told, TOLD, "told");
    assert_eq!(not_told, NOT_TOLD, "not told");
    assert_eq!(not_json, NOT_JSON, "no JSON");
}

#[test]
fn every_file_of_the_catalog_is_as_the_schema_says() {
    let judge = Judge::new(catalog::schema());
    let files = folder("catalog");
    assert!(files.len() > 35);
    for path in files {
        let mut file = json_of(&path);
        judge.accepts(&file, stem(&path));
        file["name"] = "Workshop stock".into();
        file["replaces"] = true.into();
        judge.accepts(&file, stem(&path));
        // A part without a field it must have, and one with a field it does not have.
        let part = file["parts"][0].as_object().expect("a part").clone();
        let kind = catalog::KINDS.iter().find(|kind| kind.name == stem(&path));
        let own = kind.expect("a known kind").fields.iter();
        for field in own.filter(|field| field.required) {
            let mut less = part.clone();
            less.remove(field.name).expect("it has its required fields");
            file["parts"][0] = less.into();
            assert!(
                judge.fault(&file).is_some(),
                "{}: {}",
                stem(&path),
                field.name
            );
        }
        let mut more = part.clone();
        more.insert("colour".into(), "red".into());
        file["parts"][0] = more.into();
        assert!(judge.fault(&file).is_some(), "{}", stem(&path));
    }
}

/// Folders of wrong parts that the program alone refuses: figures do not go together, are past what parts have, or files
/// of a folder do not.
const PARTS_NOT_TOLD: &[&str] = &[
    "block",
    "brake-in-part",
    "compressor",
    "conductance-past-port",
    "duplicate-id",
    "falling-series",
    "id-of-another-kind",
    "jack",
    "oil-rod-too-thin",
    "power-not-torque-times-speed",
    "pump-past-motor",
    "rod-not-below-bore",
    "rope-too-strong",
    "shaft",
    "static-below-dynamic",
    "stepper-curve",
    "torque-above-peak",
];

#[test]
fn wrong_parts_are_told_by_the_schema_where_a_schema_can() {
    let judge = Judge::new(catalog::schema());
    let place = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad_catalog");
    let mut folders: Vec<_> = fs::read_dir(place)
        .expect("the folder is there")
        .map(|entry| entry.expect("an entry can be read").path())
        .filter(|path| path.is_dir())
        .collect();
    folders.sort();
    let (mut told, mut not_told) = (0, Vec::new());
    for path in &folders {
        let name = path
            .file_name()
            .and_then(|name| name.to_str())
            .expect("UTF-8");
        let files = folder(&format!("tests/bad_catalog/{name}"));
        let read = files
            .iter()
            .map(|path| fs::read(path).expect("the file can be read"));
        let files: Vec<Value> = read
            .filter_map(|bytes| serde_json::from_slice(&bytes).ok())
            .collect();
        match files.iter().any(|file| judge.fault(file).is_some()) {
            _ if files.is_empty() => {}
            true => told += 1,
            false => not_told.push(name),
        }
    }
    assert_eq!(not_told, PARTS_NOT_TOLD);
    assert!(told > 10, "{told}");
    let crank = |id: &str, radius: &str, price: f64| {
        json!({ "format": "counterpoise-catalog/1", "kind": "cranks", "parts": [{ "id": id, "name": "crank",
            "price": price, "mass": "1 kg", "ingress": "IP65", "radius": radius, "force": "300 N" }] })
    };
    judge.accepts(&crank("a", "180 mm", 3.0), "a sound part");
    for (id, radius, price) in [
        ("a", "-180 mm", 3.0),
        ("a", "0 mm", 3.0),
        ("", "180 mm", 3.0),
        ("a", "180 mm", 1e10),
    ] {
        assert!(
            judge.fault(&crank(id, radius, price)).is_some(),
            "{id} {radius} {price}"
        );
    }
}

fn accept_studies(judge: &Judge, reading: &Reading, name: &str) -> usize {
    let parts = catalog::built_in().expect("the built-in catalog is sound");
    let made = study(reading, parts).expect("a slide is ranked");
    let text = to_json(&made).expect("all are numbers");
    let file: Value = serde_json::from_str(&text).expect("a study is JSON");
    judge.accepts(&file, name);
    made.options.len()
}

#[test]
fn the_study_of_every_example_has_the_fields_of_the_schema_and_no_others() {
    let open = counterpoise::study::schema();
    let mut closed = open.clone();
    close(&mut closed);
    assert_ne!(open, closed);
    let judge = Judge::new(closed);
    let mut options = 0;
    for path in folder("examples") {
        let reading = support::example(stem(&path), &[]);
        options += accept_studies(&judge, &reading, stem(&path));
    }
    assert!(options > 50, "{options}");
}

#[test]
fn a_study_with_everything_that_making_it_again_tells_has_no_fields_beside_the_schema() {
    let mut closed = counterpoise::study::schema();
    close(&mut closed);
    let judge = Judge::new(closed);
    let path = format!("{}/examples/backdrop-lift.json", env!("CARGO_MANIFEST_DIR"));
    let bytes = fs::read(path).expect("the example is there");
    let parts = catalog::built_in().expect("the built-in catalog is sound");
    let resolver = Resolver::new(&bytes, &[], parts).expect("it is ranked");
    let mut made = resolver.study().clone();
    near_misses(&resolver, &mut made.ruled_out);
    made.fresh_look = fresh_look(&resolver);
    made.requirement_prices = prices(&resolver);
    assert!(made.ruled_out.iter().any(|line| line.near_miss.is_some()));
    assert!(!made.requirement_prices.is_empty() && !made.robustness.is_empty());
    let text = to_json(&made).expect("all are numbers");
    let file: Value = serde_json::from_str(&text).expect("a study is JSON");
    judge.accepts(&file, "backdrop-lift");
    // The judge is no rubber stamp.
    for (place, wrong) in [
        ("/options/0/family", json!("magnetic")),
        ("/options/0/checks/0/demand", json!("much")),
        ("/requirements/motion/travel", json!(900)),
        ("/ruled_out/0/colour", json!("red")),
        ("/format", json!("counterpoise-study/1")),
    ] {
        let mut other = file.clone();
        let (around, key) = place.rsplit_once('/').expect("a path");
        other.pointer_mut(around).expect("it is there")[key] = wrong;
        assert!(judge.fault(&other).is_some(), "{place}");
    }
}

#[test]
fn a_quantity_matches_its_pattern_exactly_where_it_is_read() {
    let numbers = [
        "5",
        "5.",
        ".5",
        "1.50",
        "-5",
        "+5",
        "\u{2212}5",
        "0",
        "-0",
        "-0.0",
        "00.30",
        "1e3",
        "1E-3",
        "2e+4",
        "1.2.3",
        "",
        ".",
        "5,5",
        "e5",
        "--5",
        "nan",
        "inf",
        "5e",
        "1 000",
    ];
    let mut tried = 0;
    for kind in quantity::kinds() {
        let judge = |sign| {
            Judge::new(
                json!({ "$id": "urn:one", "type": "string", "pattern": quantity::pattern(kind, sign) }),
            )
        };
        let any = judge(quantity::Sign::Any);
        let (not_negative, positive) = (
            judge(quantity::Sign::NotNegative),
            judge(quantity::Sign::Positive),
        );
        for text in numbers.iter().flat_map(|number| texts(number)) {
            let read = quantity::parse_as(&text, kind);
            let value = Value::from(text.as_str());
            let matches = |judge: &Judge| judge.fault(&value).is_none();
            assert_eq!(matches(&any), read.is_ok(), "{text:?} as {kind:?}");
            // Where a unit's zero is another one, the sign of the number says nothing of the quantity's.
            if quantity::units_of(kind).all(|unit| unit.offset == 0.0) {
                assert_eq!(
                    matches(&not_negative),
                    read.as_ref().is_ok_and(|si| *si >= 0.0),
                    "{text:?} as {kind:?}"
                );
                assert_eq!(
                    matches(&positive),
                    read.as_ref().is_ok_and(|si| *si > 0.0),
                    "{text:?} as {kind:?}"
                );
            }
            tried += 1;
        }
    }
    assert!(tried > 50_000, "{tried}");
}

/// A number with every unit that there is, in the ways that people write them.
fn texts(number: &str) -> Vec<String> {
    let mut texts = vec![number.to_owned()];
    for unit in quantity::kinds().flat_map(quantity::units_of) {
        for spelling in unit.spellings {
            texts.push(format!("{number}{spelling}"));
            texts.push(format!("  {number} {spelling}s "));
            if spelling.contains([' ', '2', '3', '/', 'µ']) {
                for (from, to) in [
                    (" ", "·"),
                    (" ", ""),
                    (" ", " · "),
                    ("2", "²"),
                    ("3", "^3"),
                    ("/", " / "),
                    ("/", " /"),
                    ("µ", "μ"),
                ] {
                    texts.push(format!("{number} {}", spelling.replace(from, to)));
                }
            }
        }
    }
    texts
}
