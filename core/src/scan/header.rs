//! What a picture file says of itself before it is decoded: its kind, its size, whether it is whole.
//!
//! Never decodes a pixel. Sources: PNG specification (W3C, third edition) section 5; JPEG, ITU-T T.81
//! annex B; WebP container, RFC 9649 section 2. From memory; the tests build files by these rules.

use std::fmt;

/// More pixels than this are refused: 100 megapixels.
pub const MOST_PIXELS: u64 = 100_000_000;

/// What a picture file is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Header {
    /// `image/png`, `image/jpeg` or `image/webp`.
    pub media_type: &'static str,
    /// Pixels across, before any turn the file asks for.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
}

/// Why a file is no picture that can be put under a plan. `Display` is one sentence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HeaderError {
    /// Nothing in it.
    Empty,
    /// Not PNG, JPEG or WebP.
    NotAPicture,
    /// A known kind of document that cannot be opened as a picture.
    Other(&'static str),
    /// It breaks off.
    CutShort,
    /// More than [`MOST_PIXELS`].
    TooLarge {
        /// Pixels across.
        width: u32,
        /// Pixels down.
        height: u32,
    },
}

impl fmt::Display for HeaderError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("This file is empty. Choose another copy of the drawing."),
            Self::NotAPicture => {
                f.write_str("This file is no PNG, JPEG or WebP picture. Choose one that is.")
            }
            Self::Other(kind) => write!(
                f,
                "This is a {kind}, which is not opened yet. Save the drawing as PNG or JPEG, then open that."
            ),
            Self::CutShort => f.write_str(
                "This picture breaks off before its end. Copy it again from where it came from.",
            ),
            Self::TooLarge { width, height } => write!(
                f,
                "This picture has {} megapixels, more than the 100 a page can hold. Save a smaller copy, then open that.",
                u64::from(*width) * u64::from(*height) / 1_000_000
            ),
        }
    }
}

impl std::error::Error for HeaderError {}

/// Reads the header of a picture file.
///
/// # Errors
/// [`HeaderError`] for anything that is not a whole picture of at most [`MOST_PIXELS`].
pub fn header(bytes: &[u8]) -> Result<Header, HeaderError> {
    let found = match bytes {
        [] => return Err(HeaderError::Empty),
        [0x89, b'P', b'N', b'G', ..] => png(bytes),
        [0xff, 0xd8, 0xff, ..] => jpeg(bytes),
        [
            b'R',
            b'I',
            b'F',
            b'F',
            _,
            _,
            _,
            _,
            b'W',
            b'E',
            b'B',
            b'P',
            ..,
        ] => webp(bytes),
        _ => return Err(other(bytes)),
    };
    let header = found.ok_or(HeaderError::CutShort)?;
    let (width, height) = (header.width, header.height);
    match u64::from(width) * u64::from(height) {
        0 => Err(HeaderError::NotAPicture),
        pixels if pixels > MOST_PIXELS => Err(HeaderError::TooLarge { width, height }),
        _ => Ok(header),
    }
}

fn other(bytes: &[u8]) -> HeaderError {
    match bytes {
        [b'%', b'P', b'D', b'F', ..] => HeaderError::Other("PDF"),
        [b'G', b'I', b'F', b'8', ..] => HeaderError::Other("GIF"),
        [b'I', b'I', 42, 0, ..] | [b'M', b'M', 0, 42, ..] => HeaderError::Other("TIFF"),
        [_, _, _, _, b'f', b't', b'y', b'p', ..] => HeaderError::Other("HEIC or AVIF picture"),
        _ => HeaderError::NotAPicture,
    }
}

/// Walks the chunks up to the closing one.
fn png(bytes: &[u8]) -> Option<Header> {
    let (width, height) = (be32(bytes, 16)?, be32(bytes, 20)?);
    // Too large is said even of a file that breaks off: its header is whole.
    if u64::from(width) * u64::from(height) <= MOST_PIXELS {
        let mut at = 8_usize;
        while bytes.get(at + 4..at + 8)? != b"IEND" {
            at = at.checked_add(be32(bytes, at)? as usize)?.checked_add(12)?;
        }
    }
    Some(Header {
        media_type: "image/png",
        width,
        height,
    })
}

/// Walks the segments to the frame header, and looks for the closing marker.
fn jpeg(bytes: &[u8]) -> Option<Header> {
    let mut at = 2_usize;
    loop {
        let marker = match bytes.get(at..at + 2)? {
            [0xff, 0xff] => {
                at += 1;
                continue;
            }
            [0xff, marker] => *marker,
            _ => return None,
        };
        let is_frame = matches!(marker, 0xc0..=0xcf) && !matches!(marker, 0xc4 | 0xc8 | 0xcc);
        if is_frame {
            break;
        }
        at += 2 + usize::from(be16(bytes, at + 2)?);
    }
    let (height, width) = (be16(bytes, at + 5)?, be16(bytes, at + 7)?);
    let rest = bytes.get(at..)?;
    rest.windows(2).rev().find(|pair| *pair == [0xff, 0xd9])?;
    Some(Header {
        media_type: "image/jpeg",
        width: u32::from(width),
        height: u32::from(height),
    })
}

