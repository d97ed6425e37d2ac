//! The winter of a study run through its weather.

use super::shared::{Watch, shared_out};
use super::weather::kept_weather;
use crate::assess::in_short::told_sealed;
use crate::assess::winter::{
    Bands, Doubt, Doubted, Drawn, Laid, Season, Throughout, Winter, laid_over, sound, typical,
    typical_weather,
};
use crate::assess::{Answer, NotKnown, Study};
use crate::climate::Weather;
use std::ops::ControlFlow;
use std::path::PathBuf;

/// The winter that the survey names, run and kept in its study, and with the gaps sealed that come first,
/// of the options that are told then, in the study of those; its weather file is looked for in `places`
/// ([`weather_places`](super::weather_places)).
/// `None` where no winter is named, or `watch` gave it up.
pub fn winter<'a>(
    study: &'a Study,
    places: &[PathBuf],
    threads: usize,
    watch: &impl Watch,
) -> Option<&'a Answer<Throughout>> {
    if let Some(found) = study.winter() {
        return Some(found);
    }
    let run = through(study, places, threads, watch)?;
    if let Ok(run) = &run {
        sealed_first(study, places, run, (threads, watch))?;
    }
    // Kept last: whoever finds it finds the other too.
    Some(study.keep_winter(run))
}

/// The winter that the survey names, with every option.
fn through(
    study: &Study,
    places: &[PathBuf],
    threads: usize,
    watch: &impl Watch,
) -> Option<Answer<Throughout>> {
    let stay = &study.survey().stay;
    if !stay.has_winter() {
        return None;
    }
    let ready = named(study, places).and_then(|weather| Winter::new(study, &weather, stay));
    Some(match ready {
        Ok(winter) => {
            let seasons = seasons(&winter, threads, watch)?;
            let typical = typical(stay).filter(|_| stay.weather_file.is_empty());
            Ok(Throughout::new(winter, seasons, typical))
        }
        Err(unknown) => Err(unknown),
    })
}

/// The same winter with the gaps sealed that come first, of those options alone that are told then.
fn sealed_first(
    study: &Study,
    places: &[PathBuf],
    run: &Throughout,
    (threads, watch): (usize, &impl Watch),
) -> Option<()> {
    let (Ok(comparison), Some(Ok(done))) = (study.comparison(), study.with_first()) else {
        return Some(());
    };
    if done.winter().is_some() {
        return Some(());
    }
    let told = told_sealed(comparison, run);
    let weather = named(study, places);
    let ready = weather.and_then(|weather| Winter::new(done, &weather, &study.survey().stay));
    let then = match ready {
        Ok(winter) => {
            let seasons = seasons_of(&winter, &told, threads, watch)?;
            Ok(Throughout::new(winter, seasons, run.typical()))
        }
        Err(unknown) => Err(unknown),
    };
    done.keep_winter(then);
    Some(())
}

/// Some options of a winter through the season; the others are not known.
fn seasons_of(
    winter: &Winter,
    told: &[usize],
    threads: usize,
    watch: &impl Watch,
) -> Option<Vec<Answer<Season>>> {
    let work = |at: usize, progress: &dyn Fn() -> ControlFlow<()>| {
        let option = told.get(at).copied().unwrap_or(usize::MAX);
        winter.season(option, &progress)
    };
    let run = shared_out(told.len(), (threads, "winter"), watch, work)?;
    let mut all: Vec<Answer<Season>> = winter
        .options()
        .iter()
        .map(|_| {
            Err(NotKnown::because(
                "this option was not run through the winter then",
            ))
        })
        .collect();
    for (at, season) in told.iter().zip(run) {
        if let Some(place) = all.get_mut(*at) {
            *place = season;
        }
    }
    Some(all)
}

/// The same winter with the planned gaps sealed, run and kept in the study of those. `None` where none is
/// planned, no winter is named, or `watch` gave it up.
pub fn winter_after_plan<'a>(
    study: &'a Study,
    places: &[PathBuf],
    threads: usize,
    watch: &impl Watch,
) -> Option<Answer<&'a Throughout>> {
    match study.planned()? {
        Ok(planned) => {
            let run = match planned.winter() {
                Some(found) => found,
                None => planned.keep_winter(through(planned, places, threads, watch)?),
            };
            Some(run.as_ref().map_err(Clone::clone))
        }
        Err(unknown) => Some(Err(unknown)),
    }
}

/// How sure the winter is that was run, from so many draws, kept in its study. `None` where none was run,
/// or `watch` gave it up.
pub fn winter_bands<'a>(
    study: &'a Study,
    draws: u32,
    threads: usize,
    watch: &impl Watch,
) -> Option<&'a Answer<Doubted>> {
    if let Some(found) = study.winter_bands() {
        return Some(found);
    }
    let run = study.winter()?.as_ref();
    let made = match run.map(|run| run.winter().doubt(study, draws)) {
        Ok(Ok(ready)) => Ok(Doubted {
            draws: ready.draws(),
            bands: doubt(&ready, threads, watch)?,
        }),
        Ok(Err(unknown)) => Err(unknown),
        Err(unknown) => Err(unknown.clone()),
    };
    Some(study.keep_winter_bands(made))
}

