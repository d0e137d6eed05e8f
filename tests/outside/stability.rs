//! Stability of a machine on its base against moments about its edges.

use counterpoise::demand::{Assist, Axis, Counterweight, Direction, Stability};
use counterpoise::quantity::{Angle, G_M_S2, Si, kilograms, metres};
use counterpoise::requirements::{Base, LoadRange, Slide};

use super::agree;
use super::rows::{Row, row, solve};
use crate::support::{self, about};

/// A base whose load moves level at a height.
fn base(mass_kg: f64, half_m: f64, reach_m: f64, height_m: f64) -> Base {
    Base {
        length: metres(2.0 * half_m),
        width: metres(10.0),
        mass: kilograms(mass_kg),
        centre_height: metres(0.5),
        centre_x: metres(0.0),
        load_reach: metres(reach_m),
        load_height: metres(height_m),
        assist_reach: metres(0.0),
        stop_distance: Some(metres(1e6)),
        bolted: false,
    }
}

fn level(load_kg: f64, travel_m: f64) -> Slide {
    Slide {
        incline: Angle::from_si(0.0),
        travel: metres(travel_m),
        load: LoadRange {
            least: kilograms(load_kg),
            most: kilograms(load_kg),
        },
        guide_friction: 0.0,
        ..support::axis()
    }
}

fn helped(base: Base, slide: &Slide, assist: &Assist, time_s: f64) -> Stability {
    let mut job = about(slide);
    job.base = Some(base);
    let demand = Axis::new(&job, slide).demand(&job, assist, time_s);
    demand.stability.expect("the job has a base")
}

fn stability(base: Base, load_kg: f64, travel_m: f64, time_s: f64) -> Stability {
    helped(base, &level(load_kg, travel_m), &Assist::None, time_s)
}

/// Righting over overturning moment.
fn ratio(margin: f64) -> f64 {
    1.0 / (1.0 - margin)
}

/// Time of a stroke in thirds whose peak acceleration 4.5·S/T² is `a`.
fn time_for(a: f64, travel_m: f64) -> f64 {
    (4.5 * travel_m / a).sqrt()
}

/// A travel that shifts no moment.
const NO_TRAVEL_M: f64 = 1e-9;
/// A time in which only weights count.
const AGES_S: f64 = 1e4;

#[test]
fn combined_centre_of_mass() {
    let row = row("stab-cg");
    // Machine in the middle, load out on one side, counterweight on the other.
    let mut base = base(
        row.input("mass_1_kg"),
        2.0,
        row.input("x_2_m"),
        row.input("z_2_m"),
    );
    base.assist_reach = metres(row.input("x_3_m"));
    let assist = Assist::Counterweight(Counterweight {
        mass_kg: row.input("mass_3_kg"),
        travel_ratio: 1.0,
        sheaves: 0,
        loss_per_sheave: 0.0,
        sheave_mass_kg: 0.0,
    });
    let found = helped(
        base,
        &level(row.input("mass_2_kg"), NO_TRAVEL_M),
        &assist,
        AGES_S,
    );
    row.holds("x_m", found.centre_most_m);
    row.without(
        &["mass_kg", "z_m"],
        "a study says how far the centre wanders, not how high it stands",
    );
}

#[test]
fn a_mass_held_out_over_the_edge() {
    let row = row("stab-static-1");
    let margin = |reach: f64| {
        let base = base(
            row.input("base_mass_kg"),
            row.input("base_half_width_m"),
            reach - NO_TRAVEL_M,
            0.7,
        );
        stability(base, row.input("payload_kg"), NO_TRAVEL_M, AGES_S).margin_static
    };
    row.holds("moment_ratio", ratio(margin(row.input("payload_reach_m"))));
    row.holds(
        "tipping_reach_m",
        solve(0.4, 4.0, 0.0, |reach| -margin(reach)),
    );
}

/// All of the mass is the load, its middle over the middle of the base.
fn block(mass_kg: f64, half_m: f64, height_m: f64, a: f64) -> Stability {
    let base = base(1e-9, half_m, 0.0, height_m);
    stability(base, mass_kg, NO_TRAVEL_M, time_for(a, NO_TRAVEL_M))
}

#[test]
fn a_block_that_is_pushed_too_hard() {
    let row = row("stab-accel-1");
    let (half, height) = (row.input("half_width_m"), row.input("cg_height_m"));
    let a = solve(0.1, 9.0, 0.0, |a| {
        -block(100.0, half, height, a).margin_dynamic
    });
    row.holds("tipping_acceleration_m_s2", a);
    row.holds(
        "friction_coef_needed",
        block(100.0, half, height, a).sliding_ratio,
    );
    row.without(&["slope_tip_angle_deg"], "the floor is level");
}

#[test]
fn a_push_that_tips() {
    let row = row("stab-push");
    let (mass, half) = (row.input("mass_kg"), row.input("half_width_m"));
    // The inertia of the whole mass at the height of the push is that push.
    let at = |a| block(mass, half, row.input("push_height_m"), a);
    let a = solve(0.1, 9.0, 0.0, |a| -at(a).margin_dynamic);
    let slide = level(mass, 1.0);
    let axis = Axis::new(&about(&slide), &slide);
    let push = axis.force_n(&Assist::None, mass, 0.0, a, Direction::Out, false);
    row.holds("tipping_force_n", push);
    row.holds("friction_coef_threshold", at(a).sliding_ratio);
}

