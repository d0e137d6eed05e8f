//! All the parts there are: the built-in ones and those of a folder of one's own.

use std::collections::BTreeMap;

use super::source::{self, File, MOST_TOGETHER, PartRecord, Source};
use super::{BUILT_IN, Catalog, KINDS, PartKind, series, sheet};
use crate::problem::{MOST_FAULTS, Problem, Problems, few_enough, left_out};
use crate::reading::Sink;

/// What the catalog that comes with the program is called.
pub const BUILT_IN_NAME: &str = "built-in";

/// Parts as their files have them, kind by kind.
#[derive(Debug, Clone, Default)]
pub struct Stock {
    /// What the catalog is called.
    pub name: String,
    /// A digest of its content, to tell two catalogs apart.
    pub digest: String,
    /// Per kind, in the order of [`KINDS`].
    kinds: Vec<Vec<PartRecord>>,
    files: Vec<Checked>,
}

/// What a file of one's own does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Checked {
    /// The file.
    pub name: String,
    /// The kind of its parts.
    pub kind: &'static str,
    /// How many it has.
    pub parts: usize,
    /// How many built-in parts its kind stands instead of, where it does.
    pub instead_of: Option<usize>,
    /// Another file that puts the built-in parts of its kind out, beside which its parts stand.
    pub beside: Option<String>,
    /// Ids of built-in parts whose place its parts take.
    pub in_place_of: Vec<String>,
}

impl Stock {
    /// The parts that come with the program.
    ///
    /// # Errors
    /// Every fault of its files; a test keeps them sound.
    pub fn built_in() -> Result<Self, Problems> {
        let mut stock = Self {
            name: BUILT_IN_NAME.into(),
            ..Self::default()
        };
        let (sink, mut digest) = (Sink::default(), Digest::default());
        for (kind, text) in BUILT_IN {
            digest.take(text.as_bytes());
            let file = File {
                name: format!("{kind}.json"),
                bytes: text.as_bytes().to_vec(),
            };
            let source = source::json(&file, MOST_TOGETHER, &sink)
                .filter(|source| source.kind.name == *kind);
            let mut entries = source.map(|source| source.entries).unwrap_or_default();
            for entry in &mut entries {
                entry.file = None;
            }
            stock.kinds.push(entries);
        }
        stock.digest = digest.text();
        sound(sink).map(|()| stock)
    }

    /// The built-in parts and those of a folder: its name and its files.
    ///
    /// # Errors
    /// Every fault of every file.
    pub fn with(folder: &str, files: &[File]) -> Result<Self, Problems> {
        let mut stock = Self::built_in()?;
        let sink = Sink::default();
        let mut files: Vec<_> = files.iter().collect();
        files.sort_by(|a, b| a.name.cmp(&b.name));
        let (mut sources, mut own) = (Vec::new(), Catalog::default());
        for file in &files {
            let left = MOST_TOGETHER
                - sources
                    .iter()
                    .map(|source: &Source| source.entries.len())
                    .sum::<usize>();
            if let Some(source) = read(file, left, &sink) {
                not_empty(&source, &sink);
                read_each(&source, &mut own, &sink);
                sources.push(source);
            }
        }
        together(&sources, &own, &sink);
        stock.strangers(&sources, &sink);
        if !sink.is_empty() {
            return Err(faults_by_file(&files, sink.into_problems()));
        }
        stock.files = sources
            .iter()
            .map(|source| stock.checked(source, &sources))
            .collect();
        let mut digest = Digest::default();
        digest.take(stock.digest.as_bytes());
        for file in &files {
            // The length keeps the end of one from passing for the start of another.
            for bytes in [file.name.as_bytes(), &file.bytes] {
                digest.take(&bytes.len().to_le_bytes());
                digest.take(bytes);
            }
        }
        stock.digest = digest.text();
        stock.name = name(folder, &sources);
        for (kind, entries) in KINDS.iter().zip(&mut stock.kinds) {
            merge(
                entries,
                sources
                    .iter()
                    .filter(|source| source.kind.name == kind.name),
            );
        }
        Ok(stock)
    }

    /// The parts as records.
    ///
    /// # Errors
    /// Every fault of a part; none where the stock was checked.
    pub fn catalog(&self) -> Result<Catalog, Problems> {
        let sink = Sink::default();
        let mut catalog = Catalog {
            name: self.name.clone(),
            digest: self.digest.clone(),
            ..Catalog::default()
        };
        for (kind, entries) in self.kinds() {
            for entry in entries {
                catalog.add(kind.name, entry, &sink);
            }
        }
        twice(self.kinds().flat_map(|(_, entries)| entries), &sink);
        sound(sink).map(|()| catalog)
    }

    /// The kinds, each with its parts.
    pub fn kinds(&self) -> impl Iterator<Item = (&'static PartKind, &[PartRecord])> {
        KINDS.iter().zip(self.kinds.iter().map(Vec::as_slice))
    }

    /// What the files of one's own do, by name.
    pub fn files(&self) -> &[Checked] {
        &self.files
    }

    fn checked(&self, source: &Source, all: &[Source]) -> Checked {
        let built_in = self.kinds().find(|(kind, _)| kind.name == source.kind.name);
        let built_in = built_in.map(|(_, entries)| entries).unwrap_or_default();
        let is_own = |entry: &&PartRecord| source.entries.iter().any(|own| own.id() == entry.id());
        let replaced = built_in
            .iter()
            .filter(is_own)
            .map(|entry| entry.id().to_owned());
        let replacing = all
            .iter()
            .find(|other| other.replaces && other.kind.name == source.kind.name);
        Checked {
            name: source.file.clone(),
            kind: source.kind.name,
            parts: source.entries.len(),
            instead_of: source.replaces.then_some(built_in.len()),
            beside: replacing
                .filter(|_| !source.replaces)
                .map(|other| other.file.clone()),
            in_place_of: if replacing.is_some() {
                Vec::new()
            } else {
                replaced.collect()
            },
        }
    }

