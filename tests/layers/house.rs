//! Long files, and what lies at the top of the package.

use std::error::Error;
use std::fs;

use super::{files_under, package};

/// Most lines that a file may have.
const MOST_LINES: usize = 500;

/// Most lines of the program itself: arguments, then window or headless.
const MOST_LINES_OF_MAIN: usize = 60;

/// Files that may be longer, each with the reason.
const LONG_FILES: [(&str, &str); 0] = [];

/// All that may lie at the top, besides names that begin with a dot. `target` is what a build
/// leaves there, `proptest-regressions` what a test of a property that failed on random cases does.
const TOP_LEVEL: [&str; 11] = [
    "Cargo.toml",
    "Cargo.lock",
    "README.md",
    "DEVELOPERS.md",
    "LICENSE",
    "src",
    "tests",
    "sample-surveys",
    "icons",
    "proptest-regressions",
    "target",
];

#[test]
fn no_file_is_too_long() -> Result<(), Box<dyn Error>> {
    let mut files = files_under("src", &["rs"])?;
    files.extend(files_under("tests", &["rs", "py", "sh"])?);
    let mut long = Vec::new();
    for file in files {
        let lines = fs::read_to_string(package().join(&file))?.lines().count();
        let name = file.to_string_lossy().replace('\\', "/");
        let most = if name == "src/main.rs" {
            MOST_LINES_OF_MAIN
        } else {
            MOST_LINES
        };
        if lines > most {
            long.push((name, lines));
        }
    }
    let unexcused: Vec<String> = long
        .iter()
        .filter(|(name, _)| LONG_FILES.iter().all(|(excused, _)| excused != name))
        .map(|(name, lines)| format!("{name}: {lines} lines"))
        .collect();
    assert!(
        unexcused.is_empty(),
        "split these files:\n{}",
        unexcused.join("\n")
    );
    for (excused, reason) in LONG_FILES {
        assert!(
            long.iter().any(|(name, _)| name == excused),
            "{excused} is no longer too long: take it off the list (it said: {reason})"
        );
    }
    Ok(())
}

#[test]
fn the_top_of_the_package_holds_only_what_belongs_there() -> Result<(), Box<dyn Error>> {
    let mut strangers = Vec::new();
    for entry in fs::read_dir(package())? {
        let name = entry?.file_name().to_string_lossy().into_owned();
        if !name.starts_with('.') && !TOP_LEVEL.contains(&name.as_str()) {
            strangers.push(name);
        }
    }
    assert!(
        strangers.is_empty(),
        "these do not belong at the top of the package: {}",
        strangers.join(", ")
    );
    Ok(())
}

/// All examples of the documentation are built as one program, in seconds; one that includes a file
/// by its place beside the source keeps all of them from it, and each is then linked alone.
#[test]
fn no_example_of_the_documentation_includes_a_file_beside_its_source() -> Result<(), Box<dyn Error>>
{
    for file in files_under("src", &["rs", "md"])? {
        let text = fs::read_to_string(package().join(&file))?;
        let found = text.lines().find(|line| {
            line.trim_start().starts_with("//") && line.contains(concat!("include_", "str!(\"."))
        });
        assert_eq!(found, None, "{}", file.display());
    }
    Ok(())
}
