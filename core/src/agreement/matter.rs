//! What each item says now, in words and as a digest.

use super::code;
use super::digest::Figures;
use crate::bore::DrillRow;
use crate::design::Design;
use crate::file::link;
use crate::framing::{Framing, Hang, closet_room, hang_of};
use crate::plan::{CableKindId, Digest, Drop, Item, Level, LevelId, Place, Plan, Wall, WallId};
use crate::schedule::{Port, RoomRow, ports, room_list};
use crate::units::counted;

/// One thing to agree to or to ask about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Matter {
    /// Which.
    pub item: Item,
    /// The level it belongs to; `None` for the closet, the dates and the job.
    pub level: Option<LevelId>,
    /// What it is called: "D8", "W4", "Joists over Ground", "Closet", "Dates".
    pub name: String,
    /// What it is: "outlet, Bedroom 1", "bearing 2x6".
    pub what: String,
    /// All that is agreed to, a line each.
    pub says: Vec<String>,
    /// Of all that is shown of it: the figures behind those lines, and the words that a person gave:
    /// names and notes. Units and the program's own words are left aside.
    pub digest: Digest,
    /// The same, as a link without names shows it.
    pub nameless: Digest,
}

impl Matter {
    /// Whether an answer with this digest was to the item as it is: with its names, or as a link without
    /// names shows it.
    pub fn is(&self, digest: Digest) -> bool {
        digest == self.digest || digest == self.nameless
    }
}

/// Every matter of a plan: level by level its drops by room, then the holes in what bears; the
/// closet and the date at the end.
pub fn matters(plan: &Plan, design: &Design) -> Vec<Matter> {
    let mut matters = shown(plan, design);
    // Names take nothing away from a plan and add nothing to it, so these are the same items in the
    // same order.
    let nameless = shown(&link::without_names(plan), design);
    for (matter, nameless) in matters.iter_mut().zip(nameless) {
        matter.nameless = nameless.digest;
    }
    matters
}

/// Every matter of a plan as it is shown with the names it has.
fn shown(plan: &Plan, design: &Design) -> Vec<Matter> {
    let rooms = room_list(plan, &design.framing);
    let mut matters = Vec::new();
    for level in &plan.levels {
        let here = rooms.iter().filter(|row| row.level == level.id);
        matters.extend(here.filter_map(|row| of_drop(plan, design, level, row)));
        matters.extend(of_walls(plan, design, level));
        matters.extend(of_joists(plan, design, level));
    }
    matters.extend(of_closet(plan));
    matters.extend(of_date(plan));
    matters.push(of_job(plan));
    matters
}

/// A matter with its digest in both places.
fn matter(item: Item, level: Option<LevelId>, name: String, figures: &mut Figures) -> Matter {
    let digest = figures.digest();
    Matter {
        item,
        level,
        name,
        what: String::new(),
        says: Vec::new(),
        digest,
        nameless: digest,
    }
}

fn of_drop(plan: &Plan, design: &Design, level: &Level, row: &RoomRow) -> Option<Matter> {
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
    let mut figures = drop_figures(plan, drop);
    figures.text(&level.name);
    figures.text(room.map_or("", |room| room.name.as_str()));
    figures.text(drop.note.trim());
    hanging(plan, &design.framing, drop, &mut figures);
    Some(Matter {
        what,
        says: vec![format!("{height}, {cables}, {}", row.instruction)],
        ..matter(
            Item::Drop(drop.id),
            Some(level.id),
            drop.label(),
            &mut figures,
        )
    })
}

