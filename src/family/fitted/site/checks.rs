//! What every drive is checked for about the site.

use super::covers::Covers;
use super::place::{Place, apart_degrees_outside, apart_range, degrees_outside, is_safe, works};
use super::supply;
use crate::catalog::{Common, WaterGrade};
use crate::family::{Ask, Check, Drive, PartLine};
use crate::quantity::show;
use crate::requirements::Task;

/// Whether every part of a fitted drive withstands the site: whether [`check`] will pass.
pub(in crate::family) fn withstands(ask: &Ask<'_>, drive: &Drive<'_>, covers: &Covers<'_>) -> bool {
    let mut lines = drive.parts.iter().chain(&ask.assist.parts);
    lines.all(|line| {
        works(ask.job, line.common)
            && (Place::of(ask.job, line.common).short_of(line.common) == 0 || covers.over(line))
    })
}

/// Adds one check of the site each, and what must be said of the covers.
pub(in crate::family) fn check<'a>(ask: &Ask<'a>, drive: &mut Drive<'a>, covers: &Covers<'a>) {
    if let Some(remark) = covers.remark() {
        drive.remarks.push(remark);
    }
    let lines = || drive.parts.iter().chain(&ask.assist.parts);
    let mut list = vec![
        temperature(ask.job, lines()),
        ingress(ask.job, lines(), covers),
    ];
    if lines().any(|line| line.common.runs_on.is_some()) {
        list.push(fed(ask.job, lines()));
    }
    let site = &ask.job.site;
    if site.explosive_atmosphere || site.units.explosive_atmosphere {
        list.push(explosive(ask.job, lines()));
    }
    drive.checks.extend(list);
}

/// The line for which a measure is greatest, the first of equals.
fn worst<'p, 'a: 'p>(
    lines: impl Iterator<Item = &'p PartLine<'a>>,
    measure: impl Fn(&PartLine<'a>) -> f64,
) -> Option<(&'p PartLine<'a>, f64)> {
    let mut found: Option<(&PartLine, f64)> = None;
    for line in lines {
        let here = measure(line);
        if found.is_none_or(|(_, most)| here > most) {
            found = Some((line, here));
        }
    }
    found
}

/// What stands apart is said to.
fn place_words(apart: bool) -> &'static str {
    if apart {
        "the place of what stands apart (site.units)"
    } else {
        "the place"
    }
}

fn temperature<'p, 'a: 'p>(job: &Task, lines: impl Iterator<Item = &'p PartLine<'a>>) -> Check {
    let found = worst(lines, |line| degrees_outside(job, line.common));
    let passes = found.is_none_or(|(_, outside)| outside <= 0.0);
    let says = found.map_or_else(String::new, |(line, outside)| {
        let common = line.common;
        let drive = outside > 0.0 && apart_degrees_outside(job, common) >= outside;
        let apart = drive || common.apart;
        let (coldest, hottest) = if drive {
            apart_range(common)
        } else {
            (common.coldest, common.hottest)
        };
        let place = if apart {
            Place::units(job)
        } else {
            Place::machine(job)
        };
        format!(
            "{}{} works from {} to {} °C; {} is {} to {} °C",
            if drive { "the drive of: " } else { "" },
            common.name,
            show(coldest.celsius()),
            show(hottest.celsius()),
            place_words(apart),
            show(place.coldest.celsius()),
            show(place.hottest.celsius())
        )
    });
    Check::of("site.temperature", passes, says)
        .from("range of every part holds that of its place", "catalog")
}

fn ingress<'p, 'a: 'p>(
    job: &Task,
    lines: impl Iterator<Item = &'p PartLine<'a>>,
    covers: &Covers<'_>,
) -> Check {
    let found = worst(lines, |line| {
        if covers.over(line) {
            0.0
        } else {
            f64::from(Place::of(job, line.common).short_of(line.common))
        }
    });
    let passes = found.is_none_or(|(_, short)| short <= 0.0);
    let says = match found {
        Some((line, _)) if !passes => falls_short(job, line.common),
        _ => {
            let asked = Place::machine(job).ingress();
            let bare = if covers.any() {
                ", some under bellows"
            } else {
                ""
            };
            format!(
                "the place asks for {asked} of enclosures; every part withstands its dirt and water{bare}"
            )
        }
    };
    Check::of("site.ingress", passes, says).from(
        "enclosures: dry IP20, splash IP54, washdown IP65, dusty IP5x, gritty IP6x; open mechanics: the water that their material or coating stands",
        "codes IEC 60529; which place asks which, common practice, no source",
    )
}

/// Why a part does not withstand the dirt and water where it stands.
fn falls_short(job: &Task, common: &Common) -> String {
    let name = &common.name;
    let (place, words) = (Place::of(job, common), place_words(common.apart));
    if let Some(code) = common.ingress {
        return format!("{words} asks for {}; {name} gives {code}", place.ingress());
    }
    let water = match place.grade() {
        WaterGrade::Washdown => "is washed down",
        _ => "is splashed",
    };
    let stands = match common.stands_water {
        Some(WaterGrade::Splash) => "stands splashes only",
        _ => "stands no water",
    };
    format!("{words} {water}; {name} {stands}")
}

fn fed<'p, 'a: 'p>(job: &Task, mut lines: impl Iterator<Item = &'p PartLine<'a>>) -> Check {
    let mains = job.site.mains.as_ref();
    let given = supply::given(mains);
    let starved = lines.find(|line| !supply::feeds(mains, line.common));
    let says = match starved {
        Some(line) => format!(
            "{} runs on {}; the site gives {given}",
            line.common.name,
            supply::asked(line.common)
        ),
        None => format!("the site gives {given}; every part that it feeds runs on that"),
    };
    Check::of("site.supply", starved.is_none(), says).from(
        "voltage, current and phases of the site within those of every part, 10 % off alternating, 20 % off direct; three phases also feed one to the neutral",
        "IEC 60038; direct: common practice, no source",
    )
}

fn explosive<'p, 'a: 'p>(job: &Task, mut lines: impl Iterator<Item = &'p PartLine<'a>>) -> Check {
    let unfit = lines.find(|line| !is_safe(job, line.common));
    let says = match unfit {
        Some(line) => format!(
            "the atmosphere may explode; {} may not work in it",
            line.common.name
        ),
        None => "every part may work in the atmosphere of its place".into(),
    };
    Check::of("site.explosive", unfit.is_none(), says).from(
        "every part may work in the atmosphere of its place",
        "catalog; zones and marking ISO 80079-36 and IEC 60079-0",
    )
}
