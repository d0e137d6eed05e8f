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
