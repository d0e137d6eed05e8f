//! Hazards of the place, of what drives the load, and of the work.

use crate::recompute::base::{Case, at, quantity};

/// A counterweight, over sheaves or on a tail.
pub fn weight_blocked(case: &Case) -> Option<Vec<f64>> {
    (case.assist("counterweight_kg") > 0.0).then(Vec::new)
}

pub fn vessel(case: &Case) -> Option<Vec<f64>> {
    let kinds = ["air_receivers", "oil_accumulators"];
    kinds
        .iter()
        .find_map(|kind| case.part(kind))
        .map(|_| Vec::new())
}

pub fn stands_free(case: &Case) -> Option<Vec<f64>> {
    (case.given("base") && !case.yes("base.bolted")).then(Vec::new)
}

pub fn explosive(case: &Case) -> Option<Vec<f64>> {
    case.yes("site.explosive_atmosphere").then(Vec::new)
}

/// Controls or a motor from mains that kill: from 50 V.
pub fn shock(case: &Case) -> Option<Vec<f64>> {
    let volts = case.req("site.mains.voltage")?;
    let electric = [
        "controls",
        "oil_power_units",
        "compressors",
        "power_supplies",
    ];
    let uses = electric.iter().any(|kind| {
        let parts = case.parts(kind);
        parts
            .iter()
            .any(|part| part.opt("standby").is_none_or(|watts| watts > 0.0))
    });
    (uses && volts >= 50.0).then(|| vec![volts])
}

pub fn wet(case: &Case) -> Option<Vec<f64>> {
    shock(case)
        .filter(|_| case.words("site.water") != "dry")
        .map(|_| Vec::new())
}

/// Water freezes.
pub fn cold(case: &Case) -> Option<Vec<f64>> {
    let coldest = case.req("site.temperature.least")? - 273.15;
    (coldest < -1e-9).then(|| vec![coldest])
}

/// From 55 °C bare metal burns (ISO 13732, from memory).
pub fn hot(case: &Case) -> Option<Vec<f64>> {
    let hottest = case.req("site.temperature.most")?;
    (hottest >= 328.15).then(|| vec![hottest - 273.15])
}

/// From 80 dB(A) hearing is protected.
pub fn loud(case: &Case) -> Option<Vec<f64>> {
    let level = case.option["criteria"]["noise"]["raw"].as_f64()?;
    (level.round() >= 80.0).then(|| vec![level])
}

pub fn washed(case: &Case) -> Option<Vec<f64>> {
    (case.words("site.water") == "washdown").then(Vec::new)
}

/// A tool meets its work at the far end with more than 150 N, more than twice what it met at first, and nothing pushes it
/// home: the force there, and that which is kept up.
pub fn tool(case: &Case) -> Option<[f64; 2]> {
    if case.given.hinge.is_some() {
        return None;
    }
    let points = at(&case.study["requirements"], "motion.process")?.as_array()?;
    let one =
        |point: &serde_json::Value, key: &str| point.get(key).and_then(quantity).unwrap_or(0.0);
    let force = |point: &serde_json::Value| one(point, "out").max(one(point, "hold"));
    let (first, last) = (points.first()?, points.last()?);
    let closes = force(last) > 150.0 && force(last) > 2.0 * force(first);
    (closes && one(last, "back") >= 0.0).then(|| [force(last), one(last, "hold")])
}
