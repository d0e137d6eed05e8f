//! Each layer uses itself and those above it in the list of `lib.rs`, never one below.

use std::fs;
use std::path::{Path, PathBuf};

/// The layers, first to last; `requirements` and `catalog` stand side by side.
const LAYERS: &[&str] = &[
    "problem",
    "quantity",
    "reading",
    "refusal",
    "mechanics",
    "requirements",
    "catalog",
    "demand",
    "family",
    "study",
    "decide",
    "ask",
    "report",
    "cli",
];

fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("src can be read") {
        let path = entry.expect("an entry can be read").path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
}

/// The layer a file belongs to: the first part of its path below `src`.
fn layer_of(path: &Path, src: &Path) -> Option<usize> {
    let first = path
        .strip_prefix(src)
        .ok()?
        .components()
        .next()?
        .as_os_str()
        .to_str()?;
    LAYERS
        .iter()
        .position(|layer| *layer == first.trim_end_matches(".rs"))
}

#[test]
fn no_layer_uses_one_below_it() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    sources(&src, &mut files);
    let mut uses = 0;
    for file in files {
        let Some(own) = layer_of(&file, &src) else {
            continue;
        };
        let text = fs::read_to_string(&file).expect("a source can be read");
        for (number, line) in text
            .lines()
            .enumerate()
            .filter(|(_, line)| !line.trim_start().starts_with("//"))
        {
            for (index, layer) in LAYERS.iter().enumerate() {
                if !line.contains(&format!("crate::{layer}")) {
                    continue;
                }
                uses += 1;
                let place = format!("{}:{}", file.display(), number + 1);
                assert!(
                    index <= own,
                    "{place}: {} uses {layer}, which is below it",
                    LAYERS[own]
                );
                let pair = (LAYERS[own], *layer);
                assert!(
                    pair != ("catalog", "requirements"),
                    "{place}: catalog does not see requirements"
                );
            }
        }
    }
    assert!(
        uses > 50,
        "the test reads the sources; it found only {uses} uses"
    );
}

#[test]
fn the_layers_are_those_of_the_crate() {
    let lib = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("src/lib.rs"))
        .expect("lib.rs is there");
    let named: Vec<&str> = lib
        .lines()
        .filter_map(|line| line.strip_prefix("pub mod "))
        .map(|name| name.trim_end_matches(';'))
        .collect();
    assert_eq!(named, LAYERS);
}

/// A file of tests that is no module of the program would never run.
#[test]
fn every_file_of_tests_is_a_module_of_the_program() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests");
    let program = fs::read_to_string(folder.join("all.rs")).expect("the program is there");
    let mut count = 0;
    for entry in fs::read_dir(folder).expect("the tests are there") {
        let path = entry.expect("a file").path();
        let is_module =
            path.extension().is_some_and(|ending| ending == "rs") || path.join("mod.rs").exists();
        let name = path.file_stem().unwrap_or_default().to_string_lossy();
        if is_module && name != "all" {
            assert!(program.contains(&format!("\nmod {name};")), "{name}");
            count += 1;
        }
    }
    assert!(count > 20, "{count} files");
}

/// A unit test that the module it tests does not mount would never run.
#[test]
fn every_file_of_unit_tests_is_mounted_in_the_crate() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let (mut program, mut tests) = (Vec::new(), Vec::new());
    sources(&root.join("src"), &mut program);
    sources(&root.join("tests/unit"), &mut tests);
    let program: String = program
        .iter()
        .map(|file| fs::read_to_string(file).expect("a source can be read"))
        .collect();
    for file in &tests {
        let path = file.strip_prefix(root).expect("a file of the project");
        let mounted = format!("../{}\"]\nmod ", path.display());
        assert!(program.contains(&mounted), "{}", path.display());
    }
    assert!(tests.len() > 30, "{} files", tests.len());
}
