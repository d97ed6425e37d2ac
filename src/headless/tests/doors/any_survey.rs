//! No survey whatever.

use super::*;
use proptest::prelude::*;

/// What the method forbids, written down from it once more, without asking the program.
fn forbidden(survey: &Survey, gap: &Gap) -> Option<&'static str> {
    let zone = survey.zone(gap.zone).expect("its zone").name.clone();
    let told = format!("{zone} {}", gap.name);
    let vents = zone.contains("vents");
    let grille = matches!(gap.form, Form::Grille { .. }) || gap.part == GapPart::Grille;
    match (gap.purpose, gap.part) {
        (Purpose::SafetyVentilation | Purpose::GasDropOut | Purpose::ApplianceAir, _) => {
            Some("it protects people")
        }
        (_, GapPart::Flue | GapPart::BatteryVent | GapPart::ToiletVent) => Some("never closed"),
        (_, GapPart::GasPassage) => Some("a fitter's"),
        (Purpose::UserVentilation, _) => Some("a setting"),
        (Purpose::NotSaid, _) | (_, GapPart::NotSaid) => Some("not said"),
        _ if gap.closing.is_some() => Some("a setting"),
        _ if gap.facing == Facing::Underfloor && told.contains("gas locker") => {
            Some("a drop-out, whatever it is called")
        }
        _ if told.contains("gas pipe") => Some("a fitter's"),
        _ if !survey.appliances_confirmed => Some("safety is not known"),
        _ if (grille || vents || gap.purpose_was.is_some()) && !gap.purpose_confirmed => {
            Some("its purpose is to be asked")
        }
        _ => None,
    }
}

/// Whether the method knows such a remedy for such a part.
fn suits(gap: &Gap, kind: RemedyKind) -> bool {
    use RemedyKind::{Brush, CoverPlate, Curtain, Grommet, Own, Sealant, Strip, Trap};
    let drain = gap.purpose == Purpose::Drain || gap.part == GapPart::Drain;
    let refrigerator = gap.part == GapPart::RefrigeratorSurround
        || gap.facing == Facing::Cavity(Cavity::RefrigeratorCompartment);
    match (drain, refrigerator, gap.part) {
        (true, ..) => kind == Trap,
        (_, true, _) => matches!(kind, Strip | Sealant | Grommet | Own),
        (.., GapPart::MovingSeal) => matches!(kind, Strip | Brush | Curtain | Own),
        _ => matches!(
            kind,
            Strip | Brush | Sealant | Grommet | CoverPlate | Curtain | Own
        ),
    }
}

const NAMES: [&str; 10] = [
    "seam",
    "door seal",
    "drain of the gas locker",
    "gas pipe",
    "cable hole",
    "grille",
    "flue",
    "battery box",
    "hole under the hob",
    "",
];

fn any_gap() -> impl Strategy<Value = Gap> {
    let what = (
        prop::sample::select(Purpose::ALL.to_vec()),
        prop::sample::select(GapPart::ALL.to_vec()),
        prop::sample::select(WorkState::ALL.to_vec()),
        prop::option::of(prop::sample::select(RemedyKind::ALL.to_vec())),
        prop::sample::select(NAMES.to_vec()),
        prop::sample::select(NAMES.to_vec()),
    );
    let place = (
        prop::sample::select(Facing::ALL.to_vec()),
        1..8_u32,
        prop::sample::select(vec![slot(0.8), slot(4.0), hole(30.0), grille()]),
        // Mostly confirmed and leading inside: else hardly a gap would pass.
        prop::bool::weighted(0.6),
        prop::bool::weighted(0.1),
        prop::bool::weighted(0.1),
    );
    (what, place).prop_map(|(what, place)| {
        let (purpose, part, state, kind, name, note) = what;
        let (facing, zone, form, confirmed, closes, compartment) = place;
        let mut gap = Gap::new(GapId(1), ZoneId(zone), facing, form);
        (gap.purpose, gap.part, gap.state) = (purpose, part, state);
        gap.remedy = kind.map(remedy);
        (gap.name, gap.note) = (name.to_owned(), note.to_owned());
        gap.purpose_confirmed = confirmed;
        gap.closing = closes.then_some(Closing::CLOSED);
        if compartment {
            gap.leads_to = LeadsTo::Compartment;
        }
        gap.position.height_m = Some(0.7);
        gap
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// No survey whatever yields a plan, set, order, table, sheet, suggestion, state or edit that
    /// closes an opening which the method forbids to close, nor a remedy that it does not know for
    /// such a part.
    #[test]
    fn no_survey_whatever_closes_what_keeps_people_alive(
        gaps in prop::collection::vec(any_gap(), 1..9),
        confirmed in prop::bool::weighted(0.8),
    ) {
        let mut survey = van();
        survey.appliances_confirmed = confirmed;
        for (id, mut gap) in (2..).zip(gaps) {
            gap.id = GapId(id);
            survey.gaps.push(gap);
        }
        let survey = file::parse(&file::print(&survey)).expect("it reads what it wrote");
        for (door, id, kind) in offered(&survey) {
            let gap = survey.gap(id).expect("a gap of the survey");
            prop_assert_eq!(forbidden(&survey, gap), None, "{} offers {:?}", door, gap);
            if let Some(kind) = kind {
                prop_assert!(suits(gap, kind), "{} closes {:?} by {:?}", door, gap, kind);
            }
        }
        for id in told_as_work(&survey) {
            let gap = survey.gap(GapId(id)).expect("a gap of the survey");
            prop_assert_eq!(forbidden(&survey, gap), None, "paper offers {:?}", gap);
        }
    }
}
