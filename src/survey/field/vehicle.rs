//! The fields of the survey itself, the vehicle and where it stands.

use super::entry::{Entry, Field as F, of};

pub(super) const FIELDS: &[Entry] = &[
    of(F::Title, "title", "Title").help("The name of the survey as it stands on the job sheet."),
    of(F::Scene, "scene", "Scene")
        .help("Where the vehicle stood on the day: what shelters it, on which side, how far away."),
    of(F::Surveyor, "surveyor", "Surveyor").help("Who measured, so that questions find their way."),
    of(F::Date, "date", "Date").help("The day of the survey, as year-month-day."),
    of(F::Reference, "reference", "Job reference")
        .help("The workshop's number for the job, if it has one."),
    of(F::Notes, "note", "Notes")
        .help("What holds for the whole survey: weather, tools, what was not reached."),
    of(F::SetUp, "set_up", "Set-up").help(
        "How the vehicle stands: laid up with nobody in it, or in use; it decides which gaps \
             that can be closed stand open.",
    ),
    of(F::VehicleKind, "kind", "Kind")
        .help("The kind of vehicle; it decides how the drawing of the body looks."),
    of(F::Length, "length_m", "Length")
        .range("length", "m", 1.5, 15.0)
        .help(
            "Outside, with a tape along the ground between two plumb lines, without drawbar and \
             bicycle rack.",
        ),
    of(F::Width, "width_m", "Width")
        .range("width", "m", 1.0, 3.0)
        .help("Outside, at the widest part of the body, without mirrors and awning."),
    of(F::RoofHeight, "height_m", "Roof above ground")
        .range("height above ground", "m", 0.05, 4.5)
        .help(
            "From the ground to the roof skin, without hatches and aerials; a lath laid on the \
             roof helps.",
        ),
    of(F::FloorHeight, "floor_height_m", "Floor above ground")
        .range("floor height", "m", 0.1, 1.8)
        .help("From the ground to the top of the floor inside, measured at the door sill."),
    of(F::Skirted, "skirted", "skirts close off the underfloor").help(
        "Tick it where skirts reach near the ground all round, so that wind hardly blows \
             under the floor.",
    ),
    of(F::InsideLength, "inside_length_m", "Length inside")
        .range("inside length", "m", 1.0, 15.0)
        .help(
            "With a tape or laser from wall to wall, furniture not deducted; with a cab, to the \
             windscreen.",
        ),
    of(F::InsideWidth, "inside_width_m", "Width inside")
        .range("inside width", "m", 0.8, 3.0)
        .help("With a tape or laser between the side walls, furniture not deducted."),
    of(F::InsideHeight, "inside_height_m", "Height inside")
        .range("inside height", "m", 0.8, 3.0)
        .help("From floor to ceiling in the middle of the room."),
    of(F::Volume, "volume_m3", "Volume, if better known")
        .range("volume", "m³", 1.0, 120.0)
        .help("Only where the body is no box: the sum of its parts, furniture not deducted."),
    of(F::Berths, "berths", "Berths")
        .range("berths", "", 0.0, 12.0)
        .help("How many people the vehicle sleeps, from its papers."),
    of(F::CodeOfPractice, "code_of_practice", "Ventilation after").help(
        "The code of practice that holds where the vehicle is used: EN 721 in Europe, AS/NZS \
             5601.2 in Australia and New Zealand.",
    ),
    of(F::Terrain, "terrain", "District").help(
        "Look some kilometres to the windward side: fields, hedges, suburb or town slow the \
             wind on its way.",
    ),
    of(F::Shelter, "shelter", "Shelter")
        .help("Look at what stands within a few vehicle lengths: walls, hedges, other vehicles."),
    of(F::Heading, "heading_deg", "Front points to")
        .range("heading", "°", 0.0, 360.0)
        .help(
            "Read a compass along the vehicle, some steps away from its steel: a point such as \
             NW, or degrees clockwise from north.",
        ),
    of(
        F::PrevailingWind,
        "prevailing_wind_deg",
        "Prevailing wind from",
    )
    .range("prevailing wind from", "°", 0.0, 360.0)
    .help(
        "The direction that most wind comes from, from a wind rose of the nearest station: \
             SW, or degrees clockwise from north.",
    ),
    of(F::Altitude, "altitude_m", "Altitude")
        .range("altitude", "m", -430.0, 5000.0)
        .help("Height above sea level, from a map."),
    of(F::PressureSet, "pressure_set", "Wind pressures")
        .help("The published set of wind pressures that results are for."),
];
