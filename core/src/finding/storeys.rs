//! Findings about a level that stands over part of the one below only: the floor between the two is
//! laid over all of it, and what really lies over the rest is not known.

use super::{Finding, Severity, Subject};
use crate::framing::{Framing, LevelFraming, Outline, encloses};
use crate::plan::{KeepOut, KeepOutShape, Level, Plan};
use crate::shape::Pos;

/// Looked at this far apart, millimetres.
const STEP: f64 = 400.0;

/// The most places looked at from one side to the other; a larger level is looked at more coarsely.
const MOST: f64 = 100.0;

/// So many places are a part of a level, about 1 m²; fewer come of how the walls were drawn.
const PART: usize = 6;

pub(super) fn check(plan: &Plan, framing: &Framing) -> Vec<Finding> {
    let storeys = plan.levels.iter().zip(&framing.levels);
    let over = plan.levels.iter().zip(&framing.levels).skip(1);
    storeys
        .zip(over)
        .filter_map(|(lower, upper)| partly(lower, upper))
        .collect()
}

fn partly(
    (level, lower): (&Level, &LevelFraming),
    (storey, upper): (&Level, &LevelFraming),
) -> Option<Finding> {
    lower.above.filter(|_| upper.outline.closed)?;
    let bare = bare(level, &lower.outline, &upper.outline);
    let at = (bare.len() >= PART).then(|| most_central(&bare))??;
    let finding = Finding::new(
        format!("partly-over:{}", level.id.0),
        Severity::Note,
        Subject::Level(level.id),
    );
    let (name, over) = (&level.name, &storey.name);
    Some(
        finding
            .at(level.id, at)
            .says(
                format!(
                    "{over} stands over part of {name} only, but the joists between them are laid over \
                     all of {name}."
                ),
                "Where a roof lies over the rest, draw a region to keep clear that reaches higher than \
                 the ceiling, or see on site where cable can lie.",
            )
            .by("geometry; the model has one kind of ceiling a level"),
    )
}

/// Places inside a level, not inside the one above, and not kept clear overhead.
fn bare(level: &Level, outline: &Outline, above: &Outline) -> Vec<Pos> {
    let Some((low, high)) = outline.bounds() else {
        return Vec::new();
    };
    let count = |from: f64, to: f64| ((to - from) / STEP).ceil().clamp(0.0, MOST) as u32;
    let (across, down) = (count(low.x, high.x), count(low.y, high.y));
    let step = Pos::new(
        (high.x - low.x) / f64::from(across.max(1)),
        (high.y - low.y) / f64::from(down.max(1)),
    );
    let clear = kept_clear(level);
    let is_bare = |at: &Pos| {
        outline.contains(*at)
            && !above.contains(*at)
            && !clear.iter().any(|corners| encloses(corners, *at))
    };
    let middle = |place: u32| f64::from(place) + 0.5;
    let row =
        |y: u32| (0..across).map(move |x| low + Pos::new(middle(x) * step.x, middle(y) * step.y));
    (0..down).flat_map(row).filter(is_bare).collect()
}

/// The corners of what is kept clear over the ceiling.
fn kept_clear(level: &Level) -> Vec<Vec<Pos>> {
    let overhead = |keep_out: &&KeepOut| keep_out.top > level.ceiling;
    let corners = |keep_out: &KeepOut| match &keep_out.shape {
        KeepOutShape::Region(corners) => Some(corners.iter().map(|corner| corner.pos()).collect()),
        KeepOutShape::Stretch { .. } => None,
    };
    level
        .keep_outs
        .iter()
        .filter(overhead)
        .filter_map(corners)
        .collect()
}

/// The place nearest to the middle of all: what is found lies in it even where that middle does not.
fn most_central(places: &[Pos]) -> Option<Pos> {
    let sum = places.iter().fold(Pos::new(0.0, 0.0), |sum, at| sum + *at);
    let middle = sum * (1.0 / places.len().max(1) as f64);
    let nearer = |a: &&Pos, b: &&Pos| a.distance(middle).total_cmp(&b.distance(middle));
    places.iter().min_by(nearer).copied()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::plan::edit::Edit;
    use crate::plan::{Floor, KeepOutId, KeepOutReason, LevelId, Lumber, Role};
    use crate::shape::{Direction, Point};
    use crate::units::Mm;

    /// Two corners across from one another.
    type Corners = ((i32, i32), (i32, i32));

    /// A ground floor of 10 m by 8 m, a second storey with these corners, and what stays clear.
    fn said(storey: Corners, clear: Option<(Corners, i32)>) -> Vec<Finding> {
        let corners = |((left, top), (right, bottom)): Corners| {
            [(left, top), (right, top), (right, bottom), (left, bottom)]
                .map(|(x, y)| Point::new(x, y))
        };
        let walls = |level: LevelId, around: Corners| {
            (0..4).map(move |place| Edit::AddWall {
                level,
                from: corners(around)[place],
                to: corners(around)[(place + 1) % 4],
                lumber: Lumber::TwoBySix,
                role: Role::Exterior,
            })
        };
        let (ground, upper) = (LevelId(1), LevelId(2));
        let clear = clear.map(|(region, top)| {
            let keep_out = KeepOut {
                id: KeepOutId(0),
                shape: KeepOutShape::Region(corners(region).to_vec()),
                bottom: Mm(0),
                top: Mm(top),
                reason: KeepOutReason::Other,
            };
            Edit::AddKeepOut(ground, keep_out)
        });
        let edits = walls(ground, ((0, 0), (10_000, 8_000)))
            .chain([Edit::AddLevel {
                name: String::from("Upper"),
                floor: Floor::sawn(Direction::ALONG_Y),
            }])
            .chain(walls(upper, storey))
            .chain(clear);
        let plan = edits.fold(Plan::new(), |plan, edit| plan.apply(&edit).unwrap());
        let found = Design::of(&plan).findings.into_iter();
        found.filter(|f| f.key == "partly-over:1").collect()
    }

    #[test]
    fn a_storey_over_half_the_house_is_told_where_it_is_not() {
        let found = said(((0, 0), (5_000, 8_000)), None);
        assert_eq!(found.len(), 1);
        assert!(
            found[0]
                .what
                .starts_with("Upper stands over part of Ground only")
        );
        let (level, at) = found[0].at.unwrap();
        assert_eq!(level, LevelId(1));
        // The bare half is from 5 m to 10 m; its middle is at (7.5, 4).
        assert!(at.distance(Pos::new(7_500.0, 4_000.0)) < STEP, "{at:?}");
    }

    #[test]
    fn a_storey_over_all_or_drawn_a_little_off_is_not() {
        assert_eq!(said(((0, 0), (10_000, 8_000)), None), []);
        assert_eq!(said(((60, -40), (9_950, 8_030)), None), []);
        assert_eq!(said(((-2_000, 0), (12_000, 8_000)), None), [], "overhangs");
    }

    #[test]
    fn what_is_kept_clear_overhead_is_known() {
        let bare = ((5_000, 0), (10_000, 8_000));
        let half = ((0, 0), (5_000, 8_000));
        assert_eq!(said(half, Some((bare, 4_000))), []);
        assert_eq!(
            said(half, Some((bare, 2_000))).len(),
            1,
            "under the ceiling"
        );
        let part = ((5_000, 0), (10_000, 4_000));
        assert_eq!(said(half, Some((part, 4_000))).len(), 1);
    }
}
