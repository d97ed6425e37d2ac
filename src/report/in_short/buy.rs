//! What to buy and what not: the options over the season, with their prices.

use super::page::{Leads, Line, Part, Picture, known};
use crate::assess::Answer;
use crate::assess::drying::{
    Comparison, OptionAnswer, OptionKind, Proviso, Shares, Standing, ToBuy, Verdict,
};
use crate::assess::in_short::{First, Pick, pick};
use crate::assess::quantity::{Kind, money_about, price_about, price_round};
use crate::assess::words::{counted, listed};
use crate::figure::in_short::Bar;
use crate::report::drying::{running_costs, shares, target, to_buy};
use crate::report::sealing::in_currency;
use crate::report::{Align, Material, Reasons, Table, winter_short};
use crate::survey::{Item, Place, SetUp};

/// What to buy and what that costs, in a sentence; nothing where no gap is written down.
pub(super) fn headline(material: &Material<'_>) -> Option<Line> {
    let survey = material.survey;
    if survey.gaps.is_empty() {
        return None;
    }
    let comparison = match material.comparison {
        Ok(comparison) => comparison,
        Err(unknown) => {
            let words = format!("What keeps it dry is not known: {}.", unknown.reason);
            return Some(Line::new(words, Leads::to_lacking(survey)));
        }
    };
    let target = target(comparison);
    let words = match pick(comparison) {
        Pick::NothingNeeded => {
            format!("✔ Nothing has to be bought to keep it at {target} humidity.")
        }
        Pick::Take(at) => take(
            comparison.options.get(at)?,
            &survey.tariffs.currency,
            &target,
        ),
        Pick::NoneSuffices(longest) => {
            let longest = longest.and_then(|at| comparison.options.get(at));
            let longest = longest.map_or_else(String::new, |option| {
                format!(
                    " Longest does {}, {}.",
                    quoted(option),
                    for_how_long(option)
                )
            });
            format!(
                "▲ Nothing compared here keeps it at {target} humidity for most of the season.{longest}"
            )
        }
    };
    Some(Line::new(words, Leads::DryingHeat))
}

/// What to take, what it costs, and for how long it holds the target.
fn take(option: &OptionAnswer, currency: &str, target: &str) -> String {
    let name = quoted(option);
    let how = match &option.to_buy {
        ToBuy::Nothing => format!("✔ To keep it dry: {name}"),
        ToBuy::Owned => format!("✔ To keep it dry use what is there: {name}"),
        ToBuy::Costs(Ok(cost)) => {
            format!(
                "✔ To keep it dry buy {name} for {}",
                price_round(*cost, currency)
            )
        }
        ToBuy::Costs(Err(_)) => format!("✔ To keep it dry buy {name}, price not given"),
    };
    let month = option.costs.per_month.as_ref();
    let month = month.map_or_else(
        |_| "what it costs to run is not known".to_owned(),
        |cost| {
            format!(
                "running it costs about {} a month",
                price_about(*cost, currency)
            )
        },
    );
    format!(
        "{how}; {month}. It holds {target} {}.",
        for_how_long(option)
    )
}

fn quoted(option: &OptionAnswer) -> String {
    let star = if option.generic { "*" } else { "" };
    format!("“{}”{star}", option.name)
}

/// `for 94 % of the season`, `all season`.
fn for_how_long(option: &OptionAnswer) -> String {
    match option.verdict {
        Ok(Verdict::Partly(share)) => format!("for {} of the season", Kind::Share.text(share)),
        Ok(Verdict::Always) if option.cases.len() == 1 => "in the weather written down".to_owned(),
        Ok(Verdict::Always) => "all season".to_owned(),
        _ => option.verdict_words(),
    }
}

/// The options with their prices, which to take, and which not.
pub(super) fn part(material: &Material<'_>, first: &Answer<Option<First>>) -> Part {
    let comparison = match material.comparison {
        Ok(comparison) => comparison,
        Err(unknown) => {
            let mut part = Part::new("What to buy, and what not");
            part.line(
                format!("What keeps it dry is not known: {}.", unknown.reason),
                Leads::to_lacking(material.survey),
            );
            return part;
        }
    };
    let mut part = Part::new(title(comparison));
    part.picture = Some(Picture::Options);
    let currency = material.survey.tariffs.currency.trim();
    after_sealing(&mut part, comparison, first);
    not_worth(&mut part, comparison);
    let mut reasons = Reasons::default();
    let target = Kind::RelativeHumidity.text(comparison.target_rh);
    let mut table = Table::default()
        .wide(in_currency("What", currency), Align::Left, 1)
        .column(format!("at {target} or below"), Align::Left);
    for words in ["to\u{a0}buy", "a\u{a0}month", "a\u{a0}winter"] {
        table = table.column(words, Align::Decimal);
    }
    // What does not suffice or is not needed is named above; a picture has room for its bar.
    let named = |option: &&OptionAnswer| option.standing() == Standing::Not || not_needed(option);
    for option in shown(comparison).filter(|option| !named(option)) {
        table.row([
            format!("{} {}", option.standing().sign(), option.starred_name()),
            option.verdict_words(),
            to_buy(&option.to_buy, &mut reasons),
            reasons.or(&option.costs.per_month, |cost| money_about(*cost)),
            reasons.or(&option.costs.per_winter, |cost| money_about(*cost)),
        ]);
    }
    known(
        &mut part,
        table,
        &reasons,
        Leads::Place(Place::whole(Item::Tariffs)),
    );
    let generic = comparison.options.iter().any(|option| option.generic);
    let star = if generic {
        " * A usual size at a usual price, both assumed."
    } else {
        ""
    };
    part.notes
        .push(format!("{}{star}", season(material, comparison)));
    part
}

