//! The air of sleepers.

use crate::assess::drying::{Comparison, Freshness, MOST_PPM};
use crate::assess::quantity::Kind;
use crate::assess::safety::words::ALARM;
use crate::assess::{DryingTopic, Topic};
use crate::physics::units::SECONDS_PER_HOUR;
use crate::report::blocks::{Block, Fact, Section};
use crate::survey::SetUp;

/// Air for each sleeper with everybody asleep, whether it is enough, and what it says nothing of.
pub(crate) fn night(comparison: &Comparison) -> Section {
    let mut section = Section::new("Air at night, everybody asleep");
    if comparison.set_up == SetUp::LaidUp {
        return section.ending(
            "Nobody sleeps in it while it is laid up. Show it in use to see the air that sleepers have.",
        );
    }
    let fact = match &comparison.night_air {
        Err(unknown) => Fact::new("Air at night", unknown.to_string()),
        Ok(air) => Fact::new(
            format!(
                "{}, {} asleep",
                comparison
                    .case_index(air.id)
                    .map_or("", |case| comparison.case_name(case)),
                air.sleepers
            ),
            format!(
                "{} for each, carbon dioxide {}",
                Kind::AirPerSleeper.text(air.per_sleeper_m3_s * SECONDS_PER_HOUR),
                match air.carbon_dioxide_ppm {
                    Some(ppm) => format!("settles at {}", Kind::PartsPerMillion.text(ppm)),
                    None => format!("rises beyond {}", Kind::PartsPerMillion.text(MOST_PPM)),
                }
            ),
        ),
    };
    section.push(Block::Facts {
        rows: vec![fact.worked_out(Topic::Drying(DryingTopic::NightAir))],
    });
    if let Ok(air) = &comparison.night_air {
        section.paragraph(match air.freshness() {
            Freshness::Fresh => "✔ Fresh enough.",
            Freshness::Stuffy => "▲ Stuffy: more air is wanted at night.",
            Freshness::TooLittleAir => "✖ Far too little air to sleep in: open a ventilator.",
        });
        section.note(
            "Guide values: up to 1000\u{a0}ppm good, above 2000\u{a0}ppm unacceptable (German \
             Environment Agency, 2008 [M]).",
        );
    }
    section.push(Block::Caution {
        title: "Carbon monoxide".to_owned(),
        text: format!(
            "Keep the fixed ventilation open whenever somebody sleeps here. Carbon dioxide says \
             nothing about carbon monoxide: fit a CO alarm ({ALARM})."
        ),
    });
    section
}
