//! The check bites: what must be caught is caught, and what is allowed passes.

use std::error::Error;

use super::rules::complaints;

/// Source that breaks the layers: file, source, words that the complaint must hold.
const CAUGHT: &[(&str, &str, &str)] = &[
    // Upward paths, however they are written.
    (
        "src/physics/air.rs",
        "use crate::survey::Gap;",
        "points up: survey stands above physics",
    ),
    (
        "src/physics/air.rs",
        "use super::super::window::App;",
        "points up: window",
    ),
    (
        "src/physics/air.rs",
        "use super::{super::assess, balance};",
        "points up: assess",
    ),
    (
        "src/physics/mod.rs",
        "use super::survey::Gap;",
        "points up: survey",
    ),
    (
        "src/physics/mod.rs",
        "use self::super::survey::Gap;",
        "points up: survey",
    ),
    (
        "src/survey/file/v1.rs",
        "use super::super::super::sheet::print;",
        "points up: sheet",
    ),
    (
        "src/survey/gap.rs",
        "mod tests { use super::super::super::window::App; }",
        "points up: window",
    ),
    (
        "src/assess/mod.rs",
        "fn f() -> crate::headless::Answer { todo() }",
        "points up: headless",
    ),
    (
        "src/assess/mod.rs",
        "fn f() { crate::window::repaint(); }",
        "points up: window",
    ),
    (
        "src/assess/mod.rs",
        "fn f(x: Vec<Option<crate::sheet::Page>>) {}",
        "points up: sheet",
    ),
    (
        "src/assess/mod.rs",
        "fn f() { let crate::window::A { .. } = g() else { return }; }",
        "points up",
    ),
    (
        "src/assess/mod.rs",
        "impl crate::figure::Draw for X {}",
        "points up: figure",
    ),
    (
        "src/fonts/mod.rs",
        "use crate::{figure::Scene};",
        "points up: figure",
    ),
    (
        "src/sheet/mod.rs",
        "pub use crate::window as w;",
        "points up: window",
    ),
    (
        "src/window/app.rs",
        "use crate::headless::run;",
        "points up: headless",
    ),
    (
        "src/physics/mod.rs",
        "#[derive(crate::assess::Answer)] struct X;",
        "points up: assess",
    ),
    (
        "src/physics/mod.rs",
        "use crate::r#window::App;",
        "points up: window",
    ),
    // Groups.
    (
        "src/survey/gap.rs",
        "use crate::{window};",
        "points up: window",
    ),
    (
        "src/survey/gap.rs",
        "use crate::{physics, window::{self, App}};",
        "points up: window",
    ),
    (
        "src/survey/gap.rs",
        "use {crate::physics::air, crate::assess::leakage};",
        "points up: assess",
    ),
    (
        "src/survey/gap.rs",
        "use crate::assess::*;",
        "points up: assess",
    ),
    // Another name for the root, and names that come in through it.
    (
        "src/survey/gap.rs",
        "use crate as root; fn f() { root::window::repaint(); }",
        "the whole crate",
    ),
    (
        "src/survey/gap.rs",
        "use crate::{self as root};",
        "the whole crate",
    ),
    (
        "src/survey/gap.rs",
        "use super::super as up;",
        "the whole crate",
    ),
    ("src/survey/gap.rs", "use crate::*;", "the whole crate"),
    ("src/headless.rs", "use super::*;", "the whole crate"),
    (
        "src/survey/gap.rs",
        "extern crate self as me;",
        "the whole crate",
    ),
    (
        "src/survey/gap.rs",
        "use crate::App;",
        "names nothing in a layer",
    ),
    (
        "src/lib.rs",
        "pub mod physics; pub use window::App;",
        "only declarations of layers",
    ),
    (
        "src/lib.rs",
        "pub mod physics; pub mod helpers;",
        "only declarations of layers",
    ),
    (
        "src/lib.rs",
        "pub mod physics { pub fn f() {} }",
        "only declarations of layers",
    ),
    ("src/helpers.rs", "fn f() {}", "is no layer"),
    (
        "src/helpers/mod.rs",
        "use crate::physics::air;",
        "is no layer",
    ),
    (
        "src/physics/mod.rs",
        "#[path = \"../window/app.rs\"] mod app;",
        "would hide a file",
    ),
    (
        "src/physics/mod.rs",
        "include!(\"../window/app.rs\");",
        "would hide a file",
    ),
    // Macros.
    (
        "src/physics/air.rs",
        "fn f() { println!(\"{}\", crate::survey::NAME); }",
        "points up: survey",
    ),
    (
        "src/physics/air.rs",
        "macro_rules! m { () => { $crate::window::repaint() }; }",
        "points up: window",
    ),
    (
        "src/physics/air.rs",
        "macro_rules! m { () => { use crate::{assess, physics}; }; }",
        "points up: assess",
    ),
    (
        "src/physics/air.rs",
        "macro_rules! m { () => { use crate::{self as root}; }; }",
        "the whole crate",
    ),
    (
        "src/physics/air.rs",
        "macro_rules! m { () => { use crate as root; }; }",
        "the whole crate",
    ),
    (
        "src/physics/air.rs",
        "macro_rules! m { () => { use crate::*; }; }",
        "the whole crate",
    ),
    (
        "src/physics/air.rs",
        "m! { a => [super::super::survey::Gap] }",
        "points up: survey",
    ),
    (
        "src/physics/air.rs",
        "m! { extern crate rayon; }",
        "rayon reaches outside",
    ),
    (
        "src/physics/air.rs",
        "m! { use std::{cmp, fs}; }",
        "std::fs reaches outside",
    ),
    (
        "src/physics/air.rs",
        "m! { ::std::env::args() }",
        "std::env::args reaches outside",
    ),
    (
        "src/physics/air.rs",
        "#[cfg_attr(test, derive(crate::assess::X))] struct Y;",
        "points up: assess",
    ),
    // The toolkit outside the window.
    (
        "src/figure/mod.rs",
        "use eframe::egui;",
        "outside src/window/",
    ),
    (
        "src/headless.rs",
        "use egui_plot::Plot;",
        "outside src/window/",
    ),
    (
        "src/sheet/mod.rs",
        "fn f(ui: &mut egui::Ui) {}",
        "outside src/window/",
    ),
    (
        "src/sheet/mod.rs",
        "fn f() { ::rfd::FileDialog::new(); }",
        "outside src/window/",
    ),
    (
        "src/main.rs",
        "fn main() { eframe::run_native(); }",
        "outside src/window/",
    ),
    (
        "src/main.rs",
        "use egui as e; fn main() {}",
        "outside src/window/",
    ),
    (
        "src/main.rs",
        "extern crate egui as e; fn main() {}",
        "outside src/window/",
    ),
    (
        "src/assess/mod.rs",
        "fn f() { m!(egui::Color32::RED); }",
        "outside src/window/",
    ),
    // Typesetting outside the sheet.
    (
        "src/window/app.rs",
        "use typst::World;",
        "outside src/sheet/",
    ),
    (
        "src/window/app.rs",
        "use typst_pdf as pdf;",
        "outside src/sheet/",
    ),
    (
        "src/window/app.rs",
        "use {std::fs, comemo::evict};",
        "outside src/sheet/",
    ),
    // Input, output, clock and threads in the pure layers.
    (
        "src/physics/air.rs",
        "use std::{fs};",
        "std::fs reaches outside the program from physics",
    ),
    (
        "src/physics/air.rs",
        "use std::{cmp, io::{self, Read}};",
        "std::io reaches outside",
    ),
    (
        "src/physics/air.rs",
        "use ::std::time::Instant;",
        "std::time::Instant reaches outside",
    ),
    (
        "src/physics/air.rs",
        "use core::net::IpAddr;",
        "core::net::IpAddr reaches outside",
    ),
    (
        "src/assess/mod.rs",
        "fn f() { std::thread::spawn(|| ()); }",
        "std::thread::spawn reaches outside",
    ),
    (
        "src/assess/mod.rs",
        "use rayon::prelude::*;",
        "rayon::prelude reaches outside",
    ),
    (
        "src/figure/mod.rs",
        "use std::env;",
        "std::env reaches outside the program from figure",
    ),
    (
        "src/figure/mod.rs",
        "use std::process::exit as e;",
        "std::process::exit reaches outside",
    ),
    (
        "src/survey/gap.rs",
        "use std::fs;",
        "std::fs reaches outside the program from survey",
    ),
    (
        "src/survey/gap.rs",
        "use std as s; fn f() { s::fs::read(); }",
        "the whole standard library",
    ),
    (
        "src/survey/gap.rs",
        "use std::{self as s};",
        "the whole standard library",
    ),
    (
        "src/survey/gap.rs",
        "use std::*;",
        "the whole standard library",
    ),
    (
        "src/survey/gap.rs",
        "extern crate std as s;",
        "the whole standard library",
    ),
    (
        "src/survey/file/mod.rs",
        "use std::time::Instant;",
        "std::time::Instant reaches outside",
    ),
    (
        "src/survey/file/mod.rs",
        "use std::time::SystemTime; fn f() { SystemTime::now(); }",
        "SystemTime::now reaches",
    ),
    (
        "src/survey/file/mod.rs",
        "fn f() { std::time::SystemTime::now(); }",
        "SystemTime::now reaches",
    ),
    (
        "src/survey/file/mod.rs",
        "use std::thread;",
        "std::thread reaches outside",
    ),
    (
        "src/survey/file/mod.rs",
        "use std::net::TcpStream;",
        "std::net::TcpStream reaches outside",
    ),
    (
        "src/survey/files.rs",
        "use std::fs;",
        "std::fs reaches outside",
    ),
    (
        "src/survey/gap.rs",
        "#[derive(serde::Serialize)] struct Gap;",
        "writes or reads records",
    ),
];

