//! The sections of drops with their cables, of the closet and of pins. What a drop of its kind
//! usually has costs next to nothing.

use super::LinkError;
use super::codes::Coded;
use super::columns::{Reader, Writer};
use super::settings::at;
use super::walls::{put_points, take_points};
use super::words::Texts;
use crate::plan::edit::caps;
use crate::plan::{
    BoxKind, Cable, CableId, CableKindId, Closet, ClosetPlace, Drop, DropId, DropKind, Entry,
    LevelId, Pin, PinTo, Place, Plan, Side, WallId,
};
use crate::shape::{Direction, Point};
use crate::units::Mm;

type Read<T> = Result<T, LinkError>;

/// More cables or pins than a plan has.
const MOST: usize = 26_000;

/// What a drop of a kind has in a link of version 1 unless it says otherwise. It stays as it is
/// when the product's own habits change.
struct Usual {
    letter: char,
    fixing: BoxKind,
    cables: &'static [u16],
}

fn usual(kind: DropKind) -> Usual {
    let (letter, fixing, cables): (_, _, &[u16]) = match kind {
        DropKind::Data => ('D', BoxKind::Bracket, &[0, 0]),
        DropKind::Television => ('T', BoxKind::Bracket, &[0, 2]),
        DropKind::CeilingAccessPoint => ('A', BoxKind::ByOthers, &[0]),
        DropKind::WallAccessPoint => ('A', BoxKind::Bracket, &[0]),
        DropKind::Camera => ('C', BoxKind::None, &[3]),
        DropKind::Doorbell => ('B', BoxKind::None, &[0]),
        DropKind::Other => ('X', BoxKind::None, &[0]),
    };
    Usual {
        letter,
        fixing,
        cables,
    }
}

impl Usual {
    /// The cable at a place, from the last one on the same again.
    fn cable(&self, place: usize) -> i64 {
        let last = self.cables.last();
        i64::from(*self.cables.get(place).or(last).unwrap_or(&0))
    }
}

/// Where a drop is, as a code: on a wall left or right, outside left or right, on the ceiling,
/// adrift.
fn place_code(place: Place) -> i64 {
    match place {
        Place::Wall { side, .. } => side_code(side),
        Place::Outside { side, .. } => 2 + side_code(side),
        Place::Ceiling { .. } => 4,
        Place::Adrift { .. } => 5,
    }
}

fn side_code(side: Side) -> i64 {
    i64::from(side == Side::Right)
}

fn side(code: i64) -> Side {
    match code & 1 {
        0 => Side::Left,
        _ => Side::Right,
    }
}

pub(super) fn put(plan: &Plan, out: &mut Writer) {
    let drops = &plan.drops;
    if drops.is_empty() {
        return;
    }
    out.number(drops.len() as u64);
    out.identities(drops, |drop| drop.id.0);
    out.of(drops, |drop| drop.kind.code());
    out.of(drops, |drop| match drop.letter == usual(drop.kind).letter {
        true => 0,
        false => i64::from(u32::from(drop.letter)),
    });
    out.of(drops, |drop| i64::from(drop.number) - i64::from(drop.id.0));
    out.of(drops, |drop| i64::from(drop.level.0));
    put_places(drops, out);
    out.of(drops, |drop| {
        drop.fixing.code() - usual(drop.kind).fixing.code()
    });
    out.of(drops, |drop| i64::from(drop.gangs) - 1);
    out.of(drops, |drop| {
        let out_of_doors = drop.outdoors != matches!(drop.place, Place::Outside { .. });
        i64::from(out_of_doors)
            | i64::from(drop.buried) << 1
            | i64::from(drop.spare) << 2
            | i64::from(drop.aim.is_some()) << 3
            | i64::from(!drop.note.is_empty()) << 4
    });
    let aims: Vec<Point> = drops
        .iter()
        .filter_map(|drop| drop.aim)
        .map(|aim| Point::new(aim.dx, aim.dy))
        .collect();
    put_points(&aims, out);
    let notes = drops.iter().filter(|drop| !drop.note.is_empty());
    notes.for_each(|drop| out.text(&drop.note));
    put_cables(drops, out);
}

