//! The guides that a catalog lets one build for a job: sort, lines, length and price.

use crate::catalog::{Common, Guide, ShaftGuide, ShaftSupport, Slideway, Sound, bush_sort};
use crate::demand::{CarriageLoad, RailDemand};
use crate::family::choose::Bought;
use crate::family::{Ask, PartLine, site};
use crate::quantity::{Force, Length, Si, newtons};

/// Guide past its bearings at either end (common practice, no source).
const SPARE_M: f64 = 0.02;
/// Bearings on each line of a guide.
const ON_A_LINE: u32 = 2;

/// What a guide is built of.
#[derive(Debug, Clone, Copy)]
pub(super) enum Build<'a> {
    /// Profile rails with ball carriages.
    Rail(&'a Guide),
    /// Round shafts with bushes, in blocks or along a foot.
    Shaft(&'a ShaftGuide, &'a ShaftSupport),
    /// Plain ways.
    Way(&'a Slideway),
}

/// Sorts of guide, as people choose between them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Sort {
    Rail,
    BallShaft,
    PlainShaft,
    Way,
}

impl Sort {
    pub(super) const ALL: [Self; 4] = [Self::Rail, Self::BallShaft, Self::PlainShaft, Self::Way];

    pub(super) fn name(self) -> &'static str {
        match self {
            Self::Rail => "profile_rail",
            Self::BallShaft => "shafts_with_ball_bushes",
            Self::PlainShaft => "shafts_with_plain_bushes",
            Self::Way => "plain_ways",
        }
    }

    pub(super) fn words(self) -> &'static str {
        match self {
            Self::Rail => "profile rails",
            Self::BallShaft => "round shafts with ball bushes",
            Self::PlainShaft => "round shafts with plain bushes",
            Self::Way => "plain ways",
        }
    }
}

/// What one bearing of a guide bears.
#[derive(Debug, Clone, Copy)]
pub(super) enum Bears {
    /// Balls, by their ratings.
    Rolls { dynamic: Force, still: Force },
    /// A rubbing surface, by its area.
    Rubs(Rubbing),
}

/// A rubbing surface and its limits.
#[derive(Debug, Clone, Copy)]
pub(super) struct Rubbing {
    pub width: Length,
    /// Length that bears: of a bush open below a part of its own.
    pub length: Length,
    pub pressure_most_pa: f64,
    pub pv_most: f64,
    pub wear_rate: f64,
    pub wear_most: Length,
}

/// A guide as it would be built.
#[derive(Debug, Clone, Copy)]
pub(in crate::family) struct Layout<'a> {
    pub(super) build: Build<'a>,
    /// One or two rails, shafts or ways.
    pub(super) lines: u32,
    pub(super) load: CarriageLoad,
    /// Length that each line is cut to.
    pub(super) length_m: f64,
    /// Whether it runs under bellows.
    pub(super) covered: bool,
    /// What it costs to buy, to fit and to keep over the horizon, bellows included.
    pub(super) cost: f64,
}

/// Every guide that could be built, in the order of the catalog.
pub(super) fn layouts<'a>(ask: &Ask<'a>, demand: &RailDemand) -> impl Iterator<Item = Layout<'a>> {
    let catalog = ask.catalog;
    let rails = catalog.guides.iter().map(Build::Rail);
    let shafts = catalog.shaft_guides.iter().flat_map(move |guide| {
        let same = |support: &&ShaftSupport| support.diameter == guide.diameter;
        let supports = catalog.shaft_supports.iter().filter(same);
        supports.map(move |support| Build::Shaft(guide, support))
    });
    let ways = catalog.slideways.iter().map(Build::Way);
    // A load would turn about one round shaft, and lift off one way: only a rail can stand alone.
    rails.chain(shafts).chain(ways).flat_map(move |build| {
        let least = if matches!(build, Build::Rail(_)) {
            1
        } else {
            2
        };
        (least..=2).flat_map(move |lines| {
            let choices = site::cover_choices(ask, build.common(), build.covered());
            let choices = choices.iter();
            choices.map(move |covered| Layout::new(ask, demand, build, lines, *covered))
        })
    })
}

