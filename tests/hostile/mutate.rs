//! Sound files made unsound: a document as a tree, one of its places changed, written out again.

use counterpoise::reading::Tree;
use proptest::prelude::*;
use proptest::sample::{Index, select};

/// A text that starts so is written without its quotes, so that numbers stand in the file that no `f64` holds.
pub const RAW: &str = "\u{1}";

/// Most items that a list is made to have.
const MOST_ITEMS: usize = 20_000;

/// What is done to one place.
#[derive(Debug, Clone)]
pub enum Change {
    /// It is gone.
    Delete,
    /// It stands twice.
    Duplicate,
    /// It changes places with another.
    Swap(Index),
    /// It is another value.
    Put(Tree),
    /// It lies so many lists deep.
    Nest(usize),
    /// A list has its items so many times over; another value becomes a list.
    Grow(usize),
    /// Its key is spelt otherwise.
    Rename(String),
    /// Its number is another, its unit stays.
    Renumber(&'static str),
}

/// Numbers at and past the ends of what a number can be.
pub const NUMBERS: &[&str] = &[
    "0",
    "-0",
    "-1",
    "1",
    "0.5",
    "1e-9",
    "1e9",
    "1e12",
    "-1e12",
    "1.0000000001e12",
    "1e300",
    "-1e300",
    "1e308",
    "1e309",
    "-1e400",
    "5e-324",
    "1e-310",
    "1e-320",
    "2.2250738585072014e-308",
    "123456789012345678901234567890",
    "18446744073709551615",
    "9007199254740993",
    "0.1e1",
    "00",
    "+1",
    ".5",
    "5.",
    "1,5",
    "0x10",
    "NaN",
    "-NaN",
    "Infinity",
    "-inf",
];

/// Texts that no field expects.
const TEXTS: &[&str] = &[
    "",
    " ",
    "NaN",
    "nan kg",
    "inf s",
    "-inf m",
    "1e999 s",
    "85",
    "85 kg",
    "5e-324 m",
    "1e-300 kg",
    "-5 mm",
    "9e11 N",
    "1e12 m",
    "20 furlongs",
    "\u{0}",
    "\u{1b}[2J\u{7}",
    "\u{202e}kg 58",
    "\u{feff}85 kg",
    "８５ kg",
    "85\u{a0}kg",
    "e\u{301}\u{301}\u{301}",
    "\u{1f469}\u{200d}\u{1f527}",
    "\u{10ffff}",
    "line\nline",
    "\t",
    "\\",
    "\"",
    "<script>",
    "$(false)",
    "../../../etc",
    "null",
    "true",
    "{}",
    "slide",
    "hinge",
    "goals.noise.limit",
    "motion.process[0].at",
    "−5 mm",
    "1 000 mm",
    "1e+ m",
    "--5 mm",
    "5 m m",
    "5 ²",
    "5 mm²",
    "½ m",
    "٣ m",
];

/// Any value that JSON has, shallow or deep, sane or not.
pub fn value() -> impl Strategy<Value = Tree> {
    let leaf = prop_oneof![
        Just(Tree::Null),
        any::<bool>().prop_map(Tree::Bool),
        select(NUMBERS).prop_map(|number| Tree::Text(format!("{RAW}{number}"))),
        any::<f64>()
            .prop_filter("JSON has no NaN", |it| it.is_finite())
            .prop_map(Tree::Number),
        select(TEXTS).prop_map(|text| Tree::Text(text.into())),
        "\\PC{0,12}".prop_map(Tree::Text),
        (1_usize..60_000).prop_map(|count| Tree::Text("ü".repeat(count))),
    ];
    leaf.prop_recursive(4, 24, 5, |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..5).prop_map(Tree::List),
            prop::collection::vec((key(), inner), 0..5).prop_map(Tree::Object),
        ]
    })
}

/// A key of the format or another.
fn key() -> impl Strategy<Value = String> {
    let known: Vec<String> = counterpoise::requirements::FIELDS
        .iter()
        .filter_map(|field| field.path.rsplit('.').next())
        .map(str::to_owned)
        .collect();
    prop_oneof![4 => select(known), 1 => select(TEXTS).prop_map(str::to_owned), 1 => "\\PC{0,8}"]
}

/// One change.
pub fn change() -> impl Strategy<Value = Change> {
    prop_oneof![
        2 => Just(Change::Delete),
        1 => Just(Change::Duplicate),
        2 => any::<Index>().prop_map(Change::Swap),
        3 => value().prop_map(Change::Put),
        1 => (1_usize..200).prop_map(Change::Nest),
        1 => (2_usize..3000).prop_map(Change::Grow),
        1 => key().prop_map(Change::Rename),
        6 => select(NUMBERS).prop_map(Change::Renumber),
    ]
}

