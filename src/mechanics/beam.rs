//! Arms and beams: how far they bend, what that strains them to, and how fast they swing.
//!
//! Strength and stiffness are two things. Stress goes with `1/Z` and knows no modulus; deflection and frequency go with
//! `1/(E·I)` and know no strength. A bar of better steel is stronger and just as springy.

use core::f64::consts::{PI, TAU};

use super::column::{STEEL_DENSITY_KG_M3, STEEL_MODULUS_PA};
use crate::quantity::{Force, Length, Mass, Pressure, Si, Torque, metres, pascals};

/// The section of a beam; its height lies along the load.
#[derive(Debug, Clone, Copy, PartialEq)]
#[allow(missing_docs, reason = "each name is its meaning")]
pub enum Section {
    Rectangle {
        width_m: f64,
        height_m: f64,
    },
    Box {
        width_m: f64,
        height_m: f64,
        wall_m: f64,
    },
    Round {
        diameter_m: f64,
    },
    Tube {
        diameter_m: f64,
        wall_m: f64,
    },
}

/// A wall that a thin section is given where a solid bar is compared with a hollow one: a tenth of its smaller side,
/// stout enough not to buckle or dent (common practice, no source).
pub const HOLLOW_WALL: f64 = 0.1;

impl Section {
    /// Outer and inner sides: width, height, and what is hollow of each.
    fn sides(self) -> ([f64; 2], [f64; 2]) {
        match self {
            Section::Rectangle { width_m, height_m } => ([width_m, height_m], [0.0; 2]),
            Section::Box {
                width_m,
                height_m,
                wall_m,
            } => (
                [width_m, height_m],
                [width_m - 2.0 * wall_m, height_m - 2.0 * wall_m],
            ),
            Section::Round { diameter_m } => ([diameter_m; 2], [0.0; 2]),
            Section::Tube { diameter_m, wall_m } => {
                ([diameter_m; 2], [diameter_m - 2.0 * wall_m; 2])
            }
        }
    }

    fn is_round(self) -> bool {
        matches!(self, Section::Round { .. } | Section::Tube { .. })
    }

    /// Area, m²: `b h` or `π d²/4`, the hollow taken off.
    ///
    /// ```
    /// # use counterpoise::mechanics::beam::Section;
    /// // 60 × 40 with a wall of 3: 0.06·0.04 - 0.054·0.034 = 564 mm²
    /// let tube = Section::Box { width_m: 0.06, height_m: 0.04, wall_m: 0.003 };
    /// assert!((tube.area_m2() * 1e6 - 564.0).abs() < 1e-9);
    /// ```
    pub fn area_m2(self) -> f64 {
        let (outer, inner) = self.sides();
        let part = if self.is_round() { PI / 4.0 } else { 1.0 };
        part * (outer[0] * outer[1] - inner[0] * inner[1])
    }

    /// Second moment of area about the axis square to the load, m⁴: `b h³/12` or `π d⁴/64`, the hollow taken off.
    ///
    /// Source: Beer & Johnston, *Mechanics of Materials*, properties of areas.
    ///
    /// ```
    /// # use counterpoise::mechanics::beam::Section;
    /// // Laid flat 89·38³/12 = 406 967 mm⁴, on edge 38·89³/12 = 2 232 402 mm⁴: 5.485 times as stiff
    /// let flat = Section::Rectangle { width_m: 0.089, height_m: 0.038 };
    /// let edge = Section::Rectangle { width_m: 0.038, height_m: 0.089 };
    /// assert!((flat.second_moment_m4() * 1e12 - 406_967.3).abs() < 1.0);
    /// assert!((edge.second_moment_m4() / flat.second_moment_m4() - 5.4855).abs() < 1e-4);
    /// ```
    pub fn second_moment_m4(self) -> f64 {
        let (outer, inner) = self.sides();
        let part = if self.is_round() {
            PI / 64.0
        } else {
            1.0 / 12.0
        };
        let cube = |[b, h]: [f64; 2]| b * h * h * h;
        part * (cube(outer) - cube(inner))
    }

