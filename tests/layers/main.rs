//! Imports only point down the list of layers, and the house stays in order.
//!
//! Every source file is parsed, and every path in it (uses, types, expressions, attributes, the
//! tokens of macros) is held against the list in [`rules`]. [`caught`] shows that the check
//! bites.

mod caught;
mod circles;
mod drawings;
mod guide;
mod house;
mod paths;
mod rules;
mod samples;

use std::error::Error;
use std::fs;
use std::path::{Path, PathBuf};

/// The folder of the package.
fn package() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Every file under a folder of the package with one of these endings, by its path from the
/// package, sorted.
fn files_under(folder: &str, endings: &[&str]) -> Result<Vec<PathBuf>, Box<dyn Error>> {
    let mut files = Vec::new();
    let mut folders = vec![package().join(folder)];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder)? {
            let path = entry?.path();
            let ending = path.extension().and_then(|ending| ending.to_str());
            if path.is_dir() {
                if path.file_name().is_some_and(|name| name != "target") {
                    folders.push(path);
                }
            } else if ending.is_some_and(|ending| endings.contains(&ending)) {
                files.push(path.strip_prefix(package())?.to_owned());
            }
        }
    }
    files.sort();
    Ok(files)
}

#[test]
fn every_path_in_the_sources_points_down() -> Result<(), Box<dyn Error>> {
    let mut complaints = Vec::new();
    let files = files_under("src", &["rs"])?;
    assert!(files.len() > 10, "only {} source files found", files.len());
    for file in files {
        let source = fs::read_to_string(package().join(&file))?;
        let name = file.to_string_lossy().replace('\\', "/");
        complaints.extend(rules::complaints(&name, &source)?);
    }
    assert!(
        complaints.is_empty(),
        "the layers are broken:\n{}",
        complaints.join("\n")
    );
    Ok(())
}
