//! The units people write, with exact factors (NIST SP 811, BIPM SI brochure).

use super::Kind;

/// A unit of one kind: `si = value × factor + offset`.
#[derive(Debug, Clone, Copy)]
pub struct Unit {
    /// What it measures.
    pub kind: Kind,
    /// The spelling we print, then the others we read; a space in one also stands for `·` or nothing.
    pub spellings: &'static [&'static str],
    /// SI units in one of it.
    pub factor: f64,
    /// SI value of its zero.
    pub offset: f64,
}

/// `lb` (NIST SP 811), kg.
const POUND: f64 = 0.453_592_37;
/// Inch, m.
const INCH: f64 = 0.025_4;
/// Pound-force, N: the pound times standard gravity.
const POUND_FORCE: f64 = POUND * super::G_M_S2;
/// Turns per minute, rad/s.
const TURN_PER_MINUTE: f64 = core::f64::consts::TAU / 60.0;

impl Unit {
    /// How we print it.
    pub fn symbol(&self) -> &'static str {
        self.spellings.first().copied().unwrap_or_default()
    }
}

const fn unit(kind: Kind, spellings: &'static [&'static str], factor: f64) -> Unit {
    Unit {
        kind,
        spellings,
        factor,
        offset: 0.0,
    }
}

/// Every unit, kind by kind; the first of a kind is its SI unit.
#[rustfmt::skip]
pub const UNITS: &[Unit] = &[
    unit(Kind::Length, &["m", "metre", "meter"], 1.0),
    unit(Kind::Length, &["mm", "millimetre", "millimeter"], 1e-3),
    unit(Kind::Length, &["cm", "centimetre", "centimeter"], 1e-2),
    unit(Kind::Length, &["um", "µm", "micron"], 1e-6),
    unit(Kind::Length, &["in", "inch", "inches", "\""], INCH),
    unit(Kind::Length, &["ft", "foot", "feet"], 12.0 * INCH),
    unit(Kind::Mass, &["kg", "kilogram"], 1.0),
    unit(Kind::Mass, &["g", "gram"], 1e-3),
    unit(Kind::Mass, &["t", "tonne"], 1e3),
    unit(Kind::Mass, &["lb", "pound"], POUND),
    unit(Kind::Mass, &["oz", "ounce"], POUND / 16.0),
    unit(Kind::Time, &["s", "sec", "second"], 1.0),
    unit(Kind::Time, &["ms", "millisecond"], 1e-3),
    unit(Kind::Time, &["min", "minute"], 60.0),
    unit(Kind::Time, &["h", "hr", "hour"], 3600.0),
    unit(Kind::Force, &["N", "newton"], 1.0),
    unit(Kind::Force, &["kN", "kilonewton"], 1e3),
    unit(Kind::Force, &["lbf"], POUND_FORCE),
    unit(Kind::Torque, &["Nm", "N m"], 1.0),
    unit(Kind::Torque, &["lbf ft", "ft lbf"], POUND_FORCE * 12.0 * INCH),
    unit(Kind::Torque, &["lbf in", "in lbf"], POUND_FORCE * INCH),
    unit(Kind::Inertia, &["kg m2"], 1.0),
    unit(Kind::Inertia, &["lb ft2"], POUND * 144.0 * INCH * INCH),
    unit(Kind::Inertia, &["lb in2"], POUND * INCH * INCH),
    unit(Kind::Inertia, &["kg cm2"], 1e-4),
    unit(Kind::Pressure, &["Pa", "pascal"], 1.0),
    unit(Kind::Pressure, &["kPa"], 1e3),
    unit(Kind::Pressure, &["MPa"], 1e6),
    unit(Kind::Pressure, &["bar"], 1e5),
    unit(Kind::Pressure, &["psi"], POUND_FORCE / (INCH * INCH)),
    unit(Kind::Flow, &["m3/s"], 1.0),
    unit(Kind::Flow, &["L/min", "l/min"], 1e-3 / 60.0),
    unit(Kind::Flow, &["L/s", "l/s"], 1e-3),
    unit(Kind::Flow, &["m3/h"], 1.0 / 3600.0),
    unit(Kind::Flow, &["cfm"], 1728.0 * INCH * INCH * INCH / 60.0),
    unit(Kind::Flow, &["gpm"], 231.0 * INCH * INCH * INCH / 60.0),
    unit(Kind::Power, &["W", "watt"], 1.0),
    unit(Kind::Power, &["kW", "kilowatt"], 1e3),
    unit(Kind::Power, &["hp"], 550.0 * POUND_FORCE * 12.0 * INCH),
    unit(Kind::Energy, &["J", "joule"], 1.0),
    unit(Kind::Energy, &["kJ"], 1e3),
    unit(Kind::Energy, &["Wh"], 3600.0),
    unit(Kind::Energy, &["kWh"], super::KWH_J),
    unit(Kind::Angle, &["rad", "radian"], 1.0),
    unit(Kind::Angle, &["deg", "degree", "°"], core::f64::consts::PI / 180.0),
    unit(Kind::Speed, &["m/s"], 1.0),
    unit(Kind::Speed, &["mm/s"], 1e-3),
    unit(Kind::Speed, &["in/s"], INCH),
    unit(Kind::Speed, &["ft/min"], 12.0 * INCH / 60.0),
    unit(Kind::Rotation, &["rad/s"], 1.0),
    unit(Kind::Rotation, &["rpm", "1/min"], TURN_PER_MINUTE),
    unit(Kind::Temperature, &["K", "kelvin"], 1.0),
    Unit { kind: Kind::Temperature, spellings: &["degC", "°C"], factor: 1.0, offset: 273.15 },
    Unit { kind: Kind::Temperature, spellings: &["degF", "°F"], factor: 5.0 / 9.0, offset: 459.67 * 5.0 / 9.0 },
    unit(Kind::Voltage, &["V", "volt"], 1.0),
    unit(Kind::Noise, &["dB", "dBA", "dB(A)"], 1.0),
    unit(Kind::MassPerLength, &["kg/m"], 1.0),
    unit(Kind::InertiaPerLength, &["kg m2/m"], 1.0),
    unit(Kind::Conductance, &["m3/(s Pa)"], 1.0),
    unit(Kind::Conductance, &["L/(s bar)"], 1e-8),
    unit(Kind::TorquePerLength, &["Nm/m"], 1.0),
    unit(Kind::Volume, &["m3"], 1.0),
    unit(Kind::Volume, &["L", "l", "litre", "liter"], 1e-3),
];

