//! Pieces of work on all cores, joined in their order.

use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

/// Helpers at work in the whole process: work within work takes only the cores that are left.
static HELPERS: AtomicUsize = AtomicUsize::new(0);

/// A core that a helper works on, given back when it ends.
struct Core;

impl Core {
    /// A core that nobody works on, if there is one.
    fn free() -> Option<Self> {
        let most = thread::available_parallelism().map_or(1, usize::from) - 1;
        let take = |helpers| (helpers < most).then(|| helpers + 1);
        let taken = HELPERS.fetch_update(Ordering::Relaxed, Ordering::Relaxed, take);
        // Made only where it was taken: it gives back when it goes.
        taken.ok().map(|_| Self)
    }
}

impl Drop for Core {
    fn drop(&mut self) {
        HELPERS.fetch_sub(1, Ordering::Relaxed);
    }
}

/// The results of `count` pieces of work, in their order, worked out on as many threads as there are free cores.
pub fn in_parallel<T: Send>(count: usize, work: impl Fn(usize) -> T + Sync) -> Vec<T> {
    let next = AtomicUsize::new(0);
    let take = || {
        let mut done = Vec::new();
        loop {
            // From the end: the last pieces are the longest, and should not be left to one thread.
            let taken = next.fetch_add(1, Ordering::Relaxed);
            let Some(index) = count.checked_sub(taken + 1) else {
                return done;
            };
            done.push((index, work(index)));
        }
    };
    let take = &take;
    let mut all = thread::scope(|scope| {
        let cores = (1..count).map_while(|_| Core::free());
        let help = |core: Core| {
            scope.spawn(move || {
                let done = take();
                drop(core);
                done
            })
        };
        let helpers: Vec<_> = cores.map(help).collect();
        let mut all = take();
        for helper in helpers {
            match helper.join() {
                Ok(done) => all.extend(done),
                // A fault of ours: it goes on as it would without threads.
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
        all
    });
    all.sort_by_key(|(index, _)| *index);
    all.into_iter().map(|(_, result)| result).collect()
}

#[cfg(test)]
#[path = "../../tests/unit/study/parallel.rs"]
mod tests;
