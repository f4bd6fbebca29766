//! What the hand keeps from one use of a tool to the next.

use crate::design::Design;
use crate::plan::{DropKind, KeepOutReason, Lumber, OpeningKind, Role};
use crate::rules::trade::{HEAD, OPENINGS, SILL};
use crate::units::{Mm, Size};

/// Settings that stay in the hand. They belong to the person at work and are not part of the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Hand {
    /// Lumber of the next wall.
    pub lumber: Lumber,
    /// Role of the next wall.
    pub role: Role,
    /// Kind of the next drop.
    pub drop: DropKind,
    /// Kind of the next opening. Use [`Hand::with_opening`] to change it with its usual sizes.
    pub opening: OpeningKind,
    /// Width of the next opening.
    pub opening_width: Mm,
    /// Sill of the next opening above the finished floor; zero for doors and cased openings.
    pub opening_sill: Mm,
    /// Head of the next opening above the finished floor.
    pub opening_head: Mm,
    /// Why the next keep-out stays clear.
    pub keep_out: KeepOutReason,
    /// Height of the next power run in a wall, above the finished floor.
    pub power_height: Mm,
    /// The last known dimension as it was typed, offered again; may be empty.
    pub known_text: String,
}

impl Hand {
    /// This hand with a wall in it; the lumber that is usual for the role comes along: 2x6 for an
    /// outside wall, 2x4 inside (common practice, no source).
    pub fn with_role(self, role: Role) -> Self {
        let lumber = match role {
            Role::Exterior => Lumber::TwoBySix,
            Role::Bearing | Role::Partition => Lumber::TwoByFour,
        };
        Self {
            role,
            lumber,
            ..self
        }
    }

    /// A hand for the walls a plan still wants: outside walls until they enclose something, then
    /// partitions.
    pub(super) fn suited(design: &Design) -> Self {
        let levels = &design.framing.levels;
        match levels.iter().any(|level| level.outline.closed) {
            true => Self::default().with_role(Role::Partition),
            false => Self::default(),
        }
    }

    /// This hand with another kind of opening and its usual sizes (`rules::trade`).
    pub fn with_opening(self, opening: OpeningKind) -> Self {
        let [door, window, cased] = OPENINGS;
        let (width, sill) = match opening {
            OpeningKind::Door => (door, Size(0.0)),
            OpeningKind::Window => (window, SILL),
            OpeningKind::Cased => (cased, Size(0.0)),
        };
        Self {
            opening,
            opening_width: Mm::rounded(width.0),
            opening_sill: Mm::rounded(sill.0),
            opening_head: Mm::rounded(HEAD.0),
            ..self
        }
    }
}

impl Default for Hand {
    /// Outside walls of 2x6 first, an outlet, a door.
    fn default() -> Self {
        Self {
            lumber: Lumber::TwoBySix,
            role: Role::Exterior,
            drop: DropKind::Data,
            opening: OpeningKind::Door,
            opening_width: Mm(0),
            opening_sill: Mm(0),
            opening_head: Mm(0),
            keep_out: KeepOutReason::Duct,
            power_height: Mm::inches(18.0),
            known_text: String::new(),
        }
        .with_opening(OpeningKind::Door)
    }
}
