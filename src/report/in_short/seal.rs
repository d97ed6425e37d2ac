//! What to seal first: what it costs, what it gains, and what it does not.

use super::page::{Leads, Line, Part, known};
use crate::assess::drying::{Comparison, OptionAnswer};
use crate::assess::in_short::{First, Pick, pick};
use crate::assess::quantity::{Kind, money_round, price_about, price_round};
use crate::assess::sealing::{Chosen, Plan};
use crate::assess::words::{counted, sentence};
use crate::assess::{Answer, Mark};
use crate::report::sealing::{
    any_suggested, in_currency, material_alone, nothing_to_do, suggested,
};
use crate::report::words::{duration, minutes, name, renewed};
use crate::report::{Align, Material, Reasons, Table};
use crate::survey::leave::{self, ELECTRICIAN, Refusal};
use crate::survey::{GapId, Item, Place, SetUp, Severity, Survey, number};

/// What the first work does, in a sentence.
pub(super) fn headline(first: &Answer<Option<First>>, currency: &str) -> Option<Line> {
    let first = first.as_ref().ok()?.as_ref()?;
    let kept_out = first.kept_out().ok()?;
    let gaps = counted(first.gaps.len(), "gap", "gaps");
    let mut dangers = first.plan.findings.iter();
    let begins = if dangers.any(|one| one.severity == Severity::Danger) {
        "▲ Ventilation first; sealing"
    } else {
        "Sealing"
    };
    let words = format!(
        "{begins} {gaps} for {}{} keeps out {} of the air that wind drives in.",
        price_round(first.plan.cost, currency),
        material_alone(&first.plan),
        Kind::WholePercent.text(kept_out)
    );
    Some(Line::new(words, Leads::SealingPlan))
}

/// The option that is taken as the vehicle stands, or that holds the target longest, and the same with
/// the first gaps sealed.
fn now_and_then<'a>(
    comparison: &'a Comparison,
    first: &'a First,
) -> Option<(&'a OptionAnswer, &'a OptionAnswer)> {
    let (Pick::Take(at) | Pick::NoneSuffices(Some(at))) = pick(comparison) else {
        return None;
    };
    let then = first.comparison.as_ref().ok()?;
    Some((comparison.options.get(at)?, then.options.get(at)?))
}

/// The gaps, what they cost, and what that does.
pub(super) fn part(material: &Material<'_>, first: &Answer<Option<First>>) -> Part {
    let mut part = Part::new("Seal these first");
    let first = match first {
        Ok(Some(first)) => first,
        Ok(None) => {
            nothing(&mut part, material);
            return part;
        }
        Err(unknown) => {
            part.line(
                format!("What to seal is not known: {}.", unknown.reason),
                Leads::Gaps,
            );
            return part;
        }
    };
    table(&mut part, material.survey, first);
    gains(&mut part, material, first);
    part
}

/// Why there is nothing to seal.
fn nothing(part: &mut Part, material: &Material<'_>) {
    let survey = material.survey;
    if survey.gaps.is_empty() {
        part.line("No gap is written down yet.", Leads::Gaps);
        return;
    }
    if !survey.appliances_confirmed {
        part.line(
            "Nothing is proposed yet: whether all appliances that burn gas or fuel are listed is not confirmed, \
             so what must stay open is not known.",
            Leads::APPLIANCES,
        );
    }
    let asked = |gap: &&crate::survey::Gap| {
        let why = leave::leave(survey, gap).err();
        why.is_some_and(|why| why.may_protect() || why == Refusal::PartNotSaid)
    };
    let asked: Vec<GapId> = survey.gaps.iter().filter(asked).map(|gap| gap.id).collect();
    if let Some(id) = asked.first() {
        let ids: Vec<String> = asked.iter().map(ToString::to_string).collect();
        part.line(
            format!(
                "What {} {} or what it is there for has to be said before it may be sealed.",
                number::gaps(&ids),
                if ids.len() == 1 { "is" } else { "are" }
            ),
            Leads::Place(Place::whole(Item::Gap(*id))),
        );
    }
    if part.lines.is_empty() {
        let work = material.study.work().as_ref();
        let words = work.map_or_else(
            |unknown| format!("What to seal is not known: {}.", unknown.reason),
            nothing_to_do,
        );
        part.line(words, Leads::SealingPlan);
    }
}

