//! A plan: what it costs, and everything before and after.
#![expect(
    clippy::indexing_slicing,
    reason = "answers are in the ledger's order; a missing number must never turn into a silent default"
)]

use super::aim::{Aim, Figures};
use super::bill::Bill;
use super::cost::not_priced;
use super::heed::heed;
use super::payback::Payback;
use super::prospect::{FINE, Prospect};
use super::sealable::{Sealable, StaysOpen};
use crate::assess::answer::{Answer, Assessment, LeakageTotal, NotKnown, Safety};
use crate::assess::assessment::assess;
use crate::assess::model::Want;
use crate::assess::sleepers::outside_air_m3_s;
use crate::physics::counts::count;
use crate::physics::units::SECONDS_PER_HOUR;
use crate::survey::{Finding, GapId, Survey, WorkState};

/// A plan worked out.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The gaps to seal.
    pub gaps: Vec<PlannedGap>,
    /// All costs together, in the survey's currency; gaps whose cost is not known are not in it,
    /// nor is work without an hourly rate.
    pub cost: f64,
    /// The same as a bill: line by line, net, tax, gross.
    pub bill: Bill,
    /// Gaps whose cost is not known.
    pub cost_not_known: Vec<GapId>,
    /// Working time, minutes.
    pub minutes: f64,
    /// Working time that no price is known for, minutes.
    pub minutes_not_priced: f64,
    /// Before.
    pub before: Figures,
    /// After.
    pub after: Figures,
    /// The unintended gaps together, before and after.
    pub leakage_unintended: (Answer<LeakageTotal>, Answer<LeakageTotal>),
    /// For each aim: what the gaps save one by one, added up, and what they save together.
    pub together: Vec<Together>,
    /// How the air through each gap changes in the windiest case, in the ledger's order.
    pub shifts: Vec<FlowShift>,
    /// When it has paid for itself.
    pub payback: Answer<Payback>,
    /// Safety ventilation before and after: a plan never touches it.
    pub safety: (Safety, Safety),
    /// Outside air for each sleeper before and after.
    pub air_per_sleeper: (Answer<AirPerSleeper>, Answer<AirPerSleeper>),
    /// What to heed.
    pub findings: Vec<Finding>,
}

/// One gap of a plan.
#[derive(Clone, Debug, PartialEq)]
pub struct PlannedGap {
    /// The gap and its remedy.
    pub sealable: Sealable,
    /// What it would save alone.
    pub saves_alone: Figures,
    /// What would be lost again if it alone were left out of the plan.
    pub saves_last: Figures,
    /// Whether it has no size, so that it is in no balance and what it saves is not known.
    pub not_sized: bool,
}

/// Savings one by one and together: sealing one gap shifts air to others.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Together {
    /// The aim.
    pub aim: Aim,
    /// Savings of each gap alone, added up.
    pub sum_alone: f64,
    /// What they save together.
    pub together: f64,
}

/// Air through one gap before and after, mean over the directions, kg/s.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FlowShift {
    /// The gap.
    pub gap: GapId,
    /// Whether the plan seals it.
    pub sealed: bool,
    /// In and out before.
    pub before_kg_s: (f64, f64),
    /// In and out after.
    pub after_kg_s: (f64, f64),
}

/// Outside air for each sleeper, m³/h at inside density.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AirPerSleeper {
    /// In the calmest weather case.
    pub calm_m3_per_h: f64,
    /// In the windiest.
    pub windy_m3_per_h: f64,
}

/// The plan of the gaps that the surveyor marked.
#[derive(Clone, Debug, PartialEq)]
pub struct PlannedWork {
    /// The plan; `None` where none is marked.
    pub plan: Option<Answer<Plan>>,
    /// Gaps marked as planned that must stay open.
    pub refused: Vec<(GapId, StaysOpen)>,
}

/// The gaps that the surveyor has marked as planned, and those marked so that must stay open.
#[must_use]
pub fn marked_planned(survey: &Survey) -> (Vec<Sealable>, Vec<(GapId, StaysOpen)>) {
    let (mut sealables, mut refused) = (Vec::new(), Vec::new());
    for gap in survey
        .gaps
        .iter()
        .filter(|gap| gap.state == WorkState::Planned)
    {
        match Sealable::of(survey, gap.id) {
            Ok(sealable) => sealables.push(sealable),
            Err(why) => refused.push((gap.id, why)),
        }
    }
    (sealables, refused)
}

