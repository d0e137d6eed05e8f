//! The guide of a slide whose need brings none: of profile rails, round shafts and plain ways the cheapest that carries the load.

mod checks;
mod layout;
mod words;

use self::checks::{SlideSpeeds, checks, life_m};
pub(in crate::family) use self::layout::Layout;
use self::layout::layouts;
use crate::catalog::{Catalog, bush_sort};
use crate::family::check::SURELY;
use crate::family::{Ask, Check, Drive, Fitting, Hours, Life, site};
use crate::quantity::show;

/// A guide in words and figures, for the study.
#[derive(Debug, Clone, PartialEq)]
pub struct GuideDetail {
    /// `profile_rail`, `shafts_with_ball_bushes`, `shafts_with_plain_bushes` or `plain_ways`.
    pub sort: &'static str,
    /// How many rails, shafts or ways.
    pub lines: u32,
    /// Its own coefficient of friction.
    pub friction: f64,
    /// What can still turn or move, and what stops it.
    pub freedom: String,
    /// Every other sort, and why it was not taken.
    pub not_taken: Vec<String>,
}

/// The hours of a guide.
const GUIDE: Fitting = Fitting {
    hours: Hours::GUIDE,
    makes: "guide mounting",
};

/// Fits the guide to a drive, with its parts and life, where the need brings none.
pub(in crate::family) fn fit<'a>(ask: &Ask<'a>, drive: &mut Drive<'a>) -> Option<Layout<'a>> {
    let rails = drive.demand.rails?;
    drive.fittings.push(GUIDE);
    let layout = choose(ask, layouts(ask, &rails), motion(ask, drive))?;
    drive.parts.extend(layout.parts());
    drive
        .covered
        .extend(layout.covered.then_some(layout.build.common().id.as_str()));
    let a_year_m = ask.job.timing.cycles_per_year() * 2.0 * ask.travel_m();
    let years = life_m(ask, &layout) / a_year_m;
    drive.lives.push(Life::new("guide", years));
    Some(layout)
}

/// The cheapest that passes; where none does, the one that comes nearest.
fn choose<'a>(
    ask: &Ask<'_>,
    all: impl Iterator<Item = Layout<'a>>,
    motion: SlideSpeeds,
) -> Option<Layout<'a>> {
    let mut best: Option<(f64, Layout)> = None;
    for layout in all {
        let earlier = best.as_ref().is_none_or(|(_, best)| layout.before(best));
        // What costs more than one that passes is not looked at.
        if !earlier && best.as_ref().is_some_and(|(least, _)| *least <= 0.0) {
            continue;
        }
        let here = excess(ask, &layout, motion, "");
        let nearer = best.as_ref().is_none_or(|(least, _)| {
            let apart = here.total_cmp(least);
            apart.is_lt() || apart.is_eq() && earlier
        });
        if nearer {
            best = Some((here, layout));
        }
    }
    best.map(|(_, layout)| layout)
}

/// How far a guide is over what it can, a check aside; 0 where it passes and bears the place.
fn excess(ask: &Ask<'_>, layout: &Layout<'_>, motion: SlideSpeeds, aside: &str) -> f64 {
    let worst = worst_failing(ask, layout, motion, aside);
    let worst = worst.map_or(0.0, |check| check.utilisation());
    if bears_place(ask, layout) {
        worst
    } else {
        worst.max(SURELY)
    }
}

fn worst_failing(
    ask: &Ask<'_>,
    layout: &Layout<'_>,
    motion: SlideSpeeds,
    aside: &str,
) -> Option<Check> {
    checks(ask, layout, motion)
        .into_iter()
        .filter(|check| !check.passes() && check.id != aside)
        .max_by(|p, q| p.utilisation().total_cmp(&q.utilisation()))
}

fn bears_place(ask: &Ask<'_>, layout: &Layout<'_>) -> bool {
    site::suits_covered(ask, layout.build.common(), layout.build.covered())
}

fn motion(ask: &Ask<'_>, drive: &Drive<'_>) -> SlideSpeeds {
    SlideSpeeds {
        peak_m_s: drive.demand.worst.peak_speed_m_s,
        mean_m_s: ask.travel_m() / drive.demand.travel_time_s,
    }
}

/// Adds the checks of the guide that was fitted, and what must be said of it.
pub(in crate::family) fn check(ask: &Ask<'_>, drive: &mut Drive<'_>, layout: Option<&Layout<'_>>) {
    let Some(layout) = layout else {
        if drive.demand.rails.is_some() {
            let says = "a guide is asked for and the catalog has none";
            drive.checks.push(Check::of("guide.part", false, says));
        }
        return;
    };
    let motion = motion(ask, drive);
    drive.checks.extend(checks(ask, layout, motion));
    let bearings = f64::from(2 * layout.lines);
    drive
        .remarks
        .push(format!("The guide is {}.", words::built(ask, layout)));
    drive.remarks.push(format!(
        "Guide friction is the {} of the requirements; the guide's own is {} and {} N of seal drag.",
        show(ask.guide_friction()),
        show(layout.build.friction()),
        show(bearings * layout.build.drag_n())
    ));
}

/// The guide of a finished drive, what it leaves free, and why it is no other.
pub fn guide_detail(ask: &Ask<'_>, drive: &Drive<'_>) -> Option<GuideDetail> {
    let all: Vec<Layout> = layouts(ask, drive.demand.rails.as_ref()?).collect();
    let motion = motion(ask, drive);
    let layout = choose(ask, all.iter().copied(), motion)?;
    Some(GuideDetail {
        sort: layout.build.sort().name(),
        lines: layout.lines,
        friction: layout.build.friction(),
        freedom: words::freedom(ask, &layout),
        not_taken: words::not_taken(ask, &layout, &all, motion),
    })
}

/// Sorts of guide that rub more than a job is computed with: the least friction that lets each in, and what it is called.
pub fn let_in_by_friction(catalog: &Catalog, computed: f64) -> Vec<(f64, &'static str)> {
    let bushes = |sort: &'static str| {
        let same = catalog
            .shaft_guides
            .iter()
            .filter(move |guide| guide.sort == sort);
        same.map(|guide| guide.friction).reduce(f64::min)
    };
    let ways = catalog.slideways.iter().map(|way| way.friction);
    let rails = catalog.guides.iter().map(|guide| guide.friction);
    let least = [
        (rails.reduce(f64::min), layout::Sort::Rail),
        (bushes(bush_sort::BALL), layout::Sort::BallShaft),
        (bushes(bush_sort::PLAIN), layout::Sort::PlainShaft),
        (ways.reduce(f64::min), layout::Sort::Way),
    ];
    least
        .into_iter()
        .filter_map(|(friction, sort)| Some((friction.filter(|f| *f > computed)?, sort.words())))
        .collect()
}
