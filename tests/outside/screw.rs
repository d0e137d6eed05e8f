//! Screws against textbooks and standards.

use counterpoise::mechanics::human::hand_force;
use counterpoise::mechanics::{bearing, screw};
use counterpoise::quantity::{Lead, Si, metres, newtons, pascals, rpm};

use super::agree;
use super::rows::{Row, row};

const ACME: f64 = 14.5 * std::f64::consts::PI / 180.0;

/// Torques of a sliding screw and its efficiency, from the inputs of a row.
struct Sliding {
    thrust_n: f64,
    mean_m: f64,
    lead_m: f64,
    raise: f64,
    lower: f64,
}

impl Sliding {
    /// With the mean diameter given, or from the major diameter and the pitch.
    fn of(row: &Row, mean_m: f64, lead_m: f64, collar: [f64; 2], half_angle: f64) -> Self {
        let thrust_n = row.input("force_n");
        let (thrust, mean) = (newtons(thrust_n), metres(mean_m));
        let (lead, friction) = (Lead::from_si(lead_m), row.input("thread_friction_coef"));
        let collar = screw::collar_torque(thrust, collar[0], metres(collar[1])).si();
        Self {
            thrust_n,
            mean_m,
            lead_m,
            raise: screw::raise_torque(thrust, mean, lead, friction, half_angle).si() + collar,
            lower: screw::lower_torque(thrust, mean, lead, friction, half_angle).si() + collar,
        }
    }

    fn major(row: &Row, collar: [f64; 2], half_angle: f64) -> Self {
        let (d, pitch) = (row.input("major_diameter_m"), row.input("pitch_m"));
        let mean = screw::pitch_diameter(metres(d), metres(pitch)).si();
        Self::of(
            row,
            mean,
            pitch * row.input("starts_count"),
            collar,
            half_angle,
        )
    }

    /// Torque without friction over the real one.
    fn efficiency(&self) -> f64 {
        let target = screw::drive_torque(newtons(self.thrust_n), Lead::from_si(self.lead_m), 1.0);
        target.si() / self.raise
    }
}

fn collar(row: &Row) -> [f64; 2] {
    ["collar_friction_coef", "collar_mean_diameter_m"].map(|key| row.input(key))
}

/// The way of the thread climbs `lead` in `√(π² dm² + l²)`: the sine of the lead angle.
fn lead_angle_deg(mean_m: f64, lead_m: f64) -> f64 {
    (1.0 / screw::rubbing_ratio(metres(mean_m), Lead::from_si(lead_m)))
        .asin()
        .to_degrees()
}

#[test]
fn shigley_8_1() {
    let row = row("scr-shigley-8-1");
    let found = Sliding::major(&row, collar(&row), 0.0);
    row.holds("mean_diameter_m", found.mean_m);
    row.holds("lead_m", found.lead_m);
    row.holds("raise_torque_n_m", found.raise);
    row.holds("lower_torque_n_m", found.lower);
    row.holds("efficiency", found.efficiency());
}

#[test]
fn mott_17_1() {
    let row = row("scr-mott-17-1");
    let (mean, lead) = (row.input("pitch_diameter_m"), row.input("lead_m"));
    let found = Sliding::of(&row, mean, lead, [0.0, 0.0], ACME);
    row.holds("raise_torque_n_m", found.raise);
    row.holds("efficiency", found.efficiency());
    row.holds("lead_angle_deg", lead_angle_deg(mean, lead));
    agree(&row.source(), found.raise, 1809.0 * 0.112_984_829, 0.004);
}

#[test]
fn khurmi_17_1() {
    let row = row("scr-khurmi-17-1");
    let (mean, lead) = (row.input("mean_diameter_m"), row.input("lead_m"));
    let found = Sliding::of(&row, mean, lead, collar(&row), 0.0);
    row.holds("torque_n_m", found.raise);
    // What the hands must push at a wheel of 1 m radius, over what they can.
    let at_1_m = hand_force(
        newtons(found.thrust_n),
        Lead::from_si(lead),
        metres(1.0),
        found.efficiency(),
    );
    let hands = row.input("hand_force_n") * row.input("hands_count");
    row.holds("wheel_diameter_m", 2.0 * at_1_m.si() / hands);
}

