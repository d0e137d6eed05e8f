//! Where the families put what they offer, and what is remembered of attempts that failed.

use std::collections::BTreeSet;

use crate::family::{Check, Drive};

/// A failed attempt: a bound that stopped it early, or a whole drive; then how far off it is.
#[derive(Debug)]
struct Attempt {
    early: bool,
    distance: f64,
    /// The checks that failed.
    checks: Vec<Check>,
}

impl Attempt {
    fn new(early: bool, checks: Vec<Check>) -> Self {
        // How far off: as a distance with each failing check for a direction, by how much it is over, a yes-or-no check like
        // a factor of three; then by how many fail. Several failing checks often have one cause, such as the force and the
        // power of one person: they do not add up as others would.
        let over = |check: &Check| match check.says {
            Some(_) => 3.0,
            None => check.utilisation().max(1.0),
        };
        let squares = checks
            .iter()
            .map(|check| libm::pow(libm::log(over(check)), 2.0));
        let many = f64::from(u32::try_from(checks.len()).unwrap_or(u32::MAX));
        Self {
            early,
            distance: squares.sum::<f64>().sqrt() + 0.01 * many,
            checks,
        }
    }
    fn fails_alike(&self, other: &Self) -> bool {
        let own = self.checks.iter().map(|check| check.id);
        self.early == other.early && own.eq(other.checks.iter().map(|check| check.id))
    }
}

/// Where the families put what they offer, and what came nearest where nothing passes.
#[derive(Debug)]
pub struct Bench<'a> {
    /// Drives whose checks all pass.
    pub sound: Vec<Drive<'a>>,
    /// Whether failed attempts are remembered.
    explains: bool,
    /// Of the failed attempts of the family and assist at work, those that came nearest, one for each set of checks failed.
    attempts: Vec<Attempt>,
    /// What fails whatever is tried.
    always: Vec<Check>,
    /// Checks that some attempt passed: another part is enough to pass them, they are no cause by themselves.
    passed: BTreeSet<&'static str>,
}

impl Default for Bench<'_> {
    fn default() -> Self {
        Self {
            sound: Vec::new(),
            explains: true,
            attempts: Vec::new(),
            always: Vec::new(),
            passed: BTreeSet::new(),
        }
    }
}

impl<'a> Bench<'a> {
    /// A bench that remembers no failed attempt: whatever only finds the nearest one may be left out.
    pub fn silent() -> Self {
        Self {
            explains: false,
            ..Self::default()
        }
    }
    /// Whether failed attempts are remembered, and so worth working out.
    pub fn explains(&self) -> bool {
        self.explains
    }
    /// Offers a drive: kept if every check passes, else remembered if it came nearest.
    pub fn offer(&mut self, drive: Drive<'a>) {
        if drive.passes() {
            if self.explains {
                self.passed
                    .extend(drive.checks.iter().map(|check| check.id));
            }
            self.sound.push(drive);
        } else {
            self.misses(drive.checks);
        }
    }
    /// Says what fails whatever is tried: it is told with every attempt, and by itself where there is none.
    pub fn fails_always(&mut self, checks: Vec<Check>) {
        self.always = checks;
        self.always.retain(|check| !check.passes());
    }
    /// Says that an attempt ended at these checks: a bound that failed before a drive was built.
    pub fn fails(&mut self, checks: Vec<Check>) {
        self.take(true, checks);
    }
    /// Says that a whole drive failed some of these checks; it came nearer than any that a bound stopped.
    pub fn misses(&mut self, checks: Vec<Check>) {
        self.take(false, checks);
    }
    fn take(&mut self, early: bool, checks: Vec<Check>) {
        if !self.explains {
            return;
        }
        let (passed, failed): (Vec<Check>, Vec<Check>) =
            checks.into_iter().partition(Check::passes);
        self.passed.extend(passed.iter().map(|check| check.id));
        let mut failed = failed;
        for check in &self.always {
            if failed.iter().all(|own| own.id != check.id) {
                failed.push(check.clone());
            }
        }
        if failed.is_empty() {
            return;
        }
        self.remember(Attempt::new(early, failed));
    }
    fn remember(&mut self, attempt: Attempt) {
        let alike = self
            .attempts
            .iter_mut()
            .find(|known| known.fails_alike(&attempt));
        match alike {
            Some(known) if attempt.distance < known.distance => *known = attempt,
            Some(_) => {}
            None => self.attempts.push(attempt),
        }
    }
    /// Takes over what another bench remembers that was filled after this one.
    pub fn join(&mut self, later: Self) {
        self.sound.extend(later.sound);
        self.passed.extend(later.passed);
        if self.always.is_empty() {
            self.always = later.always;
        }
        for attempt in later.attempts {
            self.remember(attempt);
        }
    }
    /// Takes the checks of the failed attempt that says most, and forgets them all: a whole drive before one that a bound
    /// stopped, one that fails what no attempt passes before one whose every failing check another part would pass, then
    /// the nearest. A small part that just misses a check is near, and hides what would stop the large one.
    pub fn take_nearest(&mut self) -> Vec<Check> {
        self.take_reason().0
    }
    /// As [`Bench::take_nearest`], with what stopped the nearest attempt with other parts that failed none of those checks,
    /// where there is one: the family is caught between the two.
    pub fn take_reason(&mut self) -> (Vec<Check>, Vec<Check>) {
        let mut attempts = self.sorted().into_iter();
        let Some((nearest, avoidable)) = attempts.next() else {
            return Default::default();
        };
        let apart = |(attempt, _): &(Attempt, bool)| {
            let shared = |check: &Check| nearest.checks.iter().any(|own| own.id == check.id);
            // A bound may have stopped an attempt before it came to the checks of the other.
            let whole = !attempt.early || (nearest.early && avoidable);
            whole && !attempt.checks.iter().any(shared)
        };
        let other = attempts.find(apart).map(|(attempt, _)| attempt.checks);
        (nearest.checks, other.unwrap_or_default())
    }
    /// Takes the checks of every failed attempt remembered, the one that says most first.
    pub fn take_attempts(&mut self) -> Vec<Vec<Check>> {
        let attempts = self.sorted().into_iter();
        attempts.map(|(attempt, _)| attempt.checks).collect()
    }
    /// The failed attempts, the one that says most first, each with whether other parts pass all that it failed.
    fn sorted(&mut self) -> Vec<(Attempt, bool)> {
        let passed = core::mem::take(&mut self.passed);
        let always = core::mem::take(&mut self.always);
        if self.attempts.is_empty() && !always.is_empty() {
            self.attempts.push(Attempt::new(true, always));
        }
        let avoidable =
            |attempt: &Attempt| attempt.checks.iter().all(|check| passed.contains(check.id));
        let attempts = core::mem::take(&mut self.attempts).into_iter();
        let mut attempts: Vec<_> = attempts
            .map(|attempt| (avoidable(&attempt), attempt))
            .map(|(avoidable, attempt)| (attempt, avoidable))
            .collect();
        // A sort that keeps the order of the equal, so that the first found stays first.
        attempts.sort_by(|(p, own), (q, other)| {
            let bounds = p.early.cmp(&q.early).then_with(|| own.cmp(other));
            bounds.then_with(|| p.distance.total_cmp(&q.distance))
        });
        attempts
    }
}

#[cfg(test)]
#[path = "../../../tests/unit/family/choose/bench.rs"]
mod tests;
