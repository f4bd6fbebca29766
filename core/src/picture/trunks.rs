//! Ways in plan: every stretch drawn once, with the cables that share it.

use std::collections::{BTreeMap, BTreeSet};

use crate::design::Design;
use crate::framing::{Framing, LevelFraming, Space};
use crate::plan::{CableId, LevelId, Plan, WallId};
use crate::route::{Move, MoveKind};
use crate::shape::{Pos, Segment};

/// Ends nearer than this are one, millimetres.
const SAME: f64 = 1.5;

/// Where a stretch runs, seen from the level it is drawn on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Layer {
    /// In a wall.
    Wall,
    /// In the space over the ceiling.
    Above,
    /// In the space under the floor.
    Below,
}

/// A stretch of ways in plan.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Stretch {
    /// Its corners in order.
    pub points: Vec<Pos>,
    /// The cables in it, in order of their identity.
    pub cables: Vec<CableId>,
    /// Where it runs.
    pub layer: Layer,
}

impl Stretch {
    /// Length in plan, millimetres.
    pub fn length(&self) -> f64 {
        self.points
            .windows(2)
            .map(|pair| pair[0].distance(pair[1]))
            .sum()
    }
}

/// The stretches of a level: in its walls, over its ceiling, and under the lowest floor.
pub(super) fn stretches(plan: &Plan, design: &Design, level: LevelId) -> Vec<Stretch> {
    let house = Where::of(plan, design, level);
    let mut runs = Vec::new();
    for way in &design.ways.ways {
        let legs = without_spurs(house.legs(&way.moves));
        let run = |(layer, from, to): Leg| (layer, from, to, way.cable);
        runs.extend(legs.into_iter().map(run));
    }
    shared(runs)
}

/// A straight piece of one cable's way.
pub(super) type Leg = (Layer, Pos, Pos);

/// The same way without stretches that are run back over at once: the graph leads every box
/// through the middle of its bay, the cable does not.
pub(super) fn without_spurs(legs: Vec<Leg>) -> Vec<Leg> {
    let mut kept: Vec<Leg> = Vec::new();
    for leg in legs {
        let mut leg = leg;
        while let Some((layer, from, to)) = kept.last().copied() {
            if !turns_back(&(layer, from, to), &leg) {
                break;
            }
            kept.pop();
            leg = (layer, from, leg.2);
        }
        if leg.1.distance(leg.2) >= SAME {
            kept.push(leg);
        }
    }
    kept
}

/// Whether a leg starts where another ends and runs back along it.
fn turns_back(one: &Leg, next: &Leg) -> bool {
    let (out, back) = (one.2 - one.1, next.2 - next.1);
    let aside = out.cross(back).abs();
    one.0 == next.0
        && one.2.distance(next.1) < SAME
        && out.dot(back) < 0.0
        && aside < 1e-3 * out.length() * back.length()
}

/// Straight runs of single cables as stretches that are each drawn once.
pub(super) fn shared(runs: Vec<(Layer, Pos, Pos, CableId)>) -> Vec<Stretch> {
    let mut lines: BTreeMap<Carrier, Vec<Piece>> = BTreeMap::new();
    for (layer, from, to, cable) in runs {
        if let Some((carrier, piece)) = carry(layer, from, to, cable) {
            let line = lines.entry(carrier).or_default();
            // A cable runs on from bay to bay: one piece, as far as it stays on the line.
            match line.last_mut().filter(|last| last.runs_on_to(&piece)) {
                Some(last) => last.reach_to(&piece),
                None => line.push(piece),
            }
        }
    }
    let pieces = lines
        .into_iter()
        .flat_map(|(carrier, pieces)| share(carrier.layer, pieces));
    chain(pieces.collect())
}

/// The way of one cable in plan on a level, as straight pieces in order from its drop; the same
/// lines its stretches are drawn along.
pub fn way_pieces(plan: &Plan, design: &Design, level: LevelId, cable: CableId) -> Vec<[Pos; 2]> {
    let house = Where::of(plan, design, level);
    let way = design.ways.way(cable);
    let legs = way.map(|way| house.legs(&way.moves)).unwrap_or_default();
    let ends = legs.into_iter().map(|(_, from, to)| [from, to]);
    ends.filter(|[from, to]| from.distance(*to) > SAME)
        .collect()
}

/// Which moves are drawn on a level, and where.
struct Where<'p> {
    framing: &'p Framing,
    walls: BTreeSet<WallId>,
    here: Option<&'p LevelFraming>,
    below: Option<usize>,
}

