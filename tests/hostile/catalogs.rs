//! Hostile catalogs: folders of parts made unsound, and sound ones with parts at the ends of what a part may be.

use std::time::Instant;

use counterpoise::catalog::{
    Catalog, FORMAT, File, KINDS, PartKind, PartRecord, PartsOfKind, Stock, to_csv,
};
use counterpoise::reading::Tree;
use counterpoise::report::{Page, checked_screen};
use proptest::prelude::*;
use proptest::sample::{Index, select};

use super::law::{Tally, Verdict, obeyed, readable, said};
use super::mutate::{Change, RAW, change, changed};

/// Some parts of a kind in a file of one's own.
#[derive(Debug, Clone)]
pub struct Few {
    kind: Index,
    start: Index,
    count: usize,
    replaces: bool,
}

/// Few parts of any kind.
pub fn few() -> impl Strategy<Value = Few> {
    (any::<Index>(), any::<Index>(), 1_usize..6, any::<bool>()).prop_map(
        |(kind, start, count, replaces)| Few {
            kind,
            start,
            count,
            replaces,
        },
    )
}

impl Few {
    fn kind(&self) -> &'static PartKind {
        self.kind.get(KINDS)
    }

    fn entries<'s>(&self, stock: &'s Stock) -> Vec<&'s PartRecord> {
        let kind = self.kind();
        let all = stock.kinds().find(|(of, _)| of.name == kind.name);
        let all = all.map(|(_, entries)| entries).unwrap_or_default();
        let start = self.start.index(all.len().max(1));
        all.iter().skip(start).take(self.count).collect()
    }

    fn tree(&self, parts: Vec<Tree>) -> Tree {
        let text = |text: &str| Tree::Text(text.to_owned());
        Tree::Object(vec![
            ("format".into(), text(FORMAT)),
            ("kind".into(), text(self.kind().name)),
            ("replaces".into(), Tree::Bool(self.replaces)),
            ("parts".into(), Tree::List(parts)),
        ])
    }

    /// A JSON file with changes.
    pub fn json(&self, stock: &Stock, changes: &[(Index, Change)]) -> File {
        let entries = self.entries(stock);
        let parts = entries.iter().map(|entry| entry.fields.clone());
        File {
            name: "own.json".into(),
            bytes: changed(self.tree(parts.collect()), changes).into_bytes(),
        }
    }

    /// A CSV file with some of its cells changed.
    pub fn csv(&self, stock: &Stock, cells: &[(Index, String)]) -> File {
        let chosen = PartsOfKind {
            kind: self.kind(),
            parts: self.entries(stock),
        };
        let text = to_csv(&chosen).expect("built-in parts can be written");
        let mut pieces: Vec<&str> = text.split_inclusive([',', '\n']).collect();
        for (at, new) in cells {
            let at = at.index(pieces.len());
            pieces[at] = new;
        }
        File {
            name: format!("{}.csv", self.kind().name),
            bytes: pieces.concat().into_bytes(),
        }
    }

    /// A JSON file in which figures are so many times as large.
    pub fn scaled(&self, stock: &Stock, factors: &[(Index, &'static str)]) -> File {
        let mut parts: Vec<Tree> = self
            .entries(stock)
            .iter()
            .map(|entry| entry.fields.clone())
            .collect();
        for (at, factor) in factors {
            let count = parts.len();
            let Some(Tree::Object(fields)) = parts.get_mut(at.index(count.max(1))) else {
                continue;
            };
            let field = at.index(fields.len());
            fields[field].1 = scaled(&fields[field].1, factor);
        }
        File {
            name: "own.json".into(),
            bytes: changed(self.tree(parts), &[]).into_bytes(),
        }
    }
}

/// A figure so many times as large, or `=` what follows the sign.
fn scaled(figure: &Tree, factor: &str) -> Tree {
    let times = |number: f64| match factor.strip_prefix('=') {
        Some(other) => other.to_owned(),
        None => format!("{:e}", number * factor.parse::<f64>().expect("a number")),
    };
    match figure {
        Tree::Number(number) => Tree::Text(format!("{RAW}{}", times(*number))),
        Tree::Text(text) => match text.split_once(' ') {
            Some((number, unit)) => match number.parse() {
                Ok(number) => Tree::Text(format!("{} {unit}", times(number))),
                Err(_) => figure.clone(),
            },
            None => figure.clone(),
        },
        Tree::List(items) => Tree::List(items.iter().map(|item| scaled(item, factor)).collect()),
        _ => figure.clone(),
    }
}

/// Factors and values that a figure takes.
pub fn factors() -> impl Strategy<Value = Vec<(Index, &'static str)>> {
    let factor = select(
        &[
            "=0", "=1e-9", "=1e12", "=1e9", "=1e-18", "1e-6", "1e-3", "0.1", "0.5", "2", "10",
            "1e3", "1e6",
        ][..],
    );
    prop::collection::vec((any::<Index>(), factor), 1..6)
}

/// Changes of a JSON file.
pub fn changes() -> impl Strategy<Value = Vec<(Index, Change)>> {
    prop::collection::vec((any::<Index>(), change()), 1..4)
}

/// What stands in cells of a CSV file that somebody has spoilt.
pub fn cells() -> impl Strategy<Value = Vec<(Index, String)>> {
    let cell = prop_oneof![
        select(
            &[
                "",
                ",",
                "\n",
                "\"",
                "\"\"",
                "\"a\nb\",",
                ";",
                "\t",
                "\u{feff}",
                "NaN,",
                "1e999,",
                "-1,",
                "0,",
                "1,5,",
                "=1+1,",
                "id,",
                "price,",
                "\0,"
            ][..]
        )
        .prop_map(str::to_owned),
        "\\PC{0,12},",
        (1_usize..30_000).prop_map(|count| "9".repeat(count) + ","),
    ];
    prop::collection::vec((any::<Index>(), cell), 1..4)
}

/// Reads a folder of one file; where it is sound, ranks a job with its parts.
///
/// # Errors
/// What breaks the law.
pub fn obeys(file: File, job: &[u8], tally: &Tally) -> Result<Verdict, String> {
    let start = Instant::now();
    let text = String::from_utf8_lossy(&file.bytes).into_owned();
    let name = file.name.clone();
    let stock = match Stock::with("shop", &[file]) {
        Ok(stock) => stock,
        Err(faults) => {
            said(&faults)?;
            if let Some(fault) = faults.iter().find(|fault| !fault.path.starts_with(&name)) {
                return Err(format!("a fault that does not name its file: {fault}"));
            }
            tally.add(Verdict::Refused, start.elapsed(), &text);
            return Ok(Verdict::Refused);
        }
    };
    let page = Page {
        width: 80,
        heading: anstyle::Style::new(),
    };
    if !text.contains(['N', 'i', '9']) {
        readable(&checked_screen("shop", stock.files(), page))?;
    }
    let own: Catalog = stock
        .catalog()
        .map_err(|faults| format!("a checked stock is not sound: {faults:?}"))?;
    obeyed(job, &[], &own, false, tally)
}
