//! Edits: the only way a plan changes.
//!
//! [`Plan::apply`] takes a plan and an [`Edit`] and gives a new plan, or a [`Refusal`] that says
//! in one sentence what is in the way and what to do. The plan it was given is never touched.

mod cables;
pub(crate) mod caps;
mod drops;
mod levels;
mod make;
mod openings;
mod printed;
mod record;
mod replies;
#[cfg(any(test, feature = "sample"))]
pub mod sample;
mod settings;
mod sheet;
mod site;
mod walls;

pub use record::Note;
pub(crate) use record::{MOST_PUNCH, sound as sound_record};
pub(crate) use replies::{MOST_ANSWERS, MOST_REPLIES, tidied};
pub(crate) use settings::tidied as tidied_dates;

use std::fmt;

use super::{
    Above, Below, CableId, CableKindId, CableSpec, Closet, Dates, Drop, DropId, DropKind, Floor,
    KeepOut, KeepOutId, KnownDimension, LevelId, Lumber, Opening, OpeningId, Pin, Place, Placing,
    Plan, PowerRun, PowerRunId, PrintedRow, Reply, Role, RoomId, Scan, Wall, WallId,
};
use crate::rules::{RuleBook, RuleId};
use crate::shape::Point;
use crate::units::{Mm, Size, Units};
use std::sync::Arc;

/// One thing a person does to a plan.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// Several edits as one: all or none.
    Together(Vec<Edit>),

    /// Name the job.
    SetTitle(String),
    /// Note for whom it is.
    SetNote(String),
    /// Show and read lengths differently.
    SetUnits(Units),
    /// Write another date on the sheets.
    SetDate(String),
    /// Settle when each part of the job is due.
    SetDates(Dates),
    /// Count the revision up by one.
    NextRevision,
    /// Compute with a published book as it stands; own limits rest meanwhile.
    SetRuleBook(RuleBook),
    /// Compute with the person's own copy, begun from the book in force if there is none yet.
    OwnRules,
    /// Begin the person's own copy anew from the book in force.
    CopyRules,
    /// Put an own figure in place of a published one; a limit begins the person's own copy.
    SetRule(RuleId, f64),
    /// Take the published figure again.
    ResetRule(RuleId),
    /// The bits the crew owns.
    SetBits(Vec<Size>),
    /// Change a cable kind, or add one with the next free number.
    SetCableKind(CableKindId, CableSpec),
    /// Labels are printed: identities are frozen.
    FreezeLabels,
    /// Sheets are printed, or a link is handed on, with these rows of bores: their numbers hold from
    /// now on. The revision is counted up where the last one's sheets say other things of holes.
    KeepNumbers {
        /// Every row; the revisions in them are set anew.
        rows: Vec<PrintedRow>,
        /// A check sum of all that is said of holes.
        sum: u32,
    },
    /// Set a finding aside, with a reason.
    Dismiss {
        /// The finding's key.
        key: String,
        /// Why; not empty.
        reason: String,
    },
    /// Take a finding up again.
    Restore {
        /// The finding's key.
        key: String,
    },

    /// Add a level on top of the highest, over this floor.
    AddLevel {
        /// What it is called.
        name: String,
        /// The floor between it and the level under it.
        floor: Floor,
    },
    /// Remove a level and all that is on it. The last one stays.
    RemoveLevel(LevelId),
    /// Rename a level and set its ceiling height.
    SetLevel {
        /// The level.
        level: LevelId,
        /// Its name.
        name: String,
        /// Floor to ceiling.
        ceiling: Mm,
    },
    /// State what is over a level.
    SetAbove(LevelId, Above),
    /// State what is under a level.
    SetBelow(LevelId, Below),

    /// Put a picture under a level, with how it lies and what is known of it: nothing yet for one just
    /// opened, the lengths it was squared by for one squared up.
    PutScan(LevelId, Arc<Scan>, Placing, Vec<KnownDimension>),
    /// Take the picture away.
    RemoveScan(LevelId),
    /// Lay the picture differently.
    SetPlacing(LevelId, Placing),
    /// State the true length of a stretch of the picture, and lay the picture to fit all of them.
    AddKnown(LevelId, KnownDimension),
    /// Take a known dimension away, and lay the picture to fit the rest.
    RemoveKnown(LevelId, usize),

    /// Draw a wall.
    AddWall {
        /// On which level.
        level: LevelId,
        /// First end.
        from: Point,
        /// Second end.
        to: Point,
        /// What its studs are.
        lumber: Lumber,
        /// What it carries.
        role: Role,
    },
    /// Replace a wall's framing and ends; the identity inside names the wall.
    SetWall(Wall),
    /// Move every wall end that lies at a corner to another place.
    MoveCorner {
        /// On which level.
        level: LevelId,
        /// Where the ends are.
        from: Point,
        /// Where they go.
        to: Point,
    },
    /// Remove a wall with its openings; drops on it are set adrift.
    RemoveWall(WallId),
    /// Put a door, window or cased opening in a wall; the identity inside is set anew.
    AddOpening(Opening),
    /// Replace an opening; the identity inside names it.
    SetOpening(Opening),
    /// Remove an opening.
    RemoveOpening(OpeningId),
    /// Name a room.
    AddRoom {
        /// On which level.
        level: LevelId,
        /// Its name.
        name: String,
        /// A place in it.
        at: Point,
    },
    /// Rename or move a room's name.
    SetRoom {
        /// Which room.
        room: RoomId,
        /// Its name.
        name: String,
        /// A place in it.
        at: Point,
    },
    /// Remove a room's name.
    RemoveRoom(RoomId),
    /// Keep a place clear; the identity inside is set anew.
    AddKeepOut(LevelId, KeepOut),
    /// Replace a keep-out; the identity inside names it.
    SetKeepOut(KeepOut),
    /// Remove a keep-out.
    RemoveKeepOut(KeepOutId),
    /// Draw a power run; the identity inside is set anew.
    AddPowerRun(LevelId, PowerRun),
    /// Replace a power run; the identity inside names it.
    SetPowerRun(PowerRun),
    /// Remove a power run.
    RemovePowerRun(PowerRunId),

    /// Place, move or take away the closet.
    SetCloset(Option<Closet>),
    /// Place a drop with the usual cables, box and flags of its kind.
    AddDrop {
        /// What it is.
        kind: DropKind,
        /// On which level.
        level: LevelId,
        /// Where.
        place: Place,
    },
    /// Move a drop.
    MoveDrop(DropId, Place),
    /// Change what a drop is or has; the identity inside names it. Its label, level, place and
    /// cables stay as they are whatever the value says.
    SetDrop(Drop),
    /// Remove a drop and its cables.
    RemoveDrop(DropId),
    /// Add a cable to a drop.
    AddCable(DropId, CableKindId),
    /// Make a cable another kind.
    SetCable(CableId, CableKindId),
    /// Remove a cable; a drop keeps at least one.
    RemoveCable(CableId),
    /// Overrule a way. A pin on the same cable and place, or the same wall's lane, is replaced.
    AddPin(Pin),
    /// Take a pin away.
    RemovePin(Pin),

    /// Keep what builder or owner sent back.
    TakeReply(Reply),
    /// Take a reply out again.
    RemoveReply(Reply),

    /// Note something on site, or take the note back.
    Note(Note),
}

