//! A table over as many pages as it needs.

use super::mark::Laid;
use super::paper::{Area, Extent, Lie};
use super::share::Stapled;
use super::table::{BODY, Fit, Fitted, Table, text};
use super::{Draft, Kind, Paper, frame};
use crate::picture::font::Weight;
use crate::picture::{Anchor, Picture};
use crate::plan::Plan;
use crate::shape::Pos;
use crate::tongue::Tongue;

/// Space between columns of rows.
const GUTTER: f64 = 6.0;
/// Heights that the columns of a last page are tried at: parts of a page.
const STEPS: usize = 60;

/// What stands over a list.
pub(super) struct Heading {
    pub kind: Kind,
    pub title: String,
    pub subtitle: String,
    pub name: String,
    pub corner: String,
}

impl Heading {
    /// The heading of a page with this title, in a tongue.
    fn framed(&self, title: String, tongue: Tongue) -> frame::Heading {
        let heading = frame::Heading {
            kind: self.kind,
            title,
            subtitle: self.subtitle.clone(),
            name: self.name.clone(),
            corner: self.corner.clone(),
            tongue,
        };
        heading.said()
    }
}

/// A table with what stands over it.
pub(super) struct List {
    pub heading: Heading,
    pub table: Table,
}

/// Lays a table out over pages of its own.
pub(super) fn pages(plan: &Plan, paper: &Paper, heading: &Heading, table: &Table) -> Vec<Draft> {
    let mut stapled = Stapled::none(plan);
    onto(&mut stapled, paper, (heading, table), false);
    stapled.drafts
}

/// Lays a table out behind the pages of a stack, or from the middle of the last of them on where that saves
/// a page: upright where its columns fit, else lying, or as the last page lies. What holds for all of its
/// pages is said on the first. It shares no page where it stands `alone`.
pub(super) fn onto(
    stapled: &mut Stapled,
    paper: &Paper,
    (heading, table): (&Heading, &Table),
    alone: bool,
) {
    let tongue = paper.tongue;
    let table = table.said(tongue);
    // The page number is added to the title last: room is kept for a long one.
    let longest = heading.framed(format!("{}, 888 of 888", heading.title), tongue);
    let laid = laid(stapled, paper, (&longest, &table), alone);
    let pages = laid.pages();
    let count = pages.len();
    for (place, columns) in pages.into_iter().enumerate() {
        let body = if place == 0 { laid.first } else { laid.rest };
        let mut picture = Picture::at_scale(1.0);
        for (column, lines) in columns.iter().enumerate() {
            laid.table
                .draw(&mut picture, part(body, laid.across, column), lines);
        }
        if columns.iter().all(|lines| lines.is_empty()) {
            let at = body.low + Pos::new(0.0, 16.0);
            let words = tongue.say("Nothing to list yet.");
            picture.push(text(at, Anchor::Start, BODY, Weight::Regular, &words));
        }
        let title = match count {
            1 => heading.title.clone(),
            count => format!("{}, {} of {count}", heading.title, place + 1),
        };
        let first = heading.framed(title, tongue);
        let heading = if place == 0 { first } else { first.going_on() };
        let origin = Pos::default();
        let layers = vec![Laid { picture, origin }];
        match laid.shares && place == 0 {
            true => stapled.put(&heading, body, layers),
            false => stapled.drafts.push(Draft {
                heading,
                extent: laid.extent,
                layers,
                scale: None,
                goes_on: place > 0,
            }),
        }
    }
}

/// A table wrapped to pages that lie one way.
struct Laying {
    extent: Extent,
    /// Where it stands on its first page.
    first: Area,
    /// ... and on those that follow.
    rest: Area,
    /// Whether its first page is the last of the stack.
    shares: bool,
    table: Fitted,
    /// Columns of rows side by side.
    across: usize,
}

