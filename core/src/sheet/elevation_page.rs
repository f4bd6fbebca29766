//! Wall elevations: every wall that gets a bore or a box, each at the largest usual scale that finds room
//! on its page and takes no more than half of it, as many to a page as find room.

mod aside;
mod shelves;

use std::cmp::Ordering;

use self::aside::Aside;
use self::shelves::{Bodies, Filled, GAP, Shelves};
use super::frame::{self, Heading};
use super::mark::Laid;
use super::paper::{Area, Extent, Lie, Scale};
use super::table::{BODY, ID, text};
use super::{Draft, Kind, Paper};
use crate::design::Design;
use crate::file::link;
use crate::framing::{WallFraming, closet_room, drop_room, room_at};
use crate::picture::font::{self, Weight};
use crate::picture::{Anchor, Picture, Type, best_side, elevation};
use crate::plan::{ClosetPlace, Level, LevelId, Place, Plan, Side, Wall};
use crate::shape::Pos;
use crate::tongue::Tongue;

/// Nothing is drawn larger than this: 1/4 in = 1 ft, or 1:50.
const LARGEST: f64 = 48.0;
/// The least width of an elevation with its heading.
const NARROWEST: f64 = 72.0;
/// The part of a page that one elevation takes at most where it can be read at that: the largest with
/// which the fewest pages are needed.
const PARTS: [f64; 5] = [0.5, 0.42, 0.34, 0.29, 0.25];
/// No more walls than this are tried in other orders.
const MOVED: usize = 40;
/// A scale at which studs and boxes can be told apart: 1/8 in = 1 ft, or 1:100.
const READABLE: f64 = 100.0;
/// Distance between lines of a heading.
const LEADING: f64 = BODY * 1.15;

/// What a page of elevations shows.
#[derive(Clone, Copy)]
pub(super) struct Wanted<'w> {
    /// Only walls that bear and are bored, else every wall that is worked on.
    pub bearing: bool,
    /// Where the page lives, for the codes beside the walls.
    pub address: Option<&'w str>,
}

/// The pages of wall elevations; none where nothing is bored and nothing hangs.
pub(super) fn pages(plan: &Plan, design: &Design, paper: &Paper, wanted: Wanted<'_>) -> Vec<Draft> {
    let version = link::version(plan).code().unwrap_or_default();
    let of = |extent| {
        let pages = ElevationPages {
            plan,
            design,
            wanted,
            extent,
            version: &version,
            tongue: paper.tongue,
        };
        pages.drafts()
    };
    // The way the pages lie that takes fewer of them.
    let both = paper.extents(Lie::Landscape).into_iter().map(of);
    both.min_by_key(Vec::len).unwrap_or_default()
}

/// What the elevations of a job are made of.
struct ElevationPages<'p> {
    plan: &'p Plan,
    design: &'p Design,
    wanted: Wanted<'p>,
    extent: Extent,
    version: &'p str,
    tongue: Tongue,
}

/// An elevation with its heading: layers from (0, 0) down.
struct Drawn {
    wall: String,
    layers: Vec<Laid>,
    width: f64,
    height: f64,
    /// House millimetres to one of paper.
    ratio: f64,
    aside: Aside,
}

