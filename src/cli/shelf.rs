//! A folder of parts of one's own.

use std::borrow::Cow;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use clap::Args;

use super::Failure;
use super::files::{self, Limit};
use crate::catalog::{Catalog, File, Stock};
use crate::problem::{Problem, Problems};

/// Most files that a folder of parts may have.
const MOST_FILES: usize = 500;

/// The largest file of parts.
const LARGEST: Limit = Limit {
    mib: 4,
    what: "file of parts",
};
/// MiB of all files of a folder together.
const MOST_TOGETHER: usize = 16;

/// Where parts of one's own are.
#[derive(Debug, Args)]
pub struct CatalogArgs {
    /// Folder of parts of one's own, *.json and *.csv, which add to the built-in ones or replace them
    #[arg(long = "catalog", value_name = "DIR")]
    folder: Option<PathBuf>,
}

impl CatalogArgs {
    /// The parts to choose from.
    pub fn catalog(&self) -> Result<Catalog, Failure> {
        stock(self.folder.as_deref())?
            .catalog()
            .map_err(|faults| Failure::Internal(fault_list(&faults)))
    }
}

/// The built-in parts, with those of a folder.
pub fn stock(folder: Option<&Path>) -> Result<Cow<'static, Stock>, Failure> {
    let Some(folder) = folder else {
        return Stock::built_in()
            .map(Cow::Borrowed)
            .map_err(|faults| Failure::Internal(fault_list(&faults)));
    };
    let (found, mut faults) = read(folder)?;
    let name = folder.canonicalize().ok();
    let name = name.as_deref().unwrap_or(folder).file_name();
    let name = name.unwrap_or(folder.as_os_str()).to_string_lossy();
    match Stock::with(&name, &found) {
        Ok(stock) if faults.is_empty() => Ok(Cow::Owned(stock)),
        Ok(_) => Err(Failure::Input(faults)),
        Err(more) => {
            faults.extend(more);
            Err(Failure::Input(faults))
        }
    }
}

/// The files of a folder, and a fault for each that cannot be read.
fn read(folder: &Path) -> Result<(Vec<File>, Problems), Failure> {
    let fault = |message: String| Problem::whole(format!("{}: {message}", folder.display()));
    let paths = paths(folder).map_err(|error| {
        let message = if folder.is_file() {
            "is a file, not a folder".into()
        } else {
            format!("cannot be read: {error}")
        };
        let hint = "name a folder that holds *.json or *.csv files of parts";
        Failure::from(fault(message).hint(hint))
    })?;
    if paths.is_empty() || paths.len() > MOST_FILES {
        let problem = if paths.is_empty() {
            fault("holds no *.json or *.csv file".into())
                .hint("`counterpoise catalog list --kind KIND --csv` shows what one looks like")
        } else {
            fault(format!(
                "holds {} files, more than {MOST_FILES}",
                paths.len()
            ))
        };
        return Err(Failure::from(problem));
    }
    let (mut found, mut faults, mut size) = (Vec::new(), Vec::new(), 0);
    for path in paths {
        let name = path.file_name().unwrap_or_default();
        let name = name.to_string_lossy().into_owned();
        match bytes(&path) {
            Ok(bytes) => {
                size += bytes.len();
                if size > MOST_TOGETHER << 20 {
                    let problem = fault(format!("holds more than {MOST_TOGETHER} MiB of parts"));
                    return Err(Failure::from(problem));
                }
                found.push(File { name, bytes });
            }
            Err(message) => faults.push(Problem::at(format!("{name}:"), message)),
        }
    }
    Ok((found, faults))
}

/// What may hold parts, by name: what ends with .json or .csv and is not hidden.
fn paths(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let mut paths = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        let hidden = path
            .file_name()
            .is_none_or(|name| name.to_string_lossy().starts_with('.'));
        let ending = path
            .extension()
            .map(|ending| ending.to_string_lossy().to_lowercase());
        if !hidden && matches!(ending.as_deref(), Some("json" | "csv")) {
            paths.push(path);
        }
    }
    paths.sort();
    Ok(paths)
}

fn bytes(path: &Path) -> Result<Vec<u8>, String> {
    let cannot = |error: io::Error| format!("cannot be read: {error}");
    // To open a pipe would wait for whoever writes to it.
    if !fs::metadata(path).map_err(cannot)?.is_file() {
        return Err("is not a file".into());
    }
    let file = fs::File::open(path).map_err(cannot)?;
    files::limited(file, LARGEST)
        .map_err(cannot)?
        .ok_or_else(|| LARGEST.passed())
}

fn fault_list(faults: &[Problem]) -> String {
    let texts: Vec<String> = faults.iter().map(ToString::to_string).collect();
    format!("the built-in catalog is not sound:\n{}", texts.join("\n"))
}
