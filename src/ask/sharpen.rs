//! Which answers' doubt moves the winner: the job ranked again at both ends of each doubt.

use super::challenge::study_of;
use super::draft::Draft;
use super::question::{Change, Changes, Question};
use super::questions::questions;
use crate::catalog::Catalog;
use crate::quantity::{Kind, exact, nine_digits, parse_as};
use crate::requirements::{CRITERIA, Holds, field_at};
use crate::study::{OptionLine, Study, money};

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
#[must_use]
pub fn doubts(draft: &Draft, catalog: &Catalog) -> Vec<Doubt> {
    let Ok(now) = study_of(draft, catalog) else {
        return Vec::new();
    };
    let Some(winner) = now.options.first() else {
        return Vec::new();
    };
    let mut found: Vec<Doubt> = candidates(draft)
        .into_iter()
        .filter_map(|(question, path, ends)| {
            let ends = ends.into_iter().filter_map(|(words, changes)| {
                let mut other = draft.clone();
                other.apply(&changes);
                let then = study_of(&other, catalog).ok()?;
                Some(effect(question, &path, &words, (&now, winner), &then))
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

type End = (String, Changes);

/// Answers that are guesses with most people: how often it goes, and what an hour costs.
const GUESSES: [&str; 2] = ["timing.cycles_per_hour", "rates.labour_per_hour"];

/// Every answer in doubt: the worths, the guesses, and what the person was not sure of, with the values it may as well have.
fn candidates(draft: &Draft) -> Vec<(&'static Question, String, Vec<End>)> {
    let worths = CRITERIA.iter().map(|row| format!("{}.worth", row.path));
    let guesses = GUESSES.map(String::from);
    let all = worths.chain(guesses);
    let mut paths: Vec<String> = all.filter(|path| draft.get(path).is_some()).collect();
    for path in draft.unsure() {
        if !paths.contains(&path) {
            paths.push(path);
        }
    }
    let found = paths.into_iter().filter_map(|path| {
        let question = asks_for(&path, draft)?;
        let ends = ends(&path, question, draft);
        (!ends.is_empty()).then_some((question, path, ends))
    });
    found.collect()
}

/// The question whose answer holds a path.
fn asks_for(path: &str, draft: &Draft) -> Option<&'static Question> {
    let holds = |question: &&Question| {
        if let Some(criterion) = question.want {
            return path.starts_with(&format!("{}.", criterion.row().path));
        }
        let present = (question.present)(question, draft);
        let typed = present.and_then(|text| (question.read)(question, draft, &text).ok());
        let set = typed.map(|changes| changes.set).unwrap_or_default();
        set.iter()
            .any(|change| change.path == path && change.value.is_some())
    };
    questions().find(holds)
}

/// The values that a doubtful one may as well have, with their words.
fn ends(path: &str, question: &Question, draft: &Draft) -> Vec<End> {
    let set = |text: String, value: serde_json::Value| {
        let value = Some(value);
        let changes = Changes {
            set: vec![Change {
                path: path.to_owned(),
                value,
            }],
            unsure: Vec::new(),
        };
        (text, changes)
    };
    let holds = match (question.want, path.rsplit('.').next()) {
        (Some(criterion), Some("must" | "ideal")) => match criterion.row().measure {
            crate::requirements::Measure::Quantity(kind) => Holds::Quantity(kind),
            crate::requirements::Measure::Number => Holds::Number,
        },
        _ => match field_at(path, draft.kind()) {
            Some(field) => field.holds,
            None => return Vec::new(),
        },
    };
    match (holds, draft.typed(path)) {
        (Holds::Quantity(Kind::Angle | Kind::Temperature), _) | (_, None) => Vec::new(),
        (Holds::Quantity(kind), Some(text)) => {
            let Ok(si) = parse_as(&text, kind) else {
                return Vec::new();
            };
            let both = if kind == Kind::Noise {
                LEVELS_DB.map(|apart| si + apart)
            } else {
                FACTORS.map(|factor| si * factor)
            };
            let unit = crate::quantity::units_of(kind).next();
            let symbol = unit.map_or("", crate::quantity::Unit::symbol);
            let word = |si: f64| {
                let typed = format!("{} {symbol}", exact(nine_digits(si)));
                set(draft.system().words(kind, si), typed.into())
            };
            both.map(word).to_vec()
        }
        (Holds::Number, Some(text)) => {
            let number: f64 = text.parse().unwrap_or_default();
            FACTORS
                .map(|factor| set(exact(number * factor), (number * factor).into()))
                .to_vec()
        }
        (Holds::Choice(words), Some(text)) => {
            let others = words.iter().filter(|word| **word != text);
            others
                .map(|word| set((*word).to_owned(), (*word).into()))
                .collect()
        }
        _ => Vec::new(),
    }
}

/// What one end of a doubt does to the first place.
fn effect(
    question: &'static Question,
    path: &str,
    words: &str,
    (now, winner): (&Study, &OptionLine),
    then: &Study,
) -> Doubt {
    let currency = now
        .requirements
        .get("currency")
        .and_then(serde_json::Value::as_str)
        .unwrap_or_default();
    let first = then.options.first();
    let turns = first.is_none_or(|first| first.train != winner.train);
    let moves = (lead(then, &winner.train) - lead(now, &winner.train)).abs();
    let at = condition(question, path, words, currency);
    let says = match first {
        None => format!("{at}: no drive would meet the rest."),
        Some(first) if turns => format!(
            "{at}: {} would be first, not {}.",
            first.train, winner.train
        ),
        Some(_) => format!(
            "{at}: {} stays first, its lead {} instead of {} {currency}.",
            winner.train,
            money(lead(then, &winner.train)),
            money(lead(now, &winner.train))
        ),
    };
    Doubt {
        question,
        path: path.to_owned(),
        says,
        turns,
        moves,
    }
}

/// A doubtful answer at one of its ends, as a condition.
fn condition(question: &Question, path: &str, words: &str, currency: &str) -> String {
    let want = question.want.map(|want| want.name().replace('_', " "));
    match (path, want) {
        ("rates.labour_per_hour", _) => format!("If an hour of work cost {words} {currency}"),
        ("timing.cycles_per_hour", _) => format!("If it went {words} times an hour"),
        (_, Some(want)) if path.rsplit('.').next() == Some("worth") => {
            format!("If {want} were worth {words} {currency}")
        }
        _ => {
            let path = path.trim_start_matches("wants.");
            format!("If {} were {words}", path.replace(['.', '_'], " "))
        }
    }
}

/// How far the best of a kind is ahead of the best of all others; as much as it is worth where it stands alone.
fn lead(study: &Study, train: &str) -> f64 {
    let best = |own: bool| {
        let found = study
            .options
            .iter()
            .find(|option| (option.train == train) == own);
        found.map(|option| option.net_worth)
    };
    match (best(true), best(false)) {
        (Some(own), Some(other)) => own - other,
        _ => 0.0,
    }
}
