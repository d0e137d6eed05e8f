//! The job seen another way: what an experienced colleague would try, tried.
//!
//! Each is the study made again with one thing changed, or a kind of train that the study already holds against the best that
//! does without. What brings less than the difference of two quotations is not said, but for a must that does no work.

use super::load;
use super::resolve::Resolver;
use crate::catalog::Catalog;
use crate::family::let_in_by_friction;
use crate::mechanics::beam::Section;
use crate::quantity::{Kind, Length, Si, exact, in_words, metres, show, to_digits};
use crate::requirements::{Criterion, Measure, PowerLoss, Requirements, Slide, Stops};
use crate::study::{Candidate, Change, FreshLook, OptionLine, Study, amount, in_parallel, money};

/// Parts of the first option's purchase below which a gain is not worth a sentence.
const WORTH_SAYING: f64 = 0.02;
/// Travel times tried, over the one asked.
const SLOWER: [f64; 3] = [1.25, 1.6, 2.0];
/// Bearing spacing tried, over the one asked.
const WIDER: f64 = 1.5;
/// Load tried, of the one asked.
const LIGHTER: f64 = 0.8;
/// Radius of a hinged load's centre of mass tried, over the one asked.
const NEARER: f64 = 0.8;
/// Radius of a tail weight tried, over that of the load's centre of mass.
const TAIL: f64 = 0.75;
/// Length of the arm under the load tried, over the one asked.
const SHORTER: f64 = 0.8;
/// A must is idle where every option stays within this part of it, or below it by so many dB.
const IDLE: f64 = 0.5;
const IDLE_DB: f64 = 10.0;
/// A load range is wide where its ends are so far apart.
const WIDE: f64 = 2.0;

/// A change to try: its words, its fields, and what is set.
struct Trial {
    idea: String,
    changes: Vec<Change>,
}

/// Everything that brings something, the greatest gain first.
#[must_use]
pub fn fresh_look(resolver: &Resolver) -> Vec<FreshLook> {
    let study = resolver.study();
    let Some(first) = study.options.first() else {
        return Vec::new();
    };
    let mut looks: Vec<FreshLook> = counterweight(study, first, resolver.job())
        .into_iter()
        .collect();
    let mut trials = trials(resolver.job());
    trials.extend(other_guides(resolver.job(), resolver.catalog()));
    make_again(resolver, &trials);
    looks.extend(
        trials
            .iter()
            .filter_map(|trial| tried(resolver, first, trial)),
    );
    looks.extend(slower(resolver, first));
    looks.extend(split(resolver, first));
    looks.extend(idle_musts(resolver, first));
    looks.sort_by(|p, q| {
        q.net_worth_gain
            .total_cmp(&p.net_worth_gain)
            .then_with(|| p.says.cmp(&q.says))
    });
    looks
}

/// Makes every ranking that a look needs, on all cores; the resolver remembers what was first.
fn make_again(resolver: &Resolver, trials: &[Trial]) {
    let job = resolver.job();
    let of = |trial: &Trial| trial.changes.clone();
    let mut changes: Vec<Vec<Change>> = trials.iter().map(of).collect();
    changes.extend(slower_trials(job).iter().map(of));
    changes.extend(
        halves(job)
            .into_iter()
            .flat_map(|halves| [halves.light, halves.heavy]),
    );
    in_parallel(changes.len(), |index| {
        resolver.first(&load::sets(&changes[index]), &mut None)
    });
}

fn slide(job: &Requirements) -> Option<&Slide> {
    job.motion.slide()
}

/// Changes of one thing.
fn trials(job: &Requirements) -> Vec<Trial> {
    let mut trials = Vec::new();
    let stops = match job.stops {
        Stops::Ends => None,
        Stops::Several => Some("several"),
        Stops::Anywhere => Some("anywhere"),
    };
    trials.extend(stops.map(|from| Trial {
        idea: "If it had to stop only at its two ends".into(),
        changes: vec![load::change("stops", from.into(), "ends")],
    }));
    if job.power_loss == PowerLoss::Hold {
        trials.push(Trial {
            idea: "If the load may sink to rest at the bottom when the power fails".into(),
            changes: vec![load::change("power_loss", "hold".into(), "may_move")],
        });
    }
    if let Some(slide) = slide(job) {
        let spacing = slide.bearing_spacing.si();
        let wider = in_words(Kind::Length, spacing * WIDER);
        trials.push(Trial {
            idea: format!("With the guide bearings {wider} apart"),
            changes: vec![load::change(
                "motion.guide.bearing_spacing",
                in_words(Kind::Length, spacing),
                &wider,
            )],
        });
    }
    trials.push(lighter(job));
    trials.extend(nearer(job));
    trials.extend(tail(job));
    trials.extend(stiffer(job));
    trials
}