/// Source that keeps to the layers.
const ALLOWED: &[(&str, &str)] = &[
    (
        "src/main.rs",
        "use gapledger::{headless, window}; fn main() {}",
    ),
    (
        "src/main.rs",
        "fn main() -> std::process::ExitCode { gapledger::headless::run() }",
    ),
    (
        "src/headless.rs",
        "use crate::{assess, sheet, survey::{self, Survey}};",
    ),
    (
        "src/window/app.rs",
        "use eframe::egui; use crate::sheet; use std::{thread, time::Instant};",
    ),
    (
        "src/window/pages/gaps.rs",
        "use super::super::widgets; use super::*; use crate::assess as a;",
    ),
    (
        "src/sheet/pdf.rs",
        "use typst::World; use crate::figure::Scene; use std::fs;",
    ),
    ("src/fonts/mod.rs", "use crate::assess::Answer;"),
    (
        "src/assess/mod.rs",
        "use crate::survey::*; use super::physics::air; pub(crate) struct X;",
    ),
    (
        "src/survey/mod.rs",
        "mod gap; pub use gap::*; use self::gap::Gap; pub(in crate::survey) fn f() {}",
    ),
    (
        "src/survey/file/mod.rs",
        "use std::{fs, io}; use std::path::Path; use serde::Serialize;",
    ),
    (
        "src/survey/gap.rs",
        "mod tests { use super::super::Survey; use crate::physics::wind::Terrain; }",
    ),
    (
        "src/physics/air.rs",
        "use std::{f64::consts::PI, cmp}; fn f(&self) { self.x(Self::Y, core::mem::take); }",
    ),
    (
        "src/physics/air.rs",
        "macro_rules! m { ($($x:ty),*) => { $(pub(crate) fn $x() -> std::fmt::Result {})* }; }",
    ),
    (
        "src/physics/air.rs",
        "fn f() { assert!(x::<f64>() as f64 > 0.0, \"use crate::window\"); }",
    ),
    (
        "src/lib.rs",
        "//! Text.\n#[cfg(feature = \"window\")] pub mod window; pub mod physics;",
    ),
];

#[test]
fn what_breaks_the_layers_is_caught() -> Result<(), Box<dyn Error>> {
    for (file, source, words) in CAUGHT {
        let complaints = complaints(file, source)?;
        assert!(
            complaints.iter().any(|complaint| complaint.contains(words)),
            "{file}: `{source}` should be refused with \u{201c}{words}\u{201d}, got {complaints:?}"
        );
    }
    Ok(())
}

#[test]
fn what_keeps_to_the_layers_passes() -> Result<(), Box<dyn Error>> {
    for (file, source) in ALLOWED {
        let complaints = complaints(file, source)?;
        assert!(
            complaints.is_empty(),
            "{file}: `{source}` should pass, got {complaints:?}"
        );
    }
    Ok(())
}

#[test]
fn source_that_does_not_parse_is_an_error() {
    assert!(complaints("src/physics/air.rs", "fn f( {").is_err());
}
