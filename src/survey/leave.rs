//! What may be done about a gap at all, and how: the one place that says it.
//!
//! Ranking, budget, plan, work order, tables, the states offered in the window and the edits that
//! a survey takes all ask [`leave`]. It goes by what the surveyor said the gap is and is there for,
//! never by a name: words in a name, zone or note only make it ask.
//!
//! | the gap is | what may be planned |
//! |---|---|
//! | safety ventilation, gas drop-out, air of an appliance, flue | never |
//! | vent of a battery box or a toilet tank | never |
//! | floor opening of a gas locker or beneath a gas appliance | never, whatever it was called |
//! | a gas pipe's passage | by a licensed fitter alone, outside the workshop's list |
//! | ventilation of the user's, or anything else that closes | a setting, no remedy |
//! | a drain | a trap or a one-way valve, never blinded |
//! | seal of a door, window, rooflight or flap | a new seal or adjustment, never filler |
//! | refrigerator surround | towards the living space, heat-resisting |
//! | grille, louvre, mesh, or in a zone of vents | its purpose is asked first |
//! | at the mains, by its name or zone | as its part says, by an electrician alone |
//! | part or purpose not said, appliances not confirmed | nothing until they are |
//!
//! From the rules for leisure vehicles as this project's method relays them \[R\]; which words ask
//! is an assumption of this project \[A\].

use super::gap::{Cavity, Facing, Form, Gap, GapPart, LeadsTo, Purpose, RemedyKind, WorkState};
use super::{Survey, signs};

/// How a gap that may be planned is to be closed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Manner {
    /// What never moves: filled, taped or covered.
    Fixed,
    /// What opens: a new seal, or the old one adjusted.
    NewSeal,
    /// Water goes out: a trap or a one-way valve.
    Trap,
    /// Round a refrigerator: towards the living space, heat-resisting.
    RefrigeratorSurround,
}

impl Manner {
    /// Whether a kind of remedy is one for it.
    #[must_use]
    pub fn takes(self, kind: RemedyKind) -> bool {
        match self {
            Self::Fixed => kind != RemedyKind::Trap,
            Self::NewSeal => matches!(
                kind,
                RemedyKind::Strip | RemedyKind::Brush | RemedyKind::Curtain | RemedyKind::Own
            ),
            Self::Trap => kind == RemedyKind::Trap,
            Self::RefrigeratorSurround => matches!(
                kind,
                RemedyKind::Strip | RemedyKind::Sealant | RemedyKind::Grommet | RemedyKind::Own
            ),
        }
    }

    /// What whoever does the work must heed, whatever the remedy; nothing for plain joints.
    #[must_use]
    pub fn heed(self) -> Option<&'static str> {
        match self {
            Self::Fixed => None,
            Self::NewSeal => Some("a new seal or adjustment, never filler: it must still open"),
            Self::Trap => Some("never blind it: water must still run out"),
            Self::RefrigeratorSurround => Some(
                "towards the living space only, heat-resisting material, and nothing that narrows \
                 the refrigerator's own air",
            ),
        }
    }
}

/// Why nothing may be planned for a gap.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Refusal {
    /// It protects people.
    #[error("{} must stay open: it protects the people inside", .0.name())]
    ProtectsPeople(Purpose),
    /// The part is one that is never closed.
    #[error("{} must stay open", .0.name())]
    NeverClosed(GapPart),
    /// A floor opening of a gas locker.
    #[error(
        "a floor opening of a gas locker lets leaked gas fall out, whatever it is called: it must stay open"
    )]
    DropOut,
    /// A gas pipe's passage.
    #[error(
        "a gas pipe's passage is work for a licensed gas fitter, with a fire-resisting, gas-tight fitting"
    )]
    GasFitter,
    /// It closes: that is a setting.
    #[error(
        "it closes by its own flap, lever or slide: shut it there, that is a setting and no remedy"
    )]
    Setting,
    /// It leads into a compartment and leaks only through the gaps behind it.
    #[error("it leaks only through the gaps behind it: seal those")]
    Compartment,
    /// What it is there for is not said.
    #[error("its purpose is not said: it may be air for people or for an appliance")]
    PurposeNotSaid,
    /// A grille, or a gap in a zone of vents, that is called unintended.
    #[error(
        "grilles, and gaps among vents, are rarely unintended: confirm that it protects nobody"
    )]
    PurposeNotConfirmed,
    /// What part it is, is not said.
    #[error("what part it is, is not said")]
    PartNotSaid,
    /// A word that may tell of something which protects people.
    #[error(
        "\u{201c}{0}\u{201d} in its name, zone or note may tell of gas, a flue or a vent: confirm that it protects nobody"
    )]
    Sign(&'static str),
    /// It protected people before somebody changed its purpose by hand.
    #[error("it was {} before its purpose was changed by hand: confirm that it protects nobody", .0.name())]
    ChangedByHand(Purpose),
    /// It is an opening in the floor.
    #[error(
        "openings in the floor may be drop-outs of a gas locker or appliance: confirm that it protects nobody"
    )]
    InFloor,
    /// Which appliances are in the vehicle is not confirmed.
    #[error(
        "which appliances burn in the vehicle is not confirmed, so what must stay open is not known"
    )]
    Appliances,
}

