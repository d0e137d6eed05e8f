//! Sentences as data: words with places for figures, which are put in where the sentence is shown.

use core::fmt;

use crate::quantity::{Kind, in_words, show};

/// A figure of a sentence.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Figure {
    /// A plain number, to three digits.
    Number(f64),
    /// A quantity in a unit that fits its size; the value in SI.
    Quantity(Kind, f64),
    /// A word or two.
    Word(&'static str),
}

impl fmt::Display for Figure {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Number(value) => out.write_str(&show(*value)),
            Self::Quantity(kind, value) => out.write_str(&in_words(*kind, *value)),
            Self::Word(word) => out.write_str(word),
        }
    }
}

impl Figure {
    /// Its size, to compare it with others of its slot.
    fn size(&self) -> f64 {
        match self {
            Self::Number(value) | Self::Quantity(_, value) => *value,
            Self::Word(_) => 0.0,
        }
    }
    /// Figures of one slot: one, or from the least to the most, or the most alone.
    fn range<'f>(figures: impl Iterator<Item = &'f Self> + Clone, most_alone: bool) -> String {
        let by_size = |p: &&Self, q: &&Self| p.size().total_cmp(&q.size());
        let ends = [figures.clone().min_by(by_size), figures.max_by(by_size)];
        match ends.map(|end| end.map_or_else(String::new, ToString::to_string)) {
            [least, most] if most_alone || least == most => most,
            [least, most] => format!("{least} to {most}"),
        }
    }
    /// A force, N.
    pub fn force(newtons: f64) -> Self {
        Self::Quantity(Kind::Force, newtons)
    }
}

/// Words with a place, `{}`, for each of so many figures.
#[derive(Debug, Clone, Copy)]
pub struct Words<const FIGURES: usize>(&'static str);

impl<const FIGURES: usize> Words<FIGURES> {
    /// Words in a `const`.
    ///
    /// # Panics
    /// While it is compiled, where there is not a place for every figure.
    pub const fn new(words: &'static str) -> Self {
        let signs = words.as_bytes();
        let (mut places, mut at) = (0, 1);
        while at < signs.len() {
            places += (signs[at - 1] == b'{' && signs[at] == b'}') as usize;
            at += 1;
        }
        assert!(places == FIGURES, "a place for every figure");
        Self(words)
    }
    /// The sentence of these figures.
    pub fn with(&self, figures: [Figure; FIGURES]) -> Sentence {
        Sentence {
            words: self.0,
            figures: figures.to_vec(),
        }
    }
}

/// Words with their figures.
#[derive(Debug, Clone, PartialEq)]
pub struct Sentence {
    words: &'static str,
    figures: Vec<Figure>,
}

impl Sentence {
    /// Whether another says the same, whatever its figures are; a word that differs says something else.
    pub fn says_as(&self, other: &Self) -> bool {
        let mut pairs = self.figures.iter().zip(&other.figures);
        self.words == other.words
            && pairs.all(|pair| match pair {
                (Figure::Word(one), Figure::Word(two)) => one == two,
                _ => true,
            })
    }

    /// Several that say the same in one sentence: a figure that differs is shown from its least to its most, or as its most
    /// alone after `up to`.
    pub fn over(all: &[&Self]) -> String {
        let Some(first) = all.first() else {
            return String::new();
        };
        let mut says = String::new();
        for (index, words) in first.words.split("{}").enumerate() {
            if let Some(slot) = index.checked_sub(1) {
                let figures = all.iter().filter_map(|one| one.figures.get(slot));
                says += &Figure::range(figures, says.trim_end().ends_with("up to"));
            }
            says += words;
        }
        says
    }
}

impl fmt::Display for Sentence {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut figures = self.figures.iter();
        for (index, words) in self.words.split("{}").enumerate() {
            if index > 0 {
                figures.next().map_or(Ok(()), |figure| figure.fmt(out))?;
            }
            out.write_str(words)?;
        }
        Ok(())
    }
}
