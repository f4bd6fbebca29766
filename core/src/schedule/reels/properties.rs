//! What must hold of every assignment, asked of cut lists made at random.

use proptest::prelude::*;

use super::oracle::{best, fault, kept_apart, set_ups};
use super::{Look, Piece, ReelProblem, Stock, assign};
use crate::units::Mm;

fn pieces(most: usize, longest: i32) -> impl Strategy<Value = Vec<Piece>> {
    let piece = (0..=longest, 0_u32..5).prop_map(|(length, pull)| Piece {
        length: Mm(length),
        pull,
    });
    prop::collection::vec(piece, 0..=most)
}

fn stock() -> impl Strategy<Value = Stock> {
    (
        prop::collection::vec((0..130).prop_map(Mm), 0..4),
        (60..101).prop_map(Mm),
    )
        .prop_map(|(part_reels, new_reel)| Stock {
            part_reels,
            new_reel,
            on_hand: 0,
        })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn every_cable_is_cut_once_from_one_reel(pieces in pieces(40, 140), stock in stock()) {
        let plan = assign(&pieces, &stock, Look::Long);
        prop_assert_eq!(fault(&pieces, &stock, &plan), None);
        prop_assert!(plan.fewest_possible <= plan.new_reels);
        let pull_of = |piece: &usize| pieces[*piece].pull;
        let drawn = plan.reels.iter().map(|reel| reel.pieces.iter().map(pull_of).collect());
        prop_assert_eq!(plan.set_ups, set_ups(&drawn.collect::<Vec<Vec<u32>>>()));
    }

    #[test]
    fn small_lists_get_the_best_there_is(pieces in pieces(8, 60), stock in stock()) {
        let plan = assign(&pieces, &stock, Look::Long);
        let (new_reels, set_ups, remainder) = best(&pieces, &kept_apart(&pieces, &plan), &stock);
        prop_assert!(plan.is_proved());
        prop_assert_eq!(plan.new_reels, new_reels);
        prop_assert_eq!(plan.set_ups, set_ups);
        prop_assert_eq!(plan.largest_remainder().0, remainder);
    }

    #[test]
    fn only_a_group_larger_than_the_reels_is_measured_first(
        pieces in pieces(8, 60),
        stock in stock(),
    ) {
        let plan = assign(&pieces, &stock, Look::Long);
        let loose = vec![None; pieces.len()];
        let (by_length, ..) = best(&pieces, &loose, &stock);
        for problem in &plan.problems {
            if let ReelProblem::GroupTooLarge { group, cables, reels, measured_first } = problem {
                let members = pieces.iter().filter(|piece| piece.pull == *group);
                prop_assert_eq!(members.count(), *cables);
                prop_assert_eq!(cables - reels, measured_first.len());
                prop_assert!(*reels <= by_length + stock.part_reels.len());
                prop_assert!(*reels >= by_length);
            }
        }
    }

    #[test]
    fn a_longer_part_reel_never_costs_a_new_one(pieces in pieces(7, 60), stock in stock()) {
        let loose: Vec<Piece> =
            pieces.iter().enumerate().map(|(at, piece)| Piece { pull: at as u32, ..*piece }).collect();
        let before = assign(&loose, &stock, Look::Long);
        let mut richer = stock.clone();
        richer.part_reels.push(Mm(80));
        prop_assert!(assign(&loose, &richer, Look::Long).new_reels <= before.new_reels);
    }
}
