//! Lengths of reels and of cables in the wall as a person types them: a bare number is feet or metres,
//! not inches.

use super::{Mm, Units, read_length};

/// Reads the length of one reel. A bare number is feet or metres by `units`, a comma before three
/// figures parts thousands; everything else is read as [`read_length`] does.
///
/// ```
/// use borewright_core::units::{Mm, Units, read_reel};
/// assert_eq!(read_reel("1,000", Units::Imperial), Ok(Mm::feet(1000.0)));
/// assert_eq!(read_reel("305", Units::Metric), Ok(Mm(305_000)));
/// ```
///
/// # Errors
/// One sentence, with an example.
pub fn read_reel(text: &str, units: Units) -> Result<Mm, String> {
    read_cable(text, units, "a reel")
}

/// Reads the length of a cable as a tester shows it, or as its jacket is marked; as [`read_reel`]
/// does.
///
/// ```
/// use borewright_core::units::{Mm, Units, read_run};
/// assert_eq!(read_run("61.5", Units::Imperial), Ok(Mm::feet(61.5)));
/// assert!(read_run("sixty", Units::Imperial).unwrap_err().contains("of a cable"));
/// ```
///
/// # Errors
/// One sentence, with an example.
pub fn read_run(text: &str, units: Units) -> Result<Mm, String> {
    read_cable(text, units, "a cable")
}

fn read_cable(text: &str, units: Units, of: &str) -> Result<Mm, String> {
    let example = match units {
        Units::Imperial => "350 ft",
        Units::Metric => "120 m",
    };
    let plain = without_thousands(text.trim());
    let is_bare = |text: &str| text.parse::<f64>().is_ok_and(|number| number >= 0.0);
    let written = match (is_bare(&plain), units) {
        (true, Units::Imperial) => format!("{plain} ft"),
        (true, Units::Metric) => format!("{plain} m"),
        (false, _) => plain,
    };
    // Two bare numbers would be feet and inches, which no reel is measured in.
    let has_unit = written.chars().any(|sign| !is_of_a_number(sign));
    let length = read_length(&written, units).ok().filter(|_| has_unit);
    length.ok_or_else(|| {
        format!(
            "“{}” is not the length of {of}. Type one such as {example}.",
            text.trim()
        )
    })
}

/// Reads the lengths of several reels, with a semicolon between two.
///
/// # Errors
/// One sentence that names the first that cannot be read, and the semicolon.
pub fn read_reels(text: &str, units: Units) -> Result<Vec<Mm>, String> {
    let parts = text.split(';').map(str::trim);
    let parts = parts.filter(|part| !part.is_empty());
    let told = |part: &str| {
        let example = match units {
            Units::Imperial => "200 ft; 350 ft",
            Units::Metric => "60 m; 120 m",
        };
        format!("“{part}” is not one length. Put a semicolon between two reels, as in {example}.")
    };
    parts
        .map(|part| read_reel(part, units).map_err(|_| told(part)))
        .collect()
}

fn is_of_a_number(sign: char) -> bool {
    sign.is_ascii_digit() || sign.is_whitespace() || matches!(sign, '.' | ',')
}

/// "1000 ft" of "1,000 ft": a comma with one to three figures before it and just three after.
fn without_thousands(text: &str) -> String {
    let signs: Vec<char> = text.chars().collect();
    let figures = |signs: &[char]| signs.iter().take_while(|s| s.is_ascii_digit()).count();
    let parts_thousands = |place: usize| {
        let before: Vec<char> = signs[..place].iter().rev().copied().collect();
        signs[place] == ','
            && (1..=3).contains(&figures(&before))
            && figures(&signs[place + 1..]) == 3
    };
    let kept = (0..signs.len()).filter(|place| !parts_thousands(*place));
    kept.map(|place| signs[place]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_bare_number_is_feet_or_metres() {
        let feet = |feet: f64| Mm::feet(feet);
        let read = |text: &str| read_reels(text, Units::Imperial);
        assert_eq!(read("200; 350.5"), Ok(vec![feet(200.0), feet(350.5)]));
        assert_eq!(read("1,000 ft;150'"), Ok(vec![feet(1000.0), feet(150.0)]));
        assert_eq!(read(" ; "), Ok(Vec::new()));
        assert_eq!(read("90 m"), Ok(vec![Mm(90_000)]));
        let metric = read_reels("60; 120 m; 1,5 m", Units::Metric);
        assert_eq!(metric, Ok(vec![Mm(60_000), Mm(120_000), Mm(1500)]));
    }

    #[test]
    fn a_refusal_names_the_semicolon() {
        for text in ["200, 350", "200 350", "two; 3", "200 ft, 350 ft"] {
            let told = read_reels(text, Units::Imperial).unwrap_err();
            assert!(told.contains("semicolon"), "{text}: {told}");
        }
        assert!(read_reel("0", Units::Imperial).is_err());
        assert!(read_reel("-5", Units::Metric).is_err());
    }

    proptest! {
        #[test]
        fn what_is_written_is_read_again(feet in 1..3000i32, text in ".*") {
            let length = Mm::feet(f64::from(feet));
            let written = Units::Imperial.total(length);
            prop_assert_eq!(read_reel(&written, Units::Imperial), Ok(length));
            let _ = read_reels(&text, Units::Metric);
        }
    }
}
