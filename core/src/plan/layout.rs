//! The side of a house its joists or trusses are laid out from, and what that side is called.

use crate::shape::{Direction, Pos};

/// The side that joists or trusses are laid out from: the first is flush with it, the others stand on
/// centre from it. It is told by the sheet, so that the way a joist was drawn decides nothing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum LayoutSide {
    /// The side towards the top of the sheet; of joists that run straight up and down it, the right
    /// side.
    #[default]
    First,
    /// The side across from it.
    Second,
}

impl LayoutSide {
    /// Both sides of joists that run in a direction with what they are called: left before right, top
    /// before foot.
    pub fn both(direction: Direction) -> [(Self, &'static str); 2] {
        let sides = [Self::First, Self::Second].map(|side| (side, side.name(direction)));
        match sides {
            [first @ (_, "right side"), second] => [second, first],
            _ => sides,
        }
    }

    /// What the side is called: "left side", "top of the sheet".
    pub fn name(self, direction: Direction) -> &'static str {
        self.along(direction).map_or("left side", |along| {
            side_towards(along.quarter_turn() * -1.0)
        })
    }

    /// The unit vector along joists of a direction that has the rest of the house on its right as it
    /// runs along this side; `None` where the direction is not stated.
    pub fn along(self, direction: Direction) -> Option<Pos> {
        let unit = direction.unit()?;
        let backwards = unit.x < -1e-9 || (unit.x.abs() <= 1e-9 && unit.y < 0.0);
        match backwards == (self == Self::First) {
            true => Some(unit * -1.0),
            false => Some(unit),
        }
    }
}

/// What the side of a house in this direction is called.
pub fn side_towards(towards: Pos) -> &'static str {
    match towards.x.abs() > towards.y.abs() {
        true if towards.x < 0.0 => "left side",
        true => "right side",
        false if towards.y < 0.0 => "top of the sheet",
        false => "foot of the sheet",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const RIGHT: &str = "right side";
    const TOP: &str = "top of the sheet";

    #[test]
    fn the_first_side_is_the_top_or_of_upright_joists_the_right() {
        let name = |dx, dy| LayoutSide::First.name(Direction { dx, dy });
        assert_eq!([name(1, 0), name(-7, 0)], [TOP; 2]);
        assert_eq!([name(5, 4), name(5, -4), name(-5, 4)], [TOP; 3]);
        assert_eq!([name(0, 1), name(0, -9), name(1, 8)], [RIGHT; 3]);
        // Leaning the other way the top of steep joists is towards the left.
        assert_eq!(name(1, -8), "left side");
    }

    #[test]
    fn the_second_side_is_across_and_both_are_told_in_reading_order() {
        let names = |direction| LayoutSide::both(direction).map(|(_, name)| name);
        let foot = "foot of the sheet";
        assert_eq!(names(Direction::ALONG_X), [TOP, foot]);
        assert_eq!(names(Direction::ALONG_Y), ["left side", RIGHT]);
        let upright = LayoutSide::both(Direction::ALONG_Y);
        assert_eq!(upright[0].0, LayoutSide::Second);
        let none = Direction { dx: 0, dy: 0 };
        assert_eq!(LayoutSide::First.along(none), None);
    }
}
