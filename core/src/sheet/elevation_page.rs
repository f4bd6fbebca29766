//! Wall elevations: every wall that gets a bore or a box, each at the largest usual scale that fits,
//! as many to a page as find room.

use super::mark::Laid;
use super::paper::{Area, Extent, Lie, Scale};
use super::table::{BODY, ID, text};
use super::{Draft, Kind, Paper, frame};
use crate::design::Design;
use crate::framing::{WallFraming, room_at};
use crate::picture::font::{self, Weight};
use crate::picture::{Anchor, Ink, Item, Picture, Shape, Type, best_side, elevation};
use crate::plan::{Level, Plan, Side, Wall};
use crate::shape::Pos;

/// Room beside a wall for labels and dimensions, paper millimetres.
const BESIDE: f64 = 34.0;
/// Nothing is drawn larger than this.
const LARGEST: f64 = 24.0;
/// Height of an elevation's heading.
const HEAD: f64 = 12.0;
/// Space under an elevation.
const GAP: f64 = 5.0;
/// The most of a page's height that a wall itself takes, so that two walls find room.
const SHARE: f64 = 0.26;
/// ... on paper wider than this, millimetres, where headings and dimensions take less of it.
const WIDE: (f64, f64) = (300.0, 0.32);
/// ... and what it takes where it has more rows of bores than this, so that they come apart.
const BUSY: (usize, f64) = (6, 0.45);
/// How often a wall whose labels reach beyond the page is drawn smaller, and by how much.
const SMALLER: (usize, f64) = (6, 0.85);

/// The pages of wall elevations; none where nothing is bored and nothing hangs.
pub(super) fn pages(plan: &Plan, design: &Design, paper: &Paper) -> Vec<Draft> {
    let extent = paper
        .extents(Lie::Landscape)
        .first()
        .copied()
        .unwrap_or_default();
    let body = frame::body(plan, extent);
    let mut drafts: Vec<Draft> = Vec::new();
    for level in &plan.levels {
        let mut stack = Stack {
            body,
            extent,
            level,
            top: body.low.y,
            layers: Vec::new(),
            drafts: Vec::new(),
        };
        for wall in level
            .walls
            .iter()
            .filter(|wall| is_worked(plan, design, wall))
        {
            stack.put(one(plan, design, level, wall, body));
        }
        stack.turn();
        drafts.extend(stack.drafts);
    }
    drafts
}

/// Whether a wall gets a bore, a box or the closet.
fn is_worked(plan: &Plan, design: &Design, wall: &Wall) -> bool {
    let bored = design
        .drill_list
        .iter()
        .any(|row| row.wall == Some(wall.id));
    let on_wall =
        |drop: &crate::plan::Drop| drop.place.on_wall().is_some_and(|(on, _)| on == wall.id);
    let closet = plan.closet.and_then(|closet| closet.on_wall());
    bored || closet == Some(wall.id) || plan.drops.iter().any(on_wall)
}

/// An elevation with its heading: layers from (0, 0) down, and its height.
struct Drawn {
    layers: Vec<Laid>,
    height: f64,
}

