//! The section of levels and what lies between them.

use super::LinkError;
use super::columns::{Reader, Writer};
use super::settings::at;
use super::words::Texts;
use crate::plan::edit::caps;
use crate::plan::{
    Above, Below, Floor, JoistKind, LayoutSide, Level, LevelId, Plan, Rafters, Trusses,
};
use crate::shape::Direction;
use crate::units::{Mm, Size};

type Read<T> = Result<T, LinkError>;

/// What is over a level besides a framed floor.
const TRUSSES: i64 = 0;
const JOISTS: i64 = 1;
const LEVEL: i64 = 2;
const CLOSED: i64 = 3;
const OPEN_LEVEL: i64 = 4;
const LEVEL_AND_ROOF: i64 = 5;
const OPEN_LEVEL_AND_ROOF: i64 = 6;
const CLOSED_ON_RAFTERS: i64 = 7;

/// What is under a level.
const SLAB: i64 = 0;
const CRAWL: i64 = 1;
const FRAMED: i64 = 2;

pub(super) fn put(plan: &Plan, out: &mut Writer) {
    let levels = &plan.levels;
    out.number(levels.len() as u64);
    levels.iter().for_each(|level| out.text(&level.name));
    out.identities(levels, |level| level.id.0);
    out.of(levels, |level| i64::from(level.ceiling.0));
    out.of(levels, |level| match level.below {
        Below::Slab => SLAB,
        Below::Crawl(_) => CRAWL,
        Below::Level(_) => FRAMED,
    });
    out.of(levels, |level| match level.above {
        Above::AtticTrusses(_) => TRUSSES,
        Above::AtticJoists(_) => JOISTS,
        Above::Level { open, beside } => match (open, beside) {
            (false, None) => LEVEL,
            (true, None) => OPEN_LEVEL,
            (false, Some(_)) => LEVEL_AND_ROOF,
            (true, Some(_)) => OPEN_LEVEL_AND_ROOF,
        },
        Above::ClosedRoof(None) => CLOSED,
        Above::ClosedRoof(Some(_)) => CLOSED_ON_RAFTERS,
    });
    let floors: Vec<Floor> = levels.iter().flat_map(floors).collect();
    out.of(&floors, |floor| match floor.kind {
        JoistKind::Sawn => 0,
        JoistKind::IJoist => 1,
        JoistKind::OpenWeb => 2,
    });
    out.reals(&floors.iter().map(|f| f.depth.0).collect::<Vec<_>>());
    out.reals(&floors.iter().map(|f| f.spacing.0).collect::<Vec<_>>());
    out.of(&floors, |floor| i64::from(floor.direction.dx));
    out.of(&floors, |floor| i64::from(floor.direction.dy));
}

/// The framed floors of a level, from below up. Trusses have a spacing and a direction, and stand
/// among them as sawn joists of no depth; rafters as such as deep as they rise in 12 of run.
fn floors(level: &Level) -> Vec<Floor> {
    let below = match level.below {
        Below::Slab => None,
        Below::Crawl(floor) | Below::Level(floor) => Some(floor),
    };
    let as_floor = |trusses: Trusses| Floor {
        depth: Size(0.0),
        ..trusses.as_joists()
    };
    let above = match level.above {
        Above::AtticTrusses(trusses) => Some(as_floor(trusses)),
        Above::AtticJoists(floor) => Some(floor),
        Above::Level { beside, .. } => beside.map(as_floor),
        Above::ClosedRoof(rafters) => rafters.map(|rafters| Floor {
            depth: Size(f64::from(rafters.pitch)),
            ..rafters.as_joists()
        }),
    };
    below.into_iter().chain(above).collect()
}

pub(super) fn take(plan: &mut Plan, section: &mut Reader, texts: &mut Texts) -> Read<()> {
    let count = section.count(caps::LEVELS.most)?;
    let names: Read<Vec<String>> = (0..count).map(|_| texts.next()).collect();
    let ids = section.identities(count)?;
    let ceilings: Vec<i32> = section.column_of(count)?;
    let below = section.column(count)?;
    let above = section.column(count)?;
    let under = below.iter().filter(|kind| **kind != SLAB).count();
    let over = above.iter().filter(|kind| {
        matches!(
            **kind,
            TRUSSES | JOISTS | LEVEL_AND_ROOF | OPEN_LEVEL_AND_ROOF | CLOSED_ON_RAFTERS
        )
    });
    let mut floors = take_floors(section, under + over.count())?.into_iter();
    let mut floor = || floors.next().ok_or(LinkError::Altered);
    for (place, name) in names?.into_iter().enumerate() {
        let mut level = Level::new(LevelId(at(&ids, place)?), &name);
        level.ceiling = Mm(at(&ceilings, place)?);
        level.below = match at(&below, place)? {
            SLAB => Below::Slab,
            CRAWL => Below::Crawl(floor()?),
            FRAMED => Below::Level(floor()?),
            _ => return Err(LinkError::TooNew),
        };
        level.above = match at(&above, place)? {
            TRUSSES => Above::AtticTrusses(trusses(floor()?)),
            JOISTS => Above::AtticJoists(floor()?),
            kind @ (LEVEL | OPEN_LEVEL) => Above::Level {
                open: kind == OPEN_LEVEL,
                beside: None,
            },
            kind @ (LEVEL_AND_ROOF | OPEN_LEVEL_AND_ROOF) => Above::Level {
                open: kind == OPEN_LEVEL_AND_ROOF,
                beside: Some(trusses(floor()?)),
            },
            CLOSED => Above::CLOSED,
            CLOSED_ON_RAFTERS => Above::ClosedRoof(Some(rafters(floor()?))),
            _ => return Err(LinkError::TooNew),
        };
        plan.levels.push(level);
    }
    Ok(())
}

