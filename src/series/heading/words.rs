//! Words of headings, folded as [`super::folded`] folds them: small letters without accents.
//!
//! Common practice in the languages met most, no source.

use crate::series::mapping::What;

/// What a word of a heading tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Word {
    /// A quantity, by a word that means nothing else.
    Plain(What),
    /// A quantity, by letters that are also used for other things.
    Short(What),
    /// Humidity of air or of something else, or moisture.
    Damp,
    /// `absolute`: which humidity is meant.
    Absolute,
    /// Part of the name of a quantity that tells nothing by itself, such as `point` or `relative`.
    Idle,
    /// Material whose moisture is no humidity of air.
    Material,
    /// What is reckoned from readings or set on the instrument: no reading, in whatever unit it is.
    NoReading,
    /// States, counts and things of the instrument: beside them short words are none of a quantity.
    OfInstrument,
    /// Statistics behind a name.
    Statistic,
    /// Words that make a pressure another one than that of the air.
    OtherPressure,
    /// What is in the air beside water, in units that are ours too.
    OtherGas,
    /// A sensor's number or letter follows.
    Sensor,
}

use Word::{
    Absolute, Damp, Idle, Material, NoReading, OfInstrument, OtherGas, OtherPressure, Plain,
    Sensor, Short, Statistic,
};

/// Whole words.
const WHOLE: [(Word, &[&str]); 25] = [
    (
        Plain(What::Temperature),
        &[
            "temp",
            "tmp",
            "tempin",
            "tempout",
            "tempint",
            "tempext",
            "tair",
            "teplota",
            "lampotila",
            "sicaklik",
            "homerseklet",
        ],
    ),
    (Short(What::Temperature), &["t"]),
    (
        Plain(What::DewPoint),
        &[
            "dew",
            "tdew",
            "tdp",
            "rosee",
            "rugiada",
            "rocio",
            "rosy",
            "orvalho",
            "rosny",
            "kastepiste",
            "kastepunkt",
            "frostpoint",
            "frostpunkt",
            "reifpunkt",
            "harmatpont",
            "росы",
        ],
    ),
    (Short(What::DewPoint), &["td", "dp", "dpt", "tau"]),
    (
        Plain(What::RelativeHumidity),
        &["rh", "relh", "hrel", "rlf", "relhum", "rlh"],
    ),
    (
        Short(What::RelativeHumidity),
        &["hr", "rf", "ur", "h", "hum", "phi"],
    ),
    (Damp, &["nem", "nemlilik", "moisture", "humi"]),
    (Plain(What::AbsoluteHumidity), &["abshum"]),
    (Short(What::AbsoluteHumidity), &["ah"]),
    (Absolute, &["abs"]),
    (
        Plain(What::CarbonDioxide),
        &[
            "co2",
            "kohlendioxid",
            "kohlenstoffdioxid",
            "koolstofdioxide",
            "koldioxid",
        ],
    ),
    (
        Plain(What::WindDirection),
        &[
            "winddir",
            "windrichtung",
            "windrichting",
            "winddirection",
            "gustdir",
        ],
    ),
    (
        Plain(What::Wind),
        &[
            "wind",
            "windspeed",
            "windgeschwindigkeit",
            "windsnelheid",
            "viento",
            "vento",
            "gust",
            "windgust",
            "boe",
            "rafale",
        ],
    ),
    // In English the opening of a roof.
    (Short(What::Wind), &["vent"]),
    (
        Plain(What::Pressure),
        &[
            "press",
            "pressure",
            "druck",
            "luftdruck",
            "luchtdruk",
            "pression",
            "pressione",
            "presion",
            "pressao",
            "cisnienie",
            "tlak",
            "lufttryck",
            "lufttryk",
            "baro",
            "barometer",
            "barometric",
        ],
    ),
    (Plain(What::Direct), &["dni", "beam"]),
    (
        Plain(What::Diffuse),
        &["dhi", "diffuse", "diffus", "diffusstrahlung"],
    ),
    (
        Plain(What::Global),
        &["ghi", "global", "globalstrahlung", "shortwave"],
    ),
    (
        Plain(What::CloudCover),
        &["cloud", "clouds", "cloudcover", "nuages", "bewolkung"],
    ),
    (
        Idle,
        &[
            "relative", "relativ", "relativa", "relatief", "rel", "air", "luft", "lucht", "of",
            "the", "de", "di", "du", "da", "do", "del", "point", "pt", "punkt", "punto", "ponto",
            "bod", "deg", "degree", "degrees", "degc", "degf", "value", "reading", "dioxide",
            "cover", "speed", "hum", "temp", "t", "rh",
        ],
    ),
    (
        Material,
        &[
            "wood", "timber", "soil", "holz", "bois", "legno", "madera", "houten", "grain",
            "concrete",
        ],
    ),
    (
        NoReading,
        &[
            "wetbulb",
            "heatindex",
            "index",
            "windchill",
            "feels",
            "feel",
            "apparent",
            "setpoint",
            "setp",
            "sollwert",
            "soll",
            "consigne",
            "target",
            "alarm",
            "limit",
            "threshold",
            "offset",
            "accuracy",
            "uncertainty",
            "stdev",
            "std",
            "delta",
            "difference",
            "diff",
            "differenz",
            "specific",
            "status",
            "count",
            "counter",
            "calibration",
            "longwave",
            "ratio",
            "dt",
            "δt",
            "nasskugel",
        ],
    ),
    (
        OfInstrument,
        &[
            "open", "opened", "closed", "on", "off", "state", "power", "elapsed", "duration",
            "dauer", "battery", "batt", "bat", "akku", "batterie", "level", "signal", "rssi",
            "charge", "soc", "voltage", "energy", "time", "runtime", "uptime", "hours", "minutes",
            "seconds",
        ],
    ),
    (
        OtherPressure,
        &[
            "vapour",
            "vapor",
            "vpd",
            "deficit",
            "saturation",
            "differential",
            "dampfdruck",
            "dampf",
            "tyre",
            "tire",
            "reifen",
            "gas",
            "water",
            "oil",
            "dp",
            "delta",
            "fan",
            "sound",
        ],
    ),
    (
        Sensor,
        &[
            "sensor", "probe", "channel", "ch", "zone", "room", "kanal", "fuhler", "sonde", "unit",
            "logger",
        ],
    ),
];

