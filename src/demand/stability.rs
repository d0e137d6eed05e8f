//! Whether the machine stands: moments about the edges of its base.

use schemars::JsonSchema;
use serde::Serialize;

use super::slide::Straight;
use super::{Assist, Axis, Demand, Direction};
use crate::quantity::{G_M_S2, Si};
use crate::requirements::Base;

/// How far the machine is from tipping, at rest, in the move and in an emergency stop.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Stability {
    /// Least part of the restoring moment left over at rest.
    pub margin_static: f64,
    /// The same in the move.
    pub margin_dynamic: f64,
    /// The same in an emergency stop.
    pub margin_emergency_stop: f64,
    /// Position of the load at the least of them.
    pub worst_position_m: f64,
    /// The edge it would tip over: `out` and `back` across the travel, `side` along it.
    pub edge: &'static str,
    /// Nearest to the back end that the combined centre of mass comes, along the base from its middle.
    pub centre_least_m: f64,
    /// Furthest out that it comes.
    pub centre_most_m: f64,
    /// Mass at the middle of the base that would bring the margin to the least allowed; 0 where it is met.
    pub ballast_kg: f64,
    /// Base length that would bring it there, the load's place from the middle unchanged; left out where it is met, or where no length does it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub length_needed_m: Option<f64>,
    /// Greatest level reaction over the weight on the floor, in the move or an emergency stop.
    pub sliding_ratio: f64,
}

impl Stability {
    /// The least margin.
    #[must_use]
    pub fn margin(&self) -> f64 {
        self.margin_static
            .min(self.margin_dynamic)
            .min(self.margin_emergency_stop)
    }
}

/// Margin of a machine with nothing to hold it down; no infinity, so that a study can hold it.
const WORST_MARGIN: f64 = -999.0;
/// Past so many base lengths no longer base is looked for.
const LENGTHS_TRIED: f64 = 64.0;
/// A base length is found to this part of it.
const LENGTH_PRECISION: f64 = 1e-6;

/// A weight with its inertia, as seen in the plane of travel.
#[derive(Debug, Clone, Copy, Default)]
struct Body {
    mass_kg: f64,
    x_m: f64,
    z_m: f64,
    ax_m_s2: f64,
    az_m_s2: f64,
}

/// An edge of the base.
#[derive(Debug, Clone, Copy)]
enum Edge {
    /// Across the travel, on the side it goes out to (+1) or comes back from (−1).
    End(f64),
    /// Along the travel.
    Side,
}

