//! Which option and which weather case the chart and the table of surfaces show.

use crate::assess::Comparison;
use crate::assess::drying::{OptionAnswer, OptionKind};
use crate::survey::{HeaterId, MachineId, MachineKind, WeatherId};
use crate::window::widgets::Choice;
use eframe::egui::Ui;

/// Names an option over changes of the survey.
pub(super) type OptionKey = (OptionKind, Option<MachineId>, Option<HeaterId>);

/// The choice; until something is chosen, what is asked for most.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Shown {
    case: Option<WeatherId>,
    option: Option<OptionKey>,
}

pub(super) fn key(option: &OptionAnswer) -> OptionKey {
    (option.kind, option.machine, option.heater)
}

impl Shown {
    /// Place of the weather case: the windiest unless another one was chosen.
    pub(super) fn case(self, comparison: &Comparison) -> usize {
        self.case
            .and_then(|id| comparison.cases.iter().position(|case| case.id == id))
            .unwrap_or(comparison.windiest)
    }

    /// Place of the option: the first compressor unless another one was chosen.
    pub(super) fn option(self, comparison: &Comparison) -> usize {
        let place =
            |wanted: &dyn Fn(&OptionAnswer) -> bool| comparison.options.iter().position(wanted);
        self.option
            .and_then(|wanted| place(&|option| key(option) == wanted))
            .or_else(|| {
                place(&|option| option.kind == OptionKind::Machine(MachineKind::Compressor))
            })
            .unwrap_or(0)
    }

    /// Lets the user choose the weather case.
    pub(super) fn choose_case(&mut self, ui: &mut Ui, label: &str, comparison: &Comparison) {
        let ids: Vec<WeatherId> = comparison.cases.iter().map(|case| case.id).collect();
        let Some(now) = ids.get(self.case(comparison)) else {
            return;
        };
        let name = |id: &WeatherId| {
            let case = comparison.cases.iter().find(|case| case.id == *id);
            case.map_or_else(String::new, |case| case.name.clone())
        };
        if let Some(chosen) = Choice::new(label, now, &ids).show(ui, name) {
            self.case = Some(chosen);
        }
    }

    /// Lets the user choose the option.
    pub(super) fn choose_option(&mut self, ui: &mut Ui, label: &str, comparison: &Comparison) {
        let keys: Vec<OptionKey> = comparison.options.iter().map(key).collect();
        let Some(now) = keys.get(self.option(comparison)) else {
            return;
        };
        let name = |wanted: &OptionKey| {
            let named = (1..).zip(&comparison.options);
            let found = named.into_iter().find(|(_, option)| key(option) == *wanted);
            found.map_or_else(String::new, |(number, option)| {
                format!("{number}  {}", option.name)
            })
        };
        if let Some(chosen) = Choice::new(label, now, &keys).show(ui, name) {
            self.option = Some(chosen);
        }
    }
}
