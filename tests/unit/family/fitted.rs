//! Unit tests of `family::fitted`.

use super::super::{Hours, PartLine, Strokes};
use super::*;
use crate::catalog::{Catalog, built_in};
use crate::demand::{Axis, Book};
use crate::quantity::{Current, Si, Temperature, kilograms, metres};
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
fn as_loud(job: &Requirements, slide: &Slide, at: (usize, f64), noise_db: f64) -> Drive<'static> {
    let all = built_in().expect("the built-in catalog is sound");
    finished_of(all, job, slide, at, noise_db)
}

/// The same of the parts of a catalog.
fn finished_of(
    all: &'static Catalog,
    job: &Requirements,
    slide: &Slide,
    (assist, time_s): (usize, f64),
    noise_db: f64,
) -> Drive<'static> {
    let (job, slide) = (kept(job.clone()), kept(slide.clone()));
    let book = kept(Book::new(job, Axis::new(job, slide)));
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
    // The cabinet stands apart, dry and clean if nothing is said.
    let has = |id: &str| drive.parts.iter().any(|line| line.common.id == id);
    assert!(has("control-air-ends"));
    job.site.units.dirt = Dirt::Gritty;
    job.site.units.water = Water::Washdown;
    let drive = finished(&job, &slide, 1, 20.0);
    assert!(
        drive.passes()
            && drive
                .parts
                .iter()
                .any(|line| line.common.id == "control-air-ends-ip65"),
        "{:#?}",
        drive.checks
    );
}

#[test]
fn grit_takes_two_thirds_of_a_bare_rails_life_and_bellows_give_them_back() {
    let slide = Slide {
        guide_supplied: false,
        offset: metres(0.06),
        ..axis()
    };
    let mut job = about(&slide);
    job.site.dirt = Dirt::Gritty;
    // Of the smallest rail alone: a larger one would last at less cost than bellows over this.
    let mut parts = built_in().expect("sound").clone();
    parts.guides.truncate(1);
    parts.shaft_guides.clear();
    parts.slideways.clear();
    let parts = kept(parts);
    let fitted = |job: &Requirements| {
        let drive = finished_of(parts, job, &slide, (0, 20.0), 0.0);
        let covered = drive.parts.iter().any(|line| line.kind == "covers");
        let life = check(&drive, "guide.life").clone();
        (drive.passes(), covered, life)
    };
    // In the clean place 26 million km, of which 0.3333 are left: bare it still lasts.
    let (passes, covered, life) = fitted(&job);
    assert!(passes && !covered);
    assert!(
        (life.capacity / (0.3333 * 26e6) - 1.0).abs() < 0.05,
        "{}",
        life.capacity
    );
    assert_eq!(life.rule, Some("grit_life"));
    // Where six tenths of the whole life are asked, bellows give it back.
    job.timing.years *= 0.6 * 26e6 / life.demand;
    let (passes, covered, life) = fitted(&job);
    assert!(passes && covered);
    assert!(
        (life.capacity / 26e6 - 1.0).abs() < 0.05,
        "{}",
        life.capacity
    );
    assert_eq!(life.rule, Some("reliability"));
}

#[test]
fn a_part_for_minus_20_degrees_works_at_exactly_that() {
    // -20 degC is 253.15 K in either spelling; a millionth of a degree is what rounding leaves.
    let slide = axis();
    let mut job = about(&slide);
    for coldest in [253.15, 253.149_999_99] {
        job.site.units.coldest = Temperature::from_si(coldest);
        let part = crate::catalog::Common {
            coldest: Temperature::from_si(253.15),
            apart: true,
            ..built_in().expect("sound").controls[0].common.clone()
        };
        assert!(site::suits(&job, &part));
    }
    job.site.units.coldest = Temperature::from_si(253.1);
    let part = &built_in().expect("sound").controls[0].common;
    assert!(!site::suits(&job, part), "a cabinet for -10 °C");
}

#[test]
fn what_stands_apart_is_judged_where_it_stands_and_adds_no_mass() {
    let slide = axis();
    let mut job = about(&slide);
    (job.site.dirt, job.site.water) = (Dirt::Gritty, Water::Washdown);
    job.site.coldest = Temperature::from_si(248.15);
    let parts = built_in().expect("sound");
    let compressor = &parts.compressors[0].common;
    let servo = &parts.servo_motors[0].common;
    let rack = &parts.racks[0].common;
    assert!(compressor.apart && site::suits(&job, compressor));
    assert!(!PartLine::pieces("compressors", compressor, 1).on_machine);
    // The motor itself is at the machine, colder than its -20 °C; a rack stands grit, and no hose.
    assert!(!servo.apart && !site::suits(&job, servo));
    assert!(!site::suits(&job, rack));
    job.site.water = Water::Splash;
    assert!(site::suits(&job, rack));
    job.site.coldest = Temperature::from_si(258.15);
    assert!(
        site::suits(&job, servo),
        "its drive, for 0 °C, stands apart"
    );
    job.site.units.coldest = job.site.coldest;
    assert!(!site::suits(&job, servo) && !site::suits(&job, compressor));
}

#[test]
fn the_site_feeds_what_runs_on_its_voltage_current_and_phases() {
    let job = |volts: f64, current, phases| {
        let slide = axis();
        let mut job = about(&slide);
        let mains = job.site.mains.as_mut().expect("there is");
        mains.voltage = crate::quantity::Voltage::from_si(volts);
        (mains.current, mains.phases) = (current, phases);
        job
    };
    let parts = built_in().expect("sound");
    let part = |feeds: &[&str]| {
        let runs_on = feeds.iter().map(|feed| {
            let tree = crate::reading::Tree::Text((*feed).into());
            crate::reading::FromTree::from_tree(&tree).expect("it is read")
        });
        crate::catalog::Common {
            runs_on: Some(runs_on.collect()),
            ..parts.controls[0].common.clone()
        }
    };
    let fed = |job: &Requirements, feeds: &[&str]| site::suits(job, &part(feeds));
    // Between any phase of 400 V and the neutral there are 400/√3 = 231 V.
    let three = job(400.0, Current::Ac, 3);
    assert!(fed(&three, &["380-480 V ac 3~"]) && fed(&three, &["220-240 V ac"]));
    assert!(!fed(&three, &["100-120 V ac"]) && !fed(&three, &["24 V dc"]));
    let one = job(230.0, Current::Ac, 1);
    assert!(!fed(&one, &["200-240 V ac 3~"]) && fed(&one, &["380-480 V ac 3~", "230 V ac"]));
    // 10 % off 230 V is 207 to 253 V; 20 % off a battery of 24 V is 19.2 to 28.8 V.
    for (volts, current, feed, is_fed) in [
        (208.0, Current::Ac, "230 V ac", true),
        (206.0, Current::Ac, "230 V ac", false),
        (28.5, Current::Dc, "24 V dc", true),
        (29.0, Current::Dc, "24 V dc", false),
        (24.0, Current::Ac, "24 V dc", false),
    ] {
        assert_eq!(
            fed(&job(volts, current, 1), &[feed]),
            is_fed,
            "{volts} {feed}"
        );
    }
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
    job.site.units.coldest = Temperature::from_si(238.15);
    let drive = finished(&job, &slide, 1, 20.0);
    let says = check(&drive, "site.temperature")
        .says
        .clone()
        .unwrap_or_default();
    assert!(
        says.ends_with("the place of what stands apart (site.units) is -35 to 40 °C"),
        "{says}"
    );
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
