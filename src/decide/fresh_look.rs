//! The job seen another way: what an experienced colleague would try, tried.
//!
//! Each is the study made again with one thing changed, or a kind of train that the study already holds against the best that
//! does without. What brings less than the difference of two quotations is not said, but for a must that does no work.

use super::resolve::Resolver;
use crate::quantity::{Kind, Si, in_words, show};
use crate::requirements::{Criterion, Measure, Motion, PowerLoss, Requirements, Slide, Stops};
use crate::study::{Candidate, Change, FreshLook, OptionLine, Study, amount, in_parallel, money};

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
    make_again(resolver);
    let trials = trials(resolver.job());
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
fn make_again(resolver: &Resolver) {
    let job = resolver.job();
    let trials = trials(job).into_iter().chain(slower_trials(job));
    let mut changes: Vec<Vec<Change>> = trials.map(|trial| trial.changes).collect();
    changes.extend(
        halves(job)
            .into_iter()
            .flat_map(|halves| [vec![halves.light], vec![halves.heavy]]),
    );
    in_parallel(changes.len(), |index| {
        resolver.first(&sets(&changes[index]), &mut None)
    });
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
    let then = resolver.first(&sets(&trial.changes), &mut None).ok()??;
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
            changes: vec![change("wants.travel_time.must", asked.clone(), &to)],
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
    light: Change,
    heavy: Change,
}

/// The halves of a wide range of loads.
fn halves(job: &Requirements) -> Option<Halves> {
    let slide = slide(job)?;
    let (least, most) = (slide.load.least.si(), slide.load.most.si());
    if most < WIDE * least {
        return None;
    }
    let [low, middle, high] =
        [least, (least * most).sqrt(), most].map(|load| in_words(Kind::Mass, load));
    Some(Halves {
        light: change("motion.load.most", high.clone(), &middle),
        heavy: change("motion.load.least", low.clone(), &middle),
        ends: [low, middle, high],
    })
}

/// A wide range of loads split in the middle: two machines, each for its part.
fn split(resolver: &Resolver, first: &OptionLine) -> Option<FreshLook> {
    let Halves {
        ends: [low, middle, high],
        light,
        heavy,
    } = halves(resolver.job())?;
    let best = |change: &Change| {
        let changes = sets(core::slice::from_ref(change));
        resolver.first(&changes, &mut None).ok()?
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
            let changes = sets(core::slice::from_ref(&change));
            let then = idle.then(|| resolver.first(&changes, &mut None).ok())??;
            let best = then.filter(|best| best.id == first.id)?;
            Some(FreshLook {
                says: format!(
                    "No option comes near the must on {}, {}: the worst has {}. It decides nothing; a stricter one would cost nothing.",
                    row.name().replace('_', " "),
                    told(want.must),
                    told(worst),
                ),
                change: vec![change],
                best: best.id,
                net_worth_gain: 0.0,
            })
        })
        .collect()
}