impl Refusal {
    /// Whether it is an opening that protects people: closing it is a danger.
    #[must_use]
    pub fn protects(self) -> bool {
        matches!(
            self,
            Self::ProtectsPeople(_) | Self::NeverClosed(_) | Self::DropOut
        )
    }

    /// Whether it may be one: something is to be said or looked at first.
    #[must_use]
    pub fn may_protect(self) -> bool {
        matches!(
            self,
            Self::PurposeNotSaid
                | Self::PurposeNotConfirmed
                | Self::Sign(_)
                | Self::ChangedByHand(_)
                | Self::InFloor
        )
    }
}

/// Whether it is a grille, louvre or mesh, or stands among vents: what such an opening is there
/// for is asked.
#[must_use]
pub fn asks_purpose(survey: &Survey, gap: &Gap) -> bool {
    matches!(gap.form, Form::Grille { .. })
        || gap.part == GapPart::Grille
        || signs::in_zone_of_vents(survey, gap)
}

/// What a gap is there for, as far as that is settled: a grille that is called unintended and that
/// nobody has confirmed counts as *not said*.
#[must_use]
pub fn purpose(survey: &Survey, gap: &Gap) -> Purpose {
    let open = gap.purpose == Purpose::Unintended && !gap.purpose_confirmed;
    if open && asks_purpose(survey, gap) {
        Purpose::NotSaid
    } else {
        gap.purpose
    }
}

/// Whether a gap counts among the unintended ones: what protects people does not, nor does what
/// nobody has said yet.
#[must_use]
pub fn counts_as_leak(survey: &Survey, gap: &Gap) -> bool {
    let purpose = purpose(survey, gap);
    !never(survey, gap) && purpose != Purpose::NotSaid
}

/// Whether it must stay open whatever anybody plans.
#[must_use]
pub fn never(survey: &Survey, gap: &Gap) -> bool {
    never_closed(survey, gap).is_some()
}

fn never_closed(survey: &Survey, gap: &Gap) -> Option<Refusal> {
    match gap.part {
        // What goes out there is not what an appliance's air is: the part says more than the purpose.
        GapPart::Flue | GapPart::BatteryVent | GapPart::ToiletVent => {
            Some(Refusal::NeverClosed(gap.part))
        }
        _ if gap.purpose.must_stay_open() => Some(Refusal::ProtectsPeople(gap.purpose)),
        _ if gap.facing == Facing::Underfloor && signs::is_of_gas_locker(survey, gap) => {
            Some(Refusal::DropOut)
        }
        _ => None,
    }
}

/// How a gap may be closed.
///
/// # Errors
/// [`Refusal`] where nothing may be planned for it, and why.
pub fn leave(survey: &Survey, gap: &Gap) -> Result<Manner, Refusal> {
    if let Some(why) = never_closed(survey, gap) {
        return Err(why);
    }
    if gap.part == GapPart::GasPassage || signs::is_of_gas_pipe(survey, gap) {
        return Err(Refusal::GasFitter);
    }
    if gap.leads_to == LeadsTo::Compartment {
        return Err(Refusal::Compartment);
    }
    if gap.purpose == Purpose::NotSaid {
        return Err(Refusal::PurposeNotSaid);
    }
    if gap.purpose == Purpose::UserVentilation || gap.closing.is_some() {
        return Err(Refusal::Setting);
    }
    if gap.part == GapPart::NotSaid {
        return Err(if asks_purpose(survey, gap) && !gap.purpose_confirmed {
            Refusal::PurposeNotConfirmed
        } else {
            Refusal::PartNotSaid
        });
    }
    if !gap.purpose_confirmed {
        looked_at(survey, gap)?;
    }
    if !survey.appliances_confirmed {
        return Err(Refusal::Appliances);
    }
    Ok(manner(gap))
}