#[test]
fn a_moving_mass_that_slows_down() {
    let row = row("stab-dynamic-1");
    let (mass, reach) = (row.input("moving_mass_kg"), row.input("moving_mass_x_m"));
    let margin = |a: f64| {
        let [machine, half, height] =
            ["base_mass_kg", "base_half_width_m", "moving_mass_height_m"].map(|key| row.input(key));
        let base = base(machine, half, reach - NO_TRAVEL_M, height);
        stability(base, mass, NO_TRAVEL_M, time_for(a, NO_TRAVEL_M)).margin_dynamic
    };
    row.holds(
        "moment_ratio",
        ratio(margin(row.input("deceleration_m_s2"))),
    );
    row.holds(
        "tipping_deceleration_m_s2",
        solve(1.0, 90.0, 0.0, |a| -margin(a)),
    );
}

/// Four feet are four carriages: a stiff plate on equal springs. The second foot stands across, the third along.
#[test]
fn loads_on_four_feet() {
    let row = row("stab-four-feet");
    let [x, y, along, across] =
        ["cg_x_m", "cg_y_m", "foot_spacing_x_m", "foot_spacing_y_m"].map(|key| row.input(key));
    let feet = super::on_four(row.input("mass_kg") * G_M_S2, [x, y], [along, across]);
    let keys = [
        "foot_pos_pos_n",
        "foot_pos_neg_n",
        "foot_neg_pos_n",
        "foot_neg_neg_n",
    ];
    for (key, foot) in keys.into_iter().zip(feet) {
        row.holds(key, foot);
    }
}

/// The pull of a turning arm on its pedestal is that of a mass there, slowed with ω² r on its way out.
#[test]
fn an_arm_that_turns() {
    let row = row("stab-arm-swing");
    let (mass, reach) = (row.input("arm_mass_kg"), row.input("arm_cg_radius_m"));
    let a = row.input("angular_speed_rad_s").powi(2) * reach;
    let slide = level(mass, NO_TRAVEL_M);
    let pull = Axis::new(&about(&slide), &slide).force_n(
        &Assist::None,
        mass,
        0.0,
        -a,
        Direction::Back,
        false,
    );
    row.holds("centripetal_force_n", -pull);
    let [machine, half, height] =
        ["base_mass_kg", "base_half_width_m", "arm_height_m"].map(|key| row.input(key));
    let base_at = |reach| base(machine, half, reach, height);
    let slid = helped(
        base_at(reach - NO_TRAVEL_M),
        &slide,
        &Assist::None,
        time_for(a, NO_TRAVEL_M),
    );
    let swung = around(&row, base_at(0.0));
    row.holds("moment_ratio", ratio(swung.margin_dynamic));
    agree(
        "slid or swung",
        slid.margin_dynamic,
        swung.margin_dynamic,
        1e-6,
    );
    // With as good as no stop, what is left of it is the pull of the turning arm.
    agree(
        "moved or stopped",
        swung.margin_emergency_stop,
        swung.margin_dynamic,
        1e-6,
    );
}

/// An arm about an upright hinge in the middle of its base: at full speed, 1.5 of its mean, where it points over the edge.
fn around(row: &Row, base: Base) -> Stability {
    let radius = format!("{} m", row.input("arm_cg_radius_m"));
    let load = format!("{} kg", row.input("arm_mass_kg"));
    let sets = [
        ("motion.axis", "upright"),
        ("motion.from", "-80 deg"),
        ("motion.to", "80 deg"),
        ("motion.law", "trapezoid"),
        ("motion.centre_of_mass.radius", radius.as_str()),
        ("motion.load.least", load.as_str()),
        ("motion.load.most", load.as_str()),
        ("motion.anchors.base", "[\"0 mm\", \"-800 mm\"]"),
        ("motion.anchors.arm", "[\"150 mm\", \"0 mm\"]"),
    ];
    let mut job = support::reading(include_str!("../requirements/lid.json"), &sets).requirements;
    job.base = Some(base);
    let axis = Axis::of(&job).expect("the pins are given");
    let time_s = 1.5 * 160_f64.to_radians() / row.input("angular_speed_rad_s");
    let demand = axis.demand(&job, &Assist::None, time_s);
    demand.stability.expect("the job has a base")
}

// --- beyond the collection ---

#[test]
fn centre_of_mass_wanders_with_the_load() {
    // 80 kg in the middle and 25 kg at 0.6 m: 15/105; at 0.4 m, where it starts: 10/105.
    let found = stability(base(80.0, 1.0, 0.4, 1.1), 25.0, 0.2, 1e3);
    agree("weighted mean", found.centre_most_m, 15.0 / 105.0, 1e-9);
    agree("weighted mean", found.centre_least_m, 10.0 / 105.0, 1e-9);
}

/// A crate on a truck that brakes: it tips before it slides where b/2h is less than the friction.
#[test]
fn crate_on_a_braking_truck() {
    let row = row("own-crate");
    let (half, height) = (row.input("width_m") / 2.0, row.input("height_m") / 2.0);
    let at = |a| block(row.input("mass_kg"), half, height, a);
    let a = solve(0.1, 9.8, 0.0, |a| -at(a).margin_dynamic);
    row.holds("deceleration_over_g", a / G_M_S2);
    row.holds("friction_threshold", at(a).sliding_ratio);
}
