//! Outside checks: hydraulics.

use counterpoise::catalog::built_in;
use counterpoise::mechanics::column::{self, Ends};
use counterpoise::mechanics::hydraulics::{
    Losses, annulus_area, area_for, line_speed, outlet_pressure, piston_area, piston_speed,
    pump_flow, pump_power, working_pressure,
};
use counterpoise::quantity::{
    Si, cubic_metres_per_second, metres, metres_per_second, newtons, pascals,
};
use counterpoise::requirements::Rules;

use crate::agree;

/// Bores and rods of ISO 3320, mm (recalled; the bores corroborated by a public course text).
const BORES: &[f64] = &[
    8.0, 10.0, 12.0, 16.0, 20.0, 25.0, 32.0, 40.0, 50.0, 63.0, 80.0, 100.0, 125.0, 160.0, 200.0,
    250.0, 320.0, 400.0, 500.0,
];
const RODS: &[f64] = &[
    4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 18.0, 20.0, 22.0, 25.0, 28.0, 32.0, 36.0, 40.0,
    45.0, 50.0, 56.0, 63.0, 70.0, 80.0, 90.0, 100.0, 110.0, 125.0, 140.0, 160.0, 180.0, 200.0,
    220.0, 250.0, 280.0, 320.0, 360.0,
];

#[test]
fn bores_and_rods_are_of_the_standard_series() {
    let catalog = built_in().expect("the catalog is sound");
    let within =
        |list: &[f64], metres: f64| list.iter().any(|mm| (mm * 1e-3 - metres).abs() < 1e-9);
    assert!(!catalog.oil_cylinders.is_empty());
    for cylinder in &catalog.oil_cylinders {
        let id = &cylinder.common.id;
        assert!(within(BORES, cylinder.bore.si()), "ISO 3320 bores: {id}");
        assert!(within(RODS, cylinder.rod.si()), "ISO 3320 rods: {id}");
    }
}

#[test]
fn tie_rod_cylinders_are_rated_as_the_medium_series() {
    let catalog = built_in().expect("the catalog is sound");
    let rated = catalog
        .oil_cylinders
        .iter()
        .filter(|cylinder| !cylinder.common.id.contains("welded"));
    for cylinder in rated {
        agree(
            "ISO 6020 (title): 160 bar",
            cylinder.pressure.si(),
            16e6,
            1e-9,
        );
    }
}

#[test]
fn areas() {
    let ratio = piston_area(metres(0.063)) / annulus_area(metres(0.063), metres(0.045));
    agree(
        "geometry; near the nominal ratio 2 of ISO 3320",
        ratio.value,
        2.041_666_666_667,
        1e-6,
    );
    // Full-bore area of a 50 mm cylinder: 19.63 cm² in every table of cylinder forces.
    agree(
        "common tables of cylinder forces",
        piston_area(metres(0.05)).value * 1e4,
        19.63,
        3e-4,
    );
}

#[test]
fn esposito_double_acting_cylinder() {
    let source = "Esposito, Fluid Power with Applications, cylinder example (recalled, recomputed)";
    let flow = cubic_metres_per_second(0.001_261_803_928);
    let (bore, rod) = (metres(0.0508), metres(0.0254));
    let load = newtons(4_448.221_615_26);
    let sides = [
        (
            piston_area(bore),
            annulus_area(bore, rod),
            2_192_532.819_228,
            0.621_792,
            2_766.546_523_57,
        ),
        (
            annulus_area(bore, rod),
            piston_area(bore),
            2_930_271.849_597,
            0.829_056,
            3_691.214_364_332,
        ),
    ];
    for (area, other, pressure, speed, power) in sides {
        let p = working_pressure(load, 1.0, area, other, Losses::none());
        agree(source, p.si(), pressure, 0.004);
        agree(source, piston_speed(flow, area, 1.0).si(), speed, 0.004);
        agree(source, pump_power(p, flow, 1.0).si(), power, 0.004);
    }
}

#[test]
fn examination_cylinder() {
    let source = "public engineering examination item (printed 1 m/s and 1.2 m/s)";
    let flow = cubic_metres_per_second(0.002);
    let (bore, rod) = (metres(0.05), metres(0.02));
    agree(
        source,
        piston_speed(flow, piston_area(bore), 1.0).si(),
        1.0,
        0.02,
    );
    agree(
        source,
        piston_speed(flow, annulus_area(bore, rod), 1.0).si(),
        1.2,
        0.02,
    );
}

