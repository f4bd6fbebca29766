//! The tools: what each makes of a gesture.

/// A tool of the shelf.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Tool {
    /// Choose things and move them.
    #[default]
    Select,
    /// Draw along something whose length is known, and type the length.
    KnownDimension,
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
}

impl Tool {
    /// Every tool.
    pub const ALL: [Tool; 13] = [
        Self::Select,
        Self::KnownDimension,
        Self::LevelUp,
        Self::MoveDrawing,
        Self::Wall,
        Self::Opening,
        Self::Room,
        Self::Joists,
        Self::Drop,
        Self::Closet,
        Self::KeepOut,
        Self::NeverDrill,
        Self::PowerRun,
    ];

    /// The words under its picture.
    pub fn name(self) -> &'static str {
        match self {
            Self::Select => "Choose",
            Self::KnownDimension => "Known length",
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
        }
    }
}
