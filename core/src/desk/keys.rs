//! What keys do: let go, remove, move by a step, turn the drawing.

use super::answer::Answer;
use super::snap::step_size;
use super::{Choice, Draft, Heading, Session, tools};
use crate::plan::edit::Edit;
use crate::plan::{Closet, ClosetPlace, KeepOutShape, Place, Plan, PowerPlace, Wall};
use crate::shape::{Point, Pos};
use crate::units::{Mm, Units};

impl Heading {
    /// Unit vector on the sheet.
    fn vector(self) -> Pos {
        match self {
            Self::Up => Pos::new(0.0, -1.0),
            Self::Down => Pos::new(0.0, 1.0),
            Self::Left => Pos::new(-1.0, 0.0),
            Self::Right => Pos::new(1.0, 0.0),
        }
    }
}

impl Session {
    /// Escape: what is begun first, then what is chosen. The tool stays in the hand.
    pub(super) fn letting_go(self) -> Session {
        if let Some(answer) = tools::finishing(&self) {
            return self.emptied().answered(answer, None);
        }
        match self.draft.as_ref().is_some_and(Draft::is_begun) || !self.typing.is_empty() {
            true => self.emptied(),
            false => Session {
                chosen: None,
                ..self.emptied()
            },
        }
    }

    /// What is chosen is removed, if it is something that can be.
    pub(super) fn deleting(self) -> Session {
        match self.chosen.and_then(removal) {
            Some(edit) => self.carried_out(edit),
            None => self,
        }
    }

    /// What is chosen moves by a step, as far as it can move that way.
    pub(super) fn nudged(self, heading: Heading, large: bool) -> Session {
        let step = match (large, self.plan.units) {
            (false, units) => step_size(units).0,
            (true, Units::Imperial) => 304.8,
            (true, Units::Metric) => 300.0,
        };
        let by = heading.vector() * step;
        match self.chosen.and_then(|choice| self.shifted(choice, by)) {
            Some(edit) => self.carried_out(edit),
            None => self,
        }
    }

    /// The drawing is turned a quarter about its middle.
    pub(super) fn quarter_turned(self) -> Session {
        let sheet = self.shown_level().map(|level| &level.sheet);
        let turned = sheet.and_then(|sheet| {
            let scan = sheet.scan.as_ref()?;
            let middle = (f64::from(scan.width) / 2.0, f64::from(scan.height) / 2.0);
            Some(sheet.placing.quarter_turned(middle))
        });
        match turned {
            Some(placing) => {
                let edit = Edit::SetPlacing(self.level, placing);
                self.carried_out(edit)
            }
            None => {
                let text = tools::NO_DRAWING;
                Session {
                    notice: Some(super::Notice::refused(text, None)),
                    ..self
                }
            }
        }
    }

    fn carried_out(self, edit: Edit) -> Session {
        let at = self.chosen.and_then(|choice| self.position(choice));
        let answer = Answer {
            edit: Some(edit),
            at: at.map(|(_, at)| at.point()),
            ..Answer::default()
        };
        self.emptied().answered(answer, None)
    }

    /// The edit that moves something by a vector; `None` where it cannot move that way.
    fn shifted(&self, choice: Choice, by: Pos) -> Option<Edit> {
        let plan: &Plan = &self.plan;
        match choice {
            Choice::Drop(id) => {
                let place = self.shifted_place(plan.drop(id)?.place, by)?;
                Some(Edit::MoveDrop(id, place))
            }
            Choice::Closet => {
                let closet = plan.closet?;
                let place = self.shifted_closet(closet.place, by)?;
                Some(Edit::SetCloset(Some(Closet { place, ..closet })))
            }
            Choice::Opening(id) => {
                let (level, opening) = plan.opening(id)?;
                let offset = opening.offset + along(level.wall(opening.wall)?, by)?;
                Some(Edit::SetOpening(crate::plan::Opening {
                    offset,
                    ..*opening
                }))
            }
            Choice::Wall(id) => {
                let (level, wall) = plan.wall(id)?;
                let corner = |from: Point| Edit::MoveCorner {
                    level: level.id,
                    from,
                    to: (from.pos() + by).point(),
                };
                Some(Edit::Together(vec![corner(wall.from), corner(wall.to)]))
            }
            _ => self.shifted_site(choice, by),
        }
    }

