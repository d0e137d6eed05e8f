//! What was assumed, and what can hurt someone.

use super::file::OptionLine;
use super::ruled_out::RuledOut;
use super::words::and;
use crate::family::{FAMILIES, site};
use crate::quantity::show;
use crate::requirements::{Assumption, RULES, Reading, Rules};

/// Assumptions and cautions of a study.
#[derive(Debug, Clone)]
pub struct Notes {
    /// What was taken for granted.
    pub assumptions: Vec<Assumption>,
    /// What can hurt someone.
    pub cautions: Vec<String>,
}

/// What stands under every study and every sheet.
pub const STANDING: &str = "Preliminary sizing, not a design approval: risk assessment (ISO 12100), fluid power (ISO 4413, ISO 4414), \
     control reliability (ISO 13849-1), local codes and licensed practice decide.";
/// How many options are shown with their reasons; their cautions are the study's.
const SHOWN: usize = 3;

/// Kinds of drives that a designer would ask about.
const KINDS_OF_DRIVES: &[&str] = &[
    "belt",
    "chain",
    "winch",
    "driven rack",
    "motor-driven screw jack",
    "hand oil pump",
    "several cylinders side by side",
    "linear motor",
    "pneumatic muscle",
    "gas spring",
    "constant-force spring",
];

/// The notes of a study; `arm` is what is to be said of the arm or beam.
pub fn study_notes(
    reading: &Reading,
    options: &[OptionLine],
    ruled_out: &[RuledOut],
    arm: Option<String>,
) -> Notes {
    let mut assumptions = reading.assumptions.clone();
    if !units_matter(reading, options) {
        assumptions.retain(|known| known.field != "site.units");
    }
    for key in deciding_rules(options, ruled_out) {
        if assumptions
            .iter()
            .all(|known| known.field != format!("rules.{key}"))
        {
            assumptions.extend(rule(&reading.requirements.rules, key));
        }
    }
    assumptions.extend(arm.map(|about| Assumption {
        field: "structure".into(),
        value: format!("loaded square to its length: at the longest travel time, {about}"),
        reason: "weight, inertia and process force on the load are taken to act together across the arm, along its height; its own weight rides along".into(),
    }));
    assumptions.extend(not_considered());
    Notes {
        assumptions,
        cautions: cautions(options),
    }
}

/// Whether it matters where units stand apart: their place is milder than the machine's, or hoses lead there.
fn units_matter(reading: &Reading, options: &[OptionLine]) -> bool {
    let hoses = |option: &OptionLine| option.parts.iter().any(|part| part.kind == "hoses");
    site::shelters_units(&reading.requirements) || options.iter().any(hoses)
}

/// The kinds of drives that no family covers.
fn not_considered() -> Option<Assumption> {
    let covered = || FAMILIES.iter().flat_map(|family| family.covers());
    let missing: Vec<&str> = KINDS_OF_DRIVES
        .iter()
        .copied()
        .filter(|kind| covered().all(|name| name != kind))
        .collect();
    let families: Vec<&str> = FAMILIES
        .iter()
        .filter_map(|family| family.covers().first().copied())
        .collect();
    (!missing.is_empty()).then(|| Assumption {
        field: "drives".into(),
        value: format!("{} were not considered", and(&missing)),
        reason: format!("the families are {}", and(&families)),
    })
}

/// Rules that were the tightest check of a shown option, or put a family out.
fn deciding_rules<'o>(options: &'o [OptionLine], ruled_out: &'o [RuledOut]) -> Vec<&'o str> {
    let tightest = best_of_kinds(options).filter_map(|option| option.tightest()?.rule.as_deref());
    let against = ruled_out.iter().flat_map(|line| {
        line.fails
            .iter()
            .filter_map(|failing| failing.rule.as_deref())
    });
    let mut keys: Vec<_> = tightest.chain(against).collect();
    keys.sort_unstable();
    keys.dedup();
    keys
}

fn rule(rules: &Rules, key: &str) -> Option<Assumption> {
    let rule = RULES.iter().find(|rule| rule.key == key)?;
    let value = rules.get(key)?;
    Some(Assumption {
        field: format!("rules.{key}"),
        value: format!("{} {}", show(value), rule.unit)
            .trim_end()
            .to_owned(),
        reason: format!(
            "{}: common practice, no source; it decided something here",
            rule.meaning
        ),
    })
}

/// The best option of each drive type, in the order of the ranking.
pub fn best_of_kinds(options: &[OptionLine]) -> impl Iterator<Item = &OptionLine> {
    options
        .iter()
        .enumerate()
        .filter(|(index, option)| {
            options[..*index]
                .iter()
                .all(|earlier| earlier.drive_type != option.drive_type)
        })
        .map(|(_, option)| option)
}

/// The cautions of the options shown with their reasons, each once, then the general one.
///
/// What does not go for all of them, word for word and number for number, is marked with the places it goes for.
fn cautions(options: &[OptionLine]) -> Vec<String> {
    let shown: Vec<&OptionLine> = best_of_kinds(options).take(SHOWN).collect();
    let mut found: Vec<(String, Vec<String>)> = Vec::new();
    for (index, option) in shown.iter().enumerate() {
        let place = (index + 1).to_string();
        for caution in option.cautions.iter().cloned() {
            match found.iter_mut().find(|(known, _)| *known == caution) {
                Some((_, places)) if !places.contains(&place) => places.push(place.clone()),
                Some(_) => {}
                None => found.push((caution, vec![place.clone()])),
            }
        }
    }
    let mark = |(caution, places): (String, Vec<String>)| {
        if places.len() == shown.len() {
            caution
        } else {
            format!("({}) {caution}", places.join(", "))
        }
    };
    let mut list: Vec<String> = found.into_iter().map(mark).collect();
    list.push(STANDING.into());
    list
}
