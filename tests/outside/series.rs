//! Standard series against the catalog.

use counterpoise::catalog::{BASIC_STROKES_M, Catalog, built_in};
use counterpoise::mechanics::screw;
use counterpoise::quantity::{Current, Si, metres};

use super::agree;
use super::rows::{Row, row};

fn catalog() -> &'static Catalog {
    built_in().expect("the catalog is sound")
}

/// The member nearest to a value.
fn nearest(found: impl IntoIterator<Item = f64>, value: f64) -> f64 {
    let off = |x: &f64| (x - value).abs();
    let near = found.into_iter().min_by(|p, q| off(p).total_cmp(&off(q)));
    near.expect("the catalog has some")
}

/// Holds a series both ways: what of it lies within the catalog's range is there, and nothing there is outside it.
fn series(row: &Row, found: &[f64]) {
    let (least, most) = (
        nearest(found.iter().copied(), 0.0),
        nearest(found.iter().copied(), 1e9),
    );
    let keys = row.keys();
    for key in &keys {
        let value = row.expected(key);
        if value < least * (1.0 - 1e-9) || value > most * (1.0 + 1e-9) {
            row.without(&[key], "beyond the sizes of the catalog");
        } else {
            row.holds(key, nearest(found.iter().copied(), value));
        }
    }
    within(row, found, 1e-9);
}

/// Nothing of the catalog is outside a series; what of the series is not in the catalog is left out, with the reason.
fn members(row: &Row, found: &[f64], missing: &str) {
    within(row, found, 1e-9);
    for key in row.keys() {
        let near = nearest(found.iter().copied(), row.expected(&key));
        if (near - row.expected(&key)).abs() < 1e-9 {
            row.holds(&key, near);
        } else {
            row.without(&[&key], missing);
        }
    }
}

/// Nothing of the catalog is outside a series.
fn within(row: &Row, found: &[f64], rel: f64) {
    let members: Vec<f64> = row.keys().iter().map(|key| row.expected(key)).collect();
    for value in found {
        agree(
            &row.source(),
            *value,
            nearest(members.iter().copied(), *value),
            rel,
        );
    }
}

// --- cylinders ---

#[test]
fn rods_of_iso_15552() {
    rods(
        &row("pn-iso15552-rods"),
        &[32, 40, 50, 63, 80, 100, 125, 160, 200, 250, 320],
    );
}

#[test]
fn rods_of_iso_6432() {
    rods(&row("own-iso6432"), &[10, 12, 16, 20, 25]);
}

/// Holds the rod of each bore that a standard has, mm.
fn rods(row: &Row, bores_mm: &[u32]) {
    for bore_mm in bores_mm {
        let cylinder = catalog()
            .air_cylinders
            .iter()
            .find(|c| (c.bore.si() * 1e3 - f64::from(*bore_mm)).abs() < 1e-6);
        let cylinder = cylinder.expect("every bore of the standard is in the catalog");
        row.holds(&format!("rod_for_bore_{bore_mm}mm_m"), cylinder.rod.si());
    }
}

#[test]
fn bores_of_iso_3320() {
    let row = row("hy-iso3320-bores");
    let air = catalog().air_cylinders.iter().map(|part| part.bore.si());
    let oil = catalog().oil_cylinders.iter().map(|part| part.bore.si());
    series(&row, &air.chain(oil).collect::<Vec<_>>());
}

/// Not every rod of the series is in the catalog, but every rod of the catalog is in the series.
#[test]
fn rods_of_iso_3320() {
    let row = row("hy-iso3320-rods");
    let air = catalog().air_cylinders.iter().map(|part| part.rod.si());
    let oil = catalog().oil_cylinders.iter().map(|part| part.rod.si());
    let found: Vec<f64> = air.chain(oil).collect();
    members(&row, &found, "no cylinder of the catalog has that rod");
}

/// Strokes that cost nothing extra are those of the standard, all of them and no other.
#[test]
fn strokes_of_iso_4393() {
    series(&row("pn-iso4393-strokes"), &BASIC_STROKES_M);
}

