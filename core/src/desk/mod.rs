//! How hands change a plan: steps, tools, gestures, undo.
//!
//! A [`Session`] is everything one person sees at one moment; [`Session::after`] is the only way
//! from one to the next, and an [`Intent`] the only thing it takes. Nothing here draws, keeps time
//! or touches a browser, and a plan still changes only by [`Plan::apply`](crate::plan::Plan::apply).

mod answer;
mod change;
mod choice;
mod draft;
mod gesture;
mod gestures;
mod hand;
mod hands;
mod hint;
mod intent;
mod keys;
mod lacks;
mod notice;
mod position;
#[cfg(test)]
mod properties;
mod session;
mod settled;
mod snap;
mod step;
mod stretch;
mod tools;
#[cfg(test)]
mod trial;
mod view;
mod words;

pub use choice::Choice;
pub use draft::Draft;
pub use gesture::{Act, Gesture, PaperMove, Pointer, PointerKind, Reach, Signal};
pub use hand::Hand;
pub use hands::Hands;
pub use intent::{Heading, Intent};
pub use lacks::Lack;
pub use notice::{Notice, NoticeKind};
pub use position::{bounds, closet_position, position};
pub use session::Session;
pub use snap::{Hold, Snap};
pub use step::Step;
pub use stretch::{LINES_AT_ONCE, stretch, stretch_before};
pub use tools::Tool;
pub use view::{ScreenPoint, View};
