//! `--set path=value`: changes to a file before it is read.

use crate::problem::{Problem, Problems};
use crate::reading::{self, Tree};

/// Most steps a path may have; no field lies deeper.
const LONGEST: usize = 16;

/// One step of a path that was typed.
#[derive(Debug, Clone, PartialEq, Eq)]
enum SetStep {
    Key(String),
    Index(usize),
}

/// Applies the changes in their order; faults name the path.
pub(super) fn apply(file: &mut Tree, sets: &[(String, String)]) -> Problems {
    let mut problems = Problems::new();
    for (path, text) in sets {
        if let Err(fault) = apply_one(file, path, text) {
            problems.push(fault);
        }
    }
    problems
}

fn apply_one(file: &mut Tree, path: &str, text: &str) -> Result<(), Problem> {
    let steps = steps(path).ok_or_else(|| {
        Problem::at(format!("--set {path:?}"), "is not a path")
            .hint("write keys with points between them, such as goals.noise.limit or motion.process[0].out")
    })?;
    let value = value(text).map_err(|fault| Problem::at(format!("--set {path}"), fault))?;
    let (last, parents) = steps
        .split_last()
        .ok_or_else(|| Problem::at("--set", "has no path"))?;
    let mut here = file;
    let mut done = String::new();
    for (index, step) in parents.iter().enumerate() {
        let next_is_item = matches!(steps.get(index + 1), Some(SetStep::Index(_)));
        match enter(here, step, next_is_item, value.is_none()) {
            Ok(Some(inner)) => here = inner,
            Ok(None) => return Ok(()),
            Err(what) => return Err(blocked(path, &done, &what)),
        }
        match step {
            SetStep::Key(key) => done = reading::join(&done, key),
            SetStep::Index(item) => done = format!("{done}[{item}]"),
        }
    }
    write(here, last, value).map_err(|what| blocked(path, &done, &what))
}

/// Whether a path is of something that one of some changes sets.
pub fn concerns(sets: &[(String, String)], path: &str) -> bool {
    sets.iter().any(|(set, _)| {
        let rest = path.strip_prefix(set.as_str());
        rest.is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
    })
}

fn blocked(path: &str, done: &str, what: &str) -> Problem {
    let around = if done.is_empty() { "the file" } else { done };
    Problem::at(
        format!("--set {path}"),
        format!("cannot be set: {around} {what}"),
    )
}

/// `a.b[0].c` as steps; none if it is no path.
fn steps(path: &str) -> Option<Vec<SetStep>> {
    let mut steps = Vec::new();
    for part in path.split('.') {
        let (key, indices) = part
            .split_once('[')
            .map_or((part, None), |(key, rest)| (key, Some(rest)));
        if key.is_empty() || key.contains(']') {
            return None;
        }
        steps.push(SetStep::Key(key.to_owned()));
        if let Some(indices) = indices {
            for index in indices.strip_suffix(']')?.split("][") {
                steps.push(SetStep::Index(index.parse().ok()?));
            }
        }
    }
    (steps.len() <= LONGEST).then_some(steps)
}

/// What is to be written: JSON where it reads as JSON, else the text itself; none for `null`.
fn value(text: &str) -> Result<Option<Tree>, String> {
    let text = text.trim();
    match reading::parse(text.as_bytes()) {
        Ok(Tree::Null) => Ok(None),
        Ok(tree) => Ok(Some(tree)),
        Err(faults) if text.starts_with(['{', '[']) => Err(faults.first().map_or_else(
            || "has a value that cannot be read".into(),
            |fault| {
                format!(
                    "has a value that cannot be read: {} {}",
                    fault.path, fault.message
                )
            },
        )),
        Err(_) => Ok(Some(Tree::Text(text.to_owned()))),
    }
}

/// Goes into a field or item, making it where it is missing unless something is to be removed.
fn enter<'t>(
    here: &'t mut Tree,
    step: &SetStep,
    list: bool,
    removing: bool,
) -> Result<Option<&'t mut Tree>, String> {
    let made = if list {
        Tree::List(Vec::new())
    } else {
        Tree::Object(Vec::new())
    };
    match (here, step) {
        (Tree::Object(fields), SetStep::Key(key)) => {
            let found = fields.iter().position(|(name, _)| name == key);
            if found.is_none() && removing {
                return Ok(None);
            }
            let index = found.unwrap_or(fields.len());
            if found.is_none() {
                fields.push((key.clone(), made));
            }
            Ok(fields.get_mut(index).map(|(_, value)| value))
        }
        (Tree::List(items), SetStep::Index(index)) => {
            let count = items.len();
            if *index == count && !removing {
                items.push(made);
            }
            items
                .get_mut(*index)
                .map(Some)
                .ok_or_else(|| items_words(count))
        }
        (other, step) => Err(misfit(other, step)),
    }
}

fn write(here: &mut Tree, step: &SetStep, value: Option<Tree>) -> Result<(), String> {
    match (here, step, value) {
        (Tree::Object(fields), SetStep::Key(key), None) => fields.retain(|(name, _)| name != key),
        (Tree::Object(fields), SetStep::Key(key), Some(value)) => {
            match fields.iter_mut().find(|(name, _)| name == key) {
                Some((_, old)) => *old = value,
                None => fields.push((key.clone(), value)),
            }
        }
        (Tree::List(items), SetStep::Index(index), None) if *index < items.len() => {
            items.remove(*index);
        }
        (Tree::List(items), SetStep::Index(index), Some(value)) if *index < items.len() => {
            if let Some(old) = items.get_mut(*index) {
                *old = value;
            }
        }
        (Tree::List(items), SetStep::Index(index), Some(value)) if *index == items.len() => {
            items.push(value);
        }
        (Tree::List(items), SetStep::Index(_), _) => return Err(items_words(items.len())),
        (other, step, _) => return Err(misfit(other, step)),
    }
    Ok(())
}

fn items_words(count: usize) -> String {
    match count {
        0 => "is an empty list".into(),
        1 => "has one item, [0]".into(),
        _ => format!("has {count} items, [0] to [{}]", count - 1),
    }
}

fn misfit(tree: &Tree, step: &SetStep) -> String {
    match step {
        SetStep::Key(_) => format!("is {}, not an object", tree.kind()),
        SetStep::Index(_) => format!("is {}, not a list", tree.kind()),
    }
}
