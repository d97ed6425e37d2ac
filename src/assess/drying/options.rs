//! The options, each in every weather case.

use super::answer::{OptionAnswer, OptionCase, OptionKind, Supply};
use super::situation::{Fitted, Situation};
use super::state::Judge;
use super::{Ground, equipment, library, money, verdict};
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::envelope::Envelope;
use crate::physics::coupled;
use crate::physics::machine::Machine as PhysicalMachine;
use crate::survey::{Heater, HeaterFuel, Item, Machine, MachineId, MachineKind};

/// A machine or heater with its words.
#[derive(Clone)]
struct Appliances {
    kind: OptionKind,
    name: String,
    machine: Option<Machine>,
    heater: Option<Heater>,
    generic: bool,
}

/// Every option, in the order shown.
pub(crate) fn all(ground: &Ground<'_>, situations: &[Answer<Situation<'_>>]) -> Vec<OptionAnswer> {
    let nothing = Appliances {
        kind: OptionKind::Nothing,
        name: "nothing".to_owned(),
        machine: None,
        heater: None,
        generic: false,
    };
    let idle = solve(ground, situations, None, &nothing);
    let before = idle.clone();
    let mut options = vec![finish(ground, &nothing, idle)];
    options.push(lockers_open(ground, &before));
    for appliances in machines(ground) {
        let cases = solve(ground, situations, Some(&before), &appliances);
        options.push(finish(ground, &appliances, cases));
    }
    let large = large_machine(ground);
    let heaters = heaters(ground);
    for appliances in &heaters {
        let cases = solve(ground, situations, Some(&before), appliances);
        options.push(finish(ground, appliances, cases));
    }
    options.push(same_heat(ground, situations, &before, &large, &options));
    if let Some(heat) = heaters.first() {
        let both = Appliances {
            kind: OptionKind::HeatAndMachine,
            name: format!("{} + {}", heat.name, large.name),
            machine: large.machine.clone(),
            heater: heat.heater.clone(),
            generic: large.generic || heat.generic,
        };
        let cases = solve(ground, situations, Some(&before), &both);
        options.push(finish(ground, &both, cases));
    }
    options
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
                kind: OptionKind::Machine(kind),
                name: machine.name.clone(),
                machine: Some(machine),
                heater: None,
                generic,
            })
        })
        .collect()
}

/// The large machine: the survey's compressor with the most power, or else the generic one.
fn large_machine(ground: &Ground<'_>) -> Appliances {
    let power = |machine: &Machine| machine.power_w.unwrap_or(0.0);
    machines(ground)
        .into_iter()
        .filter(|option| option.kind == OptionKind::Machine(MachineKind::Compressor))
        .max_by(|a, b| {
            let power_of = |option: &Appliances| option.machine.as_ref().map_or(0.0, power);
            power_of(a).total_cmp(&power_of(b))
        })
        .unwrap_or_else(|| {
            let machine = library::machine(MachineKind::Compressor);
            Appliances {
                kind: OptionKind::Machine(MachineKind::Compressor),
                name: machine.name.clone(),
                machine: Some(machine),
                heater: None,
                generic: true,
            }
        })
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
            kind: OptionKind::BackgroundHeat,
            name: heater.name.clone(),
            machine: None,
            heater: Some(heater),
            generic,
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
            if machine.id != MachineId(0) {
                equipment::first_error(ground.findings, Item::Machine(machine.id))?;
            }
            Some(equipment::machine(machine)?)
        }
        None => None,
    };
    let heater = match &appliances.heater {
        Some(heater) => {
            equipment::first_error(ground.findings, Item::Heater(heater.id))?;
            Some(equipment::heater(heater)?)
        }
        None => None,
    };
    Ok((machine, heater))
}

