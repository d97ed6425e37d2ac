//! The fields of the survey itself, the vehicle and where it stands.

use super::entry::{Entry, Field as F, of};

pub(super) const FIELDS: &[Entry] = &[
    of(F::Title, "title", "Title").help("The name of the survey as it stands on the job sheet."),
    of(F::Scene, "scene", "Scene")
        .empty("farmyard, left side to a wall …")
        .rows(2)
        .help("Where the vehicle stood on the day: what shelters it, on which side, how far away."),
    of(F::Surveyor, "surveyor", "Surveyor").help("Who measured, so that questions find their way."),
    of(F::Date, "date", "Date")
        .empty("year-month-day")
        .help("The day of the survey."),
    of(F::Reference, "reference", "Job reference")
        .help("The workshop's number for the job, if it has one."),
    of(F::Notes, "note", "Notes")
        .rows(3)
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
    of(F::Underside, "underside", "Under the floor").help(
        "Look under it from all sides as it stands: open all round; closed along one side by a \
             kerb, a bank, snow or an awning's skirt; or skirted all round, with gaps or tightly.",
    ),
    of(F::SkirtFreeArea, "skirt_free_area_mm2", "Gaps of the skirt")
        .range("free area of the skirt's gaps", "mm²", 100.0, 5_000_000.0)
        .help(
            "All gaps and vents of the skirt together: the length along the ground times the \
             height of the gap there, and the free area of every vent.",
        ),
    of(
        F::UnderfloorByPlace,
        "underfloor_by_place",
        "wind there by each gap's place",
    )
    .help(
        "Tick it where gaps under the floor have their place measured, from the front and from \
             the nearside: the wind sucks harder behind the edge that it meets.",
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
        .empty("by sizes")
        .range("volume", "m³", 1.0, 120.0)
        .help("Only where the body is no box: the sum of its parts, furniture not deducted."),
    of(F::Berths, "berths", "Berths")
        .range("berths", "", 0.0, 12.0)
        .help("How many people the vehicle sleeps, from its papers."),
    of(F::CodeOfPractice, "code_of_practice", "Ventilation rules").help(
        "The code of practice that holds where the vehicle is used: EN 721 in Europe, AS/NZS \
             5601.2 in Australia and New Zealand.",
    ),
    of(F::Terrain, "terrain", "Terrain").help(
        "Look some kilometres to the windward side: fields, hedges, suburb or town slow the \
             wind on its way.",
    ),
    of(F::Shelter, "shelter", "Shelter")
        .help("Look at what stands within a few vehicle lengths: walls, hedges, other vehicles."),
    of(F::Heading, "heading_deg", "Front points to")
        .direction()
        .empty("not given")
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
    .direction()
    .empty("not given")
    .range("prevailing wind from", "°", 0.0, 360.0)
    .help(
        "The direction that most wind comes from, from a wind rose of the nearest station: \
             SW, or degrees clockwise from north.",
    ),
    of(F::Altitude, "altitude_m", "Altitude")
        .range("altitude", "m", -430.0, 5000.0)
        .help("Height above sea level, from a map."),
    of(F::PressureSet, "pressure_set", "Wind pressures").help(
        "The set of wind pressures on walls and roof that results are for; Air change shows what \
             the choice does.",
    ),
];
