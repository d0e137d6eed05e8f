//! Outside checks: gears, racks, cranks and people.

use core::f64::consts::{PI, TAU};

use counterpoise::catalog::built_in;
use counterpoise::demand::{Assist, Axis, Direction};
use counterpoise::mechanics::gear::{lewis_force, lewis_form, pitch_diameter, travel_per_turn};
use counterpoise::mechanics::human::{crank_power, crank_turns, hand_force};
use counterpoise::mechanics::screw::drive_torque;
use counterpoise::quantity::{
    Angle, Kind, Lead, Si, kilograms, metres, newtons, parse_as, pascals, rpm,
};
use counterpoise::requirements::{LoadRange, Rules, Slide};

use super::agree;
use super::rows::row;
use crate::support::{about, axis};

#[test]
fn reducer() {
    let row = row("gear-reducer-1");
    let (ratio, speed) = (row.input("gear_ratio"), row.input("input_speed_rpm"));
    // A crank of 1 m before the reducer, on whose output a drum of 1 m pulls with a newton: its handle has the torque before.
    let lead = Lead::from_si(TAU / ratio);
    let before = hand_force(newtons(1.0), lead, metres(1.0), row.input("efficiency"));
    let torque = row.input("input_torque_n_m") / before.si();
    row.holds("output_torque_n_m", torque);
    // At a crank of 1 m on the output, turning with the row's speed.
    let slow = rpm(row.expected("output_speed_rpm"));
    row.holds(
        "output_power_w",
        crank_power(newtons(torque), metres(1.0), slow).si(),
    );
    // Turns before it for one turn behind it.
    row.holds("output_speed_rpm", speed / crank_turns(metres(TAU), lead));
}

#[test]
fn rack_and_pinion() {
    let row = row("rack-1");
    let (module, teeth) = (metres(row.input("module_m")), row.input("teeth_count"));
    let lead = travel_per_turn(module, teeth);
    row.holds("pitch_diameter_m", pitch_diameter(module, teeth).si());
    row.holds(
        "pinion_torque_n_m",
        drive_torque(newtons(row.input("rack_force_n")), lead, 1.0).si(),
    );
    row.holds("travel_per_turn_m", lead.si());
    row.holds(
        "pinion_speed_rpm",
        60.0 * crank_turns(metres(row.input("rack_speed_m_s")), lead),
    );
}

/// A toothed belt moves its pulley's circumference in a turn, as a rack does.
#[test]
fn belt_axis() {
    let row = row("belt-axis");
    let mass = row.input("mass_kg");
    let slide = Slide {
        incline: Angle::from_si(0.0),
        load: LoadRange {
            least: kilograms(mass),
            most: kilograms(mass),
        },
        guide_friction: 0.0,
        drag: newtons(row.input("friction_force_n")),
        ..axis()
    };
    let a = row.input("acceleration_m_s2");
    let belt = Axis::new(&about(&slide), &slide).force_n(
        &Assist::None,
        mass,
        0.0,
        a,
        Direction::Out,
        false,
    );
    row.holds("belt_force_n", belt);
    let lead = Lead::from_si(row.input("pulley_teeth_count") * row.input("belt_pitch_m"));
    row.holds(
        "pulley_torque_n_m",
        drive_torque(newtons(belt), lead, 1.0).si(),
    );
    row.holds(
        "pulley_speed_rpm",
        60.0 * crank_turns(metres(row.input("speed_m_s")), lead),
    );
}

#[test]
fn published_crank_power() {
    let row = row("crank-power-published");
    let (force, radius) = (
        newtons(row.input("handle_force_n")),
        metres(row.input("crank_radius_m")),
    );
    row.holds(
        "power_w",
        crank_power(force, radius, rpm(row.input("speed_rpm"))).si(),
    );
}

#[test]
fn sustained_power() {
    row("human-sustained-power").holds("power_w", Rules::default().hand_power_most);
}

/// What the project asks of a person for minutes, and for the hardest seconds, lies within what a labourer keeps up
/// for four hours, and for twelve minutes.
#[test]
fn power_over_time() {
    let rules = Rules::default();
    row("human-power-time-1").at_most("power_w", rules.hand_power_peak);
    row("human-power-time-2").at_most("power_w", rules.hand_power_most);
}

#[test]
fn hand_winch() {
    let row = row("winch-1");
    // Travel per turn of the crank: drum circumference over the ratio.
    let lead = Lead::from_si(TAU * row.input("drum_radius_m") / row.input("gear_ratio"));
    let (weight_n, radius) = (
        row.input("mass_kg") * row.input("g_m_s2"),
        row.input("crank_radius_m"),
    );
    let force = hand_force(
        newtons(weight_n),
        lead,
        metres(radius),
        row.input("efficiency"),
    );
    let turns = crank_turns(metres(row.input("lift_height_m")), lead);
    row.holds("handle_force_n", force.si());
    row.holds("crank_turns", turns);
    row.holds("force_gain", weight_n / force.si());
    // A turn a second: the power of a second is the work of a turn.
    let of_a_turn = crank_power(force, metres(radius), rpm(60.0));
    row.holds("handle_work_j", of_a_turn.si() * turns);
}

