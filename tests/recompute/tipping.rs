//! How near the machine comes to tipping: moments about each edge of its base at every instant.

use super::base::{Case, G};
use super::motion::{Instant, Stroke, stop};

/// Place or acceleration: along out, to the left of it, up.
type Space = [f64; 3];

/// A mass with its place over the middle of the base, its acceleration, and its couple against turning, positive
/// from out to up.
struct Mass {
    kg: f64,
    place: Space,
    a: Space,
    couple: f64,
}

/// What is left of the restoring moment about the edge that stands `half` off towards a level direction.
fn left_over(masses: &[Mass], (x, y): (f64, f64), half: f64) -> f64 {
    let (mut restoring, mut overturning) = (0.0, 0.0);
    let mut add = |moment: f64| {
        if moment > 0.0 {
            restoring += moment;
        } else {
            overturning -= moment;
        }
    };
    for m in masses {
        let lever = half - x * m.place[0] - y * m.place[1];
        add(m.kg * G * lever);
        add(m.kg * m.a[2] * lever);
        // The inertia force acts against the acceleration, at the height of the mass.
        add(m.kg * (x * m.a[0] + y * m.a[1]) * m.place[2]);
        add(x * m.couple);
    }
    (restoring - overturning) / restoring
}

/// The machine under the load, read once.
struct Base {
    frame: [f64; 3],
    load: Space,
    assist_reach: f64,
}

impl Base {
    fn read(case: &Case) -> Self {
        let height = case.or("base.centre_height", f64::NAN);
        let (reach, up) = (
            case.or("base.load_reach", 0.0),
            case.or("base.load_height", height),
        );
        Self {
            frame: [
                case.or("base.mass", f64::NAN),
                case.or("base.centre_x", 0.0),
                height,
            ],
            load: [reach, 0.0, up],
            assist_reach: case.or("base.assist_reach", 0.0),
        }
    }

    /// The machine itself, at rest.
    fn frame(&self) -> Mass {
        let [kg, x, z] = self.frame;
        Mass {
            kg,
            place: [x, 0.0, z],
            a: [0.0; 3],
            couple: 0.0,
        }
    }

    /// Load, machine and counterweight of a slide at an instant, with an acceleration along out.
    fn slide(&self, case: &Case, stroke: &Stroke, i: &Instant, a: f64) -> Vec<Mass> {
        let (sin, cos) = case.incline().sin_cos();
        let [x, _, z] = self.load;
        let load = Mass {
            kg: stroke.mass,
            place: [x + i.x * cos, 0.0, z + i.x * sin],
            a: [a * cos, 0.0, a * sin],
            couple: 0.0,
        };
        let weight = Mass {
            kg: case.assist("counterweight_kg"),
            place: [self.assist_reach, 0.0, self.frame[2]],
            a: [0.0, 0.0, -case.assist("travel_ratio") * a],
            couple: 0.0,
        };
        vec![load, self.frame(), weight]
    }

    /// Load, machine and tail weight of a hinge at an angle, with the arm's speed and acceleration.
    fn swing(&self, case: &Case, mass: f64, (angle, speed, a): (f64, f64, f64)) -> Vec<Mass> {
        let Some(hinge) = &case.given.hinge else {
            return Vec::new();
        };
        let tail = (
            case.assist("counterweight_kg"),
            -case.assist("tail_radius_m"),
            angle,
            0.0,
        );
        let load = (mass, hinge.radius, angle + hinge.lead, mass * hinge.own);
        let mut all = vec![self.frame()];
        for (kg, r, turned, own) in [load, tail] {
            let (sin, cos) = turned.sin_cos();
            let (there, turn) = ((r * cos, r * sin), speed * speed);
            let pulled = (-a * there.1 - turn * there.0, a * there.0 - turn * there.1);
            // A level axis turns the arm up, an upright one to the left.
            let [x, _, z] = self.load;
            let (place, a, couple) = if hinge.level {
                let place = [x + there.0, 0.0, z + there.1];
                (place, [pulled.0, 0.0, pulled.1], -own * a)
            } else {
                ([x + there.0, there.1, z], [pulled.0, pulled.1, 0.0], 0.0)
            };
            all.push(Mass {
                kg,
                place,
                a,
                couple,
            });
        }
        all
    }

    /// All masses at an instant: at rest, in the move, in an emergency stop.
    fn states(&self, case: &Case, stroke: &Stroke, i: &Instant) -> [Vec<Mass>; 3] {
        let stopped = -stroke.sign * stop(case, i.v);
        let Some(hinge) = &case.given.hinge else {
            return [0.0, i.a, stopped].map(|a| self.slide(case, stroke, i, a));
        };
        let (angle, speed, a) = i.arm;
        // The drive slows down by the rule, the arm by as much over the lever.
        let braked = stopped / hinge.lever(angle).first;
        [(0.0, 0.0), (speed, a), (speed, braked)]
            .map(|(v, a)| self.swing(case, stroke.mass, (angle, v, a)))
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
    let edges = [
        ((1.0, 0.0), length),
        ((-1.0, 0.0), length),
        ((0.0, 1.0), width),
        ((0.0, -1.0), width),
    ];
    for stroke in case.strokes() {
        for i in &stroke.instants {
            for all in base.states(case, stroke, i) {
                for (towards, half) in edges {
                    least = least.min(left_over(&all, towards, half));
                }
            }
        }
    }
    least
}
