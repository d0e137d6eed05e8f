//! The job seen another way: what an experienced colleague would try, tried.
//!
//! Each is the study made again with one thing changed, or a drive type that the study already compares with the best that
//! does without. What brings less than the difference of two quotations is not said, but for a limit that does no work.

use super::change::{
    RADIUS, STOPS, exactly, hinge, limit_to, load, load_changes, may_move, nearer, resized, stops,
};
use super::resolve::Resolver;
use crate::catalog::Catalog;
use crate::family::let_in_by_friction;
use crate::mechanics::beam::Section;
use crate::quantity::{Kind, Length, Si, in_words, metres, show};
use crate::requirements::{Criterion, Goal, PowerLoss, Requirements, Slide};
use crate::study::{Change, Contender, FreshLook, OptionLine, Study, amount, in_parallel, money};

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
/// A limit is idle where every option stays within this part of it, or below it by so many dB.
const IDLE: f64 = 0.5;
const IDLE_DB: f64 = 10.0;
/// A load range is wide where its ends are so far apart.
const WIDE: f64 = 2.0;

/// A change to try: its words and its fields.
struct Idea {
    says: String,
    changes: Vec<Change>,
}

impl Idea {
    fn new(says: impl Into<String>, changes: impl Into<Vec<Change>>) -> Self {
        let (says, changes) = (says.into(), changes.into());
        Self { says, changes }
    }
}

/// Everything that brings something, the greatest gain first.
pub fn fresh_look(resolver: &Resolver) -> Vec<FreshLook> {
    let study = resolver.study();
    let Some(first) = study.options.first() else {
        return Vec::new();
    };
    let mut looks: Vec<FreshLook> = counterweight(study, first, resolver.job())
        .into_iter()
        .collect();
    let mut ideas = ideas(resolver.job());
    ideas.extend(other_guides(resolver.job(), resolver.catalog()));
    let slower = slower(resolver.job());
    make_again(resolver, ideas.iter().chain(&slower));
    looks.extend(
        ideas
            .iter()
            .filter_map(|idea| look_at(resolver, first, idea)),
    );
    looks.extend(best_slower(resolver, first, &slower));
    looks.extend(split(resolver, first));
    looks.extend(idle_musts(resolver, first));
    looks.sort_by(|p, q| {
        q.net_value_gain
            .total_cmp(&p.net_value_gain)
            .then_with(|| p.says.cmp(&q.says))
    });
    looks
}

/// Makes every ranking that a look needs, on all cores; the resolver remembers what was first.
fn make_again<'i>(resolver: &Resolver, ideas: impl Iterator<Item = &'i Idea>) {
    let mut changes: Vec<Vec<Change>> = ideas.map(|idea| idea.changes.clone()).collect();
    let halves = halves(resolver.job()).into_iter();
    changes.extend(halves.flat_map(|halves| [halves.light, halves.heavy]));
    in_parallel(changes.len(), |index| {
        resolver.first(&changes[index], &mut None)
    });
}

fn slide(job: &Requirements) -> Option<&Slide> {
    job.motion.slide()
}

/// Changes of one thing.
fn ideas(job: &Requirements) -> Vec<Idea> {
    let mut ideas = Vec::new();
    if stops(job) > 0 {
        let change = Change::new("stops", STOPS[stops(job)], STOPS[0]);
        let says = "If it had to stop only at its two ends";
        ideas.push(Idea::new(says, [change]));
    }
    if job.power_loss == PowerLoss::Hold {
        let says = "If the load may sink to rest at the bottom when the power fails";
        ideas.push(Idea::new(says, [may_move()]));
    }
    if let Some(slide) = slide(job) {
        let spacing = slide.bearing_spacing.si();
        let field = "motion.guide.bearing_spacing";
        let change = resized(field, Kind::Length, spacing, spacing * WIDER);
        let says = format!("With the guide bearings {} apart", change.to);
        ideas.push(Idea::new(says, [change]));
    }
    ideas.push(lighter(job));
    ideas.extend(closer(job));
    ideas.extend(tail(job));
    ideas.extend(stiffer(job));
    ideas
}

/// Sorts of guide that the friction of the file keeps out, each let in by its own.
fn other_guides(job: &Requirements, catalog: &Catalog) -> Vec<Idea> {
    let Some(slide) = slide(job).filter(|slide| !slide.guide_supplied) else {
        return Vec::new();
    };
    let computed = slide.guide_friction;
    let idea = |(friction, sort): (f64, &str)| {
        let change = Change::new("motion.guide.friction", show(computed), show(friction));
        let says = format!("With {sort}, which rub with {}", change.to);
        Idea::new(says, [change])
    };
    let sorts = let_in_by_friction(catalog, computed).into_iter();
    sorts.map(idea).collect()
}

