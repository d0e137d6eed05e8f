//! What the study says of a job, and the map of it.

#![allow(
    clippy::format_push_string,
    reason = "a map is printed once, for a person"
)]

use std::collections::BTreeMap;

use counterpoise::catalog;
use counterpoise::study::{Label, study};

use super::grid::{FORCES, Job, SPEEDS, TRAVELS, Use};

/// What came out of a job.
#[derive(Debug, Clone)]
pub struct Outcome {
    /// Families with an option, assist or not.
    pub families: Vec<Label>,
    /// Family, drive type and assist of the first.
    pub first: Option<(Label, String, Label)>,
    /// What put every family out, where none is in.
    pub out: Vec<String>,
}

impl Outcome {
    /// Family of the first.
    pub fn first_family(&self) -> Option<&str> {
        self.first.as_ref().map(|(family, _, _)| &**family)
    }
    /// Whether the first has a counterweight.
    pub fn counterweighted(&self) -> bool {
        self.first
            .as_ref()
            .is_some_and(|(_, _, assist)| assist == "counterweight")
    }
    /// One letter: A air, O oil, B ball screw, S sliding screw, E electric cylinder, H hand; small with a counterweight.
    fn letter(&self) -> char {
        let Some((family, kind, _)) = &self.first else {
            return '-';
        };
        let letter = match &**family {
            "pneumatic" => 'A',
            "hydraulic" => 'O',
            "hand_crank" => 'H',
            _ if kind.starts_with("electric cylinder") => 'E',
            _ if kind.starts_with("ball") => 'B',
            _ => 'S',
        };
        if self.counterweighted() {
            letter.to_ascii_lowercase()
        } else {
            letter
        }
    }
}

/// Ranks a job.
pub fn outcome(job: &Job) -> Outcome {
    let parts = catalog::built_in().expect("the built-in catalog is sound");
    let ranked = study(&job.reading(), parts).expect("a slide is ranked");
    let mut families: Vec<_> = ranked
        .options
        .iter()
        .map(|option| option.family.clone())
        .collect();
    families.sort_unstable();
    families.dedup();
    let out = ranked.ruled_out.iter().filter_map(|line| {
        let failing = line.fails.first()?;
        Some(format!(
            "{} {}: {} {}",
            line.family, line.assist, failing.check, failing.by
        ))
    });
    Outcome {
        first: ranked.options.first().map(|option| {
            (
                option.family.clone(),
                option.drive_type.clone(),
                option.assist.clone(),
            )
        }),
        out: if families.len() < 2 {
            out.collect()
        } else {
            Vec::new()
        },
        families,
    }
}

/// The map of one use: a block a travel, a row a force, a column a speed; each cell the winner and how many families can.
pub fn print(usage: Use, field: &[(Job, Outcome)]) -> String {
    let mut text = format!("\n{}\n", usage.words());
    text += "  speeds, mm/s:";
    for speed in SPEEDS {
        text += &format!(" {}", speed * 1000.0);
    }
    text += "\n           ";
    for travel in TRAVELS {
        text += &format!("{:<19}", format!("{} mm", travel * 1000.0));
    }
    text.push('\n');
    for force in FORCES {
        text += &format!("{force:>8} N ");
        for travel in TRAVELS {
            for speed in SPEEDS {
                let found = field.iter().find(|(job, _)| {
                    job.usage == usage
                        && (job.force_n, job.travel_m, job.speed_m_s) == (force, travel, speed)
                });
                text += &found.map_or("   ".to_owned(), |(_, outcome)| {
                    format!("{}{} ", outcome.letter(), outcome.families.len())
                });
            }
            text.push(' ');
        }
        text.push('\n');
    }
    for (job, outcome) in field
        .iter()
        .filter(|(job, outcome)| job.usage == usage && outcome.families.is_empty())
    {
        text += &format!(
            "  none: {} N, {} m, {} m/s\n",
            job.force_n, job.travel_m, job.speed_m_s
        );
        for reason in &outcome.out {
            text += &format!("     {reason}\n");
        }
    }
    text
}

/// How often each comes first, and how many families can.
pub fn counts(field: &[(Job, Outcome)]) -> String {
    let mut first: BTreeMap<String, usize> = BTreeMap::new();
    let mut able: BTreeMap<usize, usize> = BTreeMap::new();
    for (_, outcome) in field {
        *able.entry(outcome.families.len()).or_default() += 1;
        if let Some((family, kind, assist)) = &outcome.first {
            *first
                .entry(format!("{family}: {kind} ({assist})"))
                .or_default() += 1;
        }
    }
    let mut text = format!("{} jobs\n", field.len());
    for (families, jobs) in able {
        text += &format!("  {families} families can do {jobs}\n");
    }
    for (what, jobs) in first {
        text += &format!("  first in {jobs:>3}: {what}\n");
    }
    text
}
