//! The goals: which matter, which two matter most, and each in full.

use serde_json::{Value, json};

use super::answer::{NOT_SURE, not_sure, number, parts, quantity, read_choices, whole};
use super::draft::Draft;
use super::question::{Both, Changes, Choice, Easier, Question, choice, one_text};
use super::questions::PLAIN;
use crate::problem::Problem;
use crate::quantity::exact;
use crate::requirements::{Criterion, CriterionRow, Measure};

/// Worth that is taken where the person cannot say and there is no budget to take a tenth of.
const WORTH: f64 = 150.0;
/// Part of the budget that a goal is taken to be worth where the person cannot say.
const PART: f64 = 0.1;

/// A goal on which the others are modelled: asked in full where it is named in the list.
const FULL: Question = Question {
    part: "goals",
    open: false,
    applies: is_wanted,
    answered,
    present,
    read,
    easier: Some(Easier {
        changes: drop_want,
        says: "nothing were asked of that",
    }),
    ..PLAIN
};

/// Every goal but the travel time and the budget, which are asked of everybody, in the order of the list.
pub(super) static GOALS: &[Question] = &[
    Question {
        goal: Some(Criterion::Noise),
        id: "noise",
        listed: "quiet",
        asks: "How loud may it be at 1 m?",
        why: "Air exhausts and oil pumps are loud, a slow screw is not.",
        usual: one_text("talk is 60 dB, a busy workshop 80 dB"),
        typical: one_text("80 dB, 65 dB, don't know"),
        more: "Ten decibels less sound about half as loud. Think of what a hood would cost, or of \
            what those who work beside it would give for the difference.",
        ..FULL
    },
    Question {
        goal: Some(Criterion::AddedMass),
        id: "added_mass",
        listed: "light: little weight added to the machine",
        asks: "How much may the drive add to the machine's weight?",
        why: "Counterweights and oil units are heavy; a machine that is moved or stands on a weak floor minds.",
        usual: Both("20 kg to 200 kg", "50 lb to 400 lb"),
        typical: Both("200 kg, 50 kg, don't know", "400 lb, 100 lb, don't know"),
        more: "Everything that the drive brings is counted, a counterweight too, but not what is there already.",
        ..FULL
    },
    Question {
        goal: Some(Criterion::PositionError),
        id: "position_error",
        listed: "exact: it stops where it should",
        asks: "How far off may it stop?",
        why: "An end stop repeats well, air stopped between its ends badly, a fine screw best.",
        usual: Both("0.1 mm to 10 mm", "0.004 in to 0.4 in"),
        typical: Both("5 mm, 1 mm, don't know", "0.2 in, 0.04 in, don't know"),
        more: "Count what rework or scrap a worse stop makes in a year, times the years that money is counted over.",
        ..FULL
    },
    Question {
        goal: Some(Criterion::ClosedLength),
        id: "closed_length",
        listed: "short: little room along the travel",
        asks: "How long may the drive be with the load at the back end?",
        why: "Cylinders need their stroke again as length, screws run beside the load.",
        usual: one_text("once to three times the travel"),
        typical: Both("3 m, 1 m, don't know", "10 ft, 3 ft, don't know"),
        more: "Measure from the fixed end of the drive to where it takes hold of the load.",
        ..FULL
    },
    Question {
        goal: Some(Criterion::EnergyPerCycle),
        id: "energy_per_cycle",
        listed: "sparing with energy",
        asks: "How much energy may a cycle take?",
        why: "What energy costs is counted in running cost anyway; ask for more only if you would pay beyond that.",
        usual: one_text("100 J to 10 kJ"),
        typical: one_text("20 kJ, 1 kJ, don't know"),
        more: "A kilowatt hour is 3600 kJ: the bill alone hardly ever decides.",
        ..FULL
    },
    Question {
        goal: Some(Criterion::Life),
        id: "life",
        listed: "long-lived",
        asks: "How many years must it last, at this rate?",
        why: "Screws wear with distance and load, seals with distance; more years need larger parts.",
        usual: one_text("5 to 20 years"),
        typical: one_text("8, 15, don't know"),
        more: "The first number is the fewest years you could accept. The second is more: beyond it further years are no use.",
        ..FULL
    },
    Question {
        goal: Some(Criterion::CustomParts),
        id: "custom_parts",
        listed: "few parts to make",
        asks: "How many parts would you make yourself?",
        why: "Every bracket is drawn, sawn and drilled; its hours are counted in the price already.",
        usual: one_text("2 to 8 parts"),
        typical: one_text("8, 2, don't know"),
        more: "Ask for fewer only if your workshop is small or booked: the hours are in the price to buy.",
        ..FULL
    },
    Question {
        goal: Some(Criterion::PartCount),
        id: "part_count",
        listed: "few parts in all",
        asks: "How many parts may the drive have?",
        why: "Each part is one more to buy, to fit, and to fail.",
        usual: one_text("5 to 20 parts"),
        typical: one_text("20, 6, don't know"),
        more: "Their price and fitting hours are counted in the price to buy already.",
        ..FULL
    },
    Question {
        goal: Some(Criterion::HandForce),
        id: "hand_force",
        listed: "easy on the hand, if cranked",
        asks: "How hard may the crank be?",
        why: "A longer crank or a higher ratio eases the hand and takes more turns.",
        usual: Both(
            "50 N for long, 150 N for a spell",
            "11 lbf for long, 34 lbf for a spell",
        ),
        typical: Both("150 N, 50 N, don't know", "34 lbf, 11 lbf, don't know"),
        more: "It concerns cranked drives alone; all others ask nothing of the hand and reach the best.",
        ..FULL
    },
    Question {
        goal: Some(Criterion::RunningCost),
        id: "running_cost",
        listed: "a limit on what it costs to run",
        asks: "What may it cost to run, a year?",
        why: "Energy, maintenance and cranking time are counted anyway; this is a limit that must not be passed.",
        usual: one_text("20 to 500 a year"),
        typical: one_text("500"),
        more: "It is money already, so it takes the limit alone: there is nothing to pay for on top.",
        ..FULL
    },
    Question {
        goal: Some(Criterion::MaintenanceHours),
        id: "maintenance_hours",
        listed: "a limit on maintenance hours",
        asks: "How many hours of maintenance a year will somebody give it?",
        why: "Screws want grease, filters draining, oil changing; where nobody looks after it, that is a limit.",
        usual: one_text("1 to 10 hours a year"),
        typical: one_text("8"),
        more: "The hours are money already at your rate, so it takes the limit alone.",
        ..FULL
    },
];

