//! A winter hour by hour: the weather, every option through the season, frost, mould, and what is
//! assumed.

mod doubt;
mod laid;
mod locker;
mod weather;

pub use laid::laid;
pub use locker::{BEGUN, lockers};

use super::blocks::{Align, Reasons, Section, Table};
use super::drying::by_no_flame;
use super::words::{not_known, nothing_done};
use crate::assess::drying::{OptionKind, Proviso, Spot, flame};
use crate::assess::quantity::{Kind, price_about};
use crate::assess::winter::{
    COLDEST_CORNER_K, Doubted, Frost, Laid, MouldAt, Season, Weathered, WinterOption,
};
use crate::assess::words::{capital, counted};
use crate::assess::{Answer, NotKnown};
use crate::climate::Hour;
use crate::physics::mould::Sensitivity;
use crate::survey::{SetUp, Survey, TypicalWinter};
use weather::weather;

/// Place of the class that boards and furniture have.
const BOARDS: usize = 1;

/// A winter worked out, to be told.
#[derive(Clone)]
pub struct WinterTold<'a> {
    /// The survey.
    pub survey: &'a Survey,
    /// The weather.
    pub weathered: &'a Weathered,
    /// The options, in order.
    pub options: &'a [WinterOption],
    /// What each comes to.
    pub seasons: &'a [Answer<Season>],
    /// The hours of the season.
    pub hours: &'a [Hour],
    /// The typical winter, where the weather is invented.
    pub typical: Option<TypicalWinter>,
    /// The same once the planned gaps are sealed; `None` while none is planned, or it was not asked
    /// for.
    pub planned: Option<Answer<PlannedTold<'a>>>,
    /// How sure it is, where that was asked for.
    pub doubt: Option<Result<&'a Doubted, &'a NotKnown>>,
    /// The same calculation held against what was measured; empty where nothing was.
    pub laid: &'a [Laid],
}

/// The winter once the planned gaps are sealed.
#[derive(Clone, Copy)]
pub struct PlannedTold<'a> {
    /// The options, in order.
    pub options: &'a [WinterOption],
    /// What each comes to.
    pub seasons: &'a [Answer<Season>],
}

/// All that is told of a winter.
#[must_use]
pub fn sections(told: &WinterTold<'_>) -> Vec<Section> {
    let mut sections = vec![weather(told.weathered, told.typical)];
    sections.extend(laid(told.laid));
    sections.push(options(told));
    let planned = told.planned.as_ref();
    sections.extend(planned.map(|planned| after_plan(told, planned)));
    let currency = told.survey.tariffs.currency.trim();
    let doubt = told.doubt;
    sections.extend(doubt.map(|doubt| doubt::bands(told.options, doubt, currency)));
    sections.extend([frost(told), mould(told), assumed(told)]);
    sections
}

fn rh(value: f64) -> String {
    Kind::RelativeHumidity.text(value)
}

/// A table of all options.
fn options(told: &WinterTold<'_>) -> Section {
    let mut section = Section::new("Every option through the winter");
    let (table, reasons) = table(told.survey, told.options, told.seasons);
    section.table(table, &reasons);
    section.points(said_besides(told));
    section.note(
        "RH: relative humidity inside, hourly means; a tenth of the hours lies below the first figure \
         and a tenth above the second. Frost nights: nights, from noon to noon, on which the mean \
         temperature inside falls below 0 °C. Wet hours: water condenses on a surface. Mould index \
         on boards at the worst place, from 0, none, over 3, seen by eye, to 6. Water: taken by \
         machine or tub.",
    );
    section
}

/// The same once the planned gaps are sealed.
fn after_plan(told: &WinterTold<'_>, planned: &Answer<PlannedTold<'_>>) -> Section {
    let mut section = Section::new("Every option once the planned gaps are sealed");
    match planned {
        Ok(planned) => {
            section.paragraph("The same winter and the same options, with those gaps sealed:");
            let (table, reasons) = table(told.survey, planned.options, planned.seasons);
            section.table(table, &reasons);
        }
        Err(unknown) => {
            section.paragraph(not_known(unknown));
        }
    }
    section
}

/// A row of figures for each option.
fn table(
    survey: &Survey,
    options: &[WinterOption],
    seasons: &[Answer<Season>],
) -> (Table, Reasons) {
    let currency = survey.tariffs.currency.trim();
    let mut table = Table::default()
        .wide("Option", Align::Left, 3)
        .column("RH mean", Align::Right)
        .column("10\u{2013}90 %", Align::Right)
        .column("above 80 %", Align::Right)
        .column("frost nights", Align::Right)
        .column("wet hours", Align::Right)
        .column("mould index", Align::Decimal)
        .column("water, L", Align::Decimal)
        .column("energy, kWh", Align::Right)
        .column("cost", Align::Right);
    let mut reasons = Reasons::default();
    for (option, season) in options.iter().zip(seasons) {
        let name = capital(&option.name);
        match season {
            Err(unknown) => {
                let mark = reasons.mark(unknown);
                table.row([name, mark]);
            }
            Ok(season) => {
                let humidity = &season.humidity;
                let cost = reasons.or(&season.cost, |cost| price_about(*cost, currency));
                table.row([
                    name,
                    rh(humidity.mean),
                    Kind::RelativeHumidity.span(humidity.low, humidity.high),
                    Kind::WholePercent.text(humidity.share_above[2]),
                    season.frost.nights.to_string(),
                    season.condensation_hours.to_string(),
                    worst(season).map_or_else(String::new, |at| {
                        Kind::MouldIndex.number(at.highest[BOARDS])
                    }),
                    Kind::Litres.number(season.removed_l),
                    Kind::KilowattHours.number(season.machine_kwh + season.heater_kwh),
                    cost,
                ]);
            }
        }
    }
    (table, reasons)
}