fn table(part: &mut Part, survey: &Survey, first: &First) {
    let currency = survey.tariffs.currency.trim();
    let table = Table::default()
        .column("Gap", Align::Right)
        .wide("What", Align::Left, 1)
        .column("Minutes", Align::Decimal);
    let mut table = table.column(
        in_currency("Cost", currency).replace(' ', "\u{a0}"),
        Align::Decimal,
    );
    let mut reasons = Reasons::default();
    for one in &first.gaps {
        let id = one.gap();
        let row = table.row([
            id.to_string(),
            format!(
                "{}{}{}",
                survey.gap(id).map_or_else(String::new, name),
                if one.is_for_electrician() {
                    format!(" – {ELECTRICIAN}")
                } else {
                    String::new()
                },
                suggested(one)
            ),
            reasons.or(&one.cost(), |cost| minutes(cost.minutes)),
            reasons.or(&one.cost(), |cost| {
                format!("{}{}", cost.at_least(), money_round(cost.priced))
            }),
        ]);
        row.about(Item::Gap(id));
    }
    let plan = &first.plan;
    table.total([
        String::new(),
        format!("Together, {}", duration(plan.minutes)),
        minutes(plan.minutes),
        money_round(plan.cost),
    ]);
    known(part, table, &reasons, Leads::Gaps);
    if plan.minutes_not_priced > 0.0 {
        part.below(
            format!(
                "{} is{}: no price of an hour’s work is given.",
                sentence(&price_round(plan.cost, currency)).trim_end_matches('.'),
                material_alone(plan)
            ),
            Leads::Place(Place::at(Item::Tariffs, crate::survey::Field::Workshop)),
        );
    }
    if any_suggested(first.gaps.iter()) {
        part.notes
            .push("* A usual remedy, † a usual price or time, both assumed.".to_owned());
    }
    let chosen = match first.chosen {
        Chosen::Planned => "Planned gaps",
        Chosen::Proposed => "No gap is planned yet: these save most",
        Chosen::Within => "Gaps of the best set for the money named",
    };
    let more = match first.more {
        0 => String::new(),
        more => format!("; the plan has {more} more"),
    };
    part.notes
        .push(format!("{chosen}, best for their money first{more}."));
}

/// What it gains, what it does not, and what it is to be done after.
fn gains(part: &mut Part, material: &Material<'_>, first: &First) {
    let plan = &first.plan;
    let currency = &material.survey.tariffs.currency;
    let comparison = material.comparison.as_ref().ok();
    let then = comparison.and_then(|comparison| then_costs(comparison, first, currency));
    if let Some(words) = less_air(plan) {
        // What running the option that is taken costs has the heat in it.
        let told = comparison.and_then(|comparison| months(comparison, first));
        let heat = match told {
            Some(_) => None,
            None => less_heat((comparison, first), currency),
        };
        let words = [Some(words), heat].into_iter().flatten();
        part.below(words.collect::<Vec<_>>().join(" "), Leads::SealingPlan);
    }
    let alone = comparison.and_then(|comparison| alone(comparison, first));
    let words: Vec<String> = [alone, then].into_iter().flatten().collect();
    if !words.is_empty() {
        part.below(words.join(" "), Leads::DryingHeat);
    }
    let mut dangers = plan.findings.iter();
    if let Some(danger) = dangers.find(|one| one.severity == Severity::Danger) {
        // What is amiss stands first on the page.
        part.grave(
            "Put the fixed ventilation right first, then seal: leaks now make up for what it lacks.",
            Leads::Place(danger.place),
        );
    }
    let damp = plan
        .findings
        .iter()
        .filter(|one| one.severity == Severity::Warning);
    for finding in damp.filter(|one| matches!(one.place.item, Item::Gap(_))) {
        let words = format!(
            "▲ {} {}",
            sentence(&finding.sentence),
            sentence(&finding.advice)
        );
        part.below(Mark::without(&words), Leads::Place(finding.place));
    }
}

