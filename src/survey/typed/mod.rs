//! Numbers as a person types them: a number, a simple sum, with units or without.
//!
//! What is accepted is what was meant, whole. What can be read in two ways is refused with both
//! readings, and nothing is ever cut: a sign that is not understood refuses all of the text.
//!
//! | typed | read as |
//! |---|---|
//! | `450`, `2,5`, `2.5` | a plain number; comma and point are decimal signs |
//! | `2*600+2*400` | a sum |
//! | `30 cm`, `1.2 m`, `2 ft`, `1' 6"`, `3/8 in`, `1 1/2 in`, `¾ in` | a length |
//! | `1 000`, `1.234,5`, `1,234.5`, `1'000'000` | with signs between thousands |
//! | `1,234` | refused: 1.234 or 1234 |
//! | `1'500` as a length | refused: 1500, or 1 foot 500 inches |

mod digits;
mod sum;
mod tokens;
mod wanted;

#[cfg(test)]
mod tests;

pub use wanted::Wanted;

/// Longest text that is read as a number.
pub const LONGEST: usize = 64;

/// Reads a number in the unit wanted; nothing typed is no number.
///
/// ```
/// use gapledger::survey::typed::{Wanted, number};
/// let mm = Wanted::stored("mm");
/// assert_eq!(number("30 cm", mm), Ok(Some(300.0)));
/// assert_eq!(number("1' 6\"", mm), Ok(Some(457.2)));
/// assert_eq!(number("2*600 + 2*400", mm), Ok(Some(2000.0)));
/// assert_eq!(number(" ", mm), Ok(None));
/// assert!(number("1,234", mm).is_err());
/// ```
///
/// # Errors
/// A plain sentence that says why the text is no number, with both readings where it has two.
pub fn number(text: &str, wanted: Wanted) -> Result<Option<f64>, String> {
    let text = one_space_each(text);
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    if text.chars().count() > LONGEST {
        return Err(format!("longer than {LONGEST} characters"));
    }
    let tokens = tokens::of(text, wanted)?;
    let value = sum::of(&tokens, wanted)?;
    if value.is_finite() {
        Ok(Some(super::unit::rounded(value)))
    } else {
        Err("that does not come to a finite number".to_owned())
    }
}

/// Every kind of space as the plain one.
fn one_space_each(text: &str) -> String {
    let plain = |sign: char| if sign.is_whitespace() { ' ' } else { sign };
    text.chars().map(plain).collect()
}