/// Why an edit was not made: one sentence, what and what next.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refusal {
    /// The sentence.
    pub sentence: String,
}

impl Refusal {
    pub(crate) fn because(sentence: impl Into<String>) -> Self {
        Self {
            sentence: sentence.into(),
        }
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence)
    }
}

impl std::error::Error for Refusal {}

impl Plan {
    /// The plan after an edit, or the reason why it stays as it is.
    ///
    /// ```
    /// use borewright_core::plan::{Plan, edit::Edit};
    /// let plan = Plan::new().apply(&Edit::SetTitle("Alder Court, lot 6".into()))?;
    /// assert_eq!(plan.title, "Alder Court, lot 6");
    /// # Ok::<(), borewright_core::plan::edit::Refusal>(())
    /// ```
    pub fn apply(&self, edit: &Edit) -> Result<Plan, Refusal> {
        let mut plan = self.clone();
        make::make(&mut plan, edit)?;
        record::keep_lost(self, &mut plan);
        Ok(plan)
    }
}

/// An edit in place that worked, or why it did not.
type Done = Result<(), Refusal>;

/// The longest text a field keeps.
const LONGEST_TEXT: usize = 400;

/// Signs that show nothing and change how others are read: marks of direction (Unicode Standard
/// Annex 9), spaces and joiners without width, the soft hyphen, fillers, tags and what chooses between
/// forms (Unicode 16, Default_Ignorable_Code_Point), the ends of lines and paragraphs, notes between
/// lines. A text with them says something else than it seems to.
fn is_invisible(sign: char) -> bool {
    matches!(
        sign,
        '\u{AD}'
            | '\u{34F}'
            | '\u{61C}'
            | '\u{115F}'..='\u{1160}'
            | '\u{17B4}'..='\u{17B5}'
            | '\u{180B}'..='\u{180F}'
            | '\u{200B}'..='\u{200F}'
            | '\u{2028}'..='\u{202E}'
            | '\u{2060}'..='\u{206F}'
            | '\u{2800}'
            | '\u{3164}'
            | '\u{FE00}'..='\u{FE0F}'
            | '\u{FEFF}'
            | '\u{FFA0}'
            | '\u{FFF0}'..='\u{FFFB}'
            | '\u{1BCA0}'..='\u{1BCA3}'
            | '\u{1D173}'..='\u{1D17A}'
            | '\u{E0000}'..='\u{E0FFF}'
    )
}

/// Text without control characters and other invisible signs, and not longer than a field. Every text
/// that comes in goes through it: by an edit, and by what mends files and links.
pub(crate) fn tidy(text: &str) -> String {
    let plain = text
        .chars()
        .filter(|c| (!c.is_control() || *c == '\n') && !is_invisible(*c));
    plain
        .take(LONGEST_TEXT)
        .collect::<String>()
        .trim()
        .to_string()
}

/// The same for what is one line: a name, a title, a date. A line break in it could pass for the end of
/// what stands around it.
pub(crate) fn tidy_line(text: &str) -> String {
    let words = tidy(text);
    match words.contains('\n') {
        true => words.split_whitespace().collect::<Vec<_>>().join(" "),
        false => words,
    }
}

fn level_mut(plan: &mut Plan, id: LevelId) -> Result<&mut super::Level, Refusal> {
    let found = plan.levels.iter_mut().find(|level| level.id == id);
    found.ok_or_else(|| Refusal::because("That level is no longer in the plan."))
}

/// Takes the next number of a series.
fn take(next: &mut u32) -> u32 {
    let number = *next;
    *next = next.saturating_add(1);
    number
}
