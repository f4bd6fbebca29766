//! What stands in a way: keep-outs and power, asked by place and height.

use super::region::Region;
use crate::plan::{KeepOut, KeepOutShape, Level, PowerPlace, WallId};
use crate::rules::{RuleId, RuleSet};
use crate::shape::{Point, Pos, Segment};

/// Height of what a cable or a bore takes up, up and down from its middle, millimetres.
const HALF: f64 = 20.0;

/// Power cable along a wall.
struct PowerLine {
    wall: WallId,
    from: f64,
    to: f64,
    height: f64,
    /// Nearer than this is warned of, millimetres.
    warn: f64,
}

/// The obstacles of one level.
pub(super) struct Obstacles<'p> {
    regions: Vec<(&'p KeepOut, Region)>,
    stretches: Vec<(&'p KeepOut, WallId, f64, f64)>,
    power: Vec<PowerLine>,
    overhead: Vec<Segment>,
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
                        warn: rules.power_distance(run.circuits).0,
                    });
                }
                PowerPlace::Overhead(points) => {
                    let pairs = points.windows(2);
                    found
                        .overhead
                        .extend(pairs.filter_map(|p| Segment::between(p[0].pos(), p[1].pos())));
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
        let runs = self.power.iter().filter(|run| {
            run.wall == wall && run.from < to && from < run.to && run.to - run.from > 1.0
        });
        let near = |run: &PowerLine| match (run.height - height).abs() - HALF / 2.0 {
            apart if apart < self.stop => 2,
            apart if apart < run.warn => 1,
            _ => 0,
        };
        runs.map(near).max().unwrap_or(0)
    }

    /// How far power in a wall runs along a lane between two offsets, within the distance that is
    /// noted; millimetres.
    pub fn power_along_lane(&self, wall: WallId, from: f64, to: f64, height: f64) -> f64 {
        let beside = self
            .power
            .iter()
            .filter(|run| run.wall == wall && (run.height - height).abs() < self.parallel);
        let shared = |run: &PowerLine| run.to.min(to) - run.from.max(from);
        beside.map(shared).fold(0.0, f64::max)
    }

    /// Whether power overhead runs along a stretch within the distance that is noted.
    pub fn power_along(&self, from: Pos, to: Pos) -> bool {
        let Some(stretch) = Segment::between(from, to) else {
            return false;
        };
        let middle = stretch.at(stretch.length / 2.0, 0.0);
        self.overhead.iter().any(|run| {
            run.along.cross(stretch.along).abs() < 0.26 && run.distance_to(middle) < self.parallel
        })
    }
}
