//! What a part says of the place it stands: its enclosure, or the water that open mechanics stand; and what it runs on.

use core::fmt;

use crate::problem::Problem;
use crate::quantity::{Current, show};
use crate::reading::{FromTree, Shape, Tree};

/// Degree of protection against solids and water (IEC 60529).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ingress {
    /// First digit, 0 to 6.
    pub solids: u8,
    /// Second digit, 0 to 9.
    pub water: u8,
}

impl FromTree for Ingress {
    const SHAPE: Shape = Shape::Text;
    fn from_tree(tree: &Tree) -> Result<Self, Problem> {
        let text = String::from_tree(tree)?;
        let digits = text.strip_prefix("IP").map(str::as_bytes);
        match digits {
            Some(&[solids @ b'0'..=b'6', water @ b'0'..=b'9']) => Ok(Self {
                solids: solids - b'0',
                water: water - b'0',
            }),
            _ => Err(Problem::at("", "is not an ingress code")
                .hint("write two digits, such as \"IP54\" (IEC 60529)")),
        }
    }
}

impl fmt::Display for Ingress {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "IP{}{}", self.solids, self.water)
    }
}

/// Water that open mechanics stand, from the least.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum WaterGrade {
    /// None: bare steel, or balls that water would rust.
    Dry,
    /// Drops and rain: painted or greased.
    Splash,
    /// A hose: stainless, galvanised or plastic.
    Washdown,
}

impl WaterGrade {
    /// Every grade, as a file has it.
    pub const WORDS: [&str; 3] = ["dry", "splash", "washdown"];
}

impl FromTree for WaterGrade {
    const SHAPE: Shape = Shape::Text;
    fn from_tree(tree: &Tree) -> Result<Self, Problem> {
        match String::from_tree(tree)?.as_str() {
            "dry" => Ok(Self::Dry),
            "splash" => Ok(Self::Splash),
            "washdown" => Ok(Self::Washdown),
            _ => Err(Problem::at("", "is not dry, splash or washdown")
                .hint("write the water that its material or coating stands")),
        }
    }
}

/// Electricity that a part runs on: a span of voltages of one current.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Feed {
    /// Least nominal voltage, V.
    pub least_v: f64,
    /// Greatest nominal voltage, V.
    pub most_v: f64,
    /// Alternating or direct.
    pub current: Current,
    /// 1 or 3.
    pub phases: u8,
}

impl Feed {
    /// Reads `24 V dc`, `200-240 V ac`, `380-480 V ac 3~`.
    fn read(text: &str) -> Option<Self> {
        let (volts, kind) = text.split_once(" V ")?;
        let (least, most) = volts.split_once('-').unwrap_or((volts, volts));
        let number = |text: &str| {
            let plain = text
                .bytes()
                .all(|sign| sign.is_ascii_digit() || sign == b'.');
            text.parse::<f64>()
                .ok()
                .filter(|value| plain && *value > 0.0)
        };
        let (current, phases) = match kind {
            "dc" => (Current::Dc, 1),
            "ac" => (Current::Ac, 1),
            "ac 3~" => (Current::Ac, 3),
            _ => return None,
        };
        let (least_v, most_v) = (number(least)?, number(most)?);
        let feed = Self {
            least_v,
            most_v,
            current,
            phases,
        };
        (least_v <= most_v && most_v <= MOST_V).then_some(feed)
    }
}

/// No part of a workshop runs on more, V.
const MOST_V: f64 = 1e6;

impl FromTree for Feed {
    const SHAPE: Shape = Shape::Text;
    fn from_tree(tree: &Tree) -> Result<Self, Problem> {
        let text = String::from_tree(tree)?;
        Self::read(&text).ok_or_else(|| {
            Problem::at("", "is not electricity that a part runs on").hint(
                "write \"24 V dc\", \"200-240 V ac\" or, of three phases, \"380-480 V ac 3~\"",
            )
        })
    }
}

impl fmt::Display for Feed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.least_v < self.most_v {
            write!(f, "{} to ", show(self.least_v))?;
        }
        write!(f, "{} V {}", show(self.most_v), self.current.words())?;
        if self.phases > 1 {
            write!(f, ", {} phases", self.phases)?;
        }
        Ok(())
    }
}
