//! The worst instant, and what ballast or base would mend it.

use super::Stability;
use super::moments::{Body, Edge, Moments, machine};
use crate::quantity::{G_M_S2, Si};
use crate::requirements::Base;

/// Past so many lengths or widths of the base no larger one is looked for.
const SIZES_TRIED: f64 = 64.0;
/// A size is found to this part of it.
const SIZE_PRECISION: f64 = 1e-6;

/// Where the drive stands, and the arm on a hinge.
type Standing = (f64, Option<f64>);

/// The instant before and its margin: on an upright axis most instants are alike to the bit.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Latest(Option<([Body; 2], [Option<f64>; 2], f64)>);

impl Latest {
    /// The margin of an instant; looked at where it differs from the one before in what a moment knows of.
    pub(super) fn margin(
        &mut self,
        tipping: &mut Tipping,
        movers: &[Body; 2],
        place: Standing,
    ) -> f64 {
        let same = |(p, q): (&Body, &Body)| {
            let bits = |b: &Body| {
                let along = [b.mass_kg, b.x_m, b.ax_m_s2, b.az_m_s2].map(f64::to_bits);
                let across = [b.y_m, b.ay_m_s2, b.couple_n_m].map(f64::to_bits);
                (along, across)
            };
            // Height counts only with a level acceleration.
            let low = p.ax_m_s2 == 0.0 && p.ay_m_s2 == 0.0;
            bits(p) == bits(q) && (low || p.z_m.to_bits() == q.z_m.to_bits())
        };
        let half_m = tipping.half_m;
        if let Some((before, then_m, margin)) = &self.0
            && *then_m == half_m
            && before.iter().zip(movers).all(same)
        {
            return *margin;
        }
        let margin = tipping.margin(movers, place);
        // An instant that lengthened the base counts anew with the longer one.
        self.0 = (tipping.half_m == half_m).then_some((*movers, half_m, margin));
        margin
    }
}

/// The worst found so far, and what would mend it.
pub(super) struct Tipping<'a> {
    base: &'a Base,
    machine: Body,
    /// Moments of the machine about each edge, and how far the edge is from the middle.
    edges: Vec<(&'static str, Edge, f64, Moments)>,
    least: f64,
    worst: f64,
    pub(super) found: Stability,
    /// Ballast at the middle that each edge asks for, kg.
    ballast_kg: [f64; 4],
    /// Half the length and half the width of a base that every instant so far is content with; none where none is.
    half_m: [Option<f64>; 2],
}

