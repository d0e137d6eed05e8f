//! Laws of motors, what goes with them, and ready-made electric cylinders.

use std::f64::consts::TAU;

use serde_json::{Value, json};

use super::{keep, q, round, version};

/// Rad/s of so many turns a minute.
fn speed(rpm: f64) -> f64 {
    rpm * TAU / 60.0
}

/// A servo of a power at 3000 rpm, with drive; the brake variant holds its rated torque one and a half times.
fn servo(power: f64, brake: bool) -> Value {
    let rated = power / speed(3000.0);
    let size = power / 750.0;
    // Drive and cables are most of a small one: price grows slower than power.
    let price = 650.0 * size.powf(0.42)
        + if brake {
            35.0 + 30.0 * size.sqrt()
        } else {
            0.0
        };
    let mut part = json!({
        "id": format!("servo-motor-{power}w{}", if brake { "-brake" } else { "" }),
        "name": format!("servo motor, {power} W with drive{}", if brake { " and brake" } else { "" }),
        "price": round(price, 2), "mass": q(2.6 * size.powf(0.8) + if brake { 0.6 * size.sqrt() } else { 0.0 } + 1.0, "kg"),
        "ingress": "IP65", "noise": q(round(56.0 + 5.0 * size.log10(), 3), "dB"), "hottest": "40 degC", "coldest": "-20 degC",
        // The drive stands in the cabinet.
        "apart_coldest": "0 degC", "apart_hottest": "40 degC",
        "runs_on": if power > 3000.0 {
            json!(["200-240 V ac 3~", "380-480 V ac 3~"])
        } else if power > 750.0 {
            json!(["200-240 V ac", "380-480 V ac 3~"])
        } else {
            json!(["100-120 V ac", "200-240 V ac"])
        },
        "power": q(power, "W"), "rated_torque": q(rated, "Nm"), "peak_torque": q(3.0 * rated, "Nm"),
        "rated_speed": "3000 rpm", "speed_most": "5000 rpm", "torque_at_most": q(0.6 * rated, "Nm"), "peak_at_most": q(1.5 * rated, "Nm"),
        // Geometry at constant stress: rotor inertia with the 5/3 power of the torque, flatter for slim rotors.
        "inertia": q(1.0 * size.powf(1.5) * if brake { 1.1 } else { 1.0 }, "kg cm2"),
        "efficiency": round(0.86 + 0.03 * size.log10(), 2), "standby": q(8.0 + 4.0 * size, "W"), "step_error": "0.02 deg",
        "length": q(115.0 * size.powf(0.33) + if brake { 35.0 } else { 0.0 }, "mm"),
    });
    if brake {
        part["brake_torque"] = json!(q(1.5 * rated, "Nm"));
        part["brake_power"] = json!(q(9.0 * size.powf(0.4), "W"));
        part["brake_time"] = json!("40 ms");
    }
    part
}

#[test]
fn servo_motors() {
    let powers = [
        100.0, 200.0, 400.0, 750.0, 1000.0, 1500.0, 2000.0, 3000.0, 5000.0, 7500.0,
    ];
    keep(
        "servo_motors",
        powers
            .iter()
            .flat_map(|p| [servo(*p, false), servo(*p, true)])
            .collect(),
    );
}

/// Frame sizes (NEMA ICS 16) and holding torques, N·m.
const STEPPERS: &[(f64, f64)] = &[
    (17.0, 0.45),
    (17.0, 0.7),
    (23.0, 1.2),
    (23.0, 2.0),
    (23.0, 3.0),
    (24.0, 4.0),
    (34.0, 6.0),
    (34.0, 8.5),
    (34.0, 12.0),
];

