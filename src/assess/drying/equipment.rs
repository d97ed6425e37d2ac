//! From what was written down about machines, heaters and sources to what the balance knows.

use crate::assess::answer::{Answer, NotKnown};
use crate::assess::sound::sound;
use crate::assess::weather::rate_g_per_h;
use crate::physics::coupled;
use crate::physics::flame;
use crate::physics::machine::Machine as PhysicalMachine;
use crate::physics::people::{ASLEEP_METABOLIC_RATE, AWAKE_METABOLIC_RATE, sensible_heat};
use crate::survey::findings::called;
use crate::survey::{Finding, Heater, HeaterFuel, Item, Machine, MachineKind, SourceKind, Survey};

/// One gram an hour, kg/s.
const GRAMS_PER_HOUR: f64 = 1e-3 / 3600.0;

/// Nothing, unless a finding about the item is an error.
///
/// # Errors
/// [`NotKnown`] with the sentence of the first error.
pub(crate) fn first_error(findings: &[Finding], item: Item) -> Answer<()> {
    sound(findings, |place| place.item == item)
}

/// The behaviour of a machine: its kind's, through the maker's points
/// ([`crate::physics::machine`] **\[A\]**), or that of a salt tub of its surface.
///
/// # Errors
/// [`NotKnown`] where its figures are missing, lack their state, or contradict each other.
pub(crate) fn machine(machine: &Machine) -> Answer<PhysicalMachine> {
    let name = &machine.name;
    let because =
        |what: &str| NotKnown::because(format!("{what} of \u{201c}{name}\u{201d} is not given"));
    let points = machine.maker_points();
    if machine.kind == MachineKind::SaltTub && points.is_empty() {
        let surface = machine.tub_area_m2.ok_or_else(|| because("the surface"))?;
        return PhysicalMachine::salt_tub(surface)
            .map_err(|error| NotKnown::because(format!("\u{201c}{name}\u{201d}: {error}")));
    }
    if points.is_empty() {
        let what = if machine.rated_removal_l_per_day.is_none() {
            "what is removed by"
        } else if machine.power_w.is_none() {
            "the power"
        } else {
            "the air state (temperature and humidity) that belongs to the removal"
        };
        return Err(if what.ends_with("by") {
            NotKnown::because(format!("{what} \u{201c}{name}\u{201d} is not given"))
        } else {
            because(what)
        });
    }
    PhysicalMachine::new(machine.kind.behaviour(), &points, machine.lowest_room_c)
        .map_err(|error| NotKnown::because(format!("\u{201c}{name}\u{201d}: {error}")))
}

/// A heater as the balance knows it. A flame without flue gives its water to the room too
/// ([`flame::water_per_joule`]).
///
/// # Errors
/// [`NotKnown`] where the rating is not given.
pub(crate) fn heater(heater: &Heater) -> Answer<coupled::Heater> {
    let rating = heater.rating_w.ok_or_else(|| {
        NotKnown::because(format!(
            "the rating of {} is not given",
            called("heater", &heater.name)
        ))
    })?;
    Ok(coupled::Heater {
        rating,
        set_point_c: heater.set_point_c,
        water_per_joule: match heater.fuel {
            HeaterFuel::UnfluedGas => flame::water_per_joule(),
            HeaterFuel::Electricity | HeaterFuel::FluedGas | HeaterFuel::LiquidFuel => 0.0,
        },
    })
}

/// Water and heat given off inside, mean over the day.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Sources {
    /// As vapour, kg/s.
    pub(crate) vapour: f64,
    /// Evaporating inside, kg/s.
    pub(crate) liquid: f64,
    /// Heat, W.
    pub(crate) gains: f64,
}

impl Sources {
    /// All water, kg/s.
    pub(crate) fn water(&self) -> f64 {
        self.vapour + self.liquid
    }
}

/// The sources of the set-up shown, and the sun.
///
/// ```text
/// S = Σ n s h/24,   Q = Q_sun + Σ n q h/24
/// ```
/// where n is how many are alike, s the water that one gives off while it lasts, kg/s, q its heat,
/// W, and h the hours a day that it lasts: the steady state sees means over the day **\[A\]**.
///
/// People give off vapour and their sensible heat; cooking vapour whose heat the hob brings; a
/// flame vapour and its net heating value; clothes and the rest evaporate inside **\[A\]**.
///
/// # Errors
/// [`NotKnown`] where the rate of a source is missing or impossible.
pub(crate) fn sources(survey: &Survey, findings: &[Finding]) -> Answer<Sources> {
    first_error(findings, Item::Drying)?;
    let mut all = Sources {
        gains: survey.drying.sun_w,
        ..Sources::default()
    };
    for source in &survey.sources {
        let present = survey.set_up.choose(source.laid_up, source.in_use);
        if !present {
            continue;
        }
        first_error(findings, Item::Source(source.id))?;
        let one = rate_g_per_h(source)? * GRAMS_PER_HOUR;
        let times = f64::from(source.count) * source.hours_per_day / 24.0;
        let heat = match source.kind {
            SourceKind::PersonAwake => sensible_heat(AWAKE_METABOLIC_RATE, one),
            SourceKind::PersonAsleep => sensible_heat(ASLEEP_METABOLIC_RATE, one),
            SourceKind::UnfluedFlame => flame::heat_from_water(one),
            SourceKind::Cooking | SourceKind::Clothes | SourceKind::Other => 0.0,
        };
        all.gains += heat * times;
        match source.kind {
            SourceKind::Clothes | SourceKind::Other => all.liquid += one * times,
            _ => all.vapour += one * times,
        }
    }
    Ok(all)
}
