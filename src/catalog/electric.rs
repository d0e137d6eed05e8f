//! Motors, what goes with them, and ready-made electric cylinders.

use super::{Feed, strongest_rod};
use crate::quantity::{
    Angle, AngularVelocity, Current, Force, Length, MassPerLength, MomentOfInertia, Power, Si,
    Time, Torque, Velocity, Voltage, for_people, watts,
};

/// Whether a stated power is what torque and speed make, but for rounding.
fn within_5_percent(shaft: Power, stated: Power) -> bool {
    (shaft - stated).abs().si() <= 0.05 * stated.si()
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
    grows power: rated_torque, peak_torque alike rated_speed;
    holds |part| {
        share efficiency;
        so power: within_5_percent(part.shaft_power(), part.power),
            "must be rated_torque times rated_speed, within 5 %",
            format!("they make {}", for_people(part.shaft_power()));
        peak_torque >= rated_torque;
        speed_most >= rated_speed;
        torque_at_most <= rated_torque;
        peak_at_most <= peak_torque;
        peak_at_most >= torque_at_most;
        so brake_torque: [part.brake_power.is_some(), part.brake_time.is_some()]
            == [part.brake_torque.is_some(); 2],
            "needs brake_power and brake_time with it, and they need it", "give all three or none";
    }
}

impl ServoMotor {
    /// Power at the shaft, at the rated point.
    fn shaft_power(&self) -> Power {
        watts(self.rated_torque.si() * self.rated_speed.si())
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
    grows length: holding_torque alike frame;
    holds |part| {
        so speeds: part.speeds.len() >= 2, "must have two or more", "the first is 0";
        so pull_out: part.speeds.len() == part.pull_out.len(), "must have as many as speeds",
            format!("speeds has {}, pull_out {}", part.speeds.len(), part.pull_out.len());
        so speeds: part.speeds.first().is_none_or(|first| first.si() == 0.0), "must start at 0",
            "write 0 with the torque that the motor starts with";
        so speeds: part.speeds.windows(2).all(|pair| pair[0] < pair[1]), "must rise",
            "list them from 0 up, with the torques in the same order";
        so pull_out: part.pull_out.windows(2).all(|pair| pair[0] >= pair[1]),
            "must not rise with speed",
            "write each no greater than the one before";
        so pull_out: part.pull_out.first().is_none_or(|first| *first <= part.holding_torque),
            "must not be more than holding_torque",
            format!("write at most {}", for_people(part.holding_torque));
    }
}

part! {
    /// A brushed direct-current motor, with a gear head where it is a slow one; all figures at the output shaft.
    GearMotor in "gear_motors" {
        /// Rated power at the output.
        power: Power,
        /// Supply voltage.
        voltage: Voltage,
        /// Other voltages that it is wound for, with the same figures.
        windings: Option<Vec<Voltage>>,
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
    grows power: rated_torque alike no_load_speed, voltage;
    holds |part| {
        share efficiency, duty;
        rated_torque < stall_torque;
        so power: within_5_percent(part.shaft_power(), part.power),
            "must be rated_torque times its speed on the line, within 5 %",
            format!("they make {}", for_people(part.shaft_power()));
        torque_most >= rated_torque;
    }
}

impl GearMotor {
    /// Power at the shaft where its line gives the rated torque.
    fn shaft_power(&self) -> Power {
        let rated = self.rated_torque.si();
        watts(rated * self.no_load_speed.si() * (1.0 - rated / self.stall_torque.si()))
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
    grows length: rated_torque, peak_torque alike ratio;
    holds |part| {
        share efficiency;
        so ratio: part.ratio >= 1.0,
            "must be 1 or more", "turns of the motor per turn of the screw";
        peak_torque >= rated_torque;
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
    grows length: torque;
}

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
    grows length: torque;
}

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
    apart |_part| true;
    grows power: mass alike voltage;
    holds |part| {
        share efficiency;
        standby < power;
    }
}

/// Above this voltage a cylinder is on the mains itself (IEC 61140: extra-low voltage ends at 50 V alternating, 120 V direct).
pub const EXTRA_LOW_VOLTAGE_V: f64 = 60.0;

/// What a cylinder of a voltage runs on: the mains, where that is no extra-low one.
fn by_voltage(voltage: Voltage) -> Option<Feed> {
    let volts = voltage.si();
    (volts >= EXTRA_LOW_VOLTAGE_V).then_some(Feed {
        least_v: volts,
        most_v: volts,
        current: Current::Ac,
        phases: 1,
    })
}

part! {
    /// A ready-made electric cylinder: motor, gear, screw and tube in one, made to a stroke; `price` and `mass` are without the stroke.
    ElectricCylinder in "electric_cylinders" {
        /// Supply voltage: a low one takes a supply, a high one the mains.
        voltage: Voltage,
        /// Other voltages that it is wound for, with the same figures.
        windings: Option<Vec<Voltage>>,
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
        /// How its life grows as the load falls: the power of the load factor.
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
    runs |part| by_voltage(part.voltage);
    grows force_most: holding_force, rod_diameter alike voltage;
    holds |part| {
        share efficiency, duty;
        full_load_speed <= no_load_speed;
        so life_exponent: part.life_exponent >= 1.0,
            "must be 1 or more", "1 of a sliding screw, 3 of a ball screw";
        force_most <= strongest_rod(part.rod_diameter), "the rod carries";
    }
}
