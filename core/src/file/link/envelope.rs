//! What goes around a link's contents: the version, the length and a checksum in the open, the
//! contents deflated (RFC 1951). From these a cut link is told from an altered one and from a
//! newer one before anything is unpacked.

use miniz_oxide::deflate::compress_to_vec;
use miniz_oxide::inflate::{TINFLStatus, decompress_to_vec_with_limit};

use super::LinkError;

/// What is in an envelope: the high half of its first byte, whose low half is the version.
pub(super) type Mark = u8;
/// A plan.
pub(super) const PLAN: Mark = 0xB0;
/// A reply to one.
pub(super) const REPLY: Mark = 0xC0;

/// The version that is written.
fn newest(mark: Mark) -> u8 {
    match mark {
        REPLY => 2,
        _ => 1,
    }
}

/// The most that contents may unpack to: 64 KB.
const LARGEST: usize = 64 << 10;

/// Contents in their envelope.
pub(super) fn sealed(mark: Mark, contents: &[u8]) -> Result<Vec<u8>, LinkError> {
    if contents.len() > LARGEST {
        return Err(LinkError::TooLarge);
    }
    let packed = compress_to_vec(contents, 10);
    let mut bytes = vec![mark | newest(mark)];
    // Packed contents are never longer than a little over what they were.
    bytes.extend((packed.len() as u32).to_le_bytes().iter().take(3));
    bytes.extend(crc32fast::hash(contents).to_le_bytes());
    bytes.extend(packed);
    Ok(bytes)
}

/// The version and the contents of an envelope.
pub(super) fn opened(mark: Mark, bytes: &[u8]) -> Result<(u8, Vec<u8>), LinkError> {
    let (first, rest) = bytes.split_first().ok_or(LinkError::Cut)?;
    if first & 0xF0 != mark {
        return Err(LinkError::NotALink);
    }
    let version = first & 0x0F;
    if version > newest(mark) {
        return Err(LinkError::TooNew);
    }
    let (length, rest) = rest.split_first_chunk::<3>().ok_or(LinkError::Cut)?;
    let (sum, packed) = rest.split_first_chunk::<4>().ok_or(LinkError::Cut)?;
    let length = u32::from_le_bytes([length[0], length[1], length[2], 0]) as usize;
    match packed.len().cmp(&length) {
        std::cmp::Ordering::Less => return Err(LinkError::Cut),
        std::cmp::Ordering::Greater => return Err(LinkError::Altered),
        std::cmp::Ordering::Equal => {}
    }
    let contents =
        decompress_to_vec_with_limit(packed, LARGEST).map_err(|error| match error.status {
            TINFLStatus::HasMoreOutput => LinkError::TooLarge,
            _ => LinkError::Altered,
        })?;
    match crc32fast::hash(&contents) == u32::from_le_bytes(*sum) {
        true => Ok((version, contents)),
        false => Err(LinkError::Altered),
    }
}

/// Whether bytes say that this is in them.
pub(super) fn claims(mark: Mark, bytes: &[u8]) -> bool {
    bytes.first().is_some_and(|first| first & 0xF0 == mark)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_sealed_opens() {
        for contents in [&b""[..], b"a", &[7; 5000]] {
            let bytes = sealed(PLAN, contents).unwrap();
            assert_eq!(opened(PLAN, &bytes).unwrap(), (1, contents.to_vec()));
        }
        assert_eq!(
            sealed(PLAN, &vec![0; LARGEST + 1]),
            Err(LinkError::TooLarge)
        );
    }

    #[test]
    fn each_harm_has_its_own_word() {
        let bytes = sealed(PLAN, b"walls and doors").unwrap();
        let harmed = |harm: fn(&mut Vec<u8>)| {
            let mut bytes = bytes.clone();
            harm(&mut bytes);
            opened(PLAN, &bytes).unwrap_err()
        };
        assert_eq!(harmed(|b| b.truncate(9)), LinkError::Cut);
        assert_eq!(harmed(|b| b.truncate(5)), LinkError::Cut);
        assert_eq!(harmed(|b| b.clear()), LinkError::Cut);
        assert_eq!(harmed(|b| b.push(0)), LinkError::Altered);
        assert_eq!(harmed(|b| b[6] ^= 1), LinkError::Altered);
        assert_eq!(harmed(|b| b[0] = 0xB2), LinkError::TooNew);
        assert_eq!(harmed(|b| b[0] = 0x42), LinkError::NotALink);
    }

    #[test]
    fn a_bomb_is_not_unpacked() {
        let packed = compress_to_vec(&vec![0; 10_000_000], 10);
        let mut bytes = vec![PLAN | 1];
        bytes.extend((packed.len() as u32).to_le_bytes().iter().take(3));
        bytes.extend([0; 4]);
        bytes.extend(packed);
        assert_eq!(opened(PLAN, &bytes), Err(LinkError::TooLarge));
    }
}
