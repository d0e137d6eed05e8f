//! Which answers' doubt moves the winner: the job ranked again at both ends of each doubt.

use super::challenge::{study_of, study_with};
use super::draft::Draft;
use super::question::Question;
use super::questions::questions;
use crate::catalog::Catalog;
use crate::quantity::{Kind, Unit, exact, nine_digits, parse_as, units_of};
use crate::requirements::{CRITERIA, Holds, Measure, field_at};
use crate::study::{Change, OptionLine, Study, money};

/// How far a doubtful number may be off: half of it, or double.
const FACTORS: [f64; 2] = [0.5, 2.0];
/// How far a doubtful sound level may be off, dB.
const LEVELS_DB: [f64; 2] = [-6.0, 6.0];

/// An answer in doubt, and what it does.
#[derive(Debug, Clone)]
pub struct Doubt {
    /// The question that would sharpen it.
    pub question: &'static Question,
    /// Where.
    pub path: String,
    /// What it does, in words.
    pub says: String,
    /// Whether another kind of drive comes first.
    turns: bool,
    /// How far the lead moves, money.
    moves: f64,
}

/// The two answers whose doubt moves the winner, or its lead, most; of each question only the worse.
pub fn doubts(draft: &Draft, catalog: &Catalog) -> Vec<Doubt> {
    let Ok(now) = study_of(draft, catalog) else {
        return Vec::new();
    };
    let Some(winner) = now.options.first() else {
        return Vec::new();
    };
    let mut found: Vec<Doubt> = suspects(draft)
        .into_iter()
        .filter_map(|suspect| {
            let ends = suspect.ends.into_iter().filter_map(|end| {
                let then = study_with(draft, &end.clone().into(), catalog).ok()?;
                Some(effect(suspect.question, &end, (&now, winner), &then))
            });
            ends.max_by(worse)
        })
        .filter(|doubt| doubt.turns || doubt.moves >= 1.0)
        .collect();
    found.sort_by(|p, q| worse(q, p));
    let mut kept: Vec<Doubt> = Vec::new();
    for doubt in found {
        if kept.len() < 2
            && kept
                .iter()
                .all(|known| known.question.id != doubt.question.id)
        {
            kept.push(doubt);
        }
    }
    kept
}

fn worse(p: &Doubt, q: &Doubt) -> std::cmp::Ordering {
    p.turns.cmp(&q.turns).then(p.moves.total_cmp(&q.moves))
}

/// An answer in doubt, with the values that it may as well have.
struct Suspect {
    question: &'static Question,
    ends: Vec<Change>,
}

/// Answers that are guesses with most people: how often it goes, and what an hour costs.
const GUESSES: [&str; 2] = ["timing.cycles_per_hour", "rates.labour_per_hour"];

/// Every answer in doubt: the worths, the guesses, and what the person was not sure of.
fn suspects(draft: &Draft) -> Vec<Suspect> {
    let worths = CRITERIA.iter().map(|row| format!("{}.worth", row.path));
    let guesses = GUESSES.map(String::from);
    let all = worths.chain(guesses);
    let mut paths: Vec<String> = all.filter(|path| draft.get(path).is_some()).collect();
    for path in draft.unsure() {
        if !paths.contains(&path) {
            paths.push(path);
        }
    }
    let found = paths.iter().filter_map(|path| {
        let question = asks_for(path, draft)?;
        let ends = ends(path, question, draft);
        Some(Suspect { question, ends })
    });
    found.collect()
}

/// The question whose answer holds a path.
fn asks_for(path: &str, draft: &Draft) -> Option<&'static Question> {
    let holds = |question: &&Question| {
        if let Some(criterion) = question.goal {
            return path.starts_with(&format!("{}.", criterion.row().path));
        }
        let present = (question.present)(question, draft);
        let typed = present.and_then(|text| (question.read)(question, draft, &text).ok());
        let set = typed.map(|changes| changes.set).unwrap_or_default();
        set.iter()
            .any(|change| change.field == path && change.value().is_some())
    };
    questions().find(holds)
}

