//! A hinge through the whole pipeline: the laws that any swing obeys, and the study of one.

#![allow(missing_docs, reason = "a test")]

mod stands;

use counterpoise::demand::{Assist, Axis, Case, Demand, TailWeight};
use counterpoise::quantity::{G_M_S2, Si};
use counterpoise::requirements::{Hinge, Motion, Reading, read};
use proptest::prelude::*;

const LID: &str = include_str!("../requirements/lid.json");

/// The lid with changes; none where they are refused, as at a dead centre.
fn lid(sets: &[(&str, String)]) -> Option<Reading> {
    let sets: Vec<(String, String)> = sets
        .iter()
        .map(|(path, value)| ((*path).to_owned(), value.clone()))
        .collect();
    read(LID.as_bytes(), &sets).ok()
}

fn hinge(reading: &Reading) -> &Hinge {
    match &reading.requirements.motion {
        Motion::Hinge(hinge) => hinge,
        Motion::Slide(_) => unreachable!("the lid swings"),
    }
}

/// A swing by chance: pins, centre of mass, law, friction, process.
#[derive(Debug, Clone)]
struct Swing {
    base: [f64; 2],
    arm: [f64; 2],
    from: f64,
    range: f64,
    centre: [f64; 2],
    friction: f64,
    process: [f64; 2],
    law: usize,
    tail: f64,
    level: bool,
}

const LAWS: [&str; 4] = ["trapezoid", "cycloidal", "modified_sine", "harmonic"];

fn swings() -> impl Strategy<Value = Swing> {
    let pin = || [-0.8..0.8_f64, -0.8..0.8_f64];
    (
        pin(),
        pin(),
        -170.0..150.0_f64,
        10.0..120.0_f64,
        [0.05..1.5_f64, -40.0..40.0_f64],
        (
            0.0..8.0_f64,
            [0.0..30.0_f64, -10.0..30.0_f64],
            0.0..40.0_f64,
        ),
        0..LAWS.len(),
        any::<bool>(),
    )
        .prop_map(
            |(base, arm, from, swing, centre, (friction, process, tail), law, level)| Swing {
                base,
                arm,
                from,
                range: swing,
                centre,
                friction,
                process,
                law,
                tail,
                level,
            },
        )
}

impl Swing {
    fn reading(&self) -> Option<Reading> {
        let pair = |[x, y]: [f64; 2]| format!("[\"{} mm\",\"{} mm\"]", x * 1e3, y * 1e3);
        let at = |angle: f64, torque: f64| {
            format!(
                "{{\"at\":\"{angle} deg\",\"out\":\"{torque} Nm\",\"back\":\"0 Nm\",\"hold\":\"0 Nm\"}}"
            )
        };
        let to = self.from + self.range;
        lid(&[
            ("motion.anchors.base", pair(self.base)),
            ("motion.anchors.arm", pair(self.arm)),
            ("motion.from", format!("{} deg", self.from)),
            ("motion.to", format!("{to} deg")),
            (
                "motion.axis",
                if self.level { "level" } else { "upright" }.into(),
            ),
            (
                "motion.centre_of_mass.radius",
                format!("{} m", self.centre[0]),
            ),
            (
                "motion.centre_of_mass.angle",
                format!("{} deg", self.centre[1]),
            ),
            ("motion.pivot_friction", format!("{} Nm", self.friction)),
            (
                "motion.process",
                format!(
                    "[{},{}]",
                    at(self.from, self.process[0]),
                    at(to, self.process[1])
                ),
            ),
            ("motion.law", LAWS[self.law].into()),
        ])
    }

    fn assist(&self) -> Assist {
        Assist::Tail(TailWeight {
            mass_kg: self.tail,
            radius_m: 0.3,
        })
    }
}

/// Work of the drive's force over its own way, by the trapezoid rule.
fn work(case: &Case) -> f64 {
    let pairs = case.profile.windows(2);
    pairs
        .map(|pair| (pair[1].x_m - pair[0].x_m) * f64::midpoint(pair[0].force_n, pair[1].force_n))
        .sum()
}

