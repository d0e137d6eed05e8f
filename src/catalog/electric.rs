//! Motors, what goes with them, and ready-made electric cylinders.

use super::{Contradictions, Feed, PartFigure, PartSeries, Sound, strongest_rod};
use crate::quantity::{
    Angle, AngularVelocity, Current, Force, Length, MassPerLength, MomentOfInertia, Power, Si,
    Time, Torque, Velocity, Voltage, for_people, watts,
};

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
    fn check(&self, check: &mut Contradictions) {
        check.share("efficiency", self.efficiency);
        let shaft = self.rated_torque.si() * self.rated_speed.si();
        check.so(
            (shaft - self.power.si()).abs() <= 0.05 * self.power.si(),
            "power",
            "must be rated_torque times rated_speed, within 5 %",
            format!("they make {}", for_people(watts(shaft))),
        );
        check.at_least(
            ("peak_torque", self.peak_torque),
            ("rated_torque", self.rated_torque),
        );
        check.at_least(
            ("speed_most", self.speed_most),
            ("rated_speed", self.rated_speed),
        );
        check.at_most(
            ("torque_at_most", self.torque_at_most),
            ("rated_torque", self.rated_torque),
        );
        check.at_most(
            ("peak_at_most", self.peak_at_most),
            ("peak_torque", self.peak_torque),
        );
        check.at_least(
            ("peak_at_most", self.peak_at_most),
            ("torque_at_most", self.torque_at_most),
        );
        let brake = [
            self.brake_torque.is_some(),
            self.brake_power.is_some(),
            self.brake_time.is_some(),
        ];
        check.so(
            brake == [brake[0]; 3],
            "brake_torque",
            "needs brake_power and brake_time with it, and they need it",
            "give all three or none",
        );
    }
    fn series(&self) -> Option<PartSeries> {
        PartSeries::by(
            PartFigure::new("power", self.power),
            [
                PartFigure::new("rated_torque", self.rated_torque),
                PartFigure::new("peak_torque", self.peak_torque),
            ],
            [self.rated_speed.si()],
        )
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
    fn check(&self, check: &mut Contradictions) {
        check.so(
            self.speeds.len() >= 2,
            "speeds",
            "must have two or more",
            "the first is 0",
        );
        check.so(
            self.speeds.len() == self.pull_out.len(),
            "pull_out",
            "must have as many as speeds",
            format!(
                "speeds has {}, pull_out {}",
                self.speeds.len(),
                self.pull_out.len()
            ),
        );
        check.so(
            self.speeds.first().is_none_or(|first| first.si() == 0.0),
            "speeds",
            "must start at 0",
            "write 0 with the torque that the motor starts with",
        );
        check.so(
            self.speeds.windows(2).all(|pair| pair[0] < pair[1]),
            "speeds",
            "must rise",
            "list them from 0 up, with the torques in the same order",
        );
        check.so(
            self.pull_out.windows(2).all(|pair| pair[0] >= pair[1]),
            "pull_out",
            "must not rise with speed",
            "write each no greater than the one before",
        );
        for torque in self.pull_out.iter().take(1) {
            check.at_most(
                ("pull_out", *torque),
                ("holding_torque", self.holding_torque),
            );
        }
    }
    fn series(&self) -> Option<PartSeries> {
        let size = PartFigure::new("length", self.length);
        PartSeries::by(
            size,
            [PartFigure::new("holding_torque", self.holding_torque)],
            [self.frame],
        )
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
}
impl Sound for GearMotor {
    fn check(&self, check: &mut Contradictions) {
        check.share("efficiency", self.efficiency);
        check.share("duty", self.duty);
        check.less(
            ("rated_torque", self.rated_torque),
            ("stall_torque", self.stall_torque),
        );
        let rated = self.rated_torque.si();
        let shaft = rated * self.no_load_speed.si() * (1.0 - rated / self.stall_torque.si());
        check.so(
            (shaft - self.power.si()).abs() <= 0.05 * self.power.si(),
            "power",
            "must be rated_torque times its speed on the line, within 5 %",
            format!("they make {}", for_people(watts(shaft))),
        );
        check.at_least(
            ("torque_most", self.torque_most),
            ("rated_torque", self.rated_torque),
        );
    }
    fn series(&self) -> Option<PartSeries> {
        PartSeries::by(
            PartFigure::new("power", self.power),
            [PartFigure::new("rated_torque", self.rated_torque)],
            [self.no_load_speed.si(), self.voltage.si()],
        )
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
    fn check(&self, check: &mut Contradictions) {
        check.share("efficiency", self.efficiency);
        check.so(
            self.ratio >= 1.0,
            "ratio",
            "must be 1 or more",
            "turns of the motor per turn of the screw",
        );
        check.at_least(
            ("peak_torque", self.peak_torque),
            ("rated_torque", self.rated_torque),
        );
    }
    fn series(&self) -> Option<PartSeries> {
        PartSeries::by(
            PartFigure::new("length", self.length),
            [
                PartFigure::new("rated_torque", self.rated_torque),
                PartFigure::new("peak_torque", self.peak_torque),
            ],
            [self.ratio],
        )
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
impl Sound for Coupling {
    fn series(&self) -> Option<PartSeries> {
        PartSeries::by(
            PartFigure::new("length", self.length),
            [PartFigure::new("torque", self.torque)],
            [],
        )
    }
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
}
impl Sound for Brake {
    fn series(&self) -> Option<PartSeries> {
        PartSeries::by(
            PartFigure::new("length", self.length),
            [PartFigure::new("torque", self.torque)],
            [],
        )
    }
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
}
impl Sound for PowerSupply {
    fn stands_apart(&self) -> bool {
        true
    }
    fn check(&self, check: &mut Contradictions) {
        check.share("efficiency", self.efficiency);
        check.less(("standby", self.standby), ("power", self.power));
    }
    fn series(&self) -> Option<PartSeries> {
        PartSeries::by(
            PartFigure::new("power", self.power),
            [PartFigure::new("mass", self.common.mass)],
            [self.voltage.si()],
        )
    }
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
}
/// Above this voltage a cylinder is on the mains itself (IEC 61140: extra-low voltage ends at 50 V alternating, 120 V direct).
pub const EXTRA_LOW_VOLTAGE_V: f64 = 60.0;

impl Sound for ElectricCylinder {
    fn runs_by_voltage(&self) -> Option<Feed> {
        let volts = self.voltage.si();
        (volts >= EXTRA_LOW_VOLTAGE_V).then_some(Feed {
            least_v: volts,
            most_v: volts,
            current: Current::Ac,
            phases: 1,
        })
    }
    fn check(&self, check: &mut Contradictions) {
        check.share("efficiency", self.efficiency);
        check.share("duty", self.duty);
        check.at_most(
            ("full_load_speed", self.full_load_speed),
            ("no_load_speed", self.no_load_speed),
        );
        check.so(
            self.life_exponent >= 1.0,
            "life_exponent",
            "must be 1 or more",
            "1 of a sliding screw, 3 of a ball screw",
        );
        check.at_most(
            ("force_most", self.force_most),
            ("the rod bears", strongest_rod(self.rod_diameter)),
        );
    }
    fn series(&self) -> Option<PartSeries> {
        PartSeries::by(
            PartFigure::new("force_most", self.force_most),
            [
                PartFigure::new("holding_force", self.holding_force),
                PartFigure::new("rod_diameter", self.rod_diameter),
            ],
            [self.voltage.si()],
        )
    }
}
