//! From the plan to wood: studs, plates, headers, bays, joists and the strips between them.
//!
//! A pure function of the plan. Positions along a wall are millimetres from its first end on the
//! centre line; heights are millimetres above the level's finished floor. Nothing here knows a
//! cable.

mod bare;
mod bay;
mod doubled;
mod end;
mod hang;
mod headers;
mod joints;
mod nailers;
mod outline;
mod outside;
mod partly;
mod room;
mod space;
mod wall;

pub use bay::{Bay, BayKind};
pub use end::{pin_words, wall_words};
pub use hang::{Hang, Meets, hang_near, hang_of, hang_words};
pub use headers::header_depth;
pub(crate) use joints::runs_through;
pub use joints::{Joint, JointKind, WallEnds};
pub use outline::Outline;
pub(crate) use outline::encloses;
pub use outside::{OutsideHole, is_in_gable, outside_height};
#[cfg(test)]
pub(crate) use partly::STEP;
pub use room::room_at;
pub use space::{Part, Space, SpaceKind, Strip};
pub use wall::{Header, Stud, StudKind, WallFraming};

use serde::{Deserialize, Serialize};

use crate::plan::{Drop, LevelId, Place, Plan, Room, WallId};
use crate::shape::Pos;

/// The framing of a whole house.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Framing {
    /// One entry a level, from the lowest up, in the order of the plan.
    pub levels: Vec<LevelFraming>,
    /// The spaces cable can run in, from the lowest up.
    pub spaces: Vec<Space>,
}

/// The framing of one level.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LevelFraming {
    /// Which level.
    pub level: LevelId,
    /// Its finished floor above that of the lowest level, millimetres.
    pub floor: f64,
    /// Floor to ceiling, millimetres.
    pub ceiling: f64,
    /// What its outside walls enclose.
    pub outline: Outline,
    /// Its walls, in the order of the plan.
    pub walls: Vec<WallFraming>,
    /// The space over its ceiling, as an index into [`Framing::spaces`]; `None` where there is no way.
    pub above: Option<usize>,
    /// The space under its floor, likewise.
    pub below: Option<usize>,
    /// The space over the part of it that the next level does not stand on, likewise.
    pub beside: Option<usize>,
    /// The rafter bays over its sloped ceiling, likewise.
    pub rafters: Option<usize>,
    /// A place near the middle of the part that the next level does not stand on; `None` where the next level stands on all of it.
    pub bare: Option<Pos>,
}

impl Framing {
    /// Frames a plan: its levels decide, and nothing else of it. Never fails: what cannot be framed is
    /// left out and found by the checks.
    pub fn of(plan: &Plan) -> Self {
        let mut floor = 0.0;
        let mut framing = Framing::default();
        let mut outlines = plan.levels.iter().map(Outline::of).peekable();
        for (place, level) in plan.levels.iter().enumerate() {
            let outline = outlines.next().unwrap_or_default();
            let below = space::under(plan, place, floor, &outline);
            floor += below.as_ref().map_or(0.0, |space| space.lift);
            let shared = below.is_some() && place > 0;
            let below = below.map(|found| match framing.levels.last().and_then(|l| l.above) {
                Some(known) if shared => known,
                _ => framing.keep(found.space),
            });
            let walls = wall::frame(level);
            let next = outlines.peek();
            let bare = next.and_then(|next| partly::bare(level, &outline, next));
            let next = next.filter(|_| bare.is_some());
            let over = space::over(plan, place, floor, &outline);
            let above = over.map(|space| framing.keep(space.only_over(next)));
            let beside = next.and_then(|next| space::beside(level, floor, &outline, next));
            let beside = beside.map(|space| framing.keep(space));
            let rafters = space::rafters(level, floor, &outline);
            let rafters = rafters.map(|space| framing.keep(space));
            let ceiling = level.ceiling.f64();
            let level = level.id;
            framing.levels.push(LevelFraming {
                level,
                floor,
                ceiling,
                outline,
                walls,
                above,
                below,
                beside,
                rafters,
                bare,
            });
            floor += ceiling;
        }
        framing
    }

    fn keep(&mut self, space: Space) -> usize {
        self.spaces.push(space);
        self.spaces.len() - 1
    }

    /// The space over a place of a level, if cable can run in one there.
    pub fn space_over(&self, level: &LevelFraming, at: Pos) -> Option<usize> {
        let over = [level.above, level.beside].into_iter().flatten();
        let covers = |space: &usize| self.spaces.get(*space).is_some_and(|s| s.covers(at));
        over.into_iter().find(covers)
    }

    /// The framing of a level.
    pub fn level(&self, id: LevelId) -> Option<&LevelFraming> {
        self.levels.iter().find(|level| level.level == id)
    }

    /// The framing of a wall.
    pub fn wall(&self, id: WallId) -> Option<&WallFraming> {
        self.levels.iter().find_map(|level| level.wall(id))
    }
}

impl LevelFraming {
    /// Whether a space lies over it, or over a part of it.
    pub fn is_under(&self, space: usize) -> bool {
        [self.above, self.beside, self.rafters].contains(&Some(space))
    }

    /// The framing of one of its walls.
    pub fn wall(&self, id: WallId) -> Option<&WallFraming> {
        self.walls.iter().find(|wall| wall.wall == id)
    }
}

/// The room the closet is in; `None` without a closet, and where no room is named.
pub fn closet_room(plan: &Plan) -> Option<&Room> {
    let closet = plan.closet.as_ref()?;
    room_at(plan.level(closet.level)?, closet.in_front(plan, 100.0)?)
}

/// The room a drop is in; `None` outdoors, adrift, and on a level without rooms.
pub fn drop_room<'p>(plan: &'p Plan, drop: &Drop) -> Option<&'p Room> {
    if matches!(drop.place, Place::Outside { .. } | Place::Adrift { .. }) {
        return None;
    }
    // A box in the face of its own wall looks into the room from a hand's breadth inside it.
    let at = drop.place.in_front(plan, 100.0)?;
    room_at(plan.level(drop.level)?, at)
}
