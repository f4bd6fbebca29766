//! What is chosen, and what lies under a tap.

use super::position::{closet_position, opening_position};
use super::{Reach, Session, Step};
use crate::design::Design;
use crate::plan::{
    CableId, DropId, KeepOut, KeepOutId, KeepOutShape, Level, LevelId, OpeningId, Plan, PowerPlace,
    PowerRun, PowerRunId, RoomId, Wall, WallId,
};
use crate::shape::{Point, Pos, Segment};

/// Something the slip can be about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Choice {
    /// A drop.
    Drop(DropId),
    /// The closet.
    Closet,
    /// A door, window or cased opening.
    Opening(OpeningId),
    /// A wall.
    Wall(WallId),
    /// A room.
    Room(RoomId),
    /// A keep-out.
    KeepOut(KeepOutId),
    /// A power run.
    PowerRun(PowerRunId),
    /// One cable with its way.
    Cable(CableId),
    /// A bore, by the number people call it by.
    Bore(u32),
    /// A level: its height, what is over and under it, its joists.
    Level(LevelId),
    /// The drawing under a level: its known dimensions and their residuals.
    Drawing(LevelId),
}

impl Choice {
    /// Whether the plan, or what follows from it, still has it.
    pub fn stands(self, plan: &Plan, design: &Design) -> bool {
        let on_a_level = |has: &dyn Fn(&Level) -> bool| plan.levels.iter().any(has);
        match self {
            Self::Drop(id) => plan.drop(id).is_some(),
            Self::Closet => plan.closet.is_some(),
            Self::Opening(id) => plan.opening(id).is_some(),
            Self::Wall(id) => plan.wall(id).is_some(),
            Self::Room(id) => on_a_level(&|level| level.room(id).is_some()),
            Self::KeepOut(id) => on_a_level(&|level| level.keep_out(id).is_some()),
            Self::PowerRun(id) => on_a_level(&|level| level.power_run(id).is_some()),
            Self::Cable(id) => plan.cable(id).is_some(),
            Self::Bore(number) => design.bores.iter().any(|bore| bore.number == number),
            Self::Level(id) => plan.level(id).is_some(),
            Self::Drawing(id) => plan
                .level(id)
                .is_some_and(|level| level.sheet.scan.is_some()),
        }
    }
}

/// A drop, the closet or a room's name counts as meant from this far at any scale, millimetres.
const MEANT: f64 = 120.0;

/// What lies under a tap on the shown level: drop before closet, then, where ways are shown, bore
/// and cable, then opening, wall, room, keep-out, power run; last, while the drawing is at hand, the
/// drawing. Among several of a kind the nearest.
pub(super) fn under(session: &Session, at: Point, reach: Reach) -> Option<Choice> {
    let level = session.shown_level()?;
    let tap = Tap {
        session,
        level,
        at: at.pos(),
        around: reach.around.f64(),
    };
    let shows_ways = session.shows_ways();
    tap.drop()
        .or_else(|| tap.closet())
        .or_else(|| shows_ways.then(|| tap.bore().or_else(|| tap.cable()))?)
        .or_else(|| tap.opening())
        .or_else(|| tap.wall())
        .or_else(|| tap.room())
        .or_else(|| tap.keep_out())
        .or_else(|| tap.power_run())
        .or_else(|| (session.step == Step::Drawing).then(|| tap.drawing())?)
}

/// The wall under a tap, whatever else is there.
pub(super) fn wall_under(session: &Session, at: Point, reach: Reach) -> Option<WallId> {
    let level = session.shown_level()?;
    let (at, around) = (at.pos(), reach.around.f64());
    nearest(
        level.walls.iter().map(|wall| (wall.id, off_wall(wall, at))),
        around,
    )
}

/// One tap on one level.
struct Tap<'a> {
    session: &'a Session,
    level: &'a Level,
    at: Pos,
    around: f64,
}

