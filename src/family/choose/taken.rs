//! What was taken so far of things that carry or pass more or less: whether one of them is no worse than another.
//!
//! A catalog of many makers has a hundred thousand lines of valve, tube and throttle, which mostly differ in what they cost. So what
//! else counts of them is compared once for all that are alike in it, and of those is known how much any sum of money buys.

use super::figures::Merits;
use super::front::NoWorse;

/// Things taken so far, less their money: those alike, with their steps.
#[derive(Debug, Default)]
pub struct Taken(Vec<(Merits, Vec<Step>)>);

/// The least money that buys so much; of those alike both grow from step to step.
#[derive(Debug, Clone, Copy)]
struct Step {
    purchase: f64,
    carries: f64,
}

impl Taken {
    /// Whether one that was taken carries so much and is no worse in anything that counts.
    pub fn beats(&self, carries: f64, figures: &Merits) -> bool {
        let rest = without_purchase(*figures);
        // What was taken last is mostly nearest, and so the first to be no worse.
        let mut alike = self.0.iter().rev();
        alike
            .any(|(own, steps)| own.no_worse(&rest) && most_for(steps, figures.purchase) >= carries)
    }

    /// Takes one in.
    pub fn take(&mut self, carries: f64, figures: Merits) {
        let (rest, purchase) = (without_purchase(figures), figures.purchase);
        let Some((_, steps)) = self.0.iter_mut().find(|(own, _)| *own == rest) else {
            self.0.push((rest, vec![Step { purchase, carries }]));
            return;
        };
        if most_for(steps, purchase) < carries {
            let from = steps.partition_point(|step| step.purchase < purchase);
            let later = steps.iter().skip(from);
            let beaten = later.take_while(|step| step.carries <= carries).count();
            steps.splice(from..from + beaten, [Step { purchase, carries }]);
        }
    }
}

/// The most that money buys; less than anything where it buys nothing.
fn most_for(steps: &[Step], purchase: f64) -> f64 {
    let affordable = steps.partition_point(|step| step.purchase <= purchase);
    let last = affordable.checked_sub(1).and_then(|last| steps.get(last));
    last.map_or(f64::NEG_INFINITY, |step| step.carries)
}

fn without_purchase(figures: Merits) -> Merits {
    Merits {
        purchase: 0.0,
        ..figures
    }
}
