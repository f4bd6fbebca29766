//! Elevations side by side, row under row and page after page.

use super::Drawn;
use crate::picture::{Ink, Item, Picture, Shape};
use crate::plan::LevelId;
use crate::shape::Pos;
use crate::sheet::mark::Laid;
use crate::sheet::paper::Area;

/// Space between two elevations, side by side and under each other.
pub(super) const GAP: (f64, f64) = (7.0, 4.5);

/// What is free on the pages that are filled.
#[derive(Clone, Copy)]
pub(super) struct Bodies {
    /// On the first.
    pub first: Area,
    /// On those that follow.
    pub rest: Area,
}

impl Bodies {
    /// Of a page, counted from 0.
    pub fn of(&self, page: usize) -> Area {
        match page {
            0 => self.first,
            _ => self.rest,
        }
    }
}

/// Pages that are being filled. An elevation goes where it finds room at the largest of its scales: on a page
/// that has others of its level, or on the last one.
pub(super) struct Shelves<'d> {
    bodies: Bodies,
    /// The most height of an elevation that can be read at that.
    part: f64,
    pages: Vec<Filled<'d>>,
}

/// A page with its rows.
#[derive(Default)]
pub(super) struct Filled<'d> {
    /// The walls on it, in the order they were put, with their level.
    walls: Vec<Put<'d>>,
    rows: Vec<Row>,
}

/// An elevation on its page.
struct Put<'d> {
    level: LevelId,
    drawn: &'d Drawn,
    /// Its upper left corner, from the body's.
    corner: Pos,
    /// Where what stands beside it in the margin begins, under the row's top.
    beside: f64,
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

impl<'d> Shelves<'d> {
    /// No page yet; an elevation that can be read at less takes no more than this part of a page.
    pub fn new(bodies: Bodies, part: f64) -> Self {
        Self {
            bodies,
            part: bodies.rest.height() * part,
            pages: Vec::new(),
        }
    }

    /// The pages.
    pub fn pages(self) -> Vec<Filled<'d>> {
        self.pages
    }

    /// What the least of is best: pages, then what the drawings lose in size, then what the last page holds.
    pub fn worth(&self) -> (usize, f64, f64) {
        let walls = self.pages.iter().flat_map(|page| &page.walls);
        let lost = walls.map(|put| put.drawn.ratio).sum();
        let last = self.pages.last().map_or(0.0, Filled::under);
        (self.pages.len(), lost, last)
    }

    /// Puts a wall of a level at one of its scales, the largest first.
    pub fn put(&mut self, level: LevelId, scales: &'d [Drawn]) {
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
        if let Some(page) = self.pages.get_mut(spot.page) {
            page.put(level, drawn, spot.row);
        }
    }

    fn spot(&self, level: LevelId, drawn: &Drawn) -> Option<Spot> {
        let last = self.pages.len().saturating_sub(1);
        let mut pages = self.pages.iter().enumerate();
        pages.find_map(|(place, page)| {
            let is_near = place == last || page.walls.iter().any(|put| put.level == level);
            let body = self.bodies.of(place);
            let row = is_near.then(|| page.room(body, drawn)).flatten()?;
            Some(Spot { page: place, row })
        })
    }
}

impl<'d> Filled<'d> {
    /// The walls on it, with their level.
    pub fn walls(&self) -> Vec<(LevelId, String)> {
        let named = |put: &Put| (put.level, put.drawn.wall.clone());
        self.walls.iter().map(named).collect()
    }

    /// Its marks in a body.
    pub fn layers(&self, body: Area) -> Vec<Laid> {
        let over = self.rows.iter().flat_map(|row| rule_over(body, row.top));
        let mut layers: Vec<Laid> = over.collect();
        for put in &self.walls {
            let corner = body.low + put.corner;
            if put.corner.x > 0.0 {
                layers.push(rule_before(corner, put.drawn.height));
            }
            layers.extend(put.drawn.layers.iter().map(|laid| Laid {
                origin: laid.origin + corner,
                picture: laid.picture.clone(),
            }));
            layers.push(Laid {
                picture: put.drawn.aside.draw(),
                origin: Pos::new(body.high.x, corner.y + put.beside),
            });
        }
        layers
    }

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

    fn put(&mut self, level: LevelId, drawn: &'d Drawn, row: Option<usize>) {
        if row.is_none() {
            self.rows.push(Row {
                top: self.under(),
                tall: 0.0,
                next: 0.0,
                beside: 0.0,
            });
        }
        let place = row.unwrap_or(self.rows.len() - 1);
        let Some(row) = self.rows.get_mut(place) else {
            return;
        };
        self.walls.push(Put {
            level,
            drawn,
            corner: Pos::new(row.next, row.top),
            beside: row.beside,
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
