//! The results in short.

use super::object::{Object, plain};
use crate::assess::drying::Comparison;
use crate::assess::in_short::{BySeason, First, Pick, pick};
use crate::assess::{Answer, Study};
use crate::report::Material;
use crate::report::in_short::{InShort, Leads, Line, Part};
use crate::survey::word::Word;

pub(super) fn in_short(study: &Study) -> Object {
    let told = Material::of(study);
    let InShort { headline, parts } = crate::report::in_short::in_short(&told);
    let season = BySeason::of(study);
    let comparison = season.comparison().as_ref().ok();
    let chosen = comparison.map(pick);
    let option = match chosen {
        Some(Pick::Take(at) | Pick::NoneSuffices(Some(at))) => Some(at),
        _ => None,
    };
    Object::new()
        .list("headline", &headline, |line| plain(&line.text))
        .with("take", chosen.map(|chosen| chosen.word()))
        .with("option", option)
        .with(
            "shares_from",
            comparison.map(|comparison| comparison.shares.word()),
        )
        .with("options", comparison.map(options))
        .with("seal_first", first(season.first()))
        .list("parts", &parts, part)
}

/// The gaps to seal first.
fn first(first: &Answer<Option<First>>) -> Object {
    let found = first.as_ref().ok().and_then(Option::as_ref);
    let gaps = found.map_or(&[][..], |first| &first.gaps);
    let object = Object::new().list("gaps", gaps, |gap| gap.gap().0);
    let plan = found.map(|first| &first.plan);
    object
        .with("cost", plan.map(|plan| plan.cost))
        .with("minutes", plan.map(|plan| plan.minutes))
        .with("options", options_then(first))
}

/// What each option holds and costs, in their order.
fn options(comparison: &Comparison) -> Vec<Object> {
    let each = comparison.options.iter().map(|option| {
        Object::new()
            .with("name", &option.name)
            .found("season_share_held", &option.verdict, |verdict| {
                verdict.share()
            })
            .with("cost_per_month", &option.costs.per_month)
            .with("cost_per_winter", &option.costs.per_winter)
    });
    each.collect()
}

/// The same once the first gaps are sealed.
fn options_then(first: &Answer<Option<First>>) -> Answer<Vec<Object>> {
    let first = first.as_ref().map_err(Clone::clone)?;
    let Some(first) = first else {
        return Ok(Vec::new());
    };
    let then = first.comparison.as_ref().map_err(Clone::clone)?;
    Ok(options(then))
}

fn part(part: &Part) -> Object {
    Object::new()
        .with("title", plain(&part.title))
        .list("lines", part.all_lines(), line)
}

fn line(line: &Line) -> Object {
    let place = match line.leads_to {
        Leads::Place(place) => Some(place),
        _ => None,
    };
    Object::new()
        .with("text", plain(&line.text))
        .with("danger", line.grave)
        .with("leads_to", line.leads_to.word())
        .with(
            "field",
            place.and_then(|place| place.field).map(|field| field.key()),
        )
}

impl Word for Leads {
    fn word(&self) -> &'static str {
        match self {
            Self::Gaps => "gaps",
            Self::AirChange => "air_change",
            Self::DryingHeat => "drying_heat",
            Self::Winter => "winter",
            Self::SealingPlan => "sealing_plan",
            Self::Measurements => "measurements",
            Self::Place(_) => "place",
        }
    }
}

impl Word for Pick {
    fn word(&self) -> &'static str {
        match self {
            Self::NothingNeeded => "nothing_needed",
            Self::Take(_) => "option",
            Self::NoneSuffices(_) => "none_suffices",
        }
    }
}
