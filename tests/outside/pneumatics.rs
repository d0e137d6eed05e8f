//! Air at rest and through parts: cylinders and ISO 6358 flow against standards and handbooks.

use core::f64::consts::PI;

use counterpoise::catalog::built_in;
use counterpoise::mechanics::pneumatics::{
    FREE_AIR_DENSITY_KG_M3, FREE_AIR_PRESSURE_PA, FREE_AIR_TEMPERATURE_K, GAS_CONSTANT, Path,
    bore_for_load, end_energy, free_air_per_cycle, free_flow, in_series, piston_area, pull_force,
    push_force, tube,
};
use counterpoise::quantity::{
    AbsolutePressure, Conductance, GaugePressure, Kind, Si, cubic_metres, kilograms, metres,
    metres_per_second, newtons, parse_as,
};
use counterpoise::requirements::Rules;

use super::agree;
use super::rows::row;

fn flow(c: f64, b: f64, upstream: f64, downstream: f64) -> f64 {
    let (up, down) = (
        AbsolutePressure::from_si(upstream),
        AbsolutePressure::from_si(downstream),
    );
    free_flow(Conductance::from_si(c), b, up, down).si()
}

#[test]
fn forces_are_pressure_times_area() {
    for id in ["pn-force-32", "pn-force-100"] {
        let row = row(id);
        let (bore, rod) = (metres(row.input("bore_m")), metres(row.input("rod_m")));
        let pressure = GaugePressure::from_si(row.input("gauge_pressure_pa"));
        row.holds("push_force_n", push_force(bore, pressure).si());
        row.holds("pull_force_n", pull_force(bore, rod, pressure).si());
    }
}

#[test]
fn bore_for_a_load_and_the_next_in_the_catalog() {
    let row = row("pn-bore-1");
    let pressure = GaugePressure::from_si(row.input("gauge_pressure_pa"));
    let load = newtons(row.input("load_n"));
    let bore = bore_for_load(load, pressure, row.input("load_factor")).si();
    row.holds("bore_required_m", bore);
    let catalog = built_in().expect("the catalog is sound");
    let bores = catalog.air_cylinders.iter().map(|c| c.bore.si());
    let next = bores.filter(|b| *b >= bore).fold(f64::INFINITY, f64::min);
    row.holds("bore_selected_m", next);
}

#[test]
fn reference_air() {
    let row = row("pn-iso8778-reference");
    row.holds("pressure_pa", FREE_AIR_PRESSURE_PA);
    row.holds("temperature_k", FREE_AIR_TEMPERATURE_K);
    row.holds("density_kg_m3", FREE_AIR_DENSITY_KG_M3);
    row.without(
        &["relative_humidity"],
        "no formula asks for it: the density holds it",
    );
}

#[test]
fn load_factors() {
    let row = row("pn-load-ratio-practice");
    let rules = Rules::default();
    row.holds("load_factor_slow", rules.load_factor_most);
    row.holds("load_factor_fast", rules.load_factor_fast_most);
    row.without(
        &["load_factor_static"],
        "two practices: the row clamps at 0.7, the project at 0.85; neither has a source",
    );
}

#[test]
fn free_air_of_a_double_stroke() {
    let row = row("pn-free-air-1");
    let (bore, rod) = (metres(row.input("bore_m")), metres(row.input("rod_m")));
    let swept = (piston_area(bore) * 2.0 - piston_area(rod)) * metres(row.input("stroke_m"));
    let pressure = GaugePressure::from_si(row.input("gauge_pressure_pa"));
    let air = free_air_per_cycle(swept, cubic_metres(0.0), pressure).si();
    row.holds("free_air_per_cycle_m3", air);
    let strokes = row.input("double_strokes_per_min") / 60.0;
    row.holds("free_air_flow_m3_s", air * strokes);
}

#[test]
fn flow_law_of_iso_6358() {
    for id in ["pn-iso6358-1", "pn-iso6358-2", "pn-iso6358-3"] {
        let row = row(id);
        let [c, b] = ["sonic_conductance_m3_s_pa", "critical_pressure_ratio"].map(|k| row.input(k));
        let [up, down] = ["upstream_pressure_pa", "downstream_pressure_pa"].map(|k| row.input(k));
        row.holds("volume_flow_anr_m3_s", flow(c, b, up, down));
        let path = Path {
            conductance: c,
            critical_ratio: b,
        };
        let (mass, _, by_down) = path.mass_flow(up, down);
        row.holds("mass_flow_kg_s", mass);
        // Choked flow does not mind the pressure behind.
        row.holds("choked_flag", f64::from(u8::from(by_down == 0.0)));
        agree(&row.source(), -path.mass_flow(down, up).0, mass, 1e-12);
    }
}

