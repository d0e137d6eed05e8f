//! Inclines and counterweights: the demand against Newton's second law.

use counterpoise::demand::{Assist, Axis, Counterweight, Direction};
use counterpoise::mechanics::{rope, screw};
use counterpoise::quantity::{
    Angle, G_M_S2, Lead, Si, kilogram_square_metres, kilograms, metres, newtons,
};
use counterpoise::requirements::{LoadRange, Slide};

use super::agree;
use super::rows::{row, solve};
use crate::support::{self, about};

fn slide(incline_deg: f64, mass_kg: f64, friction: f64) -> Slide {
    Slide {
        incline: Angle::from_si(incline_deg.to_radians()),
        travel: metres(1.0),
        load: LoadRange {
            least: kilograms(mass_kg),
            most: kilograms(mass_kg),
        },
        guide_friction: friction,
        ..support::axis()
    }
}

fn force(slide: &Slide, assist: &Assist, mass_kg: f64, a: f64, way: Direction) -> f64 {
    Axis::new(&about(slide), slide).force_n(assist, mass_kg, 0.0, a, way, false)
}

/// Pull of a rope that a mass hangs on, while it rises with an acceleration.
fn hangs(mass_kg: f64, a: f64) -> f64 {
    force(
        &slide(90.0, mass_kg, 0.0),
        &Assist::None,
        mass_kg,
        a,
        Direction::Out,
    )
}

#[test]
fn up_an_incline() {
    for id in ["inc-up-1", "inc-up-3"] {
        let row = row(id);
        let (mass, a) = (row.input("mass_kg"), row.input("acceleration_m_s2"));
        let slide = slide(row.input("incline_deg"), mass, row.input("friction_coef"));
        row.holds(
            "force_n",
            force(&slide, &Assist::None, mass, a, Direction::Out),
        );
    }
}

#[test]
fn held_back_down_an_incline() {
    for id in ["inc-down-1", "inc-down-2"] {
        let row = row(id);
        let (mass, a) = (row.input("mass_kg"), row.input("acceleration_down_m_s2"));
        let slide = slide(row.input("incline_deg"), mass, row.input("friction_coef"));
        row.holds(
            "holding_force_n",
            force(&slide, &Assist::None, mass, -a, Direction::Back),
        );
    }
}

/// On the steepest slope on which a load rests by itself, the force that lets it down is nothing.
#[test]
fn friction_angle() {
    let row = row("inc-friction-angle");
    let lets_down = |deg: f64| {
        let slide = slide(deg, 1.0, row.input("friction_coef"));
        force(&slide, &Assist::None, 1.0, 0.0, Direction::Back)
    };
    row.holds("angle_deg", solve(0.0, 90.0, 0.0, lets_down));
}

/// The acceleration at which nothing is left to hold, from two forces: linear in it. The book's g is 9.8.
#[test]
fn a_free_slide_down() {
    let row = row("inc-snowboarder");
    let slide = slide(row.input("incline_deg"), 1.0, row.input("friction_coef"));
    let at = |a| force(&slide, &Assist::None, 1.0, a, Direction::Back);
    row.holds("acceleration_m_s2", at(0.0) / (at(0.0) - at(-1.0)));
}

fn counterweight(mass_kg: f64, inertia: f64, radius_m: f64) -> Assist {
    let sheave = rope::sheave_mass(kilogram_square_metres(inertia), metres(2.0 * radius_m), 1.0);
    Assist::Counterweight(Counterweight {
        mass_kg,
        travel_ratio: 1.0,
        sheaves: 2,
        loss_per_sheave: 0.0,
        sheave_mass_kg: sheave.si(),
    })
}

/// The heavier mass is the counterweight; it falls by itself where the drive's force is nothing. Serway's g is 9.8.
#[test]
fn free_pairs_over_a_pulley() {
    for id in ["atw-serway", "atw-2"] {
        let row = row(id);
        let (light, heavy) = (row.input("mass_light_kg"), row.input("mass_heavy_kg"));
        let [inertia, radius] =
            ["pulley_inertia_kg_m2", "pulley_radius_m"].map(|key| row.input(key));
        let assist = counterweight(heavy, inertia, radius);
        let at = |a| force(&slide(90.0, light, 0.0), &assist, light, a, Direction::Out);
        let a = at(0.0) / (at(0.0) - at(1.0));
        row.holds("acceleration_m_s2", a);
        row.holds("tension_light_side_n", hangs(light, a));
        row.holds("tension_heavy_side_n", hangs(heavy, -a));
    }
}

#[test]
fn counterweighted_lifts() {
    for id in ["cw-2", "cw-4"] {
        let row = row(id);
        let (load, weight) = (
            row.input("load_mass_kg"),
            row.input("counterweight_mass_kg"),
        );
        let [inertia, radius] =
            ["pulley_inertia_kg_m2", "pulley_radius_m"].map(|key| row.input(key));
        let assist = counterweight(weight, inertia, radius);
        let (slide, a) = (
            slide(90.0, load, 0.0),
            row.input("load_acceleration_up_m_s2"),
        );
        row.holds(
            "drive_force_n",
            force(&slide, &assist, load, a, Direction::Out),
        );
        row.holds("apparent_mass_kg", load + assist.moving_mass_kg());
        row.holds("counterweight_side_tension_n", hangs(weight, -a));
        // The rope is sized on the greater of both ways.
        let most = hangs(weight, a.abs());
        agree(
            &row.source(),
            rope::tension(kilograms(weight), 1.0, a).si(),
            most,
            1e-12,
        );
    }
}

