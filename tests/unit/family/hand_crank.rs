//! Laws and sample jobs of the hand crank.

use super::HandCrank;
use super::effort::{Effort, Gearing};
use crate::demand::{Assist, Counterweight};
use crate::family::{Bench, sample};
use crate::quantity::{kilograms, metres};
use crate::requirements::Requirements;
use crate::support::{slide, slide_mut};

const TIMES: [f64; 9] = [40.0, 31.5, 25.0, 20.0, 16.0, 12.5, 10.0, 8.0, 6.3];

fn with(job: &Requirements, assist: Assist, times: &[f64], look: impl FnOnce(&mut Bench)) {
    sample::build(&HandCrank, job, assist, times, look);
}

fn counterweight() -> Assist {
    Assist::Counterweight(Counterweight {
        mass_kg: 80.0,
        travel_ratio: 1.0,
        sheaves: 2,
        loss_per_sheave: 0.02,
        sheave_mass_kg: 1.0,
    })
}

#[test]
fn doors() {
    for cycles in [4.0, 0.5] {
        for assist in [Assist::None, counterweight()] {
            let mut job = sample::door(&[]);
            job.timing.cycles_per_hour = cycles;
            with(&job, assist, &TIMES, |bench| {
                assert!(!bench.sound.is_empty());
            });
        }
    }
}

/// 85 kg · 9.807 · 0.9 m = 750 J and 18 J of drag: at 0.95 efficiency 75 W take 10.8 s at least.
#[test]
fn nobody_gives_more_than_75_w() {
    with(&sample::door(&[]), Assist::None, &TIMES, |bench| {
        let fastest = bench
            .sound
            .iter()
            .map(|drive| drive.travel_time_s)
            .fold(99.0, f64::min);
        assert!((10.77..11.0).contains(&fastest), "{fastest} s");
    });
}

#[test]
fn halving_the_force_doubles_the_turns() {
    let job = sample::door(&[]);
    let gearing = |lead_m| Gearing {
        lead_m,
        efficiency: 0.9,
        starting_efficiency: 0.9,
    };
    let catalog = sample::parts();
    let book = crate::demand::Book::new(&job, crate::demand::Axis::new(&job, slide(&job)));
    let effort = Effort::of(&book.at(&Assist::None, 40.0));
    let crank = &catalog.cranks[0];
    let (long, short) = (gearing(0.1), gearing(0.05));
    assert!(
        (long.hand_force_n(&effort, crank) / short.hand_force_n(&effort, crank) - 2.0).abs()
            < 1e-12
    );
}

#[test]
fn a_heavier_load_never_lowers_force_or_holding() {
    let mut job = sample::door(&[]);
    job.timing.cycles_per_hour = 0.5;
    let mut before = [0.0; 2];
    for load in [10.0, 40.0, 85.0, 120.0] {
        let axis = slide_mut(&mut job);
        (axis.load.least, axis.load.most) = (kilograms(load), kilograms(load));
        let book = crate::demand::Book::new(&job, crate::demand::Axis::new(&job, slide(&job)));
        let effort = Effort::of(&book.at(&Assist::None, 20.0));
        let now = [effort.thrust_n, effort.hold_n()];
        assert!(now[0] >= before[0] && now[1] >= before[1]);
        before = now;
    }
}

#[test]
fn a_load_of_either_sign_takes_a_brake_of_both_ways() {
    let mut job = sample::door(&[]);
    slide_mut(&mut job).load.least = kilograms(70.0);
    with(&job, counterweight(), &[20.0], |bench| {
        let drive = bench.sound.first().expect("it can be cranked");
        assert!(
            drive
                .parts
                .iter()
                .any(|part| part.common.id.ends_with("-both"))
        );
    });
}

#[test]
fn a_short_heavy_travel_takes_a_screw_jack() {
    let mut job = sample::door(&[]);
    let axis = slide_mut(&mut job);
    axis.travel = metres(0.1);
    (axis.load.least, axis.load.most) = (kilograms(800.0), kilograms(800.0));
    job.timing.cycles_per_hour = 0.5;
    with(&job, Assist::None, &[300.0, 200.0, 160.0], |bench| {
        assert!(
            bench
                .sound
                .iter()
                .any(|drive| drive.kind == "screw jack crank")
        );
    });
}

#[test]
fn nobody_there_or_too_often_says_so() {
    let mut job = sample::door(&[]);
    job.site.hand = None;
    job.timing.cycles_per_hour = 20.0;
    with(&job, Assist::None, &[20.0], |bench| {
        let fails: Vec<&str> = bench.take_nearest().iter().map(|check| check.id).collect();
        assert_eq!(fails, ["crank.person", "crank.often"]);
    });
    // With somebody there, what else stops it is told beside it: here nothing in a minute, the power in ten seconds.
    let mut job = sample::door(&[]);
    job.timing.cycles_per_hour = 20.0;
    let fails = |time| {
        let mut fails = Vec::new();
        with(&job, Assist::None, &[time], |bench| {
            let nearest = bench.take_nearest();
            fails.extend(nearest.iter().map(|check| check.id));
            assert!(bench.sound.is_empty(), "{time} s");
        });
        fails
    };
    assert_eq!(fails(60.0), ["crank.often"]);
    let quick = fails(10.0);
    assert!(
        quick.contains(&"crank.often") && quick.len() > 1,
        "{quick:?}"
    );
}