fn put_places(drops: &[Drop], out: &mut Writer) {
    out.of(drops, |drop| place_code(drop.place));
    let mut hung = Vec::new();
    let mut free = Vec::new();
    for drop in drops {
        match drop.place {
            Place::Wall {
                wall,
                offset,
                height,
                ..
            }
            | Place::Outside {
                wall,
                offset,
                height,
                ..
            } => hung.push((wall, offset, height)),
            Place::Ceiling { at } | Place::Adrift { at } => free.push(at),
        }
    }
    out.of(&hung, |(wall, ..)| i64::from(wall.0));
    out.of(&hung, |(_, offset, _)| i64::from(offset.0));
    out.of(&hung, |(_, _, height)| i64::from(height.0));
    put_points(&free, out);
}

fn put_cables(drops: &[Drop], out: &mut Writer) {
    out.of(drops, |drop| {
        drop.cables.len() as i64 - usual(drop.kind).cables.len() as i64
    });
    let mut ids = Vec::new();
    let mut letters = Vec::new();
    let mut kinds = Vec::new();
    for drop in drops {
        let usual = usual(drop.kind);
        for (place, cable) in drop.cables.iter().enumerate() {
            ids.push(cable.id.0);
            letters.push(i64::from(u32::from(cable.letter)) - i64::from(b'A') - place as i64);
            kinds.push(i64::from(cable.kind.0) - usual.cable(place));
        }
    }
    out.identities(&ids, |id| *id);
    out.column(&letters);
    out.column(&kinds);
}

pub(super) fn take(plan: &mut Plan, section: &mut Reader, texts: &mut Texts) -> Read<()> {
    if section.is_empty() {
        return Ok(());
    }
    let count = section.count(caps::DROPS.most)?;
    let ids = section.identities(count)?;
    let kinds = section.column(count)?;
    let letters: Vec<u32> = section.column_of(count)?;
    let numbers = section.column(count)?;
    let levels: Vec<u32> = section.column_of(count)?;
    let places = take_places(section, count)?;
    let boxes = section.column(count)?;
    let gangs: Vec<u8> = gangs(section, count)?;
    let flags = section.column(count)?;
    let aimed = flags.iter().filter(|flags| **flags & 8 != 0).count();
    let mut aims = take_points(section, aimed)?.into_iter();
    for place in 0..count {
        let kind = DropKind::of_code(at(&kinds, place)?)?;
        let usual = usual(kind);
        let (id, flags) = (at(&ids, place)?, at(&flags, place)?);
        if !(0..32).contains(&flags) {
            return Err(LinkError::TooNew);
        }
        let letter = match at(&letters, place)? {
            0 => usual.letter,
            other => char::from_u32(other).ok_or(LinkError::Altered)?,
        };
        let number = at(&numbers, place)?.wrapping_add(i64::from(id));
        let where_it_is = at(&places, place)?;
        let fixing = at(&boxes, place)?.wrapping_add(usual.fixing.code());
        let aim = match flags & 8 {
            0 => None,
            _ => aims.next().map(|aim| Direction {
                dx: aim.x,
                dy: aim.y,
            }),
        };
        plan.drops.push(Drop {
            id: DropId(id),
            letter,
            number: u32::try_from(number).map_err(|_| LinkError::Altered)?,
            kind,
            level: LevelId(at(&levels, place)?),
            place: where_it_is,
            cables: Vec::new(),
            fixing: BoxKind::of_code(fixing)?,
            gangs: at(&gangs, place)?,
            aim,
            outdoors: (flags & 1 != 0) != matches!(where_it_is, Place::Outside { .. }),
            buried: flags & 2 != 0,
            spare: flags & 4 != 0,
            note: match flags & 16 {
                0 => String::new(),
                _ => texts.next()?,
            },
        });
    }
    take_cables(plan, section)
}

