//! The options, each in every weather case.

use super::against::{Asks, most_power_w};
use super::answer::{NEAR, OptionAnswer, OptionCase, OptionKind, Proviso, ToBuy, Verdict};
use super::ground::Ground;
use super::money::Bought;
use super::situation::{Fitted, Situation};
use super::state::Judge;
use super::{equipment, library, money, verdict};
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::envelope::Envelope;
use crate::assess::possible::possible;
use crate::assess::quantity::Kind;
use crate::physics::coupled::{self, Running};
use crate::physics::machine::Machine as PhysicalMachine;
use crate::survey::{Field, Heater, HeaterFuel, HeaterId, Item, Machine, MachineId, MachineKind};

/// A machine or heater with its words.
#[derive(Clone)]
struct Appliances {
    kind: OptionKind,
    name: String,
    machine: Option<Machine>,
    heater: Option<Heater>,
    /// Whose findings they have, where they are the survey's.
    own_machine: Option<MachineId>,
    own_heater: Option<HeaterId>,
}

impl Appliances {
    /// Neither machine nor heater.
    fn none(kind: OptionKind, name: impl Into<String>) -> Self {
        Self {
            kind,
            name: name.into(),
            machine: None,
            heater: None,
            own_machine: None,
            own_heater: None,
        }
    }

    /// What has to be there for it.
    fn bought(&self) -> Vec<Bought<'_>> {
        let machine = self.machine.iter().map(Bought::from);
        machine
            .chain(self.heater.iter().map(Bought::from))
            .collect()
    }

    /// Machine or heater come from the generic library.
    fn generic(&self) -> bool {
        self.machine.is_some() && self.own_machine.is_none()
            || self.heater.is_some() && self.own_heater.is_none()
    }
}

/// Every option, in the order shown.
pub(crate) fn all(ground: &Ground<'_>, situations: &[Answer<Situation<'_>>]) -> Vec<OptionAnswer> {
    let mut options = each(ground, situations);
    let held = |option: &OptionAnswer| option.verdict == Ok(Verdict::Always);
    if options.first().is_some_and(held) {
        for option in &mut options {
            if matches!(option.kind, OptionKind::Machine(_)) && held(option) {
                option.provisos.push(Proviso::NotNeeded);
            }
        }
    }
    options
}

fn each(ground: &Ground<'_>, situations: &[Answer<Situation<'_>>]) -> Vec<OptionAnswer> {
    let nothing = match ground.comfort_c() {
        None => "nothing".to_owned(),
        Some(comfort_c) => format!("nothing but heat to {}", Kind::Celsius.typed(comfort_c)),
    };
    let nothing = Appliances::none(OptionKind::Nothing, nothing);
    let idle = solve(ground, situations, Beside::default(), &nothing);
    let before = idle.clone();
    let beside = Beside {
        before: Some(&before),
        without: Some(&before),
    };
    let mut options = vec![finish(ground, &nothing, idle)];
    options.push(lockers_open(ground, &before));
    let machines = machines(ground);
    for appliances in &machines {
        let cases = solve(ground, situations, beside, appliances);
        options.push(finish(ground, appliances, cases));
    }
    let heaters = heaters(ground);
    let first_heater = options.len();
    for appliances in &heaters {
        let cases = solve(ground, situations, beside, appliances);
        options.push(finish(ground, appliances, cases));
    }
    let Some(large) = large_machine(&machines) else {
        return options;
    };
    // In use the vehicle is at comfort whatever heats it.
    if ground.comfort_c().is_none() {
        options.push(same_heat(ground, situations, &before, &large, &options));
    }
    if let Some(heat) = heaters.first() {
        let both = Appliances {
            name: format!("{} + {}", heat.name, large.name),
            heater: heat.heater.clone(),
            own_heater: heat.own_heater,
            kind: OptionKind::HeatAndMachine,
            ..large
        };
        let heated = options.get(first_heater).map(|heat| heat.cases.clone());
        let beside = Beside {
            without: heated.as_deref(),
            ..beside
        };
        let cases = solve(ground, situations, beside, &both);
        options.push(finish(ground, &both, cases));
    }
    options
}

/// The states that an option is held against, in every weather case.
#[derive(Clone, Copy, Default)]
struct Beside<'a> {
    /// With nothing done.
    before: Option<&'a [Answer<OptionCase>]>,
    /// Without its machine.
    without: Option<&'a [Answer<OptionCase>]>,
}

/// Machines of every kind: the survey's own, or else the generic one.
fn machines(ground: &Ground<'_>) -> Vec<Appliances> {
    const ORDER: [MachineKind; 4] = [
        MachineKind::SaltTub,
        MachineKind::Thermoelectric,
        MachineKind::DesiccantRotor,
        MachineKind::Compressor,
    ];
    ORDER
        .into_iter()
        .flat_map(|kind| {
            let own: Vec<Machine> = ground
                .survey
                .machines
                .iter()
                .filter(|machine| machine.kind == kind)
                .cloned()
                .collect();
            let generic = own.is_empty();
            let list = if generic {
                vec![library::machine(kind)]
            } else {
                own
            };
            list.into_iter().map(move |machine| Appliances {
                own_machine: (!generic).then_some(machine.id),
                machine: Some(machine.clone()),
                ..Appliances::none(OptionKind::Machine(kind), machine.name)
            })
        })
        .collect()
}

