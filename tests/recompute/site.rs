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

pub fn temperature(case: &Case) -> f64 {
    let place = |end: &str| case.req(&format!("site.temperature.{end}"));
    let (least, most) = (place("least"), place("most"));
    let fits = |p: &PartUse| {
        let cold = p.opt("coldest").zip(least);
        let hot = p.opt("hottest").zip(most);
        cold.is_none_or(|(c, l)| c <= l + 1e-9) && hot.is_none_or(|(h, m)| h >= m - 1e-9)
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

/// Whether a part's own code bears the dirt and water of the place.
pub fn sealed(case: &Case, part: &PartUse) -> bool {
    let solid = match case.words("site.dirt") {
        "gritty" => 6,
        "dusty" => 5,
        _ => 2,
    };
    // IP54 and IP65 ask for their first digit too.
    let (solid, water) = match case.words("site.water") {
        "washdown" => (solid.max(6), 5),
        "splash" => (solid.max(5), 4),
        _ => (solid, 0),
    };
    let code = part.record.get("ingress").and_then(Value::as_str);
    code.and_then(digits)
        .is_some_and(|(dust, wet)| dust >= solid && wet >= water)
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
    verdict(all(case).iter().all(|p| p.yes("explosive_atmosphere")))
}
