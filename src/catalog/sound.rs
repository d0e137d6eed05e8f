//! Whether a part's figures can be true, each by itself and together.

use super::Feed;
use crate::quantity::{Kind, Length, Si, for_people, in_words, show};
use crate::reading::{Object, Shape};

/// What is wrong with a field of a part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The field.
    pub field: &'static str,
    /// What is wrong with it.
    pub message: String,
    /// What would be sound.
    pub hint: String,
}

/// Collects the contradictions of a part.
#[derive(Debug, Default)]
pub struct Contradictions {
    faults: Vec<Fault>,
}

impl Contradictions {
    /// A fault unless it is so.
    pub fn so(
        &mut self,
        so: bool,
        field: &'static str,
        message: impl Into<String>,
        hint: impl Into<String>,
    ) {
        if !so {
            self.faults.push(Fault {
                field,
                message: message.into(),
                hint: hint.into(),
            });
        }
    }

    /// A fault as it is made only where there is one: most parts are sound, and words take longer than numbers.
    fn unless(&mut self, so: bool, field: &'static str, words: impl FnOnce() -> (String, String)) {
        if !so {
            let (message, hint) = words();
            self.so(false, field, message, hint);
        }
    }

    /// A figure must stand so to another, which the words name.
    pub fn bound<Q: Si>(
        &mut self,
        (field, value): (&'static str, Q),
        bound: Bound,
        (other, limit): (&str, Q),
    ) {
        let (so, must, write) = match bound {
            Bound::Below => (value.si() < limit.si(), "be less than", "less than"),
            Bound::Most => (value.si() <= limit.si(), "not be more than", "at most"),
            Bound::Least => (value.si() >= limit.si(), "not be less than", "at least"),
        };
        self.unless(so, field, || {
            let hint = format!("write {write} {}", for_people(limit));
            (format!("must {must} {other}"), hint)
        });
    }

    /// A plain number must lie within bounds, both included.
    pub fn within(&mut self, field: &'static str, value: f64, least: f64, most: f64) {
        self.unless((least..=most).contains(&value), field, || {
            let span = format!("{} to {}", show(least), show(most));
            (format!("must lie within {span}"), format!("write {span}"))
        });
    }

    /// A part of a whole: more than 0 and at most 1.
    pub fn share(&mut self, field: &'static str, value: f64) {
        self.so(
            value > 0.0 && value <= 1.0,
            field,
            "must be more than 0 and at most 1",
            "0.9 is 90 %",
        );
    }

    /// A whole number, not below the least.
    pub fn whole(&mut self, field: &'static str, value: f64, least: f64) {
        self.unless(value >= least && value.fract() == 0.0, field, || {
            (
                format!("must be a whole number from {}", show(least)),
                String::new(),
            )
        });
    }

    /// A word of a list.
    pub fn one_of(&mut self, field: &'static str, word: &str, known: &[&'static str]) {
        self.unless(known.contains(&word), field, || {
            let near = crate::reading::nearest(word, known);
            let hint = near.map(|near| format!("did you mean {near:?}?"));
            (
                format!("must be one of {}", known.join(", ")),
                hint.unwrap_or_default(),
            )
        });
    }
}

/// How a figure must stand to another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bound {
    /// Less than it.
    Below,
    /// At most as much.
    Most,
    /// At least as much.
    Least,
}

/// States what must be true of a part, one rule after the other; words say what is wrong, and what would be right.
///
/// - `FIELD < FIELD;` or `<=` or `>=`: how two figures stand to each other
/// - `FIELD < VALUE, WORDS;`: the same for a value that the words name
/// - `so FIELD: CONDITION, WORDS, HINT;` for what no other rule says
/// - `share FIELDS;` parts of a whole
/// - `within FIELD: LEAST, MOST;` `whole FIELD: LEAST;` `one_of FIELD: WORDS;`
macro_rules! rules {
    (@bound <) => { $crate::catalog::Bound::Below };
    (@bound <=) => { $crate::catalog::Bound::Most };
    (@bound >=) => { $crate::catalog::Bound::Least };
    ($part:ident $check:ident) => {};
    ($part:ident $check:ident share $($field:ident),+; $($rest:tt)*) => {
        $($check.share(stringify!($field), $part.$field);)+
        rules!($part $check $($rest)*);
    };
    ($part:ident $check:ident so $field:ident: $so:expr, $words:expr, $hint:expr; $($rest:tt)*) => {
        $check.so($so, stringify!($field), $words, $hint);
        rules!($part $check $($rest)*);
    };
    ($part:ident $check:ident within $field:ident: $least:expr, $most:expr; $($rest:tt)*) => {
        $check.within(stringify!($field), $part.$field, $least, $most);
        rules!($part $check $($rest)*);
    };
    ($part:ident $check:ident whole $field:ident: $least:expr; $($rest:tt)*) => {
        $check.whole(stringify!($field), $part.$field, $least);
        rules!($part $check $($rest)*);
    };
    ($part:ident $check:ident one_of $field:ident: $words:expr; $($rest:tt)*) => {
        $check.one_of(stringify!($field), &$part.$field, &$words);
        rules!($part $check $($rest)*);
    };
    ($part:ident $check:ident $field:ident $sign:tt $other:ident; $($rest:tt)*) => {
        rules!($part $check $field $sign $part.$other, stringify!($other); $($rest)*);
    };
    ($part:ident $check:ident $field:ident $sign:tt $limit:expr, $words:expr; $($rest:tt)*) => {
        $check.bound((stringify!($field), $part.$field), rules!(@bound $sign), ($words, $limit));
        rules!($part $check $($rest)*);
    };
}

