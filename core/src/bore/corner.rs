//! How a bore goes round a corner of two walls, or into a tee: from both bays along the middle of each wall,
//! until the two meet. Derived from the framing and from where the way turns; moves nothing.

use super::whereabouts::{Past, turn};
use crate::framing::{Bay, Framing, WallFraming};
use crate::plan::WallId;
use crate::route::{Member, Ways};
use crate::shape::Pos;

/// Lines whose direction differs by less than this (its sine or cosine) are square or in one line: a
/// builder's square shows no more.
const SQUARE: f64 = 0.02;

/// A bore round a corner.
#[derive(Clone, Debug, PartialEq)]
pub struct Corner {
    /// Where the two halves meet, on the plan: where the middles of both walls do.
    pub meets: Pos,
    /// The half from the wall it is drilled from, and that from the other.
    pub halves: [Half; 2],
    /// How the two lie to one another.
    pub lie: Lie,
}

/// One half: straight from a bay, along the middle of its wall.
#[derive(Clone, Debug, PartialEq)]
pub struct Half {
    /// The bay.
    pub bay: Past,
    /// The face of the wood the bit is put to, as an offset along the wall.
    pub face: f64,
    /// From that face to where the halves meet, millimetres.
    pub depth: f64,
    /// From where they meet towards the bay: a unit vector.
    pub towards: Pos,
    /// The uprights bored, as indices into the wall's framing.
    pub uprights: Vec<usize>,
}

/// How two lines lie to one another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Lie {
    /// At right angles.
    Square,
    /// The one carries the other on.
    Straight,
    /// Neither: so far out of square on a length of one, and whether the angle between is wider than a
    /// right one.
    Askew {
        /// Out of square, as a share of the length.
        share: f64,
        /// Wider than a right angle.
        wider: bool,
    },
}

impl Corner {
    /// The bore through a crossing; `None` where that is no corner, or where no way turns there.
    pub fn of(framing: &Framing, ways: &Ways, crossing: usize) -> Option<Self> {
        let through = ways.crossings.get(crossing)?;
        let Member::Corner { to, .. } = through.member else {
            return None;
        };
        let (from, into) = turn(framing, ways, crossing, to)?;
        let half = |bay: Past| Half::of(framing.wall(bay.wall)?, bay, through.at, through.height);
        let halves = [half(from)?, half(into)?];
        let lie = Lie::of(halves[0].towards, halves[1].towards);
        Some(Self {
            meets: through.at,
            halves,
            lie,
        })
    }
}

impl Half {
    fn of(wall: &WallFraming, bay: Past, meets: Pos, height: f64) -> Option<Self> {
        let middle = middle(wall, bay);
        let end = wall.line.offset_of(meets);
        let holds = |b: &&Bay| b.from <= middle && middle <= b.to && b.reaches(height);
        let clear = wall.bays.iter().find(holds)?;
        let is_on = clear.middle() > end;
        let face = clear.face_towards(end);
        let ahead = wall.line.at(end + 1.0, 0.0) - wall.line.at(end, 0.0);
        Some(Self {
            bay,
            face,
            depth: (face - end).abs(),
            towards: if is_on { ahead } else { ahead * -1.0 },
            uprights: wall.bored_between((face, end), height),
        })
    }

    /// The wall.
    pub fn wall(&self) -> WallId {
        self.bay.wall
    }

    /// "W6 after stud 4 from its W2 end".
    pub fn words(&self, framing: &Framing) -> String {
        self.bay.bay_words(framing)
    }
}

/// The middle of the bay, from the wall's first end.
fn middle(wall: &WallFraming, bay: Past) -> f64 {
    let mut full = wall.studs.iter().filter(|stud| stud.number > 0);
    let stud = full.find(|stud| stud.number == bay.stud);
    stud.map_or(wall.start, |stud| stud.to) + bay.distance
}

impl Lie {
    fn of(one: Pos, other: Pos) -> Self {
        let (across, along) = (one.cross(other), one.dot(other));
        if along.abs() < SQUARE {
            return Self::Square;
        }
        if across.abs() < SQUARE {
            return Self::Straight;
        }
        Self::Askew {
            share: (along / across).abs(),
            wider: along < 0.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;

    #[test]
    fn halves_begin_at_wood_and_end_where_the_walls_meet() {
        let demo = include_bytes!("../../../static/demo/two-storeys.json");
        let plan = crate::file::read(demo).unwrap().plan;
        let design = Design::of(&plan);
        let mut found = 0;
        for crossing in 0..design.ways.crossings.len() {
            let Some(corner) = Corner::of(&design.framing, &design.ways, crossing) else {
                let member = &design.ways.crossings[crossing].member;
                assert!(!matches!(member, Member::Corner { .. }));
                continue;
            };
            found += 1;
            for half in &corner.halves {
                let wall = design.framing.wall(half.wall()).unwrap();
                let off = wall.line.at(half.face, 0.0).distance(corner.meets);
                assert!((off - half.depth).abs() < 1.0, "{off} {}", half.depth);
                assert!(!half.uprights.is_empty());
                let at_face = |at: &usize| {
                    let stud = wall.studs[*at];
                    (stud.from - half.face).abs() < 1.0 || (stud.to - half.face).abs() < 1.0
                };
                assert!(half.uprights.iter().any(at_face));
            }
        }
        assert!(found > 0, "a cable goes round a corner");
    }

    #[test]
    fn a_corner_counts_the_studs_that_its_drawing_shows_and_names_both_walls() {
        let houses: [&[u8]; 3] = [
            include_bytes!("../../../static/demo/two-storeys.json"),
            include_bytes!("../../../tests/plans/house-b.json"),
            include_bytes!("../../../tests/plans/house-c.json"),
        ];
        let mut found = 0;
        for house in houses {
            let plan = crate::file::read(house).unwrap().plan;
            let design = Design::of(&plan);
            for row in &design.drill_list {
                let crossing = design.bores[row.bores[0]].crossing;
                let Some(corner) = Corner::of(&design.framing, &design.ways, crossing) else {
                    continue;
                };
                found += 1;
                let studs: usize = corner.halves.iter().map(|half| half.uprights.len()).sum();
                assert_eq!(row.what, format!("corner, {studs} studs"));
                // The limit is that of the stricter of the two.
                let through = &design.ways.crossings[crossing];
                let largest = through
                    .limit(&plan, &design.framing, false)
                    .largest
                    .unwrap();
                for half in &corner.halves {
                    let wall = plan.wall(half.wall()).unwrap().1;
                    assert!(row.member.contains(wall.role.name()), "{}", row.member);
                    let bears = wall.role.is_bearing();
                    let own = plan.rules.stud_limit(wall.width(), bears, false);
                    assert!(largest.within(own));
                }
            }
        }
        assert!(found > 1);
    }

    #[test]
    fn lines_are_square_straight_or_out_of_square() {
        let east = Pos::new(1.0, 0.0);
        assert_eq!(Lie::of(east, Pos::new(0.0, -1.0)), Lie::Square);
        assert_eq!(Lie::of(east, Pos::new(-1.0, 0.0)), Lie::Straight);
        let Lie::Askew { share, wider } = Lie::of(east, Pos::new(-0.6, 0.8)) else {
            panic!("three in four");
        };
        assert!((share - 0.75).abs() < 1e-9 && wider);
    }
}