impl Laying {
    /// A table wrapped to the page, or to as many columns of it as find room side by side where that saves
    /// pages.
    fn of(table: &Table, extent: Extent, (first, rest): (Area, Area), shares: bool) -> Self {
        let most = ((rest.width() + GUTTER) / (table.least_width() + GUTTER)).floor();
        let most = (most as usize).clamp(1, 3);
        let of = |across: usize| {
            let table = table.fitted(part(rest, across, 0).width());
            Self {
                extent,
                first,
                rest,
                shares,
                table,
                across,
            }
        };
        let others = (2..=most).map(of);
        others.fold(of(1), |best, next| match next.added() < best.added() {
            true => next,
            false => best,
        })
    }

    /// The lines of every page, column by column. Columns of the last page are as low as they can be, so that
    /// what is free of it is free for what comes next.
    fn pages(&self) -> Vec<Vec<Vec<Fit>>> {
        let full = self.cut(None);
        let lower = |part: &usize| {
            let height = self.rest.height() * *part as f64 / STEPS as f64;
            let cut = self.cut(Some((full.len() - 1, height)));
            let fits = |lines: &Vec<Fit>| self.table.height(lines) <= height;
            let fits = cut.last().is_some_and(|page| page.iter().all(fits));
            (cut.len() == full.len() && fits).then_some(cut)
        };
        let lowest = match self.across {
            1 => None,
            _ => (1..STEPS).find_map(|part| lower(&part)),
        };
        lowest.unwrap_or(full)
    }

    /// The lines of every page, the columns of one of them no higher than this.
    fn cut(&self, low: Option<(usize, f64)>) -> Vec<Vec<Vec<Fit>>> {
        let heights = |page: usize| {
            let area = if page == 0 { self.first } else { self.rest };
            let most = low.filter(|(of, _)| *of == page);
            let high = most.map_or(area.height(), |(_, most)| most.min(area.height()));
            vec![high; self.across]
        };
        let known = low.map_or(0, |(page, _)| page);
        let begun: Vec<f64> = (0..=known).flat_map(heights).collect();
        let columns = self.table.pages(&begun, self.rest.height());
        let pages = columns.chunks(self.across).map(<[_]>::to_vec);
        pages.collect()
    }

    /// How many pages more it takes.
    fn added(&self) -> usize {
        self.cut(None).len() - usize::from(self.shares)
    }

    /// Whether what begins on a page has room there.
    fn fits(&self) -> bool {
        let pages = self.pages();
        let first = pages.first().into_iter().flatten();
        let room = self.first.height();
        first
            .map(|lines| self.table.height(lines))
            .all(|high| high <= room + 1e-9)
    }
}

/// The way a table lies with which it takes the fewest pages more: upright first, then lying, and from the
/// middle of the last page on only where that saves one.
fn laid(
    stapled: &Stapled,
    paper: &Paper,
    (longest, table): (&frame::Heading, &Table),
    alone: bool,
) -> Laying {
    let extents = paper.extents(Lie::Portrait);
    let body = |extent: Extent| frame::body(stapled.plan, extent, longest);
    let rest = |extent: Extent| frame::body(stapled.plan, extent, &longest.going_on());
    let fits = |extent: &Extent| body(*extent).width() >= table.least_width();
    let own = extents
        .iter()
        .copied()
        .find(fits)
        .or(extents.last().copied());
    let own = own.unwrap_or(paper.size.landscape());
    let apart = Laying::of(table, own, (body(own), rest(own)), false);
    let (extent, under) = match stapled.room(longest) {
        Some((extent, under)) if fits(&extent) && !alone => (extent, under),
        _ => return apart,
    };
    let shared = Laying::of(table, extent, (under, rest(extent)), true);
    let saves = match stapled.way.closely {
        true => shared.added() <= apart.added(),
        false => shared.added() < apart.added(),
    };
    match shared.fits() && saves {
        true => shared,
        false => apart,
    }
}

/// One of so many columns of a page.
fn part(body: Area, across: usize, column: usize) -> Area {
    let wide = (body.width() + GUTTER) / across as f64;
    let left = body.low.x + column as f64 * wide;
    Area::new(
        Pos::new(left, body.low.y),
        Pos::new(left + wide - GUTTER, body.high.y),
    )
}
