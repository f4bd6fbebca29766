//! What each item says now, in words and as a digest.

use super::digest::Figures;
use crate::bore::DrillRow;
use crate::design::Design;
use crate::framing::closet_room;
use crate::plan::{CableKindId, Drop, Item, Level, LevelId, Place, Plan, Wall, WallId};
use crate::route::Member;
use crate::schedule::{Port, RoomRow, ports, room_list};

/// One thing to agree to or to ask about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Matter {
    /// Which.
    pub item: Item,
    /// The level it belongs to; `None` for the closet and the date.
    pub level: Option<LevelId>,
    /// What it is called: "D8", "W4", "Joists over Ground", "Closet", "Dates".
    pub name: String,
    /// What it is: "outlet, Bedroom 1", "bearing 2x6".
    pub what: String,
    /// All that is agreed to, a line each.
    pub says: Vec<String>,
    /// Of all the figures behind those lines; names, notes and units aside.
    pub digest: u32,
}

/// Every matter of a plan: level by level its drops by room, then the holes in what bears; the
/// closet and the date at the end.
pub fn matters(plan: &Plan, design: &Design) -> Vec<Matter> {
    let rooms = room_list(plan, &design.framing);
    let mut matters = Vec::new();
    for level in &plan.levels {
        let here = rooms.iter().filter(|row| row.level == level.id);
        matters.extend(here.filter_map(|row| of_drop(plan, level, row)));
        matters.extend(of_walls(plan, design, level));
        matters.extend(of_joists(plan, design, level));
    }
    matters.extend(of_closet(plan));
    matters.extend(of_date(plan));
    matters
}

fn of_drop(plan: &Plan, level: &Level, row: &RoomRow) -> Option<Matter> {
    let drop = plan.drop(row.drop)?;
    let room = row.room.and_then(|id| level.room(id));
    let what = match room {
        Some(room) => format!("{}, {}", drop.kind.name(), room.name),
        None if drop.outdoors => format!("{}, outdoors", drop.kind.name()),
        None => drop.kind.name().to_string(),
    };
    let height = match (drop.height(), drop.place) {
        (Some(height), _) => format!("{} to its centre", plan.units.height(height)),
        (None, Place::Adrift { .. }) => String::from("no place yet, its wall was taken away"),
        (None, _) => String::from("on the ceiling"),
    };
    let cables = by_kind(plan, drop.cables.iter().map(|cable| cable.kind));
    Some(Matter {
        item: Item::Drop(drop.id),
        level: Some(level.id),
        name: drop.label(),
        what,
        says: vec![format!("{height}, {cables}, {}", row.instruction)],
        digest: drop_digest(plan, drop),
    })
}

/// "2 Cat 6, 1 RG-6", in the order of the catalogue.
fn by_kind(plan: &Plan, kinds: impl Iterator<Item = CableKindId> + Clone) -> String {
    let catalogue = plan.catalogue.cables.iter().enumerate();
    let said = catalogue.filter_map(|(place, spec)| {
        let count = kinds.clone().filter(|kind| usize::from(kind.0) == place);
        let count = count.count();
        (count > 0).then(|| format!("{count} {}", spec.name))
    });
    said.collect::<Vec<_>>().join(", ")
}

/// Kinds and boxes count by the order they are declared in, which therefore stays as it is.
fn drop_digest(plan: &Plan, drop: &Drop) -> u32 {
    let mut figures = Figures::default();
    figures
        .add(drop.kind as i64)
        .add(drop.level.0)
        .place(plan, &drop.place)
        .add(drop.fixing as i64)
        .add(drop.gangs)
        .add(drop.outdoors)
        .add(drop.buried)
        .add(drop.spare);
    if let Some(aim) = drop.aim {
        figures.add(aim.dx).add(aim.dy);
    }
    for cable in &drop.cables {
        kind(plan, cable.kind, &mut figures);
    }
    figures.digest()
}

/// A kind by its name: what goes by another name is another cable.
fn kind(plan: &Plan, kind: CableKindId, figures: &mut Figures) {
    let spec = plan.catalogue.cable(kind);
    figures.text(spec.map_or("", |spec| spec.name.as_str()));
}

/// The holes of each bearing or outside wall of a level, in the order of the drill list.
fn of_walls(plan: &Plan, design: &Design, level: &Level) -> Vec<Matter> {
    let mut walls: Vec<WallId> = Vec::new();
    for row in &design.drill_list {
        if let Some(wall) = row.wall.filter(|wall| !walls.contains(wall))
            && row.level == level.id
        {
            walls.push(wall);
        }
    }
    let bearing = walls.into_iter().filter_map(|id| {
        let (_, wall) = plan.wall(id)?;
        wall.role.is_bearing().then_some(wall)
    });
    let matter = |wall: &Wall| {
        let rows = rows(design, |row| row.wall == Some(wall.id));
        Matter {
            item: Item::Wall(wall.id),
            level: Some(level.id),
            name: wall.label(),
            what: format!("{} {}", wall.role.name(), wall.lumber.name()),
            says: rows.iter().map(|row| hole_words(plan, row)).collect(),
            digest: holes_digest(design, &rows),
        }
    };
    bearing.map(matter).collect()
}

