//! Faults of the machine: a full disk, a folder that cannot be written, a file that cannot be read, a reader gone away.
//!
//! After each, the file that was there is as it was, byte for byte, and nothing lies beside it.
#![cfg(unix)]

use std::fs;
use std::os::unix::fs::{PermissionsExt, symlink};
use std::os::unix::process::CommandExt;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use tempfile::TempDir;

/// What stood in the file before.
const BEFORE: &str = "what was here before\n";

fn job() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/kiln-door.json")
}

fn counterpoise() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_counterpoise"));
    command.env("NO_COLOR", "1").stdin(Stdio::null());
    command
}

/// The program behind a line of shell, which says `exec "$0" "$@"` where it comes.
fn by_shell(line: &str) -> Command {
    let mut command = Command::new("sh");
    command
        .args(["-c", line])
        .arg(env!("CARGO_BIN_EXE_counterpoise"))
        .env("NO_COLOR", "1")
        .stdin(Stdio::null());
    command
}

fn ended(command: &mut Command) -> Output {
    command.output().expect("the program starts")
}

/// The status and the words on standard error, where no panic may stand.
#[track_caller]
fn says(output: &Output, code: i32, words: &[&str]) {
    let err = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(code), "{err}");
    assert!(!err.contains("panicked"), "{err}");
    for word in words {
        assert!(err.contains(word), "{word} is missing from: {err}");
    }
    if words.is_empty() {
        assert_eq!(err, "");
    }
}

/// A folder with a file in it, and what is asked of both afterwards.
struct Place {
    folder: TempDir,
}

impl Place {
    fn new() -> Self {
        let folder = tempfile::tempdir().expect("a folder");
        fs::write(folder.path().join("out.json"), BEFORE).expect("a file");
        Self { folder }
    }
    fn out(&self) -> PathBuf {
        self.folder.path().join("out.json")
    }
    /// The file is as it was, and alone but for what is named.
    #[track_caller]
    fn intact(&self, others: &[&str]) {
        assert_eq!(fs::read_to_string(self.out()).expect("it is there"), BEFORE);
        self.nothing_beside(others);
    }
    #[track_caller]
    fn nothing_beside(&self, others: &[&str]) {
        for entry in fs::read_dir(self.folder.path()).expect("a folder") {
            let name = entry.expect("an entry").file_name();
            let name = name.to_string_lossy();
            assert!(
                name == "out.json" || others.contains(&&*name),
                "{name} was left"
            );
        }
    }
}

fn is_study(path: &Path) -> bool {
    let text = fs::read_to_string(path).expect("it is there");
    let study: serde_json::Value = serde_json::from_str(&text).expect("it is whole");
    study["format"] == "counterpoise-study/2"
}

#[test]
fn standard_output_on_a_full_disk_is_a_fault_of_the_machine() {
    if !Path::new("/dev/full").exists() {
        println!("skipped: this system has no /dev/full");
        return;
    }
    let job = job();
    let job = job.to_str().expect("a plain path");
    for arguments in [
        &["rank", job][..],
        &["rank", job, "--json", "-"],
        &["explain", job, "1"],
        &["compare", job, job],
        &["catalog", "list"],
    ] {
        let full = fs::File::options()
            .write(true)
            .open("/dev/full")
            .expect("it opens");
        let output = ended(counterpoise().args(arguments).stdout(full));
        says(
            &output,
            1,
            &["error: standard output cannot be written", "No space left"],
        );
    }
}

#[test]
fn a_study_that_does_not_fit_leaves_the_one_before() {
    let place = Place::new();
    // Past the limit a write fails as on a full disk, where the signal is not in its way.
    let line = "trap '' XFSZ; ulimit -f 8; exec \"$0\" \"$@\"";
    let output = ended(
        by_shell(line)
            .arg("rank")
            .arg(job())
            .arg("--json")
            .arg(place.out()),
    );
    says(
        &output,
        1,
        &["error: ", "out.json cannot be written: ", "too large"],
    );
    assert!(output.stdout.is_empty());
    place.intact(&[]);
}

/// A disk of 64 KiB, unmounted when it is dropped; none where only root could have one and nobody is root.
struct SmallDisk(TempDir);

impl SmallDisk {
    fn new() -> Option<Self> {
        let folder = tempfile::tempdir().expect("a folder");
        let mount = Command::new("mount")
            .args(["-t", "tmpfs", "-o", "size=64k", "tmpfs"])
            .arg(folder.path())
            .output();
        mount
            .is_ok_and(|output| output.status.success())
            .then_some(Self(folder))
    }
}

impl Drop for SmallDisk {
    fn drop(&mut self) {
        // A disk that stays is swept away with the machine; the test has said what it had to say.
        let _ = Command::new("umount").arg(self.0.path()).status();
    }
}

