//! Raw pointer events become gestures here, once.

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

/// The machine: what all pointers on the sheet are doing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Hands {}

impl Hands {
    /// Takes one signal and gives what it means, in order.
    pub fn after(&mut self, signal: Signal) -> Vec<Act> {
        let _ = signal;
        Vec::new()
    }
}
