//! Findings about a level that stands over part of the one below only, where nobody said what lies over the
//! rest.

use super::{Finding, Severity, Subject};
use crate::framing::{Framing, LevelFraming};
use crate::plan::{Level, Plan};

pub(super) fn check(plan: &Plan, framing: &Framing) -> Vec<Finding> {
    let over = plan.levels.iter().skip(1);
    let levels = plan.levels.iter().zip(&framing.levels).zip(over);
    levels
        .filter_map(|((level, lower), storey)| partly(level, lower, storey))
        .collect()
}

fn partly(level: &Level, lower: &LevelFraming, storey: &Level) -> Option<Finding> {
    let at = lower.bare.filter(|_| lower.beside.is_none())?;
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
                    "{over} stands over part of {name} only, and what lies over the rest is not stated: \
                     no cable is led over it."
                ),
                "Say in the level's slip what roof lies over the rest, or draw a region to keep clear \
                 there that reaches higher than the ceiling.",
            )
            .by("geometry"),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::framing::STEP;
    use crate::plan::edit::Edit;
    use crate::plan::{
        Floor, KeepOut, KeepOutId, KeepOutReason, KeepOutShape, LevelId, Lumber, Role,
    };
    use crate::shape::{Direction, Point, Pos};
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
