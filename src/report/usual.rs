//! What is usual for a kind of vehicle, and not measured: what a fill put in, and what of a survey it is.

use super::blocks::{Align, Block, Section, Table};
use crate::assess::quantity::Kind;
use crate::assess::words::{capital, counted, listed};
use crate::survey::{Survey, TypicalWinter, VehicleKind};

/// What stands beside what is usual.
pub const MARK: &str = "usual, not measured";

/// The name of the fill: *A usual touring caravan*.
#[must_use]
pub fn name(kind: VehicleKind) -> String {
    format!("A usual {}", kind.name())
}

/// What the fill does, before anybody has asked for it.
#[must_use]
pub fn offer(kind: VehicleKind) -> String {
    format!(
        "Fills in what is usual for {}, wherever nothing has been entered: areas and build-ups of the \
         fabric by the sizes, the appliances, which you then confirm, and the weather of a winter. All \
         of it is assumed [A] and marked \u{201c}{MARK}\u{201d} until you change it; nothing you entered is \
         touched, and one undo takes it back.",
        kind.one()
    )
}

/// What the fill put in, from the survey before and after it.
#[must_use]
pub fn filled(before: &Survey, after: &Survey) -> String {
    let kind = after.vehicle.kind.one();
    let (was, is) = (&before.usual, &after.usual);
    let mut parts = Vec::new();
    if before.vehicle.length_m != after.vehicle.length_m {
        parts.push("the sizes".to_owned());
    }
    if before.fabric != after.fabric {
        parts.push(counted(
            is.fabric.len(),
            "element of the fabric",
            "elements of the fabric",
        ));
    }
    if before.appliances != after.appliances {
        let many = counted(is.appliances.len(), "appliance", "appliances");
        parts.push(format!("{many} for you to confirm"));
    }
    let winter = is.winter.map_or("unknown", TypicalWinter::name);
    if before.weather != after.weather || was.weather != is.weather {
        parts.push(format!(
            "the weather of the typical winter \u{201c}{winter}\u{201d}"
        ));
    }
    if !was.design_outside && is.design_outside || before.targets != after.targets {
        let coldest = Kind::Celsius.typed(after.targets.design_outside_c);
        parts.push(format!("{coldest} as the coldest outside"));
    }
    if !was.altitude && is.altitude || before.site != after.site {
        let height = Kind::Metres.typed(after.site.altitude_m);
        parts.push(format!("{height} above sea level"));
    }
    if parts.is_empty() {
        return format!("Nothing was filled in: all that is usual for {kind} is there already.");
    }
    let sum = format!("Filled in as usual for {kind}: {}.", listed(parts));
    let missing = after
        .fabric
        .iter()
        .any(|element| is.fabric.contains(&element.id) && element.area_m2.is_none());
    match missing {
        true => format!("{sum} Areas follow once length, width and both heights are given."),
        false => sum,
    }
}

/// Says what of the survey is usual and not measured, each line with the way to its place.
pub(crate) fn tell(section: &mut Section, survey: &Survey) {
    let found = crate::survey::findings::usual(survey);
    if found.is_empty() {
        return;
    }
    let heading = capital(MARK);
    let mut table = Table::default().wide(heading, Align::Left, 1);
    for one in found {
        let words = format!("{}: {}.", capital(&one.sentence), one.advice);
        table.row([words]).about(one.place.item);
    }
    section.push(Block::Table { table });
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::Edit;

    #[test]
    fn a_fill_says_what_it_put_in_and_where_it_put_nothing() {
        let before = Survey::starting(VehicleKind::PanelVan);
        let mut after = before.clone();
        after.apply(Edit::Usual(TypicalWinter::Alpine)).unwrap();
        let told = filled(&before, &after);
        assert_eq!(
            told,
            "Filled in as usual for a panel-van camper: 7 elements of the fabric, 2 appliances for \
             you to confirm, the weather of the typical winter \u{201c}alpine\u{201d}, \u{2212}17\u{a0}°C as the coldest outside \
             and 1150\u{a0}m above sea level."
        );
        assert!(filled(&after, &after).starts_with("Nothing was filled in"));
        assert!(offer(VehicleKind::Integrated).contains("usual for an integrated motor caravan"));
        assert!(offer(VehicleKind::TouringCaravan).contains("usual for a touring caravan"));
        let before = Survey::new(VehicleKind::Other);
        let mut after = before.clone();
        after.apply(Edit::Usual(TypicalWinter::Alpine)).unwrap();
        assert!(filled(&before, &after).contains("Areas follow once"));
    }
}
