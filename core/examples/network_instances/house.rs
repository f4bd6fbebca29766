//! Invented houses as graphs: bays in walls at three heights, strips of joists above and below.
//!
//! Only the shape of the problem is a house's; no plan is drawn and no rule is kept. Prices are
//! thousandths of a minute.

use std::collections::BTreeMap;

use borewright_core::route::network::{Crossing, Edge, Problem};

use super::cable::cable;
use super::random::Random;

/// How a house is drawn.
#[derive(Clone, Copy)]
pub struct House {
    /// Decides every random choice.
    pub seed: u64,
    /// Bays along the front.
    pub width: u32,
    /// Bays along the side.
    pub depth: u32,
    /// Number of levels.
    pub storeys: u32,
    /// Bays between one inner wall and the next, about.
    pub room: u32,
    /// Width of a bay in millimetres.
    pub bay_mm: u32,
    /// Number of cables.
    pub cables: u32,
    /// What a bore holds, in hundredths of a square millimetre.
    pub capacity: u32,
}

/// Heights at which a bay can be left, in millimetres.
const HEIGHTS: [u32; 3] = [400, 1_200, 2_300];

/// A support holds whatever is laid on it.
const SUPPORT: Crossing = Crossing::poured(150, 100_000_000);

/// Thousandths of a minute for a millimetre of cable, and what it costs more in a wall.
const PER_METRE: [u32; 2] = [700, 900];

/// Where a node is.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Place {
    /// In a bay of a wall of a level, at one of the heights.
    Bay(u32, u32, u32, u32),
    /// In the joists over a level (0 is under the lowest).
    Strip(u32, u32, u32),
}

struct Builder {
    house: House,
    random: Random,
    numbers: BTreeMap<Place, u32>,
    problem: Problem,
}

impl House {
    /// The house as a routing problem; the sink is a bay near the middle of the lowest level.
    pub fn problem(self) -> Problem {
        let mut builder = Builder {
            house: self,
            random: Random(self.seed),
            numbers: BTreeMap::new(),
            problem: Problem::default(),
        };
        for level in 0..self.storeys {
            builder.walls(level);
        }
        for level in 0..=self.storeys {
            builder.strips(level);
        }
        builder.plates();
        builder.drops();
        builder.problem.nodes = builder.numbers.len() as u32;
        builder.problem
    }
}

impl Builder {
    fn node(&mut self, place: Place) -> u32 {
        let next = self.numbers.len() as u32;
        *self.numbers.entry(place).or_insert(next)
    }

    /// The outside walls, and inside walls from side to side with doors in them.
    fn walls(&mut self, level: u32) {
        let House {
            width, depth, room, ..
        } = self.house;
        let mut x = 0;
        while x < width {
            let outside = x == 0 || x == width - 1;
            (0..depth - 1).for_each(|y| self.stud(level, (x, y), (x, y + 1), outside));
            let step = self.random.between(room, room + room / 2 + 1);
            x = if x < width - 1 {
                (x + step).min(width - 1)
            } else {
                width
            };
        }
        let mut y = 0;
        while y < depth {
            let outside = y == 0 || y == depth - 1;
            (0..width - 1).for_each(|x| self.stud(level, (x, y), (x + 1, y), outside));
            let step = self.random.between(room, room + room / 2 + 1);
            y = if y < depth - 1 {
                (y + step).min(depth - 1)
            } else {
                depth
            };
        }
    }

    /// Two bays of a wall and the stud between them, unless an opening is there.
    fn stud(&mut self, level: u32, a: (u32, u32), b: (u32, u32), outside: bool) {
        let opening = self.random.below(100);
        for lane in 0..3 {
            let from = self.bay(level, a.0, a.1, lane);
            let to = self.bay(level, b.0, b.1, lane);
            let cut = if outside {
                opening < 15 && lane < 2
            } else {
                opening < 12
            };
            if !cut {
                let price = if outside { 2_600 } else { 2_000 };
                let capacity = self.house.capacity;
                self.edge(
                    from,
                    to,
                    self.house.bay_mm,
                    1,
                    Some(Crossing::poured(price, capacity)),
                );
            }
        }
    }

