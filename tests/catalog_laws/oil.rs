//! Scaling laws: oil.

use core::f64::consts::PI;

use serde_json::{Value, json};

use super::{keep, q, round, version};

/// Bores (ISO 3320) with the two rods of the medium series (ISO 6020-2) and the one rod of a welded cylinder, mm.
const SIZES: &[(f64, [f64; 2], f64)] = &[
    (25.0, [12.0, 18.0], 14.0),
    (32.0, [14.0, 22.0], 18.0),
    (40.0, [18.0, 28.0], 22.0),
    (50.0, [22.0, 36.0], 28.0),
    (63.0, [28.0, 45.0], 36.0),
    (80.0, [36.0, 56.0], 45.0),
    (100.0, [45.0, 70.0], 56.0),
    (125.0, [56.0, 90.0], 70.0),
    (160.0, [70.0, 110.0], 90.0),
    (200.0, [90.0, 140.0], 110.0),
];

/// How a cylinder is built.
#[derive(Clone, Copy)]
struct Build {
    tag: &'static str,
    words: &'static str,
    pressure_bar: f64,
    /// Price over that of the tie-rod build: a welded one has fewer machined faces.
    price: f64,
    /// Mass of the heads over that of the tie-rod build.
    heads: f64,
    /// Fixed closed length, mm: two heads and the piston, plus so much per mm of bore.
    closed: (f64, f64),
    /// Longest stroke over bore, and longest of all, mm: tie rods sag and stretch, welded tubes come 6 m long.
    stroke: (f64, f64),
    /// Seal life, km: replaceable, guided seals against simple ones.
    life_km: f64,
}

const TIE_ROD: Build = Build {
    tag: "",
    words: "oil cylinder",
    pressure_bar: 160.0,
    price: 1.0,
    heads: 1.0,
    closed: (110.0, 1.6),
    stroke: (30.0, 3000.0),
    life_km: 1000.0,
};
const WELDED: Build = Build {
    tag: "welded-",
    words: "welded oil cylinder",
    pressure_bar: 200.0,
    price: 0.85,
    heads: 0.65,
    closed: (95.0, 1.3),
    stroke: (60.0, 6000.0),
    life_km: 500.0,
};

/// Price of the cylinder without stroke: seals and heads, which grow a little faster than their bore.
fn cylinder_price(build: Build, bore: f64, rod: f64) -> f64 {
    build.price * (35.0 + 95.0 * (bore / 40.0).powf(1.3) + 0.5 * rod)
}

/// Price of a metre of stroke: honed tube by its wall area, chromed rod by its skin and core.
fn stroke_price(build: Build, bore: f64, rod: f64) -> f64 {
    build.price * 90.0 * (bore / 40.0).powf(1.4) + 45.0 * (rod / 18.0).powf(1.5)
}

/// Mass of a metre: a tube walled for 100 `MPa` hoop stress at its rating, 3.5 mm at least, and a solid rod; a sixth more for tie rods or ports.
fn stroke_mass(build: Build, bore: f64, rod: f64) -> f64 {
    let wall = (build.pressure_bar * bore / 2000.0).max(3.5);
    1.15 * 7850e-6 * (PI * (bore + wall) * wall + PI / 4.0 * rod * rod)
}

fn cylinder(build: Build, bore: f64, rod: f64) -> Value {
    json!({
        "id": format!("oil-cylinder-{}{bore}-{rod}", build.tag),
        "name": format!("{}, {bore} mm bore, {rod} mm rod", build.words),
        "price": round(cylinder_price(build, bore, rod), 3),
        // Heads, piston and rod end are solid steel: nearly the cube of the bore.
        "mass": q(round(build.heads * 3.6 * (bore / 40.0).powf(2.5), 2), "kg"),
        "ingress": "IP65", "explosive_atmosphere": true,
        "coldest": "-20 degC", "hottest": "80 degC",
        "bore": q(bore, "mm"), "rod": q(rod, "mm"),
        "pressure": q(build.pressure_bar, "bar"),
        // Standard lip seals.
        "speed_most": "0.5 m/s",
        "stroke_most": q((build.stroke.0 * bore).min(build.stroke.1), "mm"),
        "closed_length": q((build.closed.0 + build.closed.1 * bore).round(), "mm"),
        // Thread and eye of the rod.
        "rod_end": q((20.0 + 1.2 * rod).round(), "mm"),
        "travel_life": q(build.life_km * 1000.0, "m"),
        "price_per_metre": round(stroke_price(build, bore, rod), 3),
        "mass_per_length": q(round(stroke_mass(build, bore, rod), 2), "kg/m"),
    })
}

