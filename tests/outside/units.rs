//! Units against NIST SP 811 (2008), appendix B.8, and the SI brochure: most are exact by definition.

use counterpoise::quantity::{ATMOSPHERE_PA, G_M_S2, Kind, parse_as};

use super::agree;
use super::rows::row;

/// What the reader makes of a text.
#[track_caller]
fn si(text: &str, kind: Kind) -> f64 {
    parse_as(text, kind).expect(text)
}

const NOT_READ: &str = "the reader knows no such unit";

#[test]
fn pound_force() {
    row("unit-lbf").holds("value_n", si("1 lbf", Kind::Force));
}

#[test]
fn pound_inch_and_foot() {
    let row = row("unit-lb-in-ft");
    row.holds("mass_kg", si("1 lb", Kind::Mass));
    row.holds("inch_m", si("1 in", Kind::Length));
    row.holds("foot_m", si("1 ft", Kind::Length));
    // Sixteen avoirdupois ounces are a pound.
    agree(&row.source(), si("16 oz", Kind::Mass), 0.453_592_37, 1e-12);
}

#[test]
fn pounds_per_square_inch() {
    row("unit-psi").holds("value_pa", si("1 psi", Kind::Pressure));
}

#[test]
fn bar_and_atmosphere() {
    let row = row("unit-bar-atm");
    row.holds("bar_pa", si("1 bar", Kind::Pressure));
    row.holds("atm_pa", ATMOSPHERE_PA);
    row.without(&["at_pa"], NOT_READ);
}

#[test]
fn gallon() {
    let row = row("unit-gallon");
    // A gallon a minute for a minute.
    row.holds("us_m3", si("1 gpm", Kind::Flow) * si("1 min", Kind::Time));
    row.without(&["imperial_m3"], NOT_READ);
}

#[test]
fn horsepower() {
    let row = row("unit-hp");
    row.holds("hp_w", si("1 hp", Kind::Power));
    row.without(&["hp_metric_w"], NOT_READ);
}

#[test]
fn turns_a_minute() {
    row("unit-rpm").holds("value_rad_s", si("1500 rpm", Kind::Rotation));
}

#[test]
fn torque() {
    let row = row("unit-torque");
    row.holds("lbf_ft_n_m", si("1 lbf ft", Kind::Torque));
    row.holds("lbf_in_n_m", si("1 lbf in", Kind::Torque));
    row.without(&["ozf_in_n_m"], NOT_READ);
}

#[test]
fn fahrenheit() {
    let row = row("unit-temperature");
    row.holds("value_k", si("104 degF", Kind::Temperature));
    // What one types in degrees Celsius for the same temperature.
    let celsius = si("104 degF", Kind::Temperature) - si("0 degC", Kind::Temperature);
    row.holds("value_degc", celsius);
}

#[test]
fn hydraulic_horsepower() {
    let row = row("unit-hydraulic-hp");
    let power = si("1000 psi", Kind::Pressure) * si("10 gpm", Kind::Flow);
    row.holds("power_w", power);
    row.holds("power_hp", power / si("1 hp", Kind::Power));
    // The SI product is exact, the trade's divisor 1714 is rounded.
    agree("exact SI product", power, 4_349.915_917_563, 1e-9);
}

// --- beyond the collection ---

#[test]
fn flow() {
    row("own-unit-cfm").holds("flow_m3_s", si("1 cfm", Kind::Flow));
}

#[test]
fn speed() {
    let row = row("own-unit-speed");
    row.holds("ft_min_m_s", si("1 ft/min", Kind::Speed));
    row.holds("in_s_m_s", si("1 in/s", Kind::Speed));
}

#[test]
fn inertia() {
    let row = row("own-unit-inertia");
    row.holds("lb_ft2_kg_m2", si("1 lb ft2", Kind::Inertia));
    row.holds("lb_in2_kg_m2", si("1 lb in2", Kind::Inertia));
}

#[test]
fn angle_and_turning() {
    let row = row("own-unit-angle");
    row.holds("degree_rad", si("1 deg", Kind::Angle));
    row.holds("rpm_rad_s", si("1 rpm", Kind::Rotation));
}

#[test]
fn units_beside_the_si() {
    let row = row("own-unit-accepted");
    row.holds("hour_s", si("1 h", Kind::Time));
    row.holds("litre_m3", si("1 L", Kind::Volume));
    row.holds("tonne_kg", si("1 t", Kind::Mass));
    row.holds("kilowatt_hour_j", si("1 kWh", Kind::Energy));
}

#[test]
fn fixed_points_of_the_temperature_scales() {
    let row = row("own-unit-fixed-points");
    row.holds("ice_f_k", si("32 degF", Kind::Temperature));
    row.holds("steam_f_k", si("212 degF", Kind::Temperature));
    row.holds("scales_meet_k", si("-40 degF", Kind::Temperature));
    row.holds("scales_meet_c_k", si("-40 degC", Kind::Temperature));
}

#[test]
fn standard_gravity() {
    row("own-standard-gravity").holds("g_m_s2", G_M_S2);
}
