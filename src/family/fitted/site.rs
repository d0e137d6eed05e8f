//! The site: whether every part bears its temperature, dirt, water and atmosphere.

use std::collections::BTreeMap;
use std::sync::{Mutex, MutexGuard, PoisonError};

use crate::catalog::{Catalog, Common, Cover, Ingress};
use crate::family::choose::Bought;
use crate::family::{Ask, Check, Drive, PartLine};
use crate::quantity::{Length, Si, metres, show};
use crate::requirements::{Dirt, Task, Water};

/// What the site asks of every enclosure (IEC 60529).
pub fn ingress_asked(job: &Task) -> Ingress {
    let (solids, water) = match job.site.water {
        Water::Dry => (2, 0),
        Water::Splash => (5, 4),
        Water::Washdown => (6, 5),
    };
    let dirt = match job.site.dirt {
        Dirt::Clean => 0,
        Dirt::Dusty => 5,
        Dirt::Gritty => 6,
    };
    Ingress {
        solids: dirt.max(solids),
        water,
    }
}

/// How many steps of solids and water a protection falls short of the asked one.
fn short_of(has: Ingress, asked: Ingress) -> u8 {
    asked.solids.saturating_sub(has.solids) + asked.water.saturating_sub(has.water)
}

/// By how many degrees a part is taken outside its range.
fn degrees_outside(job: &Task, common: &Common) -> f64 {
    let below = common.coldest.si() - job.site.coldest.si();
    let above = job.site.hottest.si() - common.hottest.si();
    below.max(above)
}

/// Whether a part bears the site without a cover.
pub fn suits(job: &Task, common: &Common) -> bool {
    short_of(common.ingress, ingress_asked(job)) == 0
        && degrees_outside(job, common) <= 0.0
        && (common.explosive_atmosphere || !job.site.explosive_atmosphere)
}

/// The parts of some lines that do not bear the site without a cover, by id: with such a part a drive is compared with no
/// other.
pub(in crate::family) fn unsuited<'l, 'a: 'l>(
    job: &Task,
    lines: impl IntoIterator<Item = &'l PartLine<'a>>,
) -> Vec<&'a str> {
    let unsuited = |line: &&PartLine| !suits(job, line.common);
    let lines = lines.into_iter().filter(unsuited);
    lines.map(|line| line.common.id.as_str()).collect()
}

/// A catalog without the parts that do not bear the site where others of their kind and sort do: a cheap one that does not
/// would else stand before one that does. None where every part bears it.
pub fn suiting(job: &Task, catalog: &Catalog) -> Option<Catalog> {
    let bears = |common: &Common, covered: bool| {
        let tight = covered || short_of(common.ingress, ingress_asked(job)) == 0;
        tight
            && degrees_outside(job, common) <= 0.0
            && (common.explosive_atmosphere || !job.site.explosive_atmosphere)
    };
    let all = catalog.commons().all(|(_, common)| bears(common, false));
    (!all).then(|| catalog.suiting(bears))
}

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

/// Whether every part of a fitted drive bears the site: whether [`check`] will pass.
pub(in crate::family) fn bears(ask: &Ask<'_>, drive: &Drive<'_>, covers: &Covers<'_>) -> bool {
    let asked = ingress_asked(ask.job);
    let mut lines = drive.parts.iter().chain(&ask.assist.parts);
    lines.all(|line| {
        degrees_outside(ask.job, line.common) <= 0.0
            && (line.common.explosive_atmosphere || !ask.job.site.explosive_atmosphere)
            && (short_of(line.common.ingress, asked) == 0 || covers.over(line))
    })
}

impl Covers<'_> {
    fn over(&self, line: &PartLine<'_>) -> bool {
        self.covered.contains(&line.common.id.as_str())
    }
}

/// Adds one check of the site each, and what must be said of the covers.
pub(in crate::family) fn check<'a>(ask: &Ask<'a>, drive: &mut Drive<'a>, covers: &Covers<'a>) {
    if covers.longer_m > 0.0 {
        drive.remarks.push(format!(
            "Bellows over the screw lie folded in {} mm at its ends: it is longer by that.",
            show(covers.longer_m * 1000.0)
        ));
    }
    let lines = || drive.parts.iter().chain(&ask.assist.parts);
    let mut list = vec![
        temperature(ask.job, lines()),
        ingress(ask.job, lines(), covers),
    ];
    if ask.job.site.explosive_atmosphere {
        list.push(explosive(lines()));
    }
    drive.checks.extend(list);
}

/// Adds bellows over the screws and rails that the site asks them for.
pub(in crate::family) fn add_covers<'a>(ask: &Ask<'a>, drive: &mut Drive<'a>) -> Covers<'a> {
    let asked = ingress_asked(ask.job);
    let (mut covered, mut covers) = (Vec::new(), Vec::new());
    let mut longer_m = 0.0_f64;
    for line in &drive.parts {
        // The cut piece is the screw or rail itself; nuts and carriages run under the same bellows.
        if line.length_m.is_none() || short_of(line.common.ingress, asked) == 0 {
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
            longer_m = longer_m.max(bellows_m(ask, line.common, Some(size)));
        }
        covered.push(line.common.id.as_str());
    }
    drive.closed_length_m += longer_m;
    drive.parts.extend(covers);
    Covers { covered, longer_m }
}

