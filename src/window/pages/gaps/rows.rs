//! What one row of the ledger says.

use super::columns::Column;
use super::listing::Line;
use crate::assess::GapLeakage;
use crate::assess::quantity::Kind;
use crate::assess::words::sizes;
use crate::survey::{Finding, Gap, Survey};
use crate::window::answers::Results;
use crate::window::widgets::number_text;

/// A gap's row.
pub(super) struct Row<'a> {
    pub(super) gap: &'a Gap,
    /// Its worst finding.
    pub(super) finding: Option<&'a Finding>,
    survey: &'a Survey,
    results: Option<&'a Results>,
    line: Line,
}

const NONE: &str = "–";

impl<'a> Row<'a> {
    /// The row of a line of the listing.
    pub(super) fn new(
        survey: &'a Survey,
        results: Option<&'a Results>,
        line: Line,
    ) -> Option<Self> {
        let gap = survey.gaps.get(line.at).filter(|gap| gap.id == line.id)?;
        Some(Self {
            gap,
            finding: line.finding(results),
            survey,
            results,
            line,
        })
    }

    /// The words of one cell; marks and signs are painted and have none.
    pub(super) fn cell(&self, column: Column) -> String {
        let gap = self.gap;
        match column {
            Column::Number => gap.id.to_string(),
            Column::Mark | Column::Noticed => String::new(),
            Column::Name => gap.shown_name().to_owned(),
            Column::Zone => self.zone().to_owned(),
            Column::Facing => gap.facing.name().to_owned(),
            Column::Form => sizes(&gap.form),
            Column::Count => gap.count.to_string(),
            Column::Area => self.area(),
            Column::Share => self.share(),
            Column::Certainty => gap.certainty.name().to_owned(),
            Column::Purpose => gap.purpose.name().to_owned(),
            Column::State => gap.state.name().to_owned(),
            Column::Remedy => match &gap.remedy {
                Some(remedy) => remedy.kind.name().to_owned(),
                None => NONE.to_owned(),
            },
            Column::Height => number_text::format(gap.position.height_m),
            Column::Note => gap.note.lines().collect::<Vec<_>>().join(" "),
        }
    }

    /// The whole row in words.
    pub(super) fn words(&self) -> String {
        let gap = self.gap;
        let (name, form) = (gap.shown_name(), sizes(&gap.form));
        let (zone, facing) = (self.zone(), gap.facing.name());
        let noticed = self.finding.map_or_else(String::new, |finding| {
            format!(", findings: {}", finding.severity.name())
        });
        format!(
            "{} {name}: {zone}, {facing}, {form}, {} of it, EqLA {} cm², {}, {}, {}, {}{noticed}",
            gap.id,
            gap.count,
            self.area(),
            self.share(),
            gap.certainty.name(),
            gap.purpose.name(),
            gap.state.name(),
        )
    }

    fn zone(&self) -> &'a str {
        self.survey.zone_name(self.gap.zone)
    }

    fn leakage(&self) -> Option<&'a GapLeakage> {
        let answer = self.line.answer(self.results);
        answer.map(|answer| &answer.leakage)
    }

    /// EqLA in cm², or why there is none.
    fn area(&self) -> String {
        match self.leakage() {
            Some(GapLeakage::Known(figures)) => Kind::LeakageCm2.number(figures.eqla),
            Some(GapLeakage::NotSized { .. }) => "not sized".to_owned(),
            Some(GapLeakage::Impossible { .. }) => "left out".to_owned(),
            Some(GapLeakage::Compartment) => "outer".to_owned(),
            None => NONE.to_owned(),
        }
    }

    /// Share of all gaps' flow at 10 Pa.
    fn share(&self) -> String {
        let figures = self.leakage().and_then(GapLeakage::figures);
        let all = self
            .results
            .and_then(|results| results.assessment().leakage.all.as_ref().ok());
        match (figures, all) {
            (Some(figures), Some(all)) if all.figures.flow_10pa > 0.0 => {
                Kind::Share.text(figures.flow_10pa / all.figures.flow_10pa)
            }
            _ => NONE.to_owned(),
        }
    }
}