fn one(plan: &Plan, design: &Design, level: &Level, wall: &Wall, body: Area) -> Drawn {
    let side = best_side(plan, wall.id);
    let frame = design.framing.wall(wall.id);
    let length = frame.map_or(0.0, |frame| frame.end - frame.start);
    let rows = design.drill_list.iter();
    let rows = rows.filter(|row| row.wall == Some(wall.id)).count();
    let share = match rows > BUSY.0 {
        true => BUSY.1,
        false if body.width() > WIDE.0 => WIDE.1,
        false => SHARE,
    };
    let house = (length, level.ceiling.f64());
    let drawn = |part: f64| {
        let room = ((body.width() - 2.0 * BESIDE) * part, body.height() * share);
        let scale = Scale::fitting(plan.units, LARGEST, house, room);
        let picture = elevation(plan, design, wall.id, side, scale.ratio, Type::PAPER);
        let (low, high) = picture.bounds().unwrap_or_default();
        let part_of_paper = 1.0 / scale.ratio;
        (scale, picture, low * part_of_paper, high * part_of_paper)
    };
    let mut part = 1.0;
    let (mut scale, mut picture, mut low, mut high) = drawn(part);
    for _ in 0..SMALLER.0 {
        if high.x - low.x <= body.width() {
            break;
        }
        part *= SMALLER.1;
        (scale, picture, low, high) = drawn(part);
    }
    let mut heading = Picture::at_scale(1.0);
    if let Some(frame) = frame {
        head(
            &mut heading,
            plan,
            level,
            frame,
            (wall, side),
            scale,
            body.width(),
        );
    }
    // The wall starts after the room its labels take on the left, but never outside the body.
    let left = (-low.x).max(BESIDE.min(body.width() - high.x)).max(-low.x);
    let layers = vec![
        Laid {
            picture: heading,
            origin: Pos::default(),
        },
        Laid {
            picture,
            origin: Pos::new(left, HEAD - low.y),
        },
    ];
    Drawn {
        layers,
        height: HEAD + high.y - low.y,
    }
}

/// "W6 seen from Living, its W4 end on the left", and under it what the wall is.
fn head(
    picture: &mut Picture,
    plan: &Plan,
    level: &Level,
    frame: &WallFraming,
    (wall, side): (&Wall, Side),
    scale: Scale,
    width: f64,
) {
    let title = format!(
        "{} seen from {}, its {} on the left",
        wall.label(),
        seen_from(level, wall, side),
        frame.end_name(side == Side::Right)
    );
    let title = font::shorten(&title, Weight::Bold, ID, width);
    let at = |y: f64| Pos::new(0.0, y);
    picture.push(text(at(4.2), Anchor::Start, ID, Weight::Bold, &title));
    let words = format!(
        "{} · {} {}, {}studs {} on centre from its {} · distances from the ends of its plates · heights AFF",
        scale.name,
        wall.role.name(),
        wall.lumber.name(),
        if wall.doubled { "doubled " } else { "" },
        plan.units.size(wall.spacing),
        frame.layout_end_name(wall.layout),
    );
    let words = font::shorten(&words, Weight::Regular, BODY, width);
    picture.push(text(at(9.0), Anchor::Start, BODY, Weight::Regular, &words));
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

/// Elevations of one level, put under each other and over pages.
struct Stack<'p> {
    body: Area,
    extent: Extent,
    level: &'p Level,
    top: f64,
    layers: Vec<Laid>,
    drafts: Vec<Draft>,
}

impl Stack<'_> {
    fn put(&mut self, drawn: Drawn) {
        if self.top + drawn.height > self.body.high.y && !self.layers.is_empty() {
            self.turn();
        }
        let corner = Pos::new(self.body.low.x, self.top);
        if self.top > self.body.low.y {
            let y = self.top - GAP / 2.0 - 1.0;
            let mut rule = Picture::at_scale(1.0);
            let ends = vec![Pos::new(self.body.low.x, y), Pos::new(self.body.high.x, y)];
            rule.push(Item::plain(Ink::Rule, Shape::Line(ends)));
            self.layers.push(Laid {
                picture: rule,
                origin: Pos::default(),
            });
        }
        self.layers
            .extend(drawn.layers.into_iter().map(|laid| Laid {
                origin: laid.origin + corner,
                ..laid
            }));
        self.top += drawn.height + GAP;
    }

    /// Ends the page, if anything is on it.
    fn turn(&mut self) {
        self.top = self.body.low.y;
        if self.layers.is_empty() {
            return;
        }
        self.drafts.push(Draft {
            kind: Kind::Elevations(self.level.id),
            title: format!("{}, wall elevations", self.level.name),
            subtitle: String::from("Black dots are bores, numbered as in the drill list. Small numbers count the full studs."),
            name: format!("{} · wall elevations", self.level.name),
            corner: self.level.name.clone(),
            extent: self.extent,
            layers: std::mem::take(&mut self.layers),
            scale: None,
        });
    }
}
