//! The fields of spaces, the openings between them, and the fabric.

use super::entry::{Entry, Field as F, of};

pub(super) const FIELDS: &[Entry] = &[
    of(F::Name, "name", "Name").help(
        "The name it is known by in this survey, so that results can say which one they mean.",
    ),
    of(F::SpaceVolume, "space_volume_m3", "Volume")
        .empty("not given")
        .stored_as("volume_m3")
        .range("volume", "m³", 0.05, 120.0)
        .help(
            "Length times width times height of this space, furniture not deducted: only for an \
             air change of its own, it may be left empty.",
        ),
    of(F::WarmerThanFirst, "warmer_by_k", "Warmer than the first")
        .range("warmer than the first space by", "K", -40.0, 40.0)
        .help(
            "Read a thermometer in both spaces after an hour with the door closed; below zero is \
             colder.",
        ),
    of(F::From, "from", "Joins").help("The space on one side of the opening."),
    of(F::To, "to", "and").help("The space on its other side."),
    of(F::Part, "part", "Part")
        .help("The part of the body that the element is; it decides which surfaces see the sky."),
    of(F::Area, "area_m2", "Total area")
        .range("area", "m²", 0.01, 200.0)
        .help(
            "Height times width with a tape, windows and doors deducted where they are elements \
             of their own.",
        ),
    of(F::BuildUp, "build_up", "Given as").help(
        "Choose layers where you have seen the build-up, a U-value where the maker states one.",
    ),
    of(F::UValue, "u_w_per_m2_k", "U-value")
        .range("U-value", "W/(m² K)", 0.05, 10.0)
        .help("The thermal transmittance that the maker states for the element."),
    of(F::Bridges, "bridge_percent", "Thermal bridges add")
        .range("thermal bridges", "%", 0.0, 200.0)
        .help(
            "What frames and ribs add to the loss; a cold streak under the hand or a thermal \
             camera shows them.",
        ),
    of(F::Outline, "outline", "shown on the drawing")
        .help("Tick it to draw the window or door on the unfolded body."),
    of(F::OutlineFacing, "facing", "On the face").help("The face of the body that it is drawn on."),
    of(F::OutlineAlong, "outline_along_m", "Middle, from the front")
        .stored_as("along_m")
        .range("place along", "m", -1.0, 15.0)
        .help("From the front, or from the nearside, to its middle, with a tape."),
    of(F::OutlineUp, "outline_up_m", "Middle, from the ground")
        .stored_as("up_m")
        .range("height or place across", "m", -0.5, 4.5)
        .help("From the ground, or from the nearside, to its middle, with a tape."),
    of(F::OutlineWidth, "outline_width_m", "Its width")
        .stored_as("width_m")
        .range("width", "m", 0.01, 6.0)
        .help("The width of the frame, with a tape."),
    of(F::OutlineHeight, "outline_height_m", "Its height")
        .stored_as("height_m")
        .range("height", "m", 0.01, 4.0)
        .help("The height of the frame, with a tape."),
    of(F::Material, "material", "Material")
        .help("What the layer is made of, seen at a cut-out, a vent or a lamp hole."),
    of(F::Thickness, "thickness_mm", "Thickness")
        .range("thickness", "mm", 0.05, 300.0)
        .help("Measure it with a caliper at a cut-out, a vent or a lamp hole."),
    of(F::Conductivity, "conductivity_w_per_m_k", "Conductivity")
        .range("conductivity", "W/(m K)", 0.01, 500.0)
        .help("From the material's data sheet; the usual value is filled in."),
    of(F::Resistance, "resistance_m2_k_per_w", "Resistance")
        .range("resistance", "m² K/W", 0.0, 10.0)
        .help("Instead of thickness and conductivity, as for an air gap."),
];
