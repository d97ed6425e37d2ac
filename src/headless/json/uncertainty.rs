//! How sure the results are.

use super::object::Object;
use crate::assess::uncertainty::{
    Calibrated, Interval, NotFound, Outweighed, Share, UncertainInput, Uncertainty,
};
use crate::assess::{Answer, NotKnown};
use crate::physics::units::MM2_PER_M2;
use crate::survey::Item;
use crate::survey::word::Word;

/// [`NotKnown`] where no draws were made.
pub(super) fn uncertainty(found: Option<&Answer<Uncertainty>>) -> Answer<Object> {
    let none = || NotKnown::because("no draws were made");
    let found = found.ok_or_else(none)?;
    found.as_ref().map(intervals).map_err(Clone::clone)
}

fn intervals(found: &Uncertainty) -> Object {
    let plain = |found: &Interval| interval(found, 1.0);
    let not_found_line = found.not_found.as_ref();
    Object::new()
        .with("draws", found.draws)
        .with("eqla_10pa_mm2", interval(&found.eqla, MM2_PER_M2))
        .with("ela_4pa_mm2", interval(&found.ela, MM2_PER_M2))
        .with(
            "unintended_eqla_10pa_mm2",
            interval(&found.eqla_unintended, MM2_PER_M2),
        )
        .found("n50_per_h", &found.n50_per_h, plain)
        .found("season_ach_mean_per_h", &found.season_ach_per_h, plain)
        .list("cases", &found.cases, |case| {
            Object::new()
                .with("case", case.id.0)
                .found("ach_mean_per_h", &case.ach_per_h, plain)
                .found("removal_l_per_day", &case.removal_l_per_day, plain)
                .found("heat_w", &case.heat_w, plain)
        })
        .list("air_change_parts", &found.air_change_shares, part)
        .list("leakage_parts", &found.leakage_shares, part)
        .with("outweighed", found.outweighed.as_ref().map(outweighed))
        .list("measure_next", &found.measure_next, |next| {
            opening(Object::new(), next.item)
                .with("certainty", next.certainty.word())
                .with("size_uncertainty_share", next.share)
                .with("uncertainty_share", next.share_of_all)
                .with("sentence", &next.sentence)
        })
        .with(
            "not_found",
            not_found_line.map(|line| not_found(found, line)),
        )
        .with("calibrated", found.calibrated.as_ref().map(calibrated))
}

/// What measurements did to the intervals.
fn calibrated(found: &Calibrated) -> Object {
    Object::new()
        .with(
            "not_found_eqla_10pa_mm2",
            interval(&found.not_found_eqla, MM2_PER_M2),
        )
        .with("effective_draws", found.effective_draws)
        .with("rounds", found.rounds)
        .with("before", intervals(&found.before))
}

/// The gap or the inner opening that an item is, if it is one; null for the other.
fn opening(object: Object, item: impl Into<Option<Item>>) -> Object {
    let (gap, inner_opening) = match item.into() {
        Some(Item::Gap(id)) => (Some(id.0), None),
        Some(Item::InnerOpening(id)) => (None, Some(id.0)),
        _ => (None, None),
    };
    object.with("gap", gap).with("inner_opening", inner_opening)
}

fn interval(found: &Interval, scale: f64) -> Object {
    Object::new()
        .with("low", found.low * scale)
        .with("high", found.high * scale)
        .with("mean", found.mean * scale)
        .with("standard_deviation", found.standard_deviation * scale)
}

fn outweighed(found: &Outweighed) -> Object {
    Object::new()
        .with("under_floor_share", found.under_floor)
        .with("wind_share", found.wind)
        .with("sizes_share", found.sizes)
        .with("sentence", &found.sentence)
}

fn part(share: &Share) -> Object {
    let (of, item) = match share.of {
        UncertainInput::Gap(id) => ("gap", Some(Item::Gap(id))),
        UncertainInput::InnerOpening(id) => ("inner_opening", Some(Item::InnerOpening(id))),
        UncertainInput::Surveyor => ("surveyor", None),
        UncertainInput::NotFound => ("not_found", None),
        UncertainInput::Discharge => ("discharge", None),
        UncertainInput::WallPressure => ("wall_pressure", None),
        UncertainInput::UnderfloorPressure => ("underfloor_pressure", None),
        UncertainInput::Gusts => ("gusts", None),
        UncertainInput::Wind => ("wind", None),
    };
    opening(Object::new().with("of", of), item).with("uncertainty_share", share.share)
}

fn not_found(found: &Uncertainty, line: &NotFound) -> Object {
    let cases = found.cases.iter().zip(&line.ach_per_h);
    Object::new()
        .with("found_percent", line.percent)
        .with("more_eqla_10pa_mm2", line.eqla * MM2_PER_M2)
        .list("cases", cases, |(case, more)| {
            Object::new()
                .with("case", case.id.0)
                .with("more_ach_per_h", more)
        })
}
