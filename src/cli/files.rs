//! Reading and writing files, standard streams included.

use std::fs;
use std::io::{self, BufWriter, ErrorKind, Read, Write};
use std::path::Path;

use super::Failure;
use crate::problem::{Problem, Problems};
use crate::study::{Study, to_json};

/// How large a kind of file may be.
#[derive(Debug, Clone, Copy)]
pub(super) struct Limit {
    pub mib: u64,
    /// What such a file is called.
    pub what: &'static str,
}

/// A thousand times what people write, and little enough to be read at once.
pub(super) const REQUIREMENTS: Limit = Limit {
    mib: 1,
    what: "requirements file",
};
/// More than the study of any requirements file that is accepted.
pub(super) const STUDY: Limit = Limit {
    mib: 8,
    what: "study",
};

impl Limit {
    /// Whether so many bytes are more.
    pub fn is_passed_by(self, bytes: usize) -> bool {
        bytes as u64 > self.mib << 20
    }
    /// What is wrong with a file that is larger.
    pub fn passed(self) -> String {
        format!("is larger than {} MiB, which no {} is", self.mib, self.what)
    }
}

/// Reads a file that is no larger than it may be, or standard input for `-`.
pub fn read(path: &Path, limit: Limit) -> Result<Vec<u8>, Failure> {
    let read = if path == Path::new("-") {
        limited(io::stdin().lock(), limit)
    } else {
        fs::File::open(path).and_then(|file| limited(file, limit))
    };
    let bytes = read.map_err(|error| fault(path, &format!("cannot be read: {error}")))?;
    bytes.ok_or_else(|| fault(path, &limit.passed()))
}

/// All bytes, or none where there are more than there may be.
pub(super) fn limited(from: impl Read, limit: Limit) -> io::Result<Option<Vec<u8>>> {
    let (mut bytes, most) = (Vec::new(), limit.mib << 20);
    from.take(most + 1).read_to_end(&mut bytes)?;
    Ok((bytes.len() as u64 <= most).then_some(bytes))
}

/// Faults of a file, each with the file's name.
pub(super) fn named(path: &Path, faults: Problems) -> Problems {
    let name = if path == Path::new("-") {
        "standard input".to_owned()
    } else {
        path.display().to_string()
    };
    let named = |fault: Problem| Problem {
        file: Some(name.clone()),
        ..fault
    };
    faults.into_iter().map(named).collect()
}

pub(super) fn fault(path: &Path, message: &str) -> Failure {
    let message = format!("{}: {message}", path.display());
    Failure::from(Problem::whole(message))
}

/// Writes a file whole or not at all, or to standard output for `-`.
///
/// Through a symbolic link the file behind it is written. What is no regular file, such as a device or a pipe, is written
/// as it stands: to put a file in its place would take it away from everybody else.
pub fn write(path: &Path, text: &str) -> Result<(), Failure> {
    if path == Path::new("-") {
        return print(text);
    }
    let written = match fs::metadata(path) {
        Ok(there) if there.is_dir() => Err("it is a folder".to_owned()),
        Ok(there) if !there.is_file() => directly(path, text).map_err(|fault| fault.to_string()),
        // A folder that can be written would let it be replaced; who locked the file meant the file.
        Ok(there) if there.permissions().readonly() => Err("it is read-only".to_owned()),
        Ok(there) => fs::canonicalize(path)
            .map_err(|fault| fault.to_string())
            .and_then(|path| replace(&path, text, Some(there.permissions()))),
        // A link that leads nowhere yet stays, and what it leads to is made.
        Err(_) => match fs::read_link(path) {
            Ok(target) => replace(&folder_of(path).join(target), text, None),
            Err(_) => replace(path, text, None),
        },
    };
    written.map_err(|cause| {
        Failure::Internal(format!("{} cannot be written: {cause}", path.display()))
    })
}

/// The folder that a file lies in.
fn folder_of(path: &Path) -> &Path {
    path.parent()
        .filter(|folder| !folder.as_os_str().is_empty())
        .unwrap_or(Path::new("."))
}

fn directly(path: &Path, text: &str) -> io::Result<()> {
    let mut file = fs::File::options().write(true).open(path)?;
    match file.write_all(text.as_bytes()) {
        // As with standard output, a reader that has gone away is no fault.
        Err(error) if error.kind() == ErrorKind::BrokenPipe => Ok(()),
        end => end,
    }
}

/// Writes beside the file and puts the whole in its place, with the permissions that it had.
fn replace(path: &Path, text: &str, before: Option<fs::Permissions>) -> Result<(), String> {
    let mut builder = tempfile::Builder::new();
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // The umask applies, as for any new file.
        builder.permissions(fs::Permissions::from_mode(0o666));
    }
    // Beside the cause this error names the file that was to be made, which is no business of the reader's.
    let folder = folder_of(path);
    let mut file = builder
        .tempfile_in(folder)
        .map_err(|fault| match fault.kind() {
            ErrorKind::NotFound => format!("there is no folder {}", folder.display()),
            ErrorKind::NotADirectory => format!("{} is no folder", folder.display()),
            kind => kind.to_string(),
        })?;
    let whole = |file: &mut tempfile::NamedTempFile| {
        file.write_all(text.as_bytes())?;
        if let Some(before) = before {
            file.as_file().set_permissions(before)?;
        }
        file.as_file().sync_all()
    };
    whole(&mut file).map_err(|fault| cause(&fault))?;
    file.persist(path)
        .map_err(|fault| fault.error.to_string())?;
    Ok(())
}

/// The cause of a fault, without the name of a file that the reader has never heard of.
fn cause(fault: &io::Error) -> String {
    match fault.kind() {
        ErrorKind::Other => fault.to_string(),
        kind => kind.to_string(),
    }
}

/// Writes a study as JSON where that is asked for, and prints a text unless the JSON goes to standard output alone.
pub fn put(
    json: Option<&Path>,
    study: &Study,
    text: impl FnOnce() -> String,
) -> Result<(), Failure> {
    if let Some(path) = json {
        write(path, &to_json(study).map_err(Failure::Internal)?)?;
    }
    if json == Some(Path::new("-")) {
        return Ok(());
    }
    print(&text())
}

/// Prints to standard output; a reader that has gone away is no fault.
pub fn print(text: &str) -> Result<(), Failure> {
    let mut out = BufWriter::new(anstream::stdout().lock());
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => Err(Failure::Internal(format!(
            "standard output cannot be written: {error}"
        ))),
        _ => Ok(()),
    }
}

/// Talks on standard error; where nobody can hear there is nobody to tell.
pub fn tell(text: &str) {
    let _ = writeln!(anstream::stderr().lock(), "{text}");
}
