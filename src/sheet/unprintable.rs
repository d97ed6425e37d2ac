//! Findings about characters that no bundled font holds, in whose place sheets show □, and about texts
//! that sheets cut.

use super::glyphs::boxed;
use crate::report::findings::about;
use crate::survey::{Field, Finding, Gap, Item, Place, Severity, Survey};
use std::collections::BTreeSet;

/// Characters that a finding names; more are only counted.
const NAMED: usize = 8;

/// Letters up to which any text is printed whole, wherever it stands.
const WHOLE: usize = 1_000;
/// The same of notes, which stand whole below their table.
const WHOLE_NOTE: usize = super::shorten::PARAGRAPH - 200;

/// What to do about it.
const ADVICE: &str = "write it with other characters, or sheets show □ in their place; Latin, Greek, \
                      Cyrillic, Hebrew and Arabic letters and the common signs can be printed";

/// Every text of the survey that a sheet could not print as it stands.
#[must_use]
pub fn unprintable(survey: &Survey) -> Vec<Finding> {
    let mut finder = Finder::default();
    head(&mut finder, survey);
    for gap in &survey.gaps {
        of_gap(&mut finder, gap);
    }
    finder.names(&survey.zones, |one| (Item::Zone(one.id), &one.name));
    finder.names(&survey.weather, |one| (Item::Weather(one.id), &one.name));
    finder.names(&survey.fabric, |one| (Item::Fabric(one.id), &one.name));
    finder.names(&survey.appliances, |one| {
        (Item::Appliance(one.id), &one.name)
    });
    finder.names(&survey.machines, |one| (Item::Machine(one.id), &one.name));
    finder.names(&survey.heaters, |one| (Item::Heater(one.id), &one.name));
    finder.names(&survey.fans, |one| (Item::Fan(one.id), &one.name));
    finder.names(&survey.sources, |one| (Item::Source(one.id), &one.name));
    finder.names(&survey.spaces, |one| (Item::Space(one.id), &one.name));
    finder.names(&survey.inner_openings, |one| {
        (Item::InnerOpening(one.id), &one.name)
    });
    finder.names(&survey.fan_tests, |one| (Item::FanTest(one.id), &one.name));
    finder.names(&survey.air_tests, |one| (Item::AirTest(one.id), &one.name));
    finder.names(&survey.series, |one| (Item::Series(one.id), &one.name));
    finder.names(&survey.trials, |one| (Item::Trial(one.id), &one.name));
    finder.findings
}

#[derive(Default)]
struct Finder {
    findings: Vec<Finding>,
}

impl Finder {
    /// Findings about the names of some records.
    fn names<T>(&mut self, records: &[T], of: impl Fn(&T) -> (Item, &str)) {
        for (item, name) in records.iter().map(of) {
            self.look(item, Field::Name, name, || {
                format!("the name of {}", about(item))
            });
        }
    }

    /// A finding where the text cannot be printed whole; the words for it are made only then.
    fn look(&mut self, item: Item, field: Field, text: &str, words: impl Fn() -> String) {
        let most = match field {
            Field::Notes | Field::GapNote => WHOLE_NOTE,
            _ => WHOLE,
        };
        let letters = text.chars().count();
        if letters > most {
            self.findings.push(Finding {
                severity: Severity::Note,
                place: Place::at(item, field),
                sentence: format!("{} has {letters} letters: sheets cut it", words()),
                advice: format!("shorten it to {most} letters, or attach the rest on paper"),
            });
        }
        let boxed = boxed(text);
        if !boxed.is_empty() {
            self.findings.push(Finding {
                severity: Severity::Note,
                place: Place::at(item, field),
                sentence: format!(
                    "{} holds characters that cannot be printed: {}",
                    words(),
                    named(&boxed)
                ),
                advice: ADVICE.to_owned(),
            });
        }
    }
}

fn head(finder: &mut Finder, survey: &Survey) {
    let header = &survey.header;
    for (field, text, words) in [
        (Field::Title, &header.title, "the title"),
        (Field::Scene, &header.scene, "the scene"),
        (
            Field::Surveyor,
            &header.surveyor,
            "the surveyor\u{2019}s name",
        ),
        (Field::Date, &header.date, "the date"),
        (Field::Reference, &header.reference, "the job reference"),
        (Field::Notes, &header.note, "the notes on the survey"),
    ] {
        finder.look(Item::Header, field, text, || words.to_owned());
    }
    let job = &survey.job;
    for (field, text, words) in [
        (Field::Customer, &job.customer, "the customer\u{2019}s name"),
        (
            Field::CustomerAddress,
            &job.address,
            "the customer\u{2019}s address",
        ),
        (Field::Registration, &job.registration, "the registration"),
        (
            Field::QuotationNumber,
            &job.quotation_number,
            "the number of the quotation",
        ),
        (
            Field::OrderNumber,
            &job.order_number,
            "the number of the order",
        ),
        (
            Field::InvoiceNumber,
            &job.invoice_number,
            "the number of the invoice",
        ),
    ] {
        finder.look(Item::Job, field, text, || words.to_owned());
    }
    let currency = &survey.tariffs.currency;
    finder.look(Item::Tariffs, Field::Currency, currency, || {
        "the currency".to_owned()
    });
}