#[test]
fn pressures_of_the_cylinder_series() {
    let row = row("hy-series-pressures");
    for cylinder in &catalog().air_cylinders {
        agree(
            &row.source(),
            cylinder.pressure_most.si(),
            row.expected("pressure_pneumatic_pa"),
            1e-9,
        );
    }
    row.holds(
        "pressure_pneumatic_pa",
        nearest(
            catalog().air_cylinders.iter().map(|c| c.pressure_most.si()),
            1e6,
        ),
    );
    let tie_rod = catalog()
        .oil_cylinders
        .iter()
        .filter(|c| !c.common.id.contains("welded"));
    for cylinder in tie_rod {
        agree(
            &row.source(),
            cylinder.pressure.si(),
            row.expected("pressure_hydraulic_medium_pa"),
            1e-9,
        );
    }
    row.holds(
        "pressure_hydraulic_medium_pa",
        nearest(
            catalog().oil_cylinders.iter().map(|c| c.pressure.si()),
            16e6,
        ),
    );
    row.without(
        &["pressure_hydraulic_heavy_pa"],
        "the catalog has no cylinder of the heavy series",
    );
}

// --- screws ---

#[test]
fn pitches_of_iso_2902() {
    let row = row("scr-iso2902-pitches");
    for d in [12, 16, 20, 24, 28, 32, 36, 40, 60] {
        let part = catalog()
            .sliding_screws
            .iter()
            .find(|p| (p.diameter.si() * 1e3 - f64::from(d)).abs() < 1e-6);
        row.holds(
            &format!("pitch_for_{d}mm_m"),
            part.expect("a screw of that size").pitch.si(),
        );
    }
    row.without(
        &["pitch_for_8mm_m", "pitch_for_10mm_m"],
        "the catalog begins at 12 mm",
    );
}

/// Minor diameter of the external thread by the standard, which the catalog's own are held to: `d3 = d - P - 2 ac`, crest
/// clearance `ac` 0.15 mm for P = 1.5, 0.25 mm for P 2 to 5, 0.5 mm for P 6 to 12, 1 mm above.
fn minor_diameter_m(nominal_m: f64, pitch_m: f64) -> f64 {
    let clearance_m = match pitch_m {
        p if p < 0.001_9 => 0.15e-3,
        p if p < 0.005_5 => 0.25e-3,
        p if p < 0.013 => 0.5e-3,
        _ => 1e-3,
    };
    nominal_m - pitch_m - 2.0 * clearance_m
}

#[test]
fn basic_dimensions_of_iso_2904() {
    let row = row("scr-iso2904-tr16x4");
    let (d, pitch) = (
        metres(row.input("nominal_diameter_m")),
        metres(row.input("pitch_m")),
    );
    row.holds("pitch_diameter_m", screw::pitch_diameter(d, pitch).si());
    row.holds(
        "minor_diameter_external_m",
        minor_diameter_m(d.si(), pitch.si()),
    );
    for part in &catalog().sliding_screws {
        let minor = minor_diameter_m(part.diameter.si(), part.pitch.si());
        agree(&row.source(), part.root_diameter.si(), minor, 1e-9);
    }
}

/// More sizes, by nominal diameter and pitch in tenths of a millimetre.
#[test]
fn more_sizes_of_iso_2904() {
    for (id, d, pitch) in [
        ("own-tr-10x2", 10.0, 2.0),
        ("own-tr-8x15", 8.0, 1.5),
        ("own-tr-24x5", 24.0, 5.0),
        ("own-tr-36x6", 36.0, 6.0),
        ("own-tr-40x7", 40.0, 7.0),
        ("own-tr-60x9", 60.0, 9.0),
        ("own-tr-100x12", 100.0, 12.0),
        ("own-tr-120x14", 120.0, 14.0),
    ] {
        let row = row(id);
        let (d, pitch) = (metres(d * 1e-3), metres(pitch * 1e-3));
        row.holds("pitch_diameter_m", screw::pitch_diameter(d, pitch).si());
        row.holds("minor_diameter_m", minor_diameter_m(d.si(), pitch.si()));
    }
}

