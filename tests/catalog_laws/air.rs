//! Scaling laws: air.

use core::f64::consts::PI;

use serde_json::{Value, json};

use super::{keep, q, round, version};

/// Steel and aluminium, kg/m³.
const STEEL: f64 = 7850.0;
const ALUMINIUM: f64 = 2700.0;
/// Conductance of an ideal nozzle over its area at 20 °C, m³/(s·Pa) per m² (choked flow, γ 1.4, over 1.185 kg/m³).
const NOZZLE: f64 = 1.99e-3;

/// Bores with their rods, mm: ISO 6432 to 25, ISO 15552 from 32.
const BORES: [(f64, f64); 16] = [
    (10.0, 4.0),
    (12.0, 6.0),
    (16.0, 6.0),
    (20.0, 8.0),
    (25.0, 10.0),
    (32.0, 12.0),
    (40.0, 16.0),
    (50.0, 20.0),
    (63.0, 20.0),
    (80.0, 25.0),
    (100.0, 25.0),
    (125.0, 32.0),
    (160.0, 40.0),
    (200.0, 40.0),
    (250.0, 50.0),
    (320.0, 63.0),
];

/// Port sizes: name, clear diameter in mm.
const PORTS: [(&str, f64); 7] = [
    ("M5", 2.7),
    ("G1/8", 6.0),
    ("G1/4", 8.5),
    ("G3/8", 11.5),
    ("G1/2", 15.0),
    ("G3/4", 19.0),
    ("G1", 25.0),
];

/// An id's way of writing a port size.
fn slug(port: &str) -> String {
    port.to_lowercase().replace('/', "-")
}

/// Conductance of a hole with a part of an ideal nozzle's flow, in L/(s bar).
fn hole(diameter_mm: f64, part: f64) -> f64 {
    NOZZLE * PI / 4.0 * diameter_mm * diameter_mm * 1e-6 * part / 1e-8
}

/// The port that the bore's standard gives it.
fn port_of(bore: f64) -> f64 {
    let index = match bore {
        b if b <= 16.0 => 0,
        b if b <= 32.0 => 1,
        b if b <= 50.0 => 2,
        b if b <= 80.0 => 3,
        b if b <= 125.0 => 4,
        b if b <= 200.0 => 5,
        _ => 6,
    };
    PORTS[index].1
}

/// Small round cylinders are rolled and cheap; profile cylinders grow with the area of their covers.
fn cylinder_price(bore: f64) -> (f64, f64) {
    if bore <= 25.0 {
        (16.0 + 0.6 * bore, 30.0 + 1.5 * bore)
    } else {
        (30.0 + 0.016 * bore * bore, 40.0 + 2.0 * bore)
    }
}

/// Steel rod, kg/m.
fn rod_mass(rod: f64) -> f64 {
    STEEL * PI / 4.0 * rod * rod * 1e-6
}

/// Covers grow a little slower than the cube of the bore (same wall, longer cushions); tubes with wall and girth.
fn cylinder_mass(bore: f64, rod: f64) -> (f64, f64) {
    let b = bore * 1e-3;
    if bore <= 25.0 {
        (
            0.075 * libm::pow(bore / 16.0, 2.2),
            rod_mass(rod) + STEEL * PI * b * 0.0005,
        )
    } else {
        (
            0.5 * libm::pow(bore / 32.0, 1.95),
            rod_mass(rod) + ALUMINIUM * 0.1194 * libm::pow(b, 1.6),
        )
    }
}

/// Covers and rod end of the standard's proportions, and a joint of 2.5 rod diameters.
fn zero_stroke(bore: f64, rod: f64) -> f64 {
    let covers = if bore <= 25.0 {
        62.0 + 1.3 * bore
    } else {
        80.0 + 1.15 * bore
    };
    covers + 2.5 * rod
}

/// Elastic rings of 1.5 mm in the two smallest, else an air cushion: 12 mm and a fifth of the bore.
fn cushion_length(bore: f64) -> f64 {
    if bore <= 12.0 { 1.5 } else { 12.0 + bore / 5.0 }
}

