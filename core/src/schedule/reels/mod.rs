//! Which cable is cut from which reel: one kind of cable, its part reels, and new reels as needed.
//!
//! Pure arithmetic in whole millimetres: it knows no plan and no way. It never cuts a cable over
//! two reels, never takes two cables of one pull group from one reel without saying so, and never
//! calls a number of reels the fewest unless it is proved.
//!
//! The story in steps: cables no reel can hold are set aside (`search`); the fewest new reels are
//! found by length alone (`bound` proves, `search` finds); a pull group larger than the reels then
//! on hand has its surplus measured and cut before the pull (`group`); the reels are filled again
//! with the groups kept apart; and they are shared out so that few are set up anew from pull to pull
//! (`set_ups`), with the waste pushed into one reel, so that a large piece is left over.

mod bound;
mod fill;
mod group;
mod search;
mod set_ups;

#[cfg(test)]
mod oracle;
#[cfg(test)]
mod properties;

use crate::units::Mm;
pub use search::Look;
use search::{Found, Item, fewest_new, most_left};

/// A cable to cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Piece {
    /// Length to cut, slack and waste included; less than nothing counts as nothing.
    pub length: Mm,
    /// The pull it goes with, by its number in the order of pulling: cables of one pull come each from a
    /// reel of its own.
    pub pull: u32,
}

/// The reels of one kind of cable.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stock {
    /// What is left on each part reel in the van.
    pub part_reels: Vec<Mm>,
    /// Length of a new reel, of which there are as many as needed.
    pub new_reel: Mm,
    /// New reels in the van already: a pull may draw from that many at once even where the lengths
    /// need fewer. 0 where reels are bought as the lengths need.
    pub on_hand: usize,
}

/// Where each cable comes from.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ReelPlan {
    /// The part reels in the order given, then the new reels.
    pub reels: Vec<ReelUse>,
    /// New reels to open.
    pub new_reels: usize,
    /// No plan opens fewer: by length, with pull groups kept apart where they are here.
    pub fewest_possible: usize,
    /// Reels that a pull draws from and the pull before it did not, over all pulls.
    pub set_ups: usize,
    /// What does not go as it should, and what was assumed.
    pub problems: Vec<ReelProblem>,
}

impl ReelPlan {
    /// Whether no plan opens fewer new reels.
    #[must_use]
    pub fn is_proved(&self) -> bool {
        self.new_reels == self.fewest_possible
    }

    /// The longest piece left on one reel, untouched part reels included; 0 without reels.
    #[must_use]
    pub fn largest_remainder(&self) -> Mm {
        self.reels
            .iter()
            .map(|reel| reel.remainder)
            .max()
            .unwrap_or_default()
    }
}

/// One reel and what is cut from it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReelUse {
    /// Which part reel, by its place in the stock; `None` for a new reel.
    pub part: Option<usize>,
    /// Its length before the first cut.
    pub length: Mm,
    /// The cables cut from it, by their place in the list of pieces, in pull order.
    pub pieces: Vec<usize>,
    /// What is left after the last cut.
    pub remainder: Mm,
}

/// Something the crew must know before it pulls.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ReelProblem {
    /// A cable longer than every reel that could hold it: it is on no reel. Order a longer reel, or
    /// move the drop or the closet.
    TooLong {
        /// Place in the list of pieces.
        piece: usize,
        /// The longest reel, new or part.
        longest: Mm,
    },
    /// A pull group of more cables than there are reels on hand to pull them from. Assumed: opening
    /// a reel costs more than measuring, so the surplus is measured and cut before the pull.
    GroupTooLarge {
        /// The number of the group.
        group: u32,
        /// Cables in it.
        cables: usize,
        /// How many of them reels on hand can feed at once.
        reels: usize,
        /// The cables to measure and cut before the pull, by place in the list of pieces.
        measured_first: Vec<usize>,
    },
    /// New reels opened only because pull groups are kept apart. Cables of a group measured and cut
    /// before the pull would save them.
    OpenedForGroups {
        /// How many more than the lengths alone need.
        reels: usize,
    },
}