/// A document with its changes made one after the other, as a file's text.
pub fn changed(mut tree: Tree, changes: &[(Index, Change)]) -> String {
    for (at, change) in changes {
        let mut places = Vec::new();
        find(&tree, &mut Vec::new(), &mut places);
        if places.is_empty() {
            break;
        }
        let at = at.get(&places);
        let other = match change {
            Change::Swap(other) => Some(other.get(&places)),
            _ => None,
        };
        apply(&mut tree, at, change, other);
    }
    let mut text = String::new();
    write(&tree, &mut text);
    text
}

/// The places of all values inside, each as the indices that lead to it.
fn find(tree: &Tree, here: &mut Vec<usize>, places: &mut Vec<Vec<usize>>) {
    let items: Vec<&Tree> = match tree {
        Tree::List(items) => items.iter().collect(),
        Tree::Object(fields) => fields.iter().map(|(_, value)| value).collect(),
        _ => return,
    };
    for (index, item) in items.into_iter().enumerate() {
        here.push(index);
        places.push(here.clone());
        find(item, here, places);
        here.pop();
    }
}

fn inside<'t>(tree: &'t mut Tree, place: &[usize]) -> &'t mut Tree {
    place.iter().fold(tree, |tree, index| match tree {
        Tree::List(items) => &mut items[*index],
        Tree::Object(fields) => &mut fields[*index].1,
        leaf => leaf,
    })
}

fn apply(tree: &mut Tree, at: &[usize], change: &Change, other: Option<&Vec<usize>>) {
    let Some((last, parents)) = at.split_last() else {
        return;
    };
    match (change, inside(tree, parents)) {
        (Change::Delete, Tree::List(items)) => drop(items.remove(*last)),
        (Change::Delete, Tree::Object(fields)) => drop(fields.remove(*last)),
        (Change::Duplicate, Tree::List(items)) => items.insert(*last, items[*last].clone()),
        (Change::Duplicate, Tree::Object(fields)) => fields.insert(*last, fields[*last].clone()),
        (Change::Rename(key), Tree::Object(fields)) => fields[*last].0.clone_from(key),
        (Change::Swap(_), _) => {
            // Of two places one of which lies in the other, nothing can be swapped.
            if let Some(other) =
                other.filter(|other| !other.starts_with(at) && !at.starts_with(other))
            {
                let held = std::mem::replace(inside(tree, at), Tree::Null);
                let held = std::mem::replace(inside(tree, other), held);
                *inside(tree, at) = held;
            }
        }
        _ => revalue(inside(tree, at), change),
    }
}

/// Changes a value without regard to where it stands.
fn revalue(value: &mut Tree, change: &Change) {
    let was = std::mem::replace(value, Tree::Null);
    *value = match change {
        Change::Put(new) => new.clone(),
        Change::Nest(deep) => (0..*deep).fold(was, |inner, _| Tree::List(vec![inner])),
        Change::Grow(times) => {
            let items = match was {
                Tree::List(items) => items,
                other => vec![other],
            };
            let most = MOST_ITEMS.min(items.len() * times);
            Tree::List(items.iter().cycle().take(most).cloned().collect())
        }
        Change::Renumber(number) => match was {
            Tree::Text(text) => {
                let unit = text.trim_start_matches(|sign: char| "+-.0123456789eE".contains(sign));
                Tree::Text(format!("{number}{unit}"))
            }
            _ => Tree::Text(format!("{RAW}{number}")),
        },
        _ => was,
    };
}

/// Writes a document as it stands, duplicate keys and impossible numbers included.
fn write(tree: &Tree, out: &mut String) {
    let quoted = |text: &str| serde_json::Value::from(text).to_string();
    match tree {
        Tree::Text(text) => match text.strip_prefix(RAW) {
            Some(raw) => out.push_str(raw),
            None => out.push_str(&quoted(text)),
        },
        Tree::List(items) => {
            out.push('[');
            for (index, item) in items.iter().enumerate() {
                out.push_str(if index > 0 { ", " } else { "" });
                write(item, out);
            }
            out.push(']');
        }
        Tree::Object(fields) => {
            out.push('{');
            for (index, (key, value)) in fields.iter().enumerate() {
                out.push_str(if index > 0 { ", " } else { "" });
                out.push_str(&quoted(key));
                out.push_str(": ");
                write(value, out);
            }
            out.push('}');
        }
        plain => out.push_str(&serde_json::Value::from(plain).to_string()),
    }
}
