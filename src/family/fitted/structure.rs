//! The arm or beam that carries the load: whether it is strong, whether it is stiff, and whether it swings.
//!
//! It is the same whatever drives it, but for how hard the load is sped up and stopped. Strength and stiffness are checks,
//! for they break the arm or a limit of the file. Swinging is a caution: an arm that swings on after a stop harms nothing
//! and comes to rest by itself; it costs time and a clean stop, and whoever asked for neither would lose options for nothing.

use crate::demand::{ArmLoad, Axis, Demand};
use crate::family::hazard::ARM_SWINGS;
use crate::family::{Ask, Check, Drive, Figure, check};
use crate::mechanics::beam::{ALUMINIUM, Beam, Held, OAK, PINE, STEEL, Section, Stuff};
use crate::quantity::{Kind, Si, enough, in_words, kilograms, metres, newtons, pascals, show};
use crate::requirements::{Law, Material, Structure, Task};

/// Changes of the section that gain less than this part are not worth a word.
const WORTH_SAYING: f64 = 0.05;
/// A length is found to this part of the arm's.
const LENGTH_PRECISION: f64 = 1e-4;

/// The arm of a job under the load of a demand.
#[derive(Debug, Clone, Copy)]
struct Arm {
    beam: Beam,
    stuff: Stuff,
    load: ArmLoad,
    /// Greatest deflection, if that is limited, m.
    limit_m: Option<f64>,
}

/// Checks of the arm: deflection, where the file limits it, and stress.
pub fn bending(job: &Task, axis: &Axis, demand: &Demand) -> Vec<Check> {
    Arm::new(job, axis, demand).map_or_else(Vec::new, |arm| arm.checks(job))
}

/// What the arm does at a demand, in a few sentences, and what would make it stiffer.
pub fn remark(job: &Task, axis: &Axis, demand: &Demand) -> Option<String> {
    Arm::new(job, axis, demand).map(|arm| arm.says(job))
}

/// Adds the checks of the arm and the caution that it swings.
pub(in crate::family) fn add(ask: &Ask<'_>, drive: &mut Drive<'_>) {
    let axis = ask.book.axis();
    let Some(arm) = Arm::new(ask.job, axis, &drive.demand) else {
        return;
    };
    drive.checks.extend(arm.checks(ask.job));
    let part = ramp_part(axis.extent().law);
    let ramp_s = part * drive.travel_time_s;
    let (frequency, least) = (arm.frequency_hz(), ask.job.rules.structure_swings_least);
    if frequency * ramp_s < least {
        drive.cautions.push(ARM_SWINGS.with([
            Figure::Number(frequency),
            Figure::Number(ramp_s),
            Figure::Number(frequency * ramp_s),
            Figure::Number(least),
            Figure::Quantity(Kind::Length, arm.swing_m()),
            Figure::Number(enough(least / (frequency * part))),
        ]));
    }
}

/// The part of a stroke from rest to its peak speed, the shorter of both ends.
fn ramp_part(law: Law) -> f64 {
    match law {
        Law::Trapezoid { start, end } => start.min(end),
        _ => 0.5,
    }
}

fn length(si: f64) -> String {
    in_words(Kind::Length, si)
}

fn stuff(material: Material) -> Stuff {
    match material {
        Material::Steel => STEEL,
        Material::Aluminium => ALUMINIUM,
        Material::Oak => OAK,
        Material::Pine => PINE,
    }
}

impl Arm {
    fn new(job: &Task, axis: &Axis, demand: &Demand) -> Option<Self> {
        let structure: Structure = job.structure?;
        let stuff = stuff(structure.material);
        let held = if structure.both_ends {
            Held::BothEnds
        } else {
            Held::OneEnd
        };
        Some(Self {
            beam: Beam {
                section: structure.section,
                length: structure.length,
                held,
                modulus: pascals(stuff.modulus_pa),
            },
            stuff,
            load: axis.arm_load(demand),
            limit_m: structure.deflection_limit.map(Si::si),
        })
    }

    /// The same load on another beam.
    fn on(mut self, change: impl FnOnce(&mut Beam)) -> Self {
        change(&mut self.beam);
        self
    }

    fn kg_per_m(&self) -> f64 {
        self.stuff.density_kg_m3 * self.beam.section.area_m2()
    }

    /// Its own weight with what it feels of the motion, N/m: it is taken to ride along.
    fn line_n_m(&self) -> f64 {
        self.kg_per_m() * self.load.felt_m_s2
    }

    fn deflection_m(&self) -> f64 {
        let load = newtons(self.load.force_n);
        self.beam.deflection(load, self.line_n_m()).si()
    }

    fn stress_pa(&self) -> f64 {
        let load = newtons(self.load.force_n);
        self.beam.stress(load, self.line_n_m()).si()
    }

    fn frequency_hz(&self) -> f64 {
        let own = self.kg_per_m() * self.beam.length.si();
        let load = kilograms(self.load.load_kg);
        self.beam.frequency_hz(load, kilograms(own))
    }

    /// How far an undamped arm swings on when a steady deceleration ends: `2 a/ω²` at the most.
    fn swing_m(&self) -> f64 {
        let omega = core::f64::consts::TAU * self.frequency_hz();
        2.0 * self.load.acceleration_m_s2 / (omega * omega)
    }

    /// The stress that it may bear, Pa.
    fn allowed_pa(&self, job: &Task) -> f64 {
        self.stuff.strength_pa / self.factor(job)
    }

    fn factor(&self, job: &Task) -> f64 {
        if self.stuff.working {
            1.0
        } else {
            job.rules.structure_factor
        }
    }