impl<'a> Layout<'a> {
    fn new(
        ask: &Ask<'_>,
        demand: &RailDemand,
        build: Build<'a>,
        lines: u32,
        covered: bool,
    ) -> Self {
        // Two lines share the couple across; one bears it in its own width.
        let width_m = if lines == 2 {
            ask.bearing_spacing_m()
        } else {
            build.size().si()
        };
        let mut layout = Self {
            build,
            lines,
            load: demand.on(lines, width_m),
            length_m: ask.travel_m()
                + ask.bearing_spacing_m()
                + build.bearing_length().si()
                + site::bellows_m(ask, covered, build.covered())
                + 2.0 * SPARE_M
                + 2.0 * build.end_m(),
            covered,
            cost: 0.0,
        };
        layout.cost = layout.whole_cost(ask);
        layout
    }

    fn ids(&self) -> (&'a str, Option<&'a str>, u32, bool) {
        let support = match self.build {
            Build::Shaft(_, support) => Some(support.common.id.as_str()),
            _ => None,
        };
        (
            self.build.common().id.as_str(),
            support,
            self.lines,
            self.covered,
        )
    }

    /// Whether it comes first of two that pass: the cheaper, of equals by its parts.
    pub(super) fn before(&self, other: &Self) -> bool {
        let price = self.cost.total_cmp(&other.cost);
        price.then_with(|| self.ids().cmp(&other.ids())).is_lt()
    }

    /// What it costs: [`Layout::parts`] with the hours to fit and keep them, and bellows.
    fn whole_cost(&self, ask: &Ask<'_>) -> f64 {
        let bellows = site::bellows_line(ask, self.covered, self.build.covered());
        let bellows = bellows.map_or_else(Bought::default, |line| Bought::line(&line));
        // A guide is laid out for every drive that is tried: no list is made for a sum.
        let lines = self.lines().into_iter().flatten();
        let bought: Bought = lines.map(|line| Bought::line(&line)).sum();
        ask.life_cost().total(&(bought + bellows.times(self.lines)))
    }

    /// Its parts: what is cut to length, its bearings, and what holds it.
    pub(super) fn parts(&self) -> Vec<PartLine<'a>> {
        self.lines().into_iter().flatten().collect()
    }

    fn lines(&self) -> [Option<PartLine<'a>>; 3] {
        let (price, mass) = self.build.per_metre();
        let line = PartLine {
            length_m: Some(self.length_m),
            price: price * self.length_m,
            mass_kg: mass * self.length_m,
            ..self.build.pieces(self.lines)
        };
        let bearings = self.build.pieces(ON_A_LINE * self.lines);
        let held = match self.build {
            Build::Shaft(_, support) => Some(match support.mass_per_length {
                Some(mass) => PartLine {
                    quantity: self.lines,
                    ..PartLine::cut(support, self.length_m, support.price_per_metre, mass)
                },
                None => PartLine::part(support, 2 * self.lines),
            }),
            _ => None,
        };
        [Some(line), Some(bearings), held]
    }

    /// Length between a shaft's end blocks, where it stands in such.
    pub(super) fn span_m(&self) -> Option<f64> {
        match self.build {
            Build::Shaft(_, support) if !support.along => {
                Some(self.length_m - 2.0 * self.build.end_m())
            }
            _ => None,
        }
    }
}

/// What all guides state under one name.
macro_rules! of_any {
    ($build:expr, $guide:ident => $figure:expr) => {
        match $build {
            Build::Rail($guide) => $figure,
            Build::Shaft($guide, _) => $figure,
            Build::Way($guide) => $figure,
        }
    };
}

