//! The verdict on an option over the season, in a plain sentence with its numbers.

use super::answer::{OptionCase, OptionKind, Shortfall, Verdict, in_all_weathers};
use super::ground::Ground;
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::quantity::Kind;
use crate::assess::words::listed;
use crate::physics::coupled::Running;
use crate::physics::units::LITRES_PER_DAY;
use crate::survey::{HeaterId, MachineKind};

/// A machine that starts with less than this to spare is told to stand near its limit, K **\[A\]**.
const NEAR_KELVIN: f64 = 2.0;
/// So many weather cases are told one by one; of more the ends alone.
const TOLD_ONE_BY_ONE: usize = 4;

/// Verdict and sentence; the sentence has no full stop. `machine` is the kind of the option with the
/// lowest room temperature of its machine, °C, where it has one, `heater` its own heater.
///
/// An option *holds* the target in a weather case where its steady state is at most as humid
/// ([`OptionCase::holds`]). The verdict weighs the cases by their shares of the season:
///
/// ```text
/// held = Σ w_held/Σ w
/// ```
/// where w are the weights. Without any weight it is known only where all cases agree.
pub(crate) fn verdict(
    ground: &Ground<'_>,
    machine: (OptionKind, Option<f64>),
    heater: Option<HeaterId>,
    cases: &[Answer<OptionCase>],
) -> (Answer<Verdict>, String) {
    let known = match told(ground, heater, cases) {
        Ok(known) => known,
        Err(unknown) => {
            let sentence = format!("not known: {}", unknown.reason);
            return (Err(unknown), sentence);
        }
    };
    let verdict = over_the_season(&known);
    let words = Words {
        target: Kind::RelativeHumidity.typed(ground.survey.targets.rh_percent),
        set_c: ground.comfort_c(),
        lowest_room_c: machine.1,
        known: &known,
    };
    let sentence = words.sentence(machine.0, &verdict);
    (verdict, sentence)
}

/// A weather case of an option.
struct Told<'a> {
    name: String,
    share: f64,
    /// Coldest outside air in which the heater holds its set point in this wind, °C.
    holds_down_to: Option<f64>,
    state: &'a OptionCase,
}

/// Every weather case of an option.
///
/// # Errors
/// [`NotKnown`] where a case with a share of the season is not known.
fn told<'a>(
    ground: &Ground<'_>,
    heater: Option<HeaterId>,
    cases: &'a [Answer<OptionCase>],
) -> Answer<Vec<Told<'a>>> {
    let mut all = Vec::with_capacity(cases.len());
    let numbered = ground.survey.weather.iter().enumerate();
    for ((at, case), state) in numbered.zip(cases) {
        let share = ground.share(case);
        match state {
            Ok(state) => all.push(Told {
                name: ground.case_name(at),
                share,
                holds_down_to: heater.and_then(|heater| ground.holds_down_to(heater, at)),
                state,
            }),
            Err(unknown) if share > 0.0 || ground.weights().is_err() => return Err(unknown.clone()),
            Err(_) => {}
        }
    }
    Ok(all)
}

fn over_the_season(known: &[Told<'_>]) -> Answer<Verdict> {
    let counted = counted(known);
    let held = counted.iter().filter(|case| case.state.holds);
    let share: f64 = held.clone().map(|case| case.share).sum();
    match (held.count(), counted.len()) {
        (held, all) if held == all => Ok(Verdict::Always),
        (0, _) => Ok(Verdict::Never),
        _ if share > 0.0 => Ok(Verdict::Partly(share)),
        _ => Err(NotKnown::because("no weather case has a weight")),
    }
}

/// The cases that the season is made of: those with a share, or all where none has one.
fn counted<'b, 'a>(known: &'b [Told<'a>]) -> Cases<'b, 'a> {
    let weighed = known.iter().any(|case| case.share > 0.0);
    let cases = known.iter();
    cases.filter(|case| !weighed || case.share > 0.0).collect()
}

/// What the sentences need besides the states.
struct Words<'a> {
    /// The humidity to hold, with its sign.
    target: String,
    /// Temperature that heaters are turned to in use, °C.
    set_c: Option<f64>,
    /// Lowest room temperature of the machine, °C.
    lowest_room_c: Option<f64>,
    known: &'a [Told<'a>],
}

type Cases<'b, 'a> = Vec<&'b Told<'a>>;

