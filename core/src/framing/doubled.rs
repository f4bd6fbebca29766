//! Studs on layout that are two boards nailed together. Decides no limit.

use super::wall::{BOARD, StudKind, WallFraming, overlaps};
use crate::plan::LayoutEnd;

impl WallFraming {
    /// Studs on layout that are two boards nailed together, as indices, in order along the wall.
    pub fn doubled(&self) -> Vec<(usize, usize)> {
        let common = |place: &usize| self.studs[*place].kind == StudKind::Common;
        let commons: Vec<usize> = (0..self.studs.len()).filter(common).collect();
        let full = |place: usize| self.studs[place].number > 0;
        let touch = |a: usize, b: usize| (self.studs[b].from - self.studs[a].to).abs() < 1.0;
        let pairs = commons.windows(2).map(|pair| (pair[0], pair[1]));
        pairs
            .filter(|(a, b)| full(*a) && full(*b) && touch(*a, *b))
            .collect()
    }

    /// Nails a second board to every stud on layout, on the side away from the layout end. Where
    /// another upright stands there already, the stud stays single.
    pub(super) fn double(&mut self, from: LayoutEnd) {
        let commons = self.studs.clone().into_iter();
        for stud in commons.filter(|stud| stud.kind == StudKind::Common) {
            let near = match from {
                LayoutEnd::First => stud.to,
                LayoutEnd::Second => stud.from - BOARD,
            };
            if !self.studs.iter().any(|other| overlaps(other, near)) {
                self.full(StudKind::Common, near);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::wall::frame;
    use super::*;
    use crate::plan::{Level, LevelId, Lumber, Role, Wall, WallId};
    use crate::shape::Point;

    /// 8 ft of wall as in `wall.rs`: second boards 1-1/2 in on, none on the end studs; three inches of wood
    /// between bays.
    #[test]
    fn doubled_studs_are_two_boards_on_layout() {
        let mut level = Level::new(LevelId(1), "Ground");
        let (from, to) = (Point::new(0, 0), Point::new(2438, 0));
        let (lumber, role) = (Lumber::TwoByFour, Role::Partition);
        level
            .walls
            .push(Wall::new(WallId(1), from, to, lumber, role));
        let single = frame(&level)[0].clone();
        assert!(single.doubled().is_empty());
        level.walls[0].doubled = true;
        let framing = &frame(&level)[0];
        assert_eq!(framing.studs.len(), single.studs.len() + 5);
        assert_eq!(framing.doubled(), [(1, 2), (3, 4), (5, 6), (7, 8), (9, 10)]);
        assert_eq!(framing.bays.len(), single.bays.len());
        let between = framing.bays[2].from - framing.bays[1].to;
        assert!((between - 76.2).abs() < 1e-9);
        let crossed = framing.neighbours(610.0);
        assert!(crossed.iter().all(|(_, _, studs)| studs.len() == 2));
        level.walls[0].layout = LayoutEnd::Second;
        let other = &frame(&level)[0];
        assert_eq!(other.doubled().len(), 5);
    }
}
