//! The plan: what a person drew and chose, and nothing that can be derived from it.
//!
//! A plan is a value. The only way to change one is [`Plan::apply`](edit), which gives a new plan
//! or a [`Refusal`](edit::Refusal) with one sentence. Coordinates are whole millimetres, x to the
//! right and y down, one origin for all levels. Nothing here computes framing, ways or bores.

mod cable;
mod catalogue;
mod closet;
mod dates;
mod dismissal;
mod drop;
pub mod edit;
mod id;
mod keep_out;
mod layout;
mod level;
mod opening;
mod pin;
mod power;
mod printed;
mod record;
mod reply;
mod room;
mod sheet;
mod wall;

pub use cable::Cable;
pub use catalogue::{CableKindId, CableSpec, Catalogue};
pub use closet::{Closet, ClosetPlace, Entry};
pub use dates::Dates;
pub use dismissal::Dismissal;
pub use drop::{BoxKind, Drop, DropKind, Place, box_outline};
pub use id::{CableId, DropId, KeepOutId, LevelId, Numbers, OpeningId, PowerRunId, RoomId, WallId};
pub use keep_out::{KeepOut, KeepOutReason, KeepOutShape};
pub use layout::{LayoutSide, side_towards};
pub use level::{Above, Below, Floor, JoistKind, Level, Rafters, Trusses};
pub use opening::{Opening, OpeningKind};
pub use pin::{Pin, PinTo};
pub use power::{PowerPlace, PowerRun};
pub use printed::{Hole, Places, Printed, PrintedRow, Through};
pub use record::{
    BoxRecord, BoxStage, CableRecord, CableStage, LeftCable, Mark, PunchItem, SiteRecord, Test,
};
pub use reply::{Answer, Digest, Item, Reply, Said};
pub use room::Room;
pub use sheet::{KnownDimension, Placing, Scan, Sheet};
pub use wall::{LayoutEnd, Lumber, Role, Side, Wall};

use crate::rules::RuleSet;
use crate::units::Units;

/// Everything a person drew and chose for one job.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// What the job is called on every sheet.
    pub title: String,
    /// Who it is for and how to reach them, in the contractor's own words; may be empty.
    pub note: String,
    /// How lengths are shown and read.
    pub units: Units,
    /// The revision that sheets carry, counted from 1.
    pub revision: u32,
    /// The date written on the sheets, as the person typed it or the page set it; may be empty.
    pub date: String,
    /// When each part of the job is due.
    pub dates: Dates,
    /// Every limit and default, each with its source.
    pub rules: RuleSet,
    /// Cables and bits this crew uses.
    pub catalogue: Catalogue,
    /// Where every cable comes home to, once chosen.
    pub closet: Option<Closet>,
    /// From the lowest level up; at least one.
    pub levels: Vec<Level>,
    /// Every drop with its cables, in the order of placing.
    pub drops: Vec<Drop>,
    /// What the person overruled about ways.
    pub pins: Vec<Pin>,
    /// Once labels are printed, identities of cables are frozen.
    pub labels_frozen: bool,
    /// Numbers of bores that stand on paper or in a link, and hold from then on.
    pub printed: Printed,
    /// Findings set aside, each with the reason that prints beside it.
    pub dismissed: Vec<Dismissal>,
    /// What builder and owner sent back, in the order it was taken in.
    pub replies: Vec<Reply>,
    /// What was noted on site.
    pub record: SiteRecord,
    /// The number the next new thing of each kind gets. Numbers are never used twice.
    pub next: Numbers,
}

impl Plan {
    /// An empty plan: one level on a slab with an attic over trusses, nothing drawn.
    pub fn new() -> Self {
        Self {
            title: String::from("New job"),
            note: String::new(),
            units: Units::Imperial,
            revision: 1,
            date: String::new(),
            dates: Dates::default(),
            rules: RuleSet::default(),
            catalogue: Catalogue::default(),
            closet: None,
            levels: vec![Level::new(LevelId(1), "Ground")],
            drops: Vec::new(),
            pins: Vec::new(),
            labels_frozen: false,
            printed: Printed::default(),
            dismissed: Vec::new(),
            replies: Vec::new(),
            record: SiteRecord::default(),
            next: Numbers::default(),
        }
    }

    /// Whether the same is built by two plans: they differ at most in how the job is called and dated, in
    /// what builder and owner replied, in what was noted on site and in what was printed.
    pub fn is_built_as(&self, other: &Self) -> bool {
        // Every field is named, so that a new one has to be placed here.
        let Self {
            title: _,
            note: _,
            revision: _,
            date: _,
            dates: _,
            replies: _,
            record: _,
            printed: _,
            units,
            rules,
            catalogue,
            closet,
            levels,
            drops,
            pins,
            labels_frozen,
            dismissed,
            next,
        } = self;
        (units, labels_frozen, next, closet)
            == (
                &other.units,
                &other.labels_frozen,
                &other.next,
                &other.closet,
            )
            && (rules, catalogue, pins, dismissed)
                == (
                    &other.rules,
                    &other.catalogue,
                    &other.pins,
                    &other.dismissed,
                )
            && (levels, drops) == (&other.levels, &other.drops)
    }

    /// A plan of the past as it stands now that sheets are printed: what is on paper cannot be taken
    /// back, and no revision counts twice.
    pub fn with_paper_of(mut self, now: &Self) -> Self {
        self.revision = self.revision.max(now.printed.revision);
        self.printed = now.printed.clone();
        self.labels_frozen |= now.labels_frozen;
        self
    }

    /// The level with this identity.
    pub fn level(&self, id: LevelId) -> Option<&Level> {
        self.levels.iter().find(|level| level.id == id)
    }

    /// The drop with this identity.
    pub fn drop(&self, id: DropId) -> Option<&Drop> {
        self.drops.iter().find(|drop| drop.id == id)
    }

    /// The wall with this identity and the level it stands on.
    pub fn wall(&self, id: WallId) -> Option<(&Level, &Wall)> {
        self.levels
            .iter()
            .find_map(|level| level.wall(id).map(|wall| (level, wall)))
    }

    /// The opening with this identity and the level it is on.
    pub fn opening(&self, id: OpeningId) -> Option<(&Level, &Opening)> {
        self.levels
            .iter()
            .find_map(|level| level.opening(id).map(|opening| (level, opening)))
    }

    /// Every cable with the drop it serves, in order of drop and cable.
    pub fn cables(&self) -> impl Iterator<Item = (&Drop, &Cable)> {
        self.drops
            .iter()
            .flat_map(|drop| drop.cables.iter().map(move |cable| (drop, cable)))
    }

    /// The cable with this identity and its drop.
    pub fn cable(&self, id: CableId) -> Option<(&Drop, &Cable)> {
        self.cables().find(|(_, cable)| cable.id == id)
    }

    /// What a cable is called everywhere; "?" for one the plan does not have.
    pub fn cable_label(&self, id: CableId) -> String {
        match self.cable(id) {
            Some((drop, cable)) => drop.cable_label(cable),
            None => String::from("?"),
        }
    }
}

impl Default for Plan {
    fn default() -> Self {
        Self::new()
    }
}
