//! Drops: the places cable is brought to.

use strum::VariantArray;

use super::{Cable, CableKindId, DropId, LevelId, Plan, Side, WallId};
use crate::rules::trade::{BOX_DEPTH, BRACKET_DEPTH, GANG, NEXT_GANG};
use crate::rules::{RuleId, RuleSet};
use crate::shape::{Direction, Point, Pos};
use crate::units::Mm;

/// Width and height of a box of so many gangs, millimetres.
pub fn box_outline(gangs: u8) -> (f64, f64) {
    let further = f64::from(gangs.max(1) - 1);
    (GANG.0 + NEXT_GANG * further, GANG.1)
}

/// A place cable is brought to, with its box and its cables.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drop {
    /// Its identity.
    pub id: DropId,
    /// The letter of its label, fixed when it was placed.
    pub letter: char,
    /// The number of its label, fixed when it was placed and never reused.
    pub number: u32,
    /// What it is.
    pub kind: DropKind,
    /// The level it belongs to.
    pub level: LevelId,
    /// Where it is.
    pub place: Place,
    /// Its cables, at least one.
    pub cables: Vec<Cable>,
    /// The box it gets.
    pub fixing: BoxKind,
    /// Gangs of the box, one to four.
    pub gangs: u8,
    /// Where a camera looks; `None` straight out from its face.
    pub aim: Option<Direction>,
    /// Outdoors: outdoor cable, sealed bore.
    pub outdoors: bool,
    /// BoxKind hidden behind the board until trim-out.
    pub buried: bool,
    /// Pulled and labelled, left for later.
    pub spare: bool,
    /// A word to the crew; may be empty.
    pub note: String,
}

impl Drop {
    /// What it is called on the plan: D8, A2, C20.
    pub fn label(&self) -> String {
        format!("{}{}", self.letter, self.number)
    }

    /// What one of its cables is called everywhere: on the plan, the label, the lists and the panel.
    pub fn cable_label(&self, cable: &Cable) -> String {
        format!("{}{}", self.label(), cable.letter)
    }

    /// Width and height of its box, millimetres. What is left without a box takes up as much once its
    /// plate is on.
    pub fn outline(&self) -> (f64, f64) {
        box_outline(self.gangs)
    }

    /// Height above its level's finished floor; `None` for one on the ceiling or adrift.
    pub fn height(&self) -> Option<Mm> {
        match self.place {
            Place::Wall { height, .. } | Place::Outside { height, .. } => Some(height),
            Place::Ceiling { .. } | Place::Adrift { .. } => None,
        }
    }
}

/// What a drop is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, VariantArray)]
pub enum DropKind {
    /// Data outlet.
    Data,
    /// Television point.
    Television,
    /// Access point on the ceiling.
    CeilingAccessPoint,
    /// Access point on a wall.
    WallAccessPoint,
    /// Camera, outside or in.
    Camera,
    /// Doorbell.
    Doorbell,
    /// Anything else.
    Other,
}

impl DropKind {
    /// The rule that says how much slack a drop of this kind gets.
    pub fn slack_rule(self) -> RuleId {
        match self {
            Self::Television => RuleId::SlackTelevision,
            Self::CeilingAccessPoint | Self::WallAccessPoint => RuleId::SlackAccessPoint,
            Self::Camera => RuleId::SlackCamera,
            Self::Data | Self::Doorbell | Self::Other => RuleId::SlackBox,
        }
    }

    /// Slack of a cable to a drop of this kind, at both its ends together.
    pub fn slack(self, rules: &RuleSet) -> Mm {
        rules.length(RuleId::SlackCloset) + rules.length(self.slack_rule())
    }

    /// Every kind, in the order the shelf shows them.
    pub const ALL: [Self; Self::VARIANTS.len()] = every!(DropKind);

    /// The letter a new drop of this kind is labelled with.
    pub fn letter(self) -> char {
        match self {
            Self::Data => 'D',
            Self::Television => 'T',
            Self::CeilingAccessPoint | Self::WallAccessPoint => 'A',
            Self::Camera => 'C',
            Self::Doorbell => 'B',
            Self::Other => 'X',
        }
    }

