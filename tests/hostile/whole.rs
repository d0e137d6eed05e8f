//! The program as a whole process on hostile files: its exit status, its streams, its memory, an end.

use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// Memory that the process may map, KiB: 512 MiB.
const MEMORY_KIB: u32 = 512 << 10;
/// After so long a process of a debug build is taken to hang.
const LONGEST: Duration = Duration::from_mins(1);
/// So long it may take in a release build on a quiet machine.
const LONGEST_IN_RELEASE: Duration = Duration::from_secs(2);
/// Names a release build to try instead, in the environment.
const BINARY: &str = "HOSTILE_BINARY";

/// How a process ended.
#[derive(Debug)]
pub struct Ended {
    pub code: Option<i32>,
    pub out: Vec<u8>,
    pub err: String,
    pub took: Duration,
}

/// Runs the program with its memory limited and its streams in files.
fn run(arguments: &[&str], folder: &Path) -> Result<Ended, String> {
    let file = |name| std::fs::File::create(folder.join(name)).expect("the folder can be written");
    let text = |fault: std::io::Error| fault.to_string();
    let release = std::env::var_os(BINARY);
    let longest = match release {
        Some(_) => LONGEST_IN_RELEASE,
        None => LONGEST,
    };
    let program = release.unwrap_or_else(|| env!("CARGO_BIN_EXE_counterpoise").into());
    // Arenas of the allocator are mapped long before they are used: two are enough.
    let mut child = Command::new("sh")
        .args(["-c", &format!("ulimit -v {MEMORY_KIB}; exec \"$0\" \"$@\"")])
        .arg(program)
        .args(arguments)
        .current_dir(folder)
        .env("MALLOC_ARENA_MAX", "2")
        .env("NO_COLOR", "1")
        .stdin(Stdio::null())
        .stdout(file("out"))
        .stderr(file("err"))
        .spawn()
        .map_err(text)?;
    let start = Instant::now();
    let status = loop {
        if let Some(status) = child.try_wait().map_err(text)? {
            break status;
        }
        if start.elapsed() > longest {
            child.kill().map_err(text)?;
            child.wait().map_err(text)?;
            return Err(format!("does not end in {longest:?}"));
        }
        std::thread::sleep(Duration::from_millis(5));
    };
    let read = |name| std::fs::read(folder.join(name)).expect("the stream was written");
    Ok(Ended {
        code: status.code(),
        out: read("out"),
        err: String::from_utf8(read("err")).map_err(|fault| fault.to_string())?,
        took: start.elapsed(),
    })
}

/// Runs the program on what lies in a folder; gives its status and time.
///
/// # Errors
/// What breaks the law.
pub fn obeys(arguments: &[&str], folder: &Path) -> Result<(i32, Duration), String> {
    let ended = run(arguments, folder)?;
    let err = ended.err.chars().take(500).collect::<String>();
    let right = match ended.code {
        Some(0 | 3) => !ended.out.is_empty() && !ended.err.contains("panic"),
        Some(2) => {
            ended.out.is_empty() && ended.err.starts_with("error: ") && ended.err.len() < 1 << 20
        }
        _ => false,
    };
    if right {
        Ok((ended.code.unwrap_or_default(), ended.took))
    } else {
        Err(format!(
            "status {:?}, {} bytes of output, {} of errors: {err}",
            ended.code,
            ended.out.len(),
            ended.err.len()
        ))
    }
}

/// Bytes of the largest file that `rank` reads, and a little less.
const FULL: usize = (1 << 20) - 100;

/// A text of so many bytes: a start, items, an end.
fn filled(bytes: usize, start: &str, item: &dyn Fn(usize) -> String, end: &str) -> Vec<u8> {
    let mut text = start.to_owned();
    for index in 0.. {
        let item = item(index);
        if text.len() + item.len() + end.len() > bytes {
            break;
        }
        text.push_str(&item);
    }
    (text + end).into_bytes()
}