/// The holes in joists worked from a level.
fn of_joists(plan: &Plan, design: &Design, level: &Level) -> Option<Matter> {
    let rows = rows(design, |row| row.wall.is_none() && row.level == level.id);
    let member = rows.first()?.member.clone();
    Some(Matter {
        item: Item::Joists(level.id),
        level: Some(level.id),
        name: format!("Joists, {}", level.name),
        what: member,
        says: rows.iter().map(|row| hole_words(plan, row)).collect(),
        digest: holes_digest(design, &rows),
    })
}

fn rows(design: &Design, is_meant: impl Fn(&DrillRow) -> bool) -> Vec<&DrillRow> {
    design
        .drill_list
        .iter()
        .filter(|row| is_meant(row))
        .collect()
}

/// "5 studs: 3/4 in at 30 in AFF, 5 nail plates; W4, studs 9 to 13, 9' 5\" from its left end".
fn hole_words(plan: &Plan, row: &DrillRow) -> String {
    let mut words = format!(
        "{}: {} hole, {}",
        row.what,
        plan.units.size(row.bit),
        row.height
    );
    let counted = |count: u32, one: &str| match count {
        1 => format!(", 1 {one}"),
        _ => format!(", {count} {one}s"),
    };
    for (count, one) in [(row.nail_plates, "nail plate"), (row.ties, "tie")] {
        if count > 0 {
            words.push_str(&counted(count, one));
        }
    }
    format!("{words}; {}", row.location)
}

fn holes_digest(design: &Design, rows: &[&DrillRow]) -> u32 {
    let mut figures = Figures::default();
    let bores = rows.iter().flat_map(|row| &row.bores);
    for bore in bores.filter_map(|place| design.bores.get(*place)) {
        let crossing = design.ways.crossings.get(bore.crossing);
        figures
            .add(crossing.map_or(-1, |crossing| class(&crossing.member)))
            .length(bore.offset)
            .length(bore.height)
            .add(bore.members)
            .add(bore.bit.micrometres())
            .add(bore.nail_plates)
            .add(bore.tie);
        if let Some(crossing) = crossing {
            figures.length(crossing.at.x).length(crossing.at.y);
        }
    }
    figures.digest()
}

/// Kept in digests that people have signed, unlike the order of the drill list: a number once given
/// stays.
fn class(member: &Member) -> i64 {
    match member {
        Member::Studs(_) => 0,
        Member::Corner { .. } => 1,
        Member::TopPlates(_) => 2,
        Member::BottomPlates(_) => 3,
        Member::Joist { .. } => 4,
        Member::Web { .. } => 5,
        Member::Sheathing => 6,
        Member::Soffit => 7,
    }
}

fn of_closet(plan: &Plan) -> Option<Matter> {
    let closet = plan.closet?;
    let ports = ports(plan);
    let mut says = vec![
        format!(
            "panel centre {} above the floor, cable enters {}",
            plan.units.height(closet.panel_height),
            closet.entry.name()
        ),
        port_words(plan, &ports),
    ];
    let powered = ports.iter().filter(|port| port.powered).count();
    if powered > 0 {
        says.push(format!(
            "{powered} of them feed devices over their cable: power beside the panel, by the electrician"
        ));
    }
    let mut figures = Figures::default();
    figures
        .add(closet.level.0)
        .add(closet.entry as i64)
        .add(closet.panel_height.0)
        .add(i64::from(closet.on_wall().is_some()));
    if let Some(at) = closet.in_front(plan, 0.0) {
        figures.length(at.x).length(at.y);
    }
    for port in &ports {
        kind(plan, port.kind, &mut figures);
        figures.add(port.powered);
    }
    Some(Matter {
        item: Item::Closet,
        level: None,
        name: String::from("Closet"),
        what: closet_place(plan, closet.level),
        says,
        digest: figures.digest(),
    })
}

/// "Ground, Utility"; a room called closet is not told twice.
fn closet_place(plan: &Plan, level: LevelId) -> String {
    let level = plan.level(level).map_or("", |level| level.name.as_str());
    match closet_room(plan).map(|room| room.name.as_str()) {
        Some(room) if !room.eq_ignore_ascii_case("closet") => format!("{level}, {room}"),
        _ => level.to_string(),
    }
}

/// "38 ports: 30 Cat 6, 8 RG-6".
fn port_words(plan: &Plan, ports: &[Port]) -> String {
    let kinds = by_kind(plan, ports.iter().map(|port| port.kind));
    match ports.len() {
        1 => format!("1 port: {kinds}"),
        count => format!("{count} ports: {kinds}"),
    }
}

fn of_date(plan: &Plan) -> Option<Matter> {
    let on_sheets = ("on the sheets", plan.date.as_str());
    let all = [&[on_sheets][..], &plan.dates.named()].concat();
    let mut figures = Figures::default();
    for (_, date) in &all {
        figures.text(date);
    }
    let settled = all.iter().filter(|(_, date)| !date.is_empty());
    let says: Vec<String> = settled
        .map(|(name, date)| format!("{name}: {date}"))
        .collect();
    (!says.is_empty()).then(|| Matter {
        item: Item::Date,
        level: None,
        name: String::from("Dates"),
        what: String::new(),
        says,
        digest: figures.digest(),
    })
}