impl<'a> Words<'a> {
    /// Verdict, reasons, what is near a limit, and the humidity that comes of it.
    fn sentence(&self, kind: OptionKind, verdict: &Answer<Verdict>) -> String {
        let head = self.head(verdict);
        let held: Cases<'_, 'a> = self.known.iter().filter(|case| case.state.holds).collect();
        let not_held = self.not_held();
        let mut parts = match (verdict, not_held.as_slice()) {
            (Ok(Verdict::Always), _) => vec![format!("{head}: {}", self.does(kind, &held))],
            // One reason for all of it needs no names.
            (_, [(why, cases)]) if held.is_empty() => {
                vec![format!("{head}: {}", self.why(*why, cases))]
            }
            (_, _) if held.is_empty() => vec![head],
            (_, _) => vec![format!(
                "{head}, in {}: {}",
                names(&held),
                self.does(kind, &held)
            )],
        };
        if !(held.is_empty() && not_held.len() == 1) {
            parts.extend(
                not_held.iter().map(|(why, cases)| {
                    format!("not in {}: {}", names(cases), self.why(*why, cases))
                }),
            );
        }
        parts.extend(verdict.as_ref().err().map(|unknown| {
            format!(
                "for how much of the season is not known: {}",
                unknown.reason
            )
        }));
        parts.extend(self.short_of_heat());
        parts.extend(self.near_the_limit());
        parts.push(self.humidity());
        parts.join("; ")
    }

    fn head(&self, verdict: &Answer<Verdict>) -> String {
        let target = &self.target;
        let one = self.known.len() == 1;
        match verdict {
            Ok(Verdict::Always) if one => format!("holds {target}"),
            Ok(Verdict::Never) if one => format!("does not hold {target}"),
            Ok(Verdict::Always) => {
                format!(
                    "holds {target} {}",
                    in_all_weathers(counted(self.known).len())
                )
            }
            Ok(Verdict::Partly(share)) => {
                format!(
                    "holds {target} for {} of the season",
                    Kind::Share.text(*share)
                )
            }
            Ok(Verdict::Never | Verdict::NothingToOpen) => format!("never holds {target}"),
            Err(_) => format!("holds {target}"),
        }
    }

    /// What an option that holds the target does for it.
    fn does(&self, kind: OptionKind, held: &Cases<'_, 'a>) -> String {
        let watts = || ends(Kind::Watts, held, |case| case.heater_w);
        match kind {
            OptionKind::Machine(_) | OptionKind::HeatAndMachine => {
                if held.iter().all(|case| case.state.removal_kg_s <= 0.0) {
                    return "the machine has nothing to do".to_owned();
                }
                let removes = format!(
                    "it removes {} a day",
                    litres(held, |case| case.removal_kg_s)
                );
                // A tub is never switched off.
                if kind == OptionKind::Machine(MachineKind::SaltTub) {
                    return removes;
                }
                let running = ends(Kind::WholePercent, held, |case| case.duty);
                format!("{removes}, running {running} of the time")
            }
            OptionKind::BackgroundHeat | OptionKind::SameHeat => {
                format!("by warmth alone, {}", watts())
            }
            OptionKind::Nothing | OptionKind::LockersOpen => match self.set_c {
                Some(_) => format!("by the warmth of comfort, {}", watts()),
                None => "no water has to be removed".to_owned(),
            },
        }
    }

    /// Where it is not held, the cases with the same reason together.
    fn not_held(&self) -> Vec<(Shortfall, Cases<'a, 'a>)> {
        let mut groups: Vec<(Shortfall, Cases<'a, 'a>)> = Vec::new();
        for case in self.known {
            let Some(why) = case.state.shortfall else {
                continue;
            };
            match groups.iter_mut().find(|(other, _)| *other == why) {
                Some((_, cases)) => cases.push(case),
                None => groups.push((why, vec![case])),
            }
        }
        groups
    }

    /// `in “gale” `, or nothing where there is one weather case alone.
    fn place(&self, cases: &Cases<'_, '_>) -> String {
        if self.known.len() == 1 {
            String::new()
        } else {
            format!("in {} ", names(cases))
        }
    }

    fn why(&self, why: Shortfall, cases: &Cases<'_, 'a>) -> String {
        let target = &self.target;
        let load = litres(cases, |case| case.load_kg_s);
        let inside = ends(Kind::Celsius, cases, |case| case.inside.t_c);
        match why {
            Shortfall::TooCold => {
                let lacks = ends(Kind::Kelvin, cases, |case| {
                    (-case.start_margin_k.unwrap_or(0.0)).max(0.0)
                });
                let needs = self.lowest_room_c.map_or_else(String::new, |lowest| {
                    format!(", which needs {}", Kind::Celsius.typed(lowest))
                });
                format!("inside it is {lacks} too cold for the machine to start{needs}")
            }
            Shortfall::MachineTooSmall => {
                let removed = litres(cases, |case| case.removal_kg_s);
                format!(
                    "it removes {removed} a day{}, and {target} at {inside} would take {load}",
                    iced(cases)
                )
            }
            Shortfall::HeaterTooSmall | Shortfall::NotWarmEnough => format!(
                "it warms to {inside} and removes no water; {target} at that would take removing {load} a day"
            ),
            Shortfall::NothingRemoves => {
                format!("{target} would take removing {load} a day")
            }
        }
    }