#[test]
fn oil_cylinders() {
    let mut parts = Vec::new();
    for (bore, rods, _) in SIZES {
        for rod in rods {
            parts.push(cylinder(TIE_ROD, *bore, *rod));
        }
    }
    for (bore, _, rod) in SIZES {
        parts.push(cylinder(WELDED, *bore, *rod));
    }
    keep("oil_cylinders", parts);
}

/// Motor powers (IEC 60072), kW.
const MOTORS: &[f64] = &[
    0.25, 0.37, 0.55, 0.75, 1.1, 1.5, 2.2, 3.0, 4.0, 5.5, 7.5, 11.0, 15.0, 18.5, 22.0,
];
/// Highest pressures: each motor drives a larger pump at a lower pressure.
const SPLITS: &[f64] = &[80.0, 125.0, 200.0];
/// Tanks, L.
const TANKS: &[f64] = &[
    8.0, 12.0, 20.0, 30.0, 45.0, 60.0, 90.0, 120.0, 180.0, 250.0, 400.0,
];

/// Flow, L/min, that a motor drives at a pressure through a pump of 0.85 overall efficiency.
fn unit_flow(kw: f64, bar: f64) -> f64 {
    // One digit down where rounding went up, so that the motor is never short.
    let flow = kw * 1000.0 * 0.85 / (bar * 1e5) * 60e3;
    let rounded = round(flow, 2);
    if rounded > flow * 1.02 {
        round(flow * 0.97, 2)
    } else {
        rounded
    }
}

/// The tank holds three minutes of the pump's flow, the usual rule of thumb.
fn tank(flow: f64) -> f64 {
    TANKS
        .iter()
        .copied()
        .find(|tank| *tank >= 2.9 * flow)
        .unwrap_or(500.0)
}

fn power_unit(kw: f64, bar: f64) -> Value {
    let flow = unit_flow(kw, bar);
    let tank = tank(flow);
    json!({
        "id": format!("oil-unit-{}-{bar}", kw.to_string().replace('.', "p")),
        "name": format!("oil power unit, {kw} kW, {flow} L/min at {bar} bar"),
        // Block, relief valve, filter and wiring alike for all; motor and pump by power to the 0.7; tank by volume.
        "price": round(500.0 + 420.0 * kw.powf(0.7) + 2.5 * tank, 3),
        // Motor and pump by power, tank with its oil 1.6 kg a litre, frame.
        "mass": q(round(6.0 + 12.0 * kw.powf(0.75) + 1.6 * tank, 2), "kg"),
        // A gear pump on its tank: 64 dB at 1 kW, 3 dB for each doubling, 1 dB for each step of pressure.
        "noise": q((64.0 + 10.0 * kw.log10() + (bar / 80.0).log(1.6)).round(), "dBA"),
        "ingress": "IP54", "coldest": "0 degC", "hottest": "50 degC",
        // A filter and a share of an oil change.
        "consumables": round(15.0 + 1.5 * tank, 2),
        "runs_on": if kw > 2.2 { json!(["380-480 V ac 3~"]) } else { json!(["220-240 V ac", "380-480 V ac 3~"]) },
        "flow": q(flow, "L/min"), "pressure": q(bar, "bar"), "motor_power": q(kw, "kW"),
        // Small motors waste more.
        "motor_efficiency": round(1.0 - 0.20 * kw.powf(-0.33), 2),
        "tank": q(tank, "L"),
        // 13 W/(m² K) from a box of skin 6.5 V^(2/3), at 40 K.
        "rejection": q(round(13.0 * 40.0 * 6.5 * (tank / 1000.0).powf(2.0 / 3.0), 2), "W"),
        // Motor without load and a pump at a few bar.
        "idle": q(round(30.0 + 150.0 * kw, 2), "W"),
    })
}

