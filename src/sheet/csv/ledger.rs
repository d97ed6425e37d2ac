//! The ledger of gaps as CSV, one line for each gap.

use super::cells::{Writer, flag, harmless, number};
use crate::assess::{Answer, Assessment, LeakageFigures};
use crate::physics::units::{MM2_PER_M2, SECONDS_PER_HOUR};
use crate::survey::leave::leave;
use crate::survey::word::Word;
use crate::survey::{Behind, Field as F, Form, Gap, Survey};

pub(super) fn lines(
    writer: &mut Writer,
    survey: &Survey,
    assessment: &Assessment,
) -> Result<(), csv::Error> {
    writer.write_record(COLUMNS.map(|(header, _)| header))?;
    for gap in &survey.gaps {
        let line = Line {
            survey,
            gap,
            leakage: assessment.leakage_of(gap.id),
        };
        writer.write_record(COLUMNS.map(|(_, cell)| cell(&line)))?;
    }
    Ok(())
}

/// What a cell is made from.
struct Line<'a> {
    survey: &'a Survey,
    gap: &'a Gap,
    leakage: Answer<&'a LeakageFigures>,
}

type Cell = fn(&Line<'_>) -> String;

/// Every column: its header, and its cell for a gap.
const COLUMNS: [(&str, Cell); 56] = [
    ("gap", |line| line.gap.id.to_string()),
    (F::GapName.file_key(), |line| harmless(&line.gap.name)),
    (F::Zone.file_key(), |line| {
        let zone = line.survey.zone(line.gap.zone);
        zone.map_or_else(String::new, |zone| harmless(&zone.name))
    }),
    (F::Space.file_key(), |line| space(line)),
    (F::Facing.file_key(), |line| {
        line.gap.facing.word().to_owned()
    }),
    (F::Form.file_key(), |line| line.gap.form.word().to_owned()),
    (F::GapLength.file_key(), |line| size(line, F::GapLength)),
    (F::GapWidth.file_key(), |line| size(line, F::GapWidth)),
    (F::HoleHeight.file_key(), |line| size(line, F::HoleHeight)),
    (F::GapDepth.file_key(), |line| size(line, F::GapDepth)),
    (F::Bends.file_key(), |line| size(line, F::Bends)),
    (F::Diameter.file_key(), |line| size(line, F::Diameter)),
    (F::RingHole.file_key(), |line| size(line, F::RingHole)),
    (F::RingPipe.file_key(), |line| size(line, F::RingPipe)),
    ("grille_material", |line| match &line.gap.form {
        Form::Grille { material, .. } => material.word().to_owned(),
        _ => String::new(),
    }),
    (F::FreeShare.file_key(), |line| size(line, F::FreeShare)),
    (F::StatedArea.file_key(), |line| size(line, F::StatedArea)),
    ("area_convention", |line| match &line.gap.form {
        Form::StatedArea { convention, .. } => convention.word().to_owned(),
        _ => String::new(),
    }),
    (F::TestFlow.file_key(), |line| size(line, F::TestFlow)),
    (F::TestPressure.file_key(), |line| {
        size(line, F::TestPressure)
    }),
    (F::FlowExponent.file_key(), |line| {
        size(line, F::FlowExponent)
    }),
    (F::GapCount.file_key(), |line| line.gap.count.to_string()),
    (F::Along.file_key(), |line| {
        number(line.gap.position.along_m)
    }),
    (F::Across.file_key(), |line| {
        number(line.gap.position.across_m)
    }),
    ("height_above_ground_m", |line| {
        number(line.gap.position.height_m)
    }),
    (F::Rise.file_key(), |line| number(line.gap.position.rise_m)),
    (F::GapPart.file_key(), |line| {
        line.gap.part.word().to_owned()
    }),
    (F::Purpose.file_key(), |line| {
        line.gap.purpose.word().to_owned()
    }),
    (F::PurposeConfirmed.file_key(), |line| {
        flag(Some(line.gap.purpose_confirmed))
    }),
    (F::PurposeWas.file_key(), |line| {
        let was = line.gap.purpose_was;
        was.map_or_else(String::new, |was| was.word().to_owned())
    }),
    ("not_to_be_planned", |line| {
        let why = leave(line.survey, line.gap).err();
        why.map_or_else(String::new, |why| harmless(&why.to_string()))
    }),
    (F::OpenLaidUp.file_key(), |line| {
        flag(line.gap.closing.map(|closing| closing.open_laid_up))
    }),
    (F::OpenInUse.file_key(), |line| {
        flag(line.gap.closing.map(|closing| closing.open_in_use))
    }),
    (F::ClosedLeaves.file_key(), |line| {
        number(line.gap.closing.map(|closing| closing.leaves_percent))
    }),
    (F::LeadsTo.file_key(), |line| {
        line.gap.leads_to.word().to_owned()
    }),
    ("behind_gap", |line| match line.gap.behind {
        Some(Behind::Gap(outer)) => outer.to_string(),
        _ => String::new(),
    }),
    ("behind_free_area_mm2", |line| match line.gap.behind {
        Some(Behind::Opening { free_area_mm2 }) => number(free_area_mm2),
        _ => String::new(),
    }),
    (F::CavityPressure.file_key(), |line| {
        number(line.gap.cavity_pressure_coefficient)
    }),
    (F::Certainty.file_key(), |line| {
        line.gap.certainty.word().to_owned()
    }),
    (F::State.file_key(), |line| line.gap.state.word().to_owned()),
    (F::StateDate.file_key(), |line| {
        harmless(&line.gap.state_date)
    }),
    (F::Remedy.file_key(), |line| {
        line.gap
            .remedy
            .as_ref()
            .map_or_else(String::new, |remedy| remedy.kind.word().to_owned())
    }),
    ("remedy_words", |line| {
        line.gap
            .remedy
            .as_ref()
            .map_or_else(String::new, |remedy| harmless(&remedy.words))
    }),
    (F::LeakLeft.file_key(), |line| {
        number(
            line.gap
                .remedy
                .as_ref()
                .and_then(|remedy| remedy.leak_left_percent),
        )
    }),
    (F::MaterialCost.file_key(), |line| {
        number(
            line.gap
                .remedy
                .as_ref()
                .and_then(|remedy| remedy.material_cost),
        )
    }),
    (F::CostBasis.file_key(), |line| {
        let remedy = line.gap.remedy.as_ref();
        remedy.map_or_else(String::new, |remedy| remedy.cost_basis.word().to_owned())
    }),
    (F::Minutes.file_key(), |line| {
        number(line.gap.remedy.as_ref().and_then(|remedy| remedy.minutes))
    }),
    (F::Damp.file_key(), |line| harmless(&line.gap.damp)),
    (F::GapNote.file_key(), |line| harmless(&line.gap.note)),
    (F::Photos.file_key(), |line| {
        let names: Vec<&str> = line
            .gap
            .photos
            .iter()
            .map(|photo| photo.name.as_str())
            .collect();
        harmless(&names.join("; "))
    }),
    ("photo_captions", |line| {
        let photos = line.gap.photos.iter();
        let captions: Vec<&str> = photos.map(|photo| photo.caption.as_str()).collect();
        harmless(&captions.join("; "))
    }),
    (F::SetUp.file_key(), |line| {
        line.survey.set_up.word().to_owned()
    }),
    ("eqla_10pa_mm2", |line| {
        leakage(line, |figures| figures.eqla * MM2_PER_M2)
    }),
    ("ela_4pa_mm2", |line| {
        leakage(line, |figures| figures.ela * MM2_PER_M2)
    }),
    ("flow_50pa_m3_per_h", |line| {
        leakage(line, |figures| figures.flow_50pa * SECONDS_PER_HOUR)
    }),
    ("leakage_not_known", |line| {
        let reason = line.leakage.as_ref().err();
        reason.map_or_else(String::new, |why| harmless(&why.reason))
    }),
];

fn leakage(line: &Line<'_>, value: fn(&LeakageFigures) -> f64) -> String {
    number(line.leakage.clone().ok().map(value))
}

/// One size of the gap's form; empty if the form has none such or it was not taken. A slot and a
/// hole share the column of their width.
fn size(line: &Line<'_>, wanted: F) -> String {
    let sizes = line.gap.form.sizes();
    let mut found = sizes.iter();
    let found = found.find(|(field, _)| field.file_key() == wanted.file_key());
    number(found.and_then(|(_, size)| *size))
}

/// Name of the space that the gap opens into, its number where it has no name; empty where the
/// survey lists no spaces.
fn space(line: &Line<'_>) -> String {
    let Some(id) = line.survey.space_or_first(line.gap.space) else {
        return String::new();
    };
    match line.survey.space(id).map(|space| space.name.trim()) {
        None | Some("") => format!("space {id}"),
        Some(name) => harmless(name),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::Study;
    use crate::sheet::csv::{ByteOrderMark, ledger};
    use crate::survey::{Facing, GapId, VehicleKind, ZoneId};

    #[test]
    fn no_header_stands_twice_and_numbers_stay_plain() {
        let mut survey = Survey::new(VehicleKind::PanelVan);
        let form = Form::NarrowGap {
            length_mm: Some(1200.0),
            width_mm: Some(2.5),
            depth_mm: None,
            bends: 1,
        };
        let mut gap = Gap::new(GapId(4), ZoneId(1), Facing::Offside, form);
        gap.cavity_pressure_coefficient = Some(-0.2);
        gap.note = "=HYPERLINK(\"x\"),\n\"quoted\"".to_owned();
        survey.gaps.push(gap);
        let bytes = ledger(&Study::of(&survey), ByteOrderMark::Without).expect("CSV");
        let mut reader = csv::Reader::from_reader(bytes.as_slice());
        let headers = reader.headers().expect("headers").clone();
        let unique: std::collections::BTreeSet<&str> = headers.iter().collect();
        assert_eq!(unique.len(), headers.len());
        let record = reader.records().next().expect("a line").expect("sound");
        let cell = |name: &str| &record[headers.iter().position(|h| h == name).expect("there")];
        assert_eq!(cell("length_mm"), "1200");
        assert_eq!(cell("width_mm"), "2.5");
        assert_eq!(cell("depth_mm"), "");
        assert_eq!(cell("bends"), "1");
        assert_eq!(cell("cavity_pressure_coefficient"), "-0.2");
        assert_eq!(cell("note"), "'=HYPERLINK(\"x\"),\n\"quoted\"");
        assert_eq!(cell("eqla_10pa_mm2"), "");
        assert!(cell("leakage_not_known").contains("depth"));
    }
}
