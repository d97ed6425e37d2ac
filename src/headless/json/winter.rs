//! What `winter --json` prints.

use super::object::{Object, list};
use crate::assess::winter::{
    Apart, Bands, Figure, Frost, Humidity, Laid, LaidOver, MouldAt, Season, Weathered, WinterOption,
};
use crate::assess::{Answer, NotKnown};
use crate::climate::Day;
use crate::physics::mould::Sensitivity;
use crate::report::winter::WinterTold;
use crate::survey::word::Word;

/// What a column tells of the difference.
type PartOf = fn(&LaidOver) -> &Apart;

/// Number of the layout of the output.
const FORMAT: u32 = 1;

/// A day, without its year where that is no year of its own.
fn day(weathered: &Weathered, day: Day) -> String {
    let plain = format!("{:02}-{:02}", day.month, day.day);
    if weathered.invented {
        plain
    } else {
        format!("{:04}-{plain}", day.year)
    }
}

pub(super) fn winter(told: &WinterTold<'_>) -> Object {
    let weathered = told.weathered;
    let outside = with_humidity(Object::new(), &weathered.humidity)
        .with("mean_c", weathered.mean_c)
        .with("frost", frost(&weathered.frost));
    let head = Object::new()
        .with("format", FORMAT)
        .with("program", "gapledger")
        .with("program_version", env!("CARGO_PKG_VERSION"))
        .with("set_up", told.survey.set_up.word())
        .with("place", weathered.place.as_str())
        .with("typical", told.typical.map(|typical| typical.word()))
        .with("first_day", day(weathered, weathered.days.0))
        .with("last_day", day(weathered, weathered.days.1))
        .with("hours", weathered.hours)
        .with("unknown_hours", weathered.not_known)
        .with("any_heading", weathered.any_heading)
        .with("clock_assumed", weathered.clock_assumed)
        .with("several_years", weathered.several_years)
        .with("one_year", weathered.one_year)
        .with("whole_winters", weathered.winters)
        .with("outside", outside)
        .with("options", options(told.options, told.seasons));
    let none = Err(NotKnown::because("no gap is planned"));
    let planned = told.planned.as_ref().unwrap_or(&none);
    let head = head.found("after_plan", planned, |planned| {
        options(planned.options, planned.seasons)
    });
    let doubt = told.doubt.and_then(Result::ok);
    let head = head.with("draws", doubt.map(|doubt| doubt.draws)).with(
        "bands",
        doubt.map_or_else(Vec::new, |doubt| list(&doubt.bands, bands)),
    );
    head.with("measured", list(told.laid, laid))
}

fn laid(laid: &Laid) -> Object {
    let apart = |of: fn(&LaidOver) -> &Apart, scale: f64| {
        let over = laid.over.as_ref().map_err(Clone::clone);
        over.map(|over| (of(over).mean * scale, of(over).spread * scale))
    };
    let told = Object::new()
        .with("trial", laid.trial.0)
        .with("period", laid.period.0)
        .with("ran", laid.ran.as_str())
        .found("hours", &laid.over, |over| over.hours);
    let columns: [(&'static str, PartOf, f64); 3] = [
        ("inside_k", |over| &over.t_c, 1.0),
        ("rh_percent", |over| &over.rh, 100.0),
        ("water_g_per_kg", |over| &over.water, 1000.0),
    ];
    columns.into_iter().fold(told, |told, (key, of, scale)| {
        told.found(key, &apart(of, scale), |(mean, spread)| {
            Object::new().with("mean", *mean).with("spread", *spread)
        })
    })
}

fn options(options: &[WinterOption], seasons: &[Answer<Season>]) -> Vec<Object> {
    list(options.iter().zip(seasons), |(option, answer)| {
        Object::new()
            .with("kind", option.kind.word())
            .with("name", option.name.as_str())
            .with("generic", option.generic)
            .found("season", answer, season)
    })
}

fn with_humidity(object: Object, humidity: &Humidity) -> Object {
    let ([hours_60, hours_70, hours_80], [share_60, share_70, share_80]) =
        (humidity.hours_above, humidity.share_above);
    object
        .with("rh_mean_percent", humidity.mean * 100.0)
        .with("rh_low_percent", humidity.low * 100.0)
        .with("rh_high_percent", humidity.high * 100.0)
        .with("above_60_hours", hours_60)
        .with("above_70_hours", hours_70)
        .with("above_80_hours", hours_80)
        .with("above_60_share", share_60)
        .with("above_70_share", share_70)
        .with("above_80_share", share_80)
}

fn frost(frost: &Frost) -> Object {
    Object::new()
        .with("hours", frost.hours)
        .with("longest_hours", frost.longest_h)
        .with("nights", frost.nights)
        .with("degree_hours", frost.degree_hours)
}

fn season(season: &Season) -> Object {
    with_humidity(Object::new(), &season.humidity)
        .with("inside_mean_c", season.mean_c)
        .with("frost", frost(&season.frost))
        .with("frost_in_corner", frost(&season.frost_in_corner))
        .with("condensation_hours", season.condensation_hours)
        .with("run_off_l", season.run_off_l)
        .with("removed_l", season.removed_l)
        .with("machine_kwh", season.machine_kwh)
        .with("heater_kwh", season.heater_kwh)
        .with("machine_hours", season.machine_hours)
        .with("too_cold_hours", season.too_cold_hours)
        .with("cost", &season.cost)
        .with("tub_full_days", season.tub_full_days)
        .list("mould", &season.mould, mould)
}

fn mould(at: &MouldAt) -> Object {
    let place = Object::new()
        .with("element", at.spot.element.0)
        .with("surface", at.spot.spot.word())
        .with("in_locker", at.spot.in_locker)
        .with("temperature_factor", at.spot.temperature_factor);
    let names = [
        "very_sensitive",
        "sensitive",
        "medium_resistant",
        "resistant",
    ];
    let of = names.iter().zip(0..Sensitivity::ALL.len());
    of.fold(place, |place, (name, class)| {
        let begins = at.begins_at.get(class).copied().flatten();
        let known = at.highest.get(class).zip(at.end.get(class));
        let (highest, end) = known.map_or((f64::NAN, f64::NAN), |(one, other)| (*one, *other));
        place.with(
            *name,
            Object::new()
                .with("highest", highest)
                .with("end", end)
                .with("begins_at_hour", begins),
        )
    })
}

/// The key of a number of the bands.
fn key(figure: Figure) -> (&'static str, f64) {
    match figure {
        Figure::MeanRh => ("rh_mean_percent", 100.0),
        Figure::Above60 => ("above_60_share", 1.0),
        Figure::Above70 => ("above_70_share", 1.0),
        Figure::Above80 => ("above_80_share", 1.0),
        Figure::FrostNights => ("frost_nights", 1.0),
        Figure::WetHours => ("condensation_hours", 1.0),
        Figure::Mould => ("mould_index", 1.0),
        Figure::Water => ("removed_l", 1.0),
        Figure::Energy => ("energy_kwh", 1.0),
        Figure::Cost => ("cost", 1.0),
    }
}

fn bands(answer: &Answer<Bands>) -> Object {
    Figure::ALL.iter().fold(Object::new(), |object, figure| {
        let (key, scale) = key(*figure);
        let band = answer.as_ref().map_err(Clone::clone).and_then(|bands| {
            let known = bands.of(*figure);
            known.ok_or_else(|| NotKnown::because("it is not known in every draw"))
        });
        object.found(key, &band, |band| {
            Object::new()
                .with("low", band.low * scale)
                .with("median", band.median * scale)
                .with("high", band.high * scale)
        })
    })
}
