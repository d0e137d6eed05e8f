//! Time of a study of each example, and over larger catalogs: `cargo bench --bench rank`.

use std::sync::OnceLock;

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
    divan::main();
}

fn reading(example: &str) -> Reading {
    support::example(example, &[])
}

fn made(reading: &Reading) -> Study {
    let parts = catalog::built_in().expect("the built-in catalog is sound");
    study::study(reading, parts).expect("it is ranked")
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

/// The built-in catalog so many times over.
fn catalog<const TIMES: usize>() -> &'static Catalog {
    static LARGER: [OnceLock<Catalog>; 3] = [const { OnceLock::new() }; 3];
    let built_in = catalog::built_in().expect("the built-in catalog is sound");
    LARGER[TIMES.ilog10() as usize].get_or_init(|| larger::larger(built_in, TIMES))
}

/// From a job to its ranked study, over catalogs of 1, 10 and 100 times as many parts.
#[divan::bench(args = EXAMPLES, consts = [1, 10, 100], sample_count = 3, sample_size = 1)]
fn grow<const TIMES: usize>(bencher: divan::Bencher, example: &str) {
    let reading = reading(example);
    let parts = catalog::<TIMES>();
    bencher.bench(|| study::study(&reading, parts).expect("it is ranked"));
}
