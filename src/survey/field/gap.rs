//! The fields of zones, and gaps with their sizes, places and remedies.

use super::entry::{Entry, Field as F, of};

pub(super) const FIELDS: &[Entry] = &[
    of(F::ZoneName, "name", "Name of the zone")
        .help("A place that you look at in one go, such as the cab or the floor edge."),
    of(F::GapName, "name", "What it is")
        .empty("door seal, cable hole …")
        .help(
            "Say what leaks so that somebody else finds it: door seal, cable hole behind the \
             fridge.",
        ),
    of(F::Zone, "zone", "Zone").help(
        "The group of places it belongs to; zones have totals, so that you see where to begin.",
    ),
    of(F::Facing, "facing", "Facing").help(
        "The outside that the air comes from: follow the gap to its outer end with torch and \
             mirror. Nearside is left, seen facing forward.",
    ),
    of(
        F::CavityPressure,
        "cavity_pressure_coefficient",
        "Cavity's Cp",
    )
    .empty("underfloor")
    .range("cavity pressure coefficient", "", -3.0, 1.0)
    .help(
        "The wind pressure in the cavity as a share of the wind's own; leave it empty unless \
             you have measured it, then the underfloor's is taken.",
    ),
    of(F::Space, "space", "Space inside").help(
        "The space that the air comes into first: look at which side of curtain, bulkhead or \
             door the inner end lies.",
    ),
    of(F::Form, "form", "Form").help(
        "Choose the form that needs the fewest guesses: a narrow gap for seals and joints, a \
             hole for cables, a ring where a pipe fills part of the hole.",
    ),
    of(F::GapLength, "gap_length_mm", "Length")
        .stored_as("length_mm")
        .range("length", "mm", 0.1, 50_000.0)
        .help("Lay a tape along the gap and add its pieces: 2*600+2*400 is taken as a sum."),
    of(F::GapWidth, "gap_width_mm", "Clear width")
        .stored_as("width_mm")
        .range("width", "mm", 0.01, 3000.0)
        .help(
            "Push feeler gauges in until one just drags, at several places, and take the mean; \
             where daylight shows but no gauge reaches, say so under “Size found by”.",
        ),
    of(F::GapDepth, "gap_depth_mm", "Depth of the gap")
        .stored_as("depth_mm")
        .range("depth", "mm", 0.1, 500.0)
        .help(
            "How far the air travels in the gap, from inside to outside: push a thin strip \
             through and mark both faces on it.",
        ),
    of(F::Bends, "bends", "Bends in the gap")
        .range("bends", "", 0.0, 8.0)
        .help(
            "Count the corners that the air turns on its way: none for a plain joint, two round a \
             lip.",
        ),
    of(F::Diameter, "diameter_mm", "Diameter")
        .range("diameter", "mm", 0.1, 1500.0)
        .help("Measure across the hole with a caliper, or find the drill shank that just fits."),
    of(F::HoleWidth, "gap_width_mm", "Width")
        .stored_as("width_mm")
        .range("width", "mm", 0.01, 3000.0)
        .help("Measure the clear opening with a ruler or caliper, without frame and flanges."),
    of(F::HoleHeight, "gap_height_mm", "Height")
        .stored_as("height_mm")
        .range("height", "mm", 0.01, 3000.0)
        .help("Measure the clear opening with a ruler or caliper, at right angles to its width."),
    of(F::RingHole, "hole_mm", "Diameter of the hole")
        .range("hole diameter", "mm", 0.1, 1500.0)
        .help("Measure across the whole hole with a caliper, as if nothing passed through it."),
    of(F::RingPipe, "pipe_mm", "Diameter of the pipe")
        .range("pipe diameter", "mm", 0.0, 1500.0)
        .help("Measure the pipe or the bundle of cables that fills the hole with a caliper."),
    of(F::GrilleMaterial, "material", "Made of").help(
        "Slats of wood leave less free than slats of metal or plastic; it is used only where \
             no free share is given.",
    ),
    of(F::FreeShare, "free_percent", "Free share")
        .empty("by material")
        .range("free share", "%", 1.0, 100.0)
        .help(
            "The open part of the grille's face: measure one slot and the pitch of the slots; a \
             fly screen behind it counts too.",
        ),
    of(F::StatedArea, "area_mm2", "Area")
        .range("area", "mm²", 0.01, 5_000_000.0)
        .help(
            "The area as it is stamped on the ventilator or stated by its maker. A free area passes \
             what a sharp-edged opening of that area passes.",
        ),
    of(F::StatedAs, "convention", "Kind of area").help(
        "What kind of area is stated: free area is what a ruler finds, the others follow from \
             a flow test.",
    ),
    of(F::FlowExponent, "exponent", "Flow exponent")
        .empty("0.65")
        .range("flow exponent", "", 0.5, 1.0)
        .help(
            "From the test report, 0.5 for a hole to 1 for a fine crack; left empty, 0.65 is \
             taken.",
        ),
    of(F::TestFlow, "flow_m3_per_h", "Flow")
        .range("flow", "m³/h", 0.001, 20_000.0)
        .help(
            "The flow at the test pressure, brought to air of 20 °C; the results move it to the air \
             that flows in each weather.",
        ),
    of(F::TestPressure, "at_pa", "Test pressure")
        .range("test pressure", "Pa", 0.1, 500.0)
        .help("The pressure difference read on the gauge while the flow was read."),
    of(F::GapCount, "count", "How many alike")
        .range("count", "", 1.0, 500.0)
        .help(
            "How many of exactly this form and size there are; those that differ get lines of \
             their own.",
        ),
    of(F::Certainty, "certainty", "Size found by").help(
        "Measured: with gauge, ruler or caliper. Estimated: seen, or shown by daylight or \
             smoke. Guessed: not all of it seen.",
    ),
    of(F::GapPart, "part", "Part of the vehicle").help(
        "What moves, what passes through, what must let air or water out: the remedy follows from \
             it, and nothing is offered until it is said.",
    ),
    of(F::Purpose, "purpose", "Purpose").help(
        "Why the opening is there: look for a grille, a flue or a gas locker above it before \
             you call it unintended, because safety openings must never be sealed.",
    ),
    of(
        F::PurposeConfirmed,
        "purpose_confirmed",
        "checked: it protects nobody",
    )
    .help(
        "Tick it when you have seen both ends: it airs nobody, feeds no flame, leads no fumes \
             away, and is no floor opening of a gas locker or beneath a gas appliance.",
    ),
    of(F::PurposeWas, "purpose_was", "Purpose before").help(
        "The program keeps it where somebody changed by hand what an opening that protects people \
             is there for.",
    ),
    of(F::Along, "along_m", "From the front")
        .range("place from the front", "m", -1.0, 15.0)
        .help(
            "Lay a tape along the floor or the outside wall, from the front of the body to the \
             middle of the gap.",
        ),
    of(F::Across, "across_m", "From the nearside")
        .range("place from the nearside", "m", -0.5, 3.5)
        .help("Measure from the left wall to the middle of the gap, seen facing forward."),
    of(F::MiddleHeight, "height_m", "Height of its middle")
        .range("height above ground", "m", 0.05, 4.5)
        .help(
            "Measure from the ground to the middle of the gap, or from the floor and add the \
             floor's height.",
        ),
    of(F::Rise, "rise_m", "Height it spans")
        .range("rise", "m", 0.0, 4.0)
        .help(
            "From the lowest to the highest point of the gap: the height of the door for its \
             seal, nothing for a gap that lies flat. The gap's length is spread evenly over it.",
        ),
    of(F::LeadsTo, "leads_to", "Leads into").help(
        "Hold smoke to the gap: if it shows in the living space choose that; a compartment \
             sealed from it, as behind a refrigerator, counts only for what lies behind.",
    ),
    of(F::Behind, "behind", "Lies behind").help(
        "The outer opening that the same air passes first, such as the grille in front of a \
             hole.",
    ),
    of(F::AreaInFront, "free_area_mm2", "Free area in front")
        .range("free area", "mm²", 0.01, 5_000_000.0)
        .help("Measure the clear opening of what lies in front with a ruler, less slats and mesh."),
    of(F::Closing, "closing", "can be closed")
        .help("Tick it for flaps, hatches and windows that somebody opens and closes."),
    of(F::OpenLaidUp, "open_laid_up", "open when laid up")
        .help("Tick it where it stands open while nobody lives in the vehicle."),
    of(F::OpenInUse, "open_in_use", "open when in use")
        .help("Tick it where it stands open while somebody lives in the vehicle."),
    of(F::ClosedLeaves, "leaves_percent", "Still passes when closed")
        .range("share that passes when closed", "%", 0.0, 100.0)
        .help(
            "The share of the open flow that still passes when it is closed: hold smoke or a hand \
             to the closed edge.",
        ),
    of(F::Damp, "damp", "Damp reading")
        .empty("percent or words")
        .help("What the damp meter shows beside the gap, in percent or in words."),
    of(F::GapNote, "note", "Note")
        .rows(3)
        .help("Anything else: how it was found, what hides it, what to look at again."),
    of(F::Photos, "photos", "Photos").help(
        "Photos of the gap from near and from afar, with a mark where the gap is, so that the \
             workshop finds it.",
    ),
    of(F::Caption, "caption", "What it shows")
        .help("Say in a few words what the photo shows, and where on it the gap is."),
    of(F::AfterWork, "after_work", "Taken after the work").help(
        "The completion sheet sets it beside a photo of the gap as it was found: take both from the same place.",
    ),
    of(F::State, "state", "State")
        .help("How far the work is: a sealed gap counts only with what its remedy leaves."),
    of(F::StateDate, "state_date", "Date of the state")
        .empty("year-month-day")
        .help("The day that the state was reached."),
    of(F::Remedy, "remedy", "Remedy").help(
        "What it would be sealed with; try a piece of the strip or brush in the gap before \
             you choose.",
    ),
    of(F::RemedyWords, "words", "Note for the workshop")
        .help("What the workshop must know: profile, colour, which fixings to loosen first."),
    of(F::LeakLeft, "leak_left_percent", "Leak that remains")
        .range("share of the leak that remains", "%", 0.0, 100.0)
        .help(
            "The share of the leak that stays after sealing; when the work is done, hold smoke to \
             it and correct the figure.",
        ),
    of(F::CostBasis, "cost_basis", "Material priced by").help(
        "Piece: the cost is for each gap alike. Metre: it is for each metre of the gap's \
             length.",
    ),
    of(F::MaterialCost, "material_cost", "Material cost")
        .range("material cost", "", 0.0, 100_000.0)
        .help("The price of one piece or one metre of the material, from the invoice or the shop."),
    of(F::Minutes, "minutes", "Working time")
        .range("working time", "min", 0.0, 100_000.0)
        .help("Minutes for the whole line, with cleaning and refitting, from the last such job."),
    of(
        F::NotFound,
        "leakage_not_found_percent",
        "Leakage not found",
    )
    .empty("off")
    .range("leakage not found", "%", 0.0, 100.0)
    .help(
        "What is added for leaks that nobody found, as a share of those found; a fan test \
             shows it.",
    ),
];
