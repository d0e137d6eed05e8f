//! A page of text being laid out.

use anstyle::Style;
use tabled::Table;
use tabled::builder::Builder;
use tabled::settings::object::Columns;
use tabled::settings::peaker::Priority;
use tabled::settings::{Alignment, Modify, Padding, Style as Borders, Width};

/// How wide the page is, and how a heading looks.
#[derive(Debug, Clone, Copy)]
pub struct Page {
    /// Columns of the terminal.
    pub width: usize,
    /// Style of headings.
    pub heading: Style,
}

/// Text being laid out.
pub struct Screen {
    pub page: Page,
    pub text: String,
}

impl Screen {
    /// An empty page.
    pub fn new(page: Page) -> Self {
        Self {
            page,
            text: String::new(),
        }
    }
    /// A heading, apart from what stands above it.
    pub fn heading(&mut self, text: &str) {
        if !self.text.is_empty() {
            self.text.push('\n');
        }
        let style = self.page.heading;
        for line in textwrap::wrap(text, self.page.width) {
            let line = format!("{style}{line}{style:#}\n");
            self.text.push_str(&line);
        }
    }
    /// A paragraph wrapped to the page.
    pub fn line(&mut self, text: impl AsRef<str>) {
        self.paragraph("", text.as_ref());
    }
    /// A paragraph of a list.
    pub fn item(&mut self, text: impl AsRef<str>) {
        self.paragraph("- ", text.as_ref());
    }
    /// A paragraph wrapped to the page, its first line after a mark.
    pub fn paragraph(&mut self, mark: &str, text: &str) {
        let later = " ".repeat(2 + mark.chars().count());
        let first = format!("  {mark}");
        let options = textwrap::Options::new(self.page.width)
            .initial_indent(&first)
            .subsequent_indent(&later);
        self.text.push_str(&textwrap::fill(text, options));
        self.text.push('\n');
    }
}

/// A table whose columns of text wrap, its numbers to the right, each line two spaces in.
pub(super) fn table(
    mut rows: Vec<Vec<String>>,
    text: &[usize],
    numbers: &[usize],
    width: usize,
) -> String {
    let width = width.saturating_sub(2);
    wrap_cells(&mut rows, text, width);
    let mut table = Builder::from(rows).build();
    table.with(Borders::blank()).with(Padding::new(0, 1, 0, 0));
    let lines = table_lines(table, numbers, width);
    let lines: Vec<String> = lines.iter().map(|line| format!("  {line}\n")).collect();
    lines.concat()
}

/// The lines of a table, numbers to the right, no wider than they may be.
pub(super) fn table_lines(mut table: Table, numbers: &[usize], width: usize) -> Vec<String> {
    for column in numbers {
        table.with(Modify::new(Columns::one(*column)).with(Alignment::right()));
    }
    let wrap = Width::wrap(width).keep_words(true);
    table.with(wrap.priority(Priority::max(true)));
    let text = table.to_string();
    text.lines().map(|line| line.trim_end().into()).collect()
}

/// Narrowest that a column of text is made.
const NARROWEST: usize = 10;

/// Wraps the cells of columns of text so that a table is no wider than it may be: the widest of them gives way first. What
/// draws the table would begin a wrapped line with the space it broke at.
fn wrap_cells(rows: &mut [Vec<String>], text: &[usize], width: usize) {
    let columns = rows.first().map_or(0, Vec::len);
    let broadest = |rows: &[Vec<String>], column: usize| {
        let cells = rows.iter().filter_map(|row| row.get(column));
        let lines = cells.flat_map(|cell| cell.lines());
        lines.map(|line| line.chars().count()).max().unwrap_or(0)
    };
    // Two spaces stand after each column: its padding, and what would be the line between two.
    let mut widths: Vec<usize> = (0..columns).map(|at| broadest(rows, at)).collect();
    while widths.iter().map(|own| own + 2).sum::<usize>() > width {
        let columns = widths.iter_mut().enumerate();
        let yielding = columns.filter(|(at, own)| text.contains(at) && **own > NARROWEST);
        match yielding.max_by_key(|(_, own)| **own) {
            Some((_, own)) => *own -= 1,
            None => break,
        }
    }
    for row in rows {
        for (at, (cell, own)) in row.iter_mut().zip(&widths).enumerate() {
            if text.contains(&at) {
                *cell = textwrap::fill(cell, *own);
            }
        }
    }
}

/// Things with what they are alike in, in the order of the first of each.
pub(super) fn grouped<T>(
    all: impl IntoIterator<Item = T>,
    alike: impl Fn(&T) -> String,
) -> Vec<(String, Vec<T>)> {
    let mut groups: Vec<(String, Vec<T>)> = Vec::new();
    for one in all {
        let key = alike(&one);
        match groups.iter_mut().find(|(known, _)| *known == key) {
            Some((_, group)) => group.push(one),
            None => groups.push((key, vec![one])),
        }
    }
    groups
}