/// The large machine: the survey's compressor with the most power, or else the generic one. One
/// whose power is not given is taken only where there is no other, and its heat is then not known.
fn large_machine(machines: &[Appliances]) -> Option<Appliances> {
    let power = |option: &Appliances| option.machine.as_ref().and_then(most_power_w);
    let mut large: Option<&Appliances> = None;
    for option in machines {
        if option.kind != OptionKind::Machine(MachineKind::Compressor) {
            continue;
        }
        large = match (large, large.and_then(power), power(option)) {
            (Some(found), Some(most), Some(here)) if here <= most => Some(found),
            (Some(found), _, None) => Some(found),
            _ => Some(option),
        };
    }
    large.cloned()
}

/// The survey's heaters, or else the generic one.
fn heaters(ground: &Ground<'_>) -> Vec<Appliances> {
    let own = &ground.survey.heaters;
    let generic = own.is_empty();
    let list = if generic {
        vec![library::heater(ground.survey.targets.set_temperature_c)]
    } else {
        own.clone()
    };
    list.into_iter()
        .map(|heater| Appliances {
            own_heater: (!generic).then_some(heater.id),
            heater: Some(heater.clone()),
            ..Appliances::none(OptionKind::BackgroundHeat, heater.name)
        })
        .collect()
}

/// The appliances as the balance knows them.
fn physical(
    ground: &Ground<'_>,
    appliances: &Appliances,
) -> Answer<(Option<PhysicalMachine>, Option<coupled::Heater>)> {
    let machine = match &appliances.machine {
        Some(machine) => {
            if let Some(id) = appliances.own_machine {
                equipment::first_error(ground.findings, Item::Machine(id))?;
            }
            Some(equipment::machine(machine)?)
        }
        None => None,
    };
    let heater = match &appliances.heater {
        Some(heater) => {
            if let Some(id) = appliances.own_heater {
                equipment::first_error(ground.findings, Item::Heater(id))?;
            }
            let heater = equipment::heater(heater)?;
            Some(coupled::Heater {
                // In use it is turned to comfort.
                set_point_c: ground.comfort_c().or(heater.set_point_c),
                ..heater
            })
        }
        None => None,
    };
    Ok((machine, heater))
}

/// One option in every weather case.
fn solve(
    ground: &Ground<'_>,
    situations: &[Answer<Situation<'_>>],
    beside: Beside<'_>,
    appliances: &Appliances,
) -> Vec<Answer<OptionCase>> {
    let physical = physical(ground, appliances);
    let hygrostat = appliances
        .machine
        .as_ref()
        .is_some_and(|machine| machine.hygrostat);
    let one = |at: usize, situation: &Answer<Situation<'_>>| {
        let (machine, heater) = physical.as_ref().map_err(Clone::clone)?;
        let situation = situation.as_ref().map_err(Clone::clone)?;
        let fitted = Fitted {
            machine: machine.as_ref(),
            hygrostat: hygrostat.then_some(ground.target_rh),
            heater: heater.or_else(|| ground.comfort_heat()),
        };
        let fuel = appliances.heater.as_ref().map(|heater| heater.fuel);
        Judge {
            ground,
            situation,
            fuel: fuel.or_else(|| ground.comfort_fuel()),
            before: beside.before.and_then(|cases| cases.get(at)),
            without: beside.without.and_then(|cases| cases.get(at)),
            with_dry_out: at == ground.calmest || at == ground.windiest,
        }
        .case(&fitted)
    };
    situations
        .iter()
        .enumerate()
        .map(|(at, situation)| one(at, situation))
        .collect()
}

/// Everything open that can be opened: the same vehicle with another envelope.
fn lockers_open(ground: &Ground<'_>, before: &[Answer<OptionCase>]) -> OptionAnswer {
    let appliances = Appliances::none(OptionKind::LockersOpen, "ventilators and lockers open");
    let Some(laws) = ground.opened_laws() else {
        let sentence =
            "nothing to open: no ventilator or locker opening that can be opened stands closed";
        return OptionAnswer {
            verdict: Ok(Verdict::NothingToOpen),
            sentence: sentence.to_owned(),
            ..finish(ground, &appliances, before.to_vec())
        };
    };
    let cases = match &Envelope::new(ground.survey, ground.findings, &laws) {
        Ok(envelope) => {
            let situations = ground.situations(envelope);
            let beside = Beside {
                before: Some(before),
                ..Beside::default()
            };
            solve(ground, &situations, beside, &appliances)
        }
        Err(unknown) => vec![Err(unknown.clone()); before.len()],
    };
    finish(ground, &appliances, cases)
}

