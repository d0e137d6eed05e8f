//! A JSON document as written: order and duplicate keys kept.

use std::collections::BTreeSet;
use std::fmt;

use serde::de::{Deserialize, Deserializer, MapAccess, SeqAccess, Visitor};
use serde_json::Value;

use super::place::place_at;
use crate::problem::{Problem, Problems, few_enough};

/// A JSON value with its object keys in the order written, duplicates included.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs, reason = "each name is JSON's own")]
pub enum Tree {
    Null,
    Bool(bool),
    Number(f64),
    Text(String),
    List(Vec<Tree>),
    Object(Vec<(String, Tree)>),
}

/// Deepest nesting that a file may have.
const DEEPEST: usize = 64;

/// Reads one JSON document.
///
/// # Errors
/// Every duplicate key, or one fault with line and column for bytes that are
/// no UTF-8, start with a byte order mark, are not JSON, are nested past 64 or
/// go on after the end of the document.
pub fn parse(bytes: &[u8]) -> Result<Tree, Problems> {
    let one = |message: String| vec![Problem::whole(message)];
    if bytes.starts_with(b"\xef\xbb\xbf") {
        return Err(one(
            "the file starts with a byte order mark; save it as plain UTF-8".into(),
        ));
    }
    let text = std::str::from_utf8(bytes).map_err(|fault| {
        one(format!(
            "the file is not UTF-8 (byte {}); save it as UTF-8",
            fault.valid_up_to() + 1
        ))
    })?;
    // The depth goes before any other fault. A file that reads well is looked at as the tree it is, which takes less time.
    let deep = || {
        let line = too_deep(text)?;
        Some(one(format!(
            "the file is nested deeper than {DEEPEST} (line {line})"
        )))
    };
    let mut reader = serde_json::Deserializer::from_str(text);
    let tree = Tree::deserialize(&mut reader)
        .and_then(|tree| reader.end().map(|()| tree))
        .map_err(|fault| deep().unwrap_or_else(|| vec![not_json(text, &fault)]))?;
    if is_sound(&tree, DEEPEST) {
        return Ok(tree);
    }
    if let Some(fault) = deep() {
        return Err(fault);
    }
    let mut duplicates = Vec::new();
    find_duplicates(&tree, &mut String::new(), &mut duplicates);
    Err(few_enough(duplicates))
}

/// What a reader of JSON stumbles at, in words of those who write a file by hand.
fn not_json(text: &str, fault: &serde_json::Error) -> Problem {
    let line_start = text
        .split_inclusive('\n')
        .take(fault.line().saturating_sub(1))
        .map(str::len)
        .sum::<usize>();
    let at = (line_start + fault.column().saturating_sub(1)).min(text.len());
    let here = text.get(at..).unwrap_or_default();
    let (says, cure) = json_words(here, fault);
    let mut problem = Problem::whole(format!("the file is not JSON: {says}")).hint(cure);
    problem.place = Some(place_at(text, at, at + 1));
    problem
}

/// What is wrong and what would be right; `here` is the text from the fault on.
fn json_words(here: &str, fault: &serde_json::Error) -> (String, &'static str) {
    let message = fault.to_string();
    let says = |words: &str| words.to_owned();
    if here.starts_with('/') || here.starts_with('#') {
        return (
            says("it has no comments"),
            "put it in notes: \"notes\": \"what you want to say\"",
        );
    }
    if fault.is_eof() {
        return (
            says("it ends too early"),
            "close every bracket and every text",
        );
    }
    if here.starts_with(['\'', '‘', '’', '“', '”', '`']) {
        return (says("a text stands between double quotes"), "write \"…\"");
    }
    if message.starts_with("expected `,`") && here.starts_with(char::is_alphabetic) {
        let cure = "a value with a unit stands between double quotes, such as \"85 kg\"";
        return (says("something stands after a number"), cure);
    }
    let known: [(&str, &str, &str); 9] = [
        (
            "trailing comma",
            "a comma stands before a closing bracket",
            "remove the comma",
        ),
        (
            "trailing characters",
            "something follows its last bracket",
            "one file holds one object, from { to }",
        ),
        (
            "key must be a string",
            "a field's name stands between double quotes",
            "write \"name\": value",
        ),
        (
            "expected `:`",
            "a colon is missing after a field's name",
            "write \"name\": value",
        ),
        (
            "expected `,`",
            "a comma or a closing bracket is missing",
            "write a comma before this, or close the object or list",
        ),
        (
            "control character",
            "a text holds a line break or a tab",
            "close the text on its line; write \\n for a line break",
        ),
        (
            "invalid escape",
            "a backslash stands before a sign that needs none",
            "write \\\\ for a backslash",
        ),
        (
            "number out of range",
            "a number is too large",
            "write a value that can be",
        ),
        (
            "expected value",
            "a value is missing or is not one",
            "a text stands between double quotes, such as \"85 kg\"; a number has a decimal point and no other signs",
        ),
    ];
    let row = known.iter().find(|(start, ..)| message.starts_with(start));
    row.map_or_else(
        || {
            let plain = message.split(" at line ").next().unwrap_or_default();
            (
                plain.to_owned(),
                "a text stands between double quotes, such as \"85 kg\"",
            )
        },
        |(_, words, cure)| (says(words), *cure),
    )
}

/// Whether a tree nests no deeper than so many levels, and no object in it has a key twice.
fn is_sound(tree: &Tree, levels: usize) -> bool {
    let inside = match tree {
        Tree::List(_) | Tree::Object(_) => levels.checked_sub(1),
        _ => return true,
    };
    let Some(levels) = inside else {
        return false;
    };
    match tree {
        Tree::List(items) => items.iter().all(|item| is_sound(item, levels)),
        Tree::Object(fields) => {
            are_different(fields) && fields.iter().all(|(_, value)| is_sound(value, levels))
        }
        _ => true,
    }
}