impl Tap<'_> {
    fn drop(&self) -> Option<Choice> {
        let plan = &self.session.plan;
        let here = plan.drops.iter().filter(|d| d.level == self.level.id);
        let off = here.map(|drop| {
            let off = drop
                .place
                .position(plan)
                .map(|place| place.distance(self.at));
            (drop.id, off)
        });
        nearest(off, self.around.max(MEANT)).map(Choice::Drop)
    }

    fn closet(&self) -> Option<Choice> {
        let plan = &self.session.plan;
        let closet = plan.closet.filter(|c| c.level == self.level.id)?;
        let off = closet_position(plan, &closet)?.distance(self.at);
        (off <= self.around.max(MEANT)).then_some(Choice::Closet)
    }

    fn bore(&self) -> Option<Choice> {
        let design = &self.session.design;
        let off = design.bores.iter().map(|bore| {
            let crossing = design.ways.crossings.get(bore.crossing);
            let here = crossing.filter(|crossing| crossing.level == self.level.id);
            (bore.number, here.map(|c| c.at.distance(self.at)))
        });
        nearest(off, self.around * 0.75).map(Choice::Bore)
    }

    /// The nearest cable; where several lie in one trunk, the one after the chosen one.
    fn cable(&self) -> Option<Choice> {
        let mut near: Vec<CableId> = self
            .session
            .design
            .ways
            .ways
            .iter()
            .filter(|way| way.moves.iter().any(|m| self.is_on(m.from.at, m.to.at)))
            .map(|way| way.cable)
            .collect();
        near.sort_unstable();
        let after = match self.session.chosen {
            Some(Choice::Cable(chosen)) => near.iter().find(|id| **id > chosen).copied(),
            _ => None,
        };
        after.or(near.first().copied()).map(Choice::Cable)
    }

    fn opening(&self) -> Option<Choice> {
        let off = self.level.openings.iter().map(|opening| {
            let wall = self.level.wall(opening.wall);
            let off = wall.and_then(|wall| {
                let line = wall.line()?;
                let half = opening.width.f64() / 2.0;
                let middle = opening_position(wall, opening)?;
                let along = (line.offset_of(self.at) - line.offset_of(middle)).abs() - half;
                let aside = line.aside_of(self.at).abs() - wall.width().0 / 2.0;
                Some(along.max(aside).max(0.0))
            });
            (opening.id, off)
        });
        nearest(off, self.around * 0.5).map(Choice::Opening)
    }

    fn wall(&self) -> Option<Choice> {
        let walls = self.level.walls.iter();
        let off = walls.map(|wall| (wall.id, off_wall(wall, self.at)));
        nearest(off, self.around * 0.75).map(Choice::Wall)
    }

    /// A room is chosen by its name, which is wider than it is high.
    fn room(&self) -> Option<Choice> {
        let off = self.level.rooms.iter().map(|room| {
            let by = room.at.pos() - self.at;
            (room.id, Some((by.x.abs() / 3.0).max(by.y.abs())))
        });
        nearest(off, self.around.max(MEANT)).map(Choice::Room)
    }

    fn keep_out(&self) -> Option<Choice> {
        let off = self.level.keep_outs.iter();
        nearest(off.map(|k| (k.id, self.off_keep_out(k))), self.around).map(Choice::KeepOut)
    }

    fn off_keep_out(&self, keep_out: &KeepOut) -> Option<f64> {
        match &keep_out.shape {
            KeepOutShape::Region(corners) => Some(match is_inside(corners, self.at) {
                true => 0.0,
                false => off_chain(corners, self.at)?,
            }),
            KeepOutShape::Stretch { wall, from, to } => {
                self.off_stretch(*wall, from.f64(), to.f64())
            }
        }
    }

    fn power_run(&self) -> Option<Choice> {
        let off = self.level.power_runs.iter();
        nearest(
            off.map(|run| (run.id, self.off_power_run(run))),
            self.around,
        )
        .map(Choice::PowerRun)
    }

    fn off_power_run(&self, run: &PowerRun) -> Option<f64> {
        match &run.place {
            PowerPlace::Overhead(points) => off_chain(points, self.at),
            PowerPlace::Wall { wall, from, to, .. } => {
                self.off_stretch(*wall, from.f64(), to.f64())
            }
        }
    }

    /// The drawing, where its picture lies.
    fn drawing(&self) -> Option<Choice> {
        let sheet = &self.level.sheet;
        let scan = sheet.scan.as_ref()?;
        let (u, v) = sheet.placing.to_pixel(self.at);
        let (width, height) = (f64::from(scan.width), f64::from(scan.height));
        let inside = (0.0..=width).contains(&u) && (0.0..=height).contains(&v);
        inside.then_some(Choice::Drawing(self.level.id))
    }

    fn off_stretch(&self, wall: WallId, from: f64, to: f64) -> Option<f64> {
        let line = self.level.wall(wall)?.line()?;
        let offset = line.offset_of(self.at).clamp(from.min(to), to.max(from));
        Some(line.at(offset, 0.0).distance(self.at))
    }

    fn is_on(&self, from: Pos, to: Pos) -> bool {
        let within = self.around * 0.75;
        Segment::between(from, to).is_some_and(|line| line.distance_to(self.at) <= within)
    }
}

