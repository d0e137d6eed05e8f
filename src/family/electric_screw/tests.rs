//! Laws of the family, and what it offers for jobs a designer would recognise.

use std::collections::BTreeMap;

use super::load::{Load, Moves};
use super::pick::{self, Fit};
use super::spindle::Spindle;
use super::{ElectricScrew, NO_FORCE_N};
use crate::catalog::{Catalog, Common, Control, Ingress};
use crate::demand::{Assist, Book};
use crate::family::{Ask, Bench, Family, Fitted, Train};
use crate::quantity::{
    Angle, Force, Length, Mass, Power, Si, Temperature, Time, Voltage, kilograms, metres, newtons,
};
use crate::requirements::{
    Criterion, Dirt, Law, LoadRange, Mains, Motion, PowerLoss, ProcessPoint, Rates, Requirements,
    Rules, Site, Slide, Stops, Timing, Want, Water,
};

/// A job with the defaults of the contract.
fn job(mass_kg: f64, incline_deg: f64, travel_m: f64, cycles_per_hour: f64) -> Requirements {
    let slide = Slide {
        incline: Angle::from_si(incline_deg.to_radians()),
        travel: metres(travel_m),
        load: LoadRange {
            least: kilograms(mass_kg),
            most: kilograms(mass_kg),
        },
        offset: Length::from_si(0.0),
        drive_offset: Length::from_si(0.0),
        overhang: Length::from_si(0.0),
        overhang_grows: false,
        drag: Force::from_si(0.0),
        guide_friction: 0.05,
        bearing_spacing: metres((travel_m / 4.0).max(0.1)),
        guide_supplied: true,
        process: Vec::new(),
        law: Law::Trapezoid {
            start: 1.0 / 3.0,
            end: 1.0 / 3.0,
        },
    };
    Requirements {
        title: String::new(),
        currency: "EUR".into(),
        motion: Motion::Slide(slide),
        timing: Timing {
            rest_out: Time::from_si(0.0),
            rest_back: Time::from_si(0.0),
            cycles_per_hour,
            hours_per_day: 8.0,
            days_per_year: 220.0,
            years: 10.0,
        },
        stops: Stops::Ends,
        power_loss: PowerLoss::MayMove,
        site: Site {
            mains: Some(Mains {
                voltage: Voltage::from_si(230.0),
                power: Power::from_si(2500.0),
            }),
            air: None,
            hand: None,
            coldest: Temperature::from_si(278.15),
            hottest: Temperature::from_si(313.15),
            dirt: Dirt::Clean,
            water: Water::Dry,
            oil_tolerated: true,
            explosive_atmosphere: false,
        },
        base: None,
        structure: None,
        wants: BTreeMap::new(),
        travel_time_must_s: 20.0,
        rates: Rates {
            electricity_per_kwh: 0.3,
            labour_per_hour: 40.0,
            horizon_years: 5.0,
            per_catalog_unit: 1.0,
        },
        rules: Rules::default(),
    }
}

fn stage() -> Requirements {
    let precise = Want {
        must: 1e-4,
        reward: None,
    };
    Requirements {
        stops: Stops::Anywhere,
        wants: BTreeMap::from([(Criterion::PositionError, precise)]),
        ..job(15.0, 0.0, 0.4, 60.0)
    }
}

fn door() -> Requirements {
    Requirements {
        power_loss: PowerLoss::Hold,
        ..job(85.0, 90.0, 0.9, 4.0)
    }
}

fn press() -> Requirements {
    let mut job = job(10.0, -90.0, 0.1, 30.0);
    if let Motion::Slide(slide) = &mut job.motion {
        let point = |at, out| ProcessPoint {
            at: metres(at),
            out: newtons(out),
            back: newtons(0.0),
            hold: newtons(0.0),
        };
        slide.process = vec![point(0.0, 3000.0)];
    }
    job
}

/// The built-in catalog, with plain controls where it has none of its own.
fn catalog() -> Catalog {
    let mut catalog = crate::catalog::built_in().expect("sound").clone();
    for (serves, price) in [("stepper", 200.0), ("dc", 180.0), ("servo", 600.0)] {
        if catalog
            .controls
            .iter()
            .any(|control| control.serves == serves)
        {
            continue;
        }
        catalog.controls.push(Control {
            common: Common {
                id: format!("controls-{serves}"),
                name: String::new(),
                price,
                mass: Mass::from_si(5.0),
                noise: None,
                coldest: Temperature::from_si(253.15),
                hottest: Temperature::from_si(353.15),
                ingress: Ingress {
                    solids: 5,
                    water: 4,
                },
                explosive_atmosphere: false,
                upkeep_hours: 0.0,
                consumables: 0.0,
                fit_hours: 0.0,
            },
            serves: serves.into(),
            power_most: Power::from_si(5000.0),
            standby: Power::from_si(5.0),
            several_stops: true,
        });
    }
    catalog
}