fn stepper(&(frame, holding): &(f64, f64)) -> Value {
    let size = holding / 3.0;
    // The current no longer rises in time past a corner that falls with the size of the winding.
    let corner = 560.0 * size.powf(-0.45);
    let speeds = [
        0.0, 150.0, 300.0, 450.0, 600.0, 900.0, 1200.0, 1500.0, 2000.0,
    ];
    let pull_out = |n: f64| {
        q(
            round(0.9 * holding / (1.0 + (n / corner).powi(2)).sqrt(), 3),
            "Nm",
        )
    };
    json!({
        "id": format!("stepper-motor-{frame}-{holding}nm"), "name": format!("stepper motor, size {frame}, {holding} N·m with drive"),
        "price": round(40.0 + 70.0 * size.powf(0.7), 2), "mass": q(1.5 * size.powf(0.85) + 0.3, "kg"),
        "ingress": if frame > 20.0 { "IP54" } else { "IP40" }, "noise": q(round(58.0 + 6.0 * size.log10(), 3), "dB"), "hottest": "50 degC", "coldest": "-20 degC",
        "apart_coldest": "0 degC", "apart_hottest": "50 degC",
        "frame": frame, "holding_torque": q(holding, "Nm"),
        "speeds": speeds.map(|n| q(n, "rpm")), "pull_out": speeds.map(pull_out),
        "inertia": q(0.48 * size.powf(1.25), "kg cm2"), "voltage": "48 V",
        // Half current at rest: a quarter of the winding's loss, and the drive's own.
        "rest_power": q(round(5.0 + 7.0 * size.sqrt(), 2), "W"), "running_loss": q(round(7.0 + 28.0 * size.sqrt(), 2), "W"),
        // A twentieth of a 1.8° step, and the lag of a third of the torque on 50 poles.
        "step_error": "0.48 deg", "length": q(76.0 * size.powf(0.35), "mm"),
    })
}

#[test]
fn stepper_motors() {
    keep("stepper_motors", STEPPERS.iter().map(stepper).collect());
}

/// A direct-current motor of a power, geared down from 3000 rpm in stages of up to 6.
fn gear_motor(power: f64, rpm: f64) -> Value {
    let ratio = 3000.0 / rpm;
    let stages = if ratio < 1.5 {
        0.0
    } else {
        (ratio.ln() / 6.0_f64.ln()).ceil()
    };
    let size = power / 100.0;
    let rated = power / speed(rpm);
    // No-load speed a fifth above the rated one: the line through both stalls at six times the rated torque.
    let head = f64::from(u8::from(stages > 0.0));
    json!({
        "id": format!("gear-motor-{power}w-{rpm}rpm"),
        "name": if stages > 0.0 { format!("DC gear motor, {power} W at {rpm} rpm") } else { format!("DC motor, {power} W at {rpm} rpm") },
        "price": round(35.0 + 55.0 * size.powf(0.75) + head * (18.0 + 6.0 * stages) * size.powf(0.4), 2),
        "mass": q(1.3 * size.powf(0.8) + 0.5 * stages * size.powf(0.7), "kg"),
        "ingress": "IP54", "noise": q(round(56.0 + 6.0 * size.log10() + 2.0 * head, 3), "dB"), "hottest": "50 degC", "coldest": "-10 degC",
        "power": q(power, "W"), "voltage": "24 V", "windings": ["12 V", "48 V"], "no_load_speed": q(1.2 * rpm, "rpm"), "stall_torque": q(6.0 * rated, "Nm"),
        "rated_torque": q(rated, "Nm"), "torque_most": q(if stages > 0.0 { 2.5 } else { 4.0 } * rated, "Nm"),
        "inertia": q(0.3 * size.powf(1.4) * ratio * ratio, "kg cm2"),
        "efficiency": round(0.78 * 0.93_f64.powf(stages), 2), "duty": 0.6, "short_time": "20 min", "cooling": "60 min",
        // Carbon brushes of an industrial motor.
        "running_life": "3000 h",
        // Counted once a turn of the rotor with a third of a turn of coasting, behind the gear, and the play of the gear.
        "step_error": q(round(120.0 / ratio + 1.0 * head, 3), "deg"),
        "length": q(95.0 * size.powf(0.35) + 22.0 * stages * size.powf(0.3), "mm"),
    })
}

