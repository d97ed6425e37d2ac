//! What stands against following the verdict on an option: flames, heat that is short, current that it
//! asks for.

use super::answer::{OptionCase, OptionKind, Proviso, Supply};
use super::ground::Ground;
use super::money;
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::possible::possible;
use crate::survey::{Field, Heater, HeaterFuel, Machine, MachineKind, SetUp};

/// What stands against a flame, if it is one: watching it makes no flue.
#[must_use]
pub fn flame(fuel: HeaterFuel, set_up: SetUp) -> Option<Proviso> {
    match (fuel, set_up) {
        (HeaterFuel::Electricity, _) => None,
        (HeaterFuel::UnfluedGas, _) => Some(Proviso::Unflued),
        (_, SetUp::LaidUp) => Some(Proviso::Unattended),
        (_, SetUp::InUse) => None,
    }
}

/// The machine and the heater of an option.
pub(super) struct Asks<'a> {
    pub(super) kind: OptionKind,
    pub(super) name: &'a str,
    pub(super) machine: Option<&'a Machine>,
    pub(super) heater: Option<&'a Heater>,
}

/// The most that a machine draws by the maker's figures, W; `None` where none is given.
pub(super) fn most_power_w(machine: &Machine) -> Option<f64> {
    let points = machine.points.iter().map(|point| point.power_w);
    points
        .chain(machine.power_w)
        .reduce(f64::max)
        .filter(|most| *most > 0.0)
}

/// Nothing, unless a power is not possible.
fn sound_powers(machine: Option<&Machine>, heater: Option<&Heater>) -> Answer<()> {
    let points = machine.iter().flat_map(|machine| &machine.points);
    let powers = points.map(|point| Some(point.power_w));
    for watts in powers.chain(machine.map(|machine| machine.power_w)) {
        possible(Field::Power, watts)?;
    }
    possible(Field::Rating, heater.and_then(|heater| heater.rating_w))?;
    Ok(())
}

impl Asks<'_> {
    /// What has to be said beside the verdict.
    pub(super) fn provisos(
        &self,
        ground: &Ground<'_>,
        cases: &[Answer<OptionCase>],
        supply: Option<&Answer<Supply>>,
    ) -> Vec<Proviso> {
        let set_up = ground.survey.set_up;
        let flame = self.heater.and_then(|heater| flame(heater.fuel, set_up));
        let some = |of: fn(&OptionCase) -> bool| {
            let known = ground.survey.weather.iter().zip(cases);
            let season = known.filter(|(case, _)| ground.share(case) > 0.0);
            season.flat_map(|(_, case)| case).any(of)
        };
        let supply = supply.and_then(|supply| supply.as_ref().ok());
        let told = [
            (
                self.heater.is_some() && some(|case| case.below_set_point_k.is_some()),
                Proviso::ShortOfHeat,
            ),
            (
                supply.is_some_and(|supply| supply.within_own == Some(false)),
                Proviso::OverSupply,
            ),
            (
                some(OptionCase::holds_by_condensation),
                Proviso::WetSurfaces,
            ),
        ];
        let told = told.into_iter().filter(|(holds, _)| *holds);
        let told = told.map(|(_, proviso)| proviso);
        flame.into_iter().chain(told).collect()
    }

    /// What it asks of the electric supply, with the electric heater beside it that keeps comfort in use;
    /// `None` where it draws nothing.
    pub(super) fn of_supply(
        &self,
        ground: &Ground<'_>,
        cases: &[Answer<OptionCase>],
    ) -> Option<Answer<Supply>> {
        let machine = self
            .machine
            .filter(|machine| machine.kind != MachineKind::SaltTub);
        let heater = self
            .heater
            .or_else(|| ground.comfort_heater())
            .filter(|heater| heater.fuel == HeaterFuel::Electricity);
        if let Err(why) = sound_powers(machine, heater) {
            return Some(Err(why));
        }
        let machine = machine.map(most_power_w);
        let heater = heater.map(|heater| heater.rating_w);
        let same = (self.kind == OptionKind::SameHeat).then(|| {
            let known = cases.iter().flatten().map(|case| case.heater_w);
            Some(known.fold(0.0, f64::max))
        });
        let parts: Vec<Option<f64>> = [machine, heater, same].into_iter().flatten().collect();
        if parts.is_empty() {
            return None;
        }
        let peak: Option<f64> = parts.into_iter().sum();
        if peak.is_some_and(|peak| peak <= 0.0) {
            return None;
        }
        let calm = cases
            .get(ground.calmest)
            .and_then(|case| case.as_ref().ok());
        Some(match peak {
            None => Err(NotKnown::because(format!(
                "the power of \u{201c}{}\u{201d} is not given",
                self.name
            ))),
            Some(peak) => Ok(money::supply(
                &ground.survey.drying,
                peak,
                calm.map(|case| case.energy.kwh_per_day),
            )),
        })
    }
}