const UNAIDED: Fitted = Fitted {
    assist: Assist::None,
    parts: Vec::new(),
    tag: String::new(),
};

fn slide_of(job: &Requirements) -> &Slide {
    match &job.motion {
        Motion::Slide(slide) => slide,
        Motion::Hinge(_) => unreachable!("these jobs slide"),
    }
}

/// Everything the family offers, and the checks of the nearest failure.
fn with_trains(job: &Requirements, times: &[f64], look: impl FnOnce(&[Train], &[String])) {
    let (catalog, slide) = (catalog(), slide_of(job));
    let book = Book::new(job, slide);
    let ask = Ask {
        job,
        slide,
        catalog: &catalog,
        assist: &UNAIDED,
        times,
        book: &book,
    };
    let mut bench = Bench::default();
    let start = std::time::Instant::now();
    ElectricScrew.trains(&ask, &mut bench);
    println!("{} trains in {:?}", bench.sound.len(), start.elapsed());
    let nearest: Vec<String> = bench
        .take_nearest()
        .iter()
        .map(|check| format!("{} {:.2}", check.id, check.utilisation()))
        .collect();
    look(&bench.sound, &nearest);
}

fn print(name: &str, job: &Requirements, times: &[f64]) {
    with_trains(job, times, |trains, nearest| {
        println!("== {name}; nearest failure {nearest:?}");
        for train in trains {
            let worst = train
                .checks
                .iter()
                .max_by(|p, q| p.utilisation().total_cmp(&q.utilisation()))
                .map(|check| format!("{} {:.2}", check.id, check.utilisation()));
            let error: f64 = train
                .position
                .iter()
                .map(|(_, e)| e * e)
                .sum::<f64>()
                .sqrt();
            let life = train
                .lives
                .iter()
                .map(|life| life.years)
                .fold(f64::INFINITY, f64::min);
            let mass: f64 = train
                .parts
                .iter()
                .map(|p| f64::from(p.quantity) * p.mass_kg)
                .sum();
            println!(
                "{:>6.3} s {:<36} {:<32} {:>6.0} {:>5.1} kg {:>4.0} mm ±{:.3} mm {:>5.0} y {:>6.0}+{:>5.0} J {:>3.0} W  {}",
                train.travel_time_s,
                train.kind,
                train.words,
                train.parts_cost(),
                mass,
                train.closed_length_m * 1e3,
                error * 1e3,
                life,
                train.running.moving_j,
                train.running.holding_j,
                train.running.standby_w,
                worst.unwrap_or_default()
            );
            if std::env::var_os("ALL_CHECKS").is_some() {
                for check in &train.checks {
                    println!(
                        "    {:<32} {:.4} × {} / {:.4} {} = {:.3}",
                        check.id,
                        check.demand,
                        check.factor,
                        check.capacity,
                        check.unit,
                        check.utilisation()
                    );
                }
                for line in &train.parts {
                    println!("    {:<32} {:.0}", line.common.id, line.cost());
                }
            }
        }
    });
}

#[test]
fn a_designer_looks_at_the_trains() {
    print("stage", &stage(), &[2.0, 1.5, 1.25, 1.0]);
    print("door", &door(), &[20.0, 16.0, 12.5, 10.0, 8.0, 6.3, 5.0]);
    print("press", &press(), &[20.0, 16.0, 12.5, 10.0, 8.0, 6.3, 5.0]);
}

#[test]
fn the_jobs_find_a_drive() {
    for (job, time_s) in [(stage(), 1.5), (door(), 8.0), (press(), 10.0)] {
        with_trains(&job, &[time_s], |trains, nearest| {
            assert!(!trains.is_empty(), "{nearest:?}");
            assert!(trains.iter().all(Train::passes));
        });
    }
}

/// At a wet and dusty place the family takes parts that bear it, a dearer one where need be.
#[test]
fn a_splashed_place_finds_a_drive() {
    let mut job = door();
    job.site.water = Water::Splash;
    job.site.dirt = Dirt::Dusty;
    with_trains(&job, &[10.0], |trains, nearest| {
        assert!(!trains.is_empty(), "{nearest:?}");
    });
}

/// Without mains there is no electric drive, and the family says so.
#[test]
fn no_mains_no_drive() {
    let mut job = door();
    job.site.mains = None;
    with_trains(&job, &[8.0], |trains, nearest| {
        assert!(trains.is_empty());
        assert_eq!(nearest, ["mains.present 999.00"]);
    });
}

