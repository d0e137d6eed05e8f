//! Checks of guides: what the worst carriage, bush or pad bears, how long it lasts, and how long the rail is.

use std::f64::consts::PI;

use super::base::{Case, G, PartUse};
use super::life::{a1, covered, life_left, mean_over_way, way_asked};
use super::motion::{Instant, Stroke, force, stop};
use super::steel::STEEL;
use super::worst::most;

/// Rail beyond the carriages, both ends together.
const ENDS: f64 = 0.04;
/// A mean load below this counts as this, in newtons, so that no life is without end.
const LEAST: f64 = 1.0;
/// Kinds of part that guide, each with the field of its width and of what rides on it.
const SORTS: &[(&str, &str, &str)] = &[
    ("guides", "size", "carriage_length"),
    ("shaft_guides", "diameter", "bush_length"),
    ("slideways", "width", "pad_length"),
];

/// The guide of an option.
struct Guide<'a> {
    carriage: PartUse<'a>,
    rails: f64,
    /// Width of a rail or way, or diameter of a shaft.
    width: f64,
    /// Length of a carriage, bush or pad.
    long: f64,
    /// Part of a bush that bears: less than all where its shaft stands on a foot and the bush is open.
    bears: f64,
}

impl<'a> Guide<'a> {
    fn of(case: &Case<'a>) -> Option<Self> {
        let (kind, width, long) = SORTS.iter().find(|s| case.part(s.0).is_some())?;
        let all = case.parts(kind);
        let rails = all.iter().filter(|p| p.length_m() > 0.0);
        let rails = rails.map(PartUse::quantity).sum();
        let carriage = case.part(kind)?;
        let foot = case.part("shaft_supports").is_some_and(|p| p.yes("along"));
        Some(Self {
            rails,
            width: carriage.f(width),
            long: carriage.f(long),
            bears: if foot { carriage.f("open_part") } else { 1.0 },
            carriage,
        })
    }

    /// Load of the worst carriage: its part of the weight, the couple along the travel over the spacing, and the couple
    /// across it, which a lone rail takes over its own width and a pair of rails as far apart as the carriages.
    fn load(&self, case: &Case, mass: f64, x: f64, (q, f): (f64, f64)) -> f64 {
        let given = &case.given;
        let across = mass * G * case.incline().cos().abs();
        let couple =
            q.abs() * given.offset + f.abs() * given.drive_offset + across * given.reach(x);
        let apart = if self.rails > 1.5 {
            given.spacing
        } else {
            self.width
        };
        (across / 2.0 + couple / given.spacing + across * given.offset / apart) / self.rails
    }

    fn moving(&self, case: &Case, stroke: &Stroke, i: &Instant) -> f64 {
        self.load(case, stroke.mass, i.x, (i.q, i.f))
    }

    /// Greatest load in the move, from rest and in an emergency stop.
    fn greatest(&self, case: &Case) -> f64 {
        let deceleration = stop(case, most(case, |i| i.v.abs()));
        let mut worst = 0.0_f64;
        for stroke in case.strokes() {
            for i in &stroke.instants {
                let weight = stroke.mass * (i.a + G * case.incline().sin());
                let process = stroke.sign * (i.q - weight);
                let on = (&*case.given, &*case.course);
                let at = (i.x, -stroke.sign * deceleration);
                let stopped = force(on, (stroke.mass, stroke.sign), at, process);
                let rest = (i.q - stroke.mass * i.a, i.still);
                for forces in [(i.q, i.f), rest, stopped] {
                    worst = worst.max(self.load(case, stroke.mass, i.x, forces));
                }
            }
        }
        worst
    }

    /// Mean of the load over the way, to a power.
    fn mean(&self, case: &Case, p: f64) -> f64 {
        mean_over_way(case, p, |s, i| self.moving(case, s, i)).max(LEAST)
    }

    fn covered(&self, case: &Case) -> bool {
        covered(case, self.width, self.rails)
    }

    fn left(&self, case: &Case) -> f64 {
        life_left(case, &self.carriage, self.covered(case))
    }

    /// Pressure of a load on what a bush or pad bears with.
    fn pressure(&self, load: f64) -> f64 {
        load / (self.width * self.long * self.bears)
    }

    /// Length of the rail, shaft or way, without end blocks.
    fn rail(&self, case: &Case) -> f64 {
        // Its own bellows are the smallest that fit it, others are of the screw.
        let mut covers = case.parts("covers");
        if !self.covered(case) {
            covers.clear();
        }
        covers.retain(|c| c.f("size_most") >= self.width);
        covers.sort_by(|p, q| p.f("size_most").total_cmp(&q.f("size_most")));
        let folded = covers.first().map_or(0.0, |c| c.f("closed_ratio"));
        case.travel() * (1.0 + 2.0 * folded) + case.given.spacing + self.long + ENDS
    }

    /// How far a shaft between two end blocks sinks under two bushes amid it, both with the greatest load.
    fn sinks(&self, case: &Case) -> f64 {
        let length = self.rail(case);
        let a = (length - case.given.spacing) / 2.0;
        let second = PI * self.width.powi(4) / 64.0;
        self.greatest(case) * a * (3.0 * length * length - 4.0 * a * a) / (24.0 * STEEL * second)
    }
}

pub fn recompute(case: &Case, id: &str) -> Option<(f64, f64)> {
    if !id.starts_with("guide.") {
        return None;
    }
    let guide = Guide::of(case)?;
    let part = |field| guide.carriage.f(field);
    Some(match id {
        "guide.friction" => (part("friction"), case.given.friction),
        "guide.life" => {
            let rated = guide.bears * part("dynamic_rating") / guide.mean(case, 3.0);
            (
                way_asked(case),
                guide.left(case) * a1(case) * 100.0 * rated.powi(3),
            )
        }
        "guide.static" => (guide.greatest(case), guide.bears * part("static_rating")),
        "guide.speed" => (most(case, |i| i.v.abs()), part("speed_most")),
        "guide.pressure" => (
            guide.pressure(guide.greatest(case)) / 1e6,
            part("pressure_most") / 1e6,
        ),
        "guide.pv" => {
            let pressed = guide.pressure(guide.mean(case, 1.0)) / 1e6;
            (pressed * case.travel() / case.time(), part("pv_most"))
        }
        "guide.wear" => {
            let pressed = guide.pressure(guide.mean(case, 1.0));
            let deep = part("wear_rate") * pressed * way_asked(case) * 1e3 / guide.left(case);
            (deep * 1e3, part("wear_most") * 1e3)
        }
        "guide.shaft_deflection" => {
            let part = case.rule("shaft_deflection_most");
            (guide.sinks(case) * 1e3, part * guide.rail(case) * 1e3)
        }
        "guide.rail_length" | "guide.way_length" => (guide.rail(case), part("length_most")),
        "guide.shaft_length" => {
            let block = case.field("shaft_supports", "end_length").unwrap_or(0.0);
            (guide.rail(case) + 2.0 * block, part("length_most"))
        }
        _ => return None,
    })
}