/// Trusses as [`floors`] puts them.
fn trusses(floor: Floor) -> Trusses {
    Trusses {
        spacing: floor.spacing,
        direction: floor.direction,
        layout: floor.layout,
    }
}

/// Rafters as [`floors`] puts them.
fn rafters(floor: Floor) -> Rafters {
    Rafters {
        spacing: floor.spacing,
        direction: floor.direction,
        layout: floor.layout,
        // Mending says what is steeper than a roof can be.
        pitch: floor.depth.0.clamp(0.0, 255.0) as u8,
    }
}

fn take_floors(section: &mut Reader, count: usize) -> Read<Vec<Floor>> {
    let kinds = section.column(count)?;
    let depths = section.reals(count)?;
    let spacings = section.reals(count)?;
    let right: Vec<i32> = section.column_of(count)?;
    let down: Vec<i32> = section.column_of(count)?;
    let floor = |place: usize| {
        Ok(Floor {
            kind: match at(&kinds, place)? {
                0 => JoistKind::Sawn,
                1 => JoistKind::IJoist,
                2 => JoistKind::OpenWeb,
                _ => return Err(LinkError::TooNew),
            },
            depth: Size(at(&depths, place)?),
            spacing: Size(at(&spacings, place)?),
            direction: Direction {
                dx: at(&right, place)?,
                dy: at(&down, place)?,
            },
            layout: LayoutSide::First,
        })
    };
    (0..count).map(floor).collect()
}

/// The sides joists and trusses are laid out from, floor by floor. A section of its own, of an odd tag:
/// a reader that took every side for the usual one would show other bores than the sender saw.
pub(super) fn put_layout(plan: &Plan, out: &mut Writer) {
    let floors: Vec<Floor> = plan.levels.iter().flat_map(floors).collect();
    if floors.iter().any(|floor| floor.layout != LayoutSide::First) {
        out.of(&floors, |floor| {
            i64::from(floor.layout == LayoutSide::Second)
        });
    }
}

pub(super) fn take_layout(plan: &mut Plan, section: &mut Reader, _: &mut Texts) -> Read<()> {
    if section.is_empty() {
        return Ok(());
    }
    let count = plan.levels.iter().flat_map(floors).count();
    let sides = section.column(count)?;
    for (layout, side) in plan.levels.iter_mut().flat_map(layouts).zip(sides) {
        *layout = match side {
            0 => LayoutSide::First,
            1 => LayoutSide::Second,
            _ => return Err(LinkError::TooNew),
        };
    }
    Ok(())
}

/// The sides of the floors that [`floors`] names, in the same order.
fn layouts(level: &mut Level) -> impl Iterator<Item = &mut LayoutSide> {
    let below = match &mut level.below {
        Below::Slab => None,
        Below::Crawl(floor) | Below::Level(floor) => Some(&mut floor.layout),
    };
    let above = match &mut level.above {
        Above::AtticTrusses(trusses) => Some(&mut trusses.layout),
        Above::AtticJoists(floor) => Some(&mut floor.layout),
        Above::Level { beside, .. } => beside.as_mut().map(|trusses| &mut trusses.layout),
        Above::ClosedRoof(rafters) => rafters.as_mut().map(|rafters| &mut rafters.layout),
    };
    below.into_iter().chain(above)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::file::link::{Privacy, read, write};
    use crate::rules::trade::STEEPEST_ROOF;

    fn there_and_back(plan: &Plan) -> Vec<Level> {
        let link = write(plan, Privacy::Everything).unwrap();
        read(&link).unwrap().plan.levels
    }

    /// The other side comes back for a floor and for trusses, each by itself.
    #[test]
    fn the_side_joists_are_laid_out_from_comes_back() {
        let mut plan = Plan::new();
        plan.levels[0].below = Below::Crawl(Floor::sawn(Direction::ALONG_X));
        assert_eq!(there_and_back(&plan), plan.levels);
        if let Below::Crawl(floor) = &mut plan.levels[0].below {
            floor.layout = LayoutSide::Second;
        }
        assert_eq!(there_and_back(&plan), plan.levels);
        plan.levels[0].below = Below::Slab;
        if let Above::AtticTrusses(trusses) = &mut plan.levels[0].above {
            trusses.layout = LayoutSide::Second;
        }
        assert_eq!(there_and_back(&plan), plan.levels);
    }

    #[test]
    fn the_rafters_of_a_closed_roof_come_back() {
        let mut plan = Plan::new();
        for layout in [LayoutSide::First, LayoutSide::Second] {
            for pitch in [0, 3, STEEPEST_ROOF] {
                let rafters = Rafters {
                    layout,
                    pitch,
                    ..Rafters::along(Direction::ALONG_X)
                };
                plan.levels[0].above = Above::ClosedRoof(Some(rafters));
                assert_eq!(there_and_back(&plan), plan.levels);
            }
        }
        plan.levels[0].above = Above::CLOSED;
        assert_eq!(there_and_back(&plan), plan.levels);
    }

    #[test]
    fn what_a_level_under_another_states_comes_back() {
        for open in [false, true] {
            let mut plan = Plan::new();
            let mut upper = plan.levels[0].clone();
            upper.id = LevelId(2);
            upper.below = Below::Level(Floor::sawn(Direction::ALONG_X));
            plan.levels.push(upper);
            for layout in [LayoutSide::First, LayoutSide::Second] {
                let roof = Trusses {
                    layout,
                    ..Trusses::spanning(Direction::ALONG_Y)
                };
                for beside in [None, Some(roof)] {
                    plan.levels[0].above = Above::Level { open, beside };
                    assert_eq!(there_and_back(&plan), plan.levels);
                }
            }
        }
    }
}
