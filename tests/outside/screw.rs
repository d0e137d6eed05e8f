//! Screws against textbooks and standards.

use counterpoise::mechanics::{bearing, screw};
use counterpoise::quantity::{Lead, Si, metres, newtons, pascals, rpm};

use super::agree;

/// Half angles, rad.
const SQUARE: f64 = 0.0;
const ACME: f64 = 14.5 * std::f64::consts::PI / 180.0;

/// Shigley, Example 8-1: square thread 32 mm, pitch 4 mm, two starts, collar 40 mm, friction 0.08.
#[test]
fn shigley_8_1() {
    let source = "Shigley's Mechanical Engineering Design (Budynas & Nisbett), Example 8-1";
    let (force, lead) = (newtons(6400.0), Lead::from_si(0.008));
    let mean = screw::pitch_diameter(metres(0.032), metres(0.004));
    agree(source, mean.si(), 0.03, 0.0017);
    let collar = screw::collar_torque(force, 0.08, metres(0.04)).si();
    let raise = screw::raise_torque(force, mean, lead, 0.08, SQUARE).si() + collar;
    agree(source, raise, 26.18, 0.0017);
    agree(
        source,
        screw::lower_torque(force, mean, lead, 0.08, SQUARE).si() + collar,
        9.77,
        0.0017,
    );
    agree(
        source,
        6400.0 * 0.008 / (std::f64::consts::TAU * raise),
        0.311,
        0.0017,
    );
}

/// Mott, Example Problem 17-1; the printed 1809 lbf in is 0.3 % under what its own formula gives.
#[test]
fn mott_17_1() {
    let source = "Mott, Machine Elements in Mechanical Design 4e, Example Problem 17-1";
    let (force, mean) = (newtons(55_602.770_190_8), metres(0.034_109_66));
    let torque = screw::raise_torque(force, mean, Lead::from_si(0.00635), 0.15, ACME).si();
    agree(source, torque, 205.000_432_565_5, 1e-6);
    agree(source, torque, 1809.0 * 0.112_984_829, 0.004);
    let efficiency = force.si() * 0.00635 / (std::f64::consts::TAU * torque);
    agree(source, efficiency, 0.274_116_706_698_8, 1e-6);
}

/// Two worked examples of power screws, recalled and recomputed.
#[test]
fn khurmi_17_1_and_17_2() {
    let source = "Khurmi & Gupta, A Textbook of Machine Design, power screws (from memory)";
    let torque = screw::raise_torque(
        newtons(10e3),
        metres(0.05),
        Lead::from_si(0.0125),
        0.15,
        SQUARE,
    ) + screw::collar_torque(newtons(10e3), 0.18, metres(0.06));
    agree(source, torque.si(), 112.2, 0.002);
    let mean = screw::pitch_diameter(metres(0.04), metres(0.006));
    let torque = screw::raise_torque(newtons(75e3), mean, Lead::from_si(0.006), 0.1, SQUARE).si();
    agree(source, torque, 211.45, 0.002);
    agree(
        source,
        torque * 0.005 / 0.006 * std::f64::consts::TAU,
        1108.0,
        0.002,
    );
}

/// Force, diameter, pitch, starts, friction, half angle, collar friction and diameter → raise, lower.
type Trapezoidal = (f64, f64, f64, f64, f64, f64, [f64; 2], [f64; 2]);

