//! Unit tests of `catalog::stock`.

use super::{File, MOST_FAULTS, Problem, faults_by_file};

#[test]
fn what_is_left_out_is_counted_by_file() {
    let files = ["a.csv", "a.csv.csv", "b.json"].map(|name| File {
        name: name.into(),
        bytes: Vec::new(),
    });
    let mut faults = vec![Problem::at("a.csv line 2: x", "is wrong"); MOST_FAULTS];
    faults.push(Problem::at("b.json: x", "is wrong"));
    faults.extend(vec![Problem::at("a.csv.csv line 9: y", "is wrong"); 2]);
    let files: Vec<&File> = files.iter().collect();
    let told = faults_by_file(&files, faults);
    let last: Vec<String> = told[MOST_FAULTS..]
        .iter()
        .map(ToString::to_string)
        .collect();
    assert_eq!(
        last,
        [
            "error: a.csv.csv: the file has 2 faults more",
            "error: b.json: the file has 1 fault more"
        ]
    );
}
