//! Where each bore is, as printed numbers hold to it, and what is shown of holes as one check sum.

use std::collections::{BTreeMap, BTreeSet};

use super::Bore;
use crate::framing::Framing;
use crate::plan::{Hole, Plan, PrintedRow, Through};
use crate::route::{Member, Ways};
use crate::shape::Point;
use crate::units::Mm;

/// What a bore goes through, on the drill list.
pub(super) fn through(member: &Member) -> Through {
    match member {
        Member::Studs(_) => Through::Studs,
        Member::Corner { .. } => Through::Corner,
        Member::TopPlates(_) => Through::TopPlates,
        Member::BottomPlates(_) => Through::BottomPlates,
        Member::Joist { .. } | Member::Web { .. } => Through::Joists,
        Member::Sheathing | Member::Soffit => Through::Outside,
    }
}

/// Where a bore is on its level, its own shift along the wall or the joist included.
pub fn hole(framing: &Framing, ways: &Ways, bore: &Bore) -> Hole {
    let crossing = &ways.crossings[bore.crossing];
    let along = match (&crossing.member, crossing.wall) {
        (Member::Joist { space } | Member::Web { space }, _) => {
            framing.spaces.get(*space).map(|space| space.along)
        }
        (_, wall) => wall.and_then(|wall| Some(framing.wall(wall)?.line.along)),
    };
    let shift = bore.offset - crossing.offset;
    Hole {
        level: crossing.level,
        through: through(&crossing.member),
        at: along.map_or(crossing.at, |along| crossing.at + along * shift),
        height: bore.height,
    }
}

/// The rows of bores as they would be printed now, by number: those that were printed before as they
/// were then. Their revision is set where they are kept.
pub fn rows(plan: &Plan, framing: &Framing, ways: &Ways, bores: &[Bore]) -> Vec<PrintedRow> {
    let printed = plan.printed.rows.iter().map(|row| (row.number, *row));
    let known: BTreeMap<u32, PrintedRow> = printed.collect();
    let mut rows: BTreeMap<u32, PrintedRow> = BTreeMap::new();
    for bore in bores {
        let hole = hole(framing, ways, bore);
        let at = hole.at.point();
        let begun = || match known.get(&bore.number) {
            Some(row) => *row,
            None => PrintedRow {
                number: bore.number,
                revision: plan.revision,
                level: hole.level,
                through: hole.through,
                from: at,
                to: at,
                height: Mm::rounded(hole.height),
            },
        };
        let row = rows.entry(bore.number).or_insert_with(begun);
        if !known.contains_key(&bore.number) {
            stretch(row, at);
        }
    }
    rows.into_values().collect()
}

/// Makes a row reach to one more of its bores. Those of a row across joists come in the order of how far
/// along the joists they are, which differs by less than a millimetre and says nothing of the order in the row.
fn stretch(row: &mut PrintedRow, at: Point) {
    let apart = |a: Point, b: Point| a.pos().distance(b.pos());
    let (whole, ahead, back) = (
        apart(row.from, row.to),
        apart(row.from, at),
        apart(at, row.to),
    );
    if ahead > whole && ahead >= back {
        row.to = at;
    } else if back > whole {
        row.from = at;
    }
}

/// A check sum (CRC-32) of all that sheets say of holes: number, place, bit, cables, steel, seal. The
/// same wherever the same holes are shown.
pub fn sum(framing: &Framing, ways: &Ways, bores: &[Bore]) -> u32 {
    let mut sum = crc32fast::Hasher::new();
    for bore in bores {
        let hole = hole(framing, ways, bore);
        let at = hole.at.point();
        let figures = [at.x, at.y, Mm::rounded(hole.height).0];
        figures
            .iter()
            .for_each(|figure| sum.update(&figure.to_be_bytes()));
        let counts = [
            bore.number,
            hole.level.0,
            bore.members,
            bore.nail_plates,
            u32::from(bore.tie) | u32::from(bore.seal) << 1,
            bore.cables.len() as u32,
        ];
        counts
            .iter()
            .for_each(|count| sum.update(&count.to_be_bytes()));
        sum.update(&bore.bit.0.to_be_bytes());
        bore.cables
            .iter()
            .for_each(|cable| sum.update(&cable.0.to_be_bytes()));
    }
    sum.finalize()
}

/// How the holes of a plan stand to those on paper.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SincePrinted {
    /// The revision printed last; 0 where nothing was printed.
    pub revision: u32,
    /// Whether anything that sheets say of holes is another now.
    pub differs: bool,
    /// Numbers that no printed sheet has, rising.
    pub new: Vec<u32>,
    /// Printed rows that no cable goes through any more, by number.
    pub gone: Vec<PrintedRow>,
}

impl SincePrinted {
    /// One sentence for whoever looks at a screen with the paper in hand; `None` where both show the
    /// same holes, or nothing was printed. `awaited`: ways are still being improved.
    pub fn sentence(&self, awaited: bool) -> Option<String> {
        if !self.differs {
            return None;
        }
        let paper = format!("the paper of revision {}", self.revision);
        if awaited {
            return Some(format!(
                "Ways are still being improved: until then holes go by {paper}, not by this page."
            ));
        }
        let counted = |count: usize, words: [&str; 2]| match count {
            0 => None,
            1 => Some(format!("1 number {}", words[0])),
            count => Some(format!("{count} numbers {}", words[1])),
        };
        let parts = [
            counted(self.new.len(), ["is new", "are new"]),
            counted(self.gone.len(), ["is gone", "are gone"]),
        ];
        let parts: Vec<String> = parts.into_iter().flatten().collect();
        Some(match parts.is_empty() {
            true => format!("Holes are not all as on {paper}. Print the next revision."),
            false => format!(
                "Holes are not as on {paper}: {}. Print the next revision.",
                parts.join(", ")
            ),
        })
    }

    /// How the holes stand to the sheets printed last.
    pub fn of(plan: &Plan, framing: &Framing, ways: &Ways, bores: &[Bore]) -> Self {
        let printed = &plan.printed;
        if printed.is_empty() {
            return Self::default();
        }
        let numbers: BTreeSet<u32> = bores.iter().map(|bore| bore.number).collect();
        let new = numbers.range(printed.last() + 1..).copied();
        let gone = |row: &&PrintedRow| !numbers.contains(&row.number);
        Self {
            revision: printed.revision,
            differs: sum(framing, ways, bores) != printed.sum,
            new: new.collect(),
            gone: printed.rows.iter().filter(gone).copied().collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_on_paper_is_told_in_one_sentence() {
        let since = SincePrinted {
            revision: 2,
            differs: true,
            new: vec![80, 81],
            gone: Vec::new(),
        };
        assert_eq!(
            since.sentence(false).unwrap(),
            "Holes are not as on the paper of revision 2: 2 numbers are new. Print the next revision."
        );
        assert!(
            since
                .sentence(true)
                .unwrap()
                .contains("still being improved")
        );
        assert_eq!(SincePrinted::default().sentence(false), None);
    }
}
