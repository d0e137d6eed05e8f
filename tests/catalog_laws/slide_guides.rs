//! Laws of guides beside profile rails: round shafts with bushes and their supports, and plain ways.

use core::f64::consts::PI;

use serde_json::{Value, json};

use super::{keep, q, round};

/// Density of steel, kg/m³.
const STEEL: f64 = 7850.0;
/// Diameters of shafts, mm.
const SHAFTS: [f64; 8] = [12.0, 16.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0];

/// `base` at 16 mm of shaft, growing with a power of the diameter.
fn by_shaft(base: f64, d: f64, exponent: f64) -> f64 {
    base * libm::pow(d / 16.0, exponent)
}

/// Mass of a metre of round steel, kg.
fn bar(d_mm: f64) -> f64 {
    STEEL * PI / 4.0 * d_mm * d_mm * 1e-6
}

fn bush(d: f64, ball: bool) -> Value {
    let (sort, words, price, mass) = if ball {
        ("ball", "ball bush", 14.0, 0.16)
    } else {
        ("plain", "plain bush", 10.0, 0.14)
    };
    let mut part = json!({
        "id": format!("shaft-{d}-{sort}"),
        "name": format!("{words} with {d} mm shaft"),
        // The housing is an aluminium block: its mass goes with its volume, its price nearly with the diameter.
        "price": round(by_shaft(price, d, 1.1), 2),
        "mass": q(round(by_shaft(mass, d, 2.4), 2), "kg"),
        // Wipers keep dust off the balls; a dry liner has no balls to jam and its shaft does not rust.
        "stands_water": if ball { "dry" } else { "washdown" }, "coldest": "-30 degC", "explosive_atmosphere": true,
        "sort": sort,
        "diameter": q(d, "mm"),
        "bush_length": q(round(by_shaft(36.0, d, 0.85), 2), "mm"),
        "friction": if ball { 0.003 } else { 0.15 },
        "drag": if ball { q(round(by_shaft(1.5, d, 1.0), 2), "N") } else { "0 N".to_owned() },
        "length_most": "4 m",
        // Hardened, ground and chromed bar: work on its surface, and its metal.
        "shaft_price_per_metre": round(by_shaft(if ball { 17.0 } else { 22.0 }, d, 1.3), 2),
        "shaft_mass_per_length": q(round(bar(d), 3), "kg/m"),
        // Open below, a bush is loaded at its worst toward the gap.
        "open_part": if ball { 0.6 } else { 0.7 },
    });
    let more = if ball {
        // Few balls bear on a round shaft at a point each: a tenth of what a rail of that size bears.
        json!({
            "speed_most": "3 m/s",
            "dynamic_rating": q(round(by_shaft(0.8, d, 1.5), 2), "kN"),
            "static_rating": q(round(by_shaft(1.2, d, 1.5), 2), "kN"),
        })
    } else {
        // A filled polymer liner, dry on a hard shaft.
        json!({
            "speed_most": "1.5 m/s", "pressure_most": "5 MPa", "pv_most": 0.15,
            "wear_rate": 5e-16, "wear_most": "0.1 mm", "hottest": "80 degC",
        })
    };
    if let (Some(part), Some(more)) = (part.as_object_mut(), more.as_object()) {
        part.extend(more.clone());
    }
    part
}

#[test]
fn shaft_guides() {
    let parts = SHAFTS
        .iter()
        .flat_map(|d| [true, false].map(|ball| bush(*d, ball)));
    keep("shaft_guides", parts.collect());
}

#[test]
fn shaft_supports() {
    let block = |d: f64| {
        json!({
            "id": format!("shaft-block-{d}"),
            "name": format!("end block for a {d} mm shaft"),
            "price": round(by_shaft(8.0, d, 0.9), 2),
            "mass": q(round(by_shaft(0.06, d, 2.2), 2), "kg"),
            "stands_water": "washdown", "coldest": "-40 degC", "hottest": "120 degC", "explosive_atmosphere": true,
            // The second shaft is set parallel to the first.
            "fit_hours": 0.05,
            "diameter": q(d, "mm"), "along": false,
            "end_length": q(round(by_shaft(18.0, d, 0.6), 2), "mm"),
            "price_per_metre": 0.0,
        })
    };
    // Extruded foot with a screw into the shaft every 100 mm, and the shaft drilled for them.
    let rail = |d: f64| {
        json!({
            "id": format!("shaft-foot-{d}"),
            "name": format!("foot along a {d} mm shaft"),
            "price": round(by_shaft(6.0, d, 0.5), 2), "mass": "0.02 kg",
            "stands_water": "washdown", "coldest": "-40 degC", "hottest": "120 degC", "explosive_atmosphere": true,
            "fit_hours": 0.15,
            "diameter": q(d, "mm"), "along": true,
            "price_per_metre": round(by_shaft(30.0, d, 0.8), 2),
            "mass_per_length": q(round(by_shaft(1.3, d, 1.3), 2), "kg/m"),
        })
    };
    let parts = [SHAFTS.map(block), SHAFTS.map(rail)].concat();
    keep("shaft_supports", parts);
}

#[test]
fn slideways() {
    let way = |w: f64| {
        let scaled = |base: f64, exponent: f64| base * libm::pow(w / 30.0, exponent);
        json!({
            "id": format!("way-{w}"),
            "name": format!("plain way, {w} mm wide, bronze pads"),
            // A pad of bronze twice as long as wide on a steel holder, with its gib and grease nipple.
            "price": round(scaled(12.0, 1.2), 2),
            "mass": q(round(scaled(0.25, 2.4), 2), "kg"),
            // Grease and wipers; nothing rolls that grit could stop.
            "stands_water": "washdown", "coldest": "-30 degC", "explosive_atmosphere": true,
            // Each piece is set by its gib; the pads are greased by hand.
            "fit_hours": 0.25, "maintenance_hours": 0.05,
            "width": q(w, "mm"),
            "pad_length": q(2.0 * w, "mm"),
            // Greased bronze on ground steel, as the nuts of sliding screws; the edge of a pad bears more than its mean.
            "speed_most": "0.5 m/s", "friction": 0.12,
            "length_most": "4 m",
            // Ground flat bar a third as thick as wide, drilled: work on its surface, and its metal.
            "way_price_per_metre": round(scaled(32.0, 1.2), 2),
            "way_mass_per_length": q(round(STEEL * w * w / 3.0 * 1e-6, 3), "kg/m"),
            "pressure_most": "5 MPa", "pv_most": 0.3,
            "wear_rate": 2e-16, "wear_most": "0.3 mm",
        })
    };
    keep(
        "slideways",
        [20.0, 30.0, 40.0, 60.0, 80.0].map(way).to_vec(),
    );
}
