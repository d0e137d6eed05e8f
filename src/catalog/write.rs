//! Parts written as a file that is read back: CSV for a spreadsheet, or JSON.

use serde_json::{Value, json};

use super::part::COMMON;
use super::{FORMAT, FieldInfo, LIST_SIGN, PartRecord, PartsOfKind};
use crate::reading::{Shape, Tree};

/// A column of parts: its field, the unit that all its cells share, and the cells.
#[derive(Debug, Clone, PartialEq)]
pub struct WrittenColumn {
    /// The field.
    pub field: &'static FieldInfo,
    /// The unit of every cell, where it is the same in all.
    pub unit: Option<String>,
    /// One for each part, empty where it has none.
    pub cells: Vec<String>,
}

impl WrittenColumn {
    /// Its head, such as `bore [mm]`.
    pub fn head(&self) -> String {
        match &self.unit {
            Some(unit) => format!("{} [{unit}]", self.field.name),
            None => self.field.name.to_owned(),
        }
    }
}

/// The columns of parts of a kind: every field that one of them has.
pub fn columns(chosen: &PartsOfKind) -> Vec<WrittenColumn> {
    let fields = COMMON.iter().chain(chosen.kind.fields);
    let given = fields.filter(|field| {
        chosen
            .parts
            .iter()
            .any(|part| part.fields.get(field.name).is_some())
    });
    given.map(|field| column(field, &chosen.parts)).collect()
}

fn column(field: &'static FieldInfo, parts: &[&PartRecord]) -> WrittenColumn {
    let trees = || parts.iter().map(|part| part.fields.get(field.name));
    let units: Option<Vec<&str>> = match field.shape {
        Shape::Quantity(_) | Shape::List(Shape::Quantity(_)) => {
            let quantities = trees().flatten().flat_map(items);
            quantities
                .map(|item| split(item).map(|(_, unit)| unit))
                .collect()
        }
        _ => None,
    };
    let unit = units
        .filter(|units| units.iter().all(|unit| Some(unit) == units.first()))
        .and_then(|units| units.first().map(|unit| (*unit).to_owned()));
    let cell = |tree: Option<&Tree>| {
        let items = tree.map(items).unwrap_or_default();
        let texts: Vec<_> = items
            .into_iter()
            .map(|item| text(item, unit.is_some()))
            .collect();
        texts.join(&format!(" {LIST_SIGN} "))
    };
    WrittenColumn {
        field,
        cells: trees().map(cell).collect(),
        unit,
    }
}

/// The values of a list, or the one.
fn items(tree: &Tree) -> Vec<&Tree> {
    match tree {
        Tree::List(items) => items.iter().collect(),
        one => vec![one],
    }
}

/// A quantity's number and unit, where a space stands between them.
fn split(tree: &Tree) -> Option<(&str, &str)> {
    let Tree::Text(text) = tree else { return None };
    let (number, unit) = text.trim().split_once(' ')?;
    number.parse::<f64>().ok()?;
    Some((number, unit.trim()))
}

fn text(tree: &Tree, without_unit: bool) -> String {
    match tree {
        Tree::Text(text) => match split(tree) {
            Some((number, _)) if without_unit => number.to_owned(),
            _ => text.clone(),
        },
        other => Value::from(other).to_string(),
    }
}

/// The parts as a CSV file.
///
/// # Errors
/// What the writer says, which writes to memory.
pub fn to_csv(chosen: &PartsOfKind) -> Result<String, String> {
    let columns = columns(chosen);
    let mut writer = csv::Writer::from_writer(Vec::new());
    let fault = |error: csv::Error| error.to_string();
    writer
        .write_record(columns.iter().map(WrittenColumn::head))
        .map_err(fault)?;
    for row in 0..chosen.parts.len() {
        let cells = columns
            .iter()
            .map(|column| column.cells.get(row).map_or("", String::as_str));
        writer.write_record(cells).map_err(fault)?;
    }
    let bytes = writer.into_inner().map_err(|error| error.to_string())?;
    String::from_utf8(bytes).map_err(|error| error.to_string())
}

/// The parts as a JSON file, one a line.
pub fn to_file(chosen: &PartsOfKind) -> String {
    let lines = chosen
        .parts
        .iter()
        .map(|part| format!("    {}", Value::from(&part.fields)));
    let lines: Vec<_> = lines.collect();
    let (format, kind) = (json!(FORMAT), json!(chosen.kind.name));
    let parts = if lines.is_empty() {
        "[]".to_owned()
    } else {
        format!("[\n{}\n  ]", lines.join(",\n"))
    };
    format!("{{\n  \"format\": {format},\n  \"kind\": {kind},\n  \"parts\": {parts}\n}}\n")
}
