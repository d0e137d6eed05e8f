//! Machines that lift or carry people are refused: they need licensed design.
//!
//! Judged by the words of every text of the file, so it errs towards refusing: who is misread can say it in other words,
//! and nothing but other words lets a file through.

use crate::problem::Problem;
use crate::reading::{Sink, Tree, quote};

/// Those who would be lifted.
const RIDERS: &str = "person persons people passenger passengers wheelchair wheelchairs man men woman women human humans \
    patient patients rider riders child children kid kids baby babies toddler toddlers pupil pupils worker workers \
    workman workmen operator operators employee employees personnel staff crew crews technician technicians painter \
    painters actor actors actress performer performers dancer dancers singer singers acrobat acrobats visitor visitors \
    guest guests resident residents pedestrian pedestrians climber climbers diver divers skier skiers firefighter \
    firefighters";
/// Lifting, and what people are lifted by.
const LIFTS: &str = "lift lifts lifting lifted lifter lifters hoist hoists hoisting hoisted elevator elevators elevate \
    elevates elevating raise raises raising raised winch winches winching lower lowers lowering carry carries carrying \
    carrier carriers transport transports transporting transporter platform platforms basket baskets cage cradle gondola \
    swing swings sling slings harness trapeze ride rides mover";
/// Words that say it all.
const BOTH: &str = "stairlift stairlifts manlift manlifts chairlift chairlifts manriding escalator escalators seesaw \
    carousel treppenlift personenaufzug personenlift patientenlifter ascenseur ascensor ascensore";
/// Pairs of words that say it all.
const PAIRS: &[(&str, &str)] = &[
    ("stair", "lift chair elevator climber"),
    ("stairs", "lift"),
    ("chair", "lift lifts"),
    ("bath", "lift lifts hoist hoists"),
    ("ski", "lift lifts"),
    ("access", "platform platforms"),
    ("bosun", "chair s"),
    ("cherry", "picker pickers"),
    ("amusement", "ride rides"),
    ("fairground", "ride rides"),
    ("ferris", "wheel"),
    ("roller", "coaster"),
    ("see", "saw saws"),
    ("monte", "escalier personnes"),
];
/// Words that may stand between a lift and the lifted without changing the meaning.
const BETWEEN: &str = "a an the of for to up one two three four five six s disabled elderly injured sick old young small \
    single standing seated heavy maintenance platform platforms basket cage chair access down and or with that which \
    holding holds carry carries carrying lift lifting raise raising take takes taking bring brings bringing move moves \
    moving aerial work working";
/// Words that make the people before them workers, owners or a name of something else, not load.
const WORK: &str = "workshop crew crews shop operation operated operates operating operate team job use uses made powered \
    can could works work beside behind nearby away who loads feeds turns cranks pushes pulls controls watches walks walk \
    door doors car cars coach coaches window windows entrance side proof safe size sized height wheels parts repair";
/// Words after which "people lift" is something people do.
const OBJECT: &str = "a an the it this that these those them by one two their his her its";
/// Words that one person's doing ends in.
const DOES: &str = "lifts hoists raises lowers carries winches transports elevates";
/// Words by which nobody is on it.
const NOBODY: &str = "no not never without nobody except";
/// Words for being on it.
const RIDES: &str = "stands sits rides lies stand sit ride lie standing sitting riding lying";

/// Refuses a file any text of which asks to lift people.
pub(super) fn check(file: &Tree, sink: &Sink) {
    texts(file, String::new(), &mut |place, text| {
        if lifts_people(text) {
            let key = place.rsplit('.').next().unwrap_or(&place).to_owned();
            sink.add(
                Problem::at(
                    place,
                    "speaks of a machine that lifts or carries people, which is refused: when such a machine fails \
                     somebody dies, and a preliminary sizing has neither the second means of holding nor the proof \
                     that its rules ask for",
                )
                .read(quote(&key, &Tree::Text(text.into())))
                .hint(
                    "have it designed and approved by somebody licensed for lifts and hoists for people; nothing \
                     switches this refusal off. If nobody rides on it, say in other words what is moved",
                ),
            );
        }
    });
}

/// Visits every text of a file with its path.
fn texts(tree: &Tree, place: String, visit: &mut dyn FnMut(String, &str)) {
    match tree {
        Tree::Text(text) => visit(place, text),
        Tree::List(items) => {
            for (index, item) in items.iter().enumerate() {
                texts(item, format!("{place}[{index}]"), visit);
            }
        }
        Tree::Object(fields) => {
            for (key, value) in fields {
                texts(value, super::super::fill::join(&place, key), visit);
            }
        }
        _ => {}
    }
}

fn among(list: &str, word: &str) -> bool {
    list.split_ascii_whitespace().any(|known| known == word)
}

