//! Laws of ball screws, sliding screws and their supports.

use serde_json::{Value, json};

use super::{keep, q, round};

/// Density of steel, kg/m³.
const STEEL: f64 = 7850.0;

/// Nominal diameters and leads, mm (ISO 3408-2 series).
const BALL: &[(f64, &[f64])] = &[
    (12.0, &[5.0, 10.0]),
    (16.0, &[5.0, 10.0, 16.0]),
    (20.0, &[5.0, 10.0, 20.0]),
    (25.0, &[5.0, 10.0, 25.0]),
    (32.0, &[5.0, 10.0, 20.0, 32.0]),
    (40.0, &[5.0, 10.0, 20.0, 40.0]),
    (50.0, &[10.0, 20.0]),
    (63.0, &[10.0, 20.0]),
    (80.0, &[10.0, 20.0]),
    (100.0, &[20.0]),
];

/// Ball diameter, mm: a fifth of the screw's, and no more than the groove leaves room for: 0.635 of the lead, or of
/// half of it or less where several threads share a long one (balls of 1/8, 1/4 and 1/2 inch at leads of 5, 10 and 20 mm).
fn ball(d: f64, lead: f64) -> f64 {
    let pitch = if lead > 0.6 * d { lead.min(10.0) } else { lead };
    (0.2 * d).min(0.635 * pitch)
}

/// A long lead leaves room for fewer turns of balls in a nut.
fn turns(d: f64, lead: f64) -> f64 {
    if lead > 0.6 * d { 0.8 } else { 1.0 }
}

/// Nut length, mm: three and a half turns and two wipers, long leads with fewer turns.
fn nut(lead: f64) -> f64 {
    20.0 + 4.5 * lead.min(10.0) + 1.5 * (lead - 10.0).max(0.0)
}

fn ball_screw(d: f64, lead: f64, grade: u32) -> Value {
    let ball = ball(d, lead);
    // Point contact: the rating grows with the ball to about 1.5 and slowly with the number of balls.
    let dynamic = 9.0 * (d / 16.0).powf(0.55) * (ball / 3.175).powf(1.5) * turns(d, lead);
    let fixed = 15.0 * (d / 16.0).powf(1.15) * (ball / 3.175).powf(1.2) * turns(d, lead);
    // Rolling friction 0.01 on the helix angle (Shigley's efficiency of a screw).
    let tangent = lead / (std::f64::consts::PI * d);
    let efficiency = (1.0 - 0.01 * tangent) / (1.0 + 0.01 / tangent);
    // The finer grade is sorted, its nut preloaded: twice the price, less play.
    let (error, play, times, mark, word) = if grade == 5 {
        (23.0, 5.0, 1.9, "-fine", ", fine")
    } else {
        (52.0, 30.0, 1.0, "", "")
    };
    // Bar between rolling length and weight, nut and turned ends between surface and weight: both to the power 1.5,
    // so that a 63 mm screw costs about 20 a kilogram and not less than a 16 mm one's bar. A nut for balls past a
    // quarter of an inch grows in girth and in length with them, the groove in depth.
    let coarse = (ball / 6.35).max(1.0);
    let metre = 60.0 * (d / 16.0).powf(1.5) * times * coarse.sqrt();
    let fitted =
        75.0 * (d / 16.0).powf(1.5) * (1.0 + 0.02 * (lead - 5.0)) * times * coarse * coarse;
    json!({
        "id": format!("ball-screw-{d}x{lead}{mark}"), "name": format!("ball screw, {d} × {lead} mm{word}"),
        "price": round(fitted, 2), "mass": q(0.25 * (d / 16.0).powi(2) * nut(lead) / 42.5, "kg"),
        "stands_water": "dry", "coldest": "-30 degC", "noise": q(round(50.0 + 8.0 * (d / 16.0).log10(), 3), "dB"), "explosive_atmosphere": true,
        "diameter": q(d, "mm"), "lead": q(lead, "mm"), "root_diameter": q(d - 0.95 * ball, "mm"),
        "dynamic_rating": q(round(dynamic, 2), "kN"), "static_rating": q(round(fixed, 2), "kN"),
        "efficiency": round(efficiency, 2), "lead_error": q(error, "um"), "backlash": q(play, "um"),
        "dn_most": 60_000.0, "length_most": q((0.18 * d).min(8.0), "m"), "nut_length": q(nut(lead), "mm"),
        "price_per_metre": round(metre, 2),
        "mass_per_length": q(STEEL * std::f64::consts::PI / 4.0 * (0.96 * d / 1000.0).powi(2), "kg/m"),
    })
}

#[test]
fn ball_screws() {
    let screws = BALL
        .iter()
        .flat_map(|(d, leads)| leads.iter().map(|lead| (*d, *lead)));
    let rolled = screws.clone().map(|(d, lead)| ball_screw(d, lead, 7));
    // The finer grade is made in the sizes that positioning stages use.
    let fine = screws
        .filter(|(d, lead)| *d <= 25.0 && *lead <= 10.0)
        .map(|(d, lead)| ball_screw(d, lead, 5));
    keep("ball_screws", rolled.chain(fine).collect());
}

