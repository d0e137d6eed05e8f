//! A hinge on a base: margins against moments whose accelerations are differences of places, and what mends them.

use counterpoise::demand::{Assist, Axis, Case, Demand, Stability, TailWeight, Turn};
use counterpoise::quantity::{G_M_S2, Si, kilograms, metres};
use counterpoise::requirements::{Base, Reading, Requirements};
use proptest::prelude::*;

use super::{Swing, hinge, lid, swings};

/// Angle turned to either side for a difference of places, s.
const STEP_S: f64 = 1e-4;

/// A base by chance, never bolted: length, width, mass, centre's height and place, reach and height of the hinge.
fn bases() -> impl Strategy<Value = Base> {
    (
        [0.3..2.0_f64, 0.3..2.0_f64],
        20.0..300.0_f64,
        [0.2..1.0_f64, -0.1..0.1_f64],
        [-0.3..0.3_f64, 0.3..1.5_f64],
        prop::option::of(0.002..0.1_f64),
    )
        .prop_map(
            |([length, width], mass, [height, centre], [reach, hinge], stop)| Base {
                length: metres(length),
                width: metres(width),
                mass: kilograms(mass),
                centre_height: metres(height),
                centre_x: metres(centre),
                load_reach: metres(reach),
                load_height: metres(hinge),
                assist_reach: metres(0.0),
                stop_distance: stop.map(metres),
                bolted: false,
            },
        )
}

/// A point mass on the arm: mass, radius and angle from the arm line.
type Mass = (f64, f64, f64);

/// Where a mass is after a time from a motion: along the base, across it, up.
fn place(
    base: &Base,
    level: bool,
    (_, radius, at): Mass,
    (angle, speed, acceleration): (f64, f64, f64),
    time_s: f64,
) -> [f64; 3] {
    let turned = angle + speed * time_s + 0.5 * acceleration * time_s * time_s + at;
    let (x, other) = (radius * turned.cos(), radius * turned.sin());
    let (reach, height) = (base.load_reach.si(), base.load_height.si());
    if level {
        [reach + x, 0.0, height + other]
    } else {
        [reach + x, other, height]
    }
}

/// The least margin over the edges for a motion of the arm.
fn left_over(
    reading: &Reading,
    base: &Base,
    tail: TailWeight,
    case: &Case,
    motion: (f64, f64, f64),
) -> f64 {
    let hinge = hinge(reading);
    let masses = [
        (case.load_kg, hinge.radius.si(), hinge.angle.si()),
        (tail.mass_kg, -tail.radius_m, 0.0),
    ];
    let halves = [base.length.si() / 2.0, base.width.si() / 2.0];
    let mut least = f64::INFINITY;
    for (axis, side) in [(0, 1.0), (0, -1.0), (1, 1.0), (1, -1.0)] {
        let half = halves[axis];
        let centre = if axis == 0 { base.centre_x.si() } else { 0.0 };
        let mut moments = vec![base.mass.si() * G_M_S2 * (half - side * centre)];
        for mass in masses {
            let at = |time_s| place(base, hinge.axis_level, mass, motion, time_s);
            let (before, here, after) = (at(-STEP_S), at(0.0), at(STEP_S));
            let acceleration =
                |part: usize| (after[part] - 2.0 * here[part] + before[part]) / (STEP_S * STEP_S);
            let lever = half - side * here[axis];
            moments.push(mass.0 * G_M_S2 * lever);
            moments.push(mass.0 * acceleration(2) * lever);
            moments.push(side * mass.0 * acceleration(axis) * here[2]);
        }
        if hinge.axis_level && axis == 0 {
            let own = hinge.inertia.si() * case.load_kg / hinge.load.most.si();
            moments.push(-side * own * motion.2);
        }
        let restoring: f64 = moments.iter().filter(|m| **m > 0.0).sum();
        let overturning: f64 = -moments.iter().filter(|m| **m < 0.0).sum::<f64>();
        least = least.min((restoring - overturning) / restoring);
    }
    least
}

