//! Fan tests as a survey might have them.

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
