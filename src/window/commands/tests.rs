//! The table of commands holds together.

use super::*;
use crate::window::page::Page;

#[test]
fn no_two_shortcuts_clash() {
    let all: Vec<(Command, KeyboardShortcut)> = super::all()
        .flat_map(|line| line.shortcuts.iter().map(|&keys| (line.command, keys)))
        .collect();
    for (at, (command, keys)) in all.iter().enumerate() {
        for (other, same) in &all[..at] {
            assert_ne!(keys, same, "{command:?} and {other:?}");
        }
    }
}

#[test]
fn every_command_stands_in_the_table_once_with_words() {
    for (at, line) in super::all().enumerate() {
        assert!(!line.name.is_empty() && !line.tooltip.is_empty());
        assert!(
            super::all()
                .take(at)
                .all(|other| other.command != line.command)
        );
    }
    for page in Page::ALL {
        assert_eq!(Command::Show(page).line().unwrap().name, page.name());
    }
}
