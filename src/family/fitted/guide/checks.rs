//! What each guide is checked for: friction, life or wear, strength, speed, length, and how far a shaft bends.

use super::layout::{Bears, Build, Layout, Rubbing};
use crate::family::{Ask, Check, check, site};
use crate::mechanics::column::STEEL_MODULUS_PA;
use crate::mechanics::{combined, guide, plain};
use crate::quantity::{Force, Si, metres, newtons};

const M_PER_KM: f64 = 1000.0;
/// A bearing is never without any load; this keeps its life a number.
const LEAST_LOAD_N: f64 = 1.0;

/// What a drive asks of its guide beside the loads.
#[derive(Debug, Clone, Copy)]
pub(super) struct SlideSpeeds {
    pub peak_m_s: f64,
    pub mean_m_s: f64,
}

/// Every check of a guide.
pub(super) fn checks(ask: &Ask<'_>, layout: &Layout<'_>, motion: SlideSpeeds) -> Vec<Check> {
    let mut list = vec![friction(ask, layout)];
    match layout.build.bears() {
        Bears::Rolls { dynamic, still } => list.extend(rolling(ask, layout, dynamic, still)),
        Bears::Rubs(rubbing) => list.extend(rubs(ask, layout, &rubbing, motion)),
    }
    list.push(check!(
        "guide.speed", motion.peak_m_s => layout.build.speed_most_m_s(), "m/s";
        "peak speed ≤ that of the guide", "catalog";
        ("v", motion.peak_m_s, "m/s")
    ));
    list.push(length(ask, layout));
    list.extend(deflection(ask, layout));
    list
}

fn friction(ask: &Ask<'_>, layout: &Layout<'_>) -> Check {
    let (has, computed) = (layout.build.friction(), ask.guide_friction());
    check!(
        "guide.friction", has => computed, "";
        "the guide's own coefficient of friction ≤ motion.guide.friction, with which the job is computed", "catalog";
        ("μ guide", has, ""), ("μ job", computed, "")
    )
}

fn rolling(ask: &Ask<'_>, layout: &Layout<'_>, dynamic: Force, still: Force) -> [Check; 2] {
    let (a1, mean_n) = (life_factor(ask), rolling_mean_n(layout));
    let peak_n = layout.load.peak_n;
    let left = life_left(ask, layout);
    let life_m = left * a1 * guide::rail_life(dynamic, newtons(mean_n)).si();
    [
        check!(
            "guide.life", ask.life_distance_m() / M_PER_KM => life_m / M_PER_KM, "km";
            life_formula(layout), "ISO 14728-1; a1 ISO 281:2007, table 12; k common practice, no source";
            ("C", dynamic.si(), "N"), ("P", mean_n, "N"), ("a1", a1, ""), ("k", left, "")
        )
        .rule(if left < 1.0 { "grit_life" } else { "reliability" }),
        check!(
            "guide.static", peak_n => still.si(), "N";
            static_formula(layout), "ISO 14728-2; factor common practice, no source";
            ("P0", peak_n, "N"), ("C0", still.si(), "N")
        )
        .factor(ask.job.rules.guide_static_factor)
        .rule("guide_static_factor"),
    ]
}

