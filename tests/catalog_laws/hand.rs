//! Scaling laws: hand.

use serde_json::{Value, json};

use super::{keep, q, round, version};

/// Modules (ISO 54), mm.
const MODULES: &[f64] = &[1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0];

#[test]
fn racks() {
    let rack = |module: &f64| {
        // The usual square rack: as wide and as high as ten modules.
        let side = 10.0 * module;
        json!({
            "id": format!("rack-m{}", module.to_string().replace('.', "p")),
            "name": format!("rack and 20-tooth pinion, module {module} mm"),
            // Pinion, shaft and two bearing blocks.
            "price": round(28.0 + 8.0 * module.powf(1.5), 2),
            "mass": q(round(0.5 + 0.25 * module.powf(2.5), 2), "kg"),
            "stands_water": "splash", "coldest": "-30 degC", "explosive_atmosphere": true,
            // Teeth turned by hand, heard at 1 m.
            "noise": "55 dB",
            "module": q(*module, "mm"), "face_width": q(side, "mm"), "pinion_teeth": 20,
            // Carbon steel, as the method takes it.
            "strength": q(350e6, "Pa"),
            "efficiency": 0.95,
            "length_most": "12 m",
            // Milling by length, steel by section.
            "price_per_metre": round(18.0 + 5.5 * module.powf(1.5), 2),
            "mass_per_length": q(round(7850e-6 * side * (side - module), 3), "kg/m"),
        })
    };
    // Of stainless steel, which is more expensive to buy and to cut.
    let stainless = |part: &Value| {
        let washed = json!({ "stands_water": "washdown" });
        version(part, "stainless", "stainless", 1.6, &washed)
    };
    let plain: Vec<Value> = MODULES.iter().map(rack).collect();
    let all = plain.iter().cloned().chain(plain.iter().map(stainless));
    keep("racks", all.collect());
}

/// Torques on the slow shaft, N·m, and ratios.
const TORQUES: &[f64] = &[16.0, 50.0, 160.0, 500.0, 1600.0];
const RATIOS: &[f64] = &[2.0, 3.0, 5.0];

#[test]
fn spur_gears() {
    let gear = |torque: f64, ratio: f64| {
        // The large wheel sets size and price: torque to the 0.6, ratio to the 0.4.
        let size = (torque / 40.0).powf(0.6) * (ratio / 3.0).powf(0.4);
        json!({
            "id": format!("spur-gear-{torque}-{ratio}"),
            "name": format!("spur gear pair {ratio}:1, {torque} N·m"),
            "price": round(20.0 + 36.0 * size, 2),
            "mass": q(round(1.9 * (torque / 40.0).powf(0.8) * (ratio / 3.0).powf(0.6), 2), "kg"),
            "stands_water": "splash", "coldest": "-30 degC", "explosive_atmosphere": true,
            "noise": "55 dB",
            "ratio": ratio, "torque": q(torque, "Nm"),
            // Open, greased, in rolling bearings.
            "efficiency": 0.96,
        })
    };
    let parts: Vec<Value> = TORQUES
        .iter()
        .flat_map(|torque| RATIOS.iter().map(|ratio| gear(*torque, *ratio)))
        .collect();
    keep("spur_gears", parts);
}

/// Crank radii, mm.
const RADII: &[f64] = &[80.0, 100.0, 125.0, 160.0, 200.0, 250.0, 315.0, 400.0];

#[test]
fn cranks() {
    let crank = |radius: &f64| {
        json!({
            "id": format!("crank-{radius}"),
            "name": format!("hand crank, {radius} mm radius"),
            // Arm by length, hub and turning handle alike.
            "price": round(11.0 + 0.075 * radius, 2),
            "mass": q(round(0.3 + 0.0045 * radius, 2), "kg"),
            "stands_water": "washdown", "coldest": "-40 degC", "explosive_atmosphere": true,
            "radius": q(*radius, "mm"),
            // The root of the arm is made for the same moment per size: short ones are slight.
            "force": q(round((150.0 + 0.6 * radius).min(350.0), 2), "N"),
        })
    };
    keep("cranks", RADII.iter().map(crank).collect());
}