/// Fields up to which comparing each with each takes less time than a set.
const FEW: usize = 24;

/// Whether no two fields have the same key.
fn are_different(fields: &[(String, Tree)]) -> bool {
    if fields.len() > FEW {
        let mut seen = BTreeSet::new();
        return fields.iter().all(|(key, _)| seen.insert(key));
    }
    let earlier = |index| fields.iter().take(index);
    let twice =
        |(index, (key, _)): (usize, &(String, Tree))| earlier(index).any(|(other, _)| other == key);
    !fields.iter().enumerate().any(twice)
}

/// The line on which brackets outside strings nest past the limit.
fn too_deep(text: &str) -> Option<usize> {
    let (mut depth, mut line, mut in_text, mut escaped) = (0_usize, 1, false, false);
    for byte in text.bytes() {
        match byte {
            b'\n' => line += 1,
            _ if escaped => escaped = false,
            b'\\' if in_text => escaped = true,
            b'"' => in_text = !in_text,
            b'{' | b'[' if !in_text => depth += 1,
            b'}' | b']' if !in_text => depth = depth.saturating_sub(1),
            _ => {}
        }
        if depth > DEEPEST {
            return Some(line);
        }
    }
    None
}

/// Adds a fault for every key given twice; `path` is that of the tree, and is given back as it was.
fn find_duplicates(tree: &Tree, path: &mut String, problems: &mut Problems) {
    let before = path.len();
    match tree {
        Tree::List(items) => {
            for (index, item) in items.iter().enumerate() {
                if matches!(item, Tree::List(_) | Tree::Object(_)) {
                    path.extend(["[", &index.to_string(), "]"]);
                    find_duplicates(item, path, problems);
                    path.truncate(before);
                }
            }
        }
        Tree::Object(fields) => {
            let mut seen = BTreeSet::new();
            for (key, value) in fields {
                if before > 0 {
                    path.push('.');
                }
                path.push_str(if key.is_empty() { "\"\"" } else { key });
                if !seen.insert(key) {
                    problems.push(
                        Problem::at(path.clone(), "is given twice").hint("keep one of the two"),
                    );
                }
                find_duplicates(value, path, problems);
                path.truncate(before);
            }
        }
        _ => {}
    }
}

impl Tree {
    /// The value of a key of an object.
    pub fn get(&self, key: &str) -> Option<&Tree> {
        match self {
            Tree::Object(fields) => fields
                .iter()
                .find(|(name, _)| name == key)
                .map(|(_, value)| value),
            _ => None,
        }
    }

    /// What it is, for a message.
    pub fn kind(&self) -> &'static str {
        match self {
            Tree::Null => "null",
            Tree::Bool(_) => "true or false",
            Tree::Number(_) => "a number",
            Tree::Text(_) => "a text",
            Tree::List(_) => "a list",
            Tree::Object(_) => "an object",
        }
    }
}

impl From<&Tree> for Value {
    fn from(tree: &Tree) -> Self {
        match tree {
            Tree::Null => Value::Null,
            Tree::Bool(flag) => Value::Bool(*flag),
            #[allow(
                clippy::cast_possible_truncation,
                reason = "a whole number below 2^53 is exact"
            )]
            Tree::Number(number) if number.fract() == 0.0 && number.abs() < 9e15 => {
                Value::from(*number as i64)
            }
            Tree::Number(number) => Value::from(*number),
            Tree::Text(text) => Value::from(text.as_str()),
            Tree::List(items) => Value::Array(items.iter().map(Value::from).collect()),
            Tree::Object(fields) => Value::Object(
                fields
                    .iter()
                    .map(|(key, value)| (key.clone(), Value::from(value)))
                    .collect(),
            ),
        }
    }
}

impl<'de> Deserialize<'de> for Tree {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(TreeVisitor)
    }
}

struct TreeVisitor;

impl<'de> Visitor<'de> for TreeVisitor {
    type Value = Tree;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a JSON value")
    }
    fn visit_unit<E>(self) -> Result<Tree, E> {
        Ok(Tree::Null)
    }
    fn visit_bool<E>(self, flag: bool) -> Result<Tree, E> {
        Ok(Tree::Bool(flag))
    }
    #[allow(
        clippy::cast_precision_loss,
        reason = "a file's numbers are read as f64"
    )]
    fn visit_i64<E>(self, number: i64) -> Result<Tree, E> {
        Ok(Tree::Number(number as f64))
    }
    #[allow(
        clippy::cast_precision_loss,
        reason = "a file's numbers are read as f64"
    )]
    fn visit_u64<E>(self, number: u64) -> Result<Tree, E> {
        Ok(Tree::Number(number as f64))
    }
    fn visit_f64<E>(self, number: f64) -> Result<Tree, E> {
        Ok(Tree::Number(number))
    }
    fn visit_str<E>(self, text: &str) -> Result<Tree, E> {
        Ok(Tree::Text(text.to_owned()))
    }
    fn visit_string<E>(self, text: String) -> Result<Tree, E> {
        Ok(Tree::Text(text))
    }
    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Tree, A::Error> {
        let mut items = Vec::new();
        while let Some(item) = list.next_element()? {
            items.push(item);
        }
        Ok(Tree::List(items))
    }
    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Tree, A::Error> {
        let mut fields = Vec::new();
        while let Some(field) = map.next_entry()? {
            fields.push(field);
        }
        Ok(Tree::Object(fields))
    }
}