/// What a row of figures does not say.
fn said_besides(told: &WinterTold<'_>) -> Vec<String> {
    let mut said = Vec::new();
    for (option, season) in told.options.iter().zip(told.seasons) {
        let Ok(season) = season else { continue };
        let name = capital(&option.name);
        if season.too_cold_hours >= 1.0 {
            said.push(format!(
                "{name}: too cold for the machine for {} hours of the winter; it then takes neither \
                 water nor power.",
                Kind::Plain.number(season.too_cold_hours.round()),
            ));
        }
        if let Some(days) = season.tub_full_days {
            said.push(format!(
                "{name}: the tub is full after {}.",
                Kind::Days.text(days)
            ));
        }
        if season.run_off_l >= 0.1 {
            said.push(format!(
                "{name}: {} run off cold surfaces.",
                Kind::Litres.text(season.run_off_l)
            ));
        }
    }
    said
}

/// Where mould grows highest.
fn worst(season: &Season) -> Option<&MouldAt> {
    let all = season.mould.iter();
    all.max_by(|one, other| one.highest[BOARDS].total_cmp(&other.highest[BOARDS]))
}

fn nothing<'a>(told: &WinterTold<'a>) -> Option<&'a Season> {
    let mut all = told.options.iter().zip(told.seasons);
    let (_, season) = all.find(|(option, _)| option.kind == OptionKind::Nothing)?;
    season.as_ref().ok()
}

/// Frost at the water system, and what keeps it away.
fn frost(told: &WinterTold<'_>) -> Section {
    let mut section = Section::new("Frost in the water system");
    section.paragraph(
        "Draining pipes, pump, boiler and tanks is the first advice: it costs nothing and needs nothing \
         that can fail.",
    );
    let Some(idle) = nothing(told) else {
        return section.ending("Not known: doing nothing has no result.");
    };
    section.paragraph(format!(
        "{} {}; in the coldest corner, {} colder [A], {}. A tank under the floor is as \
         cold as the outside: {}.{}",
        capital(&nothing_done(told.survey)),
        frost_words(&idle.frost),
        Kind::Kelvin.text(COLDEST_CORNER_K),
        frost_words(&idle.frost_in_corner),
        frost_words(&told.weathered.frost),
        match told.survey.set_up {
            SetUp::InUse => " Drain the water before it stands unheated.",
            SetUp::LaidUp => "",
        },
    ));
    let currency = told.survey.tariffs.currency.trim();
    let mut points = Vec::new();
    for (option, season) in told.options.iter().zip(told.seasons) {
        let (OptionKind::BackgroundHeat, Ok(season)) = (option.kind, season) else {
            continue;
        };
        let cost = match &season.cost {
            Ok(cost) => format!("costs {} in the winter", price_about(*cost, currency)),
            Err(NotKnown { reason }) => format!("costs an amount not known: {reason}"),
        };
        points.push(format!(
            "{} takes {}, {cost}: then {}; in the coldest corner {}.",
            capital(&option.name),
            Kind::KilowattHours.text(season.heater_kwh),
            frost_words(&season.frost),
            frost_words(&season.frost_in_corner),
        ));
    }
    section.points(points);
    for words in no_flame(told.survey) {
        section.paragraph(words);
    }
    section
}

/// That no flame is left to keep frost away, and none without a flue is lit.
fn no_flame(survey: &Survey) -> Vec<String> {
    by_no_flame(|proviso| flames(survey, proviso), "keep frost away")
}

/// The heaters whose flame stands against them, by the reason.
fn flames(survey: &Survey, proviso: Proviso) -> Vec<String> {
    let heaters = survey.heaters.iter();
    let those = heaters.filter(|heater| flame(heater.fuel, survey.set_up) == Some(proviso));
    those
        .map(|heater| format!("\u{201c}{}\u{201d}", heater.name.trim()))
        .collect()
}

fn frost_words(frost: &Frost) -> String {
    if frost.hours == 0 {
        return "it freezes on no night".to_owned();
    }
    format!(
        "it freezes on {}, the longest spell {}",
        counted(frost.nights, "night", "nights"),
        counted(frost.longest_h, "hour", "hours"),
    )
}

