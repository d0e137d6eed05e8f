//! What any drive brings along or is checked for, whatever its family: guide, assist, pivot, covers, stand, arm, site.

pub mod assist;
pub(in crate::family) mod caution;
pub(in crate::family) mod guide;
mod pins;
pub(in crate::family) mod pivot;
pub mod site;
pub(in crate::family) mod stand;
pub mod structure;

use super::choose::{Figures, Ladder, Shelf};
use super::{Ask, Check, Train, check};
use crate::catalog::Control;
use crate::demand::Demand;
use crate::family::given;
use crate::quantity::{Kind, Si, in_words};

/// What was fitted to a train, for its checks and words.
#[derive(Debug)]
pub(in crate::family) struct Fittings<'a> {
    guide: Option<guide::Layout<'a>>,
    covers: site::Covers<'a>,
}

/// Fits what every train needs beside what its family chose: guide, controls and covers that bear the site.
///
/// After this all its parts, lives and its length are known.
pub(in crate::family) fn fit<'a>(ask: &Ask<'a>, train: &mut Train<'a>) -> Fittings<'a> {
    let guide = guide::fit(ask, train);
    pivot::fit(ask, train);
    let covers = site::add_covers(ask, train);
    Fittings { guide, covers }
}

/// Whether the parts of a fitted train bear the site; what else it is checked for follows from its demand alone.
pub(in crate::family) fn bears_site(
    ask: &Ask<'_>,
    train: &Train<'_>,
    fittings: &Fittings<'_>,
) -> bool {
    site::bears(ask, train, &fittings.covers)
}

/// Whether nothing can pass at a demand, whatever its parts: the machine tips, or the arm that carries the load bends.
#[must_use]
pub(in crate::family) fn is_hopeless(ask: &Ask<'_>, demand: &Demand) -> bool {
    let bent = || structure::bending(ask.job, ask.book.axis(), demand);
    let fails = |check: &Check| !check.passes();
    stand::tipping(ask.job, demand).iter().any(fails) || bent().iter().any(fails)
}

/// Adds what every train is checked for: guide, stability, arm, assist and site, with the cautions that follow.
#[must_use]
pub(in crate::family) fn check<'a>(
    ask: &Ask<'a>,
    mut train: Train<'a>,
    fittings: &Fittings<'a>,
) -> Train<'a> {
    train.checks.extend(binding(ask, &train));
    train.checks.extend(pins(ask, &train));
    guide::check(ask, &mut train, fittings.guide.as_ref());
    assist::add(ask, &mut train);
    stand::add(ask, &mut train);
    structure::add(ask, &mut train);
    site::check(ask, &mut train, &fittings.covers);
    pins::add(ask, &mut train);
    caution::add(ask, &mut train);
    train
}

/// Fits and checks what every train has and is checked for, whatever its family.
#[must_use]
pub fn finish<'a>(ask: &Ask<'a>, mut train: Train<'a>) -> Train<'a> {
    let fittings = fit(ask, &mut train);
    check(ask, train, &fittings)
}

/// How near the guide is to jamming under the drive's own pull; nothing where the drive pulls along the guide line, or nothing
/// rubs, for then it cannot jam.
fn binding(ask: &Ask<'_>, train: &Train<'_>) -> Option<Check> {
    ask.slide()?;
    let ratio = train.demand.worst.binding_ratio;
    if ratio <= 0.0 {
        return None;
    }
    let check = Check::new("guide.binding", ratio, ask.job.rules.binding_most, "").from(
        "2·μ·d/b, jammed at 1",
        "statics with friction at both guide ends; limit common practice, no source",
    );
    let check = check.with(given![("2·μ·d/b", ratio, "")]);
    Some(check.rule("binding_most"))
}

