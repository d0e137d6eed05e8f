//! What each requirement costs: relaxed and tightened step by step, the ranking made again at each.
//!
//! A step is not made again where the answer is known: options of a tighter limit are those of a looser one that meet it, so
//! a first option that meets it stays first, and what is first at both ends of a stretch of limits is first all along it.

use super::resolve::{First, Resolver};
use super::sweep::{Sweep, SweepStep, sweeps};
use crate::problem::Problem;
use crate::study::{Contender, FirstOfStep, Pool, PriceStep, RequirementPrice, in_parallel};

/// Whether the same option is first in both, or none in either.
fn is_same_option(this: &First, that: &First) -> bool {
    match (this, that) {
        (Ok(this), Ok(that)) => {
            let id = |first: &Option<Contender>| first.as_ref().map(|first| first.id.clone());
            id(this) == id(that)
        }
        _ => false,
    }
}

/// Steps that are answered together: one, or the lines whose answers follow from the same options or from each other.
enum Piece {
    Step(usize, usize),
    Lines(Vec<usize>),
}

/// The prices of a file's requirements.
pub fn prices(resolver: &Resolver) -> Vec<RequirementPrice> {
    let lines = sweeps(resolver.job(), resolver.study().options.first());
    let pieces = pieces(resolver, &lines);
    let found = in_parallel(pieces.len(), |index| match &pieces[index] {
        Piece::Step(line, step) => {
            let changes = &lines[*line].steps[*step].changes;
            let answer = resolver.first(changes, &mut None);
            vec![(*line, *step, answer)]
        }
        Piece::Lines(nested) => {
            let mut spare = None;
            let settled = |line: &usize| line_answers(resolver, &lines[*line], &mut spare);
            let found: Vec<_> = nested.iter().map(settled).collect();
            let each = |(line, found): (&usize, Vec<Option<First>>)| {
                let line = *line;
                let steps = found.into_iter().enumerate();
                steps.filter_map(move |(step, answer)| Some((line, step, answer?)))
            };
            nested.iter().zip(found).flat_map(each).collect()
        }
    });
    let mut answers: Vec<Vec<Option<First>>> = lines
        .iter()
        .map(|line| vec![None; line.steps.len()])
        .collect();
    for (line, step, answer) in found.into_iter().flatten() {
        answers[line][step] = Some(answer);
    }
    let each = lines.iter().zip(&answers);
    each.map(|(line, answers)| price(line, answers)).collect()
}

/// The work, the longest last.
fn pieces(resolver: &Resolver, lines: &[Sweep]) -> Vec<Piece> {
    let stated = |line: &(usize, &Sweep)| {
        let goals = &resolver.job().goals;
        line.1
            .nested
            .is_some_and(|nested| goals.contains_key(&nested))
    };
    let all: Vec<(usize, &Sweep)> = lines.iter().enumerate().collect();
    let (alike, own): (Vec<_>, Vec<_>) = all.into_iter().partition(stated);
    let alike = Piece::Lines(alike.into_iter().map(|(index, _)| index).collect());
    let mut pieces = vec![alike];
    for (index, line) in own {
        if line.nested.is_some() {
            pieces.push(Piece::Lines(vec![index]));
        } else {
            let steps = (0..line.steps.len()).map(|step| Piece::Step(index, step));
            pieces.extend(steps);
        }
    }
    pieces
}

fn price(line: &Sweep, answers: &[Option<First>]) -> RequirementPrice {
    let steps: Vec<PriceStep> = line.steps.iter().zip(answers).map(price_step).collect();
    RequirementPrice {
        field: line.field.clone(),
        words: line.words.clone(),
        unit: line.unit.into(),
        purchase_per_unit: per_unit(line, &steps).filter(|_| !line.unit.is_empty()),
        steps,
    }
}

