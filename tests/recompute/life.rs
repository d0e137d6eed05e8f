//! What a life is worked out from: the mean force over the way, and the way asked.

use super::base::{Case, PartUse};
use super::motion::{Instant, Stroke};

/// A life past this is written as this, in km: the study cuts it off without saying so.
pub const LIFE_MOST: f64 = 1e9;

/// Mean of a figure over the way, to the power `p`, of the worse load, out and back together.
pub fn mean_over_way(case: &Case, p: f64, figure: impl Fn(&Stroke, &Instant) -> f64) -> f64 {
    let mean = |load: &[Stroke]| -> f64 {
        let (mut sum, mut way) = (0.0, 0.0);
        for stroke in load {
            let part = |i: &Instant| figure(stroke, i).abs().powf(p);
            for two in stroke.instants.windows(2) {
                let step = (two[1].x - two[0].x).abs();
                sum += step * (part(&two[0]) + part(&two[1])) / 2.0;
                way += step;
            }
        }
        (sum / way).powf(1.0 / p)
    };
    case.strokes().chunks(2).map(mean).fold(0.0, f64::max)
}

/// Mean force of the drive.
pub fn mean_force(case: &Case, p: f64) -> f64 {
    mean_over_way(case, p, |_, i| i.f)
}

/// Way asked over the life, in km.
pub fn way_asked(case: &Case) -> f64 {
    2.0 * case.travel() * case.cycles_asked() / 1000.0
}

/// Part of the rated life at a reliability (ISO 281:2007, table 12), straight lines between its rows.
const A1: &[(f64, f64)] = &[
    (0.90, 1.00),
    (0.95, 0.64),
    (0.96, 0.55),
    (0.97, 0.47),
    (0.98, 0.37),
    (0.99, 0.25),
];

/// Factor of the reliability asked.
pub fn a1(case: &Case) -> f64 {
    let asked = case.rule("reliability");
    let two = A1.windows(2).find(|two| asked <= two[1].0);
    two.map_or(f64::NAN, |two| {
        let t = (asked - two[0].0) / (two[1].0 - two[0].0);
        two[0].1 + t * (two[1].1 - two[0].1)
    })
}

/// What grit leaves of a life: all of it inside an enclosure or under bellows, of open mechanics what they state or the rule.
pub fn life_left(case: &Case, part: &PartUse, covered: bool) -> f64 {
    let open = part.record.get("ingress").is_none();
    if case.words("site.dirt") == "gritty" && open && !covered {
        part.opt("grit_life")
            .unwrap_or_else(|| case.rule("grit_life"))
    } else {
        1.0
    }
}

/// Whether so many lines of a size run under bellows: the smallest that go over it are of them, two to a line.
pub fn covered(case: &Case, size: f64, lines: f64) -> bool {
    let all = case.books_of("covers");
    let fits = |c: &f64| *c >= size - 1e-9;
    let least = all.into_iter().filter(fits).fold(f64::INFINITY, f64::min);
    let mut used = case.parts("covers").into_iter();
    used.any(|c| {
        (c.f("size_most") - least).abs() < 1e-9 && (c.quantity() - 2.0 * lines).abs() < 0.5
    })
}
