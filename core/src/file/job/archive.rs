//! All jobs of a device in one file, and back.
//!
//! The letters `borewright jobs`, one byte of version, 1, then blocks until the end: length of the name
//! (two bytes), length of the bytes (four), CRC-32 of name and bytes (four), the name, the bytes. Numbers are
//! little-endian. A name says what a device keeps under it: `jobs/` and a job, `journal/` or `drawings/` and
//! a job and what of it. Reading is total: what is torn off or changed is counted, the rest is kept.

const HEAD: &[u8] = b"borewright jobs\x01";

/// The largest archive that is read: 1 GB.
const LARGEST: usize = 1 << 30;

/// What an archive holds.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Archive {
    /// Bytes, each under its name.
    pub blocks: Vec<(String, Vec<u8>)>,
    /// Something was torn off or changed and is not among them.
    pub damaged: bool,
}

impl Archive {
    /// Whether bytes are an archive, whole or not.
    pub fn is_one(bytes: &[u8]) -> bool {
        bytes.starts_with(HEAD)
    }

    /// The archive in some bytes; `None` where they are something else, or over 1 GB.
    pub fn read(bytes: &[u8]) -> Option<Self> {
        let mut rest = bytes.strip_prefix(HEAD)?;
        (bytes.len() <= LARGEST).then_some(())?;
        let mut archive = Self::default();
        while !rest.is_empty() {
            let Some((block, after)) = block(rest) else {
                archive.damaged = true;
                break;
            };
            match block {
                Some(block) => archive.blocks.push(block),
                None => archive.damaged = true,
            }
            rest = after;
        }
        Some(archive)
    }

    /// The archive's bytes.
    pub fn write(blocks: &[(String, Vec<u8>)]) -> Vec<u8> {
        let size: usize = blocks.iter().map(|(n, b)| n.len() + b.len() + 10).sum();
        let mut bytes = Vec::with_capacity(HEAD.len() + size);
        bytes.extend(HEAD);
        for (name, content) in blocks {
            bytes.extend((name.len() as u16).to_le_bytes());
            bytes.extend((content.len() as u32).to_le_bytes());
            bytes.extend(sum(name.as_bytes(), content).to_le_bytes());
            bytes.extend(name.as_bytes());
            bytes.extend(content);
        }
        bytes
    }
}

type Named = (String, Vec<u8>);

/// A block, or nothing for one that was changed, with what follows it; `None` where it is torn off.
fn block(bytes: &[u8]) -> Option<(Option<Named>, &[u8])> {
    let (name, rest) = bytes.split_first_chunk()?;
    let (content, rest) = rest.split_first_chunk()?;
    let (told, rest) = rest.split_first_chunk()?;
    let (name, rest) = rest.split_at_checked(usize::from(u16::from_le_bytes(*name)))?;
    let (content, rest) = rest.split_at_checked(u32::from_le_bytes(*content) as usize)?;
    let sound = sum(name, content) == u32::from_le_bytes(*told);
    let text = std::str::from_utf8(name).ok().filter(|_| sound);
    let named = text.map(|name| (name.to_string(), content.to_vec()));
    Some((named, rest))
}

fn sum(name: &[u8], content: &[u8]) -> u32 {
    let mut sum = crc32fast::Hasher::new();
    sum.update(name);
    sum.update(content);
    sum.finalize()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn blocks() -> impl Strategy<Value = Vec<Named>> {
        prop::collection::vec(("[a-z/0-9]{1,20}", any::<Vec<u8>>()), 0..8)
    }

    proptest! {
        #[test]
        fn an_archive_comes_back(blocks in blocks()) {
            let archive = Archive::read(&Archive::write(&blocks)).unwrap();
            prop_assert_eq!(archive, Archive { blocks, damaged: false });
        }

        #[test]
        fn a_torn_archive_keeps_its_head(blocks in blocks(), cut: prop::sample::Index) {
            let bytes = Archive::write(&blocks);
            let kept = HEAD.len() + cut.index(bytes.len() - HEAD.len() + 1);
            let archive = Archive::read(&bytes[..kept]).unwrap();
            prop_assert!(blocks.starts_with(&archive.blocks));
            let whole = archive.blocks.len() == blocks.len();
            prop_assert!(archive.damaged || Archive::write(&archive.blocks).len() == kept);
            prop_assert!(!whole || !archive.damaged);
        }

        #[test]
        fn a_changed_block_costs_itself(blocks in blocks(), at: prop::sample::Index) {
            let mut bytes = Archive::write(&blocks);
            let place = HEAD.len() + 10;
            if bytes.len() > place + 30 {
                let place = place + at.index(bytes.len() - place);
                bytes[place] ^= 1;
                let archive = Archive::read(&bytes).unwrap();
                prop_assert!(archive.damaged);
                prop_assert!(archive.blocks.iter().all(|block| blocks.contains(block)));
            }
        }

        #[test]
        fn any_bytes_are_an_answer(bytes: Vec<u8>) {
            let _ = Archive::read(&bytes);
            let _ = Archive::read(&[HEAD, bytes.as_slice()].concat());
        }
    }
}