impl<'a> Tipping<'a> {
    pub(super) fn new(base: &'a Base, edges: &[(&'static str, Edge)], least: f64) -> Self {
        let found = Stability {
            centre_least_m: f64::INFINITY,
            centre_most_m: f64::NEG_INFINITY,
            ..Stability::default()
        };
        let machine = machine(base);
        let standing = |&(name, edge): &(&'static str, Edge)| {
            let half_m = edge.half_m(base);
            let moments = Moments::default().and(edge, half_m, &[machine]);
            (name, edge, half_m, moments)
        };
        Self {
            base,
            machine,
            edges: edges.iter().map(standing).collect(),
            least,
            worst: f64::INFINITY,
            found,
            ballast_kg: [0.0; 4],
            half_m: [base.length, base.width].map(|size| Some(size.si() / 2.0)),
        }
    }

    /// The least margin of an instant over the edges, remembering what it shows.
    pub(super) fn margin(&mut self, movers: &[Body; 2], (position_m, angle_rad): Standing) -> f64 {
        self.take_centre(movers);
        self.take_sliding(movers);
        let mut least = f64::INFINITY;
        for index in 0..self.edges.len() {
            let (name, edge, half_m, standing) = self.edges[index];
            let moments = standing.and(edge, half_m, movers);
            let margin = moments.margin();
            least = least.min(margin);
            if margin < self.worst - crate::demand::axis::TIE {
                self.worst = margin;
                self.found.worst_position_m = position_m;
                self.found.worst_angle_rad = angle_rad;
                self.found.edge = name;
            }
            if margin < self.least {
                let ballast = moments.ballast_kg(half_m, self.least);
                self.found.ballast_kg = self.found.ballast_kg.max(ballast);
                self.ballast_kg[index] = self.ballast_kg[index].max(ballast);
                self.enlarge(edge, movers);
            }
        }
        least
    }

    /// Lengthens or widens the base until this instant is content, too.
    fn enlarge(&mut self, edge: Edge, movers: &[Body; 2]) {
        let content = |half_m: f64| {
            let standing = Moments::default().and(edge, half_m, &[self.machine]);
            standing.and(edge, half_m, movers).margin() >= self.least
        };
        let (across, size) = match edge {
            Edge::End(_) => (0, self.base.length.si()),
            Edge::Side(_) => (1, self.base.width.si()),
        };
        let Some(mut low) = self.half_m[across] else {
            return;
        };
        if content(low) {
            return;
        }
        let mut high = low;
        while !content(high) {
            high *= 2.0;
            if high > SIZES_TRIED * size {
                self.half_m[across] = None;
                return;
            }
        }
        while high - low > SIZE_PRECISION * high {
            let middle = f64::midpoint(low, high);
            if content(middle) {
                high = middle;
            } else {
                low = middle;
            }
        }
        self.half_m[across] = Some(high);
    }

    /// Ballast that mends the margin from the opposite edge: it has twice the lever there and none about its own edge.
    pub(super) fn ballast_at_end_kg(&self) -> Option<f64> {
        let mut asked = (0..self.edges.len()).filter(|index| self.ballast_kg[*index] > 0.0);
        let (Some(one), None) = (asked.next(), asked.next()) else {
            return None;
        };
        // A machine that may tip over either side alike has no opposite one.
        let (name, ..) = self.edges[one];
        (name != "side").then(|| self.ballast_kg[one] / 2.0)
    }

    /// Length and width of a base that mend the margin together, where such a one is needed and does.
    pub(super) fn size_needed(&self) -> [Option<f64>; 2] {
        let [Some(half_length), Some(half_width)] = self.half_m else {
            return [None; 2];
        };
        let needed = |half: f64, now: f64| (2.0 * half > now).then_some(2.0 * half);
        [
            needed(half_length, self.base.length.si()),
            needed(half_width, self.base.width.si()),
        ]
    }

    fn take_centre(&mut self, movers: &[Body; 2]) {
        let (mut mass, mut turning, mut aside) = (0.0, 0.0, 0.0);
        for body in [&self.machine].into_iter().chain(movers) {
            mass += body.mass_kg;
            turning += body.mass_kg * body.x_m;
            aside += body.mass_kg * body.y_m;
        }
        let (centre, aside) = (turning / mass, aside / mass);
        self.found.centre_least_m = self.found.centre_least_m.min(centre);
        self.found.centre_most_m = self.found.centre_most_m.max(centre);
        if self.edges.len() == Edge::AROUND.len() {
            let [right, left] = self.found.centre_aside_m.unwrap_or([aside; 2]);
            self.found.centre_aside_m = Some([right.min(aside), left.max(aside)]);
        }
    }

    fn take_sliding(&mut self, movers: &[Body; 2]) {
        // The machine stands still: where nothing moves level, nothing pushes it.
        let level = |body: &Body| body.ax_m_s2 != 0.0 || body.ay_m_s2 != 0.0;
        if !movers.iter().any(level) {
            return;
        }
        let (mut along, mut across, mut down) = (0.0, 0.0, 0.0);
        for body in [&self.machine].into_iter().chain(movers) {
            along += body.mass_kg * body.ax_m_s2;
            across += body.mass_kg * body.ay_m_s2;
            down += body.mass_kg * (G_M_S2 + body.az_m_s2);
        }
        let level = if across == 0.0 {
            f64::abs(along)
        } else {
            f64::sqrt(along * along + across * across)
        };
        if down > 0.0 && level != 0.0 {
            self.found.sliding_ratio = self.found.sliding_ratio.max(level / down);
        }
    }
}
