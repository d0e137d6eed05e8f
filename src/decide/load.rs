//! The load made lighter, heavier or nearer to its hinge: what is to be set for it.

use crate::quantity::{Kind, Si, exact, in_words};
use crate::requirements::{Hinge, LoadRange, Requirements};
use crate::study::Change;

/// An inertia this near to that of a uniform bar is the one that the file leaves to be worked out.
const SAME: f64 = 1e-6;

/// The load of a job, whichever way it goes.
pub(super) fn of(job: &Requirements) -> LoadRange {
    job.motion.kind().load()
}

/// The hinge, where the load swings.
pub(super) fn hinge(job: &Requirements) -> Option<&Hinge> {
    job.motion.hinge()
}

/// A field, what it is, and what it is to be.
pub(super) fn change(field: &str, from: String, to: &str) -> Change {
    Change {
        field: field.into(),
        from,
        to: to.into(),
    }
}

/// A part of the greatest load: the least goes down with it where it must, and an inertia that the file states goes with its mass.
pub(super) fn scaled(job: &Requirements, part: f64) -> Vec<Change> {
    let load = of(job);
    let (least, most) = (load.least.si(), load.most.si());
    let to = in_words(Kind::Mass, most * part);
    let mut changes = vec![change("motion.load.most", in_words(Kind::Mass, most), &to)];
    if most * part <= least {
        changes.push(change(
            "motion.load.least",
            in_words(Kind::Mass, least),
            &to,
        ));
    }
    let bar = |hinge: &Hinge| most * hinge.radius.si() * hinge.radius.si() / 3.0;
    let inertia = |kg_m2: f64| format!("{} kg m2", exact(kg_m2));
    if let Some(hinge) = hinge(job)
        && (hinge.inertia.si() - bar(hinge)).abs() > SAME * bar(hinge)
    {
        let kg_m2 = hinge.inertia.si();
        changes.push(change(
            "motion.inertia",
            inertia(kg_m2),
            &inertia(kg_m2 * part),
        ));
    }
    changes
}

/// The centre of mass of a hinged load at a part of its radius; an inertia that the file states goes with the square.
pub(super) fn nearer(job: &Requirements, part: f64) -> Option<Vec<Change>> {
    let radius_m = hinge(job)?.radius.si();
    let told = |radius_m| in_words(Kind::Length, radius_m);
    let mut changes = vec![change(
        "motion.centre_of_mass.radius",
        told(radius_m),
        &told(radius_m * part),
    )];
    let squared = scaled(job, part * part);
    changes.extend(
        squared
            .into_iter()
            .filter(|change| change.field == "motion.inertia"),
    );
    Some(changes)
}

/// As for `--set`.
pub(super) fn sets(changes: &[Change]) -> Vec<(String, String)> {
    let set = |change: &Change| (change.field.clone(), change.to.clone());
    changes.iter().map(set).collect()
}