/// How a goal is answered: its typical answer with the worth that it would have.
pub(super) fn example(question: &Question, draft: &Draft) -> Option<String> {
    let row = question.goal?.row();
    let typical = question.typical_text(draft, draft.system());
    Some(if row.rewardable {
        let worth = exact(typical_worth(draft));
        format!(
            "{}: the worst you could accept; the level beyond which more is no use; and what \
             going from one to the other is worth, once, in money",
            typical.replace(NOT_SURE, &worth)
        )
    } else {
        format!("{typical}: a limit alone")
    })
}

/// Whether the person wants it at all.
fn is_wanted(question: &Question, draft: &Draft) -> bool {
    question
        .goal
        .is_some_and(|criterion| draft.goals(criterion))
}

/// The file without the goal.
fn drop_want(question: &Question, _: &Draft) -> Changes {
    let path = question.goal.map_or("", |criterion| criterion.row().path);
    Changes::default().without(path)
}

pub(super) fn choices(_: &Draft) -> Vec<Choice> {
    let choice = |goal: &Question| choice(goal.id, goal.listed);
    GOALS.iter().map(choice).collect()
}

/// Whether the list of goals has been answered: one is named, or the person said that none matters.
pub(super) fn is_list_answered(_: &Question, draft: &Draft) -> bool {
    GOALS.iter().any(|goal| is_wanted(goal, draft)) || !draft.unfinished()
}

/// The list: a goal that is new gets an empty place, one that is left out goes.
pub(super) fn list(_: &Question, draft: &Draft, text: &str) -> Result<Changes, Problem> {
    let all = choices(draft);
    let found = read_choices(text, &all, true)?;
    let mut changes = Changes::default();
    if found.is_empty() {
        // With nothing to ask in full the questions are at an end, which is how the file says that none matters.
        changes = changes.without("unfinished");
    }
    for goal in GOALS {
        let path = goal.goal.map_or("", |criterion| criterion.row().path);
        let is_named = found.iter().any(|choice| choice.word == goal.id);
        match (is_named, is_wanted(goal, draft)) {
            (true, false) => changes = changes.with(path, json!({})),
            (false, true) => changes = changes.without(path),
            _ => {}
        }
    }
    Ok(changes)
}

pub(super) fn list_typed(_: &Question, draft: &Draft) -> Option<String> {
    let named = GOALS.iter().filter(|goal| is_wanted(goal, draft));
    let words: Vec<&str> = named.map(|goal| goal.id).collect();
    if words.is_empty() {
        return (!draft.unfinished()).then(|| "none".into());
    }
    Some(words.join(", "))
}

/// The goals that are still to be asked in full.
pub(super) fn open_choices(draft: &Draft) -> Vec<Choice> {
    let open = draft.open_goals();
    let mut all = choices(draft);
    all.retain(|choice| open.iter().any(|criterion| criterion.name() == choice.word));
    all
}