/// Sorts of guide that the friction of the file keeps out, each let in by its own.
fn other_guides(job: &Requirements, catalog: &Catalog) -> Vec<Trial> {
    let Some(slide) = slide(job).filter(|slide| !slide.guide_supplied) else {
        return Vec::new();
    };
    let computed = slide.guide_friction;
    let trial = |(friction, sort): (f64, &str)| Trial {
        idea: format!("With {sort}, which rub with {}", show(friction)),
        changes: vec![load::change(
            "motion.guide.friction",
            show(computed),
            &show(friction),
        )],
    };
    let sorts = let_in_by_friction(catalog, computed).into_iter();
    sorts.map(trial).collect()
}

fn lighter(job: &Requirements) -> Trial {
    let to = in_words(Kind::Mass, load::of(job).most.si() * LIGHTER);
    Trial {
        idea: format!("If the load were made a fifth lighter, {to} at most"),
        changes: load::scaled(job, LIGHTER),
    }
}

/// A hinged load whose weight sits nearer to the hinge.
fn nearer(job: &Requirements) -> Option<Trial> {
    let to = load::hinge(job)?.radius.si() * NEARER;
    Some(Trial {
        idea: format!(
            "If the load's centre of mass were a fifth nearer to the hinge, {} from it",
            in_words(Kind::Length, to)
        ),
        changes: load::nearer(job, NEARER)?,
    })
}

/// A hinge that may have no weight on its arm's tail, given one.
fn tail(job: &Requirements) -> Option<Trial> {
    let hinge = load::hinge(job).filter(|hinge| hinge.axis_level)?;
    if hinge.tail_radius.is_some() {
        return None;
    }
    let radius = in_words(Kind::Length, hinge.radius.si() * TAIL);
    Some(Trial {
        idea: format!("If the arm may have a tail with a weight, {radius} behind the hinge"),
        changes: vec![load::change("motion.tail_radius", "none".into(), &radius)],
    })
}

/// An arm stood on edge, made of a box, or shorter.
fn stiffer(job: &Requirements) -> Vec<Trial> {
    let Some(arm) = job.structure else {
        return Vec::new();
    };
    let told = |size: Length| in_words(Kind::Length, size.si());
    let set = |field: &str, from: Length, to: Length| {
        load::change(&format!("structure.{field}"), told(from), &exactly(to))
    };
    let mut trials = Vec::new();
    if let Section::Rectangle { width_m, height_m }
    | Section::Box {
        width_m, height_m, ..
    } = arm.section
        && width_m > height_m
    {
        let (width, height) = (metres(width_m), metres(height_m));
        trials.push(Trial {
            idea: "With the arm stood on edge".into(),
            changes: vec![set("width", width, height), set("height", height, width)],
        });
    }
    trials.extend(boxed(arm.section));
    let shorter = metres(arm.length.si() * SHORTER);
    trials.push(Trial {
        idea: format!(
            "With the arm a fifth shorter, {} long",
            in_words(Kind::Length, shorter.si())
        ),
        changes: vec![set("length", arm.length, shorter)],
    });
    trials
}

/// A bar made a box of the same mass.
fn boxed(solid: Section) -> Option<Trial> {
    let Section::Rectangle {
        width_m: width,
        height_m: height,
    } = solid
    else {
        return None;
    };
    let Section::Box {
        width_m,
        height_m,
        wall_m,
    } = solid.hollowed()
    else {
        return None;
    };
    let told = |size_m: f64| in_words(Kind::Length, size_m);
    let set = |field: &str, from: String, to: f64| {
        load::change(&format!("structure.{field}"), from, &exactly(metres(to)))
    };
    Some(Trial {
        idea: format!(
            "With the arm a box of the same mass, {} wide, {} high and {} thick",
            told(width_m),
            told(height_m),
            told(wall_m)
        ),
        changes: vec![
            load::change("structure.shape", "rectangle".into(), "box"),
            set("width", told(width), width_m),
            set("height", told(height), height_m),
            set("wall", "none".into(), wall_m),
        ],
    })
}

