//! Findings about what may be closed: openings that protect people, and gaps of which nobody has said
//! what they are.

use super::finding::{Finder, Finding, Item, Severity};
use crate::survey::leave::{Refusal, leave};
use crate::survey::{Field, Gap, Survey, WorkState, number};

/// What is asked of the survey as a whole.
pub(super) fn whole(survey: &Survey, findings: &mut Vec<Finding>) {
    if !survey.appliances_confirmed {
        Finder::new(findings, Item::Vehicle, "").warn(Field::AppliancesConfirmed,
            "which appliances burn in the vehicle is not confirmed: what must stay open is not known, and \
             nothing is offered for sealing",
            "look for every hob, oven, heater, boiler, refrigerator and stove, list them, and tick that \
             all of them are listed",
        );
    }
    let gaps = survey.gaps.iter();
    let unsaid: Vec<String> = gaps
        .filter(|gap| leave(survey, gap) == Err(Refusal::PartNotSaid))
        .map(|gap| gap.id.to_string())
        .collect();
    if !unsaid.is_empty() {
        Finder::new(findings, Item::Ledger, "").warn(
            Field::GapPart,
            format!(
                "what part it is, is not said of {}: {} offered for sealing",
                number::gaps(&unsaid),
                if unsaid.len() == 1 {
                    "it is not"
                } else {
                    "none of them is"
                }
            ),
            "say of each what part it is: a fixed joint, a moving seal, a passage, a drain or another of the list",
        );
    }
}

/// What is asked of one gap, and the danger where it is closed or is to be.
pub(super) fn gap(finder: &mut Finder<'_>, survey: &Survey, gap: &Gap) {
    if let Some(was) = gap.purpose_was {
        finder.warn(Field::PurposeWas,
            format!(
                "it was {} before its purpose was changed by hand to {}",
                was.name(),
                gap.purpose.name()
            ),
            "have somebody else look at it too before it is closed; set the purpose back if in doubt",
        );
    }
    let Err(why) = leave(survey, gap) else {
        return;
    };
    asked(finder, why);
    state(finder, gap, why);
}

fn asked(finder: &mut Finder<'_>, why: Refusal) {
    let field = match why {
        Refusal::PurposeNotSaid => Field::Purpose,
        Refusal::PurposeNotConfirmed
        | Refusal::Sign(_)
        | Refusal::ChangedByHand(_)
        | Refusal::InFloor => Field::PurposeConfirmed,
        _ => return,
    };
    finder.warn(field,
        format!("{why}; until then it is not offered for sealing"),
        "follow it to both ends and see what it serves; then say its purpose, or tick that it protects \
         nobody",
    );
}

/// A state that closes what must stay open, or what nobody has looked at.
fn state(finder: &mut Finder<'_>, gap: &Gap, why: Refusal) {
    let sealed = match gap.state {
        WorkState::Sealed => true,
        WorkState::Planned => false,
        WorkState::Open | WorkState::Deferred => return,
    };
    let (severity, advice) = match (why, sealed) {
        (Refusal::GasFitter, true) => return,
        (why, true) if why.protects() => (
            Severity::Danger,
            "open it again at once; have a licensed fitter check gas and ventilation",
        ),
        (why, false) if why.protects() => (Severity::Danger, "set its state back to open"),
        (why, true) if why.may_protect() => (
            Severity::Danger,
            "look at once whether it protects somebody, and open it again if in doubt",
        ),
        (why, false) if why.may_protect() => (
            Severity::Danger,
            "do not close it before somebody has looked at it",
        ),
        (Refusal::GasFitter, _) => (
            Severity::Warning,
            "give it to a licensed gas fitter, and set its state back to open",
        ),
        (Refusal::Setting, _) => (
            Severity::Warning,
            "set its state back to open, and say how it stands when laid up and in use",
        ),
        _ => (
            Severity::Warning,
            "say what is missing; until then it is in no plan",
        ),
    };
    let words = match (why, sealed) {
        (Refusal::ProtectsPeople(purpose), true) => {
            format!("{} is marked sealed: it must stay open", purpose.name())
        }
        (Refusal::ProtectsPeople(purpose), false) => format!(
            "{} is marked planned but must stay open: do not close it",
            purpose.name()
        ),
        _ => format!("it is marked {}, but {why}", gap.state.name()),
    };
    finder.add(severity, Field::State, words, advice);
}
