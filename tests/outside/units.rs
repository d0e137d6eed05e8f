//! Units against NIST SP 811 (2008), appendix B.8: exact by definition of the inch, pound and standard gravity.

use counterpoise::quantity::{ATMOSPHERE_PA, Kind, parse_as};

use super::agree;

const SP811: &str = "NIST SP 811 (2008), appendix B.8";

#[track_caller]
fn holds(text: &str, kind: Kind, expected: f64, rel: f64) {
    let got = parse_as(text, kind).expect(text);
    agree(&format!("{SP811}, {text}"), got, expected, rel);
}

#[test]
fn mass_length_and_force() {
    holds("1 lb", Kind::Mass, 0.453_592_37, 1e-12);
    holds("1 in", Kind::Length, 0.025_4, 1e-12);
    holds("1 ft", Kind::Length, 0.304_8, 1e-12);
    holds("1 lbf", Kind::Force, 4.448_221_615_26, 1e-10);
    // Sixteen avoirdupois ounces are a pound (same source).
    holds("16 oz", Kind::Mass, 0.453_592_37, 1e-12);
}

#[test]
fn pressure() {
    holds("1 psi", Kind::Pressure, 6_894.757_293_168, 1e-9);
    holds("1 bar", Kind::Pressure, 1e5, 1e-12);
    agree(
        "ISO 2533, standard atmosphere",
        ATMOSPHERE_PA,
        101_325.0,
        1e-12,
    );
}

#[test]
fn flow() {
    // The US gallon, 231 in³.
    holds("60 gpm", Kind::Flow, 0.003_785_411_784, 1e-9);
    // One cubic foot a minute (same source, rounded there to seven digits).
    holds("1 cfm", Kind::Flow, 4.719_474e-4, 1e-7);
}

#[test]
fn power_torque_and_turning() {
    holds("1 hp", Kind::Power, 745.699_871_582_3, 1e-9);
    holds("1500 rpm", Kind::Rotation, 157.079_632_679_5, 1e-12);
    holds("1 lbf ft", Kind::Torque, 1.355_817_948_331, 1e-9);
    holds("1 lbf in", Kind::Torque, 0.112_984_829_027_6, 1e-9);
}

#[test]
fn temperature() {
    holds("104 degF", Kind::Temperature, 313.15, 1e-12);
    holds("40 degC", Kind::Temperature, 313.15, 1e-12);
}

#[test]
fn hydraulic_horsepower() {
    // The divisor 1714 of the trade's psi × gpm / 1714 is rounded; the SI product is exact.
    let pressure = parse_as("1000 psi", Kind::Pressure).expect("pressure");
    let flow = parse_as("10 gpm", Kind::Flow).expect("flow");
    let hp = parse_as("1 hp", Kind::Power).expect("power");
    agree("exact SI product", pressure * flow, 4_349.915_917_563, 1e-9);
    agree(
        "psi × gpm / 1714",
        pressure * flow / hp,
        1000.0 * 10.0 / 1714.0,
        5e-4,
    );
}