/// A cushion's mean back pressure may be 9 bar (it peaks at twice that), a ring's 14 bar worth of it.
fn cushion_energy(bore: f64) -> f64 {
    let pressure = if bore <= 12.0 { 14e5 } else { 9e5 };
    pressure * PI / 4.0 * bore * bore * 1e-6 * cushion_length(bore) * 1e-3
}

/// A rod bearing takes about 1 N/mm² on the rod's diameter times its length of 1.5 diameters, a third of it at the end of the rod.
fn side_load(rod: f64) -> f64 {
    0.5 * rod * rod
}

/// Seals of larger bores run straighter and live a little longer: 8000 km at 10 mm, by the sixth root.
fn seal_life(bore: f64) -> f64 {
    8e6 * libm::pow(bore / 10.0, 1.0 / 6.0)
}

fn cylinder((bore, rod): (f64, f64)) -> Value {
    let (price, per_metre) = cylinder_price(bore);
    let (mass, mass_per_length) = cylinder_mass(bore, rod);
    let stroke_most = if bore <= 25.0 {
        20.0 * bore
    } else {
        (40.0 * bore).min(2000.0)
    };
    json!({
        "id": format!("air-cylinder-{bore}"),
        "name": format!("air cylinder, {bore} mm bore"),
        "price": round(price, 3),
        "mass": q(mass, "kg"),
        "noise": q(58.0 + 6.0 * libm::log10(bore / 10.0), "dB"),
        "coldest": "5 degC",
        "hottest": "60 degC",
        "ingress": "IP65",
        "explosive_atmosphere": true,
        "bore": q(bore, "mm"),
        "rod": q(rod, "mm"),
        "pressure_most": "10 bar",
        "stroke_most": q(stroke_most, "mm"),
        "zero_stroke_length": q(round(zero_stroke(bore, rod), 3), "mm"),
        "price_per_metre": round(per_metre, 3),
        "made_to_length_price": round(6.0 + 0.1 * price, 2),
        "mass_per_length": q(mass_per_length, "kg/m"),
        "moving_mass": q(0.3 * mass, "kg"),
        "moving_mass_per_length": q(rod_mass(rod), "kg/m"),
        "conductance": q(round(hole(port_of(bore), 0.6), 3), "L/(s bar)"),
        "critical_ratio": 0.4,
        "cushion_length": q(round(cushion_length(bore), 3), "mm"),
        "cushion_energy": q(round(cushion_energy(bore), 3), "J"),
        "side_load_most": q(side_load(rod), "N"),
        "bearing_span": q(round(0.8 * bore + 20.0, 3), "mm"),
        "seal_life": q(round(seal_life(bore), 2), "m"),
    })
}

#[test]
fn air_cylinders() {
    keep("air_cylinders", with_cold(BORES.into_iter().map(cylinder)));
}

/// A kit is its rubber: a fixed packing and the girth of the seals.
#[test]
fn air_seal_kits() {
    let kit = |(bore, _): (f64, f64)| {
        json!({
            "id": format!("seal-kit-{bore}"),
            "name": format!("seals for a {bore} mm air cylinder"),
            "price": round(5.0 + 0.2 * bore, 3),
            "mass": q(round(0.00002 * bore * bore, 2), "kg"),
            "coldest": "5 degC",
            "hottest": "60 degC",
            "stands_water": "washdown",
            "explosive_atmosphere": true,
            "maintenance_hours": 0.1,
            "bore": q(bore, "mm"),
        })
    };
    keep("seal_kits", with_cold(BORES.into_iter().map(kit)));
}

