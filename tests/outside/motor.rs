//! Motors against definitions, standards and closed forms.

use counterpoise::mechanics::motor;
use counterpoise::quantity::{
    Lead, Si, kilogram_square_metres, kilograms, metres, newton_metres, rpm, seconds,
};
use counterpoise::requirements::Rules;

use super::agree;

#[test]
fn rms() {
    let steps = [(20.0, 0.2), (8.0, 1.0), (-12.0, 0.2), (0.0, 0.6)];
    let rms = motor::rms_torque(steps.map(|(t, s)| (newton_metres(t), seconds(s))));
    agree("definition of RMS", rms.si(), 9.295_160_030_898, 1e-6);
}

#[test]
fn duty() {
    agree(
        "IEC 60034-1, duty type S3",
        motor::duty_factor(seconds(150.0), seconds(450.0 + 150.0)),
        0.25,
        1e-9,
    );
}

/// The catalog's duty ratings are of the standard's series, or between two of its values.
#[test]
fn preferred_duties() {
    let source = "IEC 60034-1 duty types (from memory): S3 0.15, 0.25, 0.4, 0.6 of ten minutes";
    let catalog = counterpoise::catalog::built_in().expect("the catalog is sound");
    for part in &catalog.gear_motors {
        let series = [0.15, 0.25, 0.4, 0.6];
        let near = series
            .into_iter()
            .min_by(|p, q| (p - part.duty).abs().total_cmp(&(q - part.duty).abs()));
        agree(source, part.duty, near.unwrap_or(0.0), 1e-9);
    }
}

#[test]
fn reflected_inertia() {
    let source = "equal kinetic energy at the motor shaft";
    let geared = motor::reflected_inertia(kilogram_square_metres(2.5), 20.0);
    agree(source, geared.si(), 0.00625, 1e-6);
    // A mass on a belt: travel per turn is the pulley's circumference.
    let lead = Lead::from_si(std::f64::consts::PI * 0.08);
    agree(
        source,
        motor::inertia_of_mass(kilograms(25.0), lead).si(),
        0.04,
        1e-6,
    );
}

#[test]
fn bar_and_tube() {
    let bar = |d| motor::bar_inertia(metres(d), metres(1.5), 7850.0).si();
    agree("π ρ L D⁴/32", bar(0.032), 0.001_212_162_162_558, 1e-6);
    agree(
        "π ρ L (D⁴ - d⁴)/32",
        bar(0.032) - bar(0.02),
        0.001_027_200_895_077,
        1e-6,
    );
}

#[test]
fn inertia_ratio() {
    agree(
        "common practice, no source",
        Rules::default().inertia_ratio_most,
        10.0,
        0.1,
    );
}

/// A permanent-magnet motor gives most power at half its no-load speed, a quarter of stall torque times no-load speed.
#[test]
fn straight_line() {
    let power =
        |n: f64| motor::line_torque(newton_metres(6.0), rpm(600.0), rpm(n)).si() * rpm(n).si();
    let most = 6.0 * rpm(600.0).si() / 4.0;
    agree(
        "Fitzgerald, Electric Machinery, permanent-magnet motors (from memory)",
        power(300.0),
        most,
        1e-9,
    );
    assert!(power(299.0) < most && power(301.0) < most);
}
