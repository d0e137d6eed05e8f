//! What drives need of the site and of the job.

use super::Family;
use crate::requirements::{Stops, Task};

/// Something that a drive needs of the site or of the job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Need {
    /// Compressed air laid on.
    Air,
    /// No air laid on: a drive brings a compressor only where there is none.
    NoAir,
    /// Electricity.
    Mains,
    /// Somebody to crank.
    Hand,
    /// A place that tolerates oil.
    Oil,
    /// A job without stops anywhere: it stops at its ends, or coarsely between them.
    EndStops,
}

/// A kind of part that an option brings along in place of something that its family needs.
struct Substitute {
    part_kind: &'static str,
    replaces: Need,
    needs: &'static [Need],
}

const SUBSTITUTES: &[Substitute] = &[Substitute {
    part_kind: "compressors",
    replaces: Need::Air,
    needs: &[Need::NoAir, Need::Mains],
}];

impl Need {
    /// Whether a job meets it.
    pub fn is_met(self, job: &Task) -> bool {
        let site = &job.site;
        match self {
            Self::Air => site.air.is_some(),
            Self::NoAir => site.air.is_none(),
            Self::Mains => site.mains.is_some(),
            Self::Hand => site.hand.is_some(),
            Self::Oil => site.oil_tolerated,
            Self::EndStops => job.stops != Stops::Anywhere,
        }
    }
}

/// What an option of a family needs, with the kinds of its parts: a compressor among them stands in for air laid on.
pub fn option_needs(family: &dyn Family, part_kinds: &[&str]) -> Vec<Need> {
    let resolve = |need: &Need| {
        let brought = SUBSTITUTES
            .iter()
            .find(|part| part.replaces == *need && part_kinds.contains(&part.part_kind));
        brought.map_or_else(|| vec![*need], |part| part.needs.to_vec())
    };
    family.needs().iter().flat_map(resolve).collect()
}

/// Whether any option of a family may need something, whatever it brings along.
pub fn may_need(family: &dyn Family, need: Need) -> bool {
    family.needs().iter().any(|own| {
        let mut substitutes = SUBSTITUTES.iter().filter(|part| part.replaces == *own);
        *own == need || substitutes.any(|part| part.needs.contains(&need))
    })
}