    /// Section modulus, m³: `Z = I/(h/2)`.
    ///
    /// ```
    /// # use counterpoise::mechanics::beam::Section;
    /// // 40 × 60 mm: 40·60²/6 = 24 000 mm³
    /// let bar = Section::Rectangle { width_m: 0.04, height_m: 0.06 };
    /// assert!((bar.modulus_m3() * 1e9 - 24_000.0).abs() < 1e-6);
    /// ```
    pub fn modulus_m3(self) -> f64 {
        let (outer, _) = self.sides();
        self.second_moment_m4() / (outer[1] / 2.0)
    }

    /// The same section turned by a quarter.
    pub fn turned(self) -> Self {
        match self {
            Section::Rectangle { width_m, height_m } => Section::Rectangle {
                width_m: height_m,
                height_m: width_m,
            },
            Section::Box {
                width_m,
                height_m,
                wall_m,
            } => Section::Box {
                width_m: height_m,
                height_m: width_m,
                wall_m,
            },
            round => round,
        }
    }

    /// A hollow section of the same area and proportions with a wall of [`HOLLOW_WALL`] of its smaller side.
    ///
    /// With outer sides `s` times the solid ones, `s² (b h - b' h') = A`.
    ///
    /// ```
    /// # use counterpoise::mechanics::beam::Section;
    /// // A round of 30 mm: s = 1/√(1 - 0.8²) = 1.6667, so a tube of 50 × 5 mm; I grows s⁴(1 - 0.8⁴) = 4.556 times
    /// let bar = Section::Round { diameter_m: 0.03 };
    /// let tube = bar.hollowed();
    /// assert_eq!(format!("{tube:.4?}"), "Tube { diameter_m: 0.0500, wall_m: 0.0050 }");
    /// assert!((tube.area_m2() / bar.area_m2() - 1.0).abs() < 1e-12);
    /// assert!((tube.second_moment_m4() / bar.second_moment_m4() - 4.5556).abs() < 1e-4);
    /// ```
    pub fn hollowed(self) -> Self {
        let ([width_m, height_m], _) = self.sides();
        let wall_m = HOLLOW_WALL * width_m.min(height_m);
        let hollow = |s: f64| {
            if self.is_round() {
                Section::Tube {
                    diameter_m: s * width_m,
                    wall_m: s * wall_m,
                }
            } else {
                Section::Box {
                    width_m: s * width_m,
                    height_m: s * height_m,
                    wall_m: s * wall_m,
                }
            }
        };
        hollow((self.area_m2() / hollow(1.0).area_m2()).sqrt())
    }
}

/// How a beam is held, and with that where its load stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Held {
    /// Built in at one end, the load at the other.
    OneEnd,
    /// Resting on both ends, the load in the middle.
    BothEnds,
}

/// The numbers of a way of holding: `δ = F L³/(a E I)`, `δ = q L⁴/(b E I)`, `M = F L/c`, `M = q L²/d`, and the part of
/// the beam's mass that swings with the load.
struct Numbers {
    point: f64,
    line: f64,
    point_moment: f64,
    line_moment: f64,
    swinging: f64,
}

impl Held {
    fn numbers(self) -> Numbers {
        match self {
            Held::OneEnd => Numbers {
                point: 3.0,
                line: 8.0,
                point_moment: 1.0,
                line_moment: 2.0,
                swinging: 33.0 / 140.0,
            },
            Held::BothEnds => Numbers {
                point: 48.0,
                line: 384.0 / 5.0,
                point_moment: 4.0,
                line_moment: 8.0,
                swinging: 17.0 / 35.0,
            },
        }
    }
}

/// A beam: its section, length, how it is held, and the modulus of its material.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beam {
    /// Its section.
    pub section: Section,
    /// From its support to the load at its end, or between its supports; > 0.
    pub length: Length,
    /// How it is held.
    pub held: Held,
    /// Young's modulus of its material, > 0.
    pub modulus: Pressure,
}

impl Beam {
    fn stiffness(&self) -> f64 {
        self.modulus.si() * self.section.second_moment_m4()
    }

