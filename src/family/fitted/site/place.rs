//! A place and what it asks of the parts that stand there: the machine's, or that of the units that stand apart.

use crate::catalog::{Common, Ingress, WaterGrade};
use crate::family::fitted::site::supply;
use crate::quantity::{Si, Temperature};
use crate::requirements::{Dirt, Mains, Task, Water};

/// Temperatures nearer than this are one: what is left of turning degrees into kelvin and back.
const SAME_K: f64 = 1e-6;

/// A place where parts stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    pub(super) coldest: Temperature,
    pub(super) hottest: Temperature,
    pub(super) dirt: Dirt,
    pub(super) water: Water,
    pub(super) explosive: bool,
}

/// All that a site asks of parts: at the machine, where units stand apart, and what it feeds them with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conditions {
    machine: Place,
    units: Place,
    mains: Option<Mains>,
}

impl Conditions {
    /// Of a job.
    pub fn of(job: &Task) -> Self {
        Self {
            machine: Place::machine(job),
            units: Place::units(job),
            mains: job.site.mains,
        }
    }
}

impl Place {
    /// Where the machine stands.
    pub fn machine(job: &Task) -> Self {
        let site = &job.site;
        Self {
            coldest: site.coldest,
            hottest: site.hottest,
            dirt: site.dirt,
            water: site.water,
            explosive: site.explosive_atmosphere,
        }
    }

    /// Where compressor, oil unit, cabinet, drive electronics and supplies stand.
    pub fn units(job: &Task) -> Self {
        let units = &job.site.units;
        Self {
            coldest: units.coldest,
            hottest: units.hottest,
            dirt: units.dirt,
            water: units.water,
            explosive: units.explosive_atmosphere,
        }
    }

    /// Where a part stands.
    pub fn of(job: &Task, common: &Common) -> Self {
        if common.apart {
            Self::units(job)
        } else {
            Self::machine(job)
        }
    }

    /// Whether it asks less than another in anything.
    pub(super) fn is_milder_than(&self, other: &Self) -> bool {
        let (own, others) = (self.ingress(), other.ingress());
        own.solids < others.solids
            || own.water < others.water
            || self.coldest.si() > other.coldest.si() + SAME_K
            || self.hottest.si() < other.hottest.si() - SAME_K
            || other.explosive && !self.explosive
    }

    /// What it asks of an enclosure (IEC 60529).
    pub fn ingress(&self) -> Ingress {
        let (solids, water) = match self.water {
            Water::Dry => (2, 0),
            Water::Splash => (5, 4),
            Water::Washdown => (6, 5),
        };
        let dirt = match self.dirt {
            Dirt::Clean => 0,
            Dirt::Dusty => 5,
            Dirt::Gritty => 6,
        };
        Ingress {
            solids: dirt.max(solids),
            water,
        }
    }

    /// What it asks of open mechanics.
    pub fn grade(&self) -> WaterGrade {
        match self.water {
            Water::Dry => WaterGrade::Dry,
            Water::Splash => WaterGrade::Splash,
            Water::Washdown => WaterGrade::Washdown,
        }
    }

    /// By how many steps a part falls short of the dirt and water: an enclosure by its code, open mechanics by the water they
    /// stand; dirt only wears those.
    pub(super) fn short_of(&self, common: &Common) -> u8 {
        if let Some(has) = common.ingress {
            let asked = self.ingress();
            return asked.solids.saturating_sub(has.solids) + asked.water.saturating_sub(has.water);
        }
        let stands = common.stands_water.unwrap_or(WaterGrade::Dry);
        (self.grade() as u8).saturating_sub(stands as u8)
    }

    /// By how many degrees it is outside a range.
    pub(super) fn degrees_outside(&self, coldest: Temperature, hottest: Temperature) -> f64 {
        let below = coldest.si() - self.coldest.si();
        let above = self.hottest.si() - hottest.si();
        let outside = below.max(above);
        if outside <= SAME_K { 0.0 } else { outside }
    }
}

/// By how many degrees a part, or what of it stands apart, is taken outside its range.
pub(super) fn degrees_outside(job: &Task, common: &Common) -> f64 {
    let own = Place::of(job, common).degrees_outside(common.coldest, common.hottest);
    own.max(apart_degrees_outside(job, common))
}

/// By how many degrees what of a part stands apart is taken outside its range.
pub(super) fn apart_degrees_outside(job: &Task, common: &Common) -> f64 {
    let (coldest, hottest) = apart_range(common);
    if has_apart(common) {
        Place::units(job).degrees_outside(coldest, hottest)
    } else {
        0.0
    }
}

/// Coldest and hottest of what of a part stands apart.
pub(super) fn apart_range(common: &Common) -> (Temperature, Temperature) {
    (
        common.apart_coldest.unwrap_or(common.coldest),
        common.apart_hottest.unwrap_or(common.hottest),
    )
}

/// Whether something of a part stands apart, as the drive of a motor does.
pub(super) fn has_apart(common: &Common) -> bool {
    common.apart_coldest.is_some() || common.apart_hottest.is_some()
}

/// Whether a part may work in the atmosphere where it stands, and what of it stands apart in that of the units.
pub(super) fn is_safe(job: &Task, common: &Common) -> bool {
    let explosive =
        Place::of(job, common).explosive || has_apart(common) && Place::units(job).explosive;
    common.explosive_atmosphere || !explosive
}

/// Whether a part withstands its place, its dirt and water aside, and the site feeds it.
pub(super) fn works(job: &Task, common: &Common) -> bool {
    degrees_outside(job, common) <= 0.0
        && is_safe(job, common)
        && supply::feeds(job.site.mains.as_ref(), common)
}
