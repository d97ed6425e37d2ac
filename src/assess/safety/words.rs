//! Safety ventilation in words: the lines of the minimum, the verdict, and where it is from.

use super::{DEFER, MM2};
use crate::assess::answer::{Answer, Safety, SafetyRequirement, SafetyVerdict};
use crate::assess::words::{capital, figure};
use crate::survey::CodeOfPractice;

/// Where the minimum is from, how high openings share, and who decides.
#[must_use]
pub fn source(code: CodeOfPractice) -> String {
    let from = match code {
        CodeOfPractice::En721 => {
            "Roof and other high openings share pro rata. Minimum free areas after EN 721 as three \
             guides to conversion approval relay it, edition unstated; the current one is EN 721:2019 [R]."
        }
        CodeOfPractice::AsNzs5601 => {
            "Roof and other high openings count alike. Minimum free areas after AS/NZS 5601.2 as \
             relayed, edition unstated [R]; that high and low have all of it each, and what counts as \
             either, is taken the safe way [A]."
        }
    };
    format!(
        "{from} The local code decides, and a licensed fitter checks it. Other leaks never count as \
         safety ventilation."
    )
}

/// What stays open whatever it costs.
pub const STAY_OPEN: &str = "Fixed ventilators, gas drop-out openings, flues, combustion-air and refrigerator ventilation \
    stay open.";

/// The standard of the alarm to fit; belongs behind *fit a carbon monoxide alarm*.
pub const ALARM: &str = "EN 50291-2 is the variant for caravans, motor caravans and boats [S]";

/// One line of the minimum: where the openings are, and their free areas.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Line {
    /// High up, in the roof.
    HighInRoof,
    /// High up elsewhere, in place of those in the roof.
    HighElsewhere,
    /// Low down.
    Low,
}

impl Line {
    /// All of them, from the top.
    pub const ALL: [Self; 3] = [Self::HighInRoof, Self::HighElsewhere, Self::Low];

    /// Where the openings are; the three lines read on as one sentence.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::HighInRoof => "high, in the roof",
            Self::HighElsewhere => "or high, elsewhere",
            Self::Low => "and low, within 100 mm of the floor",
        }
    }

    /// The free area surveyed there, m².
    ///
    /// # Errors
    /// [`NotKnown`](crate::assess::NotKnown) where a ventilator lacks its place or size.
    pub fn surveyed(self, safety: &Safety) -> &Answer<f64> {
        match self {
            Self::HighInRoof => &safety.high_in_roof,
            Self::HighElsewhere => &safety.high_elsewhere,
            Self::Low => &safety.low,
        }
    }

    /// The free area that the code of practice asks for if all of it is there, m².
    ///
    /// # Errors
    /// [`NotKnown`](crate::assess::NotKnown) where that is not known.
    pub fn asked_for(self, safety: &Safety) -> Answer<f64> {
        let of = |row: &SafetyRequirement| match self {
            Self::HighInRoof => row.high_in_roof,
            Self::HighElsewhere => row.high_elsewhere,
            Self::Low => row.low,
        };
        safety.required.as_ref().map(of).map_err(Clone::clone)
    }
}

/// A surveyed free area in mm², never a bare zero.
#[must_use]
pub fn area_mm2(area: f64) -> String {
    if area > 0.0 {
        figure(area / MM2, 4)
    } else {
        "none found".to_owned()
    }
}

/// A share in whole percent, rounded down: 99.6 % of what is asked for is not all of it.
#[must_use]
pub fn whole_percent(share: f64) -> String {
    format!("{:.0}", (share * 100.0).floor())
}

impl SafetyVerdict {
    /// The verdict, in the words that a surface may set apart.
    #[must_use]
    pub fn head(&self) -> &'static str {
        match self {
            Self::Meets => "meets the minimum",
            Self::Below { .. } => "below the minimum",
            Self::NotKnown(_) => "not known whether it suffices",
        }
    }

    /// What it rests on.
    #[must_use]
    pub fn grounds(&self) -> String {
        match self {
            Self::Meets => {
                "as far as free areas say; whether the openings are clear must be seen".to_owned()
            }
            Self::Below {
                high_share,
                low_share,
            } => below(*high_share, *low_share),
            Self::NotKnown(unknown) => unknown.reason.clone(),
        }
    }

    /// Both in a line, without capital and full stop.
    #[must_use]
    pub fn sentence(&self) -> String {
        joined(self, self.head())
    }

    /// The same with the verdict in capitals, for plain text.
    #[must_use]
    pub fn sentence_in_capitals(&self) -> String {
        joined(self, &self.head().to_uppercase())
    }
}

fn joined(verdict: &SafetyVerdict, head: &str) -> String {
    let joint = match verdict {
        SafetyVerdict::Meets => ",",
        SafetyVerdict::Below { .. } | SafetyVerdict::NotKnown(_) => ":",
    };
    format!("{head}{joint} {}", verdict.grounds())
}

/// How much of what is asked for is there.
pub(super) fn below(high_share: f64, low_share: f64) -> String {
    let [high, low] = [high_share, low_share].map(whole_percent);
    match (high_share < 1.0, low_share < 1.0) {
        (true, false) => format!(
            "only {high} % of the free area asked for high up; low down there is enough, {low} %"
        ),
        (false, true) => format!(
            "only {low} % of the free area asked for low down; high up there is enough, {high} %"
        ),
        _ => format!("only {high} % of the free area asked for high up, and {low} % low down"),
    }
}

/// What to do before anybody sleeps there, as a sentence.
#[must_use]
pub fn defer() -> String {
    format!("{}.", capital(DEFER))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_below_the_whole_never_reads_as_the_whole() {
        assert_eq!(whole_percent(0.9999), "99");
        assert_eq!(whole_percent(1.25), "125");
        assert_eq!(whole_percent(0.05), "5");
    }

    #[test]
    fn an_area_of_nothing_is_not_a_number() {
        assert_eq!(area_mm2(0.0), "none found");
        assert_eq!(area_mm2(0.0125), "12500");
    }
}
