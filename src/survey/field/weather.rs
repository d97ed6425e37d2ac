//! The fields of weather cases, target states, prices, and what drying depends on.

use super::entry::{Entry, Field as F, of};

pub(super) const FIELDS: &[Entry] = &[
    of(F::Wind, "wind_m_s", "Wind at 10 m, station")
        .range("wind speed", "m/s", 0.0, 40.0)
        .help("The wind that a weather station nearby reports, at 10 m above open ground."),
    of(F::Outside, "outside_c", "Outside temperature")
        .range("outside temperature", "°C", -40.0, 45.0)
        .help("Read it in the shade, or take the mean of the season."),
    of(F::OutsideRh, "outside_rh_percent", "Outside RH")
        .range("outside relative humidity", "%", 1.0, 100.0)
        .help(
            "Read a hygrometer outside in the shade after it has settled, or take the season's \
             mean.",
        ),
    of(F::Inside, "inside", "Inside").help(
        "Choose whether the inside follows the outside, as in a vehicle that is laid up, or \
             is held at a temperature.",
    ),
    of(F::WarmerBy, "kelvin", "Warmer by")
        .range("inside warmer by", "K", -20.0, 60.0)
        .help("How much warmer it is inside: read both thermometers, shaded, after an hour."),
    of(F::HeldAt, "temperature_c", "Held at")
        .range("inside temperature", "°C", -30.0, 50.0)
        .help("The temperature that the heater holds, read in the middle of the room."),
    of(F::InsideRh, "inside_rh_percent", "Inside RH, if read")
        .empty("not read")
        .range("inside relative humidity", "%", 1.0, 100.0)
        .help("Leave a hygrometer in the middle of the room for an hour, doors shut, and read it."),
    of(F::Weight, "weight", "Weight in the season")
        .range("weight", "", 0.0, 1000.0)
        .help("How many days or weeks of the season are like this; only the proportions matter."),
    of(F::TargetRh, "rh_percent", "RH to hold")
        .range("target relative humidity", "%", 5.0, 95.0)
        .help("The humidity that must not be exceeded inside, so that nothing moulds or rusts."),
    of(F::SetTemperature, "set_temperature_c", "Held while drying")
        .range("set temperature", "°C", -10.0, 35.0)
        .help("The temperature held inside while a machine dries."),
    of(F::FrostGuard, "frost_guard_c", "Frost guard")
        .range("frost-guard set point", "°C", 0.5, 15.0)
        .help("The temperature that keeps water pipes from freezing."),
    of(F::Comfort, "comfort_c", "Comfort")
        .range("comfort temperature", "°C", 10.0, 30.0)
        .help("The temperature wanted while somebody lives in the vehicle."),
    of(F::DesignOutside, "design_outside_c", "Coldest outside")
        .range("design outside temperature", "°C", -40.0, 20.0)
        .help("The coldest night that heat must last for, from local weather records."),
    of(F::Currency, "currency", "Currency")
        .empty("EUR, £ …")
        .help("The sign that stands behind every price."),
    of(F::Electricity, "electricity_per_kwh", "Electricity")
        .range("electricity price", "/kWh", 0.0, 1000.0)
        .help("The price of a kilowatt-hour, from the bill or the site's board."),
    of(F::Gas, "gas_per_kg", "Gas")
        .range("gas price", "/kg", 0.0, 10_000.0)
        .help("The price of a bottle divided by the kilograms in it."),
    of(F::LiquidFuel, "liquid_fuel_per_l", "Liquid fuel")
        .range("liquid fuel price", "/L", 0.0, 10_000.0)
        .help("The price of a litre of what the heater burns, diesel as a rule, from the pump."),
    of(F::Workshop, "workshop_per_hour", "Workshop")
        .range("workshop hour", "/h", 0.0, 100_000.0)
        .help("What an hour of work costs, without tax."),
    of(F::Tax, "tax_percent", "Tax")
        .range("tax", "%", 0.0, 100.0)
        .help("The tax that is added to the workshop's prices."),
    of(F::MaterialTax, "material_tax_percent", "Tax on material")
        .empty("the same")
        .range("tax on material", "%", 0.0, 100.0)
        .help("Where material is taxed at another rate than work; left empty, both have the same."),
    of(F::ContentsMass, "contents_kg", "Dry mass of contents")
        .empty("not weighed")
        .range("dry mass of the contents", "kg", 1.0, 5000.0)
        .help(
            "Furniture, boards and cushions together, dry: weigh what comes out, estimate the \
             rest.",
        ),
    of(
        F::ContentsMoisture,
        "contents_moisture_percent",
        "Moisture of contents",
    )
    .empty("not measured")
    .range("moisture of the contents", "%", 0.0, 150.0)
    .help("What a wood-moisture meter shows in boards and furniture, the mean of several places."),
    of(F::HeatCapacity, "heat_capacity_kj_per_k", "Heat capacity")
        .empty("from the volume")
        .range("heat capacity of the inside", "kJ/K", 10.0, 10_000.0)
        .help("Of everything inside; left empty, it follows from the volume."),
    of(F::Sun, "sun_w", "Heat of the sun, mean")
        .range("heat of the sun", "W", 0.0, 3000.0)
        .help("The sun's heat through windows and roof as a mean over day and night."),
    of(F::Salt, "salt_kg", "Salt in a tub, dry")
        .empty("not given")
        .range("dry salt in a tub", "kg", 0.05, 50.0)
        .help("Weigh the salt before it has taken up any water."),
    of(F::HookUp, "hookup_a", "Supply at 230 V")
        .empty("not given")
        .range("electric supply", "A", 1.0, 63.0)
        .help(
            "The rating of the breaker at the post, read from its lever; leave the wiring to an \
             electrician.",
        ),
    of(F::Battery, "battery_wh", "Usable battery energy")
        .empty("none")
        .range("battery", "Wh", 10.0, 100_000.0)
        .help("Volts times ampere-hours of the part that may be drawn, from the battery's label."),
];
