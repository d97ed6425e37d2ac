//! No file names another that names it back, neither at once nor by way of others.
//!
//! A file names another where it uses something that stands there, however many files hand the
//! name on in between. What a `mod.rs` only hands on is not used by it. Tests may name anything.

use std::collections::{BTreeMap, BTreeSet};
use std::error::Error;
use std::fs;

use super::paths::{Found, Paths, Start};
use super::rules::module_of;
use super::{files_under, package};

/// Circles that stand, each with the folder or files that hold all of it, and the reason.
const STANDING: &[(&[&str], &str)] = &[
    (
        &["src/assess/envelope.rs", "src/assess/in_air.rs"],
        "the envelope gives the vehicle in its air, which is made of it",
    ),
    (
        &["src/assess/study/mod.rs", "src/assess/winter/"],
        "a winter is run on a study, which keeps it",
    ),
    (
        &["src/assess/safety/"],
        "the words of the alarms name sizes of the checks",
    ),
    (
        &["src/assess/working/"],
        "every part writes on the sheet of a working",
    ),
    (
        &["src/physics/coupled/"],
        "the steady state and the way to it are one calculation",
    ),
    (
        &["src/physics/ensemble/"],
        "one space and several are one calculation",
    ),
    (
        &["src/physics/machine/"],
        "a machine and the line through its points are one",
    ),
    (
        &["src/physics/network/"],
        "the network and the search for its pressures are one calculation",
    ),
    (
        &["src/sheet/contents/"],
        "drawings are made from what the sheet is made from",
    ),
];

/// So many files a standing circle may tie together.
const LARGEST: usize = 5;

type Module = Vec<String>;

/// The files of the sources by the module that each is, with the paths in them.
struct Sources {
    files: BTreeMap<Module, (String, Paths)>,
}

impl Sources {
    fn read(sources: impl IntoIterator<Item = (String, String)>) -> syn::Result<Self> {
        let mut files = BTreeMap::new();
        let mut tests = BTreeSet::new();
        for (name, source) in sources {
            let module = module_of(name.strip_prefix("src/").unwrap_or(&name));
            if module.is_empty() {
                continue;
            }
            let mut file = syn::parse_file(&source)?;
            file.items.retain(|item| {
                let test = is_for_tests(item);
                if let (true, syn::Item::Mod(inner)) = (test, item) {
                    let mut inside = module.clone();
                    inside.push(inner.ident.to_string());
                    tests.insert(inside);
                }
                !test
            });
            let paths = Paths::of_file(&file, module.clone());
            files.insert(module, (name, paths));
        }
        files.retain(|module, _| !tests.iter().any(|test| module.starts_with(test)));
        Ok(Self { files })
    }

    /// The module whose file holds what a path leads to, counted from the root of the crate;
    /// `None` where it leads to a module as a whole, or out of the crate.
    fn holder(&self, path: &[String]) -> Option<Module> {
        // A name is handed on a few times at most.
        let mut path = path.to_vec();
        for _ in 0..8 {
            let reached = (1..=path.len())
                .rev()
                .find(|&length| path.get(..length).is_some_and(|path| self.is_file(path)))?;
            let (module, rest) = path.split_at(reached);
            let name = rest.first()?;
            match self.brought(module, name) {
                Some(from) if from != path.get(..=reached)? => {
                    path = from.into_iter().chain(rest.get(1..)?.to_vec()).collect();
                }
                _ => return Some(module.to_vec()),
            }
        }
        None
    }

    fn is_file(&self, module: &[String]) -> bool {
        self.files.contains_key(module)
    }

    /// The path that a name of a file was brought in from.
    fn brought(&self, module: &[String], name: &str) -> Option<Vec<String>> {
        let (_, paths) = self.files.get(module)?;
        let found = paths.found.iter().find(|found| {
            let brings = found.brings.as_ref();
            brings.is_some_and(|brings| brings.name == name)
        })?;
        self.whole_path(module, found)
    }

