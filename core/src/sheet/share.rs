//! Sections that share a page: what is short, or ends in the middle of a page, leaves the rest of it to what
//! comes next.

use super::frame::{self, Heading};
use super::mark::Laid;
use super::paper::{Area, Extent};
use super::stack::Part;
use super::table::{BODY, ID, text};
use super::{Draft, Kind, Paper, code, corner_page, section_page};
use crate::design::Design;
use crate::file::link::{self, Modules};
use crate::picture::font::{self, Weight};
use crate::picture::{Anchor, Ink, Item, Picture, Shape};
use crate::plan::Plan;
use crate::shape::Pos;
use crate::tongue::Tongue;

/// Space over a section that begins on a page.
const OVER: f64 = 3.0;
/// From the rule over a section to the base line of its title, and from the last line to what it holds.
const TITLE: (f64, f64) = (ID * 1.2, 1.6);
/// Distance between lines.
const LEADING: f64 = BODY * 1.15;

/// Parts of a page's width in which something may stand beside what is longer.
const PARTS: [(f64, f64); 6] = [
    (1.0 / 3.0, 1.0),
    (0.0, 2.0 / 3.0),
    (0.0, 0.5),
    (0.5, 1.0),
    (0.0, 1.0 / 3.0),
    (2.0 / 3.0, 1.0),
];

/// The pages of a stack so far, for what may go on under them.
pub(super) struct Stapled<'p> {
    /// What is printed.
    pub plan: &'p Plan,
    /// The pages.
    pub drafts: Vec<Draft>,
    /// A page that holds nothing but the code of the link, and where it goes if no other has room for the
    /// code.
    code: Option<(usize, Draft)>,
    /// Where bores round corners go if no page has room for them.
    pub corners: Option<usize>,
    /// ... and bores cut across.
    pub sections: Option<usize>,
    /// In which of several ways they are laid out.
    pub way: Way,
}

/// A way to lay a stack out. Which one is the shortest only shows once all is laid out: a list that begins on the
/// page before leaves more free of its last page, and less of that one.
#[derive(Clone, Copy, Default)]
pub(super) struct Way {
    /// Whether lists begin on the page before even where that alone saves none.
    pub closely: bool,
    /// Whether bores cut across find their page before bores round corners do.
    pub sections_first: bool,
    /// A list that begins on a page of its own all the same.
    pub alone: Option<Part>,
}

impl Way {
    const fn new(closely: bool, sections_first: bool) -> Self {
        Self {
            closely,
            sections_first,
            alone: None,
        }
    }

    /// Those that are tried first.
    pub const TRIED: [Self; 4] = [
        Self::new(false, false),
        Self::new(false, true),
        Self::new(true, false),
        Self::new(true, true),
    ];
}

impl<'p> Stapled<'p> {
    /// No page yet.
    pub fn none(plan: &'p Plan) -> Self {
        Self {
            plan,
            drafts: Vec::new(),
            code: None,
            corners: None,
            sections: None,
            way: Way::default(),
        }
    }

    /// Puts pages behind the others, the last of them for the code alone.
    pub fn push_coded(&mut self, mut pages: Vec<Draft>) {
        let last = pages.pop();
        self.drafts.extend(pages);
        self.code = last.map(|last| (self.drafts.len(), last));
    }

    /// All pages: bores round corners and the code of the link on the first that have room for them.
    pub fn finished(mut self, design: &Design, paper: &Paper, link: Option<&str>) -> Vec<Draft> {
        if let Some(at) = self.sections.filter(|_| self.way.sections_first) {
            section_page::onto(&mut self, at, design, paper);
        }
        if let Some(at) = self.corners.take() {
            corner_page::onto(&mut self, at, design, paper);
        }
        if let Some(at) = self.sections.filter(|_| !self.way.sections_first) {
            section_page::onto(&mut self, at, design, paper);
        }
        if let Some((place, page)) = self.code.take() {
            let modules = link.and_then(|link| link::qr(link).ok());
            let put = modules.is_some_and(|modules| self.put_code(&modules, paper.tongue));
            if !put {
                self.drafts.insert(place, page);
            }
        }
        self.drafts
    }

