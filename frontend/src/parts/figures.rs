//! Text in which fractions are set as fractions.
//!
//! The text itself stays as it is, `1-1/4 in`, for whoever reads it aloud or copies it.

use yew::prelude::*;

/// A piece of a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Piece {
    /// Text as it stands.
    Plain(String),
    /// The hyphen between a whole number and its fraction: not seen.
    Joint,
    /// A fraction: `1/4`.
    Fraction(String),
}

/// Takes a text apart at its fractions.
pub fn pieces(text: &str) -> Vec<Piece> {
    let mut found = Vec::new();
    let mut rest = text;
    while let Some((before, fraction, after)) = next_fraction(rest) {
        let stem = before
            .strip_suffix('-')
            .filter(|stem| stem.ends_with(|c: char| c.is_ascii_digit()));
        let plain = stem.unwrap_or(before);
        if !plain.is_empty() {
            found.push(Piece::Plain(plain.to_string()));
        }
        if stem.is_some() {
            found.push(Piece::Joint);
        }
        found.push(Piece::Fraction(fraction.to_string()));
        rest = after;
    }
    if !rest.is_empty() {
        found.push(Piece::Plain(rest.to_string()));
    }
    found
}

/// The first fraction of a text with what is before and after it. Only halves to sixty-fourths are
/// fractions of an inch; other figures with a stroke between them stay as they are.
fn next_fraction(text: &str) -> Option<(&str, &str, &str)> {
    for (stroke, _) in text.match_indices('/') {
        let (before, after) = (text.get(..stroke)?, text.get(stroke + 1..)?);
        let upper = before.len() - before.trim_end_matches(|c: char| c.is_ascii_digit()).len();
        let lower = after.len() - after.trim_start_matches(|c: char| c.is_ascii_digit()).len();
        let over = after.get(..lower)?;
        if upper > 0 && matches!(over, "2" | "4" | "8" | "16" | "32" | "64") {
            let (start, end) = (stroke - upper, stroke + 1 + lower);
            return Some((text.get(..start)?, text.get(start..end)?, text.get(end..)?));
        }
    }
    None
}

/// What [`Figures`] show.
#[derive(Properties, PartialEq)]
pub struct FiguresProps {
    /// The text.
    pub text: AttrValue,
}

/// A text with its fractions set.
#[component]
pub fn Figures(props: &FiguresProps) -> Html {
    let set = |piece: Piece| match piece {
        Piece::Plain(text) => html! { { text } },
        Piece::Joint => html! { <span class="Joint">{ "-" }</span> },
        Piece::Fraction(text) => html! { <span class="Fraction">{ text }</span> },
    };
    html! { <>{ for pieces(&props.text).into_iter().map(set) }</> }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fractions_are_told_from_other_figures() {
        let plain = |text: &str| Piece::Plain(text.into());
        let fraction = |text: &str| Piece::Fraction(text.into());
        assert_eq!(
            pieces("12' 6-1/2\" and 3/4 in"),
            [
                plain("12' 6"),
                Piece::Joint,
                fraction("1/2"),
                plain("\" and "),
                fraction("3/4"),
                plain(" in")
            ]
        );
        assert_eq!(pieces("page 2/3, 10/2026"), [plain("page 2/3, 10/2026")]);
        assert_eq!(pieces("-1/8"), [plain("-"), fraction("1/8")]);
        assert_eq!(pieces(""), []);
    }
}
