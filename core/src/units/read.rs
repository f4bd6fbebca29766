//! Reading lengths in every way people write them.

use std::fmt;

use super::{MM_PER_INCH, Mm, Size, Units};

/// Why a text is not a length. Its `Display` is one sentence for the person.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LengthError {
    /// Nothing was written.
    Empty,
    /// The text, or a part of it, is no length.
    Unreadable(String),
    /// A length below zero.
    Negative,
    /// A length of zero where something must have an extent.
    Zero,
    /// Longer than any house: over 1,000 m.
    TooLong,
}

impl fmt::Display for LengthError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(f, "Type a length, such as 12' 6-1/2\" or 3.81 m."),
            Self::Unreadable(text) => write!(
                f,
                "\"{text}\" is not a length. Write it like 12' 6-1/2\", 12-6, 150.5 or 3.81 m."
            ),
            Self::Negative => write!(
                f,
                "A length cannot be below zero. Type it without the minus."
            ),
            Self::Zero => write!(f, "The length is zero. Type how long it really is."),
            Self::TooLong => write!(f, "That is over 1,000 m. Check the unit."),
        }
    }
}

impl std::error::Error for LengthError {}

/// Reads a length above zero to the nearest millimetre.
///
/// Accepts feet, inches and fractions (`12'6`, `12' 6"`, `12-6`, `12 6 1/2`, `12'-6 1/2"`,
/// `150 1/2"`, `12.5'`, `5 ft 3 in`), metric (`3810mm`, `381 cm`, `3.81m`, `3,81 m`), curly quotes,
/// primes and Unicode fractions. A bare number is inches or millimetres by `units`; two bare whole
/// numbers are feet and inches.
///
/// ```
/// use borewright_core::units::{Mm, Units, read_length};
/// assert_eq!(read_length("12'-6 1/2\"", Units::Imperial), Ok(Mm(3823)));
/// assert_eq!(read_length("3.81m", Units::Imperial), Ok(Mm(3810)));
/// assert!(read_length("twelve", Units::Imperial).is_err());
/// ```
pub fn read_length(text: &str, units: Units) -> Result<Mm, LengthError> {
    let length = read_size(text, units)?;
    match Mm::rounded(length.0) {
        Mm(0) => Err(LengthError::Zero),
        mm => Ok(mm),
    }
}

/// Reads a length of zero or more without rounding: cable diameters, bits, heights.
pub fn read_size(text: &str, units: Units) -> Result<Size, LengthError> {
    let plain = plain_text(text);
    if plain.is_empty() {
        return Err(LengthError::Empty);
    }
    if plain.starts_with('-') {
        return Err(LengthError::Negative);
    }
    let tokens = tokens(&plain).ok_or_else(|| LengthError::Unreadable(text.trim().to_string()))?;
    let mm = sum(&tokens, units).ok_or_else(|| LengthError::Unreadable(text.trim().to_string()))?;
    if mm > 1_000_000.0 {
        Err(LengthError::TooLong)
    } else {
        Ok(Size(mm))
    }
}

/// Reads several sizes between commas or semicolons, as [`read_size`] reads one.
///
/// # Errors
/// What is wrong with the first that cannot be read; [`LengthError::Empty`] if there is none.
pub fn read_sizes(text: &str, units: Units) -> Result<Vec<Size>, LengthError> {
    let parts = text.split([',', ';']).map(str::trim);
    let parts: Vec<&str> = parts.filter(|part| !part.is_empty()).collect();
    if parts.is_empty() {
        return Err(LengthError::Empty);
    }
    parts.iter().map(|part| read_size(part, units)).collect()
}

/// One number or unit of a written length.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Token {
    Whole(f64),
    Decimal(f64),
    Fraction(f64),
    Unit(f64),
    Dash,
}

const FOOT: f64 = MM_PER_INCH * 12.0;

/// Lower case, straight quotes, Unicode fractions spelt out.
fn plain_text(text: &str) -> String {
    let mut plain = String::new();
    for letter in text.trim().chars().take(64) {
        match letter {
            '\u{2018}' | '\u{2019}' | '\u{2032}' | '\u{b4}' | '`' => plain.push('\''),
            '\u{201c}' | '\u{201d}' | '\u{2033}' => plain.push('"'),
            '\u{2010}'..='\u{2015}' | '\u{2212}' => plain.push('-'),
            '\u{2044}' => plain.push('/'),
            '\u{a0}' | '\u{202f}' | '\u{2009}' => plain.push(' '),
            other => match vulgar(other) {
                Some(fraction) => {
                    plain.push(' ');
                    plain.push_str(fraction);
                }
                None => plain.extend(other.to_lowercase()),
            },
        }
    }
    plain.replace("''", "\"").trim().to_string()
}

