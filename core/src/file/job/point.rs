//! A named point of a job to return to: what it was called, when, and the text of the plan then.
//!
//! Version (one byte, 1), the moment (eight bytes, milliseconds since 1970), length of the name (two), the
//! name, the text, deflated; CRC-32 of all that (four) at the end. Numbers are little-endian.

use miniz_oxide::deflate::compress_to_vec;
use miniz_oxide::inflate::decompress_to_vec_with_limit;

use super::super::LARGEST;
use crate::file::{FileError, Opened};
use crate::plan::edit::tidy_line;

use super::Drawings;

const VERSION: u8 = 1;

/// A point.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Point {
    /// What it is called: "Printed, revision 2".
    pub name: String,
    /// When it was made, milliseconds since 1970.
    pub moment: u64,
    /// The text of the plan.
    pub(super) text: Vec<u8>,
}

impl Point {
    /// The point in some bytes; `None` where they are torn or changed.
    pub fn read(bytes: &[u8]) -> Option<Self> {
        let (body, told) = bytes.split_last_chunk()?;
        (crc32fast::hash(body) == u32::from_le_bytes(*told)).then_some(())?;
        let rest = body.strip_prefix(&[VERSION])?;
        let (moment, rest) = rest.split_first_chunk()?;
        let (length, rest) = rest.split_first_chunk()?;
        let (name, packed) = rest.split_at_checked(usize::from(u16::from_le_bytes(*length)))?;
        Some(Self {
            name: tidy_line(std::str::from_utf8(name).ok()?),
            moment: u64::from_le_bytes(*moment),
            text: decompress_to_vec_with_limit(packed, LARGEST).ok()?,
        })
    }

    /// The plan at that moment, with its drawings.
    ///
    /// # Errors
    /// [`FileError`] where its text cannot be read.
    pub fn plan(&self, drawings: &Drawings) -> Result<Opened, FileError> {
        drawings.joined(&self.text)
    }

    /// The point's bytes.
    pub fn write(&self) -> Vec<u8> {
        let mut bytes = vec![VERSION];
        bytes.extend(self.moment.to_le_bytes());
        bytes.extend((self.name.len() as u16).to_le_bytes());
        bytes.extend(self.name.as_bytes());
        bytes.extend(compress_to_vec(&self.text, 6));
        let sum = crc32fast::hash(&bytes);
        bytes.extend(sum.to_le_bytes());
        bytes
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn a_point_comes_back(name in "[a-z]{1,40}", moment: u64, text: Vec<u8>) {
            let point = Point { name, moment, text };
            prop_assert_eq!(Point::read(&point.write()), Some(point));
        }

        #[test]
        fn any_bytes_are_an_answer(bytes: Vec<u8>) {
            let _ = Point::read(&bytes);
        }
    }
}
