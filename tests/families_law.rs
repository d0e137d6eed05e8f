//! More parts never make the best of any family worse: beside the parts of one kind, or of all kinds, twins of them that only a
//! careless buyer would prefer, or that only some would.
//!
//! `LAW_ALL=1` tries every kind in every job that uses it, otherwise in the one with the fewest drives; all kinds at once are
//! tried in every job. `LAW_ONLY=press,lid` keeps to jobs.
//!
//! Not covered: twins that differ in efficiency or standby alone; heavier twins of counterweight blocks, whose mass is what they are;
//! files whose limit of purchase or maintenance lies between a part and its twin. Tackle, bellows and guides are one part each, by
//! life cost: a twin that is cheaper and heavier takes the place of a lighter one there, though the file may have a goal for mass.

use std::collections::{BTreeMap, BTreeSet};

use crate::{jobs, support};
use counterpoise::catalog::{Catalog, File, KINDS, Stock};
use counterpoise::requirements::Reading;
use counterpoise::study::study;
use serde_json::{Map, Value, json};

/// A job by its name: an example, or the random file of a number, with changes.
type Job = (
    &'static str,
    Source,
    &'static [(&'static str, &'static str)],
);

enum Source {
    Example(&'static str),
    Random(u64),
}
use Source::{Example, Random};

const LIGHT: (&str, &str) = (
    "goals.added_mass",
    r#"{ "limit": "400 kg", "target": "5 kg", "worth": 900 }"#,
);
const SHORT: (&str, &str) = (
    "goals.closed_length",
    r#"{ "limit": "6 m", "target": "0.2 m", "worth": 900 }"#,
);
const NO_BUDGET: (&str, &str) = ("goals.purchase", "null");
const GUIDED: (&str, &str) = ("motion.guide.supplied", "false");
const BY_HAND: [(&str, &str); 2] = [("site.mains", "null"), ("site.air", "null")];

/// Slides and hinges that between them use every kind of part, each as small as may be: the law makes some hundreds of studies.
const JOBS: &[Job] = &[
    ("press", Example("veneer-press"), &[]),
    (
        "fence, short and light",
        Example("tile-fence"),
        &[LIGHT, SHORT],
    ),
    ("shutter", Example("cellar-shutter"), &[]),
    ("pusher", Example("tray-pusher"), &[LIGHT]),
    (
        "pusher in the cold",
        Example("tray-pusher"),
        &[LIGHT, ("site.temperature.least", "-10 degC")],
    ),
    (
        "pusher of many years",
        Example("tray-pusher"),
        &[LIGHT, ("timing.years", "20")],
    ),
    ("lid", Example("vat-lid"), &[LIGHT, NO_BUDGET]),
    // The drum out on its rails would tip the base.
    (
        "drawer on rails",
        Example("seed-drawer"),
        &[GUIDED, NO_BUDGET, ("base", "null")],
    ),
    (
        "rolls by hand, on shafts",
        Example("gutter-rolls"),
        &[BY_HAND[0], BY_HAND[1], PLACE, NO_BUDGET, GUIDED],
    ),
    (
        "light rolls by hand",
        Example("gutter-rolls"),
        &[
            BY_HAND[0],
            BY_HAND[1],
            PLACE,
            NO_BUDGET,
            ("motion.process", "null"),
            ("motion.load.least", "10 kg"),
            ("motion.load.most", "20 kg"),
            ("timing.cycles_per_hour", "0.5"),
            ("site.explosive_atmosphere", "true"),
        ],
    ),
    ("on slideways", Random(51), &[BY_HAND[0]]),
];
/// Nobody asks where it stands to a part of a millimetre.
const PLACE: (&str, &str) = ("goals.position_error", "null");

/// What a twin is beside its part.
type Change = (&'static str, fn(&mut Map<String, Value>));

const CHANGES: [Change; 5] = [
    ("1 cheaper, 1 h of maintenance a year more", |part| {
        add(part, "price", -cheaper(part));
        add(part, "maintenance_hours", 1.0);
    }),
    ("1 cheaper, 3 h to fit more", |part| {
        add(part, "price", -cheaper(part));
        add(part, "fit_hours", 3.0);
    }),
    ("1 cheaper, 500 of consumables a year", |part| {
        add(part, "price", -cheaper(part));
        add(part, "consumables", 500.0);
    }),
    ("more expensive, lighter, quieter and shorter", |part| {
        let costlier = 5.0 + 0.05 * number(part, "price");
        add(part, "price", costlier);
        bring(part, 0.8, -3.0);
    }),
    ("1 cheaper, heavier, louder and longer", |part| {
        add(part, "price", -cheaper(part));
        bring(part, 1.3, 6.0);
    }),
];

fn number(part: &Map<String, Value>, field: &str) -> f64 {
    part.get(field).and_then(Value::as_f64).unwrap_or(0.0)
}

/// 1, or a tenth of what costs less than ten.
fn cheaper(part: &Map<String, Value>) -> f64 {
    (0.1 * number(part, "price")).min(1.0)
}

fn add(part: &mut Map<String, Value>, field: &str, more: f64) {
    let sum = number(part, field) + more;
    part.insert(field.into(), json!(sum));
}

/// Changes what nothing but a goal of the file asks about: mass, length and play by a factor, sound by so many dB.
fn bring(part: &mut Map<String, Value>, factor: f64, louder_db: f64) {
    // A block of a counterweight is its mass.
    if !part.contains_key("block") {
        scale(part, "mass", |value| value * factor);
    }
    scale(part, "backlash", |value| value * factor);
    // The length of a brake, a motor, a coupling, a gearbox or a lock; what a screw is cut to is another matter.
    for field in ["length", "zero_stroke_length", "fixed_length"] {
        scale(part, field, |value| value * (1.0 + 0.1 * (factor - 1.0)));
    }
    scale(part, "noise", |value| value + louder_db);
}

fn scale(part: &mut Map<String, Value>, field: &str, by: impl Fn(f64) -> f64) {
    let Some(Value::String(text)) = part.get(field) else {
        return;
    };
    let (value, unit) = text.split_once(' ').expect("a number and a unit");
    let value: f64 = value.parse().expect("a number");
    let text = format!("{} {unit}", by(value));
    part.insert(field.into(), text.into());
}

/// The parts of a kind with a twin of each, as a file of one's own would add them.
fn twins(kind: &str, change: &Change) -> File {
    let path = format!("{}/catalog/{kind}.json", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).expect("the built-in file is there");
    let mut file: Value = serde_json::from_str(&text).expect("it is JSON");
    for part in file["parts"].as_array_mut().expect("it has parts") {
        let part = part.as_object_mut().expect("a part is an object");
        // Before the part itself by id: of equals the first stays.
        let id = format!("a-{}", part["id"].as_str().expect("an id"));
        part.insert("id".into(), id.into());
        change.1(part);
    }
    File {
        name: format!("{kind}.json"),
        bytes: file.to_string().into_bytes(),
    }
}

fn catalog(files: &[File]) -> Catalog {
    let stock = Stock::with("shop", files).unwrap_or_else(|faults| panic!("{faults:#?}"));
    stock.catalog().expect("a checked stock is sound")
}

/// The best net value of each family with each assist, and of each kind of drive; and how often parts of each kind are in use.
#[derive(Default)]
struct Best {
    net: BTreeMap<String, f64>,
    used: BTreeMap<String, usize>,
    options: usize,
}

fn best(reading: &Reading, catalog: &Catalog) -> Best {
    let mut best = Best::default();
    for option in study(reading, catalog).expect("it is ranked").options {
        best.options += 1;
        let names = [
            format!("{} with {}", option.family, option.assist),
            option.drive_type.clone(),
        ];
        for name in names {
            let net = best.net.entry(name).or_insert(f64::NEG_INFINITY);
            *net = net.max(option.net_value);
        }
        for part in &option.parts {
            *best.used.entry(part.kind.to_string()).or_default() += 1;
        }
    }
    best
}

/// What got worse.
fn worse(before: &Best, after: &Best) -> Vec<String> {
    let lines = before.net.iter().filter_map(|(name, before)| {
        let after = after.net.get(name).copied().unwrap_or(f64::NEG_INFINITY);
        // A hair: money is summed in another order.
        (after < before - 1e-6).then(|| format!("{name}: {before:.2} -> {after:.2}"))
    });
    lines.collect()
}

#[test]
fn more_parts_never_make_the_best_of_a_family_worse() {
    let (all, only) = (
        std::env::var("LAW_ALL").is_ok(),
        std::env::var("LAW_ONLY").ok(),
    );
    let built_in = catalog(&[]);
    let jobs: Vec<(&str, Reading, Best)> = JOBS
        .iter()
        .filter(|job| {
            only.as_deref()
                .is_none_or(|only| only.split(',').any(|name| name == job.0))
        })
        .map(|(name, file, sets)| {
            let reading = match file {
                Example(file) => support::example(file, sets),
                Random(number) => support::reading(&jobs::text(*number), sets),
            };
            let before = best(&reading, &built_in);
            (*name, reading, before)
        })
        .collect();
    let (mut broken, mut tried) = (Vec::new(), BTreeSet::new());
    let mut try_with =
        |what: &str, parts: &Catalog, (name, reading, before): &(&str, Reading, Best)| {
            for line in worse(before, &best(reading, parts)) {
                broken.push(format!("{name}, {what}: {line}"));
            }
        };
    for change in &CHANGES {
        let files: Vec<File> = KINDS.iter().map(|kind| twins(kind.name, change)).collect();
        let parts = catalog(&files);
        for job in &jobs {
            try_with(&format!("all {}", change.0), &parts, job);
        }
    }
    for kind in KINDS {
        let kind = kind.name;
        let mut using: Vec<_> = jobs
            .iter()
            .filter(|job| job.2.used.contains_key(kind))
            .collect();
        using.sort_by_key(|job| job.2.options);
        if !using.is_empty() {
            tried.insert(kind);
        }
        for change in &CHANGES {
            let parts = catalog(&[twins(kind, change)]);
            for job in using.iter().take(if all { usize::MAX } else { 1 }) {
                try_with(&format!("{kind} {}", change.0), &parts, job);
            }
        }
    }
    assert!(
        broken.is_empty(),
        "{} got worse:\n{}",
        broken.len(),
        broken.join("\n")
    );
    let unused: Vec<_> = KINDS
        .iter()
        .filter(|kind| !tried.contains(kind.name))
        .collect();
    assert!(only.is_some() || unused.is_empty(), "in no job: {unused:?}");
}

/// A power unit that is 1 cheaper and wants an hour of care a week must not hide the good one beside it.
#[test]
fn a_unit_that_wants_care_does_not_hide_a_good_one() {
    let reading = support::example("veneer-press", &[]);
    let before = best(&reading, &catalog(&[]));
    let path = format!(
        "{}/catalog/oil_power_units.json",
        env!("CARGO_MANIFEST_DIR")
    );
    let text = std::fs::read_to_string(path).expect("the built-in file is there");
    let mut file: Value = serde_json::from_str(&text).expect("it is JSON");
    let parts = file["parts"].as_array_mut().expect("it has parts");
    parts.retain(|part| part["id"] == "oil-unit-0p55-125");
    let part = parts[0].as_object_mut().expect("a part is an object");
    part.insert("id".into(), "neglected".into());
    add(part, "price", -1.0);
    add(part, "maintenance_hours", 60.0);
    let file = File {
        name: "oil_power_units.json".into(),
        bytes: file.to_string().into_bytes(),
    };
    let worse = worse(&before, &best(&reading, &catalog(&[file])));
    assert!(worse.is_empty(), "{worse:?}");
}
