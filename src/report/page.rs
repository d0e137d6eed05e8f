//! A page of text being laid out.

use anstyle::Style;

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

/// Narrowest that a column of text is made.
const NARROWEST: usize = 10;

/// Wraps the cells of columns of text so that a table is no wider than it may be: the widest of them gives way first. What
/// draws the table would begin a wrapped line with the space it broke at.
pub(super) fn wrap_cells(rows: &mut [Vec<String>], text: &[usize], width: usize) {
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