#[test]
fn slack_at_free_fall() {
    let row = row("cw-slack-1to1");
    let limit = 1.0 / rope::slackness(row.input("reeving_ratio"), 1.0);
    row.holds("acceleration_limit_m_s2", limit);
}

/// Through a drive of that efficiency, here a screw of 10 mm lead: torque times turning.
#[test]
fn power_of_a_lift() {
    let row = row("lift-power-1");
    let (lead, speed) = (Lead::from_si(0.010), row.input("speed_m_s"));
    let weight = newtons(hangs(row.input("mass_kg"), 0.0));
    let torque = screw::drive_torque(weight, lead, row.input("efficiency"));
    row.holds(
        "power_w",
        torque.si() * core::f64::consts::TAU * speed / lead.si(),
    );
}

// --- beyond the collection ---

/// What a scale shows in an accelerating lift; the book's g is 9.8.
#[test]
fn scale_in_a_lift() {
    let row = row("own-openstax-lift");
    row.holds(
        "scale_n",
        hangs(row.input("mass_kg"), row.input("acceleration_m_s2")),
    );
}

/// A skier on a slope, without and with 45 N of friction; the book's g is 9.8.
#[test]
fn skier() {
    let row = row("own-openstax-skier");
    let mass = row.input("mass_kg");
    let slides = |drag_n: f64| {
        let slide = Slide {
            drag: newtons(drag_n),
            ..slide(row.input("incline_deg"), mass, 0.0)
        };
        let at = |a| force(&slide, &Assist::None, mass, a, Direction::Back);
        at(0.0) / (at(0.0) - at(-1.0))
    };
    row.holds("acceleration_free_m_s2", slides(0.0));
    row.holds("acceleration_rough_m_s2", slides(row.input("friction_n")));
}

#[test]
fn halliday_atwood() {
    let row = row("own-halliday-atwood");
    let (light, heavy) = (row.input("mass_light_kg"), row.input("mass_heavy_kg"));
    let assist = counterweight(heavy, 0.0, 0.1);
    let at = |a| force(&slide(90.0, light, 0.0), &assist, light, a, Direction::Out);
    let a = at(0.0) / (at(0.0) - at(1.0));
    row.holds("acceleration_m_s2", a);
    row.holds("tension_n", hangs(light, a));
}

/// A cart of mass on a level track pulled by a hanging one is a counterweight without an incline.
#[test]
fn cart_and_hanging_mass() {
    let row = row("own-cart-and-mass");
    let (cart, hanging) = (row.input("cart_kg"), row.input("hanging_kg"));
    let assist = counterweight(hanging, 0.0, 0.1);
    let at = |a| force(&slide(0.0, cart, 0.0), &assist, cart, a, Direction::Out);
    let a = at(0.0) / (at(0.0) - at(1.0));
    row.holds("acceleration_m_s2", a);
    row.holds("tension_n", hangs(hanging, -a));
}

/// Another way to the best counterweight: the worst pull of both loads both ways, minimised without a derivative.
#[test]
fn best_counterweight_by_search() {
    let row = row("own-best-counterweight");
    let (incline, loads) = (
        row.input("incline_deg"),
        ["least_kg", "most_kg"].map(|key| row.input(key)),
    );
    let weight_n = loads[1] * G_M_S2 * incline.to_radians().cos();
    let slide = slide(incline, loads[1], row.input("friction_most_n") / weight_n);
    let a = row.input("acceleration_m_s2");
    let found = best_counterweight_kg(&slide, loads, a, row.input("travel_ratio"));
    row.holds("counterweight_kg", found);
}

/// The counterweight with which the pull out of the most load is that back of the least: the greatest of two lines is least
/// where they cross.
fn best_counterweight_kg(slide: &Slide, [least, most]: [f64; 2], a: f64, ratio: f64) -> f64 {
    solve(0.0, 1e6, 0.0, |mass_kg| {
        let assist = Assist::Counterweight(Counterweight {
            mass_kg,
            travel_ratio: ratio,
            sheaves: 2,
            loss_per_sheave: 0.0,
            sheave_mass_kg: 0.0,
        });
        let out = force(slide, &assist, most, a, Direction::Out);
        -out - force(slide, &assist, least, -a, Direction::Back)
    })
}

/// A lift's counterweight is the car and half of its duty.
#[test]
fn counterweight_of_a_lift() {
    let row = row("own-strakosch");
    let (car, duty) = (row.input("car_kg"), row.input("duty_kg"));
    let upright = slide(90.0, car + duty, 0.0);
    let found = best_counterweight_kg(&upright, [car, car + duty], 0.0, 1.0);
    row.holds("part_of_duty", (found - car) / duty);
}

/// A mass along a screw as a drive handbook gives it, 0.0253 times pound and inch squared.
#[test]
fn inertia_of_a_mass_on_a_screw() {
    let row = row("own-mass-on-screw");
    // As many times the mass that 1 kg m² of a pulley is, which travels as far in a turn.
    let pulley = metres(0.0254 / core::f64::consts::PI);
    let unit = rope::sheave_mass(kilogram_square_metres(1.0), pulley, 1.0);
    row.holds("inertia_lb_in2", 1.0 / unit.si() / (0.0254 * 0.0254));
}
