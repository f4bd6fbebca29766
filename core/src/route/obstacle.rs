//! What stands in a way: keep-outs and power, asked by place and height.

use super::region::Region;
use crate::plan::{KeepOut, KeepOutReason, KeepOutShape, Level, PowerPlace, WallId};
use crate::rules::trade::PARALLEL;
use crate::rules::{RuleId, RuleSet};
use crate::shape::{Point, Pos, Segment};

/// Height of what a cable or a bore takes up, up and down from its middle, millimetres.
const HALF: f64 = 20.0;
/// Stretches that share less than this touch end to end, millimetres: an inch.
const TOUCH: f64 = 25.4;

/// Power cable along a wall.
struct PowerLine {
    wall: WallId,
    from: f64,
    to: f64,
    height: f64,
    /// Nearer than this is warned of, millimetres.
    warn: f64,
}

/// Power cable overhead, along one straight stretch.
struct PowerOverhead {
    run: Segment,
    warn: f64,
}

/// Power that stops a lane.
pub(super) struct PowerStop {
    pub height: f64,
    /// How far along the wall it is from the place asked about; 0 beside it.
    pub away: f64,
}

/// Power that runs along a stretch of cable overhead.
pub(super) struct Alongside {
    /// For how long, millimetres.
    pub length: f64,
    /// How near it comes: 2 stops the stretch, 1 is warned of, 0 is merely parallel.
    pub near: u8,
}