/// For a fixed train a heavier load never lowers thrust, holding or peak torque.
#[test]
fn a_heavier_load_never_helps() {
    let catalog = catalog();
    let mut before: Vec<Vec<f64>> = Vec::new();
    for mass in [20.0, 40.0, 80.0, 160.0, 320.0] {
        let mut job = door();
        let Motion::Slide(slide) = &mut job.motion else {
            unreachable!("a slide")
        };
        slide.load = LoadRange {
            least: kilograms(mass),
            most: kilograms(mass),
        };
        let slide = slide_of(&job);
        let book = Book::new(&job, slide);
        let ask = Ask {
            job: &job,
            slide,
            catalog: &catalog,
            assist: &UNAIDED,
            times: &[8.0],
            book: &book,
        };
        let demand = ask.demand(8.0);
        let moves = Moves::new(&ask, &demand);
        assert!(moves.holding_n > NO_FORCE_N);
        let mut now = Vec::new();
        for spindle in Spindle::all(&ask, |_| {}) {
            let load = Load::new(&spindle, &demand, &moves);
            let of_screw = spindle.checks(&ask, &moves).into_iter();
            let mut all: Vec<f64> = of_screw
                .filter(|c| {
                    c.id.ends_with("column")
                        || c.id.ends_with("static")
                        || c.id.ends_with("pressure")
                })
                .map(|c| c.utilisation())
                .collect();
            all.push(load.hold_n_m);
            for range in pick::ranges(&ask) {
                let (Some(last), Some(coupling)) = (range.last(), pick::coupling(&ask, &load, 0.0))
                else {
                    continue;
                };
                if let Some(fit) = Fit::new(&ask, &spindle, &load, *last, coupling) {
                    all.push(last.motor.peak(&ask, &load, &fit.line, fit.still).demand);
                }
            }
            now.push(all);
        }
        for (old, new) in before.iter().zip(&now) {
            for (old, new) in old.iter().zip(new) {
                assert!(new >= &(old - 1e-9), "{old} fell to {new} at {mass} kg");
            }
        }
        before = now;
    }
}

/// The door of 85 kg on a 16 × 10 ball screw in 8 s, worked by hand to four digits.
#[test]
fn the_door_by_hand() {
    let (job, catalog) = (door(), catalog());
    let slide = slide_of(&job);
    let book = Book::new(&job, slide);
    let ask = Ask {
        job: &job,
        slide,
        catalog: &catalog,
        assist: &UNAIDED,
        times: &[8.0],
        book: &book,
    };
    let demand = ask.demand(8.0);
    let moves = Moves::new(&ask, &demand);
    let all = Spindle::all(&ask, |_| {});
    let spindle = all
        .iter()
        .find(|spindle| spindle.id() == "ball-screw-16x10")
        .expect("a size of the catalog");
    let load = Load::new(spindle, &demand, &moves);
    let near = |what: &str, got: f64, by_hand: f64| {
        assert!(
            (got / by_hand - 1.0).abs() < 1e-3,
            "{what}: {got}, by hand {by_hand}"
        );
    };
    // v = 1.5 · 0.9/8 = 0.16875 m/s, at 10 mm a turn 16.875 turns a second.
    near("speed", load.speed_most_rad_s, 106.03);
    // a = 4.5 · 0.9/64 = 0.06328; F = 85 (9.80665 + 0.06328) = 838.9 N; T = 838.9 · 0.01/(2π · 0.95).
    near("drive torque", load.drive_most_n_m, 1.4055);
    // 833.6 · 0.01/2π.
    near("holding torque", load.hold_n_m, 1.3267);
    // Bar of 14.48 mm, 0.9 + 0.065 + 0.04 + 0.045 = 1.05 m: π · 7850 · 1.05 · 4.396e-8/32.
    near("inertia", spindle.inertia_kg_m2, 3.557e-5);
    // (3.9266/1.005)² · 0.01296/4 · √(205e9/7850) = 252.7 rad/s = 2414 rpm, of which 0.8.
    let checks = spindle.checks(&ask, &moves);
    let whirl = checks
        .iter()
        .find(|check| check.id == "screw.critical_speed")
        .expect("checked");
    near("critical speed", whirl.capacity, 1931.0);
    // K L/r = 0.7 · 1.005/0.00324 = 217 > 107: π² · 205e9 · 1.3195e-4/217.1² = 5.663 kN.
    let column = checks
        .iter()
        .find(|check| check.id == "screw.column")
        .expect("checked");
    near("column", column.capacity, 5662.0);
}
