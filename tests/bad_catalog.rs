//! Every kind of fault of a folder of parts: the folder, and beside it the exact text it is refused with.

use std::fs;
use std::path::{Path, PathBuf};

use counterpoise::catalog::{File, Stock};

fn entries(folder: &Path) -> Vec<PathBuf> {
    let mut paths: Vec<_> = fs::read_dir(folder)
        .expect("the folder can be read")
        .map(|entry| entry.expect("an entry can be read").path())
        .collect();
    paths.sort();
    paths
}

/// What a folder is refused with.
fn refusal(folder: &Path) -> String {
    let file = |path: PathBuf| File {
        name: path
            .file_name()
            .expect("a name")
            .to_string_lossy()
            .into_owned(),
        bytes: fs::read(&path).expect("the file can be read"),
    };
    let files: Vec<_> = entries(folder).into_iter().map(file).collect();
    let problems = Stock::with("shop", &files).expect_err(&folder.display().to_string());
    let texts: Vec<_> = problems.iter().map(ToString::to_string).collect();
    texts.join("\n") + "\n"
}

/// `UPDATE_BAD=1` writes the texts anew, to be read before they are committed.
#[test]
fn every_fault_is_refused_with_its_text() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad_catalog");
    let folders: Vec<_> = entries(&root)
        .into_iter()
        .filter(|path| path.is_dir())
        .collect();
    assert!(folders.len() > 40, "inputs are missing");
    for folder in folders {
        let (got, beside) = (refusal(&folder), folder.with_extension("txt"));
        if std::env::var_os("UPDATE_BAD").is_some() {
            fs::write(&beside, &got).expect("the text can be written");
        }
        let expected = fs::read_to_string(&beside).expect("each folder has its text beside it");
        assert_eq!(got, expected, "{}", folder.display());
    }
}
