//! Marking a wall nobody drills: a tap turns it on and off.

use super::NO_WALL;
use crate::desk::answer::Answer;
use crate::desk::choice::wall_under;
use crate::desk::{Gesture, Reach, Session};
use crate::plan::Wall;
use crate::plan::edit::Edit;
use crate::shape::Point;

pub(super) fn answer(session: &Session, gesture: &Gesture<Point>, reach: Reach) -> Answer {
    let Gesture::Tap(at) = *gesture else {
        return Answer::unmoved(session);
    };
    let wall = wall_under(session, at, reach).and_then(|id| session.plan.wall(id));
    match wall {
        Some((_, wall)) => {
            let never_drill = !wall.never_drill;
            Answer::edit(
                Edit::SetWall(Wall {
                    never_drill,
                    ..*wall
                }),
                at,
            )
        }
        None => Answer::declined(session, NO_WALL, at),
    }
}

#[cfg(test)]
mod tests {
    use crate::desk::Tool;
    use crate::desk::trial::Trial;

    #[test]
    fn a_tap_closes_a_wall_to_the_drill_and_another_opens_it() {
        let trial = Trial::with_house().take(Tool::NeverDrill).tap(4000, 30);
        assert!(trial.plan().levels[0].walls[0].never_drill);
        assert_eq!(trial.done(), "closed W1 to the drill");
        let trial = trial.tap(4000, 30);
        assert_eq!(trial.done(), "opened W1 to the drill");
        assert!(trial.tap(4000, 3000).told().contains("no wall there"));
    }
}
