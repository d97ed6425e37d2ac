//! The fields of appliances, heaters, drying machines, moisture sources and fans.

use super::entry::{Entry, Field as F, of};

pub(super) const FIELDS: &[Entry] = &[
    of(F::ApplianceKind, "kind", "Appliance")
        .help("What burns gas or other fuel; it decides how much must stay open."),
    of(F::RoomSealed, "room_sealed", "room-sealed").help(
        "Tick it where the flame takes its air from outside through its own duct; the plate \
             on the appliance says so.",
    ),
    of(F::RatedInput, "input_mj_per_h", "Heat input")
        .range("heat input", "MJ/h", 0.1, 200.0)
        .help(
            "The rated gas consumption in MJ/h from the appliance's plate, all burners together; \
             1 kW is 3.6 MJ/h.",
        ),
    of(
        F::AppliancesConfirmed,
        "appliances_confirmed",
        "all of them are listed",
    )
    .help(
        "Tick it when you have looked for every hob, oven, heater, boiler, refrigerator and stove: \
             until then, what must stay open is not known and nothing is offered for sealing.",
    ),
    of(F::Fuel, "fuel", "Heater runs on").help("The fuel, from the plate on the heater."),
    of(F::Rating, "rating_w", "Heat at full output")
        .range("rating", "W", 1.0, 30_000.0)
        .help("The heat at full output, from the plate on the heater."),
    of(F::SetPoint, "set_point_c", "Thermostat at")
        .empty("none")
        .range("thermostat set point", "°C", -5.0, 40.0)
        .help("The temperature that the thermostat is set to; empty where it has none."),
    of(F::MachineKind, "kind", "Machine")
        .help("How the machine takes water from the air, from its plate or manual."),
    of(F::TubArea, "tub_area_m2", "Tub surface")
        .range("tub surface", "m²", 0.0001, 5.0)
        .help("Length times width of the salt's open surface, with a ruler."),
    of(F::TubHolds, "tub_l", "Tub capacity")
        .range("what the tub holds", "L", 0.05, 50.0)
        .help("What fits below the rim, from the packet or with a measuring jug and water."),
    of(F::RatedRemoval, "rated_removal_l_per_day", "Water removed")
        .range("rated removal", "L/day", 0.001, 200.0)
        .help("Litres a day from the plate or manual, with the air that they were measured in."),
    of(F::RatedTemperature, "rated_temperature_c", "Stated at")
        .range("rating temperature", "°C", -10.0, 45.0)
        .help("The temperature of the air for which the removal is stated, from the manual."),
    of(F::RatedRh, "rated_rh_percent", "and at RH")
        .range("rating relative humidity", "%", 10.0, 100.0)
        .help("The humidity of the air for which the removal is stated, from the manual."),
    of(F::Power, "power_w", "Electric power")
        .range("power", "W", 0.0, 5000.0)
        .help("From the plate, or read with a plug-in meter while it runs."),
    of(F::Airflow, "airflow_m3_per_h", "Air through it")
        .range("own fan's flow", "m³/h", 0.0, 5000.0)
        .help("The air that its fan moves, from the manual."),
    of(F::LowestRoom, "lowest_room_c", "Coldest room allowed")
        .range("lowest room temperature", "°C", -20.0, 30.0)
        .help("The coldest air in which it still works, from the manual."),
    of(F::Hygrostat, "hygrostat", "stops at the target humidity")
        .help("Tick it where a hygrostat switches the machine."),
    of(F::PointTemperature, "point_temperature_c", "Temperature")
        .stored_as("temperature_c")
        .range("temperature", "°C", -10.0, 45.0)
        .help("The temperature for which this further figure of the maker's holds."),
    of(F::PointRh, "point_rh_percent", "Relative humidity")
        .stored_as("rh_percent")
        .range("relative humidity", "%", 1.0, 100.0)
        .help("The humidity for which this further figure of the maker's holds."),
    of(F::PointRemoval, "point_removal_l_per_day", "Removal")
        .stored_as("removal_l_per_day")
        .range("removal", "L/day", 0.0, 200.0)
        .help("Litres a day that the maker states for this air."),
    of(F::PointPower, "point_power_w", "Power")
        .stored_as("power_w")
        .range("power", "W", 0.0, 5000.0)
        .help("Electric power that the maker states for this air."),
    of(F::Owned, "owned", "I own it")
        .help("Tick it where it is there already, so that nothing has to be bought."),
    of(F::Price, "price", "Price to buy")
        .empty("not given")
        .range("price to buy", "", 0.0, 1_000_000.0)
        .help("What the machine or heater costs in the shop, fitted where it has to be fitted."),
    of(F::Upkeep, "upkeep_per_month", "Besides power and fuel")
        .empty("nothing")
        .range("cost besides power and fuel", "/month", 0.0, 100_000.0)
        .help("What a month of it costs besides power and fuel: new salt, filters, service."),
    of(F::SourceKind, "kind", "What gives off water")
        .help("Whatever gives off water inside: people, cooking, a flame, wet clothes."),
    of(F::SourceCount, "count", "How many")
        .range("count", "", 1.0, 500.0)
        .help("How many of them there are at one time."),
    of(F::SourceRate, "rate_g_per_h", "Water from each")
        .range("water given off by one", "g/h", 0.0, 10_000.0)
        .help("Grams an hour for each; the usual value is filled in, weighing is better."),
    of(F::SourceHours, "hours_per_day", "Hours a day")
        .range("hours a day", "h/day", 0.0, 24.0)
        .help("How many hours of a day it lasts."),
    of(F::SourceLaidUp, "laid_up", "present when laid up")
        .help("Tick it where it is there while nobody lives in the vehicle."),
    of(F::SourceInUse, "in_use", "present in use")
        .help("Tick it where it is there while somebody lives in the vehicle."),
    of(F::FanDirection, "direction", "Moves air from")
        .help("Which way the fan blows: hold a strip of paper to it."),
    of(F::FanFlow, "fan_flow_m3_per_h", "Flow")
        .stored_as("flow_m3_per_h")
        .range("flow", "m³/h", 0.0, 5000.0)
        .help(
            "The flow on the fan's plate, with nothing before or behind it, of the air that it moves: \
             inside air for an extract fan, outside air for a supply fan.",
        ),
    of(F::FanMostPressure, "most_pressure_pa", "Pressure that stops it")
        .range("pressure that stops it", "Pa", 5.0, 2000.0)
        .empty("60")
        .help("The most pressure in the maker's sheet; left empty, 60 Pa is taken."),
    of(F::FanLaidUp, "on_laid_up", "runs when laid up")
        .help("Tick it where it runs while nobody lives in the vehicle."),
    of(F::FanInUse, "on_in_use", "runs in use")
        .help("Tick it where it runs while somebody lives in the vehicle."),
];