#[test]
fn gear_motors() {
    let powers = [30.0, 60.0, 100.0, 150.0, 250.0];
    let speeds = [3000.0, 1000.0, 500.0, 250.0];
    let plain = powers
        .iter()
        .flat_map(|p| speeds.iter().map(|n| gear_motor(*p, *n)));
    let plain: Vec<Value> = plain.collect();
    // Sealed, with grease for the cold.
    let outdoor = json!({ "coldest": "-40 degC", "hottest": "60 degC", "ingress": "IP66" });
    let outdoor = |part: &Value| version(part, "outdoor", "outdoor", 1.25, &outdoor);
    // Brushless, with its electronics: they cost as much again as the motor.
    let lasting = json!({ "coldest": "-25 degC", "ingress": "IP65", "running_life": "10000 h" });
    let lasting = |part: &Value| version(part, "lasting", "brushless, long life", 2.0, &lasting);
    let all = plain
        .iter()
        .cloned()
        .chain(plain.iter().map(outdoor))
        .chain(plain.iter().map(lasting));
    keep("gear_motors", all.collect());
}

fn gearbox(torque: f64, ratio: f64) -> Value {
    let size = torque / 25.0;
    // Past 150 N·m the teeth's own speed and the heat of the oil bring it down with the size, the cube root of torque.
    let speed = round(6000.0 * (150.0 / torque).powf(1.0 / 3.0).min(1.0), 2);
    json!({
        "id": format!("gearbox-{torque}nm-{ratio}"), "name": format!("planetary gearbox, {ratio}:1, {torque} N·m"),
        // One stage for every ratio to 10: price by torque alone.
        "price": round(140.0 * size.powf(0.5), 2), "mass": q(1.2 * size.powf(0.8), "kg"), "ingress": "IP65", "noise": "58 dB",
        "hottest": "60 degC", "coldest": "-20 degC",
        "ratio": ratio, "rated_torque": q(torque, "Nm"), "peak_torque": q(2.0 * torque, "Nm"), "speed_most": q(speed, "rpm"),
        "efficiency": 0.95, "backlash": "0.17 deg", "inertia": q(0.15 * size, "kg cm2"), "length": q(65.0 * size.powf(0.33), "mm"),
    })
}

#[test]
fn gearboxes() {
    let torques = [10.0, 25.0, 60.0, 150.0, 350.0];
    keep(
        "gearboxes",
        torques
            .iter()
            .flat_map(|t| [3.0, 5.0, 10.0].map(|i| gearbox(*t, i)))
            .collect(),
    );
}

/// Size with the cube root of the torque, inertia with its 5/3 power.
fn coupling(torque: f64) -> Value {
    let size = torque / 5.0;
    json!({
        "id": format!("coupling-{torque}nm"), "name": format!("flexible coupling, {torque} N·m"),
        "price": round(14.0 * size.powf(0.4), 2), "mass": q(0.06 * size, "kg"), "stands_water": "washdown", "coldest": "-40 degC", "explosive_atmosphere": true,
        "torque": q(torque, "Nm"), "inertia": q(0.08 * size.powf(1.6), "kg cm2"), "length": q(28.0 * size.powf(0.33), "mm"),
    })
}

#[test]
fn couplings() {
    keep(
        "couplings",
        [1.0, 2.0, 5.0, 10.0, 20.0, 45.0, 90.0, 180.0, 360.0]
            .into_iter()
            .map(coupling)
            .collect(),
    );
}

fn brake(torque: f64) -> Value {
    let size = torque / 2.0;
    json!({
        "id": format!("brake-{torque}nm"), "name": format!("spring-applied brake, {torque} N·m"),
        "price": round(60.0 * size.powf(0.45), 2), "mass": q(0.45 * size.powf(0.7), "kg"), "ingress": "IP65", "noise": "50 dB",
        // Coil power with the plate's area, lag with the plate's mass.
        "torque": q(torque, "Nm"), "power": q(round(11.0 * size.powf(0.4), 2), "W"), "time": q(round(30.0 * size.powf(0.3), 2), "ms"),
        "inertia": q(0.05 * size.powf(1.3), "kg cm2"), "speed_most": "5000 rpm", "length": q(32.0 * size.powf(0.2), "mm"),
        "consumables": 0.0,
    })
}

#[test]
fn brakes() {
    keep(
        "brakes",
        [0.5, 1.0, 2.0, 4.0, 8.0, 16.0, 32.0, 60.0, 120.0]
            .into_iter()
            .map(brake)
            .collect(),
    );
}

