//! Placing the closet: on a wall, or standing free inside the house.

use super::drop::measured;
use super::{NO_WALL, NOT_ON_WALL, moving};
use crate::desk::answer::Answer;
use crate::desk::choice::under;
use crate::desk::snap::{boxed, nearest_wall, stepped};
use crate::desk::{Choice, Draft, Gesture, Hold, Notice, Reach, Session, Snap};
use crate::plan::edit::Edit;
use crate::plan::{Closet, ClosetPlace, Entry};
use crate::rules::RuleId;
use crate::shape::Point;

pub(super) fn answer(session: &Session, gesture: &Gesture<Point>, reach: Reach) -> Answer {
    match *gesture {
        Gesture::Hover(at) => match place(session, at, reach) {
            Some((closet, snap)) => Answer::begun(Draft::Closet(closet), snap),
            None => Answer::default(),
        },
        Gesture::Tap(at) if under(session, at, reach) == Some(Choice::Closet) => {
            Answer::default().choosing(Choice::Closet)
        }
        Gesture::Tap(at) => match place(session, at, reach) {
            Some((closet, _)) => {
                Answer::edit(Edit::SetCloset(Some(closet)), at).choosing(Choice::Closet)
            }
            None => Answer::declined(session, NO_WALL, at),
        },
        _ => moving::answer(session, gesture, reach),
    }
}

/// A typed length hangs the closet that far from the nearer end of the wall under the pointer.
pub(super) fn typed(session: &Session, ghost: Closet, text: &str) -> Answer {
    let ClosetPlace::Wall { wall, offset, side } = ghost.place else {
        return Answer {
            notice: Some(Notice::refused(NOT_ON_WALL, None)),
            ..Answer::unmoved(session)
        };
    };
    match measured(session, wall, offset, text) {
        Ok(offset) => {
            let place = ClosetPlace::Wall { wall, offset, side };
            Answer {
                edit: Some(Edit::SetCloset(Some(Closet { place, ..ghost }))),
                ..Answer::default()
            }
            .choosing(Choice::Closet)
        }
        Err(notice) => Answer {
            notice: Some(notice),
            ..Answer::unmoved(session)
        },
    }
}

/// Where the closet lands for a pointer: on the nearest wall; away from walls, standing free inside
/// the outline. Its entry and panel height stay what they are. `None` outside the house.
pub(super) fn place(session: &Session, at: Point, reach: Reach) -> Option<(Closet, Snap)> {
    let plan = &session.plan;
    let known = plan.closet.unwrap_or(Closet {
        level: session.level,
        place: ClosetPlace::Point(at),
        entry: Entry::default(),
        panel_height: plan.rules.length(RuleId::PanelHeight),
    });
    let (place, snap) =
        on_wall(session, known.panel_height, at, reach).or_else(|| standing(session, at, reach))?;
    let level = session.level;
    Some((
        Closet {
            level,
            place,
            ..known
        },
        snap,
    ))
}

fn on_wall(
    session: &Session,
    height: crate::units::Mm,
    at: Point,
    reach: Reach,
) -> Option<(ClosetPlace, Snap)> {
    let (level, framing) = (session.shown_level()?, session.shown_framing());
    let facing = nearest_wall(level, framing, at, reach)?;
    let units = session.plan.units;
    let (offset, snap) = boxed(&facing, level, framing, (height, None), reach, units);
    let (wall, side) = (facing.wall.id, facing.side);
    Some((ClosetPlace::Wall { wall, offset, side }, snap))
}

fn standing(session: &Session, at: Point, reach: Reach) -> Option<(ClosetPlace, Snap)> {
    let outline = &session.shown_framing()?.outline;
    if !outline.contains(at.pos()) {
        return None;
    }
    let at = match reach.free {
        true => at,
        false => stepped(at, session.plan.units),
    };
    let holds = vec![Hold::Standing];
    Some((ClosetPlace::Point(at), Snap { at, holds }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::Tool;
    use crate::desk::trial::Trial;
    use crate::plan::{Side, WallId};
    use crate::units::Mm;

    fn house() -> Trial {
        Trial::with_house().take(Tool::Closet)
    }

    #[test]
    fn a_closet_hangs_on_a_wall_and_moves_with_its_settings() {
        let trial = house().tap(3000, 5900);
        let closet = trial.plan().closet.unwrap();
        let place = ClosetPlace::Wall {
            wall: WallId(3),
            offset: Mm(5000),
            side: Side::Right,
        };
        assert_eq!((closet.place, closet.panel_height), (place, Mm(1524)));
        let own = Closet {
            entry: Entry::Above,
            ..closet
        };
        let edit = crate::desk::Intent::Edit(Edit::SetCloset(Some(own)));
        let trial = trial.intent(&edit).drag((3000, 5930), (7930, 3000));
        let closet = trial.plan().closet.unwrap();
        assert_eq!(
            (closet.on_wall(), closet.entry),
            (Some(WallId(2)), Entry::Above)
        );
        assert_eq!(trial.done(), "moved the closet");
    }

    /// W4 stops at the face of W3, a 2x6, 70 before the drawn corner.
    #[test]
    fn a_typed_length_is_from_the_nearer_end() {
        let trial = house().hover(100, 5000).types("1 m");
        let place = trial.plan().closet.unwrap().place;
        assert!(matches!(
            place,
            ClosetPlace::Wall {
                wall: WallId(4),
                offset: Mm(1070),
                ..
            }
        ));
        assert!(
            house()
                .hover(4000, 3000)
                .types("1 m")
                .told()
                .contains("along a wall")
        );
        assert!(
            house()
                .hover(100, 5000)
                .types("no")
                .told()
                .contains("not a length")
        );
    }

    #[test]
    fn away_from_walls_it_stands_free_indoors_and_nowhere_outdoors() {
        let trial = house().tap(4010, 3010);
        let place = trial.plan().closet.unwrap().place;
        assert_eq!(place, ClosetPlace::Point(Point::new(4000, 3000)));
        let outdoors = house().tap(20_000, 3000);
        assert!(outdoors.told().contains("no wall there"));
        assert_eq!(outdoors.plan().closet, None);
    }
}
