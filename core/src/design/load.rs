//! How much work a plan is, told in hardly any time before any of it is done.
//!
//! It is estimated from what is drawn: the graph from the length of the walls and the area of the spaces,
//! the search from the graph and the cables, the rest from the ways there will be. Houses and hostile plans
//! were timed for it; `cargo figures` prints how far it is off for each of them. Decides nothing but what
//! is light.

use crate::plan::{Above, Below, KeepOutShape, Level, Place, Plan, PowerPlace, Wall};
use crate::route::network::Effort;

/// A light plan takes so much at most, [`Load::total`]. Whatever the page does in one go is to take 200 ms
/// at most; a page draws what follows, too.
const LIGHT: u64 = 130_000;

/// Courses of a space lie so far apart, millimetres; see `route::overhead`.
const COURSE: i64 = 610;
/// At most so many strips and courses are laid in a space.
const MOST_STRIPS: i64 = 400;
const MOST_COURSES: i64 = 120;
/// Ports are joined to so many others at most where walls crowd.
const MOST_NEAR: u64 = 16;
/// Walls of a house run on in, or beside, so many others.
const BESIDE: u64 = 2;
/// Walls whose boxes are nearer than this may meet, millimetres.
const NEAR: i32 = 150;

/// The work of a plan, in microseconds of the machine it was measured on, in a browser.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Load {
    /// Places of the routing graph, about.
    pub places: u64,
    /// Edges of the routing graph, about.
    pub edges: u64,
    /// What everything but the search for ways takes.
    pub around: u64,
    /// What the search takes as the moment after an edit has it.
    pub search: u64,
}

impl Load {
    /// The load of a plan.
    ///
    /// ```
    /// use borewright_core::{design::Load, plan::Plan};
    /// assert!(Load::of(&Plan::new()).is_light());
    /// ```
    pub fn of(plan: &Plan) -> Self {
        let counts = plan.levels.iter().map(Counts::of);
        let all = counts.fold(Counts::default(), Counts::and);
        let cables = plan.cables().count() as u64;
        let (places, edges) = (all.places, all.edges);
        let framing = all.pairs / 16 + all.studs / 3 + all.meetings * 2;
        let stopped = edges * (8 * all.power + 3 * all.corners) / 1_000;
        let graph = places * 3 / 2 + edges * 2 / 5 + stopped + boxes(plan);
        let moves = cables * edges.isqrt() / 3;
        let after = moves * 3 + moves * all.power / 200 + cables * cables / 10;
        let first = edges * 17 / 10 + 3 * cables * edges.isqrt();
        // Few cables are sought longer after an edit.
        let longer = cables <= Effort::MOST_CABLES_AFTER as u64;
        Self {
            places,
            edges,
            around: framing + graph + after,
            search: if longer { first * 3 / 2 } else { first },
        }
    }

    /// All of it.
    pub fn total(self) -> u64 {
        self.around + self.search
    }

    /// Whether all of it can be worked out in the moment after an edit, while the page waits.
    pub fn is_light(self) -> bool {
        self.total() <= LIGHT
    }

    /// Whether all but the search can, as in a frame of a drag.
    pub fn is_light_for_a_frame(self) -> bool {
        self.around <= LIGHT / 2
    }
}

/// What is counted of a level.
#[derive(Clone, Copy, Debug, Default)]
struct Counts {
    studs: u64,
    places: u64,
    edges: u64,
    /// Pairs of walls.
    pairs: u64,
    /// Pairs of walls that may meet.
    meetings: u64,
    /// Stretches of power overhead.
    power: u64,
    /// Corners of keep-outs.
    corners: u64,
}

impl Counts {
    fn of(level: &Level) -> Self {
        let walls = level.walls.len() as u64;
        let studs: u64 = level.walls.iter().map(studs).sum();
        let (meetings, beside) = meetings(&level.walls);
        let spaces = u64::from(has_above(level)) + u64::from(level.below != Below::Slab);
        let places = studs * (1 + spaces) + grid(level);
        let crowd = (2 * beside / walls.max(1)).saturating_sub(BESIDE);
        let overhead = |place: &PowerPlace| match place {
            PowerPlace::Overhead(points) => points.len() as u64,
            PowerPlace::Wall { .. } => 0,
        };
        let corners = |shape: &KeepOutShape| match shape {
            KeepOutShape::Region(corners) => corners.len() as u64,
            KeepOutShape::Stretch { .. } => 1,
        };
        Self {
            studs,
            places,
            edges: places * 5 / 2 + studs * spaces * crowd.min(MOST_NEAR),
            pairs: walls * walls,
            meetings,
            power: level
                .power_runs
                .iter()
                .map(|run| overhead(&run.place))
                .sum(),
            corners: level.keep_outs.iter().map(|one| corners(&one.shape)).sum(),
        }
    }

