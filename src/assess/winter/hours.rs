//! The weather of a season made ready: outside air, wind, sun and sky of each hour.

use super::elements::{Element, OnBody};
use crate::assess::answer::Answer;
use crate::assess::not_known::NotKnown;
use crate::assess::possible::site_pressure;
use crate::climate::{Hour, Weather};
use crate::physics::MoistAir;
use crate::physics::counts::count;
use crate::physics::sky::{black_body, clear_sky_emissivity, infrared};
use crate::physics::sun::{Light, Moment, Sun, sun};
use crate::physics::wind::speed_at_body;
use crate::physics::winter::Forcing;
use crate::survey::{Stay, Survey};

/// Hours of a day.
const DAY: usize = 24;
/// Share of hours that may be not known.
const MOST_NOT_KNOWN: f64 = 0.1;
/// Below this the sun is down, whatever a file says of it, degrees.
const DOWN_DEG: f64 = -1.0;
/// Below this direct light does not follow from global and diffuse, degrees.
const TOO_LOW_DEG: f64 = 3.0;

/// One hour of the season.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Outdoors {
    pub(super) hour: Hour,
    pub(super) air: MoistAir,
    /// At the body, m/s.
    pub(super) wind: f64,
    /// Off the front, degrees; `None` where heading or direction is not known.
    pub(super) from_front_deg: Option<f64>,
    on: OnBody,
    infrared: f64,
    /// Something of it was not recorded: that of the day before stands in, and it does not count.
    pub(super) not_known: bool,
}

/// Every hour of a season made ready.
///
/// Where something of an hour was not recorded, that of the same hour of the day before stands in, for it
/// alone, and the hour does not count.
///
/// # Errors
/// [`NotKnown`] where more than a tenth of the hours is, or a sun cannot be placed.
pub(super) fn outdoors(
    (survey, stay): (&Survey, &Stay),
    weather: &Weather,
    season: &[Hour],
    roof_m: f64,
) -> Answer<Vec<Outdoors>> {
    let ready = |hour: &Hour| one((survey, stay), weather, hour, roof_m);
    let mut all: Vec<Outdoors> = Vec::with_capacity(season.len());
    // What is taken for each hour: what was recorded of it, and what stands in for the rest.
    let mut taken: Vec<Hour> = Vec::with_capacity(season.len());
    let mut missing: Option<(usize, NotKnown)> = None;
    let mut leading = 0;
    for hour in season {
        let unknown = match ready(hour) {
            Ok(found) => {
                // Before the first hour that is known it stands for those.
                for _ in 0..leading {
                    let not_known = true;
                    all.push(Outdoors {
                        not_known,
                        ..found.clone()
                    });
                    taken.push(*hour);
                }
                leading = 0;
                all.push(found);
                taken.push(*hour);
                continue;
            }
            Err(unknown) => unknown,
        };
        missing = Some((missing.map_or(1, |(count, _)| count + 1), unknown));
        let day_before = taken.len().checked_sub(DAY);
        let Some(other) = day_before.and_then(|at| taken.get(at)).or(taken.last()) else {
            leading += 1;
            continue;
        };
        let mut filled = hour.filled_by(other);
        // What of the hour itself cannot be is no better than nothing.
        let found = ready(&filled).or_else(|_| {
            filled = *other;
            ready(other)
        })?;
        let not_known = true;
        all.push(Outdoors { not_known, ..found });
        taken.push(filled);
    }
    for (own, hour) in all.iter_mut().zip(season) {
        own.hour = *hour;
    }
    match missing {
        Some((missing, unknown)) if missing == season.len() => Err(NotKnown::because(format!(
            "no hour of the winter is known: {}",
            unknown.reason
        ))),
        Some((missing, unknown)) if count(missing) > MOST_NOT_KNOWN * count(season.len()) => {
            Err(NotKnown::because(format!(
                "of {} hours of the winter {missing} are not known: {}",
                season.len(),
                unknown.reason
            )))
        }
        _ => Ok(all),
    }
}