/// One option in every weather case.
fn solve(
    ground: &Ground<'_>,
    situations: &[Answer<Situation<'_>>],
    before: Option<&[Answer<OptionCase>]>,
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
            heater: *heater,
        };
        let fuel = appliances.heater.as_ref().map(|heater| heater.fuel);
        Judge {
            ground,
            situation,
            fuel,
            before: before.and_then(|cases| cases.get(at)),
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
    let appliances = Appliances {
        kind: OptionKind::LockersOpen,
        name: "ventilators and lockers open".to_owned(),
        machine: None,
        heater: None,
        generic: false,
    };
    let envelope = ground
        .opened_laws()
        .and_then(|laws| Envelope::new(ground.survey, &laws));
    let cases = match &envelope {
        Ok(envelope) => {
            let situations = ground.situations(envelope);
            solve(ground, &situations, Some(before), &appliances)
        }
        Err(unknown) => vec![Err(unknown.clone()); before.len()],
    };
    finish(ground, &appliances, cases)
}

/// As much heat, all the time, as the large machine draws on average in the same weather.
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
            && option.machine == own_machine(large)
    });
    let cases = situations
        .iter()
        .enumerate()
        .map(|(at, situation)| {
            let situation = situation.as_ref().map_err(Clone::clone)?;
            let drawn = machine
                .and_then(|option| option.cases.get(at))
                .ok_or_else(|| NotKnown::because("there is no large machine"))?
                .clone()?
                .machine_w;
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
                with_dry_out: at == ground.calmest || at == ground.windiest,
            }
            .case(&fitted)
        })
        .collect();
    let appliances = Appliances {
        kind: OptionKind::SameHeat,
        name: format!("only the heat of the {}", large.name),
        machine: None,
        heater: None,
        generic: large.generic,
    };
    finish(ground, &appliances, cases)
}

fn own_machine(appliances: &Appliances) -> Option<MachineId> {
    let machine = appliances.machine.as_ref()?;
    (!appliances.generic).then_some(machine.id)
}

/// Verdict, supply and money of an option whose states are known.
fn finish(
    ground: &Ground<'_>,
    appliances: &Appliances,
    cases: Vec<Answer<OptionCase>>,
) -> OptionAnswer {
    let (verdict, sentence) = verdict::verdict(ground, appliances.kind, &cases);
    let each = |of: fn(&OptionCase) -> Answer<f64>| {
        ground.season(|at| match cases.get(at) {
            Some(case) => of(case.as_ref().map_err(Clone::clone)?),
            None => Err(NotKnown::because("there is no such weather case")),
        })
    };
    let days = money::DAYS_PER_MONTH;
    OptionAnswer {
        kind: appliances.kind,
        machine: own_machine(appliances).filter(|id| *id != MachineId(0)),
        heater: appliances
            .heater
            .as_ref()
            .map(|heater| heater.id)
            .filter(|id| id.0 != 0),
        name: appliances.name.clone(),
        generic: appliances.generic,
        verdict,
        sentence,
        room_volumes_per_h: room_volumes(ground, appliances),
        supply: supply(ground, appliances, &cases),
        kwh_per_month: each(|case| Ok(case.energy.kwh_per_day)).map(|kwh| kwh * days),
        cost_per_month: each(|case| case.energy.cost_per_month.clone()),
        cases,
    }
}

/// Room volumes that the machine's own fan moves an hour.
fn room_volumes(ground: &Ground<'_>, appliances: &Appliances) -> Option<Answer<f64>> {
    let airflow = appliances.machine.as_ref()?.airflow_m3_per_h?;
    Some(ground.volume_m3.clone().map(|volume| airflow / volume))
}

fn supply(
    ground: &Ground<'_>,
    appliances: &Appliances,
    cases: &[Answer<OptionCase>],
) -> Option<Answer<Supply>> {
    let machine = appliances
        .machine
        .as_ref()
        .filter(|machine| machine.kind != MachineKind::SaltTub)
        .map(|machine| {
            let points = machine.points.iter().map(|point| point.power_w);
            let most = points.chain(machine.power_w).fold(0.0, f64::max);
            (most > 0.0).then_some(most)
        });
    let heater = appliances
        .heater
        .as_ref()
        .filter(|heater| heater.fuel == HeaterFuel::Electricity)
        .map(|heater| heater.rating_w);
    let same = (appliances.kind == OptionKind::SameHeat).then(|| {
        let known = cases.iter().flatten().map(|case| case.heater_w);
        Some(known.fold(0.0, f64::max))
    });
    let parts: Vec<Option<f64>> = [machine, heater, same].into_iter().flatten().collect();
    if parts.is_empty() {
        return None;
    }
    let peak: Option<f64> = parts.into_iter().sum();
    let calm = cases
        .get(ground.calmest)
        .and_then(|case| case.as_ref().ok());
    Some(match peak {
        None => Err(NotKnown::because(format!(
            "the power of \u{201c}{}\u{201d} is not given",
            appliances.name
        ))),
        Some(peak) => Ok(money::supply(
            &ground.survey.drying,
            peak,
            calm.map(|case| case.energy.kwh_per_day),
        )),
    })
}
