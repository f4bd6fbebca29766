//! The sections of rooms, keep-outs and power runs, each over all levels at once.

use super::LinkError;
use super::columns::{Reader, Writer};
use super::settings::at;
use super::walls::{deal, put_counts, put_points, take_counts, take_points};
use super::words::Texts;
use crate::plan::{
    KeepOut, KeepOutId, KeepOutReason, KeepOutShape, Plan, PowerPlace, PowerRun, PowerRunId, Room,
    RoomId, WallId,
};
use crate::shape::Point;
use crate::units::Mm;

type Read<T> = Result<T, LinkError>;

/// More points than all shapes of a plan have.
const MOST_POINTS: usize = 100_000;

pub(super) fn put_rooms(plan: &Plan, out: &mut Writer) {
    if !put_counts(plan, out, |level| level.rooms.len()) {
        return;
    }
    let rooms: Vec<&Room> = plan.levels.iter().flat_map(|level| &level.rooms).collect();
    rooms.iter().for_each(|room| out.text(&room.name));
    out.identities(&rooms, |room| room.id.0);
    put_points(&rooms.iter().map(|room| room.at).collect::<Vec<_>>(), out);
}

pub(super) fn take_rooms(plan: &mut Plan, section: &mut Reader, texts: &mut Texts) -> Read<()> {
    let (counts, count) = take_counts(plan, section)?;
    let names: Read<Vec<String>> = (0..count).map(|_| texts.next()).collect();
    let ids = section.identities(count)?;
    let places = take_points(section, count)?;
    let things = names?.into_iter().zip(ids).zip(places);
    let room = |((name, id), at)| Room {
        id: RoomId(id),
        name,
        at,
    };
    deal(plan, &counts, things.map(room).collect(), |level| {
        &mut level.rooms
    });
    Ok(())
}

/// A shape in a link: a stretch of wall, or else so many points.
enum Shape {
    Stretch(WallId, Mm, Mm),
    Points(Vec<Point>),
}

fn put_shapes(shapes: &[Shape], out: &mut Writer) {
    out.of(shapes, |shape| match shape {
        Shape::Stretch(..) => 0,
        Shape::Points(points) => points.len() as i64,
    });
    let mut stretches = Vec::new();
    let mut all = Vec::new();
    for shape in shapes {
        match shape {
            Shape::Stretch(wall, from, to) => stretches.push((*wall, *from, *to)),
            Shape::Points(points) => all.extend_from_slice(points),
        }
    }
    out.of(&stretches, |(wall, ..)| i64::from(wall.0));
    out.of(&stretches, |(_, from, _)| i64::from(from.0));
    out.of(&stretches, |(_, from, to)| {
        i64::from(to.0) - i64::from(from.0)
    });
    put_points(&all, out);
}

fn take_shapes(section: &mut Reader, count: usize) -> Read<Vec<Shape>> {
    let lengths: Vec<usize> = section.column_of(count)?;
    let stretches = lengths.iter().filter(|length| **length == 0).count();
    let walls: Vec<u32> = section.column_of(stretches)?;
    let from: Vec<i32> = section.column_of(stretches)?;
    let long = section.column(stretches)?;
    let mut all = 0_usize;
    for length in &lengths {
        all = all.saturating_add(*length);
    }
    if all > MOST_POINTS {
        return Err(LinkError::Altered);
    }
    let mut points = take_points(section, all)?.into_iter();
    let mut place = 0;
    let mut shape = |length: usize| {
        if length > 0 {
            return Ok(Shape::Points(points.by_ref().take(length).collect()));
        }
        let from = at(&from, place)?;
        let to = i64::from(from).wrapping_add(at(&long, place)?);
        let to = i32::try_from(to).map_err(|_| LinkError::Altered)?;
        let wall = WallId(at(&walls, place)?);
        place += 1;
        Ok(Shape::Stretch(wall, Mm(from), Mm(to)))
    };
    lengths.into_iter().map(&mut shape).collect()
}