/// The answers of a line whose tighter steps keep some of the options of the looser ones.
fn line_answers(resolver: &Resolver, line: &Sweep, spare: &mut Option<Pool>) -> Vec<Option<First>> {
    let mut answers: Vec<Option<First>> = vec![None; line.steps.len()];
    let asked = line.steps.iter().position(SweepStep::is_asked).unwrap_or(0);
    let last = line.steps.len().saturating_sub(1);
    ask(resolver, line, &mut answers, asked, None, spare);
    for (near, far) in [(asked, 0), (asked, last)] {
        fill_answers(resolver, line, &mut answers, near, far, spare);
    }
    answers
}

/// Fills the answers from a known one to another step.
fn fill_answers(
    resolver: &Resolver,
    line: &Sweep,
    answers: &mut [Option<First>],
    known: usize,
    far: usize,
    spare: &mut Option<Pool>,
) {
    if known == far {
        return;
    }
    ask(resolver, line, answers, far, Some(known), spare);
    if known.abs_diff(far) < 2 {
        return;
    }
    let between = match (&answers[known], &answers[far]) {
        (Some(near), Some(end)) if is_same_option(near, end) => Some(near.clone()),
        _ => None,
    };
    if between.is_some() {
        for answer in &mut answers[known.min(far) + 1..known.max(far)] {
            answer.clone_from(&between);
        }
        return;
    }
    let middle = usize::midpoint(known, far);
    fill_answers(resolver, line, answers, known, middle, spare);
    fill_answers(resolver, line, answers, middle, far, spare);
}

/// Answers a step, if it is not yet answered: by a first option that is known to stay, or by the ranking made again.
fn ask(
    resolver: &Resolver,
    line: &Sweep,
    answers: &mut [Option<First>],
    index: usize,
    known: Option<usize>,
    spare: &mut Option<Pool>,
) {
    if answers[index].is_some() {
        return;
    }
    let step = &line.steps[index];
    let stays = known.zip(line.nested).and_then(|(known, criterion)| {
        let answer = answers[known].as_ref()?;
        let row = criterion.row();
        let tighter = (index < known) != row.more_is_better;
        let stays = match (answer, step.size) {
            (Ok(Some(first)), Some(limit)) => {
                let raw = *first.criteria.get(&criterion)?;
                tighter && row.worse_by(limit, raw) <= 0.0
            }
            (Ok(None), _) => tighter,
            _ => false,
        };
        stays.then(|| answer.clone())
    });
    let made = || resolver.first(&step.changes, spare);
    answers[index] = Some(stays.unwrap_or_else(made));
}

fn price_step((step, answer): (&SweepStep, &Option<First>)) -> PriceStep {
    let first = answer
        .as_ref()
        .and_then(|first| first.as_ref().ok()?.as_ref());
    let faults = answer.as_ref().and_then(|first| first.as_ref().err());
    let refused = faults.map(|faults| {
        let says = |fault: &Problem| format!("{} {}", fault.path, fault.message);
        faults.first().map(says).unwrap_or_default()
    });
    PriceStep {
        value: step.value.clone(),
        asked: step.is_asked(),
        first: first.map(|line| FirstOfStep {
            best: line.id.clone(),
            drive_type: line.drive_type.clone(),
            drive: line.words.clone(),
            purchase: line.purchase,
            net_value: line.net_value,
        }),
        refused,
    }
}

/// Money to buy per unit, where one drive type is first throughout and no step makes more than half of the difference.
fn per_unit(line: &Sweep, steps: &[PriceStep]) -> Option<f64> {
    let points: Vec<(f64, &FirstOfStep)> = line
        .steps
        .iter()
        .zip(steps)
        .map(|(step, price_step)| step.size.zip(price_step.first.as_ref()))
        .collect::<Option<_>>()?;
    let ((least, cheap), (most, dear)) = (points.first()?, points.last()?);
    let whole = dear.purchase - cheap.purchase;
    let one_kind = points
        .windows(2)
        .all(|pair| pair[0].1.drive_type == pair[1].1.drive_type);
    let smooth = points.windows(2).all(|pair| {
        let part = (pair[1].1.purchase - pair[0].1.purchase) / whole;
        (0.0..=0.5).contains(&part)
    });
    (one_kind && smooth && whole != 0.0).then(|| whole / (most - least))
}
