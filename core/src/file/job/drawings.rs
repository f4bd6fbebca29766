//! The drawings of a job, apart from its text, each under the digest of its bytes.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::sync::Arc;

use sha2::{Digest as _, Sha256};

use crate::file::{self, FileError, Opened};
use crate::plan::{Plan, Scan};

/// The SHA-256 digest of a drawing's bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Digest([u8; 32]);

impl Digest {
    /// The digest of some bytes.
    pub fn of(bytes: &[u8]) -> Self {
        Self(Sha256::digest(bytes).into())
    }

    /// The digest that 64 figures of base sixteen spell; `None` for any other text.
    pub fn spelled(text: &str) -> Option<Self> {
        let mut digest = [0; 32];
        (text.len() == 64 && text.is_ascii()).then_some(())?;
        for (place, byte) in digest.iter_mut().enumerate() {
            let figures = text.get(2 * place..2 * place + 2)?;
            *byte = u8::from_str_radix(figures, 16).ok()?;
        }
        Some(Self(digest))
    }
}

impl fmt::Display for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

/// The drawings of one job by their digests, and which of them the device has.
#[derive(Clone, Debug, Default)]
pub struct Drawings {
    known: BTreeMap<Digest, Arc<Scan>>,
    stored: BTreeSet<Digest>,
}

impl Drawings {
    /// Drawings as a device has them: each under its digest as text. What cannot be read is left out,
    /// and a plan that wants it says so.
    pub fn read(stored: impl IntoIterator<Item = (String, Vec<u8>)>) -> Self {
        let mut drawings = Self::default();
        for (name, bytes) in stored {
            let found = Digest::spelled(&name).zip(decoded(&bytes));
            let Some((digest, scan)) = found else {
                continue;
            };
            drawings.known.insert(digest, Arc::new(scan));
            drawings.stored.insert(digest);
        }
        drawings
    }

    /// The text of a plan; its drawings are among these from then on.
    pub(super) fn text_of(&mut self, plan: &Plan) -> Vec<u8> {
        let mut plan = plan.clone();
        for level in &mut plan.levels {
            level.sheet.scan = level.sheet.scan.take().map(|scan| {
                let Digest(digest) = self.digest_of(&scan);
                Arc::new(Scan {
                    media_type: scan.media_type.clone(),
                    bytes: digest.to_vec(),
                    ..*scan
                })
            });
        }
        file::write(&plan)
    }

    /// The plan of a text, with its drawings.
    pub(super) fn joined(&self, text: &[u8]) -> Result<Opened, FileError> {
        let mut opened = file::read(text)?;
        for level in &mut opened.plan.levels {
            let Some(thin) = level.sheet.scan.take() else {
                continue;
            };
            let digest: Option<[u8; 32]> = thin.bytes.as_slice().try_into().ok();
            level.sheet.scan = digest
                .and_then(|digest| self.known.get(&Digest(digest)))
                .cloned();
            if level.sheet.scan.is_none() {
                let name = &level.name;
                let loss = format!("The drawing under {name} is not on this device any more.");
                opened.losses.push(loss);
            }
        }
        Ok(opened)
    }

    /// Drawings that the device does not have yet, as it is to have them; from then on it counts as
    /// having them.
    pub(super) fn fresh(&mut self) -> Vec<(Digest, Vec<u8>)> {
        let fresh = self.known.iter().filter(|(d, _)| !self.stored.contains(d));
        let fresh: Vec<_> = fresh.map(|(d, scan)| (*d, encoded(scan))).collect();
        self.stored.extend(fresh.iter().map(|(digest, _)| *digest));
        fresh
    }

    /// The device may have none of them.
    pub(super) fn forget_stored(&mut self) {
        self.stored.clear();
    }

    /// A drawing is known by what it is held by, so that its bytes are read once.
    fn digest_of(&mut self, scan: &Arc<Scan>) -> Digest {
        let same = self
            .known
            .iter()
            .find(|(_, known)| Arc::ptr_eq(known, scan));
        if let Some((digest, _)) = same {
            return *digest;
        }
        let digest = Digest::of(&scan.bytes);
        self.known.insert(digest, Arc::clone(scan));
        digest
    }
}

/// Width, height, length of the media type, the media type, the bytes.
fn encoded(scan: &Scan) -> Vec<u8> {
    let kind = scan.media_type.as_bytes();
    let mut bytes = Vec::with_capacity(scan.bytes.len() + kind.len() + 10);
    bytes.extend(scan.width.to_le_bytes());
    bytes.extend(scan.height.to_le_bytes());
    bytes.extend((kind.len() as u16).to_le_bytes());
    bytes.extend(kind);
    bytes.extend(&scan.bytes);
    bytes
}

fn decoded(bytes: &[u8]) -> Option<Scan> {
    let (width, rest) = bytes.split_first_chunk()?;
    let (height, rest) = rest.split_first_chunk()?;
    let (length, rest) = rest.split_first_chunk()?;
    let (kind, rest) = rest.split_at_checked(usize::from(u16::from_le_bytes(*length)))?;
    Some(Scan {
        media_type: String::from_utf8(kind.to_vec()).ok()?,
        width: u32::from_le_bytes(*width),
        height: u32::from_le_bytes(*height),
        bytes: rest.to_vec(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn any_bytes_are_a_drawing_or_none(name in "[0-9a-g]{0,66}", bytes: Vec<u8>) {
            Drawings::read([(name, bytes)]);
        }

        #[test]
        fn a_digest_is_spelled_both_ways(bytes: Vec<u8>) {
            let digest = Digest::of(&bytes);
            prop_assert_eq!(Digest::spelled(&digest.to_string()), Some(digest));
        }
    }

    #[test]
    fn a_digest_is_the_published_one() {
        // FIPS 180-4, example of the message "abc".
        let known = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(Digest::of(b"abc").to_string(), known);
    }
}