/// As much heat, all the time, as the large machine draws on average in the same weather; where
/// it is too cold for the machine to start, what it would draw.
fn same_heat(
    ground: &Ground<'_>,
    situations: &[Answer<Situation<'_>>],
    before: &[Answer<OptionCase>],
    large: &Appliances,
    options: &[OptionAnswer],
) -> OptionAnswer {
    let machine = options.iter().find(|option| {
        option.kind == large.kind
            && option.name == large.name
            && option.machine == large.own_machine
    });
    let cases = situations
        .iter()
        .enumerate()
        .map(|(at, situation)| {
            let situation = situation.as_ref().map_err(Clone::clone)?;
            let case = machine
                .and_then(|option| option.cases.get(at))
                .ok_or_else(|| NotKnown::because("there is no large machine"))?
                .as_ref()
                .map_err(Clone::clone)?;
            let drawn = match (case.running, large.machine.as_ref().and_then(most_power_w)) {
                (Running::TooCold, Some(most)) => most,
                _ => case.machine_w,
            };
            let fitted = Fitted {
                heater: Some(coupled::Heater {
                    rating: drawn,
                    set_point_c: None,
                    water_per_joule: 0.0,
                }),
                ..Fitted::default()
            };
            Judge {
                ground,
                situation,
                fuel: Some(HeaterFuel::Electricity),
                before: before.get(at),
                without: None,
                with_dry_out: at == ground.calmest || at == ground.windiest,
            }
            .case(&fitted)
        })
        .collect();
    let name = format!("only the heat of the {}", large.name);
    let appliances = Appliances::none(OptionKind::SameHeat, name);
    finish(ground, &appliances, cases)
}

/// Verdict, supply and money of an option whose states are known.
fn finish(
    ground: &Ground<'_>,
    appliances: &Appliances,
    cases: Vec<Answer<OptionCase>>,
) -> OptionAnswer {
    let lowest_room_c = physical(ground, appliances)
        .ok()
        .and_then(|(machine, _)| machine)
        .map(|machine| machine.lowest_room_c())
        .filter(|lowest| lowest.is_finite());
    let machine = (appliances.kind, lowest_room_c);
    let heater = appliances.own_heater;
    let (verdict, sentence) = verdict::verdict(ground, machine, heater, &cases);
    let each = |of: fn(&OptionCase) -> Answer<f64>| {
        ground.season(|at| match cases.get(at) {
            Some(case) => of(case.as_ref().map_err(Clone::clone)?),
            None => Err(NotKnown::because("there is no such weather case")),
        })
    };
    let days = money::DAYS_PER_MONTH;
    let bought = appliances.bought();
    let asks = Asks {
        kind: appliances.kind,
        name: &appliances.name,
        machine: appliances.machine.as_ref(),
        heater: appliances.heater.as_ref(),
    };
    let supply = asks.of_supply(ground, &cases);
    OptionAnswer {
        kind: appliances.kind,
        machine: appliances.own_machine,
        heater: appliances.own_heater,
        name: appliances.name.clone(),
        generic: appliances.generic(),
        lowest_room_c,
        verdict,
        nearly_held: nearly_held(ground, &cases),
        mean_rh: each(|case| Ok(case.rh)),
        provisos: asks.provisos(ground, &cases, supply.as_ref()),
        sentence,
        room_volumes_per_h: room_volumes(ground, appliances),
        supply,
        kwh_per_month: each(|case| Ok(case.energy.kwh_per_day)).map(|kwh| kwh * days),
        costs: money::running(each(|case| case.energy.cost_per_day.clone()), &bought),
        to_buy: match appliances.kind {
            OptionKind::SameHeat => ToBuy::Costs(Err(NotKnown::because(
                "it is shown for comparison: no such heater is written down",
            ))),
            _ => money::to_buy(&bought),
        },
        cases,
    }
}

/// Share of the season over which an option comes near the target or holds it.
fn nearly_held(ground: &Ground<'_>, cases: &[Answer<OptionCase>]) -> f64 {
    let cases = ground.survey.weather.iter().zip(cases);
    let near = cases.filter(|(_, state)| {
        let rh = state.as_ref().map(|state| state.rh);
        rh.is_ok_and(|rh| rh <= ground.target_rh + NEAR)
    });
    near.map(|(case, _)| ground.share(case)).sum()
}

/// Room volumes that the machine's own fan moves an hour.
fn room_volumes(ground: &Ground<'_>, appliances: &Appliances) -> Option<Answer<f64>> {
    let airflow = appliances.machine.as_ref()?.airflow_m3_per_h;
    match possible(Field::Airflow, airflow) {
        Ok(airflow) => {
            let airflow = airflow?;
            Some(ground.volume_m3.clone().map(|volume| airflow / volume))
        }
        Err(why) => Some(Err(why)),
    }
}