fn webp(bytes: &[u8]) -> Option<Header> {
    let (width, height) = match bytes.get(12..16)? {
        b"VP8X" => (le24(bytes, 24)? + 1, le24(bytes, 27)? + 1),
        b"VP8L" => {
            let packed = le24(bytes, 21)? | (u32::from(*bytes.get(24)?) << 24);
            ((packed & 0x3fff) + 1, ((packed >> 14) & 0x3fff) + 1)
        }
        b"VP8 " => {
            let side = |at: usize| {
                Some(u32::from(*bytes.get(at)?) | (u32::from(*bytes.get(at + 1)?) << 8))
            };
            (side(26)? & 0x3fff, side(28)? & 0x3fff)
        }
        _ => return None,
    };
    let stated = u64::from(le24(bytes, 4)?) | (u64::from(*bytes.get(7)?) << 24);
    (bytes.len() as u64 >= stated + 8).then_some(Header {
        media_type: "image/webp",
        width,
        height,
    })
}

fn be16(bytes: &[u8], at: usize) -> Option<u16> {
    let pair = bytes.get(at..at.checked_add(2)?)?;
    Some(u16::from_be_bytes(pair.try_into().ok()?))
}

fn be32(bytes: &[u8], at: usize) -> Option<u32> {
    let four = bytes.get(at..at.checked_add(4)?)?;
    Some(u32::from_be_bytes(four.try_into().ok()?))
}

fn le24(bytes: &[u8], at: usize) -> Option<u32> {
    let three: [u8; 3] = bytes.get(at..at.checked_add(3)?)?.try_into().ok()?;
    Some(u32::from(three[0]) | (u32::from(three[1]) << 8) | (u32::from(three[2]) << 16))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn png_of(width: u32, height: u32) -> Vec<u8> {
        let mut bytes = vec![0x89, b'P', b'N', b'G', 13, 10, 26, 10, 0, 0, 0, 13];
        bytes.extend(b"IHDR");
        bytes.extend(width.to_be_bytes());
        bytes.extend(height.to_be_bytes());
        bytes.extend([8, 2, 0, 0, 0, 1, 2, 3, 4]);
        bytes.extend([0, 0, 0, 3]);
        bytes.extend(b"IDATabcCRC4");
        bytes.extend([0, 0, 0, 0]);
        bytes.extend(b"IENDCRC4");
        bytes
    }

    fn jpeg_of(width: u16, height: u16) -> Vec<u8> {
        let mut bytes = vec![
            0xff, 0xd8, 0xff, 0xe0, 0, 4, 1, 2, 0xff, 0xff, 0xc2, 0, 11, 8,
        ];
        bytes.extend(height.to_be_bytes());
        bytes.extend(width.to_be_bytes());
        bytes.extend([1, 1, 0x11, 0, 0xff, 0xda, 0, 2, 9, 9, 9, 0xff, 0xd9, 0]);
        bytes
    }

    fn webp_of(width: u32, height: u32) -> Vec<u8> {
        let mut bytes = b"RIFF\x16\0\0\0WEBPVP8X\x0a\0\0\0\0\0\0\0".to_vec();
        bytes.extend(&(width - 1).to_le_bytes()[..3]);
        bytes.extend(&(height - 1).to_le_bytes()[..3]);
        bytes
    }

    #[test]
    fn three_kinds_say_their_size() {
        let read = |bytes: Vec<u8>| header(&bytes).map(|h| (h.media_type, h.width, h.height));
        assert_eq!(read(png_of(640, 480)), Ok(("image/png", 640, 480)));
        assert_eq!(read(jpeg_of(1600, 900)), Ok(("image/jpeg", 1600, 900)));
        assert_eq!(read(webp_of(3000, 2000)), Ok(("image/webp", 3000, 2000)));
    }

    #[test]
    fn every_fault_has_its_sentence() {
        let say = |bytes: &[u8]| header(bytes).map_err(|error| error.to_string());
        for (bytes, words) in [
            (&b""[..], "empty"),
            (b"not a picture", "no PNG"),
            (b"%PDF-1.7", "PDF"),
            (&png_of(20_000, 10_000)[..], "200 megapixels"),
            (&png_of(10, 10)[..50], "breaks off"),
            (&jpeg_of(10, 10)[..26], "breaks off"),
            (&webp_of(10, 10)[..28], "breaks off"),
        ] {
            let sentence = say(bytes).unwrap_err();
            assert!(
                sentence.contains(words) && sentence.ends_with('.'),
                "{sentence}"
            );
        }
    }

    proptest! {
        #[test]
        fn any_bytes_get_an_answer(start in 0_usize..4, rest: Vec<u8>) {
            let starts: [&[u8]; 4] = [b"", b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff", b"RIFF\0\0\0\0WEBP"];
            let bytes = [starts[start], &rest].concat();
            let _ = header(&bytes);
        }
    }
}