impl ElevationPages<'_> {
    /// The pages, on as few of them as the scales allow. What holds for all of them is said on the first.
    fn drafts(&self) -> Vec<Draft> {
        let all: Vec<(LevelId, String)> = self.worked().map(named).collect();
        let plain = self.heading(&all, false);
        let of = |heading: &Heading| frame::body(self.plan, self.extent, heading);
        let bodies = Bodies {
            first: of(&plain),
            rest: of(&plain.going_on()),
        };
        let walls: Vec<(LevelId, Vec<Drawn>)> = self
            .worked()
            .map(|(level, wall)| (level.id, self.scales(level, wall, bodies.rest)))
            .collect();
        let draft = |(place, page): (usize, Filled)| {
            let body = bodies.of(place);
            let heading = |naming| match (place, self.heading(&page.walls(), naming)) {
                (0, heading) => heading,
                (_, heading) => heading.going_on(),
            };
            // The walls are named in the title where that takes no room from them.
            let named = heading(true);
            let is_low = of(&named).low.y <= body.low.y + 1e-9;
            Draft {
                heading: if is_low { named } else { heading(false) },
                extent: self.extent,
                layers: page.layers(body),
                scale: None,
                goes_on: false,
            }
        };
        let fewest = fewest(bodies, &walls);
        let pages = fewest.map(Shelves::pages).unwrap_or_default();
        pages.into_iter().enumerate().map(draft).collect()
    }

    /// Every wall that is worked on, with its level.
    fn worked(&self) -> impl Iterator<Item = (&Level, &Wall)> {
        let walls = self
            .plan
            .levels
            .iter()
            .flat_map(|level| level.walls.iter().map(move |wall| (level, wall)));
        walls.filter(|(_, wall)| self.is_worked(wall))
    }

    /// The heading of a page with these walls on it, with or without their names.
    fn heading(&self, walls: &[(LevelId, String)], naming: bool) -> Heading {
        let mut levels: Vec<LevelId> = walls.iter().map(|(level, _)| *level).collect();
        levels.dedup();
        let first = levels.first().copied().unwrap_or(LevelId(0));
        let name = |id: &LevelId| self.plan.level(*id).map_or("", |level| level.name.as_str());
        let of: Vec<&str> = levels.iter().map(name).collect();
        let of = of.join(", ");
        let what = match self.wanted.bearing {
            true => "walls that bear and are bored",
            false => "wall elevations",
        };
        let left_out = match self.wanted.bearing {
            true => "Walls that do not bear, or are not bored, are left out.",
            false => "Walls without bore, box or panel are left out.",
        };
        let coded = match self.wanted.address {
            Some(_) => {
                " The code opens the wall on a phone that has the job; beside it, in red: what was drilled elsewhere."
            }
            None => "",
        };
        let walls: Vec<&str> = walls.iter().map(|(_, wall)| wall.as_str()).collect();
        let walls = match naming {
            true => format!(" · {}", walls.join(" ")),
            false => String::new(),
        };
        let heading = Heading {
            kind: Kind::Elevations(first),
            title: format!("{of}, {what}{walls}"),
            subtitle: format!(
                "Black dots: bores, numbered as in the drill list. Small numbers count the full studs. Boxes from the corners as in the room list, bores from the ends of the plates, heights (AFF) from under the bottom plate. {left_out}{coded}"
            ),
            name: format!("{of} · {what}"),
            corner: match levels.len() {
                0 | 1 => of,
                _ => String::from("Elevations"),
            },
            tongue: self.tongue,
        };
        heading.said()
    }

    /// Whether a wall gets a bore, a box or the closet.
    fn is_worked(&self, wall: &Wall) -> bool {
        let mut rows = self.design.drill_list.iter();
        let bored = rows.any(|row| row.wall == Some(wall.id));
        if self.wanted.bearing {
            return bored && wall.role.is_bearing();
        }
        let on_wall =
            |drop: &crate::plan::Drop| drop.place.on_wall().is_some_and(|(on, _)| on == wall.id);
        let closet = self.plan.closet.and_then(|closet| closet.on_wall());
        bored || closet == Some(wall.id) || self.plan.drops.iter().any(on_wall)
    }

    /// A wall at each usual scale at which it may be drawn, the largest first: those at which it can be
    /// read, or the largest at which it fits the page.
    fn scales(&self, level: &Level, wall: &Wall, body: Area) -> Vec<Drawn> {
        let frame = self.design.framing.wall(wall.id);
        let length = frame.map_or(0.0, |frame| frame.end - frame.start);
        let house = (length, level.ceiling.f64());
        let (units, room) = (self.plan.units, (body.width(), body.height()));
        let mut scale = Scale::fitting(units, LARGEST, house, room);
        let mut found = Vec::new();
        loop {
            let drawn = self.at((level, wall), frame, scale, body.width());
            let fits = drawn.height <= room.1 && drawn.width <= room.0;
            let next = scale.smaller(units);
            if fits || next.is_none() {
                found.push(drawn);
            }
            match next.filter(|next| found.is_empty() || next.ratio <= READABLE) {
                Some(smaller) => scale = smaller,
                None => return found,
            }
        }
    }

    /// A wall at a scale, with its heading.
    fn at(
        &self,
        (level, wall): (&Level, &Wall),
        frame: Option<&WallFraming>,
        scale: Scale,
        room: f64,
    ) -> Drawn {
        let side = best_side(self.plan, wall.id);
        let sizes = (Type::PAPER, self.tongue);
        let picture = elevation(self.plan, self.design, wall.id, side, scale.ratio, sizes);
        let (low, high) = picture.bounds().unwrap_or_default();
        let (low, high) = (low * (1.0 / scale.ratio), high * (1.0 / scale.ratio));
        let width = (high.x - low.x).max(NARROWEST.min(room));
        // Beside which no other finds room, its words take all the width.
        let width = match width + GAP.0 + NARROWEST > room {
            true => width.max(room),
            false => width,
        };
        let words = frame.map(|frame| self.words(frame, (level, wall), side, scale));
        let words = words.unwrap_or_default();
        let mut heading = Picture::at_scale(1.0);
        let head = draw_head(&mut heading, &wall.label(), &words, width);
        let laid = |picture, origin| Laid { picture, origin };
        let layers = vec![
            laid(heading, Pos::default()),
            laid(picture, Pos::new(-low.x, head - low.y)),
        ];
        Drawn {
            wall: wall.label(),
            layers,
            width,
            height: head + high.y - low.y,
            ratio: scale.ratio,
            aside: self.aside(wall),
        }
    }

    /// What stands in the margin beside a wall.
    fn aside(&self, wall: &Wall) -> Aside {
        let margin = (frame::OUTER, self.tongue);
        let named = (wall.id, wall.label());
        Aside::of(self.wanted.address, self.version, named, margin)
    }

    /// The rooms of what hangs on a wall's side, as the lists name them; where nothing does, what lies at its
    /// middle.
    fn seen_from(&self, level: &Level, wall: &Wall, side: Side) -> String {
        let drops = self.plan.drops.iter().filter(|drop| {
            let facing = match drop.place {
                Place::Wall { wall, side, .. } => Some((wall, side)),
                _ => None,
            };
            facing == Some((wall.id, side))
        });
        let rooms = drops.filter_map(|drop| drop_room(self.plan, drop));
        let closet = self.plan.closet.filter(|closet| {
            matches!(closet.place, ClosetPlace::Wall { wall: on, side: of, .. } if (on, of) == (wall.id, side))
        });
        let panel = closet.and_then(|_| closet_room(self.plan));
        let mut names: Vec<&str> = Vec::new();
        for room in rooms.chain(panel) {
            if !names.contains(&room.name.as_str()) {
                names.push(&room.name);
            }
        }
        match names.is_empty() {
            true => seen_from(level, wall, side),
            false => names.join(" / "),
        }
    }

    /// "seen from Living, W4 end on the left · 1/4 in = 1 ft · bearing 2x4, 16 in o.c. from its W4 end"; behind the level where a job has more than one.
    fn words(
        &self,
        frame: &WallFraming,
        (level, wall): (&Level, &Wall),
        side: Side,
        scale: Scale,
    ) -> String {
        let on = match self.plan.levels.len() {
            0 | 1 => String::new(),
            _ => format!("{} · ", level.name),
        };
        let words = format!(
            "{on}seen from {}, {} on the left · {} · {} {}, {}{} o.c. from its {}",
            self.seen_from(level, wall, side),
            frame.end_name(side == Side::Right),
            scale.name,
            wall.role.name(),
            wall.lumber.name(),
            if wall.doubled { "doubled studs " } else { "" },
            self.plan.units.size(wall.spacing),
            frame.layout_end_name(wall.layout),
        );
        self.tongue.say(&words)
    }
}

