//! A drum that winds a rope, driven by whatever the catalog has: what any family may do with an output shaft. And the search
//! compared with every pair looked at one by one.

use core::f64::consts::TAU;

use super::Electrics;
use super::choice::Search;
use super::cycle::{Cycle, runs};
use super::drive::MotorDrive;
use super::shaft::{Mechanism, Shaft, ShaftWords};
use crate::demand::Assist;
use crate::family::choose::{ParetoFront, Rank};
use crate::family::{Ask, Bench, Drive, Hours, sample};
use crate::requirements::Requirements;
use crate::support::lift;

static DRUM: ShaftWords = ShaftWords {
    peak: ["T drum/(η_g i) + J α"; 3],
    peak_symbols: &[("T drum", "N m"); 9],
    speed: ["n = v i / (π d)"; 2],
    speed_symbols: &[("n drum", "rpm"), ("i", "")],
    standstill: "F hold d/(2 i)",
    inertia: "J load / J motor",
    greatest: "F d/(2 η)",
    greatest_symbols: &[("T driving", "N m"); 5],
    brake: "F hold d/(2 i)",
    braked: "brake torque × i",
};

/// A drum of a radius, nine tenths of the work kept.
fn drum(radius_m: f64) -> Mechanism {
    Mechanism {
        travel_per_turn_m: [TAU * radius_m; 2],
        driving_m: [radius_m / 0.9; 2],
        driven_m: [-radius_m * 0.9; 2],
        inertia_kg_m2: 1e-3,
        locks: false,
        words: &DRUM,
    }
}

/// A door or table with changes; air and hand aside.
fn job(sets: &[(&str, &str)]) -> Requirements {
    let plain = [
        ("motion.guide", "null"),
        ("timing.rest_out", "null"),
        ("timing.rest_back", "null"),
        ("site.air", "null"),
        ("site.hand", "null"),
        ("motion.load.least", "85 kg"),
    ];
    lift(&[plain.as_slice(), sets].concat())
}

/// The parts for a shaft of a job at a time.
fn with_shaft<T>(
    job: &Requirements,
    time_s: f64,
    mechanism: Mechanism,
    look: impl FnOnce(&Ask, &Electrics, &Shaft) -> T,
) -> T {
    sample::asking(job, Assist::None, &[time_s], |ask| {
        let mains = job.site.mains.expect("the job has mains");
        let electrics = Electrics::new(ask, mains);
        let demand = ask.demand(time_s);
        let cycle = Cycle::new(ask, &demand);
        let shaft = Shaft::new(ask, mechanism, &cycle, &runs(&demand));
        look(ask, &electrics, &shaft)
    })
}

#[test]
fn a_drum_finds_drives_with_all_that_they_need() {
    with_shaft(&job(&[]), 8.0, drum(0.05), |ask, electrics, shaft| {
        // 85 · 9.80665 · 0.05 = 41.68 N·m; 0.16875 m/s over 0.05 m.
        assert!((shaft.hold_n_m / 41.68 - 1.0).abs() < 1e-3);
        assert!((shaft.speed_most_rad_s / 3.375 - 1.0).abs() < 1e-3);
        let mut kinds = Vec::new();
        electrics.choose(ask, shaft, &mut Bench::silent(), |motor_drive, _| {
            kinds.push((motor_drive.motor.kind(), motor_drive.gearbox.is_some()));
            let mut drive = Drive::new("winch", "drum", Hours::SCREW, ask.demand(8.0));
            drive.checks = motor_drive.checks();
            drive.parts.extend(motor_drive.parts());
            for feed in motor_drive.draw().feeds(electrics) {
                motor_drive.draw().add(electrics, feed, &mut drive);
            }
            let controls = drive.parts.iter().any(|line| line.kind == "controls");
            let said = drive
                .checks
                .iter()
                .any(|check| check.formula == "F d/(2 η)");
            assert!(drive.passes() && controls && said && motor_drive.holding.time_s().is_some());
            // Work against the load: 833.6 N over 0.9 m at nine tenths is 833.6 J, and losses.
            drive.running.moving_j > 833.6
        });
        assert!(kinds.contains(&("servo", true)), "{kinds:?}");
    });
}

