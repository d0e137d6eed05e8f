//! Series of parts: what a larger one bears is not less.
//!
//! Parts of one kind are a series where their ids differ in nothing but numbers and their key figures are the same,
//! such as `rope-3` and `rope-4`, or ball screws of one lead. Which figure they grow by, which must not fall and which
//! are the key is stated for each kind in [`Sound::series`](super::Sound::series).

use std::collections::BTreeMap;

use super::{Catalog, PartSeries};
use crate::problem::Problem;
use crate::reading::Sink;

/// A larger part may bear this much less: figures are rounded.
const ROUNDING: f64 = 1e-3;

/// What makes parts one series: kind, id without numbers, key figures.
type SeriesKey<'a> = (&'a str, String, Vec<u64>);

/// Adds a fault for every rating that falls as the size grows; `places` says where each id stands.
pub(super) fn check(catalog: &Catalog, places: &BTreeMap<String, String>, sink: &Sink) {
    let mut all: BTreeMap<SeriesKey, Vec<(&str, PartSeries)>> = BTreeMap::new();
    for (kind, id, series) in catalog.series() {
        let key = series.key.iter().map(|figure| figure.to_bits()).collect();
        all.entry((kind, without_numbers(id), key))
            .or_default()
            .push((id, series));
    }
    for parts in all.values_mut() {
        parts.sort_by(|(_, a), (_, b)| a.size.si.total_cmp(&b.size.si));
        falling(parts, places, sink);
    }
}

/// Faults of one series, sorted by size.
fn falling(parts: &[(&str, PartSeries)], places: &BTreeMap<String, String>, sink: &Sink) {
    let ratings = parts.first().map_or(0, |(_, series)| series.ratings.len());
    for index in 0..ratings {
        // The strongest of those that are smaller, and of those as large as the part in hand.
        let mut strongest: Option<(&str, &PartSeries, f64)> = None;
        let mut equals: Option<(&str, &PartSeries, f64)> = None;
        for (id, series) in parts {
            let Some(rating) = series.ratings.get(index) else {
                continue;
            };
            if let Some((_, equal, most)) = equals
                && equal.size.si < series.size.si
            {
                if strongest.is_none_or(|(_, _, before)| before < most) {
                    strongest = equals;
                }
                equals = None;
            }
            if let Some((smaller, than, most)) =
                strongest.filter(|(_, _, most)| rating.si < most * (1.0 - ROUNDING))
            {
                let place = places.get(*id).map_or(*id, String::as_str);
                let message = format!(
                    "is {}, below the {} of {smaller}, which is smaller ({} {} against {})",
                    rating.words(),
                    super::PartFigure {
                        si: most,
                        ..*rating
                    }
                    .words(),
                    series.size.field,
                    than.size.words(),
                    series.size.words(),
                );
                let fault = Problem::at(format!("{place}.{}", rating.field), message);
                sink.add(fault.hint(
                    "a larger part of a series carries as much; where they are of different makes, let their ids differ in a word",
                ));
            }
            if equals.is_none_or(|(_, _, before)| before < rating.si) {
                equals = Some((id, series, rating.si));
            }
        }
    }
}

/// An id with a sign for each number in it.
fn without_numbers(id: &str) -> String {
    let mut text = String::new();
    let mut signs = id.chars().peekable();
    while let Some(sign) = signs.next() {
        if !sign.is_ascii_digit() {
            text.push(sign);
            continue;
        }
        text.push('#');
        // A point, or the p that stands for one, goes on only where a digit follows.
        while let Some(next) = signs.peek() {
            let goes_on = next.is_ascii_digit() || {
                let mut ahead = signs.clone();
                matches!(ahead.next(), Some('.' | 'p'))
                    && ahead.next().is_some_and(|sign| sign.is_ascii_digit())
            };
            if !goes_on {
                break;
            }
            signs.next();
        }
    }
    text
}

#[cfg(test)]
#[path = "../../tests/unit/catalog/series.rs"]
mod tests;
