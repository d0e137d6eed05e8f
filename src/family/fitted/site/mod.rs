//! The site: whether every part withstands its temperature, dirt, water and atmosphere, and runs on what the site feeds it.
//!
//! Dirt and water are kept out by the enclosures that have a code; open mechanics stand water by their material and wear
//! faster in grit. Units that stand apart (compressor, oil unit, cabinet, drive electronics, supply) are judged where they stand.

mod checks;
mod covers;
mod place;
mod supply;

pub(in crate::family) use checks::{check, withstands};
pub use covers::Bellows;
pub(in crate::family) use covers::{
    Covers, add_covers, bellows_line, bellows_m, cover_choices, suits_covered,
};
pub use place::{Conditions, Place};
pub use supply::feeds_direct;

use crate::catalog::{Catalog, Common};
use crate::family::PartLine;
use crate::requirements::{Dirt, Task};

/// Whether a part withstands the site without a cover.
pub fn suits(job: &Task, common: &Common) -> bool {
    place::works(job, common) && Place::of(job, common).short_of(common) == 0
}

/// The parts of some lines that do not withstand the site without a cover, by id: with such a part a drive is compared with no
/// other.
pub(in crate::family) fn unsuited<'l, 'a: 'l>(
    job: &Task,
    lines: impl IntoIterator<Item = &'l PartLine<'a>>,
) -> Vec<&'a str> {
    let unsuited = |line: &&PartLine| !suits(job, line.common);
    let lines = lines.into_iter().filter(unsuited);
    lines.map(|line| line.common.id.as_str()).collect()
}

/// A catalog without the parts that do not withstand the site where others of their kind and sort do: a cheap one that does
/// not would else stand before one that does. None where every part does.
pub fn suiting(job: &Task, catalog: &Catalog) -> Option<Catalog> {
    let withstands = |common: &Common, covered: bool| {
        let tight = covered || Place::of(job, common).short_of(common) == 0;
        tight && place::works(job, common)
    };
    let all = catalog
        .commons()
        .all(|(_, common)| withstands(common, false));
    (!all).then(|| catalog.suiting(withstands))
}

/// Whether the place of the units that stand apart is milder than the machine's in anything.
pub fn shelters_units(job: &Task) -> bool {
    Place::units(job).is_milder_than(&Place::machine(job))
}

/// The part of its life that dirt leaves a part: all of it to an enclosure or under bellows, less to open mechanics in grit.
pub(in crate::family) fn life_left(job: &Task, common: &Common, covered: bool) -> f64 {
    let grit = Place::of(job, common).dirt == Dirt::Gritty;
    if !grit || covered || common.ingress.is_some() {
        return 1.0;
    }
    common.grit_life.unwrap_or(job.rules.grit_life)
}
