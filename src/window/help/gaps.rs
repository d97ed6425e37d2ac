//! Help on the ledger and on the form of a gap.

use super::text::{Help, help};

/// Every field of the Gaps page.
pub(super) const HELP: &[Help] = &[
    help(
        "ledger",
        "Gap ledger",
        "Up and Down go through the gaps, with Shift several are selected; Left and Right go from \
         cell to cell, Enter edits the cell, Esc takes it back; without a cell Enter goes to the \
         form.",
    ),
    help(
        "",
        "New gap: zone",
        "The group of places the next gap belongs to; it is kept for the gap after it.",
    ),
    help(
        "",
        "New gap: facing",
        "The outside that the air comes from: follow the gap to its outer end with torch and mirror.",
    ),
    help(
        "",
        "New gap: what it is",
        "A starting shape with usual sizes, guesses all of them, or a bare form: type its first \
         letters.",
    ),
    help(
        "",
        "New gap: size found by",
        "Measured with gauge or ruler, estimated by eye, or only guessed: guesses carry the most \
         doubt.",
    ),
    help(
        "name",
        "What it is",
        "Say what leaks so that somebody else finds it: door seal, cable hole behind the fridge.",
    ),
    help(
        "name",
        "",
        "The name it is known by in this survey, so that results can say which one they mean.",
    ),
    help(
        "",
        "Zone",
        "The group of places it belongs to; zones have totals, so that you see where to begin.",
    ),
    help(
        "zone",
        "Name of the zone",
        "A place that you look at in one go, such as the cab or the floor edge.",
    ),
    help(
        "",
        "Facing",
        "The outside that the air comes from: follow the gap to its outer end with torch and mirror. \
         Nearside is left, seen facing forward.",
    ),
    help(
        "cavity_pressure_coefficient",
        "Cavity's Cp",
        "The wind pressure in the cavity as a share of the wind's own; leave it empty unless you \
         have measured it, then the underfloor's is taken.",
    ),
    help(
        "",
        "Form",
        "Choose the form that needs the fewest guesses: a narrow gap for seals and joints, a hole \
         for cables, a ring where a pipe fills part of the hole.",
    ),
    help(
        "gap_length_mm",
        "Length",
        "Lay a tape along the gap and add its pieces: 2*600+2*400 is taken as a sum.",
    ),
    help(
        "gap_width_mm",
        "Clear width",
        "Push feeler gauges in until one just drags, at several places, and take the mean; where \
         daylight shows but no gauge reaches, say so under “Size found by”.",
    ),
    help(
        "gap_width_mm",
        "",
        "Measure the clear opening with a ruler or caliper, without frame and flanges.",
    ),
    help(
        "gap_depth_mm",
        "Depth of the way",
        "How far the air travels in the gap, from inside to outside: push a thin strip through and \
         mark both faces on it.",
    ),
    help(
        "bends",
        "Bends on the way",
        "Count the corners that the air turns on its way: none for a plain joint, two round a lip.",
    ),
    help(
        "diameter_mm",
        "Diameter",
        "Measure across the hole with a caliper, or find the drill shank that just fits.",
    ),
    help(
        "gap_height_mm",
        "Height",
        "Measure the clear opening with a ruler or caliper, at right angles to its width.",
    ),
    help(
        "hole_mm",
        "Diameter of the hole",
        "Measure across the whole hole with a caliper, as if nothing passed through it.",
    ),
    help(
        "pipe_mm",
        "Diameter of the pipe",
        "Measure the pipe or the bundle of cables that fills the hole with a caliper.",
    ),
    help(
        "",
        "Made of",
        "Slats of wood leave less free than slats of metal or plastic; it is used only where no \
         free share is given.",
    ),
    help(
        "free_percent",
        "Free share",
        "The open part of the grille's face: measure one slot and the pitch of the slots; a fly \
         screen behind it counts too.",
    ),
    help(
        "area_mm2",
        "Area",
        "The area as it is stamped on the ventilator or stated by its maker.",
    ),
    help(
        "",
        "Which area",
        "What kind of area is stated: free area is what a ruler finds, the others follow from a \
         flow test.",
    ),
    help(
        "exponent",
        "Flow exponent",
        "From the test report, 0.5 for a hole to 1 for a fine crack; left empty, 0.65 is taken.",
    ),
    help(
        "flow_m3_per_h",
        "Flow",
        "The flow read on the fan or flow meter at the test pressure.",
    ),
    help(
        "at_pa",
        "Test pressure",
        "The pressure difference read on the gauge while the flow was read.",
    ),
    help(
        "count",
        "How many alike",
        "How many of exactly this form and size there are; those that differ get lines of their own.",
    ),
    help(
        "",
        "Size found by",
        "Measured: with gauge, ruler or caliper. Estimated: seen, or shown by daylight or smoke. \
         Guessed: not all of it seen.",
    ),
    help(
        "",
        "Purpose",
        "Why the opening is there: look for a grille, a flue or a gas locker above it before you \
         call it unintended, because safety openings must never be sealed.",
    ),
    help(
        "along_m",
        "From the front",
        "Lay a tape along the floor or the outside wall, from the front of the body to the middle \
         of the gap.",
    ),
    help(
        "across_m",
        "From the nearside",
        "Measure from the left wall to the middle of the gap, seen facing forward.",
    ),
    help(
        "height_m",
        "Height of its middle",
        "Measure from the ground to the middle of the gap, or from the floor and add the floor's \
         height.",
    ),
    help(
        "rise_m",
        "Height it spans",
        "From the lowest to the highest point of the gap: the height of the door for its seal, \
         nothing for a gap that lies flat.",
    ),
    help(
        "",
        "Leads into",
        "Hold smoke to the gap: if it shows in the living space choose that; a compartment sealed \
         from it, as behind a refrigerator, counts only for what lies behind.",
    ),
    help(
        "",
        "Lies behind",
        "The outer opening that the same air passes first, such as the grille in front of a hole.",
    ),
    help(
        "free_area_mm2",
        "Its free area",
        "Measure the clear opening of what lies in front with a ruler, less slats and mesh.",
    ),
    help(
        "",
        "can be closed",
        "Tick it for flaps, hatches and windows that somebody opens and closes.",
    ),
    help(
        "",
        "open when laid up",
        "Tick it where it stands open while nobody lives in the vehicle.",
    ),
    help(
        "",
        "open when in use",
        "Tick it where it stands open while somebody lives in the vehicle.",
    ),
    help(
        "leaves_percent",
        "Closed it leaves",
        "The share of the open flow that still passes when it is closed: hold smoke or a hand to \
         the closed edge.",
    ),
    help(
        "",
        "State",
        "How far the work is: a sealed gap counts only with what its remedy leaves.",
    ),
    help(
        "state_date",
        "Date of that",
        "The day that the state was reached, as year-month-day.",
    ),
    help(
        "",
        "Remedy",
        "What it would be sealed with; try a piece of the strip or brush in the gap before you \
         choose.",
    ),
    help(
        "words",
        "Words for the job",
        "What the workshop must know: profile, colour, which fixings to loosen first.",
    ),
    help(
        "leak_left_percent",
        "Leak that remains",
        "The share of the leak that stays after sealing; when the work is done, hold smoke to it and \
         correct the figure.",
    ),
    help(
        "",
        "Material counted by",
        "Piece: the cost is for each gap alike. Metre: it is for each metre of the gap's length.",
    ),
    help(
        "material_cost",
        "Material cost",
        "The price of one piece or one metre of the material, from the invoice or the shop.",
    ),
    help(
        "minutes",
        "Working time",
        "Minutes for the whole line, with cleaning and refitting, from the last such job.",
    ),
    help(
        "damp",
        "Damp reading",
        "What the damp meter shows beside the gap, in percent or in words.",
    ),
    help(
        "note",
        "Note",
        "Anything else: how it was found, what hides it, what to look at again.",
    ),
];
