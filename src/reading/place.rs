//! Where in a file something stands: line, column and the words there, to be pointed at.

use crate::problem::{Place, Problem};

/// Points a fault at its place in the text of a file, if it has a path and that, or what it would stand in, is there.
pub fn point(problem: &mut Problem, text: &str) {
    if problem.place.is_none() && !problem.path.is_empty() {
        problem.place = find(text, &problem.path).map(|span| place_at(text, span.start, span.end));
    }
}

/// Most characters that are shown of a line.
const LINE_SHOWN: usize = 68;

/// The place of some bytes of a text; of several lines the first is shown, of a long line the part about it.
pub fn place_at(text: &str, start: usize, end: usize) -> Place {
    let before = text.get(..start).unwrap_or(text);
    let line_start = before.rfind('\n').map_or(0, |at| at + 1);
    let line = text.get(line_start..).unwrap_or_default();
    let line = line.lines().next().unwrap_or_default();
    let column = before.get(line_start..).unwrap_or_default().chars().count();
    let marked = text.get(start..end).unwrap_or_default();
    let length = marked.lines().next().unwrap_or_default().chars().count();
    let is_long = line.chars().nth(LINE_SHOWN).is_some();
    let from = if is_long {
        column.saturating_sub(LINE_SHOWN / 2)
    } else {
        0
    };
    Place {
        line: 1 + before.matches('\n').count(),
        column: 1 + column,
        quote: line.chars().skip(from).take(LINE_SHOWN).collect(),
        before: column - from,
        length: length.min(LINE_SHOWN - (column - from).min(LINE_SHOWN)),
    }
}

/// Bytes of a field, from its key to the end of its value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span {
    /// First byte of the key, or of the value in a list.
    pub start: usize,
    /// Past the last byte of the value.
    pub end: usize,
}

/// Where the field at a path stands, or the nearest that it would stand in; none where not even the first step is there.
pub fn find(text: &str, path: &str) -> Option<Span> {
    let mut reader = Reader {
        text: text.as_bytes(),
        at: 0,
    };
    reader.space();
    let mut found = None;
    let mut rest = path;
    while let Some((step, then)) = next_step(rest) {
        let Some(span) = reader.enter(step) else {
            break;
        };
        found = Some(span);
        rest = then;
    }
    found
}

/// A step of a path: a key, or a place in a list.
#[derive(Clone, Copy)]
struct Step<'p> {
    key: &'p str,
    index: Option<usize>,
}

/// The next step of a path and what follows it; none at its end.
fn next_step(path: &str) -> Option<(Step<'_>, &str)> {
    let path = path.strip_prefix('.').unwrap_or(path);
    if let Some(list) = path.strip_prefix('[') {
        let (index, rest) = list.split_once(']')?;
        let index = Some(index.parse().ok()?);
        return Some((Step { key: "", index }, rest));
    }
    let end = path.find(['.', '[']).unwrap_or(path.len());
    let (key, rest) = path.split_at(end);
    (!key.is_empty()).then_some((Step { key, index: None }, rest))
}

/// Goes over sound JSON text; what is not sound ends the search.
struct Reader<'t> {
    text: &'t [u8],
    at: usize,
}

impl Reader<'_> {
    fn peek(&self) -> Option<u8> {
        self.text.get(self.at).copied()
    }

    fn space(&mut self) {
        while self
            .peek()
            .is_some_and(|byte| byte.is_ascii_whitespace() || byte == b',' || byte == b':')
        {
            self.at += 1;
        }
    }

    /// Goes to the value of a step within the object or list at hand, and says where that field stands.
    fn enter(&mut self, step: Step<'_>) -> Option<Span> {
        let open = if step.index.is_some() { b'[' } else { b'{' };
        if self.peek()? != open {
            return None;
        }
        self.at += 1;
        let mut count = 0;
        loop {
            self.space();
            let start = self.at;
            if matches!(self.peek()?, b'}' | b']') {
                return None;
            }
            let is_it = if let Some(index) = step.index {
                index == count
            } else {
                self.skip()?;
                let key = std::str::from_utf8(self.text.get(start..self.at)?).ok()?;
                self.space();
                serde_json::from_str::<String>(key).is_ok_and(|key| key == step.key)
            };
            let value = self.at;
            self.skip()?;
            if is_it {
                let end = self.at;
                self.at = value;
                return Some(Span { start, end });
            }
            count += 1;
        }
    }

    /// Goes past the value at hand.
    fn skip(&mut self) -> Option<()> {
        let (mut depth, mut in_text, mut escaped) = (0_usize, false, false);
        let start = self.at;
        loop {
            let byte = self.peek()?;
            match byte {
                _ if escaped => escaped = false,
                b'\\' if in_text => escaped = true,
                b'"' => in_text = !in_text,
                _ if in_text => {}
                b'{' | b'[' => depth += 1,
                b'}' | b']' if depth == 0 => return (self.at > start).then_some(()),
                b'}' | b']' => depth -= 1,
                b',' | b':' if depth == 0 => return Some(()),
                _ if byte.is_ascii_whitespace() && depth == 0 && self.at > start => return Some(()),
                _ => {}
            }
            self.at += 1;
            if depth == 0 && !in_text && matches!(byte, b'"' | b'}' | b']') && !escaped {
                return Some(());
            }
        }
    }
}

#[cfg(test)]
#[path = "../../tests/unit/reading/place.rs"]
mod tests;
