//! The first part that bears enough, of parts that are taken in a fixed order.

/// Parts in the order in which they are taken, each with what it bears.
///
/// A part that bears no more than one taken sooner is never the first that bears enough: it is left out, so that what
/// the rest bear only grows, and the first that bears enough is found by halving.
#[derive(Debug)]
pub(super) struct Ladder<'a, P> {
    rungs: Vec<(f64, &'a P)>,
    /// The last of those that bear the most.
    strongest: Option<&'a P>,
}

impl<'a, P> Ladder<'a, P> {
    /// Of parts in their order.
    pub(super) fn new(
        in_order: impl IntoIterator<Item = &'a P>,
        bears: impl Fn(&P) -> f64,
    ) -> Self {
        let mut rungs: Vec<(f64, &P)> = Vec::new();
        let mut strongest = None;
        for part in in_order {
            let here = bears(part);
            let most = rungs.last().map_or(f64::NEG_INFINITY, |(most, _)| *most);
            if here >= most {
                strongest = Some(part);
            }
            if here > most {
                rungs.push((here, part));
            }
        }
        Self { rungs, strongest }
    }

    /// The first part that bears so much.
    pub(super) fn first(&self, asked: f64) -> Option<&'a P> {
        let at = self.rungs.partition_point(|(bears, _)| *bears < asked);
        self.rungs.get(at).map(|(_, part)| *part)
    }

    /// The part that bears the most.
    pub(super) fn strongest(&self) -> Option<&'a P> {
        self.strongest
    }

    /// The first part that bears so much, or the strongest, so that a check can say what is missing.
    pub(super) fn first_or_strongest(&self, asked: f64) -> Option<&'a P> {
        self.first(asked).or(self.strongest)
    }
}

#[cfg(test)]
mod tests {
    use super::Ladder;

    #[test]
    fn the_first_that_bears_enough_else_the_strongest() {
        let parts = [2.0, 1.0, 2.0, 5.0, 4.0];
        let ladder = Ladder::new(&parts, |bears| *bears);
        assert_eq!(ladder.first(0.5), Some(&parts[0]));
        assert_eq!(ladder.first(2.0), Some(&parts[0]));
        assert!(core::ptr::eq(
            ladder.first(3.0).expect("four bears it"),
            core::ptr::from_ref(&parts[3])
        ));
        assert_eq!(ladder.first(6.0), None);
        assert_eq!(ladder.first_or_strongest(6.0), Some(&5.0));
    }
}
