//! Lettering: capitals and figures as strokes on a grid six high, y down, drawn by hand. Small
//! letters come out as capitals, as on a drawing.

/// Space between letters.
pub const GAP: f64 = 1.4;
/// The width of a letter there are no strokes for.
const BLANK: f64 = 2.0;

/// A letter a line: the letter, its width, and its strokes from point to point.
const LETTERS: &str = include_str!("letters.txt");

/// Points of one stroke.
pub type Stroke = Vec<(f64, f64)>;

/// The width of a letter and its strokes; a letter there is none for leaves a gap.
pub fn glyph(letter: char) -> (f64, Vec<Stroke>) {
    let letter = letter.to_ascii_uppercase();
    let line = LETTERS.lines().find(|line| line.starts_with(letter));
    let Some(line) = line.filter(|_| letter != ' ') else {
        return (BLANK, Vec::new());
    };
    let mut parts = line.split(" | ");
    let width = parts
        .next()
        .and_then(|head| number(head.split(' ').nth(1)?));
    (width.unwrap_or(BLANK), parts.map(stroke).collect())
}

/// How wide a line of lettering is.
pub fn width(text: &str) -> f64 {
    text.chars().map(|letter| glyph(letter).0 + GAP).sum()
}

fn stroke(points: &str) -> Stroke {
    let point = |point: &str| {
        let (x, y) = point.split_once(',')?;
        Some((number(x)?, number(y)?))
    };
    points.split(' ').filter_map(point).collect()
}

fn number(text: &str) -> Option<f64> {
    text.parse().ok()
}