    /// A path counted from the root: one that begins with a name of the file itself is followed
    /// to where that name is from.
    fn whole_path(&self, module: &[String], found: &Found) -> Option<Vec<String>> {
        if found.start == Start::Crate {
            return Some(found.names.clone());
        }
        let (first, rest) = found.names.split_first()?;
        let mut child = module.to_vec();
        child.push(first.clone());
        let mut start = if self.is_file(&child) {
            child
        } else if found.brings.is_none() {
            self.brought(module, first)?
        } else {
            return None;
        };
        start.extend_from_slice(rest);
        Some(start)
    }

    /// The modules whose files a file uses something of.
    fn used_by(&self, module: &[String]) -> BTreeSet<Module> {
        let Some((_, paths)) = self.files.get(module) else {
            return BTreeSet::new();
        };
        let mut used = BTreeSet::new();
        for found in &paths.found {
            let Some(path) = self.whole_path(module, found) else {
                continue;
            };
            let only_handed_on = found.brings.as_ref().is_some_and(|brings| {
                let named = |other: &Found| {
                    other.brings.is_none() && other.names.first() == Some(&brings.name)
                };
                brings.handed_on
                    && !paths.alone.contains(&brings.name)
                    && !paths.found.iter().any(named)
            });
            let glob = found.whole && self.is_file(&path);
            if glob && !only_handed_on {
                used.insert(path);
            } else if let (false, Some(holder)) = (only_handed_on, self.holder(&path)) {
                used.insert(holder);
            }
        }
        used.remove(module);
        used
    }

    /// The circles: files each of which leads to all the others.
    fn circles(&self) -> Vec<Vec<String>> {
        let used: BTreeMap<&Module, BTreeSet<Module>> = self
            .files
            .keys()
            .map(|module| (module, self.used_by(module)))
            .collect();
        let reached: BTreeMap<&Module, BTreeSet<&Module>> = used
            .keys()
            .map(|&from| {
                let mut reached = BTreeSet::new();
                let mut next: Vec<&Module> = used.get(from).into_iter().flatten().collect();
                while let Some(module) = next.pop() {
                    if reached.insert(module) {
                        next.extend(used.get(module).into_iter().flatten());
                    }
                }
                (from, reached)
            })
            .collect();
        let leads = |from: &Module, to: &Module| {
            reached
                .get(from)
                .is_some_and(|modules| modules.contains(to))
        };
        let mut circles = BTreeSet::new();
        for (&module, modules) in &reached {
            let circle: Vec<String> = modules
                .iter()
                .filter(|&&other| leads(other, module))
                .filter_map(|&other| Some(self.files.get(other)?.0.clone()))
                .collect();
            if circle.len() > 1 {
                circles.insert(circle);
            }
        }
        circles.into_iter().collect()
    }

    /// What ties a circle: which of its files uses which.
    fn ties(&self, circle: &[String]) -> String {
        let mut ties = String::new();
        for (module, (name, _)) in &self.files {
            for used in self.used_by(module) {
                if let Some((other, _)) = self.files.get(&used)
                    && circle.contains(name)
                    && circle.contains(other)
                {
                    ties.push_str(&format!("\n  {name} uses {other}"));
                }
            }
        }
        ties
    }
}

/// Whether an item is compiled for tests only.
fn is_for_tests(item: &syn::Item) -> bool {
    let attributes = match item {
        syn::Item::Mod(item) => &item.attrs,
        syn::Item::Use(item) => &item.attrs,
        syn::Item::Fn(item) => &item.attrs,
        syn::Item::Impl(item) => &item.attrs,
        _ => return false,
    };
    attributes.iter().any(|attribute| {
        let list = attribute.meta.require_list();
        attribute.path().is_ident("cfg")
            && list.is_ok_and(|list| list.tokens.to_string().starts_with("test"))
    })
}

