//! What to beware of before sealing, drying or heating. What the vehicle holds decides the words
//! and which caution comes first; none is left out.

use super::safety::words::ALARM;
use crate::survey::{ApplianceKind, HeaterFuel, SourceKind, Survey};

/// Something to beware of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Caution {
    /// What it is about, with a capital.
    pub title: &'static str,
    /// What to do and what to leave, in sentences.
    pub text: String,
}

const VENTILATION_AND_GAS: &str = "Never close, cover or narrow fixed ventilators, gas drop-out holes, flues, \
    combustion-air or refrigerator openings. Gas heavier than air must be able to fall out. Work on gas \
    belongs to licensed fitters.";
const SUPPLY_AND_BATTERIES: &str = "Cut off the supply and disconnect the battery before sealing round cables; \
    do not bury cables in foam. Dryers and heaters on one supply must not exceed it. Work on 230 V belongs \
    to electricians. Batteries that give off gas need their own ventilation left open.";
const HEIGHT: &str = "Roofs are slippery and many do not bear a person: work from a platform or a secured \
    ladder, and not alone.";
const DAMP: &str =
    "Find and mend a water leak before sealing beside it; what is sealed in wet, rots.";

/// What to beware of before sealing.
#[must_use]
pub fn before_sealing(survey: &Survey) -> Vec<Caution> {
    let cautions = [
        ("Ventilation and gas", VENTILATION_AND_GAS.to_owned()),
        ("Carbon monoxide", carbon_monoxide(survey)),
        ("Hot flues", hot_flues(survey)),
        ("230 V and batteries", SUPPLY_AND_BATTERIES.to_owned()),
        ("Work at height", HEIGHT.to_owned()),
        ("Damp", DAMP.to_owned()),
    ];
    cautions
        .into_iter()
        .map(|(title, text)| Caution { title, text })
        .collect()
}

/// What the owner of a sealed vehicle has to know: not what is only for whoever does the work.
#[must_use]
pub fn for_the_owner(survey: &Survey) -> Vec<Caution> {
    let mut cautions = before_sealing(survey);
    cautions.retain(|caution| FOR_THE_OWNER.contains(&caution.title));
    cautions
}

/// Titles of the cautions that concern whoever lives with what was sealed.
const FOR_THE_OWNER: [&str; 3] = ["Ventilation and gas", "Carbon monoxide", "Damp"];

fn carbon_monoxide(survey: &Survey) -> String {
    let burns = survey
        .appliances
        .iter()
        .any(|appliance| !appliance.room_sealed);
    if burns {
        format!(
            "An appliance in this vehicle takes its air from the room. Sealing gaps takes away air that may \
             have made up for missing ventilation: check fixed ventilation first, and fit a carbon monoxide \
             alarm ({ALARM})."
        )
    } else {
        format!(
            "Anything that burns inside with too little air makes carbon monoxide, which cannot be smelt. \
             Fit a carbon monoxide alarm ({ALARM})."
        )
    }
}

fn hot_flues(survey: &Survey) -> String {
    let stove = survey
        .appliances
        .iter()
        .any(|appliance| appliance.kind == ApplianceKind::Stove);
    let flue = if stove {
        "The flues of stove and heaters run hot"
    } else {
        "Flues run hot"
    };
    format!(
        "{flue}: keep sealant, strip and foam away from them, and use only what their makers allow there."
    )
}

const STAY_OPEN: &str = "Fixed ventilators, gas drop-out openings, flues and the air of appliances stay open, \
    however much heat or dry air they cost. No figure here is a reason to close one.";
const ELECTRIC_HEATER: &str = "An electric heater left alone can set fire to what hangs or falls near it. \
    Unattended, only a fixed one with thermostat and tip-over guard, on a socket of its own, nothing near it \
    [C].";
const MAINS: &str = "230 V in a damp vehicle: residual-current protection, no cable reel left wound up, no \
    plug where water drips [C]. Fixed wiring is for a licensed electrician.";
const FLAME: &str = "A flame without flue gives carbon monoxide and water to the room. Never heat or dry a \
    closed vehicle with one, and never cook to keep warm. Fit a CO alarm:";
/// Whose work it is, in short.
pub const TRADES: &str = "Gas, flues and mains wiring are for licensed trades alone.";
/// Who decides before anything told here.
pub const LOCAL: &str = "Local codes and the makers' instructions go before everything told here; gas, flues and \
    mains wiring are for licensed trades.";

/// What to beware of before drying or heating. A flame that is recorded comes first.
#[must_use]
pub fn before_drying(survey: &Survey) -> Vec<Caution> {
    let heaters = survey.heaters.iter();
    let sources = survey.sources.iter();
    let burns = heaters
        .map(|heater| heater.fuel == HeaterFuel::UnfluedGas)
        .chain(sources.map(|source| source.kind == SourceKind::UnfluedFlame))
        .any(|flame| flame);
    let caution = |title, text: &str| Caution {
        title,
        text: text.to_owned(),
    };
    let mut cautions = vec![
        caution("What stays open", STAY_OPEN),
        caution("Electric heaters", ELECTRIC_HEATER),
        caution("230 V in damp", MAINS),
    ];
    let flame = caution("Flames without flue", &format!("{FLAME} {ALARM}."));
    cautions.insert(if burns { 0 } else { cautions.len() }, flame);
    cautions
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{MoistureSource, SourceId, VehicleKind};

    #[test]
    fn a_recorded_flame_comes_first_and_no_caution_is_lost() {
        let mut survey = Survey::new(VehicleKind::PanelVan);
        survey.sources.clear();
        let without = before_drying(&survey);
        assert!(without[0].text.starts_with("Fixed ventilators"));
        survey.sources.push(MoistureSource {
            id: SourceId(1),
            name: "camping stove".to_owned(),
            kind: SourceKind::UnfluedFlame,
            count: 1,
            rate_g_per_h: None,
            hours_per_day: 1.0,
            laid_up: true,
            in_use: true,
        });
        let with = before_drying(&survey);
        assert!(with[0].text.starts_with("A flame without flue"));
        assert_eq!(with.len(), without.len());
        assert!(without.iter().all(|caution| with.contains(caution)));
    }
}
