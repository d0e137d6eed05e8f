//! Time of a study of each example, and over larger catalogs: `cargo bench --bench rank`.
//!
//! `cargo bench --bench rank -- grow` takes the lines that have the word.

use std::cell::LazyCell;
use std::hint::black_box;
use std::time::Instant;

use counterpoise::catalog::Catalog;
use counterpoise::requirements::Reading;
use counterpoise::study::Study;
use counterpoise::{catalog, study};

#[allow(dead_code, reason = "a benchmark takes what it needs")]
#[path = "../support/mod.rs"]
mod support;

mod larger;

/// The files in `examples/` that have options as they stand.
const EXAMPLES: [&str; 11] = [
    "backdrop-lift",
    "cellar-shutter",
    "dairy-door",
    "dipping-arm",
    "gutter-rolls",
    "kiln-door",
    "seed-drawer",
    "tile-fence",
    "tray-pusher",
    "vat-lid",
    "veneer-press",
];

fn main() {
    let built_in = catalog::built_in().expect("the built-in catalog is sound");
    println!("{:<28} {:>10} {:>10}", "ms", "fastest", "middle");
    for example in EXAMPLES {
        let job = reading(example);
        let study = LazyCell::new(|| made(&job, built_in));
        // From a file's bytes to a job; from a job to its ranked study, the catalog read before; from a study to its file.
        time(&format!("read {example}"), 100, || reading(example));
        time(&format!("rank {example}"), 20, || made(&job, built_in));
        time(&format!("write {example}"), 20, || {
            study::to_json(&study).expect("the study is sound")
        });
    }
    // The same from a job to its study, over catalogs of 1, 10 and 100 times as many parts.
    for larger in [1, 10, 100] {
        let parts = LazyCell::new(|| larger::larger(built_in, larger));
        for example in EXAMPLES {
            let job = reading(example);
            time(&format!("grow {larger} {example}"), 3, || {
                made(&job, &parts)
            });
        }
    }
}

/// Prints how long something takes, the fastest and the middle of so many times, if its line has every word that was asked for.
fn time<T>(line: &str, times: usize, work: impl Fn() -> T) {
    let mut words = std::env::args()
        .skip(1)
        .filter(|word| !word.starts_with("--"));
    if !words.all(|word| line.contains(&word)) {
        return;
    }
    // What is made once for all is made now.
    black_box(work());
    let mut took: Vec<f64> = (0..times)
        .map(|_| {
            let start = Instant::now();
            black_box(work());
            start.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    took.sort_by(f64::total_cmp);
    println!("{line:<28} {:>10.3} {:>10.3}", took[0], took[times / 2]);
}

fn reading(example: &str) -> Reading {
    support::example(example, &[])
}

fn made(reading: &Reading, parts: &Catalog) -> Study {
    study::study(reading, parts).expect("it is ranked")
}
