//! Every kind of fault of a requirements file: the input, and beside it the exact text it is refused with.

use std::fs;
use std::path::Path;

use counterpoise::requirements::read;

/// What a file is refused with.
fn refusal(path: &Path) -> String {
    let bytes = fs::read(path).expect("the file can be read");
    let problems = read(&bytes, &[]).expect_err(&path.display().to_string());
    let texts: Vec<_> = problems.iter().map(ToString::to_string).collect();
    texts.join("\n") + "\n"
}

/// `UPDATE_BAD=1` writes the texts anew, to be read before they are committed.
#[test]
fn every_fault_is_refused_with_its_text() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad");
    let mut files: Vec<_> = fs::read_dir(folder)
        .expect("the folder can be read")
        .map(|entry| entry.expect("an entry can be read").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .collect();
    files.sort();
    assert!(files.len() > 40, "inputs are missing");
    for path in files {
        let (got, beside) = (refusal(&path), path.with_extension("txt"));
        if std::env::var_os("UPDATE_BAD").is_some() {
            fs::write(&beside, &got).expect("the text can be written");
        }
        let expected = fs::read_to_string(&beside).expect("each input has its text beside it");
        assert_eq!(got, expected, "{}", path.display());
    }
}