/// Whether a drive between two pins, run in, is no longer than they are apart.
fn pins(ask: &Ask<'_>, train: &Train<'_>) -> Option<Check> {
    let [shortest, _] = ask.pins_m()?;
    let length = train.closed_length_m;
    let mut check = check!(
        "drive.length_between_pins", length => shortest, "m";
        "closed length, pin to pin <= shortest distance between the pins", "geometry";
        ("closed length", length, "m"),
    );
    if !check.passes() {
        let told = |size_m| in_words(Kind::Length, size_m);
        check.says = Some(format!(
            "the pins stand too near: run in, the drive is {} long from pin to pin, and they come within {} of each other; \
             set the one on the base further off, or the one on the arm nearer to the hinge, which takes a shorter stroke",
            told(length),
            told(shortest)
        ));
    }
    Some(check)
}

/// The controls for a drive by the power they switch: `serves` as in the catalog, and whether it must stop at several set
/// places.
pub(in crate::family) fn controls<'a>(
    ask: &Ask<'a>,
    serves: &str,
    several_stops: bool,
) -> Ladder<'a, Control> {
    // Numbers first: most controls are out by them, and words are slow to compare.
    let fits =
        |control: &&Control| (control.several_stops || !several_stops) && control.serves == serves;
    let rates = ask.life_cost();
    let fitting = ask.catalog.controls.iter().filter(fits);
    let shelf = Shelf::with(ask, fitting, |control| {
        let figures = Figures::part(&rates, &control.common);
        let drawing = figures.drawing(&rates, 0.0, control.standby.si());
        (&control.common, drawing)
    });
    shelf.ladder(|control| control.power_most.si())
}

/// The controls that switch a power: the cheapest, and each dearer one that is better in something that counts.
#[must_use]
pub(in crate::family) fn control<'a>(
    ask: &Ask<'a>,
    serves: &str,
    power_w: f64,
    several_stops: bool,
) -> Vec<&'a Control> {
    controls(ask, serves, several_stops).choices(power_w)
}

#[cfg(test)]
mod tests {
    use super::super::{Hours, PartLine, Strokes};
    use super::*;
    use crate::catalog::built_in;
    use crate::demand::{Axis, Book};
    use crate::quantity::{Temperature, kilograms, metres};
    use crate::requirements::{Base, Brief, Dirt, PowerLoss, Requirements, Slide, Water};
    use crate::support::{about, axis, base};

