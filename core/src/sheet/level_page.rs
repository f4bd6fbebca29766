//! One page a level: its plan at a true scale, with scale bar and legend.

use super::frame::{self, Heading};
use super::mark::Laid;
use super::paper::{Area, Extent, Lie, Scale};
use super::table::{BODY, text};
use super::{Draft, Kind, Paper, building};
use crate::design::Design;
use crate::picture::font::{MM_PER_POINT, Weight};
use crate::picture::legend::{Entry, SCALE_BAR_HEIGHT, entries, lay_out, scale_bar};
use crate::picture::{
    Anchor, Ink, Item, Picture, Shape, Showing, Stress, Type, level as draw_level,
};
use crate::plan::{Level, Plan};
use crate::shape::Pos;
use crate::tongue::Tongue;

/// Room for labels beside the house and over and under it, paper millimetres.
const AROUND: (f64, f64) = (12.0, 7.0);
/// ... where the next larger scale fits with that: labels then find room in larger rooms.
const CLOSE: (f64, f64) = (5.0, 5.0);
/// Nothing is drawn larger than this: 1/2 in = 1 ft, or 1:20.
const LARGEST: f64 = 20.0;
/// Space between plan and legend.
const GAP: f64 = 3.0;

/// A level's plan pages: one, or one a building where buildings stand so far apart that drawing
/// them together would make all of them small. With its ways and bores, or only with what is brought
/// where.
pub(super) fn pages(
    plan: &Plan,
    design: &Design,
    paper: &Paper,
    level: &Level,
    ways: bool,
) -> Vec<Draft> {
    let mut job = LevelPage {
        plan,
        design,
        paper,
        level,
        ways,
        signs: Vec::new(),
    };
    job.signs = job.signs();
    let whole = [building::whole(design, level)];
    let apart = building::apart(level);
    let ratio = |buildings: &[(Pos, Pos)]| {
        let scales = buildings.iter().map(|b| job.choose(*b).scale.ratio);
        scales.fold(0.0, f64::max)
    };
    let buildings = match apart.len() > 1 && ratio(&apart) < ratio(&whole) {
        true => apart,
        false => whole.to_vec(),
    };
    let count = buildings.len();
    let numbered = buildings.into_iter().enumerate();
    numbered
        .map(|(place, bounds)| job.page(bounds, (count > 1).then_some(place + 1)))
        .collect()
}

/// What a level's pages are made of.
struct LevelPage<'p> {
    plan: &'p Plan,
    design: &'p Design,
    paper: &'p Paper,
    level: &'p Level,
    ways: bool,
    /// The legend's entries, in the paper's tongue.
    signs: Vec<Entry>,
}

/// How a plan lies on its page.
struct Fit {
    extent: Extent,
    scale: Scale,
    /// Height of scale bar, north mark and legend under it.
    foot: f64,
}

