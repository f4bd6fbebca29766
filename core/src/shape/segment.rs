//! A straight stretch between two positions: where along it something lies, and how far off.

use serde::{Deserialize, Serialize};

use super::Pos;

/// A directed stretch of line with a length above zero.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Segment {
    /// Where it starts.
    pub from: Pos,
    /// Where it ends.
    pub to: Pos,
    /// Unit vector from start to end.
    pub along: Pos,
    /// Its length in millimetres.
    pub length: f64,
}

impl Segment {
    /// The stretch between two positions, or `None` where they coincide.
    pub fn between(from: Pos, to: Pos) -> Option<Self> {
        let along = (to - from).unit()?;
        Some(Self {
            from,
            to,
            along,
            length: from.distance(to),
        })
    }

    /// Unit vector to the right of the direction of travel on a sheet whose y runs down.
    pub fn across(&self) -> Pos {
        self.along.quarter_turn()
    }

    /// The position `offset` millimetres along, `aside` millimetres to its right.
    pub fn at(&self, offset: f64, aside: f64) -> Pos {
        self.from + self.along * offset + self.across() * aside
    }

    /// How far along the line through the stretch `place` lies; may be outside 0 to length.
    pub fn offset_of(&self, place: Pos) -> f64 {
        (place - self.from).dot(self.along)
    }

    /// How far to the right of the line `place` lies; negative on the left.
    pub fn aside_of(&self, place: Pos) -> f64 {
        self.along.cross(place - self.from)
    }

    /// Distance from the stretch itself, its ends included.
    pub fn distance_to(&self, place: Pos) -> f64 {
        let offset = self.offset_of(place).clamp(0.0, self.length);
        self.at(offset, 0.0).distance(place)
    }

    /// Where the lines through two stretches cross, as offsets along each; `None` for parallels.
    pub fn crossing(&self, other: &Segment) -> Option<(f64, f64)> {
        let turn = self.along.cross(other.along);
        if turn.abs() < 1e-6 {
            return None;
        }
        let gap = other.from - self.from;
        Some((gap.cross(other.along) / turn, gap.cross(self.along) / turn))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn east() -> Segment {
        Segment::between(Pos::new(0.0, 0.0), Pos::new(1000.0, 0.0)).unwrap()
    }

    #[test]
    fn right_of_a_line_going_east_is_south() {
        assert_eq!(east().at(100.0, 50.0), Pos::new(100.0, 50.0));
        assert_eq!(east().aside_of(Pos::new(3.0, 7.0)), 7.0);
        assert_eq!(east().distance_to(Pos::new(1003.0, 4.0)), 5.0);
    }

    #[test]
    fn lines_cross_once_or_not_at_all() {
        let south = Segment::between(Pos::new(300.0, -100.0), Pos::new(300.0, 100.0)).unwrap();
        assert_eq!(east().crossing(&south), Some((300.0, 100.0)));
        assert_eq!(east().crossing(&east()), None);
        assert_eq!(
            Segment::between(Pos::new(1.0, 1.0), Pos::new(1.0, 1.0)),
            None
        );
    }
}