/// For a fixed drive a heavier load never lowers what it is used.
#[test]
fn a_heavier_load_never_helps() {
    let mut before = 0.0;
    for mass in ["20 kg", "40 kg", "80 kg", "160 kg"] {
        let sets = [("motion.load.least", mass), ("motion.load.most", mass)];
        let used = with_shaft(&job(&sets), 8.0, drum(0.05), |ask, electrics, shaft| {
            let servos = &electrics.ranges[1];
            let search = Search::new(electrics, ask, shaft, servos);
            let motor_drive = search.geared(0, servos.motors.len() - 1, 0);
            motor_drive.expect("it can be held").checks()[0].demand
        });
        assert!(used > before, "{used} at {mass}");
        before = used;
    }
}

/// Each pair of a range with its rank among all, the order in which they are taken.
fn all_pairs<'s, 'a>(search: &Search<'s, 'a>) -> Vec<((usize, usize, usize), MotorDrive<'s, 'a>)> {
    let range = search.range;
    let mut all = Vec::new();
    for (list, series) in range.series.iter().enumerate() {
        for row in 0..range.motors.len() {
            for at in 0..series.gearboxes.len() {
                let (p, q): (&Rank, &Rank) = (&range.ranks[row], &series.ranks[at]);
                let rank = (p.out + q.out, p.cost + q.cost, p.id, q.id);
                let place = (list, row, at);
                all.extend(
                    search
                        .geared(list, row, at)
                        .map(|motor_drive| (rank, place, motor_drive)),
                );
            }
        }
    }
    all.sort_by(|(p, ..), (q, ..)| p.partial_cmp(q).expect("costs are numbers"));
    all.into_iter()
        .map(|(_, place, motor_drive)| (place, motor_drive))
        .collect()
}

fn ids<'a>(motor_drive: &MotorDrive<'_, 'a>) -> (&'a str, Option<&'a str>) {
    let gearbox = motor_drive
        .gearbox
        .map(|gearbox| gearbox.common.id.as_str());
    (motor_drive.motor.common().id.as_str(), gearbox)
}

#[test]
fn the_search_finds_what_looking_at_every_pair_finds() {
    let noise = r#"{ "limit": "90 dB", "target": "50 dB", "worth": 50 }"#;
    let mass = r#"{ "limit": "900 kg", "target": "5 kg", "worth": 50 }"#;
    let (mut chosen, mut missed) = (0, 0);
    for (incline, law, splash) in [
        ("90 deg", "trapezoid", "dry"),
        ("-90 deg", "cycloidal", "dry"),
        ("0 deg", "trapezoid", "splash"),
    ] {
        let sets = [
            ("motion.incline", incline),
            ("motion.law", law),
            ("site.water", splash),
            ("goals.noise", noise),
            ("goals.added_mass", mass),
        ];
        for (radius_m, time_s) in [(0.002, 9.0), (0.02, 2.0), (0.1, 1.0), (0.3, 0.8)] {
            with_shaft(
                &job(&sets),
                time_s,
                drum(radius_m),
                |ask, electrics, shaft| {
                    let mut found = Vec::new();
                    electrics.choose(ask, shaft, &mut Bench::default(), |motor_drive, _| {
                        found.push(ids(motor_drive));
                        true
                    });
                    let mut expected = Vec::new();
                    for range in &electrics.ranges {
                        let search = Search::new(electrics, ask, shaft, range);
                        let all = all_pairs(&search);
                        let mut taken: ParetoFront<_, ()> = ParetoFront::default();
                        for (place, motor_drive) in
                            all.iter().filter(|(_, motor_drive)| motor_drive.passes())
                        {
                            let worth = search.worth(*place);
                            if !taken.beats(&worth) {
                                taken.take(worth, ());
                                expected.push(ids(motor_drive));
                            }
                        }
                        if taken.is_empty() {
                            let used =
                                |(_, motor_drive): &&(_, MotorDrive)| motor_drive.used(false);
                            let least = all.iter().min_by(|p, q| used(p).total_cmp(&used(q)));
                            let nearest = search.nearest();
                            assert_eq!(
                                nearest.as_ref().map(ids),
                                least.map(|(_, motor_drive)| ids(motor_drive))
                            );
                            missed += usize::from(least.is_some());
                        }
                    }
                    chosen += expected.len();
                    assert_eq!(found, expected);
                },
            );
        }
    }
    assert!(chosen > 15 && missed > 30, "{chosen} {missed}");
}
