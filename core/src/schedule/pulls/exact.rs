//! The best pulls of a few boxes, by trying all.

use super::field::{Field, Load, Stop};

/// How good some pulls are, less being better: the trunk walked in millimetres, then their number.
pub(super) type Score = (u64, usize);

/// The best pulls of these stops, which are few, each a list of stops in the order given: their number
/// stands in the exponent of the work.
pub(super) fn best(field: &Field, stops: &[Stop], among: &[usize]) -> (Score, Vec<Vec<usize>>) {
    let choices = choices(field, stops, among);
    let all = (1_usize << among.len()) - 1;
    // For each set of stops its best score, and the pull that holds the first of them.
    let mut known: Vec<(Score, usize)> = vec![((0, 0), 0); all + 1];
    for set in 1..=all {
        let first = set.trailing_zeros() as usize;
        let fitting = choices[first].iter().filter(|(pull, _)| pull & !set == 0);
        let scores = fitting.map(|&(pull, walked)| {
            let (rest, count) = known[set & !pull].0;
            ((rest + walked, count + 1), pull)
        });
        known[set] = scores.min_by_key(|(score, _)| *score).unwrap_or_default();
    }
    let mut pulls = Vec::new();
    let mut rest = all;
    while rest != 0 {
        let pull = known[rest].1;
        let on_it = (0..among.len()).filter(|at| pull & (1 << at) != 0);
        pulls.push(on_it.map(|at| among[at]).collect());
        rest &= !pull;
    }
    (known[all].0, pulls)
}

/// Every lawful pull by its first stop: which stops, as bits, and the trunk walked for it.
fn choices(field: &Field, stops: &[Stop], among: &[usize]) -> Vec<Vec<(usize, u64)>> {
    let from = |first: usize| {
        let mut found = Vec::new();
        let mut load = Load::of(field, stops, &[among[first]]);
        widen(&mut load, among, first, 1 << first, &mut found);
        found
    };
    (0..among.len()).map(from).collect()
}

/// A pull, and every lawful one that has later stops besides.
fn widen(
    load: &mut Load<'_>,
    among: &[usize],
    last: usize,
    set: usize,
    found: &mut Vec<(usize, u64)>,
) {
    found.push((set, load.walked));
    for next in last + 1..among.len() {
        if load.takes(among[next]) {
            load.add(among[next]);
            widen(load, among, next, set | (1 << next), found);
            load.remove(among[next]);
        }
    }
}
