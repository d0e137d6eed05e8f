//! Ropes and sheaves.

use counterpoise::catalog::{Rope, built_in};
use counterpoise::mechanics::rope;
use counterpoise::quantity::{Angle, Si, kilogram_square_metres, kilograms, metres, newtons};
use counterpoise::requirements::Rules;

use super::agree;
use super::rows::row;

/// Breaking force of the catalog's rope of a diameter, N.
fn breaking_force_n(diameter_mm: f64) -> f64 {
    let ropes = &built_in().expect("the catalog is sound").ropes;
    let same = |part: &&Rope| (part.diameter.si() * 1e3 - diameter_mm).abs() < 1e-6;
    let part = ropes.iter().find(same).expect("a rope of that diameter");
    part.breaking_force.si()
}

/// The row's class and grade are the catalog's.
#[test]
fn breaking_force_of_a_6x19_rope() {
    let row = row("rope-mbf");
    let found = breaking_force_n(row.input("rope_diameter_m") * 1e3);
    row.holds("breaking_force_n", found);
}

#[test]
fn load_in_acceleration() {
    let row = row("rope-accel-allowance");
    let weight = 1000.0 / row.input("g_m_s2");
    let tension = rope::tension(kilograms(weight), 1.0, row.input("acceleration_m_s2"));
    row.holds("load_factor", tension.si() / 1000.0);
}

/// The factor of a counterweight's rope is that of a private lift.
#[test]
fn rope_factors_of_regulations() {
    let row = row("rope-regulations");
    row.holds("private_lift", Rules::default().rope_factor_least);
    row.without(
        &[
            "crane_hoist",
            "hot_metal_crane",
            "tunnel_material_hoist",
            "tunnel_personnel_hoist",
        ],
        "the project lifts no crane loads and no people",
    );
}

/// The factor of a counterweight's rope covers the mechanism groups to M7.
#[test]
fn rope_factors_of_mechanism_groups() {
    let row = row("rope-zp");
    for group in 1..=7 {
        let key = format!("zp_m{group}");
        row.at_least(&key, Rules::default().rope_factor_least);
    }
    row.without(
        &["zp_m8"],
        "a counterweight of a one-off machine does not run as a crane of the hardest group",
    );
}

/// The least sheave ratio is that of group M5.
#[test]
fn sheave_ratios_of_mechanism_groups() {
    let row = row("rope-dd-ratio");
    row.holds("sheave_h2_m5", Rules::default().sheave_ratio_least);
    for group in 1..=4 {
        let key = format!("sheave_h2_m{group}");
        row.at_least(&key, Rules::default().sheave_ratio_least);
    }
    row.without(
        &["sheave_h2_m6", "sheave_h2_m7", "sheave_h2_m8"],
        "the project's rule is that of M5",
    );
    let drums: Vec<String> = (1..=8).map(|group| format!("drum_h1_m{group}")).collect();
    let drums: Vec<&str> = drums.iter().map(String::as_str).collect();
    row.without(&drums, "the project has no drums");
}

#[test]
fn mass_of_6x19_ropes() {
    let row = row("rope-6x19-data");
    let key = "mass_kg_per_m_per_d2_m2";
    let catalog = built_in().expect("the catalog is sound");
    let mut masses = catalog
        .ropes
        .iter()
        .map(|part| part.mass_per_length.si() / part.diameter.si().powi(2));
    row.holds(key, masses.next().expect("there are ropes"));
    for mass in masses {
        agree(&row.source(), mass, row.expected(key), 3e-3);
    }
    row.without(
        &["rope_modulus_pa"],
        "a rope's stretch is no check of the study yet",
    );
    row.without(
        &["sheave_ratio_low", "sheave_ratio_high"],
        "the project's rule is 20, for a weight that runs seldom; the table's 26 to 34 are for hoists",
    );
}

// --- beyond the collection ---

#[test]
fn breaking_forces_of_the_catalog() {
    let row = row("own-rope-forces");
    for (key, mm) in [
        ("d_6mm_n", 6.0),
        ("d_8mm_n", 8.0),
        ("d_12mm_n", 12.0),
        ("d_14mm_n", 14.0),
        ("d_16mm_n", 16.0),
    ] {
        row.holds(key, breaking_force_n(mm));
    }
}

/// Pull on a block's pin for a unit pull on the rope, by the angle between its falls.
#[test]
fn pull_on_a_block() {
    let row = row("own-block-angles");
    for (key, degrees) in [
        ("falls_0_deg", 0.0_f64),
        ("falls_20_deg", 20.0),
        ("falls_30_deg", 30.0),
        ("falls_60_deg", 60.0),
        ("falls_90_deg", 90.0),
        ("falls_120_deg", 120.0),
    ] {
        let wrap = Angle::from_si((180.0 - degrees).to_radians());
        row.holds(key, rope::pin_load(newtons(1.0), wrap).si());
    }
}

/// A solid disc that rolls up its rope weighs half its mass at the rim, a thin ring all of it.
#[test]
fn inertia_of_discs_and_rings() {
    let row = row("own-disc-and-ring");
    let (mass, radius) = (row.input("mass_kg"), row.input("radius_m"));
    let seen = |part: f64| {
        let inertia = kilogram_square_metres(part * mass * radius * radius);
        rope::sheave_mass(inertia, metres(2.0 * radius), 1.0).si()
    };
    row.holds("disc_kg", seen(0.5));
    row.holds("ring_kg", seen(1.0));
    // A wheel of the catalog lies between a disc and a ring of its own mass.
    let catalog = built_in().expect("the catalog is sound");
    for part in &catalog.sheaves {
        let mass = rope::sheave_mass(part.inertia, part.diameter, 1.0).si() / part.common.mass.si();
        assert!(mass < 1.0, "{}: {}", part.common.id, row.source());
    }
}