/// The two that matter most; the others get typical values.
pub(super) fn first_two(_: &Question, draft: &Draft, text: &str) -> Result<Changes, Problem> {
    let found = read_choices(text, &open_choices(draft), true)?;
    if found.len() != 2 {
        return Err(Problem::whole(format!("{} were named", found.len()))
            .hint("name the two that matter most"));
    }
    let mut changes = Changes::default();
    for question in GOALS {
        let is_wanted = |choice: &Choice| choice.word == question.id;
        let open = open_choices(draft).iter().any(is_wanted);
        if open && !found.iter().any(is_wanted) {
            let more = question.typically(draft, draft.system())?;
            changes.set.extend(more.set);
            changes.unsure.extend(more.unsure);
        }
    }
    Ok(changes)
}

pub(super) fn answered(question: &Question, draft: &Draft) -> bool {
    let path = question.goal.map_or("", |criterion| criterion.row().path);
    draft.get(&format!("{path}.limit")).is_some()
}

/// A goal: `80 dB, 60 dB, 40`, and if one likes how sure the worth is.
pub(super) fn read(question: &Question, draft: &Draft, text: &str) -> Result<Changes, Problem> {
    let Some(row) = question.goal.map(Criterion::row) else {
        return Ok(Changes::default());
    };
    let path = |key: &str| format!("{}.{key}", row.path);
    let parts = parts(text, if row.rewardable { 4 } else { 1 })?;
    let part = |place: usize| parts.get(place).copied().unwrap_or_default();
    let typical = || question.typical_text(draft, draft.system());
    let limit = figure(row, part(0)).map_err(|fault| {
        if !not_sure(part(0)) {
            return fault;
        }
        let decides = "the least you could accept decides the ranking, so nothing is taken for it";
        Problem::whole(decides).hint(format!("such as {}", typical()))
    })?;
    let changes = Changes::default().with(path("limit"), limit);
    if !row.rewardable {
        return Ok(changes);
    }
    let clear = |changes: Changes| {
        ["target", "worth", "sure"]
            .iter()
            .fold(changes, |all, key| all.without(path(key)))
    };
    if matches!(part(1).to_lowercase().as_str(), "none" | "nothing" | "no") {
        return Ok(clear(changes));
    }
    if parts.len() < 3 {
        return Err(Problem::whole("three parts are asked for: least, beyond which you would not care, and money for going from one to the other")
            .hint(format!("such as {}; or {}, none if better is worth nothing", typical(), part(0))));
    }
    let mut changes = clear(changes);
    let typical = typical();
    let typical: Vec<&str> = typical.split(',').collect();
    if not_sure(part(1)) {
        let target = figure(row, typical.get(1).copied().unwrap_or_default())?;
        changes = changes.with(path("target"), target);
        changes.unsure.push(path("target"));
    } else {
        changes = changes.with(path("target"), figure(row, part(1))?);
    }
    if not_sure(part(2)) {
        changes = changes.with(path("worth"), whole(typical_worth(draft)));
        changes.unsure.push(path("worth"));
    } else {
        changes = changes.with(path("worth"), money(part(2), draft)?);
    }
    match part(3) {
        "" => Ok(changes),
        word @ ("little" | "fairly" | "very") => Ok(changes.with(path("sure"), word)),
        other => Err(
            Problem::whole(format!("{other:?} does not say how sure the worth is"))
                .hint("write little, fairly or very: within 100, 50 or 20 %; or leave it out"),
        ),
    }
}

/// A limit or target.
fn figure(row: &CriterionRow, text: &str) -> Result<Value, Problem> {
    match row.measure {
        Measure::Quantity(kind) => quantity(text, kind),
        Measure::Number => number(text, &["a year", "years", "year", "parts", "hours", "h"]),
    }
}

/// Money, its currency said or not.
fn money(text: &str, draft: &Draft) -> Result<Value, Problem> {
    let currency = draft.typed("currency").unwrap_or_default().to_lowercase();
    let signs = text.trim_start_matches(['€', '$', '£']);
    number(signs, &[&currency, "€"])
}

/// What a goal is taken to be worth where the person cannot say: a tenth of the budget.
pub(super) fn typical_worth(draft: &Draft) -> f64 {
    let budget = draft.number("goals.purchase.limit", None);
    budget.map_or(WORTH, |budget| (budget * PART).round())
}

pub(super) fn present(question: &Question, draft: &Draft) -> Option<String> {
    let row = question.goal.map(Criterion::row)?;
    let typed = |key: &str| draft.typed(&format!("{}.{key}", row.path));
    let limit = typed("limit")?;
    if !row.rewardable {
        return Some(limit);
    }
    let Some((target, worth)) = typed("target").zip(typed("worth")) else {
        return Some(format!("{limit}, none"));
    };
    let sure = typed("sure")
        .map(|sure| format!(", {sure}"))
        .unwrap_or_default();
    Some(format!("{limit}, {target}, {worth}{sure}"))
}