fn gangs(section: &mut Reader, count: usize) -> Read<Vec<u8>> {
    let gangs: Vec<u8> = section.column_of(count)?;
    Ok(gangs
        .into_iter()
        .map(|more| more.saturating_add(1))
        .collect())
}

fn take_places(section: &mut Reader, count: usize) -> Read<Vec<Place>> {
    let codes = section.column(count)?;
    let hung = codes.iter().filter(|code| **code < 4).count();
    let walls: Vec<u32> = section.column_of(hung)?;
    let offsets: Vec<i32> = section.column_of(hung)?;
    let heights: Vec<i32> = section.column_of(hung)?;
    let mut free = take_points(section, count - hung)?.into_iter();
    let mut next = 0;
    let mut place = |code: i64| {
        if code >= 4 {
            let at = free.next().ok_or(LinkError::Altered)?;
            return match code {
                4 => Ok(Place::Ceiling { at }),
                5 => Ok(Place::Adrift { at }),
                _ => Err(LinkError::TooNew),
            };
        }
        let wall = WallId(at(&walls, next)?);
        let (offset, height) = (Mm(at(&offsets, next)?), Mm(at(&heights, next)?));
        let side = side(code);
        next += 1;
        match code {
            0 | 1 => Ok(Place::Wall {
                wall,
                offset,
                side,
                height,
            }),
            2 | 3 => Ok(Place::Outside {
                wall,
                offset,
                side,
                height,
            }),
            _ => Err(LinkError::Altered),
        }
    };
    codes.into_iter().map(&mut place).collect()
}

fn take_cables(plan: &mut Plan, section: &mut Reader) -> Read<()> {
    let more = section.column(plan.drops.len())?;
    let mut counts = Vec::new();
    let mut all = 0_usize;
    for (drop, more) in plan.drops.iter().zip(more) {
        let count = more.wrapping_add(usual(drop.kind).cables.len() as i64);
        let count = usize::try_from(count).map_err(|_| LinkError::Altered)?;
        all = all.saturating_add(count);
        counts.push(count);
    }
    if all > MOST {
        return Err(LinkError::Altered);
    }
    let mut ids = section.identities(all)?.into_iter();
    let mut letters = section.column(all)?.into_iter();
    let mut kinds = section.column(all)?.into_iter();
    for (drop, count) in plan.drops.iter_mut().zip(counts) {
        let usual = usual(drop.kind);
        for place in 0..count {
            let next = |column: &mut std::vec::IntoIter<i64>, usual: i64| {
                let value = column.next().ok_or(LinkError::Altered)?;
                Ok(value.wrapping_add(usual))
            };
            let letter = next(&mut letters, i64::from(b'A') + place as i64)?;
            let kind = next(&mut kinds, usual.cable(place))?;
            drop.cables.push(Cable {
                id: CableId(ids.next().ok_or(LinkError::Altered)?),
                letter: u8::try_from(letter).map_err(|_| LinkError::Altered)?.into(),
                kind: CableKindId(u16::try_from(kind).map_err(|_| LinkError::Altered)?),
            });
        }
    }
    Ok(())
}

pub(super) fn put_closet(plan: &Plan, out: &mut Writer) {
    let Some(closet) = plan.closet else { return };
    out.number(u64::from(closet.level.0));
    out.number(closet.entry.code() as u64);
    match closet.place {
        ClosetPlace::Wall { wall, offset, side } => {
            out.number(side_code(side) as u64);
            out.number(u64::from(wall.0));
            out.column(&[i64::from(closet.panel_height.0), i64::from(offset.0)]);
        }
        ClosetPlace::Point(at) => {
            out.number(2);
            let (x, y) = (i64::from(at.x), i64::from(at.y));
            out.column(&[i64::from(closet.panel_height.0), x, y]);
        }
    }
}

