//! What was measured: tests, loggers and trials, with their pictures.

use super::Writer;
use super::{plots, trials};
use crate::report::{measured, tested};
use crate::sheet::choices::Part;
use crate::survey::Trial;

impl Writer<'_> {
    /// What was measured: for owners what fan tests, tests of the air change and trials show, in their
    /// words; else all of it, with pictures.
    pub(super) fn measured(&mut self) {
        let told = self.material.told;
        if self.for_owners() {
            self.add(tested::section(&told));
            self.add(tested::air_change(&told));
        } else {
            self.fan_tests();
            self.add(measured::checks_of_loggers(&told));
        }
        for trial in &told.survey.trials {
            self.trial(trial);
        }
    }

    /// A trial: what each method did, as a picture too; in the report also what was read, and the tables.
    fn trial(&mut self, trial: &Trial) {
        let told = &self.material.told;
        let owners = self.for_owners();
        let mut section = if owners {
            measured::trial::for_owners(told, trial)
        } else {
            measured::trial::section(told, trial)
        };
        if self.choices.has(Part::Drawings) && !section.blocks.is_empty() {
            let chart = trials::chart(told, trial, self.choices).filter(|_| !owners);
            let verdict = trials::verdict(told, trial, self.choices);
            // Behind the verdicts in words.
            let at = section.blocks.len().min(1);
            for (figure, file) in verdict.into_iter().chain(chart) {
                section.blocks.insert(at, figure);
                self.files.push(file);
            }
        }
        self.add(section);
    }

    /// Fan tests with their plots, tests of the air change, and what all of them make of the results.
    fn fan_tests(&mut self) {
        let told = &self.material.told;
        let rest = [measured::air_tests(told), measured::calibration(told)];
        if !told.survey.fan_tests.is_empty() {
            let mut section = measured::section(told);
            if self.choices.has(Part::Drawings) {
                let drawn = plots::fan_tests(told, self.choices);
                for (figure, file) in drawn {
                    section.push(figure);
                    self.files.push(file);
                }
            }
            self.add(section);
        }
        rest.into_iter().for_each(|section| self.add(section));
    }
}
