//! Parts and kinds of part as tables.

use tabled::builder::Builder;
use tabled::settings::{Padding, Style as Borders};

use super::page::{Page, Screen, table_lines};
use crate::catalog::{BUILT_IN_NAME, COMMON, Checked, PartsOfKind, WrittenColumn, columns};
use crate::problem::plain;
use crate::reading::Shape;

/// Ids of built-in parts that are named where a file takes their place.
const IDS_NAMED: usize = 3;

/// The kinds: how many parts each has, and what it is.
pub fn kinds_screen(name: &str, chosen: &[PartsOfKind], page: Page) -> String {
    let mut out = Screen::new(page);
    let parts: usize = chosen.iter().map(|chosen| chosen.parts.len()).sum();
    out.heading(&format!(
        "{}: {parts} parts of {} kinds",
        plain(name),
        chosen.len()
    ));
    let mut table = Builder::new();
    table.push_record(["kind", "parts", "what it is"]);
    let longest = widest(chosen.iter().map(|chosen| chosen.kind.name));
    // What the two columns before it and the spaces between leave.
    let left = room(page.width, longest + "parts".len() + 6);
    for chosen in chosen {
        let (kind, count) = (chosen.kind, chosen.parts.len().to_string());
        table.push_record([kind.name, &count, &textwrap::fill(short(kind.about), left)]);
    }
    laid_out(&mut out, table, &[1]);
    out.line("counterpoise catalog list --kind KIND shows the parts of one.");
    out.text
}

/// Columns of the page that the longest of some texts takes.
fn widest<'t>(texts: impl Iterator<Item = &'t str>) -> usize {
    texts.map(|text| text.chars().count()).max().unwrap_or(0)
}

/// What a page leaves for the one column that is wrapped.
fn room(width: usize, taken: usize) -> usize {
    width.saturating_sub(taken).max(20)
}

/// What a kind is, up to what its price is of.
fn short(about: &str) -> &str {
    let about = about.trim();
    let end = about.find(';').unwrap_or(about.len());
    about.get(..end).unwrap_or(about).trim_end_matches('.')
}

/// Parts of several kinds: what each is and costs.
pub fn found_screen(chosen: &[PartsOfKind], page: Page) -> String {
    let mut out = Screen::new(page);
    let count: usize = chosen.iter().map(|chosen| chosen.parts.len()).sum();
    out.heading(&number_of_parts(count));
    let mut table = Builder::new();
    table.push_record(["kind", "id", "name", "price"]);
    let columns: Vec<_> = chosen
        .iter()
        .map(|chosen| (chosen.kind, columns(chosen)))
        .collect();
    let of_field = |field: &str| {
        let all = columns.iter().flat_map(|(_, columns)| columns);
        let own = all.filter(|column| column.field.name == field);
        widest(own.flat_map(|column| &column.cells).map(String::as_str))
    };
    let kinds = chosen.iter().filter(|chosen| !chosen.parts.is_empty());
    let kinds = widest(kinds.map(|chosen| chosen.kind.name));
    // Only names are wrapped: what is typed again stands in one piece.
    let left = room(
        page.width,
        kinds + of_field("id") + of_field("price").max("price".len()) + 8,
    );
    for (chosen, (kind, columns)) in chosen.iter().zip(&columns) {
        for row in 0..chosen.parts.len() {
            let [id, name, price] =
                ["id", "name", "price"].map(|field| plain(cell(columns, field, row)));
            let name = textwrap::fill(&name, left);
            table.push_record([kind.name, &id, &name, &price]);
        }
    }
    if count > 0 {
        laid_out(&mut out, table, &[3]);
        out.line("Prices are in catalog units.");
    }
    out.text
}

fn number_of_parts(count: usize) -> String {
    match count {
        0 => "no part is like that".into(),
        1 => "1 part".into(),
        count => format!("{count} parts"),
    }
}

fn cell<'a>(columns: &'a [WrittenColumn], field: &str, row: usize) -> &'a str {
    let column = columns.iter().find(|column| column.field.name == field);
    column
        .and_then(|column| column.cells.get(row))
        .map_or("", String::as_str)
}

/// Which columns are numbers.
fn number_columns(shown: &[&WrittenColumn]) -> Vec<usize> {
    let numbered = shown.iter().enumerate();
    let numbers = numbered.filter(|(_, column)| is_number(column));
    numbers.map(|(index, _)| index).collect()
}

/// The column of names, and the room that the others and that of files leave it.
fn name_column(shown: &[&WrittenColumn], width: usize, files: usize) -> Option<(usize, usize)> {
    let at = shown
        .iter()
        .position(|column| column.field.name == "name")?;
    let others = shown.iter().enumerate().filter(|(index, _)| *index != at);
    let others: usize = others.map(|(_, column)| breadth(column)).sum();
    Some((at, room(width, others + files + 2)))
}