/// Whether a text speaks of lifting people, by whole words.
fn lifts_people(text: &str) -> bool {
    // The apostrophe of several owners is as telling as that of one.
    let lower = text
        .to_lowercase()
        .replace(['\u{2019}', '\u{02bc}'], "'")
        .replace("s' ", "s's ");
    let words: Vec<&str> = lower
        .split(|sign: char| !sign.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .collect();
    (0..words.len()).any(|index| {
        let (before, rest) = words.split_at(index);
        rest.split_first()
            .is_some_and(|(word, after)| says_so(before, word, after))
    })
}

/// Whether a word with those around it speaks of lifting people.
fn says_so(before: &[&str], word: &str, after: &[&str]) -> bool {
    if before.iter().rev().take(4).any(|word| among(NOBODY, word)) {
        return false;
    }
    let next = after.first().copied().unwrap_or_default();
    if among(BOTH, word) {
        return true;
    }
    if PAIRS
        .iter()
        .any(|(first, second)| *first == word && among(second, next))
    {
        return true;
    }
    if among(RIDERS, word) && (rides(after) || lifted_after(word, after)) {
        return true;
    }
    among(LIFTS, word) && lifts_after(after)
}

/// "Worker stands on", "man-riding".
fn rides(after: &[&str]) -> bool {
    match after {
        [verb, rest @ ..] if among(RIDES, verb) => {
            among("ride rides riding", verb)
                || rest
                    .first()
                    .is_some_and(|next| among("on in upon inside", next))
        }
        _ => false,
    }
}

/// "Wheelchair platform lift", but not "two people lift the lid" and not "a man lifts boxes".
fn lifted_after(rider: &str, after: &[&str]) -> bool {
    let mut rest = after
        .iter()
        .skip_while(|next| among("platform access s work aerial safety", next));
    if let Some(lift) = rest.next().filter(|next| among(LIFTS, next)) {
        let does = among(DOES, lift) && !rider.ends_with('s') && !among("people children", rider);
        return match rest.next() {
            None => true,
            Some(object) => !among(OBJECT, object) && (!does || among("for", object)),
        };
    }
    // "Worker platform": the platform is what is skipped above.
    after
        .iter()
        .take_while(|next| among("platform access s work aerial safety", next))
        .any(|next| *next == "platform")
}

/// "Hoist for two people", but not "hoist operated by one person", nor "lift for children's toys".
fn lifts_after(after: &[&str]) -> bool {
    let number = |next: &str| next.bytes().all(|byte| byte.is_ascii_digit());
    let mut rest = after
        .iter()
        .skip_while(|next| among(BETWEEN, next) || number(next));
    rest.next().is_some_and(|next| among(RIDERS, next))
        && rest
            .next()
            .is_none_or(|next| *next != "s" && !among(WORK, next))
}

#[cfg(test)]
mod tests {
    use super::lifts_people;

    #[test]
    fn lifting_people_is_seen() {
        for text in [
            "Passenger lift",
            "Man-lift for the mill",
            "Stairlift",
            "Stair-lift",
            "stair lift",
            "Hoist for 2 people",
            "Wheelchair platform lift",
            "platform to lift people",
            "Platform for a worker",
            "Worker platform",
            "Work platform for painters",
            "Personnel basket",
            "Man-riding hoist",
            "Patient hoist",
            "Patient's hoist",
            "Bath hoist",
            "Children's swing",
            "Swing for children",
            "Seesaw",
            "Lift to carry passengers",
            "Lifts a person to the attic",
            "Lift that carries one person",
            "Raising one person",
            "Staff elevator",
            "Elevator for the staff",
            "Stage lift for dancers",
            "Basket the painter stands in",
            "Table on which a child sits on a seat",
            "Crew hoist",
            "Aerial access platform",
            "Winch to lower divers",
            "Goods lift; also a passenger lift",
            "PATIENT LIFTING SLING",
            "Treppenlift",
        ] {
            assert!(lifts_people(text), "{text}");
        }
    }

    #[test]
    fn people_at_work_are_not_lifted() {
        for text in [
            "Hoist operated by one person",
            "A person operates this hoist from the floor",
            "Lid that two people lift the easy way",
            "A man lifts boxes onto the platform",
            "Lifts a door for people to walk under",
            "Raises a barrier so that people can pass",
            "Kiln door hoist",
            "Mannequin lift",
            "Manual press",
            "Manhole cover lifter",
            "Hoist for a one-person workshop",
            "Hoist for a two-man crew",
            "Lift table, one person beside it",
            "Lift platform, operator beside it",
            "Liftgate for a manhole press",
            "Chair press",
            "Chair hoist of an upholsterer",
            "Lift for children's toys",
            "Lift for the workers' tools",
            "Hoist for man-made stone",
            "Hoist for passenger cars",
            "Swing gate for people",
            "Swing arm of a bench",
            "Hoist that one person can use",
            "Lift one man can work",
            "Goods lift, no passengers",
            "Goods hoist, not for people",
            "Winch for the sales people's sign by people",
            "Seed tray pusher at a plant nursery",
        ] {
            assert!(!lifts_people(text), "{text}");
        }
    }
}
