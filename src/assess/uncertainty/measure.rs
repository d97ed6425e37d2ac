//! What would help most to know the air change better: first whether any gauge would, then which
//! size of which gap, and how.

use super::input::UncertainInput;
use super::told::{MeasureNext, Outweighed, Share};
use super::trials::{Sized, Trials};
use crate::assess::quantity::Kind;
use crate::survey::{Certainty, Form, Item};

/// A size carrying less than this is not worth another measurement.
const WORTH_MEASURING: f64 = 0.03;
/// Sizes listed as worth measuring at most.
const MOST_LISTED: usize = 10;

impl Trials {
    /// Sizes that carry uncertainty, greatest first; those that measuring can lessen stand before
    /// those already measured.
    pub(super) fn measure_next(&self, shares: &[Share]) -> Vec<MeasureNext> {
        let of_sizes = all_sizes(shares);
        let listed = shares.iter().filter_map(|share| {
            let item = share.of.sized()?;
            let part = share.share / of_sizes;
            let sized = self.sized.iter().find(|sized| sized.item == item)?;
            (part >= WORTH_MEASURING).then(|| MeasureNext {
                item,
                certainty: sized.certainty,
                share: part,
                share_of_all: share.share,
                act: act(sized),
                sentence: sentence(sized, part),
            })
        });
        let mut listed: Vec<MeasureNext> = listed.take(MOST_LISTED).collect();
        listed.sort_by_key(|next| next.certainty == Certainty::Measured);
        listed
    }
}

/// Part of the uncertainty that lies in single sizes, 0…1.
fn all_sizes(shares: &[Share]) -> f64 {
    let of_sizes = shares.iter().filter(|share| share.of.sized().is_some());
    of_sizes.map(|share| share.share).sum()
}

/// What of the uncertainty lies in the wind, where that is more than in all sizes together.
pub(super) fn outweighed(shares: &[Share]) -> Option<Outweighed> {
    let part = |of: UncertainInput| shares.iter().find(|share| share.of == of);
    let part = |of| part(of).map_or(0.0, |share| share.share);
    let under_floor = part(UncertainInput::UnderfloorPressure);
    let walls = part(UncertainInput::WallPressure);
    let speed = part(UncertainInput::Wind);
    let sizes = all_sizes(shares);
    let wind = under_floor + walls + speed;
    (wind > sizes).then(|| Outweighed {
        under_floor,
        wind,
        sizes,
        sentence: format!(
            "the wind outweighs all sizes: of the uncertainty in the air change {} lies in its pressure \
             under the floor, {} in that on walls and roof, {} in its speed at the body, and {} in all \
             sizes together; no gauge lessens that, a test of the air change in wind does",
            percent(under_floor),
            percent(walls),
            percent(speed),
            percent(sizes)
        ),
    })
}

fn percent(share: f64) -> String {
    Kind::WholePercent.text(share)
}

/// What a size is of: `gap 3 “door seal”`.
fn what(sized: &Sized) -> String {
    let number = match sized.item {
        Item::InnerOpening(id) => format!("inner opening {id}"),
        Item::Gap(id) => format!("gap {id}"),
        _ => String::new(),
    };
    match sized.name.trim() {
        "" => number,
        name => format!("{number} \u{201c}{name}\u{201d}"),
    }
}

/// What to do about it, where a gauge helps.
fn act(sized: &Sized) -> Option<String> {
    let doubt = Doubt::of(&sized.form);
    let how = doubt
        .how
        .filter(|_| sized.certainty != Certainty::Measured)?;
    Some(format!("measure {} of {} {how}", doubt.size, what(sized)))
}

fn sentence(sized: &Sized, part: f64) -> String {
    let what = what(sized);
    let carries = format!(
        "it carries {} of the uncertainty that sizes leave in the air change",
        percent(part)
    );
    let doubt = Doubt::of(&sized.form);
    match (sized.certainty, doubt.how) {
        (Certainty::Measured, Some(_)) => format!(
            "{what}: already measured, so that measuring {} again gains nothing, only a flow test; \
             {carries}",
            doubt.size
        ),
        (Certainty::Measured, None) => format!(
            "{what}: already tested, so that only {} gains; {carries}",
            doubt.size
        ),
        (Certainty::Estimated | Certainty::Guessed, Some(_)) => format!(
            "{}: now {}, {carries}",
            act(sized).unwrap_or_default(),
            sized.certainty.name()
        ),
        (Certainty::Estimated | Certainty::Guessed, None) => format!(
            "for {what}, now {}, {} helps: {carries}",
            sized.certainty.name(),
            doubt.size
        ),
    }
}

