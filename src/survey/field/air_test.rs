//! The fields of tests of the air change.

use super::entry::{Entry, Field as F, of};

pub(super) const FIELDS: &[Entry] = &[
    of(F::AirTestName, "air_test_name", "Test of the air change")
        .stored_as("name")
        .help("A name to tell this test from others, such as \u{201c}windy night\u{201d}."),
    of(F::AirTestDate, "air_test_date", "Day of this test")
        .stored_as("date")
        .empty("YYYY-MM-DD")
        .help("The day on which the readings began."),
    of(F::AirTestInstrument, "air_test_instrument", "Read with")
        .stored_as("instrument")
        .help("Which instrument, where it stood, and when it was last checked against another."),
    of(F::AirTestBy, "by", "Told by").help(
        "What falls in the air, or was collected. A flame is never a source: not for carbon dioxide, \
         not for water. Open the doors if anybody feels unwell.",
    ),
    of(F::AirTestTested, "air_test_tested", "Vehicle as")
        .stored_as("tested")
        .help("Whether it shows the vehicle as found or after the work."),
    of(F::AirTestSetUp, "air_test_set_up", "Closable gaps were")
        .stored_as("set_up")
        .help("Which closable gaps stood open: as when laid up, or as when in use."),
    of(F::AirTestClosed, "air_test_closed", "What was open")
        .stored_as("closed")
        .rows(2)
        .help("Windows, rooflights, lockers and inner doors, and how each stood. Fixed vents stay open."),
    of(F::AirTestInside, "air_test_inside_c", "Mean air inside")
        .stored_as("inside_c")
        .range("mean temperature inside", "°C", -30.0, 50.0)
        .help("The mean of the air inside from the first reading to the last."),
    of(F::AirTestOutside, "air_test_outside_c", "Mean air outside")
        .stored_as("outside_c")
        .range("mean temperature outside", "°C", -40.0, 50.0)
        .help("The mean of the air outside in the shade, from the first reading to the last."),
    of(F::AirTestWind, "air_test_wind_m_s", "Mean wind at the vehicle")
        .stored_as("wind_m_s")
        .range("mean wind at the vehicle", "m/s", 0.0, 40.0)
        .help("By a hand-held gauge at roof height, several times through the test; note gusts and side."),
    of(F::Background, "background", "Outside air has")
        .range("what the outside air has", "", 0.0, 1.0e6)
        .help(
            "The same read outside, in the unit of the readings: some 420 ppm of carbon dioxide, or the \
             grams of water in each kilogram of outside air.",
        ),
    of(F::AirReadingAt, "minutes", "Minutes")
        .range("time of a reading", "min", 0.0, 100_000.0)
        .help("Minutes since the first reading."),
    of(F::AirReading, "value", "Reading")
        .range("reading", "", 0.0, 1.0e6)
        .help(
            "What was read with the air well mixed: ppm, or grams of water in each kilogram of air. \
             Begin after a few minutes, end while it is well above the outside air.",
        ),
    of(F::CollectedFor, "hours", "Collected for")
        .range("hours over which water was collected", "h", 1.0, 5000.0)
        .help("From the emptied tank to its weighing; whole days, once things have become steady."),
    of(F::Collected, "collected_l", "Water collected")
        .range("water collected", "L", 0.0, 1000.0)
        .help("Weigh it: a kilogram is a litre."),
    of(F::GivenOff, "given_off_l", "Water given off meanwhile")
        .range("water given off meanwhile", "L", 0.0, 1000.0)
        .help("By people, cooking and wet things; 0 where nobody was in and nothing was wet."),
    of(F::MeanInsideRh, "mean_inside_rh", "Mean humidity inside")
        .stored_as("inside_rh_percent")
        .range("mean humidity inside", "%", 1.0, 100.0)
        .help("The mean of a logger inside, away from the machine."),
    of(F::MeanOutsideRh, "mean_outside_rh", "Mean humidity outside")
        .stored_as("outside_rh_percent")
        .range("mean humidity outside", "%", 1.0, 100.0)
        .help("The mean of a logger outside in the shade and out of the rain."),
    of(F::StartRh, "start_rh_percent", "Humidity inside at the start")
        .range("humidity inside at the start", "%", 1.0, 100.0)
        .help("What furniture and boards held then, they may have given back since."),
    of(F::EndRh, "end_rh_percent", "Humidity inside at the end")
        .range("humidity inside at the end", "%", 1.0, 100.0)
        .help("The drier it has become, the more of the water came from furniture and boards."),
    of(F::AirTestNote, "air_test_note", "Note on this test")
        .stored_as("note")
        .rows(2)
        .help("What else matters: rain, doors opened, fans that mixed the air."),
];