/// Heavy cranks below 100 rpm: radius 190 to 510 mm; light and heavy part at 22 N.
#[test]
fn crank_dimensions() {
    let row = row("human-crank-mil");
    let rules = Rules::default();
    row.holds("heavy_slow_min_m", rules.crank_radius_heavy);
    row.holds("light_heavy_boundary_n", rules.crank_force_light);
    let catalog = built_in().expect("the catalog is sound");
    let radii = catalog.cranks.iter().map(|crank| crank.radius.si());
    row.at_most("heavy_slow_max_m", radii.fold(0.0, f64::max));
    row.without(
        &[
            "heavy_fast_min_m",
            "heavy_fast_max_m",
            "light_slow_min_m",
            "light_slow_preferred_m",
            "light_slow_max_m",
        ],
        "the project has one rule, for a heavy crank; it turns none past 60 rpm",
    );
}

// --- beyond the collection ---

/// Lewis's formula: 16 teeth, 8 per inch, 1.5 in wide, Y 0.296, 20 ksi, before the speed factor.
#[test]
fn shigley_gear_tooth() {
    let row = row("own-shigley-14-1");
    let (teeth, psi) = (
        row.input("teeth"),
        parse_as("1 psi", Kind::Pressure).expect("a pressure"),
    );
    row.holds("form_factor", lewis_form(teeth));
    let force = lewis_force(
        pascals(row.input("stress_psi") * psi),
        metres(row.input("face_in") * 0.0254),
        metres(0.0254 / row.input("diametral_pitch")),
        teeth,
    );
    let pound_force = parse_as("1 lbf", Kind::Force).expect("a force");
    row.holds("force_lbf", force.si() / pound_force);
}

/// Rows of the table of form factors, and that it only grows.
#[test]
fn lewis_table() {
    let row = row("own-lewis-table");
    for (key, teeth) in [
        ("teeth_12", 12.0),
        ("teeth_20", 20.0),
        ("teeth_30", 30.0),
        ("teeth_60", 60.0),
        ("teeth_150", 150.0),
    ] {
        row.holds(key, lewis_form(teeth));
    }
    let grows = (12..400).all(|z| lewis_form(f64::from(z)) <= lewis_form(f64::from(z + 1)));
    assert!(grows, "{}", row.source());
}

/// Circular pitch π/P of a diametral pitch, and the pitch circle z/P.
#[test]
fn diametral_pitch() {
    let row = row("own-diametral-pitch");
    let module = metres(0.0254 / row.input("diametral_pitch"));
    row.holds(
        "circular_pitch_in",
        travel_per_turn(module, 1.0).si() / 0.0254,
    );
    row.holds(
        "pitch_diameter_in",
        pitch_diameter(module, row.input("teeth")).si() / 0.0254,
    );
    agree(
        &row.source(),
        travel_per_turn(module, 1.0).si(),
        PI * module.si(),
        1e-12,
    );
}

/// Work of men at a winch, as the old tables print it: 18 lb at 2.5 ft/s.
#[test]
fn man_at_a_winch() {
    let row = row("own-rankine");
    let pound_force = parse_as("1 lbf", Kind::Force).expect("a force");
    // On a crank of 1.25 ft that is two radians a second.
    let power = crank_power(
        newtons(row.input("force_lbf") * pound_force),
        metres(1.25 * 0.3048),
        rpm(60.0 / PI),
    );
    row.holds("power_ft_lbf_s", power.si() / (pound_force * 0.3048));
    // The rule for minutes lies above what was kept up for a day.
    assert!(
        Rules::default().hand_power_most > power.si(),
        "{}",
        row.source()
    );
}

/// What a lift's standard lets a person exert at a hand wheel is more than a spell of cranking may ask.
#[test]
fn hand_wheel_of_a_lift() {
    let row = row("own-en-81-20");
    row.at_most("force_most_n", Rules::default().hand_force_spell);
}

/// The work at a handle cannot depend on the gearing: 750 J of door is 750 J of cranking at any ratio.
#[test]
fn work_at_the_handle() {
    for lead in [0.126, 0.0419, 0.0251, 0.001] {
        let lead = Lead::from_si(lead);
        let force = hand_force(newtons(833.57), lead, metres(0.25), 1.0);
        let work = force.si() * TAU * 0.25 * crank_turns(metres(0.9), lead);
        agree("conservation of energy", work, 750.2, 1e-4);
    }
}
