//! Outside checks: gears, racks, cranks and people.

use counterpoise::catalog::built_in;
use counterpoise::mechanics::gear::{
    lewis_force, lewis_form, output_torque, pitch_diameter, torque_of, travel_per_turn,
};
use counterpoise::mechanics::human::{crank_power, crank_turns, hand_force};
use counterpoise::quantity::{G_M_S2, Lead, Si, metres, newton_metres, newtons, pascals, rpm};
use counterpoise::requirements::Rules;

use crate::agree;

#[test]
fn reducer() {
    let source = "power balance";
    let torque = output_torque(newton_metres(8.0), 25.0, 0.94);
    agree(source, torque.si(), 188.0, 1e-6);
    let power = torque.si() * rpm(1450.0 / 25.0).si();
    agree(source, power, 1_141.864_209_825, 1e-6);
}

#[test]
fn rack_and_pinion() {
    let source = "involute rack kinematics, d = m z";
    let lead = travel_per_turn(metres(0.002), 20.0);
    agree(source, pitch_diameter(metres(0.002), 20.0).si(), 0.04, 1e-6);
    agree(source, torque_of(newtons(1500.0), lead).si(), 30.0, 1e-6);
    agree(source, lead.si(), 0.125_663_706_143_6, 1e-6);
    agree(
        source,
        60.0 * crank_turns(metres(0.5), lead),
        238.732_414_637_8,
        1e-6,
    );
}

#[test]
fn published_crank_power() {
    let power = crank_power(newtons(130.0), metres(0.4), rpm(25.0));
    agree(
        "public engineering tables, human force and power (printed 136 W)",
        power.si(),
        136.0,
        0.004,
    );
}

#[test]
fn sustained_power() {
    let source = "Marks' Standard Handbook 11e, section 9: 75 W over 8 h (attribution recalled)";
    agree(source, Rules::default().hand_power_most, 75.0, 0.1);
}

#[test]
fn hand_winch() {
    let source = "work balance";
    // Travel per turn of the crank: drum circumference over the ratio.
    let lead = Lead::from_si(core::f64::consts::TAU * 0.05 / 4.0);
    let force = hand_force(newtons(120.0 * G_M_S2), lead, metres(0.3), 0.8);
    let turns = crank_turns(metres(2.0), lead);
    agree(source, force.si(), 61.291_562_5, 1e-6);
    agree(source, turns, 25.464_790_894_7, 1e-6);
    let work = force.si() * core::f64::consts::TAU * 0.3 * turns;
    agree(source, work, 2_941.995, 1e-6);
    agree(source, 120.0 * G_M_S2 / force.si(), 19.2, 1e-6);
}

/// Heavy cranks below 100 rpm: radius 190 to 510 mm; light and heavy part at 22 N.
#[test]
fn crank_dimensions() {
    let source = "MIL-STD-1472F, crank dimensions (recalled)";
    let rules = Rules::default();
    agree(source, rules.crank_radius_heavy, 0.19, 1e-9);
    agree(source, rules.crank_force_light, 22.0, 1e-9);
    let catalog = built_in().expect("the catalog is sound");
    assert!(
        catalog.cranks.iter().all(|crank| crank.radius.si() <= 0.51),
        "{source}"
    );
}

/// Shigley, example 14-1 (recalled): 16 teeth, 8 per inch, 1.5 in wide, Y 0.296, 20 ksi: 1110 lbf before the speed factor.
#[test]
fn shigley_gear_tooth() {
    let source =
        "Shigley, Lewis example: 16 teeth, 8 per inch, 1.5 in, 20 ksi, 1110 lbf static (recalled)";
    agree(source, lewis_form(16.0), 0.296, 1e-9);
    let psi = 6_894.757_293;
    let force = lewis_force(
        pascals(20e3 * psi),
        metres(1.5 * 0.0254),
        metres(0.0254 / 8.0),
        16.0,
    );
    agree(source, force.si() / 4.448_221_615, 1110.0, 1e-3);
}

/// Two rows of the table of form factors, and that it only grows.
#[test]
fn lewis_table() {
    let source = "Shigley, table 14-2 (recalled)";
    agree(source, lewis_form(12.0), 0.245, 1e-9);
    agree(source, lewis_form(60.0), 0.422, 1e-9);
    let grows = (12..400).all(|z| lewis_form(f64::from(z)) <= lewis_form(f64::from(z + 1)));
    assert!(grows, "{source}");
}

/// Modules of ISO 54, first series to 6 mm, mm.
#[test]
fn modules_are_of_the_first_series() {
    let series = [1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0];
    let catalog = built_in().expect("the catalog is sound");
    for rack in &catalog.racks {
        let mm = rack.module.si() * 1e3;
        assert!(
            series.iter().any(|m| (m - mm).abs() < 1e-9),
            "ISO 54, series I (recalled): {mm}"
        );
    }
}

/// The work at a handle cannot depend on the gearing: 750 J of door is 750 J of cranking at any ratio.
#[test]
fn work_at_the_handle() {
    for lead in [0.126, 0.0419, 0.0251, 0.001] {
        let lead = Lead::from_si(lead);
        let force = hand_force(newtons(833.57), lead, metres(0.25), 1.0);
        let work = force.si() * core::f64::consts::TAU * 0.25 * crank_turns(metres(0.9), lead);
        agree("conservation of energy", work, 750.2, 1e-4);
    }
}
