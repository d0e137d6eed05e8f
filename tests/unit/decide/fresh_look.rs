//! What is tried in place of a job never lets go a load that moves by itself.

use super::*;
use crate::decide::sweep::sweeps;
use crate::demand::{Assist, Axis};
use crate::quantity::G_M_S2;
use crate::requirements;

/// Every job of the tests' folders and the examples, read.
fn jobs() -> Vec<(String, Requirements)> {
    let mut jobs = Vec::new();
    for folder in ["tests/hazards", "tests/signed", "examples"] {
        let path = format!("{}/{folder}", env!("CARGO_MANIFEST_DIR"));
        for entry in std::fs::read_dir(path).expect("the folder is there") {
            let path = entry.expect("a file").path();
            let name = path.file_name().unwrap_or_default().to_string_lossy();
            if !name.ends_with(".json") || name == "jobs.json" {
                continue;
            }
            let bytes = std::fs::read(&path).expect("a file");
            let reading = requirements::read(&bytes, &[]).expect("a sound file");
            jobs.push((format!("{folder}/{name}"), reading.requirements));
        }
    }
    jobs
}

/// The changes of a job that are tried with a word of their own: as prices and as a fresh look.
fn tried(job: &Requirements, worst: &Figures) -> Vec<Change> {
    let priced = sweeps(job, worst, None).into_iter();
    let priced = priced.flat_map(|sweep| sweep.steps.into_iter().flat_map(|step| step.changes));
    let looked = ideas(job, worst).into_iter().flat_map(|idea| idea.changes);
    priced.chain(looked).collect()
}

/// Whether weight moves the load of a job at some place, worked out here: on a slope, or on a level hinge off the plumb line.
fn weight_moves(job: &Requirements) -> bool {
    let [least, most] = match (job.motion.slide(), job.motion.hinge()) {
        (Some(slide), _) => [slide.incline.si().sin(); 2],
        (_, Some(hinge)) if hinge.axis_level => {
            let angle = |end: f64| (end + hinge.angle.si()).cos();
            [angle(hinge.from.si()), angle(hinge.to.si())]
        }
        _ => [0.0; 2],
    };
    load(job).most.si() * G_M_S2 * least.abs().max(most.abs()) > 1e-3
}

#[test]
fn no_load_that_moves_by_itself_is_offered_to_be_let_go() {
    let (mut held, mut hanging, mut let_go) = (0, 0, 0);
    for (name, job) in jobs() {
        let Some(axis) = Axis::of(&job) else {
            continue;
        };
        let worst = axis
            .demand(&job, &Assist::None, job.travel_time_limit_s)
            .worst;
        if weight_moves(&job) {
            hanging += 1;
            let ends = job.power_loss == PowerLoss::MayMove;
            assert!(ends || worst.moves_by_itself(), "{name}: weight moves it");
        }
        let offers = tried(&job, &worst)
            .iter()
            .any(|change| change.field == "power_loss" && change.to == "may_move");
        held += usize::from(worst.moves_by_itself());
        let_go += usize::from(offers);
        assert!(!(offers && worst.moves_by_itself()), "{name}: let go");
    }
    // Neither side is empty: loads that hang, and one that lies still and need not be held.
    assert!(hanging > 20 && held >= hanging - 5, "{held} of {hanging}");
    println!("{let_go} may be let go");
}

#[test]
fn a_load_that_lies_still_may_be_let_go() {
    let text = crate::support::LIFT.replace("90 deg", "0 deg");
    let job = requirements::read(text.as_bytes(), &[]).expect("a sound file");
    let job = job.requirements;
    let axis = Axis::of(&job).expect("a slide");
    let worst = axis.demand(&job, &Assist::None, 20.0).worst;
    assert!(!worst.moves_by_itself());
    let changes = tried(&job, &worst);
    assert!(changes.iter().any(|change| change.to == "may_move"));
}
