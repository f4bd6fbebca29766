//! Places in a wall, by the uprights that stand in it.

use super::{Along, Past};
use crate::bore::Bore;
use crate::framing::{Stud, StudKind, WallFraming};
use crate::route::{Member, Ways};

/// A place this near to a face is at it, millimetres.
const AT: f64 = 0.5;

impl WallFraming {
    /// A place by the last full-height stud before it, both from the wall's first end.
    pub(super) fn past(&self, offset: f64) -> Past {
        let full = self.studs.iter().filter(|stud| stud.number > 0);
        let before = full.filter(|stud| stud.to <= offset + AT);
        let stud = before.max_by_key(|stud| stud.number);
        let face = stud.map_or(self.start, |stud| stud.to);
        Past {
            wall: self.wall,
            stud: stud.map_or(0, |stud| stud.number),
            distance: offset - face,
        }
    }
}

/// Where a row through uprights is.
pub(super) fn of(wall: &WallFraming, ways: &Ways, row: &[&Bore]) -> Along {
    let bored = row
        .iter()
        .filter_map(|bore| match &ways.crossings.get(bore.crossing)?.member {
            Member::Studs(studs) => Some(studs),
            _ => None,
        });
    let mut bored: Vec<usize> = bored.flatten().copied().collect();
    bored.sort_unstable();
    bored.dedup();
    let height = row.first().map_or(0.0, |bore| bore.height);
    let studs: Vec<&Stud> = bored
        .iter()
        .filter_map(|stud| wall.studs.get(*stud))
        .collect();
    let kinds: Vec<StudKind> = studs.iter().map(|stud| stud.kind).collect();
    let mut numbers: Vec<u32> = studs.iter().map(|stud| stud.number).collect();
    numbers.retain(|number| *number > 0);
    let Some((first, last)) = bored.first().zip(bored.last()) else {
        return Along::Past(wall.past(row.first().map_or(0.0, |bore| bore.offset)));
    };
    if numbers.is_empty() {
        return short(wall, (*first, *last), height, kinds);
    }
    Along::Studs {
        wall: wall.wall,
        numbers,
        kinds,
    }
}

fn short(
    wall: &WallFraming,
    (first, last): (usize, usize),
    height: f64,
    kinds: Vec<StudKind>,
) -> Along {
    let mut before = wall.studs.iter().enumerate().take(first);
    let full = before.rfind(|(_, stud)| stud.number > 0);
    let after = full.map_or(0, |(place, _)| place + 1);
    let stands = |stud: &&Stud| stud.bottom <= height && height <= stud.top;
    let nth = |upright: usize| {
        let uprights = wall.studs.iter().skip(after).take(upright + 1 - after);
        uprights.filter(stands).count() as u32
    };
    Along::Short {
        wall: wall.wall,
        past: full.map_or(0, |(_, stud)| stud.number),
        nth: (nth(first), nth(last)),
        kinds,
    }
}