#[test]
fn oil_power_units() {
    let all = |motors: &'static [f64]| {
        let each = |kw: &'static f64| SPLITS.iter().map(|bar| power_unit(*kw, *bar));
        motors.iter().flat_map(each)
    };
    let small = &MOTORS[..10];
    let parts = all(MOTORS)
        .chain(all(small).map(|unit| cold_unit(&unit)))
        .chain([12.0, 24.0].into_iter().flat_map(|volts| {
            let each = move |(kw, bar): (f64, f64)| battery_unit(volts, kw, bar);
            BATTERY_UNITS.into_iter().map(each)
        }));
    keep("oil_power_units", parts.collect());
}

/// With oil that flows in the cold, a heater in the tank and a housing over motor and block.
fn cold_unit(unit: &Value) -> Value {
    let otherwise = json!({ "coldest": "-30 degC", "ingress": "IP55" });
    version(unit, "cold", "cold-rated", 1.25, &otherwise)
}

/// Motor powers, kW, and pressures, bar, of units on a battery.
const BATTERY_UNITS: [(f64, f64); 6] = [
    (0.8, 125.0),
    (0.8, 200.0),
    (1.5, 125.0),
    (1.5, 200.0),
    (2.2, 200.0),
    (3.0, 200.0),
];

/// A compact unit of a vehicle: motor, pump, block and tank in one, weatherproof.
fn battery_unit(volts: f64, kw: f64, bar: f64) -> Value {
    let flow = unit_flow(kw, bar);
    let tank = tank(flow);
    let otherwise = json!({
        // In numbers for vehicles, less than a workshop's; brushes and cables for the current.
        "price": round(260.0 + 210.0 * kw.powf(0.7) + 2.5 * tank, 3),
        "mass": q(round(4.0 + 8.0 * kw.powf(0.75) + 1.3 * tank, 2), "kg"),
        "ingress": "IP65", "coldest": "-25 degC", "hottest": "60 degC",
        "runs_on": [format!("{volts} V dc")],
        // Brushes and a low voltage waste more.
        "motor_efficiency": 0.7,
    });
    let (mark, words) = (format!("{volts}v"), format!("{volts} V"));
    version(&power_unit(kw, bar), &mark, &words, 1.0, &otherwise)
}

/// Valve sizes, L/min, and what they are called.
const VALVES: &[f64] = &[12.0, 25.0, 50.0, 100.0, 200.0];

/// A valve: price by flow to the 0.4 (body and spool grow slowly, coils hardly), mass by flow to the 0.8.
fn valve(function: &str, words: &str, flow: f64, price: f64, mass: f64, ingress: &str) -> Value {
    json!({
        "id": format!("oil-{}-{flow}", words.split(' ').next().unwrap_or(words)),
        "name": format!("{words}, {flow} L/min"),
        "price": round(price * (flow / 25.0).powf(0.4), 2),
        "mass": q(round(mass * (flow / 25.0).powf(0.8), 2), "kg"),
        "ingress": ingress,
        "explosive_atmosphere": !function.starts_with("directional"),
        "function": function, "flow": q(flow, "L/min"), "pressure": "250 bar",
    })
}

#[test]
fn oil_valves() {
    let mut parts = Vec::new();
    for flow in VALVES {
        parts.push(valve(
            "directional",
            "directional valve, closed centre",
            *flow,
            100.0,
            1.8,
            "IP65",
        ));
    }
    for flow in VALVES {
        parts.push(valve(
            "directional_drained",
            "drained-centre directional valve",
            *flow,
            100.0,
            1.8,
            "IP65",
        ));
    }
    for flow in VALVES {
        parts.push(valve(
            "counterbalance",
            "counterbalance valve",
            *flow,
            75.0,
            0.9,
            "IP67",
        ));
    }
    for flow in VALVES {
        parts.push(valve(
            "flow_control",
            "throttle with check valve",
            *flow,
            38.0,
            0.6,
            "IP67",
        ));
    }
    keep("oil_valves", parts);
}

