//! The job seen another way: what an experienced colleague would try, tried.
//!
//! Each is the study made again with one thing changed, or a kind of train that the study already holds against the best that
//! does without. What brings less than the difference of two quotations is not said, but for a must that does no work.

use super::resolve::Resolver;
use crate::catalog::Catalog;
use crate::family::let_in_by_friction;
use crate::quantity::{Kind, Si, in_words, show};
use crate::requirements::{Criterion, Measure, Motion, PowerLoss, Requirements, Slide, Stops};
use crate::study::{Change, FreshLook, OptionLine, Study, amount, money};

/// Parts of the first option's purchase below which a gain is not worth a sentence.
const WORTH_SAYING: f64 = 0.02;
/// Travel times tried, over the one asked.
const SLOWER: [f64; 3] = [1.25, 1.6, 2.0];
/// Bearing spacing tried, over the one asked.
const WIDER: f64 = 1.5;
/// Load tried, of the one asked.
const LIGHTER: f64 = 0.8;
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

fn slide(job: &Requirements) -> Option<&Slide> {
    match &job.motion {
        Motion::Slide(slide) => Some(slide),
        Motion::Hinge(_) => None,
    }
}

fn change(field: &str, from: String, to: &str) -> Change {
    Change {
        field: field.into(),
        from,
        to: to.into(),
    }
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
        changes: vec![change("stops", from.into(), "ends")],
    }));
    if job.power_loss == PowerLoss::Hold {
        trials.push(Trial {
            idea: "If the load may sink to rest at the bottom when the power fails".into(),
            changes: vec![change("power_loss", "hold".into(), "may_move")],
        });
    }
    if let Some(slide) = slide(job) {
        let spacing = slide.bearing_spacing.si();
        let wider = in_words(Kind::Length, spacing * WIDER);
        trials.push(Trial {
            idea: format!("With the guide bearings {wider} apart"),
            changes: vec![change(
                "motion.guide.bearing_spacing",
                in_words(Kind::Length, spacing),
                &wider,
            )],
        });
        trials.push(lighter(slide));
    }
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
        changes: vec![change(
            "motion.guide.friction",
            show(computed),
            &show(friction),
        )],
    };
    let sorts = let_in_by_friction(catalog, computed).into_iter();
    sorts.map(trial).collect()
}

fn lighter(slide: &Slide) -> Trial {
    let (least, most) = (slide.load.least.si(), slide.load.most.si());
    let to = in_words(Kind::Mass, most * LIGHTER);
    let mut changes = vec![change("motion.load.most", in_words(Kind::Mass, most), &to)];
    if most * LIGHTER <= least {
        changes.push(change(
            "motion.load.least",
            in_words(Kind::Mass, least),
            &to,
        ));
    }
    Trial {
        idea: format!("If the load were made a fifth lighter, {to} at most"),
        changes,
    }
}

fn sets(changes: &[Change]) -> Vec<(String, String)> {
    changes
        .iter()
        .map(|change| (change.field.clone(), change.to.clone()))
        .collect()
}

/// A change, if it brings something.
fn tried(resolver: &Resolver, first: &OptionLine, trial: &Trial) -> Option<FreshLook> {
    let then = resolver
        .with(&sets(&trial.changes))
        .ok()?
        .options
        .into_iter()
        .next()?;
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
fn brings(first: &OptionLine, then: &OptionLine, job: &Requirements) -> String {
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

/// The slower move that brings most.
fn slower(resolver: &Resolver, first: &OptionLine) -> Option<FreshLook> {
    let asked = resolver.job().wants.get(&Criterion::TravelTime)?.must;
    let looks = SLOWER.iter().filter_map(|part| {
        let to = in_words(Kind::Time, asked * part);
        let trial = Trial {
            idea: format!(
                "At {to} a stroke instead of {}",
                in_words(Kind::Time, asked)
            ),
            changes: vec![change(
                "wants.travel_time.must",
                in_words(Kind::Time, asked),
                &to,
            )],
        };
        tried(resolver, first, &trial)
    });
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

/// A wide range of loads split in the middle: two machines, each for its part.
fn split(resolver: &Resolver, first: &OptionLine) -> Option<FreshLook> {
    let slide = slide(resolver.job())?;
    let (least, most) = (slide.load.least.si(), slide.load.most.si());
    if most < WIDE * least {
        return None;
    }
    let (low, middle, high) = (
        in_words(Kind::Mass, least),
        in_words(Kind::Mass, (least * most).sqrt()),
        in_words(Kind::Mass, most),
    );
    let light = change("motion.load.most", high.clone(), &middle);
    let heavy = change("motion.load.least", low.clone(), &middle);
    let best = |change: &Change| {
        let study = resolver.with(&sets(core::slice::from_ref(change))).ok()?;
        study.options.into_iter().next()
    };
    let (for_light, for_heavy) = (best(&light)?, best(&heavy)?);
    let gain = for_light.net_worth - first.net_worth;
    let apart = for_light.words != for_heavy.words;
    (apart && worth_saying(gain, first)).then(|| FreshLook {
        change: vec![light, heavy],
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

/// Musts that no option comes near: let out, they change nothing, and a stricter promise would cost nothing either.
fn idle_musts(resolver: &Resolver, first: &OptionLine) -> Vec<FreshLook> {
    let wants = resolver.job().wants.iter();
    wants
        .filter_map(|(criterion, want)| {
            let row = criterion.row();
            if row.more_is_better || *criterion == Criterion::TravelTime {
                return None;
            }
            let reached = resolver.study().options.iter();
            let worst = reached
                .filter_map(|option| Some(option.criteria.get(row.name())?.raw))
                .fold(0.0, f64::max);
            let (idle, out) = if *criterion == Criterion::Noise {
                (worst <= want.must - IDLE_DB, want.must + IDLE_DB)
            } else {
                (worst <= want.must * IDLE, want.must / IDLE)
            };
            let told = |size: f64| match row.measure {
                Measure::Quantity(kind) => in_words(kind, size),
                Measure::Number => show(size),
            };
            let change = change(&format!("{}.must", row.path), told(want.must), &told(out));
            let then = idle.then(|| resolver.with(&sets(core::slice::from_ref(&change))).ok())??;
            let best = then.options.first().filter(|best| best.id == first.id)?;
            Some(FreshLook {
                says: format!(
                    "No option comes near the must on {}, {}: the worst has {}. It decides nothing; a stricter one would cost nothing.",
                    row.name().replace('_', " "),
                    told(want.must),
                    told(worst),
                ),
                change: vec![change],
                best: best.id.clone(),
                net_worth_gain: 0.0,
            })
        })
        .collect()
}