/// Files of parts as large as are read.
pub fn large_catalogs() -> Vec<(&'static str, &'static str, Vec<u8>)> {
    let (json, csv) = ("shelf/own.json", "shelf/cranks.csv");
    let columns = "id,name,price,mass [kg],ingress,radius [mm],force [N]\n";
    let head = r#"{"format": "counterpoise-catalog/1", "kind": "cranks", "parts": ["#;
    let crank = |index: usize| {
        format!(
            r#"{{"id": "own-{index}", "name": "crank", "price": 3, "mass": "1 kg", "ingress": "IP65", "radius": "200 mm", "force": "300 N"}},"#
        )
    };
    let last = r#"{"id": "last", "name": "crank", "price": 3, "mass": "1 kg", "ingress": "IP65", "radius": "200 mm", "force": "300 N"}]}"#;
    vec![
        (
            "zeros",
            json,
            filled(4 * FULL, &format!("{head}0"), &|_| ",0".into(), "]}"),
        ),
        (
            "empty parts",
            json,
            filled(4 * FULL, &format!("{head}{{}}"), &|_| ",{}".into(), "]}"),
        ),
        ("parts", json, filled(1_000_000, head, &crank, last)),
        ("too many parts", json, filled(4 * FULL, head, &crank, last)),
        (
            "rows",
            csv,
            filled(4 * FULL, columns, &|_| "a\n".into(), ""),
        ),
        (
            "blank rows",
            csv,
            filled(4 * FULL, columns, &|_| "\n".into(), ""),
        ),
        (
            "cells",
            csv,
            filled(4 * FULL, columns, &|_| ",".into(), "\n"),
        ),
        ("heads", csv, filled(4 * FULL, "id", &|_| ",".into(), "\n")),
        (
            "named heads",
            csv,
            filled(4 * FULL, "id", &|index| format!(",h{index}"), "\n"),
        ),
        (
            "an open quote",
            csv,
            filled(4 * FULL, &format!("{columns}\""), &|_| "a,\n".into(), ""),
        ),
    ]
}

/// Files of short rows, which no part can be made of: 40 of them, 9990 rows each.
pub fn many_rows() -> Vec<(String, Vec<u8>)> {
    let rows: Vec<String> = (0..9990)
        .map(|index| format!("row-{index},crank,3\n"))
        .collect();
    let rows = rows.concat();
    let bytes =
        format!("id,name,price,mass [kg],ingress,radius [mm],force [N]\n{rows}").into_bytes();
    (0..40)
        .map(|index| (format!("shelf/cranks.{index}.csv"), bytes.clone()))
        .collect()
}

/// Words that speak of lifting and of people, over and over.
pub fn people() -> Vec<(&'static str, Vec<u8>)> {
    let repeated = |name, word: &str| {
        (
            name,
            filled(FULL, "{\"title\": \"", &|_| word.to_owned(), "\"}"),
        )
    };
    vec![
        repeated("lifts", "lift "),
        repeated("lifts for", "lift for "),
        repeated("people", "people "),
        repeated("clauses", "lift, for a, "),
    ]
}

/// A study as large as is read, with options that are none.
pub fn large_study() -> Vec<u8> {
    let head = r#"{"format": "counterpoise-study/2", "options": [{}"#;
    filled(8 * FULL, head, &|_| ",{}".into(), "]}")
}

/// Large files, each of another kind.
pub fn large() -> Vec<(&'static str, Vec<u8>)> {
    let filled =
        |start: &str, item: &dyn Fn(usize) -> String, end: &str| filled(FULL, start, item, end);
    let (before, after) = super::SOUND[2]
        .split_once("\"drag\": \"10 N\"")
        .expect("the job has drag");
    let point = |index: usize| {
        format!(
            "{{\"at\":\"{}um\",\"out\":\"{}N\"}},",
            index * 10,
            index % 50
        )
    };
    vec![
        ("brackets", vec![b'['; FULL]),
        ("digits", vec![b'9'; FULL]),
        ("zeros", filled("[0", &|_| ",0".into(), "]")),
        (
            "keys",
            filled("{\"z\":0", &|index| format!(",\"{index}\":0"), "}"),
        ),
        (
            "the same key",
            filled("{\"z\":0", &|_| ",\"z\":0".into(), "}"),
        ),
        ("one text", filled("\"", &|_| "x".repeat(1000), "\"")),
        (
            "escapes",
            filled("{\"title\": \"", &|_| "\\u0000".into(), "\"}"),
        ),
        (
            "points",
            filled(
                &format!("{before}\"process\": ["),
                &point,
                &format!("{{\"at\":\"900mm\"}}]{after}"),
            ),
        ),
        (
            "faulty points",
            filled(
                &format!("{before}\"process\": ["),
                &|_| "{\"a\":1},".into(),
                &format!("1]{after}"),
            ),
        ),
        ("too large", vec![b' '; 40 << 20]),
    ]
}
