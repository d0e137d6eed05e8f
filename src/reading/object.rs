//! Taking the fields of an object one by one, collecting every fault.

use std::borrow::Cow;
use std::cell::RefCell;

use super::Tree;
use crate::problem::{MOST_FAULTS, Problem, Problems};
use crate::quantity::{self, Kind, Si};

/// What is wrong with a field that must be given and is not.
pub const MISSING: &str = "is missing";
/// What is wrong with a field that nobody asks for.
pub const UNKNOWN: &str = "is not a field that is known here";

/// Where faults are collected.
#[derive(Debug, Default)]
pub struct Sink(RefCell<Problems>);

impl Sink {
    /// Adds a fault.
    pub fn add(&self, problem: Problem) {
        self.0.borrow_mut().push(problem);
    }
    /// How many there are.
    pub fn len(&self) -> usize {
        self.0.borrow().len()
    }
    /// Whether none was found.
    pub fn is_empty(&self) -> bool {
        self.0.borrow().is_empty()
    }
    /// The faults, in the order found.
    pub fn into_problems(self) -> Problems {
        self.0.into_inner()
    }
}

/// What a value looks like in a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// A text.
    Text,
    /// True or false.
    Flag,
    /// A plain number.
    Number,
    /// A number with a unit.
    Quantity(Kind),
    /// Several of one shape.
    List(&'static Shape),
}

/// A value that can be read from a JSON value.
pub trait FromTree: Sized {
    /// What it looks like in a file.
    const SHAPE: Shape;
    /// Reads it.
    ///
    /// # Errors
    /// A fault whose path is relative to the value (empty for the value itself).
    fn from_tree(tree: &Tree) -> Result<Self, Problem>;
    /// The numbers it holds, in SI; none of a text or flag.
    fn figures(&self) -> Vec<f64> {
        Vec::new()
    }
}

impl<Q: Si> FromTree for Q {
    const SHAPE: Shape = Shape::Quantity(Q::KIND);
    fn figures(&self) -> Vec<f64> {
        vec![self.si()]
    }
    fn from_tree(tree: &Tree) -> Result<Self, Problem> {
        let text = match tree {
            Tree::Text(text) => Cow::from(text),
            Tree::Number(number) => quantity::exact(*number).into(),
            other => {
                return Err(Problem::at(
                    "",
                    format!("is {}, not a quantity", other.kind()),
                ));
            }
        };
        quantity::parse(&text).map_err(|fault| Problem::at("", fault.message).hint(fault.hint))
    }
}

impl FromTree for f64 {
    const SHAPE: Shape = Shape::Number;
    fn figures(&self) -> Vec<f64> {
        vec![*self]
    }
    fn from_tree(tree: &Tree) -> Result<Self, Problem> {
        match tree {
            Tree::Number(number) if quantity::in_range(*number) => Ok(*number),
            Tree::Number(number) if number.abs() < 1.0 => {
                Err(Problem::at("", "is out of range; 0, or at least 1e-30"))
            }
            Tree::Number(_) => Err(Problem::at("", "is out of range; at most 1e12")),
            Tree::Text(_) => Err(Problem::at("", "is a text, not a plain number")
                .hint("write the number without quotes and unit")),
            other => Err(Problem::at(
                "",
                format!("is {}, not a number", other.kind()),
            )),
        }
    }
}

impl FromTree for bool {
    const SHAPE: Shape = Shape::Flag;
    fn from_tree(tree: &Tree) -> Result<Self, Problem> {
        match tree {
            Tree::Bool(flag) => Ok(*flag),
            other => Err(Problem::at(
                "",
                format!("is {}, not true or false", other.kind()),
            )),
        }
    }
}

impl FromTree for String {
    const SHAPE: Shape = Shape::Text;
    fn from_tree(tree: &Tree) -> Result<Self, Problem> {
        match tree {
            Tree::Text(text) => Ok(text.clone()),
            other => Err(Problem::at("", format!("is {}, not a text", other.kind()))),
        }
    }
}

impl<T: FromTree> FromTree for Vec<T> {
    const SHAPE: Shape = Shape::List(&T::SHAPE);
    fn figures(&self) -> Vec<f64> {
        self.iter().flat_map(FromTree::figures).collect()
    }
    fn from_tree(tree: &Tree) -> Result<Self, Problem> {
        let Tree::List(items) = tree else {
            return Err(Problem::at("", format!("is {}, not a list", tree.kind())));
        };
        let read = |(index, item)| {
            T::from_tree(item).map_err(|mut fault| {
                fault.path = format!("[{index}]{}", fault.path);
                fault
            })
        };
        items.iter().enumerate().map(read).collect()
    }
}

/// A JSON object being read at a path.
#[derive(Debug)]
pub struct Object<'a> {
    fields: &'a [(String, Tree)],
    path: String,
    sink: &'a Sink,
    known: Vec<&'static str>,
}

impl<'a> Object<'a> {
    /// Starts reading; a value that is no object is a fault.
    pub fn new(tree: &'a Tree, path: impl Into<String>, sink: &'a Sink) -> Option<Self> {
        let path = path.into();
        if let Tree::Object(fields) = tree {
            return Some(Self {
                fields,
                path,
                sink,
                known: Vec::new(),
            });
        }
        sink.add(Problem::at(
            path,
            format!("is {}, not an object", tree.kind()),
        ));
        None
    }

    /// The path of a field.
    pub fn path_of(&self, key: &str) -> String {
        join(&self.path, key)
    }

