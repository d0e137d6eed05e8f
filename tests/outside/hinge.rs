//! A drive between two pins: lengths, levers, forces, speeds.

use counterpoise::mechanics::linkage::Pins;
use counterpoise::quantity::G_M_S2;

use super::rows::{Row, row};

/// Base pin on the x axis, arm pin on the arm line: the arm angle is the angle between the two.
fn pins(row: &Row) -> Pins {
    Pins {
        base: [row.input("frame_anchor_distance_m"), 0.0],
        arm: [row.input("arm_anchor_distance_m"), 0.0],
    }
}

#[test]
fn lever_and_force() {
    for id in ["hinge-tri-1", "hinge-tri-3", "hinge-tri-5"] {
        let row = row(id);
        let at = pins(&row).at(row.input("included_angle_deg").to_radians());
        row.holds("actuator_length_m", at.length_m);
        row.holds("moment_arm_m", at.lever_m);
        row.holds(
            "actuator_force_n",
            row.input("hinge_torque_n_m") / at.lever_m,
        );
    }
}

#[test]
fn lengths_over_a_swing() {
    for id in ["hinge-stroke-1", "hinge-stroke-3"] {
        let row = row(id);
        let length = |key| pins(&row).at(row.input(key).to_radians()).length_m;
        let (start, end) = (
            length("included_angle_start_deg"),
            length("included_angle_end_deg"),
        );
        row.holds("length_start_m", start);
        row.holds("length_end_m", end);
        row.holds("stroke_m", end - start);
        row.holds("length_ratio", end / start);
    }
}

#[test]
fn a_lid_in_coordinates() {
    let row = row("hinge-lid-1");
    let pins = Pins {
        base: [row.input("frame_anchor_x_m"), row.input("frame_anchor_y_m")],
        arm: [row.input("arm_anchor_distance_m"), 0.0],
    };
    let angle = row.input("lid_angle_deg").to_radians();
    let weight = row.input("mass_kg") * G_M_S2;
    let torque = weight * row.input("cg_distance_m") * libm::cos(angle);
    let at = pins.at(angle);
    row.holds("hinge_torque_n_m", torque);
    row.holds("actuator_length_m", at.length_m);
    row.holds("moment_arm_m", at.lever_m);
    row.holds("actuator_force_n", torque / at.lever_m);
}

#[test]
fn speed_of_the_drive() {
    let row = row("hinge-speed");
    let at = pins(&row).at(row.input("included_angle_deg").to_radians());
    row.holds(
        "actuator_speed_m_s",
        at.lever_m * row.input("angular_speed_rad_s"),
    );
}

/// Where the slope of the lever is nought, found by halving.
#[test]
fn greatest_lever() {
    let row = row("hinge-best-arm");
    let pins = pins(&row);
    let (mut low, mut high) = (1e-3_f64, 3.0_f64);
    for _ in 0..100 {
        let middle = f64::midpoint(low, high);
        if pins.at(middle).slope_m > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    row.holds("moment_arm_max_m", pins.at(low).lever_m);
    row.holds("included_angle_deg", low.to_degrees());
}
