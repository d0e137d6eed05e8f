//! What the place offers and allows: the site's list, and what its supplies give.

use serde_json::json;

use super::answer::{parts, quantity, read_choices};
use super::draft::Draft;
use super::question::{Changes, Choice, Question, choice};
use crate::problem::Problem;
use crate::quantity::{Kind, System, parse_as};

/// What may be said of a place.
const PLACE: &[Choice] = &[
    choice("mains", "electricity from the mains"),
    choice("air", "compressed air"),
    choice("hand", "somebody who can turn a crank"),
    choice("dusty", "dust lies about"),
    choice("gritty", "grit or chips fall on the machine"),
    choice("splash", "water splashes on it"),
    choice("washdown", "it is hosed down"),
    choice("outdoors", "it stands outdoors, -15 to 45 degC"),
    choice("no_oil", "no oil leaks allowed"),
    choice("explosive", "gas, vapour or dust could explode"),
];

/// Temperature of a machine outdoors.
const OUTDOORS: (&str, &str) = ("-15 degC", "45 degC");

pub(super) fn choices(_: &Draft) -> Vec<Choice> {
    PLACE.to_vec()
}

/// Writes the whole of the site; what it already says of its supplies stays.
pub(super) fn site(_: &Question, draft: &Draft, text: &str) -> Result<Changes, Problem> {
    let found = read_choices(text, PLACE, true)?;
    let has = |word: &str| found.iter().any(|choice| choice.word == word);
    for (one, other) in [("dusty", "gritty"), ("splash", "washdown")] {
        if has(one) && has(other) {
            return Err(
                Problem::whole(format!("{one} and {other} are two of a kind"))
                    .hint(format!("{other} is the harder of both; name one")),
            );
        }
    }
    let mut changes = Changes::default();
    for word in ["mains", "air", "hand"] {
        let path = format!("site.{word}");
        if !has(word) {
            changes = changes.without(path);
        } else if draft.get(&path).is_none() {
            changes = changes.with(path, json!({}));
        }
    }
    let was_outdoors = draft.typed("site.temperature.least").as_deref() == Some(OUTDOORS.0);
    if has("outdoors") {
        let (least, most) = OUTDOORS;
        changes = changes.with("site.temperature", json!({ "least": least, "most": most }));
    } else if was_outdoors {
        changes = changes.without("site.temperature");
    }
    let of = |words: [&'static str; 2], none: &'static str| {
        words.into_iter().find(|word| has(word)).unwrap_or(none)
    };
    Ok(changes
        .with("site.dirt", of(["gritty", "dusty"], "clean"))
        .with("site.water", of(["washdown", "splash"], "dry"))
        .with("site.oil_tolerated", !has("no_oil"))
        .with("site.explosive_atmosphere", has("explosive")))
}

/// The words that the site has.
pub(super) fn site_typed(_: &Question, draft: &Draft) -> Option<String> {
    draft.get("site.dirt")?;
    let says = |choice: &&Choice| match choice.word {
        "mains" | "air" | "hand" => draft.get(&format!("site.{}", choice.word)).is_some(),
        "dusty" | "gritty" => draft.typed("site.dirt").as_deref() == Some(choice.word),
        "splash" | "washdown" => draft.typed("site.water").as_deref() == Some(choice.word),
        "outdoors" => draft.typed("site.temperature.least").as_deref() == Some(OUTDOORS.0),
        "no_oil" => draft
            .get("site.oil_tolerated")
            .is_some_and(|flag| flag == false),
        _ => draft
            .get("site.explosive_atmosphere")
            .is_some_and(|flag| flag == true),
    };
    let said = PLACE.iter().filter(says);
    let words: Vec<&str> = said.map(|choice| choice.word).collect();
    Some(if words.is_empty() {
        "none".into()
    } else {
        words.join(", ")
    })
}

/// The supply that a figure belongs to, its path and its kind.
#[rustfmt::skip]
const SUPPLIES: &[(&str, &str, Kind, [&str; 2])] = &[
    ("site.mains", "site.mains.voltage", Kind::Voltage, ["230 V", "120 V"]),
    ("site.mains", "site.mains.power", Kind::Power, ["2.3 kW", "1.8 kW"]),
    ("site.air", "site.air.pressure", Kind::Pressure, ["6 bar", "90 psi"]),
    ("site.air", "site.air.flow", Kind::Flow, ["150 L/min", "5 cfm"]),
];

/// What the supplies give, in any order: a unit tells which is meant. What is left out is taken as usual.
pub(super) fn supply(_: &Question, draft: &Draft, text: &str) -> Result<Changes, Problem> {
    let given = parts(text, SUPPLIES.len())?;
    let mut left = given.clone();
    let mut changes = Changes::default();
    let system = draft.system();
    for (supply, path, kind, usual) in SUPPLIES {
        let found = left.iter().position(|part| parse_as(part, *kind).is_ok());
        let typed = found.map(|place| left.remove(place));
        if draft.get(supply).is_none() {
            continue;
        }
        let usual = usual[usize::from(system == System::Us)];
        let text = typed.map(str::to_owned).or_else(|| draft.typed(path));
        let value = quantity(text.as_deref().unwrap_or(usual), *kind)?;
        changes = changes.with(*path, value);
    }
    match left.first() {
        Some(part) => Err(Problem::whole(format!(
            "{part:?} is neither voltage, power, pressure nor flow"
        ))
        .hint(
            "write those that you know, with their units, such as 230 V, 3 kW, 6 bar, 200 L/min",
        )),
        None => Ok(changes),
    }
}

pub(super) fn supply_typed(_: &Question, draft: &Draft) -> Option<String> {
    let texts: Vec<String> = SUPPLIES
        .iter()
        .filter_map(|(_, path, ..)| draft.typed(path))
        .collect();
    (!texts.is_empty()).then(|| texts.join(", "))
}

/// Whether every supply says what it gives.
pub(super) fn are_supplies_whole(_: &Question, draft: &Draft) -> bool {
    SUPPLIES
        .iter()
        .all(|(supply, path, ..)| draft.get(supply).is_none() || draft.get(path).is_some())
}

/// The easiest place there is for a drive: the same with both supplies, and nothing against any.
pub(super) fn easy(draft: &Draft) -> Changes {
    let mut changes = Changes::default();
    for (supply, value) in [
        (
            "site.mains",
            json!({ "voltage": "400 V", "power": "10 kW" }),
        ),
        (
            "site.air",
            json!({ "pressure": "6 bar", "flow": "500 L/min" }),
        ),
        ("site.hand", json!({})),
    ] {
        if draft.get(supply).is_none() {
            changes = changes.with(supply, value);
        }
    }
    changes
        .with("site.dirt", "clean")
        .with("site.water", "dry")
        .with("site.oil_tolerated", true)
        .with("site.explosive_atmosphere", false)
        .without("site.temperature")
}

/// The same place with supplies that give any amount.
pub(super) fn plenty(draft: &Draft) -> Changes {
    let mut changes = Changes::default();
    for (supply, path, plenty) in [
        ("site.mains", "site.mains.power", "1000 kW"),
        ("site.air", "site.air.flow", "1e5 L/min"),
    ] {
        if draft.get(supply).is_some() {
            changes = changes.with(path, plenty);
        }
    }
    changes
}
