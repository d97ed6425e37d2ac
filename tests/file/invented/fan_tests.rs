//! Fan tests and tests of the air change as a survey might have them.

use super::Maker;
use gapledger::survey::*;

impl Maker {
    pub(super) fn fan_test(&mut self, id: u32) -> FanTest {
        FanTest {
            id: FanTestId(id),
            name: self.text(),
            date: self.text(),
            instrument: self.text(),
            tested: self.pick(&Tested::ALL),
            set_up: self.pick(&SetUp::ALL),
            closed: self.text(),
            covered: self.list(3, |maker, _| Covered {
                gap: maker.yes().then(|| GapId(maker.next())),
                what: maker.text(),
                uncovered: maker.yes(),
            }),
            inside_c: self.maybe(),
            outside_c: self.maybe(),
            barometer_hpa: self.maybe(),
            wind_m_s: self.maybe(),
            blowing_out: self.fan_readings(),
            blowing_in: self.fan_readings(),
            note: self.text(),
        }
    }

    pub(super) fn air_test(&mut self, id: u32) -> AirTest {
        AirTest {
            id: AirTestId(id),
            name: self.text(),
            date: self.text(),
            instrument: self.text(),
            by: self.pick(&AirTestBy::ALL),
            tested: self.pick(&Tested::ALL),
            set_up: self.pick(&SetUp::ALL),
            closed: self.text(),
            inside_c: self.maybe(),
            outside_c: self.maybe(),
            wind_m_s: self.maybe(),
            background: self.maybe(),
            readings: self.list(6, |maker, _| AirReading {
                minutes: maker.maybe(),
                value: maker.maybe(),
            }),
            hours: self.maybe(),
            collected_l: self.maybe(),
            given_off_l: self.maybe(),
            inside_rh_percent: self.maybe(),
            outside_rh_percent: self.maybe(),
            start_rh_percent: self.maybe(),
            end_rh_percent: self.maybe(),
            note: self.text(),
        }
    }

    fn fan_readings(&mut self) -> FanReadings {
        FanReadings {
            readings: self.list(6, |maker, _| FanReading {
                pressure_pa: maker.maybe(),
                flow_m3_per_h: maker.maybe(),
            }),
            zero_before_pa: self.maybe(),
            zero_after_pa: self.maybe(),
        }
    }
}