/// Margins at rest, in the move and in a stop, the slow way.
fn again(reading: &Reading, base: &Base, tail: TailWeight, demand: &Demand) -> [f64; 3] {
    let rules = &reading.requirements.rules;
    let mut least = [f64::INFINITY; 3];
    for case in &demand.cases {
        for (sample, turn) in case.profile.iter().zip(&case.swing) {
            let Turn {
                angle_rad,
                speed_rad_s,
                acceleration_rad_s2,
                ..
            } = *turn;
            let squared = sample.v_m_s * sample.v_m_s;
            let stop = base.stop_distance.map_or_else(
                || (squared / (2.0 * rules.stop_distance_default)).min(rules.stop_deceleration),
                |distance| squared / (2.0 * distance.si()),
            );
            // The lever from the power: what the drive goes for what the arm turns.
            let lever = if speed_rad_s == 0.0 {
                1.0
            } else {
                (sample.v_m_s / speed_rad_s).abs()
            };
            let motions = [
                (angle_rad, 0.0, 0.0),
                (angle_rad, speed_rad_s, acceleration_rad_s2),
                (
                    angle_rad,
                    speed_rad_s,
                    -case.direction.sign() * stop / lever,
                ),
            ];
            for (least, motion) in least.iter_mut().zip(motions) {
                *least = least.min(left_over(reading, base, tail, case, motion));
            }
        }
    }
    least
}

fn stability(job: &Requirements, assist: &Assist, time_s: f64) -> (Demand, Stability) {
    let axis = Axis::of(job).expect("the pins are given");
    let demand = axis.demand(job, assist, time_s);
    let found = demand.stability.expect("the job has a base");
    (demand, found)
}

/// A margin that a pocket calculator would tell apart; far below nothing all are the same.
fn same(got: f64, expected: f64) -> bool {
    (got - expected).abs() <= 1e-4 * expected.abs().max(1.0) || (got < -100.0 && expected < -100.0)
}

fn tail_of(swing: &Swing) -> TailWeight {
    swing.assist().tail().expect("the swing has a tail weight")
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, max_global_rejects: 20_000, failure_persistence: None, rng_seed: proptest::test_runner::RngSeed::Fixed(11), ..ProptestConfig::default() })]

    #[test]
    fn margins_are_those_of_moments_by_differences(swing in swings(), base in bases(), time_s in 0.8..20.0_f64) {
        let reading = swing.reading();
        prop_assume!(reading.is_some());
        let mut reading = reading.expect("it is some");
        reading.requirements.base = Some(base);
        let (demand, found) = stability(&reading.requirements, &swing.assist(), time_s);
        let expected = again(&reading, &base, tail_of(&swing), &demand);
        let got = [found.margin_static, found.margin_dynamic, found.margin_emergency_stop];
        for (got, expected) in got.into_iter().zip(expected) {
            prop_assert!(same(got, expected), "{got}, expected {expected}");
        }
    }

    /// Ballast, and a base of the size named, each bring the margin to the least allowed, and a little less does not.
    #[test]
    fn what_is_named_mends_it(swing in swings(), base in bases(), time_s in 0.8..20.0_f64) {
        let reading = swing.reading();
        prop_assume!(reading.is_some());
        let mut job = reading.expect("it is some").requirements;
        let least = job.rules.stability_least;
        let mut with = |base: Base| {
            job.base = Some(base);
            stability(&job, &swing.assist(), time_s).1
        };
        let found = with(base);
        prop_assert_eq!(found.ballast_kg > 0.0, found.margin() < least);
        prop_assume!(found.margin() < least && found.margin() > -100.0);
        let ballast = |kg: f64| Base {
            mass: kilograms(base.mass.si() + kg),
            centre_x: metres(base.mass.si() * base.centre_x.si() / (base.mass.si() + kg)),
            ..base
        };
        let mended = with(ballast(found.ballast_kg)).margin();
        prop_assert!((mended - least).abs() < 1e-6, "{mended} with the ballast");
        let short = with(ballast(0.97 * found.ballast_kg)).margin();
        prop_assert!(short < least, "{short} with less ballast");
        if found.length_needed_m.is_some() || found.width_needed_m.is_some() {
            let sized = |part: f64| Base {
                length: metres(part * found.length_needed_m.unwrap_or(base.length.si() / part)),
                width: metres(part * found.width_needed_m.unwrap_or(base.width.si() / part)),
                ..base
            };
            let larger = with(sized(1.0)).margin();
            prop_assert!((larger - least).abs() < 1e-3, "{larger} on a larger base");
            let smaller = with(sized(0.99)).margin();
            prop_assert!(smaller < least, "{smaller} on a smaller base");
        }
    }
}

