//! What to seal first: what it costs, what it gains, and what it does not.

use super::page::{Leads, Line, Part, Room, known};
use crate::assess::drying::{Comparison, OptionAnswer, OptionKind};
use crate::assess::in_short::{First, Pick, free_and_enough, pick, undone};
use crate::assess::quantity::{Kind, money_round, price_about, price_round};
use crate::assess::sealing::Chosen;
use crate::assess::words::{counted, sentence};
use crate::assess::{Answer, Mark};
use crate::report::drying::target;
use crate::report::sealing::{
    any_suggested, in_currency, material_alone, nothing_to_do, suggested,
};
use crate::report::words::{duration, minutes, name};
use crate::report::{Align, Material, Reasons, Table};
use crate::survey::leave::{self, ELECTRICIAN, Refusal};
use crate::survey::{Finding, GapId, Item, Place, SetUp, Severity, Survey, number};

/// What the first work does, in a sentence.
pub(super) fn headline(material: &Material<'_>, first: &Answer<Option<First>>) -> Option<Line> {
    let currency = &material.survey.tariffs.currency;
    let first = first.as_ref().ok()?.as_ref()?;
    let kept_out = first.kept_out().ok()?;
    let gaps = counted(first.gaps.len(), "gap", "gaps");
    let mut dangers = first.plan.findings.iter();
    let begins = if dangers.any(|one| one.severity == Severity::Danger) {
        "▲ Ventilation first; sealing"
    } else {
        "Sealing"
    };
    let comparison = material.comparison.as_ref().ok();
    let damper = comparison.map_or_else(String::new, |comparison| but(comparison, first));
    let windless = !material
        .survey
        .weather
        .iter()
        .any(|case| case.wind_m_s > 0.0);
    let air = if windless {
        "comes in"
    } else {
        "wind drives in"
    };
    let words = format!(
        "{begins} {gaps} for {}{} keeps out {} of the air that {air}{damper}.",
        price_round(first.plan.cost, currency),
        material_alone(&first.plan),
        Kind::WholePercent.text(kept_out)
    );
    Some(Line::new(words, Leads::SealingPlan))
}

/// What the first work undoes or makes worse.
fn but(comparison: &Comparison, first: &First) -> String {
    match undone(comparison, first) {
        Some(option) if option.kind != OptionKind::Nothing => {
            format!(", but then “{}” no longer suffices", option.name)
        }
        Some(_) if comparison.set_up == SetUp::InUse => {
            ", but then heat alone no longer suffices".to_owned()
        }
        Some(_) => ", but then it is no longer dry enough by itself".to_owned(),
        None if shorter(comparison, first).is_some() => ", but makes it damper".to_owned(),
        None => String::new(),
    }
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
pub(super) fn part(material: &Material<'_>, first: &Answer<Option<First>>, room: Room) -> Part {
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
    table(&mut part, material.survey, first, room);
    gains(&mut part, material, first);
    part
}

/// What is said where the gaps that would come first keep out next to nothing.
const NOT_WORTH_IT: &str = "No gap is worth sealing first: those of the plan keep out less than a hundredth of the \
    air.";

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
        let (is, it, they) = match ids.len() {
            1 => ("is", "it is", "it"),
            _ => ("are", "they are", "they"),
        };
        part.line(
            format!(
                "What {} {is} or what {it} there for has to be said before {they} may be sealed.",
                number::gaps(&ids),
            ),
            Leads::Place(Place::whole(Item::Gap(*id))),
        );
    }
    if part.lines.is_empty() {
        let work = material.study.work().as_ref();
        let words = match work {
            Err(unknown) => format!("What to seal is not known: {}.", unknown.reason),
            Ok(_) if material.study.with_first().is_some() => NOT_WORTH_IT.to_owned(),
            Ok(work) => nothing_to_do(work),
        };
        part.line(words, Leads::SealingPlan);
    }
}