    /// Where a heater does not come to its set point.
    fn short_of_heat(&self) -> Option<String> {
        let below = |case: &&Told<'_>| case.state.below_set_point_k.is_some();
        let cold: Cases<'_, 'a> = self.known.iter().filter(below).collect();
        if cold.is_empty() {
            return None;
        }
        let lacks = ends(Kind::Kelvin, &cold, |case| {
            case.below_set_point_k.unwrap_or(0.0)
        });
        let of = self.set_c.map_or_else(
            || "its set point".to_owned(),
            |set_c| Kind::Celsius.typed(set_c),
        );
        Some(format!(
            "{}the heater stays {lacks} below {of}{}",
            self.place(&cold),
            self.held_down_to(&cold)
        ))
    }

    /// Down to which outside temperature the heater holds its own set point in the wind of cases.
    fn held_down_to(&self, cold: &Cases<'_, 'a>) -> String {
        let mut each: Vec<String> = cold
            .iter()
            .filter_map(|case| Some(Kind::Celsius.text(case.holds_down_to?)))
            .collect();
        each.dedup();
        // In use it is turned up to comfort, whatever it is set to.
        if each.is_empty() || self.set_c.is_some() {
            return String::new();
        }
        format!(", which it holds down to {} outside", listed(each))
    }

    /// Where a machine starts with little to spare.
    fn near_the_limit(&self) -> Option<String> {
        let is_near = |case: &&Told<'_>| {
            let margin = case.state.start_margin_k;
            case.state.running == Running::Runs && margin.is_some_and(|k| k < NEAR_KELVIN)
        };
        let near: Cases<'_, 'a> = self.known.iter().filter(is_near).collect();
        if near.is_empty() {
            return None;
        }
        let spare_k = |case: &OptionCase| case.start_margin_k.unwrap_or(0.0).max(0.0);
        let most = near
            .iter()
            .map(|case| spare_k(case.state))
            .fold(0.0, f64::max);
        let warmer = if Kind::Kelvin.number(most) == Kind::Kelvin.number(0.0) {
            "hardly".to_owned()
        } else {
            format!("only {}", ends(Kind::Kelvin, &near, spare_k))
        };
        Some(format!(
            "{}it is {warmer} warmer than the machine needs to start",
            self.place(&near)
        ))
    }

    /// The humidity inside, and what it is without the option.
    fn humidity(&self) -> String {
        let cases: Cases<'_, 'a> = self.known.iter().collect();
        let inside = if let [only] = cases.as_slice() {
            let rh = Kind::RelativeHumidity.text(only.state.rh);
            format!("{rh} at {}", Kind::Celsius.text(only.state.inside.t_c))
        } else if cases.len() > TOLD_ONE_BY_ONE {
            format!(
                "RH {}",
                ends(Kind::RelativeHumidity, &cases, |case| case.rh)
            )
        } else {
            let each = cases.iter().map(|case| {
                let rh = Kind::RelativeHumidity.text(case.state.rh);
                let at = Kind::Celsius.text(case.state.inside.t_c);
                format!("{rh} at {at} in “{}”", case.name)
            });
            format!("RH {}", listed(each))
        };
        let fallen: Cases<'_, 'a> = cases
            .into_iter()
            .filter(|case| case.state.fall.is_some())
            .collect();
        if fallen.is_empty() {
            return inside;
        }
        let before = ends(Kind::RelativeHumidity, &fallen, |case| {
            case.fall.map_or(case.rh, |fall| fall.rh_without)
        });
        format!("{inside}, down from {before}")
    }
}

/// What ice on the coil leaves of the machine's strength, where it takes any.
fn iced(cases: &Cases<'_, '_>) -> String {
    let leaves = |case: &Told<'_>| case.state.ice_leaves.filter(|leaves| *leaves < 1.0);
    let icy: Cases<'_, '_> = cases
        .iter()
        .copied()
        .filter(|case| leaves(case).is_some())
        .collect();
    if icy.is_empty() {
        return String::new();
    }
    let left = ends(Kind::WholePercent, &icy, |case| {
        case.ice_leaves.unwrap_or(1.0)
    });
    format!(" (ice on its coil leaves it {left} of its strength)")
}

/// The names of weather cases: `“still” and “gale”`.
fn names(cases: &Cases<'_, '_>) -> String {
    listed(cases.iter().map(|case| {
        let none = if case.share > 0.0 {
            ""
        } else {
            " (no part of the season)"
        };
        format!("“{}”{none}", case.name)
    }))
}

/// The least and the greatest of a figure over the cases with its unit: `0.43 to 2.7 L`.
fn ends(kind: Kind, cases: &Cases<'_, '_>, of: impl Fn(&OptionCase) -> f64) -> String {
    let each = || cases.iter().map(|case| of(case.state));
    let low = kind.number(each().fold(f64::INFINITY, f64::min));
    let high = kind.number(each().fold(f64::NEG_INFINITY, f64::max));
    kind.with_unit(&if low == high {
        low
    } else {
        format!("{low} to {high}")
    })
}

/// The same of water, in litres.
fn litres(cases: &Cases<'_, '_>, of: impl Fn(&OptionCase) -> f64) -> String {
    ends(Kind::Litres, cases, |case| of(case) * LITRES_PER_DAY)
}