/// A length as a file may have it, to the last digit that counts.
pub(super) fn exactly(size: Length) -> String {
    format!("{} m", exact(to_digits(size.si(), 6)))
}

/// A change, if it brings something.
fn tried(resolver: &Resolver, first: &OptionLine, trial: &Trial) -> Option<FreshLook> {
    let then = resolver
        .first(&load::sets(&trial.changes), &mut None)
        .ok()??;
    let gain = then.net_worth - first.net_worth;
    worth_saying(gain, first).then(|| FreshLook {
        change: trial.changes.clone(),
        says: format!("{}: {}", trial.idea, brings(first, &then, resolver.job())),
        best: then.id.clone(),
        net_worth_gain: gain,
    })
}

fn worth_saying(gain: f64, first: &OptionLine) -> bool {
    gain > WORTH_SAYING * first.purchase
}

/// What another first option brings against the first as asked.
fn brings(first: &OptionLine, then: &Candidate, job: &Requirements) -> String {
    let drive = if then.train == first.train && then.words == first.words {
        "the same kind of drive".to_owned()
    } else {
        then.words.clone()
    };
    format!(
        "{drive}, {} {} to buy instead of {}; net worth {} better.",
        money(then.purchase),
        job.currency,
        money(first.purchase),
        money(then.net_worth - first.net_worth),
    )
}

/// Slower moves.
fn slower_trials(job: &Requirements) -> Vec<Trial> {
    let Some(want) = job.wants.get(&Criterion::TravelTime) else {
        return Vec::new();
    };
    let asked = in_words(Kind::Time, want.must);
    let trial = |part: &f64| {
        let to = in_words(Kind::Time, want.must * part);
        Trial {
            idea: format!("At {to} a stroke instead of {asked}"),
            changes: vec![load::change("wants.travel_time.must", asked.clone(), &to)],
        }
    };
    SLOWER.iter().map(trial).collect()
}

/// The slower move that brings most.
fn slower(resolver: &Resolver, first: &OptionLine) -> Option<FreshLook> {
    let trials = slower_trials(resolver.job());
    let looks = trials
        .iter()
        .filter_map(|trial| tried(resolver, first, trial));
    looks.reduce(|best, look| {
        if look.net_worth_gain > best.net_worth_gain * (1.0 + WORTH_SAYING) {
            look
        } else {
            best
        }
    })
}

/// The first option has a counterweight: what it brings against the best of the same family that has none.
fn counterweight(study: &Study, first: &OptionLine, job: &Requirements) -> Option<FreshLook> {
    let detail = first.assist_detail.as_ref()?;
    let bare = study
        .options
        .iter()
        .find(|option| option.family == first.family && option.assist == "none")
        .or_else(|| study.options.iter().find(|option| option.assist == "none"))?;
    let gain = first.net_worth - bare.net_worth;
    let mass = |option: &OptionLine| {
        option
            .criteria
            .get("added_mass")
            .map_or(0.0, |line| line.raw)
    };
    let force = |option: &OptionLine| {
        option
            .demand
            .worst
            .push_peak_n
            .max(option.demand.worst.pull_peak_n)
    };
    worth_saying(gain, first).then(|| FreshLook {
        change: Vec::new(),
        says: format!(
            "The {} kg counterweight brings the greatest force from {} to {}: {} {} to buy instead of {} for {}, and {} on the machine instead of {}; net worth {} better.",
            show(detail.counterweight_kg),
            amount(force(bare), "N"),
            amount(force(first), "N"),
            money(first.purchase),
            job.currency,
            money(bare.purchase),
            bare.words,
            amount(mass(first), "kg"),
            amount(mass(bare), "kg"),
            money(gain),
        ),
        best: first.id.clone(),
        net_worth_gain: gain,
    })
}

