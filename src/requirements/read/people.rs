//! Machines that lift people are refused: they need licensed design.

use crate::problem::Problem;
use crate::reading::Sink;

/// Words for those who would be lifted.
const PEOPLE: &[&str] = &[
    "person",
    "persons",
    "people",
    "passenger",
    "passengers",
    "wheelchair",
    "wheelchairs",
    "man",
    "men",
    "human",
    "humans",
    "patient",
    "patients",
    "rider",
    "riders",
    "chair",
    "stair",
    "child",
    "children",
];
/// Words for lifting and for what lifts.
const LIFTS: &[&str] = &[
    "lift",
    "lifts",
    "lifting",
    "lifter",
    "hoist",
    "hoists",
    "hoisting",
    "elevator",
    "elevators",
    "raise",
    "raises",
    "raising",
    "winch",
    "winches",
];
/// Words that say it all.
const BOTH: &[&str] = &[
    "stairlift",
    "stairlifts",
    "manlift",
    "manlifts",
    "chairlift",
    "chairlifts",
];
/// Words that may stand between the lift and the lifted without changing the meaning.
const BETWEEN: &[&str] = &[
    "a",
    "an",
    "the",
    "of",
    "for",
    "to",
    "up",
    "one",
    "two",
    "three",
    "four",
    "disabled",
    "elderly",
    "injured",
    "sick",
    "platform",
    "platforms",
    "basket",
    "cage",
    "chair",
    "access",
    "down",
    "and",
    "carry",
    "carrying",
];
/// Words that make the people before them workers, not load.
const WORK: &[&str] = &[
    "workshop",
    "crew",
    "shop",
    "operation",
    "operated",
    "team",
    "job",
    "use",
];
/// Words after which "people lift" is something people do.
const OBJECT: &[&str] = &[
    "a", "an", "the", "it", "this", "that", "these", "those", "them", "by", "one", "two",
];

/// Refuses a title that asks to lift people.
pub(super) fn check(title: &str, sink: &Sink) {
    if lifts_people(title) {
        sink.add(
            Problem::at("title", "asks for a machine that lifts people, which is refused")
                .read(super::quoted("title", title))
                .hint("lifts for people need a licensed designer and an approval, not a preliminary sizing"),
        );
    }
}

/// Whether a title speaks of lifting people, by whole words.
fn lifts_people(title: &str) -> bool {
    let lower = title.to_lowercase();
    let words: Vec<&str> = lower
        .split(|sign: char| !sign.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .collect();
    let has = |list: &[&str], word: &str| list.contains(&word);
    words.iter().enumerate().any(|(index, word)| {
        if has(BOTH, word) {
            return true;
        }
        let Some(after) = words.get(index + 1..) else {
            return false;
        };
        if has(PEOPLE, word) {
            // "wheelchair platform lift", but not "two people lift the lid".
            let mut rest = after
                .iter()
                .skip_while(|next| has(&["platform", "access"], next));
            return rest.next().is_some_and(|next| has(LIFTS, next))
                && rest.next().is_none_or(|next| !has(OBJECT, next));
        }
        if has(LIFTS, word) {
            // "hoist for people", but not "hoist operated by one person".
            let number = |next: &str| next.bytes().all(|byte| byte.is_ascii_digit());
            let mut rest = after
                .iter()
                .skip_while(|next| has(BETWEEN, next) || number(next));
            return rest
                .next()
                .is_some_and(|next| has(PEOPLE, next) && !has(&["chair", "stair"], next))
                && rest.next().is_none_or(|next| !has(WORK, next));
        }
        false
    })
}

#[cfg(test)]
mod tests {
    use super::lifts_people;

    #[test]
    fn lifting_people_is_seen() {
        for title in [
            "Passenger lift",
            "Man-lift for the mill",
            "Stairlift",
            "Hoist for 2 people",
            "Wheelchair platform lift",
            "platform to lift people",
            "Patient hoist",
            "Lift to carry passengers",
            "stair lift",
            "Raising one person",
        ] {
            assert!(lifts_people(title), "{title}");
        }
    }

    #[test]
    fn people_at_work_are_not_lifted() {
        for title in [
            "Hoist operated by one person",
            "Lid that two people lift the easy way",
            "Kiln door hoist",
            "Hoist for a one-person workshop",
            "Lift table, one person beside it",
            "Liftgate for a manhole press",
            "Chair press",
            "Winch for the sales people's sign by people",
        ] {
            assert!(!lifts_people(title), "{title}");
        }
    }
}
