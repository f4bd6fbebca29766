//! The grouping of before, to compare with: trunks of one kind of cable by their last bore, the longest
//! cables first, as many at once as reels can feed.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use borewright_core::design::Design;
use borewright_core::plan::{CableId, CableKindId, Plan};
use borewright_core::schedule::reels::{Look, Piece, Stock, assign, fewest_by_length};
use borewright_core::schedule::{Cut, PullTally};
use borewright_core::units::Mm;

/// What the pulls of a job would take by length.
pub fn tally(plan: &Plan, design: &Design) -> PullTally {
    let mut all = Vec::new();
    for (place, spec) in plan.catalogue.cables.iter().enumerate() {
        let kind = CableKindId(place as u16);
        let of_kind = design.cut_list.cuts.iter().filter(|cut| cut.kind == kind);
        let mut cuts: Vec<&Cut> = of_kind.collect();
        cuts.sort_by_key(|cut| cut.cable);
        let stock = Stock {
            part_reels: spec.part_reels.clone(),
            new_reel: spec.reel,
            on_hand: usize::from(spec.on_hand),
        };
        let pulls = pulls(&cuts, &stock);
        all.extend(with_reels(&cuts, &stock, &pulls, 1_000 * place));
    }
    PullTally::of(plan, &design.ways, &all)
}

/// Each pull's cables with their reels, which are numbered on from `first`.
fn with_reels(
    cuts: &[&Cut],
    stock: &Stock,
    pulls: &[Vec<usize>],
    first: usize,
) -> Vec<Vec<(CableId, Option<usize>)>> {
    let numbered = pulls.iter().zip(1..);
    let pieces = numbered.flat_map(|(pull, number)| {
        pull.iter().map(move |at| Piece {
            length: cuts[*at].length,
            pull: number,
        })
    });
    let plan = assign(&pieces.collect::<Vec<_>>(), stock, Look::Long);
    let reel_of = |piece: usize| {
        let reel = plan
            .reels
            .iter()
            .position(|reel| reel.pieces.contains(&piece));
        reel.map(|reel| first + reel)
    };
    let mut piece = 0;
    let of_pull = |pull: &Vec<usize>| {
        let mut drawn = Vec::new();
        for at in pull {
            drawn.push((cuts[*at].cable, reel_of(piece)));
            piece += 1;
        }
        drawn
    };
    pulls.iter().map(of_pull).collect()
}

/// Trunks by their longest cable, then the cables pulled alone, each longest first.
fn pulls(cuts: &[&Cut], stock: &Stock) -> Vec<Vec<usize>> {
    let pieces: Vec<Piece> = cuts.iter().map(|cut| piece(cut)).collect();
    let new_reels = fewest_by_length(&pieces, stock, Look::Long).max(stock.on_hand);
    let feeding = |length: Mm| {
        let parts = stock.part_reels.iter().filter(|part| **part >= length);
        parts.count()
            + if stock.new_reel >= length {
                new_reels
            } else {
                0
            }
    };
    let mut trunks: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    let mut alone = Vec::new();
    for (at, cut) in cuts.iter().enumerate() {
        match cut.trunk {
            Some(trunk) => trunks.entry(trunk).or_default().push(at),
            None => alone.push(at),
        }
    }
    let mut shared: Vec<Vec<usize>> = Vec::new();
    for cables in trunks.into_values() {
        match cables.len() {
            1 => alone.extend(cables),
            _ => shared.push(cables),
        }
    }
    let longest_first = |at: &usize| (Reverse(cuts[*at].length), *at);
    shared
        .iter_mut()
        .for_each(|cables| cables.sort_by_key(longest_first));
    shared.sort_by_key(|cables| cables.first().map(longest_first));
    alone.sort_by_key(longest_first);
    let mut pulls = Vec::new();
    for mut left in shared {
        while !left.is_empty() {
            let mut pull = Vec::new();
            left.retain(|at| {
                let fed = feeding(cuts[*at].length).max(1) > pull.len();
                if fed {
                    pull.push(*at);
                }
                !fed
            });
            pulls.push(pull);
        }
    }
    pulls.extend(alone.into_iter().map(|at| vec![at]));
    pulls
}

fn piece(cut: &Cut) -> Piece {
    Piece {
        length: cut.length,
        pull: 0,
    }
}
