//! Laws and sample jobs of the hydraulic family.

use super::Hydraulic;
use crate::demand::Assist;
use crate::family::{Bench, Check, Drive, PartLine, sample};
use crate::quantity::{kilograms, metres};
use crate::requirements::Requirements;
use crate::support::slide_mut;

fn with(job: &Requirements, times: &[f64], look: impl FnOnce(&mut Bench)) {
    sample::build(&Hydraulic, job, Assist::None, times, look);
}

fn of<'c>(checks: &'c [Check], id: &str) -> &'c Check {
    let found = checks.iter().find(|check| check.id == id);
    found.unwrap_or_else(|| panic!("there is a check {id}"))
}

/// By hand: F = 40 kN + 0.05 · 50 · 9.807 + 20 + 50 · 0.027 = 40.05 kN; 80/45 bore 5.027e-3, annulus 3.436e-3 m²;
/// p = 40.05e3 · 1.2/(5.027e-3 · 0.92) + 10 bar + 5 · 0.6836 bar = 103.9 + 10 + 3.4 = 117.3 bar;
/// v = 1.5 · 0.15/5 = 0.045 m/s, Q = 5.027e-3 · 0.045/0.95 = 14.29 L/min.
#[test]
fn a_press_by_hand() {
    let job = sample::press(&[("goals.noise.limit", "140 dB")]);
    with(&job, &[5.0, 4.0, 3.15, 2.5], |bench| {
        let press = bench
            .sound
            .iter()
            .filter(|drive| drive.words.starts_with("80/45"))
            .find(|drive| (drive.travel_time_s - 5.0).abs() < 1e-9);
        let press = press.expect("an 80 mm cylinder does it in 5 s");
        let pressure = of(&press.checks, "oil_cylinder.pressure").demand;
        let flow = of(&press.checks, "oil_unit.flow").demand;
        assert!((pressure - 117.3).abs() < 0.1, "{pressure} bar");
        assert!((flow - 14.29).abs() < 0.01, "{flow} L/min");
    });
}

#[test]
fn a_door_is_held_by_a_counterbalance_valve() {
    with(&sample::door(&[]), &[20.0, 10.0, 6.3], |bench| {
        assert!(!bench.sound.is_empty());
        for drive in &bench.sound {
            assert!(
                drive
                    .checks
                    .iter()
                    .any(|check| check.id == "counterbalance.setting")
            );
            assert!(drive.holds, "the valve holds it without power");
        }
    });
}

#[test]
fn no_oil_or_no_mains_says_so() {
    let mut job = sample::door(&[]);
    job.site.oil_tolerated = false;
    job.site.mains = None;
    with(&job, &[20.0], |bench| {
        let fails: Vec<&str> = bench.take_nearest().iter().map(|check| check.id).collect();
        assert_eq!(fails, ["oil.tolerated", "oil_unit.mains"]);
    });
}

#[test]
fn too_much_says_by_how_much() {
    let mut job = sample::door(&[]);
    slide_mut(&mut job).load.most = kilograms(90e3);
    with(&job, &[20.0], |bench| {
        assert!(bench.sound.is_empty());
        let fails = bench.take_nearest();
        assert!(fails.iter().all(|check| check.utilisation() > 1.0) && !fails.is_empty());
    });
}

#[test]
fn a_heavier_load_never_lowers_pressure_buckling_or_setting() {
    let mut job = sample::door(&[]);
    let mut before: Vec<f64> = vec![0.0; 4];
    for load in [150.0, 200.0, 250.0, 300.0] {
        let axis = slide_mut(&mut job);
        (axis.load.least, axis.load.most) = (kilograms(load), kilograms(load));
        with(&job, &[20.0], |bench| {
            // The law is of a fixed drive: the same cylinder under every load.
            let same = |drive: &&Drive| drive.parts[0].common.id == "oil-cylinder-32-22";
            let drive = bench
                .sound
                .iter()
                .find(same)
                .expect("this cylinder lifts it");
            let ids = [
                "oil_cylinder.pressure",
                "oil_cylinder.rod_buckling",
                "oil_cylinder.trapped_pressure",
                "counterbalance.setting",
            ];
            let now: Vec<f64> = ids.iter().map(|id| of(&drive.checks, id).demand).collect();
            assert!(
                before.iter().zip(&now).all(|(p, q)| p <= q),
                "{before:?} {now:?}"
            );
            before = now;
        });
    }
}

#[test]
fn a_slim_rod_buckles_and_a_thick_one_is_taken() {
    let mut job = sample::door(&[]);
    slide_mut(&mut job).travel = metres(1.2);
    slide_mut(&mut job).load.most = kilograms(1500.0);
    with(&job, &[30.0], |bench| {
        assert!(!bench.sound.is_empty());
    });
}

/// By hand: 0.5 mL/min leaks for 40 min, 20 mL; the gas is filled to 0.9 of the least pressure and a tenth may be lost:
/// 20 mL/(0.9 · 0.1) = 222 mL, so 0.35 L and not 0.16 L, which lasts 28.8 min.
#[test]
fn a_force_kept_up_gets_an_accumulator_that_lasts() {
    let kept =
        r#"[{ "at": "0 mm" }, { "at": "150 mm", "out": "40 kN", "back": "0 N", "hold": "40 kN" }]"#;
    let sets = [
        ("goals.noise.limit", "140 dB"),
        ("motion.process", kept),
        ("timing.cycles_per_hour", "1"),
        ("timing.rest_out", "40 min"),
    ];
    with(&sample::press(&sets), &[5.0], |bench| {
        assert!(!bench.sound.is_empty(), "something presses");
        for drive in &bench.sound {
            let of_kind = |line: &&PartLine| line.kind == "oil_accumulators";
            let accumulator = drive.parts.iter().find(of_kind);
            let id = accumulator.map(|line| line.common.id.as_str());
            assert_eq!(id, Some("oil-accumulator-0p35"), "{}", drive.words);
            let pressure = of(&drive.checks, "oil_accumulator.pressure");
            assert!(pressure.passes() && pressure.capacity > 200.0);
        }
    });
}
