//! What the place asks of every part: its temperatures, its dirt and water.

use serde_json::Value;

use super::base::{Case, PartUse};

/// Kinds that a cover may keep the dirt and water from.
const COVERED: &[&str] = &[
    "ball_screws",
    "sliding_screws",
    "guides",
    "shaft_guides",
    "slideways",
];

fn all<'a>(case: &Case<'a>) -> Vec<PartUse<'a>> {
    let parts = case.option["parts"].as_array().into_iter().flatten();
    let mut kinds: Vec<&str> = parts.filter_map(|p| p["kind"].as_str()).collect();
    kinds.sort_unstable();
    kinds.dedup();
    kinds
        .into_iter()
        .flat_map(|kind| case.parts(kind))
        .collect()
}

/// 1 where every part bears the place, 2 where one does not.
fn verdict(sound: bool) -> f64 {
    if sound { 1.0 } else { 2.0 }
}

/// Kinds that stand apart from the machine, and what else does.
const APART: &[&str] = &[
    "compressors",
    "air_preparation",
    "air_dryers",
    "seal_kits",
    "oil_power_units",
    "oil_coolers",
    "oil_accumulators",
    "oil_seal_kits",
    "power_supplies",
];

/// Where a part stands: at the machine, or with the units.
fn place(part: &PartUse) -> &'static str {
    let kind = part.used["kind"].as_str().unwrap_or("");
    let cabinet = kind == "controls" && part.text("serves") != "hand";
    let manifold = kind == "oil_valves" && part.text("function") != "counterbalance";
    if APART.contains(&kind) || cabinet || manifold {
        "site.units"
    } else {
        "site"
    }
}

/// A word of the place; the units stand dry and clean if nothing is said.
fn word<'a>(case: &Case<'a>, place: &str, field: &str) -> &'a str {
    case.words(&format!("{place}.{field}"))
}

/// Coldest and hottest of a place; the units stand at 5 to 40 °C if nothing is said.
fn heat(case: &Case, place: &str) -> (f64, f64) {
    let end = |end: &str, else_k: f64| case.or(&format!("{place}.temperature.{end}"), else_k);
    (end("least", 278.15), end("most", 313.15))
}

fn holds(range: (Option<f64>, Option<f64>), (least, most): (f64, f64)) -> bool {
    range.0.is_none_or(|c| c <= least + 1e-4) && range.1.is_none_or(|h| h >= most - 1e-4)
}

pub fn temperature(case: &Case) -> f64 {
    let fits = |p: &PartUse| {
        let own = holds((p.opt("coldest"), p.opt("hottest")), heat(case, place(p)));
        // The drive of a motor stands with the cabinet.
        let drive = (p.opt("apart_coldest"), p.opt("apart_hottest"));
        own && holds(drive, heat(case, "site.units"))
    };
    verdict(all(case).iter().all(fits))
}

/// The two digits of an ingress code.
fn digits(code: &str) -> Option<(u32, u32)> {
    let mut digits = code
        .strip_prefix("IP")?
        .chars()
        .filter_map(|c| c.to_digit(10));
    Some((digits.next()?, digits.next()?))
}

/// Whether a part bears the dirt and water where it stands: an enclosure by its code, open mechanics by their material.
fn sealed(case: &Case, part: &PartUse) -> bool {
    let (dirt, wet) = (
        word(case, place(part), "dirt"),
        word(case, place(part), "water"),
    );
    let solid = match dirt {
        "gritty" => 6,
        "dusty" => 5,
        _ => 2,
    };
    // IP54 and IP65 ask for their first digit too.
    let (solid, water, grade) = match wet {
        "washdown" => (solid.max(6), 5, 2),
        "splash" => (solid.max(5), 4, 1),
        _ => (solid, 0, 0),
    };
    let open = match part.text("stands_water") {
        "washdown" => Some(2),
        "splash" => Some(1),
        "dry" => Some(0),
        _ => None,
    };
    let code = part.record.get("ingress").and_then(Value::as_str);
    match (code.and_then(digits), open) {
        (Some((dust, wet)), None) => dust >= solid && wet >= water,
        (None, Some(stands)) => stands >= grade,
        _ => false,
    }
}

pub fn ingress(case: &Case) -> f64 {
    let covered = case.part("covers").is_some();
    let fits = |p: &PartUse| {
        let kind = p.used["kind"].as_str().unwrap_or("");
        covered && COVERED.contains(&kind) || sealed(case, p)
    };
    verdict(all(case).iter().all(fits))
}

pub fn explosive(case: &Case) -> f64 {
    let zone = |place: &str| {
        let own = format!("{place}.explosive_atmosphere");
        case.yes(if case.given(&own) {
            &own
        } else {
            "site.explosive_atmosphere"
        })
    };
    let safe = |p: &PartUse| p.yes("explosive_atmosphere") || !zone(place(p));
    verdict(all(case).iter().all(safe))
}

/// Whether each part that says what it runs on is fed by the mains, whose three phases also feed one to the neutral.
pub fn supply(case: &Case) -> f64 {
    let volts = case.or("site.mains.voltage", f64::NAN);
    let direct = case.words("site.mains.current") == "dc";
    let phases = case.or("site.mains.phases", 1.0);
    let off = if direct { 0.2 } else { 0.1 };
    let fed = |feed: &str| -> Option<bool> {
        let (span, kind) = feed.split_once(" V ")?;
        let (least, most) = span.split_once('-').unwrap_or((span, span));
        let (least, most): (f64, f64) = (least.parse().ok()?, most.parse().ok()?);
        let within = |v: f64| v >= least * (1.0 - off) && v <= most * (1.0 + off);
        Some(match kind {
            "dc" => direct && within(volts),
            "ac 3~" => !direct && phases > 2.0 && within(volts),
            _ => !direct && (within(volts) || phases > 2.0 && within(volts / 3.0_f64.sqrt())),
        })
    };
    let runs = |p: &PartUse| {
        let feeds = p.record.get("runs_on").and_then(Value::as_array);
        feeds.is_none_or(|feeds| {
            let mut feeds = feeds.iter().filter_map(Value::as_str);
            feeds.any(|feed| fed(feed) == Some(true))
        })
    };
    verdict(all(case).iter().all(runs))
}
