//! Time of a study of each example: `cargo bench --bench rank`.

use counterpoise::requirements::Reading;
use counterpoise::study::Study;
use counterpoise::{catalog, study};

#[allow(dead_code, reason = "a benchmark takes what it needs")]
#[path = "../support/mod.rs"]
mod support;

/// Every file in `examples/`.
const EXAMPLES: [&str; 4] = ["kiln-door", "tile-fence", "tray-pusher", "veneer-press"];

fn main() {
    divan::main();
}

fn reading(example: &str) -> Reading {
    support::example(example, &[])
}

fn made(reading: &Reading) -> Study {
    let parts = catalog::built_in().expect("the built-in catalog is sound");
    study::study(reading, parts).expect("a slide is ranked")
}

/// From a file's bytes to a job.
#[divan::bench(args = EXAMPLES)]
fn read(bencher: divan::Bencher, example: &str) {
    bencher.bench(|| reading(example));
}

/// From a job to its ranked study; the catalog is read before.
#[divan::bench(args = EXAMPLES, sample_count = 20, sample_size = 1)]
fn rank(bencher: divan::Bencher, example: &str) {
    let reading = reading(example);
    bencher.bench(|| made(&reading));
}

/// From a study to its file.
#[divan::bench(args = EXAMPLES, sample_count = 20, sample_size = 1)]
fn write(bencher: divan::Bencher, example: &str) {
    let made = made(&reading(example));
    bencher.bench(|| study::to_json(&made).expect("the study is sound"));
}