/// The survey with the work done.
///
/// # Errors
/// [`NotKnown`] where a gap is no longer in the survey, or has since become one that must stay
/// open.
pub fn after(survey: &Survey, sealables: &[Sealable]) -> Answer<Survey> {
    let mut done = survey.clone();
    for sealable in sealables {
        let id = sealable.gap();
        let why_not = Sealable::of(survey, id).err();
        if let Some(why) = why_not {
            return Err(NotKnown::because(format!("gap {id}: {why}")));
        }
        for gap in done.gaps.iter_mut().filter(|gap| gap.id == id) {
            gap.remedy = Some(sealable.remedy().clone());
            gap.state = WorkState::Sealed;
        }
    }
    Ok(done)
}

/// Works out a plan: the vehicle before and after, and what each gap has to do with it.
///
/// ```text
/// alone_j = f(∅) − f({j}),   last_j = f(P ∖ {j}) − f(P)
/// ```
/// where f are the figures with a set of gaps sealed and P the plan. Neither adds up to
/// `f(∅) − f(P)`, since sealing shifts air to what stays open: both are told beside it.
///
/// # Errors
/// [`NotKnown`] where the air change itself is not, or as [`after`].
pub fn plan(survey: &Survey, sealables: &[Sealable]) -> Answer<Plan> {
    let done = after(survey, sealables)?;
    let was = assess(survey);
    plan_of(
        survey,
        &Prospect::new(survey)?,
        (&was, &assess(&done)),
        sealables,
    )
}

/// Works out a plan for a survey, given its assessment as it stands and with the plan's gaps
/// sealed.
pub(crate) fn plan_of(
    survey: &Survey,
    prospect: &Prospect,
    (was, will_be): (&Assessment, &Assessment),
    sealables: &[Sealable],
) -> Answer<Plan> {
    let done = self::after(survey, sealables)?;
    let variants = Variants::new(survey, prospect, sealables);
    let before = variants.prospect.before().clone();
    let all: Vec<usize> = (0..sealables.len()).collect();
    let after = variants.figures(&all)?;
    let mut gaps = Vec::with_capacity(sealables.len());
    for (at, sealable) in sealables.iter().enumerate() {
        let others: Vec<usize> = all.iter().copied().filter(|other| *other != at).collect();
        gaps.push(PlannedGap {
            sealable: sealable.clone(),
            saves_alone: before.less(&variants.figures(&[at])?),
            saves_last: variants.figures(&others)?.less(&after),
            not_sized: variants.leaks[at].is_none(),
        });
    }
    let bill = Bill::of(survey, sealables)?;
    let (cost, minutes_not_priced) = (bill.gross, bill.minutes_not_priced);
    let cost_not_known: Vec<GapId> = bill.not_known.iter().map(|(gap, _)| *gap).collect();
    let known_cost = match cost_not_known.first() {
        Some(gap) => Err(NotKnown::because(format!(
            "the cost of gap {gap} is not known"
        ))),
        None if minutes_not_priced > 0.0 => Err(not_priced(minutes_not_priced)),
        None => Ok(cost),
    };
    let saved = before.less(&after);
    Ok(Plan {
        cost,
        minutes: bill.minutes(),
        minutes_not_priced,
        together: together(&gaps, &saved),
        shifts: shifts(survey, sealables, was, will_be),
        payback: Payback::of(known_cost, &saved.winter_cost),
        cost_not_known,
        air_per_sleeper: (
            air_per_sleeper(survey, was),
            air_per_sleeper(survey, will_be),
        ),
        findings: heed(
            (survey, was),
            (&done, will_be),
            sealables,
            minutes_not_priced,
        ),
        safety: (was.safety.clone(), will_be.safety.clone()),
        leakage_unintended: (
            was.leakage.unintended.clone(),
            will_be.leakage.unintended.clone(),
        ),
        bill,
        gaps,
        before,
        after,
    })
}