/// Bores of hoses, mm.
const HOSES: &[f64] = &[6.3, 8.0, 10.0, 12.5, 16.0, 19.0, 25.0, 31.5, 38.0, 51.0];

#[test]
fn hoses() {
    let hose = |bore: &f64| {
        json!({
            "id": format!("oil-hose-{}", bore.to_string().replace('.', "p")),
            "name": format!("oil hose, {bore} mm bore"),
            // Two crimped ends.
            "price": round(9.0 + 0.9 * bore, 2),
            "mass": q(round(0.004 * bore * bore, 2), "kg"),
            "stands_water": "washdown", "explosive_atmosphere": true,
            "coldest": "-40 degC", "hottest": "80 degC",
            "bore": q(*bore, "mm"),
            // Two braids of wire: less for a wider hose.
            "pressure": q(round(400.0 * (6.3 / bore).powf(0.65), 2), "bar"),
            "price_per_metre": round(4.0 + 0.65 * bore, 2),
            // Rubber and wire by circumference, oil by area.
            "mass_per_length": q(round(0.05 * bore + 870e-6 * PI / 4.0 * bore * bore, 2), "kg/m"),
        })
    };
    keep("hoses", HOSES.iter().map(hose).collect());
}

/// Gas volumes of accumulators, L.
const ACCUMULATORS: &[f64] = &[0.16, 0.35, 0.75, 1.5, 3.0, 6.0];

#[test]
fn oil_accumulators() {
    let accumulator = |litres: &f64| {
        json!({
            "id": format!("oil-accumulator-{}", litres.to_string().replace('.', "p")),
            "name": format!("accumulator {litres} L with pressure switch, gauge and safety block"),
            // Switch, gauge, check valve and block alike for all; the vessel by its volume to the 0.6.
            "price": round(190.0 + 75.0 * litres.powf(0.6), 2),
            "mass": q(round(2.5 + 4.5 * litres.powf(0.8), 2), "kg"),
            "ingress": "IP65", "coldest": "-10 degC", "hottest": "60 degC",
            // Its gas is checked once a year.
            "maintenance_hours": 0.3,
            "volume": q(*litres, "L"), "pressure": "210 bar",
        })
    };
    keep(
        "oil_accumulators",
        ACCUMULATORS.iter().map(accumulator).collect(),
    );
}

/// Heat of coolers with the oil 40 K above the air, kW.
const COOLERS: &[f64] = &[0.6, 1.2, 2.5, 5.0, 10.0];

#[test]
fn oil_coolers() {
    let cooler = |kw: &f64| {
        json!({
            "id": format!("oil-cooler-{}", kw.to_string().replace('.', "p")),
            "name": format!("oil cooler, {kw} kW"),
            // Fan, thermostat and frame alike; the matrix by its heat to the 0.7.
            "price": round(90.0 + 130.0 * kw.powf(0.7), 2),
            "mass": q(round(4.0 + 4.0 * kw.powf(0.7), 2), "kg"),
            // A fan: 62 dB at 1 kW, 3 dB for each doubling.
            "noise": q((62.0 + 10.0 * kw.log10()).round(), "dBA"),
            "ingress": "IP54", "hottest": "60 degC",
            "maintenance_hours": 0.5,
            "rejection": q(*kw, "kW"),
            "power": q(round(40.0 + 25.0 * kw, 2), "W"),
        })
    };
    keep("oil_coolers", COOLERS.iter().map(cooler).collect());
}

/// Rod and piston seals of one bore: a fixed packing and their girth; an hour and more to strip and fill the cylinder.
#[test]
fn oil_seal_kits() {
    let kit = |(bore, _, _): &(f64, [f64; 2], f64)| {
        json!({
            "id": format!("oil-seal-kit-{bore}"),
            "name": format!("seals for a {bore} mm oil cylinder"),
            "price": round(14.0 + 0.55 * bore, 3), "mass": q(round(0.00004 * bore * bore, 2), "kg"),
            "stands_water": "washdown", "explosive_atmosphere": true, "maintenance_hours": 0.3, "bore": q(*bore, "mm"),
        })
    };
    keep("oil_seal_kits", SIZES.iter().map(kit).collect());
}