impl<'a> Build<'a> {
    pub(super) fn sort(self) -> Sort {
        match self {
            Self::Rail(_) => Sort::Rail,
            Self::Shaft(guide, _) if guide.sort == bush_sort::BALL => Sort::BallShaft,
            Self::Shaft(..) => Sort::PlainShaft,
            Self::Way(_) => Sort::Way,
        }
    }

    pub(super) fn common(self) -> &'a Common {
        of_any!(self, guide => &guide.common)
    }

    fn pieces(self, quantity: u32) -> PartLine<'a> {
        of_any!(self, guide => PartLine::part(guide, quantity))
    }

    /// Width of a rail or way, diameter of a shaft.
    pub(super) fn size(self) -> Length {
        match self {
            Self::Rail(guide) => guide.size,
            Self::Shaft(guide, _) => guide.diameter,
            Self::Way(way) => way.width,
        }
    }

    pub(super) fn covered(self) -> Option<Length> {
        of_any!(self, guide => guide.covered_size())
    }

    fn bearing_length(self) -> Length {
        match self {
            Self::Rail(guide) => guide.carriage_length,
            Self::Shaft(guide, _) => guide.bush_length,
            Self::Way(way) => way.pad_length,
        }
    }

    /// Length that what holds it takes at either end.
    pub(super) fn end_m(self) -> f64 {
        match self {
            Self::Shaft(_, support) => support.end_length.map_or(0.0, Si::si),
            _ => 0.0,
        }
    }

    /// Price and mass of a metre.
    fn per_metre(self) -> (f64, f64) {
        match self {
            Self::Rail(guide) => (guide.rail_price_per_metre, guide.rail_mass_per_length.si()),
            Self::Shaft(guide, _) => (
                guide.shaft_price_per_metre,
                guide.shaft_mass_per_length.si(),
            ),
            Self::Way(way) => (way.way_price_per_metre, way.way_mass_per_length.si()),
        }
    }

    pub(super) fn friction(self) -> f64 {
        of_any!(self, guide => guide.friction)
    }

    /// Seal drag of one bearing, N.
    pub(super) fn drag_n(self) -> f64 {
        match self {
            Self::Rail(guide) => guide.drag.si(),
            Self::Shaft(guide, _) => guide.drag.si(),
            Self::Way(_) => 0.0,
        }
    }

    pub(super) fn speed_most_m_s(self) -> f64 {
        of_any!(self, guide => guide.speed_most.si())
    }

    pub(super) fn length_most_m(self) -> f64 {
        of_any!(self, guide => guide.length_most.si())
    }

    pub(super) fn bears(self) -> Bears {
        match self {
            Self::Rail(guide) => Bears::Rolls {
                dynamic: guide.dynamic_rating,
                still: guide.static_rating,
            },
            Self::Shaft(guide, support) => bush(guide, support),
            Self::Way(way) => Bears::Rubs(Rubbing {
                width: way.width,
                length: way.pad_length,
                pressure_most_pa: way.pressure_most.si(),
                pv_most: way.pv_most,
                wear_rate: way.wear_rate,
                wear_most: way.wear_most,
            }),
        }
    }
}

/// What a bush bears: less where it is open below for a shaft held along its length.
fn bush(guide: &ShaftGuide, support: &ShaftSupport) -> Bears {
    let part = if support.along { guide.open_part } else { 1.0 };
    if let Some((dynamic, still)) = guide.dynamic_rating.zip(guide.static_rating) {
        return Bears::Rolls {
            dynamic: newtons(dynamic.si() * part),
            still: newtons(still.si() * part),
        };
    }
    Bears::Rubs(Rubbing {
        width: guide.diameter,
        length: guide.bush_length * part,
        pressure_most_pa: guide.pressure_most.map_or(0.0, Si::si),
        pv_most: guide.pv_most.unwrap_or(0.0),
        wear_rate: guide.wear_rate.unwrap_or(0.0),
        wear_most: guide.wear_most.unwrap_or_default(),
    })
}