    fn shifted_site(&self, choice: Choice, by: Pos) -> Option<Edit> {
        let level = self.shown_level()?;
        let shift = |at: &Point| (at.pos() + by).point();
        match choice {
            Choice::Room(id) => level.room(id).map(|room| Edit::SetRoom {
                room: id,
                name: room.name.clone(),
                at: shift(&room.at),
            }),
            Choice::KeepOut(id) => {
                let mut keep_out = level.keep_out(id)?.clone();
                match &mut keep_out.shape {
                    KeepOutShape::Region(corners) => {
                        corners
                            .iter_mut()
                            .for_each(|corner| *corner = shift(corner));
                    }
                    KeepOutShape::Stretch { wall, from, to } => {
                        let by = along(level.wall(*wall)?, by)?;
                        (*from, *to) = (*from + by, *to + by);
                    }
                }
                Some(Edit::SetKeepOut(keep_out))
            }
            Choice::PowerRun(id) => {
                let mut run = level.power_run(id)?.clone();
                match &mut run.place {
                    PowerPlace::Overhead(points) => {
                        points.iter_mut().for_each(|point| *point = shift(point));
                    }
                    PowerPlace::Wall { wall, from, to, .. } => {
                        let by = along(level.wall(*wall)?, by)?;
                        (*from, *to) = (*from + by, *to + by);
                    }
                }
                Some(Edit::SetPowerRun(run))
            }
            Choice::Drawing(id) => {
                let placing = self.plan.level(id)?.sheet.placing.shifted(by);
                Some(Edit::SetPlacing(id, placing))
            }
            _ => None,
        }
    }

    fn shifted_place(&self, place: Place, by: Pos) -> Option<Place> {
        let shift = |at: Point| (at.pos() + by).point();
        match place {
            Place::Ceiling { at } => Some(Place::Ceiling { at: shift(at) }),
            Place::Adrift { at } => Some(Place::Adrift { at: shift(at) }),
            Place::Wall {
                wall,
                offset,
                side,
                height,
            } => Some(Place::Wall {
                wall,
                offset: self.slid(wall, offset, by)?,
                side,
                height,
            }),
            Place::Outside {
                wall,
                offset,
                side,
                height,
            } => Some(Place::Outside {
                wall,
                offset: self.slid(wall, offset, by)?,
                side,
                height,
            }),
        }
    }

    fn shifted_closet(&self, place: ClosetPlace, by: Pos) -> Option<ClosetPlace> {
        match place {
            ClosetPlace::Point(at) => Some(ClosetPlace::Point((at.pos() + by).point())),
            ClosetPlace::Wall { wall, offset, side } => Some(ClosetPlace::Wall {
                wall,
                offset: self.slid(wall, offset, by)?,
                side,
            }),
        }
    }

    fn slid(&self, wall: crate::plan::WallId, offset: Mm, by: Pos) -> Option<Mm> {
        let (_, wall) = self.plan.wall(wall)?;
        Some(offset + along(wall, by)?)
    }
}

/// How far a vector moves something that can only slide along a wall: its whole length if it goes
/// rather along the wall than across it.
fn along(wall: &Wall, by: Pos) -> Option<Mm> {
    let part = wall.line()?.along.dot(by);
    let meant = part.abs() > by.length() * 0.7;
    meant.then(|| Mm::rounded(by.length() * part.signum()))
}

