//! Motors against definitions, standards and closed forms.

use counterpoise::demand::{Assist, Axis, Direction};
use counterpoise::mechanics::human::crank_power;
use counterpoise::mechanics::pneumatics::end_energy;
use counterpoise::mechanics::{motor, rope};
use counterpoise::quantity::{
    Angle, Kind, Si, kilogram_square_metres, kilograms, metres, metres_per_second, newton_metres,
    newtons, parse_as, rpm,
};
use counterpoise::requirements::{Law, LoadRange, Rules, Slide};

use super::agree;
use super::rows::{row, solve};
use crate::support::{self, about};

/// The catalog's duty ratings are of the standard's series.
#[test]
fn preferred_duties() {
    let row = row("mot-iec-preferred");
    let catalog = counterpoise::catalog::built_in().expect("the catalog is sound");
    let has = |factor: f64| {
        let found = catalog.gear_motors.iter().map(|part| part.duty);
        let found = found.chain(catalog.electric_cylinders.iter().map(|part| part.duty));
        let nearest = found.min_by(|p, q| (p - factor).abs().total_cmp(&(q - factor).abs()));
        nearest.expect("there are parts")
    };
    row.holds("s3_factor_2", has(0.25));
    row.holds("s3_factor_4", has(0.6));
    for part in &catalog.gear_motors {
        agree(&row.source(), part.duty, row.expected("s3_factor_4"), 1e-9);
    }
    row.without(
        &["s3_factor_1", "s3_factor_3"],
        "no part of the catalog has that rating",
    );
    let short =
        "the catalog rates short times by its scaling law (2.5, 5 and 20 min), not by the series";
    row.without(
        &[
            "s2_duration_1_s",
            "s2_duration_2_s",
            "s2_duration_3_s",
            "s2_duration_4_s",
        ],
        short,
    );
    row.without(&["s3_cycle_time_s"], "a cycle is what the job asks");
}

#[test]
fn inertia_ratio() {
    let row = row("mot-inertia-ratio-practice");
    row.holds("inertia_ratio_max", Rules::default().inertia_ratio_most);
}

#[test]
fn inertia_through_a_gear() {
    let row = row("mot-reflect-gear");
    let seen = seen_kg_m2(row.input("load_inertia_kg_m2"), row.input("gear_ratio"));
    row.holds("reflected_inertia_kg_m2", seen);
}

/// An inertia behind a gear: a mass on a circle of 1 m radius before it, where it goes so much slower.
fn seen_kg_m2(inertia: f64, ratio: f64) -> f64 {
    rope::sheave_mass(kilogram_square_metres(inertia), metres(2.0), 1.0 / ratio).si()
}

/// As many times the mass that 1 kg m² of the pulley is on the belt.
#[test]
fn inertia_of_a_mass_on_a_belt() {
    let row = row("mot-reflect-pulley");
    let diameter = metres(row.input("pulley_diameter_m"));
    let unit = rope::sheave_mass(kilogram_square_metres(1.0), diameter, 1.0);
    row.holds("reflected_inertia_kg_m2", row.input("mass_kg") / unit.si());
}

#[test]
fn bar_and_tube() {
    let row = row("mot-inertia-cylinder");
    let bar = |key| {
        let (d, l) = (metres(row.input(key)), metres(row.input("length_m")));
        motor::bar_inertia(d, l, row.input("density_kg_m3")).si()
    };
    let solid = bar("diameter_m");
    row.holds("solid_inertia_kg_m2", solid);
    row.holds("tube_inertia_kg_m2", solid - bar("tube_inner_diameter_m"));
}

/// A rotor as mass on a circle of 1 m radius, at its speed there.
fn rim(inertia: f64) -> f64 {
    rope::sheave_mass(kilogram_square_metres(inertia), metres(2.0), 1.0).si()
}

#[test]
fn energy_of_a_rotor() {
    let row = row("mot-kinetic-energy");
    let mass = kilograms(rim(row.input("inertia_kg_m2")));
    let speed = metres_per_second(rpm(row.input("speed_rpm")).si());
    let energy = end_energy(mass, speed, newtons(0.0), metres(0.0));
    row.holds("energy_j", energy.si());
}

