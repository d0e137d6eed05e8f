//! What each requirement costs: relaxed and tightened step by step, the whole study made again at each.
//!
//! A step is not made again where the answer is known: options of a tighter must are those of a looser one that meet it, so
//! a first option that meets it stays first, and what is first at both ends of a stretch of musts is first all along it.

use super::resolve::Resolver;
use super::steps::{self, Line, Step};
use crate::requirements::Criterion;
use crate::study::{FirstOfStep, OptionLine, PriceStep, RequirementPrice, Study};

/// What is known of a step.
#[derive(Debug, Clone)]
enum Answer {
    First(Box<OptionLine>),
    None,
    Refused(String),
}

impl Answer {
    fn of(study: &Study) -> Self {
        match study.options.first() {
            Some(first) => Self::First(Box::new(first.clone())),
            None => Self::None,
        }
    }
    fn first(&self) -> Option<&OptionLine> {
        match self {
            Self::First(line) => Some(line),
            _ => None,
        }
    }
    /// Whether the same option is first in both, or none in either.
    fn is(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::First(this), Self::First(that)) => this.id == that.id,
            (Self::None, Self::None) => true,
            _ => false,
        }
    }
}

/// The prices of a file's requirements.
#[must_use]
pub fn prices(resolver: &Resolver) -> Vec<RequirementPrice> {
    let lines = steps::lines(resolver.job(), resolver.study().options.first());
    lines.iter().map(|line| price(resolver, line)).collect()
}

fn price(resolver: &Resolver, line: &Line) -> RequirementPrice {
    let mut answers: Vec<Option<Answer>> = vec![None; line.steps.len()];
    let asked = line.steps.iter().position(|step| step.asked).unwrap_or(0);
    if let Some(answer) = answers.get_mut(asked) {
        *answer = Some(Answer::of(resolver.study()));
    }
    let last = line.steps.len().saturating_sub(1);
    for (near, far) in [(asked, 0), (asked, last)] {
        settle(resolver, line, &mut answers, near, far);
    }
    let steps: Vec<PriceStep> = line.steps.iter().zip(&answers).map(told).collect();
    RequirementPrice {
        field: line.field.clone(),
        words: line.words.clone(),
        unit: line.unit,
        purchase_per_unit: per_unit(line, &steps).filter(|_| !line.unit.is_empty()),
        steps,
    }
}

/// Fills the answers from a known one to another step.
fn settle(
    resolver: &Resolver,
    line: &Line,
    answers: &mut [Option<Answer>],
    known: usize,
    far: usize,
) {
    if known == far {
        return;
    }
    let Some(nested) = line.nested else {
        for index in known.min(far)..=known.max(far) {
            ask(resolver, line, answers, index, None);
        }
        return;
    };
    ask(resolver, line, answers, far, Some((nested, known)));
    if known.abs_diff(far) < 2 {
        return;
    }
    let same = match (&answers[known], &answers[far]) {
        (Some(near), Some(end)) if near.is(end) => Some(near.clone()),
        _ => None,
    };
    if same.is_some() {
        for answer in &mut answers[known.min(far) + 1..known.max(far)] {
            answer.clone_from(&same);
        }
        return;
    }
    let middle = usize::midpoint(known, far);
    settle(resolver, line, answers, known, middle);
    settle(resolver, line, answers, middle, far);
}

/// Answers a step, if it is not yet answered: by a first option that is known to stay, or by the study made again.
fn ask(
    resolver: &Resolver,
    line: &Line,
    answers: &mut [Option<Answer>],
    index: usize,
    near: Option<(Criterion, usize)>,
) {
    if answers[index].is_some() {
        return;
    }
    let step = &line.steps[index];
    let stays = near.and_then(|(criterion, known)| {
        let answer = answers[known].as_ref()?;
        let tighter = (index < known) != criterion.row().more_is_better;
        let stays = match (answer, step.size) {
            (Answer::First(first), Some(limit)) => {
                let raw = first.criteria.get(criterion.name())?.raw;
                let meets = if criterion.row().more_is_better {
                    raw >= limit
                } else {
                    raw <= limit
                };
                tighter && meets
            }
            (Answer::None, _) => tighter,
            _ => false,
        };
        stays.then(|| answer.clone())
    });
    answers[index] = Some(stays.unwrap_or_else(|| match resolver.with(&step.changes) {
        Ok(study) => Answer::of(&study),
        Err(faults) => Answer::Refused(faults.first().map_or_else(String::new, |fault| {
            format!("{} {}", fault.path, fault.message)
        })),
    }));
}

fn told((step, answer): (&Step, &Option<Answer>)) -> PriceStep {
    let first = answer.as_ref().and_then(Answer::first);
    PriceStep {
        value: step.value.clone(),
        asked: step.asked,
        first: first.map(|line| FirstOfStep {
            best: line.id.clone(),
            train: line.train.clone(),
            drive: line.words.clone(),
            purchase: line.purchase,
            net_worth: line.net_worth,
        }),
        refused: match answer {
            Some(Answer::Refused(why)) => Some(why.clone()),
            _ => None,
        },
    }
}

/// Money to buy per unit, where one kind of train is first throughout and no step makes more than half of the difference.
fn per_unit(line: &Line, steps: &[PriceStep]) -> Option<f64> {
    let points: Vec<(f64, &FirstOfStep)> = line
        .steps
        .iter()
        .zip(steps)
        .map(|(step, told)| step.size.zip(told.first.as_ref()))
        .collect::<Option<_>>()?;
    let ((least, cheap), (most, dear)) = (points.first()?, points.last()?);
    let whole = dear.purchase - cheap.purchase;
    let one_kind = points
        .windows(2)
        .all(|pair| pair[0].1.train == pair[1].1.train);
    let smooth = points.windows(2).all(|pair| {
        let part = (pair[1].1.purchase - pair[0].1.purchase) / whole;
        (0.0..=0.5).contains(&part)
    });
    (one_kind && smooth && whole != 0.0).then(|| whole / (most - least))
}