/// Assigns every piece to a reel: fewest new reels first, then fewest set-ups from pull to pull, then the
/// longest piece left over, then part reels before new ones.
///
/// `pieces` are in pull order. The same question gives the same answer on every machine.
#[must_use]
pub fn assign(pieces: &[Piece], stock: &Stock, look: Look) -> ReelPlan {
    let mut problems = Vec::new();
    let parts: Vec<u64> = stock.part_reels.iter().map(|part| length(*part)).collect();
    let new = length(stock.new_reel);
    let items = search::holdable(items(pieces), &parts, new);
    let longest = parts.iter().copied().fold(new, u64::max);
    problems.extend(items.too_long.iter().map(|&piece| too_long(piece, longest)));

    let mut loose: Vec<Item> = items.held.iter().map(Item::without_group).collect();
    search::sort(&mut loose);
    let by_length = fewest_new(&loose, &parts, new, 0, look);
    let at_hand = by_length.new_reels.max(stock.on_hand);
    let apart = group::keep_apart(&items.held, &parts, new, at_hand, &mut problems);
    let found = if apart.iter().all(|item| item.group.is_none()) {
        by_length.clone()
    } else {
        fewest_new(&apart, &parts, new, by_length.fewest_possible, look)
    };
    if found.new_reels > by_length.new_reels {
        let reels = found.new_reels - by_length.new_reels;
        problems.push(ReelProblem::OpenedForGroups { reels });
    }
    let reels = search::reels(&parts, new, found.new_reels);
    let longest_left = most_left(&apart, &parts, new, found.clone(), look);
    let found = set_ups::fewest(&apart, &reels, [found, longest_left], look);
    written(&apart, &parts, new, &found, problems)
}

/// How many new reels the lengths alone need, whatever is pulled together.
pub fn fewest_by_length(pieces: &[Piece], stock: &Stock, look: Look) -> usize {
    let parts: Vec<u64> = stock.part_reels.iter().map(|part| length(*part)).collect();
    let new = length(stock.new_reel);
    let held = search::holdable(items(pieces), &parts, new).held;
    let mut loose: Vec<Item> = held.iter().map(Item::without_group).collect();
    search::sort(&mut loose);
    fewest_new(&loose, &parts, new, 0, look).new_reels
}

fn length(length: Mm) -> u64 {
    u64::try_from(length.0).unwrap_or(0)
}

fn items(pieces: &[Piece]) -> Vec<Item> {
    let mut items: Vec<Item> = pieces
        .iter()
        .enumerate()
        .map(|(piece, cable)| Item {
            piece,
            length: length(cable.length),
            group: Some(cable.pull),
            pull: cable.pull,
            home: None,
        })
        .collect();
    search::sort(&mut items);
    items
}

fn too_long(piece: usize, longest: u64) -> ReelProblem {
    ReelProblem::TooLong {
        piece,
        longest: mm(longest),
    }
}

/// Back from the search: every length came from an [`Mm`] and is no longer than one.
fn mm(length: u64) -> Mm {
    Mm(i32::try_from(length).unwrap_or(i32::MAX))
}

fn written(
    items: &[Item],
    parts: &[u64],
    new: u64,
    found: &Found,
    problems: Vec<ReelProblem>,
) -> ReelPlan {
    let lengths = parts
        .iter()
        .copied()
        .chain(std::iter::repeat_n(new, found.new_reels));
    let reels = lengths.enumerate().map(|(reel, length)| {
        let on_it = || {
            items
                .iter()
                .zip(&found.reel_of)
                .filter(move |(_, of)| **of == reel)
        };
        let mut pieces: Vec<usize> = on_it().map(|(item, _)| item.piece).collect();
        pieces.sort_unstable();
        let cut: u64 = on_it().map(|(item, _)| item.length).sum();
        let part = (reel < parts.len()).then_some(reel);
        ReelUse {
            part,
            length: mm(length),
            pieces,
            remainder: mm(length.saturating_sub(cut)),
        }
    });
    ReelPlan {
        reels: reels.collect(),
        new_reels: found.new_reels,
        fewest_possible: found.fewest_possible,
        set_ups: set_ups::count(items, &found.reel_of),
        problems,
    }
}

#[cfg(test)]
mod tests {
    use super::oracle::fault;
    use super::*;

    fn pieces(of: &[(i32, u32)]) -> Vec<Piece> {
        of.iter()
            .map(|&(metres, pull)| Piece {
                length: Mm(metres * 1_000),
                pull,
            })
            .collect()
    }

    fn stock(parts: &[i32], new: i32) -> Stock {
        let metres = |metres: &i32| Mm(metres * 1_000);
        Stock {
            part_reels: parts.iter().map(metres).collect(),
            new_reel: metres(&new),
            on_hand: 0,
        }
    }

    fn remainders(plan: &ReelPlan) -> Vec<i32> {
        plan.reels
            .iter()
            .map(|reel| reel.remainder.0 / 1_000)
            .collect()
    }

