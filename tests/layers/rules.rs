//! The list of layers, and what may be named in each.

use super::paths::{Found, Paths, Start};

/// The layers from the top to the bottom. A layer may name itself and those after it.
pub(crate) const LAYERS: [&str; 13] = [
    "main", "headless", "window", "sheet", "report", "figure", "fonts", "tasks", "assess",
    "survey", "climate", "series", "physics",
];

/// Layers that do no input or output, read no clock and start no thread.
const PURE: [&str; 6] = ["report", "figure", "assess", "survey", "climate", "physics"];

/// The layer that reads text with columns: it may know calendars and tables, but opens nothing.
const READING: &str = "series";

/// The one place in a pure layer that handles files.
const FILES: &str = "src/survey/file/";

/// Modules of the standard library that reach outside the program.
const OUTSIDE: [&str; 9] = [
    "fs", "env", "thread", "time", "net", "process", "io", "os", "path",
];

/// Those of them that reading and saving a survey needs.
const OUTSIDE_FOR_FILES: [&str; 4] = ["fs", "io", "path", "os"];

/// Crates of the window: toolkit, dialogs, and what they stand on.
const TOOLKIT: [&str; 11] = [
    "egui",
    "eframe",
    "rfd",
    "winit",
    "epaint",
    "emath",
    "ecolor",
    "accesskit",
    "glow",
    "glutin",
    "wgpu",
];

/// Crates that set type.
const TYPESETTING: [&str; 2] = ["typst", "comemo"];

/// Crates that read a clock or start threads.
const CLOCKS_AND_THREADS: [&str; 4] = ["rayon", "jiff", "chrono", "crossbeam"];

/// Crates that turn records into text: the survey's own records are never written as they are,
/// only the frozen ones of `survey/file/`.
const SERIALISERS: [&str; 4] = ["serde", "serde_json", "ron", "csv"];

/// Whether the name is that of a layer.
pub(crate) fn is_layer(name: &str) -> bool {
    LAYERS.contains(&name)
}

fn rank(layer: &str) -> Option<usize> {
    LAYERS.iter().position(|other| *other == layer)
}

/// Where a source file stands.
struct Home<'a> {
    file: &'a str,
    layer: &'a str,
}

/// Everything in the file that the layers forbid, one line each.
pub(crate) fn complaints(file: &str, source: &str) -> syn::Result<Vec<String>> {
    let inside = file.strip_prefix("src/").unwrap_or(file);
    let module = module_of(inside);
    let paths = Paths::of(source, module.clone())?;
    let mut complaints: Vec<String> = Vec::new();
    for hidden in paths.hidden {
        complaints.push(format!(
            "{file}: {hidden} would hide a file from this check"
        ));
    }
    if inside == "lib.rs" {
        complaints.extend(only_layers_in_lib(source)?);
        return Ok(complaints);
    }
    let layer = match module.first() {
        None => "main",
        Some(first) => first,
    };
    if rank(layer).is_none() {
        complaints.push(format!("{file}: \u{201c}{layer}\u{201d} is no layer"));
    }
    let home = Home { file, layer };
    for found in &paths.found {
        complaints.extend(complaint(&home, found).map(|words| format!("{file}: {words}")));
    }
    Ok(complaints)
}

/// The module that a file under `src/` is, counted from the root.
pub(crate) fn module_of(inside: &str) -> Vec<String> {
    let inside = inside.strip_suffix(".rs").unwrap_or(inside);
    let inside = inside.strip_suffix("/mod").unwrap_or(inside);
    if inside == "main" || inside == "lib" {
        return Vec::new();
    }
    inside.split('/').map(str::to_owned).collect()
}

/// The library's root declares layers and nothing else, so no name can come in through it.
fn only_layers_in_lib(source: &str) -> syn::Result<Vec<String>> {
    let mut complaints = Vec::new();
    for item in syn::parse_file(source)?.items {
        match item {
            syn::Item::Mod(module)
                if module.content.is_none() && is_layer(&module.ident.to_string()) => {}
            _ => complaints.push(String::from(
                "src/lib.rs: only declarations of layers (`pub mod NAME;`) may stand here",
            )),
        }
    }
    Ok(complaints)
}

fn complaint(home: &Home<'_>, found: &Found) -> Option<String> {
    let names = found.names.join("::");
    match found.start {
        Start::Crate => inward(home, found).map(|words| format!("crate::{names} {words}")),
        Start::Other => outward(home, found).map(|words| format!("{names} {words}")),
    }
}

/// What is wrong with a path to this crate's own names.
fn inward(home: &Home<'_>, found: &Found) -> Option<String> {
    let Some(target) = found.names.first() else {
        return Some(String::from(
            "brings in the whole crate: name a layer instead",
        ));
    };
    let Some(target_rank) = rank(target) else {
        return Some(String::from("names nothing in a layer"));
    };
    // A home that is no layer has its own complaint.
    let home_rank = rank(home.layer)?;
    (target_rank < home_rank).then(|| format!("points up: {target} stands above {}", home.layer))
}

/// What is wrong with a path to another crate.
fn outward(home: &Home<'_>, found: &Found) -> Option<String> {
    let first = found.names.first()?;
    if belongs(first, &TOOLKIT) && home.layer != "window" {
        return Some(String::from("is used outside src/window/"));
    }
    if (first.starts_with("typst") || belongs(first, &TYPESETTING)) && home.layer != "sheet" {
        return Some(String::from("is used outside src/sheet/"));
    }
    if home.layer == READING {
        let opens = matches!(first.as_str(), "std" | "core" | "alloc")
            && found
                .names
                .get(1)
                .is_some_and(|module| OUTSIDE.contains(&module.as_str()) && module != "io");
        let clock = found.names.last().is_some_and(|last| last == "now");
        return (opens || clock)
            .then(|| format!("reaches outside the program from {}", home.layer));
    }
    if !PURE.contains(&home.layer) {
        return None;
    }
    let clock = found.names.last().is_some_and(|last| last == "now");
    if clock || belongs(first, &CLOCKS_AND_THREADS) {
        return Some(format!("reaches outside the program from {}", home.layer));
    }
    let in_files = home.file.starts_with(FILES);
    if SERIALISERS.contains(&first.as_str())
        && matches!(home.layer, "survey" | "climate" | "physics")
        && !in_files
    {
        return Some(format!("writes or reads records outside {FILES}"));
    }
    if matches!(first.as_str(), "std" | "core" | "alloc") {
        return standard_library(home, found, in_files);
    }
    None
}

fn standard_library(home: &Home<'_>, found: &Found, in_files: bool) -> Option<String> {
    let Some(module) = found.names.get(1) else {
        return found
            .whole
            .then(|| String::from("brings in the whole standard library: name what is needed"));
    };
    if !OUTSIDE.contains(&module.as_str()) {
        return None;
    }
    if in_files && OUTSIDE_FOR_FILES.contains(&module.as_str()) {
        return None;
    }
    Some(format!("reaches outside the program from {}", home.layer))
}

/// Whether a crate is one of these or a part of one (`egui_plot` of `egui`).
fn belongs(name: &str, crates: &[&str]) -> bool {
    crates.iter().any(|owner| {
        name.strip_prefix(owner)
            .is_some_and(|rest| rest.is_empty() || rest.starts_with('_'))
    })
}
