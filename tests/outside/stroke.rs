//! The stroke of an air cylinder against laws, closed forms and another integrator.

use core::f64::consts::PI;

use counterpoise::mechanics::pneumatics::{
    AirStroke, FINE, FREE_AIR_DENSITY_KG_M3, GAS_CONSTANT, Path, StrokeOutcome,
};

use super::agree;

/// A 50/20 mm cylinder, 200 mm, going out against a constant force at 6 bar.
fn stroke(
    load_n: f64,
    mass_kg: f64,
    fill: f64,
    exhaust: f64,
) -> AirStroke<impl Fn(f64) -> f64, impl Fn(f64) -> (f64, f64)> {
    let (bore, rod) = (PI / 4.0 * 0.0025, PI / 4.0 * 0.0004);
    let path = |conductance| Path {
        conductance,
        critical_ratio: 0.3,
    };
    AirStroke {
        travel_m: 0.2,
        moving: move |_| (mass_kg, 0.0),
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
    let StrokeOutcome::Arrives(arrival) = throttled.run() else {
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
        StrokeOutcome::Stalls(0.0)
    );
    assert!(time(0.85 * thrust, 50.0, 1e-7, 1e-7).is_finite());
}

#[test]
fn strokes_of_an_independent_integrator() {
    // SciPy 1.17.1 LSODA, rtol 1e-9, of the same equations (events for start and end); time and greatest speed in the last tenth.
    let source = "SciPy LSODA at 1e-9";
    for (load, mass, fill, exhaust, time_s, speed) in INDEPENDENT {
        let StrokeOutcome::Arrives(arrival) = stroke(load, mass, fill, exhaust).run() else {
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
