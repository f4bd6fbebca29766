//! A line of the table with gaps, and what stands in the gaps of a text.

/// What may stand in a gap.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Gap {
    /// `{number}`: a count or a number.
    Number,
    /// `{wall}`: W and a number.
    Wall,
    /// `{length}`: a figure with its unit, in feet and inches or in metric.
    Length,
    /// `{words}`: any words, said in their turn.
    Words,
}

/// A piece of a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Piece {
    /// Letters that stand as they are.
    Fixed(String),
    /// A gap.
    Gap(Gap),
}

/// A line of the table, taken apart.
pub(super) type Phrase = Vec<Piece>;

/// Between two things said.
const APART: [&str; 2] = [" · ", ". "];

const NAMES: [(&str, Gap); 4] = [
    ("{number}", Gap::Number),
    ("{wall}", Gap::Wall),
    ("{length}", Gap::Length),
    ("{words}", Gap::Words),
];

/// Takes a line apart.
pub(super) fn read(text: &str) -> Phrase {
    let mut pieces = Vec::new();
    let mut rest = text;
    loop {
        let next = NAMES
            .iter()
            .filter_map(|(name, gap)| Some((rest.find(name)?, *name, *gap)))
            .min_by_key(|(at, ..)| *at);
        let Some((at, name, gap)) = next else { break };
        if at > 0 {
            pieces.push(Piece::Fixed(rest[..at].to_string()));
        }
        pieces.push(Piece::Gap(gap));
        rest = &rest[at + name.len()..];
    }
    if !rest.is_empty() {
        pieces.push(Piece::Fixed(rest.to_string()));
    }
    pieces
}

/// The names of a line's gaps.
#[cfg(test)]
pub(super) fn gaps(text: &str) -> Vec<String> {
    let gap = |piece| match piece {
        Piece::Gap(gap) => Some(format!("{gap:?}")),
        Piece::Fixed(_) => None,
    };
    read(text).into_iter().filter_map(gap).collect()
}

/// What stands in the gaps of a text that is this phrase; `None` for another text.
pub(super) fn matched<'t>(phrase: &[Piece], text: &'t str) -> Option<Vec<(Gap, &'t str)>> {
    let Some((piece, rest)) = phrase.split_first() else {
        return text.is_empty().then(Vec::new);
    };
    let gap = match piece {
        Piece::Fixed(letters) => return matched(rest, text.strip_prefix(letters.as_str())?),
        Piece::Gap(gap) => *gap,
    };
    // What a gap holds is one thing said, never two, and never the beginning of a list.
    let is_one = |end: &usize| {
        let held = &text[..*end];
        gap != Gap::Words
            || !(held.ends_with([',', ':']) || APART.iter().any(|by| held.contains(by)))
    };
    let ends = ends(gap, rest, text);
    ends.into_iter().filter(is_one).find_map(|end| {
        let mut found = vec![(gap, &text[..end])];
        found.extend(matched(rest, &text[end..])?);
        Some(found)
    })
}

/// Where a gap at the start of a text may end.
fn ends(gap: Gap, rest: &[Piece], text: &str) -> Vec<usize> {
    match gap {
        Gap::Number => figure(text).into_iter().collect(),
        Gap::Wall => wall(text).into_iter().collect(),
        Gap::Length => length(text),
        Gap::Words => match rest.first() {
            None if text.is_empty() => Vec::new(),
            None => vec![text.len()],
            Some(Piece::Fixed(letters)) => {
                let found = text.match_indices(letters.as_str()).map(|(at, _)| at);
                found.filter(|at| *at > 0).collect()
            }
            Some(Piece::Gap(_)) => text.char_indices().map(|(at, _)| at).skip(1).collect(),
        },
    }
}

/// The end of a number: "12", "1,024", "7.1".
fn figure(text: &str) -> Option<usize> {
    let end = text
        .find(|sign: char| !(sign.is_ascii_digit() || sign == ',' || sign == '.'))
        .unwrap_or(text.len());
    let end = text[..end].trim_end_matches([',', '.']).len();
    (end > 0 && text.starts_with(|sign: char| sign.is_ascii_digit())).then_some(end)
}

fn wall(text: &str) -> Option<usize> {
    let digits = text.strip_prefix('W')?;
    let end = digits
        .find(|sign: char| !sign.is_ascii_digit())
        .unwrap_or(digits.len());
    (end > 0).then_some(end + 1)
}

/// Ends of a measure, the longest first: "9' 2-3/4\"", "1-3/8 in", "78 ft", "2400 mm", "7.25 m".
fn length(text: &str) -> Vec<usize> {
    if !text.starts_with(|sign: char| sign.is_ascii_digit()) {
        return Vec::new();
    }
    let figures = |text: &str| {
        text.find(|sign: char| !(sign.is_ascii_digit() || "-/.,".contains(sign)))
            .unwrap_or(text.len())
    };
    let mut end = figures(text);
    if text[end..].starts_with('\'') {
        end += 1;
        let inches = text[end..].strip_prefix(' ').unwrap_or_default();
        let more = figures(inches);
        if more > 0 && inches[more..].starts_with('"') {
            end += 1 + more + 1;
        }
        return vec![end];
    }
    if text[end..].starts_with('"') {
        return vec![end + 1];
    }
    let units = [" in", " ft", " mm", " m", " %"];
    let found = units.iter().filter(|unit| {
        let after = text[end..].strip_prefix(**unit);
        after.is_some_and(|after| !after.starts_with(char::is_alphanumeric))
    });
    found.map(|unit| end + unit.len()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(phrase: &str, text: &str) -> Option<Vec<String>> {
        let phrase = read(phrase);
        let found = matched(&phrase, text)?;
        Some(
            found
                .into_iter()
                .map(|(_, words)| words.to_string())
                .collect(),
        )
    }

    #[test]
    fn gaps_take_what_they_are_for_and_nothing_else() {
        let some = |words: &[&str]| Some(words.iter().map(|w| (*w).to_string()).collect());
        let place = "{wall}, {length} past its far face";
        assert_eq!(
            found(place, "W12, 9' 2-3/4\" past its far face"),
            some(&["W12", "9' 2-3/4\""])
        );
        assert_eq!(found(place, "Wall, 2 in past its far face"), None);
        assert_eq!(
            found("{length} to {length}", "1-3/8 in to 9'"),
            some(&["1-3/8 in", "9'"])
        );
        assert_eq!(found("{number} studs", "1,024 studs"), some(&["1,024"]));
        assert_eq!(
            found("{words} to closet", "Cat 6 to closet"),
            some(&["Cat 6"])
        );
        assert_eq!(
            found("{words} to {words}", "a to b to c"),
            some(&["a", "b to c"])
        );
        assert_eq!(found("{number}", ""), None);
        assert_eq!(found("{words} outdoors", "no box, outdoors"), None);
        assert_eq!(found("{words} end", "left · right end"), None);
    }

    #[test]
    fn any_text_is_taken_without_harm() {
        for text in ["é", "W", "9'", "9' \"", "½ in", "1,", "'", "\u{1F600}"] {
            for phrase in [
                "{length}",
                "{number}",
                "{wall}",
                "{words}",
                "{words}{words}",
            ] {
                let _ = found(phrase, text);
            }
        }
    }
}