/// Whether a part's figures can be true together.
pub trait Sound {
    /// States each contradiction.
    fn check(&self, _check: &mut Contradictions) {}
    /// Each contradiction.
    fn faults(&self) -> Vec<Fault> {
        let mut check = Contradictions::default();
        self.check(&mut check);
        check.faults
    }
    /// What makes it one of a series, where larger parts of its kind bear more.
    fn series(&self) -> Option<PartSeries> {
        None
    }
    /// What it does that others of its kind do not; none where all of a kind do the same.
    fn sort(&self) -> Option<&str> {
        None
    }
    /// Size that a bellows must go over to keep dirt and water from it; none where no bellows helps.
    fn covered_size(&self) -> Option<Length> {
        None
    }
    /// Whether it stands apart from the machine, where `site.units` are: a compressor, an oil unit, a cabinet, a supply.
    fn stands_apart(&self) -> bool {
        false
    }
    /// What it runs on by a voltage of its own, where it does not say more.
    fn runs_by_voltage(&self) -> Option<Feed> {
        None
    }
}

/// A figure by its field.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartFigure {
    /// The field.
    pub field: &'static str,
    /// What it measures.
    pub kind: Kind,
    /// In SI.
    pub si: f64,
}

impl PartFigure {
    /// The figure of a field.
    pub fn new<Q: Si>(field: &'static str, value: Q) -> Self {
        let (kind, si) = (Q::KIND, value.si());
        Self { field, kind, si }
    }
    /// For people.
    pub fn words(&self) -> String {
        in_words(self.kind, self.si)
    }
}

/// Where a part stands in its series: parts of a kind with the same key figures, whose ids differ only in numbers.
#[derive(Debug, Clone, PartialEq)]
pub struct PartSeries {
    /// Figures that all parts of the series share.
    pub key: Vec<f64>,
    /// What the series grows by.
    pub size: PartFigure,
    /// What must not fall as it grows.
    pub ratings: Vec<PartFigure>,
}

/// Figures that may be 0, by kind (empty for any); every other figure is more.
#[rustfmt::skip]
const MAY_BE_ZERO: &[(&str, &[&str])] = &[
    ("", &[
        "backlash", "bracket_material", "brake_power", "brake_time", "consumables",
        "critical_ratio", "drag", "fit_hours", "holding_force", "idle", "lead_error",
        "made_to_length_price", "mass", "noise", "position_error", "pressure_least",
        "price_per_metre", "pull_out", "purge", "rail_price_per_metre", "rest_power", "rod_end",
        "running_loss", "side_load_most", "speeds", "standby", "step_error", "maintenance_hours",
    ]),
    ("air_valves", &["power"]),
    ("controls", &["power_most"]),
];

/// Least plain number of a part that is not 0.
const LEAST_NUMBER: f64 = 1e-18;
/// Greatest plain number of a part.
pub(super) const MOST_NUMBER: f64 = 1e9;

/// Whether a figure of a kind may be 0.
pub(super) fn may_be_zero(kind: &str, field: &str) -> bool {
    MAY_BE_ZERO
        .iter()
        .any(|(of, names)| names.contains(&field) && (of.is_empty() || *of == kind))
}

/// Least (where it is not 0) and greatest figure of a kind that any part may have, SI: beyond them a unit is wrong or
/// arithmetic ends.
fn bounds(shape: Shape) -> Option<(f64, f64)> {
    Some(match shape {
        Shape::Text | Shape::Flag => return None,
        Shape::List(shape) => return bounds(*shape),
        Shape::Number => (LEAST_NUMBER, MOST_NUMBER),
        Shape::Quantity(kind) => match kind {
            // A seal may run ten thousand kilometres.
            Kind::Length => (1e-9, 1e9),
            Kind::Mass | Kind::Rotation => (1e-6, 1e6),
            Kind::Time => (1e-6, 1e9),
            Kind::Force => (1e-3, 1e9),
            Kind::Torque | Kind::TorquePerLength => (1e-6, 1e8),
            Kind::Inertia | Kind::InertiaPerLength => (1e-12, 1e6),
            Kind::Pressure => (1.0, 1e10),
            Kind::Flow | Kind::Angle => (1e-9, 1e3),
            Kind::Power => (1e-3, 1e8),
            Kind::Energy => (1e-6, 1e12),
            Kind::Speed => (1e-6, 1e4),
            Kind::Temperature => (1.0, 2e3),
            Kind::Voltage => (0.1, 1e6),
            Kind::Noise => (0.1, 200.0),
            Kind::MassPerLength => (1e-6, 1e5),
            Kind::Conductance => (1e-12, 1e-2),
            Kind::Volume => (1e-9, 1e4),
        },
    })
}

/// Adds a fault where a figure of a field is nothing a part may have.
pub fn hold(object: &Object, kind: &str, field: &'static str, shape: Shape, figures: &[f64]) {
    let Some((least, most)) = bounds(shape) else {
        return;
    };
    let may_be_zero = may_be_zero(kind, field);
    let words = |si: f64| match shape {
        Shape::Quantity(kind) => in_words(kind, si),
        Shape::List(Shape::Quantity(kind)) => in_words(*kind, si),
        _ => format!("{si:e}"),
    };
    for figure in figures {
        let zero = *figure == 0.0;
        let problem = if *figure < 0.0 || (zero && !may_be_zero) {
            let message = if may_be_zero {
                "must not be negative"
            } else {
                "must be more than 0"
            };
            object.problem(field, message)
        } else if zero || (least..=most).contains(figure) {
            continue;
        } else {
            let hint = format!(
                "write {} to {}; is the unit right?",
                words(least),
                words(most)
            );
            object
                .problem(field, "is outside what parts have")
                .hint(hint)
        };
        object.add(problem);
        return;
    }
}

#[cfg(test)]
#[path = "../../tests/unit/catalog/sound.rs"]
mod tests;
