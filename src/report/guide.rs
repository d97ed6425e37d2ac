//! The guide: how a vehicle is surveyed in an hour, told once for the first steps of the window
//! and for the page of paper.
//!
//! What to enter in a field is said by the catalogue, [`Field::help`], as F1 says it; where to look
//! and how, by the stations of the walk round; what stays open, by the cautions. The minutes are
//! guesses of this project \[A\], for somebody who has done it before.

use super::blocks::{Align, Fact, Reasons, Section, Table};
use crate::assess::cautions::before_sealing;
use crate::survey::stations::Look;
use crate::survey::stations::stations;
use crate::survey::{Field, Survey, VehicleKind};

/// A step of the job.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Step {
    /// What it is called.
    pub words: &'static str,
    /// What to do.
    pub help: &'static str,
    /// How long it takes, min.
    pub minutes: u32,
}

/// The steps, in the order of the job.
pub const STEPS: [Step; 6] = [
    Step {
        words: "Vehicle size",
        help: "Measure length, width and height inside with a tape: the volume of air follows \
               from them.",
        minutes: 6,
    },
    Step {
        words: "Gaps",
        help: "Walk round and write down each gap with its place and size. A size not known yet \
               may be left out.",
        minutes: 40,
    },
    Step {
        words: "Air change",
        help: "See what blows through in still and in windy weather, and which gaps carry it.",
        minutes: 2,
    },
    Step {
        words: "Drying & heat",
        help: "See which machine or heater would keep this vehicle dry, and what must stay open.",
        minutes: 4,
    },
    Step {
        words: "Sealing plan",
        help: "Choose which gaps to seal for the money, and see what must stay open.",
        minutes: 5,
    },
    Step {
        words: "Job sheet",
        help: "Look at the sheet for the workshop or the owner, and save it as PDF.",
        minutes: 3,
    },
];

/// What to bring \[C\].
const BRING: &str = "Bring a tape, feeler gauges, a caliper, a torch, a smoke pencil, sheets of \
                     paper, and the telephone for photos. Choose a day with some wind if you can.";

/// Before the walk round.
const FIRST: &str = "Level ground, wheels chocked. Flames, pilot lights and fuel heaters off, gas shut at \
                     the bottle. Never look for a gap with a flame.";

/// Fields whose sentences a beginner needs, in the order one measures.
const FIELDS: [Field; 6] = [
    Field::Form,
    Field::GapLength,
    Field::GapWidth,
    Field::Diameter,
    Field::Certainty,
    Field::Purpose,
];

/// What stays open, by the titles of the cautions.
const STAYS_OPEN: [&str; 2] = ["Ventilation and gas", "Carbon monoxide"];

/// Title of the guide.
pub const TITLE: &str = "How to survey a vehicle in an hour";

/// The guide for such a vehicle.
#[must_use]
pub fn sections(kind: VehicleKind) -> Vec<Section> {
    vec![leave_open(kind), hour(), where_to_look(kind), write_down()]
}

/// First of all: what nobody may close.
fn leave_open(kind: VehicleKind) -> Section {
    let mut section = Section::new("What stays open");
    let survey = Survey::new(kind);
    let cautions = before_sealing(&survey);
    let these = cautions
        .into_iter()
        .filter(|caution| STAYS_OPEN.contains(&caution.title));
    section.points(these.map(|caution| caution.text));
    section
}

fn hour() -> Section {
    let mut section = Section::new("The hour");
    section.paragraph(BRING);
    section.paragraph(FIRST);
    let steps = STEPS.iter().zip(1..);
    let row = |(step, number): (&Step, u32)| {
        let name = format!("{number} {}, {} min", step.words, step.minutes);
        Fact::new(name, step.help)
    };
    section.facts(steps.map(row).collect(), &Reasons::default());
    section
}

fn where_to_look(kind: VehicleKind) -> Section {
    let mut section = Section::new("The walk round");
    let mut table =
        Table::default()
            .column("Station", Align::Left)
            .wide("Usual places", Align::Left, 1);
    for station in stations(kind) {
        let names: Vec<&str> = station.places(kind).map(|place| place.name).collect();
        let mut words = names.join("; ");
        if let Some(caution) = station.caution {
            words = format!("{words}. {caution}");
        }
        table.row([station.words(), words]);
    }
    section.table(table, &Reasons::default());
    section.points(Look::ALL.map(|look| look.words().to_owned()));
    section
}

fn write_down() -> Section {
    let mut section = Section::new("Writing a gap down");
    let row = |field: Field| Fact::new(field.label(), field.help());
    section.facts(FIELDS.map(row).into(), &Reasons::default());
    section.note(
        "Usual places and tools are common practice [C]; the minutes are guesses of this program [A]. Local \
         codes and licensed trades have the last word on gas, flues and electricity.",
    );
    section
}

#[cfg(test)]
mod tests {
    use super::{STEPS, sections};
    use crate::report::Block;
    use crate::survey::VehicleKind;
    use crate::survey::stations::stations;

    #[test]
    fn the_steps_take_an_hour() {
        assert_eq!(STEPS.iter().map(|step| step.minutes).sum::<u32>(), 60);
    }

    #[test]
    fn every_usual_place_of_the_vehicle_stands_in_its_guide_and_what_stays_open_comes_first() {
        for kind in VehicleKind::ALL {
            let sections = sections(kind);
            let first = sections.first().unwrap();
            let Some(Block::Points { points }) = first.blocks.first() else {
                panic!("{first:?}");
            };
            assert!(points.first().unwrap().starts_with("Never close"));
            let words = format!("{sections:?}");
            for station in stations(kind) {
                for place in station.places(kind) {
                    assert!(words.contains(place.name), "{kind:?}: {}", place.name);
                }
            }
        }
    }
}
