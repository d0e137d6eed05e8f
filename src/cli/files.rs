//! Reading and writing files, standard streams included.

use std::fs;
use std::io::{self, BufWriter, ErrorKind, Read, Write};
use std::path::Path;

use super::Failure;
use crate::problem::Problem;

/// Largest requirements file that is read.
const LARGEST: u64 = 16 << 20;

/// Reads a file, or standard input for `-`.
pub fn read(path: &Path) -> Result<Vec<u8>, Failure> {
    let mut bytes = Vec::new();
    let read = if path == Path::new("-") {
        io::stdin().lock().take(LARGEST + 1).read_to_end(&mut bytes)
    } else {
        fs::File::open(path).and_then(|file| file.take(LARGEST + 1).read_to_end(&mut bytes))
    };
    let fault = |message: String| {
        Failure::Input(vec![Problem::at(
            "",
            format!("{}: {message}", path.display()),
        )])
    };
    read.map_err(|error| fault(format!("cannot be read: {error}")))?;
    if bytes.len() as u64 > LARGEST {
        return Err(fault(
            "is larger than 16 MiB, which no requirements file is".into(),
        ));
    }
    Ok(bytes)
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
