//! Columns against textbooks.

use counterpoise::mechanics::column::{self, Ends};
use counterpoise::quantity::{Si, metres, pascals};

use super::agree;
use super::rows::{Row, row, solve};

/// Load of a round bar: diameter, length, K, yield, modulus.
fn load(d: f64, l: f64, k: f64, yield_pa: f64, modulus_pa: f64) -> f64 {
    column::critical_load(
        metres(d),
        metres(l),
        k,
        pascals(yield_pa),
        pascals(modulus_pa),
    )
    .si()
}

/// A yield so high that Euler governs whatever the slenderness.
const NO_YIELD: f64 = 1e13;
/// Effective length of a column built in and pinned, exactly: π over the first root of tan x = x.
const FIXED_PINNED: f64 = std::f64::consts::PI / 4.493_409_457_909_064;

fn area(d: f64) -> f64 {
    std::f64::consts::PI * d * d / 4.0
}

/// The Euler load goes with I, so that of a tube is the outer bar's less the inner's.
fn tube(row: &Row, k: f64) -> f64 {
    let (length, modulus) = (row.input("length_m"), row.input("youngs_modulus_pa"));
    let bar = |d| load(d, length, k, NO_YIELD, modulus);
    bar(row.input("outer_diameter_m")) - bar(row.input("inner_diameter_m"))
}

/// Load of a rectangular bar: its stress is that of the round bar of the same radius of gyration, d/4 = t/√12.
fn rectangle(t: f64, width: f64, l: f64, k: f64, yield_pa: f64, modulus_pa: f64) -> f64 {
    let d = 4.0 * t / 12.0_f64.sqrt();
    load(d, l, k, yield_pa, modulus_pa) / area(d) * t * width
}

#[test]
fn mott_6_1() {
    let row = row("col-mott-6-1");
    let (d, yield_pa) = (row.input("diameter_m"), row.input("yield_strength_pa"));
    let modulus = row.input("youngs_modulus_pa");
    let constant = column::transition_slenderness(pascals(modulus), pascals(yield_pa));
    row.holds("column_constant", constant);
    let found = load(
        d,
        row.input("length_m"),
        Ends::Pinned.factor(),
        yield_pa,
        modulus,
    );
    row.holds("critical_load_n", found);
    row.holds("allowable_load_n", found / row.input("design_factor"));
    // Slenderness of the long column from its stress π² E/λ².
    let slenderness = std::f64::consts::PI * (modulus * area(d) / found).sqrt();
    row.holds("slenderness", slenderness);
}

#[test]
fn mott_6_2() {
    let row = row("col-mott-6-2");
    let (t, modulus) = (row.input("thickness_m"), row.input("youngs_modulus_pa"));
    let (k, yield_pa) = (row.input("end_factor_k"), row.input("yield_strength_pa"));
    let (width, l) = (row.input("width_m"), row.input("length_m"));
    let found = rectangle(t, width, l, k, yield_pa, modulus);
    row.holds("critical_load_n", found);
    // Slenderness from the same bar without a yield point, π² E/λ².
    let stress = rectangle(t, width, l, k, NO_YIELD, modulus) / (t * width);
    row.holds(
        "slenderness",
        std::f64::consts::PI * (modulus / stress).sqrt(),
    );
}

#[test]
fn gere_11_4_2() {
    let row = row("col-gere-11-4-2");
    row.holds("load_pinned_pinned_n", tube(&row, Ends::Pinned.factor()));
    row.holds("load_fixed_free_n", tube(&row, Ends::FixedFree.factor()));
    row.holds(
        "load_fixed_pinned_n",
        tube(&row, Ends::FixedPinned.factor()),
    );
    row.holds("load_fixed_fixed_n", tube(&row, Ends::Fixed.factor()));
}

#[test]
fn hollow_columns() {
    let row = row("col-hollow-four-ends");
    row.holds("load_pinned_pinned_n", tube(&row, Ends::Pinned.factor()));
    row.holds("load_fixed_free_n", tube(&row, Ends::FixedFree.factor()));
    // The row has the exact 0.6992, the project the rounded 0.7 on the safe side.
    row.holds("load_fixed_pinned_n", tube(&row, FIXED_PINNED));
    row.holds("load_fixed_fixed_n", tube(&row, Ends::Fixed.factor()));
    // All four are slender: √(D² + d²)/4 = 6.103 mm, 0.5 · 1500/6.103 = 122.9.
    let transition = column::transition_slenderness(
        pascals(row.input("youngs_modulus_pa")),
        pascals(row.input("yield_strength_pa")),
    );
    assert!(transition < 122.9, "{}: {transition}", row.source());
}

#[test]
fn faires_334a() {
    let row = row("col-faires-334a");
    let asked = row.input("load_n") * row.input("design_factor");
    let (l, yield_pa) = (
        row.input("effective_length_m"),
        row.input("yield_strength_pa"),
    );
    let modulus = row.input("youngs_modulus_pa");
    let found = solve(0.01, 0.1, asked, |d| load(d, l, 1.0, yield_pa, modulus));
    row.holds("diameter_m", found);
}

#[test]
fn shigley_euler() {
    let row = row("col-shigley-euler");
    let asked = row.input("load_n") * row.input("design_factor");
    let (l, yield_pa) = (row.input("length_m"), row.input("yield_strength_pa"));
    let modulus = row.input("youngs_modulus_pa");
    let found = solve(0.01, 0.1, asked, |d| load(d, l, 1.0, yield_pa, modulus));
    row.holds("diameter_m", found);
}