    /// Own parts that bear the id of a built-in part of another kind, where those are still there.
    fn strangers(&self, sources: &[Source], sink: &Sink) {
        let gone = |name: &str| {
            sources
                .iter()
                .any(|source| source.replaces && source.kind.name == name)
        };
        let kinds: BTreeMap<&str, &str> = self
            .kinds()
            .filter(|(kind, _)| !gone(kind.name))
            .flat_map(|(kind, entries)| entries.iter().map(|entry| (entry.id(), kind.name)))
            .collect();
        for source in sources {
            for entry in &source.entries {
                if let Some(kind) = kinds
                    .get(entry.id())
                    .filter(|kind| **kind != source.kind.name)
                {
                    let fault = Problem::at(
                        format!("{}.id", entry.place),
                        format!("is the id of a built-in part of another kind, {kind}"),
                    );
                    sink.add(fault.hint("give it another id"));
                }
            }
        }
    }
}

fn read(file: &File, left: usize, sink: &Sink) -> Option<Source> {
    if file.name.to_lowercase().ends_with(".csv") {
        sheet::csv(file, left, sink)
    } else {
        source::json(file, left, sink)
    }
}

/// A file without parts says nothing, unless that there are none of its kind.
fn not_empty(source: &Source, sink: &Sink) {
    if source.entries.is_empty() && !source.replaces {
        let fault = Problem::at(format!("{}:", source.file), "has no parts");
        sink.add(fault.hint(
            "write its parts, or say that there are none of this kind: \"replaces\": true, or a name that ends .only.csv",
        ));
    }
}

/// Reads the parts of a file, each by itself.
fn read_each(source: &Source, own: &mut Catalog, sink: &Sink) {
    for entry in &source.entries {
        let inner = Sink::default();
        own.add(source.kind.name, entry, &inner);
        for problem in inner.into_problems() {
            let field = problem.path.strip_prefix(&entry.place).unwrap_or_default();
            let field = field.strip_prefix('.').unwrap_or_default();
            // A fault within a list names its place in it.
            let field = field.split('[').next().unwrap_or_default();
            if !entry.said.contains(&field) {
                sink.add(problem);
            }
        }
    }
}

/// What only all parts together can have wrong.
fn together(sources: &[Source], own: &Catalog, sink: &Sink) {
    let entries = || sources.iter().flat_map(|source| &source.entries);
    twice(entries(), sink);
    let place = |entry: &'_ PartRecord| (entry.id().to_owned(), entry.place.clone());
    let places: BTreeMap<String, String> = entries().map(place).collect();
    series::check(own, &places, sink);
}

/// A fault for every part whose id another had before.
fn twice<'a>(entries: impl Iterator<Item = &'a PartRecord>, sink: &Sink) {
    let mut seen: BTreeMap<&str, &PartRecord> = BTreeMap::new();
    for entry in entries.filter(|entry| !entry.id().is_empty()) {
        if let Some(first) = seen.get(entry.id()) {
            let place = first.file.as_deref().unwrap_or("the built-in catalog");
            let fault = Problem::at(
                format!("{}.id", entry.place),
                format!("is the id of two parts; the first is in {place}"),
            );
            sink.add(fault.hint("give one of them another id"));
        } else {
            seen.insert(entry.id(), entry);
        }
    }
}

/// Adds own parts to the built-in ones of a kind: instead of all, in the place of one of the same id, or after them.
fn merge<'a>(entries: &mut Vec<PartRecord>, sources: impl Iterator<Item = &'a Source> + Clone) {
    if sources.clone().any(|source| source.replaces) {
        entries.clear();
    }
    let mut places: BTreeMap<String, usize> = BTreeMap::new();
    for (index, entry) in entries.iter().enumerate() {
        places.insert(entry.id().to_owned(), index);
    }
    for own in sources.flat_map(|source| &source.entries) {
        let place = places
            .get(own.id())
            .and_then(|index| entries.get_mut(*index));
        match place {
            Some(entry) => *entry = own.clone(),
            None => entries.push(own.clone()),
        }
    }
}

/// What the whole is called: after the names that its files give themselves, or after the folder.
fn name(folder: &str, sources: &[Source]) -> String {
    let mut names: Vec<&str> = sources
        .iter()
        .filter_map(|source| source.name.as_deref())
        .collect();
    names.dedup();
    if names.is_empty() {
        names.push(folder);
    }
    format!("{BUILT_IN_NAME} with {}", names.join(", "))
}

/// The faults, but no more than a person would read; of each file how many are left out.
fn faults_by_file(files: &[&File], mut problems: Problems) -> Problems {
    let rest = problems.split_off(problems.len().min(MOST_FAULTS));
    for file in files {
        let is_of = |fault: &&Problem| {
            let after = fault.path.strip_prefix(&file.name);
            after.is_some_and(|after| after.starts_with(':') || after.starts_with(" line "))
        };
        let more = rest.iter().filter(is_of).count();
        if more > 0 {
            problems.push(Problem::at(format!("{}:", file.name), left_out(more)));
        }
    }
    problems
}

fn sound(sink: Sink) -> Result<(), Problems> {
    let problems = sink.into_problems();
    if problems.is_empty() {
        return Ok(());
    }
    Err(few_enough(problems))
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

#[cfg(test)]
#[path = "../../tests/unit/catalog/stock.rs"]
mod tests;
