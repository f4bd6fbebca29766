//! The drill list: straight rows of bores as one line each.

use serde::{Deserialize, Serialize};

use super::number::same_row;
use super::{Along, Bore, Whereabouts, member_name, what_name};
use crate::framing::Framing;
use crate::plan::{CableId, LevelId, Plan, WallId};
use crate::route::{Crossing, Member, Ways};
use crate::units::{Mm, Size};

/// One line of the drill list: one bit at one height through members one after the other.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DrillRow {
    /// Its number, also that of its bores.
    pub number: u32,
    /// The level it is worked from.
    pub level: LevelId,
    /// The wall, if it is in one.
    pub wall: Option<WallId>,
    /// Its bores, as indices into [`crate::design::Design::bores`], in order along the wall.
    pub bores: Vec<usize>,
    /// Members bored, over all of them.
    pub members: u32,
    /// What is bored: "5 studs", "top plates", "corner, 3 studs", "8 joists, crawl space".
    pub what: String,
    /// Where it is; `None` where its wall or space is not framed.
    pub whereabouts: Option<Whereabouts>,
    /// The same in words, without the height: "W6, studs 9 to 13 from its W4 end".
    pub location: String,
    /// The member: "bearing 2x6", "sawn joist 9-1/4 in".
    pub member: String,
    /// The bit.
    pub bit: Size,
    /// Height above the finished floor in words, or "centred" for plates.
    pub height: String,
    /// Cables through it.
    pub cables: Vec<CableId>,
    /// The largest fill of its bores, 0 to 1.
    pub fill: f64,
    /// Steel plates over all its bores.
    pub nail_plates: u32,
    /// Ties over all its bores.
    pub ties: u32,
    /// Seals over all its bores.
    pub seals: u32,
}

/// Collapses bores into rows, in the order of the bores. A printed row of which a part has another bit
/// now, or other cables, is several lines of one number.
pub fn drill_list(plan: &Plan, framing: &Framing, ways: &Ways, bores: &[Bore]) -> Vec<DrillRow> {
    let mut rows: Vec<DrillRow> = Vec::new();
    for (place, bore) in bores.iter().enumerate() {
        let goes_on = |row: &&mut DrillRow| {
            let before = row.bores.last().map(|place| &bores[*place]);
            let in_line = before.is_some_and(|before| same_row(ways, before, bore));
            row.number == bore.number && in_line
        };
        match rows.last_mut().filter(goes_on) {
            Some(row) => row.take(place, bore),
            None => rows.push(DrillRow::start(plan, framing, ways, place, bore)),
        }
    }
    for row in &mut rows {
        row.name(plan, framing, ways, bores);
    }
    rows
}

impl DrillRow {
    /// Whether it goes through what bears: studs, plates or sheathing of a bearing or outside wall, a
    /// corner with one, or joists.
    pub fn is_in_what_bears(&self, plan: &Plan) -> bool {
        let bears = |wall| {
            plan.wall(wall)
                .is_some_and(|(_, wall)| wall.role.is_bearing())
        };
        let along = self.whereabouts.as_ref().map(|place| &place.along);
        match (self.wall, along) {
            (_, Some(Along::Corner { from, into })) => bears(from.wall) || bears(into.wall),
            (Some(wall), _) => bears(wall),
            (None, _) => true,
        }
    }

    fn start(plan: &Plan, framing: &Framing, ways: &Ways, place: usize, bore: &Bore) -> Self {
        let crossing = &ways.crossings[bore.crossing];
        Self {
            number: bore.number,
            level: crossing.level,
            wall: crossing.wall,
            bores: vec![place],
            members: bore.members,
            what: String::new(),
            whereabouts: None,
            location: String::new(),
            member: member_name(plan, framing, crossing),
            bit: bore.bit,
            height: String::new(),
            cables: bore.cables.clone(),
            fill: bore.fill,
            nail_plates: bore.nail_plates,
            ties: u32::from(bore.tie),
            seals: u32::from(bore.seal),
        }
    }

    fn take(&mut self, place: usize, bore: &Bore) {
        self.bores.push(place);
        self.members += bore.members;
        self.fill = self.fill.max(bore.fill);
        self.nail_plates += bore.nail_plates;
        self.ties += u32::from(bore.tie);
        self.seals += u32::from(bore.seal);
    }

    fn name(&mut self, plan: &Plan, framing: &Framing, ways: &Ways, bores: &[Bore]) {
        let Some(bore) = self.bores.first().map(|place| &bores[*place]) else {
            return;
        };
        let first = &ways.crossings[bore.crossing];
        self.what = what_name(plan, framing, first, self.members);
        self.height = height_words(plan, first, bore);
        let row: Vec<&Bore> = self.bores.iter().map(|place| &bores[*place]).collect();
        self.whereabouts = Whereabouts::of(plan, framing, ways, &row);
        let words = |place: &Whereabouts| place.words(plan, framing);
        self.location = self.whereabouts.as_ref().map_or_else(String::new, words);
    }
}

fn height_words(plan: &Plan, crossing: &Crossing, bore: &Bore) -> String {
    match crossing.member {
        Member::TopPlates(_) | Member::BottomPlates(_) => String::from("centred"),
        Member::Joist { .. } | Member::Web { .. } => String::from("mid-depth"),
        _ => format!("{} AFF", plan.units.height(Mm::rounded(bore.height))),
    }
}
