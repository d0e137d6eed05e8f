//! Checks of rails with carriages: what the worst carriage bears, and how long the rail is.

use crate::base::{Case, G, PartUse};
use crate::life::{mean_over_way, way_asked};
use crate::motion::{Instant, Stroke, force, stop};
use crate::worst::most;

/// Rail beyond the carriages, both ends together; found from the study, stated nowhere.
const ENDS: f64 = 0.04;
/// A mean load below this counts as this, in newtons, so that no life is without end; stated nowhere.
const LEAST: f64 = 1.0;

/// The guide of an option.
struct Guide<'a> {
    carriage: PartUse<'a>,
    rails: f64,
}

impl<'a> Guide<'a> {
    fn of(case: &Case<'a>) -> Option<Self> {
        let rails: f64 = case
            .parts("guides")
            .iter()
            .filter(|p| p.length_m() > 0.0)
            .map(PartUse::quantity)
            .sum();
        let carriage = case.part("guides")?;
        Some(Self { carriage, rails })
    }

    /// Load of the worst carriage: its part of the weight, the couple along the travel over the spacing, and the couple
    /// across it, which a lone rail takes over its own width and a pair of rails as far apart as the carriages.
    fn load(&self, case: &Case, mass: f64, x: f64, (q, f): (f64, f64)) -> f64 {
        let given = &case.given;
        let across = mass * G * case.incline().cos().abs();
        let couple =
            q.abs() * given.offset + f.abs() * given.drive_offset + across * given.reach(x);
        let width = if self.rails > 1.5 {
            given.spacing
        } else {
            self.carriage.f("size")
        };
        (across / 2.0 + couple / given.spacing + across * given.offset / width) / self.rails
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
                worst = worst.max(self.moving(case, stroke, i)).max(self.load(
                    case,
                    stroke.mass,
                    i.x,
                    stopped,
                ));
            }
        }
        worst
    }

    fn rail(&self, case: &Case) -> f64 {
        // The bellows of the rail are the smallest that fit it; others are of the screw.
        let size = self.carriage.f("size");
        let mut covers = case.parts("covers");
        covers.retain(|c| c.f("size_most") >= size);
        covers.sort_by(|p, q| p.f("size_most").total_cmp(&q.f("size_most")));
        let folded = covers.first().map_or(0.0, |c| c.f("closed_ratio"));
        case.travel() * (1.0 + 2.0 * folded)
            + case.given.spacing
            + self.carriage.f("carriage_length")
            + ENDS
    }
}

pub fn recompute(case: &Case, id: &str) -> Option<(f64, f64)> {
    if !id.starts_with("guide.") {
        return None;
    }
    let guide = Guide::of(case)?;
    let part = |field| guide.carriage.f(field);
    Some(match id {
        "guide.life" => {
            let mean = mean_over_way(case, 3.0, |s, i| guide.moving(case, s, i));
            let life = 100.0 * (part("dynamic_rating") / mean.max(LEAST)).powi(3);
            (way_asked(case), life)
        }
        "guide.static" => (guide.greatest(case), part("static_rating")),
        "guide.speed" => (most(case, |i| i.v.abs()), part("speed_most")),
        "guide.rail_length" => (guide.rail(case), part("length_most")),
        _ => return None,
    })
}