    /// Deflection, where it is limited, and stress; where one fails both say why.
    fn checks(&self, job: &Task) -> Vec<Check> {
        let mut checks: Vec<Check> = self.deflection_check().into_iter().collect();
        checks.push(self.stress_check(job));
        if checks.iter().any(|check| !check.passes()) {
            let says = self.verdict(job);
            for check in checks.iter_mut().filter(|check| !check.passes()) {
                check.says = Some(says.clone());
            }
        }
        checks
    }

    fn deflection_check(&self) -> Option<Check> {
        let formula = match self.beam.held {
            Held::OneEnd => "F L³/(3 E I) + q L⁴/(8 E I), own weight and motion included",
            Held::BothEnds => "F L³/(48 E I) + 5 q L⁴/(384 E I), own weight and motion included",
        };
        let check = check!(
            "structure.deflection", self.deflection_m() => self.limit_m?, "m";
            formula, "beam tables (Shigley, table A-9); the resultant on the load taken square to the beam";
            ("F", self.load.force_n, "N"), ("q", self.line_n_m(), "N/m"),
            ("L", self.beam.length.si(), "m"), ("E", self.stuff.modulus_pa / 1e9, "GPa"),
            ("I", self.beam.section.second_moment_m4() * 1e12, "mm4"),
        );
        Some(check)
    }

    fn stress_check(&self, job: &Task) -> Check {
        let formula = match self.beam.held {
            Held::OneEnd => "(F L + q L²/2)/Z ≤ strength",
            Held::BothEnds => "(F L/4 + q L²/8)/Z ≤ strength",
        };
        let check = check!(
            "structure.stress", self.stress_pa() / 1e6 => self.stuff.strength_pa / 1e6, "MPa";
            formula, self.stuff.source;
            ("F", self.load.force_n, "N"), ("q", self.line_n_m(), "N/m"),
            ("L", self.beam.length.si(), "m"), ("Z", self.beam.section.modulus_m3() * 1e9, "mm3"),
        )
        .factor(self.factor(job));
        // A working stress has its factor in it.
        if self.stuff.working {
            check
        } else {
            check.rule("structure_factor")
        }
    }

    /// What it does, and what would make it stiffer, each figure computed.
    fn says(&self, job: &Task) -> String {
        let mut says = self.verdict(job);
        let on_edge = self.against(self.beam.section.turned(), "stood on edge");
        for stiffer in [on_edge, self.hollow(), self.shorter()] {
            says.push_str(&stiffer.unwrap_or_default());
        }
        says
    }

    /// Whether it is strong, and whether it is stiff.
    fn verdict(&self, job: &Task) -> String {
        let (stress, allowed) = (self.stress_pa(), self.allowed_pa(job));
        let strong = stress <= allowed * (1.0 + 1e-9);
        let bends = self.deflection_m();
        let limit = self.limit_m.map_or_else(String::new, |limit| {
            let stiff = bends <= limit * (1.0 + 1e-9);
            let verdict = match (strong, stiff) {
                (true, true) => "strong and stiff enough",
                (true, false) => "strong enough and too springy",
                (false, true) => "stiff enough and too weak",
                (false, false) => "too weak and too springy",
            };
            format!(" where {} may be: {verdict}", length(limit))
        });
        format!(
            "under {} the arm is stressed to {} of {} MPa and bends {}{limit}; it swings {} times a second",
            in_words(Kind::Force, self.load.force_n),
            show(stress / 1e6),
            show(allowed / 1e6),
            length(bends),
            show(self.frequency_hz()),
        )
    }

    /// What another section does against this one, if it is worth a word.
    fn against(&self, other: Section, what: &str) -> Option<String> {
        let other = self.on(|beam| beam.section = other);
        let (bends, stress) = (other.deflection_m(), other.stress_pa());
        (bends < self.deflection_m() * (1.0 - WORTH_SAYING)).then(|| {
            format!(
                "; {what} it would bend {} under {} MPa",
                length(bends),
                show(stress / 1e6)
            )
        })
    }

    fn hollow(&self) -> Option<String> {
        let hollow = self.beam.section.hollowed();
        let name = match hollow {
            Section::Box {
                width_m,
                height_m,
                wall_m,
            } => format!(
                "as a box of the same mass, {} wide, {} high and {} thick,",
                length(width_m),
                length(height_m),
                length(wall_m)
            ),
            Section::Tube { diameter_m, wall_m } => format!(
                "as a tube of the same mass, {} across and {} thick,",
                length(diameter_m),
                length(wall_m)
            ),
            Section::Rectangle { .. } | Section::Round { .. } => return None,
        };
        self.against(hollow, &name)
    }

    /// The longest arm that bends no more than it may, rounded down to what is printed.
    fn shorter(&self) -> Option<String> {
        let limit = self.limit_m?;
        if self.deflection_m() <= limit {
            return None;
        }
        let bends = |length_m: f64| {
            let arm = self.on(|beam| beam.length = metres(length_m));
            arm.deflection_m()
        };
        let whole = self.beam.length.si();
        let (mut low, mut high) = (0.0, whole);
        while high - low > LENGTH_PRECISION * whole {
            let middle = f64::midpoint(low, high);
            if bends(middle) <= limit {
                low = middle;
            } else {
                high = middle;
            }
        }
        // Whole millimetres: nobody cuts finer.
        let cut = (low * 1e3).floor() / 1e3;
        (cut > 0.0).then(|| {
            format!(
                "; cut to {} mm it would bend {}",
                (cut * 1e3).round(),
                length(bends(cut))
            )
        })
    }
}

#[cfg(test)]
#[path = "../../../tests/unit/family/fitted/structure.rs"]
mod tests;
