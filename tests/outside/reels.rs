//! Reels against lists whose best is known before the search: Falkenauer's triplets.
//!
//! E. Falkenauer, "A hybrid grouping genetic algorithm for bin packing", Journal of Heuristics 2
//! (1996), 5-30, class t60; the rule from memory, the lists made anew: every three of 60 items fill
//! a bin of 1,000 without waste, so 20 bins are enough and fewer are not. The full hundred is a
//! line of the figures; here is a sample.

use borewright_core::schedule::reels::{Look, Piece, Stock, assign};
use borewright_core::units::Mm;

/// Numbers without pattern, from a seed; a linear congruence, Knuth's MMIX, upper bits.
fn below(state: &mut u64, count: i32) -> i32 {
    *state = state
        .wrapping_mul(6_364_136_223_846_793_005)
        .wrapping_add(1_442_695_040_888_963_407);
    ((*state >> 33) % count as u64) as i32
}

fn triplets(seed: u64) -> Vec<Piece> {
    let mut state = seed;
    let mut lengths = Vec::new();
    for _ in 0..20 {
        let first = 380 + below(&mut state, 111);
        let second = 250 + below(&mut state, (1_000 - first) / 2 - 250 + 1);
        lengths.extend([first, second, 1_000 - first - second]);
    }
    let piece = |(pull, length)| Piece {
        length: Mm(length),
        pull,
    };
    (0..).zip(lengths).map(piece).collect()
}

#[test]
fn triplets_are_cut_without_waste() {
    let stock = Stock {
        part_reels: Vec::new(),
        new_reel: Mm(1_000),
        on_hand: 0,
    };
    let lists = (1..=8).map(triplets);
    let plans: Vec<_> = lists
        .map(|pieces| assign(&pieces, &stock, Look::Long))
        .collect();
    assert!(plans.iter().all(|plan| plan.fewest_possible == 20));
    let best = plans.iter().filter(|plan| plan.new_reels == 20).count();
    assert!(best >= 7, "{best} of 8");
    for plan in plans.iter().filter(|plan| plan.new_reels == 20) {
        assert!(plan.reels.iter().all(|reel| reel.remainder == Mm(0)));
    }
}
