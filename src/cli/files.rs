//! Reading and writing files, standard streams included.

use std::fs;
use std::io::{self, BufWriter, ErrorKind, Read, Write};
use std::path::Path;

use super::Failure;
use crate::problem::Problem;

/// Largest file that is read.
const LARGEST: u64 = 16 << 20;

/// Reads a file, or standard input for `-`.
pub fn read(path: &Path) -> Result<Vec<u8>, Failure> {
    let read = if path == Path::new("-") {
        limited(io::stdin().lock())
    } else {
        fs::File::open(path).and_then(limited)
    };
    let bytes = read.map_err(|error| fault(path, &format!("cannot be read: {error}")))?;
    bytes.ok_or_else(|| fault(path, "is larger than 16 MiB, which no requirements file is"))
}

/// All bytes, or none where there are too many.
pub(super) fn limited(from: impl Read) -> io::Result<Option<Vec<u8>>> {
    let mut bytes = Vec::new();
    from.take(LARGEST + 1).read_to_end(&mut bytes)?;
    Ok((bytes.len() as u64 <= LARGEST).then_some(bytes))
}

fn fault(path: &Path, message: &str) -> Failure {
    let message = format!("{}: {message}", path.display());
    Failure::Input(vec![Problem::at("", message)])
}

/// Writes a file whole or not at all, or to standard output for `-`.
pub fn write(path: &Path, text: &str) -> Result<(), Failure> {
    if path == Path::new("-") {
        return print(text);
    }
    replace(path, text).map_err(|error| {
        Failure::Internal(format!("{} cannot be written: {error}", path.display()))
    })
}

fn replace(path: &Path, text: &str) -> io::Result<()> {
    let folder = path
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty())
        .unwrap_or(Path::new("."));
    let mut builder = tempfile::Builder::new();
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // The umask applies, as for any new file.
        builder.permissions(fs::Permissions::from_mode(0o666));
    }
    let mut file = builder.tempfile_in(folder)?;
    file.write_all(text.as_bytes())?;
    file.as_file().sync_all()?;
    file.persist(path)?;
    Ok(())
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