/// A lid that hangs over the edge of its stand, by hand, so slow that only weight counts.
#[test]
fn a_slow_lid_by_hand() {
    // 30 kg at 0.4 m from a hinge 0.3 m out: with the lid level 0.7 m out, on 40 kg with half a base of 0.4 m.
    // R = 40·0.4 = 16, O = 30·0.3 = 9 kg m: 0.4375 is left. Centre of mass 21/70 = 0.3 m out.
    let mut job = lid(&[("motion.load.least", "30 kg".into())])
        .expect("a sound lid")
        .requirements;
    job.base = Some(Base {
        length: metres(0.8),
        width: metres(0.8),
        mass: kilograms(40.0),
        centre_height: metres(0.5),
        centre_x: metres(0.0),
        load_reach: metres(0.3),
        load_height: metres(0.9),
        assist_reach: metres(0.0),
        stop_distance: None,
        bolted: false,
    });
    let (_, found) = stability(&job, &Assist::None, 1e4);
    assert!((found.margin_static - 0.4375).abs() < 1e-9, "{found:?}");
    assert!((found.centre_most_m - 0.3).abs() < 1e-9, "{found:?}");
    assert_eq!(found.edge, "out");
    assert!(found.worst_angle_rad.expect("an angle").abs() < 1e-6);
    assert!(found.ballast_kg.abs() < 1e-12, "{found:?}");
    // A tail weight of 20 kg 0.5 m behind the hinge, over the other side of the middle: R = 16 + 20·0.6 = 28.
    let tail = Assist::Tail(TailWeight {
        mass_kg: 20.0,
        radius_m: 0.5,
    });
    let (_, found) = stability(&job, &tail, 1e4);
    assert!(
        (found.margin_static - 19.0 / 28.0).abs() < 1e-9,
        "{found:?}"
    );
}

/// Every option of a hinge with a base has the check, its formula and, where it fails, what would mend it.
#[test]
fn every_option_of_a_hinge_on_a_base_is_checked() {
    let base = |mass: &str| {
        vec![
            ("base.length", "800 mm".to_owned()),
            ("base.width", "700 mm".to_owned()),
            ("base.mass", mass.to_owned()),
            ("base.centre_height", "400 mm".to_owned()),
            ("base.load_reach", "200 mm".to_owned()),
            ("base.load_height", "900 mm".to_owned()),
        ]
    };
    let catalog = counterpoise::catalog::built_in().expect("the catalog is sound");
    let study = |mass: &str| {
        let sets: Vec<_> = base(mass)
            .into_iter()
            .map(|(path, value)| (path.to_owned(), value))
            .collect();
        let text = include_bytes!("../../examples/vat-lid.json");
        let reading = counterpoise::requirements::read(text, &sets).expect("a sound lid");
        counterpoise::study::study(&reading, catalog).expect("a hinge is ranked")
    };
    let heavy = study("400 kg");
    assert!(!heavy.options.is_empty());
    for option in &heavy.options {
        let mut checks = option.checks.iter();
        let check = checks.find(|check| check.id == "machine.stability");
        let check = check.expect("it is checked");
        assert!(check.passes && check.formula.contains("Ic phi''"));
        assert!(
            option
                .remarks
                .iter()
                .any(|text| text.contains("the arm at"))
        );
    }
    let light = study("10 kg");
    // A weight on the tail leans the other way: only such a lid still stands.
    let mut left = light.options.iter();
    assert!(left.all(|option| option.assist == "counterweight"));
    let fails = light.ruled_out.iter().flat_map(|line| &line.fails);
    let tips: Vec<_> = fails
        .filter(|fail| fail.check == "machine.stability")
        .collect();
    assert!(!tips.is_empty(), "{:?}", light.ruled_out);
    for fail in tips {
        assert!(
            fail.by.contains("with the arm at") && fail.by.contains("of ballast at the middle"),
            "{}",
            fail.by
        );
    }
}