/// How the life of balls is computed, for one line and for two, and for bushes that are open below.
fn life_formula(layout: &Layout<'_>) -> &'static str {
    match (layout.lines, layout.build) {
        (1, _) => {
            "a1 · k · 100 km · (C/P)³, k the part of its life that dirt leaves it, P the cube mean over the strokes, at least 1 N, of (m g cosθ)/2 + M/b + (m g cosθ)·e/s on the worst carriage, M = |Q|e + |F|d + m g cosθ·c along the travel, s the rail's width"
        }
        (_, Build::Shaft(_, support)) if support.along => {
            "a1 · k · 100 km · (C/P)³, k the part of its life that dirt leaves it, C = open_part · dynamic rating, P the cube mean over the strokes, at least 1 N, of ((m g cosθ)/2 + M/b + (m g cosθ)·e/b)/2 on the worst bush, M = |Q|e + |F|d + m g cosθ·c along the travel"
        }
        _ => {
            "a1 · k · 100 km · (C/P)³, k the part of its life that dirt leaves it, P the cube mean over the strokes, at least 1 N, of ((m g cosθ)/2 + M/b + (m g cosθ)·e/b)/2 on the worst carriage or bush, M = |Q|e + |F|d + m g cosθ·c along the travel"
        }
    }
}

fn static_formula(layout: &Layout<'_>) -> &'static str {
    match layout.build {
        Build::Shaft(_, support) if support.along => {
            "C0 ≥ factor · P0, C0 = open_part · static rating, P0 the greatest load on a bush as for the life, at rest, in motion and in the emergency stop"
        }
        _ => {
            "C0 ≥ factor · P0, P0 the greatest load on a carriage or bush as for the life, at rest, in motion and in the emergency stop"
        }
    }
}

fn rubs(ask: &Ask<'_>, layout: &Layout<'_>, rubbing: &Rubbing, motion: SlideSpeeds) -> [Check; 3] {
    let pressure = |load_n| plain::pressure_pa(newtons(load_n), rubbing.width, rubbing.length);
    let mean_n = rubbing_mean_n(layout);
    let mean_pa = pressure(mean_n);
    let (width_mm, length_mm) = (rubbing.width.si() * 1e3, rubbing.length.si() * 1e3);
    let (way_m, left) = (ask.life_distance_m(), life_left(ask, layout));
    [
        check!(
            "guide.pressure", pressure(layout.load.peak_n) / 1e6 => rubbing.pressure_most_pa / 1e6, "MPa";
            "P0/(w · l), P0 the greatest at rest, in motion and in the emergency stop of ((m g cosθ)/2 + M/b + (m g cosθ)·e/b)/2 on the worst bush or pad, M = |Q|e + |F|d + m g cosθ·c; w its width or the shaft's diameter, l its length, of a bush open below open_part of it",
            "the part's limit";
            ("P0", layout.load.peak_n, "N"), ("w", width_mm, "mm"), ("l", length_mm, "mm")
        ),
        check!(
            "guide.pv", mean_pa * motion.mean_m_s / 1e6 => rubbing.pv_most, "MPa m/s";
            "Pm/(w · l) · S/T, Pm the plain mean of the load over the strokes, at least 1 N, w and l as for the pressure, travel S in the travel time T",
            "the part's limit";
            ("Pm", mean_n, "N"), ("w", width_mm, "mm"), ("l", length_mm, "mm"), ("v", motion.mean_m_s, "m/s")
        ),
        check!(
            "guide.wear",
            plain::wear_m(rubbing.wear_rate, mean_pa, way_m) / left * 1e3 => rubbing.wear_most.si() * 1e3, "mm";
            "wear rate · Pm/(w · l) · way over the life asked, over the part k of its life that dirt leaves it; Pm, w and l as for p · v",
            "Archard's law with the part's rate; k common practice, no source";
            ("rate", rubbing.wear_rate * 1e15, "1e-15/Pa"), ("p", mean_pa / 1e6, "MPa"),
            ("way", way_m / M_PER_KM, "km"), ("k", left, "")
        ),
    ]
}

fn length(ask: &Ask<'_>, layout: &Layout<'_>) -> Check {
    let (id, formula) = match layout.build {
        Build::Rail(_) => (
            "guide.rail_length",
            "travel + bearing spacing + carriage + 40 mm of ends + folded bellows, in one piece",
        ),
        Build::Shaft(..) => (
            "guide.shaft_length",
            "travel + bearing spacing + bush + 40 mm of ends + folded bellows + the two end blocks where it stands in such, in one piece",
        ),
        Build::Way(_) => (
            "guide.way_length",
            "travel + bearing spacing + pad + 40 mm of ends + folded bellows, in one piece",
        ),
    };
    check!(
        id, layout.length_m => layout.build.length_most_m(), "m";
        formula, "geometry";
        ("S", ask.travel_m(), "m"), ("b", ask.bearing_spacing_m(), "m")
    )
}

/// How far a shaft between end blocks bends, mid span.
pub(super) fn deflection_m(ask: &Ask<'_>, layout: &Layout<'_>) -> Option<f64> {
    let bent = guide::shaft_deflection(
        newtons(layout.load.peak_n),
        metres(ask.bearing_spacing_m()),
        metres(layout.span_m()?),
        layout.build.size(),
        STEEL_MODULUS_PA,
    );
    Some(bent.si())
}

fn deflection(ask: &Ask<'_>, layout: &Layout<'_>) -> Option<Check> {
    let (span_m, bent_m) = (layout.span_m()?, deflection_m(ask, layout)?);
    let part = ask.job.rules.shaft_deflection_most;
    let check = check!(
        "guide.shaft_deflection", bent_m * 1e3 => part * span_m * 1e3, "mm";
        "P0 a (3 L² − 4 a²)/(24 E I) ≤ part · L, two bushes with P0 each amid the shaft: a = (L − b)/2, I = π d⁴/64; L the shaft's length without its end blocks, P0 as for the greatest load",
        "Shigley, table A-9, twin loads; part of the length common practice, no source";
        ("P0", layout.load.peak_n, "N"), ("L", span_m * 1e3, "mm"), ("b", ask.bearing_spacing_m() * 1e3, "mm"),
        ("d", layout.build.size().si() * 1e3, "mm"), ("E", STEEL_MODULUS_PA / 1e9, "GPa"), ("part", part, ""),
    );
    Some(check.rule("shaft_deflection_most"))
}

fn life_factor(ask: &Ask<'_>) -> f64 {
    combined::life_factor(ask.job.rules.reliability)
}

fn rolling_mean_n(layout: &Layout<'_>) -> f64 {
    layout.load.mean_n.max(LEAST_LOAD_N)
}

fn rubbing_mean_n(layout: &Layout<'_>) -> f64 {
    layout.load.plain_mean_n.max(LEAST_LOAD_N)
}

/// Way that a guide lasts.
pub(super) fn life_m(ask: &Ask<'_>, layout: &Layout<'_>) -> f64 {
    let clean_m = match layout.build.bears() {
        Bears::Rolls { dynamic, .. } => {
            life_factor(ask) * guide::rail_life(dynamic, newtons(rolling_mean_n(layout))).si()
        }
        Bears::Rubs(rubbing) => {
            let load = newtons(rubbing_mean_n(layout));
            let pressure = plain::pressure_pa(load, rubbing.width, rubbing.length);
            rubbing.wear_most.si() / plain::wear_m(rubbing.wear_rate, pressure, 1.0)
        }
    };
    clean_m * life_left(ask, layout)
}

/// The part of its life that dirt leaves it.
fn life_left(ask: &Ask<'_>, layout: &Layout<'_>) -> f64 {
    site::life_left(ask.job, layout.build.common(), layout.covered)
}
