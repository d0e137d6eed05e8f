//! Filling in what a file leaves out, and putting its fields in order.

use super::Assumption;
use super::fields::{FIELDS, Field, PathStep, Without, general, steps};
use crate::reading::{Tree, join};

/// Writes every default out; gives what was taken for granted.
pub(super) fn fill(file: &mut Tree) -> Vec<Assumption> {
    let kind = motion_kind(file).to_owned();
    let mut assumptions = Vec::new();
    for field in FIELDS.iter().filter(|field| field.on.fits(&kind)) {
        let mut path: Vec<_> = steps(field.path).collect();
        let Some(PathStep::Key(key)) = path.pop() else {
            continue;
        };
        let whole = match field.without {
            Without::Worked(..) => file.clone(),
            _ => Tree::Null,
        };
        around(file, &path, "", &mut |place, object| {
            assumptions.extend(fill_field(field, key, place, object, &whole));
        });
    }
    assumptions
}

/// The kind of motion that a file names, if it names one.
pub(super) fn motion_kind(file: &Tree) -> &str {
    match file.get("motion").and_then(|motion| motion.get("kind")) {
        Some(Tree::Text(kind)) => kind,
        _ => "",
    }
}

/// Visits every object at a path.
fn around(tree: &mut Tree, path: &[PathStep], place: &str, visit: &mut dyn FnMut(&str, &mut Tree)) {
    let Some((step, rest)) = path.split_first() else {
        if matches!(tree, Tree::Object(_)) {
            visit(place, tree);
        }
        return;
    };
    match (step, tree) {
        (PathStep::Items, Tree::List(items)) => {
            for (index, item) in items.iter_mut().enumerate() {
                around(item, rest, &format!("{place}[{index}]"), visit);
            }
        }
        (step, Tree::Object(fields)) => {
            for (key, value) in fields {
                if matches!(step, PathStep::AnyKey) || *step == PathStep::Key(key) {
                    around(value, rest, &join(place, key), visit);
                }
            }
        }
        _ => {}
    }
}

/// Fills in one field of one object.
fn fill_field(
    field: &Field,
    key: &str,
    place: &str,
    object: &mut Tree,
    whole: &Tree,
) -> Option<Assumption> {
    if object.get(key).is_some() {
        return None;
    }
    let (value, reason) = match field.without {
        Without::Refused | Without::Nothing => return None,
        Without::Made => (Tree::Object(Vec::new()), None),
        Without::Absent(words, reason) => {
            return Some(Assumption {
                field: join(place, key),
                value: words.into(),
                reason: reason.into(),
            });
        }
        Without::Text(text, reason) => (Tree::Text(text.into()), Some(reason)),
        Without::Number(number, reason) => (Tree::Number(number), Some(reason)),
        Without::Flag(flag, reason) => (Tree::Bool(flag), Some(reason)),
        Without::Empty(reason) => (Tree::List(Vec::new()), Some(reason)),
        Without::Worked(work, reason) => (work(whole, object)?, Some(reason)),
    };
    let assumption = reason.map(|reason| Assumption {
        field: join(place, key),
        value: in_words(&value),
        reason: reason.into(),
    });
    if let Tree::Object(fields) = object {
        fields.push((key.to_owned(), value));
    }
    assumption
}

/// A value as a line of the assumptions shows it.
pub(super) fn in_words(value: &Tree) -> String {
    match value {
        Tree::Text(text) => text.clone(),
        Tree::List(items) if items.is_empty() => "none".into(),
        Tree::List(items) => {
            let words: Vec<_> = items.iter().map(in_words).collect();
            words.join(", ")
        }
        Tree::Number(number) if number.fract() != 0.0 => crate::quantity::show(*number),
        other => serde_json::Value::from(other).to_string(),
    }
}

/// Puts the fields of every object in the order of the format.
pub(super) fn order(tree: &mut Tree, place: &str) {
    match tree {
        Tree::List(items) => {
            let place = format!("{place}[]");
            for item in items {
                order(item, &place);
            }
        }
        Tree::Object(fields) => {
            fields.sort_by_cached_key(|(key, _)| rank(&join(place, key)));
            for (key, value) in fields {
                order(value, &join(place, key));
            }
        }
        _ => {}
    }
}

/// Where a path stands in the format.
fn rank(path: &str) -> (usize, usize) {
    let path = general(path);
    let line = FIELDS.iter().position(|field| field.path == path);
    let inner = |prefix: &str, mut names: Box<dyn Iterator<Item = &'static str>>| {
        let name = path.strip_prefix(prefix)?;
        names.position(|known| known == name)
    };
    let criteria = super::CRITERIA
        .iter()
        .map(super::criterion::CriterionRow::name);
    let rules = super::RULES.iter().map(|rule| rule.key);
    let within = inner("goals.", Box::new(criteria)).or_else(|| inner("rules.", Box::new(rules)));
    match (within, line) {
        (Some(within), _) => (0, within),
        (None, line) => (line.unwrap_or(usize::MAX), 0),
    }
}
