//! Numbers as people read them: three significant digits and the unit. What is on paper too has
//! its digits from [`words`].

use crate::assess::words;

/// Rounds to three significant digits; never in exponent form.
#[must_use]
pub fn digits(value: f64) -> String {
    digits_of(value, 3)
}

/// Rounds to so many significant digits; whole numbers keep all digits in front of the point.
#[must_use]
pub fn digits_of(value: f64, significant: i32) -> String {
    if !value.is_finite() {
        return "not known".to_owned();
    }
    if value.abs() < 1e-12 {
        return "0".to_owned();
    }
    #[expect(clippy::cast_possible_truncation, reason = "a decimal exponent")]
    let exponent = value.abs().log10().floor() as i32;
    let decimals = significant - 1 - exponent;
    let rounded = if decimals < 0 {
        let unit = 10f64.powi(-decimals);
        (value / unit).round() * unit
    } else {
        value
    };
    let shown = usize::try_from(decimals.clamp(0, 9)).unwrap_or(0);
    let text = format!("{rounded:.shown$}");
    // 9.996 at three digits becomes 10.00 with one digit too many.
    let grown = text
        .parse::<f64>()
        .is_ok_and(|read| shown > 0 && read.abs() >= 10f64.powi(exponent + 1));
    if grown {
        format!("{rounded:.0$}", shown - 1)
    } else {
        text
    }
}

/// An area in m² as cm².
#[must_use]
pub fn area_cm2(area: f64) -> String {
    format!("{} cm²", words::leakage_cm2(area))
}

/// A length in m as mm.
#[must_use]
pub fn length_mm(length: f64) -> String {
    format!("{} mm", words::side_mm(length))
}

/// Air changes per hour.
#[must_use]
pub fn per_hour(ach_per_h: f64) -> String {
    format!("{} /h", words::air_changes(ach_per_h))
}

/// Heat in W, two significant digits beyond a hundred.
#[must_use]
pub fn watts(heat_w: f64) -> String {
    format!("{} W", words::watts(heat_w))
}

/// Water in litres a day.
#[must_use]
pub fn litres_per_day(removal_l_per_day: f64) -> String {
    format!("{} L/day", words::litres(removal_l_per_day))
}

/// A sum of money: to the hundredth below a hundred, whole above.
#[must_use]
pub fn money(amount: f64, currency: &str) -> String {
    let sum = if !amount.is_finite() {
        return "not known".to_owned();
    } else if amount.abs() < 99.995 {
        format!("{amount:.2}")
    } else {
        format!("{amount:.0}")
    };
    format!("{sum} {}", currency.trim()).trim_end().to_owned()
}

/// A temperature, °C.
#[must_use]
pub fn celsius(temperature_c: f64) -> String {
    format!("{temperature_c:.1} °C")
}

/// A share as percent: whole numbers from ten up, else one decimal.
#[must_use]
pub fn percent(share: f64) -> String {
    let percent = share * 100.0;
    if !percent.is_finite() {
        "not known".to_owned()
    } else if percent >= 9.95 {
        format!("{percent:.0} %")
    } else if percent > 0.0 && percent < 0.05 {
        "< 0.1 %".to_owned()
    } else {
        format!("{percent:.1} %")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_digits_that_mean_something() {
        for (value, text) in [
            (0.0, "0"),
            (0.012_345, "0.0123"),
            (1.234, "1.23"),
            (9.996, "10.0"),
            (12.34, "12.3"),
            (99.96, "100"),
            (123.4, "123"),
            (1234.0, "1230"),
            (-45.67, "-45.7"),
        ] {
            assert_eq!(digits(value), text);
        }
        assert_eq!(digits(f64::NAN), "not known");
    }

    #[test]
    fn units_stand_behind() {
        assert_eq!(area_cm2(0.012_3), "123 cm²");
        assert_eq!(length_mm(0.111), "111 mm");
        assert_eq!(per_hour(3.42), "3.4 /h");
        assert_eq!(watts(1234.0), "1200 W");
        assert_eq!(money(3.456, "EUR"), "3.46 EUR");
        assert_eq!(money(99.996, " "), "100");
        assert_eq!(money(1234.4, "£"), "1234 £");
        for (share, text) in [
            (0.614, "61 %"),
            (0.0996, "10 %"),
            (0.0162, "1.6 %"),
            (0.0, "0.0 %"),
            (0.0001, "< 0.1 %"),
            (f64::NAN, "not known"),
        ] {
            assert_eq!(percent(share), text);
        }
    }
}
