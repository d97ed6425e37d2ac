//! Fans against flues, and how stale the air of sleepers becomes: what could hurt somebody that only
//! an air balance shows.

use super::answer::{Answer, Assessment, CaseAir, CaseAnswer, SafetyVerdict};
use super::envelope::Envelope;
use super::factors::Factors;
use super::law::laws;
use super::possible::site_pressure;
use super::prepared::Prepared;
use super::quantity::Kind;
use super::sleepers::outside_air_m3_s;
use super::words::{figure, listed};
use crate::physics::MoistAir;
use crate::physics::people::carbon_dioxide_ppm;
use crate::physics::wind::LEAST_SPEED;
use crate::survey::findings::called;
use crate::survey::{
    Appliance, Fan, FanDirection, Field, Finding, Item, Place, SetUp, Severity, Survey,
};

/// Fall of the inside pressure by fans from which flue gas may spill, Pa: the usual limit **\[M\]**.
pub const SPILLING_PA: f64 = 4.0;
/// Temperature inside and outside at which fans are tried, °C **\[A\]**: without a difference the fans
/// lower the inside the most.
const TRIED_AT_C: f64 = 20.0;
/// Share of its free flow below which a fan is said to be held back **\[A\]**.
const HELD_BACK: f64 = 0.5;

/// What fans do to the inside.
#[derive(Clone, Debug, PartialEq)]
pub struct FanPull {
    /// The most that they lower the inside of any space in any wind direction, Pa.
    pub lowering_pa: f64,
    /// Share of its free flow that each fan moves there, in the survey's order; `None` where it
    /// does not run.
    pub shares: Vec<Option<f64>>,
}

/// Whether a fan runs in use and its flow is known.
fn runs(fan: &Fan) -> bool {
    fan.on_in_use && fan.flow_m3_per_h.is_some_and(|flow| flow > 0.0)
}

/// What the fans that run in use do: pressures with them less those without, air of 20 °C on both
/// sides, the least wind that is ever reckoned with, and everything that closes shut.
///
/// # Errors
/// [`NotKnown`](super::answer::NotKnown) where the air balance is not.
fn pull(survey: &Survey, prepared: &Prepared) -> Answer<FanPull> {
    let mut shut = survey.clone();
    shut.set_up = SetUp::InUse;
    let gaps = shut.gaps.iter_mut().map(|gap| &mut gap.closing);
    let inner = shut.inner_openings.iter_mut().map(|one| &mut one.closing);
    for closing in gaps.chain(inner).flatten() {
        closing.open_in_use = false;
    }
    let findings = &prepared.findings;
    let careful = prepared.factors.at_most_one();
    let laws = careful.on(&shut, laws(&shut, findings));
    let with = Envelope::new(&shut, findings, &laws)?;
    let without = with.without_fans();
    let air = MoistAir::new(TRIED_AT_C, 0.0, site_pressure(survey)?)?;
    let mut calm: Vec<Vec<f64>> = Vec::new();
    without
        .at(&air, &air)
        .directions(LEAST_SPEED, |_, solved| {
            calm.push(solved.pressures().to_vec())
        })?;
    let (mut most, mut moved) = (f64::NEG_INFINITY, Vec::new());
    with.at(&air, &air).directions(LEAST_SPEED, |at, solved| {
        let before = calm.get(at).map_or(&[][..], Vec::as_slice);
        let falls = before
            .iter()
            .zip(solved.pressures())
            .map(|(off, on)| off - on);
        let fall = falls.fold(f64::NEG_INFINITY, f64::max);
        if fall > most {
            (most, moved) = (fall, solved.fan_shares());
        }
    })?;
    Ok(FanPull {
        lowering_pa: most.max(0.0),
        shares: with.by_survey(&moved),
    })
}

