//! What a safety engineer would have said of each job against what is said of it, matched by the ids of hazards.
//!
//! What is not said yet, or said without need, stands in `open.txt`, a line each with its cause.

use counterpoise::decide::proving_plan;
use counterpoise::study::{OptionLine, Study};
use serde_json::Value;

use super::FOLDER;
use crate::open_list::open_in;

/// The hazards of ours that say what the list of a job calls so: all of them, or any where they are `|` apart.
const SAID: &[(&str, &[&str])] = &[
    ("falls", &["load.falls"]),
    ("falls_small", &["load.drops"]),
    ("runs_away", &["load.falls"]),
    ("returns_by_itself", &["load.drops"]),
    ("single_means", &["load.one_means"]),
    ("maintenance_prop", &["load.one_means"]),
    ("prop", &["load.one_means"]),
    ("hold_device", &["load.one_means"]),
    ("stored_spring", &["load.pushed", "energy.block"]),
    ("release_on_vent", &["load.pushed", "energy.block"]),
    ("slams", &["load.pushed"]),
    ("wind", &["load.wind"]),
    ("crank_spins", &["crank.spins|jack.alone"]),
    ("crushing", &["load.crushes"]),
    ("crushing_at_bottom", &["load.crushes"]),
    ("crushing_edge", &["load.crushes", "path.guard"]),
    ("shearing_pivot", &["load.crushes"]),
    ("crushing_tool", &["tool.closes"]),
    ("repeat_stroke", &["tool.closes"]),
    ("trapped_person", &["tool.stays"]),
    ("force_kept", &["tool.stays"]),
    ("impact_fast", &["load.strikes"]),
    ("impact", &["load.strikes"]),
    ("nip_points", &["nip.points"]),
    ("jam_release", &["drive.starts"]),
    ("unexpected_start", &["drive.starts"]),
    ("unexpected_start_air", &["drive.starts"]),
    (
        "overspeed_first_stroke",
        &["air.first_stroke|air.first_stroke_gentle"],
    ),
    (
        "first_stroke",
        &["air.first_stroke|air.first_stroke_gentle"],
    ),
    ("stored_air", &["air.stays", "energy.zero"]),
    ("tube_whip", &["air.stays"]),
    ("stored_oil", &["oil.stays", "energy.zero"]),
    (
        "stored_oil_accumulator",
        &["oil.accumulator", "energy.zero"],
    ),
    ("hose_burst", &["counterbalance.alone"]),
    ("hose_burst_injection", &["oil.jet"]),
    ("hot_surfaces_oil", &["oil.hot"]),
    ("rope_break", &["counterweight.rope_breaks"]),
    ("stored_counterweight", &["counterweight.block"]),
    ("counterweight_up", &["counterweight.pulls_up"]),
    ("least_most", &["counterweight.pulls_up"]),
    ("counterweight_path", &["counterweight.runs"]),
    ("tail_weight", &["counterweight.swings"]),
    ("tipping", &["machine.stands_free"]),
    ("moving_it", &["machine.stands_free"]),
    ("electricity", &["electricity.shock"]),
    ("electricity_water", &["electricity.wet"]),
    ("noise", &["noise"]),
    ("explosive_atmosphere", &["site.explosive"]),
    ("sparks_friction", &["site.explosive"]),
    ("units_outside", &["site.explosive"]),
    ("ice", &["site.cold"]),
    ("food", &["site.washed"]),
    ("food_washdown", &["site.washed"]),
];

/// What the study says of any drive, by the words that its lines have.
const OF_THE_STUDY: &[(&str, &str)] = &[
    ("rule_weakened", "Weakened rules"),
    ("standing_line", "Not for lifting or carrying people"),
    ("people_ride", "Not for lifting or carrying people"),
];

/// Words that must not be said, by how the lists of jobs call them.
const NEVER: &[(&str, &str)] = &[
    ("falls", "falls"),
    ("hangs", "hangs"),
    ("nobody may be under it", "nobody may be under"),
    ("nobody under it", "nobody may be under"),
    ("lower the load", "lower the load"),
    ("falls: it rests at the bottom", "falls"),
    ("falls: 300 g as if mortal", "falls"),
    ("falls, hangs, nobody under it", "nobody may be under"),
    ("falls, nobody under it (level)", "nobody may be under"),
    (
        "'the load falls', 'nobody under it': level, 3 kg",
        "nobody may be under",
    ),
    (
        "'falls', 'lower the load', 'nobody under it': the axis is upright",
        "nobody may be under",
    ),
    ("gravity fall", "falls"),
    ("tipping", "tipping"),
    ("two-hand control", "two-hand"),
    ("light curtain", "light curtain"),
    ("prop", "prop"),
    ("catch", "catch"),
    ("lifting tackle", "tackle"),
    ("lifting tackle inspection", "tackle"),
    ("hose burst", "hose"),
    ("explosive", "explode"),
    ("explosive atmosphere", "explode"),
    ("food", "food"),
    ("noise", "ear protection"),
];

