//! Elevations side by side, row under row and page after page.

use super::Drawn;
use crate::picture::{Ink, Item, Picture, Shape};
use crate::plan::LevelId;
use crate::shape::Pos;
use crate::sheet::mark::Laid;
use crate::sheet::paper::Area;

/// Space between two elevations, side by side and under each other.
pub(super) const GAP: (f64, f64) = (7.0, 4.5);

/// Pages that are being filled. An elevation goes where it finds room at the largest of its scales: on a page
/// that has others of its level, or on the last one.
pub(super) struct Shelves {
    body: Area,
    /// The most height of an elevation that can be read at that.
    part: f64,
    pages: Vec<Filled>,
}

/// A page with its rows.
#[derive(Default)]
pub(super) struct Filled {
    /// The walls on it, in the order they were put, with their level.
    pub walls: Vec<(LevelId, String)>,
    /// Their marks.
    pub layers: Vec<Laid>,
    rows: Vec<Row>,
}

struct Row {
    top: f64,
    /// Height of its tallest.
    tall: f64,
    /// Where the next one goes.
    next: f64,
    /// Height of what stands beside it in the margin.
    beside: f64,
}

impl Drawn {
    /// The height of a row with nothing else in it.
    fn needs(&self) -> f64 {
        self.height.max(self.aside.height())
    }
}

/// Where an elevation finds room: the page, its row, or a new one under the others.
struct Spot {
    page: usize,
    row: Option<usize>,
}

impl Shelves {
    /// No page yet; an elevation that can be read at less takes no more than this part of a page.
    pub fn new(body: Area, part: f64) -> Self {
        Self {
            body,
            part: body.height() * part,
            pages: Vec::new(),
        }
    }

    /// The pages.
    pub fn pages(self) -> Vec<Filled> {
        self.pages
    }

    /// How many there are.
    pub fn count(&self) -> usize {
        self.pages.len()
    }

    /// Puts a wall of a level at one of its scales, the largest first.
    pub fn put(&mut self, level: LevelId, scales: &[Drawn]) {
        let part = self.part;
        let is_part = |drawn: &&Drawn| drawn.height <= part;
        let mut small: Vec<&Drawn> = scales.iter().filter(is_part).collect();
        // What can only be read at more than its part takes the smallest scale at which it can be read.
        if small.is_empty() {
            small.extend(scales.last());
        }
        let here = small
            .iter()
            .find_map(|drawn| Some((*drawn, self.spot(level, drawn)?)));
        let (drawn, spot) = match (here, small.first()) {
            (Some(here), _) => here,
            (None, None) => return,
            (None, Some(largest)) => {
                self.pages.push(Filled::default());
                let page = self.pages.len() - 1;
                (*largest, Spot { page, row: None })
            }
        };
        let body = self.body;
        if let Some(page) = self.pages.get_mut(spot.page) {
            page.put(body, level, drawn, spot.row);
        }
    }

    fn spot(&self, level: LevelId, drawn: &Drawn) -> Option<Spot> {
        let last = self.pages.len().saturating_sub(1);
        let mut pages = self.pages.iter().enumerate();
        pages.find_map(|(place, page)| {
            let is_near = place == last || page.walls.iter().any(|(on, _)| *on == level);
            let row = is_near.then(|| page.room(self.body, drawn)).flatten()?;
            Some(Spot { page: place, row })
        })
    }
}

impl Filled {
    /// The row in which an elevation finds room, or none of them for a new one.
    fn room(&self, body: Area, drawn: &Drawn) -> Option<Option<usize>> {
        let (wide, high) = (body.width(), body.height());
        let last = self.rows.len().saturating_sub(1);
        let fits = |(place, row): &(usize, &Row)| {
            let tall = match *place == last {
                true => high - row.top,
                false => row.tall,
            };
            let beside = row.beside + drawn.aside.height();
            row.next + drawn.width <= wide + 1e-9 && drawn.height.max(beside) <= tall
        };
        let row = self.rows.iter().enumerate().find(fits);
        let under = self.under();
        match row {
            Some((place, _)) => Some(Some(place)),
            None => (under + drawn.needs() <= high).then_some(None),
        }
    }

    /// Where a new row begins.
    fn under(&self) -> f64 {
        let last = self.rows.last();
        last.map_or(0.0, |row| row.top + row.tall + GAP.1)
    }

    fn put(&mut self, body: Area, level: LevelId, drawn: &Drawn, row: Option<usize>) {
        if row.is_none() {
            let top = self.under();
            self.layers.extend(rule_over(body, top));
            self.rows.push(Row {
                top,
                tall: 0.0,
                next: 0.0,
                beside: 0.0,
            });
        }
        let place = row.unwrap_or(self.rows.len() - 1);
        let Some(row) = self.rows.get_mut(place) else {
            return;
        };
        let corner = body.low + Pos::new(row.next, row.top);
        if row.next > 0.0 {
            self.layers.push(rule_before(corner, drawn.height));
        }
        self.layers.extend(drawn.layers.iter().map(|laid| Laid {
            origin: laid.origin + corner,
            picture: laid.picture.clone(),
        }));
        self.walls.push((level, drawn.wall.clone()));
        self.layers.push(Laid {
            picture: drawn.aside.draw(),
            origin: Pos::new(body.high.x, corner.y + row.beside),
        });
        row.next += drawn.width + GAP.0;
        row.beside += drawn.aside.height();
        row.tall = row.tall.max(drawn.height).max(row.beside);
    }
}

/// What sets a row off from the one over it.
fn rule_over(body: Area, top: f64) -> Option<Laid> {
    let y = body.low.y + top - GAP.1 / 2.0;
    let ends = [body.low.x, body.high.x].map(|x| Pos::new(x, y));
    (top > 0.0).then(|| rule(ends))
}

/// What sets an elevation off from the one before it.
fn rule_before(corner: Pos, height: f64) -> Laid {
    let x = corner.x - GAP.0 / 2.0;
    rule([Pos::new(x, corner.y), Pos::new(x, corner.y + height)])
}

fn rule(ends: [Pos; 2]) -> Laid {
    let mut picture = Picture::at_scale(1.0);
    picture.push(Item::plain(Ink::Rule, Shape::Line(ends.to_vec())));
    Laid {
        picture,
        origin: Pos::default(),
    }
}