/// The gas constant and the reference temperature give the speed of sound, γ 1.4.
#[test]
fn speed_of_sound() {
    let row = row("pn-sound-speed");
    agree(
        &row.source(),
        row.input("temperature_k"),
        FREE_AIR_TEMPERATURE_K,
        1e-12,
    );
    row.holds(
        "sound_speed_m_s",
        (1.4 * GAS_CONSTANT * FREE_AIR_TEMPERATURE_K).sqrt(),
    );
}

/// Time in which a volume goes from one pressure to another at a rate, by Simpson in 20 000 parts.
fn time_between(from_pa: f64, to_pa: f64, rate: impl Fn(f64) -> f64) -> f64 {
    let steps = 20_000_u32;
    let h = (to_pa - from_pa) / f64::from(steps);
    let part = |i: u32| {
        let p = from_pa + h * f64::from(i);
        h / 6.0 * (1.0 / rate(p) + 4.0 / rate(p + h / 2.0) + 1.0 / rate(p + h))
    };
    (0..steps).map(part).sum()
}

#[test]
fn filling_a_tank() {
    let row = row("pn-fill-2");
    let path = Path {
        conductance: row.input("sonic_conductance_m3_s_pa"),
        critical_ratio: row.input("critical_pressure_ratio"),
    };
    let (volume, supply) = (row.input("volume_m3"), row.input("supply_pressure_pa"));
    let rt = GAS_CONSTANT * FREE_AIR_TEMPERATURE_K;
    let rate = |p: f64| rt * path.mass_flow(supply, p).0 / volume;
    let [start, end] = ["start_pressure_pa", "end_pressure_pa"].map(|k| row.input(k));
    row.holds("fill_time_s", time_between(start, end, rate));
}

#[test]
fn energy_at_the_end() {
    let row = row("pn-end-energy");
    let (mass, speed) = (
        kilograms(row.input("mass_kg")),
        metres_per_second(row.input("impact_speed_m_s")),
    );
    let (force, length) = (
        newtons(row.input("drive_force_n")),
        metres(row.input("cushion_length_m")),
    );
    row.holds(
        "kinetic_energy_j",
        end_energy(mass, speed, newtons(0.0), length).si(),
    );
    row.holds(
        "total_energy_j",
        end_energy(mass, speed, force, length).si(),
    );
}

/// Electricity that the project counts for a cubic metre of free air is more than what ideal compression takes.
#[test]
fn electricity_of_air() {
    let joules = Rules::default().air_energy * parse_as("1 kWh", Kind::Energy).expect("an energy");
    row("pn-compress-iso-50psi").at_least("work_per_free_volume_j_m3", joules);
    for id in [
        "pn-compress-adiab-1stage-100psi",
        "pn-compress-adiab-2stage-100psi",
    ] {
        row(id).at_least("power_per_free_flow_j_m3", joules);
    }
    let real = row("pn-compress-power");
    real.at_least("power_w", joules * real.input("free_air_flow_m3_s"));
    real.without(
        &["ideal_outlet_temperature_k"],
        "the project has no temperature of compressed air",
    );
}

// --- beyond the collection ---

#[test]
fn gas_constant() {
    let row = row("own-gas-constant");
    row.holds("gas_constant_j_kg_k", GAS_CONSTANT);
}

#[test]
fn speed_of_sound_in_a_handbook() {
    let row = row("own-sound-crc");
    row.holds(
        "sound_speed_m_s",
        (1.4 * GAS_CONSTANT * FREE_AIR_TEMPERATURE_K).sqrt(),
    );
}

/// The ellipse of ISO 6358 with the nozzle's own critical ratio lies within 0.3 % of the isentropic flow.
#[test]
fn ellipse_and_isentropic_flow() {
    let row = row("own-isentropic-parts");
    let critical = row.input("critical_pressure_ratio");
    for (key, r) in [
        ("part_at_06", 0.6),
        ("part_at_07", 0.7),
        ("part_at_08", 0.8),
        ("part_at_09", 0.9),
        ("part_at_095", 0.95),
    ] {
        let part = flow(1e-8, critical, 7e5, r * 7e5) / flow(1e-8, critical, 7e5, 1e5);
        row.holds(key, part);
    }
}

#[test]
fn emptying_a_tank() {
    let row = row("own-blow-down");
    let path = Path {
        conductance: row.input("sonic_conductance_m3_s_pa"),
        critical_ratio: row.input("critical_pressure_ratio"),
    };
    let rt = GAS_CONSTANT * FREE_AIR_TEMPERATURE_K;
    let (volume, outside) = (row.input("volume_m3"), row.input("outside_pressure_pa"));
    let rate = |p: f64| -rt * path.mass_flow(p, outside).0 / volume;
    let [start, end] = ["start_pressure_pa", "end_pressure_pa"].map(|k| row.input(k));
    row.holds("time_s", time_between(start, end, rate));
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
