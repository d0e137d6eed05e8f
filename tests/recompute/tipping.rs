//! How near the machine comes to tipping: moments about each edge of its base at every instant.

use crate::base::{Case, G};
use crate::motion::{Instant, Stroke, stop};

/// A mass with its place over the base and its acceleration: along, up.
struct Mass {
    kg: f64,
    reach: f64,
    height: f64,
    along: f64,
    up: f64,
}

/// What is left of the restoring moment about one edge: `side` 1 front, -1 back, 0 the long sides.
fn left_over(masses: &[Mass], side: f64, half: f64) -> f64 {
    let (mut restoring, mut overturning) = (0.0, 0.0);
    let mut add = |moment: f64| {
        if moment > 0.0 {
            restoring += moment;
        } else {
            overturning -= moment;
        }
    };
    for m in masses {
        let lever = half - side * m.reach;
        add(m.kg * G * lever);
        add(m.kg * m.up * lever);
        // The inertia force acts against the acceleration, at the height of the mass.
        add(side * m.kg * m.along * m.height);
    }
    (restoring - overturning) / restoring
}

/// The machine under the load, read once.
struct Base {
    kg: f64,
    centre: f64,
    height: f64,
    load_reach: f64,
    load_height: f64,
    assist_reach: f64,
    assist_kg: f64,
    travel_ratio: f64,
    incline: f64,
}

impl Base {
    fn read(case: &Case) -> Self {
        let height = case.or("base.centre_height", f64::NAN);
        Self {
            kg: case.or("base.mass", f64::NAN),
            centre: case.or("base.centre_x", 0.0),
            height,
            load_reach: case.or("base.load_reach", 0.0),
            load_height: case.or("base.load_height", height),
            assist_reach: case.or("base.assist_reach", 0.0),
            assist_kg: case.assist("counterweight_kg"),
            travel_ratio: case.assist("travel_ratio"),
            incline: case.incline(),
        }
    }

    /// Load, machine and counterweight at an instant, with an acceleration along out.
    fn masses(&self, stroke: &Stroke, i: &Instant, a: f64) -> [Mass; 3] {
        let (sin, cos) = self.incline.sin_cos();
        let load = Mass {
            kg: stroke.mass,
            reach: self.load_reach + i.x * cos,
            height: self.load_height + i.x * sin,
            along: a * cos,
            up: a * sin,
        };
        let frame = Mass {
            kg: self.kg,
            reach: self.centre,
            height: self.height,
            along: 0.0,
            up: 0.0,
        };
        let weight = Mass {
            kg: self.assist_kg,
            reach: self.assist_reach,
            height: self.height,
            along: 0.0,
            up: -self.travel_ratio * a,
        };
        [load, frame, weight]
    }
}

/// The least margin at rest, in the move and in an emergency stop.
pub fn margin(case: &Case) -> f64 {
    *case.course.margin.get_or_init(|| least(case))
}

fn least(case: &Case) -> f64 {
    let half = |path: &str| case.or(path, f64::NAN) / 2.0;
    let (length, width) = (half("base.length"), half("base.width"));
    let (base, mut least) = (Base::read(case), f64::INFINITY);
    for stroke in case.strokes() {
        for i in &stroke.instants {
            for a in [0.0, i.a, -stroke.sign * stop(case, i.v)] {
                let all = base.masses(stroke, i, a);
                for (side, half) in [(1.0, length), (-1.0, length), (0.0, width)] {
                    least = least.min(left_over(&all, side, half));
                }
            }
        }
    }
    least
}
