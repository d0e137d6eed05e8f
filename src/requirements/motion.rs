//! How the load moves: one kind of motion each, and what every kind says of itself.

use crate::quantity::{
    Angle, Force, Kind, Length, Mass, MomentOfInertia, Si, System, Torque, show,
};

/// How the axis moves.
#[derive(Debug, Clone, PartialEq)]
pub enum Motion {
    /// Along a straight line.
    Slide(Slide),
    /// On a hinge.
    Hinge(Box<Hinge>),
}

impl Motion {
    /// What every kind of motion says.
    pub fn kind(&self) -> &dyn MotionKind {
        match self {
            Motion::Slide(slide) => slide,
            Motion::Hinge(hinge) => hinge.as_ref(),
        }
    }

    /// The slide, where it is one.
    pub fn slide(&self) -> Option<&Slide> {
        if let Motion::Slide(slide) = self {
            Some(slide)
        } else {
            None
        }
    }

    /// The hinge, where it is one.
    pub fn hinge(&self) -> Option<&Hinge> {
        if let Motion::Hinge(hinge) = self {
            Some(hinge)
        } else {
            None
        }
    }
}

/// What every kind of motion says.
pub trait MotionKind {
    /// What moves.
    fn load(&self) -> LoadRange;
    /// What the process does to it.
    fn process(&self) -> ProcessCurves;
    /// What moves, and how far.
    fn words(&self, units: System) -> String;
}

/// The process over the way, in SI units: forces where the load goes straight, torques where it turns.
#[derive(Debug, Clone, PartialEq)]
pub struct ProcessCurves {
    /// Force or torque.
    pub kind: Kind,
    /// Unit of a place.
    pub place_unit: &'static str,
    /// Places in order, and what is resisted there going out, coming back and at rest.
    pub points: Vec<(f64, [f64; 3])>,
}

/// The least and the most the axis carries, carriage included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadRange {
    /// Least load.
    pub least: Mass,
    /// Most load.
    pub most: Mass,
}

impl LoadRange {
    /// Both, or the one where they are the same.
    fn words(self, units: System) -> String {
        let (least, most) = (self.least.si(), self.most.si());
        let heaviest = units.words(Kind::Mass, most);
        if (most - least).abs() < 1e-9 {
            return heaviest;
        }
        let lightest = units.words(Kind::Mass, least);
        // One unit is enough where both have the same.
        match (lightest.split_once(' '), heaviest.split_once(' ')) {
            (Some((number, unit)), Some((_, same))) if unit == same => {
                format!("{number} to {heaviest}")
            }
            _ => format!("{lightest} to {heaviest}"),
        }
    }
}

/// The law of motion of a stroke.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Law {
    /// Constant acceleration, cruise, constant deceleration; fractions of the stroke time.
    Trapezoid {
        /// Fraction spent speeding up.
        start: f64,
        /// Fraction spent slowing down.
        end: f64,
    },
    /// Cycloidal displacement.
    Cycloidal,
    /// 3-4-5 polynomial.
    Polynomial345,
    /// 4-5-6-7 polynomial.
    Polynomial4567,
    /// Modified sine acceleration.
    ModifiedSine,
    /// Modified trapezoidal acceleration.
    ModifiedTrapezoid,
    /// Simple harmonic.
    Harmonic,
}

/// A straight axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Slide {
    /// Of "out" above level, −90…90°.
    pub incline: Angle,
    /// Length of the stroke.
    pub travel: Length,
    /// What moves.
    pub load: LoadRange,
    /// From the guide line to the centre of mass, square to travel.
    pub offset: Length,
    /// From the guide line to the line of the drive.
    pub drive_offset: Length,
    /// Of the centre of mass beyond the middle of the bearings, along travel, at the back end.
    pub overhang: Length,
    /// Whether the overhang grows with the travel.
    pub overhang_grows: bool,
    /// Constant drag of seals.
    pub drag: Force,
    /// Coefficient of friction of the guide.
    pub guide_friction: f64,
    /// Spacing of the guide bearings along travel.
    pub bearing_spacing: Length,
    /// Whether the need brings its own guide.
    pub guide_supplied: bool,
    /// Process force over position, in order of position.
    pub process: Vec<ProcessPoint>,
    /// Motion law.
    pub law: Law,
}