/// Why nothing is laid over measured air without a weather file.
#[must_use]
pub fn no_weather_file() -> NotKnown {
    NotKnown::because(
        "wind and sun of its hours are needed: name a weather file of the place that holds them",
    )
}

/// The winter's calculation laid over the trials that were worked out, kept in their study; the weather
/// file is looked for in `places` ([`weather_places`](super::weather_places)). `None` where no trial was worked out, or `watch` gave it up.
pub fn winter_laid<'a>(
    study: &'a Study,
    places: &[PathBuf],
    watch: &impl Watch,
) -> Option<&'a [Laid]> {
    if let Some(found) = study.winter_laid() {
        return Some(found);
    }
    let tried = study.tried()?;
    let stay = &study.survey().stay;
    let weather = if stay.weather_file.is_empty() {
        Err(no_weather_file())
    } else {
        named(study, places)
    };
    let progress = || watch(0.0);
    let laid = laid_over((study, stay), tried, weather.as_ref(), &progress)?;
    Some(study.keep_winter_laid(laid))
}

/// The weather that a survey names.
fn named(study: &Study, places: &[PathBuf]) -> Answer<Weather> {
    let stay = &study.survey().stay;
    let findings = &study.assessment().findings;
    if stay.weather_file.is_empty() {
        return typical_weather(stay, findings);
    }
    sound(findings)?;
    kept_weather(places, study.survey())
}

/// Every option of a winter through the season, in their order, on so many threads; `None` where
/// `watch` gave it up. It is asked once for every day of the season.
pub fn seasons(winter: &Winter, threads: usize, watch: &impl Watch) -> Option<Vec<Answer<Season>>> {
    let work = |at: usize, progress: &dyn Fn() -> ControlFlow<()>| winter.season(at, &progress);
    shared_out(winter.options().len(), (threads, "winter"), watch, work)
}

/// The bands of every option of a winter, in their order, on so many threads; `None` where `watch`
/// gave it up.
pub fn doubt(doubt: &Doubt<'_>, threads: usize, watch: &impl Watch) -> Option<Vec<Answer<Bands>>> {
    let (options, draws) = (doubt.options(), doubt.draws());
    let work = |at: usize, progress: &dyn Fn() -> ControlFlow<()>| {
        doubt.one(at / draws, at % draws, &progress)
    };
    let drawn = shared_out(options * draws, (threads, "draws"), watch, work)?;
    let of_option = |drawn: &[Answer<Drawn>]| {
        let drawn: Answer<Vec<Drawn>> = drawn.iter().cloned().collect();
        drawn.and_then(|drawn| Bands::through(&drawn))
    };
    if draws == 0 {
        return Some(vec![of_option(&[]); options]);
    }
    Some(drawn.chunks(draws).map(of_option).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{TypicalWinter, file};
    use crate::tasks::shared::to_the_end;

    fn caravan(change: impl FnOnce(&mut crate::survey::Survey)) -> Study {
        let text = include_str!("../../sample-surveys/farmyard-caravan.ron");
        let mut survey = file::parse(text).expect("a sample");
        // Two weeks suffice.
        survey.stay.season_first = "01-10".into();
        survey.stay.season_last = "01-23".into();
        change(&mut survey);
        Study::of(&survey)
    }

    #[test]
    fn no_winter_is_run_that_nobody_chose_and_one_given_up_leaves_nothing() {
        let study = caravan(|_| {});
        assert!(winter(&study, &[], 1, &to_the_end).is_none());
        let study = caravan(|survey| survey.stay.winter = Some(TypicalWinter::Alpine));
        assert!(winter(&study, &[], 1, &|_| ControlFlow::Break(())).is_none());
        assert!(study.winter().is_none());
    }

    #[test]
    fn the_chosen_winter_is_run_over_the_chosen_days_and_kept() {
        let study = caravan(|survey| survey.stay.winter = Some(TypicalWinter::Alpine));
        let run = winter(&study, &[], 2, &to_the_end).expect("run");
        let run = run.as_ref().expect("known");
        assert_eq!(run.hours().len(), 14 * 24);
        assert_eq!(run.typical(), Some(TypicalWinter::Alpine));
        assert_eq!(run.options().len(), run.seasons().len());
        assert!(study.winter().is_some());
    }

    #[test]
    fn a_weather_file_that_is_not_there_or_that_no_folder_holds_is_told() {
        let named = |places: &[PathBuf]| {
            let study = caravan(|survey| survey.stay.weather_file = "hill.epw".into());
            let run = winter(&study, places, 1, &to_the_end).expect("an answer");
            run.as_ref()
                .map(|_| ())
                .expect_err("not there")
                .reason
                .clone()
        };
        assert!(named(&[]).contains("save it"));
        let nowhere = [PathBuf::from("/nowhere")];
        assert!(named(&nowhere).contains("there is no weather file"));
    }

    #[test]
    fn what_cannot_be_of_a_stay_stops_the_winter_with_its_sentence() {
        let study = caravan(|survey| {
            survey.stay.winter = Some(TypicalWinter::Alpine);
            survey.stay.latitude_deg = Some(120.0);
        });
        let run = winter(&study, &[], 1, &to_the_end).expect("an answer");
        let reason = &run.as_ref().map(|_| ()).expect_err("no such place").reason;
        assert!(reason.contains("latitude is 120"), "{reason}");
    }
}
