//! The sections of walls and openings, each over all levels at once.

use super::LinkError;
use super::columns::{Reader, Writer};
use super::settings::at;
use super::words::Texts;
use crate::plan::{
    LayoutEnd, Level, Lumber, Opening, OpeningId, OpeningKind, Plan, Role, Wall, WallId,
};
use crate::shape::Point;
use crate::units::{Mm, Size};

type Read<T> = Result<T, LinkError>;

/// More of one kind of thing than eight levels hold.
const MOST: usize = 20_000;
/// The lumber code of a wall of another width.
const WIDTH: i64 = 3;

/// How many things each level has; nothing where none has any.
pub(super) fn put_counts(plan: &Plan, out: &mut Writer, count: impl Fn(&Level) -> usize) -> bool {
    let some = plan.levels.iter().any(|level| count(level) > 0);
    if some {
        out.of(&plan.levels, |level| count(level) as i64);
    }
    some
}

/// How many things each level has, and how many there are.
pub(super) fn take_counts(plan: &Plan, section: &mut Reader) -> Read<(Vec<usize>, usize)> {
    if section.is_empty() {
        return Ok((Vec::new(), 0));
    }
    let counts: Vec<usize> = section.column_of(plan.levels.len())?;
    let mut all = 0_usize;
    for count in &counts {
        all = all.saturating_add(*count);
    }
    match all <= MOST {
        true => Ok((counts, all)),
        false => Err(LinkError::Altered),
    }
}

/// Hands things that stand one after another to the levels they belong to.
pub(super) fn deal<T>(
    plan: &mut Plan,
    counts: &[usize],
    things: Vec<T>,
    of: impl Fn(&mut Level) -> &mut Vec<T>,
) {
    let mut things = things.into_iter();
    for (level, count) in plan.levels.iter_mut().zip(counts) {
        of(level).extend(things.by_ref().take(*count));
    }
}

/// Two columns of points, across and down.
pub(super) fn put_points(points: &[Point], out: &mut Writer) {
    out.of(points, |point| i64::from(point.x));
    out.of(points, |point| i64::from(point.y));
}

/// As many points.
pub(super) fn take_points(section: &mut Reader, count: usize) -> Read<Vec<Point>> {
    let across: Vec<i32> = section.column_of(count)?;
    let down: Vec<i32> = section.column_of(count)?;
    let points = across.into_iter().zip(down);
    Ok(points.map(|(x, y)| Point::new(x, y)).collect())
}

pub(super) fn put(plan: &Plan, out: &mut Writer) {
    if !put_counts(plan, out, |level| level.walls.len()) {
        return;
    }
    let walls: Vec<Wall> = plan.levels.iter().flat_map(|l| l.walls.clone()).collect();
    out.identities(&walls, |wall| wall.id.0);
    let ends: Vec<Point> = walls.iter().flat_map(|w| [w.from, w.to]).collect();
    put_points(&ends, out);
    out.of(&walls, |wall| match wall.lumber {
        Lumber::TwoByFour => 0,
        Lumber::TwoBySix => 1,
        Lumber::TwoByEight => 2,
        Lumber::Width(_) => WIDTH,
    });
    let width = |wall: &Wall| match wall.lumber {
        Lumber::Width(width) => Some(width.0),
        _ => None,
    };
    out.reals(&walls.iter().filter_map(width).collect::<Vec<_>>());
    out.of(&walls, |wall| match wall.role {
        Role::Exterior => 0,
        Role::Bearing => 1,
        Role::Partition => 2,
    });
    out.reals(&walls.iter().map(|w| w.spacing.0).collect::<Vec<_>>());
    out.of(&walls, |wall| i64::from(wall.layout == LayoutEnd::Second));
    out.of(&walls, |wall| i64::from(wall.top_plates) - 2);
    out.of(&walls, |wall| i64::from(wall.bottom_plates) - 1);
    out.of(&walls, |wall| {
        i64::from(wall.never_drill) | i64::from(wall.garage) << 1
    });
}

