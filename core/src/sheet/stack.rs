//! Stacks of sheets, each laid out and numbered by itself: for somebody, or for a part of the work.

use serde::{Deserialize, Serialize};

use super::list::{self, List};
use super::share::Stapled;
use super::{Draft, Paper};
use super::{
    builder_page, closet_page, cover, day_page, drill_page, elevation_page, finding_page,
    handover_page, label_page, level_page, owner_page, protection_page, pull_page, punch_page,
    room_page, test_page,
};
use crate::design::Design;
use crate::plan::{LevelId, Plan};
use crate::schedule::Phase;

/// Some of the sheets of a job.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Stack {
    /// What the crew drills and pulls from.
    Crew,
    /// What the builder is shown and signs.
    Builder,
    /// What the office orders and files.
    Office,
    /// What the owner gets.
    Owner,
    /// Labels, and the page that lines a printer up.
    Labels,
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

/// A kind of sheet with what it is laid out of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    Cover,
    Day,
    Findings,
    /// Findings that are open, a line each.
    Open,
    Level(LevelId),
    /// A level without ways and bores.
    Places(LevelId),
    Elevations,
    /// Elevations of walls that bear and are bored.
    BearingWalls,
    RoomList,
    DrillList,
    /// Bores round corners.
    Corners,
    Sections,
    PullSheet,
    Closet,
    Builder,
    Owner,
    Protection,
    TrimOut,
    TestRecord,
    PunchList,
    Handover,
    LabelTest,
    Labels,
}

/// A part before it has its place in a stack.
pub(super) enum Made {
    /// Pages of its own.
    Pages(Vec<Draft>),
    /// The same, the last of them for a code alone.
    Coded(Vec<Draft>),
    /// What may begin on the last page of others.
    List(List),
    /// Bores round corners, and bores cut across: they take whatever room is left once all else is laid out.
    Corners,
    Sections,
}

impl Made {
    /// Puts it behind the pages of a stack; a list may begin on the last of them.
    pub fn onto(&self, part: Part, stapled: &mut Stapled, paper: &Paper) {
        match self {
            Self::Pages(pages) => stapled.drafts.extend(pages.iter().cloned()),
            Self::Coded(pages) => stapled.push_coded(pages.clone()),
            Self::List(list) => {
                let alone = stapled.way.alone == Some(part);
                list::onto(stapled, paper, (&list.heading, &list.table), alone);
            }
            Self::Corners => stapled.corners = Some(stapled.drafts.len()),
            Self::Sections => stapled.sections = Some(stapled.drafts.len()),
        }
    }
}

impl Stack {
    /// Stacks for somebody, in the order offered.
    pub const FOR: [Stack; 5] = [
        Self::Crew,
        Self::Builder,
        Self::Office,
        Self::Owner,
        Self::Labels,
    ];

    /// Stacks for what comes after the rough-in, in the order of the work.
    pub const LATER: [Stack; 5] = [
        Self::Protection,
        Self::TrimOut,
        Self::TestRecord,
        Self::PunchList,
        Self::Handover,
    ];

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::Crew => "Crew",
            Self::Builder => "Builder",
            Self::Office => "Office",
            Self::Owner => "Owner",
            Self::Labels => "Label stock",
            Self::Protection => "Protection sheets",
            Self::TrimOut => "Trim-out list",
            Self::TestRecord => "Test record",
            Self::PunchList => "Punch sheet",
            Self::Handover => "Handover record",
        }
    }

    /// What is in it, in a sentence.
    pub fn words(self) -> &'static str {
        match self {
            Self::Crew => "The day in order, plans, elevations, boxes, bores, pulls, closet.",
            Self::Builder => "Every bore in what bears, its limit and steel, and a line to sign.",
            Self::Office => "Totals, findings, cut list and reels, boxes, closet, test record.",
            Self::Owner => "What is in every room, with plans, and a line to sign.",
            Self::Labels => "Labels on their stock, and a page to line the printer up by.",
            Self::Protection => "Steel, ties and seals, then every box, before cover.",
            Self::TrimOut => "Every box after paint, with what finds it again.",
            Self::TestRecord => "Every cable once, planned against measured.",
            Self::PunchList => "What is to be put right.",
            Self::Handover => "How the job stands, with test record, plans, boxes and closet.",
        }
    }

    /// The stack that goes along to a part of the work.
    pub fn of(phase: Phase) -> Self {
        match phase {
            Phase::RoughIn => Self::Crew,
            Phase::Protection => Self::Protection,
            Phase::TrimOut => Self::TrimOut,
            Phase::Testing => Self::TestRecord,
            Phase::PunchList => Self::PunchList,
            Phase::Handover => Self::Handover,
        }
    }

    /// What it holds, in the order it is stapled.
    pub(super) fn parts(self, plan: &Plan) -> Vec<Part> {
        let levels =
            |part: fn(LevelId) -> Part| plan.levels.iter().map(move |level| part(level.id));
        let mut parts = Vec::new();
        match self {
            Self::Crew => {
                parts.push(Part::Day);
                parts.extend(levels(Part::Level));
                parts.extend(WORK);
                parts.push(Part::Open);
            }
            Self::Builder => {
                parts.push(Part::Builder);
                parts.extend(levels(Part::Level));
                parts.push(Part::BearingWalls);
            }
            Self::Office => parts.extend(OFFICE),
            Self::Owner => {
                parts.push(Part::Owner);
                parts.extend(levels(Part::Places));
            }
            Self::Labels => parts.extend([Part::LabelTest, Part::Labels]),
            Self::Protection => parts.push(Part::Protection),
            Self::TrimOut => parts.push(Part::TrimOut),
            Self::TestRecord => parts.push(Part::TestRecord),
            Self::PunchList => parts.push(Part::PunchList),
            Self::Handover => {
                parts.extend([Part::Handover]);
                parts.extend(levels(Part::Level));
                parts.extend([
                    Part::RoomList,
                    Part::Closet,
                    Part::TestRecord,
                    Part::PunchList,
                ]);
            }
        }
        parts
    }
}