#[test]
fn a_full_disk_leaves_the_study_before() {
    let Some(disk) = SmallDisk::new() else {
        println!(
            "skipped: mounting a small disk is not allowed here; the limit on a file's size stands in"
        );
        return;
    };
    let out = disk.0.path().join("out.json");
    fs::write(&out, BEFORE).expect("a small file fits");
    let output = ended(
        counterpoise()
            .arg("rank")
            .arg(job())
            .arg("--json")
            .arg(&out),
    );
    says(
        &output,
        1,
        &["out.json cannot be written: no storage space"],
    );
    assert_eq!(fs::read_to_string(&out).expect("it is there"), BEFORE);
    assert_eq!(fs::read_dir(disk.0.path()).expect("a folder").count(), 1);
}

#[test]
fn a_read_only_file_stays() {
    let place = Place::new();
    let lock = fs::Permissions::from_mode(0o444);
    fs::set_permissions(place.out(), lock).expect("it is ours");
    let output = ended(
        counterpoise()
            .arg("rank")
            .arg(job())
            .arg("--json")
            .arg(place.out()),
    );
    says(&output, 1, &["cannot be written: it is read-only"]);
    assert!(output.stdout.is_empty());
    place.intact(&[]);
}

#[test]
fn a_place_that_cannot_be_written_is_named_with_its_cause() {
    let place = Place::new();
    let inside = |name: &str| place.folder.path().join(name);
    fs::create_dir(inside("folder")).expect("a folder");
    symlink("nowhere/at-all.json", inside("dangling")).expect("a link");
    for (out, words) in [
        (inside("out.json/study.json"), "out.json is no folder"),
        (inside("missing/study.json"), "there is no folder "),
        (inside("folder"), "it is a folder"),
        (inside("dangling"), "there is no folder "),
        (PathBuf::from("/proc/study.json"), "cannot be written: "),
        (inside(&"x".repeat(300)), "cannot be written: "),
    ] {
        let output = ended(
            counterpoise()
                .arg("rank")
                .arg(job())
                .arg("--json")
                .arg(&out),
        );
        says(&output, 1, &["error: ", words, &out.display().to_string()]);
        assert!(output.stdout.is_empty(), "no table after a fault");
        place.intact(&["folder", "dangling"]);
    }
}

/// Where root would be let through, the program runs as nobody; none where it cannot.
fn as_nobody(folder: &Path) -> Option<Command> {
    let probe = folder.join("probe");
    let bound = fs::write(&probe, "").is_err();
    let _ = fs::remove_file(&probe);
    let mut command = counterpoise();
    if !bound {
        command.uid(65_534).gid(65_534);
        let mut probe = Command::new(env!("CARGO_BIN_EXE_counterpoise"));
        let runs = probe.arg("--version").uid(65_534).gid(65_534).output();
        if !runs.is_ok_and(|output| output.status.success()) {
            return None;
        }
    }
    Some(command)
}

#[test]
fn permissions_bind() {
    let place = Place::new();
    let folder = place.folder.path();
    let requirements = folder.join("job.json");
    fs::copy(job(), &requirements).expect("a copy");
    let secret = folder.join("secret.json");
    fs::write(&secret, "{}").expect("a file");
    fs::set_permissions(&secret, fs::Permissions::from_mode(0o000)).expect("it is ours");
    fs::set_permissions(folder, fs::Permissions::from_mode(0o555)).expect("it is ours");
    let others = ["job.json", "secret.json"];
    let Some(mut command) = as_nobody(folder) else {
        println!("skipped: root is let through everywhere and the program does not run as nobody");
        return;
    };
    let output = ended(
        command
            .arg("rank")
            .arg(&requirements)
            .arg("--json")
            .arg(place.out()),
    );
    says(
        &output,
        1,
        &["out.json cannot be written: permission denied"],
    );
    place.intact(&others);
    let mut command = as_nobody(folder).expect("it ran before");
    let output = ended(command.arg("rank").arg(&secret));
    says(
        &output,
        2,
        &["secret.json: cannot be read: Permission denied"],
    );
    let mut command = as_nobody(folder).expect("it ran before");
    let output = ended(command.arg("catalog").arg("check").arg(folder));
    says(
        &output,
        2,
        &["secret.json: cannot be read: Permission denied"],
    );
    place.intact(&others);
    fs::set_permissions(folder, fs::Permissions::from_mode(0o755)).expect("it is ours");
}

#[test]
fn requirements_that_cannot_be_read_are_bad_input() {
    let place = Place::new();
    let folder = place.folder.path();
    symlink("round.json", folder.join("round.json")).expect("a link");
    for (path, words) in [
        (folder.join("none.json"), "No such file"),
        (folder.to_path_buf(), "directory"),
        (folder.join("round.json"), "cannot be read: "),
        (folder.join("out.json/job.json"), "Not a directory"),
        (PathBuf::from("/proc/self/mem"), "cannot be read: "),
    ] {
        let output = ended(
            counterpoise()
                .arg("rank")
                .arg(&path)
                .arg("--json")
                .arg(place.out()),
        );
        says(&output, 2, &["error: ", &path.display().to_string(), words]);
        assert!(output.stdout.is_empty());
        place.intact(&["round.json"]);
    }
}

