//! Which worths make an alternative best: linear programming over the set of worths.
//!
//! An alternative is worth `Σ w·v − cost`. It can be best where some worths of the set make its lead over every rival at least
//! nothing (Hazen 1986, potentially optimal). Money is counted in the largest worth, so that the model's numbers are about 1.

use good_lp::{
    Expression, ProblemVariables, Solution, SolverModel, Variable, constraint, microlp, variable,
};

/// What an alternative reaches and costs.
#[derive(Debug, Clone, PartialEq)]
pub struct Alternative {
    /// Value on each criterion, 1 at the target and 0 at the limit.
    pub values: Vec<f64>,
    /// Money.
    pub cost: f64,
}

impl Alternative {
    /// What it is worth beyond its cost.
    pub fn net(&self, worths: &[f64]) -> f64 {
        let gained: f64 = self.values.iter().zip(worths).map(|(v, w)| v * w).sum();
        gained - self.cost
    }
}

/// The worths that are thought possible.
#[derive(Debug, Clone, PartialEq)]
pub struct WorthSet {
    /// Least and most of each.
    pub ranges: Vec<(f64, f64)>,
    /// What they add up to, where they share out a whole.
    pub sum: Option<f64>,
}

impl WorthSet {
    /// Lead of one alternative over another anywhere in the ranges: the greatest (`f64::max`) or the least (`f64::min`).
    fn lead(&self, this: &Alternative, rival: &Alternative, end: fn(f64, f64) -> f64) -> f64 {
        let pairs = this.values.iter().zip(&rival.values).zip(&self.ranges);
        let gained: f64 = pairs
            .map(|((v, r), (least, most))| end((v - r) * least, (v - r) * most))
            .sum();
        gained - this.cost + rival.cost
    }
    /// The unit of money that makes the model's numbers about 1.
    fn money(&self) -> f64 {
        self.ranges
            .iter()
            .map(|(_, most)| *most)
            .fold(1.0, f64::max)
    }
}

/// Greatest margin by which an alternative beats every rival under some worths of the set; infinite without rivals, none
/// where it cannot be more than `floor`.
pub fn margin(
    this: &Alternative,
    rivals: &[&Alternative],
    set: &WorthSet,
    floor: f64,
) -> Option<f64> {
    let bound = rivals
        .iter()
        .map(|rival| set.lead(this, rival, f64::max))
        .fold(f64::INFINITY, f64::min);
    if bound <= floor {
        return None;
    }
    // A rival that is behind by the bound or more everywhere can set the margin
    // at the bound at most; the lead is taken over all of them in the end.
    let near: Vec<&Alternative> = rivals
        .iter()
        .copied()
        .filter(|rival| set.lead(this, rival, f64::min) < bound)
        .collect();
    if near.is_empty() {
        return Some(bound);
    }
    let unit = set.money();
    let mut variables = ProblemVariables::new();
    let worths: Vec<Variable> = set
        .ranges
        .iter()
        .map(|(least, most)| variables.add(variable().min(least / unit).max(most / unit)))
        .collect();
    let lead = variables.add(variable());
    let mut model = variables.maximise(lead).using(microlp);
    for rival in near {
        let gained = gained(&worths, this, rival);
        model = model.with(constraint!(
            gained - (this.cost - rival.cost) / unit >= lead
        ));
    }
    if let Some(sum) = set.sum {
        let all: Expression = worths.iter().copied().sum();
        model = model.with(constraint!(all == sum / unit));
    }
    let solved = model.solve().ok()?;
    // The lead over all rivals where the solver stopped, those left out too: never more than there is.
    let pairs = worths.iter().zip(&set.ranges);
    let at: Vec<f64> = pairs
        .map(|(worth, (least, most))| (solved.value(*worth) * unit).clamp(*least, *most))
        .collect();
    let leads = rivals.iter().map(|rival| this.net(&at) - rival.net(&at));
    Some(leads.fold(bound, f64::min)).filter(|found| *found > floor)
}

fn gained(worths: &[Variable], this: &Alternative, rival: &Alternative) -> Expression {
    let pairs = worths.iter().zip(this.values.iter().zip(&rival.values));
    pairs.map(|(worth, (v, r))| (v - r) * *worth).sum()
}

