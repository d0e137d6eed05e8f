//! What was assumed, and what can hurt someone.

use super::caution_lines::caution_lines;
use super::file::OptionLine;
use super::ruled_out::RuledOut;
use super::weakened::weakened_rules;
use super::words::and;
use crate::family::{Caution, FAMILIES, site};
use crate::quantity::show;
use crate::requirements::{Assumption, RULES, Reading, Requirements, Rules};

/// Assumptions and cautions of a study.
#[derive(Debug, Clone)]
pub struct Notes {
    /// What was taken for granted.
    pub assumptions: Vec<Assumption>,
    /// What can hurt someone.
    pub cautions: Vec<String>,
}

/// What stands under every study and every sheet.
pub const STANDING: &str = "Not for lifting or carrying people. Parts, prices and hours of the built-in catalog are invented. \
     Preliminary sizing, not a design approval: risk assessment (ISO 12100), fluid power (ISO 4413, ISO 4414), \
     control reliability (ISO 13849-1), local codes and licensed practice decide.";
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
        cautions: cautions(&reading.requirements, options),
    }
}

/// Whether it matters where units stand apart: their place is milder than the machine's, or hoses lead there.
fn units_matter(reading: &Reading, options: &[OptionLine]) -> bool {
    let hoses = |option: &OptionLine| option.parts.iter().any(|part| part.kind == "hoses");
    site::shelters_units(&reading.requirements) || options.iter().any(hoses)
}

/// The kinds of drives that no family covers.
fn not_considered() -> Option<Assumption> {
    let covered = || FAMILIES.iter().flat_map(|family| family.covers);
    let missing = |kind: &&str| covered().all(|name| name != kind);
    let missing: Vec<&str> = KINDS_OF_DRIVES.iter().copied().filter(missing).collect();
    let families: Vec<&str> = FAMILIES
        .iter()
        .filter_map(|family| family.covers.first().copied())
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

/// The cautions of every kind of drive, a line for each group of hazards, then the rules that the file weakens, then what
/// stands under every study.
fn cautions(job: &Requirements, options: &[OptionLine]) -> Vec<String> {
    let hazards = best_of_kinds(options).map(|option| option.hazards.as_slice());
    let kinds: Vec<(usize, &[Caution])> = (1..).zip(hazards).collect();
    let mut list = caution_lines(&kinds);
    list.extend(weakened_rules(&job.rules));
    list.push(STANDING.into());
    list
}
