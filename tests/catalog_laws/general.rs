//! Laws of what any drive may use: counterweight, rope, sheave, guard, guide, cover, controls.

use core::f64::consts::PI;

use serde_json::{Value, json};

use super::{keep, q, round};

/// Density of steel, kg/m³.
const STEEL: f64 = 7850.0;

/// `base` at size `at`, growing with a power of the size.
fn power_law(base: f64, size: f64, at: f64, exponent: f64) -> f64 {
    base * libm::pow(size / at, exponent)
}

/// A whole number as ids and names show it.
fn whole(value: f64) -> String {
    format!("{value}")
}

#[test]
fn counterweights() {
    // Blocks that one person lifts (to 20 kg) or two with a hook (50 kg), in the steps of weights: 1-2-5.
    let block = |kg: f64| {
        json!({
            "id": format!("counterweight-{}", whole(kg)),
            "name": format!("steel counterweight block, {} kg", whole(kg)),
            // Sawn steel bar, drilled and painted: the material sets the price, 2.5 a kilogram.
            "price": round(2.5 * kg, 3),
            "mass": q(kg, "kg"), "stands_water": "washdown", "coldest": "-40 degC", "hottest": "200 degC",
            "explosive_atmosphere": true, "block": q(kg, "kg"),
        })
    };
    keep(
        "counterweights",
        [1.0, 2.0, 5.0, 10.0, 20.0, 50.0].map(block).to_vec(),
    );
}

/// Minimum breaking force, N, of a 6x19 rope with fibre core: `K d² Rr`, K 0.33, grade 1770 (EN 12385-4, from memory).
fn breaking_force(d_mm: f64) -> f64 {
    0.33 * d_mm * d_mm * 1770.0
}

/// Mass of a metre of 6x19 rope, kg: 1.60 lb/ft per square inch (Hamrock, *Fundamentals of Machine Elements*, table 18.7).
fn rope_mass(d_mm: f64) -> f64 {
    3690.0 * d_mm * d_mm * 1e-6
}

#[test]
fn ropes() {
    let rope = |d: f64| {
        json!({
            "id": format!("rope-{}", whole(d)),
            "name": format!("wire rope 6x19, {} mm, with end fittings", whole(d)),
            // Thimbles, ferrules and a turnbuckle: work to press them, and metal as the square of the rope.
            "price": round(6.0 + 0.25 * d * d, 3),
            "mass": q(0.003 * d * d, "kg"),
            // Galvanised and greased; the fibre core and the grease end at 80 °C.
            "stands_water": "washdown", "coldest": "-30 degC", "explosive_atmosphere": true,
            "diameter": q(d, "mm"),
            "breaking_force": q(breaking_force(d) / 1000.0, "kN"),
            // Stranding costs the same for any rope, wire as its section.
            "price_per_metre": round(0.4 + 0.036 * d * d, 3),
            "mass_per_length": q(rope_mass(d), "kg/m"),
        })
    };
    keep(
        "ropes",
        [3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 20.0, 24.0]
            .map(rope)
            .to_vec(),
    );
}

fn sheave(d_mm: f64, rolling: bool) -> Value {
    // A wheel as wide as a fifth of its diameter, two fifths of it cut away between hub and rim.
    let d = d_mm / 1000.0;
    let wheel = 0.6 * STEEL * PI / 4.0 * d * d * 0.2 * d;
    let (bearing, name, cost, water, coldest) = if rolling {
        ("ball", "ball bearing", 18.0, "splash", "-30 degC")
    } else {
        // A bronze bush has no seals to wash out and no balls to jam.
        ("bush", "bronze bush", 15.0, "washdown", "-40 degC")
    };
    json!({
        "id": format!("sheave-{}-{bearing}", whole(d_mm)),
        "name": format!("rope sheave, {} mm, {name}, with bracket", whole(d_mm)),
        // Turning goes with the diameter, the bearing with less than it.
        "price": round(power_law(cost, d_mm, 60.0, 0.6), 3),
        // Bracket and pin weigh nearly as much as the wheel.
        "mass": q(round(wheel * 1.8, 3), "kg"),
        "stands_water": water, "coldest": coldest, "explosive_atmosphere": true,
        "diameter": q(d_mm, "mm"),
        // The groove takes ropes up to a fifteenth of the diameter; whether so thick a one lasts is the user's affair.
        "rope_most": q((d_mm / 15.0).floor(), "mm"),
        // Twice the pull of a rope of a twentieth of the diameter at a factor of 8, and a quarter more.
        "load_most": q(round(2.0 * breaking_force(d_mm / 20.0) / 8.0 * 1.25 / 1000.0, 2), "kN"),
        // Between a disc (1/2) and a ring (1).
        "inertia": q(round(0.6 * wheel * d * d / 4.0 * 1e4, 3), "kg cm2"),
        "rolling": rolling,
    })
}

