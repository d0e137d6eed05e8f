//! One part for each of some needs: the sets that no other set beats.

use super::figures::Merits;
use super::front::front;
use crate::catalog::Control;
use crate::family::{Ask, Check, PartLine};
use crate::quantity::Si;

/// A line of a parts list that would do.
#[derive(Debug, Clone)]
pub struct PartChoice<'a> {
    /// The line.
    pub line: PartLine<'a>,
    /// Electricity that it draws while switched on, W.
    pub standby_w: f64,
    /// Why it will do.
    pub checks: Vec<Check>,
}

impl<'a> PartChoice<'a> {
    /// The controls of a drive.
    pub fn controls(control: &'a Control) -> Self {
        Self {
            standby_w: control.standby.si(),
            ..PartLine::pieces("controls", &control.common, 1).into()
        }
    }
}

impl<'a> From<PartLine<'a>> for PartChoice<'a> {
    fn from(line: PartLine<'a>) -> Self {
        Self {
            line,
            standby_w: 0.0,
            checks: Vec::new(),
        }
    }
}

/// Of all sets of one choice for each need those that no other beats, the cheapest over the horizon first. A need for which
/// there is no choice is left out.
pub fn sets<'a>(ask: &Ask<'a>, needs: Vec<Vec<PartChoice<'a>>>) -> Vec<Vec<PartChoice<'a>>> {
    let (rates, goals) = (ask.life_cost(), ask.goals());
    let mut sets = vec![(Merits::NONE, Vec::new())];
    for choices in needs {
        // What every set has alike tells none of them apart.
        if let [only] = choices.as_slice() {
            for (_, set) in &mut sets {
                set.push(only.clone());
            }
            continue;
        }
        if choices.is_empty() {
            continue;
        }
        let with = |(figures, set): &(Merits, Vec<PartChoice<'a>>), choice: &PartChoice<'a>| {
            let own = Merits::line(&rates, &choice.line).drawing(&rates, 0.0, choice.standby_w);
            let mut set = set.clone();
            set.push(choice.clone());
            (*figures + own, set)
        };
        let all = sets
            .iter()
            .flat_map(|set| choices.iter().map(|choice| with(set, choice)));
        let mut kept = front(all.collect::<Vec<_>>(), |(figures, _)| {
            goals.of_part(*figures)
        });
        // A sort that keeps the order of the equal.
        kept.sort_by(|p, q| goals.life_cost(&p.0).total_cmp(&goals.life_cost(&q.0)));
        sets = kept;
    }
    sets.into_iter().map(|(_, set)| set).collect()
}