/// Least total relative change of the worths, `Σ |Δw|/w`, by which an alternative comes level with every rival, with the
/// worths then; none where there is none below `ceiling`. A worth of nothing stays nothing.
pub fn least_change(
    this: &Alternative,
    rivals: &[&Alternative],
    worths: &[f64],
    ceiling: f64,
) -> Option<(f64, Vec<f64>)> {
    if rivals
        .iter()
        .any(|rival| at_least(this, rival, worths) >= ceiling)
    {
        return None;
    }
    let unit = worths.iter().copied().fold(1.0, f64::max);
    let mut variables = ProblemVariables::new();
    let parts: Vec<(Variable, Variable)> = worths
        .iter()
        .map(|worth| {
            let most = if *worth > 0.0 { f64::INFINITY } else { 0.0 };
            let up = variables.add(variable().min(0.0).max(most));
            let down = variables.add(variable().min(0.0).max(most.min(1.0)));
            (up, down)
        })
        .collect();
    let total: Expression = parts.iter().map(|(up, down)| *up + *down).sum();
    let mut model = variables.minimise(total.clone()).using(microlp);
    for rival in rivals {
        let behind = rival.net(worths) - this.net(worths);
        let change: Expression = parts
            .iter()
            .zip(worths)
            .zip(this.values.iter().zip(&rival.values))
            .map(|(((up, down), worth), (v, r))| (v - r) * worth / unit * (*up - *down))
            .sum();
        model = model.with(constraint!(change >= behind / unit));
    }
    let solved = model.solve().ok()?;
    let sum = solved.eval(&total);
    let then = parts
        .iter()
        .zip(worths)
        .map(|((up, down), worth)| worth * (1.0 + solved.value(*up) - solved.value(*down)))
        .collect();
    (sum < ceiling).then_some((sum, then))
}

/// A change no smaller than this is needed to catch one rival: all of it put where it moves most. Infinite where no worths
/// do, for the rival is better at everything and worths do not fall below nothing.
fn at_least(this: &Alternative, rival: &Alternative, worths: &[f64]) -> f64 {
    let behind = rival.net(worths) - this.net(worths);
    if behind <= 0.0 {
        return 0.0;
    }
    let pairs = this.values.iter().zip(&rival.values).zip(worths);
    let moves: Vec<f64> = pairs.map(|((v, r), worth)| (v - r) * worth).collect();
    let all: f64 = moves.iter().map(|moved| moved.abs()).sum();
    if moves.iter().all(|moved| *moved <= 0.0) && behind > all * (1.0 + 1e-9) {
        return f64::INFINITY;
    }
    behind / moves.iter().map(|moved| moved.abs()).fold(0.0, f64::max)
}

/// The worth of one criterion, nearest to its present one, at which one of some alternatives comes level with every rival;
/// all other worths stay.
pub fn overtaking(
    ours: &[&Alternative],
    rivals: &[&Alternative],
    worths: &[f64],
    criterion: usize,
) -> Option<f64> {
    let now = *worths.get(criterion)?;
    let mut without = worths.to_vec();
    *without.get_mut(criterion)? = 0.0;
    let line = |of: &Alternative| {
        (
            of.net(&without),
            of.values.get(criterion).copied().unwrap_or(0.0),
        )
    };
    let theirs: Vec<(f64, f64)> = rivals.iter().map(|rival| line(rival)).collect();
    let nearest = |best: Option<f64>, (least, most): (f64, f64)| {
        let near = now.clamp(least, most);
        match best {
            Some(best) if (best - now).abs() <= (near - now).abs() => Some(best),
            _ => Some(near),
        }
    };
    let stretches = ours.iter().filter_map(|this| level(line(this), &theirs));
    stretches.fold(None, nearest)
}

/// The stretch of worths, from nothing up, on which a line lies nowhere below others.
fn level((start, slope): (f64, f64), others: &[(f64, f64)]) -> Option<(f64, f64)> {
    let (mut least, mut most) = (0.0_f64, f64::INFINITY);
    for (other, steeper) in others {
        let (behind, gains) = (other - start, slope - steeper);
        if gains.abs() < 1e-12 {
            if behind > 1e-9 {
                return None;
            }
        } else if gains > 0.0 {
            least = least.max(behind / gains);
        } else {
            most = most.min(behind / gains);
        }
    }
    (least <= most).then_some((least, most))
}
