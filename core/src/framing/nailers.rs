//! Studs at the ends of a wall and where others meet it: what the boards of a room are nailed to there.
//! Decides neither a layout nor how walls meet.

use super::joints::JointKind;
use super::wall::{BOARD, StudKind, WallFraming, overlaps};

impl WallFraming {
    pub(super) fn frame_ends_and_joints(&mut self) {
        let (start, end) = (self.start, self.end);
        self.full(StudKind::End, start);
        self.full(StudKind::End, end - BOARD);
        for joint in self.joints.clone() {
            match joint.kind {
                // The second stud backs the board of the inside corner by half its thickness.
                JointKind::CornerThrough if joint.at < (start + end) / 2.0 => {
                    self.nailer(StudKind::Corner, joint.at + joint.half - BOARD / 2.0);
                }
                JointKind::CornerThrough => {
                    self.nailer(StudKind::Corner, joint.at - joint.half - BOARD / 2.0);
                }
                JointKind::TeeThrough => {
                    self.nailer(StudKind::Backing, joint.at - joint.half - BOARD);
                    self.nailer(StudKind::Backing, joint.at + joint.half);
                }
                JointKind::CornerButt | JointKind::TeeButt | JointKind::Splice => {}
            }
        }
    }

    /// Stands a stud that holds the boards of a corner or a tee. Another upright within half a board holds
    /// them itself; one farther off that is in the way gets it nailed to its side.
    /// None stands in a door or window: what is framed around it holds the boards.
    fn nailer(&mut self, kind: StudKind, from: f64) {
        let from = self.within_plates(from);
        if self.in_opening(from, from + BOARD) {
            return;
        }
        match self.studs.iter().find(|stud| overlaps(stud, from)) {
            None => self.full(kind, from),
            Some(stud) if (stud.from - from).abs() < BOARD / 2.0 => {}
            Some(stud) => {
                let beside = match from < stud.from {
                    true => stud.from - BOARD,
                    false => stud.to,
                };
                let beside = self.within_plates(beside);
                let taken = self.studs.iter().any(|stud| overlaps(stud, beside));
                if !taken && !self.in_opening(beside, beside + BOARD) {
                    self.full(kind, beside);
                }
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

    /// Studs of a wall of 4 m, with partitions that end at these places of it, on either side: corner and
    /// backing studs alone, hundredths of a millimetre.
    fn nailers(tees: &[(i32, Lumber)]) -> Vec<(StudKind, i64)> {
        let mut level = Level::new(LevelId(1), "Ground");
        let mut wall = |from: (i32, i32), to: (i32, i32), lumber| {
            let id = WallId(level.walls.len() as u32 + 1);
            let ends = (Point::new(from.0, from.1), Point::new(to.0, to.1));
            level
                .walls
                .push(Wall::new(id, ends.0, ends.1, lumber, Role::Partition));
        };
        wall((0, 0), (4000, 0), Lumber::TwoByEight);
        for (place, (at, lumber)) in tees.iter().enumerate() {
            let down = if place % 2 == 0 { 2000 } else { -2000 };
            wall((*at, 0), (*at, down), *lumber);
        }
        let studs = frame(&level)[0].studs.clone().into_iter();
        let nailers = studs.filter(|s| matches!(s.kind, StudKind::Corner | StudKind::Backing));
        nailers
            .map(|stud| (stud.kind, (stud.from * 100.0).round() as i64))
            .collect()
    }

    /// By hand: a 2x4 at 2000 wants its studs from 1917.45 and 2044.45. Of another, 10 mm on, the first
    /// serves it and so does the second. One 30 mm on gets its own nailed on behind: 1947.45 is in the
    /// way of the first, which ends at 1955.55, and 2074.45 of the second, which ends at 2082.55.
    #[test]
    fn studs_at_joints_are_shared_or_nailed_to_one_another() {
        use StudKind::Backing;
        let (wood, alone) = (Lumber::TwoByFour, [(Backing, 191_745), (Backing, 204_445)]);
        assert_eq!(nailers(&[(2000, wood)]), alone);
        assert_eq!(nailers(&[(2000, wood), (2010, wood)]), alone);
        let both = [191_745, 195_555, 204_445, 208_255].map(|at| (Backing, at));
        assert_eq!(nailers(&[(2000, wood), (2030, wood)]), both);
    }
}
