//! Beams against handbooks, and the materials they are made of.

use counterpoise::mechanics::beam::{Beam, Held, OAK, PINE, Section};
use counterpoise::quantity::{Kind, Si, kilograms, metres, newtons, parse_as, pascals};

use super::rows::{Row, row};

/// The bar of a row.
fn bar(row: &Row, held: Held) -> Beam {
    Beam {
        section: Section::Rectangle {
            width_m: row.input("width_m"),
            height_m: row.input("height_m"),
        },
        length: metres(row.input("length_m")),
        held,
        modulus: pascals(row.input("youngs_modulus_pa")),
    }
}

fn under_a_load(id: &str, held: Held) -> (Row, f64, f64) {
    let row = row(id);
    let (beam, load) = (bar(&row, held), newtons(row.input("load_n")));
    let (bends, stress) = (beam.deflection(load, 0.0), beam.stress(load, 0.0));
    (row, bends.si(), stress.si())
}

#[test]
fn a_load_at_the_end_of_a_cantilever() {
    let (row, bends, stress) = under_a_load("beam-cant-1", Held::OneEnd);
    row.holds("deflection_m", bends);
    row.holds("stress_pa", stress);
}

#[test]
fn a_load_amid_a_beam_on_two_supports() {
    let (row, bends, stress) = under_a_load("beam-ss-1", Held::BothEnds);
    row.holds("deflection_m", bends);
    row.holds("stress_pa", stress);
}

fn under_its_own_weight(row: &Row, held: Held) -> f64 {
    let line = row.input("line_load_n_m");
    bar(row, held).deflection(newtons(0.0), line).si()
}

#[test]
fn a_load_spread_over_a_cantilever() {
    let row = row("beam-udl-cant");
    row.holds("deflection_m", under_its_own_weight(&row, Held::OneEnd));
}

#[test]
fn a_load_spread_between_two_supports() {
    let row = row("beam-udl-ss");
    row.holds("deflection_m", under_its_own_weight(&row, Held::BothEnds));
}

#[test]
fn a_bar_stood_on_edge() {
    let row = row("beam-orient-1");
    let flat = Section::Rectangle {
        width_m: row.input("long_side_m"),
        height_m: row.input("short_side_m"),
    };
    let edge = flat.turned();
    let stiffer = edge.second_moment_m4() / flat.second_moment_m4();
    row.holds("stiffness_ratio", stiffer);
    row.holds("strength_ratio", edge.modulus_m3() / flat.modulus_m3());
}

#[test]
fn a_mass_at_the_end_of_a_cantilever_swings() {
    let row = row("beam-freq-1");
    let arm = bar(&row, Held::OneEnd);
    let own = row.input("density_kg_m3") * arm.section.area_m2() * arm.length.si();
    let load = kilograms(row.input("tip_mass_kg"));
    row.holds("frequency_hz", arm.frequency_hz(load, kilograms(own)));
}

/// The handbook's numbers are in psi: they come out as it converts them.
#[test]
fn moduli_of_wood_in_psi() {
    let row = row("beam-moduli-wood");
    for key in row.keys() {
        let psi = row.input(&key.replace("_pa", "_psi"));
        let read = parse_as(&format!("{psi} psi"), Kind::Pressure).expect("a pressure");
        row.holds(&key, read);
    }
}

#[test]
fn moduli_of_oak_and_pine() {
    let row = row("beam-moduli-oak-pine");
    row.holds("white_oak_pa", OAK.modulus_pa);
    row.holds("eastern_white_pine_pa", PINE.modulus_pa);
    row.without(
        &[
            "northern_red_oak_pa",
            "ponderosa_pine_pa",
            "loblolly_pine_pa",
        ],
        "of each wood the project knows one, the less stiff",
    );
}
