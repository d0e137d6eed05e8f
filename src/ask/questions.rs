//! The questions: all that is asked, in the order it is asked, in one place.
//!
//! To ask something more, add an entry here; goals have their lines in [`super::goals`].

use super::draft::Draft;
use super::question::{Both, Changes, Easier, Form, Otherwise, Question, choice, one_text};
use super::{goals, place, reads, swing};
use crate::quantity::{Kind, exact, nine_digits, to_digits};
use crate::requirements::Criterion;

/// Every question, in order.
pub fn questions() -> impl DoubleEndedIterator<Item = &'static Question> {
    QUESTIONS.iter().chain(goals::GOALS)
}

/// The question of a name.
pub fn question(id: &str) -> Option<&'static Question> {
    questions().find(|question| question.id == id)
}

/// The parts of the file that can be asked again.
pub fn parts() -> Vec<&'static str> {
    let mut parts: Vec<&str> = Vec::new();
    for question in questions() {
        if !parts.contains(&question.part) {
            parts.push(question.part);
        }
    }
    parts
}

/// Most prompts from the first question to the ranked table, the offer to sharpen included, for a plain slide.
pub const MOST: usize = 16;

/// A usual travel time, or less where the cycle leaves less: a third of it for the longest, a tenth for the target.
fn time_that_fits(draft: &Draft) -> Option<String> {
    let cycles = draft.number("timing.cycles_per_hour", None)?;
    let longest = to_digits((3600.0 / cycles / 3.0).min(20.0), 2);
    let target = to_digits(0.3 * longest, 2);
    Some(format!(
        "{} s, {} s, don't know",
        exact(longest),
        exact(target)
    ))
}

fn always(_: &Question, _: &Draft) -> bool {
    true
}

/// A question on which the others are modelled: typed, always asked, answered where the file has its field.
pub(super) const PLAIN: Question = Question {
    id: "",
    part: "",
    asks: "",
    why: "",
    more: "",
    like: one_text(""),
    usual: one_text(""),
    typical: one_text(""),
    worked: None,
    open: true,
    defaulted: false,
    form: Form::Line,
    applies: always,
    answered: |question, draft| draft.get(question.id).is_some(),
    present: |question, draft| draft.typed(question.id),
    read: reads::word,
    otherwise: None,
    mechanics: false,
    easier: None,
    goal: None,
    listed: "",
};

/// What the process does beside the weight.
const PROCESS: Question = Question {
    part: "motion",
    typical: one_text("none"),
    defaulted: true,
    answered: |_, draft| draft.get("motion.process").is_some(),
    present: reads::push_typed,
    read: reads::push,
    mechanics: true,
    ..PLAIN
};