/// What has to be looked at before somebody has confirmed that the opening protects nobody.
fn looked_at(survey: &Survey, gap: &Gap) -> Result<(), Refusal> {
    if let Some(was) = gap.purpose_was {
        return Err(Refusal::ChangedByHand(was));
    }
    if asks_purpose(survey, gap) {
        return Err(Refusal::PurposeNotConfirmed);
    }
    let moves_or_joins = matches!(gap.part, GapPart::FixedJoint | GapPart::MovingSeal);
    if gap.facing == Facing::Underfloor && !moves_or_joins {
        return Err(Refusal::InFloor);
    }
    match signs::sign(survey, gap) {
        Some(word) => Err(Refusal::Sign(word)),
        None => Ok(()),
    }
}

fn manner(gap: &Gap) -> Manner {
    if gap.purpose == Purpose::Drain || gap.part == GapPart::Drain {
        return Manner::Trap;
    }
    let refrigerator = gap.facing == Facing::Cavity(Cavity::RefrigeratorCompartment)
        || signs::is_of_refrigerator(gap);
    match gap.part {
        GapPart::RefrigeratorSurround => Manner::RefrigeratorSurround,
        _ if refrigerator => Manner::RefrigeratorSurround,
        GapPart::MovingSeal => Manner::NewSeal,
        _ => Manner::Fixed,
    }
}

/// Who alone may close it, where that is work for one trade.
pub const ELECTRICIAN: &str = "electrician only";

/// Whether a gap is at the mains, by its name or zone: whoever works there may touch what kills.
#[must_use]
pub fn is_for_electrician(survey: &Survey, gap: &Gap) -> bool {
    signs::is_of_mains(survey, gap)
}

/// What whoever closes a gap in some manner must heed, whatever the remedy; nothing for plain joints.
#[must_use]
pub fn heed(survey: &Survey, gap: &Gap, manner: Manner) -> Option<String> {
    let trade = is_for_electrician(survey, gap).then(|| {
        format!("{ELECTRICIAN}, with the mains lead pulled: there are live parts behind it")
    });
    let words: Vec<String> = trade
        .into_iter()
        .chain(manner.heed().map(str::to_owned))
        .collect();
    (!words.is_empty()).then(|| words.join("; "))
}

/// Whether a gap may be brought into a state. A gas pipe's passage is never in the workshop's plan,
/// but what a licensed fitter closed is closed.
///
/// # Errors
/// [`Refusal`] where the state would close what must not be closed, or what nobody has looked at.
pub fn may_become(survey: &Survey, gap: &Gap, state: WorkState) -> Result<(), Refusal> {
    match (state, leave(survey, gap)) {
        (WorkState::Open | WorkState::Deferred, _)
        | (_, Ok(_))
        | (WorkState::Sealed, Err(Refusal::GasFitter)) => Ok(()),
        (WorkState::Planned | WorkState::Sealed, Err(why)) => Err(why),
    }
}

/// The states to offer for a gap: those it may be brought into, and the one it is in.
#[must_use]
pub fn states(survey: &Survey, gap: &Gap) -> Vec<WorkState> {
    WorkState::ALL
        .into_iter()
        .filter(|state| *state == gap.state || may_become(survey, gap, *state).is_ok())
        .collect()
}

/// The kinds of remedy to offer for a gap: none where nothing may be planned.
#[must_use]
pub fn remedies(survey: &Survey, gap: &Gap) -> Vec<RemedyKind> {
    let manner = leave(survey, gap);
    RemedyKind::ALL
        .into_iter()
        .filter(|kind| manner.as_ref().is_ok_and(|manner| manner.takes(*kind)))
        .collect()
}