/// Trapezoidal and Acme screws by Shigley's eq. 8-5: diameter, pitch, starts, friction, half angle, collar → raise, lower.
#[test]
fn trapezoidal_screws() {
    let source = "Shigley, eq. 8-5 (thread-angle correction)";
    let angle = screw::TRAPEZOIDAL_HALF_ANGLE;
    let rows: [Trapezoidal; 3] = [
        (
            5e3,
            0.02,
            0.004,
            1.0,
            0.15,
            angle,
            [0.0, 0.0],
            [10.284_180_913_75, 3.763_672_834_623],
        ),
        (
            20e3,
            0.036,
            0.006,
            1.0,
            0.12,
            angle,
            [0.1, 0.05],
            [110.530_741_956_9, 71.742_019_884_51],
        ),
        (
            10e3,
            0.081,
            0.012,
            2.0,
            0.05,
            ACME,
            [0.06, 0.125],
            [95.368_485_410_28, 18.768_233_309_24],
        ),
    ];
    for (force, diameter, pitch, starts, friction, angle, [fc, dc], [raise, lower]) in rows {
        let mean = screw::pitch_diameter(metres(diameter), metres(pitch));
        let (force, lead) = (newtons(force), Lead::from_si(pitch * starts));
        let collar = screw::collar_torque(force, fc, metres(dc)).si();
        let up = screw::raise_torque(force, mean, lead, friction, angle).si() + collar;
        let down = screw::lower_torque(force, mean, lead, friction, angle).si() + collar;
        agree(source, up, raise, 1e-6);
        agree(source, down, lower, 1e-6);
    }
}

/// The least friction that holds, from a lowering torque of zero.
#[test]
fn self_locking() {
    let least = screw::self_locking_friction(metres(0.03), Lead::from_si(0.008), SQUARE);
    agree("Shigley, eq. 8-3", least, 0.084_882_636_315_68, 1e-6);
}

/// Basic dimensions of the metric trapezoidal thread: nominal, pitch, pitch diameter, minor diameter of the screw, mm.
#[test]
fn iso_2904_dimensions() {
    let source = "ISO 2904 / DIN 103 basic dimensions (from memory)";
    let rows = [
        (8.0, 1.5, 7.25, 6.2),
        (10.0, 2.0, 9.0, 7.5),
        (12.0, 3.0, 10.5, 8.5),
        (16.0, 4.0, 14.0, 11.5),
        (20.0, 4.0, 18.0, 15.5),
        (24.0, 5.0, 21.5, 18.5),
        (28.0, 5.0, 25.5, 22.5),
        (32.0, 6.0, 29.0, 25.0),
        (36.0, 6.0, 33.0, 29.0),
        (40.0, 7.0, 36.5, 32.0),
        (60.0, 9.0, 55.5, 50.0),
        (80.0, 10.0, 75.0, 69.0),
    ];
    for (d, pitch, mean, minor) in rows {
        let (d, pitch) = (metres(d * 1e-3), metres(pitch * 1e-3));
        agree(
            source,
            screw::pitch_diameter(d, pitch).si(),
            mean * 1e-3,
            1e-9,
        );
        agree(
            source,
            screw::minor_diameter(d, pitch).si(),
            minor * 1e-3,
            1e-9,
        );
    }
}

/// The catalog's sliding screws have the preferred pitches and the diameters of the standard.
#[test]
fn catalog_threads_are_standard() {
    let source = "ISO 2902 preferred pitches, ISO 2904 dimensions";
    let pitches = [
        (12.0, 3.0),
        (16.0, 4.0),
        (20.0, 4.0),
        (24.0, 5.0),
        (28.0, 5.0),
        (32.0, 6.0),
        (36.0, 6.0),
        (40.0, 7.0),
        (50.0, 8.0),
        (60.0, 9.0),
        (80.0, 10.0),
    ];
    let catalog = counterpoise::catalog::built_in().expect("the catalog is sound");
    for part in &catalog.sliding_screws {
        let d = part.diameter.si() * 1e3;
        let pitch = pitches
            .iter()
            .find(|(size, _)| (size - d).abs() < 1e-6)
            .expect("a preferred size")
            .1;
        agree(source, part.pitch.si() * 1e3, pitch, 1e-9);
        agree(
            source,
            part.root_diameter.si(),
            screw::minor_diameter(part.diameter, part.pitch).si(),
            1e-9,
        );
    }
}

