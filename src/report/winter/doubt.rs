//! How sure a winter is: the draws in a table.

use crate::assess::NotKnown;
use crate::assess::winter::{Band, Doubted, Figure, WinterOption};
use crate::assess::words::{capital, counted};
use crate::report::blocks::{Align, Reasons, Section, Table};
use crate::report::words::not_known;

/// The numbers of a winter that the table of the draws holds, with the heads of their columns.
const DOUBTED: [(Figure, &str); 8] = [
    (Figure::MeanRh, "RH mean"),
    (Figure::Above80, "above 80 %"),
    (Figure::FrostNights, "frost nights"),
    (Figure::WetHours, "wet hours"),
    (Figure::Mould, "mould index"),
    (Figure::Water, "water, L"),
    (Figure::Energy, "energy, kWh"),
    (Figure::Cost, "cost"),
];

/// How sure the figures of each option are: the middle of the draws, and below it where nine of ten
/// lie.
pub(super) fn bands(
    options: &[WinterOption],
    doubt: Result<&Doubted, &NotKnown>,
    currency: &str,
) -> Section {
    let mut section = Section::new("How sure the winter is");
    let doubted = match doubt {
        Ok(doubted) => doubted,
        Err(unknown) => return section.ending(not_known(unknown)),
    };
    let mut table = Table::default().wide("Option", Align::Left, 3);
    for (figure, head) in DOUBTED {
        let head = match figure {
            Figure::Cost if !currency.is_empty() => format!("{head}, {currency}"),
            _ => head.to_owned(),
        };
        table = table.column(head, Align::Right);
    }
    let mut reasons = Reasons::default();
    for (option, bands) in options.iter().zip(&doubted.bands) {
        let name = capital(&option.name);
        match bands {
            Err(unknown) => {
                let mark = reasons.mark(unknown);
                table.row([name, mark]);
            }
            Ok(bands) => {
                let row = |first: String, shown: &dyn Fn(Figure, &Band) -> String| {
                    let cells = DOUBTED.iter().map(|(figure, _)| match bands.of(*figure) {
                        Some(band) => shown(*figure, &band),
                        None => "not known".to_owned(),
                    });
                    std::iter::once(first).chain(cells).collect::<Vec<_>>()
                };
                let middle = |figure: Figure, band: &Band| figure.number(band.median);
                table.row(row(name, &middle));
                table.row(row("nine in ten".to_owned(), &Figure::span));
            }
        }
    }
    section.paragraph(format!(
        "{} of this winter: it is worked out again each time with other sizes of gaps, wind at and under \
         the body, water given off inside (95 % within a factor of 1.5 [A]) and stored by the contents \
         (within a factor of 2.5 [A]). The first line of an option is the middle of the draws, the second \
         where nine in ten of them lie. The weather stays the same; another winter differs by more.",
        capital(&counted(doubted.draws, "draw", "draws")),
    ));
    section.table(table, &reasons);
    section
}
