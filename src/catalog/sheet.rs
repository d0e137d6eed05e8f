//! A CSV file as a spreadsheet exports it: one row a part, one column a field, units in the head of a column or in its cells.
//!
//! The kind is the file's name up to its first dot; a name that ends `.only.csv` stands instead of the built-in parts.

use std::collections::BTreeSet;

use super::part::COMMON;
use super::source::{File, MOST_PARTS, PartRecord, Source, too_many, unknown_kind};
use super::{FieldInfo, PartKind};
use crate::problem::{MOST_FAULTS, Problem};
use crate::quantity::{parse_as, usual_unit};
use crate::reading::{Shape, Sink, Tree, UNKNOWN, nearest};

/// What stands between the values of a list in one cell.
pub const LIST_SIGN: char = '|';

/// Reads a CSV file; its faults go into the sink.
pub(super) fn csv(file: &File, left: usize, sink: &Sink) -> Option<Source> {
    let kind = kind(&file.name, sink);
    // One line end for all, so that lines are counted as an editor does.
    let text = text(file, sink)?.replace("\r\n", "\n").replace('\r', "\n");
    let (comma, text) = comma(text, &file.name, sink)?;
    let sheet = Sheet {
        file: &file.name,
        kind: kind?,
        comma,
        decimal_commas: comma == b';' && has_decimal_commas(&text),
        ends: text.match_indices('\n').map(|(at, _)| at).collect(),
        text: &text,
        sink,
    };
    let mut rows = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(sheet.comma)
        .from_reader(text.as_bytes());
    let mut rows = rows.records().filter_map(Result::ok);
    let head = rows.find(|row| row.iter().any(|cell| !cell.trim().is_empty()));
    let columns = sheet.columns(&head.unwrap_or_default());
    let absent = sheet.absent(&columns);
    let entries: Vec<_> = rows
        .take(MOST_PARTS.min(left) + 1)
        .filter_map(|row| sheet.entry(&row, &columns, &absent))
        .collect();
    if too_many(entries.len(), left, &format!("{}:", file.name), sink) {
        return None;
    }
    Some(Source {
        file: file.name.clone(),
        kind: sheet.kind,
        replaces: replaces(&file.name),
        name: None,
        entries,
    })
}

/// The parts of a file's name between dots, its ending left out.
fn stem(name: &str) -> Vec<&str> {
    let mut parts: Vec<_> = name.split('.').collect();
    parts.pop();
    parts
}

fn replaces(name: &str) -> bool {
    let parts = stem(name);
    parts.len() > 1 && parts.last() == Some(&"only")
}

fn kind(name: &str, sink: &Sink) -> Option<&'static PartKind> {
    let word = stem(name).first().copied().unwrap_or_default();
    let kind = PartKind::named(word);
    if kind.is_none() {
        let fault = Problem::at(
            format!("{name}:"),
            format!("the file's name must start with a kind of part; {word:?} is none"),
        );
        sink.add(unknown_kind(fault, word));
    }
    kind
}

/// The file's text without a byte order mark.
fn text<'f>(file: &'f File, sink: &Sink) -> Option<&'f str> {
    let bytes = file
        .bytes
        .strip_prefix(b"\xef\xbb\xbf")
        .unwrap_or(&file.bytes);
    let problem = match std::str::from_utf8(bytes) {
        Ok(text) if text.trim().is_empty() => "the file is empty".to_owned(),
        Ok(text) => return Some(text),
        Err(fault) => format!("the file is not UTF-8 (byte {})", fault.valid_up_to() + 1),
    };
    let hint = "export it from the spreadsheet as \"CSV UTF-8\", with a first row of field names";
    sink.add(Problem::at(format!("{}:", file.name), problem).hint(hint));
    None
}