#[test]
fn khurmi_17_2() {
    let row = row("scr-khurmi-17-2");
    let (d, pitch) = (row.input("major_diameter_m"), row.input("pitch_m"));
    let mean = screw::pitch_diameter(metres(d), metres(pitch)).si();
    let found = Sliding::of(&row, mean, pitch, [0.0, 0.0], 0.0);
    row.holds("torque_n_m", found.raise);
    let turns = counterpoise::mechanics::human::crank_turns(
        metres(row.input("nut_speed_m_s")),
        Lead::from_si(pitch),
    );
    row.holds("power_w", found.raise * rpm(60.0 * turns).si());
}

#[test]
fn trapezoidal_screws() {
    for id in ["scr-trap-1", "scr-trap-2", "scr-trap-4"] {
        let row = row(id);
        let half_angle = row.input("thread_half_angle_deg").to_radians();
        let found = Sliding::major(&row, collar(&row), half_angle);
        row.holds("raise_torque_n_m", found.raise);
        row.holds("lower_torque_n_m", found.lower);
        row.holds("efficiency", found.efficiency());
    }
    agree(
        "ISO 2901: 30° in all",
        screw::TRAPEZOIDAL_HALF_ANGLE.to_degrees(),
        15.0,
        1e-12,
    );
}

/// The least friction that holds, from a lowering torque of zero.
#[test]
fn self_locking() {
    let row = row("scr-selflock-2");
    let (mean, lead) = (
        metres(row.input("mean_diameter_m")),
        Lead::from_si(row.input("lead_m")),
    );
    let half_angle = row.input("thread_half_angle_deg").to_radians();
    row.holds(
        "friction_coef_min",
        screw::self_locking_friction(mean, lead, half_angle),
    );
}

#[test]
fn ball_screw_torque() {
    let row = row("bsc-torque-1");
    let (force, lead) = (
        newtons(row.input("force_n")),
        Lead::from_si(row.input("lead_m")),
    );
    let efficiency = row.input("efficiency_forward");
    row.holds(
        "drive_torque_n_m",
        screw::drive_torque(force, lead, efficiency).si(),
    );
    row.holds("efficiency_reverse", screw::reverse_efficiency(efficiency));
    row.holds(
        "backdrive_torque_n_m",
        screw::back_drive_torque(force, lead, efficiency).si(),
    );
}

#[test]
fn whirling() {
    let rows = [
        ("bsc-critical-speed-fixed-free", screw::FIXED_FREE),
        ("bsc-critical-speed-pinned-pinned", screw::SUPPORTED),
        ("bsc-critical-speed-fixed-pinned", screw::FIXED_SUPPORTED),
    ];
    for (id, eigenvalue) in rows {
        let row = row(id);
        row.holds(
            "critical_speed_rpm",
            whirls_rpm(&row, "root_diameter_m", eigenvalue),
        );
        row.holds("eigenvalue", eigenvalue);
    }
}

fn whirls_rpm(row: &Row, diameter: &str, eigenvalue: f64) -> f64 {
    let speed = screw::critical_speed(
        metres(row.input(diameter)),
        metres(row.input("unsupported_length_m")),
        eigenvalue,
        pascals(row.input("youngs_modulus_pa")),
        row.input("density_kg_m3"),
    );
    speed.si() / rpm(1.0).si()
}

#[test]
fn nut_life() {
    let row = row("bsc-life-1");
    let rating = newtons(row.input("dynamic_rating_n"));
    let turns = bearing::rating_life(rating, newtons(row.input("mean_load_n")), 3.0);
    row.holds("life_million_rev", turns / 1e6);
    row.holds("life_h", turns / row.input("speed_rpm") / 60.0);
    row.holds("travel_m", turns * row.input("lead_m"));
}

#[test]
fn mean_load() {
    let row = row("bsc-mean-load-1");
    let steps = [1, 2, 3].map(|i| {
        let turns = row.input(&format!("speed_{i}_rpm")) * row.input(&format!("time_share_{i}"));
        (newtons(row.input(&format!("force_{i}_n"))), turns)
    });
    row.holds("mean_load_n", bearing::cube_mean(steps).si());
    row.without(
        &["mean_speed_rpm"],
        "the project counts turns along its own profile, it averages no speeds",
    );
}

