//! The tools: what each makes of a gesture.
//!
//! A tool is a pure function from a session and a gesture to an [`Answer`]; it never changes the
//! plan itself.

mod closet;
mod drop;
mod joists;
mod keep_out;
mod known;
mod level_up;
mod move_drawing;
mod moving;
mod never_drill;
mod opening;
mod pin;
mod power_run;
mod room;
mod select;
mod square_up;
mod stretch;
mod wall;

use strum::VariantArray;

use super::answer::Answer;
use super::{Draft, Gesture, Reach, Session};
use crate::plan::Sheet;
use crate::shape::Point;

/// A tool of the shelf.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, VariantArray)]
pub enum Tool {
    /// Choose things and move them.
    #[default]
    Select,
    /// Draw along something whose length is known, and type the length.
    KnownDimension,
    /// Tap the four corners of something rectangular on a photo, and type its size.
    SquareUp,
    /// Draw along a line that should lie level or plumb.
    LevelUp,
    /// Move the drawing under the plan.
    MoveDrawing,
    /// Trace walls.
    Wall,
    /// Put doors, windows and cased openings in walls.
    Opening,
    /// Name rooms.
    Room,
    /// State which way joists or trusses run.
    Joists,
    /// Place drops.
    Drop,
    /// Place the closet.
    Closet,
    /// Keep a place clear.
    KeepOut,
    /// Mark a wall nobody drills.
    NeverDrill,
    /// Draw power cable by others.
    PowerRun,
    /// Say where a cable must go by.
    Pin,
}

impl Tool {
    /// Every tool.
    pub const ALL: [Self; Self::VARIANTS.len()] = every!(Tool);

    /// The words under its picture.
    pub fn name(self) -> &'static str {
        match self {
            Self::Select => "Choose",
            Self::KnownDimension => "Known length",
            Self::SquareUp => "Square up",
            Self::LevelUp => "Level up",
            Self::MoveDrawing => "Move drawing",
            Self::Wall => "Wall",
            Self::Opening => "Door or window",
            Self::Room => "Room name",
            Self::Joists => "Joist direction",
            Self::Drop => "Drop",
            Self::Closet => "Closet",
            Self::KeepOut => "Keep clear",
            Self::NeverDrill => "Never drill",
            Self::PowerRun => "Power run",
            Self::Pin => "Pin a way",
        }
    }
}

/// What tools of the drawing say while there is none.
pub(super) const NO_DRAWING: &str =
    "There is no drawing on this level. Open one, drop it here, or paste it.";

/// What tools that need a wall say away from any.
pub(super) const NO_WALL: &str = "There is no wall there. Tap nearer to a wall.";

/// What a typed distance needs.
const NOT_ON_WALL: &str = "A distance is typed along a wall. Point at a wall first.";

/// What the tool in hand makes of a gesture.
pub(super) fn answer(session: &Session, gesture: &Gesture<Point>, reach: Reach) -> Answer {
    match session.tool {
        Tool::Select => select::answer(session, gesture, reach),
        Tool::KnownDimension => known::answer(session, gesture),
        Tool::SquareUp => square_up::answer(session, gesture),
        Tool::LevelUp => level_up::answer(session, gesture),
        Tool::MoveDrawing => move_drawing::answer(session, gesture),
        Tool::Wall => wall::answer(session, gesture, reach),
        Tool::Opening => opening::answer(session, gesture, reach),
        Tool::Room => room::answer(session, gesture, reach),
        Tool::Joists => joists::answer(session, gesture),
        Tool::Drop => drop::answer(session, gesture, reach),
        Tool::Closet => closet::answer(session, gesture, reach),
        Tool::KeepOut => keep_out::answer(session, gesture, reach),
        Tool::NeverDrill => never_drill::answer(session, gesture, reach),
        Tool::PowerRun => power_run::answer(session, gesture, reach),
        Tool::Pin => pin::answer(session, gesture, reach),
    }
}

/// Whether a drag pressed here means something to the tool in hand.
pub(super) fn takes_drag(session: &Session, from: Point, reach: Reach) -> bool {
    match session.tool {
        Tool::Wall | Tool::Joists | Tool::KeepOut | Tool::PowerRun => true,
        Tool::KnownDimension | Tool::LevelUp | Tool::MoveDrawing => drawing(session).is_some(),
        Tool::NeverDrill | Tool::SquareUp | Tool::Pin => false,
        Tool::Select | Tool::Opening | Tool::Room | Tool::Drop | Tool::Closet => {
            moving::grip(session, from, reach).is_some()
        }
    }
}

/// The answer to a confirmed text, which is not empty.
pub(super) fn typed(session: &Session, text: &str) -> Answer {
    match (&session.draft, session.tool) {
        (Some(Draft::Walls { points, to }), _) => wall::typed(session, points, *to, text),
        (Some(Draft::Room { at }), _) => room::typed(session, *at, text),
        (Some(Draft::Corners { points, .. }), _) => square_up::typed(session, points, text),
        (Some(Draft::Stretch { from, to, .. }), Tool::KnownDimension) => {
            known::typed(session, *from, *to, text)
        }
        (_, Tool::Opening) => opening::typed(session, text),
        (Some(Draft::Drop { kind, place }), _) => drop::typed(session, *kind, *place, text),
        (Some(Draft::Closet(closet)), _) => closet::typed(session, *closet, text),
        (Some(Draft::AlongWall { wall, from, to }), Tool::PowerRun) => {
            power_run::typed(session, *wall, *from, *to, text)
        }
        _ => Answer {
            notice: Some(super::Notice::refused(untyped(session.tool), None)),
            ..Answer::unmoved(session)
        },
    }
}

/// What to do before a length can be typed.
fn untyped(tool: Tool) -> &'static str {
    match tool {
        Tool::Wall => "Tap where the wall begins, then type its length.",
        Tool::KnownDimension => "Draw along something on the drawing, then type its length.",
        Tool::SquareUp => "Tap the four corners first, then type width by height.",
        Tool::Room => "Tap where the name goes, then type it.",
        Tool::Drop | Tool::Closet => "Point at a wall, then type how far from its end.",
        Tool::PowerRun => "Tap a wall where the run begins, then type how long it is.",
        _ => "A length is typed while drawing. Take a tool that draws, or change it in the slip.",
    }
}

/// The answer to the text typed so far, where it shows at once.
pub(super) fn typing(session: &Session) -> Option<Answer> {
    match &session.draft {
        Some(Draft::Walls {
            points,
            to: Some(to),
        }) => Some(wall::typing(session, points, *to)),
        _ => None,
    }
}

/// What is kept of something begun when it is let go of on purpose.
pub(super) fn finishing(session: &Session) -> Option<Answer> {
    match &session.draft {
        Some(Draft::Chain { points, .. }) => power_run::finishing(session, points),
        _ => None,
    }
}

/// The sheet of the shown level, if there is a drawing on it.
fn drawing(session: &Session) -> Option<&Sheet> {
    let sheet = session.shown_level().map(|level| &level.sheet);
    sheet.filter(|sheet| sheet.scan.is_some())
}

/// Declines for want of a drawing, and lets go.
fn no_drawing(session: &Session, at: Point) -> Answer {
    dropped(session, NO_DRAWING, at)
}

/// Declines and lets go of what is begun.
fn dropped(session: &Session, text: &str, at: Point) -> Answer {
    Answer {
        draft: None,
        ..Answer::declined(session, text, at)
    }
}
