//! What a hand does on the sheet, told apart from the pointer events it came from.
//!
//! [`Hands`](super::Hands) makes gestures of raw events; a [`View`](super::View) turns their
//! screen points into plan points.

use super::ScreenPoint;
use crate::units::Mm;

/// What a hand does on the sheet, in points of kind `P`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Gesture<P> {
    /// The pointer is over a place without pressing.
    Hover(P),
    /// The pointer left the sheet.
    Left,
    /// A short press.
    Tap(P),
    /// A long press, or a press of the second button.
    LongPress(P),
    /// A drag has gone far enough to be one.
    DragBegan {
        /// Where it was pressed.
        from: P,
        /// Where the pointer is.
        to: P,
    },
    /// The drag goes on.
    DragMoved {
        /// Where it was pressed.
        from: P,
        /// Where the pointer is.
        to: P,
    },
    /// The pointer was lifted.
    DragEnded {
        /// Where it was pressed.
        from: P,
        /// Where it was lifted.
        to: P,
    },
    /// The drag came to nothing: a second finger, the system, Escape.
    DragCancelled,
}

impl<P: Copy> Gesture<P> {
    /// The same gesture in other points.
    pub fn map<Q>(&self, change: impl Fn(P) -> Q) -> Gesture<Q> {
        match *self {
            Self::Hover(at) => Gesture::Hover(change(at)),
            Self::Left => Gesture::Left,
            Self::Tap(at) => Gesture::Tap(change(at)),
            Self::LongPress(at) => Gesture::LongPress(change(at)),
            Self::DragBegan { from, to } => Gesture::DragBegan {
                from: change(from),
                to: change(to),
            },
            Self::DragMoved { from, to } => Gesture::DragMoved {
                from: change(from),
                to: change(to),
            },
            Self::DragEnded { from, to } => Gesture::DragEnded {
                from: change(from),
                to: change(to),
            },
            Self::DragCancelled => Gesture::DragCancelled,
        }
    }

    /// Where a drag was pressed and where it is, if it is one that goes on or has just ended.
    pub fn stretch(&self) -> Option<(P, P)> {
        match *self {
            Self::DragBegan { from, to }
            | Self::DragMoved { from, to }
            | Self::DragEnded { from, to } => Some((from, to)),
            _ => None,
        }
    }
}

/// How far a gesture reaches around its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reach {
    /// Things within this are taken to be meant; at least 1 mm.
    pub around: Mm,
    /// Snapping is off while this holds, for as long as a key is held.
    pub free: bool,
}

/// One raw pointer event.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pointer {
    /// The browser's number for the pointer.
    pub id: i32,
    /// Where it is.
    pub at: ScreenPoint,
    /// What it is.
    pub kind: PointerKind,
    /// Pressed buttons as the browser counts them: 1 first, 2 second, 4 middle.
    pub buttons: u16,
    /// When, in milliseconds of any clock that does not run backwards.
    pub time_ms: f64,
}

impl Pointer {
    /// Whether the second button is pressed.
    pub fn is_second(&self) -> bool {
        self.buttons & 2 != 0
    }

    /// Whether the middle button is pressed.
    pub fn is_middle(&self) -> bool {
        self.buttons & 4 != 0
    }
}

/// What a pointer is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PointerKind {
    /// A mouse.
    Mouse,
    /// A finger.
    Touch,
    /// A pen.
    Pen,
}

impl PointerKind {
    /// How far it may wander while pressed and still be a tap, in pixels.
    pub fn slop(self) -> f64 {
        match self {
            Self::Mouse => 3.0,
            Self::Pen => 5.0,
            Self::Touch => 8.0,
        }
    }

    /// How far around it things are taken to be meant, in pixels; see
    /// [`View::reach`](super::View::reach).
    pub fn reach(self) -> f64 {
        match self {
            Self::Mouse => 8.0,
            Self::Pen => 12.0,
            Self::Touch => 20.0,
        }
    }

    /// Whether resting in one place is a long press. A mouse has a second button for that, and a
    /// slow click stays a click.
    pub fn has_long_press(self) -> bool {
        self != Self::Mouse
    }
}

/// What happened to a pointer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Signal {
    /// It was pressed.
    Down(Pointer),
    /// It moved, pressed or not.
    Moved(Pointer),
    /// It was lifted.
    Up(Pointer),
    /// The system took it away.
    Cancelled(Pointer),
    /// It left the sheet without being pressed.
    Left(Pointer),
    /// A clock tick: nothing happened up to this time, in milliseconds. Long presses need it.
    Waited(f64),
}

/// What the machine makes of signals: something for the tool in hand, or for the paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Act {
    /// A gesture for the tool.
    Hand(Gesture<ScreenPoint>),
    /// The paper is moved.
    Paper(PaperMove),
}

/// The paper follows two fingers, or the middle button.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PaperMove {
    /// The point that was held.
    pub from: ScreenPoint,
    /// Where it is now.
    pub to: ScreenPoint,
    /// How much larger the drawing becomes about that point; 1 for a plain move.
    pub factor: f64,
}