/// Dangers and doubts about fans, flues and the air of sleepers.
pub(super) fn findings(
    survey: &Survey,
    prepared: &Prepared,
    verdict: &SafetyVerdict,
    cases: &[CaseAnswer],
) -> Vec<Finding> {
    let mut findings = Vec::new();
    if let Some(pull) = drawn_back(survey, prepared, &mut findings) {
        held_back(survey, &pull, &mut findings);
    }
    if let SafetyVerdict::Below { .. } = verdict {
        for appliance in open_flued(survey) {
            findings.push(Finding {
                severity: Severity::Danger,
                place: Place::whole(Item::Appliance(appliance.id)),
                sentence: format!(
                    "{}: its flue is open to the room, and safety ventilation falls short of the table: flue gas may spill",
                    words(appliance)
                ),
                advice: "do not light it before the ventilation is made good and a licensed fitter has checked the flue".to_owned(),
            });
        }
    }
    if survey.set_up == SetUp::InUse {
        let airs = cases.iter().map(|case| (case.name.as_str(), &case.air));
        findings.extend(stale_air(survey, airs));
    }
    findings
}

/// What could hurt somebody once it is in use, whatever the set-up shown: flue gas that fans draw back
/// and stale air of sleepers, warnings and dangers. No factor gives more air than the sizes do.
pub(crate) fn in_use(survey: &Survey, factors: &Factors) -> Vec<Finding> {
    let mut findings = Vec::new();
    let drawn = survey.fans.iter().any(runs) && !survey.appliances.is_empty();
    if survey.vehicle.berths == 0 && !drawn {
        return findings;
    }
    let mut used = survey.clone();
    used.set_up = SetUp::InUse;
    let prepared = Prepared::new(&used, &factors.at_most_one());
    drawn_back(&used, &prepared, &mut findings);
    let vehicle = prepared.vehicle(&used);
    let cases = used.weather.iter();
    let airs: Vec<_> = cases
        .map(|case| (case.name.as_str(), vehicle.air_change(case)))
        .collect();
    findings.extend(stale_air(
        &used,
        airs.iter().map(|(name, air)| (*name, air)),
    ));
    findings.retain(|finding| matches!(finding.severity, Severity::Danger | Severity::Warning));
    findings
}

/// The same of a vehicle after its work, as it stands.
pub(crate) fn once_in_use(survey: &Survey, assessment: &Assessment) -> Vec<Finding> {
    let mut findings = in_use(survey, &Factors::of(assessment.calibrated.iter().copied()));
    if survey.set_up == SetUp::LaidUp {
        for finding in &mut findings {
            finding.sentence.insert_str(0, "once it is in use again, ");
        }
    }
    findings
}

/// Flues from which fans draw gas, or of which that is not known; and what the fans do, where they run.
fn drawn_back(
    survey: &Survey,
    prepared: &Prepared,
    findings: &mut Vec<Finding>,
) -> Option<FanPull> {
    let fans = || survey.fans.iter().filter(|fan| runs(fan));
    fans().next()?;
    match pull(survey, prepared) {
        Ok(pull) => {
            spilling(survey, &pull, findings);
            Some(pull)
        }
        Err(unknown) => {
            let extracts = fans().any(|fan| fan.direction == FanDirection::Extract);
            for appliance in open_flued(survey).filter(|_| extracts) {
                findings.push(Finding {
                    severity: Severity::Warning,
                    place: Place::whole(Item::Appliance(appliance.id)),
                    sentence: format!(
                        "{}: whether fans draw its flue gas into the room is not known: {}",
                        words(appliance),
                        unknown.reason
                    ),
                    advice: "do not let it burn while a fan draws air out, until that is known"
                        .to_owned(),
                });
            }
            None
        }
    }
}

fn words(appliance: &Appliance) -> String {
    called(appliance.kind.name(), &appliance.name)
}

fn open_flued(survey: &Survey) -> impl Iterator<Item = &Appliance> {
    let appliances = survey.appliances.iter();
    appliances.filter(|appliance| appliance.has_open_flue())
}

