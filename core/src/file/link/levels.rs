//! The section of levels and what lies between them.

use super::LinkError;
use super::columns::{Reader, Writer};
use super::settings::at;
use super::words::Texts;
use crate::plan::edit::MOST_LEVELS;
use crate::plan::{Above, Below, Floor, JoistKind, Level, LevelId, Plan};
use crate::shape::Direction;
use crate::units::{Mm, Size};

type Read<T> = Result<T, LinkError>;

/// What is over a level besides a framed floor.
const TRUSSES: i64 = 0;
const JOISTS: i64 = 1;
const LEVEL: i64 = 2;
const CLOSED: i64 = 3;

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
        Above::AtticTrusses { .. } => TRUSSES,
        Above::AtticJoists(_) => JOISTS,
        Above::Level => LEVEL,
        Above::ClosedRoof => CLOSED,
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
/// among them as sawn joists of no depth.
fn floors(level: &Level) -> Vec<Floor> {
    let below = match level.below {
        Below::Slab => None,
        Below::Crawl(floor) | Below::Level(floor) => Some(floor),
    };
    let above = match level.above {
        Above::AtticTrusses { spacing, direction } => Some(Floor {
            kind: JoistKind::Sawn,
            depth: Size(0.0),
            spacing,
            direction,
        }),
        Above::AtticJoists(floor) => Some(floor),
        Above::Level | Above::ClosedRoof => None,
    };
    below.into_iter().chain(above).collect()
}

pub(super) fn take(plan: &mut Plan, section: &mut Reader, texts: &mut Texts) -> Read<()> {
    let count = section.count(MOST_LEVELS)?;
    let names: Read<Vec<String>> = (0..count).map(|_| texts.next()).collect();
    let ids = section.identities(count)?;
    let ceilings: Vec<i32> = section.column_of(count)?;
    let below = section.column(count)?;
    let above = section.column(count)?;
    let under = below.iter().filter(|kind| **kind != SLAB).count();
    let over = above
        .iter()
        .filter(|kind| matches!(**kind, TRUSSES | JOISTS));
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
            TRUSSES => {
                let Floor {
                    spacing, direction, ..
                } = floor()?;
                Above::AtticTrusses { spacing, direction }
            }
            JOISTS => Above::AtticJoists(floor()?),
            LEVEL => Above::Level,
            CLOSED => Above::ClosedRoof,
            _ => return Err(LinkError::TooNew),
        };
        plan.levels.push(level);
    }
    Ok(())
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
        })
    };
    (0..count).map(floor).collect()
}