/// Every kind that has a unit, in the order of the table.
pub fn kinds() -> impl Iterator<Item = Kind> {
    let first = |(index, unit): (usize, &Unit)| {
        UNITS[..index]
            .iter()
            .all(|earlier| earlier.kind != unit.kind)
            .then_some(unit.kind)
    };
    UNITS.iter().enumerate().filter_map(first)
}

/// The units that fit a kind, in the order we offer them.
pub fn units_of(kind: Kind) -> impl Iterator<Item = &'static Unit> {
    UNITS.iter().filter(move |unit| unit.kind == kind)
}

/// The unit of a kind that one would likely write.
pub fn usual_unit(kind: Kind) -> &'static str {
    kind.examples().0
}

impl Kind {
    /// Units for an example: the likely one, and its fellow in the other system.
    pub(super) fn examples(self) -> (&'static str, &'static str) {
        match self {
            Kind::Length => ("mm", "in"),
            Kind::Mass => ("kg", "lb"),
            Kind::Time => ("s", "min"),
            Kind::Force => ("N", "lbf"),
            Kind::Torque => ("Nm", "lbf ft"),
            Kind::Inertia => ("kg m2", "lb ft2"),
            Kind::Pressure => ("bar", "psi"),
            Kind::Flow => ("L/min", "cfm"),
            Kind::Power => ("kW", "hp"),
            Kind::Energy => ("kJ", "Wh"),
            Kind::Angle => ("deg", "rad"),
            Kind::Speed => ("m/s", "ft/min"),
            Kind::Rotation => ("rpm", "rad/s"),
            Kind::Temperature => ("degC", "degF"),
            Kind::Voltage => ("V", "V"),
            Kind::Noise => ("dB", "dB"),
            Kind::MassPerLength => ("kg/m", "kg/m"),
            Kind::InertiaPerLength => ("kg m2/m", "kg m2/m"),
            Kind::Conductance => ("L/(s bar)", "m3/(s Pa)"),
            Kind::TorquePerLength => ("Nm/m", "Nm/m"),
            Kind::Volume => ("L", "m3"),
        }
    }
}
