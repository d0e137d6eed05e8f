//! Sound files at the ends of what is allowed: fields, rules and wants set to the ends of their ranges, and long lists of points.

use counterpoise::quantity::{Kind, SMALLEST};
use counterpoise::requirements::{CRITERIA, FIELDS, Field, FieldRange, Holds, Measure, On, RULES};
use proptest::prelude::*;
use proptest::sample::{Index, select};

/// A change as `--set` makes it.
pub type Set = (String, String);

/// Where in its range a number lies.
#[derive(Debug, Clone, Copy)]
pub enum Where {
    /// At its lower end, or as near above it as a number can be.
    Least,
    /// A little above nothing.
    Tiny,
    /// At its upper end.
    Most,
    /// Between, even over the logarithm.
    Between(f64),
}

fn place() -> impl Strategy<Value = Where> {
    prop_oneof![
        2 => Just(Where::Least),
        1 => Just(Where::Tiny),
        2 => Just(Where::Most),
        4 => (0.0..1.0).prop_map(Where::Between),
    ]
}

/// A number and its unit, as a range of the table spells them.
fn parts(text: &str) -> (f64, &str) {
    let end = text
        .char_indices()
        .find(|(at, sign)| {
            !(sign.is_ascii_digit()
                || "+-.".contains(*sign)
                || *sign == 'e' && text[at + 1..].starts_with(|next: char| next.is_ascii_digit()))
        })
        .map_or(text.len(), |(at, _)| at);
    (
        text[..end].parse().expect("a range starts with a number"),
        text[end..].trim(),
    )
}

/// Several powers of ten lie between nothing and one; this many are tried.
const DECADES: f64 = 15.0;

fn number(least: f64, most: f64, at: Where, open: bool) -> f64 {
    match at {
        Where::Least if open => least + SMALLEST,
        Where::Least => least,
        Where::Tiny => (least.max(0.0) + SMALLEST).min(most),
        Where::Most => most,
        Where::Between(part) if least > 0.0 => least * (most / least).powf(part),
        Where::Between(part) if least < 0.0 && part < 0.5 => {
            least * 10_f64.powf(-DECADES * part * 2.0)
        }
        Where::Between(part) => most * 10_f64.powf(-DECADES * part),
    }
}

fn set(field: &Field, at: Where) -> Option<Set> {
    let (least, most, open) = match field.range {
        FieldRange::Any => return None,
        FieldRange::Within(least, most) => (least, most, false),
        FieldRange::Above(least, most) => (least, most, true),
    };
    let ((low, unit), (high, last)) = (parts(least), parts(most));
    // A range in two units runs from the smaller to the larger one in whole numbers of the first.
    let value = if unit == last {
        format!("{:e} {unit}", number(low, high, at, open))
    } else if matches!(at, Where::Most) {
        most.to_owned()
    } else {
        format!("{:e} {unit}", number(low, low * 1e6, at, open))
    };
    let path = field.path.replace("[]", "[0]");
    (!path.contains('*')).then(|| (path, value.trim().to_owned()))
}

/// A change of one field to some place in its range.
fn field() -> impl Strategy<Value = Option<Set>> {
    let ranged: Vec<Field> = FIELDS
        .iter()
        .filter(|field| {
            field.on != On::Hinge && field.range != FieldRange::Any && !field.path.contains('*')
        })
        .copied()
        .collect();
    (any::<Index>(), place()).prop_map(move |(index, at)| set(index.get(&ranged), at))
}

/// A change of one field to one of its words.
fn word() -> impl Strategy<Value = Option<Set>> {
    let mut words = Vec::new();
    for field in FIELDS.iter().filter(|field| {
        field.on != On::Hinge && field.path != "motion.kind" && !field.path.contains('*')
    }) {
        match field.holds {
            Holds::Choice(choices) => {
                words.extend(choices.iter().map(|choice| (field.path, *choice)));
            }
            Holds::Flag if field.path != "unfinished" => {
                words.extend([(field.path, "true"), (field.path, "false")]);
            }
            _ => {}
        }
    }
    select(words).prop_map(|(path, word)| Some((path.to_owned(), word.to_owned())))
}

/// A change of one rule within its range.
fn rule() -> impl Strategy<Value = Option<Set>> {
    (select(RULES), place()).prop_map(|(rule, at)| {
        let value = number(rule.least, rule.most, at, false);
        Some((format!("rules.{}", rule.key), format!("{value:e}")))
    })
}

/// A goal whose must is hard, soft or absurd, and whose worth is anything.
fn goal() -> impl Strategy<Value = Option<Set>> {
    (select(CRITERIA), place(), place(), place()).prop_map(|(row, limit, target, worth)| {
        let (least, most, unit) = match row.measure {
            Measure::Quantity(Kind::Time) => (1e-3, 3.6e6, " s"),
            Measure::Quantity(Kind::Length) => (0.0, 1e12, " m"),
            Measure::Quantity(Kind::Mass) => (0.0, 1e12, " kg"),
            Measure::Quantity(Kind::Noise) => (0.0, 200.0, " dB"),
            Measure::Quantity(Kind::Energy) => (0.0, 1e12, " J"),
            Measure::Quantity(_) => (0.0, 1e12, " N"),
            Measure::Number => (0.0, 1e12, ""),
        };
        let most = if row.name() == "life" { 100.0 } else { most };
        let mark = if unit.is_empty() { "" } else { "\"" };
        let (p, q) = (
            number(least, most, limit, false),
            number(least, most, target, false),
        );
        let (limit, target) = if row.more_is_better {
            (p.min(q), p.max(q))
        } else {
            (p.max(q), p.min(q))
        };
        let reward = format!(
            r#", "target": {mark}{target:e}{unit}{mark}, "worth": {:e}"#,
            number(0.0, 1e9, worth, false)
        );
        let reward = if row.rewardable && target.total_cmp(&limit).is_ne() {
            reward
        } else {
            String::new()
        };
        Some((
            row.path.to_owned(),
            format!(r#"{{ "limit": {mark}{limit:e}{unit}{mark}{reward} }}"#),
        ))
    })
}

/// Process forces at many points, some of them jumps.
fn process() -> impl Strategy<Value = Option<Set>> {
    let count = prop_oneof![4 => 1_u32..6, 1 => 100_u32..1500];
    (count, place(), place(), any::<bool>()).prop_map(|(count, span, size, jump)| {
        let span = number(1e-4, 100.0, span, false);
        let points: Vec<String> = (0..count)
            .map(|index| {
                let at = span * f64::from(if jump { index / 2 * 2 } else { index }) / f64::from(count);
                let force = number(-1e8, 1e8, size, false) * f64::from(index % 7) / 7.0;
                format!(r#"{{ "at": "{at:e} m", "out": "{force:e} N", "back": "{:e} N", "hold": "{:e} N" }}"#, -force, force / 2.0)
            })
            .collect();
        Some(("motion.process".to_owned(), format!("[{}]", points.join(","))))
    })
}

/// Some changes, at least one, each within its own range; together they need not be sound.
pub fn sets() -> impl Strategy<Value = Vec<Set>> {
    let one = prop_oneof![6 => field(), 2 => word(), 2 => rule(), 3 => goal(), 1 => process()];
    prop::collection::vec(one, 1..5).prop_map(|sets| sets.into_iter().flatten().collect())
}
