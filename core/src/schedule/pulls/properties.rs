//! What must hold of every grouping, asked of trunks made at random, and the best there is by trying all
//! divisions. The oracle shares nothing with the search.

use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;

use super::field::{Feed, Field, Stop};
use super::group::{Few, group};

/// A trunk that branches at random, with a stop at some of its places.
fn trunk(stops: std::ops::Range<usize>) -> impl Strategy<Value = (Field, Vec<Stop>)> {
    let stretches = prop::collection::vec((any::<prop::sample::Index>(), 1_u64..20), 6..14);
    let stop = (
        any::<prop::sample::Index>(),
        1_usize..4,
        any::<bool>(),
        5_u64..60,
    );
    let feed = || (prop::collection::vec(10_u64..70, 0..2), 1_usize..5);
    let made = (
        stretches,
        prop::collection::vec(stop, stops),
        feed(),
        feed(),
    );
    made.prop_map(|(stretches, stops, one, other)| {
        let feed = |(parts, at_hand)| Feed {
            parts,
            new_reel: 50,
            at_hand,
        };
        let field = Field {
            lengths: stretches.iter().map(|(_, length)| *length).collect(),
            feeds: vec![feed(one), feed(other)],
        };
        // Each stretch begins where one before it ends; the first begins at the closet.
        let path = |last: usize| {
            let mut path = vec![last];
            let mut at = last;
            while at > 0 {
                at = stretches[at].0.index(at);
                path.push(at);
            }
            path.sort_unstable();
            path
        };
        let stop = |(at, count, two_kinds, length): (prop::sample::Index, usize, bool, u64)| {
            let stretches = path(at.index(field.lengths.len()));
            let far = stretches
                .iter()
                .map(|stretch| field.lengths[*stretch])
                .sum();
            let first = field.feeds[0].parts.len() + field.feeds[0].at_hand;
            let mut cables = vec![(0, length.min(50)); count.min(first).min(2)];
            if two_kinds {
                cables.push((1, length));
            }
            if !field.feeds[0].feeds(&mut cables.iter().map(|(_, l)| *l).collect::<Vec<_>>()) {
                cables.truncate(1);
            }
            Stop {
                far,
                stretches,
                cables,
            }
        };
        let stops = stops.into_iter().map(stop).collect();
        (field, stops)
    })
}

/// Whether reels can be dealt out so that every cable has one that holds it, cable after cable.
fn dealt(lengths: &[u64], reels: &mut Vec<u64>) -> bool {
    let Some((first, rest)) = lengths.split_first() else {
        return true;
    };
    (0..reels.len()).any(|at| {
        let reel = reels[at];
        if reel < *first {
            return false;
        }
        reels.remove(at);
        let goes = dealt(rest, reels);
        reels.insert(at, reel);
        goes
    })
}

fn is_lawful(field: &Field, stops: &[Stop], pull: &[usize]) -> bool {
    let shared = stops[pull[0]].stretches.iter();
    let mut shared = shared.filter(|s| pull.iter().all(|stop| stops[*stop].stretches.contains(s)));
    let fed = field.feeds.iter().enumerate().all(|(kind, feed)| {
        let cables = pull.iter().flat_map(|stop| &stops[*stop].cables);
        let lengths = cables
            .filter(|(other, _)| *other == kind)
            .map(|(_, length)| *length);
        let mut reels = feed.parts.clone();
        reels.extend(vec![feed.new_reel; feed.at_hand]);
        // A cable that no reel holds waits for another reel.
        let held: Vec<u64> = lengths
            .filter(|l| reels.iter().any(|reel| reel >= l))
            .collect();
        dealt(&held, &mut reels)
    });
    fed && (pull.len() == 1 || shared.next().is_some())
}

fn walked(field: &Field, stops: &[Stop], pulls: &[Vec<usize>]) -> u64 {
    let of_pull = |pull: &Vec<usize>| -> u64 {
        let taken = |stretch: &usize| pull.iter().any(|s| stops[*s].stretches.contains(stretch));
        let all = (0..field.lengths.len()).filter(taken);
        all.map(|stretch| field.lengths[stretch]).sum()
    };
    pulls.iter().map(of_pull).sum()
}

/// The least trunk walked, and the fewest pulls with that, over all divisions of the stops.
fn least(field: &Field, stops: &[Stop], at: usize, pulls: &mut Vec<Vec<usize>>) -> (u64, usize) {
    if at == stops.len() {
        return (walked(field, stops, pulls), pulls.len());
    }
    let mut best = (u64::MAX, usize::MAX);
    for place in 0..pulls.len() {
        pulls[place].push(at);
        if is_lawful(field, stops, &pulls[place]) {
            best = best.min(least(field, stops, at + 1, pulls));
        }
        pulls[place].pop();
    }
    pulls.push(vec![at]);
    best = best.min(least(field, stops, at + 1, pulls));
    pulls.pop();
    best
}

fn assert_whole(field: &Field, stops: &[Stop], pulls: &[Vec<usize>]) -> Result<(), TestCaseError> {
    let mut all: Vec<usize> = pulls.iter().flatten().copied().collect();
    all.sort_unstable();
    prop_assert_eq!(all, (0..stops.len()).collect::<Vec<_>>());
    for pull in pulls {
        prop_assert!(is_lawful(field, stops, pull), "{:?}", pull);
        let far: Vec<u64> = pull.iter().map(|stop| stops[*stop].far).collect();
        prop_assert!(
            far.windows(2).all(|pair| pair[0] >= pair[1]),
            "farthest first"
        );
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    #[test]
    fn few_boxes_get_the_best_pulls_there_are((field, stops) in trunk(0..8)) {
        let pulls = group(&field, &stops, Few::USUAL);
        assert_whole(&field, &stops, &pulls)?;
        let found = (walked(&field, &stops, &pulls), pulls.len());
        prop_assert_eq!(found, least(&field, &stops, 0, &mut Vec::new()));
    }

    #[test]
    fn every_box_of_many_is_in_one_lawful_pull((field, stops) in trunk(10..60)) {
        let pulls = group(&field, &stops, Few::USUAL);
        assert_whole(&field, &stops, &pulls)?;
    }
}

/// How many feet are walked for each hundred that must be, over 25 trunks in all; so many at most in each. The
/// same trunks are drawn every time: that no trunk at all does worse is not known.
fn over_the_best(stops: usize, few: Few, most: u64) -> u64 {
    let mut chance = TestRunner::deterministic();
    let (mut found, mut best) = (0, 0);
    for _ in 0..25 {
        let drawn = trunk(stops..stops + 1).new_tree(&mut chance);
        let (field, stops) = drawn.unwrap().current();
        let pulls = group(&field, &stops, few);
        assert_whole(&field, &stops, &pulls).unwrap();
        let here = walked(&field, &stops, &pulls);
        let (there, _) = least(&field, &stops, 0, &mut Vec::new());
        assert!(100 * here <= most * there, "{here} over {there}");
        (found, best) = (found + here, best + there);
    }
    (100 * found).div_ceil(best)
}

#[test]
fn more_boxes_than_are_tried_in_all_ways_are_near_the_best() {
    let few = Few {
        trunk: 0,
        beside: 6,
    };
    assert!(over_the_best(9, few, 105) <= 102);
}

/// Pulls of many boxes, which change single boxes with one another.
#[test]
fn boxes_change_places_where_they_are_too_many_to_try() {
    let few = Few {
        trunk: 0,
        beside: 1,
    };
    assert!(over_the_best(8, few, 120) <= 105);
}