/// A spool passes half an ideal nozzle of its port; its body grows with the port's area, its coil does not.
#[test]
fn air_valves() {
    // A coil of 2.5 W or, where there is no electricity or no spark is allowed, a pilot port in its place.
    let valve = |(port, diameter): (&str, f64), coil: bool| {
        let conductance = hole(diameter, 0.45);
        let (mark, word, power, ports) = if coil {
            ("", "", "2.5 W", 0.0)
        } else {
            ("-piloted", "air-piloted ", "0 W", 3.0)
        };
        json!({
            "id": format!("air-valve-{}{mark}", slug(port)),
            "name": format!("{word}5/2 air valve, {port}"),
            "price": round(47.0 + 0.3 * diameter * diameter - ports, 2),
            "mass": q(round(0.08 + 0.0022 * diameter * diameter, 2), "kg"),
            // Silenced exhaust: sound power goes with the flow.
            "noise": q(round(64.0 + 10.0 * libm::log10(conductance), 3), "dB"),
            "coldest": "5 degC",
            "hottest": "60 degC",
            "ingress": "IP65",
            "explosive_atmosphere": !coil,
            "conductance": q(round(conductance, 3), "L/(s bar)"),
            "critical_ratio": 0.3,
            "power": power,
            "pressure_least": "2.5 bar",
            "pressure_most": "10 bar",
        })
    };
    let both = [true, false]
        .into_iter()
        .flat_map(|coil| PORTS.into_iter().map(move |port| (port, coil)));
    let all = both.map(|(port, coil)| valve(port, coil));
    keep("air_valves", with_cold(all));
}

/// Plastic by the kilogram, and two push-in fittings that grow with the tube.
#[test]
fn air_tubes() {
    let sizes = [
        (4.0, 2.5),
        (6.0, 4.0),
        (8.0, 5.5),
        (10.0, 7.0),
        (12.0, 8.5),
        (14.0, 11.0),
        (16.0, 13.0),
        (20.0, 16.0),
        (28.0, 23.0),
    ];
    let tube = |(outer, bore): (f64, f64)| {
        let mass = 1150.0 * PI / 4.0 * (outer * outer - bore * bore) * 1e-6;
        json!({
            "id": format!("air-tube-{outer}"),
            "name": format!("air tube, {outer} mm outside, {bore} mm inside"),
            "price": round(2.0 + 0.45 * outer, 2),
            "mass": q(round(0.0006 * outer * outer, 2), "kg"),
            "coldest": "-20 degC",
            "hottest": "60 degC",
            "stands_water": "washdown",
            "explosive_atmosphere": true,
            "bore": q(bore, "mm"),
            "outer": q(outer, "mm"),
            "pressure_most": "10 bar",
            "price_per_metre": round(0.3 + 40.0 * mass, 2),
            "mass_per_length": q(round(mass, 3), "kg/m"),
        })
    };
    keep("air_tubes", sizes.into_iter().map(tube).collect());
}

/// A throttle passes about a third of an ideal nozzle of its port, its check a little more.
#[test]
fn air_flow_controls() {
    let control = |(port, diameter): (&str, f64)| {
        json!({
            "id": format!("flow-control-{}", slug(port)),
            "name": format!("flow control, {port}"),
            "price": round(8.0 + 0.09 * diameter * diameter, 2),
            "mass": q(round(0.01 + 0.0006 * diameter * diameter, 2), "kg"),
            "coldest": "5 degC",
            "hottest": "60 degC",
            "ingress": "IP65",
            "explosive_atmosphere": true,
            "conductance": q(round(hole(diameter, 0.35), 3), "L/(s bar)"),
            "free_conductance": q(round(hole(diameter, 0.42), 3), "L/(s bar)"),
            "critical_ratio": 0.3,
        })
    };
    keep("flow_controls", with_cold(PORTS.into_iter().map(control)));
}

/// A piloted poppet passes less than half an ideal nozzle of its port.
#[test]
fn air_check_valves() {
    let valve = |(port, diameter): (&str, f64)| {
        json!({
            "id": format!("check-valve-{}", slug(port)),
            "name": format!("pilot-operated check valve, {port}"),
            "price": round(20.0 + 0.25 * diameter * diameter, 2),
            "mass": q(round(0.03 + 0.0012 * diameter * diameter, 2), "kg"),
            "coldest": "5 degC",
            "hottest": "60 degC",
            "ingress": "IP65",
            "explosive_atmosphere": true,
            "conductance": q(round(hole(diameter, 0.4), 3), "L/(s bar)"),
            "critical_ratio": 0.3,
            "pressure_most": "10 bar",
        })
    };
    keep("check_valves", with_cold(PORTS.into_iter().map(valve)));
}

