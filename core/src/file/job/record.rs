//! One record of a journal: its head, its sum, and what it says. The format stands at the room's head.

use miniz_oxide::deflate::compress_to_vec;
use miniz_oxide::inflate::decompress_to_vec_with_limit;

use super::super::LARGEST;

const LETTER: u8 = b'J';
const VERSION: u8 = 1;
const HEAD: usize = 16;

/// How hard a whole text is packed: small, and quick enough for the moment of an edit.
const PACKING: u8 = 5;

/// The longest words of a change, bytes.
const LONGEST_WORDS: usize = 1000;

/// What a record says.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Record {
    /// The whole text.
    Whole(Vec<u8>),
    /// A step from one text to the next.
    Step(Step),
}

/// A step from one text to the next.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Step {
    /// Which way.
    pub way: Way,
    /// What the change was: "moved D16".
    pub words: String,
    /// CRC-32 of the text before and of the text after.
    pub sums: (u32, u32),
    /// What is another.
    pub delta: Vec<u8>,
}

/// Which way a step goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Way {
    /// A change.
    Did,
    /// A change taken back.
    Undid,
    /// A change that was taken back, made again.
    Redid,
}

impl Record {
    /// The record's bytes.
    pub fn encoded(&self, number: u32) -> Vec<u8> {
        let (kind, body) = match self {
            Self::Whole(text) => (1, compress_to_vec(text, PACKING)),
            Self::Step(step) => (step.way.kind(), step.encoded()),
        };
        let mut bytes = vec![LETTER, VERSION, kind, 0];
        bytes.extend(number.to_le_bytes());
        bytes.extend((body.len() as u32).to_le_bytes());
        bytes.extend(sum(&bytes, &body).to_le_bytes());
        bytes.extend(body);
        bytes
    }

    /// A record with its number, from the beginning of some bytes; `None` where they are torn, changed
    /// or a stranger's.
    pub fn decoded(bytes: &[u8]) -> Option<(u32, Self)> {
        let (head, rest) = bytes.split_first_chunk::<HEAD>()?;
        let number = |at: usize| -> Option<u32> {
            let four = head.get(at..at + 4)?;
            Some(u32::from_le_bytes(four.try_into().ok()?))
        };
        let body = rest.get(..number(8)? as usize)?;
        let is_ours = head.starts_with(&[LETTER, VERSION]);
        (is_ours && sum(head.get(..12)?, body) == number(12)?).then_some(())?;
        let record = match head[2] {
            1 => Self::Whole(decompress_to_vec_with_limit(body, LARGEST).ok()?),
            2 => Self::Step(Step::decoded(Way::Did, body)?),
            3 => Self::Step(Step::decoded(Way::Undid, body)?),
            4 => Self::Step(Step::decoded(Way::Redid, body)?),
            _ => return None,
        };
        Some((number(4)?, record))
    }
}

impl Way {
    fn kind(self) -> u8 {
        match self {
            Self::Did => 2,
            Self::Undid => 3,
            Self::Redid => 4,
        }
    }
}

impl Step {
    fn encoded(&self) -> Vec<u8> {
        let words = &self.words.as_bytes()[..self.words.floor_char_boundary(LONGEST_WORDS)];
        let mut bytes = (words.len() as u16).to_le_bytes().to_vec();
        bytes.extend(words);
        bytes.extend(self.sums.0.to_le_bytes());
        bytes.extend(self.sums.1.to_le_bytes());
        bytes.extend(&self.delta);
        bytes
    }

    fn decoded(way: Way, bytes: &[u8]) -> Option<Self> {
        let (length, rest) = bytes.split_first_chunk()?;
        let (words, rest) = rest.split_at_checked(usize::from(u16::from_le_bytes(*length)))?;
        let (before, rest) = rest.split_first_chunk()?;
        let (after, delta) = rest.split_first_chunk()?;
        Some(Self {
            way,
            words: std::str::from_utf8(words).ok()?.to_string(),
            sums: (u32::from_le_bytes(*before), u32::from_le_bytes(*after)),
            delta: delta.to_vec(),
        })
    }
}

fn sum(head: &[u8], body: &[u8]) -> u32 {
    let mut sum = crc32fast::Hasher::new();
    sum.update(head);
    sum.update(body);
    sum.finalize()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn any_record() -> impl Strategy<Value = Record> {
        let way = prop::sample::select(vec![Way::Did, Way::Undid, Way::Redid]);
        prop_oneof![
            any::<Vec<u8>>().prop_map(Record::Whole),
            (way, ".{0,40}", any::<(u32, u32)>(), any::<Vec<u8>>()).prop_map(
                |(way, words, sums, delta)| Record::Step(Step {
                    way,
                    words,
                    sums,
                    delta
                })
            ),
        ]
    }

    proptest! {
        #[test]
        fn a_record_comes_back(number: u32, record in any_record()) {
            prop_assert_eq!(Record::decoded(&record.encoded(number)), Some((number, record)));
        }

        #[test]
        fn a_torn_or_changed_record_is_none(record in any_record(), at: prop::sample::Index, bit in 0_u32..8) {
            let mut bytes = record.encoded(7);
            prop_assert_eq!(Record::decoded(&bytes[..at.index(bytes.len())]), None);
            let place = at.index(bytes.len());
            bytes[place] ^= 1_u8 << bit;
            prop_assert_eq!(Record::decoded(&bytes), None);
        }

        #[test]
        fn any_bytes_are_an_answer(bytes: Vec<u8>) {
            let _ = Record::decoded(&bytes);
        }
    }
}
