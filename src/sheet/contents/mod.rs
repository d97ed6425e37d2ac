//! What stands on a sheet: survey and answers as blocks.

mod drawings;
mod guide;
mod measured;
mod photos;
mod plots;
mod seasons;
mod trials;

pub use guide::guide;

use super::blocks::{Picture, Sheet, SheetText};
use super::choices::{Choices, Kind, Part, WorkshopTexts};
use crate::assess::measured::not_to_be_handed_over;
use crate::assess::sealing::{Bill, Work};
use crate::assess::{Mark, Study};
use crate::report::words::not_known;
use crate::report::{
    self, Block, Section, carried_out, cases, completion, costs, drying, in_short, ledger, papers,
    safety, sealing, summary, vehicle, walk, winter, winter_short, workings,
};
use crate::survey::{Survey, date};
use std::collections::BTreeMap;

/// What a sheet is made from.
#[derive(Clone, Copy)]
pub struct Material<'a> {
    /// Survey and answers.
    pub told: report::Material<'a>,
    /// The survey as it is, where what is told of is the survey as it was ordered.
    pub now: &'a Survey,
    /// Copies of the photos for print, by their names in the survey; photos that are missing or
    /// cannot be read are not in it.
    pub photos: &'a BTreeMap<String, Picture>,
}

/// A heading, and which of the workshop's texts stands under it.
type OwnWords = (&'static str, fn(&WorkshopTexts) -> &String);

impl<'a> Material<'a> {
    /// What a kind of sheet is made from.
    #[must_use]
    pub fn of(study: &'a Study, kind: Kind, photos: &'a BTreeMap<String, Picture>) -> Self {
        let told = match kind {
            Kind::Report | Kind::Invoice => report::Material::of(study),
            Kind::Quotation | Kind::WorkOrder => report::Material::of(study.ordered()),
            Kind::Completion => report::Material::of_done_work(study),
        };
        Self {
            told,
            now: study.survey(),
            photos,
        }
    }
}

/// Writes a sheet.
#[must_use]
pub fn contents(material: &Material<'_>, choices: &Choices) -> Sheet {
    let mut writer = Writer {
        material: *material,
        choices,
        files: Vec::new(),
        sections: Vec::new(),
    };
    if let Some(logo) = &choices.workshop.logo {
        writer.files.push((LOGO.to_owned(), logo.clone()));
    }
    writer.add(safety::closed(material.told.assessment));
    match choices.kind {
        Kind::Report => writer.report(),
        Kind::Quotation => writer.quotation(),
        Kind::WorkOrder => writer.work_order(),
        Kind::Completion => writer.completion(),
        Kind::Invoice => writer.invoice(),
    }
    let text = writer.text().shown(&choices.shown(material.told.survey));
    Sheet {
        text,
        files: writer.files,
        refused: match choices.kind {
            Kind::Completion => not_to_be_handed_over(material.told.survey),
            _ => None,
        },
    }
}

/// What stands on paper of the table by weather: how the balance came out is left to the screen.
const ON_PAPER: [cases::Part; 5] = {
    use cases::Part::{AirChange, Heat, Spaces, Water, Weather};
    [Weather, AirChange, Spaces, Water, Heat]
};

/// Name of the logo's file.
const LOGO: &str = "logo";

/// A sheet being written.
struct Writer<'a> {
    material: Material<'a>,
    choices: &'a Choices,
    files: Vec<(String, Picture)>,
    sections: Vec<Section>,
}

