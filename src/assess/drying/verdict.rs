//! The verdict on an option in a plain sentence with its numbers.

use super::answer::{OptionCase, OptionKind, Verdict};
use super::ground::Ground;
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::quantity::Kind;
use crate::physics::coupled::Running;
use crate::physics::units::LITRES_PER_DAY;

/// Verdict and sentence; the sentence has no full stop.
///
/// An option *holds* the target in a weather case where its steady state is at most as humid
/// ([`OptionCase::holds`]). The verdict is about the calmest and the windiest case alone.
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
            let words = Words {
                target: Kind::RelativeHumidity.typed(ground.survey.targets.rh_percent),
                given_off: ground.sources.water() > 0.0,
                lowest_room_c,
                one_case: ground.calmest == ground.windiest,
            };
            (Ok(verdict), words.sentence(kind, verdict, still, windy))
        }
    }
}

/// The option's state in the weather case at a place.
///
/// # Errors
/// [`NotKnown`] where there is none, or as it says itself.
fn case(cases: &[Answer<OptionCase>], at: usize) -> Answer<&OptionCase> {
    cases
        .get(at)
        .ok_or_else(|| NotKnown::because("there is no such weather case"))?
        .as_ref()
        .map_err(Clone::clone)
}

/// Water in litres, without its unit.
fn litres(kg_s: f64) -> String {
    Kind::Litres.number(kg_s * LITRES_PER_DAY)
}

/// A number of litres a day in words.
fn a_day(litres: &str) -> String {
    format!("{} a day", Kind::Litres.with_unit(litres))
}

/// The share of the time that a machine runs.
fn running(case: &OptionCase) -> String {
    Kind::WholePercent.text(case.duty)
}

/// What the sentences need besides the states.
struct Words {
    /// The humidity to hold, with its sign.
    target: String,
    /// Water is given off inside.
    given_off: bool,
    /// Lowest room temperature of the machine, °C.
    lowest_room_c: Option<f64>,
    /// There is one weather case alone, neither still nor windy.
    one_case: bool,
}

impl Words {
    /// Verdict, reason, and the state that comes of it.
    fn sentence(
        &self,
        kind: OptionKind,
        verdict: Verdict,
        still: &OptionCase,
        windy: &OptionCase,
    ) -> String {
        let target = &self.target;
        let held = match verdict {
            Verdict::StillAndWindy if self.one_case => format!("holds {target}"),
            Verdict::StillAndWindy => format!("holds {target} still and windy"),
            Verdict::OnlyStill => format!("holds {target} only when still"),
            Verdict::OnlyWindy => format!("holds {target} only when windy"),
            Verdict::No => format!("does not hold {target}"),
        };
        let at = |case: &OptionCase| {
            let rh = Kind::RelativeHumidity.text(case.rh);
            format!("{rh} at {}", Kind::Celsius.text(case.inside.t_c))
        };
        let reason = self.reason(kind, verdict, still, windy);
        if self.one_case {
            format!("{held}: {reason}; {}", at(still))
        } else {
            format!("{held}: {reason}; still {}, windy {}", at(still), at(windy))
        }
    }

    /// A figure, or where there are two weather cases both: `0.31 when still and 0.62 when windy`.
    fn both(&self, still: &str, windy: &str) -> String {
        if self.one_case {
            still.to_owned()
        } else {
            format!("{still} when still and {windy} when windy")
        }
    }

    /// The case that the reason is about: where the target is not held, the windy one before the
    /// still one, and the words for it in front of the reason.
    fn worse<'c>(
        &self,
        still: &'c OptionCase,
        windy: &'c OptionCase,
    ) -> (&'c OptionCase, &'static str) {
        let (case, when) = if windy.holds {
            (still, "when still ")
        } else {
            (windy, "when windy ")
        };
        (case, if self.one_case { "" } else { when })
    }

    /// The air, or the air and what is inside, brings in so much.
    fn brings_in(&self, case: &OptionCase) -> String {
        let who = if self.given_off {
            "the air and the sources inside bring in"
        } else {
            "the air brings in"
        };
        format!("{who} {}", a_day(&litres(case.load_kg_s)))
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
                let lowest = Kind::Celsius.typed(lowest);
                format!(", which needs {lowest} to start")
            });
            return format!("too cold inside for the machine{lowest}");
        }
        if verdict == Verdict::StillAndWindy {
            if still.duty <= 0.0 && windy.duty <= 0.0 {
                return "the machine has nothing to do".to_owned();
            }
            return self.removes(still, windy);
        }
        let (worse, when) = self.worse(still, windy);
        format!(
            "{when}it removes {} while {}",
            a_day(&litres(worse.removal_kg_s)),
            self.brings_in(worse),
        )
    }

    /// What a machine that holds the target does for it.
    fn removes(&self, still: &OptionCase, windy: &OptionCase) -> String {
        let calm = a_day(&litres(still.removal_kg_s));
        let (seldom, often) = (running(still), running(windy));
        if self.one_case {
            format!("removes {calm}, running {seldom} of the time")
        } else {
            let wind = litres(windy.removal_kg_s);
            format!(
                "removes {calm} when still and {wind} when windy, running {seldom} and {often} of the time"
            )
        }
    }

    /// The reason where no machine runs: warmth that holds the target, or water left in the air.
    fn without_machine(
        &self,
        kind: OptionKind,
        verdict: Verdict,
        still: &OptionCase,
        windy: &OptionCase,
    ) -> String {
        if verdict == Verdict::StillAndWindy {
            let watts = |case: &OptionCase| Kind::Watts.text(case.heater_w);
            return match kind {
                OptionKind::BackgroundHeat | OptionKind::SameHeat => {
                    format!("warmth alone, {}", self.both(&watts(still), &watts(windy)))
                }
                _ => "no water has to be removed".to_owned(),
            };
        }
        let (worse, when) = self.worse(still, windy);
        format!("{when}it removes no water while {}", self.brings_in(worse))
    }
}