/// A clamp's force goes with the rod's surface, that is with its diameter squared, in two strengths by the springs behind it.
#[test]
fn air_rod_locks() {
    let grades = [("medium", 12.0), ("heavy", 20.0)];
    let rods = [
        6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 25.0, 32.0, 40.0, 50.0, 63.0,
    ];
    let lock = |(rod, (grade, pressure)): (f64, (&str, f64))| {
        let force: f64 = pressure * rod * rod;
        json!({
            "id": format!("rod-lock-{rod}-{grade}"),
            "name": format!("rod lock, {rod} mm rod, {grade}"),
            "price": round(40.0 * libm::pow(rod / 12.0, 0.8) + 0.03 * force, 3),
            "mass": q(round(0.15 + force / 4000.0, 2), "kg"),
            "coldest": "5 degC",
            "hottest": "60 degC",
            "ingress": "IP65",
            "explosive_atmosphere": true,
            "rod": q(rod, "mm"),
            "holding_force": q(round(force, 2), "N"),
            "release_pressure": "4 bar",
            "length": q(round(30.0 + 2.5 * rod, 2), "mm"),
        })
    };
    let each = |rod| grades.map(|grade| (rod, grade));
    let all = rods.into_iter().flat_map(each).map(lock);
    keep("rod_locks", with_cold(all));
}

/// Energy grows with the absorber's volume; price and heat shed with about its surface.
#[test]
fn air_shock_absorbers() {
    let sizes = [
        (1.0, 6.0),
        (3.0, 8.0),
        (8.0, 10.0),
        (20.0, 12.0),
        (40.0, 16.0),
        (75.0, 20.0),
        (150.0, 25.0),
        (300.0, 30.0),
        (700.0, 50.0),
        (1800.0, 75.0),
    ];
    let absorber = |(energy, stroke): (f64, f64)| {
        json!({
            "id": format!("shock-absorber-{energy}"),
            "name": format!("shock absorber, {energy} J"),
            "price": round(22.0 * libm::pow(energy / 3.0, 0.35), 2),
            "mass": q(round(0.02 * libm::pow(energy / 3.0, 0.7), 2), "kg"),
            "coldest": "-10 degC",
            "hottest": "70 degC",
            "ingress": "IP65",
            "explosive_atmosphere": true,
            "stroke": q(stroke, "mm"),
            "energy": q(energy, "J"),
            "energy_per_hour": q(round(36_000.0 * libm::pow(energy / 20.0, 0.55), 2), "J"),
            "speed_most": "3.5 m/s",
        })
    };
    keep(
        "shock_absorbers",
        with_cold(sizes.into_iter().map(absorber)),
    );
}

/// Price by the size exponent of machinery (0.79 here, from 200 at 50 L/min to 600 at 200); a quiet one costs half as much again.
#[test]
fn air_compressors() {
    let flows = [25.0, 50.0, 100.0, 200.0, 400.0, 800.0, 1600.0];
    let compressor = |flow: f64, quiet: bool| {
        let price = 200.0 * libm::pow(flow / 50.0, 0.79) * if quiet { 1.5 } else { 1.0 };
        let noise = if quiet { 58.0 } else { 72.0 } + 8.0 * libm::log10(flow / 50.0);
        let word = if quiet {
            "quiet compressor"
        } else {
            "compressor"
        };
        json!({
            "id": format!("{}-{flow}", word.replace(' ', "-")),
            "name": format!("{word}, {flow} L/min"),
            "price": round(price, 3),
            "mass": q(round(18.0 * libm::pow(flow / 50.0, 0.8), 2), "kg"),
            "noise": q(round(noise, 3), "dB"),
            "coldest": "5 degC",
            "hottest": "45 degC",
            "ingress": "IP54",
            // A change of oil and filter a year, and a look at the drain each month.
            "maintenance_hours": 1.5,
            "consumables": round(8.0 + 0.06 * flow, 2),
            // One phase drives up to 3 kW.
            "runs_on": if flow > 200.0 { json!(["380-480 V ac 3~"]) } else { json!(["220-240 V ac", "380-480 V ac 3~"]) },
            "flow": q(flow, "L/min"),
            "pressure": "8 bar",
            // Small ones waste more: 8.5 W a litre a minute at 50, falling with the tenth root.
            "power": q(round(8.5 * flow * libm::pow(flow / 50.0, -0.1), 2), "W"),
            "duty_most": if flow < 100.0 { 0.6 } else { 0.8 },
            "tank": q(round(flow * 0.25, 2), "L"),
        })
    };
    let both = |flow| [compressor(flow, false), compressor(flow, true)];
    keep("compressors", flows.into_iter().flat_map(both).collect());
}

