//! Laws that every drive family obeys, run over the registry: a new family needs no edit here.

use std::collections::{BTreeMap, BTreeSet};

use crate::support;
use counterpoise::catalog::{self, Catalog, File, Stock};
use counterpoise::family::FAMILIES;
use counterpoise::study::{Study, study};

const EXAMPLES: [&str; 4] = ["kiln-door", "veneer-press", "tray-pusher", "tile-fence"];

/// The checks of thrust, holding and peak torque of every family: for a fixed drive without assist on an upward slide a heavier
/// load never lowers them.
const GROWING: [&str; 14] = [
    "air_cylinder.load_factor",
    "air_cylinder.load_factor_held",
    "air_cylinder.buckling",
    "rod_lock.holding",
    "oil_cylinder.pressure",
    "oil_cylinder.rod_buckling",
    "screw.column",
    "servo_motor.peak_torque",
    "stepper_motor.pull_out",
    "gear_motor.torque_line",
    "electric_cylinder.force",
    "brake.torque",
    "crank.hand_force",
    "load_brake.torque",
];

fn ranked(name: &str, sets: &[(&str, &str)]) -> Study {
    study(
        &support::example(name, sets),
        catalog::built_in().expect("the built-in catalog is sound"),
    )
    .expect("a slide is ranked")
}

/// The parts of a drive and its design time: the same drive under another load.
type Fixed = (Vec<(String, u32)>, String);

fn utilisations(made: &Study) -> BTreeMap<Fixed, BTreeMap<String, f64>> {
    let plain = made.options.iter().filter(|option| option.assist == "none");
    plain
        .map(|option| {
            let parts = option
                .parts
                .iter()
                .map(|part| (part.id.clone(), part.quantity))
                .collect();
            let time = format!("{:.6}", option.design_travel_time_s);
            let checks = option
                .checks
                .iter()
                .filter(|check| GROWING.contains(&&*check.id));
            (
                (parts, time),
                checks
                    .map(|check| (check.id.to_string(), check.utilisation))
                    .collect(),
            )
        })
        .collect()
}

#[test]
fn a_heavier_load_never_lowers_thrust_holding_or_torque() {
    let mut compared = BTreeSet::new();
    let at = |mass: &str| {
        let load = [("motion.load.least", mass), ("motion.load.most", mass)];
        utilisations(&ranked("kiln-door", &load))
    };
    let steps = ["70 kg", "72 kg", "75 kg", "78 kg"].map(at);
    for pair in steps.windows(2) {
        for (drive, before) in &pair[0] {
            for (id, after) in pair[1].get(drive).into_iter().flatten() {
                compared.insert(id.as_str());
                assert!(
                    *after >= before[id] - 1e-9,
                    "{drive:?}: {id} falls from {} to {after}",
                    before[id]
                );
            }
        }
    }
    // This door has cheaper drives than those with a servo motor, which are kept for no load.
    let missed: Vec<_> = GROWING
        .iter()
        .filter(|id| !compared.contains(*id))
        .collect();
    assert_eq!(missed, [&"servo_motor.peak_torque"]);
}

#[test]
fn every_check_that_is_said_to_grow_is_made_somewhere() {
    let made = EXAMPLES.map(|name| ranked(name, &[]));
    let options = made.iter().flat_map(|study| &study.options);
    let known: BTreeSet<_> = options
        .flat_map(|option| option.checks.iter().map(|check| &*check.id))
        .collect();
    let unknown: Vec<_> = GROWING.iter().filter(|id| !known.contains(*id)).collect();
    assert!(unknown.is_empty(), "no option has {unknown:?}");
}