fn lighter(job: &Requirements) -> Idea {
    let to = in_words(Kind::Mass, load(job).most.si() * LIGHTER);
    let says = format!("If the load were made a fifth lighter, {to} at most");
    Idea::new(says, load_changes(job, LIGHTER))
}

/// A hinged load whose weight sits nearer to the hinge.
fn closer(job: &Requirements) -> Option<Idea> {
    let changes = nearer(job, NEARER)?;
    let to = changes.iter().find(|change| change.field == RADIUS)?;
    let says = format!(
        "If the load's centre of mass were a fifth nearer to the hinge, {} from it",
        to.to
    );
    Some(Idea::new(says, changes))
}

/// A hinge that may have no weight on its arm's tail, given one.
fn tail(job: &Requirements) -> Option<Idea> {
    let hinge = hinge(job).filter(|hinge| hinge.axis_level && hinge.tail_radius.is_none())?;
    let radius = in_words(Kind::Length, hinge.radius.si() * TAIL);
    Some(Idea::new(
        format!("If the arm may have a tail with a weight, {radius} behind the hinge"),
        [Change::new("motion.tail_radius", "none", radius)],
    ))
}

/// A size of an arm made another.
fn of_arm(field: &str, from: Option<Length>, to: Length) -> Change {
    let words = |size: Length| in_words(Kind::Length, size.si());
    let from = from.map_or_else(|| "none".into(), words);
    Change::new(format!("structure.{field}"), from, exactly(to))
}

/// An arm stood on edge, made of a box, or shorter.
fn stiffer(job: &Requirements) -> Vec<Idea> {
    let Some(arm) = job.structure else {
        return Vec::new();
    };
    let mut ideas = Vec::new();
    if let Section::Rectangle { width_m, height_m }
    | Section::Box {
        width_m, height_m, ..
    } = arm.section
        && width_m > height_m
    {
        let (width, height) = (metres(width_m), metres(height_m));
        let turned = [("width", width, height), ("height", height, width)];
        let turned = turned.map(|(field, from, to)| of_arm(field, Some(from), to));
        ideas.push(Idea::new("With the arm stood on edge", turned));
    }
    ideas.extend(boxed(arm.section));
    let shorter = metres(arm.length.si() * SHORTER);
    let words = in_words(Kind::Length, shorter.si());
    ideas.push(Idea::new(
        format!("With the arm a fifth shorter, {words} long"),
        [of_arm("length", Some(arm.length), shorter)],
    ));
    ideas
}

/// A bar made a box of the same mass.
fn boxed(solid: Section) -> Option<Idea> {
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
    let [wide, high, thick] = [width_m, height_m, wall_m].map(|size| in_words(Kind::Length, size));
    Some(Idea::new(
        format!("With the arm a box of the same mass, {wide} wide, {high} high and {thick} thick"),
        [
            Change::new("structure.shape", "rectangle", "box"),
            of_arm("width", Some(metres(width)), metres(width_m)),
            of_arm("height", Some(metres(height)), metres(height_m)),
            of_arm("wall", None, metres(wall_m)),
        ],
    ))
}

/// A change, if it brings something.
fn look_at(resolver: &Resolver, first: &OptionLine, idea: &Idea) -> Option<FreshLook> {
    let then = resolver.first(&idea.changes, &mut None).ok()??;
    let gain = then.net_value - first.net_value;
    worth_saying(gain, first).then(|| FreshLook {
        change: idea.changes.clone(),
        says: format!("{}: {}", idea.says, brings(first, &then, resolver.job())),
        best: then.id.clone(),
        net_value_gain: gain,
    })
}

fn worth_saying(gain: f64, first: &OptionLine) -> bool {
    gain > WORTH_SAYING * first.purchase
}

/// What another first option brings against the first as asked.
fn brings(first: &OptionLine, then: &Contender, job: &Requirements) -> String {
    let drive = if then.drive_type == first.drive_type && then.words == first.words {
        "the same kind of drive".to_owned()
    } else {
        then.words.clone()
    };
    format!(
        "{drive}, {} {} to buy instead of {}; net value {} better.",
        money(then.purchase),
        job.currency,
        money(first.purchase),
        money(then.net_value - first.net_value),
    )
}

