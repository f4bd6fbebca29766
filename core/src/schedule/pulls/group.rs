//! Boxes into pulls: from the farthest box on, each pull takes along what shares most of its trunk; then
//! pulls that lie beside each other are put together anew as long as less trunk is walked.
//!
//! It knows no house and no reel by name.

use std::cmp::Reverse;
use std::collections::BTreeSet;

use super::exact::{Score, best};
use super::field::{Field, Load, Stop, merged};

/// The most boxes of a trunk, and of pulls beside each other, that are tried in all ways.
#[derive(Clone, Copy, Debug)]
pub(super) struct Few {
    pub trunk: usize,
    pub beside: usize,
}

impl Few {
    /// What a frame of a drag has time for.
    pub const USUAL: Self = Self {
        trunk: 10,
        beside: 8,
    };
}

/// Which other pulls a pull is put together anew with, those first that are worth it most.
type Order = fn(&[Load<'_>], usize) -> Vec<usize>;

/// How often all pulls are gone through for better ones.
const PASSES: usize = 6;
/// Exchanges of boxes that are tried in all, for a trunk.
const EXCHANGES: usize = 20_000;

/// The pulls in the order of pulling: trunk after trunk, within one the farthest box first. Every stop is
/// in one of them; those of one pull share a stretch of trunk.
pub(super) fn group(field: &Field, stops: &[Stop], few: Few) -> Vec<Vec<usize>> {
    let (field, stops) = &merged(field, stops);
    let farthest_first = |stop: &usize| (Reverse(stops[*stop].far), *stop);
    let mut trunks = trunks(field, stops);
    trunks
        .iter_mut()
        .for_each(|trunk| trunk.sort_by_key(farthest_first));
    trunks.sort_by_key(|trunk| trunk.first().map(farthest_first));
    let mut ordered = Vec::new();
    for trunk in trunks {
        let mut pulls = on_trunk(field, stops, &trunk, few);
        pulls
            .iter_mut()
            .for_each(|pull| pull.sort_by_key(farthest_first));
        pulls.sort_by_key(|pull| pull.first().map(farthest_first));
        ordered.extend(pulls);
    }
    ordered
}

/// Stops that hang together by stretches they share.
fn trunks(field: &Field, stops: &[Stop]) -> Vec<Vec<usize>> {
    // Each stop points to one before it on the same trunk, or to itself.
    let mut before: Vec<usize> = (0..stops.len()).collect();
    let mut first: Vec<Option<usize>> = vec![None; field.lengths.len()];
    for (place, stop) in stops.iter().enumerate() {
        for &stretch in &stop.stretches {
            let other = *first[stretch].get_or_insert(place);
            let (a, b) = (root(&before, place), root(&before, other));
            before[a.max(b)] = a.min(b);
        }
    }
    let mut trunks: Vec<Vec<usize>> = vec![Vec::new(); stops.len()];
    (0..stops.len()).for_each(|stop| trunks[root(&before, stop)].push(stop));
    trunks.retain(|trunk| !trunk.is_empty());
    trunks
}

fn root(before: &[usize], mut place: usize) -> usize {
    while before[place] != place {
        place = before[place];
    }
    place
}

fn on_trunk(field: &Field, stops: &[Stop], trunk: &[usize], few: Few) -> Vec<Vec<usize>> {
    let mut loads = farthest_first(field, stops, trunk);
    if loads.len() < 2 {
        // Nothing is less than one pull.
        return loads.into_iter().map(|load| load.on_it).collect();
    }
    if trunk.len() <= few.trunk {
        return best(field, stops, trunk).1;
    }
    let mut exchanges = EXCHANGES;
    let mut tried = BTreeSet::new();
    for _ in 0..PASSES {
        let mut anew = |order| put_anew(&mut loads, (field, stops), few, order, &mut tried);
        let (by_share, by_place) = (anew(by_share), anew(by_place));
        let exchanged = exchange(&mut loads, &mut exchanges, few);
        if !by_share && !by_place && !exchanged {
            break;
        }
    }
    loads.into_iter().map(|load| load.on_it).collect()
}

/// Pull after pull, each begun by the farthest box left, and taking along what shares most of its trunk.
fn farthest_first<'f>(field: &'f Field, stops: &'f [Stop], trunk: &[usize]) -> Vec<Load<'f>> {
    let mut left = trunk.to_vec();
    let mut loads = Vec::new();
    while let Some(first) = left.first().copied() {
        let mut load = Load::of(field, stops, &[first]);
        left.remove(0);
        loop {
            let taken = (0..left.len()).filter(|at| load.takes(left[*at]));
            let most = taken.max_by_key(|at| (load.shared(left[*at]), Reverse(*at)));
            let Some(most) = most else { break };
            load.add(left.remove(most));
        }
        loads.push(load);
    }
    loads
}

fn score<'f>(loads: impl Iterator<Item = &'f Load<'f>>) -> Score {
    let walked = loads.map(|load| (load.walked, usize::from(!load.on_it.is_empty())));
    walked.fold((0, 0), |sum, load| (sum.0 + load.0, sum.1 + load.1))
}

/// Puts each pull together anew with some others, in the order in which they are worth it, by trying all.
/// Says whether anything became better.
fn put_anew<'f>(
    loads: &mut Vec<Load<'f>>,
    (field, stops): (&'f Field, &'f [Stop]),
    few: Few,
    order: Order,
    tried: &mut BTreeSet<Vec<usize>>,
) -> bool {
    let mut better = false;
    let mut place = 0;
    while place < loads.len() {
        let those = beside(loads, place, few, order(loads, place));
        let before = score(those.iter().map(|at| &loads[*at]));
        let mut among: Vec<usize> = those
            .iter()
            .flat_map(|at| loads[*at].on_it.clone())
            .collect();
        among.sort_by_key(|stop| (Reverse(stops[*stop].far), *stop));
        // The same boxes once more cannot come out better.
        if those.len() > 1 && tried.insert(among.clone()) {
            let (after, pulls) = best(field, stops, &among);
            if after < before {
                better = true;
                let mut made = pulls.iter().map(|pull| Load::of(field, stops, pull));
                for at in those {
                    loads[at] = made.next().unwrap_or_else(|| Load::new(field, stops));
                }
                loads.extend(made);
                loads.retain(|load| !load.on_it.is_empty());
            }
        }
        place += 1;
    }
    better
}

