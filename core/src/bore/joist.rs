//! Joists over and under plates: how far from them a bore through the plates comes out. Moves nothing.

use super::Bore;
use super::place::{Axis, axis};
use crate::framing::{Framing, Space, SpaceKind};
use crate::plan::JoistKind;
use crate::route::{Crossing, Ways};
use crate::rules::trade::{BIT_LEANS, I_JOIST, OPEN_WEB, SAWN_JOIST};
use crate::shape::{Pos, Segment};
use crate::units::Size;

/// How wide a joist is where it lies on the plates, or under the floor.
pub(super) fn width(kind: SpaceKind) -> Size {
    match kind {
        SpaceKind::AtticTrusses | SpaceKind::AtticJoists | SpaceKind::Rafters => SAWN_JOIST,
        SpaceKind::Floor(kind) | SpaceKind::Crawl(kind) => match kind {
            JoistKind::Sawn => SAWN_JOIST,
            JoistKind::IJoist => I_JOIST,
            JoistKind::OpenWeb => OPEN_WEB,
        },
    }
}

/// How far a place is from the face of the nearest joist of a space, millimetres; below zero in it.
pub fn from_joist(space: &Space, at: Pos) -> f64 {
    let across = space.across_of(at);
    let last = space.strips.last().map(|strip| strip.to);
    let joists = space.strips.iter().map(|strip| strip.from).chain(last);
    let nearest = joists.map(|joist| (joist - across).abs());
    nearest.fold(f64::INFINITY, f64::min) - width(space.kind).0 / 2.0
}

/// The joists that bores through the plates of a wall come out beside.
pub(super) struct Joists<'f> {
    space: &'f Space,
    line: Segment,
}

impl<'f> Joists<'f> {
    /// The joists on the far side of a crossing's plates; `None` where it goes through none.
    pub fn beyond(framing: &'f Framing, crossing: &Crossing) -> Option<Self> {
        let Axis::Plate { wall, top } = axis(crossing) else {
            return None;
        };
        let level = framing.level(crossing.level)?;
        let space = match top {
            true => framing.space_over(level, crossing.at).or(level.rafters),
            false => level.below,
        };
        Some(Self {
            space: framing.spaces.get(space?)?,
            line: framing.wall(wall)?.line,
        })
    }

    /// Room between the edge of a bore at an offset and the nearest joist; below zero in it.
    pub fn room(&self, offset: f64, radius: f64) -> f64 {
        from_joist(self.space, self.line.at(offset, 0.0)) - radius
    }
}

/// Bores through plates that come out in a joist over or under them, as indices.
pub fn in_joists(framing: &Framing, ways: &Ways, bores: &[Bore]) -> Vec<usize> {
    let meets = |bore: &Bore| {
        let joists = Joists::beyond(framing, &ways.crossings[bore.crossing]);
        joists.is_some_and(|joists| joists.room(bore.offset, bore.bit.0 / 2.0) < -BIT_LEANS)
    };
    let all = bores.iter().enumerate();
    all.filter(|(_, bore)| meets(bore))
        .map(|(place, _)| place)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::plan::edit::Edit;
    use crate::plan::{
        Above, Closet, ClosetPlace, DropKind, Entry, Floor, LevelId, Lumber, Place, Plan, Role,
        Side, WallId,
    };
    use crate::rules::trade::FINGER;
    use crate::shape::{Direction, Point};
    use crate::units::Mm;

    const GROUND: LevelId = LevelId(1);

    /// Six metres by four under an attic over joists along y, with the closet on its top wall and an
    /// outlet on a partition down from that one, so far from the right.
    fn house(partition: i32) -> Plan {
        let corners = [(0, 0), (6000, 0), (6000, 4000), (0, 4000)].map(|(x, y)| Point::new(x, y));
        let wall = |from, to, role| Edit::AddWall {
            level: GROUND,
            from,
            to,
            lumber: Lumber::TwoByFour,
            role,
        };
        let mut edits: Vec<Edit> = (0..4)
            .map(|at| wall(corners[at], corners[(at + 1) % 4], Role::Exterior))
            .collect();
        let (x, down) = (6000 - partition, 3000);
        edits.push(wall(Point::new(x, 0), Point::new(x, down), Role::Partition));
        let joists = Floor::sawn(Direction::ALONG_Y);
        edits.push(Edit::SetAbove(GROUND, Above::AtticJoists(joists)));
        edits.push(Edit::SetCloset(Some(Closet {
            level: GROUND,
            place: ClosetPlace::Wall {
                wall: WallId(1),
                offset: Mm(1000),
                side: Side::Right,
            },
            entry: Entry::Above,
            panel_height: Mm(1500),
        })));
        let place = Place::Wall {
            wall: WallId(5),
            offset: Mm(1700),
            side: Side::Right,
            height: Mm(400),
        };
        edits.push(Edit::AddDrop {
            level: GROUND,
            kind: DropKind::Data,
            place,
        });
        let made = edits
            .iter()
            .try_fold(Plan::new(), |plan, edit| plan.apply(edit));
        made.unwrap()
    }

    /// By hand: joists are laid out from the right, whose outside is 44.45 beyond 6000: one every 406.4
    /// from there, its faces 19.05 to both sides. The partition at 6000 - 768.35 stands right under the
    /// second one; at 6000 - 565 it stands in the middle between two.
    #[test]
    fn a_plate_right_under_a_joist_is_told_and_one_beside_it_is_not() {
        let told = |partition| {
            let design = Design::of(&house(partition));
            let there = in_joists(&design.framing, &design.ways, &design.bores);
            let wall = |place: &usize| design.ways.crossings[design.bores[*place].crossing].wall;
            there
                .iter()
                .filter(|at| wall(at) == Some(WallId(5)))
                .count()
        };
        assert_eq!(told(768), 1);
        assert_eq!(told(565), 0);
    }

    /// Along the top wall joists cross every bay; no bore comes out nearer to one than a finger.
    #[test]
    fn where_the_bay_allows_bores_come_out_clear_of_joists() {
        let mut plan = house(565);
        for offset in (300..5800).step_by(407) {
            if let Some(closet) = &mut plan.closet
                && let ClosetPlace::Wall { offset: at, .. } = &mut closet.place
            {
                *at = Mm(offset);
            }
            let design = Design::of(&plan);
            let bores = design
                .bores
                .iter()
                .filter(|bore| design.ways.crossings[bore.crossing].wall == Some(WallId(1)));
            for bore in bores {
                let crossing = &design.ways.crossings[bore.crossing];
                let joists = Joists::beyond(&design.framing, crossing).unwrap();
                let room = joists.room(bore.offset, bore.bit.0 / 2.0);
                assert!(room > FINGER - 1e-6, "{offset}: {room}");
            }
        }
    }
}
