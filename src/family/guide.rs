//! The rail guide, where the need brings none: the cheapest that carries the load through its life.

use super::{Ask, Check, Life, PartLine, Train, site};
use crate::catalog::Guide;
use crate::demand::{CarriageLoad, RailDemand};
use crate::mechanics::guide;
use crate::quantity::{Force, Si, newton_metres, newtons, show};

/// Rail past the carriages at either end (common practice, no source).
const RAIL_SPARE_M: f64 = 0.02;
const M_PER_KM: f64 = 1000.0;
/// A carriage is never without any load; this keeps its life a number.
const LEAST_LOAD_N: f64 = 1.0;

/// A guide as it would be built.
#[derive(Debug, Clone, Copy)]
pub(super) struct Layout<'a> {
    guide: &'a Guide,
    rails: u32,
    mean: Force,
    peak: Force,
    length_m: f64,
}

impl<'a> Layout<'a> {
    fn new(ask: &Ask<'_>, rails: &RailDemand, guide: &'a Guide, two: bool) -> Self {
        let length_m = ask.travel_m()
            + ask.bearing_spacing_m()
            + guide.carriage_length.si()
            + site::bellows_m(ask, &guide.common, Some(guide.size))
            + 2.0 * RAIL_SPARE_M;
        // Two rails share the couple across; one bears it in its own width.
        let (CarriageLoad { mean_n, peak_n }, across) = if two {
            (rails.two_rails, newtons(0.0))
        } else {
            let couple = newton_metres(rails.couple_across_n_m);
            (rails.one_rail, guide::couple_across(couple, guide.size))
        };
        Self {
            guide,
            rails: if two { 2 } else { 1 },
            mean: newtons(mean_n.max(LEAST_LOAD_N)) + across,
            peak: newtons(peak_n) + across,
            length_m,
        }
    }

    fn cost(&self) -> f64 {
        let rail = self.guide.rail_price_per_metre * self.length_m;
        f64::from(self.rails) * (rail + 2.0 * self.guide.common.price)
    }

    fn checks(&self, ask: &Ask<'_>, speed_m_s: f64) -> [Check; 4] {
        let guide = self.guide;
        let life = guide::rail_life(guide.dynamic_rating, self.mean).si();
        let lived = ask.life_distance_m();
        [
            Check::new("guide.life", lived / M_PER_KM, life / M_PER_KM, "km")
                .from(
                    "100 km · (C/P)³, P the cube mean on the worst carriage",
                    "ISO 14728-1",
                )
                .given(
                    &[("C", "N"), ("P", "N")],
                    &[guide.dynamic_rating.si(), self.mean.si()],
                ),
            Check::new(
                "guide.static",
                self.peak.si(),
                guide.static_rating.si(),
                "N",
            )
            .factor(ask.job.rules.guide_static_factor)
            .from(
                "C0 ≥ factor · P0, the emergency stop included",
                "ISO 14728-2; factor common practice, no source",
            )
            .given(
                &[("P0", "N"), ("C0", "N")],
                &[self.peak.si(), guide.static_rating.si()],
            )
            .rule("guide_static_factor"),
            Check::new("guide.speed", speed_m_s, guide.speed_most.si(), "m/s")
                .from("peak speed ≤ that of the guide", "catalog")
                .given(&[("v", "m/s")], &[speed_m_s]),
            Check::new(
                "guide.rail_length",
                self.length_m,
                guide.length_most.si(),
                "m",
            )
            .from(
                "travel + bearing spacing + carriage + ends + folded bellows, in one piece",
                "geometry",
            )
            .given(
                &[("S", "m"), ("b", "m")],
                &[ask.travel_m(), ask.bearing_spacing_m()],
            ),
        ]
    }
}

/// Fits the guide to a train, with its parts and life, where the need brings none.
pub(super) fn fit<'a>(ask: &Ask<'a>, train: &mut Train<'a>) -> Option<Layout<'a>> {
    let rails = train.demand.rails?;
    let speed_m_s = train.demand.worst.peak_speed_m_s;
    let layouts = ask
        .catalog
        .guides
        .iter()
        .flat_map(|guide| [false, true].map(|two| Layout::new(ask, &rails, guide, two)));
    // The cheapest that passes; where none does, the one that comes nearest.
    let over = |layout: &Layout| {
        let checks = layout.checks(ask, speed_m_s);
        let worst = checks.iter().map(Check::utilisation).fold(0.0, f64::max);
        if worst <= 1.0 + 1e-9 { 0.0 } else { worst }
    };
    let chosen = layouts
        .map(|layout| (over(&layout), layout.cost(), layout))
        .min_by(|p, q| p.0.total_cmp(&q.0).then(p.1.total_cmp(&q.1)));
    train.guide = true;
    let (_, _, layout) = chosen?;
    build(ask, train, &layout);
    Some(layout)
}

/// Adds the checks of the guide that was fitted, and what must be said of it.
pub(super) fn check(ask: &Ask<'_>, train: &mut Train<'_>, layout: Option<&Layout<'_>>) {
    let Some(layout) = layout else {
        if train.guide {
            train.checks.push(Check::of(
                "guide.part",
                false,
                "a guide is asked for and the catalog has none",
            ));
        }
        return;
    };
    let speed_m_s = train.demand.worst.peak_speed_m_s;
    train.checks.extend(layout.checks(ask, speed_m_s));
    say(ask, train, layout);
}

fn build<'a>(ask: &Ask<'a>, train: &mut Train<'a>, layout: &Layout<'a>) {
    let guide = layout.guide;
    let rail = PartLine {
        common: &guide.common,
        kind: "guides",
        quantity: layout.rails,
        length_m: Some(layout.length_m),
        price: guide.rail_price_per_metre * layout.length_m,
        mass_kg: guide.rail_mass_per_length.si() * layout.length_m,
        on_machine: true,
    };
    let carriages = PartLine::pieces("guides", &guide.common, 2 * layout.rails);
    train.parts.extend([rail, carriages]);
    let life_m = guide::rail_life(guide.dynamic_rating, layout.mean).si();
    let a_year_m = ask.job.timing.cycles_per_year() * 2.0 * ask.travel_m();
    train.lives.push(Life {
        what: "guide",
        years: life_m / a_year_m,
    });
}

fn say(ask: &Ask<'_>, train: &mut Train<'_>, layout: &Layout<'_>) {
    let guide = layout.guide;
    let size_mm = show(guide.size.si() * 1000.0);
    train.remarks.push(if layout.rails == 2 {
        format!(
            "The guide is two rails of size {size_mm} mm with two carriages each, taken to stand {} m apart like the carriages along them.",
            show(ask.bearing_spacing_m())
        )
    } else {
        format!("The guide is one rail of size {size_mm} mm with two carriages.")
    });
    train.remarks.push(format!(
        "Guide friction is the {} of the requirements; the rails' own is {} and {} N of seal drag.",
        show(ask.guide_friction()),
        show(guide.friction),
        show(f64::from(2 * layout.rails) * guide.drag.si())
    ));
}
