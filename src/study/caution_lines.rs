//! The cautions of one drive or of many in a few lines: one for each group of hazards, each hazard said once.
//!
//! What does not go for every drive is marked with the places of those that it goes for. A figure that differs from drive to
//! drive is shown from its least to its most; each drive's own is on its sheet.

use crate::family::{Caution, Group, Sentence};

/// A hazard with the places of the drives that have it.
struct Shared<'c> {
    row: (Group, usize),
    says: Vec<&'c Sentence>,
    places: Vec<usize>,
}

/// The lines for drives with their places, worst first.
pub fn caution_lines(drives: &[(usize, &[Caution])]) -> Vec<String> {
    let mut shared: Vec<Shared> = Vec::new();
    for (place, cautions) in drives {
        for caution in *cautions {
            let says = &caution.says;
            let same = |known: &&mut Shared| known.says.iter().any(|one| says.says_as(one));
            let known = shared.iter_mut().find(same);
            match known {
                Some(known) => {
                    known.says.push(says);
                    known.places.push(*place);
                }
                None => shared.push(Shared {
                    row: caution.place(),
                    says: vec![says],
                    places: vec![*place],
                }),
            }
        }
    }
    shared.sort_by_key(|one| one.row);
    let line = |group: &Group| {
        let own = shared.iter().filter(|one| one.row.0 == *group);
        let text = marked(own, drives.len());
        (!text.is_empty()).then(|| format!("{}.{text}", group.title()))
    };
    Group::ALL.iter().filter_map(line).collect()
}

/// The sentences of a line, those of some drives alone after the places of these; a mark goes for all up to the next.
fn marked<'s>(line: impl Iterator<Item = &'s Shared<'s>>, drives: usize) -> String {
    let mut text = String::new();
    let mut before = "all".to_owned();
    for one in line {
        let mark = if one.places.len() < drives {
            places(&one.places)
        } else {
            "all".into()
        };
        if mark != before {
            text.extend([" (", &mark, ")"]);
        }
        before = mark;
        text.extend([" ", &Sentence::over(&one.says)]);
    }
    text
}

/// Places in order, three or more in a row as from the first to the last: `1, 3–5`.
fn places(all: &[usize]) -> String {
    let runs = all.chunk_by(|one, next| next - one == 1);
    let words = |run: &[usize]| match run {
        [first, _, .., last] => format!("{first}–{last}"),
        few => {
            let few: Vec<String> = few.iter().map(usize::to_string).collect();
            few.join(", ")
        }
    };
    runs.map(words).collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
#[path = "../../tests/unit/study/caution_lines.rs"]
mod tests;
