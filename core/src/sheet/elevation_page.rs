//! Wall elevations: every wall that gets a bore or a box, each at the largest usual scale that finds room
//! on its page and takes no more than half of it, as many to a page as find room.

use super::frame::{self, Heading};
use super::mark::Laid;
use super::paper::{Area, Extent, Lie, Scale};
use super::table::{BODY, ID, text};
use super::{Draft, Kind, Paper};
use crate::design::Design;
use crate::framing::{WallFraming, room_at};
use crate::picture::font::{self, Weight};
use crate::picture::{Anchor, Ink, Item, Picture, Shape, Type, best_side, elevation};
use crate::plan::{Level, Plan, Side, Wall};
use crate::shape::Pos;
use crate::tongue::Tongue;

/// Nothing is drawn larger than this: 1/4 in = 1 ft, or 1:50.
const LARGEST: f64 = 48.0;
/// Space between two elevations, side by side and under each other.
const GAP: (f64, f64) = (7.0, 4.5);
/// The least width of an elevation with its heading.
const NARROWEST: f64 = 58.0;
/// The part of a page that one elevation takes at most where it can be read at that: the largest with
/// which the fewest pages are needed.
const PARTS: [f64; 3] = [0.5, 0.42, 0.34];
/// A scale at which studs and boxes can be told apart: 1/8 in = 1 ft, or 1:100.
const READABLE: f64 = 100.0;
/// Distance between lines of a heading.
const LEADING: f64 = BODY * 1.15;

/// The pages of wall elevations; none where nothing is bored and nothing hangs. Of every wall that is
/// worked on, or only of those that bear and are bored.
pub(super) fn pages(plan: &Plan, design: &Design, paper: &Paper, bearing: bool) -> Vec<Draft> {
    let levels = plan.levels.iter();
    let drafts = levels.flat_map(|level| {
        let of = |extent| {
            let page = ElevationPages {
                plan,
                design,
                level,
                bearing,
                extent,
                tongue: paper.tongue,
            };
            page.drafts()
        };
        // The way the pages lie that takes fewer of them.
        let both = paper.extents(Lie::Landscape).into_iter().map(of);
        both.min_by_key(Vec::len).unwrap_or_default()
    });
    drafts.collect()
}

/// What the elevations of a level are made of.
struct ElevationPages<'p> {
    plan: &'p Plan,
    design: &'p Design,
    level: &'p Level,
    bearing: bool,
    extent: Extent,
    tongue: Tongue,
}

/// An elevation with its heading: layers from (0, 0) down.
struct Drawn {
    wall: String,
    layers: Vec<Laid>,
    width: f64,
    height: f64,
}