/// What the crew works from, after its first page and the plans.
const WORK: [Part; 7] = [
    Part::Elevations,
    Part::Corners,
    Part::Sections,
    Part::RoomList,
    Part::DrillList,
    Part::PullSheet,
    Part::Closet,
];

const OFFICE: [Part; 6] = [
    Part::Cover,
    Part::Findings,
    Part::PullSheet,
    Part::RoomList,
    Part::Closet,
    Part::TestRecord,
];

impl Part {
    /// Every sheet of a job once, in the order they are stapled. Left out is what only shows others
    /// again for somebody.
    pub fn all(plan: &Plan) -> Vec<Self> {
        let mut parts = vec![Self::Cover, Self::Day, Self::Findings, Self::Builder];
        parts.extend(plan.levels.iter().map(|level| Self::Level(level.id)));
        parts.extend(WORK);
        parts.extend([
            Self::Protection,
            Self::TrimOut,
            Self::TestRecord,
            Self::PunchList,
            Self::Handover,
            Self::Owner,
            Self::Labels,
        ]);
        parts
    }

    /// Its pages, by themselves.
    pub fn drafts(
        self,
        plan: &Plan,
        design: &Design,
        paper: &Paper,
        link: Option<&str>,
    ) -> Vec<Draft> {
        let mut stapled = Stapled::none(plan);
        self.made(plan, design, paper, link)
            .onto(self, &mut stapled, paper);
        stapled.finished(design, paper, link)
    }

    /// What goes onto a stack, however that is laid out.
    pub fn made(self, plan: &Plan, design: &Design, paper: &Paper, link: Option<&str>) -> Made {
        if let Some(list) = self.list(plan, design) {
            return Made::List(list);
        }
        match self {
            Self::Cover | Self::Day => {
                let of = |link| match self {
                    Self::Cover => cover::pages(plan, design, paper, link),
                    _ => day_page::pages(plan, design, paper, link),
                };
                let (pages, plain) = (of(link), of(None));
                match pages.len() > plain.len() {
                    true => Made::Coded(pages),
                    false => Made::Pages(pages),
                }
            }
            Self::Corners => Made::Corners,
            Self::Sections => Made::Sections,
            _ => Made::Pages(self.apart(plan, design, paper, link)),
        }
    }

    /// What is a list with nothing beside it.
    fn list(self, plan: &Plan, design: &Design) -> Option<List> {
        match self {
            Self::RoomList => Some(room_page::rooms(plan, design)),
            Self::TrimOut => Some(room_page::trim(plan, design)),
            Self::DrillList => Some(drill_page::list(plan, design)),
            Self::PullSheet => Some(pull_page::list(plan, design)),
            Self::Closet => Some(closet_page::list(plan, design)),
            Self::Open => finding_page::open(design),
            _ => None,
        }
    }

    /// Pages of what shares none.
    fn apart(self, plan: &Plan, design: &Design, paper: &Paper, link: Option<&str>) -> Vec<Draft> {
        let of_level = |id: LevelId, ways: bool| {
            let level = plan.level(id);
            level.map_or_else(Vec::new, |level| {
                level_page::pages(plan, design, paper, level, ways)
            })
        };
        let elevations = |bearing| {
            let address = link.and_then(|link| link.split('#').next());
            let wanted = elevation_page::Wanted { bearing, address };
            elevation_page::pages(plan, design, paper, wanted)
        };
        match self {
            Self::Findings => finding_page::pages(plan, design, paper),
            Self::Level(id) => of_level(id, true),
            Self::Places(id) => of_level(id, false),
            Self::Elevations => elevations(false),
            Self::BearingWalls => elevations(true),
            Self::Builder => builder_page::pages(plan, design, paper),
            Self::Owner => owner_page::pages(plan, design, paper),
            Self::Protection => protection_page::pages(plan, design, paper),
            Self::TestRecord => test_page::pages(plan, design, paper),
            Self::PunchList => punch_page::pages(plan, paper),
            Self::Handover => handover_page::pages(plan, design, paper),
            Self::LabelTest => label_page::test_page(paper),
            Self::Labels => label_page::pages(plan, paper),
            Self::Cover
            | Self::Day
            | Self::Open
            | Self::RoomList
            | Self::DrillList
            | Self::Corners
            | Self::Sections
            | Self::PullSheet
            | Self::Closet
            | Self::TrimOut => Vec::new(),
        }
    }
}
