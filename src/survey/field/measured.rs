//! The fields of measurements.

use super::entry::{Entry, Field as F, of};

pub(super) const FIELDS: &[Entry] = &[
    of(F::Calibrated, "calibrated", "Measurements weigh in the results").help(
        "On: every result is worked out with what sizes and measurements together make most likely. \
         Off: with the gaps as surveyed alone.",
    ),
    of(F::FanTestName, "fan_test_name", "Test")
        .stored_as("name")
        .help("A name to tell this test from others, such as \u{201c}before the work\u{201d}."),
    of(F::FanTestDate, "fan_test_date", "Day of the test")
        .stored_as("date")
        .empty("YYYY-MM-DD")
        .help("The day on which the readings were taken."),
    of(F::Instrument, "instrument", "Fan and gauges").help(
        "Which fan and which pressure gauge, with numbers and the day of their last calibration.",
    ),
    of(F::Tested, "tested", "Vehicle tested").help(
        "Whether the test shows the vehicle as found or after the work: it is held against the gaps \
         of that state.",
    ),
    of(F::TestedSetUp, "fan_test_set_up", "Closable gaps stood")
        .stored_as("set_up")
        .help("Which closable gaps stood open during the test: as when laid up, or as when in use."),
    of(F::ClosedForTest, "closed", "What was closed")
        .rows(2)
        .help("Windows, rooflights, doors, lockers and drains, and how each stood while the fan ran."),
    of(F::CoveredForTest, "covered_for_test", "Covered for the test").stored_as("covered").help(
        "Every opening that was taped or stuffed for the test. Each stays a danger on every page \
         and sheet until it is ticked as uncovered.",
    ),
    of(F::CoveredGap, "covered_gap", "Gap")
        .stored_as("gap")
        .help("The gap of the ledger that was covered, or none of them."),
    of(F::CoveredWhat, "what", "Opening")
        .help("Which opening it is, in words that another person finds it by."),
    of(F::Uncovered, "uncovered", "uncovered again").help(
        "Tick it only when you have taken the cover off and looked: a covered vent or flue can kill.",
    ),
    of(F::TestInside, "inside_c", "Air inside")
        .range("temperature inside during the test", "°C", -30.0, 50.0)
        .help("The air inside while the readings were taken, in the middle of the vehicle."),
    of(F::TestOutside, "outside_c", "Air outside")
        .range("temperature outside during the test", "°C", -40.0, 50.0)
        .help("The air outside in the shade while the readings were taken."),
    of(F::Barometer, "barometer_hpa", "Air pressure")
        .empty("by altitude")
        .range("air pressure", "hPa", 500.0, 1080.0)
        .help(
            "The pressure of the air at the place itself, not reduced to sea level; left empty, that \
             of the altitude is taken.",
        ),
    of(F::TestWind, "wind_m_s", "Wind at the vehicle")
        .range("wind during the test", "m/s", 0.0, 40.0)
        .help("By a hand-held gauge at roof height; above 3 m/s readings become unsteady."),
    of(F::ZeroBefore, "zero_before_pa", "Fan covered, before")
        .range("pressure with the fan covered", "Pa", -50.0, 50.0)
        .help(
            "The pressure with the fan stopped and covered, before the readings: plus where it acts the \
             same way as the fan does then, minus where it acts against it.",
        ),
    of(F::ZeroAfter, "zero_after_pa", "Fan covered, after")
        .range("pressure with the fan covered", "Pa", -50.0, 50.0)
        .help("The same after the readings: plus where it acts the same way as the fan."),
    of(F::ReadPressure, "pressure_pa", "Pressure")
        .range("pressure of a reading", "Pa", 1.0, 500.0)
        .help("The steady pressure between inside and outside, without its sign."),
    of(F::ReadFlow, "fan_flow_read_m3_per_h", "Flow")
        .stored_as("flow_m3_per_h")
        .range("flow of a reading", "m³/h", 0.5, 20_000.0)
        .help("The flow that the fan shows at that pressure, of the air that passes through it."),
    of(F::TestNote, "fan_test_note", "Note")
        .stored_as("note")
        .rows(2)
        .help("What else matters: gusts, a door that would not stay shut, who was there."),
];
