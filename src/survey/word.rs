//! The words that stand for choices in JSON and CSV: the same as in the survey file.
//!
//! They are part of what other programs rely on, and so do not follow the display names. The file
//! says them beside the choices that it stores, where [`Word`] is implemented for them.

use super::{Cavity, Facing};

/// A choice that has a fixed word.
pub trait Word {
    /// The word.
    fn word(&self) -> &'static str;
}

impl Word for Facing {
    fn word(&self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Rear => "rear",
            Self::Nearside => "nearside",
            Self::Offside => "offside",
            Self::Roof => "roof",
            Self::Underfloor => "underfloor",
            Self::Cavity(Cavity::EngineBay) => "engine_bay",
            Self::Cavity(Cavity::WheelArch) => "wheel_arch",
            Self::Cavity(Cavity::Locker) => "locker",
            Self::Cavity(Cavity::RefrigeratorCompartment) => "refrigerator_compartment",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{
        Certainty, Form, Gap, GapId, GapPart, LeadsTo, Purpose, Survey, VehicleKind, WorkState,
        ZoneId, file,
    };

    /// The survey file is the other place where these words stand; they must agree.
    #[test]
    fn words_are_those_of_the_survey_file() {
        let mut survey = Survey::new(VehicleKind::CoachBuilt);
        let mut expected = vec![VehicleKind::CoachBuilt.word()];
        for (id, facing) in (1..).zip(Facing::ALL) {
            let form = Form::blanks()[id as usize % 7].clone();
            let mut gap = Gap::new(GapId(id), ZoneId(1), facing, form);
            gap.part = GapPart::ALL[id as usize % 12];
            gap.purpose = Purpose::ALL[id as usize % 7];
            gap.certainty = Certainty::ALL[id as usize % 3];
            gap.state = WorkState::ALL[id as usize % 4];
            gap.leads_to = LeadsTo::Compartment;
            // The file leaves out what is the usual choice.
            let usual = Gap::new(GapId(id), ZoneId(1), facing, gap.form.clone());
            expected.extend([gap.facing.word(), gap.form.word(), gap.leads_to.word()]);
            expected.push(gap.part.word());
            for (word, is_usual) in [
                (gap.purpose.word(), gap.purpose == usual.purpose),
                (gap.certainty.word(), gap.certainty == usual.certainty),
                (gap.state.word(), gap.state == usual.state),
            ] {
                if !is_usual {
                    expected.push(word);
                }
            }
            survey.gaps.push(gap);
        }
        let text = file::print(&survey);
        for word in expected {
            let found = text
                .split(|c: char| !(c.is_ascii_alphanumeric() || c == '_'))
                .any(|token| token == word);
            assert!(found, "{word} is not in the survey file");
        }
    }
}