fn vulgar(letter: char) -> Option<&'static str> {
    Some(match letter {
        '½' => "1/2",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        '⅓' => "1/3",
        '⅔' => "2/3",
        _ => return None,
    })
}

fn tokens(plain: &str) -> Option<Vec<Token>> {
    let mut rest = plain;
    let mut found = Vec::new();
    while let Some(first) = rest.chars().next() {
        let take = match first {
            ' ' => {
                rest = rest.trim_start();
                continue;
            }
            '0'..='9' | '.' => span(rest, |c| c.is_ascii_digit() || matches!(c, '.' | ',' | '/')),
            'a'..='z' => span(rest, |c| c.is_ascii_lowercase()),
            _ => first.len_utf8(),
        };
        let (word, tail) = rest.split_at(take);
        found.push(token(word)?);
        rest = tail
            .strip_prefix('.')
            .filter(|_| word.starts_with(char::is_alphabetic))
            .unwrap_or(tail);
    }
    Some(found)
}

fn span(text: &str, belongs: impl Fn(char) -> bool) -> usize {
    text.find(|c| !belongs(c)).unwrap_or(text.len())
}

fn token(word: &str) -> Option<Token> {
    Some(match word {
        "'" | "ft" | "foot" | "feet" => Token::Unit(FOOT),
        "\"" | "in" | "inch" | "inches" => Token::Unit(MM_PER_INCH),
        "mm" => Token::Unit(1.0),
        "cm" => Token::Unit(10.0),
        "m" => Token::Unit(1000.0),
        "-" => Token::Dash,
        number => numeral(number)?,
    })
}

fn numeral(word: &str) -> Option<Token> {
    if let Some((top, bottom)) = word.split_once('/') {
        let (top, bottom) = (whole(top)?, whole(bottom)?);
        return (bottom > 0.0 && top < bottom).then_some(Token::Fraction(top / bottom));
    }
    let decimal = match word.split_once(',') {
        Some((head, tail)) if tail.len() == 3 && !tail.contains(['.', ',']) && !head.is_empty() => {
            format!("{head}{tail}")
        }
        Some(_) => word.replacen(',', ".", 1),
        None => word.to_string(),
    };
    match whole(&decimal) {
        Some(number) => Some(Token::Whole(number)),
        None => decimal
            .parse::<f64>()
            .ok()
            .filter(|n| n.is_finite())
            .map(Token::Decimal),
    }
}

fn whole(digits: &str) -> Option<f64> {
    let all_digits = !digits.is_empty() && digits.bytes().all(|b| b.is_ascii_digit());
    if all_digits {
        digits.parse::<f64>().ok()
    } else {
        None
    }
}

/// Adds the parts up, deciding what a number without a unit stands for by its place.
fn sum(tokens: &[Token], units: Units) -> Option<f64> {
    let mut total = 0.0;
    let mut last_unit = f64::INFINITY;
    let mut at = 0;
    while at < tokens.len() {
        let (number, next) = amount(tokens, at)?;
        let unit = match tokens.get(next) {
            Some(Token::Unit(unit)) => *unit,
            other => bare(tokens, at, next, last_unit, other, units)?,
        };
        if unit >= last_unit {
            return None;
        }
        total += number * unit;
        last_unit = unit;
        at = next + usize::from(matches!(tokens.get(next), Some(Token::Unit(_))));
        at = after_dash(tokens, at)?;
    }
    Some(total)
}

/// Skips one dash between two parts; a dash that leads nowhere is a mistake.
fn after_dash(tokens: &[Token], at: usize) -> Option<usize> {
    match tokens.get(at) {
        Some(Token::Dash) if at + 1 < tokens.len() => Some(at + 1),
        Some(Token::Dash) => None,
        _ => Some(at),
    }
}

