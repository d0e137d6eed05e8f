//! Outside checks: the project's own functions against published values, each with its source.

mod bearing_guide;
mod column;
mod gear_human;
mod hydraulics;
mod motion;
mod motor;
mod pneumatics;
mod rope;
mod screw;
#[allow(dead_code, reason = "each test takes what it needs")]
#[path = "../support/mod.rs"]
mod support;
mod units;

/// Holds a value against an outside one: `|got - expected| <= rel·|expected| + abs`, naming the source on failure.
#[track_caller]
fn agree(source: &str, got: f64, expected: f64, rel: f64) {
    let off = (got - expected).abs();
    assert!(
        off <= rel * expected.abs(),
        "{source}: got {got}, expected {expected} within {rel:e}"
    );
    println!("{source}: {got} agrees with {expected}");
}
