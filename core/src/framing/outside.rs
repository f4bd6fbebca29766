//! Where a hole out to an outside face lies, and how high one may lie to come out of a bay.

use super::{Framing, SpaceKind, WallFraming};
use crate::plan::{LevelId, OpeningId, Plan, WallId};
use crate::rules::RuleId;
use crate::rules::trade::{CLEAR_OF_BAY, SOFFIT, UNDER_PLATES};
use crate::units::Mm;

/// Heights are whole millimetres and limits whole inches: what is this near to the top of the
/// plates is over them.
const NEAR: f64 = 1.0;
/// A wall is at the eaves where it lies more across the trusses than along them: the cosine of 45 degrees.
const ACROSS: f64 = 0.707;

/// What a hole out to an outside face goes through besides sheathing and siding.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OutsideHole {
    /// Nothing: it comes out of a bay.
    Bay,
    /// Nothing: it comes out over the plates, from an attic, through the soffit of the eaves.
    Soffit,
    /// Nothing: it comes out of an attic between the studs of a gable.
    Gable,
    /// The foot of a gable: the bottom chord of its truss, or the last joist.
    Chord,
    /// The ends of trusses or joists over the plates, where the eaves do not reach out far enough for a soffit.
    Heels,
    /// The header over this opening.
    Header(OpeningId),
    /// The top plates.
    TopPlates,
    /// The bottom plates, or what is under them.
    BottomPlates,
    /// The rim of the floor above, or the roof's framing where it is closed.
    Rim,
}

impl OutsideHole {
    /// Where a hole at this offset and height above the level's floor lies, both millimetres.
    pub fn at(
        plan: &Plan,
        framing: &Framing,
        level: LevelId,
        wall: &WallFraming,
        offset: f64,
        height: f64,
    ) -> Self {
        if height >= wall.height - NEAR {
            return match roof(plan, framing, level, wall, offset) {
                Roof::Gable { foot } if height < foot => Self::Chord,
                Roof::Gable { .. } => Self::Gable,
                Roof::Soffit => Self::Soffit,
                Roof::Flush => Self::Heels,
                Roof::None => Self::Rim,
            };
        }
        let header = wall.headers.iter().find(|header| {
            header.from - CLEAR_OF_BAY < offset
                && offset < header.to + CLEAR_OF_BAY
                && header.bottom - CLEAR_OF_BAY < height
                && height < header.top + CLEAR_OF_BAY
        });
        match header {
            _ if height > wall.top - CLEAR_OF_BAY => Self::TopPlates,
            _ if height < wall.bottom + CLEAR_OF_BAY => Self::BottomPlates,
            Some(header) => Self::Header(header.opening),
            None => Self::Bay,
        }
    }

    /// Whether it comes into the attic over the plates, built as it is drawn or not.
    pub(crate) fn is_over_plates(self) -> bool {
        matches!(self, Self::Soffit | Self::Gable | Self::Chord | Self::Heels)
    }
}

/// What is over the plates of an outside wall, seen from outdoors.
enum Roof {
    /// Eaves with a soffit.
    Soffit,
    /// Eaves that hardly reach out.
    Flush,
    /// A gable, free of wood over this height.
    Gable { foot: f64 },
    /// No attic.
    None,
}

/// Trusses and rafters rest on the walls that lie across them: those have the eaves. Over a wall along them
/// stands a gable. A hip roof, which has eaves all round, is not modelled.
fn roof(plan: &Plan, framing: &Framing, level: LevelId, wall: &WallFraming, offset: f64) -> Roof {
    let over = framing
        .level(level)
        .and_then(|level| framing.space_over(level, wall.line.at(offset, 0.0)));
    let space = over.and_then(|over| framing.spaces.get(over));
    let is_attic = |kind| matches!(kind, SpaceKind::AtticTrusses | SpaceKind::AtticJoists);
    let Some(space) = space.filter(|space| is_attic(space.kind)) else {
        return Roof::None;
    };
    if wall.line.along.dot(space.along).abs() > ACROSS {
        let foot = wall.height + space.depth + CLEAR_OF_BAY;
        return Roof::Gable { foot };
    }
    match plan.rules.value(RuleId::EaveOverhang) < SOFFIT {
        true => Roof::Flush,
        false => Roof::Soffit,
    }
}

/// Whether a hole over the plates of a wall is in a gable, not under eaves.
pub fn is_in_gable(plan: &Plan, framing: &Framing, wall: WallId, offset: f64) -> bool {
    of_level(framing, wall).is_some_and(|(level, framed)| {
        matches!(
            roof(plan, framing, level, framed, offset),
            Roof::Gable { .. }
        )
    })
}

/// A wall with the level it is of.
fn of_level(framing: &Framing, wall: WallId) -> Option<(LevelId, &WallFraming)> {
    let mut levels = framing.levels.iter();
    levels.find_map(|level| Some((level.level, level.wall(wall)?)))
}

/// The height nearest to a wanted one at which a hole comes out of a bay under the top plates of a
/// wall, or over them where there is an attic: through the soffit of the eaves, or between the studs of a
/// gable. Whole millimetres above the level's finished floor.
pub fn outside_height(plan: &Plan, framing: &Framing, wall: WallId, offset: f64, wanted: Mm) -> Mm {
    let Some((level, framed)) = of_level(framing, wall) else {
        return wanted;
    };
    let top = framed.top;
    if wanted.f64() <= top - CLEAR_OF_BAY {
        return wanted;
    }
    let lowered = Mm::rounded(top - UNDER_PLATES);
    match roof(plan, framing, level, framed, offset) {
        Roof::Soffit if wanted.f64() >= framed.height - NEAR => wanted,
        Roof::Gable { foot } if wanted.f64() >= foot => wanted,
        Roof::Gable { foot } if foot - wanted.f64() < (wanted - lowered).f64() => {
            Mm::rounded(foot.ceil())
        }
        _ => lowered,
    }
}
