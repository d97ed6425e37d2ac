//! Workings of what the assessment does not hold: how sure the results are, what sealing saves.

use super::{Sheet, percent, with_unit};
use crate::assess::answer::Working;
use crate::assess::number::figure;
use crate::assess::quantity::Kind;
use crate::assess::sealing::{Aim, Figures, Ranked, WINTER_DAYS};
use crate::assess::uncertainty::{Interval, Uncertainty};
use crate::physics::Underside;
use crate::survey::Survey;

/// Parts of the uncertainty that are listed.
const PARTS: usize = 6;
/// Gaps of the ranking that are listed.
const GAPS: usize = 5;

fn span(interval: &Interval, unit: &str) -> String {
    format!(
        "{} to {} {unit}",
        figure(interval.low, 2),
        figure(interval.high, 2)
    )
}

/// How far the coefficients under a floor that stands so to the wind may be off.
fn under_the_floor(underside: Underside) -> &'static str {
    match underside {
        Underside::Open => "one factor, 95 % within 0.5 to 1.5",
        Underside::ClosedOneSide => "95 % within −0.2 to +0.2",
        Underside::SkirtedLeaking | Underside::SkirtedTight => "as walls and roof",
    }
}

/// How sure the results are, and why.
#[must_use]
pub fn uncertainty_working(survey: &Survey, found: &Uncertainty) -> Working {
    let mut sheet = Sheet::new(
        "How sure the results are",
        "everything that is uncertain is drawn, the vehicle worked out again with what was drawn, many times;  \
         interval: 2.5 % of the draws lie below it, 2.5 % above;  \
         part of the uncertainty = squared rank correlation of an input with the result, all parts made to sum to 1",
    );
    sheet
        .input("draws", found.draws.to_string())
        .input("seed, the same for every survey", found.seed.to_string())
        .input("a size that was measured", "95 % within a factor of 1.2")
        .input("a size that was estimated", "95 % within a factor of 1.6")
        .input("a size that was guessed", "95 % within a factor of 3")
        .input(
            "the surveyor, all sizes together",
            "95 % within a factor of 1.15",
        )
        .input("discharge of sharp edges", "95 % within a factor of 1.08")
        .input(
            "pressure coefficients of walls and roof",
            "95 % within a factor of 1.25",
        )
        .input(
            "pressure coefficients of underfloor and cavities",
            under_the_floor(survey.vehicle.underside),
        )
        .input("wind at the body", "95 % within a factor of 1.2")
        .input(
            "air that gusts exchange, all openings on one side",
            "0.025 A U, 95 % within 0.016 to 0.07",
        );
    for share in found.air_change_shares.iter().take(PARTS) {
        let part = format!(
            "{} of the uncertainty",
            Kind::WholePercent.text(share.share)
        );
        sheet.input(&share.of.name(), part);
    }
    let result = match &found.season_ach_per_h {
        Ok(interval) => format!("mean of the season: {} air changes", span(interval, "/h")),
        Err(why) => format!("not known: {}", why.reason),
    };
    sheet
        .result(result)
        .memory("JCGM 101:2008, propagation of distributions by a Monte Carlo method")
        .assumed("how far each input may be off")
        .note(
            "The headline stays the plain result; mean and interval of the draws stand beside it.",
        )
        .note("The same survey gives the same intervals, on any machine.");
    let shares = found.air_change_shares.iter();
    let of_sizes = shares.filter(|share| share.of.sized().is_some());
    let sizes: f64 = of_sizes.map(|share| share.share).sum();
    sheet.note(format!(
        "{} of the uncertainty lies in single sizes, which measuring can lessen; the rest in wind and \
         pressure coefficients, which it cannot.",
        Kind::WholePercent.text(sizes)
    ));
    if let Some(line) = &found.not_found {
        sheet.note(format!(
            "Leakage not found, {} of what was found, is in the intervals and not in the headline.",
            with_unit(line.percent, 3, "%")
        ));
    }
    sheet.finish()
}

/// What sealing each gap saves, and how that was found.
#[must_use]
pub fn ranking_working(survey: &Survey, aim: Aim, before: &Figures, ranked: &[Ranked]) -> Working {
    let currency = survey.tariffs.currency.trim();
    let mut sheet = Sheet::new(
        format!("What sealing saves: {}", aim.name()),
        "flow of the sealed gap = flow × share of the leak that its remedy leaves;  \
         the air balance is worked out again, in every weather case and all 16 wind directions;  \
         saving = figure as it stands − figure with this one gap sealed",
    );
    match before.of(aim) {
        Ok(value) => sheet.input("as it stands", aim.text(value, currency)),
        Err(why) => sheet.input("as it stands", format!("not known: {}", why.reason)),
    };
    for one in ranked.iter().take(GAPS) {
        let id = one.sealable.gap();
        let left = percent(one.sealable.leak_left());
        let name = format!("gap {id}, {left} of its leak left");
        match one.saves.of(aim) {
            Ok(saved) => sheet.input(&name, format!("saves {}", aim.text(saved, currency))),
            Err(why) => sheet.input(&name, format!("not known: {}", why.reason)),
        };
    }
    let result = match ranked.first() {
        Some(first) => format!("gap {} saves most", first.sealable.gap()),
        None => "no gap may be sealed".to_owned(),
    };
    sheet
        .result(result)
        .assumed("shares that remedies leave, prices and times, where none were given")
        .note("Areas do not decide: a large gap where the pressure is low may save less than a small one.")
        .note("Savings do not add up: sealing one gap shifts air to others.");
    if aim != Aim::AchWindy {
        sheet.note("Mean over the weather cases by their weights, at the set temperature.");
    }
    if aim == Aim::WinterCost {
        let kwh = survey.tariffs.electricity_per_kwh;
        let price = kwh.map_or_else(
            || "not given".to_owned(),
            |price| with_unit(price, 3, currency),
        );
        sheet
            .input("electricity, each kWh", price)
            .assumed(&format!(
                "a winter of {WINTER_DAYS} days, November to March"
            ));
    }
    sheet.finish()
}