/// The vehicle with any of a plan's gaps sealed.
struct Variants<'a> {
    prospect: &'a Prospect,
    /// Leak and share left of each gap of the plan; none where it is in no balance.
    leaks: Vec<Option<(usize, f64)>>,
}

impl<'a> Variants<'a> {
    fn new(survey: &Survey, prospect: &'a Prospect, sealables: &[Sealable]) -> Self {
        let leak = |sealable: &Sealable| {
            let ledger = survey.gaps.iter().position(|gap| gap.id == sealable.gap());
            let mut leaks = prospect.model.leaks().iter();
            Some((
                leaks.position(|leak| leak.ledger == ledger)?,
                sealable.leak_left(),
            ))
        };
        Self {
            leaks: sealables.iter().map(leak).collect(),
            prospect,
        }
    }

    /// The figures with these of the plan's gaps sealed, each to the share that its remedy leaves.
    ///
    /// # Errors
    /// [`NotKnown`] where the air balance has no solution.
    fn figures(&self, sealed: &[usize]) -> Answer<Figures> {
        let model = &self.prospect.model;
        let mut varied = model.as_surveyed(FINE);
        for (leak, left) in sealed.iter().filter_map(|at| self.leaks[*at]) {
            varied.factors[leak] = left;
        }
        let mut bench = model.workbench();
        model.evaluate(&mut bench, &varied, Want::Both)?;
        Ok(self.prospect.scales.figures(model, &bench.inflows))
    }
}

/// Savings one by one and together, for each aim whose figures are all known.
fn together(gaps: &[PlannedGap], saved: &Figures) -> Vec<Together> {
    let of = |aim| {
        let alone: Answer<Vec<f64>> = gaps.iter().map(|gap| gap.saves_alone.of(aim)).collect();
        Some(Together {
            aim,
            sum_alone: alone.ok()?.iter().sum(),
            together: saved.of(aim).ok()?,
        })
    };
    Aim::ALL.into_iter().filter_map(of).collect()
}

/// Mean flow in and out of every gap over the directions of the windiest case.
fn shifts(
    survey: &Survey,
    sealables: &[Sealable],
    was: &Assessment,
    will_be: &Assessment,
) -> Vec<FlowShift> {
    let mean = |assessment: &Assessment, gap: usize| {
        let (_, windiest) = assessment.calmest_and_windiest?;
        let air = assessment.cases[windiest].air.as_ref().ok()?;
        let (mut inward, mut outward) = (0.0, 0.0);
        for direction in &air.directions {
            let flow = direction.flows[gap]?;
            inward += flow.in_kg_s;
            outward += flow.out_kg_s;
        }
        let directions = count(air.directions.len());
        Some((inward / directions, outward / directions))
    };
    let gaps = survey.gaps.iter().enumerate();
    gaps.filter_map(|(at, gap)| {
        Some(FlowShift {
            gap: gap.id,
            sealed: sealables.iter().any(|one| one.gap() == gap.id),
            before_kg_s: mean(was, at)?,
            after_kg_s: mean(will_be, at)?,
        })
    })
    .collect()
}

/// Outside air for each sleeping place.
///
/// ```text
/// q = 3600 Q/N
/// ```
/// where Q is the outside air that reaches the sleepers, m³/s, mean over the directions, and N the
/// berths.
///
/// # Errors
/// [`NotKnown`] where there are no berths, no weather, or no air change.
pub(crate) fn air_per_sleeper(survey: &Survey, assessment: &Assessment) -> Answer<AirPerSleeper> {
    if survey.vehicle.berths == 0 {
        return Err(NotKnown::because(
            "nobody sleeps in it: no berths are given",
        ));
    }
    let berths = f64::from(survey.vehicle.berths);
    let (calm, windy) = assessment
        .calmest_and_windiest
        .ok_or_else(|| NotKnown::because("there is no weather case"))?;
    let of = |at: usize| {
        let air = assessment.cases[at].air.as_ref().map_err(Clone::clone)?;
        Answer::Ok(outside_air_m3_s(survey, air) * SECONDS_PER_HOUR / berths)
    };
    Ok(AirPerSleeper {
        calm_m3_per_h: of(calm)?,
        windy_m3_per_h: of(windy)?,
    })
}