#[test]
fn no_files_name_each_other_in_a_circle() -> Result<(), Box<dyn Error>> {
    let mut sources = Vec::new();
    for file in files_under("src", &["rs"])? {
        let source = fs::read_to_string(package().join(&file))?;
        sources.push((file.to_string_lossy().replace('\\', "/"), source));
    }
    let sources = Sources::read(sources)?;
    let circles = sources.circles();
    let inside = |circle: &[String], places: &[&str]| {
        let in_one = |file: &String| places.iter().any(|place| file.starts_with(place));
        circle.iter().all(in_one)
    };
    let unexcused = |circle: &&Vec<String>| {
        let stands = STANDING.iter().any(|(places, _)| inside(circle, places));
        !stands || circle.len() > LARGEST
    };
    let complaints: Vec<String> = circles
        .iter()
        .filter(unexcused)
        .map(|circle| format!("{} files:{}", circle.len(), sources.ties(circle)))
        .collect();
    assert!(
        complaints.is_empty(),
        "these files name each other in a circle; move what they share into a file of its own:\n{}",
        complaints.join("\n")
    );
    for (places, reason) in STANDING {
        assert!(
            circles.iter().any(|circle| inside(circle, places)),
            "no circle is left in {places:?}: take it off the list (it said: {reason})"
        );
    }
    Ok(())
}

/// The circles among made-up files.
fn circles_of(files: &[(&str, &str)]) -> Result<Vec<Vec<String>>, Box<dyn Error>> {
    let files = files
        .iter()
        .map(|&(name, source)| (name.to_owned(), source.to_owned()));
    Ok(Sources::read(files)?.circles())
}

#[test]
fn a_circle_is_found_however_it_is_written() -> Result<(), Box<dyn Error>> {
    let one = "src/survey/one.rs";
    let two = "src/survey/two.rs";
    let module = ("src/survey/mod.rs", "mod one; mod two; pub use two::Two;");
    for (first, second) in [
        ("use super::two::Two;", "use super::one::One;"),
        (
            "fn f() -> crate::survey::two::Two {}",
            "use super::{one::{One as First}};",
        ),
        // By way of what the folder hands on.
        ("use super::Two;", "use super::one::One;"),
        // By way of a module that is named first.
        (
            "use super::two; fn f() { two::make() }",
            "use super::one; type A = one::One;",
        ),
        ("use super::two::*;", "use super::one::One;"),
        ("fn f() { g!(super::two::Two) }", "use super::one::One;"),
    ] {
        let found = circles_of(&[module, (one, first), (two, second)])?;
        assert_eq!(found, [[one, two]], "{first} / {second}");
    }
    Ok(())
}

#[test]
fn a_circle_by_way_of_a_third_file_and_one_with_the_folder_itself_are_found()
-> Result<(), Box<dyn Error>> {
    let found = circles_of(&[
        ("src/survey/a.rs", "use super::b::B;"),
        ("src/survey/b.rs", "use super::c::C;"),
        ("src/survey/c.rs", "use super::a::A;"),
        ("src/survey/apart.rs", "use super::a::A;"),
    ])?;
    assert_eq!(
        found,
        [["src/survey/a.rs", "src/survey/b.rs", "src/survey/c.rs"]]
    );
    let folder = "mod child; pub struct Shared; fn f() { child::work() }";
    let found = circles_of(&[
        ("src/survey/mod.rs", folder),
        ("src/survey/child.rs", "use super::Shared;"),
    ])?;
    assert_eq!(found, [["src/survey/mod.rs", "src/survey/child.rs"]]);
    // Handed on and used by the folder itself.
    let folder = "mod child; pub use child::Work; pub struct Shared; fn f(work: Work) {}";
    let found = circles_of(&[
        ("src/survey/mod.rs", folder),
        ("src/survey/child.rs", "use super::Shared;"),
    ])?;
    assert_eq!(found.len(), 1);
    Ok(())
}

#[test]
fn what_is_no_circle_passes() -> Result<(), Box<dyn Error>> {
    let found = circles_of(&[
        // The folder hands on and uses nothing.
        (
            "src/survey/mod.rs",
            "mod child; mod other; pub use child::Work; pub struct Shared;",
        ),
        (
            "src/survey/child.rs",
            "use super::{Shared, other::Other}; #[cfg(test)] mod tests { use super::super::Work; }",
        ),
        // Tests may name what stands above them.
        (
            "src/survey/other.rs",
            "use super::Shared; #[cfg(test)] mod tests { use crate::survey::child::Work; }",
        ),
    ])?;
    assert!(found.is_empty(), "{found:?}");
    Ok(())
}
