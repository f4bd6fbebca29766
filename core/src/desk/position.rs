//! Where on its level something of the plan is, to point at it.

use super::Choice;
use crate::plan::{Closet, KeepOutShape, LevelId, Opening, Plan, PowerPlace, Wall};
use crate::shape::{Point, Pos};
use crate::units::Mm;

/// Where the closet's panel is on its level.
pub fn closet_position(plan: &Plan, closet: &Closet) -> Option<Pos> {
    closet.in_front(plan, 0.0)
}

/// The middle of an opening on its wall's centre line.
pub(super) fn opening_position(wall: &Wall, opening: &Opening) -> Option<Pos> {
    let middle = opening.offset.f64() + opening.width.f64() / 2.0;
    wall.line().map(|line| line.at(middle, 0.0))
}

/// The level something is on and its position there; `None` for a level or a drawing as a whole,
/// and for what the plan does not have.
pub fn position(plan: &Plan, choice: Choice) -> Option<(LevelId, Pos)> {
    match choice {
        Choice::Drop(id) => {
            let drop = plan.drop(id)?;
            Some((drop.level, drop.place.position(plan)?))
        }
        Choice::Cable(id) => {
            let (drop, _) = plan.cable(id)?;
            Some((drop.level, drop.place.position(plan)?))
        }
        Choice::Closet => {
            let closet = plan.closet?;
            Some((closet.level, closet_position(plan, &closet)?))
        }
        Choice::Opening(id) => {
            let (level, opening) = plan.opening(id)?;
            let wall = level.wall(opening.wall)?;
            Some((level.id, opening_position(wall, opening)?))
        }
        Choice::Wall(id) => {
            let (level, wall) = plan.wall(id)?;
            Some((level.id, (wall.from.pos() + wall.to.pos()) * 0.5))
        }
        _ => site_position(plan, choice),
    }
}

fn site_position(plan: &Plan, choice: Choice) -> Option<(LevelId, Pos)> {
    plan.levels.iter().find_map(|level| {
        let at = match choice {
            Choice::Room(id) => level.room(id)?.at.pos(),
            Choice::KeepOut(id) => match &level.keep_out(id)?.shape {
                KeepOutShape::Region(corners) => middle(corners)?,
                KeepOutShape::Stretch { wall, from, to } => {
                    between(level.wall(*wall)?, *from, *to)?
                }
            },
            Choice::PowerRun(id) => match &level.power_run(id)?.place {
                PowerPlace::Overhead(points) => middle(points)?,
                PowerPlace::Wall { wall, from, to, .. } => between(level.wall(*wall)?, *from, *to)?,
            },
            _ => return None,
        };
        Some((level.id, at))
    })
}

fn between(wall: &Wall, from: Mm, to: Mm) -> Option<Pos> {
    let middle = (from.f64() + to.f64()) / 2.0;
    wall.line().map(|line| line.at(middle, 0.0))
}

fn middle(points: &[Point]) -> Option<Pos> {
    let sum = points.iter().fold(Pos::default(), |sum, p| sum + p.pos());
    (!points.is_empty()).then(|| sum * (1.0 / points.len() as f64))
}

/// Smallest and largest coordinates of everything on a level, its drawing included; `None` for an
/// empty one. What a [`View`](super::View) has to show.
pub fn bounds(plan: &Plan, level: LevelId) -> Option<(Pos, Pos)> {
    let shown = plan.level(level)?;
    let walls = shown.walls.iter().flat_map(|w| [w.from.pos(), w.to.pos()]);
    let drops = plan.drops.iter().filter(|drop| drop.level == level);
    let drops = drops.filter_map(|drop| drop.place.position(plan));
    let scan = shown.sheet.scan.iter().flat_map(|scan| {
        let (width, height) = (f64::from(scan.width), f64::from(scan.height));
        [(0.0, 0.0), (width, 0.0), (0.0, height), (width, height)]
            .map(|pixel| shown.sheet.placing.to_plan(pixel))
    });
    let all: Vec<Pos> = walls.chain(drops).chain(scan).collect();
    let first = *all.first()?;
    let low = |low: Pos, p: &Pos| Pos::new(low.x.min(p.x), low.y.min(p.y));
    let high = |high: Pos, p: &Pos| Pos::new(high.x.max(p.x), high.y.max(p.y));
    Some((all.iter().fold(first, low), all.iter().fold(first, high)))
}

/// Where a bore's crossing is, by the number people call it by.
pub(super) fn bore_position(design: &crate::design::Design, number: u32) -> Option<(LevelId, Pos)> {
    let bore = design.bores.iter().find(|bore| bore.number == number)?;
    let crossing = design.ways.crossings.get(bore.crossing)?;
    Some((crossing.level, crossing.at))
}