/// A wide range of loads in two: its ends and middle, and what each half changes.
struct Halves {
    ends: [String; 3],
    light: Vec<Change>,
    heavy: Vec<Change>,
}

/// The halves of a wide range of loads.
fn halves(job: &Requirements) -> Option<Halves> {
    let load = load::of(job);
    let (least, most) = (load.least.si(), load.most.si());
    if most < WIDE * least {
        return None;
    }
    let middle = (least * most).sqrt();
    let ends = [least, middle, most].map(|load| in_words(Kind::Mass, load));
    Some(Halves {
        light: load::scaled(job, middle / most),
        heavy: vec![load::change("motion.load.least", ends[0].clone(), &ends[1])],
        ends,
    })
}

/// A wide range of loads split in the middle: two machines, each for its part.
fn split(resolver: &Resolver, first: &OptionLine) -> Option<FreshLook> {
    let Halves {
        ends: [low, middle, high],
        light,
        heavy,
    } = halves(resolver.job())?;
    let best = |changes: &[Change]| resolver.first(&load::sets(changes), &mut None).ok()?;
    let (for_light, for_heavy) = (best(&light)?, best(&heavy)?);
    let gain = for_light.net_worth - first.net_worth;
    let apart = for_light.words != for_heavy.words;
    (apart && worth_saying(gain, first)).then(|| FreshLook {
        change: light.into_iter().chain(heavy).collect(),
        says: format!(
            "Loads from {low} to {high} are far apart: up to {middle} {} would do, {} {} to buy; from there {}, {} to buy. A machine for the light loads alone is {} better in net worth.",
            for_light.words,
            money(for_light.purchase),
            resolver.job().currency,
            for_heavy.words,
            money(for_heavy.purchase),
            money(gain),
        ),
        best: for_light.id.clone(),
        net_worth_gain: gain,
    })
}

/// Musts that no option comes near: let out, each by itself and all at once, they change nothing, and stricter ones would
/// cost nothing either. All of them are told in one sentence.
fn idle_musts(resolver: &Resolver, first: &OptionLine) -> Option<FreshLook> {
    let stays = |changes: &[Change]| {
        let then = resolver.first(&load::sets(changes), &mut None);
        then.is_ok_and(|best| best.is_some_and(|best| best.id == first.id))
    };
    let wants = resolver.job().wants.iter();
    let idle: Vec<(String, Change)> = wants
        .filter_map(|(criterion, want)| idle_must(resolver, *criterion, want.must))
        .filter(|(_, change)| stays(core::slice::from_ref(change)))
        .collect();
    let (told, changes): (Vec<String>, Vec<Change>) = idle.into_iter().unzip();
    let (last, others) = told.split_last()?;
    let told = if others.is_empty() {
        format!("the must on {last}: it decides nothing, and a stricter one would cost nothing")
    } else {
        let others = others.join(", ");
        format!(
            "the musts on {others} and {last}: they decide nothing, and stricter ones would cost nothing"
        )
    };
    stays(&changes).then(|| FreshLook {
        says: format!("No option comes near {told}."),
        change: changes,
        best: first.id.clone(),
        net_worth_gain: 0.0,
    })
}

/// A must that every option stays far from: how that is told, and the must let out.
fn idle_must(resolver: &Resolver, criterion: Criterion, must: f64) -> Option<(String, Change)> {
    let row = criterion.row();
    if row.more_is_better || criterion == Criterion::TravelTime {
        return None;
    }
    let reached = resolver.study().options.iter();
    let worst = reached
        .filter_map(|option| Some(option.criteria.get(row.name())?.raw))
        .fold(0.0, f64::max);
    let (idle, out) = if criterion == Criterion::Noise {
        (worst <= must - IDLE_DB, must + IDLE_DB)
    } else {
        (worst <= must * IDLE, must / IDLE)
    };
    let told = |size: f64| match row.measure {
        Measure::Quantity(kind) => in_words(kind, size),
        Measure::Number => show(size),
    };
    let change = load::change(&format!("{}.must", row.path), told(must), &told(out));
    let name = row.name().replace('_', " ");
    let says = format!("{name} ({}, the worst has {})", change.from, told(worst));
    idle.then_some((says, change))
}
