//! Jobs for the tests of the families.

use std::collections::BTreeMap;

use crate::catalog::{Catalog, Control, built_in};
use crate::demand::{Assist, Book};
use crate::family::{Ask, Bench, Family, Fitted};
use crate::quantity::{
    Angle, Length, Power, Si, Temperature, Voltage, kilograms, metres, newtons, seconds, watts,
};
use crate::requirements::{
    Criterion, Dirt, Hand, Law, LoadRange, Mains, Motion, PowerLoss, ProcessPoint, Rates,
    Requirements, Rules, Site, Slide, Stops, Timing, Want, Water,
};

/// A vertical 85 kg door, 900 mm up, four cycles an hour.
pub(super) fn door() -> Requirements {
    Requirements {
        title: "door".into(),
        currency: "EUR".into(),
        motion: Motion::Slide(slide(90.0, 0.9, 85.0)),
        timing: Timing {
            rest_out: seconds(60.0),
            rest_back: seconds(60.0),
            cycles_per_hour: 4.0,
            hours_per_day: 8.0,
            days_per_year: 220.0,
            years: 10.0,
        },
        stops: Stops::Ends,
        power_loss: PowerLoss::Hold,
        site: Site {
            mains: Some(Mains {
                voltage: Voltage::from_si(400.0),
                power: watts(6000.0),
            }),
            air: None,
            hand: Some(Hand {
                force: newtons(120.0),
                cost_per_hour: 40.0,
            }),
            coldest: Temperature::from_si(278.15),
            hottest: Temperature::from_si(308.15),
            dirt: Dirt::Clean,
            water: Water::Dry,
            oil_tolerated: true,
            explosive_atmosphere: false,
        },
        base: None,
        wants: BTreeMap::new(),
        travel_time_must_s: 1000.0,
        structure: None,
        rates: Rates {
            electricity_per_kwh: 0.3,
            labour_per_hour: 40.0,
            horizon_years: 5.0,
            per_catalog_unit: 1.0,
        },
        rules: Rules::default(),
    }
}

/// A level press, 40 kN over 150 mm, 50 kg of ram, 60 cycles an hour.
pub(super) fn press() -> Requirements {
    let mut job = door();
    job.title = "press".into();
    let mut slide = slide(0.0, 0.15, 50.0);
    slide.process = vec![ProcessPoint {
        at: metres(0.0),
        out: newtons(40e3),
        back: newtons(0.0),
        hold: newtons(0.0),
    }];
    job.motion = Motion::Slide(slide);
    job.timing.cycles_per_hour = 60.0;
    job.timing.rest_out = seconds(5.0);
    job.timing.rest_back = seconds(5.0);
    job
}

fn slide(incline_deg: f64, travel_m: f64, load_kg: f64) -> Slide {
    Slide {
        incline: Angle::from_si(incline_deg.to_radians()),
        travel: metres(travel_m),
        load: LoadRange {
            least: kilograms(load_kg),
            most: kilograms(load_kg),
        },
        offset: metres(0.0),
        drive_offset: metres(0.0),
        overhang: metres(0.0),
        overhang_grows: false,
        drag: newtons(20.0),
        guide_friction: 0.05,
        bearing_spacing: Length::from_si(0.4),
        guide_supplied: true,
        process: Vec::new(),
        law: Law::Trapezoid {
            start: 1.0 / 3.0,
            end: 1.0 / 3.0,
        },
    }
}

/// The axis of a job.
pub(super) fn axis(job: &mut Requirements) -> &mut Slide {
    match &mut job.motion {
        Motion::Slide(slide) => slide,
        Motion::Hinge(_) => unreachable!("the sample jobs slide"),
    }
}

/// Asks about a criterion too, with room enough that nothing is out.
pub(super) fn want(job: &mut Requirements, criterion: Criterion) {
    let want = Want {
        must: 1e9,
        reward: None,
    };
    job.wants.insert(criterion, want);
}

/// The built-in catalog, with controls for oil where it has none.
pub(super) fn parts() -> Catalog {
    let mut catalog = built_in().expect("the built-in catalog is sound").clone();
    if crate::family::control(&catalog, "oil", 5000.0, false).is_none() {
        let mut common = catalog.cranks[0].common.clone();
        common.id = "controls-oil".into();
        common.name = "controls, oil".into();
        common.price = 400.0;
        common.explosive_atmosphere = false;
        catalog.controls.push(Control {
            common,
            serves: "oil".into(),
            power_most: Power::from_si(10e3),
            standby: Power::from_si(10.0),
            several_stops: true,
        });
    }
    catalog
}

/// Lets a family build its trains and hands the bench to a test.
pub(super) fn build(
    family: &dyn Family,
    job: &Requirements,
    assist: Assist,
    times: &[f64],
    look: impl FnOnce(&mut Bench),
) {
    let catalog = parts();
    let Motion::Slide(slide) = &job.motion else {
        unreachable!("the sample jobs slide")
    };
    let book = Book::new(job, slide);
    let fitted = Fitted {
        assist,
        parts: Vec::new(),
        tag: assist.name().into(),
    };
    let mut bench = Bench::default();
    family.trains(
        &Ask {
            job,
            slide,
            catalog: &catalog,
            assist: &fitted,
            times,
            book: &book,
        },
        &mut bench,
    );
    look(&mut bench);
}

/// Prints what a bench holds, as a designer would read it.
pub(super) fn print(title: &str, bench: &mut Bench) {
    println!("== {title}: {} trains", bench.sound.len());
    for train in &bench.sound {
        let mass: f64 = train
            .parts
            .iter()
            .filter(|part| part.on_machine)
            .map(|part| f64::from(part.quantity) * part.mass_kg)
            .sum();
        println!(
            "{:6.2} s  {:5.0}  {:5.1} kg  {:4.0} mm  {:5.1} N  {:7.0} J  {:5.1} W  {}",
            train.travel_time_s,
            train.parts_cost(),
            mass,
            train.closed_length_m * 1e3,
            train.hand_force_n,
            train.running.moving_j,
            train.running.standby_w,
            train.words
        );
    }
    let cheapest = bench
        .sound
        .iter()
        .min_by(|p, q| p.parts_cost().total_cmp(&q.parts_cost()));
    if let Some(train) = cheapest {
        for part in &train.parts {
            println!(
                "    {} × {} {:.0}",
                part.quantity, part.common.name, part.price
            );
        }
        for check in &train.checks {
            println!(
                "    {:32} {:10.3} × {} / {:10.3} {} = {:.3}",
                check.id,
                check.demand,
                check.factor,
                check.capacity,
                check.unit,
                check.utilisation()
            );
        }
        for line in train.remarks.iter().chain(&train.cautions) {
            println!("    {line}");
        }
    }
    for check in bench.take_nearest() {
        println!(
            "    nearest fails {} {} / {} {:?}",
            check.id, check.demand, check.capacity, check.says
        );
    }
}