/// Whether what a list says `when` goes for an option.
fn goes_for(option: &OptionLine, when: &str) -> bool {
    let has = |kinds: &[&str]| option.parts.iter().any(|part| kinds.contains(&&*part.kind));
    let motors = [
        "servo_motors",
        "stepper_motors",
        "gear_motors",
        "electric_cylinders",
    ];
    let by_hand = has(&["cranks"]);
    match when {
        "any" | "any drive" => true,
        "any powered drive" | "air/electric" => !by_hand,
        "air" => has(&["air_cylinders"]),
        "oil" => has(&["oil_cylinders"]),
        "oil with accumulator or held pressure" => has(&["oil_accumulators"]),
        "hand crank" => by_hand,
        "hand crank with rack" => has(&["racks"]),
        "counterweight" | "tail weight" => &*option.assist != "none",
        "electric" => has(&motors),
        "electric drive, compressor or oil unit" => {
            has(&motors) || has(&["compressors", "oil_power_units"])
        }
        "hold lost" => !option.holds_without_power,
        "drive > 150 N" => option
            .hazards
            .iter()
            .any(|caution| caution.hazard == "path.guard"),
        other => panic!("when is {other:?}?"),
    }
}

/// Whether an option has the hazards that a row asks: of those that `|` parts, one.
fn has_all(option: &OptionLine, row: &[&str]) -> bool {
    let has = |id: &str| option.hazards.iter().any(|caution| caution.hazard == id);
    row.iter().all(|ids| ids.split('|').any(has))
}

/// Whether a thing that must be said is said, of every option that it goes for; none where it goes for none.
fn is_said(study: &Study, thing: &Value) -> Option<bool> {
    let name = thing["hazard"].as_str().expect("a hazard");
    if let Some((_, words)) = OF_THE_STUDY.iter().find(|(known, _)| *known == name) {
        return Some(study.cautions.iter().any(|line| line.contains(words)));
    }
    let when = thing["when"].as_str().expect("a condition");
    let mut meant = study
        .options
        .iter()
        .filter(|option| goes_for(option, when))
        .peekable();
    meant.peek()?;
    let row = SAID.iter().find(|(known, _)| *known == name);
    Some(row.is_some_and(|(_, row)| meant.all(|option| has_all(option, row))))
}

/// Everything that is said of a job beside what stands under every study.
fn all_said(study: &Study) -> String {
    let own = study.options.iter().flat_map(|option| &option.cautions);
    let lines = study.cautions.iter().rev().skip(1);
    own.chain(lines)
        .fold(String::new(), |all, text| all + text + "\n")
        .to_lowercase()
}

/// What of a job is not said, or is said without need, as `open.txt` has it.
fn faults(file: &str, job: &Value, study: &Study) -> (Vec<String>, usize, usize) {
    let name = file.trim_end_matches(".json");
    let mut faults = Vec::new();
    let (mut said, mut asked) = (0, 0);
    for thing in job["must_say"].as_array().expect("a list") {
        let Some(is_said) = is_said(study, thing) else {
            continue;
        };
        asked += 1;
        said += usize::from(is_said);
        if !is_said {
            let hazard = thing["hazard"].as_str().expect("a hazard");
            faults.push(format!("{name} {hazard}"));
        }
    }
    let all = all_said(study);
    for list in ["must_never", "wolf"] {
        for entry in job[list].as_array().expect("a list") {
            let entry = entry.as_str().expect("words");
            let word = NEVER.iter().find(|(known, _)| *known == entry);
            if let Some((_, word)) = word.filter(|(_, word)| all.contains(word)) {
                faults.push(format!("{name} needless {word}"));
            }
        }
    }
    faults.sort();
    faults.dedup();
    (faults, said, asked)
}

#[test]
fn what_must_be_said_is_said_but_for_the_open_list() {
    let (mut found, mut said, mut asked) = (Vec::new(), 0, 0);
    for (file, job, _, study) in super::jobs() {
        let (faults, of_job, asked_of_job) = faults(file, job, study);
        found.extend(faults);
        said += of_job;
        asked += asked_of_job;
    }
    println!("{said} of {asked} said");
    let open = open_in(FOLDER);
    let new: Vec<_> = found
        .iter()
        .filter(|fault| !open.contains_key(*fault))
        .collect();
    let gone: Vec<_> = open.keys().filter(|known| !found.contains(known)).collect();
    assert!(
        new.is_empty() && gone.is_empty(),
        "new: {new:#?}\nno more: {gone:#?}"
    );
}

/// Whatever pushes with everything switched off is let off only when something else carries the load, and no plan takes a drive
/// off a load or a switch out of a press.
#[test]
fn nothing_is_let_off_before_the_load_is_blocked() {
    let mut held = 0;
    for (file, _, job, study) in super::jobs() {
        assert!(
            study.cautions.len() <= 8,
            "{file}: {} lines",
            study.cautions.len()
        );
        for option in &study.options {
            let place = |id: &str| {
                option
                    .hazards
                    .iter()
                    .position(|caution| caution.hazard == id)
            };
            let grave = place("load.falls").or(place("load.pushed"));
            if let (Some(_), Some(zero)) = (grave, place("energy.zero")) {
                let block = place("energy.block").expect("it is blocked");
                assert!(block < zero, "{file} {}: vented first", option.id);
                held += 1;
            }
            let plan = proving_plan(option, job);
            let first = plan.first().expect("a plan");
            if place("load.falls").is_some() {
                assert!(
                    first.reading.contains("blocked, propped or slung"),
                    "{file} {}",
                    option.id
                );
            }
            for proof in &plan {
                let text = format!("{}: {}", proof.measure, proof.reading).to_lowercase();
                for word in ["uncouple", "bypass", "hang a scale", "nobody near"] {
                    assert!(!text.contains(word), "{file} {}: {text}", option.id);
                }
            }
        }
    }
    assert!(held > 10, "{held}");
}