#[test]
fn a_stricter_must_never_adds_a_kind_of_train() {
    let stricter = [
        ("goals.purchase.limit", ["3000", "1500", "1000"]),
        ("goals.noise.limit", ["75 dB", "66 dB", "60 dB"]),
        ("goals.position_error.limit", ["2 mm", "0.5 mm", "0.2 mm"]),
        ("goals.added_mass.limit", ["100 kg", "30 kg", "12 kg"]),
    ];
    let kinds = |made: Study| {
        made.options
            .into_iter()
            .map(|option| option.drive_type)
            .collect::<BTreeSet<_>>()
    };
    for name in EXAMPLES {
        for (path, values) in stricter {
            // Limits only, so that a reward does not move with them.
            let goal = path.trim_end_matches(".limit");
            let mut before: Option<BTreeSet<String>> = None;
            for value in values {
                let quoted = if path == "goals.purchase.limit" {
                    value.to_owned()
                } else {
                    format!("{value:?}")
                };
                let only = format!("{{\"limit\": {quoted}}}");
                let now = kinds(ranked(name, &[(goal, &only)]));
                if let Some(before) = &before {
                    let added: Vec<_> = now.difference(before).collect();
                    assert!(added.is_empty(), "{name}: {path} = {value} adds {added:?}");
                }
                before = Some(now);
            }
        }
    }
}

#[test]
fn every_family_is_offered_or_says_what_put_it_out() {
    for name in EXAMPLES {
        let made = ranked(name, &[]);
        for family in FAMILIES {
            let offered = made
                .options
                .iter()
                .any(|option| option.family == family.name && option.assist == "none");
            let out = made
                .ruled_out
                .iter()
                .find(|line| line.family == family.name && line.assist == "none");
            assert!(
                offered != out.is_some(),
                "{name}: {} is offered {offered}, ruled out {out:?}",
                family.name
            );
            assert!(
                out.is_none_or(|line| !line.fails.is_empty()),
                "{name}: {} says why",
                family.name
            );
        }
    }
}

#[test]
fn the_registry_is_sorted_out() {
    let names: BTreeSet<_> = FAMILIES.iter().map(|family| family.name).collect();
    assert_eq!(names.len(), FAMILIES.len(), "names are unique");
    assert!(FAMILIES.iter().all(|family| !family.words.is_empty()));
}

/// Copies of every part, at a third of the price and open to the splashing water: the ranking is what it is without them.
/// Parts that a bellows can cover are left out, for those may be bought and covered.
#[test]
fn what_the_site_would_drown_moves_nothing() {
    let built_in = catalog::built_in().expect("the built-in catalog is sound");
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/catalog");
    let mut files = Vec::new();
    for kind in catalog::KINDS {
        let text = std::fs::read_to_string(format!("{folder}/{}.json", kind.name));
        let mut file: serde_json::Value =
            serde_json::from_str(&text.expect("the kind has a file")).expect("JSON");
        let parts = file["parts"].as_array_mut().expect("it has parts");
        parts.retain(|part| {
            let id = part["id"].as_str().expect("an id");
            built_in.covered_size(kind.name, id).is_none()
        });
        if parts.is_empty() {
            continue;
        }
        for part in parts {
            part["id"] = format!("open-{}", part["id"].as_str().expect("an id")).into();
            let own = part.as_object_mut().expect("a part");
            let dry = if own.contains_key("ingress") {
                ("ingress", "IP20")
            } else {
                ("stands_water", "dry")
            };
            own.insert(dry.0.into(), dry.1.into());
            let prices = own
                .iter_mut()
                .filter(|(field, _)| field.starts_with("price"));
            for (_, price) in prices {
                *price = (price.as_f64().expect("a number") * 0.3).into();
            }
        }
        files.push(File {
            name: format!("{}.json", kind.name),
            bytes: file.to_string().into_bytes(),
        });
    }
    let stock = Stock::with("shop", &files).unwrap_or_else(|faults| panic!("{faults:#?}"));
    let more = stock.catalog().expect("a checked stock is sound");
    let mut compared = 0;
    for name in ["kiln-door", "tray-pusher", "vat-lid", "dairy-door"] {
        let job = support::example(
            name,
            &[
                ("site.water", "splash"),
                ("site.units", r#"{ "water": "splash" }"#),
            ],
        );
        let ranking = |catalog: &Catalog| {
            let study = study(&job, catalog).expect("it is ranked");
            let options = study.options.into_iter();
            options.map(|option| option.id).collect::<Vec<_>>()
        };
        let (without, with) = (ranking(built_in), ranking(&more));
        assert_eq!(with, without, "{name}");
        compared += without.len();
    }
    assert!(compared > 100, "{compared} options");
}
