//! What the contributors' guide names is there.

use std::error::Error;
use std::fs;

use super::{files_under, package};

/// Files that the guide speaks of before they exist, or that a run leaves.
const NOT_KEPT: [&str; 2] = ["target/smoke", "proptest-regressions/"];

/// Pieces of code in the guide that name a file or a folder.
fn named(guide: &str) -> Vec<&str> {
    let code = guide.split('`').skip(1).step_by(2);
    code.filter(|piece| {
        let letters = |letter: char| letter.is_ascii_alphanumeric() || "_-./".contains(letter);
        let ending = [".rs", ".md", ".typ", ".py", ".sh", ".ron", "/"]
            .iter()
            .any(|ending| piece.ends_with(ending));
        ending && piece.chars().all(letters) && !NOT_KEPT.contains(piece)
    })
    .collect()
}

/// Every file of the program and its tests, and every folder with one in it, as `/src/…`.
fn places() -> Result<Vec<String>, Box<dyn Error>> {
    let endings = [
        "rs", "md", "typ", "py", "sh", "ron", "csv", "ttf", "png", "txt",
    ];
    let mut places = vec!["/DEVELOPERS.md".to_owned(), "/README.md".to_owned()];
    for folder in ["src", "tests", "sample-surveys", "icons"] {
        for file in files_under(folder, &endings)? {
            let path = format!("/{}", file.to_string_lossy().replace('\\', "/"));
            let ends = path.match_indices('/').map(|(at, _)| at).skip(1);
            places.extend(ends.filter_map(|at| path.get(..=at)).map(str::to_owned));
            places.push(path);
        }
    }
    places.sort();
    places.dedup();
    Ok(places)
}

#[test]
fn every_file_and_folder_that_the_guide_names_exists() -> Result<(), Box<dyn Error>> {
    let guide = fs::read_to_string(package().join("DEVELOPERS.md"))?;
    // Between fences stand commands, not names.
    let prose: String = guide.split("```").step_by(2).collect();
    let named = named(&prose);
    assert!(named.len() > 60, "only {} names found", named.len());
    let places = places()?;
    let exists = |piece: &str| {
        let end = format!("/{piece}");
        places.iter().any(|place| place.ends_with(&end))
    };
    let missing: Vec<&str> = named.into_iter().filter(|piece| !exists(piece)).collect();
    assert!(
        missing.is_empty(),
        "the guide names, but nobody finds: {missing:?}"
    );
    assert!(!exists("no_such_file.rs"));
    Ok(())
}

#[test]
fn every_link_of_the_guide_leads_somewhere() -> Result<(), Box<dyn Error>> {
    for page in ["DEVELOPERS.md", "README.md"] {
        let text = fs::read_to_string(package().join(page))?;
        let links = text
            .split("](")
            .skip(1)
            .filter_map(|rest| rest.split(')').next());
        for link in links.filter(|link| !link.starts_with("http") && !link.starts_with('#')) {
            assert!(package().join(link).exists(), "{page} links to {link}");
        }
    }
    Ok(())
}