pub(super) fn take(plan: &mut Plan, section: &mut Reader, _: &mut Texts) -> Read<()> {
    let (counts, count) = take_counts(plan, section)?;
    let ids = section.identities(count)?;
    let ends = take_points(section, count * 2)?;
    let lumber = section.column(count)?;
    let odd = lumber.iter().filter(|code| **code == WIDTH).count();
    let mut widths = section.reals(odd)?.into_iter();
    let roles = section.column(count)?;
    let spacings = section.reals(count)?;
    let layouts = section.column(count)?;
    let top: Vec<i64> = section.column(count)?;
    let bottom: Vec<i64> = section.column(count)?;
    let flags = section.column(count)?;
    let plates = |more: i64, usual: i64| {
        u8::try_from(more.wrapping_add(usual)).map_err(|_| LinkError::Altered)
    };
    let mut walls = Vec::with_capacity(count);
    for (place, ends) in ends.chunks_exact(2).enumerate() {
        let flags = at(&flags, place)?;
        walls.push(Wall {
            id: WallId(at(&ids, place)?),
            from: at(ends, 0)?,
            to: at(ends, 1)?,
            lumber: match at(&lumber, place)? {
                0 => Lumber::TwoByFour,
                1 => Lumber::TwoBySix,
                2 => Lumber::TwoByEight,
                WIDTH => Lumber::Width(Size(widths.next().ok_or(LinkError::Altered)?)),
                _ => return Err(LinkError::TooNew),
            },
            role: match at(&roles, place)? {
                0 => Role::Exterior,
                1 => Role::Bearing,
                2 => Role::Partition,
                _ => return Err(LinkError::TooNew),
            },
            spacing: Size(at(&spacings, place)?),
            layout: match at(&layouts, place)? {
                0 => LayoutEnd::First,
                _ => LayoutEnd::Second,
            },
            top_plates: plates(at(&top, place)?, 2)?,
            bottom_plates: plates(at(&bottom, place)?, 1)?,
            doubled: false,
            never_drill: flags & 1 != 0,
            garage: flags & 2 != 0,
        });
    }
    deal(plan, &counts, walls, |level| &mut level.walls);
    Ok(())
}

/// Walls whose studs are doubled. A section of its own, of an odd tag: a reader that took such walls
/// for single ones would show other bores than the sender saw.
pub(super) fn put_doubled(plan: &Plan, out: &mut Writer) {
    let walls = plan.levels.iter().flat_map(|level| &level.walls);
    let doubled: Vec<&Wall> = walls.filter(|wall| wall.doubled).collect();
    if !doubled.is_empty() {
        out.of(&[doubled.len()], |count| *count as i64);
        out.of(&doubled, |wall| i64::from(wall.id.0));
    }
}

pub(super) fn take_doubled(plan: &mut Plan, section: &mut Reader, _: &mut Texts) -> Read<()> {
    if section.is_empty() {
        return Ok(());
    }
    let count: Vec<usize> = section.column_of(1)?;
    let count = at(&count, 0)?;
    if count > MOST {
        return Err(LinkError::Altered);
    }
    let ids: Vec<u32> = section.column_of(count)?;
    for wall in plan.levels.iter_mut().flat_map(|level| &mut level.walls) {
        wall.doubled = ids.contains(&wall.id.0);
    }
    Ok(())
}

pub(super) fn put_openings(plan: &Plan, out: &mut Writer) {
    if !put_counts(plan, out, |level| level.openings.len()) {
        return;
    }
    let levels = plan.levels.iter();
    let openings: Vec<Opening> = levels.flat_map(|l| l.openings.clone()).collect();
    out.identities(&openings, |opening| opening.id.0);
    out.of(&openings, |opening| i64::from(opening.wall.0));
    out.of(&openings, |opening| match opening.kind {
        OpeningKind::Door => 0,
        OpeningKind::Window => 1,
        OpeningKind::Cased => 2,
    });
    out.of(&openings, |opening| i64::from(opening.width.0));
    out.of(&openings, |opening| i64::from(opening.sill.0));
    out.of(&openings, |opening| i64::from(opening.head.0));
    out.of(&openings, |opening| i64::from(opening.offset.0));
}

pub(super) fn take_openings(plan: &mut Plan, section: &mut Reader, _: &mut Texts) -> Read<()> {
    let (counts, count) = take_counts(plan, section)?;
    let ids = section.identities(count)?;
    let walls: Vec<u32> = section.column_of(count)?;
    let kinds = section.column(count)?;
    let mut lengths = Vec::new();
    for _ in 0..4 {
        lengths.push(section.column_of::<i32>(count)?);
    }
    let length = |column: usize, place: usize| {
        let column = lengths.get(column).ok_or(LinkError::Altered)?;
        at(column, place).map(Mm)
    };
    let opening = |place: usize| {
        Ok(Opening {
            id: OpeningId(at(&ids, place)?),
            wall: WallId(at(&walls, place)?),
            kind: match at(&kinds, place)? {
                0 => OpeningKind::Door,
                1 => OpeningKind::Window,
                2 => OpeningKind::Cased,
                _ => return Err(LinkError::TooNew),
            },
            width: length(0, place)?,
            sill: length(1, place)?,
            head: length(2, place)?,
            offset: length(3, place)?,
        })
    };
    let openings: Read<Vec<Opening>> = (0..count).map(opening).collect();
    deal(plan, &counts, openings?, |level| &mut level.openings);
    Ok(())
}