#[test]
fn beer_wood() {
    let row = row("col-beer-wood");
    let (l, modulus) = (row.input("length_m"), row.input("youngs_modulus_pa"));
    let asked = row.input("load_1_n") * row.input("design_factor");
    let found = solve(0.01, 0.5, asked, |a| {
        rectangle(a, a, l, 1.0, NO_YIELD, modulus)
    });
    row.holds("side_1_m", found);
    row.without(
        &["side_2_m"],
        "an allowable stress governs, which is no column formula",
    );
}

/// Whether Euler governs: then the load does not mind the yield strength.
fn euler_governs(d: f64, l: f64, yield_pa: f64, modulus: f64) -> f64 {
    let minds = load(d, l, 1.0, yield_pa, modulus) - load(d, l, 1.0, 1.001 * yield_pa, modulus);
    f64::from(u8::from(minds == 0.0))
}

#[test]
fn rods() {
    for id in ["col-rod-1", "col-rod-2"] {
        let row = row(id);
        let (d, l) = (row.input("diameter_m"), row.input("length_m"));
        let (yield_pa, modulus) = (
            row.input("yield_strength_pa"),
            row.input("youngs_modulus_pa"),
        );
        let transition = column::transition_slenderness(pascals(modulus), pascals(yield_pa));
        row.holds("transition_slenderness", transition);
        row.holds("critical_load_n", load(d, l, 1.0, yield_pa, modulus));
        row.holds("euler_governs_flag", euler_governs(d, l, yield_pa, modulus));
        // Slenderness from the stress of the same rod without a yield point, π² E/λ².
        let stress = load(d, l, 1.0, NO_YIELD, modulus) / area(d);
        row.holds(
            "slenderness",
            std::f64::consts::PI * (modulus / stress).sqrt(),
        );
    }
}

#[test]
fn where_euler_and_johnson_meet() {
    let row = row("col-transition-stress");
    let (yield_pa, modulus) = (
        row.input("yield_strength_pa"),
        row.input("youngs_modulus_pa"),
    );
    let c = column::transition_slenderness(pascals(modulus), pascals(yield_pa));
    row.holds("transition_slenderness", c);
    // A rod of 20 mm, L = C d/4, and a hair to both sides.
    for l in [c * 0.005 * (1.0 - 1e-9), c * 0.005 * (1.0 + 1e-9)] {
        let stress = load(0.02, l, 1.0, yield_pa, modulus) / area(0.02);
        agree(&row.source(), stress, 177.5e6, 1e-6);
    }
    row.holds(
        "stress_pa",
        load(0.02, c * 0.005, 1.0, yield_pa, modulus) / area(0.02),
    );
}

#[test]
fn screw_shaft_fixed_free() {
    let row = row("bsc-euler-fixed-free");
    let (d, l) = (
        row.input("root_diameter_m"),
        row.input("unsupported_length_m"),
    );
    let modulus = row.input("youngs_modulus_pa");
    // The end coefficient 0.25 is 1/K².
    row.holds(
        "critical_load_n",
        load(d, l, Ends::FixedFree.factor(), 350e6, modulus),
    );
    let coefficient = Ends::FixedFree.factor().powi(-2);
    agree(
        &row.source(),
        coefficient,
        row.input("end_condition_coef"),
        1e-12,
    );
}

// --- beyond the collection ---

#[test]
fn end_factors() {
    let row = row("own-end-factors");
    row.holds("k_fixed_free", Ends::FixedFree.factor());
    row.holds("k_pinned_pinned", Ends::Pinned.factor());
    row.holds("k_fixed_pinned", Ends::FixedPinned.factor());
    row.holds("k_fixed_fixed", Ends::Fixed.factor());
}

/// `Ends::FixedPinned` is 0.7, the rounded 0.69916: on the safe side, and within its digit.
#[test]
fn built_in_and_pinned_is_on_the_safe_side() {
    let row = row("own-tan-x-is-x");
    row.holds("effective_length", Ends::FixedPinned.factor());
    assert!(
        Ends::FixedPinned.factor() > FIXED_PINNED,
        "{}",
        row.source()
    );
}

/// Another way to the same loads: sixty beam elements with their geometric stiffness.
#[test]
fn columns_by_finite_elements() {
    let row = row("own-column-elements");
    let (d, l) = (row.input("diameter_m"), row.input("length_m"));
    let found = |k| load(d, l, k, NO_YIELD, row.input("youngs_modulus_pa"));
    row.holds("load_pinned_pinned_n", found(Ends::Pinned.factor()));
    row.holds("load_fixed_free_n", found(Ends::FixedFree.factor()));
    row.holds("load_fixed_fixed_n", found(Ends::Fixed.factor()));
    row.holds("load_fixed_pinned_n", found(FIXED_PINNED));
}

#[test]
fn steel() {
    let row = row("own-steel");
    row.holds("youngs_modulus_pa", column::STEEL_MODULUS_PA);
    row.holds("density_kg_m3", column::STEEL_DENSITY_KG_M3);
}

/// Rod 45 mm, 1 m free, built in and pinned: slenderness 0.7 · 1000/11.25 = 62.2 is below 107.5, so Johnson:
/// 1590 mm² · 350 · (1 - 350 · 62.2²/(4 π² · 205e3)) = 556.6 kN · 0.8327 = 463.5 kN.
#[test]
fn rod_of_a_cylinder_by_johnson() {
    let found = load(0.045, 1.0, Ends::FixedPinned.factor(), 350e6, 205e9);
    agree("Shigley § 4-13 (Johnson), by hand", found, 463.5e3, 1e-3);
}