    /// Puts pages at a place, or behind the list that would be cut there.
    pub fn insert(&mut self, at: usize, pages: impl Iterator<Item = Draft>) {
        let at = self.uncut(at);
        self.drafts.splice(at..at, pages);
    }

    /// The first place from this one on where no list is cut by what is put there.
    pub fn uncut(&self, at: usize) -> usize {
        let after = self.drafts.iter().skip(at);
        at + after.take_while(|draft| draft.goes_on).count()
    }

    /// How the last page lies, and what of it is free for a section with this heading; `None` for a plan,
    /// which has its page to itself.
    pub fn room(&self, heading: &Heading) -> Option<(Extent, Area)> {
        let last = self.drafts.last()?;
        let areas = self.room_on(self.drafts.len() - 1, heading);
        Some((last.extent, *areas.first()?))
    }

    /// What of a page is free for a section with this heading: under all that stands on it, and in parts of its
    /// width under what stands there.
    pub fn room_on(&self, place: usize, heading: &Heading) -> Vec<Area> {
        let parts = self.drafts.get(place).map(|draft| self.parts(draft));
        let under = |free: Area| {
            let strip = strip_height(heading, free.width());
            Area::new(free.low + Pos::new(0.0, strip), free.high)
        };
        let areas = parts.unwrap_or_default().into_iter().map(under);
        areas.filter(|area| area.height() > 0.0).collect()
    }

    /// What is free under all that stands on a page.
    fn free(&self, draft: &Draft) -> Option<Area> {
        if draft.heading.kind.is_stock() || matches!(draft.heading.kind, Kind::Level(_)) {
            return None;
        }
        let body = frame::body(self.plan, draft.extent, &draft.heading);
        let top = lowest(draft, (0.0, draft.extent.width)).max(body.low.y) + OVER;
        Some(Area::new(Pos::new(body.low.x, top), body.high))
    }

    /// Puts a section into what [`Stapled::room`] gave for its heading.
    pub fn put(&mut self, heading: &Heading, area: Area, layers: Vec<Laid>) {
        self.put_on(self.drafts.len().saturating_sub(1), heading, area, layers);
    }

    /// ... or what [`Stapled::room_on`] gave.
    pub fn put_on(&mut self, place: usize, heading: &Heading, area: Area, layers: Vec<Laid>) {
        let Some(last) = self.drafts.get_mut(place) else {
            return;
        };
        let over = Pos::new(0.0, strip_height(heading, area.width()));
        let picture = strip(heading, Area::new(area.low - over, area.high));
        last.layers.push(Laid {
            picture,
            origin: Pos::default(),
        });
        last.layers.extend(layers);
        last.heading = joined(last.extent, &last.heading, heading);
    }

    /// Puts a code under what stands on the first page that has room for it, on the left or on the right.
    /// Whether one has.
    fn put_code(&mut self, modules: &Modules, tongue: Tongue) -> bool {
        let side = code::side(modules);
        let mut places = (0..self.drafts.len()).filter_map(|place| {
            let area = self.parts(self.drafts.get(place)?);
            let area = area
                .into_iter()
                .find(|area| area.height() >= side && area.width() >= side + code::TOLD)?;
            Some((place, area))
        });
        let Some((place, area)) = places.next() else {
            return false;
        };
        drop(places);
        if let Some(draft) = self.drafts.get_mut(place) {
            let mut picture = Picture::at_scale(1.0);
            code::draw_told(&mut picture, modules, area, tongue);
            draft.layers.push(Laid {
                picture,
                origin: Pos::default(),
            });
        }
        true
    }

