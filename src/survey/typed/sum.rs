//! A sum of numbers with units or without.
//!
//! A unit stands behind a number or a product: `3/8 in` is three eighths of an inch. In a sum
//! either every part has its unit or none has; the parts of one length may follow each other, as
//! in `1' 6"`.

use super::super::unit::{Dimension, Unit};
use super::tokens::Token;
use super::wanted::{Wanted, named_of};

/// A value on the way: in the unit that is wanted once it has a unit.
#[derive(Clone, Copy)]
struct Part {
    value: f64,
    has_unit: bool,
}

/// What the tokens come to, in the unit that is wanted.
pub(super) fn of(tokens: &[Token], wanted: Wanted) -> Result<f64, String> {
    if wanted.dimension() == Some(Dimension::Temperature) {
        return of_temperature(tokens, wanted);
    }
    let mut sum = Sum { tokens, wanted };
    let part = sum.sum()?;
    sum.finished()?;
    Ok(sum.with_plain_unit(part))
}

/// Degrees are not added up with their unit: one unit at most, and at the end.
fn of_temperature(tokens: &[Token], wanted: Wanted) -> Result<f64, String> {
    let (unit, numbers) = match tokens.split_last() {
        Some((Token::Unit(unit), numbers)) => (Some(*unit), numbers),
        _ => (None, tokens),
    };
    if numbers.iter().any(|token| matches!(token, Token::Unit(_))) {
        return Err("a temperature has its unit once, at the end".to_owned());
    }
    let bare = Wanted {
        stored: None,
        plain: None,
    };
    let value = of(numbers, bare)?;
    Ok(match (unit.or(wanted.plain), wanted.stored) {
        (Some(unit), Some(stored)) => unit.to(stored, value),
        _ => value,
    })
}

struct Sum<'a> {
    tokens: &'a [Token],
    wanted: Wanted,
}