fn of_gap(finder: &mut Finder, gap: &Gap) {
    let item = Item::Gap(gap.id);
    let remedy = gap.remedy.as_ref().map_or("", |remedy| &remedy.words);
    for (field, text, words) in [
        (Field::GapName, gap.name.as_str(), "its name"),
        (Field::GapNote, &gap.note, "its note"),
        (Field::Damp, &gap.damp, "its damp reading"),
        (Field::RemedyWords, remedy, "the words for its remedy"),
        (Field::StateDate, &gap.state_date, "the date of its state"),
    ] {
        finder.look(item, field, text, || format!("gap {}: {words}", gap.id));
    }
    for (photo, number) in gap.photos.iter().zip(1..) {
        for (text, words) in [(&photo.caption, "words"), (&photo.name, "file name")] {
            finder.look(item, Field::Photos, text, || {
                format!("gap {}: the {words} of its photo {number}", gap.id)
            });
        }
    }
}

/// `漢 (U+6F22), 字 (U+5B57) and 3 more`: the sign where it shows, its number always.
fn named(boxed: &BTreeSet<char>) -> String {
    let each = boxed.iter().take(NAMED).map(|character| {
        let number = format!("U+{:04X}", u32::from(*character));
        if character.is_control() || super::glyphs::is_private(*character) {
            number
        } else {
            format!("{character} ({number})")
        }
    });
    let words = each.collect::<Vec<_>>().join(", ");
    match boxed.len().saturating_sub(NAMED) {
        0 => words,
        more => format!("{words} and {more} more"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{Facing, Form, GapId, Photo, VehicleKind};

    fn survey() -> Survey {
        let mut survey = Survey::new(VehicleKind::Other);
        let form = Form::RoundHole {
            diameter_mm: Some(20.0),
        };
        let gap = Gap::new(GapId(7), survey.zones[0].id, Facing::Rear, form);
        survey.gaps.push(gap);
        survey
    }

    #[test]
    fn what_can_be_printed_gives_no_finding() {
        let mut survey = survey();
        survey.gaps[0].name = "dörr – ⌀ 20 mm, שלום العربية Дверь\r\n\tzweite Zeile".to_owned();
        assert_eq!(unprintable(&survey), []);
    }

    #[test]
    fn each_text_is_named_with_its_gap_and_its_characters() {
        let mut survey = survey();
        let gap = &mut survey.gaps[0];
        gap.name = "窗 and 窗".to_owned();
        gap.note = "under the \u{1f6aa}\u{1}".to_owned();
        gap.photos = vec![Photo::new("a.jpg"), Photo::new("b.jpg")];
        gap.photos[1].caption = "\u{e000}".to_owned();
        survey.header.title = "車".to_owned();
        survey.weather[1].name = "風".to_owned();
        let weather = survey.weather[1].id;
        let found = unprintable(&survey);
        let all: Vec<(Item, &str, &str)> = found
            .iter()
            .map(|one| (one.place.item, one.place.field_key(), one.sentence.as_str()))
            .collect();
        let holds = "holds characters that cannot be printed:";
        let gap = Item::Gap(GapId(7));
        assert_eq!(
            all,
            [
                (
                    Item::Header,
                    "title",
                    &*format!("the title {holds} 車 (U+8ECA)")
                ),
                (gap, "name", &format!("gap 7: its name {holds} 窗 (U+7A97)")),
                (
                    gap,
                    "note",
                    &format!("gap 7: its note {holds} U+0001, \u{1f6aa} (U+1F6AA)")
                ),
                (
                    gap,
                    "photos",
                    &format!("gap 7: the words of its photo 2 {holds} U+E000")
                ),
                (
                    Item::Weather(weather),
                    "name",
                    &format!("the name of weather case {weather} {holds} 風 (U+98A8)")
                ),
            ]
        );
        assert!(found.iter().all(|one| one.severity == Severity::Note));
        assert!(found[0].advice.contains("Latin, Greek"));
    }

    #[test]
    fn what_sheets_cut_is_found_where_it_is() {
        let mut survey = survey();
        survey.gaps[0].note = "n".repeat(5_000);
        assert_eq!(unprintable(&survey), []);
        survey.gaps[0].note = "n".repeat(9_000);
        survey.gaps[0].name = "ö".repeat(1_001);
        survey.job.customer = "c".repeat(4_000);
        let found = unprintable(&survey);
        let all: Vec<&str> = found.iter().map(|one| one.sentence.as_str()).collect();
        assert_eq!(
            all,
            [
                "the customer\u{2019}s name has 4000 letters: sheets cut it",
                "gap 7: its name has 1001 letters: sheets cut it",
                "gap 7: its note has 9000 letters: sheets cut it",
            ]
        );
    }

    #[test]
    fn many_characters_are_counted() {
        let mut survey = survey();
        survey.gaps[0].name = ('一'..='\u{4e0f}').collect();
        let found = unprintable(&survey);
        assert!(found[0].sentence.ends_with("(U+4E07) and 8 more"));
    }
}
