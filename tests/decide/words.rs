//! No sentence contradicts its numbers: every comparative over the examples, compared with the criteria.

use anstyle::Style;
use counterpoise::decide::{Resolver, course, proving_plan};
use counterpoise::report::{Page, screen, sheet};
use counterpoise::study::{OptionLine, best_of_kinds, study};

use super::printed::{EXAMPLES, with};

/// A comparative, its criterion, and whether it says that ours is the larger number.
const COMPARATIVES: &[(&str, &str, bool)] = &[
    ("slower", "travel_time", true),
    ("faster", "travel_time", false),
    ("more expensive to run", "running_cost", true),
    ("cheaper to run", "running_cost", false),
    ("more expensive", "purchase", true),
    ("cheaper", "purchase", false),
    ("less exact", "position_error", true),
    ("more exact", "position_error", false),
    ("heavier", "added_mass", true),
    ("lighter", "added_mass", false),
    ("longer closed", "closed_length", true),
    ("shorter closed", "closed_length", false),
    ("louder", "noise", true),
    ("quieter", "noise", false),
    ("more maintenance", "maintenance_hours", true),
    ("less maintenance", "maintenance_hours", false),
    ("more parts to make", "custom_parts", true),
    ("fewer parts to make", "custom_parts", false),
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
        let made = study(&crate::support::example(&name, &[]), catalog).expect("it is ranked");
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

const PAGE: Page = Page {
    width: 500,
    heading: Style::new(),
};

/// A worth more than ten times what it is, is no advice, whatever it would bring.
#[test]
fn no_worth_beyond_ten_times_is_advised() {
    let mut advised = 0;
    for name in EXAMPLES {
        let told = with(name, |resolver| {
            screen(resolver.study(), resolver.job(), PAGE)
        });
        for part in told.split(" were worth ").skip(1) {
            let number = |text: &str| -> f64 {
                let word = text.split([' ', ',', '.']).next().expect("a number");
                word.parse().unwrap_or_else(|_| panic!("{name}: {text}"))
            };
            let (then, rest) = part.split_once(" EUR instead of ").expect("both worths");
            let (then, now): (f64, f64) = (then.parse().expect("a worth"), number(rest));
            assert!(then <= 10.0 * now, "{name}: {then} for {now}");
            advised += 1;
        }
    }
    assert!(advised >= 4, "{advised} worths over the examples");
    let cellar = with("cellar-shutter", |resolver| {
        screen(resolver.study(), resolver.job(), PAGE)
    });
    assert!(
        cellar.contains("No worth up to ten times what it is lets another drive type win."),
        "{cellar}"
    );
}

/// No number on a sheet has more digits than anybody reads, and no zero a sign.
#[test]
fn numbers_of_a_sheet_are_short() {
    for name in EXAMPLES {
        let told = with(name, |resolver| {
            let best = best_of_kinds(&resolver.study().options);
            let sheets = best.map(|option| {
                let plan = proving_plan(option, resolver.job());
                let forces = course(option, resolver.job());
                sheet(
                    resolver.study(),
                    option,
                    resolver.job(),
                    &plan,
                    forces.as_ref(),
                    PAGE,
                )
            });
            sheets.collect::<String>()
        });
        for word in told.split([' ', '\n', ',', ';', '(', ')']) {
            let number = word.trim_start_matches('-').trim_end_matches(['.', ':']);
            let is_number =
                number.contains('.') && number.chars().all(|c| c.is_ascii_digit() || c == '.');
            let digits = number
                .trim_start_matches(['0', '.'])
                .chars()
                .filter(char::is_ascii_digit);
            assert!(!is_number || digits.count() <= 7, "{name}: {word}");
            let is_zero = is_number && number.chars().all(|c| matches!(c, '0' | '.'));
            assert!(!(is_zero && word.starts_with('-')), "{name}: {word}");
        }
    }
}

/// What a person cannot give is named, not the tooth of the smallest rack, which a larger one has.
#[test]
fn a_crank_is_out_by_what_no_other_part_mends() {
    for (name, hides) in [
        ("backdrop-lift", "rack.tooth"),
        ("dairy-door", "rack.tooth"),
    ] {
        let fails: Vec<String> = with(name, |resolver| {
            let mut lines = resolver.study().ruled_out.iter();
            let line = lines.find(|line| line.family == "hand_crank" && line.assist == "none");
            let fails = &line.expect("it is ruled out").fails;
            fails.iter().map(|fail| fail.check.clone()).collect()
        });
        assert!(!fails.contains(&hides.to_owned()), "{name}: {fails:?}");
        assert!(
            fails.iter().any(|id| id == "crank.power"),
            "{name}: {fails:?}"
        );
    }
}

/// How far a stop goes is told as what it is: the rule's, unless the file asks for it.
#[test]
fn a_stop_by_the_rule_is_no_forecast() {
    let base = r#"{ "length": "1.2 m", "width": "0.8 m", "mass": "900 kg", "centre_height": "0.4 m", "load_reach": "0 m",
        "load_height": "0.7 m", "stop_distance": "10 mm", "bolted": true }"#;
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/gutter-rolls.json");
    let bytes = std::fs::read(path).expect("the example is there");
    let catalog = counterpoise::catalog::built_in().expect("the catalog is sound");
    for asked in [false, true] {
        let sets = [("base".to_owned(), base.to_owned())];
        let sets = if asked { sets.as_slice() } else { &[] };
        let resolver = Resolver::new(&bytes, sets, catalog).expect("it is ranked");
        let plan = proving_plan(&resolver.study().options[0], resolver.job());
        let stop = plan
            .into_iter()
            .find(|proof| proof.measure.starts_with("Emergency stop from half"));
        let reading = stop.expect("a stop is tried").reading;
        assert_eq!(reading.contains("no forecast"), !asked, "{reading}");
        assert_eq!(
            reading.contains("base.stop_distance asks"),
            asked,
            "{reading}"
        );
    }
}

/// Where the order of the worths alone puts another kind first, it is said; where all agrees, one sentence says so.
#[test]
fn a_second_opinion_is_said_in_plain_words() {
    let told = |name: &str, sets: &[(String, String)]| {
        let path = format!("{}/examples/{name}.json", env!("CARGO_MANIFEST_DIR"));
        let bytes = std::fs::read(path).expect("the example is there");
        let catalog = counterpoise::catalog::built_in().expect("the catalog is sound");
        let resolver = Resolver::new(&bytes, sets, catalog).expect("it is ranked");
        screen(resolver.study(), resolver.job(), PAGE)
    };
    let worth = ("goals.position_error.worth".to_owned(), "1300".to_owned());
    let fence = told("tile-fence", &[worth]);
    assert!(
        fence.contains("Knowing only the order of your worths, not their sizes, the first is electric cylinder, ball screw, under all three common ways to turn the order into weights. Of all ways to divide 1760 EUR among the goals, 29 % favour the first over the second."),
        "{fence}"
    );
    assert!(
        fence.contains("the first is electric cylinder, ball screw."),
        "{fence}"
    );
    let door = told("kiln-door", &[]);
    assert!(
        door.contains("If only the order of your worths is right, it stays first under all three common ways to turn an order into weights. It beats the second however 480 EUR is divided among the goals."),
        "{door}"
    );
    assert!(!door.contains("Ranked by closeness"), "{door}");
}