/// Which season it is, and what its costs hold.
fn season(material: &Material<'_>, comparison: &Comparison) -> String {
    let run = material.study.winter().and_then(|run| run.as_ref().ok());
    let shares = shares(comparison);
    match run.filter(|_| comparison.shares == Shares::Winter) {
        None => format!(
            "{shares} {}",
            running_costs(comparison, "Month and winter").replace(" [A]", "")
        ),
        Some(run) => format!(
            "{}: the {}. {}",
            shares.trim_end_matches('.'),
            winter_short::weather(run),
            running_costs(comparison, "Costs")
        ),
    }
}

fn title(comparison: &Comparison) -> String {
    let target = target(comparison);
    match comparison.set_up {
        SetUp::LaidUp => format!("What keeps it at {target} humidity while laid up"),
        SetUp::InUse => format!("What keeps it at {target} humidity in use"),
    }
}

/// The options that are shown, in their order.
fn shown(comparison: &Comparison) -> impl Iterator<Item = &OptionAnswer> {
    comparison.options.iter().filter(|option| {
        let idle = matches!(option.verdict, Ok(Verdict::NothingToOpen));
        option.kind != OptionKind::SameHeat && !idle
    })
}

/// The bars of the options, for a drawing.
pub(super) fn bars(comparison: &Comparison) -> Vec<Bar> {
    let mut reasons = Reasons::default();
    let bar = |option: &OptionAnswer| {
        let unknown = || "?".to_owned();
        let cost = |cost: &Answer<f64>| {
            cost.as_ref()
                .map_or_else(|_| unknown(), |cost| money_about(*cost))
        };
        let known = option.to_buy.money().is_ok();
        Bar {
            share: option.verdict.as_ref().ok().map(Verdict::share),
            standing: option.standing(),
            held: option.verdict_words(),
            to_buy: if known {
                to_buy(&option.to_buy, &mut reasons)
            } else {
                unknown()
            },
            a_month: cost(&option.costs.per_month),
            a_winter: cost(&option.costs.per_winter),
            name: option.starred_name(),
        }
    };
    shown(comparison).map(bar).collect()
}

/// What suffices once the first gaps are sealed, where nothing does before.
fn after_sealing(part: &mut Part, comparison: &Comparison, first: &Answer<Option<First>>) {
    let Ok(Some(first)) = first else { return };
    let Ok(then) = &first.comparison else { return };
    let (Pick::NoneSuffices(_), Pick::Take(at)) = (pick(comparison), pick(then)) else {
        return;
    };
    let Some(option) = then.options.get(at) else {
        return;
    };
    part.line(
        format!(
            "✔ With {} sealed first, {} holds {} {}.",
            counted(first.gaps.len(), "gap", "gaps"),
            quoted(option),
            target(comparison),
            for_how_long(option)
        ),
        Leads::SealingPlan,
    );
}

fn not_needed(option: &OptionAnswer) -> bool {
    option.provisos.contains(&Proviso::NotNeeded) && option.standing() == Standing::NotKnown
}

/// What is no help, and what must not be left to itself.
fn not_worth(part: &mut Part, comparison: &Comparison) {
    let named = |wanted: &dyn Fn(&OptionAnswer) -> bool| {
        let options = comparison.options.iter();
        let real = options.filter(|option| {
            !matches!(
                option.kind,
                OptionKind::Nothing | OptionKind::LockersOpen | OptionKind::SameHeat
            )
        });
        let names = real.filter(|option| wanted(option)).map(quoted);
        listed(names.collect::<Vec<String>>())
    };
    let never = named(&|option| option.standing() == Standing::Not);
    if !never.is_empty() {
        let mut options = comparison.options.iter();
        let some = options.any(|option| {
            let hardly = option.standing() == Standing::Not;
            hardly && option.verdict != Ok(Verdict::Never)
        });
        let when = if some {
            "Not enough, or for less than a tenth of the season"
        } else if comparison.cases.len() == 1 {
            "Not enough"
        } else {
            "Not enough at any time of the season"
        };
        part.line(format!("✖ {when}: {never}."), Leads::DryingHeat);
    }
    let needless = named(&not_needed);
    if !needless.is_empty() {
        part.line(format!("ℹ Not needed: {needless}."), Leads::DryingHeat);
    }
    let flame = named(&|option| option.provisos.contains(&Proviso::Unattended));
    if !flame.is_empty() {
        part.line(
            format!(
                "▲ A flame is never left burning where nobody is: {flame} is no way to keep it dry."
            ),
            Leads::DryingHeat,
        );
    }
}