#[test]
fn ball_screw_torque() {
    let source = "screw energy balance; reverse efficiency 2 - 1/η (ISO 3408-5 style pair)";
    let (force, lead) = (newtons(3000.0), Lead::from_si(0.005));
    agree(
        source,
        screw::drive_torque(force, lead, 0.9).si(),
        2.652_582_384_865,
        1e-6,
    );
    agree(
        source,
        screw::reverse_efficiency(0.9),
        0.888_888_888_888_9,
        1e-6,
    );
    agree(
        source,
        screw::back_drive_torque(force, lead, 0.9).si(),
        2.122_065_907_892,
        1e-6,
    );
}

/// First whirling speed of a 17 mm shaft, no 0.8 on it: length, eigenvalue, rpm.
#[test]
fn whirling() {
    let source = "first bending eigenvalue of an Euler-Bernoulli beam";
    let rows = [
        (0.5, screw::FIXED_FREE, 2_923.949_297_95),
        (1.0, screw::SUPPORTED, 2_051.912_510_033),
        (1.0, screw::FIXED_SUPPORTED, 3_205.478_954_095),
    ];
    for (length, eigenvalue, expected) in rows {
        let speed = screw::critical_speed(
            metres(0.017),
            metres(length),
            eigenvalue,
            pascals(206e9),
            7850.0,
        );
        agree(source, speed.si(), rpm(expected).si(), 1e-5);
    }
}

/// λ of a beam built in at one end solves tan λ = tanh λ (supported) or cos λ cosh λ = -1 (free).
#[test]
fn eigenvalues() {
    let source =
        "Blevins, Formulas for Natural Frequency and Mode Shape, single-span beams (from memory)";
    agree(source, screw::FIXED_SUPPORTED, 3.926_602_31, 1e-8);
    agree(source, screw::FIXED_FREE, 1.875_104_07, 1e-8);
    let l = screw::FIXED_SUPPORTED;
    agree("tan λ = tanh λ", libm::tan(l), libm::tanh(l), 1e-6);
    let l = screw::FIXED_FREE;
    agree(
        "cos λ cosh λ = -1",
        libm::cos(l) * libm::cosh(l),
        -1.0,
        1e-6,
    );
}

#[test]
fn nut_life() {
    let turns = bearing::rating_life(newtons(15e3), newtons(2500.0), 3.0);
    agree("ISO 3408-5", turns / 1e6, 216.0, 1e-6);
    agree("ISO 3408-5", turns / 600.0 / 60.0, 6000.0, 1e-6);
    agree("ISO 3408-5", turns * 0.005, 1_080_000.0, 1e-6);
}

#[test]
fn mean_load() {
    let steps = [
        (2000.0, 1000.0 * 0.5),
        (4000.0, 300.0 * 0.3),
        (8000.0, 100.0 * 0.2),
    ];
    let mean = bearing::cube_mean(steps.map(|(force, turns)| (newtons(force), turns)));
    agree(
        "ISO 3408-5 / ISO 281 cubic mean load",
        mean.si(),
        3_200.614_636_035,
        1e-6,
    );
    // A load that rises evenly from 1 to 4 kN, in many small steps.
    let ramp = (0..3000).map(|i| (newtons(1000.5 + f64::from(i)), 1.0));
    agree(
        "integral of F³ over travel",
        bearing::cube_mean(ramp).si(),
        2_769.829_128_377,
        1e-6,
    );
}

/// Travel deviation within 300 mm, µm: the catalog's grades.
#[test]
fn lead_error_grades() {
    let catalog = counterpoise::catalog::built_in().expect("the catalog is sound");
    for part in &catalog.ball_screws {
        let expected = if part.common.id.ends_with("fine") {
            23e-6
        } else {
            52e-6
        };
        agree(
            "ISO 3408-3, grades 5 and 7 (from memory)",
            part.lead_error.si(),
            expected,
            1e-9,
        );
    }
}