    fn and(self, other: Self) -> Self {
        Self {
            studs: self.studs + other.studs,
            places: self.places + other.places,
            edges: self.edges + other.edges,
            pairs: self.pairs + other.pairs,
            meetings: self.meetings + other.meetings,
            power: self.power + other.power,
            corners: self.corners + other.corners,
        }
    }
}

/// Uprights of a wall, about: at its ends, on layout, and some at joints.
fn studs(wall: &Wall) -> u64 {
    let length = wall.from.distance(wall.to).0.max(0) as u64;
    length / (wall.spacing.0.max(100.0) as u64) + 4
}

/// Pairs of walls whose boxes are so near that they may meet, and those among them that run the same way.
fn meetings(walls: &[Wall]) -> (u64, u64) {
    let spans: Vec<Span> = walls.iter().map(Span::of).collect();
    let mut found = (0, 0);
    for (place, one) in spans.iter().enumerate() {
        for other in spans[place + 1..].iter().filter(|other| one.meets(other)) {
            found.0 += 1;
            found.1 += u64::from(one.is_along == other.is_along);
        }
    }
    found
}

/// The box of a wall's centre line.
struct Span {
    left: i32,
    right: i32,
    top: i32,
    bottom: i32,
    /// Whether it runs more along x than along y.
    is_along: bool,
}

impl Span {
    fn of(wall: &Wall) -> Self {
        let (a, b) = (wall.from, wall.to);
        Self {
            left: a.x.min(b.x),
            right: a.x.max(b.x),
            top: a.y.min(b.y),
            bottom: a.y.max(b.y),
            is_along: a.x.abs_diff(b.x) > a.y.abs_diff(b.y),
        }
    }

    fn meets(&self, other: &Self) -> bool {
        let near = |low: i32, high: i32| low.saturating_sub(high) < NEAR;
        near(self.left, other.right)
            && near(other.left, self.right)
            && near(self.top, other.bottom)
            && near(other.top, self.bottom)
    }
}

fn has_above(level: &Level) -> bool {
    !matches!(level.above, Above::ClosedRoof(_))
}

/// Places of the strips over a level, and of those under it where it stands over nothing drawn, about.
fn grid(level: &Level) -> u64 {
    let ends = || level.walls.iter().flat_map(|wall| [wall.from, wall.to]);
    let reach = |of: fn(crate::shape::Point) -> i32| {
        let low = ends().map(of).min().unwrap_or(0);
        let high = ends().map(of).max().unwrap_or(0);
        i64::from(high) - i64::from(low)
    };
    let (across, along) = (reach(|at| at.x), reach(|at| at.y));
    let over = match level.above {
        Above::AtticTrusses(trusses)
        | Above::Level {
            beside: Some(trusses),
            ..
        } => strips(across, along, trusses.spacing.0),
        Above::AtticJoists(joists) => strips(across, along, joists.spacing.0),
        Above::Level { beside: None, .. } | Above::ClosedRoof(_) => 0,
    };
    let under = match level.below {
        Below::Slab => 0,
        Below::Crawl(joists) | Below::Level(joists) => strips(across, along, joists.spacing.0),
    };
    over + under
}

/// Strips by courses of a rectangle, whichever way its joists run: the mean of both.
fn strips(across: i64, along: i64, spacing: f64) -> u64 {
    let of = |strips: i64, courses: i64| {
        let strips = (strips / (spacing.max(100.0) as i64)).clamp(1, MOST_STRIPS);
        strips * (courses / COURSE).clamp(1, MOST_COURSES)
    };
    ((of(across, along) + of(along, across)) / 2) as u64
}

/// What the boxes in walls take: each is held against the uprights of its wall, and where it cannot hang,
/// so are the places beside each of them.
fn boxes(plan: &Plan) -> u64 {
    let on_wall = plan.drops.iter().filter_map(|drop| match drop.place {
        Place::Wall { wall, .. } => plan.wall(wall),
        _ => None,
    });
    let uprights = on_wall.map(|(_, wall)| studs(wall));
    uprights.map(|studs| studs * studs / 100).sum()
}
