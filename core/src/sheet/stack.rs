//! Stacks of sheets for the site after printing: each is laid out and numbered by itself.

use super::Kind;
use crate::schedule::Phase;

/// Some of the sheets of a job.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stack {
    /// What the crew takes along before cover.
    Protection,
    /// What the crew takes along after paint.
    TrimOut,
    /// The test record alone.
    TestRecord,
    /// The punch list alone.
    PunchList,
    /// The handover record in one file: how the job stands, the test record, the plans, every box,
    /// the closet.
    Handover,
}

impl Stack {
    /// Every stack, in the order of the work.
    pub const ALL: [Stack; 5] = [
        Self::Protection,
        Self::TrimOut,
        Self::TestRecord,
        Self::PunchList,
        Self::Handover,
    ];

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::Protection => "Protection sheets",
            Self::TrimOut => "Trim-out list",
            Self::TestRecord => "Test record",
            Self::PunchList => "Punch sheet",
            Self::Handover => "Handover record",
        }
    }

    /// The stack that goes along to a part of the work; `None` for the rough-in, which needs most of
    /// the job's sheets.
    pub fn of(phase: Phase) -> Option<Self> {
        match phase {
            Phase::RoughIn => None,
            Phase::Protection => Some(Self::Protection),
            Phase::TrimOut => Some(Self::TrimOut),
            Phase::Testing => Some(Self::TestRecord),
            Phase::PunchList => Some(Self::PunchList),
            Phase::Handover => Some(Self::Handover),
        }
    }

    /// Whether a page of a kind belongs to it.
    pub(super) fn has(self, kind: Kind) -> bool {
        match self {
            Self::Protection => kind == Kind::Protection,
            Self::TrimOut => kind == Kind::TrimOut,
            Self::TestRecord => kind == Kind::TestRecord,
            Self::PunchList => kind == Kind::PunchList,
            Self::Handover => matches!(
                kind,
                Kind::Handover
                    | Kind::TestRecord
                    | Kind::PunchList
                    | Kind::Level(_)
                    | Kind::RoomList
                    | Kind::Closet
            ),
        }
    }
}