/// How much more slowly the air is renewed.
fn less_air(plan: &Plan) -> Option<String> {
    let before = plan.before.ach_windy_per_h.as_ref().ok()?;
    let after = plan.after.ach_windy_per_h.as_ref().ok()?;
    let (before, after) = (renewed(*before), renewed(*after));
    Some(format!(
        "Less draught and cold: in the windiest weather the air is then new every {after}, not every \
         {before}."
    ))
}

/// Less money than this in a winter is not worth telling.
const WORTH_TELLING: f64 = 0.5;

/// What a winter's heat then costs less: in use that of the heater there is, else by electricity.
fn less_heat((comparison, first): (Option<&Comparison>, &First), currency: &str) -> Option<String> {
    let told = |saved: f64| (saved >= WORTH_TELLING).then(|| price_about(saved, currency));
    if let Some(comparison) = comparison.filter(|one| one.set_up == SetUp::InUse) {
        let winter = |of: &Comparison| {
            let heat = of.options.first()?;
            heat.costs.per_winter.as_ref().ok().copied()
        };
        let saved = winter(comparison)? - winter(first.comparison.as_ref().ok()?)?;
        return Some(format!(
            "Heating then costs {} a winter less.",
            told(saved)?
        ));
    }
    let saved = first.plan.before.less(&first.plan.after);
    let saved = told(saved.winter_cost.ok()?)?;
    Some(format!(
        "Heated by electricity, that saves {saved} a winter."
    ))
}

/// What a month of the option that is taken costs, as the vehicle stands and with the first gaps sealed.
fn months(comparison: &Comparison, first: &First) -> Option<(f64, f64)> {
    let (now, then) = now_and_then(comparison, first)?;
    let of = |option: &OptionAnswer| option.costs.per_month.as_ref().ok().copied();
    Some((of(now)?, of(then)?))
}

/// What the option that is taken then costs and does.
fn then_costs(comparison: &Comparison, first: &First, currency: &str) -> Option<String> {
    let (now, then) = now_and_then(comparison, first)?;
    let share = |option: &OptionAnswer| {
        let share = option.verdict.as_ref().ok()?.share();
        Some(Kind::Share.text(share))
    };
    let mut parts = Vec::new();
    if let Some((now, then)) = months(comparison, first) {
        let (now, then) = (price_about(now, currency), price_about(then, currency));
        parts.push(if now == then {
            format!("costs {now} a month as before")
        } else {
            format!("costs {then} a month, not {now}")
        });
    }
    if let (Some(now), Some(then)) = (share(now), share(then)) {
        parts.push(if now == then {
            "holds for as much of the season".to_owned()
        } else {
            format!("holds for {then} of the season, not {now}")
        });
    }
    (!parts.is_empty()).then(|| format!("“{}” then {}.", now.name, parts.join(", and ")))
}

/// A humidity nearer to another than this is told as the same, relative humidity.
const ALIKE: f64 = 0.015;

/// What sealing does to the damp by itself.
fn alone(comparison: &Comparison, first: &First) -> Option<String> {
    let then = first.comparison.as_ref().ok()?;
    let (now, then) = (comparison.mean_rh(0).ok()?, then.mean_rh(0).ok()?);
    let told = format!(
        "{} → {}",
        Kind::RelativeHumidity.number(now),
        Kind::RelativeHumidity.text(then)
    );
    Some(if then > now + ALIKE && then > comparison.target_rh {
        format!("▲ Sealing alone makes it damper: {told} humidity inside on average: dry it too.")
    } else if then > now + ALIKE {
        format!(
            "Sealing makes it a little damper, {told} humidity on average: still no more than is wanted."
        )
    } else if then < now - ALIKE && then > comparison.target_rh {
        format!("Sealing alone does not dry it enough: {told} humidity inside on average.")
    } else if then < now - ALIKE {
        format!("Sealing alone dries it: {told} humidity inside on average.")
    } else if then <= comparison.target_rh {
        format!("Sealing hardly changes the damp: {told} humidity inside on average.")
    } else {
        format!("Sealing alone does not dry it: {told} humidity inside on average.")
    })
}
