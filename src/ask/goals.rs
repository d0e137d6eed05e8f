//! The goals: which matter, which two matter most, and each in full.

use serde_json::{Value, json};

use super::answer::{NOT_SURE, not_sure, number, parts, quantity, read_choices, whole};
use super::draft::Draft;
use super::question::{Both, Changes, Choice, Easier, Form, Question};
use crate::problem::Problem;
use crate::quantity::exact;
use crate::requirements::{Criterion, CriterionRow, Measure};

/// Worth that is taken where the person cannot say and there is no budget to take a tenth of.
const WORTH: f64 = 150.0;
/// Part of the budget that a goal is taken to be worth where the person cannot say.
const PART: f64 = 0.1;

/// One goal as it is asked for.
struct WantLine {
    criterion: Criterion,
    word: &'static str,
    /// In the list.
    says: &'static str,
    asks: &'static str,
    why: &'static str,
    usual: Both,
    typical: Both,
    more: &'static str,
}

/// In the order of the list.
const LINES: &[WantLine] = &[
    WantLine {
        criterion: Criterion::Noise,
        word: "noise",
        says: "quiet",
        asks: "How loud may it be at 1 m?",
        why: "Air exhausts and oil pumps are loud, a slow screw is not.",
        usual: Both(
            "talk is 60 dB, a busy workshop 80 dB",
            "talk is 60 dB, a busy workshop 80 dB",
        ),
        typical: Both("80 dB, 65 dB, don't know", "80 dB, 65 dB, don't know"),
        more: "Ten decibels less sound about half as loud. Think of what a hood would cost, or of \
            what those who work beside it would give for the difference.",
    },
    WantLine {
        criterion: Criterion::AddedMass,
        word: "added_mass",
        says: "light: little weight added to the machine",
        asks: "How much may the drive add to the machine's weight?",
        why: "Counterweights and oil units are heavy; a machine that is moved or stands on a weak floor minds.",
        usual: Both("20 kg to 200 kg", "50 lb to 400 lb"),
        typical: Both("200 kg, 50 kg, don't know", "400 lb, 100 lb, don't know"),
        more: "Everything that the drive brings is counted, a counterweight too, but not what is there already.",
    },
    WantLine {
        criterion: Criterion::PositionError,
        word: "position_error",
        says: "exact: it stops where it should",
        asks: "How far off may it stop?",
        why: "An end stop repeats well, air stopped between its ends badly, a fine screw best.",
        usual: Both("0.1 mm to 10 mm", "0.004 in to 0.4 in"),
        typical: Both("5 mm, 1 mm, don't know", "0.2 in, 0.04 in, don't know"),
        more: "Count what rework or scrap a worse stop makes in a year, times the years that money is counted over.",
    },
    WantLine {
        criterion: Criterion::ClosedLength,
        word: "closed_length",
        says: "short: little room along the travel",
        asks: "How long may the drive be with the load at the back end?",
        why: "Cylinders need their stroke again as length, screws run beside the load.",
        usual: Both(
            "once to three times the travel",
            "once to three times the travel",
        ),
        typical: Both("3 m, 1 m, don't know", "10 ft, 3 ft, don't know"),
        more: "Measure from the fixed end of the drive to where it takes hold of the load.",
    },
    WantLine {
        criterion: Criterion::EnergyPerCycle,
        word: "energy_per_cycle",
        says: "sparing with energy",
        asks: "How much energy may a cycle take?",
        why: "What energy costs is counted in running cost anyway; ask for more only if you would pay beyond that.",
        usual: Both("100 J to 10 kJ", "100 J to 10 kJ"),
        typical: Both("20 kJ, 1 kJ, don't know", "20 kJ, 1 kJ, don't know"),
        more: "A kilowatt hour is 3600 kJ: the bill alone hardly ever decides.",
    },
    WantLine {
        criterion: Criterion::Life,
        word: "life",
        says: "long-lived",
        asks: "How many years must it last, at this rate?",
        why: "Screws wear with distance and load, seals with distance; more years need larger parts.",
        usual: Both("5 to 20 years", "5 to 20 years"),
        typical: Both("8, 15, don't know", "8, 15, don't know"),
        more: "The first number is the fewest years that you could live with, the second is more: beyond it you would not care.",
    },
    WantLine {
        criterion: Criterion::CustomParts,
        word: "custom_parts",
        says: "few parts to make",
        asks: "How many parts would you make yourself?",
        why: "Every bracket is drawn, sawn and drilled; its hours are counted in the price already.",
        usual: Both("2 to 8 parts", "2 to 8 parts"),
        typical: Both("8, 2, don't know", "8, 2, don't know"),
        more: "Ask for fewer only if your workshop is small or booked: the hours are in the price to buy.",
    },
    WantLine {
        criterion: Criterion::PartCount,
        word: "part_count",
        says: "few parts in all",
        asks: "How many parts may the drive have?",
        why: "Each part is one more to buy, to fit, and to fail.",
        usual: Both("5 to 20 parts", "5 to 20 parts"),
        typical: Both("20, 6, don't know", "20, 6, don't know"),
        more: "Their price and fitting hours are counted in the price to buy already.",
    },
    WantLine {
        criterion: Criterion::HandForce,
        word: "hand_force",
        says: "easy on the hand, if cranked",
        asks: "How hard may the crank be?",
        why: "A longer crank or a higher ratio eases the hand and takes more turns.",
        usual: Both(
            "50 N for long, 150 N for a spell",
            "11 lbf for long, 34 lbf for a spell",
        ),
        typical: Both("150 N, 50 N, don't know", "34 lbf, 11 lbf, don't know"),
        more: "It concerns cranked drives alone; all others ask nothing of the hand and reach the best.",
    },
    WantLine {
        criterion: Criterion::RunningCost,
        word: "running_cost",
        says: "a limit on what it costs to run",
        asks: "What may it cost to run, a year?",
        why: "Energy, maintenance and cranking time are counted anyway; this is a limit that must not be passed.",
        usual: Both("20 to 500 a year", "20 to 500 a year"),
        typical: Both("500", "500"),
        more: "It is money already, so it takes the limit alone: there is nothing to pay for on top.",
    },
    WantLine {
        criterion: Criterion::MaintenanceHours,
        word: "maintenance_hours",
        says: "a limit on maintenance hours",
        asks: "How many hours of maintenance a year will somebody give it?",
        why: "Screws want grease, filters draining, oil changing; where nobody looks after it, that is a limit.",
        usual: Both("1 to 10 hours a year", "1 to 10 hours a year"),
        typical: Both("8", "8"),
        more: "The hours are money already at your rate, so it takes the limit alone.",
    },
];

