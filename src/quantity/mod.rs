//! Quantities: what people type, typed inside, and printed again.
//!
//! The types behind are `uom`'s; nothing outside this module names that crate.
//! Values are SI inside. [`Si`] gives and takes the plain number where arrays,
//! fits or files need it. Travel per turn and gauge and absolute pressure are
//! types of their own, because those are the slips that cost a machine.

mod parse;
mod pattern;
mod print;
mod system;
mod units;

pub use parse::{LARGEST, Misread, SMALLEST, in_range, parse, parse_as, system_of};
pub use pattern::{Sign, pattern};
pub use print::{
    brief, enough, exact, for_people, in_words, nine_digits, not_over, show, to_digits,
};
pub use system::System;
pub use units::{Unit, kinds, units_of, usual_unit};
pub use uom::si::f64::{
    AngularVelocity, Area, Energy, Force, Length, Mass, MomentOfInertia, Power, Pressure, Time,
    Torque, Velocity, Volume, VolumeRate,
};
use uom::si::{
    angular_velocity::radian_per_second, area::square_meter, energy::joule, force::newton,
    length::meter, mass::kilogram, moment_of_inertia::kilogram_square_meter, power::watt,
    pressure::pascal, time::second, torque::newton_meter, velocity::meter_per_second,
    volume::cubic_meter, volume_rate::cubic_meter_per_second,
};

/// Standard acceleration of free fall, m/s² (ISO 80000-3).
pub const G_M_S2: f64 = 9.806_65;
/// Standard atmosphere, Pa (ISO 2533).
pub const ATMOSPHERE_PA: f64 = 101_325.0;
/// Joules in a kilowatt-hour.
pub const KWH_J: f64 = 3.6e6;

/// The kinds of quantity that files and the command line know.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs, reason = "each name is its meaning")]
pub enum Kind {
    Length,
    Mass,
    Time,
    Force,
    Torque,
    Inertia,
    Pressure,
    Flow,
    Power,
    Energy,
    Angle,
    Speed,
    Rotation,
    Temperature,
    Voltage,
    Noise,
    MassPerLength,
    InertiaPerLength,
    Conductance,
    TorquePerLength,
    Volume,
}

/// Electric current.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Current {
    /// Alternating.
    Ac,
    /// Direct.
    Dc,
}

impl Current {
    /// As files have it.
    pub fn words(self) -> &'static str {
        match self {
            Self::Ac => "ac",
            Self::Dc => "dc",
        }
    }
}

/// A quantity that has one SI number behind it.
pub trait Si: Copy {
    /// Which units fit it.
    const KIND: Kind;
    /// From the number in the coherent SI unit.
    fn from_si(value: f64) -> Self;
    /// The number in the coherent SI unit.
    fn si(self) -> f64;
}

macro_rules! si {
    ($($type:ident, $unit:ident, $kind:ident, $make:ident, $doc:literal;)*) => {$(
        impl Si for $type {
            const KIND: Kind = Kind::$kind;
            fn from_si(value: f64) -> Self { Self::new::<$unit>(value) }
            fn si(self) -> f64 { self.get::<$unit>() }
        }
        #[doc = $doc]
        pub fn $make(value: f64) -> $type { $type::from_si(value) }
    )*};
}
si! {
    Length, meter, Length, metres, "A length from metres.";
    Mass, kilogram, Mass, kilograms, "A mass from kilograms.";
    Time, second, Time, seconds, "A time from seconds.";
    Force, newton, Force, newtons, "A force from newtons.";
    Torque, newton_meter, Torque, newton_metres, "A torque from newton metres.";
    MomentOfInertia, kilogram_square_meter, Inertia, kilogram_square_metres, "A moment of inertia from kg m².";
    Pressure, pascal, Pressure, pascals, "A pressure difference from pascals.";
    VolumeRate, cubic_meter_per_second, Flow, cubic_metres_per_second, "A flow from m³/s.";
    Power, watt, Power, watts, "A power from watts.";
    Energy, joule, Energy, joules, "An energy from joules.";
    Velocity, meter_per_second, Speed, metres_per_second, "A speed from m/s.";
    AngularVelocity, radian_per_second, Rotation, radians_per_second, "A speed of rotation from rad/s.";
    Volume, cubic_meter, Volume, cubic_metres, "A volume from m³.";
}

/// An area from m².
pub fn square_metres(value: f64) -> Area {
    Area::new::<square_meter>(value)
}

macro_rules! own {
    ($($(#[doc = $doc:literal])+ $type:ident, $kind:ident;)*) => {$(
        $(#[doc = $doc])+
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
        pub struct $type(f64);
        impl Si for $type {
            const KIND: Kind = Kind::$kind;
            fn from_si(value: f64) -> Self { Self(value) }
            fn si(self) -> f64 { self.0 }
        }
    )*};
}
own! {
    /// Travel per turn of a screw, pinion or drum, m; a two-start screw's is twice its pitch.
    Lead, Length;
    /// Pressure above the atmosphere, Pa.
    GaugePressure, Pressure;
    /// Pressure above vacuum, Pa.
    AbsolutePressure, Pressure;
    /// An angle, rad.
    Angle, Angle;
    /// Temperature, K.
    Temperature, Temperature;
    /// Voltage, V.
    Voltage, Voltage;
    /// A-weighted sound level at 1 m, dB.
    NoiseLevel, Noise;
    /// Mass per length, kg/m.
    MassPerLength, MassPerLength;
    /// Moment of inertia per length, kg m²/m.
    InertiaPerLength, InertiaPerLength;
    /// Sonic conductance (ISO 6358), m³/(s·Pa).
    Conductance, Conductance;
}

impl NoiseLevel {
    /// The sound's energy, of that of 0 dB: what is added where several sound at once.
    pub fn energy(self) -> f64 {
        libm::pow(10.0, self.si() / 10.0)
    }
}

impl GaugePressure {
    /// The same pressure above vacuum, over the standard atmosphere.
    pub fn absolute(self) -> AbsolutePressure {
        AbsolutePressure(self.0 + ATMOSPHERE_PA)
    }
}

impl Temperature {
    /// In degrees Celsius.
    pub fn celsius(self) -> f64 {
        self.0 - 273.15
    }
}

/// A speed of rotation from turns per minute.
pub fn rpm(value: f64) -> AngularVelocity {
    radians_per_second(value * core::f64::consts::TAU / 60.0)
}
