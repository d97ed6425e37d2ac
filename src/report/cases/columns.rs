//! The table being written: rows of different kinds, with a column for each weather case.

use crate::assess::quantity::{Kind, Quantity};
use crate::assess::words::given;
use crate::assess::{Answer, CaseAir, CaseAnswer, CaseDrying, NotKnown, Topic};
use crate::report::Material;
use crate::report::blocks::{Align, Reasons, Table};
use crate::report::results::{air, drying};
use crate::survey::{WeatherCase, WeatherId};

/// A table being written: what is told in front, one column for each case.
pub(super) struct Columns<'a> {
    pub(super) told: &'a Material<'a>,
    cases: &'a [&'a CaseAnswer],
    pub(super) table: Table,
    pub(super) reasons: Reasons,
}

impl<'a> Columns<'a> {
    pub(super) fn new(told: &'a Material<'a>, cases: &'a [&'a CaseAnswer]) -> Self {
        let mut table = Table::default().wide("Weather case", Align::Left, 1);
        for case in cases {
            table = table.column(case.name.clone(), Align::Right);
        }
        Self {
            told,
            cases,
            table,
            reasons: Reasons::default(),
        }
    }

    /// One row: a label, and words or a mark for each case.
    pub(super) fn row(
        &mut self,
        label: impl Into<String>,
        cell: impl Fn(&CaseAnswer) -> Answer<String>,
    ) {
        let mut cells = vec![label.into()];
        for case in self.cases {
            cells.push(self.reasons.or(&cell(case), String::clone));
        }
        self.table.row(cells);
    }

    /// One row of numbers of one kind, its unit behind the label.
    pub(super) fn numbers(
        &mut self,
        label: &str,
        kind: Kind,
        of: impl Fn(&CaseAnswer) -> Answer<f64>,
    ) {
        let label = format!("{label}, {}", kind.unit());
        self.row(label, |case| of(case).map(|value| kind.number(value)));
    }

    /// The same of the balance of air.
    pub(super) fn of_air(&mut self, label: &str, kind: Kind, of: fn(&CaseAir) -> f64) {
        self.numbers(label, kind, |case| air(case).map(of));
    }

    /// The same of the water.
    pub(super) fn of_water(&mut self, label: &str, kind: Kind, of: fn(&CaseDrying) -> f64) {
        self.numbers(label, kind, |case| drying(case).map(of));
    }

    /// A row of what was written down.
    pub(super) fn recorded(&mut self, label: &str, of: fn(&WeatherCase) -> f64) {
        let survey = self.told.survey;
        self.row(label, |case| match survey.weather_case(case.id) {
            Some(case) => Ok(given(of(case))),
            None => Err(NotKnown::because("the survey holds no such weather case")),
        });
    }

    /// Says where the numbers of the last row are worked out.
    pub(super) fn worked_out(&mut self, topic: fn(WeatherId) -> Topic) {
        let workings = (1..).zip(self.cases.iter().map(|case| topic(case.id)));
        if let Some(row) = self.table.rows.last_mut() {
            row.workings = workings.collect();
        }
    }

    /// A result that has a working, with a row for the intervals where they were worked out.
    pub(super) fn result(
        &mut self,
        label: &str,
        topic: fn(WeatherId) -> Topic,
        of: fn(&Material<'_>, &CaseAnswer) -> Quantity,
    ) {
        let told = self.told;
        let kind = self.cases.first().map(|case| of(told, case).kind());
        let Some(kind) = kind else { return };
        self.numbers(label, kind, |case| of(told, case).value());
        self.worked_out(topic);
        if told.uncertainty.is_some() {
            self.row("very likely", |case| {
                Ok(of(told, case).range().unwrap_or_default())
            });
        }
    }
}