/// Force of the process at a position, positive against the stroke.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ProcessPoint {
    /// Position from the back end.
    pub at: Length,
    /// Resisting the outward stroke.
    pub out: Force,
    /// Resisting the return.
    pub back: Force,
    /// To be held at rest there, positive pushes back.
    pub hold: Force,
}

impl MotionKind for Slide {
    fn load(&self) -> LoadRange {
        self.load
    }
    fn process(&self) -> ProcessCurves {
        let point = |p: &ProcessPoint| (p.at.si(), [p.out, p.back, p.hold].map(Si::si));
        ProcessCurves {
            kind: Kind::Force,
            place_unit: "m",
            points: self.process.iter().map(point).collect(),
        }
    }
    fn words(&self, units: System) -> String {
        let load = self.load.words(units);
        let incline = self.incline.si().to_degrees();
        let way = match incline {
            i if i.abs() < 0.05 => "level".to_owned(),
            i if (i - 90.0).abs() < 0.05 => "straight up".to_owned(),
            i if (i + 90.0).abs() < 0.05 => "straight down".to_owned(),
            i if i > 0.0 => format!("up a slope of {}°", show(i)),
            i => format!("down a slope of {}°", show(-i)),
        };
        format!(
            "{load} {way} {}",
            units.words(Kind::Length, self.travel.si())
        )
    }
}

/// A load on a hinge.
#[derive(Debug, Clone, PartialEq)]
pub struct Hinge {
    /// Arm angle above level at the back end.
    pub from: Angle,
    /// Arm angle above level at the out end.
    pub to: Angle,
    /// Whether the axis is level (else upright).
    pub axis_level: bool,
    /// What moves.
    pub load: LoadRange,
    /// Radius of the centre of mass.
    pub radius: Length,
    /// Its angle from the arm line.
    pub angle: Angle,
    /// About the centre of mass, at the most load.
    pub inertia: MomentOfInertia,
    /// Friction of the pivot.
    pub pivot_friction: Torque,
    /// Radius of a tail weight, if one may be fitted.
    pub tail_radius: Option<Length>,
    /// Base and arm pins, x level and y up from the pivot.
    pub anchors: Option<[[Length; 2]; 2]>,
    /// Where the pins may be: of base and arm, least and most of x and y.
    pub anchor_zones: Option<[[[Length; 2]; 2]; 2]>,
    /// Process torque over angle.
    pub process: Vec<(Angle, Torque, Torque, Torque)>,
    /// Motion law.
    pub law: Law,
}

impl MotionKind for Hinge {
    fn load(&self) -> LoadRange {
        self.load
    }
    fn process(&self) -> ProcessCurves {
        let point = |(at, out, back, hold): &(Angle, Torque, Torque, Torque)| {
            (at.si(), [*out, *back, *hold].map(Si::si))
        };
        ProcessCurves {
            kind: Kind::Torque,
            place_unit: "rad",
            points: self.process.iter().map(point).collect(),
        }
    }
    fn words(&self, units: System) -> String {
        let axis = if self.axis_level { "level" } else { "upright" };
        format!(
            "{} on a {axis} hinge, centre of mass {} from it, swung from {} to {}",
            self.load.words(units),
            units.words(Kind::Length, self.radius.si()),
            in_degrees(self.from.si()),
            in_degrees(self.to.si()),
        )
    }
}

/// An angle of the arm.
pub fn in_degrees(angle_rad: f64) -> String {
    format!(
        "{}°",
        show((angle_rad.to_degrees() * 100.0).round() / 100.0)
    )
}