/// Jack capacities, kN, with their screws (ISO 2904): diameter and pitch, mm.
const JACKS: &[(f64, f64, f64)] = &[
    (2.5, 16.0, 4.0),
    (5.0, 18.0, 4.0),
    (10.0, 20.0, 4.0),
    (25.0, 30.0, 6.0),
    (50.0, 40.0, 7.0),
    (100.0, 55.0, 9.0),
    (200.0, 75.0, 10.0),
];
/// Ratio of the worm: fast and slow.
const WORMS: &[(&str, f64, f64)] = &[("fast", 4.0, 0.82), ("slow", 16.0, 0.62)];

#[test]
fn screw_jacks() {
    let jack = |capacity: f64, diameter: f64, pitch: f64, (tag, ratio, worm): (&str, f64, f64)| {
        // Trapezoidal thread, μ 0.12: tan λ/(tan λ + μ sec 15°), near enough; times the worm's.
        let mean = diameter - pitch / 2.0;
        let slope = pitch / (core::f64::consts::PI * mean);
        let friction = 0.12 / (15.0_f64).to_radians().cos();
        let thread = slope * (1.0 - friction * slope) / (slope + friction);
        let efficiency = round(thread * worm, 2);
        json!({
            "id": format!("screw-jack-{}-{tag}", capacity.to_string().replace('.', "p")),
            "name": format!("{tag} screw jack, {capacity} kN"),
            // Housing and worm by capacity to the 0.6.
            "price": round(60.0 + 50.0 * (capacity / 2.5).powf(0.6), 2),
            "mass": q(round(2.0 * (capacity / 2.5).powf(0.75), 2), "kg"),
            "stands_water": "splash", "coldest": "-30 degC", "explosive_atmosphere": true,
            "noise": "52 dB",
            "capacity": q(capacity, "kN"),
            "travel_per_turn": q(pitch / ratio, "mm"),
            "efficiency": efficiency,
            // Sticking thread and worm: a third more friction on each.
            "starting_efficiency": round(efficiency * 0.72, 2),
            "thread_friction": 0.12,
            // tan λ = f sec 15° where it just locks.
            "locking_friction": round(slope * (15.0_f64).to_radians().cos(), 3),
            "root_diameter": q(diameter - pitch - 0.5, "mm"),
            "travel_most": q((40.0 * diameter).min(2000.0), "mm"),
            "closed_length": q((90.0 + 2.6 * diameter).round(), "mm"),
            // Bronze nut, greased.
            "travel_life": "20000 m",
            // Rolled screw and its protecting tube.
            "price_per_metre": round(45.0 * (diameter / 20.0).powf(1.5), 2),
            "mass_per_length": q(round(1.4 * 7850e-6 * 0.785 * mean * mean, 2), "kg/m"),
        })
    };
    let parts: Vec<Value> = JACKS
        .iter()
        .flat_map(|(capacity, d, p)| WORMS.iter().map(|worm| jack(*capacity, *d, *p, *worm)))
        .collect();
    // Galvanised, with a sealed housing and a stainless screw.
    let washed = json!({ "stands_water": "washdown" });
    let weatherproof =
        |part: &Value| version(part, "outdoor", "galvanised and sealed", 1.4, &washed);
    let all = parts.iter().cloned().chain(parts.iter().map(weatherproof));
    keep("screw_jacks", all.collect());
}

/// Holding torques of load brakes, N·m.
const BRAKES: &[f64] = &[6.3, 16.0, 40.0, 100.0, 250.0, 630.0];

#[test]
fn load_brakes() {
    let brake = |torque: f64, both: bool| {
        // Discs by torque to the 0.5; a brake for both senses has two sets of ramps.
        let price = (30.0 + 28.0 * (torque / 16.0_f64).sqrt()) * if both { 1.4 } else { 1.0 };
        let (tag, words) = if both {
            ("-both", "load brake, both ways,")
        } else {
            ("", "load brake,")
        };
        json!({
            "id": format!("load-brake-{}{tag}", torque.to_string().replace('.', "p")),
            "name": format!("{words} {torque} N·m"),
            "price": round(price, 2),
            "mass": q(round(1.2 * (torque / 16.0_f64).powf(0.7) * if both { 1.2 } else { 1.0 }, 2), "kg"),
            "stands_water": "splash", "coldest": "-30 degC", "explosive_atmosphere": true,
            "maintenance_hours": 0.25,
            "torque": q(torque, "Nm"), "both_ways": both,
        })
    };
    let parts: Vec<Value> = [false, true]
        .iter()
        .flat_map(|both| BRAKES.iter().map(|torque| brake(*torque, *both)))
        .collect();
    keep("load_brakes", parts);
}