/// How a goal is answered: its typical answer with the worth that it would have.
pub(super) fn example(question: &Question, draft: &Draft) -> Option<String> {
    let row = question.goal?.row();
    let typical = question.typical_text(draft, draft.system());
    Some(if row.rewardable {
        let worth = exact(typical_worth(draft));
        format!(
            "{}: the worst you could live with, what you would not care to better, and money, once, for getting from the \
             first to the second",
            typical.replace(NOT_SURE, &worth)
        )
    } else {
        format!("{typical}: a limit alone")
    })
}

/// A goal asked in full.
const fn full(line: &'static WantLine) -> Question {
    Question {
        id: line.word,
        part: "goals",
        asks: line.asks,
        why: line.why,
        more: line.more,
        like: Both("", ""),
        usual: line.usual,
        typical: line.typical,
        worked: None,
        open: false,
        defaulted: false,
        form: Form::Line,
        applies: is_wanted,
        answered,
        present,
        read,
        otherwise: None,
        mechanics: false,
        easier: Some(Easier {
            changes: drop_want,
            says: "nothing were asked of that",
        }),
        goal: Some(line.criterion),
    }
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

/// Every goal but the travel time and the budget, which are asked of everybody.
pub(super) static GOALS: &[Question] = &[
    full(&LINES[0]),
    full(&LINES[1]),
    full(&LINES[2]),
    full(&LINES[3]),
    full(&LINES[4]),
    full(&LINES[5]),
    full(&LINES[6]),
    full(&LINES[7]),
    full(&LINES[8]),
    full(&LINES[9]),
    full(&LINES[10]),
];

pub(super) fn choices(_: &Draft) -> Vec<Choice> {
    let choice = |line: &WantLine| Choice {
        word: line.word,
        says: line.says,
    };
    LINES.iter().map(choice).collect()
}

/// Whether the list of goals has been answered: one is named, or the person said that none matters.
pub(super) fn is_list_answered(_: &Question, draft: &Draft) -> bool {
    LINES.iter().any(|line| draft.goals(line.criterion)) || !draft.unfinished()
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
    for line in LINES {
        let path = line.criterion.row().path;
        let is_wanted = found.iter().any(|choice| choice.word == line.word);
        match (is_wanted, draft.goals(line.criterion)) {
            (true, false) => changes = changes.with(path, json!({})),
            (false, true) => changes = changes.without(path),
            _ => {}
        }
    }
    Ok(changes)
}

pub(super) fn list_typed(_: &Question, draft: &Draft) -> Option<String> {
    let is_wanted = LINES.iter().filter(|line| draft.goals(line.criterion));
    let words: Vec<&str> = is_wanted.map(|line| line.word).collect();
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
        return Err(Problem::at("", format!("{} were named", found.len()))
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
    let limit = figure(row, part(0)).map_err(|fault| {
        if not_sure(part(0)) {
            Problem::at(
                "",
                "the least you could live with decides the ranking, so nothing is taken for it",
            )
            .hint(format!(
                "such as {}",
                question.typical_text(draft, draft.system())
            ))
        } else {
            fault
        }
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
        return Err(Problem::at("", "three parts are asked for: least, beyond which you would not care, and money for going from one to the other")
            .hint(format!("such as {}; or {}, none if better is worth nothing", question.typical_text(draft, draft.system()), part(0))));
    }
    let mut changes = clear(changes);
    let typical = question.typical_text(draft, draft.system());
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
            Problem::at("", format!("{other:?} does not say how sure the worth is"))
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

/// The same as typed.
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