/// A load that rises evenly, in many small steps.
#[test]
fn mean_of_a_rising_load() {
    let row = row("bsc-mean-load-ramp");
    let (least, most) = (row.input("force_min_n"), row.input("force_max_n"));
    let ramp = (0..3000).map(|i| {
        let part = (f64::from(i) + 0.5) / 3000.0;
        (newtons(least + part * (most - least)), 1.0)
    });
    row.holds("mean_load_exact_n", bearing::cube_mean(ramp).si());
    row.without(
        &["mean_load_shortcut_n"],
        "the project takes the mean itself, not the shortcut, 8 % above it",
    );
}

// --- beyond the collection ---

/// λ of a beam built in at one end solves tan λ = tanh λ (supported) or cos λ cosh λ = -1 (free).
#[test]
fn eigenvalues() {
    let row = row("own-blevins");
    row.holds("fixed_supported", screw::FIXED_SUPPORTED);
    row.holds("fixed_free", screw::FIXED_FREE);
    let l = screw::FIXED_SUPPORTED;
    agree("tan λ = tanh λ", libm::tan(l), libm::tanh(l), 1e-6);
    let l = screw::FIXED_FREE;
    agree(
        "cos λ cosh λ = -1",
        libm::cos(l) * libm::cosh(l),
        -1.0,
        1e-6,
    );
}

#[test]
fn whirling_by_finite_elements() {
    let row = row("own-whirling-elements");
    let found = |eigenvalue| whirls_rpm(&row, "diameter_m", eigenvalue);
    row.holds("fixed_supported_rpm", found(screw::FIXED_SUPPORTED));
    row.holds("supported_rpm", found(screw::SUPPORTED));
    row.holds("fixed_free_rpm", found(screw::FIXED_FREE));
}

/// The trade's `4.76·10⁶ d/L²` in inches and turns a minute for two supports, its digits allowing 0.1 %.
#[test]
fn whirling_by_the_inch_formula() {
    let row = row("own-whirling-inch");
    row.holds(
        "critical_speed_rpm",
        whirls_rpm(&row, "root_diameter_m", screw::SUPPORTED),
    );
}

#[test]
fn ball_screw_torque_by_the_inch_formula() {
    let row = row("own-drive-torque-inch");
    let pound_force =
        counterpoise::quantity::parse_as("1 lbf", counterpoise::quantity::Kind::Force);
    let thrust = newtons(pound_force.expect("a force"));
    let torque = screw::drive_torque(thrust, Lead::from_si(0.0254), row.input("efficiency"));
    row.holds("torque_lbf_in", torque.si() / (thrust.si() * 0.0254));
}

#[test]
fn juvinall_power_screw() {
    let row = row("own-juvinall-screw");
    let found = Sliding::major(&row, collar(&row), ACME);
    row.holds("lead_angle_deg", lead_angle_deg(found.mean_m, found.lead_m));
    let inch_pound = 0.112_984_829;
    let ring = screw::collar_torque(
        newtons(found.thrust_n),
        row.input("collar_friction_coef"),
        metres(row.input("collar_mean_diameter_m")),
    );
    row.holds(
        "thread_torque_lbf_in",
        (found.raise - ring.si()) / inch_pound,
    );
    row.holds("raise_torque_lbf_in", found.raise / inch_pound);
}

/// Part (f) of the same example as above: one thread that bears 0.38 of the load.
#[test]
fn shigley_8_1_bearing_stress() {
    let row = row("own-shigley-8-1-bearing");
    let pressure = screw::nut_pressure(
        newtons(row.input("force_n") * row.input("share_of_first_thread")),
        metres(row.input("mean_diameter_m")),
        metres(row.input("pitch_m")),
    );
    row.holds("bearing_stress_pa", pressure.si());
}

#[test]
fn lead_angles_of_trapezoidal_screws() {
    let row = row("own-trapezoidal-angles");
    for (key, d, pitch) in [
        ("tr_16x4_deg", 0.016, 0.004),
        ("tr_20x4_deg", 0.020, 0.004),
        ("tr_24x5_deg", 0.024, 0.005),
        ("tr_40x7_deg", 0.040, 0.007),
    ] {
        let mean = screw::pitch_diameter(metres(d), metres(pitch)).si();
        row.holds(key, lead_angle_deg(mean, pitch));
    }
}
