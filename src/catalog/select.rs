//! Which parts are asked for: by kind, by words, by a bound on a field.

use std::cmp::Ordering;

use super::part::{COMMON, Common};
use super::source::unknown_kind;
use super::{FieldInfo, KINDS, PartKind, PartRecord, Stock};
use crate::problem::{Problem, Problems};
use crate::quantity::parse_as;
use crate::reading::{Shape, Tree, nearest};

/// A choice of parts.
#[derive(Debug, Clone, Default)]
pub struct Selection {
    kind: Option<&'static PartKind>,
    words: Vec<String>,
    bounds: Vec<FieldBound>,
}

/// Parts of a kind.
#[derive(Debug, Clone)]
pub struct PartsOfKind<'a> {
    /// The kind.
    pub kind: &'static PartKind,
    /// Its parts.
    pub parts: Vec<&'a PartRecord>,
}

impl Selection {
    /// A kind by its name, words that must stand in the id or name, and bounds such as `bore>=40 mm`.
    ///
    /// # Errors
    /// Every unknown kind or field, and every bound that cannot be read.
    pub fn new(kind: Option<&str>, words: &[String], bounds: &[String]) -> Result<Self, Problems> {
        let mut faults = Vec::new();
        let known = kind.and_then(PartKind::named);
        if let (Some(name), None) = (kind, known) {
            let fault = Problem::at("--kind", format!("{name:?} is no kind of part"));
            faults.push(unknown_kind(fault, name));
        }
        let words = words.iter().flat_map(|text| text.split_whitespace());
        let words = words.map(str::to_lowercase).collect();
        let mut read = Vec::new();
        for text in bounds {
            match FieldBound::read(text, known) {
                Ok(bound) => read.push(bound),
                Err(fault) => faults.push(fault),
            }
        }
        if faults.is_empty() {
            Ok(Self {
                kind: known,
                words,
                bounds: read,
            })
        } else {
            Err(faults)
        }
    }

    /// Whether it asks for anything but a kind.
    pub fn narrows(&self) -> bool {
        !self.words.is_empty() || !self.bounds.is_empty()
    }

    /// The kind asked for.
    pub fn kind(&self) -> Option<&'static PartKind> {
        self.kind
    }

    /// The parts, kind by kind; a kind without any is there as well.
    pub fn of<'a>(&self, stock: &'a Stock) -> Vec<PartsOfKind<'a>> {
        let kinds = stock
            .kinds()
            .filter(|(kind, _)| self.kind.is_none_or(|asked| asked.name == kind.name));
        kinds
            .map(|(kind, entries)| PartsOfKind {
                kind,
                parts: entries
                    .iter()
                    .filter(|entry| self.takes(kind, entry))
                    .collect(),
            })
            .collect()
    }

    fn takes(&self, kind: &PartKind, entry: &PartRecord) -> bool {
        let text = |field| match entry.fields.get(field) {
            Some(Tree::Text(text)) => text.to_lowercase(),
            _ => String::new(),
        };
        let (id, name) = (text("id"), text("name"));
        let worded = |word: &String| id.contains(word) || name.contains(word);
        self.words.iter().all(worded) && self.bounds.iter().all(|bound| bound.holds(kind, entry))
    }
}

/// How a field must stand to a value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum BoundSign {
    Least,
    Most,
    More,
    Less,
    Same,
    Other,
}

/// The signs, the longer before what they begin with.
const SIGNS: [(&str, BoundSign); 6] = [
    (">=", BoundSign::Least),
    ("<=", BoundSign::Most),
    ("!=", BoundSign::Other),
    (">", BoundSign::More),
    ("<", BoundSign::Less),
    ("=", BoundSign::Same),
];

/// A bound on a field.
#[derive(Debug, Clone)]
struct FieldBound {
    field: String,
    sign: BoundSign,
    value: String,
}

impl FieldBound {
    /// Reads `field>=value`; the value must fit the field of the kind, or of some kind where none is asked for.
    fn read(text: &str, kind: Option<&PartKind>) -> Result<Self, Problem> {
        let fault = |message: String| Problem::at("--where", message);
        let found = text.char_indices().find_map(|(at, _)| {
            let rest = text.get(at..)?;
            let (sign, which) = SIGNS.iter().find(|(sign, _)| rest.starts_with(sign))?;
            Some((
                text.get(..at)?.trim(),
                *which,
                rest.get(sign.len()..)?.trim(),
            ))
        });
        let Some((field, sign, value)) = found else {
            return Err(fault(format!("{text:?} has no sign of comparison")).hint(
                "write a field, one of >= <= > < = != and a value, such as \"bore>=40 mm\"",
            ));
        };
        let bound = Self {
            field: field.to_owned(),
            sign,
            value: value.to_owned(),
        };
        let kinds = || {
            KINDS
                .iter()
                .filter(|known| kind.is_none_or(|kind| kind.name == known.name))
        };
        let infos: Vec<_> = kinds()
            .filter_map(|kind| Some((kind, field_of(kind, field)?)))
            .collect();
        if infos.is_empty() {
            return Err(unknown_field("--where", field, kind));
        }
        let mut last = None;
        for (kind, info) in infos {
            let known = kind.words_of(field);
            match bound.against(info.shape) {
                Ok(_) if known.is_some_and(|words| !words.contains(&value)) => {
                    let words = known.unwrap_or_default().join(", ");
                    last = Some(
                        fault(format!("{value:?} is no word of {field}"))
                            .hint(format!("it is one of {words}")),
                    );
                }
                Ok(_) => return Ok(bound),
                Err(problem) => last = Some(problem),
            }
        }
        Err(last.unwrap_or_else(|| fault("cannot be read".into())))
    }

