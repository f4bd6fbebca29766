//! The closet every cable comes home to.

use super::{LevelId, Plan, Side, WallId};
use crate::shape::{Point, Pos};
use crate::units::Mm;

/// Where the distribution device hangs and how cable comes in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Closet {
    /// The level it is on.
    pub level: LevelId,
    /// Where on that level.
    pub place: ClosetPlace,
    /// Where cable may come in from.
    pub entry: Entry,
    /// Centre of the panel above the finished floor.
    pub panel_height: Mm,
}

/// Where a closet's panel is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClosetPlace {
    /// On a wall.
    Wall {
        /// The wall.
        wall: WallId,
        /// From the wall's first end to the middle of the panel.
        offset: Mm,
        /// The face it hangs on.
        side: Side,
    },
    /// Free-standing at a point, such as a rack.
    Point(Point),
}

/// Where cable may come into the closet from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Entry {
    /// From above only.
    Above,
    /// From below only.
    Below,
    /// From above or below, and sideways through the studs of its wall.
    #[default]
    Either,
}

impl Entry {
    /// The words for it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Above => "from above",
            Self::Below => "from below",
            Self::Either => "from above or below",
        }
    }
}

impl Closet {
    /// Where its panel is on its level, this many millimetres out from the face of its wall if it
    /// hangs on one. `None` only where that wall is gone.
    pub fn in_front(&self, plan: &Plan, off: f64) -> Option<Pos> {
        match self.place {
            ClosetPlace::Point(at) => Some(at.pos()),
            ClosetPlace::Wall { wall, offset, side } => {
                let (_, wall) = plan.wall(wall)?;
                let aside = side.sign() * (wall.width().0 / 2.0 + off);
                Some(wall.line()?.at(offset.f64(), aside))
            }
        }
    }

    /// The wall its panel hangs on, if it hangs on one.
    pub fn on_wall(&self) -> Option<WallId> {
        match self.place {
            ClosetPlace::Wall { wall, .. } => Some(wall),
            ClosetPlace::Point(_) => None,
        }
    }
}