/// Nominal diameter, pitch (mm) and starts: the preferred pitches of ISO 2902, and two starts for speed.
const SLIDING: &[(f64, f64, f64)] = &[
    (12.0, 3.0, 1.0),
    (12.0, 3.0, 2.0),
    (16.0, 4.0, 1.0),
    (16.0, 4.0, 2.0),
    (20.0, 4.0, 1.0),
    (20.0, 4.0, 2.0),
    (24.0, 5.0, 1.0),
    (24.0, 5.0, 2.0),
    (28.0, 5.0, 1.0),
    (32.0, 6.0, 1.0),
    (32.0, 6.0, 2.0),
    (36.0, 6.0, 1.0),
    (40.0, 7.0, 1.0),
    (50.0, 8.0, 1.0),
    (60.0, 9.0, 1.0),
    (80.0, 10.0, 1.0),
];

fn sliding_screw(&(d, pitch, starts): &(f64, f64, f64)) -> Value {
    let lead = pitch * starts;
    let (name, mark) = if starts > 1.0 {
        (
            format!("Tr {d} × {lead} P{pitch}"),
            format!("{d}x{lead}p{pitch}"),
        )
    } else {
        (format!("Tr {d} × {pitch}"), format!("{d}x{pitch}"))
    };
    // Minor diameter of ISO 2904.
    let clearance = if pitch < 6.0 { 0.25 } else { 0.5 };
    json!({
        "id": format!("sliding-screw-{mark}"), "name": format!("sliding screw, {name} mm, bronze nut"),
        // Bar, bronze nut and turned ends between surface and weight.
        "price": round(42.0 * (d / 16.0).powf(1.5), 2), "mass": q(0.2 * (d / 16.0).powf(2.3), "kg"),
        "stands_water": "splash", "coldest": "-30 degC", "noise": q(round(48.0 + 8.0 * (d / 16.0).log10(), 3), "dB"), "explosive_atmosphere": true,
        "diameter": q(d, "mm"), "pitch": q(pitch, "mm"), "starts": starts,
        "root_diameter": q(d - pitch - 2.0 * clearance, "mm"),
        // Greased bronze on steel; wear within the range of handbooks for it, 1e-16 to 1e-15 m²/N.
        "friction": 0.12, "pressure_most": "10 MPa", "pv_most": 0.4, "rubbing_speed_most": "1 m/s",
        "wear_rate": 2e-16, "wear_most": q(pitch / 8.0, "mm"),
        "lead_error": "100 um", "backlash": q(0.08 + 0.02 * pitch, "mm"), "length_most": q((0.18 * d).min(6.0), "m"),
        // One and a half diameters, as bronze nuts are.
        "nut_length": q(1.5 * d, "mm"), "price_per_metre": round(22.0 * (d / 16.0).powf(1.5), 2),
        "mass_per_length": q(STEEL * std::f64::consts::PI / 4.0 * ((d - pitch / 2.0) / 1000.0).powi(2), "kg/m"),
    })
}

#[test]
fn sliding_screws() {
    keep(
        "sliding_screws",
        SLIDING.iter().map(sliding_screw).collect(),
    );
}

/// The journal is about seven tenths of the screw; an angular contact pair is fixed on it, under contact seals.
fn support(d: f64, heavy: bool) -> Value {
    let size = d / 16.0;
    // Two rows each way instead of one bear twice at rest and 2^0.7 times in motion, and cost and weigh half as much again.
    let (mark, word, price, mass, dynamic, fixed) = if heavy {
        ("-heavy", "heavy ", 1.5, 1.5, 1.62, 2.0)
    } else {
        ("", "", 1.0, 1.0, 1.0, 1.0)
    };
    json!({
        "id": format!("screw-support-{d}{mark}"), "name": format!("{word}fixed and floating screw support, for {d} mm"),
        "price": round(price * 60.0 * size.powf(1.15), 2), "mass": q(mass * 0.8 * size.powf(2.2), "kg"), "ingress": "IP65", "coldest": "-30 degC", "explosive_atmosphere": true,
        "screw_diameter": q(d, "mm"), "dynamic_rating": q(round(dynamic * 7.0 * size.powf(1.5), 2), "kN"),
        "static_rating": q(round(fixed * 6.5 * size.powf(1.9), 2), "kN"),
        "friction": 0.002, "mean_diameter": q(round(1.1 * d, 2), "mm"),
        // Grease limit: diameter times speed about 130 000.
        "speed_most": q(round(130_000.0 / (1.1 * d), 2), "rpm"), "length": q(round(45.0 * size.powf(0.7), 2), "mm"),
        // Two plates cut and drilled; by weight.
        "bracket_material": round(20.0 * size, 2),
    })
}

#[test]
fn screw_supports() {
    let sizes = [
        12.0, 16.0, 20.0, 24.0, 25.0, 28.0, 32.0, 36.0, 40.0, 50.0, 60.0, 63.0, 80.0, 100.0,
    ];
    let heavy = sizes.into_iter().filter(|d| *d >= 32.0);
    let parts = sizes.map(|d| support(d, false)).into_iter();
    keep(
        "screw_supports",
        parts.chain(heavy.map(|d| support(d, true))).collect(),
    );
}
