//! What can hurt somebody by where the machine stands, and by what drives it: electricity, heat, noise, vessels.

use crate::family::hazard::{
    COLD_PLACE, Caution, ELECTRIC, EXPLOSIVE, HOT_PLACE, NOISE, STANDS_FREE, VESSEL, WASHED, WET,
};
use crate::family::{Ask, Drive, Figure};
use crate::quantity::{Kind, Si};
use crate::requirements::Water;

/// Voltage below which a touch is not deadly: extra-low voltage (IEC 61140, protection against electric shock), V.
const TOUCHED_V: f64 = 50.0;
/// Level from which hearing is protected, dB(A): common practice, and law in many places.
const LOUD_DB: f64 = 80.0;
/// Temperature past which bare metal burns a hand that touches it (ISO 13732, hot surfaces, from memory), K.
const BURNS_K: f64 = 328.15;

/// Where water freezes, K.
const FREEZES_K: f64 = 273.15;

/// The cautions; the level of the drive's noise is in dB(A).
pub(super) fn cautions(ask: &Ask<'_>, drive: &Drive, noise_db: f64) -> Vec<Caution> {
    let site = &ask.job.site;
    let mut list = Vec::new();
    if ask.job.base.is_some_and(|base| !base.bolted) {
        list.push(STANDS_FREE.with([]));
    }
    list.extend(vessels(drive).map(|what| VESSEL.with([Figure::Word(what)])));
    if site.explosive_atmosphere {
        list.push(EXPLOSIVE.with([]));
    }
    let used = &drive.running;
    let makes_air = drive.parts.iter().any(|part| part.kind == "compressors");
    let is_electric = makes_air || used.moving_j + used.holding_j + used.standby_w > 0.0;
    let volts = site.mains.map_or(0.0, |mains| mains.voltage.si());
    if is_electric && volts >= TOUCHED_V {
        list.push(ELECTRIC.with([Figure::Quantity(Kind::Voltage, volts)]));
        if site.water != Water::Dry {
            list.push(WET.with([]));
        }
    }
    let coldest_k = site.coldest.si();
    if coldest_k < FREEZES_K {
        list.push(COLD_PLACE.with([Figure::Quantity(Kind::Temperature, coldest_k)]));
    }
    let hottest_k = site.hottest.si();
    if hottest_k >= BURNS_K {
        list.push(HOT_PLACE.with([Figure::Quantity(Kind::Temperature, hottest_k)]));
    }
    // As it is printed.
    if noise_db.round() >= LOUD_DB {
        list.push(NOISE.with([Figure::Number(noise_db)]));
    }
    if site.water == Water::Washdown {
        list.push(WASHED.with([]));
    }
    list
}

/// What of a drive keeps a gas under pressure.
fn vessels(drive: &Drive) -> impl Iterator<Item = &'static str> {
    let has = |kind: &str| drive.parts.iter().any(|part| part.kind == kind);
    let all = [
        (has("air_receivers"), "air receiver"),
        (has("oil_accumulators"), "accumulator"),
    ];
    all.into_iter().filter_map(|(is, what)| is.then_some(what))
}
