//! Numbers of bores that stand on paper or in a link.
//!
//! A number once printed belongs to a place: the hole that is drilled there keeps it on every later
//! sheet, whatever is added or taken away around it. A place that no cable uses any more keeps its
//! number too, so that none is ever given to another hole.

use strum::VariantArray;

use std::collections::BTreeMap;

use super::{LevelId, Plan, Wall};
use crate::shape::{Point, Pos, Segment};
use crate::units::Mm;

/// A hole is where it was printed if it is not farther off than this, millimetres. Less than the
/// eighth of an inch a tape shows, and half of the least that bores are shifted by.
const SAME_PLACE: f64 = 3.0;

/// A bore is in a wall whose middle line is not farther off than this, millimetres: half of the
/// thickest.
const BESIDE: f64 = 200.0;

/// What a printed row of bores goes through.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, VariantArray)]
pub enum Through {
    /// Studs of one wall.
    Studs,
    /// Where two walls meet.
    Corner,
    /// Top plates.
    TopPlates,
    /// Bottom plates.
    BottomPlates,
    /// Joists, whatever their kind.
    Joists,
    /// Sheathing or a soffit.
    Outside,
}

impl Through {
    /// All of them, in the order of the drill list.
    pub const ALL: [Self; Self::VARIANTS.len()] = every!(Through);

    /// What it is called on a list: "studs".
    pub fn name(self) -> &'static str {
        match self {
            Self::Studs => "studs",
            Self::Corner => "corner",
            Self::TopPlates => "top plates",
            Self::BottomPlates => "bottom plates",
            Self::Joists => "joists",
            Self::Outside => "outside",
        }
    }
}

/// A straight row of bores, or a single one, as it was first printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PrintedRow {
    /// Its number, from 1; of no other place.
    pub number: u32,
    /// The revision of the sheets that first showed it.
    pub revision: u32,
    /// The level it is worked from.
    pub level: LevelId,
    /// What it goes through.
    pub through: Through,
    /// Its first bore, on the plan.
    pub from: Point,
    /// Its last one; the same for a single bore.
    pub to: Point,
    /// Above the level's finished floor.
    pub height: Mm,
}

/// One bore to be found among those that were printed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hole {
    /// The level it is worked from.
    pub level: LevelId,
    /// What it goes through.
    pub through: Through,
    /// On the plan.
    pub at: Pos,
    /// Above the level's finished floor, millimetres.
    pub height: f64,
}

impl PrintedRow {
    /// The wall it is in, as the level is drawn now; `None` for joists, and where no wall is any more.
    pub fn wall<'p>(&self, plan: &'p Plan) -> Option<&'p Wall> {
        if self.through == Through::Joists {
            return None;
        }
        let middle = (self.from.pos() + self.to.pos()) * 0.5;
        let walls = plan.level(self.level)?.walls.iter();
        let off = walls.filter_map(|wall| Some((wall.line()?.distance_to(middle), wall)));
        let nearest = off.min_by(|(a, _), (b, _)| a.total_cmp(b))?;
        (nearest.0 <= BESIDE).then_some(nearest.1)
    }

    /// How far a bore is from this row, millimetres; `None` where that is another place.
    fn off(&self, hole: &Hole) -> Option<f64> {
        if (self.level, self.through) != (hole.level, hole.through) {
            return None;
        }
        let (from, to) = (self.from.pos(), self.to.pos());
        let aside = match Segment::between(from, to) {
            Some(row) => row.distance_to(hole.at),
            None => from.distance(hole.at),
        };
        let off = aside.max((self.height.f64() - hole.height).abs());
        (off <= SAME_PLACE).then_some(off)
    }
}

/// Every row that was printed or shared, whether cables still go through it or not.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Printed {
    /// The revision printed last; 0 where nothing was.
    pub revision: u32,
    /// A check sum of all that the sheets printed last say of holes, to tell whether others are shown.
    pub sum: u32,
    /// The rows, by number.
    pub rows: Vec<PrintedRow>,
}

impl Printed {
    /// Whether nothing was printed yet.
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// The largest number that was given; 0 where none was.
    pub fn last(&self) -> u32 {
        self.rows.last().map_or(0, |row| row.number)
    }

    /// The rows by where they are, to find those of many bores.
    pub fn places(&self) -> Places<'_> {
        let mut places = Places::default();
        for row in &self.rows {
            let at = (row.level, row.through, row.height);
            places.0.entry(at).or_default().push(row);
        }
        places
    }
}

/// Printed rows by level, member and height.
#[derive(Clone, Debug, Default)]
pub struct Places<'p>(BTreeMap<(LevelId, Through, Mm), Vec<&'p PrintedRow>>);

impl<'p> Places<'p> {
    /// The row a bore was printed in: the nearest of those at its place, and of two alike the one of
    /// the smaller number.
    pub fn row_of(&self, hole: &Hole) -> Option<&'p PrintedRow> {
        let height = Mm::rounded(hole.height);
        let at = |height| (hole.level, hole.through, height);
        // A millimetre more than is allowed, for the height is rounded here.
        let near = Mm(SAME_PLACE as i32 + 1);
        let rows = self.0.range(at(height - near)..=at(height + near));
        let at_it = rows
            .flat_map(|(_, rows)| rows)
            .filter_map(|row| Some((row.off(hole)?, *row)));
        let nearest =
            at_it.min_by(|(a, one), (b, other)| a.total_cmp(b).then(one.number.cmp(&other.number)));
        nearest.map(|(_, row)| row)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(number: u32, from: (i32, i32), to: (i32, i32)) -> PrintedRow {
        PrintedRow {
            number,
            revision: 1,
            level: LevelId(1),
            through: Through::Studs,
            from: Point::new(from.0, from.1),
            to: Point::new(to.0, to.1),
            height: Mm(1200),
        }
    }

    fn hole(x: f64, y: f64, height: f64) -> Hole {
        Hole {
            level: LevelId(1),
            through: Through::Studs,
            at: Pos::new(x, y),
            height,
        }
    }

    #[test]
    fn a_bore_anywhere_in_a_row_has_its_number() {
        let rows = vec![row(4, (0, 0), (2000, 0)), row(9, (3000, 0), (3000, 0))];
        let printed = Printed {
            revision: 1,
            sum: 0,
            rows,
        };
        let number = |hole| printed.places().row_of(&hole).map(|row| row.number);
        assert_eq!(number(hole(800.0, 1.0, 1201.0)), Some(4));
        assert_eq!(number(hole(3000.0, 0.0, 1200.0)), Some(9));
        assert_eq!(number(hole(2500.0, 0.0, 1200.0)), None);
        assert_eq!(number(hole(800.0, 0.0, 1206.35)), None);
        let upstairs = Hole {
            level: LevelId(2),
            ..hole(800.0, 0.0, 1200.0)
        };
        assert_eq!(number(upstairs), None);
        let plates = Hole {
            through: Through::TopPlates,
            ..hole(800.0, 0.0, 1200.0)
        };
        assert_eq!(number(plates), None);
        assert_eq!(printed.last(), 9);
    }

    #[test]
    fn of_two_rows_at_a_place_the_nearer_counts() {
        let rows = vec![row(1, (0, 0), (1000, 0)), row(2, (0, 4), (1000, 4))];
        let printed = Printed {
            revision: 1,
            sum: 0,
            rows,
        };
        let number = |y| {
            printed
                .places()
                .row_of(&hole(500.0, y, 1200.0))
                .map(|row| row.number)
        };
        assert_eq!(number(3.0), Some(2));
        assert_eq!(number(1.0), Some(1));
        assert_eq!(number(2.0), Some(1));
    }
}
