//! Short gaps in a column are filled by straight lines; long ones stay.

use super::hour::{Hour, Weather};

/// Hours of a gap that is filled; a longer one leaves its hours not known.
pub const LONGEST_GAP_H: usize = 3;

/// A column of an hour.
type Column = fn(&mut Hour) -> &mut Option<f64>;

/// What changes evenly from hour to hour. The wind's direction does not: it keeps its last value.
const EVEN: [Column; 9] = [
    |hour| &mut hour.t_c,
    |hour| &mut hour.rh,
    |hour| &mut hour.pressure,
    |hour| &mut hour.wind,
    |hour| &mut hour.direct,
    |hour| &mut hour.diffuse,
    |hour| &mut hour.global,
    |hour| &mut hour.infrared,
    |hour| &mut hour.cloud,
];

impl Weather {
    /// Fills gaps of up to [`LONGEST_GAP_H`] hours: linearly between the hours on both sides, the
    /// wind's direction with the one before. Of direct, diffuse and global sun the one that is
    /// missing follows from the others where these are there, so it is not filled before.
    pub fn fill(&mut self) {
        for column in EVEN {
            let mut from: Option<(usize, f64)> = None;
            for at in 0..self.hours.len() {
                let Some(value) = self.hours.get_mut(at).and_then(|hour| *column(hour)) else {
                    continue;
                };
                if let Some((before, first)) = from
                    && (2..=LONGEST_GAP_H + 1).contains(&(at - before))
                {
                    let steps = crate::physics::counts::count(at - before);
                    for (step, hour) in
                        (1u32..).zip(self.hours.iter_mut().take(at).skip(before + 1))
                    {
                        *column(hour) = Some(first + (value - first) * f64::from(step) / steps);
                        hour.filled = true;
                    }
                }
                from = Some((at, value));
            }
        }
        let mut before: Option<f64> = None;
        let mut missing = 0;
        for at in 0..self.hours.len() {
            match self.hours.get(at).and_then(|hour| hour.wind_from_deg) {
                Some(value) => (before, missing) = (Some(value), 0),
                None => missing += 1,
            }
            if (1..=LONGEST_GAP_H).contains(&missing)
                && let Some(hour) = self.hours.get_mut(at)
            {
                hour.wind_from_deg = before;
                hour.filled |= before.is_some();
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::calendar::Day;
    use super::super::hour::Place;
    use super::*;

    fn weather(values: &[Option<f64>]) -> Weather {
        let day = Day::new(2023, 1, 1).expect("a day");
        let hours = values.iter().zip(1..).map(|(value, hour)| Hour {
            t_c: *value,
            wind_from_deg: *value,
            ..Hour::blank(day, hour)
        });
        Weather {
            place: Place {
                name: String::new(),
                latitude_deg: 50.0,
                longitude_deg: 0.0,
                zone_h: 0.0,
                clock_assumed: false,
                altitude_m: 0.0,
            },
            hours: hours.collect(),
            invented: false,
        }
    }

    #[test]
    fn three_hours_are_filled_by_a_straight_line_and_four_are_not() {
        let mut weather = weather(&[
            Some(1.0),
            None,
            None,
            None,
            Some(5.0),
            None,
            None,
            None,
            None,
            Some(0.0),
            None,
        ]);
        weather.fill();
        let found: Vec<Option<f64>> = weather.hours.iter().map(|hour| hour.t_c).collect();
        let expected = [
            Some(1.0),
            Some(2.0),
            Some(3.0),
            Some(4.0),
            Some(5.0),
            None,
            None,
            None,
            None,
            Some(0.0),
            None,
        ];
        assert_eq!(found, expected);
        let directions: Vec<Option<f64>> = weather
            .hours
            .iter()
            .map(|hour| hour.wind_from_deg)
            .collect();
        assert_eq!(directions[1..4], [Some(1.0); 3]);
        let filled: Vec<bool> = weather.hours.iter().map(|hour| hour.filled).collect();
        assert_eq!(filled[..5], [false, true, true, true, false]);
        assert_eq!(directions[8], None);
    }
}
