//! Reels: how often the fewest new reels are proved, and how long that takes.

use std::hint::black_box;

use borewright_core::schedule::reels::{Look, Piece, ReelPlan, Stock, assign};
use borewright_core::units::Mm;

use crate::figure;

/// Prints the section.
pub fn print() {
    let houses: Vec<(Vec<Piece>, Stock)> = (0..1_000).map(house).collect();
    let how = "1,000 houses of 20, 40 or 60 drops of 20 to 200 ft in pull groups of 1 to 4, \
               0 to 3 part reels, new reels of 1,000 ft, 500 ft or 305 m";
    for (name, look) in [("brief", Look::Brief), ("long", Look::Long)] {
        let plan = |(pieces, stock): &(Vec<Piece>, Stock)| assign(pieces, stock, look);
        let plans: Vec<ReelPlan> = houses.iter().map(plan).collect();
        figure::print(
            &format!("reels proved fewest, houses, {name}"),
            share(&plans),
            "%",
            "99",
            how,
        );
    }

    let triplets: Vec<Vec<Piece>> = (0..100).map(triplets).collect();
    let stock = Stock {
        part_reels: Vec::new(),
        new_reel: Mm(1_000),
        on_hand: 0,
    };
    let how = "100 lists made by Falkenauer's rule, t60: 60 items on 20 reels without waste";
    let plans: Vec<ReelPlan> = triplets
        .iter()
        .map(|pieces| assign(pieces, &stock, Look::Long))
        .collect();
    figure::print(
        "reels proved fewest, triplets",
        share(&plans),
        "%",
        "95",
        how,
    );

    print_times(&houses, &triplets, &stock);
}

fn print_times(houses: &[(Vec<Piece>, Stock)], triplets: &[Vec<Piece>], stock: &Stock) {
    figure::print_time("reels of 100 houses", "-", "median of 9", || {
        for (pieces, stock) in houses.iter().take(100) {
            black_box(assign(black_box(pieces), stock, Look::Long));
        }
    });
    figure::print_time("reels of 10 triplets", "-", "median of 9", || {
        for pieces in triplets.iter().take(10) {
            black_box(assign(black_box(pieces), stock, Look::Long));
        }
    });
}

fn share(plans: &[ReelPlan]) -> f64 {
    let proved = plans.iter().filter(|plan| plan.is_proved()).count();
    100.0 * proved as f64 / plans.len() as f64
}

fn house(number: u64) -> (Vec<Piece>, Stock) {
    let mut chance = Chance(number);
    let drops = [20, 40, 60][chance.below(3) as usize];
    let mut pieces = Vec::new();
    let mut group = 0;
    while pieces.len() < drops {
        group += 1;
        for _ in 0..=chance.below(4) {
            let length = Mm::feet(f64::from(20 + chance.below(181)));
            pieces.push(Piece {
                length,
                pull: group,
            });
        }
    }
    pieces.truncate(drops);
    let new_reel = [Mm::feet(1_000.0), Mm::feet(500.0), Mm(305_000)][chance.below(3) as usize];
    let parts = chance.below(4);
    let part_reels = (0..parts)
        .map(|_| Mm::feet(f64::from(20 + chance.below(400))))
        .collect();
    (
        pieces,
        Stock {
            part_reels,
            new_reel,
            on_hand: 0,
        },
    )
}

/// E. Falkenauer, "A hybrid grouping genetic algorithm for bin packing", Journal of Heuristics 2
/// (1996), 5-30, class t60, from memory: of each thousand 380 to 490, then 250 to half of the rest,
/// then the rest.
fn triplets(number: u64) -> Vec<Piece> {
    let mut chance = Chance(number + 10_000);
    let mut pieces = Vec::new();
    for _ in 0..20 {
        let first = 380 + chance.below(111) as i32;
        let most = (1_000 - first) / 2;
        let second = 250 + chance.below((most - 250 + 1) as u32) as i32;
        pieces.extend([first, second, 1_000 - first - second].map(Mm));
    }
    let piece = |(at, length)| Piece {
        length,
        pull: at as u32,
    };
    pieces.into_iter().enumerate().map(piece).collect()
}

/// `SplitMix64`, from memory.
struct Chance(u64);

impl Chance {
    fn below(&mut self, count: u32) -> u32 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((bits ^ (bits >> 31)) % u64::from(count)) as u32
    }
}