impl<'p> Where<'p> {
    fn of(plan: &Plan, design: &'p Design, level: LevelId) -> Self {
        let framing = &design.framing;
        let here = framing.level(level);
        let over_another = |space: &usize| framing.levels.iter().any(|l| l.is_under(*space));
        let below = here.and_then(|level| level.below);
        Self {
            framing,
            walls: plan
                .level(level)
                .map(|level| level.walls.iter().map(|wall| wall.id).collect())
                .unwrap_or_default(),
            here,
            below: below.filter(|space| !over_another(space)),
        }
    }

    /// Moves in plan, as straight legs on this level; none of those that run on another.
    fn legs(&self, moves: &[Move]) -> Vec<Leg> {
        let mut legs = Vec::with_capacity(moves.len() + 2);
        for step in moves {
            self.add_legs(step, &mut legs);
        }
        legs
    }

    fn add_legs(&self, step: &Move, legs: &mut Vec<Leg>) {
        let (from, to) = (step.from.at, step.to.at);
        match step.kind {
            MoveKind::InBay { wall, .. }
            | MoveKind::AlongWall { wall }
            | MoveKind::ThroughTopPlates { wall, .. }
            | MoveKind::ThroughBottomPlates { wall, .. }
            | MoveKind::Outside { wall, .. } => {
                if self.walls.contains(&wall) {
                    legs.push((Layer::Wall, from, to));
                }
            }
            MoveKind::IntoWall { from: one, .. } if !self.walls.contains(&one) => {}
            MoveKind::IntoWall {
                from: one,
                to: other,
            } => match self.corner(one, other) {
                Some(corner) => {
                    legs.extend([(Layer::Wall, from, corner), (Layer::Wall, corner, to)]);
                }
                None => legs.push((Layer::Wall, from, to)),
            },
            MoveKind::AlongStrip { space } | MoveKind::AcrossStrips { space } => {
                self.add_in_space(space, from, to, legs);
            }
            MoveKind::ThroughCeiling { .. } | MoveKind::OnFace { .. } => {}
        }
    }

    fn add_in_space(&self, index: usize, from: Pos, to: Pos, legs: &mut Vec<Leg>) {
        let is_above = self.here.is_some_and(|level| level.is_under(index));
        let layer = match (is_above, self.below == Some(index)) {
            (true, _) => Layer::Above,
            (_, true) => Layer::Below,
            _ => return,
        };
        if let Some(space) = self.framing.spaces.get(index) {
            let elbow = elbow(space, from, to);
            legs.extend([(layer, from, elbow), (layer, elbow, to)]);
        }
    }

    fn corner(&self, one: WallId, other: WallId) -> Option<Pos> {
        let line = self.framing.wall(one)?.line;
        let (offset, _) = line.crossing(&self.framing.wall(other)?.line)?;
        Some(line.at(offset, 0.0))
    }
}

/// Where a run in a space turns: it leaves a strip's middle line squarely.
fn elbow(space: &Space, from: Pos, to: Pos) -> Pos {
    let on_line = |place: Pos| {
        let strip = space.strip_at(place).map(|strip| &space.strips[strip]);
        strip.is_some_and(|strip| (strip.middle() - space.across_of(place)).abs() < SAME)
    };
    match on_line(to) || !on_line(from) {
        true => space.at(space.along_of(from), space.across_of(to)),
        false => space.at(space.along_of(to), space.across_of(from)),
    }
}

/// The line a piece lies on: a canonical direction and a distance from the origin, rounded so that
/// pieces of one line meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Carrier {
    layer: Layer,
    direction: (i64, i64),
    aside: i64,
}

/// A piece of a carrier line.
#[derive(Clone, Copy, Debug)]
struct Piece {
    line: Segment,
    from: f64,
    to: f64,
    cable: CableId,
}

impl Piece {
    fn runs_on_to(&self, next: &Piece) -> bool {
        let apart = (next.from - self.to).max(self.from - next.to);
        self.cable == next.cable && apart < SAME
    }

    fn reach_to(&mut self, next: &Piece) {
        self.from = self.from.min(next.from);
        self.to = self.to.max(next.to);
    }
}

fn carry(layer: Layer, from: Pos, to: Pos, cable: CableId) -> Option<(Carrier, Piece)> {
    if from.distance(to) < SAME {
        return None;
    }
    let along = (to - from).unit()?;
    let backwards = along.x < -1e-6 || (along.x.abs() <= 1e-6 && along.y < 0.0);
    let along = if backwards { along * -1.0 } else { along };
    let aside = along.quarter_turn().dot(from);
    // The odd share keeps whole and half millimetres away from the border between two lines.
    let rounded = |value: f64, step: f64| (value / step + 0.1234567).floor() as i64;
    let carrier = Carrier {
        layer,
        direction: (rounded(along.x, 1e-3), rounded(along.y, 1e-3)),
        aside: rounded(aside, 2.0),
    };
    let base = along.quarter_turn() * aside;
    let line = Segment::between(base, base + along)?;
    let (a, b) = (from.dot(along), to.dot(along));
    let piece = Piece {
        line,
        from: a.min(b),
        to: a.max(b),
        cable,
    };
    Some((carrier, piece))
}

