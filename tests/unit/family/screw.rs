//! Laws of the family, and what it offers for jobs a designer would recognise.

use super::ElectricScrew;
use super::spindle::Spindle;
use crate::demand::Assist;
use crate::family::electric::{Cycle, Shaft, runs};
use crate::family::{Ask, Check, Drive, NO_FORCE_N, sample};
use crate::quantity::kilograms;
use crate::requirements::{Dirt, Requirements, Water};
use crate::support::{lift, slide_mut};

/// The lift with the defaults of the contract, no rests and nothing but mains, with changes.
fn job(sets: &[(&str, &str)]) -> Requirements {
    let plain = [
        ("motion.guide", "null"),
        ("timing.rest_out", "null"),
        ("timing.rest_back", "null"),
        ("site.air", "null"),
        ("site.hand", "null"),
    ];
    lift(&[plain.as_slice(), sets].concat())
}

fn stage() -> Requirements {
    job(&[
        ("motion.incline", "0 deg"),
        ("motion.travel", "400 mm"),
        ("motion.load", r#"{ "most": "15 kg" }"#),
        ("timing.cycles_per_hour", "60"),
        ("stops", "anywhere"),
        ("power_loss", "may_move"),
        ("goals.position_error.limit", "0.1 mm"),
    ])
}

fn door() -> Requirements {
    job(&[("motion.load.least", "85 kg")])
}

fn press() -> Requirements {
    job(&[
        ("motion.incline", "-90 deg"),
        ("motion.travel", "100 mm"),
        ("motion.load", r#"{ "most": "10 kg" }"#),
        ("motion.process", r#"[{ "at": "0 mm", "out": "3 kN" }]"#),
        ("timing.cycles_per_hour", "30"),
        ("power_loss", "may_move"),
    ])
}

/// Everything the family offers, and the checks of the nearest failure.
fn with_trains(job: &Requirements, times: &[f64], look: impl FnOnce(&[Drive], &[String])) {
    sample::build(&ElectricScrew, job, Assist::None, times, |bench| {
        let nearest: Vec<String> = bench
            .take_nearest()
            .iter()
            .map(|check| format!("{} {:.2}", check.id, check.utilisation()))
            .collect();
        look(&bench.sound, &nearest);
    });
}

#[test]
fn the_jobs_find_a_drive() {
    for (job, time_s) in [(stage(), 1.5), (door(), 8.0), (press(), 10.0)] {
        with_trains(&job, &[time_s], |drives, nearest| {
            assert!(!drives.is_empty(), "{nearest:?}");
            assert!(drives.iter().all(Drive::passes));
        });
    }
}

/// At a wet and dusty place the family takes parts that bear it, a more expensive one where need be.
#[test]
fn a_splashed_place_finds_a_drive() {
    let mut job = door();
    job.site.water = Water::Splash;
    job.site.dirt = Dirt::Dusty;
    with_trains(&job, &[10.0], |drives, nearest| {
        assert!(!drives.is_empty(), "{nearest:?}");
    });
}

/// Without mains there is no electric drive, and the family says so.
#[test]
fn no_mains_no_drive() {
    let mut job = door();
    job.site.mains = None;
    with_trains(&job, &[8.0], |drives, nearest| {
        assert!(drives.is_empty());
        assert_eq!(nearest, ["mains.present 999.00"]);
    });
}

/// What a load asks of every screw.
fn asked(job: &Requirements) -> Vec<Vec<f64>> {
    let growing = |check: &&Check| {
        let mut ends = ["column", "static", "pressure"].iter();
        ends.any(|end| check.id.ends_with(end))
    };
    sample::asking(job, Assist::None, &[8.0], |ask| {
        let demand = ask.demand(8.0);
        let cycle = Cycle::new(ask, &demand);
        assert!(cycle.holding_n > NO_FORCE_N);
        let of_screw = |spindle: &Spindle| {
            let shaft = Shaft::new(ask, spindle.mechanism, &cycle, &runs(&demand));
            let checks = spindle.checks(ask, &cycle);
            let growing = checks.iter().filter(growing).map(Check::utilisation);
            let torques = [shaft.hold_n_m, shaft.drive_most_n_m];
            growing.chain(torques).collect()
        };
        Spindle::all(ask, |_| {}).iter().map(of_screw).collect()
    })
}

/// For a fixed screw a heavier load never lowers thrust, holding or driving torque.
#[test]
fn a_heavier_load_never_helps() {
    let mut before: Vec<Vec<f64>> = Vec::new();
    for mass in [20.0, 40.0, 80.0, 160.0, 320.0] {
        let mut job = door();
        let axis = slide_mut(&mut job);
        (axis.load.least, axis.load.most) = (kilograms(mass), kilograms(mass));
        let now = asked(&job);
        for (old, new) in before.iter().flatten().zip(now.iter().flatten()) {
            assert!(new >= &(old - 1e-9), "{old} fell to {new} at {mass} kg");
        }
        before = now;
    }
}

/// The door of 85 kg on a 16 × 10 ball screw in 8 s, worked by hand to four digits.
#[test]
fn the_door_by_hand() {
    sample::asking(&door(), Assist::None, &[8.0], by_hand);
}

fn by_hand(ask: &Ask) {
    let demand = ask.demand(8.0);
    let cycle = Cycle::new(ask, &demand);
    let all = Spindle::all(ask, |_| {});
    let spindle = all
        .iter()
        .find(|spindle| spindle.id() == "ball-screw-16x10")
        .expect("a size of the catalog");
    let shaft = Shaft::new(ask, spindle.mechanism, &cycle, &runs(&demand));
    let near = |what: &str, got: f64, by_hand: f64| {
        assert!(
            (got / by_hand - 1.0).abs() < 1e-3,
            "{what}: {got}, by hand {by_hand}"
        );
    };
    // v = 1.5 · 0.9/8 = 0.16875 m/s, at 10 mm a turn 16.875 turns a second.
    near("speed", shaft.speed_most_rad_s, 106.03);
    // a = 4.5 · 0.9/64 = 0.06328; F = 85 (9.80665 + 0.06328) = 838.9 N; T = 838.9 · 0.01/(2π · 0.95).
    near("drive torque", shaft.drive_most_n_m, 1.4055);
    // 833.6 · 0.01/2π.
    near("holding torque", shaft.hold_n_m, 1.3267);
    // Bar of 14.48 mm, 0.9 + 0.065 + 0.04 + 0.045 = 1.05 m: π · 7850 · 1.05 · 4.396e-8/32.
    near("inertia", spindle.mechanism.inertia_kg_m2, 3.557e-5);
    // (3.9266/1.005)² · 0.01296/4 · √(205e9/7850) = 252.7 rad/s = 2414 rpm, of which 0.8.
    let checks = spindle.checks(ask, &cycle);
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
