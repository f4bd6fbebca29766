//! One page a level: its plan at a true scale, with scale bar and legend.

use super::mark::Laid;
use super::paper::{Area, Extent, Lie, Scale};
use super::table::{BODY, text};
use super::{Draft, Kind, Paper, building, frame};
use crate::design::Design;
use crate::picture::font::{MM_PER_POINT, Weight};
use crate::picture::legend::{Entry, SCALE_BAR_HEIGHT, entries, lay_out, scale_bar};
use crate::picture::{Anchor, Ink, Item, Picture, Shape, Showing, Type, level as draw_level};
use crate::plan::{Level, Plan};
use crate::shape::Pos;

/// Room for labels beside the house and over and under it, paper millimetres.
const AROUND: (f64, f64) = (12.0, 7.0);
/// Nothing is drawn larger than this: 1/2 in = 1 ft, or 1:20.
const LARGEST: f64 = 20.0;
/// Space between plan and legend.
const GAP: f64 = 3.0;

/// A level's plan pages: one, or one a building where buildings stand so far apart that drawing
/// them together would make all of them small.
pub(super) fn pages(plan: &Plan, design: &Design, paper: &Paper, level: &Level) -> Vec<Draft> {
    let signs = signs(plan, design, level);
    let whole = [building::whole(design, level)];
    let apart = building::apart(level);
    let ratio = |buildings: &[(Pos, Pos)]| {
        let scales = buildings
            .iter()
            .map(|b| choose(plan, paper, *b, &signs).1.ratio);
        scales.fold(0.0, f64::max)
    };
    let buildings = match apart.len() > 1 && ratio(&apart) < ratio(&whole) {
        true => apart,
        false => whole.to_vec(),
    };
    let count = buildings.len();
    let numbered = buildings.into_iter().enumerate();
    numbered
        .map(|(place, bounds)| {
            let part = (count > 1).then_some(place + 1);
            page(plan, design, paper, level, bounds, part, &signs)
        })
        .collect()
}

/// One building of a level, or all of it.
fn page(
    plan: &Plan,
    design: &Design,
    paper: &Paper,
    level: &Level,
    bounds: (Pos, Pos),
    part: Option<usize>,
    signs: &[Entry],
) -> Draft {
    let (extent, scale, foot) = choose(plan, paper, bounds, signs);
    let body = frame::body(plan, extent);
    let room = Area::new(body.low, body.high - Pos::new(0.0, foot));
    let region = part.map(|_| building::around(bounds));
    let mut layers = vec![draw(plan, design, level, scale, bounds, room, region)];
    let under = Area::new(Pos::new(body.low.x, room.high.y + GAP), body.high);
    layers.extend(furniture(plan, signs, scale, under));
    let building = part.map_or(String::new(), |number| format!(", building {number}"));
    Draft {
        kind: Kind::Level(level.id),
        title: format!("{}, plan{building}", level.name),
        subtitle: format!(
            "{} · heights above the finished floor (AFF) to the centre of the box · bold numbers: drill list",
            scale.name
        ),
        name: format!("{} · plan{building}", level.name),
        corner: level.name.clone(),
        extent,
        layers,
        scale: Some(scale),
    }
}

/// The legend's entries. Which signs a level needs does not depend on its scale.
fn signs(plan: &Plan, design: &Design, level: &Level) -> Vec<Entry> {
    let showing = Showing::on_paper(100.0, None);
    let picture = draw_level(plan, design, level.id, &showing);
    entries(plan, &picture, Type::PAPER)
}

/// The way the page lies and the scale that shows the level largest, and the height of its foot.
fn choose(
    plan: &Plan,
    paper: &Paper,
    (low, high): (Pos, Pos),
    signs: &[Entry],
) -> (Extent, Scale, f64) {
    let house = (high.x - low.x, high.y - low.y);
    let options = paper.extents(Lie::Landscape).into_iter().map(|extent| {
        let body = frame::body(plan, extent);
        let legend = legend(signs, body.width()).1 + SCALE_BAR_HEIGHT + GAP;
        let foot = legend.max(NORTH) + GAP;
        let room = (
            body.width() - 2.0 * AROUND.0,
            body.height() - foot - 2.0 * AROUND.1,
        );
        let scale = Scale::fitting(plan.units, LARGEST, house, room);
        (extent, scale, foot)
    });
    let best = options.reduce(|best, next| match next.1.ratio < best.1.ratio {
        true => next,
        false => best,
    });
    best.unwrap_or((
        paper.size.landscape(),
        Scale::fitting(plan.units, LARGEST, house, (1.0, 1.0)),
        NORTH,
    ))
}

/// Draws the level in the middle of its room.
fn draw(
    plan: &Plan,
    design: &Design,
    level: &Level,
    scale: Scale,
    (low, high): (Pos, Pos),
    room: Area,
    region: Option<(Pos, Pos)>,
) -> Laid {
    let middle = (low + high) * 0.5;
    let origin = room.middle() - middle * (1.0 / scale.ratio);
    let on_plan = |at: Pos| (at - origin) * scale.ratio;
    let frame = Some((on_plan(room.low), on_plan(room.high)));
    let showing = Showing {
        region,
        ..Showing::on_paper(scale.ratio, frame)
    };
    Laid {
        picture: draw_level(plan, design, level.id, &showing),
        origin,
    }
}

fn legend(signs: &[Entry], width: f64) -> (Picture, f64) {
    lay_out(signs, Type::PAPER, width - NORTH - 4.0)
}

/// Scale bar, north mark and legend in the foot.
fn furniture(plan: &Plan, signs: &[Entry], scale: Scale, under: Area) -> Vec<Laid> {
    let room = (under.width() * 0.45).min(110.0);
    let bar = Laid {
        picture: scale_bar(scale.ratio, plan.units, Type::PAPER, room),
        origin: under.low + Pos::new(2.0, 0.0),
    };
    let mut north = Picture::at_scale(1.0);
    let ring = Pos::new(under.high.x - NORTH / 2.0, under.low.y + NORTH / 2.0);
    north_mark(&mut north, ring);
    let end = bar.picture.bounds().map_or(room, |(_, high)| high.x);
    let at = under.low + Pos::new(end + 8.0, BODY * 0.7);
    north.push(text(at, Anchor::Start, BODY, Weight::Bold, scale.name));
    let legend = Laid {
        picture: legend(signs, under.width()).0,
        origin: under.low + Pos::new(0.0, SCALE_BAR_HEIGHT + GAP),
    };
    let north = Laid {
        picture: north,
        origin: Pos::default(),
    };
    vec![bar, north, legend]
}

/// Width of the north mark.
const NORTH: f64 = 18.0;

/// A ring to draw the arrow into by hand: the plan does not know where north is.
fn north_mark(page: &mut Picture, middle: Pos) {
    let ring = Shape::Circle {
        at: middle,
        radius: 7.0,
    };
    page.push(Item::plain(Ink::Frame, ring));
    let words = Pos::new(middle.x, middle.y + 7.0 + 10.0 * MM_PER_POINT);
    page.push(text(
        words,
        Anchor::Middle,
        BODY,
        Weight::Regular,
        "mark north",
    ));
}