/// A level with a wall of it at its scales.
type Scaled = (LevelId, Vec<Drawn>);

/// The walls on as few pages as some tries find, as large as they go there: at several parts of a page, in the
/// order of the walls, else of each level's walls the widest or the tallest first; then from the best of these on
/// with one wall at a time put before another of its level, as long as that is better.
fn fewest(bodies: Bodies, walls: &[Scaled]) -> Option<Shelves<'_>> {
    let least =
        |scales: &[Drawn], of: fn(&Drawn) -> f64| scales.iter().map(of).fold(f64::MAX, f64::min);
    let sorted = |of: fn(&Drawn) -> f64| -> Vec<&Scaled> {
        let mut sorted = Vec::new();
        for level in walls.chunk_by(|(one, _), (other, _)| one == other) {
            let mut level: Vec<&Scaled> = level.iter().collect();
            level.sort_by(|a, b| least(&b.1, of).total_cmp(&least(&a.1, of)));
            sorted.extend(level);
        }
        sorted
    };
    let orders = [
        walls.iter().collect(),
        sorted(|drawn| drawn.width),
        sorted(|drawn| drawn.height),
    ];
    let tries = orders.into_iter().flat_map(|order| {
        PARTS.map(|part| {
            let worth = shelved(bodies, part, &order).worth();
            (worth, part, order.clone())
        })
    });
    let best = tries.min_by(|(one, ..), (other, ..)| better(one, other))?;
    let (_, part, order) = improved(bodies, best);
    Some(shelved(bodies, part, &order))
}

