//! Quotation and invoice: what is offered or was done, for how much, for whom.

use super::bill::{hourly_rate, lines, suggested};
use super::blocks::{Block, Section};
use super::carried_out::{self, which_order};
use super::findings;
use super::sealing::{NONE_PROTECTS, expected, nothing_to_do, protected};
use crate::assess::Answer;
use crate::assess::quantity::price;
use crate::assess::sealing::{Bill, Chosen, Work};
use crate::assess::words::capital;
use crate::survey::leave::ELECTRICIAN;
use crate::survey::{GapId, Survey, number};

/// Facts at the head of a sheet: those that somebody gave.
type Facts = Vec<(String, String)>;

fn given(facts: &[(&str, &str)]) -> Facts {
    let given = facts.iter().filter(|(_, value)| !value.trim().is_empty());
    given
        .map(|(name, value)| ((*name).to_owned(), value.trim().to_owned()))
        .collect()
}

/// Whom it is for, and of which vehicle.
fn customer(survey: &Survey) -> [(&str, &str); 4] {
    let job = &survey.job;
    [
        ("Customer", &job.customer),
        ("Address", &job.address),
        ("Vehicle", survey.vehicle.kind.name()),
        ("Registration", &job.registration),
    ]
}

/// Lines under the title of a quotation.
pub(crate) fn quotation_facts(survey: &Survey) -> Facts {
    let job = &survey.job;
    let own = [
        ("Quotation number", job.quotation_number.as_str()),
        ("Date", &job.quotation_date),
        ("Valid until", &job.valid_until),
        ("Reference", &survey.header.reference),
    ];
    given(&[customer(survey), own].concat())
}

/// Lines under the title of a work order.
pub(crate) fn order_facts(survey: &Survey) -> Facts {
    let (job, header) = (&survey.job, &survey.header);
    let own = [
        ("Vehicle", survey.vehicle.kind.name()),
        ("Registration", &job.registration),
        ("Customer", &job.customer),
        ("Order number", &job.order_number),
        ("Date of the order", &job.order_date),
        ("Reference", &header.reference),
        ("Surveyed", &header.date),
        ("Surveyed by", &header.surveyor),
        ("Where it stands", &header.scene),
    ];
    given(&own)
}

/// Lines under the title of an invoice.
pub(crate) fn invoice_facts(survey: &Survey) -> Facts {
    let job = &survey.job;
    let own = [
        ("Invoice number", job.invoice_number.as_str()),
        ("Date", &job.invoice_date),
        ("To be paid by", &job.pay_by),
        ("Quotation number", &job.quotation_number),
    ];
    let order = [
        ("Order number", job.order_number.as_str()),
        ("Date of the order", &job.order_date),
    ];
    let mut facts = [customer(survey), own].concat();
    facts.extend(order);
    given(&facts)
}

/// What is to be put right before a paper goes out of the house; empty where nothing is.
fn before_it_goes_out(survey: &Survey, bill: &Bill, paper: &str) -> Section {
    let mut section = Section::new("Before this goes to the customer");
    let mut caution = |title: &str, text: String| {
        section.push(Block::Caution {
            title: title.to_owned(),
            text,
        });
    };
    if let ([], [(_, why), ..]) = (bill.lines.as_slice(), bill.not_known.as_slice()) {
        let why = format!("{}. Mend that first.", capital(&why.reason));
        caution("Nothing here has a price", why);
    }
    if bill.minutes_not_priced > 0.0 {
        caution(
            "Work without a price",
            "No hourly rate is given, so that this counts the material alone. Enter the workshop\u{2019}s rate."
                .to_owned(),
        );
    }
    if let Some(gaps) = suggested(bill) {
        caution(
            "Prices that nobody gave",
            format!(
                "{} (marked †): prices or times are suggestions of this program. Enter the workshop\u{2019}s own.",
                capital(&gaps)
            ),
        );
    }
    let by_workshop = hourly_rate(survey).is_some_and(|rate| rate > 0.0);
    if survey.tariffs.tax_percent.is_none() && by_workshop {
        caution(
            "No tax",
            format!(
                "No rate of tax is given, so that there is none on this {paper}. Enter it, or 0 where none is due."
            ),
        );
    }
    section
}