impl Writer<'_> {
    fn report(&mut self) {
        let material = self.material.told;
        let work = material.study.work();
        self.in_short();
        self.add(summary::section(&material, work));
        self.add(cases::section(&material, &ON_PAPER));
        if self.choices.has(Part::Vehicle) {
            self.add(vehicle::section(&material));
        }
        self.drawings();
        if self.choices.has(Part::Ledger) {
            let section = ledger::section(&material, ledger::Order::ByZone);
            self.add_drawn(section, plots::leakiest);
        }
        self.add(walk::section(material.survey));
        self.measured();
        if self.choices.has(Part::Photos) {
            self.photos(|_| true);
        }
        if self.choices.has(Part::Plan) {
            let section = sealing::plan(material.survey, material.assessment, work);
            self.add_drawn(section, plots::step_by_step);
        }
        if self.choices.has(Part::Drying) {
            self.drying();
        }
        self.add(safety::ventilation(&material.assessment.safety, None));
        self.cautions();
        self.signature();
        if self.choices.has(Part::Workings) {
            self.add(workings::section(&material));
        }
    }

    fn work_order(&mut self) {
        let material = self.material.told;
        let work = material.study.work();
        let prices = self.choices.has(Part::Costs);
        self.add(carried_out::section(self.material.now, work));
        self.add(sealing::work(material.survey, work, prices));
        if let Ok(work) = work {
            self.steps(work);
            self.add(costs::shopping(material.survey, work, prices));
            if prices {
                self.add(costs::section(material.survey, work));
            }
            if self.choices.has(Part::Photos) {
                let steps = || work.steps.iter().map(|step| step.sealable.gap());
                self.photos(|gap| steps().any(|one| one == gap));
            }
        }
        self.add(sealing::must_stay_open(material.survey, work));
        self.cautions();
        self.signature();
    }

    fn quotation(&mut self) {
        let material = self.material.told;
        let work = material.study.work();
        for section in papers::quotation(material.survey, self.material.now, work) {
            self.add(section);
        }
        // Nobody accepts what offers nothing.
        let Some(work) = work.as_ref().ok().filter(|work| !work.steps.is_empty()) else {
            return;
        };
        self.steps(work);
        if self.choices.has(Part::Photos) {
            let steps = || work.steps.iter().map(|step| step.sealable.gap());
            self.photos(|gap| steps().any(|one| one == gap));
        }
        self.cautions();
        self.own_words(&[
            ("Terms", |texts| &texts.terms),
            ("Warranty", |texts| &texts.warranty),
        ]);
        self.signature();
    }

    fn invoice(&mut self) {
        for section in papers::invoice(self.material.told.survey) {
            self.add(section);
        }
        // Nobody pays what bills nothing.
        if Bill::of_done_work(self.material.told.survey).is_err() {
            return;
        }
        self.own_words(&[
            ("Payment", |texts| &texts.payment),
            ("Warranty", |texts| &texts.warranty),
        ]);
    }

    /// Sections of what the workshop says in its own words, where it says something.
    fn own_words(&mut self, of: &[OwnWords]) {
        if !self.choices.has(Part::Terms) {
            return;
        }
        for (title, text) in of {
            let text = text(&self.choices.workshop.texts).trim();
            if !text.is_empty() {
                self.add(Section::new(*title).ending(text));
            }
        }
    }

    fn completion(&mut self) {
        let material = self.material.told;
        self.add(completion::section(&material));
        let sealed = completion::sealed(material.survey);
        // Without work there is nothing to hand over: one warning, and no pages about it.
        if !sealed.is_empty() {
            if self.choices.has(Part::Bill)
                && let Some(section) = papers::bill_of_done_work(material.survey)
            {
                self.add(section);
            }
            self.measured();
            self.drawings();
            if self.choices.has(Part::Photos) {
                self.photos(|gap| sealed.contains(&gap));
            }
        }
        self.add(safety::ventilation(&material.assessment.safety, None));
        self.cautions();
        if sealed.is_empty() {
            return;
        }
        self.signature();
        if self.choices.has(Part::Proof) {
            // Of the figures that stand in the column *after*.
            let after = material.study.after_work();
            self.add(workings::section(&report::Material {
                survey: after.survey(),
                assessment: after.assessment(),
                ..material
            }));
        }
    }

    /// Adds a section with its plot before its first table.
    fn add_drawn(&mut self, mut section: Section, plot: plots::Plot) {
        if self.choices.has(Part::Drawings)
            && let Some((figure, file)) = plot(&self.material.told, self.choices)
        {
            let is_table = |block: &Block| matches!(block, Block::Table { .. });
            let at = section.blocks.iter().position(is_table).unwrap_or(0);
            section.blocks.insert(at, figure);
            self.files.push(file);
        }
        self.add(section);
    }

    /// Adds a section that has something in it.
    fn add(&mut self, section: Section) {
        if section.blocks.is_empty() {
            return;
        }
        self.sections.push(if self.for_owners() {
            section.for_owners()
        } else {
            section
        });
    }

    /// Whether it is an owner's paper, without marks behind sources.
    fn for_owners(&self) -> bool {
        match self.choices.kind {
            Kind::Report | Kind::WorkOrder => false,
            Kind::Quotation | Kind::Invoice => true,
            Kind::Completion => !self.choices.has(Part::Proof),
        }
    }

    fn drawings(&mut self) {
        if !self.choices.has(Part::Drawings) {
            return;
        }
        let (section, files) = drawings::section(&self.material, self.choices);
        self.files.extend(files);
        self.add(section);
    }

    /// The answer first, for who reads no further.
    fn in_short(&mut self) {
        let told = self.material.told;
        let drawn = self.choices.has(Part::Drawings);
        let (choices, files) = (self.choices, &mut self.files);
        // What is closed though it must stay open stands before it.
        let closed = |line: &in_short::Line| matches!(line.leads_to, in_short::Leads::Place(place) if safety::is_of_what_is_closed(place));
        let page = in_short::in_short(&told).without_dangers(closed);
        let section = page.section(|picture| {
            let (figure, file) = drawings::in_short(&told, choices, picture).filter(|_| drawn)?;
            files.push(file);
            Some(figure)
        });
        self.add(section);
    }

    /// Where the steps of some work are.
    fn steps(&mut self, work: &Work) {
        if !self.choices.has(Part::Drawings) {
            return;
        }
        let steps: Vec<_> = work.steps.iter().map(|step| step.sealable.gap()).collect();
        let (section, files) = drawings::steps(&self.material, self.choices.paper, &steps);
        self.files.extend(files);
        self.add(section);
    }

    /// The options of drying and heating, their picture first.
    fn drying(&mut self) {
        let told = &self.material.told;
        let mut section = drying::section(told);
        if let (true, Ok(comparison)) = (self.choices.has(Part::Drawings), told.comparison) {
            let (figure, file) = drawings::options(told, comparison, self.choices);
            section.blocks.insert(0, figure);
            self.files.push(file);
        }
        self.add(section);
        self.winter();
    }

    /// The winter hour by hour, where one was run, its pictures first.
    fn winter(&mut self) {
        let told = self.material.told;
        let sections = match told.study.winter() {
            None => return,
            Some(Ok(run)) => {
                let mut sections = winter::sections(&winter_short::told(run, told.study));
                if let (true, Some(first)) =
                    (self.choices.has(Part::Drawings), sections.first_mut())
                {
                    for (figure, file) in seasons::pictures(run, told.study, self.choices) {
                        first.push(figure);
                        self.files.push(file);
                    }
                }
                sections
            }
            Some(Err(unknown)) => {
                let section = Section::new("The winter hour by hour");
                vec![section.ending(not_known(unknown))]
            }
        };
        for section in sections {
            self.add(section);
        }
    }

    fn photos(&mut self, of: impl Fn(crate::survey::GapId) -> bool) {
        let (section, files) =
            photos::photos(&self.material, (self.choices.kind, self.choices.paper), of);
        self.files.extend(files);
        self.add(section);
    }

    fn cautions(&mut self) {
        let survey = self.material.told.survey;
        let mut section = match self.choices.kind {
            Kind::Quotation | Kind::Completion => safety::for_the_owner(survey),
            Kind::Report | Kind::WorkOrder | Kind::Invoice => safety::before_sealing(survey),
        };
        // Where the appendix is printed, it explains them.
        let appendix = self.choices.has(Part::Workings) || self.choices.has(Part::Proof);
        if !appendix && !self.for_owners() {
            section.note(format!("{}.", Mark::legend()));
        }
        self.add(section);
    }

    fn signature(&mut self) {
        if !self.choices.has(Part::Signature) {
            return;
        }
        let labels: &[&str] = match self.choices.kind {
            Kind::Report => &["Surveyed by", "Received by"],
            Kind::Quotation => &["For the workshop", "Accepted by the customer"],
            Kind::WorkOrder => &["Ordered by", "Work done by"],
            Kind::Completion => &["Work done and checked by", "Vehicle received by"],
            Kind::Invoice => return,
        };
        let quotation = self.choices.kind == Kind::Quotation;
        let mut section = Section::new(if quotation {
            "Acceptance"
        } else {
            "Signatures"
        });
        let acceptance = self.choices.workshop.texts.acceptance.trim();
        if quotation && !acceptance.is_empty() {
            section.paragraph(acceptance);
        }
        section.push(Block::Signature {
            labels: labels.iter().map(|&label| label.to_owned()).collect(),
        });
        self.sections.push(section);
    }

    /// What stands under the title.
    fn facts(&self) -> Vec<(String, String)> {
        let told = &self.material.told;
        match self.choices.kind {
            Kind::Report | Kind::Completion => vehicle::facts_at_head(told),
            Kind::Quotation => papers::quotation_facts(told.survey),
            Kind::WorkOrder => papers::order_facts(told.survey),
            Kind::Invoice => papers::invoice_facts(told.survey),
        }
    }

    /// The vehicle from its side, in its own sizes as far as they are recorded. An invoice shows none.
    fn cover(&mut self) -> Option<(String, String)> {
        if self.choices.kind == Kind::Invoice {
            return None;
        }
        let (file, alt) = drawings::cover(self.material.told.survey);
        let name = file.0.clone();
        self.files.push(file);
        Some((name, alt))
    }

    /// What stands under the workshop's name: its address, and on bills its tax number.
    fn under_the_name(&self) -> String {
        let texts = &self.choices.workshop.texts;
        let mut lines = vec![texts.address.trim().to_owned()];
        let bill = matches!(self.choices.kind, Kind::Quotation | Kind::Invoice);
        let number = texts.tax_number.trim();
        if bill && !number.is_empty() {
            lines.push(format!("Tax number {number}"));
        }
        lines.retain(|line| !line.is_empty());
        lines.join("\n")
    }

    fn text(&mut self) -> SheetText {
        let header = &self.material.told.survey.header;
        let workshop = &self.choices.workshop;
        let title = match header.title.trim() {
            "" => "Survey without a title",
            title => title,
        };
        let reference = header.reference.trim();
        let foot = [title, reference, header.date.trim()];
        SheetText {
            title: title.to_owned(),
            kind: self.choices.kind.name().to_owned(),
            author: header.surveyor.trim().to_owned(),
            date: date::parse(&header.date),
            facts: self.facts(),
            foot: foot
                .into_iter()
                .filter(|words| !words.is_empty())
                .collect::<Vec<_>>()
                .join(" · "),
            paper: self.choices.paper.typeset_name(),
            workshop: workshop.texts.name.trim().to_owned(),
            address: self.under_the_name(),
            logo: workshop.logo.as_ref().map(|_| LOGO.to_owned()),
            logo_mm: drawings::logo_size(workshop.logo.as_ref()),
            cover: self.cover(),
            dense: false,
            sections: std::mem::take(&mut self.sections),
        }
    }
}

#[cfg(test)]
pub(crate) mod tests;