fn shelved<'d>(bodies: Bodies, part: f64, order: &[&'d Scaled]) -> Shelves<'d> {
    let mut shelves = Shelves::new(bodies, part);
    for (level, scales) in order {
        shelves.put(*level, scales);
    }
    shelves
}

type Worth = (usize, f64, f64);

fn better(one: &Worth, other: &Worth) -> Ordering {
    let by_size = one.1.total_cmp(&other.1);
    one.0
        .cmp(&other.0)
        .then(by_size)
        .then(one.2.total_cmp(&other.2))
}

/// An order with its part of a page, improved a wall at a time; a bounded number of tries.
fn improved(
    bodies: Bodies,
    (mut worth, mut part, mut order): (Worth, f64, Vec<&Scaled>),
) -> (Worth, f64, Vec<&Scaled>) {
    let count = order.len().min(MOVED);
    let moves = (0..count).flat_map(|from| (0..count).map(move |to| (from, to)));
    let mut round = moves.clone();
    let mut since = 0;
    while since < count * count {
        since += 1;
        let Some((from, to)) = round.next() else {
            round = moves.clone();
            continue;
        };
        let mut next = order.clone();
        if next[from].0 != next[to].0 || from == to {
            continue;
        }
        let wall = next.remove(from);
        next.insert(to, wall);
        for other in PARTS {
            let found = shelved(bodies, other, &next).worth();
            if better(&found, &worth).is_lt() {
                (worth, part, since) = (found, other, 0);
                order.clone_from(&next);
            }
        }
    }
    (worth, part, order)
}

fn named((level, wall): (&Level, &Wall)) -> (LevelId, String) {
    (level.id, wall.label())
}

/// A wall's name in bold and beside it what is seen. Returns its height.
fn draw_head(picture: &mut Picture, name: &str, words: &str, width: f64) -> f64 {
    let beside = font::width(name, Weight::Bold) * ID + 2.0;
    let base = ID * font::ASCENT + 0.4;
    picture.push(text(
        Pos::new(0.0, base),
        Anchor::Start,
        ID,
        Weight::Bold,
        name,
    ));
    let lines = font::wrap(words, Weight::Regular, BODY, width - beside);
    for (down, line) in lines.iter().enumerate() {
        let at = Pos::new(beside, base + down as f64 * LEADING);
        picture.push(text(at, Anchor::Start, BODY, Weight::Regular, line));
    }
    base + lines.len().saturating_sub(1) as f64 * LEADING + 2.4
}

/// What lies on a side of a wall's middle: a room by its name, else "inside" or "outside".
pub(super) fn seen_from(level: &Level, wall: &Wall, side: Side) -> String {
    let aside = side.sign() * (wall.width().0 / 2.0 + 300.0);
    let at = wall.line().map(|line| line.at(line.length / 2.0, aside));
    let outline = crate::framing::Outline::of(level);
    let Some(at) = at.filter(|at| !outline.closed || outline.contains(*at)) else {
        return String::from("outside");
    };
    room_at(level, at).map_or_else(|| String::from("inside"), |room| room.name.clone())
}