#[test]
fn sheaves() {
    let sizes = [
        60.0, 80.0, 100.0, 125.0, 160.0, 200.0, 250.0, 320.0, 400.0, 500.0,
    ];
    let parts = sizes
        .iter()
        .flat_map(|d| [true, false].map(|rolling| sheave(*d, rolling)));
    keep("sheaves", parts.collect());
}

#[test]
fn guards() {
    // The channel's side grows as the cube root of the block it lets through: 150 mm at 50 kg.
    let guard = |kg: f64| {
        let side = power_law(1.0, kg, 50.0, 1.0 / 3.0);
        json!({
            "id": format!("guard-{}", whole(kg)),
            "name": format!("guarded channel for a counterweight up to {} kg", whole(kg)),
            "price": round(25.0 * side, 2), "mass": q(round(2.0 * side, 2), "kg"),
            "stands_water": "washdown", "coldest": "-40 degC", "explosive_atmosphere": true,
            "counterweight_most": q(kg, "kg"),
            // Folded 1.5 mm sheet, four sides: 7 kg a metre at 150 mm, at some 5 a kilogram made up.
            "price_per_metre": round(35.0 * side, 2),
            "mass_per_length": q(round(7.0 * side, 2), "kg/m"),
        })
    };
    keep(
        "guards",
        [25.0, 50.0, 100.0, 200.0, 400.0, 800.0, 1600.0, 3200.0]
            .map(guard)
            .to_vec(),
    );
}

#[test]
fn guides() {
    let guide = |s: f64| {
        // Ball size and count both grow with the rail: ratings nearly with its square, prices nearly in proportion.
        let scaled = |base, exponent| power_law(base, s, 15.0, exponent);
        json!({
            "id": format!("guide-{}", whole(s)),
            "name": format!("profile rail guide, size {}", whole(s)),
            "price": round(scaled(30.0, 0.9), 2),
            "mass": q(round(scaled(0.17, 2.6), 2), "kg"),
            // End seals keep dust off; they keep no water out.
            "stands_water": "dry", "coldest": "-30 degC", "explosive_atmosphere": true,
            "size": q(s, "mm"),
            "dynamic_rating": q(round(scaled(8.0, 1.85), 3), "kN"),
            "static_rating": q(round(scaled(14.0, 1.75), 3), "kN"),
            "carriage_length": q(round(scaled(58.0, 0.75), 2), "mm"),
            "speed_most": "5 m/s", "friction": 0.004,
            "drag": q(round(scaled(3.0, 1.0), 2), "N"),
            "length_most": "4 m",
            "rail_price_per_metre": round(scaled(60.0, 0.9), 2),
            "rail_mass_per_length": q(round(scaled(1.4, 1.75), 2), "kg/m"),
        })
    };
    keep(
        "guides",
        [15.0, 20.0, 25.0, 30.0, 35.0, 45.0, 55.0]
            .map(guide)
            .to_vec(),
    );
}

/// A sort of hinge bearing at a bore of 20 mm.
struct Pivot {
    sort: &'static str,
    words: &'static str,
    price: f64,
    width: f64,
    static_kn: f64,
    /// None of a bush.
    dynamic_kn: Option<f64>,
    exponent: f64,
    /// Part of the static rating borne along the pin; 0 for none.
    axial: f64,
    friction: f64,
    water: &'static str,
    coldest: &'static str,
}

