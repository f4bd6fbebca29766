//! Mutations: small harms to bytes, and numbers that are just beyond what is usual.

/// A sequence of numbers that looks random and is the same for the same seed (SplitMix64).
pub struct Dice(u64);

impl Dice {
    /// Begins a sequence.
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next number below `most`; 0 when there is none.
    pub fn below(&mut self, most: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((mixed ^ (mixed >> 31)) % (most.max(1) as u64)) as usize
    }

    /// One of several.
    pub fn one<'a, T>(&mut self, all: &'a [T]) -> &'a T {
        &all[self.below(all.len())]
    }
}

/// Numbers that find what was not thought of.
const NUMBERS: [&str; 14] = [
    "0",
    "-1",
    "1",
    "2147483647",
    "-2147483648",
    "4294967296",
    "9223372036854775807",
    "1e308",
    "-0.0",
    "1e-320",
    "0.5",
    "65535",
    "100000000",
    "999999",
];

/// A sample with one harm to `most`, some of them taken from another sample.
pub fn harmed(samples: &[Vec<u8>], most: usize, dice: &mut Dice) -> Vec<u8> {
    let mut bytes = dice.one(samples).clone();
    let other = dice.one(samples).clone();
    for _ in 0..=dice.below(most) {
        harm(&mut bytes, &other, dice);
    }
    bytes
}

fn harm(bytes: &mut Vec<u8>, other: &[u8], dice: &mut Dice) {
    let at = dice.below(bytes.len());
    let end = (at + 1 + dice.below(40)).min(bytes.len());
    match dice.below(8) {
        0 if at < bytes.len() => bytes[at] ^= 1 << dice.below(8),
        1 if at < bytes.len() => bytes[at] = dice.below(256) as u8,
        2 => drop(bytes.drain(at..end)),
        3 => {
            let copy = bytes[at..end].to_vec();
            bytes.splice(at..at, copy);
        }
        4 => bytes.truncate(at),
        5 => {
            let from = dice.below(other.len());
            let to = (from + dice.below(200)).min(other.len());
            bytes.splice(at..at, other[from..to].iter().copied());
        }
        _ => number(bytes, dice),
    }
}

/// Replaces one number of a text by one that is rarely thought of.
fn number(bytes: &mut Vec<u8>, dice: &mut Dice) {
    let start = dice.below(bytes.len());
    let is_part = |byte: &u8| byte.is_ascii_digit() || matches!(byte, b'-' | b'.');
    let Some(from) = bytes
        .iter()
        .skip(start)
        .position(is_part)
        .map(|at| at + start)
    else {
        return;
    };
    let length = bytes
        .iter()
        .skip(from)
        .take_while(|byte| is_part(byte))
        .count();
    let new = dice.one(&NUMBERS).bytes();
    bytes.splice(from..from + length, new);
}