    /// How far it bends at the load.
    ///
    /// One end held `δ = F L³/(3 E I) + q L⁴/(8 E I)`; both ends `F L³/(48 E I) + 5 q L⁴/(384 E I)`.
    ///
    /// - `load`: at the free end, or in the middle
    /// - `line_load_n_m`: spread over the length, such as its own weight
    ///
    /// Source: Budynas & Nisbett, *Shigley's Mechanical Engineering Design*, table A-9.
    ///
    /// ```
    /// # use counterpoise::{mechanics::beam::{Beam, Held, Section}, quantity::{metres, newtons, pascals}};
    /// // 500 N on 0.8 m of 40 × 60 steel: I = 0.72e-6, 500·0.512/(3·206e9·0.72e-6) = 0.5753 mm
    /// let section = Section::Rectangle { width_m: 0.04, height_m: 0.06 };
    /// let arm = Beam { section, length: metres(0.8), held: Held::OneEnd, modulus: pascals(206e9) };
    /// assert!((arm.deflection(newtons(500.0), 0.0).value * 1e3 - 0.5753).abs() < 1e-4);
    /// // Its own weight of 184.8 N/m: 184.8·0.4096/(8·206e9·0.72e-6) = 0.0638 mm more
    /// assert!((arm.deflection(newtons(500.0), 184.8).value * 1e3 - 0.6391).abs() < 1e-4);
    /// ```
    pub fn deflection(&self, load: Force, line_load_n_m: f64) -> Length {
        let (length, numbers) = (self.length.si(), self.held.numbers());
        let cube = length * length * length;
        let by = load.si() / numbers.point + line_load_n_m * length / numbers.line;
        metres(by * cube / self.stiffness())
    }

    /// Greatest bending stress: at the built-in end, or in the middle.
    ///
    /// `σ = M/Z`; one end held `M = F L + q L²/2`, both ends `M = F L/4 + q L²/8`.
    ///
    /// - `load`: at the free end, or in the middle
    /// - `line_load_n_m`: spread over the length
    ///
    /// Source: Budynas & Nisbett, *Shigley's Mechanical Engineering Design*, table A-9.
    ///
    /// ```
    /// # use counterpoise::{mechanics::beam::{Beam, Held, Section}, quantity::{metres, newtons, pascals}};
    /// // 2 kN amid 1.5 m of 50 × 100: 750 N m over Z = 83 333 mm³ is 9.0 N/mm²
    /// let section = Section::Rectangle { width_m: 0.05, height_m: 0.1 };
    /// let beam = Beam { section, length: metres(1.5), held: Held::BothEnds, modulus: pascals(206e9) };
    /// assert!((beam.stress(newtons(2000.0), 0.0).value / 1e6 - 9.0).abs() < 1e-9);
    /// ```
    pub fn stress(&self, load: Force, line_load_n_m: f64) -> Pressure {
        let (length, numbers) = (self.length.si(), self.held.numbers());
        let by_load = load.si() * length / numbers.point_moment;
        let by_line = line_load_n_m * length * length / numbers.line_moment;
        pascals((by_load + by_line) / self.section.modulus_m3())
    }

    /// First natural frequency with the load fast on it, Hz.
    ///
    /// `f = √(k/(m + c·mb))/(2π)` with `k = 3 E I/L³` and `c = 33/140` for one end held, `48 E I/L³` and `17/35` for both:
    /// Rayleigh's method with the shape it bends into under the load. Never below the true one, and at most 1.5 %
    /// above it (with no load at all).
    ///
    /// - `load`: at the free end, or in the middle
    /// - `own_mass`: of the beam; one of the two > 0
    ///
    /// Source: Blevins, *Formulas for Natural Frequency and Mode Shape*; Harris, *Shock and Vibration Handbook*.
    ///
    /// ```
    /// # use counterpoise::{mechanics::beam::{Beam, Held, Section}, quantity::{kilograms, metres, pascals}};
    /// // 40 × 40 × 500 steel: 6.28 kg, k = 3·206e9·0.21333e-6/0.125 = 1.0547e6 N/m over 10 + 1.480 kg: 48.24 Hz
    /// let section = Section::Rectangle { width_m: 0.04, height_m: 0.04 };
    /// let arm = Beam { section, length: metres(0.5), held: Held::OneEnd, modulus: pascals(206e9) };
    /// assert!((arm.frequency_hz(kilograms(10.0), kilograms(6.28)) - 48.24).abs() < 0.01);
    /// ```
    pub fn frequency_hz(&self, load: Mass, own_mass: Mass) -> f64 {
        let (length, numbers) = (self.length.si(), self.held.numbers());
        let spring = numbers.point * self.stiffness() / (length * length * length);
        (spring / (load.si() + numbers.swinging * own_mass.si())).sqrt() / TAU
    }
}