#[test]
fn a_catalog_that_cannot_be_read_is_bad_input() {
    let place = Place::new();
    let folder = place.folder.path();
    let shelf = folder.join("shelf");
    fs::create_dir(&shelf).expect("a folder");
    fs::create_dir(shelf.join("folder.json")).expect("a folder");
    symlink("nowhere", shelf.join("dangling.csv")).expect("a link");
    fs::write(shelf.join("other.txt"), "not looked at").expect("a file");
    for (path, words) in [
        (
            shelf.clone(),
            vec![
                "folder.json: is not a file",
                "dangling.csv: cannot be read: No such file",
            ],
        ),
        (
            folder.join("none"),
            vec!["none: cannot be read: No such file"],
        ),
        (place.out(), vec!["out.json: is a file, not a folder"]),
    ] {
        let output = ended(
            counterpoise()
                .arg("rank")
                .arg(job())
                .arg("--catalog")
                .arg(&path)
                .arg("--json")
                .arg(place.out()),
        );
        says(&output, 2, &words);
        assert!(output.stdout.is_empty());
        place.intact(&["shelf"]);
    }
}

#[test]
fn a_reader_that_goes_away_is_no_fault() {
    let job = job();
    let job = job.to_str().expect("a plain path");
    for (arguments, code) in [
        (&["rank", job][..], 0),
        (&["rank", job, "--json", "-"], 0),
        (&["rank", job, "--set", "goals.purchase.limit=5"], 3),
        (&["catalog", "list", "--kind", "ball_screws"], 0),
    ] {
        let mut child = counterpoise()
            .args(arguments)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("the program starts");
        drop(child.stdout.take());
        says(&child.wait_with_output().expect("it ends"), code, &[]);
    }
    // Where nobody hears the faults, the status still tells.
    let mut child = counterpoise()
        .args(["rank", "none.json"])
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    drop(child.stderr.take());
    assert_eq!(child.wait().expect("it ends").code(), Some(2));
}

#[test]
fn closed_streams_change_no_status_and_spoil_no_file() {
    let place = Place::new();
    let rank = |line: &str| {
        let mut command = by_shell(line);
        command
            .arg("rank")
            .arg(job())
            .arg("--json")
            .arg(place.out());
        ended(&mut command)
    };
    for line in [
        "exec \"$0\" \"$@\" >&-",
        "exec \"$0\" \"$@\" 2>&-",
        "exec \"$0\" \"$@\" <&- >&- 2>&-",
    ] {
        fs::write(place.out(), BEFORE).expect("a file");
        says(&rank(line), 0, &[]);
        assert!(
            is_study(&place.out()),
            "{line}: what is printed must not end up in the file"
        );
        place.nothing_beside(&[]);
    }
    let output = ended(by_shell("exec \"$0\" \"$@\" <&-").args(["rank", "-"]));
    says(&output, 2, &["the file is not JSON"]);
    let output = ended(by_shell("exec \"$0\" \"$@\" >&- 2>&-").args(["rank", "none.json"]));
    assert_eq!(output.status.code(), Some(2));
}

#[test]
fn what_is_in_the_place_of_the_study_keeps_its_nature() {
    let place = Place::new();
    let folder = place.folder.path();
    let link = folder.join("link");
    let write = |out: &Path| ended(counterpoise().arg("rank").arg(job()).arg("--json").arg(out));
    // A file keeps who may read it.
    fs::set_permissions(place.out(), fs::Permissions::from_mode(0o600)).expect("it is ours");
    says(&write(&place.out()), 0, &[]);
    assert!(is_study(&place.out()));
    let mode = fs::metadata(place.out())
        .expect("it is there")
        .permissions()
        .mode();
    assert_eq!(mode & 0o777, 0o600);
    // Through a link the file behind it is written, and the link stays.
    fs::write(place.out(), BEFORE).expect("a file");
    symlink("out.json", &link).expect("a link");
    says(&write(&link), 0, &[]);
    assert!(
        fs::symlink_metadata(&link)
            .expect("it is there")
            .is_symlink()
    );
    assert!(is_study(&place.out()));
    place.nothing_beside(&["link"]);
    // So does one that leads nowhere yet.
    fs::remove_file(place.out()).expect("it is ours");
    says(&write(&link), 0, &[]);
    assert!(is_study(&place.out()));
    assert!(
        fs::symlink_metadata(&link)
            .expect("it is there")
            .is_symlink()
    );
    // A device is written to; the link keeps a program at fault from touching the real one.
    fs::remove_file(&link).expect("it is ours");
    if Path::new("/dev/full").exists() {
        symlink("/dev/full", &link).expect("a link");
        says(
            &write(&link),
            1,
            &["link cannot be written: ", "No space left"],
        );
        assert!(
            fs::symlink_metadata(&link)
                .expect("it is there")
                .is_symlink()
        );
        fs::remove_file(&link).expect("it is ours");
    }
    symlink("/dev/null", &link).expect("a link");
    says(&write(&link), 0, &[]);
    assert!(!fs::metadata("/dev/null").expect("it is there").is_file());
    assert!(
        fs::symlink_metadata(&link)
            .expect("it is there")
            .is_symlink()
    );
}
