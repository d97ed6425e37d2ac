//! The walk round: which usual places were looked at, which were not, and what that may hide.

use super::blocks::Section;
use crate::assess::quantity::Kind;
use crate::assess::words::counted;
use crate::assess::{WalkRound, walk_round};
use crate::survey::{Outcome, Progress, Survey};

/// The walk round; nothing where nobody has begun one.
#[must_use]
pub fn section(survey: &Survey) -> Section {
    let mut section = Section::new("Walk round");
    if !survey.has_walked() {
        return section;
    }
    section.paragraph(progress_sentence(&survey.progress()));
    let not_reached = places(survey, Some(Outcome::NotReached));
    if !not_reached.is_empty() {
        section.heading("Not reached");
        section.points(not_reached);
    }
    let open = survey.progress().open();
    if open > 0 {
        let stations = places(survey, None).len();
        section.paragraph(format!(
            "Nothing is said of {} at {}: nobody has looked there yet, so far as the survey tells.",
            counted(open, "usual place", "usual places"),
            counted(stations, "station", "stations"),
        ));
    }
    section.paragraph(share_sentence(&walk_round(survey)));
    section.note(
        "The usual places are common practice [C]; a survey may find gaps anywhere else as well.",
    );
    section
}

/// How far the walk round has come.
#[must_use]
pub fn progress_sentence(progress: &Progress) -> String {
    let mut words = format!(
        "{} of {} usual places looked at: gaps at {}, none at {}",
        progress.looked(),
        progress.places,
        progress.found,
        progress.nothing,
    );
    if progress.not_reached > 0 {
        words += &format!("; {} not reached", progress.not_reached);
    }
    words + "."
}

/// What the places left may hold, and how that is worked out.
#[must_use]
pub fn share_sentence(walk: &WalkRound) -> String {
    let looked = walk.leaks.looked();
    let left = walk.leaks.places - looked;
    match &walk.not_found_percent {
        Ok(_) if left == 0 => "Every usual place that may leak was looked at.".to_owned(),
        Ok(percent) => format!(
            "Leakage not found, by the walk round: {}. {} that may leak {} left, {looked} were looked \
             at; it takes it that those left leak like those looked at, on the mean [A].",
            Kind::WholePercent.text(percent / 100.0),
            counted(left, "usual place", "usual places"),
            if left == 1 { "is" } else { "are" },
        ),
        Err(unknown) => format!(
            "Leakage not found, by the walk round: not known, {}.",
            unknown.reason
        ),
    }
}

/// The places that came to this, a line for each station.
fn places(survey: &Survey, outcome: Option<Outcome>) -> Vec<String> {
    let kind = survey.vehicle.kind;
    let line = |station: &'static crate::survey::Station| {
        let here = station.places(kind);
        let these = here.filter(|place| survey.outcome(station.id, place.id) == outcome);
        let names: Vec<&str> = these.map(|place| place.name).collect();
        let words = || format!("{}: {}", station.words(), names.join(", "));
        (!names.is_empty()).then(words)
    };
    crate::survey::stations::stations(kind)
        .filter_map(line)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::Block;
    use crate::survey::{Edit, VehicleKind, Visit};

    /// The first places of a van with this outcome, the rest with nothing found.
    fn walked(left: usize, outcome: Option<Outcome>) -> Survey {
        let mut survey = Survey::starting(VehicleKind::PanelVan);
        let places: Vec<_> = survey.usual_places().collect();
        for (at, (station, place)) in places.into_iter().enumerate() {
            let outcome = if at < left {
                outcome
            } else {
                Some(Outcome::Nothing)
            };
            if let Some(outcome) = outcome {
                let visit = Visit::of(station, place, outcome);
                survey.apply(Edit::Visited(visit)).unwrap();
            }
        }
        survey
    }

    fn words(section: &Section) -> String {
        format!("{:?}", section.blocks)
    }

    #[test]
    fn a_survey_without_a_walk_round_says_nothing_of_it() {
        assert!(
            section(&Survey::starting(VehicleKind::PanelVan))
                .blocks
                .is_empty()
        );
    }

    #[test]
    fn what_was_not_reached_is_named_and_what_is_open_is_counted() {
        let survey = walked(3, Some(Outcome::NotReached));
        let names: Vec<&str> = survey.usual_places().map(|(_, place)| place.name).collect();
        let told = section(&survey);
        let points = told.blocks.iter().find_map(|block| match block {
            Block::Points { points } => Some(points.join("\n")),
            _ => None,
        });
        let points = points.unwrap();
        assert!(names[..3].iter().all(|name| points.contains(name)));
        assert!(!points.contains(names[3]), "{points}");
        assert!(words(&told).contains("3 not reached"));
        let told = words(&section(&walked(3, None)));
        assert!(told.contains("Nothing is said of 3 usual places"), "{told}");
        assert!(!told.contains("Not reached"), "{told}");
    }

    /// Worked by hand: of the van's leaks the first `left` are left.
    #[test]
    fn the_share_not_found_is_told_with_its_ground_and_refused_where_it_has_none() {
        let survey = walked(2, Some(Outcome::NotReached));
        let leaks = walk_round(&survey).leaks;
        let left = leaks.places - leaks.looked();
        let looked = leaks.looked();
        let percent = (100 * left + looked / 2) / looked;
        let told = share_sentence(&walk_round(&survey));
        assert!(told.contains(&format!("{percent}\u{a0}%")), "{told}");
        assert!(told.contains("[A]"), "{told}");
        let none = walked(usize::MAX, Some(Outcome::NotReached));
        let told = share_sentence(&walk_round(&none));
        assert!(told.contains("fewer usual places were looked at"), "{told}");
        let all = share_sentence(&walk_round(&walked(0, None)));
        assert!(all.starts_with("Every usual place"), "{all}");
    }
}