/// The size that the flow hangs on most, and how to take it.
struct Doubt {
    size: &'static str,
    /// `None` where no gauge takes it.
    how: Option<&'static str>,
}

impl Doubt {
    fn of(form: &Form) -> Self {
        let (size, how) = match *form {
            // The flow goes with the width to the power of 1.5 to 3, and with the length alone.
            Form::NarrowGap { .. } => ("the width", Some("with a feeler gauge in several places")),
            Form::RoundHole { .. } => ("the diameter", Some("with a drill shank or a caliper")),
            Form::RectangularHole {
                width_mm: Some(width),
                height_mm: Some(height),
            } if width < height => ("the width", Some("with a steel rule")),
            Form::RectangularHole { .. } => ("the height", Some("with a steel rule")),
            Form::RingGap { .. } => (
                "the gap between hole and pipe",
                Some("with a feeler gauge or drill shanks, all round"),
            ),
            Form::Grille {
                free_percent: None, ..
            } => (
                "the free share",
                Some("by counting the slots and taking the size of one"),
            ),
            Form::Grille { .. } => ("width and height", Some("with a steel rule")),
            Form::StatedArea { .. } => (
                "the area",
                Some("by taking the sizes of the opening itself"),
            ),
            Form::FlowTest { .. } => ("another flow test", None),
        };
        Self { size, how }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::GapId;

    fn share(of: UncertainInput, share: f64) -> Share {
        Share { of, share }
    }

    #[test]
    fn the_wind_is_told_first_where_it_outweighs_sizes() {
        let gap = |id| UncertainInput::Gap(GapId(id));
        let floor = UncertainInput::UnderfloorPressure;
        let all = [
            share(floor, 0.4),
            share(UncertainInput::Wind, 0.1),
            share(UncertainInput::WallPressure, 0.05),
            share(gap(1), 0.2),
            share(gap(2), 0.1),
        ];
        let found = outweighed(&all).unwrap();
        assert!((found.sizes - 0.3).abs() < 1e-12 && (found.under_floor - 0.4).abs() < 1e-12);
        assert!((found.wind - 0.55).abs() < 1e-12);
        let begins = "the wind outweighs all sizes: of the uncertainty in the air change 40\u{a0}% lies in \
                      its pressure under the floor, 5\u{a0}% in that on walls and roof, 10\u{a0}% in its speed \
                      at the body, and 30\u{a0}% in all sizes together";
        assert!(found.sentence.starts_with(begins), "{}", found.sentence);
        assert_eq!(outweighed(&[share(gap(1), 0.4), share(floor, 0.3)]), None);
        assert_eq!(outweighed(&[share(gap(1), 0.4)]), None);
    }

    fn told(form: Form, certainty: Certainty) -> String {
        let sized = Sized {
            item: Item::Gap(GapId(3)),
            name: "door seal".to_owned(),
            certainty,
            form,
        };
        sentence(&sized, 0.4)
    }

    #[test]
    fn it_names_the_size_most_in_doubt_and_the_tool() {
        let narrow = Form::blanks()[0].clone();
        assert_eq!(
            told(narrow.clone(), Certainty::Guessed),
            "measure the width of gap 3 \u{201c}door seal\u{201d} with a feeler gauge in several places: now \
             guessed, it carries 40\u{a0}% of the uncertainty that sizes leave in the air change"
        );
        let measured = told(narrow, Certainty::Measured);
        let begins = "gap 3 \u{201c}door seal\u{201d}: already measured, so that measuring the width again \
                      gains nothing, only a flow test";
        assert!(measured.starts_with(begins), "{measured}");
        for form in Form::blanks() {
            for certainty in Certainty::ALL {
                let words = told(form.clone(), certainty);
                assert!(!words.contains("better"), "{words}");
                let gains_nothing =
                    words.contains("gains nothing") || words.contains("already tested");
                assert_eq!(gains_nothing, certainty == Certainty::Measured, "{words}");
            }
        }
    }
}