/// Slower moves.
fn slower(job: &Requirements) -> Vec<Idea> {
    let goal = job.goals.get(&Criterion::TravelTime);
    let idea = |(goal, part): (&Goal, f64)| {
        let change = limit_to(Criterion::TravelTime.row(), goal.limit, goal.limit * part);
        let says = format!("At {} a stroke instead of {}", change.to, change.from);
        Idea::new(says, [change])
    };
    let parts = goal
        .into_iter()
        .flat_map(|goal| SLOWER.map(|part| (goal, part)));
    parts.map(idea).collect()
}

/// The slower move that brings most.
fn best_slower(resolver: &Resolver, first: &OptionLine, slower: &[Idea]) -> Option<FreshLook> {
    let looks = slower
        .iter()
        .filter_map(|idea| look_at(resolver, first, idea));
    looks.reduce(|best, look| {
        if look.net_value_gain > best.net_value_gain * (1.0 + WORTH_SAYING) {
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
    let gain = first.net_value - bare.net_value;
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
            "The {} kg counterweight brings the greatest force from {} to {}: {} {} to buy instead of {} for {}, and {} on the machine instead of {}; net value {} better.",
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
        net_value_gain: gain,
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
    let load = load(job);
    let (least, most) = (load.least.si(), load.most.si());
    if most < WIDE * least {
        return None;
    }
    let middle = (least * most).sqrt();
    let ends = [least, middle, most].map(|load| in_words(Kind::Mass, load));
    Some(Halves {
        light: load_changes(job, middle / most),
        heavy: vec![Change::new("motion.load.least", &ends[0], &ends[1])],
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
    let best = |changes: &[Change]| resolver.first(changes, &mut None).ok()?;
    let (for_light, for_heavy) = (best(&light)?, best(&heavy)?);
    let gain = for_light.net_value - first.net_value;
    let apart = for_light.words != for_heavy.words;
    (apart && worth_saying(gain, first)).then(|| FreshLook {
        change: light.into_iter().chain(heavy).collect(),
        says: format!(
            "Loads from {low} to {high} are far apart: up to {middle} {} would do, {} {} to buy; from there {}, {} to buy. A machine for the light loads alone is {} better in net value.",
            for_light.words,
            money(for_light.purchase),
            resolver.job().currency,
            for_heavy.words,
            money(for_heavy.purchase),
            money(gain),
        ),
        best: for_light.id.clone(),
        net_value_gain: gain,
    })
}

/// Limits that no option comes near: let out, each by itself and all at once, they change nothing, and stricter ones would
/// cost nothing either. All of them are told in one sentence.
fn idle_musts(resolver: &Resolver, first: &OptionLine) -> Option<FreshLook> {
    let stays = |changes: &[Change]| {
        let then = resolver.first(changes, &mut None);
        then.is_ok_and(|best| best.is_some_and(|best| best.id == first.id))
    };
    let goals = resolver.job().goals.iter();
    let idle: Vec<(String, Change)> = goals
        .filter_map(|(criterion, goal)| idle_limit(resolver, *criterion, goal.limit))
        .filter(|(_, change)| stays(core::slice::from_ref(change)))
        .collect();
    let (told, changes): (Vec<String>, Vec<Change>) = idle.into_iter().unzip();
    let (last, others) = told.split_last()?;
    let told = if others.is_empty() {
        format!("the limit on {last}: it decides nothing, and a stricter one would cost nothing")
    } else {
        let others = others.join(", ");
        format!(
            "the limits on {others} and {last}: they decide nothing, and stricter ones would cost nothing"
        )
    };
    stays(&changes).then(|| FreshLook {
        says: format!("No option comes near {told}."),
        change: changes,
        best: first.id.clone(),
        net_value_gain: 0.0,
    })
}

/// A limit that every option stays far from: how that is told, and the limit let out.
fn idle_limit(resolver: &Resolver, criterion: Criterion, limit: f64) -> Option<(String, Change)> {
    let row = criterion.row();
    if row.more_is_better || criterion == Criterion::TravelTime {
        return None;
    }
    let reached = resolver.study().options.iter();
    let worst = reached
        .filter_map(|option| Some(option.criteria.get(row.name())?.raw))
        .fold(0.0, f64::max);
    let (idle, out) = if criterion == Criterion::Noise {
        (worst <= limit - IDLE_DB, limit + IDLE_DB)
    } else {
        (worst <= limit * IDLE, limit / IDLE)
    };
    let change = limit_to(row, limit, out);
    let (name, worst) = (row.name().replace('_', " "), row.measure.words(worst));
    let says = format!("{name} ({}, the worst has {worst})", change.from);
    idle.then_some((says, change))
}