impl Sum<'_> {
    fn next_is(&self, sign: char) -> bool {
        self.tokens.first() == Some(&Token::Sign(sign))
    }

    fn skip(&mut self) {
        self.tokens = self.tokens.get(1..).unwrap_or_default();
    }

    fn take(&mut self, sign: char) -> bool {
        let is = self.next_is(sign);
        if is {
            self.skip();
        }
        is
    }

    fn finished(&self) -> Result<(), String> {
        match self.tokens.first() {
            None => Ok(()),
            Some(Token::Number { .. }) => {
                Err("leave out spaces inside a number, or say what is between the two".to_owned())
            }
            Some(Token::Unit(unit)) => Err(format!(
                "\u{201c}{}\u{201d} stands where no unit can be",
                unit.symbol
            )),
            Some(Token::Sign(_)) => Err("this is neither a number nor a simple sum".to_owned()),
        }
    }

    /// In the unit that is wanted: a number without one is of the unit that is shown.
    fn with_plain_unit(&self, part: Part) -> f64 {
        match (part.has_unit, self.wanted.plain, self.wanted.stored) {
            (false, Some(plain), Some(stored)) => plain.to(stored, part.value),
            _ => part.value,
        }
    }

    fn sum(&mut self) -> Result<Part, String> {
        let mut total = self.term()?;
        while self.next_is('+') || self.next_is('-') {
            let sign = if self.take('+') {
                1.0
            } else {
                self.skip();
                -1.0
            };
            let next = self.term()?;
            total = self.added(total, next, sign)?;
        }
        Ok(total)
    }

    /// Adds where both have a unit or neither has.
    fn added(&self, one: Part, other: Part, sign: f64) -> Result<Part, String> {
        if one.has_unit != other.has_unit && self.wanted.stored.is_some() {
            return Err("give every number of the sum its unit, or none".to_owned());
        }
        Ok(Part {
            value: sign.mul_add(other.value, one.value),
            has_unit: one.has_unit,
        })
    }

    /// A product with its unit, and for lengths the smaller parts that follow: `1' 6"`.
    fn term(&mut self) -> Result<Part, String> {
        let negative = self.take('-');
        if !negative {
            self.take('+');
        }
        let (mut part, mut single) = (self.factor()?, true);
        let mut unit = self.unit(&mut part)?;
        while self.next_is('*') || self.next_is('/') {
            let times = self.take('*');
            if !times {
                self.skip();
            }
            let factor = self.signed_factor()?;
            part = multiplied(part, factor, times)?;
            single = false;
            if let Some(found) = self.unit(&mut part)? {
                unit = Some(found);
            }
        }
        if let Some(unit) = unit {
            part = self.smaller_parts(part, unit, single)?;
        }
        if negative {
            part.value = -part.value;
        }
        Ok(part)
    }

    /// The inches that follow feet, or the centimetres that follow metres.
    fn smaller_parts(
        &mut self,
        mut part: Part,
        mut unit: &'static Unit,
        single: bool,
    ) -> Result<Part, String> {
        self.refuse_dash_after_feet(unit)?;
        while matches!(self.tokens.first(), Some(Token::Number { .. })) {
            if !single {
                return Err("put brackets round what is multiplied".to_owned());
            }
            let mut next = self.fraction()?;
            let is_feet = unit.symbol == "ft";
            let smaller = match self.tokens.first() {
                Some(Token::Unit(smaller)) => {
                    self.skip();
                    *smaller
                }
                // Inches may go without their sign, as many as there are in a foot.
                None if is_feet && (0.0..12.0).contains(&next.value) => inch(self.wanted)?,
                _ => return Err("the last number has no unit".to_owned()),
            };
            let most = unit.factor / smaller.factor;
            if smaller.factor >= unit.factor || next.value >= most * (1.0 - 1e-12) {
                return Err(format!(
                    "the part in {} is not smaller than a {}: put a + between them",
                    smaller.symbol, unit.symbol
                ));
            }
            next.value = self.converted(smaller, next.value);
            part.value += next.value;
            unit = smaller;
        }
        Ok(part)
    }

    /// `2'-6"` is 2 feet 6 inches to some and 18 inches to others.
    fn refuse_dash_after_feet(&self, unit: &Unit) -> Result<(), String> {
        if unit.symbol != "ft" || !self.next_is('-') {
            return Ok(());
        }
        let inches = |token: &Token| matches!(token, Token::Unit(unit) if unit.symbol == "in");
        if self.tokens.iter().any(inches) {
            return Err(
                "feet, a dash and inches can be read as both together or as one less the other: write 2' 6\" \
                 or a sum with brackets"
                    .to_owned(),
            );
        }
        Ok(())
    }

    fn converted(&self, unit: &Unit, value: f64) -> f64 {
        self.wanted
            .stored
            .map_or(value, |stored| unit.to(stored, value))
    }

    /// The unit that stands here, which the part then has.
    fn unit(&mut self, part: &mut Part) -> Result<Option<&'static Unit>, String> {
        let Some(Token::Unit(unit)) = self.tokens.first() else {
            return Ok(None);
        };
        if part.has_unit {
            return Err(format!(
                "\u{201c}{}\u{201d} is one unit too many",
                unit.symbol
            ));
        }
        self.skip();
        part.value = self.converted(unit, part.value);
        part.has_unit = true;
        Ok(Some(unit))
    }

    fn signed_factor(&mut self) -> Result<Part, String> {
        let negative = self.take('-');
        let mut part = self.factor()?;
        if negative {
            part.value = -part.value;
        }
        Ok(part)
    }

    fn factor(&mut self) -> Result<Part, String> {
        if self.take('(') {
            let part = self.sum()?;
            if self.take(')') {
                return Ok(part);
            }
            self.finished()?;
            return Err("a bracket is not closed".to_owned());
        }
        match self.tokens.first() {
            Some(Token::Number { .. }) => self.mixed(),
            None => Err("the sum is not finished".to_owned()),
            _ => Err("this is neither a number nor a simple sum".to_owned()),
        }
    }

    fn number(&mut self) -> Result<(f64, bool), String> {
        match self.tokens.first() {
            Some(Token::Number { value, whole }) => {
                let number = (*value, *whole);
                self.skip();
                Ok(number)
            }
            _ => Err("the sum is not finished".to_owned()),
        }
    }

    /// A number, or a whole one and a fraction: `1 1/2`.
    fn mixed(&mut self) -> Result<Part, String> {
        let (mut value, whole) = self.number()?;
        if let [
            Token::Number {
                value: above,
                whole: true,
            },
            Token::Sign('/'),
            Token::Number {
                value: below,
                whole: true,
            },
            ..,
        ] = self.tokens
        {
            if !whole || above >= below {
                return Err("a fraction behind a whole number is less than one".to_owned());
            }
            value += above / below;
            self.tokens = self.tokens.get(3..).unwrap_or_default();
        }
        Ok(Part {
            value,
            has_unit: false,
        })
    }

    /// A number, a fraction, or both.
    fn fraction(&mut self) -> Result<Part, String> {
        let mut part = self.mixed()?;
        if self.take('/') {
            let (below, _) = self.number()?;
            part.value /= below;
        }
        Ok(part)
    }
}

fn inch(wanted: Wanted) -> Result<&'static Unit, String> {
    let found = wanted
        .dimension()
        .and_then(|dimension| named_of("in", dimension));
    found.ok_or_else(|| "the last number has no unit".to_owned())
}

fn multiplied(one: Part, other: Part, times: bool) -> Result<Part, String> {
    if one.has_unit && other.has_unit {
        return Err(if times {
            "a length times a length is no length: multiply by plain numbers".to_owned()
        } else {
            "divide by a plain number".to_owned()
        });
    }
    if !times && other.has_unit {
        return Err("divide by a plain number".to_owned());
    }
    let value = if times {
        one.value * other.value
    } else {
        one.value / other.value
    };
    Ok(Part {
        value,
        has_unit: one.has_unit || other.has_unit,
    })
}
