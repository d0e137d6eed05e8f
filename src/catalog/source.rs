//! One file of a catalog: its kind, whether it stands alone, its parts as written.

use super::PartKind;
use crate::problem::{Problem, Problems};
use crate::reading::{self, Object, Sink, Tree, nearest};

/// The format that every JSON file names.
pub const FORMAT: &str = "counterpoise-catalog/1";

/// Most parts that a file may have.
pub(super) const MOST_PARTS: usize = 10_000;

/// Most parts that the files of a folder may have together: what can be held and ranked.
pub(super) const MOST_TOGETHER: usize = 30_000;

/// Whether a file has more parts than it may, or than the folder has left, which is a fault: it is found before anything
/// is made of them.
pub(super) fn too_many(count: usize, left: usize, path: &str, sink: &Sink) -> bool {
    if count > MOST_PARTS {
        let message = format!("has more than {MOST_PARTS} parts");
        sink.add(Problem::at(path, message).hint("spread them over several files"));
        return true;
    }
    if count > left {
        let message =
            format!("makes more than {MOST_TOGETHER} parts of the folder's files together");
        sink.add(Problem::at(path, message).hint("keep the parts that are worth a choice"));
        return true;
    }
    false
}

/// A file as it was found: its name without folder, and its bytes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct File {
    /// Such as `air_cylinders.csv`.
    pub name: String,
    /// What it holds.
    pub bytes: Vec<u8>,
}

/// A part as its file has it.
#[derive(Debug, Clone, PartialEq)]
pub struct PartRecord {
    /// The file it came from; none of a built-in part.
    pub file: Option<String>,
    /// Where it stands, for a fault.
    pub place: String,
    /// Its fields.
    pub fields: Tree,
    /// Fields whose fault has been said where the file was read.
    pub(super) said: Vec<&'static str>,
}

impl PartRecord {
    /// Its id, empty where it has none.
    pub fn id(&self) -> &str {
        match self.fields.get("id") {
            Some(Tree::Text(id)) => id,
            _ => "",
        }
    }
}

/// What a file holds.
#[derive(Debug)]
pub(super) struct Source {
    /// Its name.
    pub file: String,
    pub kind: &'static PartKind,
    /// Whether it stands instead of the built-in parts.
    pub replaces: bool,
    /// What the file calls itself.
    pub name: Option<String>,
    pub entries: Vec<PartRecord>,
}

/// Reads a JSON file; its faults go into the sink.
pub(super) fn json(file: &File, left: usize, sink: &Sink) -> Option<Source> {
    let inner = Sink::default();
    let source = match reading::parse(&file.bytes) {
        Ok(tree) => source(tree, &file.name, left, &inner),
        Err(faults) => {
            for fault in faults {
                inner.add(fault);
            }
            None
        }
    };
    in_file(&file.name, inner.into_problems(), sink);
    source
}

/// Puts the file's name before faults that know only their place in it.
fn in_file(name: &str, faults: Problems, sink: &Sink) {
    for mut fault in faults {
        fault.path = if fault.path.is_empty() {
            format!("{name}:")
        } else {
            format!("{name}: {}", fault.path)
        };
        sink.add(fault);
    }
}

fn source(mut tree: Tree, file: &str, left: usize, sink: &Sink) -> Option<Source> {
    if !matches!(tree, Tree::Object(_)) {
        let message = format!("the file is {}, not an object", tree.kind());
        sink.add(Problem::at("", message));
        return None;
    }
    let items = take_parts(&mut tree);
    if too_many(items.len(), left, "", sink) {
        return None;
    }
    let mut object = Object::new(&tree, "", sink)?;
    if let Some(format) = object
        .required::<String>("format")
        .filter(|read| read != FORMAT)
    {
        let message = format!("is {format:?}, which this version does not read");
        sink.add(
            object
                .problem("format", message)
                .hint(format!("write {FORMAT:?}")),
        );
        // What else seems wrong belongs to another kind of file.
        return None;
    }
    let kind = object.required::<String>("kind").and_then(|name| {
        let kind = PartKind::named(&name);
        if kind.is_none() {
            sink.add(unknown_kind(
                object.problem("kind", "is no kind of part"),
                &name,
            ));
        }
        kind
    });
    let replaces = object.or("replaces", false);
    let name = object.optional::<String>("name");
    let parts = match object.raw("parts") {
        Some(Tree::List(_)) => Some(items),
        Some(other) => {
            object.fault("parts", format!("is {}, not a list", other.kind()));
            None
        }
        None => {
            object.fault("parts", reading::MISSING);
            None
        }
    };
    object.finish();
    Some(Source {
        file: file.to_owned(),
        kind: kind?,
        replaces: replaces?,
        name,
        entries: entries(parts?, file),
    })
}

/// The parts, taken out of their list.
fn take_parts(tree: &mut Tree) -> Vec<Tree> {
    let Tree::Object(fields) = tree else {
        return Vec::new();
    };
    match fields.iter_mut().find(|(key, _)| key == "parts") {
        Some((_, Tree::List(items))) => std::mem::take(items),
        _ => Vec::new(),
    }
}

fn entries(items: Vec<Tree>, file: &str) -> Vec<PartRecord> {
    let entry = |(index, fields): (usize, Tree)| {
        let place = match fields.get("id") {
            Some(Tree::Text(id)) if !id.is_empty() => id.clone(),
            _ => format!("parts[{index}]"),
        };
        PartRecord {
            file: Some(file.to_owned()),
            place: format!("{file}: {place}"),
            fields,
            said: Vec::new(),
        }
    };
    items.into_iter().enumerate().map(entry).collect()
}

/// A fault about a kind's name, with what may be meant.
pub(super) fn unknown_kind(fault: Problem, name: &str) -> Problem {
    let names: Vec<_> = super::KINDS.iter().map(|kind| kind.name).collect();
    match nearest(name, &names) {
        Some(near) => fault.hint(format!("did you mean {near:?}?")),
        None => fault.hint("`counterpoise catalog list` names the kinds"),
    }
}