#[test]
fn hinge_bearings() {
    // Invented, in proportion to what such bearings have at a 20 mm pin; ratings grow with the bore to the 1.6, since
    // width and rolling bodies grow less than it; prices nearly in proportion. A pair is two bearings set together.
    #[rustfmt::skip]
    let sorts = [
        Pivot { sort: "bush", words: "dry bush", price: 4.0, width: 20.0, static_kn: 32.0, dynamic_kn: None, exponent: 0.0, axial: 0.1, friction: 0.12, water: "washdown", coldest: "-40 degC" },
        Pivot { sort: "needle", words: "needle bush", price: 9.0, width: 20.0, static_kn: 20.0, dynamic_kn: Some(13.0), exponent: 10.0 / 3.0, axial: 0.0, friction: 0.004, water: "dry", coldest: "-30 degC" },
        Pivot { sort: "deep_groove", words: "deep-groove bearing, sealed", price: 11.0, width: 14.0, static_kn: 6.5, dynamic_kn: Some(13.0), exponent: 3.0, axial: 0.5, friction: 0.002, water: "splash", coldest: "-30 degC" },
        Pivot { sort: "angular_pair", words: "pair of angular-contact bearings", price: 38.0, width: 28.0, static_kn: 16.0, dynamic_kn: Some(22.0), exponent: 3.0, axial: 1.0, friction: 0.003, water: "splash", coldest: "-30 degC" },
        Pivot { sort: "taper_pair", words: "pair of taper roller bearings", price: 34.0, width: 32.0, static_kn: 56.0, dynamic_kn: Some(48.0), exponent: 10.0 / 3.0, axial: 1.2, friction: 0.005, water: "splash", coldest: "-30 degC" },
        Pivot { sort: "crossed_roller", words: "crossed roller ring", price: 140.0, width: 10.0, static_kn: 8.0, dynamic_kn: Some(6.5), exponent: 10.0 / 3.0, axial: 1.5, friction: 0.004, water: "splash", coldest: "-30 degC" },
    ];
    let part = |pivot: &Pivot, bore: f64| {
        let scaled = |base, exponent| power_law(base, bore, 20.0, exponent);
        let mut part = json!({
            "id": format!("hinge-{}-{}", pivot.sort.replace('_', "-"), whole(bore)),
            "name": format!("{}, {} mm", pivot.words, whole(bore)),
            "price": round(scaled(pivot.price, 1.1), 2),
            "mass": q(round(scaled(0.005 * pivot.width, 2.2), 2), "kg"),
            "stands_water": pivot.water, "coldest": pivot.coldest, "explosive_atmosphere": true,
            "sort": pivot.sort,
            "bore": q(bore, "mm"),
            "width": q(round(scaled(pivot.width, 0.8), 2), "mm"),
            "static_rating": q(round(scaled(pivot.static_kn, 1.6), 3), "kN"),
            "friction": pivot.friction,
        });
        if pivot.axial > 0.0 {
            part["axial_most"] = json!(q(
                round(scaled(pivot.axial * pivot.static_kn, 1.6), 3),
                "kN"
            ));
        }
        if let Some(rating) = pivot.dynamic_kn {
            part["dynamic_rating"] = json!(q(round(scaled(rating, 1.6), 3), "kN"));
            part["life_exponent"] = json!(round(pivot.exponent, 4));
        } else {
            // A woven liner bonded to steel, run dry.
            part["pv_most"] = json!(1.0);
            part["wear_rate"] = json!(2e-16);
            part["wear_most"] = json!("0.25 mm");
        }
        part
    };
    let bores = [10.0, 12.0, 16.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 80.0];
    let parts = sorts
        .iter()
        .flat_map(|pivot| bores.map(|bore| part(pivot, bore)));
    keep("hinge_bearings", parts.collect());
}

#[test]
fn covers() {
    // Folded cloth: the area grows with the size, the ends are clamped rings or plates.
    let cover = |s: f64| {
        json!({
            "id": format!("cover-{}", whole(s)),
            "name": format!("bellows for a screw or rail up to {} mm", whole(s)),
            "price": round(8.0 + 0.4 * s, 2), "mass": q(round(0.1 + 0.004 * s, 2), "kg"),
            "stands_water": "washdown", "coldest": "-30 degC", "explosive_atmosphere": true,
            "size_most": q(s, "mm"),
            // Past a hundred times its size a bellows sags.
            "travel_most": q(0.1 * s, "m"),
            // Deeper folds lie in less length.
            "closed_ratio": round(power_law(0.2, s, 16.0, -0.35), 2),
            "price_per_metre": round(25.0 + 1.2 * s, 2),
            "mass_per_length": q(round(0.1 + 0.012 * s, 2), "kg/m"),
        })
    };
    keep("covers", [16.0, 25.0, 40.0, 63.0, 80.0].map(cover).to_vec());
}

/// What a kind of controls costs, weighs and draws.
struct Law {
    serves: &'static str,
    words: &'static str,
    powers_w: &'static [f64],
    /// Price at the first power, for two ends.
    price: f64,
    /// How the price grows with power: contactors and wires do, buttons and guard do not.
    exponent: f64,
    /// Further switches, inputs and set-up for several stops.
    several: f64,
    mass_kg: f64,
    standby_w: f64,
}

