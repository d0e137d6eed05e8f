//! Bellows over screws and rails: where water asks for them, and where their life pays for them.

use std::collections::BTreeMap;
use std::sync::{Mutex, MutexGuard, PoisonError};

use super::place::works;
use super::{Place, life_left, suits};
use crate::catalog::{Common, Cover};
use crate::family::choose::Bought;
use crate::family::{Ask, Drive, PartLine};
use crate::quantity::{Length, Si, metres, show};

/// Kinds of parts that guide a load.
const GUIDES: [&str; 3] = ["guides", "shaft_guides", "slideways"];

/// What lies under bellows.
#[derive(Debug)]
pub(in crate::family) struct Covers<'a> {
    /// Parts, by id.
    covered: Vec<&'a str>,
    /// Length of screw that the folded bellows take.
    longer_m: f64,
}

impl Covers<'_> {
    pub(super) fn over(&self, line: &PartLine<'_>) -> bool {
        self.covered.contains(&line.common.id.as_str())
    }

    pub(super) fn any(&self) -> bool {
        !self.covered.is_empty()
    }

    /// What must be said of them.
    pub(super) fn remark(&self) -> Option<String> {
        (self.longer_m > 0.0).then(|| {
            format!(
                "Bellows over the screw lie folded in {} mm at its ends: it is longer by that.",
                show(self.longer_m * 1000.0)
            )
        })
    }
}

/// Whether the water of the place asks for a cover over a part.
fn is_needed(ask: &Ask<'_>, common: &Common) -> bool {
    Place::of(ask.job, common).short_of(common) > 0
}

/// Whether to put a part that a cover of some size goes over under bellows: yes where its place asks for them, both ways where
/// grit would shorten its life without.
pub(in crate::family) fn cover_choices(
    ask: &Ask<'_>,
    common: &Common,
    size: Option<Length>,
) -> &'static [bool] {
    let has_cover = || size.is_some_and(|size| cheapest_cover(ask, size).is_some());
    if is_needed(ask, common) && has_cover() {
        &[true]
    } else if life_left(ask.job, common, false) < 1.0 && has_cover() {
        &[false, true]
    } else {
        &[false]
    }
}

/// Adds bellows over the screws and rails that the site asks them for, and those that the drive's life pays for.
pub(in crate::family) fn add_covers<'a>(ask: &Ask<'a>, drive: &mut Drive<'a>) -> Covers<'a> {
    let (mut covered, mut covers) = (Vec::new(), Vec::new());
    let mut longer_m = 0.0_f64;
    for line in &drive.parts {
        let id = line.common.id.as_str();
        // The cut piece is the screw or rail itself; nuts and carriages run under the same bellows.
        if line.length_m.is_none() || !(is_needed(ask, line.common) || drive.covered.contains(&id))
        {
            continue;
        }
        let Some(size) = covered_size(ask, line) else {
            continue;
        };
        let Some(cover) = cheapest_cover(ask, size) else {
            continue;
        };
        // One on either side of the nut or carriages.
        covers.push(PartLine {
            quantity: 2 * line.quantity,
            ..bellows(ask, cover)
        });
        // Bellows over a screw lengthen the drive; a guide is cut longer for its own.
        if !GUIDES.contains(&line.kind) {
            longer_m = longer_m.max(bellows_m(ask, true, Some(size)));
        }
        covered.push(id);
    }
    drive.closed_length_m += longer_m;
    drive.parts.extend(covers);
    Covers { covered, longer_m }
}

/// Length that the bellows over a part lie folded in, both ends together; 0 where it is bare.
pub(in crate::family) fn bellows_m(ask: &Ask<'_>, covered: bool, size: Option<Length>) -> f64 {
    let travel_m = ask.travel_m();
    size.filter(|_| covered)
        .and_then(|size| cheapest_cover(ask, size))
        .map_or(0.0, |cover| 2.0 * cover.closed_ratio * travel_m)
}

/// The two bellows over a part; none where it is bare.
pub(in crate::family) fn bellows_line<'a>(
    ask: &Ask<'a>,
    covered: bool,
    size: Option<Length>,
) -> Option<PartLine<'a>> {
    let cover = cheapest_cover(ask, size.filter(|_| covered)?)?;
    Some(PartLine {
        quantity: 2,
        ..bellows(ask, cover)
    })
}

/// A bellows over the travel.
fn bellows<'a>(ask: &Ask<'_>, cover: &'a Cover) -> PartLine<'a> {
    let (price, mass) = (cover.price_per_metre, cover.mass_per_length);
    PartLine::cut(cover, ask.travel_m(), price, mass)
}

/// Whether a part withstands the site, as it is or under bellows.
pub(in crate::family) fn suits_covered(
    ask: &Ask<'_>,
    common: &Common,
    size: Option<Length>,
) -> bool {
    let under = || size.is_some_and(|size| cheapest_cover(ask, size).is_some());
    works(ask.job, common) && (!is_needed(ask, common) || under())
}

/// What is known of bellows: of each size the place of the cheapest cover over it, of each part, by kind and id, the size
/// that a cover must go over.
#[derive(Debug, Default)]
pub struct Bellows {
    covers: Mutex<BTreeMap<u64, Option<usize>>>,
    sizes: Mutex<BTreeMap<&'static str, BTreeMap<String, Option<Length>>>>,
}

/// What is remembered is worked out again where it is asked for.
impl Clone for Bellows {
    fn clone(&self) -> Self {
        Self::default()
    }
}

/// What is remembered, whichever thread found it; one that panicked left whole entries behind.
fn lock<T>(of: &Mutex<T>) -> MutexGuard<'_, T> {
    of.lock().unwrap_or_else(PoisonError::into_inner)
}

fn covered_size(ask: &Ask<'_>, line: &PartLine<'_>) -> Option<Length> {
    let mut sizes = lock(&ask.assist.bellows.sizes);
    let sizes = sizes.entry(line.kind).or_default();
    if let Some(size) = sizes.get(&line.common.id) {
        return *size;
    }
    let size = ask.catalog.covered_size(line.kind, &line.common.id);
    sizes.insert(line.common.id.clone(), size);
    size
}

/// The cheapest cover over the horizon that goes over a size for the travel.
fn cheapest_cover<'a>(ask: &Ask<'a>, size: Length) -> Option<&'a Cover> {
    let travel_m = ask.travel_m();
    let covers = &ask.catalog.covers;
    let fits = |cover: &Cover| {
        cover.size_most >= size
            && cover.travel_most >= metres(travel_m)
            && suits(ask.job, &cover.common)
    };
    let rates = ask.life_cost();
    let cost = |cover: &Cover| rates.total(&Bought::line(&bellows(ask, cover)));
    let cheapest = || {
        let fitting = covers.iter().enumerate().filter(|(_, cover)| fits(cover));
        let cheapest = fitting.min_by(|(_, p), (_, q)| cost(p).total_cmp(&cost(q)));
        cheapest.map(|(place, _)| place)
    };
    let place = *lock(&ask.assist.bellows.covers)
        .entry(size.si().to_bits())
        .or_insert_with(cheapest);
    covers.get(place?)
}
