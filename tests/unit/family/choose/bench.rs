//! Unit tests of `family::choose::bench`.

use super::*;

fn ids(bench: &mut Bench) -> Vec<&'static str> {
    let nearest = bench.take_nearest();
    nearest.iter().map(|check| check.id).collect()
}

/// A small rack misses by little, a large one bears it: what stops both is the person.
#[test]
fn what_another_part_mends_is_no_cause() {
    let mut bench = Bench::default();
    let check = |id, demand| Check::new(id, demand, 1.0, "N");
    bench.fails(vec![check("tooth", 1.05)]);
    bench.fails(vec![check("tooth", 0.8), check("power", 1.8)]);
    bench.fails(vec![check("tooth", 0.5), check("power", 1.9)]);
    assert_eq!(ids(&mut bench), ["power"]);
    // Without an attempt that passes it, the nearest is what it was.
    bench.fails(vec![check("tooth", 1.05)]);
    bench.fails(vec![check("power", 1.8)]);
    assert_eq!(ids(&mut bench), ["tooth"]);
    // A whole drive comes before a bound, whatever it fails.
    bench.fails(vec![check("tooth", 1.05)]);
    bench.misses(vec![check("power", 1.8)]);
    bench.fails(vec![check("power", 0.5)]);
    assert_eq!(ids(&mut bench), ["power"]);
}

/// A short cylinder that runs out and a long one that asks too much flow: both are said.
#[test]
fn a_family_caught_between_two_parts_says_both() {
    let mut bench = Bench::default();
    let check = |id, demand| Check::new(id, demand, 1.0, "N");
    bench.misses(vec![check("stroke", 1.01), check("flow", 0.9)]);
    bench.misses(vec![check("stroke", 0.5), check("flow", 1.8)]);
    bench.misses(vec![check("stroke", 1.2), check("flow", 1.1)]);
    let told = |checks: Vec<Check>| checks.iter().map(|check| check.id).collect::<Vec<_>>();
    let (nearest, other) = bench.take_reason();
    assert_eq!((told(nearest), told(other)), (vec!["stroke"], vec!["flow"]));
    // What no part passes is the cause by itself.
    bench.misses(vec![check("stroke", 1.01), check("flow", 1.9)]);
    bench.misses(vec![check("stroke", 0.5), check("flow", 1.8)]);
    let (nearest, other) = bench.take_reason();
    assert_eq!((told(nearest), told(other)), (vec!["flow"], vec![]));
}
