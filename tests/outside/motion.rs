//! Motion laws, inclines, counterweights and stability: the demand against closed forms.

use counterpoise::demand::{Assist, Axis, Counterweight, Direction, Stability};
use counterpoise::quantity::{Angle, Si, kilogram_square_metres, kilograms, metres};
use counterpoise::requirements::{Base, Law, LoadRange, Requirements, Slide};

use super::agree;
use super::support::{self, about};

/// Laws in the order of the method, with `Cv` and `Ca`.
const THIRDS: Law = Law::Trapezoid {
    start: 1.0 / 3.0,
    end: 1.0 / 3.0,
};
const NORTON: &str = "closed form; laws in Norton, Design of Machinery, cams";
const NEWTON: &str = "Newton's second law with Coulomb friction, g of ISO 80000-3";

fn slide(incline_deg: f64, mass_kg: f64, friction: f64) -> Slide {
    Slide {
        incline: Angle::from_si(incline_deg.to_radians()),
        travel: metres(1.0),
        load: LoadRange {
            least: kilograms(mass_kg),
            most: kilograms(mass_kg),
        },
        guide_friction: friction,
        ..support::axis()
    }
}

fn force(slide: &Slide, assist: &Assist, mass_kg: f64, a: f64, way: Direction) -> f64 {
    Axis::new(&about(slide), slide).force_n(assist, mass_kg, 0.0, a, way, false)
}

#[test]
fn peaks_of_the_laws() {
    let triangular = Law::Trapezoid {
        start: 0.5,
        end: 0.5,
    };
    let rows = [
        (THIRDS, 1.5, 4.5),
        (triangular, 2.0, 4.0),
        (Law::Cycloidal, 2.0, core::f64::consts::TAU),
        (Law::Polynomial345, 1.875, 5.773_502_691_896),
        (Law::ModifiedTrapezoid, 2.0, 4.888_123_762_813),
        (
            Law::Harmonic,
            core::f64::consts::FRAC_PI_2,
            4.934_802_200_545,
        ),
    ];
    for (law, cv, ca) in rows {
        agree(NORTON, law.cv(), cv, 1e-6);
        agree(NORTON, law.ca(), ca, 1e-6);
    }
    // From memory of the same chapter, to four digits: 4-5-6-7 polynomial 2.188 and 7.513, modified sine 1.760 and 5.528.
    let source = "Norton, Design of Machinery, cams, from memory";
    agree(source, Law::Polynomial4567.cv(), 2.188, 3e-4);
    agree(source, Law::Polynomial4567.ca(), 7.513, 1e-4);
    agree(source, Law::ModifiedSine.cv(), 1.760, 3e-4);
    agree(source, Law::ModifiedSine.ca(), 5.528, 1e-4);
}

#[test]
fn a_cycloidal_move() {
    let slide = Slide {
        travel: metres(0.25),
        law: Law::Cycloidal,
        ..slide(0.0, 10.0, 0.0)
    };
    let job = about(&slide);
    let demand = Axis::new(&job, &slide).demand(&job, &Assist::None, 0.8);
    agree(NORTON, demand.worst.peak_speed_m_s, 0.625, 1e-6);
    agree(
        NORTON,
        demand.worst.peak_acceleration_m_s2,
        2.454_369_260_617,
        1e-6,
    );
    // Without friction the force is m a, and its RMS the mass times 4.443·S/T²; the trapezoid rule is exact for a sine.
    let rms = demand.worst.rms_moving_n / 10.0;
    let source = "closed form: mean square of the acceleration, 4.442 882 938 158";
    agree(source, rms * 0.8 * 0.8 / 0.25, 4.442_882_938_158, 1e-6);
}

#[test]
fn an_uneven_trapezoid() {
    // 0.8 m with 0.2 s to speed up, 0.6 s at speed and 0.4 s to slow down.
    let law = Law::Trapezoid {
        start: 0.2 / 1.2,
        end: 0.4 / 1.2,
    };
    let source = "constant-acceleration kinematics";
    agree(source, law.cv() * 0.8 / 1.2, 0.888_888_888_888_9, 1e-6);
    agree(
        source,
        law.at(0.0, false).a * 0.8 / 1.44,
        4.444_444_444_444,
        1e-6,
    );
    agree(
        source,
        -law.at(1.0, true).a * 0.8 / 1.44,
        2.222_222_222_222,
        1e-6,
    );
}

#[test]
fn rms_of_a_trapezoid() {
    // 0.3 s up to 0.6 m/s, 0.9 s at it, 0.3 s down: 0.72 m in 1.5 s.
    let law = Law::Trapezoid {
        start: 0.2,
        end: 0.2,
    };
    let slide = Slide {
        travel: metres(0.72),
        law,
        ..slide(0.0, 1.0, 0.0)
    };
    let job = about(&slide);
    let demand = Axis::new(&job, &slide).demand(&job, &Assist::None, 1.5);
    let source = "constant-acceleration kinematics";
    agree(source, demand.worst.peak_speed_m_s, 0.6, 1e-9);
    agree(source, demand.worst.rms_moving_n, 1.264_911_064_067, 1e-6);
}

