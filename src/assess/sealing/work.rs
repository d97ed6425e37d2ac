//! The work that a sheet sets out: which gaps, in which order, with what, for how much.

use super::{
    Aim, Bill, Figures, LeftOpen, Plan, Prospect, Ranking, Sealable, StaysOpen, marked_planned,
};
use crate::assess::{Answer, NotKnown};
use crate::survey::{CostBasis, GapId, Purpose, RemedyKind, Survey};

/// Gaps proposed where none is planned.
const PROPOSED: usize = 10;

/// How the gaps were chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chosen {
    /// They are marked as planned.
    Planned,
    /// None is marked: these save the most, each taken by itself.
    Proposed,
    /// They save most of all sets that cost no more than a sum, whatever is marked.
    Within,
}

/// What somebody wants of the work besides what a survey has marked.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Wish {
    /// What it is to save most of; `None` is the air change with most wind.
    pub aim: Option<Aim>,
    /// Money to spend at most: then the best set for it is the work, whatever is marked.
    pub budget: Option<f64>,
}

/// One gap to seal.
#[derive(Clone, Debug, PartialEq)]
pub struct WorkStep {
    /// The gap and its remedy.
    pub sealable: Sealable,
    /// The headlines with this gap and all before it sealed; `None` where it was not put in
    /// order, because its cost is not known or it saves nothing.
    pub after: Option<Figures>,
    /// Whether the gap has no size, so that what it saves is not known.
    pub not_sized: bool,
}

/// One kind of material to buy.
#[derive(Clone, Debug, PartialEq)]
pub struct Purchase {
    /// Material or part.
    pub kind: RemedyKind,
    /// The words of the remedy.
    pub words: String,
    /// What it is counted by.
    pub basis: CostBasis,
    /// Pieces or metres.
    pub quantity: f64,
    /// Price of one.
    pub unit_price: f64,
    /// All of it.
    pub cost: f64,
    /// The gaps it is for.
    pub gaps: Vec<GapId>,
}

/// The work.
#[derive(Clone, Debug, PartialEq)]
pub struct Work {
    /// How the gaps were chosen.
    pub chosen: Chosen,
    /// The gaps in the order of work: the most saving for the money first.
    pub steps: Vec<WorkStep>,
    /// What it comes to as a whole.
    pub plan: Plan,
    /// What to buy.
    pub purchases: Vec<Purchase>,
    /// Gaps that stay open, and why.
    pub stays_open: Vec<LeftOpen>,
    /// What the order goes by: the air change with most wind, or heat where the volume is missing.
    pub aim: Aim,
}

impl Work {
    /// The planned work of a survey, or a proposal from the ranking where none is planned; `best`, the
    /// best set for a sum, in place of both where there is one. `plan` works out what it comes to.
    ///
    /// # Errors
    /// [`NotKnown`] where the air change itself is not.
    pub(crate) fn of<'a>(
        survey: &Survey,
        prospect: &Prospect,
        (aim, best): (Aim, Option<Vec<Sealable>>),
        ranking: impl FnOnce(Aim) -> Answer<&'a Ranking>,
        plan: impl FnOnce(Chosen, &[Sealable]) -> Answer<Plan>,
    ) -> Answer<Self> {
        let (planned, refused) = marked_planned(survey);
        let (chosen, sealables) = match best {
            Some(best) => (Chosen::Within, best),
            None if planned.is_empty() && refused.is_empty() => {
                (Chosen::Proposed, proposal(survey, ranking(aim)?))
            }
            None => (Chosen::Planned, planned),
        };
        let mut stays_open: Vec<LeftOpen> = prospect
            .left_open()
            .iter()
            .copied()
            // A planned gap is work, sized or not.
            .filter(|left| !sealables.iter().any(|one| one.gap() == left.gap))
            .collect();
        for (gap, why) in refused {
            if !stays_open.iter().any(|other| other.gap == gap) {
                stays_open.push(LeftOpen { gap, why });
            }
        }
        Ok(Self {
            chosen,
            steps: in_order(prospect, aim, &sealables)?,
            plan: plan(chosen, &sealables)?,
            purchases: purchases(&sealables),
            stays_open,
            aim,
        })
    }

    /// What it comes to as a bill.
    #[must_use]
    pub fn bill(&self) -> &Bill {
        &self.plan.bill
    }
}

/// What the work goes by where nobody says it.
pub(crate) fn usual_aim(prospect: &Prospect) -> Aim {
    if prospect.before().of(Aim::AchWindy).is_ok() {
        Aim::AchWindy
    } else {
        Aim::Heat
    }
}

/// The unintended gaps and that save the most; drains and ventilation of the user's are
/// for people to plan.
fn proposal(survey: &Survey, ranking: &Ranking) -> Vec<Sealable> {
    let saves = ranking
        .ranked
        .iter()
        .filter(|one| one.saves.of(ranking.aim).is_ok_and(|saving| saving > 0.0));
    let unwanted = saves.map(|one| &one.sealable).filter(|sealable| {
        let gap = survey.gap(sealable.gap());
        gap.is_some_and(|gap| gap.purpose == Purpose::Unintended)
    });
    unwanted.take(PROPOSED).cloned().collect()
}

/// The chosen gaps in the order of most saving for the money, those without order at the end.
fn in_order(prospect: &Prospect, aim: Aim, sealables: &[Sealable]) -> Answer<Vec<WorkStep>> {
    let chosen = |one: &Sealable| sealables.iter().any(|other| other.gap() == one.gap());
    let order = prospect.order_among(aim, chosen)?;
    let mut steps: Vec<WorkStep> = order
        .steps
        .into_iter()
        .map(|step| WorkStep {
            sealable: step.sealable,
            after: Some(step.after),
            not_sized: false,
        })
        .collect();
    let not_sized = |gap: GapId| {
        let mut left = prospect.left_open().iter();
        left.any(|one| one.gap == gap && one.why == StaysOpen::NotSized)
    };
    for sealable in sealables {
        if !steps
            .iter()
            .any(|step| step.sealable.gap() == sealable.gap())
        {
            steps.push(WorkStep {
                sealable: sealable.clone(),
                after: None,
                not_sized: not_sized(sealable.gap()),
            });
        }
    }
    Ok(steps)
}

/// What to buy, alike materials added up, in the order in which they first come up.
fn purchases(sealables: &[Sealable]) -> Vec<Purchase> {
    let mut all: Vec<Purchase> = Vec::new();
    for sealable in sealables {
        let (Ok(cost), remedy) = (sealable.cost(), sealable.remedy()) else {
            continue;
        };
        if cost.quantity <= 0.0 {
            continue;
        }
        let unit_price = cost.unit_price;
        let alike = all.iter_mut().find(|one| {
            one.kind == remedy.kind
                && one.words.trim() == remedy.words.trim()
                && one.basis == remedy.cost_basis
                && (one.unit_price - unit_price).abs() < 1e-9
        });
        if let Some(one) = alike {
            one.quantity += cost.quantity;
            one.cost += cost.material;
            one.gaps.push(sealable.gap());
        } else {
            all.push(Purchase {
                kind: remedy.kind,
                words: remedy.words.clone(),
                basis: remedy.cost_basis,
                quantity: cost.quantity,
                unit_price,
                cost: cost.material,
                gaps: vec![sealable.gap()],
            });
        }
    }
    for one in &mut all {
        one.gaps.sort_unstable();
    }
    all
}

/// Why there is no plan where no gap can be sealed.
#[must_use]
pub fn nothing_to_seal() -> NotKnown {
    NotKnown::because("no gap is planned, and sealing none of them would save anything")
}