    /// What is free under all that stands on a page, and in parts of its width under what stands there: the
    /// widest first.
    fn parts(&self, draft: &Draft) -> Vec<Area> {
        let Some(whole) = self.free(draft) else {
            return Vec::new();
        };
        let top = frame::body(self.plan, draft.extent, &draft.heading).low.y;
        let part = |(from, to): (f64, f64)| {
            let at = |share: f64, over: f64| match share {
                0.0 | 1.0 => whole.low.x + share * whole.width(),
                share => whole.low.x + share * whole.width() + over,
            };
            let (from, to) = (at(from, OVER), at(to, -OVER));
            let low = lowest(draft, (from - OVER, to + OVER)).max(top) + OVER;
            Area::new(Pos::new(from, low), Pos::new(to, whole.high.y))
        };
        [whole].into_iter().chain(PARTS.map(part)).collect()
    }
}

/// Where the lowest mark of a page ends between two distances from its left edge.
fn lowest(draft: &Draft, (from, to): (f64, f64)) -> f64 {
    let ends = draft.layers.iter().flat_map(|laid| {
        let scale = laid.picture.scale;
        let bounds = laid.picture.items.iter();
        let bounds = bounds.filter_map(move |item| item.shape.bounds(scale));
        bounds.map(move |(low, high)| {
            let part = 1.0 / scale;
            (laid.origin + low * part, laid.origin + high * part)
        })
    });
    let between = ends.filter(|(low, high)| low.x < to && from < high.x);
    between.map(|(_, high)| high.y).fold(0.0, f64::max)
}

/// A page's heading once another section stands on it: both are named at the corner where that finds room.
fn joined(extent: Extent, first: &Heading, other: &Heading) -> Heading {
    let named = Heading {
        name: format!("{} · {}", first.name, other.name),
        ..first.clone()
    };
    let corner = format!("{} · {}", first.corner, other.corner);
    frame::cornered(extent, &named, corner).unwrap_or(named)
}

fn lines(heading: &Heading, width: f64) -> [Vec<String>; 2] {
    [
        font::wrap(&heading.title, Weight::Bold, ID, width),
        font::wrap(&heading.subtitle, Weight::Regular, BODY, width),
    ]
}

fn strip_height(heading: &Heading, width: f64) -> f64 {
    let [title, under] = lines(heading, width);
    let title = TITLE.0 + title.len().saturating_sub(1) as f64 * ID;
    title + under.len() as f64 * LEADING + TITLE.1
}

/// The rule, title and words over a section in the middle of a page.
fn strip(heading: &Heading, free: Area) -> Picture {
    let mut picture = Picture::at_scale(1.0);
    let ends = [free.low, Pos::new(free.high.x, free.low.y)];
    picture.push(Item::plain(Ink::Heavy, Shape::Line(ends.to_vec())));
    let [title, under] = lines(heading, free.width());
    let mut at = free.low + Pos::new(0.0, TITLE.0);
    for (down, line) in title.iter().enumerate() {
        at.y = free.low.y + TITLE.0 + down as f64 * ID;
        picture.push(text(at, Anchor::Start, ID, Weight::Bold, line));
    }
    for line in &under {
        at.y += LEADING;
        picture.push(text(at, Anchor::Start, BODY, Weight::Regular, line));
    }
    picture
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::Size;

    fn page(name: &str, goes_on: bool) -> Draft {
        let heading = Heading {
            kind: Kind::RoomList,
            title: name.to_string(),
            subtitle: String::new(),
            name: name.to_string(),
            corner: String::new(),
            tongue: Tongue::English,
        };
        Draft {
            heading,
            extent: Size::Letter.portrait(),
            layers: Vec::new(),
            scale: None,
            goes_on,
        }
    }

    #[test]
    fn what_comes_in_between_goes_behind_a_list_that_it_would_cut() {
        let plan = Plan::new();
        let mut stapled = Stapled::none(&plan);
        let pages = [
            ("walls", false),
            ("list", true),
            ("list", true),
            ("pulls", false),
        ];
        stapled.drafts = pages.map(|(name, goes_on)| page(name, goes_on)).to_vec();
        stapled.insert(1, [page("cut", false)].into_iter());
        let names = stapled
            .drafts
            .iter()
            .map(|draft| draft.heading.name.as_str());
        let names: Vec<&str> = names.collect();
        assert_eq!(names, ["walls", "list", "list", "cut", "pulls"]);
        assert_eq!(stapled.uncut(0), 0);
    }
}
