//! What to buy and what not: the options over the season, with their prices.

use super::page::{Leads, Line, Part, Picture, Room, known};
use super::season::{self, for_how_long};
use super::tried;
use crate::assess::drying::{
    Comparison, OptionAnswer, OptionKind, Proviso, Standing, ToBuy, Verdict,
};
use crate::assess::in_short::{
    ComfortHeat, First, Pick, cheaper_in_time, comfort_heat, no_reserve, pick,
};
use crate::assess::quantity::{Kind, money_about, price_about, price_round};
use crate::assess::words::{counted, listed};
use crate::assess::{Answer, NotKnown};
use crate::figure::in_short::Bar;
use crate::report::drying::{by_no_flame, not_quite, target, to_buy};
use crate::report::sealing::in_currency;
use crate::report::{Align, Material, Reasons, Table};
use crate::survey::{Item, MachineKind, Place, SetUp};

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
        Pick::NothingNeeded => nothing(comparison, &survey.tariffs.currency)?,
        Pick::Take(at) => take(
            comparison,
            comparison.options.get(at)?,
            &survey.tariffs.currency,
        ),
        Pick::NoneSuffices(longest) => {
            let longest = longest.and_then(|at| comparison.options.get(at));
            let longest = longest.map_or_else(String::new, |option| {
                format!(
                    " Longest does {}, {}.",
                    quoted(option),
                    for_how_long(comparison, option)
                )
            });
            format!(
                "▲ Nothing compared here keeps it at {target} humidity for three quarters of the season{}.{longest}",
                only_by(comparison)
            )
        }
    };
    Some(Line::new(words, Leads::DryingHeat))
}

/// That nothing has to be bought, for how long it is dry so, and what the heat for it costs.
fn nothing(comparison: &Comparison, currency: &str) -> Option<String> {
    let mut options = comparison.options.iter();
    let idle = options.find(|option| option.kind == OptionKind::Nothing)?;
    let (target, long) = (target(comparison), for_how_long(comparison, idle));
    if comparison.set_up == SetUp::LaidUp {
        return Some(format!(
            "✔ Nothing has to be bought: with nothing done it is at {target} humidity or below {long}."
        ));
    }
    let month = idle.costs.per_month.as_ref().map_or_else(
        |_| "what the heat costs is not known".to_owned(),
        |cost| {
            format!(
                "the heat costs about {} a month",
                price_about(*cost, currency)
            )
        },
    );
    let bought = match comfort_heat(comparison) {
        None | Some(ComfortHeat::There) => "✔ Nothing has to be bought".to_owned(),
        Some(ComfortHeat::NotKnown) => {
            "✔ No machine has to be bought, if the heater there is strong enough".to_owned()
        }
        Some(lacking) => format!("▲ No machine has to be bought, only {}", heater(lacking)),
    };
    Some(format!(
        "{bought}: heated to {} it is at {target} humidity or below {long}; {month}.",
        Kind::Celsius.typed(comparison.inside_c)
    ))
}

/// The heater that comfort takes and that is not there.
fn heater(lacking: ComfortHeat) -> String {
    match lacking {
        ComfortHeat::Lacking { too_weak: true, .. } => "a stronger heater".to_owned(),
        ComfortHeat::Lacking {
            look_for_w: Some(watts),
            ..
        } => format!("a heater of {}", Kind::Watts.text(watts)),
        _ => "a heater".to_owned(),
    }
}

/// What an option without a heater counts on in use, where it is not there.
fn counts_on(comparison: &Comparison, option: &OptionAnswer) -> String {
    let heated = matches!(
        option.kind,
        OptionKind::Machine(_) | OptionKind::LockersOpen
    );
    match comfort_heat(comparison) {
        Some(lacking @ ComfortHeat::Lacking { .. }) if heated => format!(
            " It counts on heat to {}: {} has to be there too.",
            Kind::Celsius.typed(comparison.inside_c),
            heater(lacking)
        ),
        _ => String::new(),
    }
}

/// By what alone it would be held for long enough, where something stands against each such option.
fn only_by(comparison: &Comparison) -> String {
    let words = |proviso: &Proviso| match proviso {
        Proviso::Unattended => Some("by a flame that somebody watches"),
        Proviso::Unflued => Some("by a flame without a flue"),
        Proviso::ShortOfHeat => Some("with less heat than is set"),
        Proviso::OverSupply => Some("with more current than the supply gives"),
        Proviso::WetSurfaces => Some("by water on cold surfaces"),
        Proviso::NotNeeded => None,
    };
    let long = comparison
        .options
        .iter()
        .filter(|option| option.kind != OptionKind::SameHeat && option.is_for_most_of_it());
    let mut ways: Vec<&str> = Vec::new();
    for way in long.filter_map(|option| option.provisos.iter().find_map(words)) {
        if !ways.contains(&way) {
            ways.push(way);
        }
    }
    if ways.is_empty() {
        return String::new();
    }
    format!(" other than {}", ways.join(" or "))
}