const LAWS: [Law; 5] = [
    Law {
        serves: "air",
        words: "an air drive",
        powers_w: &[100.0],
        price: 130.0,
        exponent: 0.2,
        several: 60.0,
        mass_kg: 7.0,
        standby_w: 6.0,
    },
    Law {
        serves: "dc",
        words: "a small motor",
        powers_w: &[250.0, 1000.0],
        price: 150.0,
        exponent: 0.2,
        several: 80.0,
        mass_kg: 7.0,
        standby_w: 6.0,
    },
    Law {
        serves: "oil",
        words: "an oil drive",
        powers_w: &[1500.0, 4000.0, 11_000.0, 22_000.0],
        price: 310.0,
        exponent: 0.2,
        several: 60.0,
        mass_kg: 12.0,
        standby_w: 10.0,
    },
    Law {
        serves: "servo",
        words: "a servo motor",
        powers_w: &[750.0, 2000.0, 5500.0, 11_000.0],
        price: 520.0,
        exponent: 0.25,
        several: 70.0,
        mass_kg: 9.0,
        standby_w: 12.0,
    },
    Law {
        serves: "stepper",
        words: "a stepper motor",
        powers_w: &[250.0, 800.0],
        price: 160.0,
        exponent: 0.2,
        several: 70.0,
        mass_kg: 7.0,
        standby_w: 8.0,
    },
];

fn control(law: &Law, power_w: f64, several: bool, washdown: bool) -> Value {
    let size = power_law(1.0, power_w, law.powers_w[0], law.exponent);
    let stops = if several { "several stops" } else { "two ends" };
    // A stainless cabinet and sealed buttons and switches: a tenth more, and the labour of glands.
    let cabinet = if washdown {
        (1.1, 25.0, "-ip65", ", washdown cabinet", "IP65")
    } else {
        (1.0, 0.0, "", "", "IP54")
    };
    let price =
        (law.price * size + if several { law.several } else { 0.0 }) * cabinet.0 + cabinet.1;
    let watts = if law.powers_w.len() > 1 {
        format!("-{}w", whole(power_w))
    } else {
        String::new()
    };
    let stop_id = if several { "several" } else { "ends" };
    json!({
        "id": format!("control-{}{watts}-{stop_id}{}", law.serves, cabinet.2),
        "name": format!("controls and guard for {} to {} W, {stops}{}", law.words, whole(power_w), cabinet.3),
        "price": round(price, 2), "mass": q(round(law.mass_kg * size, 2), "kg"),
        "ingress": cabinet.4, "coldest": "-10 degC", "hottest": "50 degC",
        "serves": law.serves, "power_most": q(power_w, "W"), "standby": q(law.standby_w, "W"), "several_stops": several,
    })
}

/// Pneumatic logic: push-button and limit valves instead of electricity, and so no spark; each function costs a valve.
fn air_logic(several: bool) -> Value {
    let (id, words, price) = if several {
        ("several", "several stops", 250.0)
    } else {
        ("ends", "two ends", 190.0)
    };
    json!({
        "id": format!("control-air-logic-{id}"),
        "name": format!("pneumatic logic and guard for an air drive, {words}"),
        "price": price, "mass": "9 kg", "ingress": "IP65", "coldest": "0 degC", "hottest": "60 degC",
        "explosive_atmosphere": true,
        "serves": "air_logic", "power_most": "100 W", "standby": "0 W", "several_stops": several,
    })
}

/// A guard over the gear and a latch, or a plate with notches: sheet metal.
fn by_hand(several: bool) -> Value {
    let (id, words, price) = if several {
        ("several", "notch plate", 50.0)
    } else {
        ("ends", "latch", 35.0)
    };
    json!({
        "id": format!("control-hand-{id}"),
        "name": format!("guard and {words} for a hand drive"),
        "price": price, "mass": "3 kg", "stands_water": "washdown", "coldest": "-40 degC", "explosive_atmosphere": true,
        "serves": "hand", "power_most": "0 W", "standby": "0 W", "several_stops": several,
    })
}

#[test]
fn controls() {
    let mut parts = Vec::new();
    for law in &LAWS {
        for power in law.powers_w {
            for (several, washdown) in [(false, false), (true, false), (false, true), (true, true)]
            {
                parts.push(control(law, *power, several, washdown));
            }
        }
    }
    parts.extend([false, true].map(air_logic));
    parts.extend([false, true].map(by_hand));
    keep("controls", parts);
}
