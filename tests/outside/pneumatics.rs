//! Air: cylinders and ISO 6358 flow against standards and handbooks, the stroke against laws and closed forms.

use core::f64::consts::PI;

use counterpoise::catalog::built_in;
use counterpoise::mechanics::pneumatics::{
    FINE, FREE_AIR_DENSITY_KG_M3, FREE_AIR_PRESSURE_PA, FREE_AIR_TEMPERATURE_K, GAS_CONSTANT,
    Outcome, Path, Stroke, bore_for_load, end_energy, free_air_per_cycle, free_flow, in_series,
    pull_force, push_force, tube,
};
use counterpoise::quantity::{
    AbsolutePressure, Conductance, GaugePressure, Si, cubic_metres, kilograms, metres,
    metres_per_second, newtons,
};

use super::agree;

fn bar(gauge: f64) -> GaugePressure {
    GaugePressure::from_si(gauge * 1e5)
}

fn flow(c: f64, b: f64, upstream: f64, downstream: f64) -> f64 {
    let (up, down) = (
        AbsolutePressure::from_si(upstream),
        AbsolutePressure::from_si(downstream),
    );
    free_flow(Conductance::from_si(c), b, up, down).si()
}

#[test]
fn forces_are_pressure_times_area() {
    let source = "pressure × area; bore and rod of ISO 15552";
    let (bore, rod) = (metres(0.032), metres(0.012));
    agree(
        source,
        push_force(bore, bar(6.0)).si(),
        482.548_631_591_4,
        1e-6,
    );
    agree(
        source,
        pull_force(bore, rod, bar(6.0)).si(),
        414.690_230_273_9,
        1e-6,
    );
    let (bore, rod) = (metres(0.1), metres(0.025));
    agree(
        source,
        push_force(bore, bar(4.0)).si(),
        3_141.592_653_59,
        1e-6,
    );
    agree(
        source,
        pull_force(bore, rod, bar(4.0)).si(),
        2_945.243_112_74,
        1e-6,
    );
}

#[test]
fn bore_for_a_load_and_the_next_in_the_catalog() {
    let source = "force over pressure and load ratio; bores of ISO 15552";
    let bore = bore_for_load(newtons(1000.0), bar(6.0), 0.7).si();
    agree(source, bore, 0.055_059_265_574_11, 1e-6);
    let catalog = built_in().expect("the catalog is sound");
    let next = catalog
        .air_cylinders
        .iter()
        .map(|cylinder| cylinder.bore.si())
        .filter(|b| *b >= bore)
        .fold(f64::INFINITY, f64::min);
    agree(source, next, 0.063, 1e-9);
}

#[test]
fn rods_follow_their_standards() {
    // ISO 15552:2004 (rods recalled); ISO 6432:2015 (bores and rods recalled).
    let rods = [
        ("ISO 6432", 10, 4),
        ("ISO 6432", 12, 6),
        ("ISO 6432", 16, 6),
        ("ISO 6432", 20, 8),
        ("ISO 6432", 25, 10),
        ("ISO 15552", 32, 12),
        ("ISO 15552", 40, 16),
        ("ISO 15552", 50, 20),
        ("ISO 15552", 63, 20),
        ("ISO 15552", 80, 25),
        ("ISO 15552", 100, 25),
        ("ISO 15552", 125, 32),
    ];
    let catalog = built_in().expect("the catalog is sound");
    for (standard, bore, rod) in rods {
        let found = catalog
            .air_cylinders
            .iter()
            .find(|c| (c.bore.si() - f64::from(bore) * 1e-3).abs() < 1e-9);
        let found = found.expect("every bore of the standard is in the catalog");
        agree(standard, found.rod.si(), f64::from(rod) * 1e-3, 1e-9);
    }
}

#[test]
fn reference_air() {
    let source = "ISO 8778 and ISO 6358-1 (recalled)";
    agree(source, FREE_AIR_PRESSURE_PA, 100_000.0, 1e-9);
    agree(source, FREE_AIR_TEMPERATURE_K, 293.15, 1e-9);
    agree(source, FREE_AIR_DENSITY_KG_M3, 1.185, 1e-9);
}

#[test]
fn free_air_of_a_double_stroke() {
    let source = "Boyle's law to ISO 8778; 50/20 mm × 200 mm at 6 bar";
    let swept = PI / 4.0 * (2.0 * 0.05_f64.powi(2) - 0.02_f64.powi(2)) * 0.2;
    let air = free_air_per_cycle(cubic_metres(swept), cubic_metres(0.0), bar(6.0)).si();
    agree(source, air, 0.005_067_538_175_891, 1e-6);
    agree(source, air * 10.0 / 60.0, 0.000_844_589_695_981_9, 1e-6);
}