    #[test]
    fn nothing_to_cut_opens_nothing() {
        let plan = assign(&[], &stock(&[80], 305), Look::Brief);
        assert_eq!(
            (plan.new_reels, plan.is_proved(), remainders(&plan)),
            (0, true, vec![80])
        );
    }

    #[test]
    fn part_reels_are_used_up_first() {
        let pieces = pieces(&[(40, 1), (35, 2), (30, 3), (25, 4)]);
        let plan = assign(&pieces, &stock(&[55, 75], 305), Look::Brief);
        assert_eq!((plan.new_reels, remainders(&plan)), (0, vec![0, 0]));
        assert_eq!(plan.reels[0].pieces, [2, 3]);
        assert!(plan.problems.is_empty());
    }

    #[test]
    fn a_pull_group_comes_from_different_reels() {
        let pieces = pieces(&[(20, 1), (20, 1), (30, 2)]);
        let plan = assign(&pieces, &stock(&[90], 305), Look::Brief);
        // One part reel would do by length, so one reel is on hand: the pair is too large for it.
        let measured_first = vec![1];
        let expected = ReelProblem::GroupTooLarge {
            group: 1,
            cables: 2,
            reels: 1,
            measured_first,
        };
        assert_eq!((plan.new_reels, &plan.problems[..]), (0, &[expected][..]));

        let plan = assign(&pieces, &stock(&[90, 25], 305), Look::Brief);
        assert_eq!((plan.new_reels, plan.problems.len()), (0, 0));
        assert_eq!(fault(&pieces, &stock(&[90, 25], 305), &plan), None);
    }

    #[test]
    fn a_reel_opened_only_for_groups_is_told() {
        // Two part reels feed a pair, but the pair of 50s and the pair of 40s need 90 of each.
        let pieces = pieces(&[(50, 1), (50, 1), (40, 2), (40, 2)]);
        let plan = assign(&pieces, &stock(&[101, 80], 305), Look::Brief);
        assert_eq!((plan.new_reels, plan.is_proved()), (1, true));
        assert_eq!(plan.problems, [ReelProblem::OpenedForGroups { reels: 1 }]);
    }

    #[test]
    fn a_cable_longer_than_every_reel_is_told_and_the_rest_is_cut() {
        let pieces = pieces(&[(310, 1), (30, 1)]);
        let stock = stock(&[60], 305);
        let plan = assign(&pieces, &stock, Look::Brief);
        assert_eq!(
            plan.problems,
            [ReelProblem::TooLong {
                piece: 0,
                longest: Mm(305_000)
            }]
        );
        assert_eq!(plan.reels[0].pieces, [1]);
        assert_eq!(fault(&pieces, &stock, &plan), None);
    }

    #[test]
    fn a_cable_only_a_part_reel_holds_goes_there() {
        let pieces = pieces(&[(100, 1), (200, 2), (190, 3)]);
        let plan = assign(&pieces, &stock(&[210, 40], 152), Look::Brief);
        assert_eq!(plan.reels[0].pieces, [1]);
        // The other long one finds its only reel taken.
        assert_eq!(
            plan.problems,
            [ReelProblem::TooLong {
                piece: 2,
                longest: Mm(210_000)
            }]
        );
    }

    #[test]
    fn lengths_below_nothing_and_reels_of_nothing_are_survived() {
        let pieces = [
            Piece {
                length: Mm(-5),
                pull: 1,
            },
            Piece {
                length: Mm(10),
                pull: 1,
            },
        ];
        let stock = Stock {
            part_reels: vec![Mm(-7)],
            new_reel: Mm(0),
            on_hand: 0,
        };
        let plan = assign(&pieces, &stock, Look::Brief);
        assert_eq!(plan.problems.len(), 1);
        assert!(plan.is_proved());
    }

    #[test]
    fn the_waste_is_gathered_on_one_reel_as_far_as_it_stays_where_it_stands() {
        let lengths = [61, 47, 38, 52, 44, 29, 33, 58, 41, 36];
        let pieces: Vec<_> = lengths
            .iter()
            .zip(1..)
            .map(|(&length, at)| (length, at))
            .collect();
        let plan = assign(&self::pieces(&pieces), &stock(&[], 305), Look::Brief);
        // 439 m from two reels of 305 m leave 171 m. The first seven pulls take 304 m of one reel, the
        // others come from the next: two set-ups, and a metre is left on the first.
        assert_eq!((plan.new_reels, plan.set_ups), (2, 2));
        assert_eq!(plan.largest_remainder(), Mm(170_000));
    }
}
