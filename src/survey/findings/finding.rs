//! What a finding is, and how one is made.

use crate::survey::date::DateWay;
use crate::survey::ids::{
    AirTestId, ApplianceId, FabricId, FanId, FanTestId, GapId, HeaterId, InnerOpeningId, MachineId,
    SeriesId, SourceId, SpaceId, TrialId, WeatherId, ZoneId,
};
use crate::survey::{Field, Gap, RecordId, date};

/// How bad it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// A result cannot be given until it is mended.
    Error,
    /// A person could be hurt.
    Danger,
    /// A result is doubtful or incomplete.
    Warning,
    /// Worth knowing.
    Note,
}

impl Severity {
    /// Its word.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Error => "error",
            Self::Danger => "danger",
            Self::Warning => "warning",
            Self::Note => "note",
        }
    }
}

/// The part of the survey that a finding is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Item {
    /// Title, scene, surveyor, date.
    Header,
    /// The vehicle.
    Vehicle,
    /// Where it stands.
    Site,
    /// Target states.
    Targets,
    /// Prices.
    Tariffs,
    /// The customer and the papers.
    Job,
    /// Contents, sun and supply.
    Drying,
    /// How it stands through a winter, and which winter.
    Stay,
    /// A zone.
    Zone(ZoneId),
    /// A gap.
    Gap(GapId),
    /// A weather case.
    Weather(WeatherId),
    /// A fabric element.
    Fabric(FabricId),
    /// An appliance.
    Appliance(ApplianceId),
    /// A drying machine.
    Machine(MachineId),
    /// A heater.
    Heater(HeaterId),
    /// A fan.
    Fan(FanId),
    /// A moisture source.
    Source(SourceId),
    /// A space inside.
    Space(SpaceId),
    /// An opening between two spaces.
    InnerOpening(InnerOpeningId),
    /// A fan test.
    FanTest(FanTestId),
    /// A test of the air change.
    AirTest(AirTestId),
    /// A logger's readings.
    Series(SeriesId),
    /// A trial.
    Trial(TrialId),
    /// The ledger as a whole.
    Ledger,
    /// Safety ventilation as a whole.
    SafetyVentilation,
}

impl From<RecordId> for Item {
    fn from(record: RecordId) -> Self {
        match record {
            RecordId::Zone(id) => Self::Zone(id),
            RecordId::Gap(id) => Self::Gap(id),
            RecordId::Weather(id) => Self::Weather(id),
            RecordId::Fabric(id) => Self::Fabric(id),
            RecordId::Appliance(id) => Self::Appliance(id),
            RecordId::Machine(id) => Self::Machine(id),
            RecordId::Heater(id) => Self::Heater(id),
            RecordId::Fan(id) => Self::Fan(id),
            RecordId::Source(id) => Self::Source(id),
            RecordId::Space(id) => Self::Space(id),
            RecordId::InnerOpening(id) => Self::InnerOpening(id),
            RecordId::FanTest(id) => Self::FanTest(id),
            RecordId::AirTest(id) => Self::AirTest(id),
            RecordId::Series(id) => Self::Series(id),
            RecordId::Trial(id) => Self::Trial(id),
        }
    }
}

/// Where a finding is: the item and, if it is about one, the field.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Place {
    /// The part of the survey.
    pub item: Item,
    /// The field, if it is about one.
    pub field: Option<Field>,
}

impl Place {
    /// A place that is an item as a whole.
    #[must_use]
    pub fn whole(item: Item) -> Self {
        Self { item, field: None }
    }

    /// A place at a field of an item.
    #[must_use]
    pub const fn at(item: Item, field: Field) -> Self {
        Self {
            item,
            field: Some(field),
        }
    }

    /// Whether it is this field, of whatever item.
    #[must_use]
    pub fn is_at(&self, field: Field) -> bool {
        self.field == Some(field)
    }

    /// Name of the field, as [`Field::key`]; empty where it is the item as a whole.
    #[must_use]
    pub fn field_key(&self) -> &'static str {
        self.field.map_or("", Field::key)
    }
}

/// Something the program noticed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// How bad it is.
    pub severity: Severity,
    /// Where it is.
    pub place: Place,
    /// What is the matter, in a plain sentence.
    pub sentence: String,
    /// What to do.
    pub advice: String,
}

/// Collects findings about one item.
pub(super) struct Finder<'a> {
    pub(super) findings: &'a mut Vec<Finding>,
    pub(super) item: Item,
    /// Words for the item at the head of each sentence: `gap 12 "cable hole"`.
    pub(super) subject: String,
}

impl<'a> Finder<'a> {
    pub(super) fn new(
        findings: &'a mut Vec<Finding>,
        item: Item,
        subject: impl Into<String>,
    ) -> Self {
        Self {
            findings,
            item,
            subject: subject.into(),
        }
    }