#[test]
fn every_law_is_one_stroke() {
    // Each law integrated by our own trapezoid rule: speed to 1, and acceleration to the speed.
    let laws = [
        THIRDS,
        Law::Cycloidal,
        Law::Polynomial345,
        Law::Polynomial4567,
        Law::ModifiedSine,
        Law::ModifiedTrapezoid,
        Law::Harmonic,
    ];
    let n = 24_000;
    let step = 1.0 / f64::from(n);
    for law in laws {
        let (mut s, mut v, mut v_most, mut a_most) = (0.0, law.at(0.0, false).v, 0.0_f64, 0.0_f64);
        for i in 0..n {
            let now = law.at(f64::from(i) * step, false);
            let then = law.at(f64::from(i + 1) * step, true);
            s += step * f64::midpoint(now.v, then.v);
            v += step * f64::midpoint(now.a, then.a);
            assert!((s - then.s).abs() < 1e-6, "{law:?}: {s} is not {}", then.s);
            assert!((v - then.v).abs() < 1e-3, "{law:?}: {v} is not {}", then.v);
            v_most = v_most.max(now.v);
            a_most = a_most.max(now.a.abs());
        }
        agree(NORTON, s, 1.0, 1e-6);
        agree(NORTON, v_most, law.cv(), 1e-6);
        agree(NORTON, a_most, law.ca(), 1e-6);
    }
}

#[test]
fn up_an_incline() {
    let up = |deg, kg, friction, a| {
        force(
            &slide(deg, kg, friction),
            &Assist::None,
            kg,
            a,
            Direction::Out,
        )
    };
    agree(NEWTON, up(30.0, 100.0, 0.2, 0.5), 710.188_660_520_5, 1e-6);
    agree(NEWTON, up(90.0, 75.0, 0.1, 1.2), 825.498_750, 1e-6);
}

#[test]
fn held_back_down_an_incline() {
    let down = |deg, kg, friction, a: f64| {
        force(
            &slide(deg, kg, friction),
            &Assist::None,
            kg,
            -a,
            Direction::Back,
        )
    };
    agree(NEWTON, down(45.0, 60.0, 0.15, 0.3), 335.651_784_501_9, 1e-6);
    agree(
        NEWTON,
        down(20.0, 500.0, 0.05, 0.4),
        1_246.655_003_282,
        1e-6,
    );
}

#[test]
fn friction_angle() {
    // Steepest slope on which the load rests by itself: on it the force that lets it down is nothing.
    let deg = 16.699_244_233_99;
    let left = force(
        &slide(deg, 100.0, 0.3),
        &Assist::None,
        100.0,
        0.0,
        Direction::Back,
    );
    let weight = 100.0 * 9.806_65;
    assert!(
        left.abs() < 1e-6 * weight,
        "friction angle, any statics text: {left}"
    );
}

#[test]
fn a_free_slide_down() {
    // The acceleration at which nothing is left to hold, from two forces: linear in it. The book's g is 9.8.
    let slide = slide(13.0, 1.0, 0.2);
    let at = |a| force(&slide, &Assist::None, 1.0, a, Direction::Back);
    let a = at(0.0) / (at(0.0) - at(-1.0));
    let source = "OpenStax University Physics 1, ch. 6, snowboarder: 0.29 m/s² (from memory)";
    agree(source, a, 0.29, 0.018_103);
}

fn counterweight(mass_kg: f64, inertia: f64, radius_m: f64) -> Assist {
    let sheave = counterpoise::mechanics::rope::sheave_mass(
        kilogram_square_metres(inertia),
        metres(2.0 * radius_m),
        1.0,
    );
    Assist::Counterweight(Counterweight {
        mass_kg,
        travel_ratio: 1.0,
        sheaves: 2,
        loss_per_sheave: 0.0,
        sheave_mass_kg: sheave.si(),
    })
}

#[test]
fn counterweighted_lifts() {
    let source = "Newton's second law; the counterweight falls as the load rises";
    let lift = |kg| slide(90.0, kg, 0.0);
    let assist = counterweight(250.0, 0.9, 0.12);
    let up = force(&lift(300.0), &assist, 300.0, 0.6, Direction::Out);
    agree(source, up, 857.8325, 1e-6);
    agree(source, 300.0 + assist.moving_mass_kg(), 612.5, 1e-9);
    let assist = counterweight(60.0, 0.0, 0.1);
    let down = force(&lift(150.0), &assist, 150.0, -1.5, Direction::Back);
    agree(source, down, 567.5985, 1e-6);
}

