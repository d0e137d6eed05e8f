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
