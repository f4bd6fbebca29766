//! Squaring up a photo: four taps round something rectangular, then its width and height.
//!
//! The pixels are not this room's business: the draft that stands at the end carries what was asked,
//! and whoever holds the picture answers with [`Edit::PutScan`](crate::plan::edit::Edit).

use super::{drawing, dropped, no_drawing};
use crate::desk::answer::Answer;
use crate::desk::{Draft, Gesture, Session};
use crate::scan::{Rectangle, Squaring};
use crate::shape::{Point, Pos};
use crate::units::{Mm, read_length};

/// What is missing in a text that is one length alone.
const BOTH: &str = "Type both, width by height, such as 54' x 34' or 16.4 m x 10.3 m.";

pub(super) fn answer(session: &Session, gesture: &Gesture<Point>) -> Answer {
    let Gesture::Tap(at) = *gesture else {
        return Answer::unmoved(session);
    };
    if drawing(session).is_none() {
        return no_drawing(session, at);
    }
    let mut points = match &session.draft {
        Some(Draft::Corners { points, .. }) if points.len() < 4 => points.clone(),
        _ => Vec::new(),
    };
    points.push(at);
    let asked = None;
    if points.len() == 4
        && let Some(Err(error)) = squaring(session, &points, Mm(1000), Mm(1000))
    {
        return dropped(session, &error.to_string(), at);
    }
    Answer::begun(Draft::Corners { points, asked }, None)
}

/// The width and height were typed: whoever holds the picture is asked to square it.
pub(super) fn typed(session: &Session, points: &[Point], text: &str) -> Answer {
    let at = points.last().copied().unwrap_or_default();
    if points.len() < 4 {
        return Answer::declined(session, "Tap all four corners first.", at);
    }
    let Some((width, height)) = text.split_once(['x', 'X', '×', '*']) else {
        return Answer::declined(session, BOTH, at);
    };
    let units = session.plan.units;
    let sides =
        read_length(width, units).and_then(|width| Ok((width, read_length(height, units)?)));
    let (width, height) = match sides {
        Ok(sides) => sides,
        Err(error) => return Answer::declined(session, error.to_string(), at),
    };
    match squaring(session, points, width, height) {
        Some(Ok(squaring)) => {
            let (points, asked) = (points.to_vec(), Some(Box::new(squaring)));
            Answer::begun(Draft::Corners { points, asked }, None)
        }
        Some(Err(error)) => dropped(session, &error.to_string(), at),
        None => no_drawing(session, at),
    }
}

/// How the drawing is squared by these corners; `None` without a drawing.
fn squaring(
    session: &Session,
    points: &[Point],
    width: Mm,
    height: Mm,
) -> Option<Result<Squaring, crate::scan::SquareError>> {
    let sheet = drawing(session)?;
    let scan = sheet.scan.as_ref()?;
    let seen: Vec<Pos> = points.iter().map(|point| point.pos()).collect();
    let corners = clockwise(seen.try_into().ok()?).map(|corner| {
        let (x, y) = sheet.placing.to_pixel(corner);
        Pos::new(x, y)
    });
    let rectangle = Rectangle {
        corners,
        width,
        height,
    };
    Some(Squaring::of((scan.width, scan.height), rectangle))
}

/// Four corners clockwise from the upper left as they are seen, whichever was tapped first and
/// whichever way round.
fn clockwise(corners: [Pos; 4]) -> [Pos; 4] {
    let [a, b, c, d] = corners;
    // On the sheet y grows downwards, so a positive turn is clockwise.
    let round = match (c - a).cross(d - b) > 0.0 {
        true => [a, b, c, d],
        false => [a, d, c, b],
    };
    let first = (0..4).min_by(|one, other| {
        let depth = |at: &usize| round[*at].x + round[*at].y;
        depth(one).total_cmp(&depth(other))
    });
    let first = first.unwrap_or(0);
    std::array::from_fn(|at| round[(first + at) % 4])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::trial::Trial;
    use crate::desk::{Intent, Tool};

    /// A drawing of 1,000 by 800 pixels, 10 mm to a pixel, and a slanted sheet on it.
    fn tapped(corners: [(i32, i32); 4]) -> Trial {
        let trial = Trial::with_drawing().take(Tool::SquareUp);
        corners
            .into_iter()
            .fold(trial, |trial, (x, y)| trial.tap(x, y))
    }

    const CORNERS: [(i32, i32); 4] = [(2000, 1000), (8000, 1500), (9000, 7000), (1000, 6500)];

    fn asked(trial: &Trial) -> Option<Squaring> {
        match &trial.session.draft {
            Some(Draft::Corners { asked, .. }) => asked.as_deref().copied(),
            _ => None,
        }
    }

    #[test]
    fn four_taps_and_two_lengths_ask_for_a_square_picture() {
        let trial = tapped(CORNERS);
        assert_eq!(asked(&trial), None);
        assert!(trial.session.hint().contains("width"));
        let trial = trial.types("6 m x 5 m");
        let [across, down] = asked(&trial).unwrap().known();
        assert_eq!((across.length, down.length), (Mm(6000), Mm(5000)));
    }

    #[test]
    fn it_does_not_matter_where_the_taps_begin_nor_which_way_they_go() {
        let straight = asked(&tapped(CORNERS).types("6m x 5m"));
        for first in 0..4 {
            let mut corners = CORNERS;
            corners.rotate_left(first);
            assert_eq!(asked(&tapped(corners).types("6m x 5m")), straight);
            corners.reverse();
            assert_eq!(asked(&tapped(corners).types("6m x 5m")), straight);
        }
    }

    #[test]
    fn what_cannot_be_is_told_and_the_corners_stay_for_another_try() {
        let trial = tapped(CORNERS);
        for (text, told) in [
            ("54'", "Type both"),
            ("six x 5m", "not a length"),
            ("6m x 0", "length is zero"),
        ] {
            let refused = tapped(CORNERS).types(text);
            assert!(refused.told().contains(told), "{text}: {}", refused.told());
            assert!(refused.types("6m x 5m").session.draft.is_some());
        }
        let small = tapped([(0, 0), (20, 0), (20, 20), (0, 20)]);
        assert!(small.told().contains("too close") && small.session.draft.is_none());
        let back = trial.intent(&Intent::Undo);
        assert!(
            matches!(&back.session.draft, Some(Draft::Corners { points, .. }) if points.len() == 3)
        );
        let none = Trial::new().take(Tool::SquareUp).tap(0, 0);
        assert!(none.told().contains("no drawing"));
    }
}