/// What a swing of the arm outward takes: weight raised, friction, process; it begins and ends at rest.
fn energy(swing: &Swing, hinge: &Hinge, mass_kg: f64) -> f64 {
    let (from, to) = (hinge.from.si(), hinge.to.si());
    let height = |angle: f64| hinge.radius.si() * libm::sin(angle + hinge.angle.si());
    let raised = mass_kg * (height(to) - height(from));
    let tail = swing.tail * 0.3 * (libm::sin(to) - libm::sin(from));
    let weight = if swing.level {
        G_M_S2 * (raised - tail)
    } else {
        0.0
    };
    let process = f64::midpoint(swing.process[0], swing.process[1]);
    weight + (swing.friction + process) * (to - from)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, rng_seed: proptest::test_runner::RngSeed::Fixed(7), ..ProptestConfig::default() })]

    #[test]
    fn work_of_the_drive_is_what_the_swing_takes(swing in swings(), time_s in 0.5..20.0_f64) {
        let reading = swing.reading();
        prop_assume!(reading.is_some());
        let reading = reading.expect("it is some");
        let job = &reading.requirements;
        let axis = Axis::of(job).expect("the pins are given");
        let demand = axis.demand(job, &swing.assist(), time_s);
        for case in demand.cases.iter().filter(|case| case.direction == counterpoise::demand::Direction::Out) {
            let asked = energy(&swing, hinge(&reading), case.load_kg);
            let through: f64 = case.profile.windows(2).map(|pair| {
                ((pair[1].x_m - pair[0].x_m) * f64::midpoint(pair[0].force_n, pair[1].force_n)).abs()
            }).sum();
            prop_assert!((work(case) - asked).abs() <= 1e-3 * through.max(1e-6), "{} J, asked {asked} J", work(case));
        }
    }

    #[test]
    fn power_is_the_same_at_drive_and_arm(swing in swings(), time_s in 0.5..20.0_f64) {
        let reading = swing.reading();
        prop_assume!(reading.is_some());
        let reading = reading.expect("it is some");
        let job = &reading.requirements;
        let axis = Axis::of(job).expect("the pins are given");
        let demand = axis.demand(job, &swing.assist(), time_s);
        let travel = axis.travel_m;
        for case in &demand.cases {
            for (sample, turn) in case.profile.iter().zip(&case.swing) {
                let (drive, arm) = (sample.force_n * sample.v_m_s, turn.torque_n_m * turn.speed_rad_s);
                prop_assert!((drive - arm).abs() <= 1e-9 * arm.abs().max(1e-6));
                prop_assert!(sample.x_m >= -1e-12 && sample.x_m <= travel + 1e-12);
                // The drive's own way back from a place to the arm gives the force at rest once more.
                let upper = sample.v_m_s >= 0.0;
                let again = axis.force_n(&swing.assist(), case.load_kg, sample.x_m, 0.0, case.drive, upper);
                prop_assert!((again - sample.static_force_n).abs() <= 1e-5 * again.abs().max(1.0), "{again} {}", sample.static_force_n);
            }
        }
    }

    /// The motion of the drive is that of its own positions: speed and acceleration by differences.
    #[test]
    fn speed_and_acceleration_are_those_of_the_way(swing in swings()) {
        let cycloid = Swing { law: 1, ..swing };
        let reading = cycloid.reading();
        prop_assume!(reading.is_some());
        let reading = reading.expect("it is some");
        let job = &reading.requirements;
        let axis = Axis::of(job).expect("the pins are given");
        let demand = axis.demand(job, &Assist::None, 2.0);
        for case in &demand.cases {
            let (most_v, most_a) = (demand.worst.peak_speed_m_s, demand.worst.peak_acceleration_m_s2);
            for three in case.profile.windows(3) {
                let [p, q, r] = three else { unreachable!("windows of three") };
                let (h, k) = (q.t_s - p.t_s, r.t_s - q.t_s);
                if (h - k).abs() > 1e-9 || h <= 0.0 { continue; }
                let v = (r.x_m - p.x_m) / (2.0 * h);
                let a = (r.x_m - 2.0 * q.x_m + p.x_m) / (h * h);
                prop_assert!((v - q.v_m_s).abs() <= 3e-3 * most_v, "{v} {}", q.v_m_s);
                prop_assert!((a - q.a_m_s2).abs() <= 1e-2 * most_a, "{a} {}", q.a_m_s2);
            }
        }
    }
}

/// Force on the pivot by hand: with the arm level and at rest, the drive square to the arm lifts what its lever leaves.
#[test]
fn the_pivot_by_hand() {
    // 30 kg at 0.4 m: 117.68 N m. Drive straight up at 0.2 m: 588.4 N. The pivot is pressed down with 588.4 − 294.2 N.
    let reading = lid(&[
        ("motion.anchors.base", "[\"200 mm\",\"-600 mm\"]".into()),
        ("motion.anchors.arm", "[\"200 mm\",\"0 mm\"]".into()),
        ("motion.to", "1 deg".into()),
    ])
    .expect("a sound lid");
    let job = &reading.requirements;
    let demand: Demand = Axis::of(job)
        .expect("pins")
        .demand(job, &Assist::None, 1000.0);
    let hinge = demand.hinge.expect("a hinge");
    assert!((demand.worst.static_peak_n - 588.4).abs() < 0.1);
    assert!(
        (hinge.pivot_peak_n - 294.2).abs() < 0.1,
        "{}",
        hinge.pivot_peak_n
    );
    assert!((hinge.static_peak_n_m - 117.68).abs() < 0.01);
}

/// The same lid seen in a mirror asks the same of a drive that pulls where the other pushes.
#[test]
fn a_mirrored_lid_asks_the_same() {
    let out = lid(&[
        ("motion.anchors.base", "[\"250 mm\",\"-600 mm\"]".into()),
        ("motion.anchors.arm", "[\"200 mm\",\"0 mm\"]".into()),
    ])
    .expect("a sound lid");
    let mirrored = lid(&[
        ("motion.from", "100 deg".into()),
        ("motion.to", "180 deg".into()),
        ("motion.anchors.base", "[\"-250 mm\",\"-600 mm\"]".into()),
        ("motion.anchors.arm", "[\"200 mm\",\"0 mm\"]".into()),
    ])
    .expect("a sound lid");
    let of = |reading: &Reading| {
        let job = &reading.requirements;
        Axis::of(job)
            .expect("pins")
            .demand(job, &Assist::None, 10.0)
    };
    let (there, here) = (of(&out), of(&mirrored));
    assert!((there.worst.push_peak_n - here.worst.push_peak_n).abs() < 1e-6);
    assert!((there.worst.work_in_j - here.worst.work_in_j).abs() < 1e-6);
    assert!((there.holding_push_n - here.holding_push_n).abs() < 1e-6);
    // Out is the growing angle, which here lowers the lid: the drive shortens.
    assert!(here.cases.iter().all(|case| case.drive != case.direction));
    assert!(there.cases.iter().all(|case| case.drive == case.direction));
}