/// What separates the cells, and the text without the line that says so (`sep=;`, as some spreadsheets write first): else
/// what there is most of in the first line that is not empty, comma or semicolon.
fn comma(text: String, name: &str, sink: &Sink) -> Option<(u8, String)> {
    let separated_by = |sign: &str| {
        let fault = Problem::at(
            format!("{name}:"),
            format!("the cells are separated by {sign}"),
        );
        sink.add(fault.hint("export it with commas or semicolons"));
        None
    };
    let line = text.trim_start().lines().next().unwrap_or_default();
    let line = line.trim_end_matches(' ');
    let stated = line
        .get(..4)
        .filter(|start| start.eq_ignore_ascii_case("sep="));
    if stated.is_some() {
        let sign = line.get(4..).unwrap_or_default();
        if let Some(sign) = [",", ";"].iter().find(|known| **known == sign) {
            // The line end stays, so that lines are counted as an editor does.
            let comma = if *sign == ";" { b';' } else { b',' };
            return Some((comma, text.replacen(line, "", 1)));
        }
        return separated_by(&format!("{sign:?}"));
    }
    let count = |sign| line.matches(sign).count();
    if count('\t') > count(';') + count(',') {
        return separated_by("tabs");
    }
    let comma = if count(';') > count(',') { b';' } else { b',' };
    Some((comma, text))
}

/// Whether some cell between semicolons is a number with a decimal comma, alone or before its unit.
fn has_decimal_commas(text: &str) -> bool {
    text.split([';', '\n', LIST_SIGN]).any(|cell| {
        let mut words = cell.trim_matches(['"', ' ']).split(' ');
        let number = words.next().unwrap_or_default();
        let digits =
            |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
        number
            .trim_start_matches(['-', '+'])
            .split_once(',')
            .is_some_and(|(whole, part)| digits(&whole.replace('.', "")) && digits(part))
    })
}

/// A number as people write one, and nothing else that a computer takes for one.
fn plain_number(text: &str) -> Option<f64> {
    let number = text.parse::<f64>().ok().filter(|number| number.is_finite());
    number.filter(|_| {
        !text.contains(|sign: char| sign.is_ascii_alphabetic() && !matches!(sign, 'e' | 'E'))
    })
}

/// Whether a number's points stand where marks of thousands do: `1.234`, but not `0.125`.
fn has_thousands(cell: &str) -> bool {
    let number = cell.split(' ').next().unwrap_or_default();
    let mut groups = number.trim_start_matches(['-', '+']).split('.');
    let first = groups.next().unwrap_or_default();
    let digits = |part: &str| part.bytes().all(|byte| byte.is_ascii_digit());
    let mut marked = false;
    let whole = groups.all(|group| {
        marked = true;
        group.len() == 3 && digits(group)
    });
    whole && marked && (1..=3).contains(&first.len()) && digits(first) && !first.starts_with('0')
}

/// A column: its field, the unit in its head, and whether the head is wrong, which has been said.
struct HeadedColumn {
    field: &'static FieldInfo,
    unit: Option<String>,
    wrong: bool,
}

/// A file being read.
struct Sheet<'a> {
    file: &'a str,
    kind: &'static PartKind,
    comma: u8,
    /// Whether numbers have decimal commas, so that a point would be a mark of thousands.
    decimal_commas: bool,
    text: &'a str,
    /// Where its lines end.
    ends: Vec<usize>,
    sink: &'a Sink,
}

