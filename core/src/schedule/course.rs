//! The course of a pull by its bores: what holds all of the trunk, where each box's cables leave it, and
//! the chain of bores of each cable from its box to the closet.

use std::collections::{BTreeMap, BTreeSet};

use super::pulls::Pull;
use crate::bore::Bore;
use crate::plan::{CableId, DropId};
use crate::route::{Way, Ways};

/// Which bore holds a cable where it crosses something.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Chains {
    bores: BTreeMap<(usize, CableId), u32>,
}

/// The course of one pull.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Course {
    /// What all its cables go through, from the closet outwards: the numbers of its bores, more than one
    /// where they go through bores side by side.
    pub trunk: Vec<Vec<u32>>,
    /// The first of these bores from the closet that holds all its cables.
    pub holds_all: Option<u32>,
    /// Its boxes, in the order of the pull.
    pub boxes: Vec<BoxCourse>,
}

/// The course of one box's cables in a pull.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BoxCourse {
    /// Which box.
    pub drop: DropId,
    /// The bores, seen from the closet, after which they leave the cables of the pull's other boxes; empty
    /// where there are none, or where no bore is shared with them.
    pub leaves_after: Vec<u32>,
    /// Each cable's bores from the box to the closet.
    pub chains: Vec<(CableId, Vec<u32>)>,
    /// How they part, if they do.
    pub parted: Option<Parted>,
}

/// How the cables of one box come to go through different bores.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Parted {
    /// They go the same way, but where the bundle is split no bore has room for all of them.
    SideBySide {
        /// The bores side by side.
        bores: Vec<u32>,
    },
    /// They go different ways, which the price of all ways asks for.
    OtherWays {
        /// The bore, seen from the box, after which they part; `None` where they share none before.
        after: Option<u32>,
    },
}

impl Chains {
    /// The chains of a design's bores.
    #[must_use]
    pub fn of(bores: &[Bore]) -> Self {
        let each = |bore: &Bore| {
            let (crossing, number) = (bore.crossing, bore.number);
            let of = move |cable: &CableId| ((crossing, *cable), number);
            bore.cables.iter().map(of).collect::<Vec<_>>()
        };
        Self {
            bores: bores.iter().flat_map(each).collect(),
        }
    }

    /// The bores a cable goes through, from its box to the closet; a straight row once.
    #[must_use]
    pub fn of_way(&self, way: &Way) -> Vec<u32> {
        let bores = crossings(way).filter_map(|crossing| self.bore(crossing, way.cable));
        let mut chain: Vec<u32> = bores.collect();
        chain.dedup();
        chain
    }

    /// The chain of a cable; empty for one without a way.
    #[must_use]
    pub fn of_cable(&self, ways: &Ways, cable: CableId) -> Vec<u32> {
        ways.way(cable)
            .map(|way| self.of_way(way))
            .unwrap_or_default()
    }

    /// The course of a pull.
    #[must_use]
    pub fn course(&self, ways: &Ways, pull: &Pull) -> Course {
        let of_pull: Vec<&Way> = pull.cables.iter().filter_map(|id| ways.way(*id)).collect();
        let common = common(&of_pull);
        let mut trunk: Vec<Vec<u32>> = Vec::new();
        for crossing in common.into_iter().rev() {
            let bores = self.side_by_side(crossing, &of_pull);
            if trunk.last() != Some(&bores) {
                trunk.push(bores);
            }
        }
        let holds_all = trunk.iter().find(|bores| bores.len() == 1);
        Course {
            holds_all: holds_all.and_then(|bores| bores.first().copied()),
            boxes: pull
                .drops
                .iter()
                .map(|drop| self.of_box(&of_pull, *drop))
                .collect(),
            trunk,
        }
    }

    fn bore(&self, crossing: usize, cable: CableId) -> Option<u32> {
        self.bores.get(&(crossing, cable)).copied()
    }

    /// The bores of a crossing that hold some cables, rising.
    fn side_by_side(&self, crossing: usize, ways: &[&Way]) -> Vec<u32> {
        let bores = ways.iter().filter_map(|way| self.bore(crossing, way.cable));
        let bores: BTreeSet<u32> = bores.collect();
        bores.into_iter().collect()
    }

    fn of_box(&self, of_pull: &[&Way], drop: DropId) -> BoxCourse {
        let (mine, others): (Vec<&Way>, Vec<&Way>) =
            of_pull.iter().copied().partition(|way| way.drop == drop);
        let theirs: BTreeSet<usize> = others.iter().flat_map(|way| crossings(way)).collect();
        let shared = mine
            .iter()
            .find_map(|way| crossings(way).find(|c| theirs.contains(c)));
        BoxCourse {
            drop,
            leaves_after: shared.map_or_else(Vec::new, |c| self.side_by_side(c, &mine)),
            chains: mine
                .iter()
                .map(|way| (way.cable, self.of_way(way)))
                .collect(),
            parted: self.parted(&mine),
        }
    }

