//! Oil: cylinders, pumps and lines.

use core::f64::consts::PI;

use counterpoise::mechanics::hydraulics::{
    Losses, annulus_area, line_speed, outlet_pressure, piston_area, piston_speed, pump_flow,
    pump_power, working_pressure,
};
use counterpoise::quantity::{
    Kind, Si, cubic_metres_per_second, metres, metres_per_second, newtons, parse_as, pascals,
    square_metres,
};
use counterpoise::requirements::Rules;

use super::agree;
use super::rows::row;

const NO_FORMULA: &str = "the project has no formula of pressure lost in a line";

/// Of a line without loss to a cylinder of an efficiency.
fn losses(efficiency: f64) -> Losses {
    Losses {
        efficiency,
        line: pascals(0.0),
        back: pascals(0.0),
    }
}

fn gpm(value: f64) -> f64 {
    value * parse_as("1 gpm", Kind::Flow).expect("a flow")
}

#[test]
fn areas() {
    let row = row("hy-area-ratio-63");
    let (bore, rod) = (metres(row.input("bore_m")), metres(row.input("rod_m")));
    let ratio = piston_area(bore) / annulus_area(bore, rod);
    row.holds("area_ratio", ratio.value);
    // Full-bore area of a 50 mm cylinder: 19.63 cm² in every table of cylinder forces.
    let source = "common tables of cylinder forces";
    agree(source, piston_area(metres(0.05)).value * 1e4, 19.63, 3e-4);
}

#[test]
fn esposito_double_acting_cylinder() {
    let row = row("hy-esposito-imperial");
    let flow = cubic_metres_per_second(row.input("flow_m3_s"));
    let (bore, rod) = (metres(row.input("bore_m")), metres(row.input("rod_m")));
    let load = newtons(row.input("load_n"));
    let (full, ring) = (piston_area(bore), annulus_area(bore, rod));
    for (way, area, other) in [("extend", full, ring), ("retract", ring, full)] {
        let p = working_pressure(load, 1.0, area, other, losses(1.0));
        row.holds(&format!("{way}_pressure_pa"), p.si());
        row.holds(
            &format!("{way}_speed_m_s"),
            piston_speed(flow, area, 1.0).si(),
        );
        row.holds(&format!("{way}_power_w"), pump_power(p, flow, 1.0).si());
    }
}

#[test]
fn examination_cylinder() {
    let row = row("hy-exam-cylinder");
    let flow = cubic_metres_per_second(row.input("flow_m3_s"));
    let (bore, rod) = (metres(row.input("bore_m")), metres(row.input("rod_m")));
    row.holds(
        "extend_speed_m_s",
        piston_speed(flow, piston_area(bore), 1.0).si(),
    );
    row.holds(
        "retract_speed_m_s",
        piston_speed(flow, annulus_area(bore, rod), 1.0).si(),
    );
}

#[test]
fn sizing_for_a_force_and_a_speed() {
    let row = row("hy-size-1");
    let (force, pressure) = (
        newtons(row.input("force_n")),
        pascals(row.input("pressure_pa")),
    );
    let losses = losses(row.input("mechanical_efficiency"));
    // Pressure goes down as the area goes up.
    let unit = square_metres(1.0);
    let area = unit * (working_pressure(force, 1.0, unit, unit, losses) / pressure);
    row.holds("area_m2", area.value);
    row.holds("bore_m", (area / piston_area(metres(1.0))).value.sqrt());
    let speed = metres_per_second(row.input("speed_m_s"));
    row.holds("flow_m3_s", pump_flow(area, speed, 1.0).si());
    // The working pressure of that area gives the force back.
    let p = working_pressure(force, 1.0, area, area, losses);
    agree(&row.source(), p.si(), pressure.si(), 1e-9);
}

#[test]
fn pump() {
    let row = row("hy-pump-power");
    let (pressure, flow) = (
        pascals(row.input("pressure_pa")),
        cubic_metres_per_second(row.input("flow_m3_s")),
    );
    let power = pump_power(pressure, flow, row.input("overall_efficiency"));
    row.holds("shaft_power_w", power.si());
    // Its torque without loss is the power of a turn a second over 2π.
    let turn = cubic_metres_per_second(row.input("displacement_m3_rev"));
    row.holds(
        "theoretical_torque_n_m",
        pump_power(pressure, turn, 1.0).si() / (2.0 * PI),
    );
}