    /// Keeps a value for the rest of the test.
    fn kept<T>(value: T) -> &'static T {
        Box::leak(Box::new(value))
    }

    /// A train with controls only, finished, under one of the assists.
    fn finished(job: &Requirements, slide: &Slide, assist: usize, time_s: f64) -> Train<'static> {
        let (job, slide) = (kept(job.clone()), kept(slide.clone()));
        let book = kept(Book::new(job, Axis::new(job, slide)));
        let all = built_in().expect("the built-in catalog is sound");
        let catalog = site::suiting(job, all).map_or(all, |suited| kept(suited));
        let brief = kept(Brief::new(job));
        let fitted = kept(assist::fitted(brief, catalog, book));
        let ask = Ask {
            job: brief,
            catalog,
            assist: &fitted[assist],
            times: kept(vec![time_s]),
            book,
            strokes: kept(Strokes::default()),
        };
        let mut train = Train::new("pneumatic", "test", Hours::AIR, ask.demand(time_s));
        let serves = if job.site.explosive_atmosphere {
            "air_logic"
        } else {
            "air"
        };
        let controls = control(&ask, serves, 20.0, false)[0];
        train
            .parts
            .push(PartLine::pieces("controls", &controls.common, 1));
        finish(&ask, train)
    }

    fn check<'t>(train: &'t Train<'_>, id: &str) -> &'t Check {
        train
            .checks
            .iter()
            .find(|check| check.id == id)
            .unwrap_or_else(|| panic!("{id} is missing"))
    }

    #[test]
    fn a_plain_lift_passes() {
        let slide = axis();
        let train = finished(&about(&slide), &slide, 0, 20.0);
        let ids: Vec<_> = train.checks.iter().map(|check| check.id).collect();
        assert_eq!(ids, ["site.temperature", "site.ingress"]);
        assert!(train.passes());
        // Going down it overruns with its weight: 85 · 9.80665 = 833.6 N.
        assert!(
            train
                .cautions
                .iter()
                .any(|caution| caution.to_string().contains("834 N")),
            "{:?}",
            train.cautions
        );
    }

    #[test]
    fn a_heavy_counterweight_is_said_to_pull_up() {
        let slide = axis();
        let train = finished(&about(&slide), &slide, 1, 20.0);
        assert!(train.passes());
        // (82 - 80) · 9.80665 = 19.6 N.
        let upward = "With the least load of 80 kg on, the counterweight pulls it up with 19.6 N";
        assert!(
            train
                .cautions
                .iter()
                .any(|caution| caution.to_string().starts_with(upward)),
            "{:?}",
            train.cautions
        );
    }

    #[test]
    fn a_guide_is_fitted_where_none_is_supplied() {
        let slide = Slide {
            guide_supplied: false,
            offset: metres(0.06),
            ..axis()
        };
        let job = about(&slide);
        let train = finished(&job, &slide, 0, 20.0);
        assert!(
            train.fittings.len() == 1 && train.passes(),
            "{:#?}",
            train.checks
        );
        // Worst in a stop on the way down from 0.0675 m/s within 2 mm, 1.139 m/s²:
        // M = 85·(9.80665 + 1.139)·0.06 = 55.82 N m over 0.4 m is 139.6 N on each of two carriages.
        let load = check(&train, "guide.static").demand;
        assert!((load - 139.6).abs() < 0.1, "{load}");
        // 100 km · (8000/125)³ = 26 million km.
        let life = check(&train, "guide.life").capacity;
        assert!((life / 26e6 - 1.0).abs() < 0.05, "{life}");
        assert_eq!(
            train
                .parts
                .iter()
                .filter(|line| line.kind == "guides")
                .count(),
            2
        );
    }

    #[test]
    fn grit_puts_a_bellows_on_the_rail_and_seals_the_cabinet() {
        let slide = Slide {
            guide_supplied: false,
            ..axis()
        };
        let mut job = about(&slide);
        job.site.dirt = Dirt::Gritty;
        job.site.water = Water::Washdown;
        let train = finished(&job, &slide, 1, 20.0);
        assert!(train.passes(), "{:#?}", train.checks);
        assert!(train.parts.iter().any(|line| line.kind == "covers"));
        assert!(
            train
                .parts
                .iter()
                .any(|line| line.common.id == "control-air-ends-ip65")
        );
    }

    #[test]
    fn cold_and_explosive_places_name_the_part() {
        let slide = axis();
        let mut job = about(&slide);
        job.site.explosive_atmosphere = true;
        let train = finished(&job, &slide, 1, 20.0);
        assert!(
            train.passes(),
            "pneumatic logic bears it: {:#?}",
            train.checks
        );
        job.site.coldest = Temperature::from_si(238.15);
        let train = finished(&job, &slide, 1, 20.0);
        let says = check(&train, "site.temperature")
            .says
            .clone()
            .unwrap_or_default();
        assert!(says.ends_with("the place is -35 to 40 °C"), "{says}");
    }

    #[test]
    fn a_tipping_machine_is_out_and_told_what_mends_it() {
        let slide = axis();
        let mut job = about(&slide);
        job.power_loss = PowerLoss::MayMove;
        job.base = Some(Base {
            load_reach: metres(0.9),
            mass: kilograms(60.0),
            ..base()
        });
        let train = finished(&job, &slide, 0, 20.0);
        let check = check(&train, "machine.stability");
        assert!(!check.passes());
        let says = check.says.clone().unwrap_or_default();
        assert!(
            says.contains("kg of ballast") && says.contains("m long"),
            "{says}"
        );
    }
}
