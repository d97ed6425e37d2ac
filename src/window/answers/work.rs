//! The work itself, on the worker's side: parts of the study, the most urgent first.

use super::asked::{Asked, Revised, Wanted};
use super::effort::Effort;
use crate::assess::{Part, measured};
use crate::figure::trial;
use crate::sheet::unprintable;
use crate::survey::{Trial, findings};
use crate::tasks;
use crate::window::background::Line;
use std::sync::Arc;

/// The most urgent answers first.
pub(super) fn results(asked: &Asked, _: Effort, line: &Line<'_, (Asked, Part)>) {
    let study = &asked.of.study;
    study.assessment();
    study.measured();
    study.as_surveyed().assessment();
    asked
        .of
        .unprintable
        .get_or_init(|| unprintable(study.survey()));
    asked.of.files.get_or_init(|| {
        let data = &asked.of.data;
        let troubles = data.shelf.troubles(&data.folders, study.survey());
        findings::data_files(study.survey(), &troubles)
    });
    line.send((asked.clone(), Part::Assessment));
    if line.stopped() {
        return;
    }
    study.wind_curve();
    line.send((asked.clone(), Part::WindCurve));
    if line.stopped() {
        return;
    }
    study.comparison();
    line.send((asked.clone(), Part::Comparison));
}

pub(super) fn uncertainty(asked: &Asked, effort: Effort, line: &Line<'_, (Asked, Part)>) {
    let watch = |share| line.progress(share);
    let (study, Effort { draws, threads, .. }) = (&asked.of.study, effort);
    if tasks::uncertainty(study, draws, threads, &watch).is_some() {
        line.send((asked.clone(), Part::Uncertainty));
    }
}

/// The ranking and the plan of the gaps marked first, the order after them.
pub(super) fn sealing(asked: &Asked, effort: Effort, line: &Line<'_, (Asked, Part)>) {
    let (study, aim) = (&asked.of.study, asked.wanted.aim);
    // The way that is told is that of the order, which takes longest.
    let watch = |_| line.progress(0.0);
    if tasks::sealed_singly(study, effort.threads, &watch).is_none() {
        return;
    }
    study.ranking(aim);
    line.send((asked.clone(), Part::Ranking));
    if line.stopped() {
        return;
    }
    study.planned_work();
    line.send((asked.clone(), Part::Planned));
    let watch = |share| line.progress(share);
    if tasks::order(study, aim, effort.threads, &watch).is_some() {
        line.send((asked.clone(), Part::Order));
    }
}

/// All that the page In short tells.
pub(super) fn first(asked: &Asked, effort: Effort, line: &Line<'_, (Asked, Part)>) {
    let study = &asked.of.study;
    study.comparison();
    let watch = |share| line.progress(share);
    if tasks::sealed_singly(study, effort.threads, &watch).is_none() {
        return;
    }
    study.first();
    line.send((asked.clone(), Part::First));
}

pub(super) fn dependence(asked: &Asked, _: Effort, line: &Line<'_, (Asked, Part)>) {
    let study = &asked.of.study;
    study.temperature_curves();
    study.wind_choices();
    study.closing_effects();
    study.parking();
    line.send((asked.clone(), Part::Parking));
}

pub(super) fn budget(asked: &Asked, _: Effort, line: &Line<'_, (Asked, Part)>) {
    let Wanted { aim, budget } = asked.wanted;
    let watch = &mut |share| line.progress(share);
    let found = budget.and_then(|budget| asked.of.study.best(aim, budget, watch));
    if found.is_some() {
        line.send((asked.clone(), Part::Best));
    }
}

/// The winter that the survey names, then the same with the planned gaps sealed.
pub(super) fn winter(asked: &Asked, effort: Effort, line: &Line<'_, (Asked, Part)>) {
    let Revised {
        study,
        folder,
        data,
        ..
    } = &*asked.of;
    let parts = if study.planned().is_some() { 2.0 } else { 1.0 };
    let folder = folder.as_deref();
    let places = asked.of.weather_places();
    if study.survey().stay.has_winter() {
        // Held against what was measured before anything is told of options.
        let watch = |_: f64| line.progress(0.0);
        tasks::tried(study, &data.folders, folder, &data.shelf, &watch);
        tasks::winter_laid(study, &places, &watch);
    }
    let watch = |share: f64| line.progress(share / parts);
    if tasks::winter(study, &places, effort.threads, &watch).is_some() {
        line.send((asked.clone(), Part::Winter));
        let watch = |share: f64| line.progress((1.0 + share) / parts);
        if tasks::winter_after_plan(study, &places, effort.threads, &watch).is_some() {
            line.send((asked.clone(), Part::Winter));
        }
    }
}

/// How sure the winter is that was run.
pub(super) fn winter_bands(asked: &Asked, effort: Effort, line: &Line<'_, (Asked, Part)>) {
    let watch = |share| line.progress(share);
    let (study, draws) = (&asked.of.study, effort.winter_draws);
    if tasks::winter_bands(study, draws, effort.threads, &watch).is_some() {
        line.send((asked.clone(), Part::WinterBands));
    }
}

/// The lines of the trials first, then what each method did.
pub(super) fn trials(asked: &Asked, _: Effort, line: &Line<'_, (Asked, Part)>) {
    let watch = |share: f64| line.progress(0.5 * share);
    let Revised {
        study,
        folder,
        data,
        lines,
        odd,
        ..
    } = &*asked.of;
    let survey = study.survey();
    let folder = folder.as_deref();
    let Some(read) = tasks::loggers(survey, &data.folders, folder, &data.shelf, &watch) else {
        return;
    };
    data.shelf.keep_only(survey);
    let odd = odd.get_or_init(|| measured::odd(survey, &read));
    lines.get_or_init(|| {
        let of = |trial: &Trial| {
            let lines = trial::lines(study, trial, &read);
            let lines = lines.map(|lines| Arc::new(lines.with_odd(trial, odd)));
            (trial.id, lines)
        };
        survey.trials.iter().map(of).collect()
    });
    line.send((asked.clone(), Part::Trials));
    if line.stopped() || !survey.asks_for_readings() {
        return;
    }
    study.keep_loggers(&read);
    line.send((asked.clone(), Part::Trials));
}