/// A paper without anything on it says so, and nobody pays or signs it.
fn nothing(mut section: Section, title: &str, why: impl Into<String>) -> Section {
    section.push(Block::Caution {
        title: title.to_owned(),
        text: why.into(),
    });
    section
}

/// The quotation: what is offered, and for how much; `now` is the survey as it is, whose work may be done.
pub(crate) fn quotation(survey: &Survey, now: &Survey, work: &Answer<Work>) -> Vec<Section> {
    let mut section = Section::new("What is offered");
    let work = match work {
        Ok(work) if !work.steps.is_empty() => work,
        Ok(work) => return vec![nothing(section, "Nothing to offer", nothing_to_do(work))],
        Err(why) => {
            let why = format!("{}.", capital(&why.reason));
            return vec![nothing(section, "Nothing to offer", why)];
        }
    };
    let bill = work.bill();
    let mut first = before_it_goes_out(survey, bill, "quotation");
    if work.chosen == Chosen::Proposed {
        first.push(Block::Caution {
            title: "Nothing is planned".to_owned(),
            text: "No gap is marked as planned: the program chose the gaps that save most. Mark as planned \
                   what is to be offered."
                .to_owned(),
        });
    }
    first
        .blocks
        .extend(carried_out::before_it_goes_out(now, work));
    let order: Vec<GapId> = work.steps.iter().map(|step| step.sealable.gap()).collect();
    lines(&mut section, survey, bill, &order);
    section.points(for_electrician(work));
    section.paragraph(expected(survey, work, false));
    for finding in &work.plan.findings {
        section.push(findings::block(finding));
    }
    vec![first, section, open(survey)]
}

/// Which of the work is for one trade alone.
fn for_electrician(work: &Work) -> Option<String> {
    let steps = work.steps.iter();
    let those = steps.filter(|step| step.sealable.is_for_electrician());
    let ids: Vec<String> = those.map(|step| step.sealable.gap().to_string()).collect();
    (!ids.is_empty()).then(|| format!("{}: {ELECTRICIAN}.", capital(&number::gaps(&ids))))
}

/// What stays open whatever is sealed, in a customer\u{2019}s words.
fn open(survey: &Survey) -> Section {
    let mut section = Section::new("What stays open");
    let protected = protected(survey);
    if protected.is_empty() {
        return section.ending(NONE_PROTECTS);
    }
    section.paragraph(
        "Openings that protect people are never closed, whatever they cost in heat: fixed ventilation, gas \
         drop-outs, flues and the air of appliances.",
    );
    section.points(
        protected.into_iter().map(|(gap, purpose)| {
            format!("{} (gap {}): {purpose}", super::words::name(gap), gap.id)
        }),
    );
    section
}

/// The invoice: what was done, and what it costs.
pub(crate) fn invoice(survey: &Survey) -> Vec<Section> {
    let mut section = Section::new("What was done");
    let bill = match Bill::of_done_work(survey) {
        Ok(bill) => bill,
        Err(why) => {
            let sealed = survey.gaps.iter().any(|gap| survey.sealed_in_order(gap));
            let advice = if sealed {
                "Mend that; then print this sheet."
            } else {
                "Mark as sealed, with the date, what was done; then print this sheet."
            };
            let why = format!("{}. {advice}", capital(&why.reason));
            return vec![nothing(section, "Nothing to bill", why)];
        }
    };
    let mut first = before_it_goes_out(survey, &bill, "invoice");
    first.blocks.extend(which_order(survey, "on this bill"));
    lines(&mut section, survey, &bill, &[]);
    let currency = &survey.tariffs.currency;
    let due = match survey.job.pay_by.trim() {
        "" => format!("To be paid: {}.", price(bill.gross, currency)),
        day => format!("To be paid by {day}: {}.", price(bill.gross, currency)),
    };
    section.push(Block::Plain {
        sentences: vec![due],
    });
    vec![first, section]
}

/// The bill of the work done, as a part of another sheet.
pub(crate) fn bill_of_done_work(survey: &Survey) -> Option<Section> {
    let bill = Bill::of_done_work(survey).ok()?;
    let mut section = Section::new("What it costs");
    lines(&mut section, survey, &bill, &[]);
    Some(section)
}
