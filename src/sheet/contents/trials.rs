//! Pictures of trials: the readings over time, and what each method did.

use super::drawings::{drawing, text_width};
use crate::assess::measured::odd;
use crate::assess::measured::trial::TrialOutcome;
use crate::figure::{self, Scene};
use crate::report::{self, Block, measured};
use crate::sheet::blocks::Picture;
use crate::sheet::choices::Choices;
use crate::survey::{Survey, Trial};

/// A figure with its file.
type Drawn = (Block, (String, Picture));

/// The readings of a trial with its periods, where its files could be read.
pub(super) fn chart(
    told: &report::Material<'_>,
    trial: &Trial,
    choices: &Choices,
) -> Option<Drawn> {
    let loggers = told.study.loggers()?;
    let lines = figure::trial::lines(told.study, trial, loggers).ok()?;
    let lines = lines.with_odd(trial, &odd(told.survey, loggers));
    let bands = figure::trial::bands(told.survey, trial);
    let ends = bands.iter().map(|band| (band.from_s, band.to_s));
    let tried = ends.reduce(|(from, to), (first, last)| (from.min(first), to.max(last)));
    // What was read before the first period and after the last says nothing of them.
    let span = tried.or_else(|| lines.span())?;
    let scene = figure::trial::drawing(&lines, &bands, span, text_width(choices.paper));
    Some(block(
        (format!("trial-{}", trial.id), scene),
        "What the loggers read, with the periods of the trial as bands. Limits: above them a cold surface gathers \
         water or mould.",
        (told.survey, choices),
    ))
}

/// What each method did, where something is known of any.
pub(super) fn verdict(
    told: &report::Material<'_>,
    trial: &Trial,
    choices: &Choices,
) -> Option<Drawn> {
    let outcome: &TrialOutcome = told.study.tried()?.trial(trial.id).ok()?;
    let rows = measured::trial::rows(trial, outcome);
    if rows.is_empty() {
        return None;
    }
    let scene = figure::trial::verdict(&rows, text_width(choices.paper));
    Some(block(
        (format!("verdict-{}", trial.id), scene),
        "What went along with each method, against the days without one: a mark with the interval in which the \
         change lies in 95 of 100 such trials. Right of the line: warmer, more water, damper.",
        (told.survey, choices),
    ))
}

fn block(
    (name, scene): (String, Scene),
    caption: &str,
    (survey, choices): (&Survey, &Choices),
) -> Drawn {
    let shown = choices.shown(survey);
    let scene = scene.shown(&shown);
    let block = Block::Figure {
        file: name.clone(),
        width_mm: format!("{:.1}", scene.width),
        alt: scene.description.clone(),
        caption: caption.to_owned(),
    };
    (block, (name, drawing(&scene)))
}