    pub(super) fn add(
        &mut self,
        severity: Severity,
        field: impl Into<Option<Field>>,
        sentence: impl AsRef<str>,
        advice: impl Into<String>,
    ) {
        let sentence = if self.subject.is_empty() {
            sentence.as_ref().to_owned()
        } else {
            format!("{}: {}", self.subject, sentence.as_ref())
        };
        let place = Place {
            item: self.item,
            field: field.into(),
        };
        self.findings.push(Finding {
            severity,
            place,
            sentence,
            advice: advice.into(),
        });
    }

    /// Adds an error: a result cannot be given until it is mended.
    pub(super) fn error(
        &mut self,
        field: impl Into<Option<Field>>,
        sentence: impl AsRef<str>,
        advice: impl Into<String>,
    ) {
        self.add(Severity::Error, field, sentence, advice);
    }

    /// Adds a danger: a person could be hurt.
    pub(super) fn danger(
        &mut self,
        field: impl Into<Option<Field>>,
        sentence: impl AsRef<str>,
        advice: impl Into<String>,
    ) {
        self.add(Severity::Danger, field, sentence, advice);
    }

    /// Adds a warning: a result is doubtful or incomplete.
    pub(super) fn warn(
        &mut self,
        field: impl Into<Option<Field>>,
        sentence: impl AsRef<str>,
        advice: impl Into<String>,
    ) {
        self.add(Severity::Warning, field, sentence, advice);
    }

    /// Adds what is worth knowing.
    pub(super) fn remark(
        &mut self,
        field: impl Into<Option<Field>>,
        sentence: impl AsRef<str>,
        advice: impl Into<String>,
    ) {
        self.add(Severity::Note, field, sentence, advice);
    }

    /// An error where the value lies outside its field's range.
    pub(super) fn check(&mut self, field: Field, value: impl Into<Option<f64>>) {
        let (Some(value), Some(range)) = (value.into(), field.range()) else {
            return;
        };
        if let Some(sentence) = field.impossible(value) {
            self.error(
                field,
                sentence,
                format!(
                    "enter a value from {}, or leave it empty if not known",
                    range.in_words()
                ),
            );
        }
    }

    /// A warning where a text that should be a date is none.
    pub(super) fn check_date(&mut self, field: Field, words: &str, text: &str) {
        if !text.is_empty() && date::parse(text).is_none() {
            let what = match DateWay::two_readings(text) {
                Some(both) => format!("can be read as {both}"),
                None => "is not a date".to_owned(),
            };
            self.warn(
                field,
                format!("the {words} \u{201c}{text}\u{201d} {what}"),
                "write it year first, with four digits, then month and day, with a dash between each",
            );
        }
    }

    /// A warning where a value that results depend on is missing.
    pub(super) fn need(&mut self, field: Field, value: Option<f64>, consequence: &str) {
        self.need_as(Severity::Warning, field, value, consequence);
    }

    /// A finding where a value that results depend on is missing.
    pub(super) fn need_as(
        &mut self,
        severity: Severity,
        field: Field,
        value: Option<f64>,
        consequence: &str,
    ) {
        if value.is_some() {
            return;
        }
        self.add(
            severity,
            field,
            format!("{} is not given; {consequence}", field.words()),
            match field.unit() {
                "" => "measure it and enter it".to_owned(),
                unit => format!("measure it and enter it in {unit}"),
            },
        );
    }
}

/// Words for a gap at the head of a sentence.
pub(super) fn gap_subject(gap: &Gap) -> String {
    if gap.name.is_empty() {
        format!("gap {}", gap.id)
    } else {
        format!("gap {} \u{201c}{}\u{201d}", gap.id, gap.name)
    }
}

/// A thing and its name: `wall “front”`, or `wall without a name`.
pub(crate) fn called(kind: &str, name: &str) -> String {
    if name.trim().is_empty() {
        format!("{kind} without a name")
    } else {
        format!("{kind} \u{201c}{name}\u{201d}")
    }
}

/// The name alone where there is one: `“front”`, or `a wall without a name`.
pub(crate) fn named_or(name: &str, otherwise: &str) -> String {
    if name.trim().is_empty() {
        format!("{otherwise} without a name")
    } else {
        format!("\u{201c}{name}\u{201d}")
    }
}

/// A thing with its number, and its name where it has one: `space 3 “cab”`, or `space 3`.
pub(crate) fn numbered(kind: &str, id: impl std::fmt::Display, name: &str) -> String {
    if name.trim().is_empty() {
        format!("{kind} {id}")
    } else {
        format!("{kind} {id} \u{201c}{name}\u{201d}")
    }
}
