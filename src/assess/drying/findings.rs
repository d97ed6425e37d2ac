//! What was noticed about targets, options and supply.

use super::answer::{OptionAnswer, OptionKind};
use super::ground::Ground;
use super::library;
use super::situation::Situation;
use crate::assess::answer::Answer;
use crate::assess::quantity::Kind;
use crate::assess::words::figure;
use crate::physics::MoistAir;
use crate::physics::air::saturation_pressure;
use crate::physics::machine::salt::tub_times;
use crate::physics::moisture::warmth_alone_c;
use crate::physics::units::{LITRES_PER_M3, SECONDS_PER_DAY};
use crate::survey::{Field, Finding, HeaterFuel, Item, MachineKind, Place, Severity, WeatherCase};

fn finding(
    severity: Severity,
    item: Item,
    field: Field,
    sentence: String,
    advice: &str,
) -> Finding {
    Finding {
        severity,
        place: Place::at(item, field),
        sentence,
        advice: advice.to_owned(),
    }
}

/// All findings of the comparison.
pub(crate) fn find(
    ground: &Ground<'_>,
    situations: &[Answer<Situation<'_>>],
    options: &[OptionAnswer],
) -> Vec<Finding> {
    let mut all = Vec::new();
    let mut told: Vec<&MoistAir> = Vec::new();
    for (case, situation) in ground.survey.weather.iter().zip(situations) {
        if let Ok(situation) = situation {
            // Cases that differ only in the wind would say the same again.
            if told.contains(&&situation.outside) {
                continue;
            }
            told.push(&situation.outside);
            warmer_outside(ground, case, &mut all);
            out_of_reach(ground, case, situation, &mut all);
        }
    }
    for option in options {
        supply(ground, option, &mut all);
        salt(ground, option, &mut all);
    }
    all.sort_by_key(|finding| finding.severity);
    all
}

fn warmer_outside(ground: &Ground<'_>, case: &WeatherCase, all: &mut Vec<Finding>) {
    let kept_c = ground.inside_c();
    if case.outside_c > kept_c {
        all.push(finding(
            Severity::Note,
            Item::Weather(case.id),
            Field::Outside,
            format!(
                "weather case \u{201c}{}\u{201d}: at {} it is warmer outside than the {} to be held inside, so no heat is needed",
                case.name,
                Kind::Celsius.typed(case.outside_c),
                Kind::Celsius.typed(kept_c)
            ),
            "raise the temperature to be held if warmth is to dry in this weather too",
        ));
    }
}

/// A target below what outside air comes to at the set temperature.
fn out_of_reach(
    ground: &Ground<'_>,
    case: &WeatherCase,
    situation: &Situation<'_>,
    all: &mut Vec<Finding>,
) {
    let set = ground.inside_c().max(situation.outside.t_c);
    let outside = &situation.outside;
    let reached = outside.vapour_pressure() / saturation_pressure(set);
    if reached <= ground.target_rh {
        return;
    }
    let warmth = warmth_alone_c(
        outside.t_c,
        outside.relative_humidity().min(1.0),
        ground.target_rh,
    );
    let way = warmth.map_or_else(
        |_| "only a machine reaches it".to_owned(),
        |warm| {
            format!(
                "only a machine, or {} inside, reaches it",
                Kind::Celsius.text(warm)
            )
        },
    );
    all.push(finding(
        Severity::Note,
        Item::Targets,
        Field::TargetRh,
        format!(
            "weather case \u{201c}{}\u{201d}: outside air comes to {} at {}; the target of {} is below that, and {way}",
            case.name,
            Kind::RelativeHumidity.with_unit(&figure(reached * 100.0, 2)),
            Kind::Celsius.typed(set),
            Kind::RelativeHumidity.typed(ground.survey.targets.rh_percent)
        ),
        "compare the options; more air alone does not dry in this weather",
    ));
}

fn item(option: &OptionAnswer) -> Item {
    match (option.machine, option.heater) {
        (Some(machine), _) => Item::Machine(machine),
        (None, Some(heater)) => Item::Heater(heater),
        (None, None) => Item::Drying,
    }
}

/// Hook-up and batteries.
fn supply(ground: &Ground<'_>, option: &OptionAnswer, all: &mut Vec<Finding>) {
    // The heat of a machine without the machine is only there to compare with, and what nothing but
    // heat draws in use its heater draws.
    let silent = matches!(
        option.kind,
        OptionKind::SameHeat | OptionKind::Nothing | OptionKind::LockersOpen
    );
    let (Some(Ok(supply)), false) = (&option.supply, silent) else {
        return;
    };
    let machine = matches!(option.kind, OptionKind::Machine(_));
    let heat = ground.comfort_heater().filter(|heater| {
        machine && heater.fuel == HeaterFuel::Electricity && heater.rating_w.is_some()
    });
    let beside = heat.map_or_else(String::new, |heater| match heater.name.trim() {
        "" => " with the heater".to_owned(),
        name => format!(" with \u{201c}{name}\u{201d} for heat"),
    });
    let draws = format!(
        "\u{201c}{}\u{201d}{beside} draws {}, {} at 230\u{a0}V",
        option.name,
        Kind::Watts.with_unit(&figure(supply.peak_w, 3)),
        Kind::Amperes.text(supply.current_a)
    );
    let own = ground.survey.drying.hookup_a;
    let too_much = match (supply.within_own, supply.within_10_a, supply.within_16_a) {
        (Some(true), ..) | (None, true, _) => None,
        (Some(false), ..) => {
            let most = own.map_or_else(String::new, |most| Kind::Amperes.typed(most));
            Some(format!("{draws}: more than the {most} of the supply"))
        }
        (None, false, true) => Some(format!(
            "{draws}: more than a 10\u{a0}A supply gives; 16\u{a0}A suffice"
        )),
        (None, false, false) => Some(format!("{draws}: more than a 16\u{a0}A supply gives")),
    };
    if let Some(sentence) = too_much {
        all.push(finding(
            Severity::Warning,
            item(option),
            Field::HookUp,
            sentence,
            "choose a smaller one or one after the other; work on 230 V belongs to a licensed fitter",
        ));
    }
    if let Some(days) = supply.battery_days
        && days < 1.0
    {
        all.push(finding(
            Severity::Warning,
            item(option),
            Field::Battery,
            format!(
                "\u{201c}{}\u{201d} empties the batteries in {} hours",
                option.name,
                figure(days * 24.0, 2)
            ),
            "run it on the 230 V supply",
        ));
    }
}

/// How long the salt lasts and when the tub is full, in the weather in which it gathers most; and
/// that the trade sees it go faster.
fn salt(ground: &Ground<'_>, option: &OptionAnswer, all: &mut Vec<Finding>) {
    let (OptionKind::Machine(kind @ MachineKind::SaltTub), Some(salt)) =
        (option.kind, ground.survey.drying.salt_kg)
    else {
        return;
    };
    let cases = option.cases.iter().zip(&ground.survey.weather);
    let most = cases
        .filter_map(|(case, weather)| Some((case.as_ref().ok()?, weather)))
        .max_by(|(one, _), (other, _)| one.removal_kg_s.total_cmp(&other.removal_kg_s));
    let Some((case, weather)) = most else {
        return;
    };
    let own = ground
        .survey
        .machines
        .iter()
        .find(|machine| Some(machine.id) == option.machine);
    let holds_l = own.map_or_else(|| library::machine(kind).tub_l, |own| own.tub_l);
    let times = tub_times(
        salt,
        holds_l.map_or(f64::INFINITY, |litres| litres / LITRES_PER_M3),
        case.inside.t_c,
        case.rh,
        case.removal_kg_s,
    );
    let Some(dissolved) = times.dissolved else {
        return;
    };
    let days = |seconds: f64| Kind::Days.text(seconds / SECONDS_PER_DAY);
    let full = match (holds_l, times.full) {
        (None, _) => {
            "when the tub is full is not known, because what it holds is not given".to_owned()
        }
        (Some(litres), Some(full)) => {
            let tub = Kind::Litres.typed(litres);
            format!("the tub of {tub} is full after some {}", days(full))
        }
        (Some(litres), None) => {
            let tub = Kind::Litres.typed(litres);
            format!(
                "the tub of {tub} never fills, because the brine comes into balance with the air first"
            )
        }
    };
    all.push(finding(
        Severity::Note,
        item(option),
        Field::Salt,
        format!(
            "\u{201c}{}\u{201d}: {}\u{a0}kg of salt have dissolved after some {} in \u{201c}{}\u{201d}, where it gathers most, and gather ever less from then on; {full}; the trade sees it go two to three times faster [C]",
            option.name,
            figure(salt, 2),
            days(dissolved),
            weather.name.trim(),
        ),
        "empty the tub before it runs over, and keep brine off metal",
    ));
}
