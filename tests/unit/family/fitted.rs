//! Unit tests of `family::fitted`.

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

/// A drive with controls only, finished, under one of the assists.
fn finished(job: &Requirements, slide: &Slide, assist: usize, time_s: f64) -> Drive<'static> {
    as_loud(job, slide, (assist, time_s), 0.0)
}

/// The same, so loud.
fn as_loud(
    job: &Requirements,
    slide: &Slide,
    (assist, time_s): (usize, f64),
    noise_db: f64,
) -> Drive<'static> {
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
    let mut drive = Drive::new("pneumatic", "test", Hours::AIR, ask.demand(time_s));
    let serves = if job.site.explosive_atmosphere {
        "air_logic"
    } else {
        "air"
    };
    let controls = controls(&ask, serves, false).choices(20.0)[0];
    drive
        .parts
        .push(PartLine::pieces("controls", &controls.common, 1));
    let mut drive = finish(&ask, drive);
    caution::add(&ask, &mut drive, noise_db);
    drive
}

fn check<'t>(drive: &'t Drive<'_>, id: &str) -> &'t Check {
    drive
        .checks
        .iter()
        .find(|check| check.id == id)
        .unwrap_or_else(|| panic!("{id} is missing"))
}

#[test]
fn a_plain_lift_passes() {
    let slide = axis();
    let drive = finished(&about(&slide), &slide, 0, 20.0);
    let ids: Vec<_> = drive.checks.iter().map(|check| check.id).collect();
    assert_eq!(ids, ["site.temperature", "site.ingress"]);
    assert!(drive.passes());
    // Going down it overruns with its weight: 85 · 9.80665 = 833.6 N.
    assert!(
        drive.remarks.iter().any(|remark| remark.contains("834 N")),
        "{:?}",
        drive.remarks
    );
}

#[test]
fn a_heavy_counterweight_is_said_to_pull_up() {
    let slide = axis();
    let drive = finished(&about(&slide), &slide, 1, 20.0);
    assert!(drive.passes());
    // (82 - 80) · 9.80665 = 19.6 N.
    let upward = "With the least load of 80 kg on, the counterweight pulls it up with 19.6 N";
    assert!(
        drive
            .cautions
            .iter()
            .any(|caution| caution.to_string().starts_with(upward)),
        "{:?}",
        drive.cautions
    );
}

#[test]
fn a_drive_is_loud_from_80_db() {
    let slide = axis();
    let is_loud = |level| {
        let drive = as_loud(&about(&slide), &slide, (0, 20.0), level);
        drive
            .cautions
            .iter()
            .any(|caution| caution.hazard == "noise")
    };
    assert!(is_loud(80.0) && !is_loud(79.0));
}

#[test]
fn a_place_is_hot_from_55_degrees() {
    let slide = axis();
    let is_hot = |celsius: f64| {
        let mut job = about(&slide);
        job.site.explosive_atmosphere = true;
        job.site.hottest = Temperature::from_si(celsius + 273.15);
        let drive = finished(&job, &slide, 0, 20.0);
        drive
            .cautions
            .iter()
            .any(|caution| caution.hazard == "site.hot")
    };
    assert!(is_hot(57.0) && !is_hot(50.0));
}

#[test]
fn a_guide_is_fitted_where_none_is_supplied() {
    let slide = Slide {
        guide_supplied: false,
        offset: metres(0.06),
        ..axis()
    };
    let job = about(&slide);
    let drive = finished(&job, &slide, 0, 20.0);
    assert!(
        drive.fittings.len() == 1 && drive.passes(),
        "{:#?}",
        drive.checks
    );
    // Worst in a stop on the way down from 0.0675 m/s within 2 mm, 1.139 m/s²:
    // M = 85·(9.80665 + 1.139)·0.06 = 55.82 N m over 0.4 m is 139.6 N on each of two carriages.
    let load = check(&drive, "guide.static").demand;
    assert!((load - 139.6).abs() < 0.1, "{load}");
    // 100 km · (8000/125)³ = 26 million km.
    let life = check(&drive, "guide.life").capacity;
    assert!((life / 26e6 - 1.0).abs() < 0.05, "{life}");
    assert_eq!(
        drive
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
    let drive = finished(&job, &slide, 1, 20.0);
    assert!(drive.passes(), "{:#?}", drive.checks);
    assert!(drive.parts.iter().any(|line| line.kind == "covers"));
    assert!(
        drive
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
    let drive = finished(&job, &slide, 1, 20.0);
    assert!(
        drive.passes(),
        "pneumatic logic bears it: {:#?}",
        drive.checks
    );
    job.site.coldest = Temperature::from_si(238.15);
    let drive = finished(&job, &slide, 1, 20.0);
    let says = check(&drive, "site.temperature")
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
    let drive = finished(&job, &slide, 0, 20.0);
    let check = check(&drive, "machine.stability");
    assert!(!check.passes());
    let says = check.says.clone().unwrap_or_default();
    assert!(
        says.contains("kg of ballast") && says.contains("m long"),
        "{says}"
    );
}