    /// The value as a field of a shape would have it.
    fn against(&self, shape: Shape) -> Result<BoundValue, Problem> {
        let fault = |message: &str| Problem::at(format!("--where {}", self.field), message);
        let number = |number: Option<f64>| number.map(BoundValue::Number);
        match shape {
            Shape::Quantity(kind) => parse_as(&self.value, kind)
                .map(BoundValue::Number)
                .map_err(|misread| fault(&misread.message).hint(misread.hint)),
            Shape::Number => number(
                self.value
                    .parse()
                    .ok()
                    .filter(|value: &f64| value.is_finite()),
            )
            .ok_or_else(|| fault("is a plain number, to be compared with one")),
            Shape::List(_) => Err(fault("is a list, which has no bound")),
            Shape::Text | Shape::Flag
                if !matches!(self.sign, BoundSign::Same | BoundSign::Other) =>
            {
                Err(fault("is no number; hold it against a value with = or !="))
            }
            Shape::Flag => match self.value.as_str() {
                "true" | "false" => Ok(BoundValue::Text(self.value.clone())),
                _ => Err(fault("is true or false")),
            },
            Shape::Text => Ok(BoundValue::Text(self.value.clone())),
        }
    }

    /// Whether a part keeps it, by its default where it does not state the field; one that has none does not.
    fn holds(&self, kind: &PartKind, entry: &PartRecord) -> bool {
        let Some(info) = field_of(kind, &self.field) else {
            return false;
        };
        let stated = entry.fields.get(&self.field).cloned();
        let Some(tree) = stated.or_else(|| Common::by_default(info.name)) else {
            return false;
        };
        let Ok(bound) = self.against(info.shape) else {
            return false;
        };
        let order = match (bound, &tree, info.shape) {
            (BoundValue::Number(bound), Tree::Number(number), Shape::Number) => {
                compare(*number, bound)
            }
            (BoundValue::Number(bound), Tree::Text(text), Shape::Quantity(kind)) => {
                parse_as(text, kind).ok().and_then(|si| compare(si, bound))
            }
            (BoundValue::Text(bound), Tree::Text(text), _) => Some(text.as_str().cmp(&bound)),
            (BoundValue::Text(bound), Tree::Bool(flag), _) => Some(flag.to_string().cmp(&bound)),
            _ => None,
        };
        order.is_some_and(|order| match self.sign {
            BoundSign::Least => order.is_ge(),
            BoundSign::Most => order.is_le(),
            BoundSign::More => order.is_gt(),
            BoundSign::Less => order.is_lt(),
            BoundSign::Same => order.is_eq(),
            BoundSign::Other => order.is_ne(),
        })
    }
}

/// A fault about a field's name of a kind, or of any, with what may be meant.
pub fn unknown_field(place: &str, field: &str, kind: Option<&PartKind>) -> Problem {
    let of = kind.map_or("any kind", |kind| kind.name);
    let fault = Problem::at(place, format!("{field:?} is no field of {of}"));
    let kinds = KINDS
        .iter()
        .filter(|known| kind.is_none_or(|kind| kind.name == known.name));
    let fields = kinds.flat_map(|kind| COMMON.iter().chain(kind.fields));
    let mut names: Vec<_> = fields.map(|info| info.name).collect();
    names.sort_unstable();
    names.dedup();
    match nearest(field, &names) {
        Some(near) => fault.hint(format!("did you mean {near:?}?")),
        None if kind.is_some() => fault.hint(format!("its fields are {}", names.join(", "))),
        None => fault.hint("`counterpoise catalog list --kind KIND` names the fields of a kind"),
    }
}

/// What a field is compared with.
enum BoundValue {
    Number(f64),
    Text(String),
}

/// Two numbers; alike where they differ by rounding, as 40 mm and 4 cm do.
fn compare(one: f64, other: f64) -> Option<Ordering> {
    if (one - other).abs() <= 1e-12 * one.abs().max(other.abs()) {
        return Some(Ordering::Equal);
    }
    one.partial_cmp(&other)
}

fn field_of(kind: &PartKind, name: &str) -> Option<&'static FieldInfo> {
    COMMON
        .iter()
        .chain(kind.fields)
        .find(|info| info.name == name)
}