/// Potted, for the wall beside the cabinet.
fn supply(volts: f64, watts: f64) -> Value {
    json!({
        "id": format!("power-supply-{volts}v-{watts}w"), "name": format!("power supply, {volts} V, {watts} W"),
        "price": round(16.0 + 0.17 * watts, 2), "mass": q(0.25 + 0.0018 * watts, "kg"), "ingress": "IP65", "coldest": "-10 degC", "hottest": "50 degC",
        "runs_on": if watts < 480.0 { json!(["100-240 V ac"]) } else { json!(["100-240 V ac", "380-480 V ac 3~"]) },
        "voltage": q(volts, "V"), "power": q(watts, "W"), "efficiency": 0.9, "standby": q(round(1.0 + 0.006 * watts, 2), "W"),
    })
}

/// From one direct voltage to another: no mains filter and a smaller choke, but far fewer are made.
fn converter(from: f64, to: f64, watts: f64) -> Value {
    json!({
        "id": format!("converter-{from}v-{to}v-{watts}w"), "name": format!("converter, {from} to {to} V, {watts} W"),
        "price": round(22.0 + 0.32 * watts, 2), "mass": q(0.2 + 0.0015 * watts, "kg"), "ingress": "IP65", "coldest": "-25 degC", "hottest": "60 degC",
        "runs_on": [format!("{from} V dc")],
        "voltage": q(to, "V"), "power": q(watts, "W"), "efficiency": 0.92, "standby": q(round(0.5 + 0.004 * watts, 2), "W"),
    })
}

#[test]
fn power_supplies() {
    let powers = [60.0, 120.0, 240.0, 480.0, 720.0, 960.0];
    let direct = [12.0, 24.0, 48.0];
    let supplies = direct.iter().flat_map(|v| powers.map(|p| supply(*v, p)));
    let between = direct.iter().flat_map(|from| {
        let others = direct.iter().filter(move |to| to.total_cmp(from).is_ne());
        others.flat_map(move |to| [60.0, 120.0, 240.0, 480.0].map(|p| converter(*from, *to, p)))
    });
    keep("power_supplies", supplies.chain(between).collect());
}

/// What tells the makes of electric cylinder apart.
struct Make {
    mark: &'static str,
    word: &'static str,
    /// Mechanical power at full load of the 1 kN size, W; grows with the root of the force.
    power: f64,
    /// A fine sliding screw locks and wears; a ball screw is efficient, lasts and needs a brake.
    ball: bool,
    volts: f64,
    price: f64,
}

const MAKES: &[Make] = &[
    Make {
        mark: "slow",
        word: "slow",
        power: 10.0,
        ball: false,
        volts: 24.0,
        price: 90.0,
    },
    Make {
        mark: "medium",
        word: "medium",
        power: 25.0,
        ball: false,
        volts: 24.0,
        price: 105.0,
    },
    Make {
        mark: "quick",
        word: "ball screw and brake",
        power: 80.0,
        ball: true,
        volts: 24.0,
        price: 220.0,
    },
    Make {
        mark: "mains",
        word: "mains",
        power: 50.0,
        ball: false,
        volts: 230.0,
        price: 150.0,
    },
];