impl LevelPage<'_> {
    /// One building of the level, or all of it.
    fn page(&self, bounds: (Pos, Pos), part: Option<usize>) -> Draft {
        let fit = self.choose(bounds);
        let heading = self.heading(fit.scale, part);
        let body = frame::body(self.plan, fit.extent, &heading);
        let room = Area::new(body.low, body.high - Pos::new(0.0, fit.foot));
        let region = part.map(|_| building::around(bounds));
        let mut layers = vec![self.draw(fit.scale, bounds, room, region)];
        let under = Area::new(Pos::new(body.low.x, room.high.y + GAP), body.high);
        layers.extend(self.furniture(fit.scale, under));
        Draft {
            heading,
            extent: fit.extent,
            layers,
            scale: Some(fit.scale),
            goes_on: false,
        }
    }

    fn heading(&self, scale: Scale, part: Option<usize>) -> Heading {
        let name = &self.level.name;
        let building = part.map_or(String::new(), |number| format!(", building {number}"));
        let what = if self.ways {
            "plan"
        } else {
            "what is brought where"
        };
        let heights = "heights (AFF) from under the bottom plate to the middle of the box, the floor's finish not counted";
        let numbers = match self.ways {
            true => " · bold numbers: drill list",
            false => "",
        };
        let heading = Heading {
            kind: Kind::Level(self.level.id),
            title: format!("{name}, {what}{building}"),
            subtitle: format!("{} · {heights}{numbers}", scale.name),
            name: format!("{name} · {what}{building}"),
            corner: name.clone(),
            tongue: self.paper.tongue,
        };
        heading.said()
    }

    /// What is shown of the level at a scale.
    fn showing(&self, scale: f64, frame: Option<(Pos, Pos)>) -> Showing {
        let showing = Showing::on_paper(scale, frame);
        Showing {
            stress: if self.ways {
                Stress::Paper
            } else {
                Stress::Places
            },
            tongue: self.paper.tongue,
            ..showing
        }
    }

    /// The legend's entries. Which signs a level needs does not depend on its scale.
    fn signs(&self) -> Vec<Entry> {
        let showing = self.showing(100.0, None);
        let picture = draw_level(self.plan, self.design, self.level.id, &showing);
        let mut signs = entries(self.plan, &picture, Type::PAPER);
        for sign in &mut signs {
            sign.words = self.paper.tongue.say(&sign.words);
        }
        signs
    }

    /// The way the page lies and the scale that shows the level largest.
    fn choose(&self, (low, high): (Pos, Pos)) -> Fit {
        let house = (high.x - low.x, high.y - low.y);
        let longest = Scale::fitting(self.plan.units, LARGEST, house, (1.0, 1.0));
        let fit = |(extent, around): (Extent, (f64, f64))| {
            let heading = self.heading(longest, Some(1));
            let body = frame::body(self.plan, extent, &heading);
            let legend = self.legend(body.width()).1 + SCALE_BAR_HEIGHT + GAP;
            let foot = legend.max(NORTH + UNDER_NORTH) + GAP;
            let room = (
                body.width() - 2.0 * around.0,
                body.height() - foot - 2.0 * around.1,
            );
            Fit {
                extent,
                scale: Scale::fitting(self.plan.units, LARGEST, house, room),
                foot,
            }
        };
        let extents = self.paper.extents(Lie::Landscape);
        let wide = extents.iter().map(|extent| (*extent, AROUND));
        let close = extents.iter().map(|extent| (*extent, CLOSE));
        let mut tried = wide.chain(close);
        let first = fit(tried
            .next()
            .unwrap_or((self.paper.size.landscape(), AROUND)));
        tried.map(fit).fold(first, |best, next| {
            match next.scale.ratio < best.scale.ratio {
                true => next,
                false => best,
            }
        })
    }

    /// Draws the level in the middle of its room.
    fn draw(
        &self,
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
            ..self.showing(scale.ratio, frame)
        };
        Laid {
            picture: draw_level(self.plan, self.design, self.level.id, &showing),
            origin,
        }
    }

    fn legend(&self, width: f64) -> (Picture, f64) {
        lay_out(&self.signs, Type::PAPER, width - NORTH - 4.0)
    }

    /// Scale bar, north mark and legend in the foot.
    fn furniture(&self, scale: Scale, under: Area) -> Vec<Laid> {
        let room = (under.width() * 0.45).min(110.0);
        let bar = Laid {
            picture: scale_bar(scale.ratio, self.plan.units, Type::PAPER, room),
            origin: under.low + Pos::new(2.0, 0.0),
        };
        let mut north = Picture::at_scale(1.0);
        let ring = Pos::new(under.high.x - NORTH / 2.0, under.low.y + NORTH / 2.0);
        north_mark(&mut north, ring, self.paper.tongue);
        let end = bar.picture.bounds().map_or(room, |(_, high)| high.x);
        let at = under.low + Pos::new(end + 8.0, BODY * 0.7);
        north.push(text(at, Anchor::Start, BODY, Weight::Bold, scale.name));
        let legend = Laid {
            picture: self.legend(under.width()).0,
            origin: under.low + Pos::new(0.0, SCALE_BAR_HEIGHT + GAP),
        };
        let north = Laid {
            picture: north,
            origin: Pos::default(),
        };
        vec![bar, north, legend]
    }
}

/// Width of the north mark.
const NORTH: f64 = 18.0;
/// How far its words reach under its ring's box.
const UNDER_NORTH: f64 = 2.0;

/// A ring to draw the arrow into by hand: the plan does not know where north is.
fn north_mark(page: &mut Picture, middle: Pos, tongue: Tongue) {
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
        &tongue.say("mark north"),
    ));
}