/// Vessels of rolled sheet: price by volume to the 0.6, relief valve, gauge and drain alike for all.
#[test]
fn air_receivers() {
    let receiver = |litres: f64| {
        json!({
            "id": format!("air-receiver-{litres}"),
            "name": format!("air receiver, {litres} L"),
            "price": round(35.0 + 9.0 * libm::pow(litres, 0.6), 2),
            "mass": q(round(1.1 * libm::pow(litres, 0.85), 2), "kg"),
            "coldest": "-20 degC",
            "hottest": "80 degC",
            "ingress": "IP65",
            "explosive_atmosphere": true,
            // Drained each month, its relief valve tried once a year.
            "maintenance_hours": 0.3,
            "volume": q(litres, "L"),
            "pressure_most": "11 bar",
        })
    };
    let sizes = [5.0, 10.0, 24.0, 50.0, 100.0, 200.0, 500.0, 1000.0];
    keep("air_receivers", sizes.into_iter().map(receiver).collect());
}

/// Bodies in three sizes, priced by the root of what they pass.
#[test]
fn air_preparation() {
    let flows = [300.0, 1000.0, 2500.0, 6000.0];
    let unit = |flow: f64, soft_start: bool| {
        let (id, name, price) = if soft_start {
            ("soft-start", "soft-start valve", 30.0)
        } else {
            // A shut-off valve that vents is part of it: nobody works on a cylinder under air.
            (
                "filter-regulator",
                "filter-regulator with venting shut-off valve",
                38.0,
            )
        };
        json!({
            "id": format!("{id}-{flow}"),
            "name": format!("{name}, {flow} L/min"),
            "price": round(price + 1.1 * flow.sqrt(), 2),
            "mass": q(round(0.15 + 0.01 * flow.sqrt(), 2), "kg"),
            "coldest": "5 degC",
            "hottest": "60 degC",
            "ingress": "IP65",
            "explosive_atmosphere": true,
            "maintenance_hours": if soft_start { 0.0 } else { 0.3 },
            "consumables": if soft_start { 0.0 } else { 5.0 },
            "flow": q(flow, "L/min"),
            "soft_start": soft_start,
        })
    };
    let both = |flow| [unit(flow, false), unit(flow, true)];
    keep(
        "air_preparation",
        flows.into_iter().flat_map(both).collect(),
    );
}

/// The parts and cold-rated versions of them: seals and grease for -20 °C.
fn with_cold(parts: impl Iterator<Item = Value>) -> Vec<Value> {
    let plain: Vec<Value> = parts.collect();
    let cold = |part: &Value| {
        let otherwise = json!({ "coldest": "-20 degC" });
        version(part, "cold", "cold-rated", 1.2, &otherwise)
    };
    let all = plain.iter().cloned().chain(plain.iter().map(cold));
    all.collect()
}

/// Two towers in turn, dried by a part of their own air: price by the root of what they pass.
#[test]
fn air_dryers() {
    let dryer = |flow: f64| {
        json!({
            "id": format!("adsorption-dryer-{flow}"),
            "name": format!("adsorption dryer, {flow} L/min"),
            "price": round(250.0 + 14.0 * flow.sqrt(), 2),
            "mass": q(round(4.0 + 0.6 * flow.sqrt(), 2), "kg"),
            "coldest": "1 degC",
            "hottest": "50 degC",
            "ingress": "IP54",
            "explosive_atmosphere": true,
            "noise": "68 dB",
            // Filters each year, the drying agent every third.
            "maintenance_hours": 0.5,
            "consumables": round(25.0 + 0.8 * flow.sqrt(), 2),
            "flow": q(flow, "L/min"),
            "dew_point": "-40 degC",
            "purge": 0.15,
        })
    };
    let sizes = [100.0, 300.0, 1000.0, 2500.0, 6000.0];
    keep("air_dryers", sizes.into_iter().map(dryer).collect());
}