    /// The words for it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Data => "outlet",
            Self::Television => "television",
            Self::CeilingAccessPoint => "ceiling access point",
            Self::WallAccessPoint => "wall access point",
            Self::Camera => "camera",
            Self::Doorbell => "doorbell",
            Self::Other => "other drop",
        }
    }

    /// The cables a new drop of this kind starts with.
    pub fn usual_cables(self) -> &'static [CableKindId] {
        match self {
            Self::Data => &[CableKindId::CAT6, CableKindId::CAT6],
            Self::Television => &[CableKindId::CAT6, CableKindId::COAX],
            Self::Camera => &[CableKindId::CAT6_OUTDOOR],
            _ => &[CableKindId::CAT6],
        }
    }

    /// Whether it is mounted outdoors as a rule.
    pub fn is_outdoors(self) -> bool {
        matches!(self, Self::Camera | Self::Doorbell)
    }

    /// The box a new drop of this kind gets as a rule.
    pub fn usual_fixing(self) -> BoxKind {
        match self {
            Self::Data | Self::Television | Self::WallAccessPoint => BoxKind::Bracket,
            Self::CeilingAccessPoint => BoxKind::ByOthers,
            Self::Camera | Self::Doorbell | Self::Other => BoxKind::None,
        }
    }
}

/// Where a drop is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// On the inside face of a wall.
    Wall {
        /// The wall.
        wall: WallId,
        /// From the wall's first end to the centre of the box.
        offset: Mm,
        /// The face.
        side: Side,
        /// Centre of the box above the finished floor.
        height: Mm,
    },
    /// On the ceiling.
    Ceiling {
        /// Centre of the box.
        at: Point,
    },
    /// Its wall was taken away; it waits to be put on another.
    Adrift {
        /// Where it was.
        at: Point,
    },
    /// On the outside face of a wall.
    Outside {
        /// The wall.
        wall: WallId,
        /// From the wall's first end.
        offset: Mm,
        /// The face, looking out.
        side: Side,
        /// Above the finished floor inside.
        height: Mm,
    },
}

impl Place {
    /// Where it is on its level: on the face of its wall, on the ceiling, or where it was left
    /// adrift. `None` only where its wall is gone.
    pub fn position(&self, plan: &Plan) -> Option<Pos> {
        self.in_front(plan, 0.0)
    }

    /// The same, this many millimetres out from the face of its wall, if it is on one.
    pub fn in_front(&self, plan: &Plan, off: f64) -> Option<Pos> {
        match *self {
            Self::Ceiling { at } | Self::Adrift { at } => Some(at.pos()),
            Self::Wall {
                wall, offset, side, ..
            }
            | Self::Outside {
                wall, offset, side, ..
            } => {
                let (_, wall) = plan.wall(wall)?;
                let aside = side.sign() * (wall.width().0 / 2.0 + off);
                Some(wall.line()?.at(offset.f64(), aside))
            }
        }
    }

    /// The wall it is on and the offset from that wall's first end; `None` on the
    /// ceiling and adrift.
    pub fn on_wall(&self) -> Option<(WallId, Mm)> {
        match *self {
            Self::Wall { wall, offset, .. } | Self::Outside { wall, offset, .. } => {
                Some((wall, offset))
            }
            Self::Ceiling { .. } | Self::Adrift { .. } => None,
        }
    }
}

/// The box or bracket a drop gets.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum BoxKind {
    /// A low-voltage bracket of ours.
    Bracket,
    /// A box set by another trade.
    ByOthers,
    /// None: the cable is left coiled.
    None,
}

impl BoxKind {
    /// The words for it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Bracket => "low-voltage bracket",
            Self::ByOthers => "box by others",
            Self::None => "no box",
        }
    }

    /// How deep it is in its wall with what is behind its plate, millimetres.
    pub fn depth(self) -> f64 {
        match self {
            Self::Bracket => BRACKET_DEPTH,
            Self::ByOthers => BOX_DEPTH,
            Self::None => 0.0,
        }
    }
}
