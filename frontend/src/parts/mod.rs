//! Small parts any page could use: buttons, fields, icons. They know no word of the trade.

mod fact;
mod field;
mod figures;
mod file_press;
mod icon;
mod pick;
mod press;
mod search;
mod segments;
mod tick;

pub use fact::{Fact, Facts};
pub use field::{Field, FieldKind};
pub use figures::{Figures, Piece, pieces};
pub use file_press::FilePress;
pub use icon::Icon;
pub use pick::Pick;
pub use press::{Press, PressKind};
pub use search::Search;
pub use segments::Segments;
pub use tick::Tick;