/// The obstacles of one level.
pub(super) struct Obstacles<'p> {
    regions: Vec<(&'p KeepOut, Region)>,
    stretches: Vec<(&'p KeepOut, WallId, f64, f64)>,
    power: Vec<PowerLine>,
    overhead: Vec<PowerOverhead>,
    stop: f64,
    /// Wood between a bore and what another trade cut.
    beside_cuts: f64,
    parallel: f64,
    ceiling: f64,
}

/// The box about what another trade cut out of joists, with the wood that stays beside it.
fn widened(corners: &[Point], by: f64) -> Region {
    let low = |pick: fn(&Point) -> i32| f64::from(corners.iter().map(pick).min().unwrap_or(0)) - by;
    let high =
        |pick: fn(&Point) -> i32| f64::from(corners.iter().map(pick).max().unwrap_or(0)) + by;
    let (left, right) = (low(|at| at.x), high(|at| at.x));
    let (top, bottom) = (low(|at| at.y), high(|at| at.y));
    let corners = [(left, top), (right, top), (right, bottom), (left, bottom)];
    Region::of(corners.into_iter().map(|(x, y)| Pos::new(x, y)))
}

impl<'p> Obstacles<'p> {
    pub fn of(level: &'p Level, rules: &RuleSet) -> Self {
        let mut found = Self {
            regions: Vec::new(),
            stretches: Vec::new(),
            power: Vec::new(),
            overhead: Vec::new(),
            stop: rules.value(RuleId::PowerStop),
            beside_cuts: rules.value(RuleId::BoreSpacing),
            parallel: rules.value(RuleId::PowerParallel),
            ceiling: level.ceiling.f64(),
        };
        for keep_out in &level.keep_outs {
            match &keep_out.shape {
                KeepOutShape::Region(corners) => {
                    let region = match keep_out.reason.is_cut() {
                        true => widened(corners, rules.value(RuleId::JoistSpacing) + HALF),
                        false => Region::of(corners.iter().map(|corner| corner.pos())),
                    };
                    // A beam drawn to the middle of a wall bears on the wall: nothing passes its end.
                    let region = match keep_out.reason {
                        KeepOutReason::Beam => region.with_beside(HALF),
                        _ => region,
                    };
                    found.regions.push((keep_out, region));
                }
                KeepOutShape::Stretch { wall, from, to } => {
                    found
                        .stretches
                        .push((keep_out, *wall, from.f64(), to.f64()));
                }
            }
        }
        for run in &level.power_runs {
            let warn = rules.power_distance(run.circuits).0;
            match &run.place {
                PowerPlace::Wall {
                    wall,
                    from,
                    to,
                    height,
                } => {
                    found.power.push(PowerLine {
                        wall: *wall,
                        from: from.f64(),
                        to: to.f64(),
                        height: height.f64(),
                        warn,
                    });
                }
                PowerPlace::Overhead(points) => {
                    let pairs = points.windows(2);
                    let runs = pairs.filter_map(|p| Segment::between(p[0].pos(), p[1].pos()));
                    let overhead = runs.map(|run| PowerOverhead { run, warn });
                    found.overhead.extend(overhead);
                }
            }
        }
        found
    }

    /// Whether something closes a stretch of a wall between two heights. `places` are positions on
    /// the wall's centre line at the two offsets.
    pub fn closes(
        &self,
        wall: WallId,
        offsets: (f64, f64),
        places: (Pos, Pos),
        heights: (f64, f64),
    ) -> bool {
        let (low, high) = (
            heights.0.min(heights.1) - HALF,
            heights.0.max(heights.1) + HALF,
        );
        let in_band = |keep_out: &KeepOut| {
            // Beside what another trade cut out of the wood some wood stays.
            let wood = match keep_out.reason.is_cut() {
                true => self.beside_cuts,
                false => 0.0,
            };
            keep_out.bottom.f64() - wood < high && low < keep_out.top.f64() + wood
        };
        let (near, far) = (offsets.0.min(offsets.1), offsets.0.max(offsets.1));
        let stretch = |(keep_out, on, from, to): &(&KeepOut, WallId, f64, f64)| {
            *on == wall && in_band(keep_out) && *from < far && near < *to
        };
        let region = |(keep_out, region): &(&KeepOut, Region)| {
            in_band(keep_out) && region.meets(places.0, places.1)
        };
        self.stretches.iter().any(stretch) || self.regions.iter().any(region)
    }

    /// Whether something closes the space over this level between two positions, or at one.
    pub fn closes_overhead(&self, from: Pos, to: Pos) -> bool {
        let through = |keep_out: &KeepOut| keep_out.top.f64() > self.ceiling;
        self.regions
            .iter()
            .any(|(keep_out, region)| through(keep_out) && region.meets(from, to))
    }

    /// Whether something closes the space under this level between two positions, or at one.
    pub fn closes_underfoot(&self, from: Pos, to: Pos) -> bool {
        let through = |keep_out: &KeepOut| keep_out.bottom.f64() < 0.0;
        self.regions
            .iter()
            .any(|(keep_out, region)| through(keep_out) && region.meets(from, to))
    }

    /// How near the power in a wall comes to a lane between two offsets: 2 stops it, 1 is warned
    /// of, 0 is clear.
    pub fn power_beside(&self, wall: WallId, from: f64, to: f64, height: f64) -> u8 {
        let runs = self.along(wall, from, to);
        let near = |run: &PowerLine| self.near((run.height - height).abs(), run.warn);
        runs.map(near).max().unwrap_or(0)
    }

    /// The power that stops a lane, the nearest to a place along the wall.
    pub fn power_that_stops(&self, wall: WallId, height: f64, beside: f64) -> Option<PowerStop> {
        let all = self.along(wall, f64::NEG_INFINITY, f64::INFINITY);
        let stops = all.filter(|run| self.near((run.height - height).abs(), run.warn) == 2);
        let stops = stops.map(|run| PowerStop {
            height: run.height,
            away: (run.from - beside).max(beside - run.to).max(0.0),
        });
        stops.min_by(|a, b| a.away.total_cmp(&b.away))
    }

    /// Power that runs along a wall somewhere between two offsets; a riser crosses it.
    fn along(&self, wall: WallId, from: f64, to: f64) -> impl Iterator<Item = &PowerLine> {
        self.power.iter().filter(move |run| {
            run.wall == wall && run.from < to && from < run.to && run.to - run.from > 1.0
        })
    }

    /// How near power is whose middle is so far from a cable's.
    fn near(&self, apart: f64, warn: f64) -> u8 {
        match apart - HALF / 2.0 {
            apart if apart < self.stop => 2,
            apart if apart < warn => 1,
            _ => 0,
        }
    }

    /// How far power in a wall runs along a lane between two offsets, within the distance that is
    /// noted; millimetres.
    pub fn power_along_lane(&self, wall: WallId, from: f64, to: f64, height: f64) -> f64 {
        let beside = self.power.iter();
        let beside =
            beside.filter(|run| run.wall == wall && (run.height - height).abs() < self.parallel);
        let shared = |run: &PowerLine| run.to.min(to) - run.from.max(from);
        beside.map(shared).fold(0.0, f64::max)
    }

    /// The power over this level that runs along a stretch within the distance that is noted, the
    /// nearest. What crosses it more squarely than 15 degrees does not.
    pub fn power_along(&self, from: Pos, to: Pos) -> Option<Alongside> {
        let stretch = Segment::between(from, to)?;
        let near = self.overhead.iter().filter(|power| {
            // Most power is nowhere near, which takes less to see than how it lies.
            let run = &power.run;
            let apart = |a: (f64, f64), b: (f64, f64)| {
                (a.0.min(a.1) - b.0.max(b.1)).max(b.0.min(b.1) - a.0.max(a.1))
            };
            apart((from.x, to.x), (run.from.x, run.to.x)) < self.parallel
                && apart((from.y, to.y), (run.from.y, run.to.y)) < self.parallel
        });
        let beside = near.filter_map(|power| {
            let run = &power.run;
            let (a, b) = (stretch.offset_of(run.from), stretch.offset_of(run.to));
            let (near, far) = (a.min(b).max(0.0), a.max(b).min(stretch.length));
            let apart = run.distance_to(stretch.at((near + far) / 2.0, 0.0));
            // Two that merely touch end to end do not run along one another.
            let along = run.along.cross(stretch.along).abs() < PARALLEL && far - near > TOUCH;
            (along && apart < self.parallel).then(|| Alongside {
                length: far - near,
                near: self.near(apart, power.warn),
            })
        });
        beside.max_by(|a, b| a.near.cmp(&b.near).then(a.length.total_cmp(&b.length)))
    }
}