/// The nearest of several things within a distance; the one named first among equals.
fn nearest<T: Copy>(off: impl Iterator<Item = (T, Option<f64>)>, within: f64) -> Option<T> {
    let near = off
        .filter_map(|(what, off)| Some((what, off?)))
        .filter(|(_, off)| *off <= within);
    near.min_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(what, _)| what)
}

fn off_wall(wall: &Wall, at: Pos) -> Option<f64> {
    let off = wall.line()?.distance_to(at) - wall.width().0 / 2.0;
    Some(off.max(0.0))
}

fn off_chain(points: &[Point], at: Pos) -> Option<f64> {
    let segments = points.windows(2).filter_map(|pair| match pair {
        [from, to] => Segment::between(from.pos(), to.pos()),
        _ => None,
    });
    segments.map(|s| s.distance_to(at)).min_by(f64::total_cmp)
}

/// Even-odd rule.
fn is_inside(corners: &[Point], at: Pos) -> bool {
    use geo::Contains;
    let ring = corners.iter().map(|c| (f64::from(c.x), f64::from(c.y)));
    let polygon = geo::Polygon::new(geo::LineString::from_iter(ring), vec![]);
    polygon.contains(&geo::Point::new(at.x, at.y))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::trial::{REACH, Trial};
    use crate::desk::{Intent, Tool};

    fn found(trial: &Trial, x: i32, y: i32) -> Option<Choice> {
        trial.session.under(Point::new(x, y), REACH)
    }

    #[test]
    fn drops_lie_over_openings_and_openings_over_walls() {
        let trial = Trial::with_house().take(Tool::Opening).tap(3000, 0);
        let trial = trial.take(Tool::Drop).tap(4500, 100);
        assert_eq!(found(&trial, 4500, 60), Some(Choice::Drop(DropId(1))));
        assert_eq!(found(&trial, 3200, 60), Some(Choice::Opening(OpeningId(1))));
        assert_eq!(found(&trial, 6000, 60), Some(Choice::Wall(WallId(1))));
        assert_eq!(found(&trial, 6000, 2000), None);
    }

    #[test]
    fn the_closet_a_room_and_a_keep_out_are_found_where_they_are() {
        let trial = Trial::with_house().take(Tool::Closet).tap(100, 3000);
        let trial = trial.take(Tool::Room).tap(4000, 3000).types("Living");
        let trial = trial.take(Tool::KeepOut).drag((5000, 4000), (7000, 5000));
        assert_eq!(found(&trial, 90, 3000), Some(Choice::Closet));
        assert_eq!(found(&trial, 4300, 3050), Some(Choice::Room(RoomId(1))));
        assert_eq!(
            found(&trial, 6000, 4500),
            Some(Choice::KeepOut(KeepOutId(1)))
        );
    }

    #[test]
    fn bare_paper_is_the_drawing_while_that_is_at_hand_and_the_level_to_a_long_look() {
        let trial = Trial::with_drawing();
        let drawing = Some(Choice::Drawing(LevelId(1)));
        assert_eq!(found(&trial, 5000, 5000), drawing);
        assert_eq!(found(&trial, -500, 5000), None);
        let trial = trial.intent(&Intent::GoTo(Step::Framing));
        assert_eq!(found(&trial, 5000, 5000), None);
        let long = crate::desk::Gesture::LongPress(Point::new(5000, 5000));
        let level = Some(Choice::Level(LevelId(1)));
        assert_eq!(trial.gesture(long).session.chosen, level);
    }

    #[test]
    fn things_of_another_level_are_not_under_the_tap() {
        let trial = Trial::with_house().take(Tool::Drop).tap(4500, 100);
        let floor = crate::plan::Floor::sawn(crate::shape::Direction::ALONG_Y);
        let add = crate::plan::edit::Edit::AddLevel {
            name: "Upper".into(),
            floor,
        };
        let trial = trial.intent(&Intent::Edit(add));
        let trial = trial.intent(&Intent::ShowLevel(LevelId(2)));
        assert_eq!(found(&trial, 4500, 60), None);
        let drop = Intent::Choose(Some(Choice::Drop(DropId(1))));
        assert_eq!(trial.intent(&drop).session.level, LevelId(1));
    }

    #[test]
    fn what_the_plan_does_not_have_is_not_chosen() {
        let trial = Trial::new();
        for choice in [
            Choice::Drop(DropId(9)),
            Choice::Closet,
            Choice::Bore(3),
            Choice::Drawing(LevelId(1)),
        ] {
            let intent = Intent::Choose(Some(choice));
            assert_eq!(Trial::new().intent(&intent).session.chosen, None);
        }
        let level = Intent::Choose(Some(Choice::Level(LevelId(1))));
        assert!(trial.intent(&level).session.chosen.is_some());
    }
}