    fn parted(&self, ways: &[&Way]) -> Option<Parted> {
        let (first, others) = ways.split_first()?;
        let taken: Vec<usize> = crossings(first).collect();
        let alike = |way: &&Way| {
            let same = crossings(way)
                .zip(&taken)
                .take_while(|(mine, theirs)| mine == *theirs);
            let same = same.count();
            (same < taken.len() || crossings(way).count() > same).then_some(same)
        };
        if let Some(same) = others.iter().filter_map(alike).min() {
            let last = same.checked_sub(1).and_then(|at| taken.get(at));
            return Some(Parted::OtherWays {
                after: last.and_then(|crossing| self.bore(*crossing, first.cable)),
            });
        }
        let bores = taken
            .into_iter()
            .map(|crossing| self.side_by_side(crossing, ways));
        let parted = bores.into_iter().find(|bores| bores.len() > 1);
        parted.map(|bores| Parted::SideBySide { bores })
    }
}

fn crossings(way: &Way) -> impl Iterator<Item = usize> + '_ {
    way.moves.iter().filter_map(|step| step.crossing)
}

/// The crossings that all ways go through, in the order of the first.
fn common(ways: &[&Way]) -> Vec<usize> {
    let Some((first, others)) = ways.split_first() else {
        return Vec::new();
    };
    let sets: Vec<BTreeSet<usize>> = others.iter().map(|way| crossings(way).collect()).collect();
    let in_all = |crossing: &usize| sets.iter().all(|set| set.contains(crossing));
    crossings(first).filter(in_all).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::route::{Move, MoveKind, Place3};
    use crate::units::{Mm, Size};

    fn way(cable: u32, drop: u32, crossings: &[usize]) -> Way {
        let step = |crossing: &usize| Move {
            kind: MoveKind::AlongStrip { space: 0 },
            from: Place3::default(),
            to: Place3::default(),
            length: 1.0,
            crossing: Some(*crossing),
        };
        Way {
            cable: CableId(cable),
            drop: DropId(drop),
            moves: crossings.iter().map(step).collect(),
            length: Mm(1),
            trouble: None,
        }
    }

    fn bore(crossing: usize, number: u32, cables: &[u32]) -> Bore {
        Bore {
            number,
            cables: cables.iter().map(|id| CableId(*id)).collect(),
            ..Bore::of(crossing, Size(25.4))
        }
    }

    /// Two boxes of two cables: 5 is shared by all, 6 is split, and the second of the far box's cables
    /// goes another way at its beginning.
    fn course() -> Course {
        let ways = Ways {
            ways: vec![
                way(1, 1, &[1, 2, 5, 6]),
                way(2, 1, &[1, 3, 5, 6]),
                way(3, 2, &[4, 5, 6]),
                way(4, 2, &[4, 5, 6]),
            ],
            ..Ways::default()
        };
        let bores = [
            bore(1, 11, &[1, 2]),
            bore(2, 12, &[1]),
            bore(3, 13, &[2]),
            bore(4, 14, &[3, 4]),
            bore(5, 15, &[1, 2, 3, 4]),
            bore(6, 16, &[1, 2, 3]),
            bore(6, 17, &[4]),
        ];
        let pull = Pull {
            drops: vec![DropId(1), DropId(2)],
            cables: (1..5).map(CableId).collect(),
            ..Pull::default()
        };
        Chains::of(&bores).course(&ways, &pull)
    }

    #[test]
    fn a_trunk_is_named_by_the_bore_that_holds_all_of_it() {
        let course = course();
        assert_eq!(course.trunk, [vec![16, 17], vec![15]]);
        assert_eq!(course.holds_all, Some(15));
    }

    #[test]
    fn each_box_leaves_after_what_it_shares_and_each_cable_has_its_chain() {
        let [far, near] = &course().boxes[..] else {
            panic!("two boxes");
        };
        assert_eq!(
            (&far.leaves_after, &near.leaves_after),
            (&vec![15], &vec![15])
        );
        assert_eq!(far.chains[0], (CableId(1), vec![11, 12, 15, 16]));
        assert_eq!(far.parted, Some(Parted::OtherWays { after: Some(11) }));
        let bores = vec![16, 17];
        assert_eq!(near.parted, Some(Parted::SideBySide { bores }));
    }

    #[test]
    fn a_row_of_studs_stands_once_in_a_chain() {
        let bores = [bore(1, 7, &[1]), bore(2, 7, &[1]), bore(3, 9, &[1])];
        let chains = Chains::of(&bores);
        assert_eq!(chains.of_way(&way(1, 1, &[1, 2, 3])), [7, 9]);
    }
}