    /// The names of the fields asked for so far.
    pub fn keys(&self) -> &[&'static str] {
        &self.known
    }

    /// Whether a field is given.
    pub fn has(&self, key: &str) -> bool {
        self.fields.iter().any(|(name, _)| name == key)
    }

    /// The raw value of a field, if given.
    pub fn raw(&mut self, key: &'static str) -> Option<&'a Tree> {
        self.known.push(key);
        self.fields
            .iter()
            .find(|(name, _)| name == key)
            .map(|(_, value)| value)
    }

    /// A field that may be left out.
    pub fn optional<T: FromTree>(&mut self, key: &'static str) -> Option<T> {
        let tree = self.raw(key)?;
        match T::from_tree(tree) {
            Ok(value) => Some(value),
            Err(mut fault) => {
                fault.path = join(&self.path, key) + &fault.path;
                if fault.read.is_none() {
                    fault.read = Some(quote(key, tree));
                }
                self.sink.add(fault);
                None
            }
        }
    }

    /// A field that must be given.
    pub fn required<T: FromTree>(&mut self, key: &'static str) -> Option<T> {
        if !self.fields.iter().any(|(name, _)| name == key) {
            self.known.push(key);
            self.sink.add(Problem::at(self.path_of(key), MISSING));
            return None;
        }
        self.optional(key)
    }

    /// A field with a default.
    pub fn or<T: FromTree>(&mut self, key: &'static str, default: T) -> Option<T> {
        if self.fields.iter().any(|(name, _)| name == key) {
            return self.optional(key);
        }
        self.known.push(key);
        Some(default)
    }

    /// An object inside, that may be left out.
    pub fn object(&mut self, key: &'static str) -> Option<Object<'a>> {
        let path = self.path_of(key);
        let sink = self.sink;
        self.raw(key).and_then(|tree| Object::new(tree, path, sink))
    }

    /// Adds a fault at a field, quoting it if it is given.
    pub fn fault(&self, key: &str, message: impl Into<String>) {
        self.sink.add(self.problem(key, message));
    }

    /// Adds a fault made here.
    pub fn add(&self, problem: Problem) {
        self.sink.add(problem);
    }

    /// A fault at a field, quoting it if it is given, for a hint to be added.
    pub fn problem(&self, key: &str, message: impl Into<String>) -> Problem {
        let mut problem = Problem::at(self.path_of(key), message);
        let given = self.fields.iter().find(|(name, _)| name == key);
        problem.read = given.map(|(_, value)| quote(key, value));
        problem
    }

    /// Ends the reading: what was never asked for is unknown.
    pub fn finish(self) {
        for (key, _) in self.fields {
            if self.known.iter().any(|known| known == key) {
                continue;
            }
            let mut problem = Problem::at(self.path_of(key), UNKNOWN);
            // Past what is told, nobody reads the hint.
            if self.sink.len() < MOST_FAULTS
                && let Some(name) = nearest(key, &self.known)
            {
                problem = problem.hint(format!("did you mean {name:?}?"));
            }
            self.sink.add(problem);
        }
    }
}

/// Most characters of a value that are quoted.
const QUOTED: usize = 120;

/// A field as the file has it, cut where it is long.
pub fn quote(key: &str, value: &Tree) -> String {
    let text = serde_json::Value::from(value).to_string();
    match text.char_indices().nth(QUOTED) {
        Some((end, _)) => format!("\"{key}\": {}…", text.get(..end).unwrap_or_default()),
        None => format!("\"{key}\": {text}"),
    }
}

/// A path with a key added; a key that is empty shows as `""`, lest the path name the object around it.
pub fn join(path: &str, key: &str) -> String {
    let key = if key.is_empty() { "\"\"" } else { key };
    if path.is_empty() {
        key.to_owned()
    } else {
        format!("{path}.{key}")
    }
}

/// Longest name that is compared with the known ones, bytes.
const LONGEST: usize = 64;

/// The known name nearest to a wrong one, if it is near at all.
pub fn nearest<'n>(wrong: &str, names: &[&'n str]) -> Option<&'n str> {
    // Neither a key of a thousand letters nor one of none is anybody's slip.
    if wrong.is_empty() || wrong.len() > LONGEST {
        return None;
    }
    let near = |name: &&str| {
        let distance = edits(wrong, name);
        (distance * 3 <= name.len().max(3) || name.contains(wrong) || wrong.contains(*name))
            .then_some(distance)
    };
    names
        .iter()
        .filter_map(|name| near(name).map(|distance| (distance, *name)))
        .min()
        .map(|(_, name)| name)
}

/// Edits that make one word of the other: letters added, left out, changed, or two neighbours swapped.
fn edits(wrong: &str, right: &str) -> usize {
    let right: Vec<char> = right.chars().collect();
    let mut earlier: Vec<usize> = Vec::new();
    let mut row: Vec<usize> = (0..=right.len()).collect();
    let mut last = None;
    for (i, l) in wrong.chars().enumerate() {
        let mut below = vec![i + 1];
        for (j, r) in right.iter().enumerate() {
            let change = row[j] + usize::from(l != *r);
            let mut fewest = change.min(row[j + 1] + 1).min(below[j] + 1);
            if j > 0 && last == Some(*r) && right[j - 1] == l {
                fewest = fewest.min(earlier[j - 1] + 1);
            }
            below.push(fewest);
        }
        earlier = std::mem::replace(&mut row, below);
        last = Some(l);
    }
    row.last().copied().unwrap_or_default()
}

#[cfg(test)]
#[path = "../../tests/unit/reading/object.rs"]
mod tests;
