//! How sure the results are.

use super::object::{Object, Value, list};
use crate::assess::uncertainty::{Interval, NotFound, Share, UncertainInput, Uncertainty};
use crate::assess::{Answer, NotKnown};
use crate::physics::units::MM2_PER_M2;
use crate::survey::Item;
use crate::survey::word::Word;

/// [`NotKnown`] where no draws were made.
pub(super) fn uncertainty(found: Option<&Answer<Uncertainty>>) -> Answer<Object> {
    match found {
        Some(found) => found.as_ref().map(intervals).map_err(Clone::clone),
        None => Err(NotKnown::because("no draws were made")),
    }
}

fn intervals(found: &Uncertainty) -> Object {
    let answer = |answer: &Answer<Interval>| {
        answer
            .as_ref()
            .map(|found| interval(found, 1.0))
            .map_err(Clone::clone)
    };
    Object::new()
        .with("draws", found.draws)
        .with("eqla_10pa_mm2", interval(&found.eqla, MM2_PER_M2))
        .with("ela_4pa_mm2", interval(&found.ela, MM2_PER_M2))
        .with(
            "unintended_eqla_10pa_mm2",
            interval(&found.eqla_unintended, MM2_PER_M2),
        )
        .answer("n50_per_h", answer(&found.n50_per_h))
        .answer("season_ach_mean_per_h", answer(&found.season_ach_per_h))
        .with(
            "cases",
            list(&found.cases, |case| {
                Object::new()
                    .with("case", case.id.0)
                    .answer("ach_mean_per_h", answer(&case.ach_per_h))
                    .answer("removal_l_per_day", answer(&case.removal_l_per_day))
                    .answer("heat_w", answer(&case.heat_w))
            }),
        )
        .with("air_change_parts", list(&found.air_change_shares, part))
        .with("leakage_parts", list(&found.leakage_shares, part))
        .with(
            "outweighed",
            found.outweighed.as_ref().map_or(Value::Null, |outweighed| {
                Object::new()
                    .with("under_floor_share", outweighed.under_floor)
                    .with("sizes_share", outweighed.sizes)
                    .with("sentence", outweighed.sentence.as_str())
                    .into()
            }),
        )
        .with(
            "measure_next",
            list(&found.measure_next, |next| {
                let (gap, inner_opening) = match next.item {
                    Item::Gap(id) => (Value::from(id.0), Value::Null),
                    Item::InnerOpening(id) => (Value::Null, Value::from(id.0)),
                    _ => (Value::Null, Value::Null),
                };
                Object::new()
                    .with("gap", gap)
                    .with("inner_opening", inner_opening)
                    .with("certainty", next.certainty.word())
                    .with("size_uncertainty_share", next.share)
                    .with("uncertainty_share", next.share_of_all)
                    .with("sentence", next.sentence.as_str())
            }),
        )
        .with(
            "not_found",
            found
                .not_found
                .as_ref()
                .map_or(Value::Null, |line| not_found(found, line).into()),
        )
}

fn interval(found: &Interval, scale: f64) -> Object {
    Object::new()
        .with("low", found.low * scale)
        .with("high", found.high * scale)
        .with("mean", found.mean * scale)
        .with("standard_deviation", found.standard_deviation * scale)
}

fn part(share: &Share) -> Object {
    let (mut gap, mut inner_opening) = (Value::Null, Value::Null);
    let of = match share.of {
        UncertainInput::Gap(id) => {
            gap = Value::from(id.0);
            "gap"
        }
        UncertainInput::InnerOpening(id) => {
            inner_opening = Value::from(id.0);
            "inner_opening"
        }
        UncertainInput::Surveyor => "surveyor",
        UncertainInput::NotFound => "not_found",
        UncertainInput::Discharge => "discharge",
        UncertainInput::WallPressure => "wall_pressure",
        UncertainInput::UnderfloorPressure => "underfloor_pressure",
        UncertainInput::Gusts => "gusts",
        UncertainInput::Wind => "wind",
    };
    Object::new()
        .with("of", of)
        .with("gap", gap)
        .with("inner_opening", inner_opening)
        .with("uncertainty_share", share.share)
}

fn not_found(found: &Uncertainty, line: &NotFound) -> Object {
    let cases = found.cases.iter().zip(&line.ach_per_h);
    let cases: Vec<Object> = cases
        .map(|(case, more)| {
            Object::new()
                .with("case", case.id.0)
                .answer("more_ach_per_h", more.clone())
        })
        .collect();
    Object::new()
        .with("found_percent", line.percent)
        .with("more_eqla_10pa_mm2", line.eqla * MM2_PER_M2)
        .with("cases", cases)
}
