//! Unit tests of `family::choose::figures`.

use super::*;
use crate::support::{about, axis};

#[test]
fn only_what_the_file_has_a_goal_for_counts() {
    let mut job = about(&axis());
    job.goals.clear();
    job.rates.horizon_years = 10.0;
    let light = Merits {
        purchase: 20.0,
        running: 1.0,
        mass_kg: 1.0,
        ..Merits::NONE
    };
    let cheap = Merits {
        purchase: 11.0,
        running: 1.5,
        mass_kg: 2.0,
        ..Merits::NONE
    };
    let goals = Goals::of(&Brief::new(&job), false);
    // 11 + 10·1.5 = 26 is less than 20 + 10·1 = 30, and nobody asks for mass.
    assert!(goals.of_part(cheap).no_worse(&goals.of_part(light)));
    assert!(!goals.of_part(light).no_worse(&goals.of_part(cheap)));
    // A drive is told apart by both kinds of money.
    assert!(!goals.of_drive(cheap).no_worse(&goals.of_drive(light)));
    let goal = crate::requirements::Goal {
        limit: 5.0,
        reward: None,
    };
    job.goals.insert(Criterion::AddedMass, goal);
    let goals = Goals::of(&Brief::new(&job), false);
    assert!(!goals.of_part(cheap).no_worse(&goals.of_part(light)));
    job.goals.clear();
    job.goals.insert(Criterion::RunningCost, goal);
    let goals = Goals::of(&Brief::new(&job), false);
    assert!(!goals.of_part(cheap).no_worse(&goals.of_part(light)));
}