/// Parts of one kind: id, price, where it comes from, and as many of its own figures as there is room for.
pub fn parts_screen(
    chosen: &PartsOfKind,
    fields: &[String],
    with_files: bool,
    page: Page,
) -> String {
    let mut out = Screen::new(page);
    out.heading(&format!(
        "{}: {}",
        chosen.kind.name,
        number_of_parts(chosen.parts.len())
    ));
    out.line(chosen.kind.about.trim());
    if chosen.parts.is_empty() {
        return out.text;
    }
    out.text.push('\n');
    let all = columns(chosen);
    let parts = chosen.parts.iter();
    let files = parts.map(|part| part.file.as_deref().unwrap_or(BUILT_IN_NAME));
    let files: Vec<_> = files.collect();
    let files_width = if with_files {
        breadth_of_files(&files)
    } else {
        0
    };
    let (shown, rest) = split_columns(&all, fields, page.width.saturating_sub(files_width));
    let mut table = Builder::new();
    let mut head: Vec<String> = shown.iter().map(|column| head(column)).collect();
    if with_files {
        head.push("from".into());
    }
    table.push_record(head);
    let name = name_column(&shown, page.width, files_width);
    for row in 0..chosen.parts.len() {
        let mut cells: Vec<&str> = shown
            .iter()
            .map(|column| column.cells.get(row).map_or("", String::as_str))
            .collect();
        if with_files {
            cells.push(files.get(row).copied().unwrap_or_default());
        }
        let cells = cells.into_iter().map(plain).enumerate();
        table.push_record(cells.map(|(index, cell)| match name {
            Some((at, left)) if at == index => textwrap::fill(&cell, left),
            _ => cell,
        }));
    }
    laid_out(&mut out, table, &number_columns(&shown));
    out.line("Prices are in catalog units.");
    if !rest.is_empty() {
        let rest = rest.join(", ");
        out.line(format!("Not shown: {rest} (--fields NAME,NAME or --csv)."));
    }
    out.text
}

fn is_number(column: &WrittenColumn) -> bool {
    match column.field.shape {
        Shape::Number => true,
        Shape::Quantity(_) => column.unit.is_some(),
        _ => false,
    }
}

/// A column's head over two lines, its unit below.
fn head(column: &WrittenColumn) -> String {
    match &column.unit {
        Some(unit) => format!("{}\n[{unit}]", column.field.name),
        None => column.field.name.to_owned(),
    }
}

/// The columns that are shown, and the names of the others.
fn split_columns<'a>(
    all: &'a [WrittenColumn],
    fields: &[String],
    width: usize,
) -> (Vec<&'a WrittenColumn>, Vec<&'static str>) {
    let asked = |column: &&WrittenColumn| fields.iter().any(|field| field == column.field.name);
    let named = |name: &&str| all.iter().find(|column| column.field.name == *name);
    let mut shown: Vec<&WrittenColumn> = ["id", "price"].iter().filter_map(named).collect();
    if fields.is_empty() {
        let mut used: usize = shown.iter().map(|column| breadth(column)).sum();
        // What every part has tells one from another less than its own figures do.
        let own = all
            .iter()
            .filter(|column| COMMON.iter().all(|field| field.name != column.field.name));
        for column in own {
            // Two columns stand between each pair, and two before the first.
            if used + breadth(column) > width {
                break;
            }
            used += breadth(column);
            shown.push(column);
        }
    } else {
        let also = all.iter().filter(asked);
        shown.extend(also.filter(|column| !["id", "price"].contains(&column.field.name)));
    }
    let is_shown = |name: &str| shown.iter().any(|column| column.field.name == name);
    let every = all.iter().map(|column| column.field.name);
    let rest = every.filter(|name| !is_shown(name)).collect();
    (shown, rest)
}

/// Columns of the page that a column takes, with the space before it.
fn breadth(column: &WrittenColumn) -> usize {
    let heads = head(column);
    let cells = column.cells.iter().map(String::as_str);
    widest(cells.chain(heads.lines())) + 2
}

/// What `catalog check` says of a sound folder.
pub fn checked_screen(folder: &str, files: &[Checked], page: Page) -> String {
    let mut out = Screen::new(page);
    let parts: usize = files.iter().map(|file| file.parts).sum();
    let s = |count| if count == 1 { "" } else { "s" };
    let (count, of) = (files.len(), plain(folder));
    out.heading(&format!(
        "{of} is sound: {parts} part{} in {count} file{}",
        s(parts),
        s(count)
    ));
    let mut table = Builder::new();
    table.push_record(["file", "kind", "parts", "what they do"]);
    for file in files {
        let they = what_they_do(file);
        table.push_record([
            plain(&file.name),
            file.kind.into(),
            file.parts.to_string(),
            plain(&they),
        ]);
    }
    laid_out(&mut out, table, &[2]);
    out.line("Prices are in catalog units, as the built-in ones are; rates.per_catalog_unit of a job turns both into its money.");
    out.text
}

/// How the parts of a file stand to the built-in ones.
fn what_they_do(file: &Checked) -> String {
    match (file.instead_of, &file.beside, file.in_place_of.as_slice()) {
        (Some(built_in), ..) => format!("stand instead of the {built_in} built-in ones"),
        (None, Some(other), _) => {
            format!("add to those of {other}, which stand instead of the built-in ones")
        }
        (None, None, []) => "add to the built-in ones".into(),
        (None, None, ids) => {
            let named = ids
                .get(..IDS_NAMED.min(ids.len()))
                .unwrap_or(ids)
                .join(", ");
            let more = match ids.len().saturating_sub(IDS_NAMED) {
                0 => String::new(),
                more => format!(" and {more} more"),
            };
            format!("add to the built-in ones; in the place of the built-in {named}{more}")
        }
    }
}

/// Columns of the page that the files take which parts come from.
fn breadth_of_files(files: &[&str]) -> usize {
    widest(files.iter().copied()).max("from".len()) + 2
}

/// Draws a table, numbers to the right, no wider than the page.
fn laid_out(out: &mut Screen, table: Builder, numbers: &[usize]) {
    let mut table = table.build();
    table.with(Borders::empty()).with(Padding::new(2, 0, 0, 0));
    let lines = table_lines(table, numbers, out.page.width);
    out.text.push_str(&(lines.join("\n") + "\n\n"));
}