#[test]
fn rod_side_intensification() {
    let row = row("hy-intensify-1");
    let (bore, rod) = (metres(row.input("bore_m")), metres(row.input("rod_m")));
    let (area, annulus) = (piston_area(bore), annulus_area(bore, rod));
    let supply = pascals(row.input("piston_side_pressure_pa"));
    let p = outlet_pressure(
        supply,
        area,
        annulus,
        newtons(row.input("overrunning_load_n")),
    );
    row.holds("rod_side_pressure_pa", p.si());
    // An overrunning load adds its force over the annulus: 5 kN over 1.527e-3 m² is 32.7 bar.
    let more = outlet_pressure(supply, area, annulus, newtons(5000.0)) - p;
    agree(
        "force balance on the piston, by hand",
        more.si(),
        32.7e5,
        2e-3,
    );
}

#[test]
fn speed_in_a_line() {
    let row = row("hy-line-laminar");
    let flow = cubic_metres_per_second(row.input("flow_m3_s"));
    row.holds(
        "velocity_m_s",
        line_speed(flow, metres(row.input("inner_diameter_m"))).si(),
    );
    row.without(&["reynolds", "pressure_drop_pa"], NO_FORMULA);
}

#[test]
fn bore_of_a_line() {
    let row = row("hy-line-bore-1");
    let flow = cubic_metres_per_second(row.input("flow_m3_s"));
    // The speed goes with the square of the bore.
    let at_1_m = line_speed(flow, metres(1.0)).si();
    row.holds(
        "inner_diameter_m",
        (at_1_m / row.input("velocity_m_s")).sqrt(),
    );
}

#[test]
fn speeds_allowed_in_lines() {
    let row = row("hy-velocity-practice");
    row.holds("pressure_low_m_s", Rules::default().oil_line_speed_most);
    row.without(
        &["suction_m_s", "pressure_medium_m_s", "pressure_high_m_s"],
        "the project has one limit for pressure lines and one for returns",
    );
}

// --- beyond the collection ---

#[test]
fn formulas_of_oil_hydraulics() {
    let row = row("own-oil-formulas-metric");
    // kW = bar · L/min/600: 100 bar, 60 L/min.
    let power = pump_power(pascals(100e5), cubic_metres_per_second(60e-3 / 60.0), 1.0);
    row.holds("power_100_bar_60_l_min_w", power.si());
    // v = 21.22 Q/d²: 20 L/min, 10 mm.
    let speed = line_speed(cubic_metres_per_second(20e-3 / 60.0), metres(0.010));
    row.holds("speed_20_l_min_10_mm_m_s", speed.si());
    // F = p A/100 in kN, bar and cm²: 160 bar on 63 mm.
    let force = pascals(160e5) * piston_area(metres(0.063));
    row.holds("force_160_bar_63_mm_n", force.si());
}

#[test]
fn formulas_of_oil_hydraulics_in_inches() {
    let row = row("own-oil-formulas-inch");
    let psi = parse_as("1 psi", Kind::Pressure).expect("a pressure");
    let hp = parse_as("1 hp", Kind::Power).expect("a power");
    let power = pump_power(
        pascals(1714.0 * psi),
        cubic_metres_per_second(gpm(10.0)),
        1.0,
    );
    row.holds("power_1714_psi_10_gpm_hp", power.si() / hp);
    // v = 0.3208 Q/A in ft/s, gpm and in²: 10 gpm through a bore of an inch, 0.7854 in².
    let speed = line_speed(cubic_metres_per_second(gpm(10.0)), metres(0.0254));
    row.holds("line_10_gpm_1_in_ft_s", speed.si() / 0.3048);
    // v = 231 Q/A in in/min: 10 gpm on a bore of 4 in, 12.57 in².
    let piston = piston_speed(
        cubic_metres_per_second(gpm(10.0)),
        piston_area(metres(4.0 * 0.0254)),
        1.0,
    );
    row.holds("piston_10_gpm_4_in_in_min", piston.si() / 0.0254 * 60.0);
}

/// Area ratios that ISO 7181 names for its bores and rods.
#[test]
fn area_ratios_of_iso_7181() {
    let row = row("own-iso7181");
    for key in row.keys() {
        let mm: Vec<f64> = key
            .split('_')
            .filter_map(|part| part.parse().ok())
            .collect();
        let (bore, rod) = (metres(mm[0] * 1e-3), metres(mm[1] * 1e-3));
        row.holds(&key, (piston_area(bore) / annulus_area(bore, rod)).value);
    }
}
