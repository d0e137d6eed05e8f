//! Ropes and sheaves.

use counterpoise::mechanics::rope;
use counterpoise::quantity::{
    kilogram_square_metres, kilograms, metres, newtons, pascals, square_metres,
};

use super::agree;

const GRADE_PA: f64 = 1.77e9;
const MODULUS_PA: f64 = 83e9;

#[test]
fn breaking_force_of_a_6x19_rope() {
    // Printed to three digits.
    let force = rope::breaking_force(metres(0.010), 0.33, pascals(GRADE_PA));
    let source = "EN 12385-4 / ISO 2408: 10 mm 6x19 fibre core, 1770: 58.4 kN (from memory)";
    agree(source, force.value, 58_400.0, 1e-3);
}

#[test]
fn diameter_for_a_pull() {
    let d = rope::least_diameter(newtons(10_000.0), 4.0, 0.33, pascals(GRADE_PA));
    agree(
        "ISO 4308-1 with F_min = K d² R",
        d.value,
        8.275_350_410_323e-3,
        1e-6,
    );
    let force = rope::breaking_force(d, 0.33, pascals(GRADE_PA));
    agree(
        "ISO 4308-1: breaking force = Zp · S",
        force.value,
        40_000.0,
        1e-6,
    );
}

#[test]
fn stretch_and_bending() {
    let stretch = rope::elongation(
        newtons(5000.0),
        metres(12.0),
        square_metres(4e-5),
        pascals(MODULUS_PA),
    );
    let source = "Shigley, rope stretch F L/(A E) with 6x19 near 12 million psi";
    agree(source, stretch.value, 0.018_072_289_156_63, 1e-6);
    let stress = rope::bending_stress(pascals(MODULUS_PA), metres(0.0006), metres(0.25));
    agree(
        "Shigley, bending of rope wires E dw/D",
        stress.value,
        199.2e6,
        1e-6,
    );
}

#[test]
fn load_in_acceleration() {
    // The regulation rounds 1.0622 to 1.06.
    let weight = 1000.0 / counterpoise::quantity::G_M_S2;
    let tension = rope::tension(kilograms(weight), 1.0, 0.6096);
    let source = "California Title 8 § 8497: 6 % more at 2 ft/s²";
    agree(source, tension.value / 1000.0, 1.06, 5e-3);
}

#[test]
fn slack_at_free_fall() {
    let source = "a weight in free fall carries no rope tension";
    agree(source, rope::slackness(1.0, 9.806_65), 1.0, 1e-9);
}

#[test]
fn counterweight_side_tension_and_apparent_mass() {
    // Load rising at 0.6 m/s², so the weight falls: its rope carries mc (g - a); the greatest is on stopping.
    let source = "Newton's second law, 250 kg slowed at 0.6 m/s²";
    let tension = rope::tension(kilograms(250.0), 1.0, 0.6);
    agree(source, tension.value, 250.0 * (9.806_65 + 0.6), 1e-9);
    // 300 + 250 + 0.9/0.12² = 612.5 kg.
    let sheave = rope::sheave_mass(kilogram_square_metres(0.9), metres(0.24), 1.0);
    let source = "Newton's second law: apparent mass of load, weight and pulley";
    agree(source, 550.0 + sheave.value, 612.5, 1e-9);
}

#[test]
fn ropes_and_sheaves_of_the_catalog_follow_the_tables() {
    let catalog = counterpoise::catalog::built_in().expect("the built-in catalog is sound");
    for part in &catalog.ropes {
        let d = part.diameter.value;
        // Rounded to four digits in the catalog.
        let source =
            "Hamrock, Fundamentals of Machine Elements, table 18.7: 1.60 lb/ft per square inch";
        let mass = counterpoise::quantity::Si::si(part.mass_per_length) / (d * d);
        agree(source, mass, 3690.65, 3e-3);
        let force = rope::breaking_force(part.diameter, 0.33, pascals(GRADE_PA));
        agree(
            "EN 12385-4, from memory",
            part.breaking_force.value,
            force.value,
            1e-3,
        );
    }
}
