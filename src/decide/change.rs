//! The changes of a job that are tried: fields of the file with what they are and what they are to be.
//!
//! [`Resolver`](super::Resolver) is the one place that makes the study again with them.

use crate::quantity::{Kind, Length, Si, exact, in_words, to_digits};
use crate::requirements::{CriterionRow, Hinge, LoadRange, PowerLoss, Requirements, Stops};
use crate::study::Change;

/// Field of the greatest load.
pub(super) const LOAD: &str = "motion.load.most";
/// Field of the distance of a hinged load's centre of mass from the hinge.
pub(super) const RADIUS: &str = "motion.centre_of_mass.radius";
/// Field of how far an arm may bend.
pub(super) const DEFLECTION: &str = "structure.deflection.limit";
/// Where a load may be asked to stop, as the file says it, the easiest first.
pub(super) const STOPS: [&str; 3] = ["ends", "several", "anywhere"];
/// What a load may do when the power fails, as the file says it, the easier first.
pub(super) const POWER_LOSS: [&str; 2] = ["may_move", "hold"];

/// An inertia this near to that of a uniform bar is the one that the file leaves to be worked out.
const SAME: f64 = 1e-6;

/// The load of a job, whichever way it goes.
pub(super) fn load(job: &Requirements) -> LoadRange {
    job.motion.kind().load()
}

/// The hinge, where the load swings.
pub(super) fn hinge(job: &Requirements) -> Option<&Hinge> {
    job.motion.hinge()
}

/// The place of a job's stops in their list.
pub(super) fn stops(job: &Requirements) -> usize {
    match job.stops {
        Stops::Ends => 0,
        Stops::Several => 1,
        Stops::Anywhere => 2,
    }
}

/// The place of what a job's load may do when the power fails, in its list.
pub(super) fn power_loss(job: &Requirements) -> usize {
    usize::from(job.power_loss == PowerLoss::Hold)
}

/// A load that is held when the power fails let go.
pub(super) fn may_move() -> Change {
    let [to, from] = POWER_LOSS;
    Change::new("power_loss", from, to)
}

/// A size of a kind made another.
pub(super) fn resized(field: &str, kind: Kind, from: f64, to: f64) -> Change {
    Change::new(field, in_words(kind, from), in_words(kind, to))
}

/// A length as a file may have it, to the last digit that counts.
pub(super) fn exactly(size: Length) -> String {
    format!("{} m", exact(to_digits(size.si(), 6)))
}

/// A limit made another.
pub(super) fn limit_to(row: &CriterionRow, from: f64, to: f64) -> Change {
    let [from, to] = [from, to].map(|size| row.measure.words(size));
    Change::new(row.limit(), from, to)
}

/// A part of the greatest load: the least goes down with it where it must, and an inertia that the file states goes with its mass.
pub(super) fn load_changes(job: &Requirements, part: f64) -> Vec<Change> {
    let load = load(job);
    let (least, most) = (load.least.si(), load.most.si());
    let to = most * part;
    let mut changes = vec![resized(LOAD, Kind::Mass, most, to)];
    if to <= least {
        changes.push(resized("motion.load.least", Kind::Mass, least, to));
    }
    changes.extend(inertia(job, part));
    changes
}

/// The centre of mass of a hinged load at a part of its radius; an inertia that the file states goes with the square.
pub(super) fn nearer(job: &Requirements, part: f64) -> Option<Vec<Change>> {
    let radius_m = hinge(job)?.radius.si();
    let mut changes = vec![resized(RADIUS, Kind::Length, radius_m, radius_m * part)];
    changes.extend(inertia(job, part * part));
    Some(changes)
}

/// A part of the inertia that a file states.
fn inertia(job: &Requirements, part: f64) -> Option<Change> {
    let hinge = hinge(job)?;
    let (radius_m, stated) = (hinge.radius.si(), hinge.inertia.si());
    let bar = hinge.load.most.si() * radius_m * radius_m / 3.0;
    let [from, to] = [stated, stated * part].map(|kg_m2| format!("{} kg m2", exact(kg_m2)));
    let is_stated = (stated - bar).abs() > SAME * bar;
    is_stated.then(|| Change::new("motion.inertia", from, to))
}
