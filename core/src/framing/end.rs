//! The two ends of a wall, and distances from them, in words: one rule for page and paper alike.

use super::{Framing, JointKind, WallFraming};
use crate::plan::{LayoutEnd, PinTo, Plan, WallId};
use crate::units::{Mm, Units};

/// A wall that ends no farther from another's face meets it there, millimetres.
const MEETS: f64 = 60.0;

impl WallFraming {
    /// The name of its first or second end: the wall it meets there, "W4 end", which is the same on
    /// the plan and seen from either face. An end that meets nothing is the "free end". Where that
    /// does not tell the two apart, by how they lie on the sheet.
    pub fn end_name(&self, first: bool) -> String {
        let (here, there) = (self.met(first), self.met(!first));
        match here {
            Some(wall) if here != there => format!("W{wall} end"),
            None if there.is_some() => String::from("free end"),
            _ => self.on_the_sheet(first).to_string(),
        }
    }

    /// The name of the end its studs are laid out from.
    pub fn layout_end_name(&self, end: LayoutEnd) -> String {
        self.end_name(end == LayoutEnd::First)
    }

    /// "9' 5\" from its W4 end": from the nearer end of its plates to a place this far from the
    /// wall's drawn first end, millimetres.
    pub fn distance_words(&self, units: Units, offset: f64) -> String {
        let (distance, first) = self.from_nearer_end(offset);
        let end = self.end_name(first);
        format!("{} from its {end}", units.position(distance))
    }

    /// The place this far from its first or second end, millimetres from the drawn first end; `None`
    /// where that is beyond its plates.
    pub fn from_end(&self, distance: Mm, first: bool) -> Option<Mm> {
        let long = distance.f64() > self.end - self.start + 1.0;
        (!long).then(|| match first {
            true => Mm::rounded(self.start + distance.f64()),
            false => Mm::rounded(self.end - distance.f64()),
        })
    }

    /// How far a place is from the nearer end of the plates, and whether that is the first end. A
    /// place beyond the plates is at their end.
    pub fn from_nearer_end(&self, offset: f64) -> (Mm, bool) {
        let (near, far) = (offset - self.start, self.end - offset);
        let first = near <= far;
        let distance = if first { near } else { far };
        (Mm::rounded(distance.max(0.0)), first)
    }

    /// The wall met at an end: one that it corners or butts into before one that carries on in its
    /// line, the lowest number first.
    fn met(&self, first: bool) -> Option<u32> {
        let at = if first { 0.0 } else { self.line.length };
        let here = self.joints.iter();
        let here = here.filter(|joint| (joint.at - at).abs() < MEETS + joint.half);
        here.map(|joint| (joint.kind == JointKind::Splice, joint.other.0))
            .min()
            .map(|(_, wall)| wall)
    }

    fn on_the_sheet(&self, first: bool) -> &'static str {
        let along = self.line.along;
        let level = along.x.abs() >= along.y.abs();
        match (level, (along.x > 0.0) == first, (along.y > 0.0) == first) {
            (true, true, _) => "left end",
            (true, false, _) => "right end",
            (false, _, true) => "end at the top of the sheet",
            (false, _, false) => "end at the foot of the sheet",
        }
    }
}

/// A place in a wall in words: "W7, 4' 2\" from its W3 end"; only the wall where it is not framed.
pub fn wall_words(plan: &Plan, framing: &Framing, wall: WallId, offset: Mm) -> String {
    match framing.wall(wall) {
        Some(framed) => {
            let place = framed.distance_words(plan.units, offset.f64());
            format!("W{}, {place}", wall.0)
        }
        None => format!("W{}", wall.0),
    }
}

/// Where a pin holds a cable, in words to be put after "by".
pub fn pin_words(plan: &Plan, framing: &Framing, to: PinTo) -> String {
    match to {
        PinTo::Bay { wall, offset } => wall_words(plan, framing, wall, offset),
        PinTo::Overhead { .. } => String::from("its pin overhead"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::Edit;
    use crate::plan::{LevelId, Lumber, Role};
    use crate::shape::Point;

    fn framed(walls: &[[(i32, i32); 2]]) -> Framing {
        let add = |plan: Plan, [(ax, ay), (bx, by)]: &[(i32, i32); 2]| {
            plan.apply(&Edit::AddWall {
                level: LevelId(1),
                from: Point::new(*ax, *ay),
                to: Point::new(*bx, *by),
                lumber: Lumber::TwoBySix,
                role: Role::Exterior,
            })
            .unwrap()
        };
        Framing::of(&walls.iter().fold(Plan::new(), add))
    }

    fn ends(framing: &Framing, wall: u32) -> [String; 2] {
        let wall = framing.wall(WallId(wall)).unwrap();
        [wall.end_name(true), wall.end_name(false)]
    }

    #[test]
    fn an_end_is_named_by_the_wall_it_meets() {
        let framing = framed(&[
            [(0, 0), (6000, 0)],
            [(6000, 0), (6000, 4000)],
            [(2000, 0), (2000, 3000)],
        ]);
        assert_eq!(ends(&framing, 1), ["free end", "W2 end"]);
        assert_eq!(ends(&framing, 2), ["W1 end", "free end"]);
        // W3 butts into the middle of W1; W1's own ends are not at that tee.
        assert_eq!(ends(&framing, 3), ["W1 end", "free end"]);
    }

    #[test]
    fn a_wall_alone_is_named_as_it_lies() {
        let framing = framed(&[[(6000, 0), (0, 0)], [(0, 9000), (0, 2000)]]);
        assert_eq!(ends(&framing, 1), ["right end", "left end"]);
        let [first, second] = ends(&framing, 2);
        assert_eq!(first, "end at the foot of the sheet");
        assert_eq!(second, "end at the top of the sheet");
    }

    /// A 2x6 is 139.7 wide, so plates that butt into one start 69.85 in from the corner.
    #[test]
    fn distances_are_from_the_ends_of_the_plates() {
        let framing = framed(&[[(0, 0), (6000, 0)], [(2000, 0), (2000, 3000)]]);
        let wall = framing.wall(WallId(2)).unwrap();
        assert_eq!(wall.from_nearer_end(1069.85), (Mm(1000), true));
        assert_eq!(wall.from_nearer_end(2500.0), (Mm(500), false));
        assert_eq!(wall.from_nearer_end(-20.0), (Mm(0), true));
        assert_eq!(wall.from_end(Mm(1000), true), Some(Mm(1070)));
        assert_eq!(wall.from_end(Mm(500), false), Some(Mm(2500)));
        assert_eq!(wall.from_end(Mm(2940), true), None);
        let words = wall.distance_words(Units::Metric, 1069.85);
        assert_eq!(words, "1000 mm from its W1 end");
    }
}
