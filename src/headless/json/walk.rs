//! The walk round.

use super::object::Object;
use crate::assess::walk_round;
use crate::survey::word::Word;
use crate::survey::{Progress, Station, Survey, UsualPlace, Visit, stations};

/// How far it has come, and what was recorded of it.
pub(super) fn walk(survey: &Survey) -> Object {
    let walk = walk_round(survey);
    let stations: Vec<&Station> = stations::stations(survey.vehicle.kind).collect();
    progress(&survey.progress())
        .with("not_found_percent", &walk.not_found_percent)
        .list("stations", &stations, |station| {
            self::station(survey, station)
        })
        .list("visits", &survey.walk, visit)
}

fn progress(progress: &Progress) -> Object {
    Object::new()
        .with("places", progress.places)
        .with("found", progress.found)
        .with("nothing", progress.nothing)
        .with("not_reached", progress.not_reached)
}

fn station(survey: &Survey, station: &Station) -> Object {
    let places: Vec<&UsualPlace> = station.places(survey.vehicle.kind).collect();
    Object::new()
        .with("id", station.id)
        .with("name", station.name)
        .with("inside", station.inside)
        .list("places", &places, |place| {
            let outcome = survey.outcome(station.id, place.id);
            Object::new()
                .with("id", place.id)
                .with("name", place.name)
                .with("outcome", outcome.map(|outcome| outcome.word()))
        })
}

fn visit(visit: &Visit) -> Object {
    let gaps: Vec<u32> = visit.gaps.iter().map(|gap| gap.0).collect();
    Object::new()
        .with("station", &visit.station)
        .with("place", &visit.place)
        .with("outcome", visit.outcome.word())
        .with("gaps", gaps)
}