#[test]
fn sizing_for_a_force_and_a_speed() {
    let source = "Pascal's law and continuity";
    let area = area_for(newtons(50e3), pascals(16e6), 0.9);
    agree(source, area.value, 0.003_472_222_222_222, 1e-6);
    agree(
        source,
        (4.0 * area.value / core::f64::consts::PI).sqrt(),
        0.066_490_380_066_91,
        1e-6,
    );
    let flow = pump_flow(area, metres_per_second(0.05), 1.0);
    agree(source, flow.si(), 0.000_173_611_111_111_1, 1e-6);
    // The working pressure of that area gives the force back.
    let p = working_pressure(
        newtons(50e3),
        1.0,
        area,
        area,
        Losses {
            efficiency: 0.9,
            ..Losses::none()
        },
    );
    agree(source, p.si(), 16e6, 1e-9);
}

#[test]
fn pump() {
    let power = pump_power(pascals(16e6), cubic_metres_per_second(0.0005), 0.85);
    agree("hydraulic power = p Q", power.si(), 9_411.764_705_882, 1e-6);
    // kW = bar · L/min / 600, the formula of every fluid power handbook: 100 bar, 60 L/min, 10 kW.
    let power = pump_power(pascals(100e5), cubic_metres_per_second(60e-3 / 60.0), 1.0);
    agree(
        "kW = bar · L/min/600, fluid power formula sheets",
        power.si(),
        10_000.0,
        1e-12,
    );
    // hp = gpm · psi / 1714: 10 gpm, 1714 psi, 10 hp.
    let gpm = 231.0 * 0.0254_f64.powi(3) / 60.0;
    let power = pump_power(
        pascals(1714.0 * 6_894.757_293),
        cubic_metres_per_second(10.0 * gpm),
        1.0,
    );
    agree(
        "hp = gpm · psi/1714, US formula sheets",
        power.si() / 745.7,
        10.0,
        5e-4,
    );
}

#[test]
fn rod_side_intensification() {
    let (bore, rod) = (metres(0.063), metres(0.045));
    let (area, annulus) = (piston_area(bore), annulus_area(bore, rod));
    let p = outlet_pressure(pascals(16e6), area, annulus, newtons(0.0));
    agree(
        "force balance on the piston",
        p.si(),
        32_666_666.666_67,
        1e-6,
    );
    // An overrunning load adds its force over the annulus: 5 kN over 1.527e-3 m² is 32.7 bar.
    let more = outlet_pressure(pascals(16e6), area, annulus, newtons(5000.0)) - p;
    agree(
        "force balance on the piston, by hand",
        more.si(),
        32.7e5,
        2e-3,
    );
}

#[test]
fn lines() {
    let flow = cubic_metres_per_second(0.000_333_333_333_333);
    agree(
        "continuity (laminar line row)",
        line_speed(flow, metres(0.012)).si(),
        2.947_313_760_961,
        1e-6,
    );
    let bore = metres(0.014_567_312_407_89);
    let flow = cubic_metres_per_second(0.000_666_666_666_667);
    agree(
        "continuity (line bore row)",
        line_speed(flow, bore).si(),
        4.0,
        1e-6,
    );
    // v [m/s] = 21.22 · Q [L/min]/d² [mm], fluid power formula sheets: 20 L/min, 10 mm.
    let speed = line_speed(cubic_metres_per_second(20e-3 / 60.0), metres(0.010));
    agree("v = 21.22 Q/d², formula sheets", speed.si(), 4.244, 1e-4);
    let rules = Rules::default();
    agree(
        "15 ft/s, common practice, no source",
        rules.oil_line_speed_most,
        4.572,
        0.02,
    );
}

/// Rod 45 mm, 1 m free, built in and pinned: slenderness 0.7 · 1000/11.25 = 62.2 is below 107.5, so Johnson:
/// 1590 mm² · 350 · (1 - 350 · 62.2²/(4 π² · 205e3)) = 556.6 kN · 0.8327 = 463.5 kN.
#[test]
fn rod_of_a_cylinder_by_johnson() {
    let load = column::critical_load(
        metres(0.045),
        metres(1.0),
        Ends::FixedPinned.factor(),
        pascals(350e6),
        pascals(205e9),
    );
    agree(
        "Shigley § 4-13 (Johnson), by hand",
        load.si(),
        463.5e3,
        1e-3,
    );
}