/// The other pulls, those first that share most trunk with this one.
fn by_share(loads: &[Load<'_>], place: usize) -> Vec<usize> {
    let mut others = by_place(loads, place);
    others.sort_by_cached_key(|other| Reverse(loads[place].shared_with(&loads[*other])));
    others
}

/// The other pulls from this one on, and round.
fn by_place(loads: &[Load<'_>], place: usize) -> Vec<usize> {
    (place + 1..loads.len()).chain(0..place).collect()
}

/// A pull and the first of others, as many as can be tried in all ways.
fn beside(loads: &[Load<'_>], place: usize, few: Few, others: Vec<usize>) -> Vec<usize> {
    let mut those = vec![place];
    let mut count = loads[place].on_it.len();
    for other in others {
        let more = loads[other].on_it.len();
        if count + more <= few.beside {
            count += more;
            those.push(other);
        }
    }
    those
}

/// Gives single boxes to other pulls, or two to one another, where that is better: for pulls of more boxes
/// than can be tried in all ways. Says whether anything became better.
fn exchange(loads: &mut Vec<Load<'_>>, left: &mut usize, few: Few) -> bool {
    let mut better = false;
    for one in 0..loads.len() {
        for other in (0..loads.len()).filter(|other| *other != one) {
            let mine = loads[one].on_it.clone();
            if mine.len() + loads[other].on_it.len() <= few.beside {
                continue;
            }
            for stop in mine {
                let theirs: Vec<usize> = loads[other].on_it.clone();
                let offers = std::iter::once(None).chain(theirs.into_iter().map(Some));
                for offer in offers {
                    if *left == 0 {
                        loads.retain(|load| !load.on_it.is_empty());
                        return better;
                    }
                    *left -= 1;
                    if give(loads, (one, stop), (other, offer)) {
                        better = true;
                        break;
                    }
                }
            }
        }
    }
    loads.retain(|load| !load.on_it.is_empty());
    better
}

/// Gives a stop for another or for nothing, if both pulls may take what they get and it is better.
fn give(
    loads: &mut [Load<'_>],
    (one, stop): (usize, usize),
    (other, offer): (usize, Option<usize>),
) -> bool {
    let before = score([&loads[one], &loads[other]].into_iter());
    loads[one].remove(stop);
    offer
        .into_iter()
        .for_each(|offer| loads[other].remove(offer));
    let takes = loads[other].takes(stop) && offer.is_none_or(|offer| loads[one].takes(offer));
    if takes {
        loads[other].add(stop);
        offer.into_iter().for_each(|offer| loads[one].add(offer));
        if score([&loads[one], &loads[other]].into_iter()) < before {
            return true;
        }
        loads[other].remove(stop);
        offer.into_iter().for_each(|offer| loads[one].remove(offer));
    }
    loads[one].add(stop);
    offer.into_iter().for_each(|offer| loads[other].add(offer));
    false
}