fn table(part: &mut Part, survey: &Survey, first: &First, room: Room) {
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
    // An owner begins with what an owner may do.
    let (others, own): (Vec<_>, Vec<_>) =
        first.gaps.iter().partition(|one| one.is_for_electrician());
    let mixed = !others.is_empty() && !own.is_empty();
    let left_out = first.gaps.len().saturating_sub(room.rows);
    for one in own
        .into_iter()
        .chain(others)
        .take(first.gaps.len() - left_out)
    {
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
    known(part, table, &reasons, (left_out, Leads::Gaps));
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
        Chosen::Planned => "Planned gaps,",
        Chosen::Proposed => "No gap is planned yet:",
        Chosen::Within => "Gaps of the best set for the money named,",
    };
    let more = match first.more {
        0 => String::new(),
        more => format!("; the plan has {more} more"),
    };
    let last = if mixed {
        ", the electrician's last"
    } else {
        ""
    };
    part.notes
        .push(format!("{chosen} best for their money first{last}{more}."));
    if room.tight {
        part.notes = vec![part.notes.join(" ")];
    }
}

/// What it gains, what it does not, and what it is to be done after.
fn gains(part: &mut Part, material: &Material<'_>, first: &First) {
    let plan = &first.plan;
    let currency = &material.survey.tariffs.currency;
    let comparison = material.comparison.as_ref().ok();
    let then = comparison.and_then(|comparison| then_costs(comparison, first, currency));
    let mut words = Vec::new();
    if first.kept_out().is_ok_and(|share| share > 0.0) {
        let warmest_c = material.survey.targets.comfort_c;
        let mut cases = material.survey.weather.iter();
        let draught = if cases.any(|case| case.outside_c < warmest_c) {
            "Less draught and cold."
        } else {
            "Less draught."
        };
        words.push(draught.to_owned());
        // What running the option that is taken costs has the heat in it.
        if comparison
            .and_then(|comparison| months(comparison, first))
            .is_none()
        {
            words.extend(less_heat((comparison, first), currency));
        }
    }
    let alone = comparison.and_then(|comparison| alone(comparison, first));
    let damp = [alone, then].into_iter().flatten();
    // A warning begins its line.
    let (warnings, plain): (Vec<_>, Vec<_>) = damp.partition(|words| words.starts_with('▲'));
    words.extend(plain);
    if !words.is_empty() {
        part.below(words.join(" "), Leads::SealingPlan);
    }
    for warning in warnings {
        part.below(warning, Leads::DryingHeat);
    }
    heed(part, &plan.findings, material.survey.set_up);
}

/// What comes before sealing: ventilation, and what is damp.
fn heed(part: &mut Part, findings: &[Finding], set_up: SetUp) {
    let dangers = findings
        .iter()
        .filter(|one| one.severity == Severity::Danger);
    let grave = dangers.clone().next().is_some();
    for danger in dangers {
        // What is amiss with the fixed ventilation stands first on the page.
        let words = if danger.place.item == Item::SafetyVentilation {
            "Put the fixed ventilation right first, then seal: leaks now make up for what it lacks."
                .to_owned()
        } else {
            sentence(&format!(
                "ventilation first, then seal: {}",
                danger.sentence
            ))
        };
        part.grave(Mark::without(&words), Leads::Place(danger.place));
    }
    let warnings = findings
        .iter()
        .filter(|one| one.severity == Severity::Warning);
    for finding in warnings {
        let words = match finding.place.item {
            Item::Gap(_) => format!(
                "▲ {} {}",
                sentence(&finding.sentence),
                sentence(&finding.advice)
            ),
            // How stale it gets stands in the plan; a danger has said it already.
            Item::Vehicle if set_up == SetUp::InUse && !grave => LITTLE_AIR.to_owned(),
            _ => continue,
        };
        part.below(Mark::without(&words), Leads::Place(finding.place));
    }
}