fn cylinder(force: f64, make: &Make) -> Value {
    let size = force / 1000.0;
    let full = make.power * size.sqrt() / force * 1000.0;
    // A steeper screw locks less; the ball screw's brake holds half again.
    let holding = if make.ball {
        1.5
    } else if make.power > 20.0 {
        1.0
    } else {
        1.3
    } * force;
    let efficiency = if make.ball {
        0.55
    } else if make.power > 20.0 {
        0.28
    } else {
        0.22
    };
    // Anchor: 90 at 1 kN to 350 at 6 kN for a 24 V one: the 0.75 power.
    let price = make.price * size.powf(0.75) + if force < 1000.0 { 20.0 } else { 0.0 };
    let mut part = json!({
        "id": format!("electric-cylinder-{force}n-{}", make.mark),
        "name": format!("electric cylinder, {} kN at {} mm/s, {}", force / 1000.0, round(full, 2), make.word),
        "price": round(price, 2), "mass": q(1.4 * size.powf(0.6) + if make.ball { 0.8 } else { 0.0 }, "kg"),
        "ingress": if make.ball { "IP54" } else { "IP65" }, "coldest": "-10 degC", "hottest": "50 degC",
        "noise": q(round(48.0 + 7.0 * (make.power / 10.0).log10() + 4.0 * size.log10(), 3), "dB"),
        "voltage": q(make.volts, "V"), "force_most": q(force, "N"),
        "no_load_speed": q(round(1.4 * full, 2), "mm/s"), "full_load_speed": q(round(full, 2), "mm/s"),
        "holding_force": q(holding, "N"), "efficiency": efficiency,
        "duty": if make.ball { 0.5 } else { 0.25 }, "short_time": if make.ball { "5 min" } else { "2.5 min" }, "cooling": "40 min",
        // Small brushes on 24 V; a capacitor motor on the mains has none and wears its gears.
        "running_life": if make.volts < 100.0 { "1000 h" } else { "6000 h" },
        // Every start is an inrush through brushes and end switch and a knock in the gears: tens of thousands of double
        // strokes for a light make, some hundred thousand for an industrial one (magnitudes from memory, figures invented).
        "double_strokes": if make.ball { 300_000 } else if make.volts < 100.0 { 50_000 } else { 100_000 },
        "life_distance": if make.ball { "100000 m" } else { "20000 m" }, "life_exponent": if make.ball { 3.0 } else { 1.0 },
        // A rod of the tube's strength; strokes to forty rod diameters, in all 1.2 m.
        "stroke_most": q(round((40.0 * 22.0 * size.powf(0.3)).min(1200.0), 2), "mm"),
        "fixed_length": q(round(130.0 * size.powf(0.25) + if make.ball { 60.0 } else { 0.0 }, 2), "mm"),
        "rod_diameter": q(round(22.0 * size.powf(0.3), 2), "mm"),
        "position_error": if make.ball { "0.3 mm" } else { "0.8 mm" }, "standby": "1 W",
        "price_per_metre": round(60.0 * size.powf(0.4) * if make.ball { 1.8 } else { 1.0 }, 2),
        "mass_per_length": q(5.0 * size.powf(0.5), "kg/m"), "bracket_material": round(8.0 * size.powf(0.4), 2),
    });
    if make.ball {
        part["brake_time"] = json!("50 ms");
    }
    if make.volts < 100.0 {
        part["windings"] = json!(["12 V", "48 V"]);
    } else {
        part["runs_on"] = json!(["220-240 V ac"]);
    }
    part
}

/// Sealed, with grease and wipers for the cold.
fn outdoor(part: &Value) -> Value {
    let strokes = part["double_strokes"].as_f64().expect("a number");
    let otherwise = json!({
        "coldest": "-40 degC", "hottest": "60 degC", "ingress": "IP66", "double_strokes": 2.0 * strokes,
    });
    version(part, "outdoor", "outdoor", 1.25, &otherwise)
}

/// Brushless with its electronics, electronic end switches and a larger screw: some million double strokes. Motor and
/// electronics cost as much again as the plain cylinder, screw and bearings half of it.
fn long_life(part: &Value) -> Value {
    let ball = part["brake_time"].is_string();
    let otherwise = json!({
        "coldest": "-25 degC", "ingress": "IP66", "running_life": "10000 h",
        "double_strokes": if ball { 2_000_000 } else { 1_000_000 },
        "life_distance": if ball { "300000 m" } else { "80000 m" },
    });
    version(part, "lasting", "brushless, long life", 2.5, &otherwise)
}

#[test]
fn electric_cylinders() {
    let forces = [
        300.0, 600.0, 1000.0, 1500.0, 2500.0, 4000.0, 6000.0, 10_000.0, 16_000.0,
    ];
    let made = |make: &Make, force: f64| make.volts < 100.0 || force >= 2500.0;
    let all = MAKES.iter().flat_map(|make| {
        forces
            .iter()
            .filter(move |f| made(make, **f))
            .map(move |f| cylinder(*f, make))
    });
    let plain: Vec<Value> = all.collect();
    let low = || plain.iter().filter(|part| part["windings"].is_array());
    let all = plain
        .iter()
        .cloned()
        .chain(low().map(outdoor))
        .chain(low().map(long_life));
    keep("electric_cylinders", all.collect());
}
