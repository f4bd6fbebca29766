//! What a person wants, told apart from how they said it.

use std::rc::Rc;

use super::{Choice, Gesture, Hand, Reach, Step, Tool};
use crate::design::Design;
use crate::plan::edit::Edit;
use crate::plan::{LevelId, Plan};
use crate::shape::Point;

/// One thing a person wants of the session. Where the paper lies on the screen is no intent; that
/// is a [`View`](super::View) and no business of the plan.
#[derive(Clone, Debug, PartialEq)]
pub enum Intent {
    /// Change the plan, from a field of the slip or a list.
    Edit(Edit),
    /// Take the last change back, or let go of what is only begun.
    Undo,
    /// Make the last undone change again.
    Redo,
    /// Enter a step; its first tool comes to the hand.
    GoTo(Step),
    /// Take a tool into the hand.
    Take(Tool),
    /// A gesture on the sheet, in plan points of the shown level.
    Gesture(Gesture<Point>, Reach),
    /// Choose something, or nothing.
    Choose(Option<Choice>),
    /// Show another level.
    ShowLevel(LevelId),
    /// The text so far of a length being typed while drawing; shown live where it reads.
    Typing(String),
    /// A text typed and confirmed: the length of a wall, of a known dimension or of a power run, the
    /// width of an opening, how far from the nearer end of its wall a drop or the closet goes, or
    /// the name of a room just placed. Nothing typed lets go, as a second tap does.
    Typed(String),
    /// Escape: lets go of what is begun, then of what is chosen, then of the tool.
    LetGo,
    /// Remove what is chosen.
    Delete,
    /// Move what is chosen by one small step (1 in or 25 mm), or a large one (1 ft or 300 mm).
    Nudge {
        /// Where to, on the sheet.
        heading: Heading,
        /// A large step.
        large: bool,
    },
    /// Change what the hand keeps from one use of a tool to the next.
    SetHand(Hand),
    /// Turn the drawing a quarter clockwise about its middle.
    QuarterTurn,
    /// Go back to a named moment of this job, as one step that can be undone; with what it is called.
    Return(Rc<Plan>, String),
    /// Sheets are printed as they lie on the table, or a link is handed on: numbers of holes hold from
    /// now on.
    KeepNumbers,
    /// Make a plan that came by link one's own copy.
    TakeOver,
    /// Put the notice away.
    DismissNotice,
    /// A better design of this plan came home. It is kept for when the plan comes back, and shown if
    /// what is on the table is built as the plan says; nothing else changes.
    Improved(Rc<Plan>, Rc<Design>),
}

impl Intent {
    /// Whether it asks for a change of the plan, which a plan that came by link does not allow.
    /// Gestures are not among them: on such a plan they only choose.
    pub(super) fn changes_the_plan(&self) -> bool {
        matches!(
            self,
            Self::Edit(_)
                | Self::Undo
                | Self::Redo
                | Self::Typed(_)
                | Self::Delete
                | Self::Nudge { .. }
                | Self::QuarterTurn
                | Self::Return(..)
                | Self::KeepNumbers
        )
    }

    /// Whether it comes by itself as the hand moves, so that a sentence being read stays.
    pub(super) fn is_fleeting(&self) -> bool {
        match self {
            Self::Typing(_) | Self::Improved(..) => true,
            Self::Gesture(gesture, _) => matches!(
                gesture,
                Gesture::Hover(_) | Gesture::Left | Gesture::DragMoved { .. }
            ),
            _ => false,
        }
    }
}

/// A direction on the sheet for a step by key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Heading {
    /// Towards the top of the sheet.
    Up,
    /// Towards the foot of the sheet.
    Down,
    /// To the left.
    Left,
    /// To the right.
    Right,
}
