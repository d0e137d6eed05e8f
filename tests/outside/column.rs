//! Columns against textbooks.

use counterpoise::mechanics::column::{self, Ends};
use counterpoise::quantity::{Si, metres, pascals};

use super::agree;

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

/// Shafts so slender that Euler governs whatever the yield.
const ANY_YIELD: f64 = 350e6;

#[test]
fn mott_6_1() {
    let source = "Mott, Machine Elements in Mechanical Design 6e, Example Problem 6-1 (12 169 lbf)";
    let (yield_pa, modulus) = (351_632_621.952, 206_842_718_795.0);
    agree(
        source,
        column::transition_slenderness(pascals(modulus), pascals(yield_pa)),
        108.0,
        0.0035,
    );
    let found = load(0.03175, 1.3716, Ends::Pinned.factor(), yield_pa, modulus);
    agree(source, found, 54_130.408_836_11, 0.0035);
    agree(source, found / 3.0, 18_041.986_871_5, 0.0035);
}

/// Pipe: the Euler load goes with I, so the tube is the outer bar less the inner; a yield of 1e12 Pa leaves Johnson no part.
#[test]
fn hollow_columns() {
    let source =
        "Gere & Goodno, Mechanics of Materials 7e, solution 11.4-2 (fixed-pinned factor 2.046)";
    let tube = |ends: Ends| {
        let bar = |d| load(d, 1.2, ends.factor(), 1e12, 210e9);
        bar(0.04) - bar(0.036)
    };
    agree(source, tube(Ends::Pinned), 62_200.0, 0.004);
    agree(source, tube(Ends::FixedFree), 15_600.0, 0.004);
    agree(source, tube(Ends::Fixed), 249_000.0, 0.004);
    // K = 0.7 is the rounded 0.699: 2.041 for 2.046.
    agree(source, tube(Ends::FixedPinned), 127_000.0, 0.006);
}

#[test]
fn faires_334a() {
    let source = "Faires, Design of Machine Elements, problem 334(a): 1.096 in";
    let found = load(0.027_838_4, 0.635, 1.0, 330_948_350.072, 206_842_718_795.0);
    // The load goes with about the square of the diameter.
    agree(source, found / 3.0, 44_482.216_152_6, 2.0 * 0.0006 + 0.0004);
}

#[test]
fn shigley_euler() {
    let source = "Shigley, chapter 4 column-sizing example, 37.48 mm (from memory)";
    // The load goes with the fourth power of the diameter.
    agree(
        source,
        load(0.03748, 1.5, 1.0, 500e6, 207e9) / 4.0,
        22e3,
        4.0 * 0.0002,
    );
}

#[test]
fn rods() {
    let source = "Euler / J. B. Johnson pair meeting at half the yield strength";
    agree(
        source,
        load(0.02, 0.6, 1.0, 355e6, 206e9),
        44_356.201_362_1,
        1e-6,
    );
    agree(
        source,
        load(0.025, 0.3, 1.0, 355e6, 206e9),
        156_734.245_141_8,
        1e-6,
    );
    let c = column::transition_slenderness(pascals(206e9), pascals(355e6));
    agree(source, c, 107.024_770_244, 1e-6);
    // At the transition: d 20 mm, L = C d/4.
    let area = std::f64::consts::PI * 0.02 * 0.02 / 4.0;
    agree(
        source,
        load(0.02, c * 0.005, 1.0, 355e6, 206e9) / area,
        177.5e6,
        1e-6,
    );
}

#[test]
fn screw_shaft_fixed_free() {
    let found = load(0.017, 0.5, Ends::FixedFree.factor(), ANY_YIELD, 206e9);
    agree(
        "Euler column formula, end coefficient 0.25",
        found,
        8_335.517_161_418,
        1e-6,
    );
}

/// Theoretical effective lengths.
#[test]
fn end_factors() {
    let source = "AISC effective-length table, theoretical K (from memory)";
    let rows = [
        (Ends::FixedFree, 2.0),
        (Ends::Pinned, 1.0),
        (Ends::FixedPinned, 0.7),
        (Ends::Fixed, 0.5),
    ];
    for (ends, k) in rows {
        agree(source, ends.factor(), k, 1e-9);
    }
}
