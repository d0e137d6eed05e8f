//! Outside checks: the project's own functions against published values, each with its source.
//!
//! The values with an id stand in `rows.json` and `own.json`; `registry.rs` says which test holds which row and which
//! rows wait, and counts the sources. The other tests carry their value and source themselves.

mod beam;
mod bearing_guide;
mod column;
mod decide;
mod gear_human;
mod hinge;
mod hydraulics;
mod motion;
mod motor;
mod newton;
mod pneumatics;
mod registry;
mod rope;
mod rows;
mod screw;
mod series;
mod stability;
mod stroke;
mod table;
mod units;
mod weighing;

use counterpoise::mechanics::guide::couple_on_two;
use counterpoise::quantity::{Si, metres, newton_metres};

/// Load on each of four carriages or feet from a load off their middle: front near, front far, rear near, rear far.
///
/// Two of a line share the couple that stands against their spacing, and there are two lines either way.
fn on_four(load_n: f64, [along_m, across_m]: [f64; 2], [spacing_m, rails_m]: [f64; 2]) -> [f64; 4] {
    let half = |offset_m: f64, spacing_m: f64| {
        couple_on_two(newton_metres(load_n * offset_m), metres(spacing_m)).si() / 2.0
    };
    let (pitch, roll) = (half(along_m, spacing_m), half(across_m, rails_m));
    [pitch + roll, pitch - roll, roll - pitch, -pitch - roll].map(|couples| load_n / 4.0 + couples)
}

/// Holds a value against an outside one: `|got - expected| <= rel·|expected|`, naming the source on failure.
#[track_caller]
fn agree(source: &str, got: f64, expected: f64, rel: f64) {
    let off = (got - expected).abs();
    assert!(
        off <= rel * expected.abs(),
        "{source}: got {got}, expected {expected} within {rel:e}"
    );
    println!("{source}: {got} agrees with {expected}");
}