/// Length that the bellows over a part lie folded in, both ends together; 0 where none is needed or helps.
pub fn bellows_m(ask: &Ask<'_>, common: &Common, size: Option<Length>) -> f64 {
    if short_of(common.ingress, ingress_asked(ask.job)) == 0 {
        return 0.0;
    }
    let travel_m = ask.travel_m();
    size.and_then(|size| cheapest_cover(ask, size))
        .map_or(0.0, |cover| 2.0 * cover.closed_ratio * travel_m)
}

/// What the two bellows over a part cost to buy, to fit and to keep; nothing where none is needed or helps.
pub(in crate::family) fn bellows_bought(
    ask: &Ask<'_>,
    common: &Common,
    size: Option<Length>,
) -> Bought {
    if short_of(common.ingress, ingress_asked(ask.job)) == 0 {
        return Bought::default();
    }
    let cover = size.and_then(|size| cheapest_cover(ask, size));
    cover.map_or_else(Bought::default, |cover| {
        Bought::line(&bellows(ask, cover)).times(2)
    })
}

/// A bellows over the travel.
fn bellows<'a>(ask: &Ask<'_>, cover: &'a Cover) -> PartLine<'a> {
    let (price, mass) = (cover.price_per_metre, cover.mass_per_length.si());
    PartLine::cut("covers", &cover.common, ask.travel_m(), price, mass)
}

/// Whether a part bears the site, as it is or under bellows.
pub(in crate::family) fn suits_covered(
    ask: &Ask<'_>,
    common: &Common,
    size: Option<Length>,
) -> bool {
    let under = || size.is_some_and(|size| cheapest_cover(ask, size).is_some());
    degrees_outside(ask.job, common) <= 0.0
        && (common.explosive_atmosphere || !ask.job.site.explosive_atmosphere)
        && (short_of(common.ingress, ingress_asked(ask.job)) == 0 || under())
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

/// The line for which a measure is greatest, the first of equals.
fn worst<'p, 'a: 'p>(
    lines: impl Iterator<Item = &'p PartLine<'a>>,
    measure: impl Fn(&PartLine<'a>) -> f64,
) -> Option<(&'p PartLine<'a>, f64)> {
    let mut found: Option<(&PartLine, f64)> = None;
    for line in lines {
        let here = measure(line);
        if found.is_none_or(|(_, most)| here > most) {
            found = Some((line, here));
        }
    }
    found
}

fn temperature<'p, 'a: 'p>(job: &Task, lines: impl Iterator<Item = &'p PartLine<'a>>) -> Check {
    let found = worst(lines, |line| degrees_outside(job, line.common));
    let passes = found.is_none_or(|(_, outside)| outside <= 0.0);
    let says = found.map_or_else(String::new, |(line, _)| {
        format!(
            "{} works from {} to {} °C; the place is {} to {} °C",
            line.common.name,
            show(line.common.coldest.celsius()),
            show(line.common.hottest.celsius()),
            show(job.site.coldest.celsius()),
            show(job.site.hottest.celsius())
        )
    });
    Check::of("site.temperature", passes, says)
        .from("range of every part holds that of the place", "catalog")
}

fn ingress<'p, 'a: 'p>(
    job: &Task,
    lines: impl Iterator<Item = &'p PartLine<'a>>,
    covers: &Covers<'_>,
) -> Check {
    let asked = ingress_asked(job);
    let found = worst(lines, |line| {
        if covers.over(line) {
            0.0
        } else {
            f64::from(short_of(line.common.ingress, asked))
        }
    });
    let passes = found.is_none_or(|(_, short)| short <= 0.0);
    let says = match found {
        Some((line, _)) if !passes => format!(
            "the place asks for {asked}; {} gives {}",
            line.common.name, line.common.ingress
        ),
        _ if covers.covered.is_empty() => {
            format!("the place asks for {asked}; every part gives it")
        }
        _ => format!("the place asks for {asked}; every part gives it, some under bellows"),
    };
    Check::of("site.ingress", passes, says).from(
        "dry IP20, splash IP54, washdown IP65, dusty IP5x, gritty IP6x",
        "codes IEC 60529; which place asks which, common practice, no source",
    )
}

fn explosive<'p, 'a: 'p>(lines: impl Iterator<Item = &'p PartLine<'a>>) -> Check {
    let found = worst(lines, |line| {
        f64::from(u8::from(!line.common.explosive_atmosphere))
    });
    let passes = found.is_none_or(|(_, unfit)| unfit <= 0.0);
    let says = match found {
        Some((line, _)) if !passes => format!(
            "the atmosphere may explode; {} may not work in it",
            line.common.name
        ),
        _ => "every part may work where the atmosphere may explode".into(),
    };
    Check::of("site.explosive", passes, says).from(
        "every part may work in the atmosphere of the place",
        "catalog; zones and marking ISO 80079-36 and IEC 60079-0",
    )
}