/// Mould with nothing done, by surface.
fn mould(told: &WinterTold<'_>) -> Section {
    let mut section = Section::new("Mould");
    let Some(idle) = nothing(told) else {
        return section.ending("Not known: doing nothing has no result.");
    };
    section.paragraph(format!(
        "The index at its highest {} by surface and by how readily mould grows on it:",
        match told.survey.set_up {
            SetUp::LaidUp => format!("{},", nothing_done(told.survey)),
            SetUp::InUse => nothing_done(told.survey),
        }
    ));
    let mut table = Table::default().wide("Surface", Align::Left, 3);
    for class in Sensitivity::ALL {
        table = table.column(class.name(), Align::Decimal);
    }
    table = table.column("on boards from", Align::Left);
    for at in &idle.mould {
        let mut cells = vec![place(at)];
        cells.extend(at.highest.map(|highest| Kind::MouldIndex.number(highest)));
        let begins = at.begins_at[BOARDS].and_then(|hour| told.hours.get(hour));
        cells.push(begins.map_or_else(
            || "does not begin".to_owned(),
            |hour| format!("{} {}", hour.day.day, month(hour.day.month)),
        ));
        table.row(cells);
    }
    section.table(table, &Reasons::default());
    if let Some(sentence) = lockers(idle) {
        section.paragraph(sentence);
    }
    section.note(
        "Model of Hukka and Viitanen 1999 with the classes of Ojanen and others 2010 [S]. Boards and \
         furniture count as sensitive. A closed locker: twice the surface resistance of an open corner, \
         and air that follows the room's in a day [A].",
    );
    section
}

fn place(at: &MouldAt) -> String {
    let surface = match at.spot.spot {
        Spot::Bridge => format!("{}, at frames and ribs", at.spot.name),
        Spot::Plain | Spot::Metal | Spot::Glass => at.spot.name.clone(),
    };
    if at.spot.in_locker {
        format!("{surface}, in a closed locker")
    } else {
        surface
    }
}

fn month(month: u8) -> &'static str {
    const NAMES: [&str; 12] = [
        "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
    ];
    let at = usize::from(month).checked_sub(1);
    at.and_then(|at| NAMES.get(at)).copied().unwrap_or("")
}

fn assumed(told: &WinterTold<'_>) -> Section {
    let mut section = Section::new("What the winter stands on");
    let own = |given: bool, usual: &str| {
        if given {
            String::new()
        } else {
            usual.to_owned()
        }
    };
    let capacity = told.survey.drying.heat_capacity_kj_per_k.is_some();
    section.points(
        [
            "air and contents are one node of heat and one of water; a vehicle has warm and cold \
             corners that this does not tell apart"
                .to_owned(),
            own(
                told.survey.spaces.len() < 2,
                "all spaces count as one, with the air that comes into any of them",
            ),
            own(capacity, "heat capacity 30 kJ/K for each m³ of volume [A]"),
            "what contents store is 0.6 g/m² for each point of humidity over 2 m² for each m³ [A] unless given".to_owned(),
            "the sky is alike all over, the ground throws back a fifth of the light [A]".to_owned(),
            "a film of more than 0.1 kg/m² runs off [A]; the floor forms none".to_owned(),
            "fourteen days of the first weather come before the first hour that counts".to_owned(),
        ]
        .into_iter()
        .filter(|text| !text.is_empty()),
    );
    section.paragraph("What to doubt most, and what hangs on it:");
    section.points(DOUBTED.map(str::to_owned));
    section
}

/// What somebody who sizes heaters and dryers would doubt of it, most doubtful first.
const DOUBTED: [&str; 5] = [
    "the first frost and the first damp are in a corner or behind a cushion, where nobody measured: \
     2 K for the coldest corner, and the air of a closed locker, are assumed [A]",
    "what contents store is not known within a factor of two: the swing of humidity from day to night \
     hangs on it, and with it the hours above 80 %; the mean of the winter hardly does",
    "near the lowest temperature of a machine it may run for days or not start at all: a tenth of a \
     kelvin decides",
    "nothing stands in the way of sun and sky: with a hedge, a house or a tree to the south it is colder \
     and damper inside than told",
    "another winter in the same place has other frost nights: what the draws spread over is the vehicle, \
     not the weather",
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::file::parse;
    use crate::survey::{HeaterFuel, SetUp};

    #[test]
    fn no_flame_is_offered_as_a_guard_against_frost_without_a_word() {
        let text = include_str!("../../../sample-surveys/farmyard-caravan.ron");
        let mut survey = parse(text).expect("a sample");
        assert!(no_flame(&survey).is_empty());
        survey.heaters[0].name = "diesel heater".to_owned();
        survey.heaters[0].fuel = HeaterFuel::LiquidFuel;
        let words = "▲ A flame is never left burning where nobody is: “diesel heater” is no way to keep frost away.";
        assert_eq!(no_flame(&survey), [words]);
        survey.set_up = SetUp::InUse;
        assert!(no_flame(&survey).is_empty());
        survey.heaters[0].fuel = HeaterFuel::UnfluedGas;
        for set_up in SetUp::ALL {
            survey.set_up = set_up;
            let words = no_flame(&survey);
            assert!(
                words.iter().any(|one| one.contains("carbon monoxide")),
                "{words:?}"
            );
        }
    }
}
