//! Loggers and trials with every field and every word.

use gapledger::series::{
    Column, DateOrder, Decimal, Encoding, Mapping, Separator, Unit, What, Zone as ClockZone,
};
use gapledger::survey::*;

fn moment(text: &str) -> Moment {
    Moment::parse(text).unwrap()
}

fn readings(what: What, unit: Unit, sensor: &str) -> Column {
    let sensor = sensor.into();
    Column::Readings { what, unit, sensor }
}

/// One logger of each kind of file, with all quantities and all units between them.
pub(super) fn loggers() -> Vec<LoggerSeries> {
    let all_units = What::ALL
        .into_iter()
        .flat_map(|what| what.units().iter().map(move |unit| (what, *unit)));
    let mut wide = vec![Column::Date, Column::TimeOfDay, Column::LeftOut];
    wide.extend(all_units.map(|(what, unit)| readings(what, unit, "garden")));
    let plain = vec![
        Column::Moment,
        readings(What::Temperature, Unit::Fahrenheit, ""),
        readings(What::RelativeHumidity, Unit::Percent, ""),
    ];
    let mappings = [
        (
            Encoding::Utf16Low,
            Separator::Semicolon,
            Decimal::Comma,
            wide,
        ),
        (
            Encoding::Windows1252,
            Separator::Tab,
            Decimal::Point,
            plain.clone(),
        ),
        (
            Encoding::Utf16High,
            Separator::Comma,
            Decimal::Point,
            plain.clone(),
        ),
        (Encoding::Utf8, Separator::Comma, Decimal::Point, plain),
    ];
    let orders = [
        Some(DateOrder::DayMonthYear),
        Some(DateOrder::MonthDayYear),
        Some(DateOrder::YearMonthDay),
        None,
    ];
    let zones = [
        ClockZone::Named("Europe/London".into()),
        ClockZone::Offset(-3600),
        ClockZone::Unnamed,
        ClockZone::Unnamed,
    ];
    let hung = [Hung::Inside, Hung::Outside, Hung::Elsewhere, Hung::Inside];
    (1..)
        .zip(mappings.into_iter().zip(orders).zip(zones))
        .zip(hung.into_iter().zip(OffsetFrom::ALL))
        .map(|((id, ((mapping, order), zone)), (hung, offset_from))| {
            let (encoding, separator, decimal, columns) = mapping;
            LoggerSeries {
                id: SeriesId(id),
                name: format!("logger {id}"),
                hung,
                place: "table lamp".into(),
                file: "0123456789abcdef.csv".into(),
                original: "LOG0001.CSV".into(),
                mapping: Mapping {
                    encoding,
                    separator,
                    decimal,
                    lines_before: 3,
                    order,
                    zone,
                    clock_ahead_s: 90,
                    columns,
                    sheet: "readings".into(),
                },
                sensor: "garden".into(),
                below_freezing: match id {
                    1 => BelowFreezing::OverWater,
                    _ => BelowFreezing::OverIce,
                },
                too_warm_k: Some(0.25),
                too_damp_percent: Some(-1.5),
                offset_from,
                check: Against::ALL
                    .get(id as usize - 1)
                    .map(|against| LoggerCheck {
                        against: *against,
                        beside: Some(SeriesId(1)),
                        from: Some(moment("2024-01-31 20:00")),
                        to: Some(moment("2024-02-01 08:00")),
                    }),
                left_out: vec![LeftOut {
                    from: moment("2024-02-29 10:00"),
                    to: moment("2024-02-29 11:30:15"),
                    what: Some(What::RelativeHumidity),
                    why: "held in the hand".into(),
                }],
                note: "new battery".into(),
            }
        })
        .collect()
}

/// Three trials, one for each source of the outside air.
pub(super) fn trials() -> Vec<Trial> {
    let periods: Vec<Period> = (1..)
        .zip(Ran::ALL)
        .map(|(id, ran)| Period {
            id: PeriodId(id),
            from: Some(moment(&format!("2024-02-{:02} 12:00", 4 * id))),
            to: Some(moment(&format!("2024-02-{:02} 11:30", 4 * id + 4))),
            ran,
            machine: Some(MachineId(1)),
            heater: Some(HeaterId(1)),
            words: "two bowls of salt".into(),
            water_kg: Some(2.75),
            used_kwh: Some(21.5),
            vents: Vents::ALL[id as usize % 3],
            people: Some(0.5),
            note: "tank emptied once".into(),
        })
        .collect();
    (1..)
        .zip(OutsideFrom::ALL)
        .map(|(id, outside_from)| Trial {
            id: TrialId(id),
            name: "winter".into(),
            inside: Some(SeriesId(1)),
            outside_from,
            outside: Some(SeriesId(2)),
            clock_ahead_h: Some(-5.5),
            reference: Some(PeriodId(2)),
            periods: periods.clone(),
            note: "under trees".into(),
        })
        .collect()
}
