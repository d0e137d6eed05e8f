//! Reading catalog files.

use std::sync::OnceLock;

use super::{BUILT_IN, Catalog, Part};
use crate::problem::{Problem, Problems};
use crate::reading::{self, Object, Sink, Tree};

/// The format that every catalog file names.
pub(super) const FORMAT: &str = "counterpoise-catalog/1";

/// The catalog that comes with the program.
///
/// # Errors
/// Every fault of its files; a test keeps them sound.
pub fn built_in() -> Result<&'static Catalog, Problems> {
    static CATALOG: OnceLock<Result<Catalog, Problems>> = OnceLock::new();
    CATALOG
        .get_or_init(|| read(BUILT_IN))
        .as_ref()
        .map_err(Clone::clone)
}

/// Reads kinds from their files' texts.
fn read(files: &[(&str, &str)]) -> Result<Catalog, Problems> {
    let mut catalog = Catalog {
        name: "built-in".into(),
        ..Catalog::default()
    };
    let sink = Sink::default();
    let mut digest = Digest::default();
    for (kind, text) in files {
        digest.take(text.as_bytes());
        match reading::parse(text.as_bytes()) {
            Ok(tree) => one(&mut catalog, kind, &tree, &sink),
            Err(faults) => faults.into_iter().for_each(|mut fault| {
                fault.path = format!("{kind}: {}", fault.path);
                sink.add(fault);
            }),
        }
    }
    let mut ids: Vec<_> = catalog
        .commons()
        .map(|(_, common)| common.id.as_str())
        .collect();
    ids.sort_unstable();
    for pair in ids.windows(2).filter(|pair| pair[0] == pair[1]) {
        sink.add(Problem::at(pair[0], "is the id of two parts"));
    }
    catalog.digest = digest.text();
    let problems = sink.into_problems();
    if problems.is_empty() {
        Ok(catalog)
    } else {
        Err(problems)
    }
}

fn one(catalog: &mut Catalog, kind: &str, tree: &Tree, sink: &Sink) {
    let Some(mut file) = Object::new(tree, kind, sink) else {
        return;
    };
    for (field, right) in [("format", FORMAT), ("kind", kind)] {
        let read = file.required::<String>(field);
        if let Some(read) = read.filter(|read| read != right) {
            file.fault(field, format!("is {read:?}, not {right:?}"));
        }
    }
    if let Some(parts) = file.raw("parts") {
        catalog.add(kind, parts, sink);
    } else {
        file.fault("parts", "is missing");
    }
    file.finish();
}

/// Reads the parts of one kind.
pub(super) fn parts<P: Part>(tree: &Tree, kind: &str, sink: &Sink, into: &mut Vec<P>) {
    let Tree::List(items) = tree else {
        sink.add(Problem::at(
            format!("{kind}.parts"),
            format!("is {}, not a list", tree.kind()),
        ));
        return;
    };
    for (index, item) in items.iter().enumerate() {
        let path = match item.get("id") {
            Some(Tree::Text(id)) => format!("{kind}.{id}"),
            _ => format!("{kind}.parts[{index}]"),
        };
        let Some(mut object) = Object::new(item, path, sink) else {
            continue;
        };
        if let Some(part) = P::read(&mut object) {
            for (field, message) in part.faults() {
                object.fault(field, message);
            }
            into.push(part);
        }
        object.finish();
    }
}

/// FNV-1a, 64 bit: tells two catalogs apart, guards against nothing.
struct Digest(u64);

impl Default for Digest {
    fn default() -> Self {
        Self(0xcbf2_9ce4_8422_2325)
    }
}

impl Digest {
    fn take(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.0 = (self.0 ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3);
        }
    }
    fn text(&self) -> String {
        format!("fnv1a-{:016x}", self.0)
    }
}
