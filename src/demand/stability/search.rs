//! The worst instant, and what ballast or base would mend it.

use super::Stability;
use super::moments::{Body, Edge, Moments, machine};
use crate::quantity::{G_M_S2, Si};
use crate::requirements::Base;

/// Past so many base lengths no longer base is looked for.
const LENGTHS_TRIED: f64 = 64.0;
/// A base length is found to this part of it.
const LENGTH_PRECISION: f64 = 1e-6;

/// The instant before and its margin: on an upright axis most instants are alike to the bit.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Known(Option<([Body; 2], Option<f64>, f64)>);

impl Known {
    /// The margin of an instant; looked at where it differs from the one before in what a moment knows of.
    pub(super) fn margin(
        &mut self,
        search: &mut Search,
        movers: &[Body; 2],
        position_m: f64,
    ) -> f64 {
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
pub(super) struct Search<'a> {
    base: &'a Base,
    machine: Body,
    /// Moments of the machine about each edge, and how far the edge is from the middle.
    edges: [(&'static str, Edge, f64, Moments); 3],
    least: f64,
    worst: f64,
    pub(super) found: Stability,
    /// Ballast at the middle that each edge asks for, kg.
    ballast_kg: [f64; 3],
    /// Half the base length that every instant so far is content with; none where no length is.
    half_m: Option<f64>,
}

impl<'a> Search<'a> {
    pub(super) fn new(base: &'a Base, least: f64) -> Self {
        let found = Stability {
            margin_static: f64::INFINITY,
            margin_dynamic: f64::INFINITY,
            margin_emergency_stop: f64::INFINITY,
            worst_position_m: 0.0,
            edge: "",
            centre_least_m: f64::INFINITY,
            centre_most_m: f64::NEG_INFINITY,
            ballast_kg: 0.0,
            ballast_at_end_kg: None,
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
            ballast_kg: [0.0; 3],
            half_m: Some(base.length.si() / 2.0),
        }
    }

    /// The least margin of an instant over the edges, remembering what it shows.
    pub(super) fn margin(&mut self, movers: &[Body; 2], position_m: f64) -> f64 {
        self.take_centre(movers);
        self.take_sliding(movers);
        let mut least = f64::INFINITY;
        for (index, (name, edge, half_m, standing)) in self.edges.into_iter().enumerate() {
            let moments = standing.and(edge, half_m, movers);
            let margin = moments.margin();
            least = least.min(margin);
            if margin < self.worst - crate::demand::axis::TIE {
                self.worst = margin;
                self.found.worst_position_m = position_m;
                self.found.edge = name;
            }
            if margin < self.least {
                let ballast = moments.ballast_kg(half_m, self.least);
                self.found.ballast_kg = self.found.ballast_kg.max(ballast);
                self.ballast_kg[index] = self.ballast_kg[index].max(ballast);
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

    /// Ballast that mends the margin from the opposite end: it has twice the lever there and none about its own edge.
    pub(super) fn ballast_at_end_kg(&self) -> Option<f64> {
        match self.ballast_kg {
            [kg, 0.0, 0.0] | [0.0, kg, 0.0] if kg > 0.0 => Some(kg / 2.0),
            _ => None,
        }
    }

    /// The base length that mends the margin, where one is needed and does.
    pub(super) fn length_needed(&self) -> Option<f64> {
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
