//! Loggers and trials as a survey might have them.

use super::Maker;
use gapledger::series::{
    Column, DateOrder, Decimal, Encoding, Mapping, Separator, What, Zone as ClockZone,
};
use gapledger::survey::*;

impl Maker {
    pub(super) fn logger(&mut self, id: u32) -> LoggerSeries {
        LoggerSeries {
            id: SeriesId(id),
            name: self.text(),
            hung: self.pick(&Hung::ALL),
            place: self.text(),
            file: self
                .pick(&["0123456789abcdef.csv", "logger two.xlsx"])
                .into(),
            original: self.text(),
            mapping: self.mapping(),
            sensor: self.text(),
            below_freezing: self.pick(&[BelowFreezing::OverWater, BelowFreezing::OverIce]),
            too_warm_k: self.maybe(),
            too_damp_percent: self.maybe(),
            offset_from: self.pick(&OffsetFrom::ALL),
            check: self.yes().then(|| LoggerCheck {
                against: self.pick(&Against::ALL),
                beside: self.yes().then(|| SeriesId(self.next())),
                from: self.yes().then(|| self.moment()),
                to: self.yes().then(|| self.moment()),
            }),
            left_out: self.list(3, |maker, _| LeftOut {
                from: maker.moment(),
                to: maker.moment(),
                what: maker.yes().then(|| maker.pick(&What::ALL)),
                why: maker.text(),
            }),
            note: self.text(),
        }
    }

    fn moment(&mut self) -> Moment {
        Moment::from_seconds(i64::from(self.next() % 4_000_000_000)).unwrap()
    }

    fn mapping(&mut self) -> Mapping {
        Mapping {
            encoding: self.pick(&Encoding::ALL),
            separator: self.pick(&Separator::ALL),
            decimal: self.pick(&Decimal::ALL),
            lines_before: self.next() as usize % 50,
            order: self.yes().then(|| self.pick(&DateOrder::ALL)),
            zone: match self.next() % 3 {
                0 => ClockZone::Unnamed,
                1 => ClockZone::Offset(i64::from(self.next() % 90_000) - 45_000),
                _ => ClockZone::Named(self.text()),
            },
            clock_ahead_s: i64::from(self.next()) - 2_000_000_000,
            columns: self.list(5, |maker, _| maker.column()),
            sheet: self.text(),
        }
    }

    fn column(&mut self) -> Column {
        match self.next() % 5 {
            0 => Column::LeftOut,
            1 => Column::Moment,
            2 => Column::Date,
            3 => Column::TimeOfDay,
            _ => {
                let what = self.pick(&What::ALL);
                let unit = self.pick(what.units());
                let sensor = self.text();
                Column::Readings { what, unit, sensor }
            }
        }
    }

    pub(super) fn trial(&mut self, id: u32) -> Trial {
        Trial {
            id: TrialId(id),
            name: self.text(),
            inside: self.yes().then(|| SeriesId(self.next())),
            outside_from: self.pick(&OutsideFrom::ALL),
            outside: self.yes().then(|| SeriesId(self.next())),
            clock_ahead_h: self.maybe(),
            reference: self.yes().then(|| PeriodId(self.next())),
            periods: self.list(4, |maker, id| Period {
                id: PeriodId(id),
                from: maker.yes().then(|| maker.moment()),
                to: maker.yes().then(|| maker.moment()),
                ran: maker.pick(&Ran::ALL),
                machine: maker.yes().then(|| MachineId(maker.next())),
                heater: maker.yes().then(|| HeaterId(maker.next())),
                words: maker.text(),
                water_kg: maker.maybe(),
                used_kwh: maker.maybe(),
                vents: maker.pick(&Vents::ALL),
                people: maker.maybe(),
                note: maker.text(),
            }),
            note: self.text(),
        }
    }
}
