//! The demand against numbers worked from the method in another language.
//!
//! `tests/outside/demand_cases.json` holds each case's requirements, the numbers and their working;
//! the script that made them is quoted in `tests/outside/demand_cases.md`.

use counterpoise::demand::{Assist, Axis, Counterweight, Demand};
use counterpoise::requirements::{self, Motion};
use serde_json::Value;

/// Both sides follow the same page: they may differ by rounding and by where the samples fall.
const WITHIN: f64 = 0.005;

fn number(value: &Value, path: &str) -> f64 {
    value
        .as_f64()
        .unwrap_or_else(|| panic!("{path} is a number"))
}

fn assist(case: &Value) -> Assist {
    let Some(fields) = case.as_object() else {
        return Assist::None;
    };
    let of = |key: &str| number(&fields[key], key);
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a few sheaves"
    )]
    let sheaves = of("sheaves") as u32;
    Assist::Counterweight(Counterweight {
        mass_kg: of("counterweight_kg"),
        travel_ratio: of("travel_ratio"),
        sheaves,
        loss_per_sheave: of("loss_per_sheave"),
        sheave_mass_kg: of("sheave_mass_kg"),
    })
}

fn demand(case: &Value) -> Demand {
    let text = case["requirements"].to_string();
    let reading = requirements::read(text.as_bytes(), &[])
        .unwrap_or_else(|faults| panic!("{}: {faults:?}", case["name"]));
    let Motion::Slide(slide) = &reading.requirements.motion else {
        panic!("a slide")
    };
    let axis = Axis::new(&reading.requirements, slide);
    axis.demand(
        &reading.requirements,
        &assist(&case["assist"]),
        number(&case["travel_time_s"], "travel_time_s"),
    )
}

/// Compares every number of `expected` that `got` has, by name.
fn compare(name: &str, got: &Value, expected: &Value, off: &mut Vec<String>) -> usize {
    let mut compared = 0;
    for (key, value) in expected.as_object().into_iter().flatten() {
        let (Some(ours), Some(theirs)) = (got[key].as_f64(), value.as_f64()) else {
            continue;
        };
        compared += 1;
        if (ours - theirs).abs() > WITHIN * theirs.abs() + 1e-6 {
            off.push(format!("{name}: {key} is {ours}, worked as {theirs}"));
        }
    }
    compared
}

#[test]
fn the_demand_agrees_with_numbers_worked_apart() {
    let text = include_str!("outside/demand_cases.json");
    let cases: Vec<Value> = serde_json::from_str(text).expect("the cases are JSON");
    assert!(cases.len() >= 6);
    let (mut off, mut compared) = (Vec::new(), 0);
    for case in &cases {
        let name = case["name"].as_str().unwrap_or_default();
        let got = serde_json::to_value(demand(case)).expect("a demand is JSON");
        let expected = &case["expected"];
        compared += compare(name, &got["worst"], &expected["worst"], &mut off);
        compared += compare(
            name,
            &got["emergency_stop"],
            &expected["emergency_stop"],
            &mut off,
        );
        compared += compare(name, &got["stability"], &expected["stability"], &mut off);
        for (ours, theirs) in got["cases"]
            .as_array()
            .into_iter()
            .flatten()
            .zip(expected["cases"].as_array().into_iter().flatten())
        {
            assert_eq!(
                (&ours["load"], &ours["direction"]),
                (&theirs["load"], &theirs["direction"]),
                "{name}"
            );
            let label = format!("{name}, {} {}", theirs["load"], theirs["direction"]);
            compared += compare(&label, ours, theirs, &mut off);
        }
    }
    println!("{compared} numbers of {} cases compared", cases.len());
    assert!(off.is_empty(), "{}", off.join("\n"));
    assert!(
        compared > 20 * cases.len(),
        "only {compared} numbers compared"
    );
}