/// A number at `at`: a decimal, a whole, a fraction, or a whole with a fraction.
fn amount(tokens: &[Token], at: usize) -> Option<(f64, usize)> {
    match tokens.get(at)? {
        Token::Decimal(number) | Token::Fraction(number) => Some((*number, at + 1)),
        Token::Whole(number) => Some(match (tokens.get(at + 1), tokens.get(at + 2)) {
            (Some(Token::Fraction(part)), _) => (number + part, at + 2),
            (Some(Token::Dash), Some(Token::Fraction(part))) => (number + part, at + 3),
            _ => (*number, at + 1),
        }),
        Token::Unit(_) | Token::Dash => None,
    }
}

/// The unit of a number that carries none: inches after feet, feet before inches, else `units`.
fn bare(
    tokens: &[Token],
    at: usize,
    next: usize,
    last_unit: f64,
    following: Option<&Token>,
    units: Units,
) -> Option<f64> {
    let whole_alone = next == at + 1 && matches!(tokens.get(at), Some(Token::Whole(_)));
    let followed = following.is_some();
    if last_unit == FOOT && !followed {
        return Some(MM_PER_INCH);
    }
    if followed && whole_alone && last_unit == f64::INFINITY {
        return Some(FOOT);
    }
    if followed || last_unit != f64::INFINITY {
        return None;
    }
    Some(match units {
        Units::Imperial => MM_PER_INCH,
        Units::Metric => 1.0,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(text: &str) -> f64 {
        let size = read_size(text, Units::Imperial).unwrap_or_else(|e| panic!("{text}: {e}"));
        (size.0 / MM_PER_INCH * 1e6).round() / 1e6
    }

    #[test]
    fn reads_every_way_people_write_a_length() {
        for text in [
            "12'6",
            "12' 6\"",
            "12-6",
            "12 6",
            "12'-6\"",
            "12\u{2019}6\u{201d}",
            "12\u{2032} 6\u{2033}",
            "12 ft 6 in",
            "12ft6",
            "12' 6''",
            "12.5'",
            "150",
            "150.0",
            "150\"",
            "12 ft. 6 in.",
        ] {
            assert_eq!(inches(text), 150.0, "{text}");
        }
        for text in [
            "12 6 1/2",
            "12'-6 1/2\"",
            "150.5",
            "150 1/2\"",
            "12'6½",
            "12-6-1/2",
            "12' 6½\"",
            "150½",
            "12' 6-1/2\"",
            "150,5",
            "150-1/2",
        ] {
            assert_eq!(inches(text), 150.5, "{text}");
        }
        assert_eq!(inches("5/8"), 0.625);
        assert_eq!(inches("1 1/4"), 1.25);
        assert_eq!(inches("12' 1/2"), 144.5);
    }

    #[test]
    fn reads_metric_whatever_the_units_are() {
        for text in ["3810mm", "3.81m", "381 cm", "3,81 m", "3,810 mm", "3810 MM"] {
            assert_eq!(read_length(text, Units::Imperial), Ok(Mm(3810)), "{text}");
        }
        assert_eq!(read_length("3810", Units::Metric), Ok(Mm(3810)));
        assert_eq!(read_length("12'6", Units::Metric), Ok(Mm(3810)));
    }

    #[test]
    fn refuses_what_is_no_length_with_a_sentence() {
        for text in [
            "twelve",
            "12''6'",
            "1/0",
            "3/2",
            "12 6 5",
            "'",
            "12-",
            "1.2.3",
            "5 in 3 ft",
            "12 mm 3",
        ] {
            assert!(
                matches!(
                    read_length(text, Units::Imperial),
                    Err(LengthError::Unreadable(_))
                ),
                "{text}: {:?}",
                read_length(text, Units::Imperial)
            );
        }
        assert_eq!(read_length("", Units::Imperial), Err(LengthError::Empty));
        assert_eq!(read_length("0", Units::Imperial), Err(LengthError::Zero));
        assert_eq!(
            read_length("-5", Units::Imperial),
            Err(LengthError::Negative)
        );
        assert_eq!(
            read_length("9999999", Units::Imperial),
            Err(LengthError::TooLong)
        );
    }

    proptest::proptest! {
        #[test]
        fn never_panics(text in "\\PC*") {
            let _ = read_size(&text, Units::Imperial);
        }

        #[test]
        fn reads_back_what_it_shows(sixteenths in 1i32..200_000) {
            let length = Mm::inches(f64::from(sixteenths) / 16.0);
            let shown = Units::Imperial.position(length);
            proptest::prop_assert_eq!(read_length(&shown, Units::Imperial), Ok(length));
        }
    }
}
