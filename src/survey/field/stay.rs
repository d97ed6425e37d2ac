//! The fields of the stay through a winter.

use super::entry::{Entry, Field as F, of};

pub(super) const FIELDS: &[Entry] = &[
    of(F::Winter, "winter", "Typical winter").help(
        "The winter most like that of the place; its figures are invented and can be changed month \
         by month. A weather file outranks it.",
    ),
    of(F::MonthMean, "mean_c", "Mean")
        .range("mean temperature of a month", "°C", -50.0, 40.0)
        .help("The mean temperature of the month outside, from the nearest weather station."),
    of(F::MonthRange, "daily_range_k", "Day to night")
        .range("range from day to night", "K", 0.0, 30.0)
        .help("By how much the warmest hour of a mean day is warmer than its coldest."),
    of(F::MonthRh, "rh_percent", "Humidity")
        .range("mean humidity of a month", "%", 5.0, 100.0)
        .help("The mean relative humidity outside, over day and night."),
    of(F::MonthWind, "wind_m_s", "Wind")
        .range("mean wind of a month", "m/s", 0.0, 30.0)
        .help("The mean wind 10 m above open country, from the nearest weather station."),
    of(F::MonthSun, "sunshine_h_per_day", "Sunshine")
        .range("sunshine a day", "h", 0.0, 24.0)
        .help("Hours of sunshine on a mean day of the month."),
    of(F::WeatherFile, "weather_file", "Weather file")
        .empty("none")
        .help(
            "A file of hourly weather: EPW, which has its own place, or the rows of a logger, which stand at \
             the latitude given. One that is chosen is kept with the survey; a name alone is looked for in \
             the survey's folder. It outranks the typical winter.",
        ),
    of(F::Latitude, "latitude_deg", "Latitude")
        .empty("of the winter")
        .range("latitude", "°", -70.0, 70.0)
        .help("Degrees north of the equator, from a map; south of it with a minus. The sun hangs on it."),
    of(F::SeasonFirst, "season_first", "First day")
        .empty("month-day")
        .help("The day from which the winter counts, month first: 11-01. Left empty, it is 1 November, in the south 1 May."),
    of(F::SeasonLast, "season_last", "Last day")
        .empty("month-day")
        .help("The last day that counts, month first: 03-31. Left empty, it is 31 March, in the south 30 September."),
    of(F::BodyColour, "colour", "Colour of the body").help(
        "Of roof and walls: the darker they are, the more of the sun's heat they take up.",
    ),
    of(F::Blinds, "blinds_drawn", "blinds drawn over the windows")
        .help("Tick it where blinds are drawn all winter: half of the sun through the windows stays out."),
    of(F::Covered, "covered", "under a roof or a whole cover").help(
        "Tick it where neither sun nor sky reaches the vehicle: in a barn, under a carport or a \
         cover over all of it.",
    ),
    of(F::PresentFrom, "present_from_h", "Somebody is there from")
        .empty("all the time")
        .range("hour from which somebody is there", "h", 0.0, 24.0)
        .help("In use: the hour of the day at which people come, 18 for six in the evening."),
    of(F::PresentTo, "present_to_h", "Somebody is there until")
        .empty("all the time")
        .range("hour until which somebody is there", "h", 0.0, 24.0)
        .help("In use: the hour at which they leave; 8 after 18 means that they stay the night."),
    of(F::Stores, "stores_g_per_percent", "Water that contents store")
        .empty("from the volume")
        .range("water stored for each point of humidity", "g", 0.0, 1000.0)
        .help("For each point of relative humidity; left empty, it follows from the volume."),
];