/// How far a round tube or bar is twisted, rad.
///
/// `φ = T L/(G J)`, `J = π (D⁴ - d⁴)/32`.
///
/// - `torque`: along the tube
/// - `length`: ≥ 0
/// - `outer`, `inner`: diameters, `0 ≤ d < D`
/// - `shear_modulus`: > 0
///
/// Source: Beer & Johnston, *Mechanics of Materials*, torsion of circular shafts.
///
/// ```
/// # use counterpoise::{mechanics::beam::twist_rad, quantity::{metres, newton_metres, pascals}};
/// // 300 N m over 1.2 m of 50 × 40 mm: J = 362 265 mm⁴, 360/(79.3e9·3.62265e-7) = 0.012 531 rad
/// let twist = twist_rad(newton_metres(300.0), metres(1.2), metres(0.05), metres(0.04), pascals(79.3e9));
/// assert!((twist - 0.012_531).abs() < 1e-6);
/// ```
pub fn twist_rad(
    torque: Torque,
    length: Length,
    outer: Length,
    inner: Length,
    shear_modulus: Pressure,
) -> f64 {
    let fourth = |d: f64| d * d * d * d;
    let polar = PI * (fourth(outer.si()) - fourth(inner.si())) / 32.0;
    torque.si() * length.si() / (shear_modulus.si() * polar)
}

/// What a beam is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stuff {
    /// Young's modulus in bending, Pa.
    pub modulus_pa: f64,
    /// Density, kg/m³.
    pub density_kg_m3: f64,
    /// Stress that it bears, Pa: yield or proof stress of a metal, working stress of a wood.
    pub strength_pa: f64,
    /// Whether the strength is a working stress, which has its safety in it.
    pub working: bool,
    /// Where the strength is from.
    pub source: &'static str,
}

/// Structural steel of the lowest common grade, since no grade is asked for.
///
/// Modulus and density are the method's; its yield of 350 N/mm² is that of bright bar and machined parts, not of bought section.
pub const STEEL: Stuff = Stuff {
    modulus_pa: STEEL_MODULUS_PA,
    density_kg_m3: STEEL_DENSITY_KG_M3,
    strength_pa: 235e6,
    working: false,
    source: "yield of S235, EN 10025-2, from memory",
};
/// Extruded aluminium section of the common soft alloy.
pub const ALUMINIUM: Stuff = Stuff {
    modulus_pa: 70e9,
    density_kg_m3: 2700.0,
    strength_pa: 150e6,
    working: false,
    source: "proof stress of EN AW-6060 T66, EN 755-2, from memory",
};
/// White oak, dry; the modulus is that of clear wood.
pub const OAK: Stuff = Stuff {
    modulus_pa: 12.27e9,
    density_kg_m3: 700.0,
    strength_pa: 11e6,
    working: true,
    source: "working stress in bending of oak, DIN 1052 (1988), from memory",
};
/// Eastern white pine, dry, the weakest of the common ones; the modulus is that of clear wood.
pub const PINE: Stuff = Stuff {
    modulus_pa: 8.55e9,
    density_kg_m3: 450.0,
    strength_pa: 10e6,
    working: true,
    source: "working stress in bending of softwood, DIN 1052 (1988), from memory",
};

#[cfg(test)]
#[path = "../../tests/unit/mechanics/beam.rs"]
mod tests;
