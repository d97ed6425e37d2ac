//! The fields of loggers and trials.

use super::entry::{Entry, Field as F, of};

pub(super) const FIELDS: &[Entry] = &[
    of(F::LoggerName, "logger_name", "Logger")
        .stored_as("name")
        .help("A name to tell this logger from others, such as \u{201c}white one, inside\u{201d}."),
    of(F::Hung, "hung", "Where it hung").help(
        "Inside: in the middle of the living space at chest height, out of the sun and away from \
         machine and heater. Outside: in the shade, out of the rain, away from vents.",
    ),
    of(F::HungPlace, "place", "Place")
        .help("Where exactly, so that it can hang there again: on the table lamp, under the chassis."),
    of(F::LoggerFile, "logger_file", "File")
        .stored_as("file")
        .help("The logger's own file, kept unchanged in the survey's data folder."),
    of(F::Mapping, "mapping", "How it is read")
        .help("Separators, order of dates, columns and units by which the file is read."),
    of(F::Sensor, "sensor", "Sensor")
        .empty("the only one")
        .help("Which sensor of the file it is, where the file has several."),
    of(F::BelowFreezing, "below_freezing", "Humidity below 0 °C").help(
        "Most loggers state humidity over water at every temperature; some over ice. Its data sheet \
         says so. It matters only in frost.",
    ),
    of(F::TooWarm, "too_warm_k", "Reads too warm by")
        .range("by how much the logger reads too warm", "K", -10.0, 10.0)
        .help(
            "What is taken off every temperature it read; less than zero where it reads too cold. Two \
             loggers side by side for a night show it.",
        ),
    of(F::TooDamp, "too_damp_percent", "Reads too damp by")
        .range("by how much the logger reads too damp", "%", -30.0, 30.0)
        .help(
            "Points of relative humidity that are taken off every reading; less than zero where it reads \
             too dry. Over wet kitchen salt in a closed box it should read 75 %.",
        ),
    of(F::OffsetFrom, "offset_from", "Known by")
        .help("How it is known by how much the logger is off; nobody having checked is an answer too."),
    of(F::CheckedAgainst, "against", "Held against").help(
        "Let both loggers lie side by side for a night, out of the sun, or close one in a box over salt \
         that is as wet as porridge, for two days in a room of 20 to 25 °C. Salt must not touch it.",
    ),
    of(F::CheckedBeside, "beside", "Logger beside it").help(
        "The logger that is taken to be right: the dearer one, one with a certificate, or one that was over \
         salt. Between two of which neither is known to be right, only their difference is mended.",
    ),
    of(F::CheckedFrom, "check_from", "From")
        .stored_as("from")
        .empty("YYYY-MM-DD hh:mm")
        .help("When they had been put together. Over salt the first twelve hours are left out by themselves."),
    of(F::CheckedTo, "check_to", "To")
        .stored_as("to")
        .empty("YYYY-MM-DD hh:mm")
        .help("When they were parted, or the box was opened."),
    of(F::LeftOut, "left_out", "Left out").help(
        "Stretches of readings that do not count, by your word. Taken off this list they count again.",
    ),
    of(F::LoggerNote, "logger_note", "Note")
        .stored_as("note")
        .rows(2)
        .help("What else matters of this logger: when it was moved, a new battery, rain on it."),
    of(F::TrialName, "trial_name", "Trial")
        .stored_as("name")
        .help("A name for the trial, such as \u{201c}November in the orchard\u{201d}."),
    of(F::InsideSeries, "inside_series", "Logger inside")
        .stored_as("inside")
        .help("The logger that hung in the free air inside: temperature and humidity."),
    of(F::OutsideFrom, "outside_from", "Outside air from").help(
        "A logger outside is best. A weather file is of another place; the weather cases are the same \
         every day and allow no verdict.",
    ),
    of(F::OutsideSeries, "outside_series", "Logger outside")
        .stored_as("outside")
        .help("The logger that hung outside in the shade, or readings of a weather station nearby."),
    of(F::ClockAhead, "clock_ahead_h", "Clock ahead of universal time")
        .range("hours by which the clock is ahead of universal time", "h", -14.0, 14.0)
        .help(
            "For the clock that the periods are written by: 0 in Britain in winter, 1 in central Europe. \
             Asked only where a logger's file names its time zone.",
        ),
    of(F::ReferencePeriod, "reference", "Held against")
        .empty("the first with nothing running")
        .help("The period that all others are held against: one in which nothing ran."),
    of(F::PeriodFrom, "from", "From")
        .empty("YYYY-MM-DD hh:mm")
        .help("Day and time of day at which it began, by the clock of the place."),
    of(F::PeriodTo, "to", "To")
        .empty("YYYY-MM-DD hh:mm")
        .help("Day and time of day at which it ended, by the clock of the place."),
    of(F::RanWhat, "ran", "What ran").help(
        "Nothing, machine and heater of the survey, or something else in words. Give a period of \
         nothing before and after each method.",
    ),
    of(F::RanMachine, "ran_machine", "Machine that ran")
        .stored_as("machine")
        .help("The drying machine of the survey that ran all through the period."),
    of(F::RanHeater, "ran_heater", "Heater that ran")
        .stored_as("heater")
        .help("The heater of the survey that ran all through the period."),
    of(F::RanWords, "words", "In words")
        .help("What ran, where it is no equipment of the survey: such as two bowls of salt."),
    of(F::WaterCollected, "water_kg", "Water collected")
        .range("water collected", "kg", 0.0, 500.0)
        .help(
            "What the machine or tub took out of the air: weigh the tank empty and full; a litre is a \
             kilogram. Of a tub, weigh the whole tub before and after.",
        ),
    of(F::PeriodKwh, "used_kwh", "Electricity used")
        .range("electricity used", "kWh", 0.0, 5000.0)
        .help("By a plug-in meter over the whole period."),
    of(F::PeriodVents, "vents", "Vents that close")
        .help("Whether the vents that may be closed stood open or closed all through the period."),
    of(F::PeriodPeople, "people", "People inside")
        .range("people inside", "", 0.0, 20.0)
        .help("How many were inside on average: one person for half of the time is 0.5."),
    of(F::PeriodNote, "period_note", "Note")
        .stored_as("note")
        .rows(2)
        .help("What else happened: a door left open, a wet dog, the tank full before the end."),
    of(F::TrialNote, "trial_note", "Note on the trial")
        .stored_as("note")
        .rows(2)
        .help("What else matters of the trial: where it stood, what was stored inside."),
];
