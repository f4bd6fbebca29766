//! The drill list: straight rows of bores as one line each.

use super::{Bore, member_name, what_name};
use crate::framing::{Framing, WallFraming};
use crate::plan::{CableId, LevelId, Plan, WallId};
use crate::route::{Crossing, Member, Ways};
use crate::units::{Mm, Size};

/// One line of the drill list: one bit at one height through members one after the other.
#[derive(Clone, Debug, PartialEq)]
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
    /// What is bored: "5 studs", "top plates", "corner, 3 studs", "outside wall".
    pub what: String,
    /// Where: "W6, studs 9 to 13", "W6, 9' 5\" from its W4 end".
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

/// Collapses bores into rows, in order of their number.
pub fn drill_list(plan: &Plan, framing: &Framing, ways: &Ways, bores: &[Bore]) -> Vec<DrillRow> {
    let mut rows: Vec<DrillRow> = Vec::new();
    for (place, bore) in bores.iter().enumerate() {
        match rows.last_mut().filter(|row| row.number == bore.number) {
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
    fn start(plan: &Plan, framing: &Framing, ways: &Ways, place: usize, bore: &Bore) -> Self {
        let crossing = &ways.crossings[bore.crossing];
        Self {
            number: bore.number,
            level: crossing.level,
            wall: crossing.wall,
            bores: vec![place],
            members: bore.members,
            what: String::new(),
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
        let crossings: Vec<&Crossing> = self
            .bores
            .iter()
            .map(|place| &ways.crossings[bores[*place].crossing])
            .collect();
        let Some((first, bore)) = crossings
            .first()
            .zip(self.bores.first().map(|b| &bores[*b]))
        else {
            return;
        };
        self.what = what_name(&first.member, self.members);
        self.height = height_words(plan, first, bore);
        self.location = match first.wall.and_then(|wall| framing.wall(wall)) {
            Some(wall) => wall_words(plan, wall, &crossings, bore),
            None => space_words(plan, framing, first),
        };
    }
}

fn height_words(plan: &Plan, crossing: &Crossing, bore: &Bore) -> String {
    match crossing.member {
        Member::TopPlates(_) | Member::BottomPlates(_) => String::from("centred"),
        Member::Joist { .. } | Member::Web { .. } => String::from("mid-depth"),
        _ => format!("{} AFF", plan.units.height(Mm::rounded(bore.height))),
    }
}

fn wall_words(plan: &Plan, wall: &WallFraming, crossings: &[&Crossing], bore: &Bore) -> String {
    let label = plan
        .wall(wall.wall)
        .map_or(String::new(), |(_, wall)| wall.label());
    let numbers: Vec<u32> = crossings
        .iter()
        .filter_map(|crossing| match &crossing.member {
            Member::Studs(studs) => Some(studs),
            _ => None,
        })
        .flatten()
        .filter_map(|stud| wall.studs.get(*stud).map(|stud| stud.number))
        .filter(|number| *number > 0)
        .collect();
    let from = wall.distance_words(plan.units, bore.offset);
    match (numbers.iter().min(), numbers.iter().max()) {
        (Some(first), Some(last)) if first == last => format!("{label}, stud {first}, {from}"),
        (Some(first), Some(last)) => format!("{label}, studs {first} to {last}, {from}"),
        _ => format!("{label}, {from}"),
    }
}

fn space_words(plan: &Plan, framing: &Framing, crossing: &Crossing) -> String {
    let (Member::Joist { space } | Member::Web { space }) = crossing.member else {
        return String::new();
    };
    let Some(space) = framing.spaces.get(space) else {
        return String::new();
    };
    // Told from the left or the top of the sheet, whichever side the joists are laid out from.
    let sideways = space.along.x.abs() > space.along.y.abs();
    let (side, ahead) = match sideways {
        true => ("left side", space.along.x),
        false => ("side at the top of the sheet", space.along.y),
    };
    let ahead = if ahead < 0.0 { -1.0 } else { 1.0 };
    let corners = space.outline.loops.iter().flatten();
    let reached = corners.map(|corner| ahead * space.along_of(*corner));
    let distance = ahead * crossing.offset - reached.fold(f64::INFINITY, f64::min);
    let distance = plan.units.position(Mm::rounded(distance.max(0.0)));
    format!("{}, {distance} from the house's {side}", space.kind.name())
}
