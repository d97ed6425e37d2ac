//! Words in a gap's name, zone or note that tell of something which may protect people. They only
//! ever make the program ask: no word makes a gap one that may be sealed.

use super::{Gap, Survey};

/// Beginnings of words that make the program ask, and the word that it then names.
const BEGINNINGS: [(&str, &str); 25] = [
    ("lpg", "LPG"),
    ("propan", "propane"),
    ("butan", "butane"),
    ("cylinder", "cylinder"),
    ("bottle", "bottle"),
    ("regulator", "regulator"),
    ("batter", "battery"),
    ("toilet", "toilet"),
    ("cassette", "cassette"),
    ("flue", "flue"),
    ("chimney", "chimney"),
    ("exhaust", "exhaust"),
    ("combustion", "combustion"),
    ("burner", "burner"),
    ("fridge", "fridge"),
    ("refrigerator", "refrigerator"),
    ("drain", "drain"),
    ("grill", "grille"),
    ("louv", "louvre"),
    ("vent", "vent"),
    ("cooker", "cooker"),
    ("stove", "stove"),
    ("heater", "heater"),
    ("boiler", "boiler"),
    ("applianc", "appliance"),
];
/// Words that do so as they stand.
const WHOLE: [(&str, &str); 6] = [
    ("gas", "gas"),
    ("mesh", "mesh"),
    ("oven", "oven"),
    ("ovens", "oven"),
    ("hob", "hob"),
    ("hobs", "hob"),
];
/// What leads gas.
const PIPES: [&str; 8] = [
    "pipe",
    "pipes",
    "pipework",
    "line",
    "lines",
    "hose",
    "tube",
    "connection",
];
/// What gas bottles stand in.
const LOCKERS: [&str; 8] = [
    "locker",
    "lockers",
    "box",
    "compartment",
    "cupboard",
    "bottle",
    "bottles",
    "cylinder",
];

/// Words that speak of the mains as they stand.
const MAINS: [&str; 9] = [
    "mains", "230v", "240v", "120v", "110v", "hookup", "socket", "sockets", "rcd",
];
/// Two words one after another that do so: the second need only begin like this.
const MAINS_PAIRS: [(&str, &str); 9] = [
    ("230", "v"),
    ("240", "v"),
    ("120", "v"),
    ("110", "v"),
    ("hook", "up"),
    ("shore", "power"),
    ("consumer", "unit"),
    ("electric", "inlet"),
    ("power", "inlet"),
];

fn words(text: &str) -> Vec<String> {
    text.to_lowercase()
        .split(|letter: char| !letter.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(str::to_owned)
        .collect()
}

fn zone_name(survey: &Survey, gap: &Gap) -> String {
    survey
        .zone(gap.zone)
        .map_or_else(String::new, |zone| zone.name.clone())
}

fn is_gas(word: &str) -> bool {
    word == "gas"
        || word.starts_with("lpg")
        || word.starts_with("propan")
        || word.starts_with("butan")
}

fn drops_out(words: &[String]) -> bool {
    let pair =
        |pair: &[String]| matches!(pair, [drop, out] if drop == "drop" && out.starts_with("out"));
    words.windows(2).any(pair) || words.iter().any(|word| word.starts_with("dropout"))
}

/// The first word in the gap's name, zone or note that may tell of something which protects people.
///
/// ```
/// use gapledger::survey::{Facing, Form, Gap, GapId, Survey, VehicleKind, ZoneId, signs};
/// let survey = Survey::new(VehicleKind::PanelVan);
/// let hole = Form::RoundHole { diameter_mm: None };
/// let mut gap = Gap::new(GapId(1), ZoneId(1), Facing::Front, hole);
/// gap.name = "gasket of the lamp".to_owned();
/// assert_eq!(signs::sign(&survey, &gap), None);
/// gap.note = "Beside the gas tap.".to_owned();
/// assert_eq!(signs::sign(&survey, &gap), Some("gas"));
/// ```
#[must_use]
pub fn sign(survey: &Survey, gap: &Gap) -> Option<&'static str> {
    let told = [gap.name.clone(), zone_name(survey, gap), gap.note.clone()];
    for text in &told {
        let words = words(text);
        if drops_out(&words) {
            return Some("drop-out");
        }
        if let Some(named) = words.iter().find_map(|word| named(word)) {
            return Some(named);
        }
    }
    None
}

fn named(word: &str) -> Option<&'static str> {
    let whole = WHOLE.iter().find(|(whole, _)| *whole == word);
    let begins = || BEGINNINGS.iter().find(|(begin, _)| word.starts_with(begin));
    whole.or_else(begins).map(|(_, named)| *named)
}

/// Whether its zone is one of vents, such as *fridge vents*.
#[must_use]
pub fn in_zone_of_vents(survey: &Survey, gap: &Gap) -> bool {
    let words = words(&zone_name(survey, gap));
    let vents = ["vent", "grill", "louv"];
    words
        .iter()
        .any(|word| vents.iter().any(|begin| word.starts_with(begin)))
}

/// Whether its name or zone speaks of a gas pipe.
#[must_use]
pub fn is_of_gas_pipe(survey: &Survey, gap: &Gap) -> bool {
    let words = words(&format!("{} {}", zone_name(survey, gap), gap.name));
    words.iter().any(|word| is_gas(word)) && words.iter().any(|word| PIPES.contains(&word.as_str()))
}

/// Whether its name or zone speaks of a gas locker or a drop-out.
#[must_use]
pub fn is_of_gas_locker(survey: &Survey, gap: &Gap) -> bool {
    let words = words(&format!("{} {}", zone_name(survey, gap), gap.name));
    let gas = words.iter().any(|word| is_gas(word));
    gas && words.iter().any(|word| LOCKERS.contains(&word.as_str())) || drops_out(&words)
}

/// Whether its name or zone speaks of the mains, that is of terminals that can kill.
///
/// ```
/// use gapledger::survey::{Facing, Form, Gap, GapId, Survey, VehicleKind, ZoneId, signs};
/// let survey = Survey::new(VehicleKind::PanelVan);
/// let hole = Form::RoundHole { diameter_mm: None };
/// let mut gap = Gap::new(GapId(1), ZoneId(1), Facing::Nearside, hole);
/// gap.name = "edge of the 230 V inlet".to_owned();
/// assert!(signs::is_of_mains(&survey, &gap));
/// gap.name = "water inlet, main tank".to_owned();
/// assert!(!signs::is_of_mains(&survey, &gap));
/// ```
#[must_use]
pub fn is_of_mains(survey: &Survey, gap: &Gap) -> bool {
    let words = words(&format!("{} {}", zone_name(survey, gap), gap.name));
    let pair = |pair: &[String]| match pair {
        [first, second] => MAINS_PAIRS
            .iter()
            .any(|(begin, then)| first == begin && second.starts_with(then)),
        _ => false,
    };
    words.iter().any(|word| MAINS.contains(&word.as_str())) || words.windows(2).any(pair)
}

/// Whether its name speaks of a refrigerator.
#[must_use]
pub fn is_of_refrigerator(gap: &Gap) -> bool {
    let refrigerator = ["fridge", "refrigerator"];
    words(&gap.name)
        .iter()
        .any(|word| refrigerator.iter().any(|begin| word.starts_with(begin)))
}
