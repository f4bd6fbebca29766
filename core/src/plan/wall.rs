//! A wall between two ends on its centre line.

use super::WallId;
use crate::shape::{Point, Segment};
use crate::units::Size;

/// A framed wall, drawn along its centre line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wall {
    /// Its identity; people call it W and this number.
    pub id: WallId,
    /// First end of the centre line.
    pub from: Point,
    /// Second end of the centre line.
    pub to: Point,
    /// What its studs are.
    pub lumber: Lumber,
    /// What it carries.
    pub role: Role,
    /// Stud spacing, on centre.
    pub spacing: Size,
    /// The end the stud layout starts from.
    pub layout: LayoutEnd,
    /// Top plates, usually two.
    pub top_plates: u8,
    /// Bottom plates, usually one.
    pub bottom_plates: u8,
    /// Every stud on layout is two boards nailed together.
    pub doubled: bool,
    /// Nobody drills this wall.
    pub never_drill: bool,
    /// It separates a garage from the dwelling: every bore is sealed.
    pub garage: bool,
}

impl Wall {
    /// A wall of usual framing: studs 16 in on centre from the first end, two top plates, one
    /// bottom plate.
    pub fn new(id: WallId, from: Point, to: Point, lumber: Lumber, role: Role) -> Self {
        Self {
            id,
            from,
            to,
            lumber,
            role,
            spacing: Size::inches(16.0),
            layout: LayoutEnd::First,
            top_plates: 2,
            bottom_plates: 1,
            doubled: false,
            never_drill: false,
            garage: false,
        }
    }

    /// The centre line; `None` only for a wall of no length, which edits refuse.
    pub fn line(&self) -> Option<Segment> {
        Segment::between(self.from.pos(), self.to.pos())
    }

    /// Depth of the framing across the wall.
    pub fn width(&self) -> Size {
        self.lumber.width()
    }

    /// What people call it.
    pub fn label(&self) -> String {
        format!("W{}", self.id.0)
    }
}

/// The board studs and plates are cut from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Lumber {
    /// Nominal 2x4: 1-1/2 by 3-1/2 in dressed.
    TwoByFour,
    /// Nominal 2x6: 1-1/2 by 5-1/2 in dressed.
    TwoBySix,
    /// Nominal 2x8: 1-1/2 by 7-1/4 in dressed.
    TwoByEight,
    /// Another width, on boards 1-1/2 in thick.
    Width(Size),
}

impl Lumber {
    /// Dressed width. PS 20 American Softwood Lumber Standard, size table (dry).
    pub fn width(self) -> Size {
        match self {
            Self::TwoByFour => Size::inches(3.5),
            Self::TwoBySix => Size::inches(5.5),
            Self::TwoByEight => Size::inches(7.25),
            Self::Width(width) => width,
        }
    }

    /// Dressed thickness of a nominal 2-inch board. PS 20, size table (dry).
    pub const THICKNESS: Size = Size::inches(1.5);

    /// What it is called in a list.
    pub fn name(self) -> String {
        match self {
            Self::TwoByFour => String::from("2x4"),
            Self::TwoBySix => String::from("2x6"),
            Self::TwoByEight => String::from("2x8"),
            Self::Width(width) => format!("{:.0} mm", width.0),
        }
    }
}

/// What a wall carries.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// An outside wall; treated as bearing.
    Exterior,
    /// An inside wall that carries load.
    Bearing,
    /// An inside wall that carries nothing.
    Partition,
}

impl Role {
    /// Whether the limits for bearing members hold.
    pub fn is_bearing(self) -> bool {
        !matches!(self, Self::Partition)
    }

    /// The word for it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Exterior => "exterior",
            Self::Bearing => "bearing",
            Self::Partition => "partition",
        }
    }
}

/// The end of a wall its studs are laid out from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LayoutEnd {
    /// The first end drawn.
    First,
    /// The second end drawn.
    Second,
}

/// A face of a wall, seen walking from its first end to its second on a sheet whose y runs down.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// The face on the left hand.
    Left,
    /// The face on the right hand.
    Right,
}

impl Side {
    /// +1 on the right, -1 on the left: the sign of [`Segment::aside_of`].
    pub fn sign(self) -> f64 {
        match self {
            Self::Left => -1.0,
            Self::Right => 1.0,
        }
    }

    /// The face a position is on; on the centre line it is the right one.
    pub fn of(aside: f64) -> Self {
        if aside < 0.0 { Self::Left } else { Self::Right }
    }
}
