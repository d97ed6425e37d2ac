//! What the page in short is made of: parts of lines, tables and pictures.

use crate::assess::words::counted;
use crate::report::blocks::{Block, Reasons, Section, Table};
use crate::survey::{Field, Item, Place, Survey};

/// Where a line leads to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Leads {
    /// To the gaps.
    Gaps,
    /// To the air changes.
    AirChange,
    /// To the options of drying and heating.
    DryingHeat,
    /// To the winter hour by hour.
    Winter,
    /// To the sealing plan.
    SealingPlan,
    /// To what was measured.
    Measurements,
    /// To a place where something is entered.
    Place(Place),
}

impl Leads {
    /// To what the comparison of drying and heating lacks.
    pub(super) fn to_lacking(survey: &Survey) -> Self {
        Self::Place(Place::whole(if survey.fabric.is_empty() {
            Item::Fabric(survey.free_fabric_id())
        } else {
            Item::Vehicle
        }))
    }

    /// Where the appliances are confirmed.
    pub(super) const APPLIANCES: Self = Self::Place(Place {
        item: Item::Vehicle,
        field: Some(Field::AppliancesConfirmed),
    });
}

impl Line {
    /// A line that hurts nobody.
    pub(super) fn new(text: impl Into<String>, leads_to: Leads) -> Self {
        Self {
            text: text.into(),
            grave: false,
            leads_to,
        }
    }
}

/// One line: a sentence or two with their sign.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// The words.
    pub text: String,
    /// Whether somebody could be hurt.
    pub grave: bool,
    /// Where there is more of it, or where what is missing is entered.
    pub leads_to: Leads,
}

/// A picture that belongs to a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Picture {
    /// The square hole beside the vehicle.
    Hole,
    /// The options as bars; it says what the part's table says.
    Options,
    /// The openings that stay open, on the body.
    StayOpen,
}

/// One part of the page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// Its heading.
    pub title: String,
    /// The picture beside it.
    pub picture: Option<Picture>,
    /// Its lines.
    pub lines: Vec<Line>,
    /// Lines that say what the picture says: left out where that is drawn.
    pub pictured: Vec<Line>,
    /// Its table.
    pub table: Option<Table>,
    /// Lines below the table.
    pub below: Vec<Line>,
    /// Small print.
    pub notes: Vec<String>,
}

impl Part {
    pub(super) fn new(title: impl Into<String>) -> Self {
        Self {
            title: title.into(),
            picture: None,
            lines: Vec::new(),
            pictured: Vec::new(),
            table: None,
            below: Vec::new(),
            notes: Vec::new(),
        }
    }

    /// Its lines, in order.
    pub fn all_lines(&self) -> impl Iterator<Item = &Line> {
        let above = self.lines.iter().chain(&self.pictured);
        above.chain(&self.below)
    }

    pub(super) fn line(&mut self, text: impl Into<String>, leads_to: Leads) {
        self.lines.push(Line::new(text, leads_to));
    }

    pub(super) fn below(&mut self, text: impl Into<String>, leads_to: Leads) {
        self.below.push(Line::new(text, leads_to));
    }

    pub(super) fn grave(&mut self, text: impl Into<String>, leads_to: Leads) {
        self.lines.push(Line {
            text: text.into(),
            grave: true,
            leads_to,
        });
    }
}

/// The page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InShort {
    /// What is wrong, what to buy and what sealing does, a sentence each.
    pub headline: Vec<Line>,
    /// The parts, in order.
    pub parts: Vec<Part>,
}

impl InShort {
    /// The same as one section; `drawn` gives the picture of a part where it can be shown, and what a
    /// picture says stands in no table beside it.
    #[must_use]
    pub fn section(&self, mut drawn: impl FnMut(Picture) -> Option<Block>) -> Section {
        let mut section = Section::new("In short");
        let headline = self.headline.iter();
        section.push(Block::Plain {
            sentences: headline.map(|line| line.text.clone()).collect(),
        });
        for part in &self.parts {
            if !part.title.is_empty() {
                section.heading(part.title.clone());
            }
            let picture = part.picture.and_then(|picture| {
                let block = drawn(picture)?;
                Some((picture, block))
            });
            let in_picture = matches!(&picture, Some((Picture::Options, _)));
            section.blocks.extend(picture.map(|(_, block)| block));
            lines(&mut section, &part.lines);
            if !in_picture {
                lines(&mut section, &part.pictured);
            }
            if let Some(table) = part.table.clone().filter(|_| !in_picture) {
                section.push(Block::Table { table });
            }
            lines(&mut section, &part.below);
            section.notes(part.notes.iter().cloned());
        }
        section
    }

    /// The same without the dangers of the vehicle, which stand first on it.
    #[must_use]
    pub fn without_first_dangers(mut self) -> Self {
        self.parts.retain(|part| !part.title.is_empty());
        self
    }

    /// The same without some of the dangers, which stand elsewhere already.
    #[must_use]
    pub fn without_dangers(mut self, told: impl Fn(&Line) -> bool) -> Self {
        for part in &mut self.parts {
            part.lines.retain(|line| !(line.grave && told(line)));
        }
        self.parts.retain(|part| {
            !part.lines.is_empty() || part.table.is_some() || part.picture.is_some()
        });
        self
    }

    /// Every line of the page.
    pub fn lines(&self) -> impl Iterator<Item = &Line> {
        let parts = self.parts.iter();
        let of_parts = parts.flat_map(Part::all_lines);
        self.headline.iter().chain(of_parts)
    }
}

/// Lines below each other; those that could hurt somebody by themselves.
fn lines(section: &mut Section, lines: &[Line]) {
    for line in lines.iter().filter(|line| line.grave) {
        section.push(Block::Caution {
            title: "Danger".to_owned(),
            text: line.text.clone(),
        });
    }
    let plain = lines.iter().filter(|line| !line.grave);
    section.points(plain.map(|line| line.text.clone()));
}

/// How much room the page has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Room {
    /// Rows that a table may have; what is least needed is left out, and counted.
    pub rows: usize,
    /// Whether what must not be used goes without how well it would do.
    pub tight: bool,
}

impl Room {
    /// For everything.
    pub const ENOUGH: Self = Self {
        rows: usize::MAX,
        tight: false,
    };
}

/// Reasons that have a line each; more stand in one.
const REASONS_APART: usize = 2;

/// A table of this page, with the reasons for what it does not know as lines that lead on, and how many rows
/// it is without.
pub(super) fn known(
    part: &mut Part,
    table: Table,
    reasons: &Reasons,
    (left_out, leads_to): (usize, Leads),
) {
    part.table = Some(table);
    if left_out > 0 {
        let rows = counted(left_out, "more row", "more rows");
        part.below(format!("{rows} in the whole assessment."), leads_to);
    }
    let notes = reasons.notes();
    if notes.len() > REASONS_APART {
        part.below(notes.join(" "), leads_to);
    } else {
        for note in notes {
            part.below(note, leads_to);
        }
    }
}
