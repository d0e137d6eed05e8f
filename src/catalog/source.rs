//! One file of a catalog: its kind, whether it stands alone, its parts as written.

use super::PartKind;
use crate::problem::{Problem, Problems};
use crate::reading::{self, Object, Sink, Tree, nearest};

/// The format that every JSON file names.
pub const FORMAT: &str = "counterpoise-catalog/1";

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
pub struct Entry {
    /// The file it came from; none of a built-in part.
    pub file: Option<String>,
    /// Where it stands, for a fault.
    pub place: String,
    /// Its fields.
    pub fields: Tree,
}

impl Entry {
    /// Its id, empty where it has none.
    #[must_use]
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
    /// Fields that a part must have and the file has no place for, which has been said.
    pub absent: Vec<&'static str>,
    pub entries: Vec<Entry>,
}

/// Reads a JSON file; its faults go into the sink.
pub(super) fn json(file: &File, sink: &Sink) -> Option<Source> {
    match reading::parse(&file.bytes) {
        Ok(tree) => whole(&tree, &file.name, sink),
        Err(faults) => {
            in_file(&file.name, faults, sink);
            None
        }
    }
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

fn whole(tree: &Tree, name: &str, sink: &Sink) -> Option<Source> {
    let inner = Sink::default();
    let source = object(tree, name, &inner);
    in_file(name, inner.into_problems(), sink);
    source
}

fn object(tree: &Tree, file: &str, sink: &Sink) -> Option<Source> {
    let Tree::Object(_) = tree else {
        sink.add(Problem::at(
            "",
            format!("the file is {}, not an object", tree.kind()),
        ));
        return None;
    };
    let mut object = Object::new(tree, "", sink)?;
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
        Some(Tree::List(items)) => Some(items),
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
        absent: Vec::new(),
        entries: entries(parts?, file),
    })
}

fn entries(items: &[Tree], file: &str) -> Vec<Entry> {
    let entry = |(index, item): (usize, &Tree)| {
        let place = match item.get("id") {
            Some(Tree::Text(id)) if !id.is_empty() => id.clone(),
            _ => format!("parts[{index}]"),
        };
        Entry {
            file: Some(file.to_owned()),
            place: format!("{file}: {place}"),
            fields: item.clone(),
        }
    };
    items.iter().enumerate().map(entry).collect()
}

/// A fault about a kind's name, with what may be meant.
pub(super) fn unknown_kind(fault: Problem, name: &str) -> Problem {
    let names: Vec<_> = super::KINDS.iter().map(|kind| kind.name).collect();
    match nearest(name, &names) {
        Some(near) => fault.hint(format!("did you mean {near:?}?")),
        None => fault.hint("`counterpoise catalog list` names the kinds"),
    }
}