/// Flue gas drawn back, and flames that burn while air is drawn out.
fn spilling(survey: &Survey, pull: &FanPull, findings: &mut Vec<Finding>) {
    if pull.lowering_pa <= SPILLING_PA {
        return;
    }
    let lower = format!(
        "the fans that run in use lower the inside by {}, with all that closes shut and hardly any wind",
        Kind::Pascals.with_unit(&figure(pull.lowering_pa, 2))
    );
    for appliance in &survey.appliances {
        let (severity, meaning, advice) = if appliance.has_open_flue() {
            (
                Severity::Danger,
                "from 4 Pa on its flue gas may spill into the room [M]",
                "never let it burn while they run; give them air of its own by a supply opening that cannot be shut, and have a licensed fitter test the flue with the fans on",
            )
        } else if appliance.burns_without_flue() {
            (
                Severity::Warning,
                "extraction stays on while it burns, so it needs more air to draw on",
                "keep the fan on while it burns and open a window; fit a supply opening that cannot be shut",
            )
        } else {
            continue;
        };
        findings.push(Finding {
            severity,
            place: Place::whole(Item::Appliance(appliance.id)),
            sentence: format!("{}: {lower}; {meaning}", words(appliance)),
            advice: advice.to_owned(),
        });
    }
}

/// Fans that find no air.
fn held_back(survey: &Survey, pull: &FanPull, findings: &mut Vec<Finding>) {
    for (fan, share) in survey.fans.iter().zip(&pull.shares) {
        let (Some(free), Some(share)) = (fan.flow_m3_per_h, share) else {
            continue;
        };
        if *share >= HELD_BACK {
            continue;
        }
        let moved = Kind::CubicMetresPerHour.text(share * free);
        findings.push(Finding {
            severity: Severity::Warning,
            place: Place::at(Item::Fan(fan.id), Field::FanFlow),
            sentence: format!(
                "{}: it moves {moved} of its {} where all that closes is shut: the air finds no way",
                called("fan", &fan.name),
                Kind::CubicMetresPerHour.typed(free),
            ),
            advice: "give it an opening of its own to draw from or blow to; check its flow and the pressure that stops it".to_owned(),
        });
    }
}

/// Carbon dioxide from which it is noted, ppm **\[C\]**; from which the eight hours' limit of a
/// workplace is passed **\[M\]**; and its short-term limit **\[M\]**.
const STEPS: [(f64, Severity, &str); 3] = [
    (
        15_000.0,
        Severity::Danger,
        "above the short-term limit of workplaces, 15 000 ppm [M]",
    ),
    (
        5_000.0,
        Severity::Warning,
        "above the eight-hour limit of workplaces, 5 000 ppm [M]",
    ),
    (
        1_500.0,
        Severity::Note,
        "stale: 1 500 ppm and less is fresh enough [C]",
    ),
];
/// Carbon dioxide beyond which no figure means anything, ppm.
const NO_FIGURE_PPM: f64 = 40_000.0;

/// The weather case in which the air of sleepers becomes the most stale, by steps; the cases by name.
fn stale_air<'a>(
    survey: &Survey,
    cases: impl Iterator<Item = (&'a str, &'a Answer<CaseAir>)>,
) -> Option<Finding> {
    let sleepers = survey.vehicle.berths;
    let of = |(name, air): (&'a str, &'a Answer<CaseAir>)| {
        let flow = outside_air_m3_s(survey, air.as_ref().ok()?);
        // No air at all is the worst.
        let ppm = carbon_dioxide_ppm(sleepers, flow).unwrap_or(f64::INFINITY);
        (sleepers > 0).then_some((name, ppm))
    };
    let found: Vec<(&str, f64)> = cases.filter_map(of).collect();
    let worst = found.iter().map(|(_, ppm)| *ppm).reduce(f64::max)?;
    let (_, severity, meaning) = STEPS.into_iter().find(|(from, ..)| worst > *from)?;
    let at_worst = found.iter().filter(|(_, ppm)| *ppm >= worst);
    let names = at_worst.map(|(name, _)| format!("\u{201c}{name}\u{201d}"));
    let ppm = if worst > NO_FIGURE_PPM {
        "beyond 40 000 ppm".to_owned()
    } else {
        format!("at {} ppm", figure(worst, 2))
    };
    let berths = Place::at(Item::Vehicle, Field::Berths);
    Some(Finding {
        severity,
        place: berths,
        sentence: format!(
            "with a sleeper in each berth the carbon dioxide settles {ppm} in {}: {meaning}",
            listed(names)
        ),
        advice: "sleep with a ventilator or window open, and never close fixed ventilation"
            .to_owned(),
    })
}