/// What a plan's warning of the air of sleepers comes to on this page, in a line.
const LITTLE_AIR: &str =
    "▲ Sealed, it has little fresh air for sleepers: first make ventilation that cannot be shut.";

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
        Some((share, Kind::Share.text(share)))
    };
    let (mut parts, mut sign) = (Vec::new(), "");
    if let Some((now, then)) = months(comparison, first) {
        let (now, then) = (price_about(now, currency), price_about(then, currency));
        parts.push(if now == then {
            format!("costs {now} a month as before")
        } else {
            format!("costs {then} a month, not {now}")
        });
    }
    if let (Some((now, now_told)), Some((share_then, then_told))) = (share(now), share(then)) {
        parts.push(
            if undone(comparison, first).is_some() && now_told == then_told {
                sign = "▲ ";
                format!("does worse: {}", then.verdict_words(comparison))
            } else if now_told == then_told {
                "keeps it dry just as long".to_owned()
            } else {
                format!("keeps it dry for {then_told} of the season, not {now_told}")
            },
        );
        if now_told != then_told && share_then < now {
            sign = "▲ ";
        }
    }
    (!parts.is_empty()).then(|| format!("{sign}“{}” then {}.", now.name, parts.join(", and ")))
}

/// A humidity nearer to another than this is told as the same, relative humidity.
const ALIKE: f64 = 0.015;

/// For what share of the season it is dry enough by itself, as the vehicle stands and with the first gaps
/// sealed, where it is so for less of it then. A mean over the season hides that.
fn shorter(comparison: &Comparison, first: &First) -> Option<(String, String)> {
    let share = |of: &Comparison| {
        let mut options = of.options.iter();
        let idle = options.find(|option| option.kind == OptionKind::Nothing)?;
        Some(idle.verdict.as_ref().ok()?.share())
    };
    let (now, then) = (share(comparison)?, share(first.comparison.as_ref().ok()?)?);
    let told = (Kind::Share.text(now), Kind::Share.text(then));
    (then < now && told.0 != told.1).then_some(told)
}

/// That it is dry enough for less of the season with the first gaps sealed, or only by water on cold
/// surfaces, and what helps then.
fn damper(comparison: &Comparison, first: &First) -> Option<String> {
    let sealed = first.comparison.as_ref().ok()?;
    let by = match comparison.set_up {
        SetUp::InUse => "heat alone",
        SetUp::LaidUp => "nothing done",
    };
    let dry = if let Some((now, then)) = shorter(comparison, first) {
        let target = target(comparison);
        format!("with {by} it is then at {target} or below for {then} of the season, not {now}")
    } else {
        undone(comparison, first).filter(|option| option.kind == OptionKind::Nothing)?;
        // What else stands against doing nothing no sealing changes.
        format!("with {by} it then stays so dry only because water condenses on cold surfaces")
    };
    let name = |at: usize| sealed.options.get(at).map(|option| &option.name);
    let help = match (free_and_enough(sealed), pick(sealed)) {
        (Some(at), _) => format!("; with “{}” for all of it", name(at)?),
        (None, Pick::Take(at)) => format!("; then it takes “{}”", name(at)?),
        (None, Pick::NoneSuffices(_)) => "; nothing compared here suffices then".to_owned(),
        (None, Pick::NothingNeeded) => String::new(),
    };
    Some(format!("▲ Sealing makes it damper: {dry}{help}."))
}

/// What sealing does to the damp by itself.
fn alone(comparison: &Comparison, first: &First) -> Option<String> {
    if let Some(words) = damper(comparison, first) {
        return Some(words);
    }
    let then = first.comparison.as_ref().ok()?;
    let (now, then) = (comparison.mean_rh(0).ok()?, then.mean_rh(0).ok()?);
    let (before, after) = (
        Kind::RelativeHumidity.number(now),
        Kind::RelativeHumidity.text(then),
    );
    let told = if after.starts_with(&format!("{before}\u{a0}")) {
        format!("it stays at {after} humidity inside on average")
    } else {
        format!("{before} → {after} humidity inside on average")
    };
    Some(if then > now + ALIKE && then > comparison.target_rh {
        format!("▲ Sealing alone makes it damper: {told}: dry it too.")
    } else if then > now + ALIKE {
        format!("Sealing makes it a little damper: {told}, still no more than is wanted.")
    } else if then < now - ALIKE && then > comparison.target_rh {
        format!("Sealing alone does not dry it enough: {told}.")
    } else if then < now - ALIKE {
        format!("Sealing alone dries it: {told}.")
    } else if then <= comparison.target_rh {
        format!("Sealing hardly changes the damp: {told}.")
    } else {
        format!("Sealing alone does not dry it: {told}.")
    })
}
