//! Writing lengths: feet, inches and binary fractions, millimetres and metres.

use std::fmt::Display;

use super::{MM_PER_INCH, Mm};

/// Feet and inches to one `denominator`-th of an inch: `12' 6-1/2"`, `6-1/2"`, `12' 0"`.
pub(super) fn feet_inches(length: Mm, denominator: i64) -> String {
    let sign = if length.0 < 0 { "-" } else { "" };
    let parts = (length.f64().abs() / MM_PER_INCH * denominator as f64).round() as i64;
    let (feet, rest) = (parts / (12 * denominator), parts % (12 * denominator));
    let inches = mixed(rest, denominator);
    match feet {
        0 => format!("{sign}{inches}\""),
        _ => format!("{sign}{feet}' {inches}\""),
    }
}

/// Inches to one `denominator`-th: `1-1/4 in`, `30 in`.
pub fn inches(mm: f64, denominator: i64) -> String {
    let sign = if mm < 0.0 { "-" } else { "" };
    let parts = (mm.abs() / MM_PER_INCH * denominator as f64).round() as i64;
    format!("{sign}{} in", mixed(parts, denominator))
}

/// Inches rounded down to one `denominator`-th, for limits. Below zero is written as zero.
pub(super) fn inches_down(mm: f64, denominator: i64) -> String {
    let parts = ((mm + super::Size::TOLERANCE) / MM_PER_INCH * denominator as f64).floor();
    format!("{} in", mixed(parts.max(0.0) as i64, denominator))
}

/// A fraction in lowest terms, for setting as a fraction: (1, 4) of 4/16. Zero over one for zero.
pub fn fraction(parts: i64, denominator: i64) -> (i64, i64) {
    let mut over = denominator;
    let mut part = parts;
    while part % 2 == 0 && over % 2 == 0 && over > 1 {
        part /= 2;
        over /= 2;
    }
    (part, over)
}

/// Whole millimetres: `3810 mm`.
pub fn millimetres(length: Mm) -> String {
    format!("{} mm", length.0)
}

/// Metres with a fixed number of decimals: `3.81 m`.
pub(super) fn metres(length: Mm, decimals: usize) -> String {
    format!("{:.*} m", decimals, length.f64() / 1000.0)
}

/// A whole number with commas at the thousands.
pub fn thousands(number: i64) -> String {
    let digits = number.unsigned_abs().to_string();
    let mut grouped = String::new();
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            grouped.push(',');
        }
        grouped.push(digit);
    }
    if number < 0 {
        grouped.insert(0, '-');
    }
    grouped
}

/// `6-1/2` of 104/16, `6` of 96/16, `1/2` of 8/16.
fn mixed(parts: i64, denominator: i64) -> String {
    let (whole, rest) = (parts / denominator, parts % denominator);
    let (part, over) = fraction(rest, denominator);
    match (whole, rest) {
        (_, 0) => whole.to_string(),
        (0, _) => format!("{part}/{over}"),
        _ => format!("{whole}-{part}/{over}"),
    }
}

/// "1 bore", "2 bores": a count with its word, whose plural takes an s.
pub fn counted<N: Display + PartialEq + From<u8>>(count: N, one: &str) -> String {
    match count == N::from(1) {
        true => format!("1 {one}"),
        false => format!("{count} {one}s"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_agree_with_their_number() {
        assert_eq!(counted(1_u32, "bore"), "1 bore");
        assert_eq!(counted(0_usize, "bore"), "0 bores");
    }

    #[test]
    fn writes_mixed_numbers_in_lowest_terms() {
        assert_eq!(feet_inches(Mm::inches(0.0), 16), "0\"");
        assert_eq!(feet_inches(Mm::inches(11.99), 16), "1' 0\"");
        assert_eq!(feet_inches(-Mm::inches(6.25), 16), "-6-1/4\"");
        assert_eq!(inches(25.4 * 0.625, 16), "5/8 in");
        assert_eq!(thousands(1_234_567), "1,234,567");
        assert_eq!(fraction(4, 16), (1, 4));
    }
}
