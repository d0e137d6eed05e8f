//! The field test: which family wins over a grid of jobs, and whether the crossovers lie where a designer expects them.
//!
//! The map of winners is printed by
//! `cargo test --release --test all -- --nocapture field::map_of_winners`.
//!
//! The grid is logarithmic over force, travel and speed, asked for in four uses. A job that nobody would build is left
//! out by the limits of [`grid::Job::is_practical`], which look at the job alone and never at what the program says.

mod grid;
mod map;

use grid::{BESIDE, Job, USES, Use};
use map::Outcome;

/// Every practical job of the grid with what the study says of it.
fn outcomes() -> &'static [(Job, Outcome)] {
    static FIELD: std::sync::OnceLock<Vec<(Job, Outcome)>> = std::sync::OnceLock::new();
    FIELD.get_or_init(|| {
        let jobs = grid::jobs();
        let half = jobs.len().div_ceil(2);
        std::thread::scope(|scope| {
            let halves: Vec<_> = jobs
                .chunks(half)
                .map(|part| {
                    scope.spawn(|| {
                        part.iter()
                            .map(|job| (*job, map::outcome(job)))
                            .collect::<Vec<_>>()
                    })
                })
                .collect();
            halves
                .into_iter()
                .flat_map(|half| half.join().expect("a study never panics"))
                .collect()
        })
    })
}

fn share(of: impl Fn(&Job, &Outcome) -> bool, among: impl Fn(&Job) -> bool) -> f64 {
    let chosen: Vec<_> = outcomes().iter().filter(|(job, _)| among(job)).collect();
    assert!(!chosen.is_empty(), "nothing to count");
    let count = |n: usize| f64::from(u32::try_from(n).expect("a grid is small"));
    count(
        chosen
            .iter()
            .filter(|(job, outcome)| of(job, outcome))
            .count(),
    ) / count(chosen.len())
}

fn on_full_site(job: &Job) -> bool {
    USES.contains(&job.usage)
}

#[test]
fn map_of_winners() {
    let field = outcomes();
    let counted: Vec<_> = field
        .iter()
        .filter(|(job, _)| on_full_site(job))
        .cloned()
        .collect();
    assert!(counted.len() >= 200, "{} jobs", counted.len());
    for usage in USES.into_iter().chain(BESIDE) {
        println!("{}", map::print(usage, field));
    }
    println!("{}", map::counts(&counted));
}

#[test]
fn nearly_every_job_can_be_done_and_most_in_two_ways() {
    let one = share(|_, outcome| !outcome.families.is_empty(), on_full_site);
    let two = share(|_, outcome| outcome.families.len() >= 2, on_full_site);
    assert!(one >= 0.95, "one family at least in {one:.3}");
    assert!(two >= 0.70, "two families at least in {two:.3}");
}

#[test]
fn no_family_rules_and_none_is_idle() {
    for family in ["pneumatic", "hydraulic", "electric_screw", "hand_crank"] {
        let first = share(
            |_, outcome| outcome.first_family() == Some(family),
            |_| true,
        );
        assert!(
            // Ready-made electric cylinders with those that last long are first in half of the grid.
            first > 0.0 && first <= 0.55,
            "{family} is first in {first:.3}"
        );
    }
}

#[test]
fn the_crossovers_lie_where_a_designer_expects_them() {
    let first = |family: &'static str, among: &dyn Fn(&Job) -> bool| {
        share(|_, outcome| outcome.first_family() == Some(family), among)
    };
    let light_and_fast = |job: &Job| {
        job.usage == Use::EndToEnd
            && job.force_n < 500.0
            && job.speed_m_s > 0.1
            && job.travel_m < 0.5
    };
    let air = first("pneumatic", &light_and_fast);
    assert!(air > 0.5, "air, light and fast from end to end: {air:.2}");
    let heavy = |job: &Job| job.force_n > 30_000.0 && job.usage == Use::EndToEnd;
    let oil = first("hydraulic", &heavy);
    assert!(oil > 0.5, "oil, great forces: {oil:.2}");
    let light = |job: &Job| job.force_n < 3_000.0 && job.travel_m < 3.0;
    let oil = first("hydraulic", &light);
    assert!(oil < 0.05, "oil, small forces: {oil:.2}");
    let precise =
        |job: &Job| job.usage == Use::Stops && job.force_n < 10_000.0 && job.travel_m < 2.0;
    let screw = first("electric_screw", &precise);
    assert!(
        screw > 0.8,
        "a screw, precise and with several stops: {screw:.2}"
    );
    let by_hand = |usage: Use| first("hand_crank", &|job: &Job| job.usage == usage);
    let (rare, busy) = (by_hand(Use::RareLift), by_hand(Use::Lift));
    assert!(
        rare > busy,
        "by hand: {rare:.2} of rare lifts, {busy:.2} of busy ones"
    );
    let weights = |usage: Use| {
        share(
            |_, outcome| outcome.counterweighted(),
            |job| job.usage == usage,
        )
    };
    let (rare, busy) = (weights(Use::PoorLift), weights(Use::Lift));
    assert!(
        rare > 0.0,
        "a counterweight is never first in a rare lift on little power"
    );
    assert!(
        rare > busy,
        "counterweights: {rare:.2} of rare lifts, {busy:.2} of busy ones"
    );
}