#[test]
fn free_pair_over_a_pulley() {
    // The heavier mass is the counterweight; it falls by itself where the drive's force is nothing.
    let assist = counterweight(130.0, 0.5, 0.15);
    let slide = slide(90.0, 100.0, 0.0);
    let at = |a| force(&slide, &assist, 100.0, a, Direction::Out);
    let a = at(0.0) / (at(0.0) - at(1.0));
    agree(
        "Newton's second law for both masses and the pulley",
        a,
        1.166_429_735_683,
        1e-6,
    );
    // Serway's pair of 2 and 4 kg with g = 9.8; ours is 0.07 % more.
    let assist = counterweight(4.0, 0.0, 0.1);
    let slide = self::slide(90.0, 2.0, 0.0);
    let at = |a| force(&slide, &assist, 2.0, a, Direction::Out);
    let source = "Serway & Jewett, Atwood machine exercise: 3.27 m/s²";
    agree(source, at(0.0) / (at(0.0) - at(1.0)), 3.27, 2e-3);
}

/// A base whose load moves level at a height.
fn base(mass_kg: f64, half_m: f64, reach_m: f64, height_m: f64) -> Base {
    Base {
        length: metres(2.0 * half_m),
        width: metres(10.0),
        mass: kilograms(mass_kg),
        centre_height: metres(0.5),
        centre_x: metres(0.0),
        load_reach: metres(reach_m),
        load_height: metres(height_m),
        assist_reach: metres(0.0),
        stop_distance: Some(metres(1000.0)),
        bolted: false,
    }
}

fn stability(base: Base, load_kg: f64, travel_m: f64, time_s: f64) -> Stability {
    let slide = Slide {
        travel: metres(travel_m),
        ..slide(0.0, load_kg, 0.0)
    };
    let job = Requirements {
        base: Some(base),
        ..about(&slide)
    };
    let demand = Axis::new(&job, &slide).demand(&job, &Assist::None, time_s);
    demand.stability.expect("the job has a base")
}

const TIPPING: &str = "rigid body on a hard floor, moments about the tipping edge";

#[test]
fn a_mass_held_out_over_the_edge() {
    // 30 kg at 0.8 m at the end of its travel; righting over overturning is 1/(1 - margin).
    let found = stability(base(120.0, 0.35, 0.4, 0.7), 30.0, 0.4, 1e3);
    agree(
        TIPPING,
        1.0 / (1.0 - found.margin_static),
        3.111_111_111_111,
        1e-6,
    );
    // It tips with the mass at 1.75 m.
    let found = stability(base(120.0, 0.35, 1.35, 0.7), 30.0, 0.4, 1e3);
    assert!(
        found.margin_static.abs() < 1e-9,
        "{TIPPING}: {}",
        found.margin_static
    );
}

#[test]
fn a_moving_mass_that_slows_down() {
    // 40 kg slowing with 4 m/s² at 0.1 m, the end of 0.1 m travel: 4.5·S/T² = 4.
    let time = |a: f64| (4.5_f64 * 0.1 / a).sqrt();
    let found = stability(base(150.0, 0.4, 0.0, 1.2), 40.0, 0.1, time(4.0));
    agree(
        TIPPING,
        1.0 / (1.0 - found.margin_dynamic),
        3.677_493_75,
        1e-6,
    );
    let found = stability(base(150.0, 0.4, 0.0, 1.2), 40.0, 0.1, time(14.709_975));
    assert!(
        found.margin_dynamic.abs() < 1e-9,
        "{TIPPING}: {}",
        found.margin_dynamic
    );
}

#[test]
fn a_block_that_is_pushed_too_hard() {
    // All of the mass is the load, its middle at 0.9 m over half a base of 0.35 m; its travel of a micrometre
    // to one side of the middle shifts the margin by three millionths.
    let time = (4.5_f64 * 1e-6 / 3.813_697_222_222).sqrt();
    let found = stability(base(1e-9, 0.35, 0.0, 0.9), 100.0, 1e-6, time);
    assert!(
        found.margin_dynamic.abs() < 1e-5,
        "{TIPPING}: {}",
        found.margin_dynamic
    );
    // Before it tips it slides, where the floor bears less than 0.389 of the weight.
    agree(TIPPING, found.sliding_ratio, 0.388_888_888_888_9, 1e-6);
}

#[test]
fn combined_centre_of_mass() {
    // 80 kg in the middle and 25 kg at 0.6 m: 15/105; at 0.4 m, where it starts: 10/105.
    let found = stability(base(80.0, 1.0, 0.4, 1.1), 25.0, 0.2, 1e3);
    agree("weighted mean", found.centre_most_m, 15.0 / 105.0, 1e-9);
    agree("weighted mean", found.centre_least_m, 10.0 / 105.0, 1e-9);
}
