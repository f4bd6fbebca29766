//! What the builder or the owner sent back: which items they agreed to and which they ask about.

use sha2::{Digest as _, Sha256};

use super::{DropId, LevelId, WallId};

/// What can be agreed to, one by one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Item {
    /// A drop: what it is, where, how high, its box and its cables.
    Drop(DropId),
    /// The holes in a bearing or outside wall.
    Wall(WallId),
    /// The holes in the joists over a level.
    Joists(LevelId),
    /// The closet and what it needs.
    Closet,
    /// The date on the sheets, and when each part of the job is due.
    Date,
    /// What the job is called and the note to it.
    Job,
}

/// What stands for something shown, so that it can be told from anything else.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Digest {
    /// CRC-32 of figures without their words, as replies carried it before. It says nothing of notes
    /// and names, and another thing with the same one is easily made: nothing is known by it.
    Earlier(u32),
    /// The first half of a SHA-256 (FIPS 180-4, section 6.2, from memory): two things with the same one
    /// take some 2^64 tries to make.
    Shown([u8; 16]),
}

/// Letters of a code that is read out and typed: no vowels, so that it makes no words, and none that
/// is taken for a figure.
const LETTERS: [char; 20] = [
    'B', 'C', 'D', 'F', 'G', 'H', 'J', 'K', 'L', 'M', 'N', 'P', 'Q', 'R', 'S', 'T', 'V', 'W', 'X',
    'Z',
];

/// Letters in a code: 51 bits.
const CODE: usize = 12;

impl Digest {
    /// Of these bytes.
    pub fn of(bytes: &[u8]) -> Self {
        Self::ended(Sha256::new_with_prefix(bytes))
    }

    /// Of all that was put in.
    pub(crate) fn ended(all: Sha256) -> Self {
        let mut half = [0; 16];
        half.iter_mut()
            .zip(all.finalize())
            .for_each(|(to, from)| *to = from);
        Self::Shown(half)
    }

    /// A code of twelve letters in groups of four, to compare by eye or by telephone; `None` for one of
    /// before.
    pub fn code(&self) -> Option<String> {
        let Self::Shown(bytes) = self else {
            return None;
        };
        let mut rest = u128::from_be_bytes(*bytes);
        let mut code = String::new();
        for place in 0..CODE {
            if place > 0 && place % 4 == 0 {
                code.push('-');
            }
            let letter = LETTERS.get((rest % LETTERS.len() as u128) as usize);
            code.extend(letter);
            rest /= LETTERS.len() as u128;
        }
        Some(code)
    }
}

/// What a person said of an item.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Said {
    /// It may be built so.
    Agreed,
    /// A question or a wish; not empty.
    Asked(String),
}

/// What a person said of an item as it stood.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answer {
    /// The item.
    pub item: Item,
    /// A digest of all that the item said when it was answered. An item that says anything else now
    /// is not yet agreed.
    pub digest: Digest,
    /// What was said.
    pub said: Said,
}

/// One reply, signed with a name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reply {
    /// Who sent it, as they typed it; not empty.
    pub name: String,
    /// The date of their device when they sent it, as text; may be empty.
    pub date: String,
    /// The revision they looked at.
    pub revision: u32,
    /// What the job was called that they looked at; empty in replies of before.
    pub job: String,
    /// Of the whole plan they looked at, as it was shown to them.
    pub version: Digest,
    /// What they said, at most once for each item.
    pub answers: Vec<Answer>,
}

#[cfg(test)]
mod tests {
    use super::*;

    /// From the example of FIPS 180-4 for "abc": ba7816bf 8f01cfea 414140de 5dae2223.
    #[test]
    fn a_digest_is_the_first_half_of_a_sha_256() {
        let half = [
            0xba, 0x78, 0x16, 0xbf, 0x8f, 0x01, 0xcf, 0xea, 0x41, 0x41, 0x40, 0xde, 0x5d, 0xae,
            0x22, 0x23,
        ];
        assert_eq!(Digest::of(b"abc"), Digest::Shown(half));
        assert_eq!(Digest::of(b"abc").code().as_deref(), Some("PJJW-HVCG-HLWG"));
        assert_eq!(Digest::Earlier(7).code(), None);
    }
}
