//! What any drive brings along or is checked for, whatever its family: guide, assist, pivot, covers, stand, arm, site.

pub mod assist;
pub mod caution;
pub(in crate::family) mod guide;
mod pins;
pub(in crate::family) mod pivot;
pub mod site;
pub(in crate::family) mod stand;
pub mod structure;
mod surroundings;

use super::choose::{Ladder, Merits, Shelf};
use super::{Ask, Check, Drive, check};
use crate::catalog::Control;
use crate::demand::Demand;
use crate::quantity::{Kind, Si, in_words};

/// What was fitted to a drive, for its checks and words.
#[derive(Debug)]
pub(in crate::family) struct Fittings<'a> {
    guide: Option<guide::Layout<'a>>,
    covers: site::Covers<'a>,
}

/// Fits what every drive needs beside what its family chose: guide, controls and covers that bear the site.
///
/// After this all its parts, lives and its length are known.
pub(in crate::family) fn fit<'a>(ask: &Ask<'a>, drive: &mut Drive<'a>) -> Fittings<'a> {
    let guide = guide::fit(ask, drive);
    pivot::fit(ask, drive);
    let covers = site::add_covers(ask, drive);
    Fittings { guide, covers }
}

/// Whether the parts of a fitted drive bear the site; what else it is checked for follows from its demand alone.
pub(in crate::family) fn bears_site(
    ask: &Ask<'_>,
    drive: &Drive<'_>,
    fittings: &Fittings<'_>,
) -> bool {
    site::withstands(ask, drive, &fittings.covers)
}

/// Whether nothing can pass at a demand, whatever its parts: the machine tips, or the arm that carries the load bends.
pub(in crate::family) fn is_hopeless(ask: &Ask<'_>, demand: &Demand) -> bool {
    let bent = || structure::bending(ask.job, ask.book.axis(), demand);
    let fails = |check: &Check| !check.passes();
    stand::tipping(ask.job, demand).iter().any(fails) || bent().iter().any(fails)
}

/// Adds what every drive is checked for: guide, stability, arm, assist and site, with the cautions that follow.
pub(in crate::family) fn check<'a>(
    ask: &Ask<'a>,
    mut drive: Drive<'a>,
    fittings: &Fittings<'a>,
) -> Drive<'a> {
    drive.checks.extend(binding(ask, &drive));
    drive.checks.extend(pins(ask, &drive));
    guide::check(ask, &mut drive, fittings.guide.as_ref());
    assist::add(ask, &mut drive);
    stand::add(ask, &mut drive);
    structure::add(ask, &mut drive);
    site::check(ask, &mut drive, &fittings.covers);
    pins::add(ask, &mut drive);
    drive
}

/// Fits and checks what every drive has and is checked for, whatever its family.
pub fn finish<'a>(ask: &Ask<'a>, mut drive: Drive<'a>) -> Drive<'a> {
    let fittings = fit(ask, &mut drive);
    check(ask, drive, &fittings)
}

/// How near the guide is to jamming under the drive's own pull; nothing where the drive pulls along the guide line, or nothing
/// rubs, for then it cannot jam.
fn binding(ask: &Ask<'_>, drive: &Drive<'_>) -> Option<Check> {
    ask.slide()?;
    let ratio = drive.demand.worst.binding_ratio;
    if ratio <= 0.0 {
        return None;
    }
    let check = check!(
        "guide.binding", ratio => ask.job.rules.binding_most, "";
        "2·μ·d/b, jammed at 1",
        "statics with friction at both guide ends; limit common practice, no source";
        ("2·μ·d/b", ratio, ""),
    );
    Some(check.rule("binding_most"))
}

/// Whether a drive between two pins, run in, is no longer than they are apart.
fn pins(ask: &Ask<'_>, drive: &Drive<'_>) -> Option<Check> {
    let [shortest, _] = ask.pins_m()?;
    let length = drive.closed_length_m;
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
        let figures = Merits::part(&rates, &control.common);
        let drawing = figures.drawing(&rates, 0.0, control.standby.si());
        (&control.common, drawing)
    });
    shelf.ladder(|control| control.power_most.si())
}

#[cfg(test)]
#[path = "../../../tests/unit/family/fitted.rs"]
mod tests;
