//! No sentence contradicts its numbers: every comparative over the examples, held against the criteria.

use counterpoise::study::{OptionLine, best_of_kinds, study};

/// A comparative, its criterion, and whether it says that ours is the larger number.
const COMPARATIVES: &[(&str, &str, bool)] = &[
    ("slower", "travel_time", true),
    ("faster", "travel_time", false),
    ("dearer to run", "running_cost", true),
    ("cheaper to run", "running_cost", false),
    ("dearer", "purchase", true),
    ("cheaper", "purchase", false),
    ("less exact", "position_error", true),
    ("more exact", "position_error", false),
    ("heavier", "added_mass", true),
    ("lighter", "added_mass", false),
    ("longer closed", "closed_length", true),
    ("shorter closed", "closed_length", false),
    ("louder", "noise", true),
    ("quieter", "noise", false),
    ("more upkeep", "upkeep_hours", true),
    ("less upkeep", "upkeep_hours", false),
    ("more parts to make", "made_parts", true),
    ("fewer parts to make", "made_parts", false),
    ("more parts", "part_count", true),
    ("fewer parts", "part_count", false),
    ("more energy", "energy_per_cycle", true),
    ("less energy", "energy_per_cycle", false),
    ("more life", "life", true),
    ("less life", "life", false),
    ("more at the handle", "hand_force", true),
    ("less at the handle", "hand_force", false),
];

fn raw(option: &OptionLine, criterion: &str) -> f64 {
    option.criteria[criterion].raw
}

/// What is said of one option against another, and how many comparatives there were.
fn hold(name: &str, ours: &OptionLine, theirs: &OptionLine) -> usize {
    let mut count = 0;
    for sentence in ours.gives.iter().chain(&ours.gives_up) {
        let Some((_, criterion, larger)) = COMPARATIVES
            .iter()
            .find(|(words, _, _)| sentence.contains(words))
        else {
            assert!(
                sentence.contains("power"),
                "{name}: no comparative known in {sentence:?}"
            );
            continue;
        };
        let apart = raw(ours, criterion) - raw(theirs, criterion);
        assert_eq!(apart > 0.0, *larger, "{name}: {} is {sentence:?}", ours.id);
        let better = (apart > 0.0) == (*criterion == "life");
        assert_eq!(
            ours.gives.contains(sentence),
            better,
            "{name}: {sentence:?} on the wrong side"
        );
        count += 1;
    }
    count
}

#[test]
fn comparatives_are_those_of_the_criteria() {
    let catalog = counterpoise::catalog::built_in().expect("the catalog is sound");
    let mut count = 0;
    for path in
        std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/examples")).expect("examples")
    {
        let path = path.expect("a file").path();
        if path.extension().is_none_or(|end| end != "json") {
            continue;
        }
        let name = path
            .file_stem()
            .expect("a name")
            .to_string_lossy()
            .into_owned();
        let made = study(&super::support::example(&name, &[]), catalog).expect("it is ranked");
        // Two examples are there to be ruled out.
        let Some(first) = made.options.first() else {
            continue;
        };
        for option in &made.options {
            let rival = if option.id == first.id {
                best_of_kinds(&made.options).nth(1)
            } else {
                Some(first)
            };
            count += rival.map_or(0, |rival| hold(&name, option, rival));
        }
    }
    assert!(count > 500, "{count} comparatives");
}
