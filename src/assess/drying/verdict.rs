//! The verdict on an option in a plain sentence with its numbers.

use super::Ground;
use super::answer::{OptionCase, OptionKind, Verdict};
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::number::significant;
use crate::physics::coupled::Running;

const LITRES_PER_DAY: f64 = 86_400.0;

/// Verdict and sentence; the sentence has no full stop.
pub(crate) fn verdict(
    ground: &Ground<'_>,
    kind: OptionKind,
    cases: &[Answer<OptionCase>],
) -> (Answer<Verdict>, String) {
    let both = case(cases, ground.calmest)
        .and_then(|still| case(cases, ground.windiest).map(|windy| (still, windy)));
    match both {
        Err(unknown) => {
            let sentence = format!("not known: {}", unknown.reason);
            (Err(unknown), sentence)
        }
        Ok((still, windy)) => {
            let verdict = match (still.holds, windy.holds) {
                (true, true) => Verdict::StillAndWindy,
                (true, false) => Verdict::OnlyStill,
                (false, true) => Verdict::OnlyWindy,
                (false, false) => Verdict::No,
            };
            let names = Names {
                target: format!("{} %", significant(ground.survey.targets.rh_percent, 3)),
                still: name(ground, ground.calmest, "still"),
                windy: name(ground, ground.windiest, "windy"),
            };
            (Ok(verdict), names.sentence(kind, verdict, still, windy))
        }
    }
}

fn case(cases: &[Answer<OptionCase>], at: usize) -> Answer<&OptionCase> {
    cases
        .get(at)
        .ok_or_else(|| NotKnown::because("there is no such weather case"))?
        .as_ref()
        .map_err(Clone::clone)
}

fn name(ground: &Ground<'_>, at: usize, usual: &str) -> String {
    let name = ground.survey.weather.get(at).map(|case| case.name.trim());
    name.filter(|name| !name.is_empty())
        .unwrap_or(usual)
        .to_owned()
}

/// A relative humidity in whole percent.
fn percent(rh: f64) -> String {
    format!("{} %", significant((rh * 100.0).round(), 3))
}

/// Litres a day with two digits.
fn litres(kg_s: f64) -> String {
    significant(kg_s * LITRES_PER_DAY, 2)
}

struct Names {
    target: String,
    still: String,
    windy: String,
}

impl Names {
    fn sentence(
        &self,
        kind: OptionKind,
        verdict: Verdict,
        still: &OptionCase,
        windy: &OptionCase,
    ) -> String {
        let held = match verdict {
            Verdict::StillAndWindy => {
                format!("holds {}, {} and {}", self.target, self.still, self.windy)
            }
            Verdict::OnlyStill => format!("holds {} only when {}", self.target, self.still),
            Verdict::OnlyWindy => format!("holds {} only when {}", self.target, self.windy),
            Verdict::No => format!("does not hold {}", self.target),
        };
        let state = format!(
            "{} {} at {} °C, {} {} at {} °C",
            self.still,
            percent(still.rh),
            significant(still.inside.t_c, 2),
            self.windy,
            percent(windy.rh),
            significant(windy.inside.t_c, 2),
        );
        format!(
            "{held}: {}; {state}",
            self.reason(kind, verdict, still, windy)
        )
    }

    /// The reason in numbers.
    fn reason(
        &self,
        kind: OptionKind,
        verdict: Verdict,
        still: &OptionCase,
        windy: &OptionCase,
    ) -> String {
        let machine = matches!(kind, OptionKind::Machine(_) | OptionKind::HeatAndMachine);
        if !machine {
            return self.without_machine(kind, verdict, still, windy);
        }
        if still.running == Running::TooCold && windy.running == Running::TooCold {
            return "too cold inside for it to run".to_owned();
        }
        match verdict {
            Verdict::StillAndWindy => format!(
                "removes {} L a day {} and {} {}, running {} and {} of the time",
                litres(still.removal_kg_s),
                self.still,
                litres(windy.removal_kg_s),
                self.windy,
                percent(still.duty),
                percent(windy.duty),
            ),
            Verdict::OnlyStill | Verdict::No => format!(
                "when {} it removes {} L a day; the air brings in {}",
                self.windy,
                litres(windy.removal_kg_s),
                litres(windy.load_kg_s),
            ),
            Verdict::OnlyWindy => format!(
                "when {} it removes {} L a day; {} are given off and brought in",
                self.still,
                litres(still.removal_kg_s),
                litres(still.load_kg_s),
            ),
        }
    }

    fn without_machine(
        &self,
        kind: OptionKind,
        verdict: Verdict,
        still: &OptionCase,
        windy: &OptionCase,
    ) -> String {
        if verdict == Verdict::StillAndWindy {
            return match kind {
                OptionKind::BackgroundHeat | OptionKind::SameHeat => format!(
                    "warmth alone, {} W {} and {} W {}",
                    significant(still.heater_w, 2),
                    self.still,
                    significant(windy.heater_w, 2),
                    self.windy,
                ),
                _ => "no water has to be removed".to_owned(),
            };
        }
        let worse = if windy.holds { still } else { windy };
        let when = if windy.holds {
            &self.still
        } else {
            &self.windy
        };
        format!(
            "removes no water; when {when} {} L a day would have to go",
            litres(worse.load_kg_s)
        )
    }
}