/// What to take, what it costs, and for how long it holds the target.
fn take(comparison: &Comparison, option: &OptionAnswer, currency: &str) -> String {
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
        "{how}; {month}. It holds {} {}.{}",
        target(comparison),
        for_how_long(comparison, option),
        counts_on(comparison, option)
    )
}

fn quoted(option: &OptionAnswer) -> String {
    let star = if option.generic { "*" } else { "" };
    format!("“{}”{star}", option.name)
}

/// The options with their prices, which to take, and which not.
pub(super) fn part(material: &Material<'_>, first: &Answer<Option<First>>, room: Room) -> Part {
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
    tried::lines(&mut part, material, comparison);
    after_sealing(&mut part, comparison, first);
    beside(&mut part, material, comparison);
    not_worth(&mut part, comparison);
    let mut reasons = Reasons::default();
    let target = Kind::RelativeHumidity.text(comparison.target_rh);
    let mut table = Table::default()
        .wide(in_currency("What", currency), Align::Left, 1)
        .column(format!("at {target} or below"), Align::Left);
    let all_of_it = season::name(material, comparison);
    for words in ["to buy", "a month", all_of_it.as_str()] {
        table = table.column(words.replace(' ', "\u{a0}"), Align::Decimal);
    }
    let mut rows: Vec<&OptionAnswer> = in_table(comparison).collect();
    let left_out = rows.len().saturating_sub(room.rows);
    leave_out(comparison, &mut rows, left_out);
    for option in rows {
        let [price, a_month, a_winter] = amounts(option, &mut reasons);
        table.row([
            format!("{} {}", option.standing().sign(), option.starred_name()),
            option.verdict_words(comparison),
            price,
            a_month,
            a_winter,
        ]);
    }
    if !table.rows.is_empty() {
        let leads_to = Leads::Place(Place::whole(Item::Tariffs));
        known(&mut part, table, &reasons, (left_out, leads_to));
    }
    part.notes.push(notes(material, comparison));
    part
}

/// Leaves out so many of the options, the least needed first: what is taken and what comes of doing nothing
/// stay longest, then what suffices, what is there already, and what holds the target longer.
fn leave_out(comparison: &Comparison, rows: &mut Vec<&OptionAnswer>, count: usize) {
    let taken = match pick(comparison) {
        Pick::Take(at) | Pick::NoneSuffices(Some(at)) => comparison.options.get(at),
        _ => None,
    };
    let needed = |option: &OptionAnswer| {
        let is_taken = taken.is_some_and(|taken| std::ptr::eq(taken, option));
        let well = option.standing() == Standing::Well;
        let owned = matches!(option.to_buy, ToBuy::Owned);
        let share = option.verdict.as_ref().map_or(0.0, Verdict::share);
        (
            (is_taken || option.kind == OptionKind::Nothing, well, owned),
            share,
        )
    };
    for _ in 0..count {
        let least = rows.iter().enumerate().min_by(|(_, one), (_, other)| {
            let (one, other) = (needed(one), needed(other));
            one.0.cmp(&other.0).then(one.1.total_cmp(&other.1))
        });
        if let Some(at) = least.map(|(at, _)| at) {
            rows.remove(at);
        }
    }
}

