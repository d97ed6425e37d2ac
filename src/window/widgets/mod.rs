//! The pieces pages are made of. Every input has a name that assistive technology reads.

mod answer;
mod choice;
mod compass;
mod edge;
mod findings;
mod focus;
mod fold;
mod input;
mod layout;
mod moment_field;
mod no_gap_yet;
mod number_field;
pub mod number_text;
mod progress;
pub mod report;
mod severity;
mod text_field;
mod touched;
mod usual_button;
mod ways;
mod words;

pub use answer::{answer_line, figure, not_known, working_button};
pub use choice::{Choice, plain_tick, spelled, tick};
pub use compass::compass;
pub use edge::{Moved, edge, level_edge};
pub use findings::{finding_list, finding_row};
pub use focus::{asks_for_menu, follow_focus, hold_arrows, hold_focus};
pub use fold::fold;
pub use layout::{LABEL_WIDTH, card, columns, columns_that_fit, label, row, steady};
pub use moment_field::{moment_field, moment_id};
pub use no_gap_yet::no_gap_yet;
pub use number_field::NumberField;
pub use progress::long_work;
pub use severity::{finding_line, message_line, severity_colour, severity_sign, sign};
pub use text_field::TextField;
pub use touched::untouched;
pub use usual_button::usual_button;
pub use ways::Ways;
pub use words::{
    cross, cross_button, explain_marks, is_low, is_touch, link, muted, named_button, named_link,
    tab, tell_name,
};