impl Edge {
    const ALL: [(&'static str, Edge); 3] = [
        ("out", Edge::End(1.0)),
        ("back", Edge::End(-1.0)),
        ("side", Edge::Side),
    ];
    /// From the middle of the base to the edge.
    fn half_m(self, base: &Base) -> f64 {
        match self {
            Edge::End(_) => base.length.si() / 2.0,
            Edge::Side => base.width.si() / 2.0,
        }
    }
}

/// Moments about an edge: restoring and overturning, N·m.
#[derive(Debug, Clone, Copy, Default)]
struct Moments {
    restoring: f64,
    overturning: f64,
}

impl Moments {
    /// With those of more bodies: each weight and each level and upright inertia force is one moment.
    fn and(mut self, edge: Edge, half_m: f64, bodies: &[Body]) -> Self {
        for body in bodies.iter().filter(|body| body.mass_kg > 0.0) {
            // Everything stands in the middle of the width; level inertia acts along the side edges.
            let (arm, level) = match edge {
                Edge::End(sign) => (half_m - sign * body.x_m, sign * body.ax_m_s2 * body.z_m),
                Edge::Side => (half_m, 0.0),
            };
            self.add(body.mass_kg * G_M_S2 * arm);
            if body.az_m_s2 != 0.0 {
                self.add(body.mass_kg * body.az_m_s2 * arm);
            }
            if level != 0.0 {
                self.add(body.mass_kg * level);
            }
        }
        self
    }
    fn add(&mut self, moment: f64) {
        if moment >= 0.0 {
            self.restoring += moment;
        } else {
            self.overturning -= moment;
        }
    }
    fn margin(self) -> f64 {
        if self.restoring > 0.0 && self.overturning == 0.0 {
            1.0
        } else if self.restoring > 0.0 {
            ((self.restoring - self.overturning) / self.restoring).max(WORST_MARGIN)
        } else {
            WORST_MARGIN
        }
    }
    /// Mass at the middle that leaves `least` of the restoring moment: `(O/(1 - least) - R)/(g·half)`.
    fn ballast_kg(self, half_m: f64, least: f64) -> f64 {
        ((self.overturning / (1.0 - least) - self.restoring) / (G_M_S2 * half_m)).max(0.0)
    }
}

/// What stands still.
fn machine(base: &Base) -> Body {
    Body {
        mass_kg: base.mass.si(),
        x_m: base.centre_x.si(),
        z_m: base.centre_height.si(),
        ..Body::default()
    }
}

/// Load and counterweight at a place and acceleration of the load.
fn movers(
    axis: &Straight,
    base: &Base,
    assist: &Assist,
    mass_kg: f64,
    x_m: f64,
    a_m_s2: f64,
) -> [Body; 2] {
    let load = Body {
        mass_kg,
        x_m: base.load_reach.si() + x_m * axis.cos,
        z_m: base.load_height.si() + x_m * axis.sin,
        ax_m_s2: a_m_s2 * axis.cos,
        az_m_s2: a_m_s2 * axis.sin,
    };
    // A counterweight hangs: it goes straight down as the load goes out, so its height does not matter.
    let weight = assist
        .counterweight()
        .map_or(Body::default(), |weight| Body {
            mass_kg: weight.mass_kg,
            x_m: base.assist_reach.si(),
            az_m_s2: -weight.travel_ratio * a_m_s2,
            ..Body::default()
        });
    [load, weight]
}

/// Stability over every instant of every case; `least` is the margin that ballast or a longer base must reach.
pub(super) fn of(
    axis: &Axis,
    straight: &Straight,
    base: &Base,
    assist: &Assist,
    demand: &Demand,
    least: f64,
) -> Stability {
    let mut search = Search::new(base, least);
    let [mut at_rest, mut moving, mut stopping] = [f64::INFINITY; 3];
    for case in &demand.cases {
        let mut known = [Known::default(); 3];
        let [standing, going, braking] = &mut known;
        for sample in &case.profile {
            let mut margin = |a_m_s2: f64, known: &mut Known| {
                let movers = movers(straight, base, assist, case.load_kg, sample.x_m, a_m_s2);
                known.margin(&mut search, &movers, sample.x_m)
            };
            // At rest it is the same whichever way it goes next.
            let still = (case.direction == Direction::Out).then(|| margin(0.0, standing));
            at_rest = at_rest.min(still.unwrap_or(at_rest));
            let stop = axis.stop_deceleration(sample.v_m_s.abs());
            // At constant speed it is as at rest.
            moving = moving.min(match still {
                Some(still) if sample.a_m_s2 == 0.0 => still,
                _ => margin(sample.a_m_s2, going),
            });
            stopping = stopping.min(margin(-case.direction.sign() * stop, braking));
        }
    }
    Stability {
        margin_static: at_rest,
        margin_dynamic: moving,
        margin_emergency_stop: stopping,
        length_needed_m: search.length_needed(),
        ..search.found
    }
}

/// The instant before and its margin: on an upright axis most instants are alike to the bit.
#[derive(Debug, Clone, Copy, Default)]
struct Known(Option<([Body; 2], Option<f64>, f64)>);

impl Known {
    /// The margin of an instant; looked at where it differs from the one before in what a moment knows of.
    fn margin(&mut self, search: &mut Search, movers: &[Body; 2], position_m: f64) -> f64 {
        let same = |(p, q): (&Body, &Body)| {
            let bits = |b: &Body| [b.mass_kg, b.x_m, b.ax_m_s2, b.az_m_s2].map(f64::to_bits);
            // Height counts only with a level acceleration.
            bits(p) == bits(q) && (p.ax_m_s2 == 0.0 || p.z_m.to_bits() == q.z_m.to_bits())
        };
        let half_m = search.half_m;
        if let Some((before, then_m, margin)) = &self.0
            && *then_m == half_m
            && before.iter().zip(movers).all(same)
        {
            return *margin;
        }
        let margin = search.margin(movers, position_m);
        // What lengthened the base is looked at again with the longer one.
        self.0 = (search.half_m == half_m).then_some((*movers, half_m, margin));
        margin
    }
}

/// The worst found so far, and what would mend it.
struct Search<'a> {
    base: &'a Base,
    machine: Body,
    /// Moments of the machine about each edge, and how far the edge is from the middle.
    edges: [(&'static str, Edge, f64, Moments); 3],
    least: f64,
    worst: f64,
    found: Stability,
    /// Half the base length that every instant so far is content with; none where no length is.
    half_m: Option<f64>,
}

impl<'a> Search<'a> {
    fn new(base: &'a Base, least: f64) -> Self {
        let found = Stability {
            margin_static: f64::INFINITY,
            margin_dynamic: f64::INFINITY,
            margin_emergency_stop: f64::INFINITY,
            worst_position_m: 0.0,
            edge: "",
            centre_least_m: f64::INFINITY,
            centre_most_m: f64::NEG_INFINITY,
            ballast_kg: 0.0,
            length_needed_m: None,
            sliding_ratio: 0.0,
        };
        let machine = machine(base);
        let standing = |(name, edge): (&'static str, Edge)| {
            let half_m = edge.half_m(base);
            let moments = Moments::default().and(edge, half_m, &[machine]);
            (name, edge, half_m, moments)
        };
        Self {
            base,
            machine,
            edges: Edge::ALL.map(standing),
            least,
            worst: f64::INFINITY,
            found,
            half_m: Some(base.length.si() / 2.0),
        }
    }

    /// The least margin of an instant over the edges, remembering what it shows.
    fn margin(&mut self, movers: &[Body; 2], position_m: f64) -> f64 {
        self.take_centre(movers);
        self.take_sliding(movers);
        let mut least = f64::INFINITY;
        for (name, edge, half_m, standing) in self.edges {
            let moments = standing.and(edge, half_m, movers);
            let margin = moments.margin();
            least = least.min(margin);
            if margin < self.worst - super::axis::TIE {
                self.worst = margin;
                self.found.worst_position_m = position_m;
                self.found.edge = name;
            }
            if margin < self.least {
                let ballast = moments.ballast_kg(half_m, self.least);
                self.found.ballast_kg = self.found.ballast_kg.max(ballast);
                self.lengthen(edge, movers);
            }
        }
        least
    }

    /// Lengthens the base until this instant is content, too.
    fn lengthen(&mut self, edge: Edge, movers: &[Body; 2]) {
        let content = |half_m: f64| {
            let standing = Moments::default().and(edge, half_m, &[self.machine]);
            standing.and(edge, half_m, movers).margin() >= self.least
        };
        let Some(mut low) = self.half_m else {
            return;
        };
        if content(low) {
            return;
        }
        let mut high = low;
        while !content(high) {
            high *= 2.0;
            if high > LENGTHS_TRIED * self.base.length.si() {
                self.half_m = None;
                return;
            }
        }
        while high - low > LENGTH_PRECISION * high {
            let middle = f64::midpoint(low, high);
            if content(middle) {
                high = middle;
            } else {
                low = middle;
            }
        }
        self.half_m = Some(high);
    }

    /// The base length that mends the margin, where one is needed and does.
    fn length_needed(&self) -> Option<f64> {
        self.half_m
            .map(|half_m| 2.0 * half_m)
            .filter(|length| *length > self.base.length.si())
    }

    fn take_centre(&mut self, movers: &[Body; 2]) {
        let (mut mass, mut turning) = (0.0, 0.0);
        for body in [&self.machine].into_iter().chain(movers) {
            mass += body.mass_kg;
            turning += body.mass_kg * body.x_m;
        }
        let centre = turning / mass;
        self.found.centre_least_m = self.found.centre_least_m.min(centre);
        self.found.centre_most_m = self.found.centre_most_m.max(centre);
    }

    fn take_sliding(&mut self, movers: &[Body; 2]) {
        // The machine stands still: where nothing moves level, nothing pushes it.
        if movers.iter().all(|body| body.ax_m_s2 == 0.0) {
            return;
        }
        let (mut level, mut down) = (0.0, 0.0);
        for body in [&self.machine].into_iter().chain(movers) {
            level += body.mass_kg * body.ax_m_s2;
            down += body.mass_kg * (G_M_S2 + body.az_m_s2);
        }
        if down > 0.0 && level != 0.0 {
            self.found.sliding_ratio = self.found.sliding_ratio.max(f64::abs(level) / down);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demand::Counterweight;
    use crate::quantity::{Angle, kilograms, metres, seconds};
    use crate::requirements::{LoadRange, Requirements, Slide};
    use crate::support::{about, axis, base};

    fn near(got: f64, expected: f64, within: f64) {
        assert!(
            (got - expected).abs() <= within,
            "got {got}, expected {expected}"
        );
    }

    fn stability(job: &Requirements, slide: &Slide, assist: &Assist, time_s: f64) -> Stability {
        let demand = Axis::new(job, slide).demand(job, assist, time_s);
        demand.stability.expect("the job has a base")
    }

    /// A level slide of one load.
    fn level(kg: f64, travel_m: f64) -> Slide {
        let load = LoadRange {
            least: kilograms(kg),
            most: kilograms(kg),
        };
        Slide {
            incline: Angle::from_si(0.0),
            travel: metres(travel_m),
            load,
            ..axis()
        }
    }

    #[test]
    fn ballast_and_length_by_hand() {
        // 30 kg reaching to 0.8 m on 120 kg with half a base of 0.35 m, so slow that only weight counts:
        // O = 30·0.45 = 13.5, R = 42 kg m. For a margin of 0.8: O/0.2 = 67.5, so 25.5/0.35 = 72.857 kg.
        // Length: 120 h ≥ 30 (0.8 - h)/0.2 gives 270 h = 120, h = 0.444 44 m: a base of 0.888 89 m.
        let slide = level(30.0, 0.4);
        let mut job = about(&slide);
        job.rules.stability_least = 0.8;
        job.base = Some(Base {
            mass: kilograms(120.0),
            length: metres(0.7),
            load_reach: metres(0.4),
            ..base()
        });
        let found = stability(&job, &slide, &Assist::None, 1e4);
        near(found.margin_static, 1.0 - 13.5 / 42.0, 1e-9);
        near(found.ballast_kg, 72.857, 0.01);
        near(found.length_needed_m.unwrap_or_default(), 0.888_89, 1e-4);
        assert_eq!(found.edge, "out");
        near(found.worst_position_m, 0.4, 1e-9);
        // Centre of mass: 30·0.4/150 to 30·0.8/150.
        near(found.centre_least_m, 0.08, 1e-9);
        near(found.centre_most_m, 0.16, 1e-9);
    }

    #[test]
    fn a_mended_base_stands() {
        let slide = level(60.0, 0.6);
        let mut job = about(&slide);
        job.base = Some(Base {
            length: metres(0.5),
            load_reach: metres(0.1),
            ..base()
        });
        let found = stability(&job, &slide, &Assist::None, 1.0);
        assert!(found.margin() < job.rules.stability_least);
        let longer = found.length_needed_m.expect("a longer base stands");
        job.base = Some(Base {
            length: metres(longer),
            load_reach: metres(0.1),
            ..base()
        });
        let mended = stability(&job, &slide, &Assist::None, 1.0);
        near(mended.margin(), job.rules.stability_least, 1e-5);
        near(mended.ballast_kg, 0.0, 1e-3);
    }

    #[test]
    fn a_counterweight_falls_as_the_load_rises() {
        // Load and weight of 80 kg 0.5 m to either side of a 100 kg machine 1 m long, each over an edge.
        // Stopping with 5 m/s² on the way up, the load loses 5 m/s² of its weight and the other gains it.
        // About the weight's edge: R = 100·g·0.5 + 80·g·1.0, O = 80·5·1.0 = 400.
        let slide = Slide {
            load: LoadRange {
                least: kilograms(80.0),
                most: kilograms(80.0),
            },
            ..axis()
        };
        let mut job = about(&slide);
        job.base = Some(Base {
            length: metres(1.0),
            width: metres(4.0),
            mass: kilograms(100.0),
            load_reach: metres(0.5),
            assist_reach: metres(-0.5),
            stop_distance: None,
            ..base()
        });
        job.timing.rest_back = seconds(0.0);
        let assist = Assist::Counterweight(Counterweight {
            mass_kg: 80.0,
            travel_ratio: 1.0,
            sheaves: 2,
            loss_per_sheave: 0.02,
            sheave_mass_kg: 0.0,
        });
        // Peak speed 1.5·0.9/4 = 0.3375 m/s: v²/(2·2 mm) is above 5, so the cap holds.
        let found = stability(&job, &slide, &assist, 4.0);
        near(found.margin_static, 1.0, 1e-12);
        let restoring = 100.0 * G_M_S2 * 0.5 + 80.0 * G_M_S2;
        near(found.margin_emergency_stop, 1.0 - 400.0 / restoring, 1e-9);
    }

    #[test]
    fn nothing_tips_beside_its_edge_without_a_limit() {
        // All of the load beyond the edge of a base without mass: no restoring moment is left, and no infinity.
        let slide = level(50.0, 0.2);
        let mut job = about(&slide);
        job.base = Some(Base {
            mass: kilograms(1e-9),
            length: metres(0.2),
            load_reach: metres(1.0),
            ..base()
        });
        let found = stability(&job, &slide, &Assist::None, 10.0);
        assert!(found.margin() <= -99.0 && found.margin() >= WORST_MARGIN);
    }
}