/// The values that a doubtful one may as well have, with their words.
fn ends(path: &str, question: &Question, draft: &Draft) -> Vec<Change> {
    let Some(text) = draft.typed(path) else {
        return Vec::new();
    };
    let end = |words: String, value: serde_json::Value| {
        Change::new(path, text.clone(), words).in_file(value)
    };
    let holds = match (question.goal, path.rsplit('.').next()) {
        (Some(criterion), Some("limit" | "target")) => match criterion.row().measure {
            Measure::Quantity(kind) => Some(Holds::Quantity(kind)),
            Measure::Number => Some(Holds::Number),
        },
        _ => field_at(path, draft.kind()).map(|field| field.holds),
    };
    match holds {
        Some(Holds::Quantity(Kind::Angle | Kind::Temperature)) => Vec::new(),
        Some(Holds::Quantity(kind)) => {
            let Ok(si) = parse_as(&text, kind) else {
                return Vec::new();
            };
            let both = if kind == Kind::Noise {
                LEVELS_DB.map(|apart| si + apart)
            } else {
                FACTORS.map(|factor| si * factor)
            };
            let symbol = units_of(kind).next().map_or("", Unit::symbol);
            let sized = |si: f64| {
                let value = format!("{} {symbol}", exact(nine_digits(si)));
                end(draft.system().words(kind, si), value.into())
            };
            both.map(sized).into()
        }
        Some(Holds::Number) => {
            let number: f64 = text.parse().unwrap_or_default();
            let other = FACTORS.map(|factor| number * factor);
            other.map(|number| end(exact(number), number.into())).into()
        }
        Some(Holds::Choice(words)) => {
            let others = words.iter().filter(|word| **word != text);
            others
                .map(|word| end((*word).to_owned(), (*word).into()))
                .collect()
        }
        _ => Vec::new(),
    }
}

/// What one end of a doubt does to the first place.
fn effect(
    question: &'static Question,
    end: &Change,
    (now, winner): (&Study, &OptionLine),
    then: &Study,
) -> Doubt {
    let currency = now
        .requirements
        .get("currency")
        .and_then(serde_json::Value::as_str)
        .unwrap_or_default();
    let first = then.options.first();
    let turns = first.is_none_or(|first| first.drive_type != winner.drive_type);
    let moves = (lead(then, &winner.drive_type) - lead(now, &winner.drive_type)).abs();
    let at = condition(question, end, currency);
    let says = match first {
        None => format!("{at}: no drive would meet the rest."),
        Some(first) if turns => format!(
            "{at}: {} would be first, not {}.",
            first.drive_type, winner.drive_type
        ),
        Some(_) => format!(
            "{at}: {} stays first, its lead {} instead of {} {currency}.",
            winner.drive_type,
            money(lead(then, &winner.drive_type)),
            money(lead(now, &winner.drive_type))
        ),
    };
    Doubt {
        question,
        path: end.field.clone(),
        says,
        turns,
        moves,
    }
}

/// A doubtful answer at one of its ends, as a condition.
fn condition(question: &Question, end: &Change, currency: &str) -> String {
    let (path, words) = (end.field.as_str(), &end.to);
    let goal = question.goal.map(|goal| goal.name().replace('_', " "));
    match (path, goal) {
        ("rates.labour_per_hour", _) => format!("If an hour of work cost {words} {currency}"),
        ("timing.cycles_per_hour", _) => format!("If it went {words} times an hour"),
        (_, Some(goal)) if path.rsplit('.').next() == Some("worth") => {
            format!("If {goal} were worth {words} {currency}")
        }
        _ => {
            let path = path.trim_start_matches("goals.");
            format!("If {} were {words}", path.replace(['.', '_'], " "))
        }
    }
}

/// How far the best of a kind is ahead of the best of all others; as much as it is worth where it stands alone.
fn lead(study: &Study, drive_type: &str) -> f64 {
    let best = |own: bool| {
        let found = study
            .options
            .iter()
            .find(|option| (option.drive_type == drive_type) == own);
        found.map(|option| option.net_value)
    };
    match (best(true), best(false)) {
        (Some(own), Some(other)) => own - other,
        _ => 0.0,
    }
}