/// A level axis of one mass without friction.
fn level(mass_kg: f64, travel_m: f64, law: Law) -> Slide {
    Slide {
        incline: Angle::from_si(0.0),
        travel: metres(travel_m),
        load: LoadRange {
            least: kilograms(mass_kg),
            most: kilograms(mass_kg),
        },
        guide_friction: 0.0,
        law,
        ..support::axis()
    }
}

/// The rim of a rotor run up and stopped in a triangle; what comes back passes the drive's losses.
#[test]
fn braking_power() {
    let row = row("mot-regen-braking");
    let (stop, speed) = (row.input("stop_time_s"), rpm(row.input("speed_rpm")).si());
    let triangle = Law::Trapezoid {
        start: 0.5,
        end: 0.5,
    };
    let slide = level(rim(row.input("inertia_kg_m2")), speed * stop, triangle);
    let job = about(&slide);
    let worst = Axis::new(&job, &slide)
        .demand(&job, &Assist::None, 2.0 * stop)
        .worst;
    let efficiency = row.input("efficiency");
    row.holds("peak_power_w", efficiency * worst.peak_braking_power_w);
    // Both strokes of a cycle brake once.
    row.holds("mean_power_w", efficiency * worst.work_out_j / (2.0 * stop));
}

/// Least torque for the load's acceleration is where the load's inertia at the motor is the motor's own.
#[test]
fn matched_inertia() {
    let row = row("mot-ratio-opt-1");
    let load = row.input("load_inertia_kg_m2");
    let own = row.input("motor_inertia_kg_m2");
    let seen = |ratio: f64| seen_kg_m2(load, ratio);
    let ratio = solve(1.0, 1e3, -own, |ratio| -seen(ratio));
    row.holds("gear_ratio", ratio);
    // Torque for 1 rad/s² of the load, (J + J'(i))·i, is least there.
    let torque = |ratio: f64| (own + seen(ratio)) * ratio;
    assert!(torque(ratio) < torque(1.01 * ratio) && torque(ratio) < torque(0.99 * ratio));
}

#[test]
fn run_up() {
    let row = row("mot-accel-time");
    let mass = rim(row.input("inertia_kg_m2"));
    let slide = level(mass, 1.0, Law::Cycloidal);
    let axis = Axis::new(&about(&slide), &slide);
    let force = axis.force_n(&Assist::None, mass, 0.0, 1.0, Direction::Out, false);
    let a = row.input("net_torque_n_m") / force;
    row.holds("time_s", rpm(row.input("speed_rpm")).si() / a);
}

// --- beyond the collection ---

/// A permanent-magnet motor gives most power at half its no-load speed, a quarter of stall torque times no-load speed.
#[test]
fn straight_line() {
    let power =
        |n: f64| motor::line_torque(newton_metres(6.0), rpm(600.0), rpm(n)).si() * rpm(n).si();
    let most = 6.0 * rpm(600.0).si() / 4.0;
    agree(
        "Fitzgerald, Electric Machinery, permanent-magnet motors (from memory)",
        power(300.0),
        most,
        1e-9,
    );
    assert!(power(299.0) < most && power(301.0) < most);
}

/// Power of a torque, written as the power at a crank of a unit radius.
#[test]
fn torque_and_power() {
    let metric = row("own-9550");
    let kilowatt = crank_power(newtons(1.0), metres(1.0), rpm(metric.input("speed_rpm")));
    metric.holds("power_w", kilowatt.si());
    let inch = row("own-5252");
    let pound_force = parse_as("1 lbf", Kind::Force).expect("a force");
    let horse = crank_power(
        newtons(pound_force),
        metres(0.3048),
        rpm(inch.input("speed_rpm")),
    );
    let hp = parse_as("1 hp", Kind::Power).expect("a power");
    inch.holds("power_hp", horse.si() / hp);
}

/// `0.000681 ρ L D⁴` in pounds and inches, pound and foot squared.
#[test]
fn inertia_of_a_bar_in_inches() {
    let row = row("own-bar-inertia-inch");
    let inch = |key| metres(row.input(key) * 0.0254);
    let density = row.input("density_lb_in3") * 0.453_592_37 / 0.0254_f64.powi(3);
    let found = motor::bar_inertia(inch("diameter_in"), inch("length_in"), density);
    let unit = parse_as("1 lb ft2", Kind::Inertia).expect("an inertia");
    row.holds("inertia_lb_ft2", found.si() / unit);
}