/// The pitch diameter of an Acme thread is its nominal less half the pitch, too.
#[test]
fn acme_pitch_diameters() {
    let row = row("own-acme");
    for (key, d, per_inch) in [
        ("half_10_in", 0.5, 10.0),
        ("one_5_in", 1.0, 5.0),
        ("one_and_half_4_in", 1.5, 4.0),
    ] {
        let found = screw::pitch_diameter(metres(d * 0.0254), metres(0.0254 / per_inch));
        row.holds(key, found.si() / 0.0254);
    }
}

#[test]
fn ball_screw_sizes_of_iso_3408() {
    let row = row("own-iso3408-diameters");
    let found: Vec<f64> = catalog()
        .ball_screws
        .iter()
        .map(|part| part.diameter.si())
        .collect();
    series(&row, &found);
    // Leads: those of the standard, or one turn as long as the screw is thick.
    let leads = super::rows::row("own-iso3408-leads");
    let found = catalog()
        .ball_screws
        .iter()
        .filter(|p| (p.lead.si() - p.diameter.si()).abs() > 1e-9);
    series(
        &leads,
        &found.map(|part| part.lead.si()).collect::<Vec<_>>(),
    );
}

/// Travel deviation within 300 mm of two grades.
#[test]
fn lead_error_grades() {
    let row = row("own-iso3408-3-grades");
    let errors = |fine: bool| {
        let parts = catalog()
            .ball_screws
            .iter()
            .filter(move |p| p.common.id.ends_with("fine") == fine);
        parts.map(|part| part.lead_error.si())
    };
    for (key, fine) in [("grade_5_m", true), ("grade_7_m", false)] {
        row.holds(key, errors(fine).fold(0.0, f64::max));
        for error in errors(fine) {
            agree(&row.source(), error, row.expected(key), 1e-9);
        }
    }
}

// --- the rest ---

#[test]
fn modules_of_iso_54() {
    let row = row("own-iso54");
    let found: Vec<f64> = catalog()
        .racks
        .iter()
        .map(|part| part.module.si())
        .collect();
    members(&row, &found, "no rack of the catalog has that module");
}

#[test]
fn motor_powers_of_iec_60072() {
    let row = row("own-iec60072");
    let found: Vec<f64> = catalog()
        .oil_power_units
        .iter()
        // The standard is of motors on alternating current.
        .filter(|part| {
            let feeds = part.common.runs_on.as_ref();
            feeds.is_none_or(|feeds| feeds.iter().any(|feed| feed.current == Current::Ac))
        })
        .map(|part| part.motor_power.si())
        .collect();
    series(&row, &found);
}

/// A frame's number is the tenths of an inch of its face.
#[test]
fn stepper_frames_of_nema() {
    let row = row("own-nema-frames");
    for key in ["frame_17", "frame_23", "frame_34"] {
        row.holds(
            key,
            nearest(
                catalog().stepper_motors.iter().map(|part| part.frame),
                row.expected(key),
            ),
        );
    }
}

#[test]
fn sheaves_and_cranks_in_r10_steps() {
    let row = row("own-iso3-r10");
    let of_decade =
        |value: f64| value / libm::pow(10.0, libm::floor(libm::log10(value * (1.0 + 1e-9))));
    let sheaves = catalog().sheaves.iter().map(|part| part.diameter.si());
    let cranks = catalog().cranks.iter().map(|part| part.radius.si());
    // Sheaves of 60 and 320 mm are the rounded 63 and 315: 5 and 1.6 % off.
    let found: Vec<f64> = sheaves.chain(cranks).map(of_decade).collect();
    within(&row, &found, 0.05);
    let jump: Vec<f64> = catalog()
        .cranks
        .iter()
        .map(|part| of_decade(part.radius.si()))
        .collect();
    for (key, value) in [
        ("r10_1", 1.0),
        ("r10_2", 1.25),
        ("r10_3", 1.6),
        ("r10_4", 2.0),
        ("r10_5", 2.5),
        ("r10_6", 3.15),
        ("r10_7", 4.0),
        ("r10_10", 8.0),
    ] {
        row.holds(key, nearest(jump.iter().copied(), value));
    }
    row.without(
        &["r10_8", "r10_9"],
        "the catalog has no crank of 500 or 630 mm",
    );
}