fn one(
    (survey, stay): (&Survey, &Stay),
    weather: &Weather,
    hour: &Hour,
    roof_m: f64,
) -> Answer<Outdoors> {
    let known = |value: Option<f64>, what: &str| {
        value.ok_or_else(|| NotKnown::because(format!("the weather has no {what}")))
    };
    let t_c = known(hour.t_c, "temperature")?;
    let rh = known(hour.rh, "humidity")?;
    let wind = known(hour.wind, "wind")?;
    // The file's own pressure, otherwise that of the survey's altitude.
    let pressure = match hour.pressure {
        Some(pressure) => pressure,
        None => site_pressure(survey)?,
    };
    let air = MoistAir::from_relative_humidity(t_c, rh, pressure)?;
    let place = &weather.place;
    let moment = Moment {
        year: hour.day.year,
        month: hour.day.month,
        day: hour.day.day,
        hour: hour.middle_h() - place.zone_h,
    };
    let sun = sun(moment, place.latitude_deg, place.longitude_deg, pressure)
        .map_err(|error| NotKnown::because(error.to_string()))?;
    // Neither reaches it under a cover, and a logger has neither.
    let light = if stay.covered {
        Light::default()
    } else {
        light(hour, &sun)?
    };
    let heading_deg = survey.site.front_points_to();
    let sky = match hour.infrared {
        Some(infrared) => infrared,
        None if stay.covered => black_body(t_c),
        None => {
            let cloud = known(hour.cloud, "infrared of the sky and no clouds either")?;
            let dew_point = known(air.dew_point_c(), "humidity")?;
            let clear = clear_sky_emissivity(dew_point, hour.middle_h(), pressure);
            infrared(t_c, clear, cloud)
        }
    };
    let from_front_deg = heading_deg
        .zip(hour.wind_from_deg)
        .map(|(heading, from)| (from - heading).rem_euclid(360.0));
    Ok(Outdoors {
        hour: *hour,
        air,
        wind: speed_at_body(survey.site.terrain, wind, roof_m),
        from_front_deg,
        on: OnBody::new(&sun, &light, heading_deg),
        infrared: sky,
        not_known: false,
    })
}

/// Light of an hour; what is missing of direct, diffuse and global follows from the others, `G = B
/// sin h + D`. At night there is none.
///
/// # Errors
/// [`NotKnown`] where two of them are missing.
fn light(hour: &Hour, sun: &Sun) -> Answer<Light> {
    let sine = sun.elevation_deg.to_radians().sin().max(0.0);
    let missing = || {
        NotKnown::because(
            "the weather has no sun, which only a vehicle under a whole cover can do without",
        )
    };
    if sun.elevation_deg < DOWN_DEG && hour.direct.or(hour.diffuse).or(hour.global).is_none() {
        return Ok(Light::default());
    }
    let (direct, diffuse) = match (hour.direct, hour.diffuse, hour.global) {
        (Some(direct), Some(diffuse), _) => (direct, diffuse),
        (Some(direct), None, Some(global)) => (direct, (global - direct * sine).max(0.0)),
        (None, Some(diffuse), Some(global)) => {
            let high = sun.elevation_deg > TOO_LOW_DEG;
            (
                if high {
                    (global - diffuse).max(0.0) / sine
                } else {
                    0.0
                },
                diffuse,
            )
        }
        _ => return Err(missing()),
    };
    Ok(Light {
        direct,
        diffuse,
        global: hour.global.unwrap_or(direct * sine + diffuse),
    })
}

/// Sources of one hour.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Sources {
    pub(super) vapour: f64,
    pub(super) liquid: f64,
    pub(super) gains: f64,
}

impl Outdoors {
    /// What the hour does to the vehicle. `sources` are means over the day; in the hours of
    /// presence they come at once.
    pub(super) fn forcing(
        &self,
        elements: &[Element],
        stay: &Stay,
        sources: &Sources,
        in_use: bool,
    ) -> Forcing {
        let outside_c = self.air.t_c;
        let seen = elements.iter().map(|element| {
            if stay.covered {
                Element::covered(outside_c)
            } else {
                element.seen(outside_c, &self.on, self.infrared, self.wind)
            }
        });
        let (mut envelope_gain, mut seen_c) = (0.0, Vec::with_capacity(elements.len()));
        for one in seen {
            envelope_gain += one.gain;
            seen_c.push(one.seen_c);
        }
        let presence = stay
            .presence()
            .filter(|presence| in_use && presence.hours() > 0.0);
        let (present, times) = match presence {
            None => (in_use, 1.0),
            Some(presence) if presence.at(self.hour.middle_h()) => (true, 24.0 / presence.hours()),
            Some(_) => (false, 0.0),
        };
        Forcing {
            outside: self.air,
            envelope_gain,
            seen_c,
            vapour_source: sources.vapour * times,
            liquid_source: sources.liquid * times,
            gains: sources.gains * times,
            present,
        }
    }
}