#[test]
fn flow_law_of_iso_6358() {
    let source = "ISO 6358-1:2013, flow law";
    for (c, b, up, down, mass, volume) in [
        (2e-8, 0.3, 7e5, 1e5, 0.016_59, 0.014),
        (
            2e-8,
            0.3,
            7e5,
            5e5,
            0.013_372_499_957_08,
            0.011_284_810_090_36,
        ),
        (
            5e-9,
            0.45,
            6e5,
            5.5e5,
            0.001_881_375_936_176,
            1.587_659_017_87e-3,
        ),
    ] {
        agree(source, flow(c, b, up, down), volume, 1e-6);
        let path = Path {
            conductance: c,
            critical_ratio: b,
        };
        agree(source, path.mass_flow(up, down).0, mass, 1e-6);
        agree(source, -path.mass_flow(down, up).0, mass, 1e-6);
    }
}

#[test]
fn an_ideal_nozzle_is_a_conductance() {
    // Choked nozzle, γ 1.4: 5 mm throat, 6 bar gauge, 293.15 K (isentropic flow tables).
    let source = "isentropic choked nozzle, m = A p √(γ/RT) (2/(γ+1))^3";
    let area = PI / 4.0 * 0.005_f64.powi(2);
    // C = m/(p ρ0): with the nozzle factor 0.040418 √K·s/m over √293.15 K.
    let c = area * 0.040_418 / 293.15_f64.sqrt() / FREE_AIR_DENSITY_KG_M3;
    let mass = flow(c, 0.528, 701_325.0, 101_325.0) * FREE_AIR_DENSITY_KG_M3;
    agree(source, mass, 0.032_504_670_298_51, 1e-4);
}

#[test]
fn like_parts_in_series() {
    // Two alike by the cubic rule pass 2^(−1/3) = 0.7937 of one; three 3^(−1/3) = 0.6934.
    let source = "ISO 6358-3, cubic sum worked by hand";
    let one = Path {
        conductance: 1e-8,
        critical_ratio: 0.5,
    };
    agree(source, in_series(&[one; 2]).conductance, 0.7937e-8, 1e-4);
    agree(source, in_series(&[one; 3]).conductance, 0.6934e-8, 1e-4);
    // b = 1 − C² · 2 · 0.5/1 = 1 − 0.62996 = 0.37004
    agree(source, in_series(&[one; 2]).critical_ratio, 0.370_04, 1e-4);
    agree(source, in_series(&[one]).critical_ratio, 0.5, 1e-12);
}

#[test]
fn tubes_of_iso_6358() {
    // d 8 mm, L 1 m by hand: d^1.25 = 2.3926e-3, √(417.96 + 510) = 30.462, C = 0.029·6.4e-5/30.462.
    let source = "ISO 6358 tube formula worked by hand";
    let path = tube(metres(0.008), metres(1.0));
    agree(source, path.conductance, 6.0927e-8, 2e-4);
    agree(source, path.critical_ratio, 0.451_2, 5e-4);
    // A tube of no length is still an orifice: 0.029/√510 = 1.284e-3 of d².
    let short = tube(metres(0.01), metres(0.0));
    agree(source, short.conductance, 1.2841e-7, 1e-4);
}

#[test]
fn energy_at_the_end() {
    let source = "work and energy: 6.4 J + 18 J";
    let energy = end_energy(
        kilograms(20.0),
        metres_per_second(0.8),
        newtons(900.0),
        metres(0.02),
    );
    agree(source, energy.si(), 24.4, 1e-6);
}

#[test]
fn filling_a_tank() {
    // 5 L from 1 to 6.3 bar through C 1e-8, b 0.3, supply 7 bar: closed form with the arcsine, 4.4021 s.
    let source = "isothermal filling, integral of the ISO 6358 flow law";
    let path = Path {
        conductance: 1e-8,
        critical_ratio: 0.3,
    };
    let rate = |p: f64| GAS_CONSTANT * 293.15 * path.mass_flow(7e5, p).0 / 0.005;
    // Time over pressure by Simpson.
    let steps = 20_000_u32;
    let h = (6.3e5 - 1e5) / f64::from(steps);
    let sum: f64 = (0..steps)
        .map(|i| {
            let p = 1e5 + h * f64::from(i);
            h / 6.0 * (1.0 / rate(p) + 4.0 / rate(p + h / 2.0) + 1.0 / rate(p + h))
        })
        .sum();
    agree(source, sum, 4.402_145_568_325, 1e-4);
}

/// A 50/20 mm cylinder, 200 mm, going out against a constant force at 6 bar.
fn stroke(load_n: f64, mass_kg: f64, fill: f64, exhaust: f64) -> Stroke<impl Fn(f64) -> f64> {
    let (bore, rod) = (PI / 4.0 * 0.0025, PI / 4.0 * 0.0004);
    let path = |conductance| Path {
        conductance,
        critical_ratio: 0.3,
    };
    Stroke {
        travel_m: 0.2,
        mass_kg,
        fill_area_m2: bore,
        exhaust_area_m2: bore - rod,
        fill_dead_m3: 0.05 * bore * 0.2 + 5e-5,
        exhaust_dead_m3: 0.05 * (bore - rod) * 0.2 + 5e-5,
        fill: path(fill),
        exhaust: path(exhaust),
        supply_pa: 701_325.0,
        seal_n: 0.1 * 6e5 * bore,
        load_n: move |_| load_n,
        patience_s: 60.0,
        tolerance: FINE,
    }
}

