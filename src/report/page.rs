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