impl ElevationPages<'_> {
    /// The pages, on as few of them as the scales allow.
    fn drafts(&self) -> Vec<Draft> {
        let body = frame::body(self.plan, self.extent, &self.heading(&[]));
        let walls = self.level.walls.iter().filter(|wall| self.is_worked(wall));
        let walls: Vec<Vec<Drawn>> = walls.map(|wall| self.scales(wall, body)).collect();
        let packed = PARTS.map(|part| {
            let mut rows = Rows::new(body, part);
            walls.iter().for_each(|scales| rows.put(scales));
            rows.pages
        });
        let fewest = packed.into_iter().min_by_key(Vec::len).unwrap_or_default();
        let draft = |(walls, layers): (Vec<String>, Vec<Laid>)| Draft {
            heading: self.heading(&walls),
            extent: self.extent,
            layers,
            scale: None,
        };
        fewest.into_iter().map(draft).collect()
    }

    /// The heading of a page with these walls on it.
    fn heading(&self, walls: &[String]) -> Heading {
        let name = &self.level.name;
        let what = match self.bearing {
            true => "walls that bear and are bored",
            false => "wall elevations",
        };
        let left_out = match self.bearing {
            true => "Walls that do not bear, or are not bored, are left out.",
            false => "Walls without bore, box or panel are left out.",
        };
        let title = match walls {
            [] => format!("{name}, {what}"),
            [one] => format!("{name}, {what} · {one}"),
            [first, .., last] => format!("{name}, {what} · {first} to {last}"),
        };
        let heading = Heading {
            kind: Kind::Elevations(self.level.id),
            title,
            subtitle: format!(
                "Black dots: bores, numbered as in the drill list. Small numbers count the full studs. Distances from the ends of the plates, heights AFF. {left_out}"
            ),
            name: format!("{name} · {what}"),
            corner: name.clone(),
            tongue: self.tongue,
        };
        heading.said()
    }

    /// Whether a wall gets a bore, a box or the closet.
    fn is_worked(&self, wall: &Wall) -> bool {
        let mut rows = self.design.drill_list.iter();
        let bored = rows.any(|row| row.wall == Some(wall.id));
        if self.bearing {
            return bored && wall.role.is_bearing();
        }
        let on_wall =
            |drop: &crate::plan::Drop| drop.place.on_wall().is_some_and(|(on, _)| on == wall.id);
        let closet = self.plan.closet.and_then(|closet| closet.on_wall());
        bored || closet == Some(wall.id) || self.plan.drops.iter().any(on_wall)
    }

    /// A wall at each usual scale at which it may be drawn, the largest first: those at which it can be
    /// read, or the largest at which it fits the page.
    fn scales(&self, wall: &Wall, body: Area) -> Vec<Drawn> {
        let frame = self.design.framing.wall(wall.id);
        let length = frame.map_or(0.0, |frame| frame.end - frame.start);
        let house = (length, self.level.ceiling.f64());
        let (units, room) = (self.plan.units, (body.width(), body.height()));
        let mut scale = Scale::fitting(units, LARGEST, house, room);
        let mut found = Vec::new();
        loop {
            let drawn = self.at(wall, frame, scale, body.width());
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

    fn at(&self, wall: &Wall, frame: Option<&WallFraming>, scale: Scale, room: f64) -> Drawn {
        let side = best_side(self.plan, wall.id);
        let sizes = (Type::PAPER, self.tongue);
        let picture = elevation(self.plan, self.design, wall.id, side, scale.ratio, sizes);
        let (low, high) = picture.bounds().unwrap_or_default();
        let (low, high) = (low * (1.0 / scale.ratio), high * (1.0 / scale.ratio));
        let width = (high.x - low.x).max(NARROWEST.min(room));
        let mut heading = Picture::at_scale(1.0);
        let words = frame.map(|frame| self.words(frame, wall, side, scale));
        let head = draw_head(
            &mut heading,
            &wall.label(),
            &words.unwrap_or_default(),
            width,
        );
        let layers = vec![
            Laid {
                picture: heading,
                origin: Pos::default(),
            },
            Laid {
                picture,
                origin: Pos::new(-low.x, head - low.y),
            },
        ];
        Drawn {
            wall: wall.label(),
            layers,
            width,
            height: head + high.y - low.y,
        }
    }

    /// "seen from Living, its W4 end on the left · 1/4 in = 1 ft · bearing 2x4, studs 16 in on centre
    /// from its W4 end".
    fn words(&self, frame: &WallFraming, wall: &Wall, side: Side, scale: Scale) -> String {
        let words = format!(
            "seen from {}, its {} on the left · {} · {} {}, {}studs {} on centre from its {}",
            seen_from(self.level, wall, side),
            frame.end_name(side == Side::Right),
            scale.name,
            wall.role.name(),
            wall.lumber.name(),
            if wall.doubled { "doubled " } else { "" },
            self.plan.units.size(wall.spacing),
            frame.layout_end_name(wall.layout),
        );
        self.tongue.say(&words)
    }
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

/// Elevations side by side, row under row and page after page.
struct Rows {
    body: Area,
    /// The most height of an elevation that can be read at that.
    part: f64,
    /// Where the next one goes, from the body's upper left corner.
    at: Pos,
    /// Height of the row so far.
    tall: f64,
    /// The walls and the marks of every page.
    pages: Vec<(Vec<String>, Vec<Laid>)>,
}

impl Rows {
    fn new(body: Area, part: f64) -> Self {
        Self {
            body,
            part: body.height() * part,
            at: Pos::default(),
            tall: 0.0,
            pages: Vec::new(),
        }
    }

    /// Puts a wall where it finds room at the largest of its scales: in the row, in the next one, else
    /// on the next page.
    fn put(&mut self, scales: &[Drawn]) {
        let part = self.part;
        let is_part = |drawn: &&Drawn| drawn.height <= part;
        let here = scales.iter().filter(is_part).find_map(|drawn| {
            let place = self.place(drawn)?;
            Some((drawn, place))
        });
        // What can only be read at more than its part takes the smallest scale at which it can be read.
        let last = scales
            .last()
            .filter(|_| !scales.iter().any(|drawn| is_part(&drawn)));
        let here = here.or_else(|| last.and_then(|drawn| Some((drawn, self.place(drawn)?))));
        match here {
            Some((drawn, place)) => self.put_at(drawn, place),
            None => {
                self.pages.push((Vec::new(), Vec::new()));
                (self.at, self.tall) = (Pos::default(), 0.0);
                let largest = scales.iter().find(is_part).or(scales.last());
                if let Some(drawn) = largest {
                    self.put_at(drawn, Pos::default());
                }
            }
        }
    }

    /// Where an elevation finds room on the page: beside the last one, else under it.
    fn place(&self, drawn: &Drawn) -> Option<Pos> {
        let (wide, high) = (self.body.width(), self.body.height());
        if self.pages.is_empty() {
            return None;
        }
        let beside = self.at.x + drawn.width <= wide && self.at.y + drawn.height <= high;
        let under = self.at.y + self.tall + GAP.1;
        match beside {
            true => Some(self.at),
            false => (under + drawn.height <= high).then(|| Pos::new(0.0, under)),
        }
    }

    fn put_at(&mut self, drawn: &Drawn, place: Pos) {
        if place.y > self.at.y {
            self.tall = 0.0;
        }
        self.at = place;
        let corner = self.body.low + place;
        let rule = self.rule(drawn.height);
        let Some((walls, layers)) = self.pages.last_mut() else {
            return;
        };
        layers.extend(rule);
        layers.extend(drawn.layers.iter().map(|laid| Laid {
            origin: laid.origin + corner,
            picture: laid.picture.clone(),
        }));
        walls.push(drawn.wall.clone());
        self.at.x += drawn.width + GAP.0;
        self.tall = self.tall.max(drawn.height);
    }

    /// What sets the next elevation off from the one over it or before it.
    fn rule(&self, height: f64) -> Option<Laid> {
        let low = self.body.low;
        let ends = match (self.at.x > 0.0, self.at.y > 0.0) {
            (true, _) => {
                let x = low.x + self.at.x - GAP.0 / 2.0;
                let y = low.y + self.at.y;
                [Pos::new(x, y), Pos::new(x, y + height)]
            }
            (false, true) => {
                let y = low.y + self.at.y - GAP.1 / 2.0;
                [Pos::new(low.x, y), Pos::new(self.body.high.x, y)]
            }
            (false, false) => return None,
        };
        let mut picture = Picture::at_scale(1.0);
        picture.push(Item::plain(Ink::Rule, Shape::Line(ends.to_vec())));
        Some(Laid {
            picture,
            origin: Pos::default(),
        })
    }
}