fn time(load_n: f64, mass_kg: f64, fill: f64, exhaust: f64) -> f64 {
    stroke(load_n, mass_kg, fill, exhaust).run().time_s()
}

#[test]
fn a_stroke_never_beats_full_thrust() {
    for mass in [2.0, 20.0, 200.0] {
        for load in [0.0, 300.0, 700.0] {
            let net = 6e5 * PI / 4.0 * 0.0025 * 0.9 - load;
            let least = (2.0 * 0.2 * mass / net).sqrt();
            for c in [1e-8, 1e-7, 1e-6] {
                assert!(
                    time(load, mass, c, c) >= least,
                    "{mass} kg, {load} N, C {c}"
                );
            }
        }
    }
}

#[test]
fn an_unchoked_stroke_nears_full_thrust() {
    // With huge conductance both chambers are at their end pressures at once: ½ (F/M) t² = S.
    let source = "uniformly accelerated motion";
    let net = 6e5 * PI / 4.0 * 0.0025 * 0.9 - 300.0;
    let least = (2.0 * 0.2 * 200.0 / net).sqrt();
    agree(source, time(300.0, 200.0, 1e-4, 1e-4), least, 2e-3);
}

#[test]
fn more_conductance_is_never_slower_and_more_load_never_faster() {
    let sizes = [5e-9, 1e-8, 2e-8, 5e-8, 1e-7];
    for pair in sizes.windows(2) {
        assert!(time(300.0, 20.0, 1e-7, pair[1]) <= time(300.0, 20.0, 1e-7, pair[0]));
        assert!(time(300.0, 20.0, pair[1], 1e-7) <= time(300.0, 20.0, pair[0], 1e-7));
    }
    for kg in [10.0, 40.0, 70.0] {
        let up = |kg: f64| time(kg * 9.806_65, kg, 3e-8, 2e-8);
        assert!(up(kg + 10.0) >= up(kg), "{kg} kg");
    }
}

#[test]
fn a_throttled_stroke_settles_at_the_choked_speed() {
    // In steady motion out the exhaust stays at the pressure that balances the full supply, choked:
    // v = C · ρ0 R T/A2 whatever that pressure is (ISO 6358 choked flow, ideal gas).
    let source = "choked exhaust, volume flow C ρ0 R T";
    let c = 5e-9;
    let steady = c * FREE_AIR_DENSITY_KG_M3 * GAS_CONSTANT * 293.15 / (PI / 4.0 * 0.0021);
    let mut throttled = stroke(100.0, 10.0, 1e-6, c);
    throttled.travel_m = 1.0;
    let Outcome::Arrives(arrival) = throttled.run() else {
        panic!("it arrives")
    };
    // Choked flow does not damp, so the piston swings about that speed; its mean is within the few percent that
    // the exhaust is compressed at first.
    let mean = 1.0 / (arrival.time_s - arrival.start_s);
    agree(source, mean, steady, 3e-2);
}

#[test]
fn too_much_load_does_not_arrive() {
    let thrust = 6e5 * PI / 4.0 * 0.0025;
    assert_eq!(
        stroke(0.95 * thrust, 50.0, 1e-7, 1e-7).run(),
        Outcome::Stalls(0.0)
    );
    assert!(time(0.85 * thrust, 50.0, 1e-7, 1e-7).is_finite());
}

#[test]
fn strokes_of_an_independent_integrator() {
    // SciPy 1.17.1 LSODA, rtol 1e-9, of the same equations (events for start and end); time and greatest speed in the last tenth.
    let source = "SciPy LSODA at 1e-9";
    for (load, mass, fill, exhaust, time_s, speed) in INDEPENDENT {
        let Outcome::Arrives(arrival) = stroke(load, mass, fill, exhaust).run() else {
            panic!("it arrives")
        };
        agree(source, arrival.time_s, time_s, 5e-4);
        agree(source, arrival.end_speed_m_s, speed, 2e-3);
    }
}

/// Load N, mass kg, conductances of filling and exhaust; time s and speed of arrival m/s.
const INDEPENDENT: [(f64, f64, f64, f64, f64, f64); 6] = [
    (0.0, 5.0, 3e-8, 3e-8, 0.151_570, 1.679_20),
    (300.0, 20.0, 3e-8, 2e-9, 2.105_254, 0.134_18),
    (600.0, 60.0, 5e-8, 1e-8, 0.677_382, 0.931_56),
    (-500.0, 60.0, 2e-8, 3e-9, 0.709_097, 0.303_00),
    (700.0, 71.0, 1e-7, 1e-7, 0.334_067, 1.385_21),
    (50.0, 2.0, 1e-8, 1e-9, 3.264_702, 0.060_46),
];