fn removal(choice: Choice) -> Option<Edit> {
    Some(match choice {
        Choice::Drop(id) => Edit::RemoveDrop(id),
        Choice::Closet => Edit::SetCloset(None),
        Choice::Opening(id) => Edit::RemoveOpening(id),
        Choice::Wall(id) => Edit::RemoveWall(id),
        Choice::Room(id) => Edit::RemoveRoom(id),
        Choice::KeepOut(id) => Edit::RemoveKeepOut(id),
        Choice::PowerRun(id) => Edit::RemovePowerRun(id),
        Choice::Cable(id) => Edit::RemoveCable(id),
        Choice::Drawing(id) => Edit::RemoveScan(id),
        Choice::Bore(_) | Choice::Level(_) => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::trial::Trial;
    use crate::desk::{Hand, Intent, Tool};
    use crate::plan::{DropId, DropKind, OpeningId, WallId};

    fn nudge(heading: Heading) -> Intent {
        Intent::Nudge {
            heading,
            large: false,
        }
    }

    #[test]
    fn escape_lets_go_of_the_draft_then_of_the_choice_and_keeps_the_tool() {
        let trial = Trial::with_house().take(Tool::Opening).tap(3000, 0);
        let trial = trial.take(Tool::Wall).tap(3000, 3000);
        let chosen = Intent::Choose(Some(Choice::Opening(OpeningId(1))));
        let trial = trial.intent(&chosen).intent(&Intent::LetGo);
        assert_eq!(trial.session.draft, None);
        assert!(trial.session.chosen.is_some());
        let trial = trial.intent(&Intent::LetGo);
        assert_eq!(trial.session.chosen, None);
        assert_eq!(trial.session.tool, Tool::Wall);
    }

    #[test]
    fn what_is_chosen_is_removed_and_comes_back_by_undo() {
        let trial = Trial::with_house().take(Tool::Drop).tap(3000, 100);
        let trial = trial.intent(&Intent::Delete);
        assert!(trial.plan().drops.is_empty());
        assert_eq!(trial.session.chosen, None);
        assert_eq!(trial.done(), "removed D1");
        let trial = trial.intent(&Intent::Undo).intent(&Intent::Delete);
        assert_eq!(trial.plan().drops.len(), 1, "nothing was chosen any more");
    }

    #[test]
    fn a_refused_removal_is_told_at_the_place() {
        let trial = Trial::with_house().take(Tool::Drop);
        let camera = |hand| Hand {
            drop: DropKind::Camera,
            ..hand
        };
        let trial = trial.hand(camera).tap(3000, 100);
        let cable = trial.plan().drops[0].cables[0].id;
        let trial = trial.intent(&Intent::Choose(Some(Choice::Cable(cable))));
        let trial = trial.intent(&Intent::Delete);
        assert!(trial.told().contains("keeps one cable"));
        let at = trial.session.notice.as_ref().unwrap().at.unwrap();
        assert_eq!(at.x, 3000);
    }

    #[test]
    fn a_drop_slides_along_its_wall_and_not_across_it() {
        let trial = Trial::with_house().take(Tool::Drop).tap(3000, 100);
        let offset = |trial: &Trial| trial.plan().drops[0].place.on_wall().unwrap();
        let trial = trial.intent(&nudge(Heading::Right));
        assert_eq!(offset(&trial), (WallId(1), Mm(3160)));
        assert_eq!(trial.done(), "moved D1");
        let trial = trial.intent(&nudge(Heading::Up));
        assert_eq!(offset(&trial), (WallId(1), Mm(3160)));
        let large = Intent::Nudge {
            heading: Heading::Left,
            large: true,
        };
        assert_eq!(offset(&trial.intent(&large)), (WallId(1), Mm(2860)));
    }

    #[test]
    fn a_wall_goes_with_its_corners_and_a_drop_on_it_stays_on_it() {
        let trial = Trial::with_house().take(Tool::Drop).tap(3000, 100);
        let wall = Intent::Choose(Some(Choice::Wall(WallId(1))));
        let trial = trial.intent(&wall).intent(&nudge(Heading::Up));
        assert_eq!(trial.walls()[0], [0, -25, 8000, -25]);
        assert_eq!(trial.walls()[3], [0, 6000, 0, -25]);
        assert_eq!(
            trial.plan().drop(DropId(1)).unwrap().height(),
            Some(Mm(406))
        );
    }
}
