//! The options of drying and heating as a season sees them.

use crate::assess::answer::Answer;
use crate::assess::drying::{Comparison, OptionAnswer, OptionKind, equipment, library};
use crate::physics::machine::Machine as PhysicalMachine;
use crate::physics::winter::{Heating, Strategy, Tub};
use crate::survey::{Finding, Heater, HeaterFuel, Item, Machine, MachineKind, SetUp, Survey};

/// Heat that no vehicle needs, W: what keeps it at comfort is never short of it.
const COMFORT_HEAT_MOST: f64 = 1e6;
/// Litres in a cubic metre.
const LITRES: f64 = 1000.0;

/// One option.
#[derive(Clone, Debug, PartialEq)]
pub struct WinterOption {
    /// What is done.
    pub kind: OptionKind,
    /// Its name.
    pub name: String,
    /// Machine or heater come from the generic library.
    pub generic: bool,
    /// What is fitted.
    pub(super) fitted: Answer<Fitted>,
}

/// What an option fits into the vehicle.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Fitted {
    pub(super) machine: Option<PhysicalMachine>,
    pub(super) hygrostat: Option<f64>,
    pub(super) tub: Option<Tub>,
    pub(super) heating: Option<Heating>,
    pub(super) fuel: Option<HeaterFuel>,
    /// What a month of it costs besides power and fuel; nothing where `None`.
    pub(super) upkeep_per_month: Option<Answer<f64>>,
}

impl Fitted {
    pub(super) fn strategy(&self) -> Strategy<'_> {
        Strategy {
            machine: self.machine.as_ref(),
            hygrostat: self.hygrostat,
            tub: self.tub,
            heating: self.heating,
        }
    }
}

/// Every option of the comparison.
pub(super) fn options(
    survey: &Survey,
    findings: &[Finding],
    comparison: &Comparison,
) -> Vec<WinterOption> {
    let all = comparison.options.iter();
    all.map(|option| WinterOption {
        kind: option.kind,
        name: option.name.clone(),
        generic: option.generic,
        fitted: fitted(survey, findings, option),
    })
    .collect()
}

fn fitted(survey: &Survey, findings: &[Finding], option: &OptionAnswer) -> Answer<Fitted> {
    let kind = match option.kind {
        OptionKind::Machine(kind) => Some(kind),
        OptionKind::HeatAndMachine => Some(MachineKind::Compressor),
        OptionKind::Nothing
        | OptionKind::LockersOpen
        | OptionKind::BackgroundHeat
        | OptionKind::SameHeat => None,
    };
    let mut fitted = Fitted {
        upkeep_per_month: Some(option.costs.upkeep_per_month.clone()),
        ..Fitted::default()
    };
    if let Some(kind) = kind {
        let own = survey
            .machines
            .iter()
            .find(|own| Some(own.id) == option.machine);
        if let Some(own) = own {
            equipment::first_error(findings, Item::Machine(own.id))?;
        }
        let machine = own.cloned().unwrap_or_else(|| library::machine(kind));
        with_machine(&mut fitted, survey, &machine)?;
    }
    let heats = matches!(
        option.kind,
        OptionKind::BackgroundHeat | OptionKind::HeatAndMachine
    );
    let heater = heats.then(|| {
        let own = survey
            .heaters
            .iter()
            .find(|own| Some(own.id) == option.heater);
        let set_c = survey.targets.set_temperature_c;
        own.cloned().unwrap_or_else(|| library::heater(set_c))
    });
    if let Some(heater) = &heater {
        if option.heater.is_some() {
            equipment::first_error(findings, Item::Heater(heater.id))?;
        }
        fitted.heating = Some(heating(survey, heater)?);
        fitted.fuel = Some(heater.fuel);
    } else if survey.set_up == SetUp::InUse {
        fitted.heating = Some(Heating {
            rating: COMFORT_HEAT_MOST,
            set_c: None,
            set_present_c: Some(survey.targets.comfort_c),
            only_present: true,
            water_per_joule: 0.0,
        });
        fitted.fuel = only_fuel(survey);
    }
    Ok(fitted)
}

fn with_machine(fitted: &mut Fitted, survey: &Survey, machine: &Machine) -> Answer<()> {
    let bare_tub = machine.kind == MachineKind::SaltTub && machine.maker_points().is_empty();
    let physical = equipment::machine(machine)?;
    if let (true, Some(surface)) = (bare_tub, machine.tub_area_m2) {
        fitted.tub = Some(Tub {
            surface,
            salt: survey.drying.salt_kg,
            holds: machine.tub_l.map(|litres| litres / LITRES),
        });
        return Ok(());
    }
    fitted.machine = Some(physical);
    fitted.hygrostat = machine
        .hygrostat
        .then_some(survey.targets.rh_percent / 100.0);
    Ok(())
}

/// A heater by the hour: at its own set point while nobody is there, at comfort while somebody is.
fn heating(survey: &Survey, heater: &Heater) -> Answer<Heating> {
    let physical = equipment::heater(heater)?;
    let in_use = survey.set_up == SetUp::InUse;
    Ok(Heating {
        rating: physical.rating,
        set_c: physical.set_point_c,
        set_present_c: in_use.then_some(survey.targets.comfort_c),
        // Without a thermostat nobody leaves it on while away.
        only_present: in_use && physical.set_point_c.is_none(),
        water_per_joule: physical.water_per_joule,
    })
}

/// What heats to comfort burns: the fuel of the only heater, or of the strongest that is rated.
fn only_fuel(survey: &Survey) -> Option<HeaterFuel> {
    if let [only] = survey.heaters.as_slice() {
        return Some(only.fuel);
    }
    let rated = survey
        .heaters
        .iter()
        .filter_map(|own| Some((own.rating_w?, own.fuel)));
    rated
        .max_by(|one, other| one.0.total_cmp(&other.0))
        .map(|(_, fuel)| fuel)
}