static QUESTIONS: &[Question] = &[
    Question {
        id: "title",
        part: "job",
        asks: "What is it that moves? A few words.",
        why: "It heads the study, and names the file if you gave no name.",
        more: "Say what moves and what for, as you would to a colleague.",
        like: one_text("Kiln door hoist"),
        typical: one_text("Untitled job"),
        read: reads::title,
        ..PLAIN
    },
    Question {
        id: "travel",
        part: "motion",
        asks: "How far does it move, and which way? On a hinge: from which angle to which?",
        why: "Upward the whole weight is carried, level only friction; long strokes make screws whip and rods buckle.",
        more: "On a line: how far, and the way of the outward stroke: up, level, down, or its angle above level such as 30 deg. \
            On a hinge: the arm's angles above level, from the lower to the upper, and upright if the hinge stands like a door's. \
            Answer in inches or feet once, and everything after is shown in inches, pounds and feet.",
        like: Both(
            "900 mm, up, or 0 deg to 78 deg",
            "35 in, up, or 0 deg to 78 deg",
        ),
        usual: Both(
            "100 mm to 2 m, or 60 deg to 120 deg of swing",
            "4 in to 6 ft, or 60 deg to 120 deg of swing",
        ),
        typical: Both("500 mm, level", "20 in, level"),
        answered: |_, draft| {
            let has = |path| draft.get(path).is_some();
            (has("motion.travel") && has("motion.incline"))
                || (has("motion.from") && has("motion.to"))
        },
        present: reads::travel_typed,
        read: reads::travel,
        mechanics: true,
        ..PLAIN
    },
    Question {
        id: "load",
        part: "motion",
        asks: "What does it weigh, least and most, carriage included?",
        why: "The most sets the strength; the least matters for a counterweight, which must suit both.",
        more: "Everything that moves with the load counts: carriage, gripper, frame. One number if it never changes.",
        like: Both("80 kg, 85 kg", "175 lb, 187 lb"),
        usual: Both("1 kg to 500 kg", "2 lb to 1000 lb"),
        typical: Both("20 kg, 50 kg", "45 lb, 110 lb"),
        answered: |_, draft| draft.get("motion.load.most").is_some(),
        present: |_, draft| {
            let most = draft.typed("motion.load.most")?;
            Some(match draft.typed("motion.load.least") {
                Some(least) => format!("{least}, {most}"),
                None => most,
            })
        },
        read: reads::load,
        mechanics: true,
        ..PLAIN
    },
    Question {
        id: "centre",
        part: "motion",
        asks: "How far from the hinge is its centre of mass?",
        why: "Weight times that distance is what the drive must turn; it changes over the swing.",
        more: "Of arm and load together; a plain lid's is half its depth off. After it, if you like, the angle by which it \
            lies above the arm's own line, and how far behind the hinge a weight on a tail could stand, if there is room for one.",
        like: Both(
            "420 mm, or 420 mm, 4 deg, or with a tail 420 mm, 4 deg, 300 mm",
            "17 in, or 17 in, 4 deg, or with a tail 17 in, 4 deg, 12 in",
        ),
        usual: Both("200 mm to 2 m", "8 in to 6 ft"),
        typical: Both("400 mm", "16 in"),
        applies: swing::hinged,
        answered: |_, draft| draft.get("motion.centre_of_mass.radius").is_some(),
        present: swing::centre_typed,
        read: swing::centre,
        mechanics: true,
        ..PLAIN
    },
    Question {
        id: "pins",
        part: "motion",
        asks: "Where is the drive pinned: to the base, and to the arm?",
        why: "Where the drive is pinned decides its force, its stroke and its speed at every angle.",
        more: "Measured from the hinge with the arm level, along the arm counting forward and up counting positive: level and \
            upright to the pin on the base, then level and upright to the pin on the arm. Not built yet? Try the pair in \
            the example, look at the table of the swing, and move them.",
        like: Both(
            "240 mm, -560 mm, 190 mm, -20 mm",
            "9.5 in, -22 in, 7.5 in, -0.8 in",
        ),
        usual: one_text(
            "the arm's pin a third to a half of the way to the centre of mass, the base's square below it",
        ),
        worked: Some(swing::pins_that_fit),
        open: false,
        applies: swing::hinged,
        answered: |_, draft| {
            draft.get("motion.anchors.base").is_some() && draft.get("motion.anchors.arm").is_some()
        },
        present: swing::pins_typed,
        read: swing::pins,
        mechanics: true,
        ..PLAIN
    },
    Question {
        id: "torque",
        part: "motion",
        asks: "Does anything besides its weight turn against it?",
        why: "Springs, wind, seals and stiff hinges come on top of the load.",
        more: "Up to three torques about the hinge: against the outward swing, against the return, and to be held while it \
            rests. Each is taken to be the same all along; for one that changes on the way write motion.process in the file.",
        like: Both(
            "none, or 5 Nm, or 5 Nm, 0 Nm, 40 Nm",
            "none, or 4 lbf ft, or 4 lbf ft, 0 lbf ft, 30 lbf ft",
        ),
        usual: one_text("none for lids and flaps"),
        applies: swing::hinged,
        ..PROCESS
    },
    Question {
        id: "push",
        part: "motion",
        asks: "Does it push or pull against anything besides its weight?",
        why: "Pressing, cutting, shoving and springs come on top of the load.",
        more: "Up to three forces: against the outward stroke, against the return, and to be held while it rests. \
            Each is taken to be the same all along; for one that changes on the way write motion.process in the file.",
        like: Both(
            "none, or 15 N, or 15 N, 0 N, 2 kN",
            "none, or 3 lbf, or 3 lbf, 0 lbf, 450 lbf",
        ),
        usual: Both(
            "none for lifting and shifting, 1 kN to 50 kN for a press",
            "none for lifting and shifting, 200 lbf to 10000 lbf for a press",
        ),
        applies: swing::slides,
        ..PROCESS
    },
    Question {
        id: "dwell",
        part: "motion",
        asks: "How long is that held at the far end?",
        why: "A motor or pump that holds for minutes heats; a lock or trapped oil does not.",
        more: "From the end of the outward stroke to the start of the return.",
        like: one_text("30 s"),
        usual: one_text("5 s to 20 min"),
        typical: one_text("10 s"),
        applies: |_, draft| reads::is_held(draft),
        answered: |_, draft| draft.get("timing.rest_out").is_some(),
        present: |_, draft| draft.typed("timing.rest_out"),
        read: reads::dwell,
        mechanics: true,
        ..PLAIN
    },
    Question {
        id: "rate",
        part: "timing",
        asks: "How often does it go out and back, how many hours a day, days a year?",
        why: "It decides wear, heat, the bill for energy, and what a saved second is worth.",
        more: "An hour, a minute or a day: 4 an hour, 10 a minute, 2 a day. Hours and days may be left out: 8 and 220.",
        like: one_text("4 an hour, 8, 220"),
        usual: one_text("2 a day for a door, 600 an hour for a machine that feeds parts"),
        typical: one_text("10 an hour, 8, 220"),
        answered: |_, draft| draft.get("timing.cycles_per_hour").is_some(),
        present: reads::rate_typed,
        read: reads::rate,
        mechanics: true,
        ..PLAIN
    },
    Question {
        id: "money",
        part: "money",
        asks: "What may it cost to buy and fit, and what does an hour of work cost?",
        why: "More expensive than the first number is out; hours to make, fit, tend and wait are counted at the second.",
        more: "The budget with its currency, parts and labour together, then money an hour. none EUR sets no limit. \
            The parts' prices count as being in that currency; rates.per_catalog_unit in the file changes that.",
        like: Both("4000 EUR, 40", "4000 USD, 40"),
        usual: one_text("500 to 10000, and 25 to 100 an hour"),
        typical: Both("none EUR, 40", "none USD, 40"),
        open: false,
        answered: |_, draft| {
            draft.get("currency").is_some() && draft.get("rates.labour_per_hour").is_some()
        },
        present: reads::money_typed,
        read: reads::money,
        easier: Some(Easier {
            changes: |_, _| Changes::default().without("goals.purchase"),
            says: "money were no limit",
        }),
        ..PLAIN
    },
    Question {
        id: "travel_time",
        part: "goals",
        asks: "How long may one stroke take?",
        why: "Speed costs most of all: power grows with it, and past some speed whole kinds of drive are out.",
        more: "The travel time is that of either stroke, out or back. The last two parts may be don't know. \
            A fourth part says how sure you are of the money: little, fairly or very.",
        usual: one_text("1 s to 60 s"),
        typical: one_text("20 s, 6 s, don't know"),
        worked: Some(time_that_fits),
        open: false,
        answered: goals::answered,
        present: goals::present,
        read: goals::read,
        mechanics: true,
        easier: Some(Easier {
            changes: |_, draft| {
                let limit = draft
                    .number("goals.travel_time.limit", Some(Kind::Time))
                    .unwrap_or(1.0);
                let double = format!("{} s", exact(nine_digits(2.0 * limit)));
                Changes::default().with("goals.travel_time.limit", double)
            },
            says: "it might take twice as long",
        }),
        goal: Some(Criterion::TravelTime),
        ..PLAIN
    },
    Question {
        id: "stops",
        part: "motion",
        asks: "Where must it be able to stop?",
        why: "Stops at the ends cost a buffer each; stops between cost a drive that knows where it is.",
        more: "Ends: it runs from one end to the other. Several: at some places that are set once. Anywhere: wherever one likes.",
        usual: one_text("most lifts, doors and pushers need only their two ends"),
        typical: one_text("ends"),
        defaulted: true,
        form: Form::One(|_| {
            vec![
                choice("ends", "only at its two ends"),
                choice("several", "at several fixed places"),
                choice("anywhere", "anywhere between"),
            ]
        }),
        present: reads::word_typed,
        easier: Some(Easier {
            changes: |_, _| Changes::default().with("stops", "ends"),
            says: "its two ends were enough",
        }),
        ..PLAIN
    },
    Question {
        id: "power_loss",
        part: "motion",
        asks: "What must it do when the power fails?",
        why: "Holding takes a brake, a lock or a screw that does not run back.",
        more: "What hangs, rolls or swings by itself is not lowered when the power fails: let go, it falls. Whatever anybody may be \
            under or in the way of, or whatever breaks when it drops, must hold.",
        usual: one_text("whatever hangs, rolls or swings by itself holds"),
        typical: one_text("hold"),
        defaulted: true,
        form: Form::One(|_| {
            vec![
                choice("hold", "stay where it is"),
                choice(
                    "may_move",
                    "it may fall or be pushed, with nobody in its way",
                ),
            ]
        }),
        applies: |_, draft| !reads::lies_level(draft) || reads::is_held(draft),
        present: reads::word_typed,
        otherwise: Some(Otherwise {
            path: "power_loss",
            value: "may_move",
            says: "It lies level and nothing pulls at it, so it is not asked what it does when the power fails: it stays.",
        }),
        // Asked of loads that move by themselves: what letting go would save is not worked out.
        ..PLAIN
    },
    Question {
        id: "site",
        part: "site",
        asks: "What does the site have, and what conditions must the drive stand?",
        why: "A drive needs what it runs on, and must withstand what falls on it.",
        more: "Name all that are true. Without air a compressor is bought; without mains there is no motor and no compressor.",
        usual: one_text("a workshop has mains, often air, and dust"),
        typical: one_text("mains"),
        defaulted: true,
        form: Form::Many(place::choices),
        answered: |_, draft| draft.get("site.dirt").is_some(),
        present: place::site_typed,
        read: place::site,
        easier: Some(Easier {
            changes: |_, draft| place::easy(draft),
            says: "the place had mains and air and nothing in the way",
        }),
        ..PLAIN
    },
    Question {
        id: "supply",
        part: "site",
        asks: "What do the supplies give?",
        why: "More than they give cannot be drawn: a socket limits motors and pumps, the air line its cylinders.",
        more: "Voltage and power of the mains, pressure and flow of the air, in any order; what you leave out is taken as usual.",
        like: Both(
            "230 V, 2.3 kW, 6 bar, 150 L/min",
            "120 V, 1.8 kW, 90 psi, 5 cfm",
        ),
        usual: Both(
            "a socket gives 2.3 kW, a small compressor 150 L/min at 6 bar",
            "an outlet gives 1.8 kW, a small compressor 5 cfm at 90 psi",
        ),
        typical: Both(
            "230 V, 2.3 kW, 6 bar, 150 L/min",
            "120 V, 1.8 kW, 90 psi, 5 cfm",
        ),
        defaulted: true,
        applies: |_, draft| draft.get("site.mains").is_some() || draft.get("site.air").is_some(),
        answered: place::are_supplies_whole,
        present: place::supply_typed,
        read: place::supply,
        easier: Some(Easier {
            changes: |_, draft| place::plenty(draft),
            says: "the supplies gave any amount",
        }),
        ..PLAIN
    },
    Question {
        id: "goals",
        part: "goals",
        asks: "What else matters, besides time and money?",
        why: "What is not named is not paid for. Each that you name is asked for in full.",
        more: "Name what you would really pay for. If you name more than two, you are asked which two matter most.",
        usual: one_text("two or three"),
        typical: one_text("noise, added_mass"),
        form: Form::Many(goals::choices),
        answered: goals::is_list_answered,
        present: goals::list_typed,
        read: goals::list,
        ..PLAIN
    },
    Question {
        id: "first_two",
        part: "goals",
        asks: "Which two of these matter most?",
        why: "They are asked in full; the others take typical values, which are listed as such.",
        more: "You can go through the others too, later: counterpoise ask FILE --only goals.",
        usual: one_text("those that you would pay most for"),
        typical: one_text(""),
        open: false,
        form: Form::Many(goals::open_choices),
        applies: |_, draft| draft.open_goals().len() > 2,
        answered: |_, _| false,
        present: |_, _| None,
        read: goals::first_two,
        ..PLAIN
    },
];