pub(super) fn take_closet(plan: &mut Plan, section: &mut Reader, _: &mut Texts) -> Read<()> {
    if section.is_empty() {
        return Ok(());
    }
    let small = |number: u64| u32::try_from(number).map_err(|_| LinkError::Altered);
    let level = LevelId(small(section.number()?)?);
    let entry = i64::try_from(section.number()?).map_err(|_| LinkError::TooNew)?;
    let entry = Entry::of_code(entry)?;
    let (place, panel_height) = match section.number()? {
        code @ (0 | 1) => {
            let wall = WallId(small(section.number()?)?);
            let lengths: Vec<i32> = section.column_of(2)?;
            let place = ClosetPlace::Wall {
                wall,
                offset: Mm(at(&lengths, 1)?),
                side: side(code as i64),
            };
            (place, at(&lengths, 0)?)
        }
        2 => {
            let lengths: Vec<i32> = section.column_of(3)?;
            let point = Point::new(at(&lengths, 1)?, at(&lengths, 2)?);
            (ClosetPlace::Point(point), at(&lengths, 0)?)
        }
        _ => return Err(LinkError::TooNew),
    };
    plan.closet = Some(Closet {
        level,
        place,
        entry,
        panel_height: Mm(panel_height),
    });
    Ok(())
}

/// Pins as rows of five: which sort, cable, wall, and two lengths.
fn row(pin: &Pin) -> [i64; 5] {
    match *pin {
        Pin::Lane { wall, height } => [0, 0, i64::from(wall.0), i64::from(height.0), 0],
        Pin::Cable {
            cable,
            to: PinTo::Bay { wall, offset },
        } => [
            1,
            i64::from(cable.0),
            i64::from(wall.0),
            i64::from(offset.0),
            0,
        ],
        Pin::Cable {
            cable,
            to: PinTo::Overhead { at },
        } => [2, i64::from(cable.0), 0, i64::from(at.x), i64::from(at.y)],
    }
}

fn pin(row: &[i64]) -> Read<Pin> {
    let &[sort, cable, wall, one, two] = row else {
        return Err(LinkError::Altered);
    };
    let number = |value: i64| u32::try_from(value).map_err(|_| LinkError::Altered);
    let length = |value: i64| i32::try_from(value).map_err(|_| LinkError::Altered);
    let (cable, wall) = (CableId(number(cable)?), WallId(number(wall)?));
    let (one, two) = (length(one)?, length(two)?);
    Ok(match sort {
        0 => Pin::Lane {
            wall,
            height: Mm(one),
        },
        1 => Pin::Cable {
            cable,
            to: PinTo::Bay {
                wall,
                offset: Mm(one),
            },
        },
        2 => Pin::Cable {
            cable,
            to: PinTo::Overhead {
                at: Point::new(one, two),
            },
        },
        _ => return Err(LinkError::TooNew),
    })
}

pub(super) fn put_pins(plan: &Plan, out: &mut Writer) {
    if plan.pins.is_empty() {
        return;
    }
    out.number(plan.pins.len() as u64);
    for column in 0..5 {
        out.of(&plan.pins, |pin| row(pin).get(column).copied().unwrap_or(0));
    }
}

pub(super) fn take_pins(plan: &mut Plan, section: &mut Reader, _: &mut Texts) -> Read<()> {
    if section.is_empty() {
        return Ok(());
    }
    let count = section.count(MOST)?;
    let mut columns = Vec::new();
    for _ in 0..5 {
        columns.push(section.column(count)?);
    }
    for place in 0..count {
        let row: Read<Vec<i64>> = columns.iter().map(|column| at(column, place)).collect();
        plan.pins.push(pin(&row?)?);
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// When the product's own habits change, this test goes; those of version 1 stay.
    #[test]
    fn a_usual_drop_costs_nothing_beside_its_place() {
        for kind in DropKind::ALL {
            let usual = usual(kind);
            assert_eq!(usual.letter, kind.letter());
            assert_eq!(usual.fixing, kind.usual_fixing());
            let cables: Vec<CableKindId> = usual.cables.iter().map(|k| CableKindId(*k)).collect();
            assert_eq!(cables, kind.usual_cables());
        }
    }
}
