//! Those that no other is no worse than: the one meaning of "beaten".

/// Something by which two can be compared.
pub trait NoWorse {
    /// Whether it is no worse than another in anything that counts.
    fn no_worse(&self, other: &Self) -> bool;
}

/// Less is better in each of a row of figures.
impl NoWorse for Vec<f64> {
    fn no_worse(&self, other: &Self) -> bool {
        self.iter().zip(other).all(|(p, q)| p <= q)
    }
}

/// Those of different sorts are not compared.
impl<S: PartialEq, F: NoWorse> NoWorse for (S, F) {
    fn no_worse(&self, other: &Self) -> bool {
        self.0 == other.0 && self.1.no_worse(&other.1)
    }
}

/// The items taken so far that no other beats, in the order in which they came; of equals the first stays.
#[derive(Debug)]
pub struct ParetoFront<F, T>(Vec<(F, T)>);

impl<F, T> Default for ParetoFront<F, T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<F: NoWorse, T> ParetoFront<F, T> {
    /// Whether one taken before is no worse than such a one.
    pub fn beats(&self, figures: &F) -> bool {
        self.0.iter().any(|(own, _)| own.no_worse(figures))
    }

    /// Takes one in and drops those that it beats, unless it is beaten itself.
    pub fn take(&mut self, figures: F, item: T) {
        if self.beats(&figures) {
            return;
        }
        self.0.retain(|(own, _)| !figures.no_worse(own));
        self.0.push((figures, item));
    }

    /// The items.
    pub fn into_items(self) -> impl Iterator<Item = T> {
        self.0.into_iter().map(|(_, item)| item)
    }

    /// Whether nothing has been taken.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

/// Of items those that no other is no worse than, in their order; of equals the first stays.
pub fn front<F: NoWorse, T>(
    items: impl IntoIterator<Item = T>,
    figures: impl Fn(&T) -> F,
) -> Vec<T> {
    let mut front = ParetoFront::default();
    for item in items {
        front.take(figures(&item), item);
    }
    front.into_items().collect()
}

#[cfg(test)]
#[path = "../../../tests/unit/family/choose/front.rs"]
mod tests;