/// The season, and the words that not everybody knows.
fn notes(material: &Material<'_>, comparison: &Comparison) -> String {
    let mut notes = vec![season::note(material, comparison)];
    let taken = match pick(comparison) {
        Pick::Take(at) => comparison.options.get(at),
        _ => None,
    };
    let rotor = OptionKind::Machine(MachineKind::DesiccantRotor);
    if taken.is_some_and(|option| option.kind == rotor) {
        notes.push("A desiccant rotor dries with a wheel.".to_owned());
    }
    if comparison.options.iter().any(|option| option.generic) {
        notes.push("* Usual size and price, assumed.".to_owned());
    }
    notes.join(" ")
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

/// Those that stand in the table: what does not suffice or is not needed is named above it, while a
/// picture has room for its bar.
fn in_table(comparison: &Comparison) -> impl Iterator<Item = &OptionAnswer> {
    shown(comparison).filter(|option| option.standing() != Standing::Not && !not_needed(option))
}

/// What an option costs to buy, in a month and in a winter, as the table says it.
fn amounts(option: &OptionAnswer, reasons: &mut Reasons) -> [String; 3] {
    [
        to_buy(&option.to_buy, reasons),
        reasons.or(&option.costs.per_month, |cost| money_about(*cost)),
        reasons.or(&option.costs.per_winter, |cost| money_about(*cost)),
    ]
}

/// The bars of the options, for a drawing. What is not known has the sign of the note below.
pub(super) fn bars(comparison: &Comparison) -> Vec<Bar> {
    let mut noted = Reasons::default();
    for option in in_table(comparison) {
        amounts(option, &mut noted);
    }
    let unknown = |why: &NotKnown| match noted.sign(why) {
        Some(sign) => format!("? {sign}"),
        None => "?".to_owned(),
    };
    let bar = |option: &OptionAnswer| {
        let cost = |cost: &Answer<f64>| {
            cost.as_ref()
                .map_or_else(unknown, |cost| money_about(*cost))
        };
        Bar {
            share: option.verdict.as_ref().ok().map(Verdict::share),
            standing: option.standing(),
            held: option.verdict_words(comparison),
            to_buy: match option.to_buy.money() {
                Ok(_) => to_buy(&option.to_buy, &mut Reasons::default()),
                Err(why) => unknown(&why),
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
            for_how_long(then, option)
        ),
        Leads::SealingPlan,
    );
}

fn not_needed(option: &OptionAnswer) -> bool {
    option.provisos.contains(&Proviso::NotNeeded) && option.standing() == Standing::NotKnown
}

/// What has to be known beside the advice: a machine without a reserve, and what is cheaper in time.
fn beside(part: &mut Part, material: &Material<'_>, comparison: &Comparison) {
    let Pick::Take(at) = pick(comparison) else {
        return;
    };
    let Some(option) = comparison.options.get(at) else {
        return;
    };
    if let Some((case, duty)) = no_reserve(comparison, option) {
        let leak = match material.assessment.leakage.not_sized.is_empty() {
            true => "",
            false => ", and what is not sized leaks besides",
        };
        part.line(
            format!(
                "▲ {} has hardly anything to spare: in “{}” it runs {} of the time{leak}.",
                quoted(option),
                comparison.case_name(case),
                Kind::WholePercent.text(duty)
            ),
            Leads::DryingHeat,
        );
    }
    let later = cheaper_in_time(comparison, at);
    let later = later.and_then(|(at, months)| Some((comparison.options.get(at)?, months)));
    if let Some((other, months)) = later
        && let (Ok(price), Ok(month)) = (other.to_buy.money(), &other.costs.per_month)
    {
        let currency = &material.survey.tariffs.currency;
        part.line(
            format!(
                "Cheaper after {:.0} months of running: {}, {} to buy and {} a month.",
                months.ceil(),
                quoted(other),
                price_round(price, currency),
                price_about(*month, currency)
            ),
            Leads::DryingHeat,
        );
    }
}

/// How much longer than it holds the target an option comes near it at least, to be told of, share
/// **\[A\]**.
const MUCH_LONGER: f64 = 0.25;

/// Whether an option that does not suffice comes near the target for much longer than it holds it.
fn is_near(option: &OptionAnswer) -> bool {
    let held = option.verdict.as_ref().map_or(1.0, Verdict::share);
    // Those that suffice for a part of the season stand among the options.
    let short = option.standing() == Standing::Not;
    let real = !matches!(option.kind, OptionKind::Nothing | OptionKind::SameHeat);
    real && short && option.provisos.is_empty() && option.nearly_held >= held + MUCH_LONGER
}

/// What is no help, and what must not be left to itself.
fn not_worth(part: &mut Part, comparison: &Comparison) {
    let those = |wanted: &dyn Fn(&OptionAnswer) -> bool| -> Vec<String> {
        let options = comparison.options.iter();
        let real = options.filter(|option| {
            !matches!(
                option.kind,
                OptionKind::Nothing | OptionKind::LockersOpen | OptionKind::SameHeat
            )
        });
        real.filter(|option| wanted(option)).map(quoted).collect()
    };
    let named = |wanted: &dyn Fn(&OptionAnswer) -> bool| listed(those(wanted));
    let near = || comparison.options.iter().filter(|option| is_near(option));
    if let Some(words) = not_quite(near()) {
        part.line(words, Leads::DryingHeat);
    }
    let is_flame = |option: &OptionAnswer| {
        let flames = [Proviso::Unattended, Proviso::Unflued];
        option
            .provisos
            .iter()
            .any(|proviso| flames.contains(proviso))
    };
    // A flame is told of below, whatever it would come to.
    let never = named(&|option| {
        option.standing() == Standing::Not && !is_near(option) && !is_flame(option)
    });
    if !never.is_empty() {
        let line = Line::new(format!("✖ Not enough: {never}."), Leads::DryingHeat);
        part.pictured.push(line);
    }
    let needless = named(&not_needed);
    if !needless.is_empty() {
        part.line(format!("ℹ Not needed: {needless}."), Leads::DryingHeat);
    }
    let flames = |proviso| those(&|option| option.provisos.contains(&proviso));
    for words in by_no_flame(flames, "keep it dry") {
        part.line(words, Leads::DryingHeat);
    }
}
