//! One table of the fields of a requirements file: what each holds, its range, what it is taken to be.
//!
//! The defaults, the assumptions and the ranges come from here; what binds
//! several fields together is in [`super::read`].

mod table;

use crate::quantity::Kind;
use crate::reading::Tree;

pub use table::FIELDS;

/// A field, or a family of them: `[]` in its path stands for any item, `*` for any key.
#[derive(Debug, Clone, Copy)]
pub struct Field {
    /// Where it is, such as `motion.process[].at`.
    pub path: &'static str,
    /// Which motions have it.
    pub on: On,
    /// What it holds.
    pub holds: Holds,
    /// Between what it may be, if it is a number.
    pub range: FieldRange,
    /// What happens where it is left out.
    pub without: Without,
    /// What it means, a clause.
    pub meaning: &'static str,
}

/// Which motions have a field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum On {
    /// Both.
    Both,
    /// The straight axis.
    Slide,
    /// The hinged axis.
    Hinge,
}

impl On {
    /// Whether a file of this `motion.kind` has the field.
    pub fn fits(self, kind: &str) -> bool {
        match self {
            On::Both => true,
            On::Slide => kind == "slide",
            On::Hinge => kind == "hinge",
        }
    }
}

/// What a field holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Holds {
    /// A text with a unit.
    Quantity(Kind),
    /// A plain number.
    Number,
    /// True or false.
    Flag,
    /// Any text.
    Text,
    /// One of some words.
    Choice(&'static [&'static str]),
    /// A list.
    List,
    /// Fields of its own.
    Object,
}

/// The range of a number, in the spelling of a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FieldRange {
    /// Anything the reader takes.
    Any,
    /// Both ends included.
    Within(&'static str, &'static str),
    /// The lower end left out.
    Above(&'static str, &'static str),
}

/// What happens where a field is left out.
#[derive(Debug, Clone, Copy)]
pub enum Without {
    /// It must be given wherever the object around it is.
    Refused,
    /// It stays out, and nothing is taken for granted.
    Nothing,
    /// It stays out, which says something about the job: the value in words and the reason.
    Absent(&'static str, &'static str),
    /// An object without a say of its own, made for the fields inside.
    Made,
    /// This text is taken, for this reason.
    Text(&'static str, &'static str),
    /// This number is taken, for this reason.
    Number(f64, &'static str),
    /// This answer is taken, for this reason.
    Flag(bool, &'static str),
    /// An empty list is taken, for this reason.
    Empty(&'static str),
    /// Worked out from the file as filled in so far, given the object around the field.
    Worked(Working, &'static str),
}

/// Works out a default: the whole file and the object around the field.
pub type Working = fn(&Tree, &Tree) -> Option<Tree>;

/// One step of a path.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PathStep<'p> {
    /// A key.
    Key(&'p str),
    /// Any key.
    AnyKey,
    /// Any item of a list.
    Items,
}

/// The steps of a path of the table.
pub fn steps(path: &'static str) -> impl Iterator<Item = PathStep<'static>> {
    path.split('.').flat_map(|part| {
        let (key, items) = match part.strip_suffix("[]") {
            Some(key) => (key, Some(PathStep::Items)),
            None => (part, None),
        };
        let key = if key == "*" {
            PathStep::AnyKey
        } else {
            PathStep::Key(key)
        };
        [Some(key), items].into_iter().flatten()
    })
}

/// A path of a file as the table would write it: indices as `[]`, criteria as `*`.
pub fn general(path: &str) -> String {
    let mut text = String::new();
    let mut in_index = false;
    for sign in path.chars() {
        match sign {
            '[' => in_index = true,
            ']' if in_index => {
                in_index = false;
                text.push_str("[]");
            }
            _ if in_index => {}
            other => text.push(other),
        }
    }
    match text
        .strip_prefix("goals.")
        .and_then(|rest| rest.split_once('.'))
    {
        Some((_, field)) => format!("goals.*.{field}"),
        None => text,
    }
}

/// The field at a path of a file, for a kind of motion.
pub fn field_at(path: &str, kind: &str) -> Option<&'static Field> {
    let general = general(path);
    FIELDS
        .iter()
        .find(|field| field.path == general && field.on.fits(kind))
}

/// Every value of a file at a path of the table, with its place.
pub fn places<'t>(tree: &'t Tree, path: &'static str) -> Vec<(String, &'t Tree)> {
    let mut here = vec![(String::new(), tree)];
    for step in steps(path) {
        here = here
            .into_iter()
            .flat_map(|(place, tree)| inside(&place, tree, step))
            .collect();
    }
    here
}

fn inside<'t>(place: &str, tree: &'t Tree, step: PathStep) -> Vec<(String, &'t Tree)> {
    let under = |key: &str| {
        if place.is_empty() {
            key.to_owned()
        } else {
            format!("{place}.{key}")
        }
    };
    match (step, tree) {
        (PathStep::Items, Tree::List(items)) => items
            .iter()
            .enumerate()
            .map(|(index, item)| (format!("{place}[{index}]"), item))
            .collect(),
        (PathStep::Key(wanted), Tree::Object(fields)) => fields
            .iter()
            .filter(|(key, _)| key == wanted)
            .map(|(key, value)| (under(key), value))
            .collect(),
        (PathStep::AnyKey, Tree::Object(fields)) => {
            let place = |(key, value): &'t (String, Tree)| (under(key), value);
            fields.iter().map(place).collect()
        }
        _ => Vec::new(),
    }
}

#[cfg(test)]
#[path = "../../../tests/unit/requirements/fields.rs"]
mod tests;