pub(super) fn put_keep_outs(plan: &Plan, out: &mut Writer) {
    if !put_counts(plan, out, |level| level.keep_outs.len()) {
        return;
    }
    let levels = plan.levels.iter();
    let all: Vec<&KeepOut> = levels.flat_map(|level| &level.keep_outs).collect();
    out.identities(&all, |keep_out| keep_out.id.0);
    out.of(&all, |keep_out| match keep_out.reason {
        KeepOutReason::Duct => 0,
        KeepOutReason::Chimney => 1,
        KeepOutReason::Stair => 2,
        KeepOutReason::Beam => 3,
        KeepOutReason::Cabinets => 4,
        KeepOutReason::Shower => 5,
        KeepOutReason::Other => 6,
        KeepOutReason::Notch => 7,
        KeepOutReason::BoreByOthers => 8,
    });
    out.of(&all, |keep_out| i64::from(keep_out.bottom.0));
    out.of(&all, |keep_out| i64::from(keep_out.top.0));
    let shape = |keep_out: &&KeepOut| match &keep_out.shape {
        KeepOutShape::Region(corners) => Shape::Points(corners.clone()),
        KeepOutShape::Stretch { wall, from, to } => Shape::Stretch(*wall, *from, *to),
    };
    put_shapes(&all.iter().map(shape).collect::<Vec<_>>(), out);
}

pub(super) fn take_keep_outs(plan: &mut Plan, section: &mut Reader, _: &mut Texts) -> Read<()> {
    let (counts, count) = take_counts(plan, section)?;
    let ids = section.identities(count)?;
    let reasons = section.column(count)?;
    let bottoms: Vec<i32> = section.column_of(count)?;
    let tops: Vec<i32> = section.column_of(count)?;
    let shapes = take_shapes(section, count)?;
    let mut keep_outs = Vec::with_capacity(count);
    for (place, shape) in shapes.into_iter().enumerate() {
        keep_outs.push(KeepOut {
            id: KeepOutId(at(&ids, place)?),
            reason: match at(&reasons, place)? {
                0 => KeepOutReason::Duct,
                1 => KeepOutReason::Chimney,
                2 => KeepOutReason::Stair,
                3 => KeepOutReason::Beam,
                4 => KeepOutReason::Cabinets,
                5 => KeepOutReason::Shower,
                6 => KeepOutReason::Other,
                7 => KeepOutReason::Notch,
                8 => KeepOutReason::BoreByOthers,
                _ => return Err(LinkError::TooNew),
            },
            bottom: Mm(at(&bottoms, place)?),
            top: Mm(at(&tops, place)?),
            shape: match shape {
                Shape::Points(corners) => KeepOutShape::Region(corners),
                Shape::Stretch(wall, from, to) => KeepOutShape::Stretch { wall, from, to },
            },
        });
    }
    deal(plan, &counts, keep_outs, |level| &mut level.keep_outs);
    Ok(())
}

pub(super) fn put_power_runs(plan: &Plan, out: &mut Writer) {
    if !put_counts(plan, out, |level| level.power_runs.len()) {
        return;
    }
    let levels = plan.levels.iter();
    let all: Vec<&PowerRun> = levels.flat_map(|level| &level.power_runs).collect();
    out.identities(&all, |run| run.id.0);
    out.of(&all, |run| i64::from(run.circuits));
    out.of(&all, |run| i64::from(run.panel));
    let heights = all.iter().filter_map(|run| match run.place {
        PowerPlace::Wall { height, .. } => Some(height),
        PowerPlace::Overhead(_) => None,
    });
    let heights: Vec<Mm> = heights.collect();
    let shape = |run: &&PowerRun| match &run.place {
        PowerPlace::Overhead(points) => Shape::Points(points.clone()),
        PowerPlace::Wall { wall, from, to, .. } => Shape::Stretch(*wall, *from, *to),
    };
    put_shapes(&all.iter().map(shape).collect::<Vec<_>>(), out);
    out.of(&heights, |height| i64::from(height.0));
}

pub(super) fn take_power_runs(plan: &mut Plan, section: &mut Reader, _: &mut Texts) -> Read<()> {
    let (counts, count) = take_counts(plan, section)?;
    let ids = section.identities(count)?;
    let circuits: Vec<u8> = section.column_of(count)?;
    let panels = section.column(count)?;
    let shapes = take_shapes(section, count)?;
    let on_walls = shapes.iter().filter(|s| matches!(s, Shape::Stretch(..)));
    let on_walls = on_walls.count();
    let mut heights = section.column_of::<i32>(on_walls)?.into_iter();
    let mut runs = Vec::with_capacity(count);
    for (place, shape) in shapes.into_iter().enumerate() {
        runs.push(PowerRun {
            id: PowerRunId(at(&ids, place)?),
            circuits: at(&circuits, place)?,
            panel: at(&panels, place)? != 0,
            place: match shape {
                Shape::Points(points) => PowerPlace::Overhead(points),
                Shape::Stretch(wall, from, to) => PowerPlace::Wall {
                    wall,
                    from,
                    to,
                    height: Mm(heights.next().ok_or(LinkError::Altered)?),
                },
            },
        });
    }
    deal(plan, &counts, runs, |level| &mut level.power_runs);
    Ok(())
}