impl Sheet<'_> {
    fn fault(&self, place: &str, message: impl Into<String>, hint: impl Into<String>) {
        let path = format!("{}: {place}", self.file);
        self.sink
            .add(Problem::at(path.trim_end(), message).hint(hint));
    }

    fn fields(&self) -> impl Iterator<Item = &'static FieldInfo> {
        COMMON.iter().chain(self.kind.fields)
    }

    /// What each column holds; none where it cannot be told, which is a fault unless it has no name.
    fn columns(&self, head: &csv::StringRecord) -> Vec<Option<HeadedColumn>> {
        let mut seen = BTreeSet::new();
        let columns = head.iter().map(|cell| {
            let column = self.column(cell)?;
            if !seen.insert(column.field.name) {
                self.fault(column.field.name, "has two columns", "keep one of them");
            }
            Some(column)
        });
        columns.collect()
    }

    fn column(&self, cell: &str) -> Option<HeadedColumn> {
        let (name, unit) = split_head(cell);
        if name.is_empty() {
            return None;
        }
        let Some(field) = self.fields().find(|field| field.name == name) else {
            let names: Vec<_> = self.fields().map(|field| field.name).collect();
            // Past what is told, nobody reads the hint.
            let near = (self.sink.len() < MOST_FAULTS)
                .then(|| nearest(&name.to_lowercase().replace(' ', "_"), &names))
                .flatten();
            let hint = near.map(|near| format!("did you mean {near:?}?"));
            self.fault(name, UNKNOWN, hint.unwrap_or_default());
            return None;
        };
        let wrong = unit.and_then(|unit| match measured(field.shape) {
            None => {
                let hint = format!("name the column \"{name}\"");
                Some(("takes no unit".into(), hint))
            }
            Some(kind) => {
                let misread = parse_as(&format!("1 {unit}"), kind).err()?;
                Some((misread.message, misread.hint))
            }
        });
        let (unit, is_wrong) = (unit.map(str::to_owned), wrong.is_some());
        if let Some((message, hint)) = wrong {
            self.fault(name, message, hint);
        }
        Some(HeadedColumn {
            field,
            unit,
            wrong: is_wrong,
        })
    }

    /// Fields that each part must have and no column gives; said once and not again in each row.
    fn absent(&self, columns: &[Option<HeadedColumn>]) -> Vec<&'static str> {
        let has = |name| {
            columns
                .iter()
                .flatten()
                .any(|column| column.field.name == name)
        };
        let absent: Vec<_> = self
            .fields()
            .filter(|field| field.required && !has(field.name))
            .collect();
        for field in &absent {
            let head = match measured(field.shape) {
                Some(kind) => format!("{} [{}]", field.name, usual_unit(kind)),
                None => field.name.to_owned(),
            };
            let hint = format!("add a column \"{head}\"");
            self.fault(field.name, "has no column", hint);
        }
        absent.into_iter().map(|field| field.name).collect()
    }

    /// A row's part; none of an empty row.
    fn entry(
        &self,
        row: &csv::StringRecord,
        columns: &[Option<HeadedColumn>],
        absent: &[&'static str],
    ) -> Option<PartRecord> {
        if row.iter().all(|cell| cell.trim().is_empty()) {
            return None;
        }
        let line = self.line(row);
        let (mut fields, mut said) = (Vec::new(), absent.to_vec());
        let mut faults = Vec::new();
        for (index, cell) in row.iter().map(str::trim).enumerate() {
            match columns.get(index) {
                Some(Some(column)) if column.wrong => said.push(column.field.name),
                Some(Some(column)) if !cell.is_empty() => {
                    let name = column.field.name;
                    fields.push((name.to_owned(), self.value(column, cell)));
                    if let Some((message, hint)) = self.unlike(column.field.shape, cell) {
                        said.push(name);
                        faults.push((format!(".{name}"), format!("{message}, {cell:?}"), hint));
                    }
                }
                // A column whose head is no field has been spoken of.
                Some(_) => {}
                None if cell.is_empty() => {}
                None => {
                    let message = format!("has a cell more than the first row has names, {cell:?}");
                    faults.push((
                        String::new(),
                        message,
                        "put cells that hold a separator in quotes",
                    ));
                }
            }
        }
        let fields = Tree::Object(fields);
        let id = match fields.get("id") {
            Some(Tree::Text(id)) => id.as_str(),
            _ => "part",
        };
        let place = format!("{} line {line}: {id}", self.file);
        for (field, message, hint) in faults {
            self.sink
                .add(Problem::at(format!("{place}{field}"), message).hint(hint));
        }
        let file = Some(self.file.to_owned());
        Some(PartRecord {
            file,
            place,
            fields,
            said,
        })
    }

    /// The line that a row stands on: the reader's place is before the empty lines that it passes over.
    fn line(&self, row: &csv::StringRecord) -> usize {
        let place = row.position().map_or(0, csv::Position::byte);
        let place = usize::try_from(place).unwrap_or(usize::MAX);
        let rest = self.text.get(place..).unwrap_or_default();
        let start = place + rest.len() - rest.trim_start_matches('\n').len();
        self.ends.partition_point(|end| *end < start) + 1
    }

    /// What is wrong with a cell that is no plain number, no flag or no list, in the words of a spreadsheet.
    fn unlike(&self, shape: Shape, cell: &str) -> Option<(&'static str, &'static str)> {
        let number = matches!(shape, Shape::Number) || measured(shape).is_some();
        if number
            && self.decimal_commas
            && cell.split(LIST_SIGN).any(|cell| has_thousands(cell.trim()))
        {
            return Some((
                "has a point where other cells have a decimal comma",
                "write 1234 or 1,234, whichever is meant; thousands take no mark",
            ));
        }
        match shape {
            Shape::Number if plain_number(&self.point(cell)).is_none() => {
                Some(if cell.contains(',') {
                    (
                        "has a comma in its number",
                        "write a decimal point; a comma is one only where semicolons separate the cells, and thousands take no mark",
                    )
                } else {
                    ("is not a plain number", "write the number without its unit")
                })
            }
            Shape::Flag
                if !["true", "false"]
                    .iter()
                    .any(|word| cell.eq_ignore_ascii_case(word)) =>
            {
                Some(("is neither true nor false", "write true or false"))
            }
            Shape::List(shape)
                if !matches!(shape, Shape::Text)
                    && !cell.contains(LIST_SIGN)
                    && cell.split_whitespace().count() > 2 =>
            {
                Some((
                    "is one value, not several",
                    "put | between the values of a list",
                ))
            }
            _ => None,
        }
    }

    /// A cell as a JSON file would have it.
    fn value(&self, column: &HeadedColumn, cell: &str) -> Tree {
        match column.field.shape {
            Shape::List(shape) => {
                let items = cell.split(LIST_SIGN).map(str::trim);
                Tree::List(items.map(|item| self.one(*shape, column, item)).collect())
            }
            shape => self.one(shape, column, cell),
        }
    }

    fn one(&self, shape: Shape, column: &HeadedColumn, cell: &str) -> Tree {
        match shape {
            Shape::Flag if cell.eq_ignore_ascii_case("true") => Tree::Bool(true),
            Shape::Flag if cell.eq_ignore_ascii_case("false") => Tree::Bool(false),
            Shape::Number => match plain_number(&self.point(cell)) {
                Some(number) => Tree::Number(number),
                None => Tree::Text(cell.to_owned()),
            },
            Shape::Quantity(_) => {
                let cell = self.point(cell);
                Tree::Text(match &column.unit {
                    Some(unit) if plain_number(&cell).is_some() => format!("{cell} {unit}"),
                    _ => cell,
                })
            }
            _ => Tree::Text(cell.to_owned()),
        }
    }

    /// A number with a decimal point: where semicolons separate, a single comma is one.
    fn point(&self, cell: &str) -> String {
        let single = cell.matches(',').count() == 1 && !cell.contains('.');
        if self.comma == b';' && single {
            cell.replace(',', ".")
        } else {
            cell.to_owned()
        }
    }
}

/// The name and the unit of a head such as `bore [mm]` or `conductance (L/(s bar))`.
fn split_head(cell: &str) -> (&str, Option<&str>) {
    let cell = cell.trim();
    for (open, close) in [('[', ']'), ('(', ')')] {
        let inside = cell
            .strip_suffix(close)
            .and_then(|cell| cell.split_once(open));
        if let Some((name, unit)) = inside {
            return (name.trim(), Some(unit.trim()));
        }
    }
    (cell, None)
}

/// What a field measures, where it takes a unit.
fn measured(shape: Shape) -> Option<crate::quantity::Kind> {
    match shape {
        Shape::Quantity(kind) => Some(kind),
        Shape::List(shape) => measured(*shape),
        _ => None,
    }
}
