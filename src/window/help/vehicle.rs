//! Help on the fields of the Vehicle page.

use super::text::{Help, help};

/// Every field of the Vehicle page.
pub(super) const HELP: &[Help] = &[
    help(
        "title",
        "Title",
        "The name of the survey as it stands on the job sheet.",
    ),
    help(
        "scene",
        "Scene",
        "Where the vehicle stood on the day: what shelters it, on which side, how far away.",
    ),
    help(
        "surveyor",
        "Surveyor",
        "Who measured, so that questions find their way.",
    ),
    help("date", "Date", "The day of the survey, as year-month-day."),
    help(
        "reference",
        "Job reference",
        "The workshop's number for the job, if it has one.",
    ),
    help(
        "note",
        "Notes",
        "What holds for the whole survey: weather, tools, what was not reached.",
    ),
    help(
        "",
        "Kind",
        "The kind of vehicle; it decides how the drawing of the body looks.",
    ),
    help(
        "length_m",
        "Length",
        "Outside, with a tape along the ground between two plumb lines, without drawbar and bicycle \
         rack.",
    ),
    help(
        "width_m",
        "Width",
        "Outside, at the widest part of the body, without mirrors and awning.",
    ),
    help(
        "height_m",
        "Roof above ground",
        "From the ground to the roof skin, without hatches and aerials; a lath laid on the roof \
         helps.",
    ),
    help(
        "floor_height_m",
        "Floor above ground",
        "From the ground to the top of the floor inside, measured at the door sill.",
    ),
    help(
        "",
        "skirts close off the underfloor",
        "Tick it where skirts reach near the ground all round, so that wind hardly blows under the \
         floor.",
    ),
    help(
        "inside_length_m",
        "Length inside",
        "With a tape or laser from wall to wall, furniture not deducted; with a cab, to the \
         windscreen.",
    ),
    help(
        "inside_width_m",
        "Width inside",
        "With a tape or laser between the side walls, furniture not deducted.",
    ),
    help(
        "inside_height_m",
        "Height inside",
        "From floor to ceiling in the middle of the room.",
    ),
    help(
        "volume_m3",
        "Volume, if better known",
        "Only where the body is no box: the sum of its parts, furniture not deducted.",
    ),
    help(
        "berths",
        "Berths",
        "How many people the vehicle sleeps, from its papers.",
    ),
    help(
        "",
        "District",
        "Look some kilometres to the windward side: fields, hedges, suburb or town slow the wind on \
         its way.",
    ),
    help(
        "",
        "Shelter",
        "Look at what stands within a few vehicle lengths: walls, hedges, other vehicles.",
    ),
    help(
        "heading_deg",
        "Front points to",
        "Read a compass along the vehicle, some steps away from its steel: a point such as NW, or \
         degrees clockwise from north.",
    ),
    help(
        "prevailing_wind_deg",
        "Prevailing wind from",
        "The direction that most wind comes from, from a wind rose of the nearest station: SW, or \
         degrees clockwise from north.",
    ),
    help(
        "altitude_m",
        "Altitude",
        "Height above sea level, from a map.",
    ),
    help(
        "",
        "Wind pressures",
        "The published set of wind pressures that results are for.",
    ),
    help(
        "wind_m_s",
        "Wind at 10 m, station",
        "The wind that a weather station nearby reports, at 10 m above open ground.",
    ),
    help(
        "outside_c",
        "Outside temperature",
        "Read it in the shade, or take the mean of the season.",
    ),
    help(
        "outside_rh_percent",
        "Outside RH",
        "Read a hygrometer outside in the shade after it has settled, or take the season's mean.",
    ),
    help(
        "",
        "Inside",
        "Choose whether the inside follows the outside, as in a vehicle that is laid up, or is held \
         at a temperature.",
    ),
    help(
        "kelvin",
        "Warmer by",
        "How much warmer it is inside: read both thermometers, shaded, after an hour.",
    ),
    help(
        "temperature_c",
        "Held at",
        "The temperature that the heater holds, read in the middle of the room.",
    ),
    help(
        "inside_rh_percent",
        "Inside RH, if read",
        "Leave a hygrometer in the middle of the room for an hour, doors shut, and read it.",
    ),
    help(
        "weight",
        "Weight in the season",
        "How many days or weeks of the season are like this; only the proportions matter.",
    ),
    help(
        "rh_percent",
        "RH to hold",
        "The humidity that must not be exceeded inside, so that nothing moulds or rusts.",
    ),
    help(
        "set_temperature_c",
        "Held while drying",
        "The temperature held inside while a machine dries.",
    ),
    help(
        "frost_guard_c",
        "Frost guard",
        "The temperature that keeps water pipes from freezing.",
    ),
    help(
        "comfort_c",
        "Comfort",
        "The temperature wanted while somebody lives in the vehicle.",
    ),
    help(
        "design_outside_c",
        "Coldest outside",
        "The coldest night that heat must last for, from local weather records.",
    ),
    help(
        "currency",
        "Currency",
        "The sign that stands behind every price.",
    ),
    help(
        "electricity_per_kwh",
        "Electricity",
        "The price of a kilowatt-hour, from the bill or the site's board.",
    ),
    help(
        "gas_per_kg",
        "Gas",
        "The price of a bottle divided by the kilograms in it.",
    ),
    help(
        "liquid_fuel_per_l",
        "Liquid fuel",
        "The price of a litre of what the heater burns, diesel as a rule, from the pump.",
    ),
    help(
        "space_volume_m3",
        "Volume",
        "Length times width times height of this space, furniture not deducted: only for an air \
         change of its own, it may be left empty.",
    ),
    help(
        "warmer_by_k",
        "Warmer than the first",
        "Read a thermometer in both spaces after an hour with the door closed; below zero is \
         colder.",
    ),
    help("", "Joins", "The space on one side of the opening."),
    help("", "and", "The space on its other side."),
    help(
        "",
        "Space inside",
        "The space that the air comes into first: look at which side of curtain, bulkhead or door \
         the inner end lies.",
    ),
    help(
        "workshop_per_hour",
        "Workshop",
        "What an hour of work costs, without tax.",
    ),
    help(
        "tax_percent",
        "Tax",
        "The tax that is added to the workshop's prices.",
    ),
    help(
        "",
        "Part",
        "The part of the body that the element is; it decides which surfaces see the sky.",
    ),
    help(
        "area_m2",
        "Area of all of it",
        "Height times width with a tape, windows and doors deducted where they are elements of \
         their own.",
    ),
    help(
        "",
        "Known by",
        "Choose layers where you have seen the build-up, a U-value where the maker states one.",
    ),
    help(
        "u_w_per_m2_k",
        "U-value",
        "The thermal transmittance that the maker states for the element.",
    ),
    help(
        "bridge_percent",
        "Thermal bridges add",
        "What frames and ribs add to the loss; a cold streak under the hand or a thermal camera \
         shows them.",
    ),
    help(
        "",
        "drawn on the body",
        "Tick it to draw the window or door on the unfolded body.",
    ),
    help(
        "",
        "On the face",
        "The face of the body that it is drawn on.",
    ),
    help(
        "outline_along_m",
        "Its middle along",
        "From the front, or from the nearside, to its middle, with a tape.",
    ),
    help(
        "outline_up_m",
        "Its middle up",
        "From the ground, or from the nearside, to its middle, with a tape.",
    ),
    help(
        "outline_width_m",
        "Its width",
        "The width of the frame, with a tape.",
    ),
    help(
        "outline_height_m",
        "Its height",
        "The height of the frame, with a tape.",
    ),
    help(
        "material",
        "Material",
        "What the layer is made of, seen at a cut-out, a vent or a lamp hole.",
    ),
    help(
        "thickness_mm",
        "Thickness",
        "Measure it with a caliper at a cut-out, a vent or a lamp hole.",
    ),
    help(
        "conductivity_w_per_m_k",
        "Conductivity",
        "From the material's data sheet; the usual value is filled in.",
    ),
    help(
        "resistance_m2_k_per_w",
        "Resistance",
        "Instead of thickness and conductivity, as for an air gap.",
    ),
    help(
        "",
        "Appliance",
        "What burns gas or other fuel; it decides how much must stay open.",
    ),
    help(
        "",
        "room-sealed",
        "Tick it where the flame takes its air from outside through its own duct; the plate on the \
         appliance says so.",
    ),
    help(
        "",
        "Heater runs on",
        "The fuel, from the plate on the heater.",
    ),
    help(
        "rating_w",
        "Heat at full output",
        "The heat at full output, from the plate on the heater.",
    ),
    help(
        "set_point_c",
        "Thermostat at",
        "The temperature that the thermostat is set to; empty where it has none.",
    ),
    help(
        "",
        "Machine",
        "How the machine takes water from the air, from its plate or manual.",
    ),
    help(
        "tub_area_m2",
        "Surface of the tub",
        "Length times width of the salt's open surface, with a ruler.",
    ),
    help(
        "rated_removal_l_per_day",
        "Removes",
        "Litres a day from the plate or manual, with the air that they were measured in.",
    ),
    help(
        "rated_temperature_c",
        "… stated at",
        "The temperature of the air for which the removal is stated, from the manual.",
    ),
    help(
        "rated_rh_percent",
        "… and RH",
        "The humidity of the air for which the removal is stated, from the manual.",
    ),
    help(
        "power_w",
        "Electric power",
        "From the plate, or read with a plug-in meter while it runs.",
    ),
    help(
        "airflow_m3_per_h",
        "Air through it",
        "The air that its fan moves, from the manual.",
    ),
    help(
        "lowest_room_c",
        "Coldest room allowed",
        "The coldest air in which it still works, from the manual.",
    ),
    help(
        "",
        "stops at the target humidity",
        "Tick it where a hygrostat switches the machine.",
    ),
    help(
        "point_temperature_c",
        "",
        "The temperature for which this further figure of the maker's holds.",
    ),
    help(
        "point_rh_percent",
        "",
        "The humidity for which this further figure of the maker's holds.",
    ),
    help(
        "point_removal_l_per_day",
        "",
        "Litres a day that the maker states for this air.",
    ),
    help(
        "point_power_w",
        "",
        "Electric power that the maker states for this air.",
    ),
    help(
        "",
        "What gives off water",
        "Whatever gives off water inside: people, cooking, a flame, wet clothes.",
    ),
    help(
        "count",
        "How many",
        "How many of them there are at one time.",
    ),
    help(
        "rate_g_per_h",
        "Each gives off",
        "Grams an hour for each; the usual value is filled in, weighing is better.",
    ),
    help(
        "hours_per_day",
        "Lasts",
        "How many hours of a day it lasts.",
    ),
    help(
        "",
        "present when laid up",
        "Tick it where it is there while nobody lives in the vehicle.",
    ),
    help(
        "",
        "present in use",
        "Tick it where it is there while somebody lives in the vehicle.",
    ),
    help(
        "",
        "Moves air from",
        "Which way the fan blows: hold a strip of paper to it.",
    ),
    help(
        "fan_flow_m3_per_h",
        "Flow",
        "The flow on the fan's plate; in place it is mostly less.",
    ),
    help(
        "",
        "runs when laid up",
        "Tick it where it runs while nobody lives in the vehicle.",
    ),
    help(
        "",
        "runs in use",
        "Tick it where it runs while somebody lives in the vehicle.",
    ),
    help(
        "contents_kg",
        "Dry mass of contents",
        "Furniture, boards and cushions together, dry: weigh what comes out, estimate the rest.",
    ),
    help(
        "contents_moisture_percent",
        "Their moisture",
        "What a wood-moisture meter shows in boards and furniture, the mean of several places.",
    ),
    help(
        "heat_capacity_kj_per_k",
        "Heat capacity",
        "Of everything inside; left empty, it follows from the volume.",
    ),
    help(
        "sun_w",
        "Sun, day and night",
        "The sun's heat through windows and roof as a mean over day and night.",
    ),
    help(
        "salt_kg",
        "Salt in a tub, dry",
        "Weigh the salt before it has taken up any water.",
    ),
    help(
        "hookup_a",
        "Supply at 230 V",
        "The rating of the breaker at the post, read from its lever; leave the wiring to an electrician.",
    ),
    help(
        "battery_wh",
        "Batteries may give",
        "Volts times ampere-hours of the part that may be drawn, from the battery's label.",
    ),
    help(
        "leakage_not_found_percent",
        "",
        "What is added for leaks that nobody found, as a share of those found; a fan test shows it.",
    ),
];