/// A box that hangs on no upright takes a crosspiece more, or cannot hang: that is agreed to as well. Which upright
/// one hangs on follows from its place, and what people signed of those stays what it was.
fn hanging(plan: &Plan, framing: &Framing, drop: &Drop, figures: &mut Figures) {
    match hang_of(plan, framing, drop) {
        None | Some(Ok(Hang::On { .. })) => figures,
        Some(Ok(Hang::Between(one, other))) => figures.add(1).add(one as i64).add(other as i64),
        Some(Err(_)) => figures.add(2),
    };
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

fn drop_figures(plan: &Plan, drop: &Drop) -> Figures {
    let mut figures = Figures::default();
    figures
        .text(&drop.label())
        .add(code::drop(drop.kind))
        .add(drop.level.0)
        .place(plan, &drop.place)
        .add(code::fixing(drop.fixing))
        .add(drop.gangs)
        .add(drop.outdoors)
        .add(drop.buried)
        .add(drop.spare)
        .add(drop.aim.is_some());
    if let Some(aim) = drop.aim {
        figures.add(aim.dx).add(aim.dy);
    }
    for cable in &drop.cables {
        kind(plan, cable.kind, &mut figures);
    }
    figures
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
    let of_wall = |wall: &Wall| {
        let rows = rows(design, |row| row.wall == Some(wall.id));
        let mut figures = holes_figures(design, &rows);
        figures
            .text(&level.name)
            .add(code::role(wall.role))
            .length(wall.width().0);
        Matter {
            what: format!("{} {}", wall.role.name(), wall.lumber.name()),
            says: rows.iter().map(|row| hole_words(plan, row)).collect(),
            ..matter(
                Item::Wall(wall.id),
                Some(level.id),
                wall.label(),
                &mut figures,
            )
        }
    };
    bearing.map(of_wall).collect()
}

/// The holes in joists worked from a level.
fn of_joists(plan: &Plan, design: &Design, level: &Level) -> Option<Matter> {
    let rows = rows(design, |row| row.wall.is_none() && row.level == level.id);
    let member = rows.first()?.member.clone();
    let mut figures = holes_figures(design, &rows);
    figures.text(&level.name);
    let (item, name) = (Item::Joists(level.id), format!("Joists, {}", level.name));
    Some(Matter {
        what: member,
        says: rows.iter().map(|row| hole_words(plan, row)).collect(),
        ..matter(item, Some(level.id), name, &mut figures)
    })
}

fn rows(design: &Design, is_meant: impl Fn(&DrillRow) -> bool) -> Vec<&DrillRow> {
    design
        .drill_list
        .iter()
        .filter(|row| is_meant(row))
        .collect()
}

/// "5 studs: 3/4 in hole, 30 in AFF, 5 nail plates; W4, studs 9 to 13 from its W2 end".
fn hole_words(plan: &Plan, row: &DrillRow) -> String {
    let mut words = format!(
        "{}: {} hole, {}",
        row.what,
        plan.units.size(row.bit),
        row.height
    );
    for (count, one) in [(row.nail_plates, "nail plate"), (row.ties, "tie")] {
        if count > 0 {
            words.push_str(&format!(", {}", counted(count, one)));
        }
    }
    format!("{words}; {}", row.location)
}

fn holes_figures(design: &Design, rows: &[&DrillRow]) -> Figures {
    let mut figures = Figures::default();
    let bores = rows.iter().flat_map(|row| &row.bores);
    for bore in bores.filter_map(|place| design.bores.get(*place)) {
        let crossing = design.ways.crossings.get(bore.crossing);
        figures
            .add(crossing.map_or(-1, |crossing| code::member(&crossing.member)))
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
    figures
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
        .add(code::entry(closet.entry))
        .add(closet.panel_height.0)
        .add(i64::from(closet.on_wall().is_some()));
    if let Some(at) = closet.in_front(plan, 0.0) {
        figures.length(at.x).length(at.y);
    }
    for port in &ports {
        kind(plan, port.kind, &mut figures);
        figures.add(port.powered);
    }
    let what = closet_place(plan, closet.level);
    figures.text(&what);
    Some(Matter {
        what,
        says,
        ..matter(Item::Closet, None, String::from("Closet"), &mut figures)
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
        says,
        ..matter(Item::Date, None, String::from("Dates"), &mut figures)
    })
}

fn of_job(plan: &Plan) -> Matter {
    let mut figures = Figures::default();
    figures.text(&plan.title).text(&plan.note);
    let note = match plan.note.is_empty() {
        true => String::from("No note to it."),
        false => plan.note.clone(),
    };
    Matter {
        what: plan.title.clone(),
        says: vec![note],
        ..matter(Item::Job, None, String::from("Job"), &mut figures)
    }
}