    /// A bay at a height, with the rise from the height below.
    fn bay(&mut self, level: u32, x: u32, y: u32, lane: u32) -> u32 {
        let place = Place::Bay(level, x, y, lane);
        if let Some(node) = self.numbers.get(&place) {
            return *node;
        }
        let node = self.node(place);
        if lane > 0 {
            let below = self.node(Place::Bay(level, x, y, lane - 1));
            let rise = HEIGHTS[lane as usize] - HEIGHTS[lane as usize - 1];
            self.edge(below, node, rise, 0, None);
        }
        node
    }

    /// Along a strip from support to support; across it a joist, but over the top only a support.
    fn strips(&mut self, level: u32) {
        let House {
            width,
            depth,
            storeys,
            bay_mm,
            capacity,
            ..
        } = self.house;
        let joist = match level == storeys {
            true => SUPPORT,
            false => Crossing::poured(1_700, capacity),
        };
        for x in 0..width {
            for y in 0..depth {
                let here = self.node(Place::Strip(level, x, y));
                if y + 1 < depth {
                    let along = self.node(Place::Strip(level, x, y + 1));
                    self.edge(here, along, bay_mm, 0, Some(SUPPORT));
                }
                if x + 1 < width {
                    let across = self.node(Place::Strip(level, x + 1, y));
                    self.edge(here, across, bay_mm, 0, Some(joist));
                }
            }
        }
    }

    /// From the top of each bay up through the plates, from its bottom down through the floor.
    fn plates(&mut self) {
        let bays: Vec<(Place, u32)> = self.numbers.iter().map(|(p, n)| (*p, *n)).collect();
        let capacity = self.house.capacity;
        for (place, node) in bays {
            let Place::Bay(level, x, y, lane) = place else {
                continue;
            };
            let (over, rise, price) = match lane {
                0 => (level, HEIGHTS[0] + 150, 3_600),
                2 => (level + 1, 350, 3_000),
                _ => continue,
            };
            let strip = self.node(Place::Strip(over, x, y));
            self.edge(
                node,
                strip,
                rise,
                0,
                Some(Crossing::poured(price, capacity)),
            );
        }
    }

    fn edge(&mut self, u: u32, v: u32, length_mm: u32, rate: usize, bore: Option<Crossing>) {
        let crossing = bore.map(|bore| {
            self.problem.crossings.push(bore);
            self.problem.crossings.len() as u32 - 1
        });
        let cost = length_mm * PER_METRE[rate] / 1_000;
        self.problem.edges.push(Edge {
            u,
            v,
            cost,
            length_mm,
            crossing,
        });
    }

    /// The sink, and drops low in walls, at switch height, and in ceilings.
    fn drops(&mut self) {
        let mut bays: Vec<(u32, u32)> = Vec::new();
        for (place, node) in &self.numbers {
            if let Place::Bay(_, _, _, lane) = place {
                bays.push((*lane, *node));
            }
        }
        let House {
            width,
            depth,
            storeys,
            ..
        } = self.house;
        let ground = |place: &Place| match place {
            Place::Bay(0, x, y, 2) => Some((x.abs_diff(width / 2) + y.abs_diff(depth / 2), *place)),
            _ => None,
        };
        let closet = self
            .numbers
            .keys()
            .filter_map(ground)
            .min_by_key(|near| near.0);
        self.problem.sink = closet.map_or(0, |(_, place)| self.node(place));
        for i in 0..self.house.cables {
            let source = match self.random.below(4) {
                0 => {
                    let level = self.random.between(1, storeys + 1);
                    let (x, y) = (self.random.below(width), self.random.below(depth));
                    self.node(Place::Strip(level, x, y))
                }
                kind => loop {
                    let (lane, node) = bays[self.random.below(bays.len() as u32) as usize];
                    if lane == u32::from(kind == 1) {
                        break node;
                    }
                },
            };
            let cable = cable(u64::from(i), source, &mut self.random);
            self.problem.cables.push(cable);
        }
    }
}