/// Cuts the pieces of one line at every end, and joins neighbours that hold the same cables.
fn share(layer: Layer, pieces: Vec<Piece>) -> Vec<Stretch> {
    let Some(line) = pieces.first().map(|piece| piece.line) else {
        return Vec::new();
    };
    let mut cuts: Vec<f64> = pieces.iter().flat_map(|p| [p.from, p.to]).collect();
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|next, last| *next - *last < SAME);
    let mut shared: Vec<(f64, f64, BTreeSet<CableId>)> = Vec::new();
    for pair in cuts.windows(2) {
        let middle = (pair[0] + pair[1]) / 2.0;
        let here = pieces.iter().filter(|p| p.from < middle && middle < p.to);
        let cables: BTreeSet<CableId> = here.map(|piece| piece.cable).collect();
        match shared.last_mut() {
            Some((_, to, same)) if *to == pair[0] && *same == cables => *to = pair[1],
            _ => shared.push((pair[0], pair[1], cables)),
        }
    }
    let full = shared.into_iter().filter(|(.., cables)| !cables.is_empty());
    full.map(|(from, to, cables)| Stretch {
        points: vec![line.at(from, 0.0), line.at(to, 0.0)],
        cables: cables.into_iter().collect(),
        layer,
    })
    .collect()
}

/// Joins stretches of the same cables end to end, so that dashes and counts run on round corners.
fn chain(mut left: Vec<Stretch>) -> Vec<Stretch> {
    let mut chained = Vec::new();
    while !left.is_empty() {
        let mut stretch = left.remove(0);
        while grow(&mut stretch, &mut left) {}
        stretch.points.reverse();
        while grow(&mut stretch, &mut left) {}
        chained.push(stretch);
    }
    chained
}

fn grow(stretch: &mut Stretch, left: &mut Vec<Stretch>) -> bool {
    let Some(end) = stretch.points.last().copied() else {
        return false;
    };
    let joins = |next: &Stretch| {
        let ends = [next.points.first(), next.points.last()];
        next.layer == stretch.layer
            && next.cables == stretch.cables
            && ends
                .iter()
                .flatten()
                .any(|place| place.distance(end) < SAME)
    };
    let Some(next) = left.iter().position(joins) else {
        return false;
    };
    let mut points = left.remove(next).points;
    if points.last().is_some_and(|last| last.distance(end) < SAME) {
        points.reverse();
    }
    stretch.points.extend(points.into_iter().skip(1));
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    type Run = ((f64, f64), (f64, f64), u32);

    fn pieces(ends: &[Run]) -> Vec<Stretch> {
        let pos = |(x, y)| Pos::new(x, y);
        let run = |(from, to, cable): &Run| (Layer::Wall, pos(*from), pos(*to), CableId(*cable));
        shared(ends.iter().map(run).collect())
    }

    #[test]
    fn what_two_cables_share_is_drawn_once() {
        let found = pieces(&[
            ((0.0, 0.0), (3000.0, 0.0), 1),
            ((3000.0, 0.0), (1000.0, 0.0), 2),
        ]);
        let counts: Vec<_> = found.iter().map(|s| (s.length(), s.cables.len())).collect();
        assert_eq!(counts, [(1000.0, 1), (2000.0, 2)]);
    }

    #[test]
    fn a_cable_runs_on_round_a_corner() {
        let found = pieces(&[
            ((0.0, 0.0), (3000.0, 0.0), 1),
            ((3000.0, 2000.0), (3000.0, 0.0), 1),
        ]);
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].points.len(), 3);
        assert_eq!(found[0].length(), 5000.0);
    }

    #[test]
    fn a_stretch_run_back_over_is_left_out() {
        let leg = |from, to| (Layer::Wall, Pos::new(from, 0.0), Pos::new(to, 0.0));
        let legs = without_spurs(vec![leg(500.0, 300.0), leg(300.0, 900.0)]);
        assert_eq!(legs, [leg(500.0, 900.0)]);
        let legs = without_spurs(vec![leg(0.0, 900.0), leg(900.0, 600.0)]);
        assert_eq!(legs, [leg(0.0, 600.0)]);
        let straight = vec![leg(0.0, 400.0), leg(400.0, 600.0)];
        assert_eq!(without_spurs(straight.clone()), straight);
    }

    #[test]
    fn pieces_a_hair_apart_lie_on_one_line() {
        let found = pieces(&[
            ((0.0, 1000.5), (900.0, 1000.5), 1),
            ((900.0, 1000.500001), (1800.0, 1000.499999), 1),
        ]);
        assert_eq!(found.len(), 1);
    }
}