/// Words of a gas or of dust: apart from the others, since `co` and `pm` are whole words too.
const GASES: [&str; 10] = [
    "co", "voc", "tvoc", "pm", "dust", "staub", "ch4", "nh3", "no2", "o3",
];

/// Statistics.
const STATISTICS: [&str; 9] = [
    "avg",
    "mean",
    "min",
    "max",
    "mittel",
    "mittelwert",
    "smp",
    "moy",
    "average",
];

/// Beginnings of words.
const BEGINNINGS: [(Word, &[&str]); 10] = [
    // Before what these begin with.
    (
        NoReading,
        &[
            "humidex",
            "feuchtkugel",
            "gefuhlt",
            "ressenti",
            "hitzeindex",
            "setpoint",
        ],
    ),
    (OfInstrument, &["humidif", "humidist", "temperaturregl"]),
    (
        Material,
        &[
            "holzfeucht",
            "bodenfeucht",
            "wandfeucht",
            "mauerfeucht",
            "baufeucht",
            "estrichfeucht",
            "houtvocht",
            "bodemvocht",
        ],
    ),
    (Plain(What::Temperature), &["temperat", "температур"]),
    (
        Plain(What::DewPoint),
        &[
            "dewp",
            "taupunkt",
            "dauwpunt",
            "daggpunkt",
            "dugpunkt",
            "duggpunkt",
        ],
    ),
    (
        Damp,
        &[
            "humid",
            "humedad",
            "umid",
            "feucht",
            "vocht",
            "hygrom",
            "wilgotn",
            "vlhkost",
            "vlaznost",
            "vlaga",
            "fuktighet",
            "luftfukt",
            "luftfugt",
            "fugtighed",
            "kosteus",
            "ilmankosteus",
            "suhteellin",
            "paratartalom",
            "niiskus",
            "dregme",
            "mitrum",
            "влажн",
        ],
    ),
    (Absolute, &["absol", "assolut", "абсолют", "bezwzgled"]),
    (Plain(What::Wind), &["windgeschw"]),
    (Plain(What::Diffuse), &["diffusstr"]),
    (Plain(What::CloudCover), &["bewolk", "nebul"]),
];

/// Within a word: what German and Dutch put together, and what is written without blanks.
const WITHIN: [(Word, &[&str]); 5] = [
    (Plain(What::AbsoluteHumidity), &["絶対湿度", "绝对湿度"]),
    (
        Damp,
        &["feuchte", "feuchtigkeit", "vochtigheid", "humidity", "湿度"],
    ),
    (Plain(What::DewPoint), &["露点"]),
    (Plain(What::Temperature), &["温度", "気温", "temperatur"]),
    (Plain(What::Pressure), &["気圧", "气压"]),
];

/// All that a folded word tells.
pub(super) fn told(word: &str) -> Vec<Word> {
    let mut all = whole(word);
    if all.is_empty() {
        all.extend(
            BEGINNINGS
                .iter()
                .find(|(_, words)| words.iter().any(|one| word.starts_with(one)))
                .or_else(|| {
                    WITHIN
                        .iter()
                        .find(|(_, words)| words.iter().any(|one| word.contains(one)))
                })
                .map(|(told, _)| *told),
        );
    }
    all
}

fn whole(word: &str) -> Vec<Word> {
    let mut all: Vec<Word> = WHOLE
        .iter()
        .filter(|(_, words)| words.contains(&word))
        .map(|(told, _)| *told)
        .collect();
    all.extend(GASES.contains(&word).then_some(OtherGas));
    all.extend(STATISTICS.contains(&word).then_some(Statistic));
    all
}
