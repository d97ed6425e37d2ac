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
    lowest_room_c: Option<f64>,
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
                target: format!("{} %", ground.survey.targets.rh_percent),
                given_off: ground.sources.water() > 0.0,
                lowest_room_c,
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
    let name = name.filter(|name| !name.is_empty()).unwrap_or(usual);
    format!("\u{201c}{name}\u{201d}")
}

/// A relative humidity in whole percent.
fn percent(rh: f64) -> String {
    format!("{:.0} %", rh * 100.0)
}

/// Litres a day with two digits.
fn litres(kg_s: f64) -> String {
    significant(kg_s * LITRES_PER_DAY, 2)
}

struct Names {
    target: String,
    /// Water is given off inside.
    given_off: bool,
    /// Lowest room temperature of the machine, °C.
    lowest_room_c: Option<f64>,
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
        let (both, one) = (&self.still, &self.windy);
        let held = match verdict {
            Verdict::StillAndWindy => format!("holds {} in {both} and {one}", self.target),
            Verdict::OnlyStill => format!("holds {} only in {both}", self.target),
            Verdict::OnlyWindy => format!("holds {} only in {one}", self.target),
            Verdict::No => format!("does not hold {}", self.target),
        };
        let state = format!(
            "{both} {} at {:.1} °C, {one} {} at {:.1} °C",
            percent(still.rh),
            still.inside.t_c,
            percent(windy.rh),
            windy.inside.t_c,
        );
        format!(
            "{held}: {}; {state}",
            self.reason(kind, verdict, still, windy)
        )
    }

    /// The air, or the air and what is inside, brings in so much.
    fn brings_in(&self, case: &OptionCase) -> String {
        let who = if self.given_off {
            "the air and the sources inside bring in"
        } else {
            "the air brings in"
        };
        format!("{who} {}", litres(case.load_kg_s))
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
            let lowest = self.lowest_room_c.map_or_else(String::new, |lowest| {
                format!(", which needs {lowest} °C to start")
            });
            return format!("too cold inside for the machine{lowest}");
        }
        let worst = if verdict == Verdict::OnlyWindy {
            (still, &self.still)
        } else {
            (windy, &self.windy)
        };
        match verdict {
            Verdict::StillAndWindy if still.duty <= 0.0 && windy.duty <= 0.0 => {
                "the machine has nothing to do".to_owned()
            }
            Verdict::StillAndWindy => format!(
                "removes {} L a day in {} and {} in {}, running {} and {} of the time",
                litres(still.removal_kg_s),
                self.still,
                litres(windy.removal_kg_s),
                self.windy,
                percent(still.duty),
                percent(windy.duty),
            ),
            Verdict::OnlyStill | Verdict::No | Verdict::OnlyWindy => format!(
                "in {} it removes {} L a day while {}",
                worst.1,
                litres(worst.0.removal_kg_s),
                self.brings_in(worst.0),
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
                    "warmth alone, {} W in {} and {} W in {}",
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
            "in {when} it removes no water while {}",
            self.brings_in(worse)
        )
    }
}
