//! Motors, what goes with them, and ready-made electric cylinders.

use super::Sound;
use crate::quantity::{
    Angle, AngularVelocity, Force, Length, MassPerLength, MomentOfInertia, Power, Si, Time, Torque,
    Velocity, Voltage,
};

/// Faults of figures that must lie above 0 and not above 1.
fn between<const N: usize>(parts: [(&'static str, f64); N]) -> Vec<(&'static str, String)> {
    let outside = |(_, value): &(&str, f64)| !(*value > 0.0 && *value <= 1.0);
    let fault = |(field, _)| (field, "must lie between 0 and 1".into());
    parts.into_iter().filter(outside).map(fault).collect()
}

part! {
    /// A servo motor with its drive and cables, on the mains.
    ServoMotor in "servo_motors" {
        /// Rated power.
        power: Power,
        /// Continuous torque up to the rated speed.
        rated_torque: Torque,
        /// Peak torque up to the rated speed, for seconds.
        peak_torque: Torque,
        /// Rated speed.
        rated_speed: AngularVelocity,
        /// Greatest speed.
        speed_most: AngularVelocity,
        /// Continuous torque at the greatest speed; between, a straight line.
        torque_at_most: Torque,
        /// Peak torque at the greatest speed; between, a straight line.
        peak_at_most: Torque,
        /// Of the rotor, brake included.
        inertia: MomentOfInertia,
        /// Of motor and drive at the rated point.
        efficiency: f64,
        /// Electricity the drive draws while switched on.
        standby: Power,
        /// Angle error at rest, encoder and control loop.
        step_error: Angle,
        /// Along the axis.
        length: Length,
        /// Torque of the built-in spring-applied brake, if it has one.
        brake_torque: Option<Torque>,
        /// Electricity that keeps the brake open.
        brake_power: Option<Power>,
        /// Time from power off to full brake torque.
        brake_time: Option<Time>,
    }
}
impl Sound for ServoMotor {
    fn faults(&self) -> Vec<(&'static str, String)> {
        let mut faults = between([("efficiency", self.efficiency)]);
        let shaft_w = self.rated_torque.si() * self.rated_speed.si();
        if (shaft_w - self.power.si()).abs() > 0.05 * self.power.si() {
            faults.push((
                "power",
                "is not rated torque times rated speed within 5 %".into(),
            ));
        }
        if self.peak_torque.si() < self.rated_torque.si() {
            faults.push(("peak_torque", "is below the rated torque".into()));
        }
        if self.speed_most.si() < self.rated_speed.si() {
            faults.push(("speed_most", "is below the rated speed".into()));
        }
        let brake = [
            self.brake_torque.is_some(),
            self.brake_power.is_some(),
            self.brake_time.is_some(),
        ];
        if brake.contains(&true) && brake.contains(&false) {
            faults.push((
                "brake_torque",
                "needs brake_power and brake_time with it".into(),
            ));
        }
        faults
    }
}

part! {
    /// A hybrid stepper motor with its drive and cables, on a direct-current supply.
    StepperMotor in "stepper_motors" {
        /// Frame size (NEMA ICS 16: 17, 23, 24, 34).
        frame: f64,
        /// Holding torque.
        holding_torque: Torque,
        /// Speeds of the pull-out curve, rising from 0.
        speeds: Vec<AngularVelocity>,
        /// Pull-out torque at those speeds.
        pull_out: Vec<Torque>,
        /// Of the rotor.
        inertia: MomentOfInertia,
        /// Supply voltage of its drive.
        voltage: Voltage,
        /// Electricity at rest with the current reduced, motor and drive.
        rest_power: Power,
        /// Electricity lost while it runs, motor and drive.
        running_loss: Power,
        /// Angle error of a step, load angle included.
        step_error: Angle,
        /// Along the axis.
        length: Length,
    }
}
impl Sound for StepperMotor {
    fn faults(&self) -> Vec<(&'static str, String)> {
        let mut faults = Vec::new();
        if self.speeds.len() < 2 || self.speeds.len() != self.pull_out.len() {
            faults.push((
                "speeds",
                "must have two or more, as many as pull_out".into(),
            ));
        }
        if self.speeds.windows(2).any(|pair| pair[0] >= pair[1]) {
            faults.push(("speeds", "must rise".into()));
        }
        if self.pull_out.windows(2).any(|pair| pair[0] < pair[1]) {
            faults.push(("pull_out", "must not rise with speed".into()));
        }
        if self.pull_out.iter().any(|t| *t > self.holding_torque) {
            faults.push(("pull_out", "is above the holding torque".into()));
        }
        faults
    }
}

part! {
    /// A brushed direct-current motor, with a gear head where it is a slow one; all figures at the output shaft.
    GearMotor in "gear_motors" {
        /// Rated power at the output.
        power: Power,
        /// Supply voltage.
        voltage: Voltage,
        /// Speed without load.
        no_load_speed: AngularVelocity,
        /// Torque at rest on full voltage; the line between is straight.
        stall_torque: Torque,
        /// Torque that the motor bears for the duty.
        rated_torque: Torque,
        /// Greatest torque that the gear head bears.
        torque_most: Torque,
        /// Of the rotor, as the output shaft sees it.
        inertia: MomentOfInertia,
        /// Of motor and gear head at the rated torque.
        efficiency: f64,
        /// Cyclic duration factor at the rated torque, of ten minutes (IEC 60034-1, S3).
        duty: f64,
        /// Single run at the rated torque from cold (IEC 60034-1, S2).
        short_time: Time,
        /// Rest after which it counts as cold.
        cooling: Time,
        /// Running time that its brushes last, or its gears where it has none.
        running_life: Time,
        /// Angle error at rest: pulses counted on the rotor and coasting.
        step_error: Angle,
        /// Along the axis.
        length: Length,
    }
}
impl Sound for GearMotor {
    fn faults(&self) -> Vec<(&'static str, String)> {
        let mut faults = between([("efficiency", self.efficiency), ("duty", self.duty)]);
        let rated = self.rated_torque.si();
        let speed = self.no_load_speed.si() * (1.0 - rated / self.stall_torque.si());
        if (rated * speed - self.power.si()).abs() > 0.05 * self.power.si() {
            faults.push((
                "power",
                "is not the rated torque times its speed on the line within 5 %".into(),
            ));
        }
        if self.torque_most.si() < rated {
            faults.push(("torque_most", "is below the rated torque".into()));
        }
        faults
    }
}

part! {
    /// A planetary gearbox between motor and screw.
    Gearbox in "gearboxes" {
        /// Turns of the motor per turn of the screw.
        ratio: f64,
        /// Continuous output torque.
        rated_torque: Torque,
        /// Greatest output torque, a thousand times a life.
        peak_torque: Torque,
        /// Greatest input speed.
        speed_most: AngularVelocity,
        /// Efficiency.
        efficiency: f64,
        /// Play at the output.
        backlash: Angle,
        /// As the motor sees it.
        inertia: MomentOfInertia,
        /// Along the axis.
        length: Length,
    }
}
impl Sound for Gearbox {
    fn faults(&self) -> Vec<(&'static str, String)> {
        let mut faults = between([("efficiency", self.efficiency)]);
        if self.ratio < 1.0 {
            faults.push(("ratio", "must be 1 or more".into()));
        }
        if self.peak_torque.si() < self.rated_torque.si() {
            faults.push(("peak_torque", "is below the rated torque".into()));
        }
        faults
    }
}

part! {
    /// A flexible coupling between two shafts.
    Coupling in "couplings" {
        /// Greatest torque.
        torque: Torque,
        /// Moment of inertia.
        inertia: MomentOfInertia,
        /// Length it adds between the shafts.
        length: Length,
    }
}
impl Sound for Coupling {}

part! {
    /// A spring-applied holding brake on a 24 V supply.
    Brake in "brakes" {
        /// Braking torque with the power off.
        torque: Torque,
        /// Electricity that keeps it open.
        power: Power,
        /// Time from power off to full torque.
        time: Time,
        /// Moment of inertia of its rotor.
        inertia: MomentOfInertia,
        /// Greatest speed.
        speed_most: AngularVelocity,
        /// Along the axis.
        length: Length,
    }
}
impl Sound for Brake {}

part! {
    /// A direct-current supply on the mains.
    PowerSupply in "power_supplies" {
        /// Output voltage.
        voltage: Voltage,
        /// Output power.
        power: Power,
        /// Efficiency.
        efficiency: f64,
        /// Electricity it draws while switched on.
        standby: Power,
    }
}
impl Sound for PowerSupply {
    fn faults(&self) -> Vec<(&'static str, String)> {
        between([("efficiency", self.efficiency)])
    }
}

part! {
    /// A ready-made electric cylinder: motor, gear, screw and tube in one, made to a stroke; `price` and `mass` are without the stroke.
    ElectricCylinder in "electric_cylinders" {
        /// Supply voltage: a low one takes a supply, a high one the mains.
        voltage: Voltage,
        /// Greatest force in motion.
        force_most: Force,
        /// Speed without load.
        no_load_speed: Velocity,
        /// Speed at the greatest force; the line between is straight.
        full_load_speed: Velocity,
        /// Force it holds at rest without power.
        holding_force: Force,
        /// Time from power off until its brake bites; none where its screw holds by itself.
        brake_time: Option<Time>,
        /// Efficiency at the greatest force.
        efficiency: f64,
        /// Cyclic duration factor at the greatest force, of ten minutes (IEC 60034-1, S3).
        duty: f64,
        /// Single run at the greatest force from cold (IEC 60034-1, S2).
        short_time: Time,
        /// Rest after which it counts as cold.
        cooling: Time,
        /// Running time that its brushes last, or its gears where it has none.
        running_life: Time,
        /// Double strokes that its brushes, end switches and gears start and stop for.
        double_strokes: f64,
        /// Distance it lasts at the greatest force.
        life_distance: Length,
        /// How its life grows as the load falls: the power of the load ratio.
        life_exponent: f64,
        /// Longest stroke.
        stroke_most: Length,
        /// Closed length, pin to pin, without the stroke.
        fixed_length: Length,
        /// Diameter of the rod, for buckling.
        rod_diameter: Length,
        /// Error of a stop on its own switches or pulses.
        position_error: Length,
        /// Electricity it draws while switched on and at rest.
        standby: Power,
        /// Price of a metre of stroke.
        price_per_metre: f64,
        /// Mass of a metre of stroke.
        mass_per_length: MassPerLength,
        /// Material of the brackets that are made to suit, in catalog units.
        bracket_material: f64,
    }
}
impl Sound for ElectricCylinder {
    fn faults(&self) -> Vec<(&'static str, String)> {
        let mut faults = between([("efficiency", self.efficiency), ("duty", self.duty)]);
        if self.full_load_speed.si() > self.no_load_speed.si() {
            faults.push(("full_load_speed", "is above the speed without load".into()));
        }
        if self.double_strokes <= 0.0 {
            faults.push(("double_strokes", "must be more than 0".into()));
        }
        if self.life_exponent < 1.0 {
            faults.push(("life_exponent", "must be 1 or more".into()));
        }
        faults
    }
}
