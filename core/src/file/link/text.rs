//! The two ways a link's bytes are spelled in an address: base64url for copying, and an alphabet
//! that a printed code holds tightly. The first letter tells which; the reader takes either.

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;

use super::LinkError;

/// First letter of the spelling for copying; not a letter of the other.
const COPIED: char = 'b';
/// First letter of the spelling for printed codes.
const PRINTED: char = 'Q';

/// The letters a QR code packs at 5-1/2 bits (ISO/IEC 18004, alphanumeric mode), less the space
/// and the per cent sign, which do not survive in an address: 43 of 45. Two bytes take three.
const ALPHABET: &[u8; 43] = b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ$*+-./:";
const BASE: u32 = ALPHABET.len() as u32;

/// Longest spelling that is read: larger than any plan's, small enough to hold.
const LONGEST: usize = 200_000;

/// The bytes spelled for copying.
pub fn encode_text(bytes: &[u8]) -> String {
    format!("{COPIED}{}", URL_SAFE_NO_PAD.encode(bytes))
}

/// The bytes spelled for a printed code.
pub fn encode_qr_text(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len() * 3 / 2 + 3);
    text.push(PRINTED);
    for pair in bytes.chunks(2) {
        let (mut value, letters) = match *pair {
            [high, low] => (u32::from(high) * 256 + u32::from(low), 3),
            [single] => (u32::from(single), 2),
            _ => continue,
        };
        for _ in 0..letters {
            let letter = ALPHABET.get((value % BASE) as usize).unwrap_or(&b'0');
            text.push(char::from(*letter));
            value /= BASE;
        }
    }
    text
}

/// The bytes that either spelling stands for. White space, as a letter wraps it in, is passed
/// over; what stands before a `#` is the address and is left out.
///
/// # Errors
/// [`LinkError::NotALink`] where it is neither spelling, [`LinkError::Cut`] where letters lack.
pub fn decode_text(text: &str) -> Result<Vec<u8>, LinkError> {
    let text = text.rsplit('#').next().unwrap_or_default();
    if text.len() > LONGEST {
        return Err(LinkError::TooLarge);
    }
    let plain: String = text.chars().filter(|c| !c.is_whitespace()).collect();
    let mut letters = plain.chars();
    match letters.next() {
        Some(COPIED) => copied(letters.as_str()),
        Some(PRINTED) => printed(letters.as_str()),
        _ => Err(LinkError::NotALink),
    }
}

fn copied(text: &str) -> Result<Vec<u8>, LinkError> {
    let known = |byte: u8| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_');
    let known = text.bytes().take_while(|byte| known(*byte)).count();
    let text = text.get(..known).unwrap_or_default();
    // One letter of four is no whole byte; what a cut left of the last byte is worth nothing.
    let whole = match text.len() % 4 {
        1 => text.len() - 1,
        _ => text.len(),
    };
    let engine =
        base64::engine::GeneralPurpose::new(&base64::alphabet::URL_SAFE, URL_SAFE_NO_PAD_LENIENT);
    let text = text.get(..whole).unwrap_or_default();
    engine.decode(text).map_err(|_| LinkError::Altered)
}

/// A cut may leave bits over in the last letter.
const URL_SAFE_NO_PAD_LENIENT: base64::engine::GeneralPurposeConfig =
    base64::engine::general_purpose::NO_PAD.with_decode_allow_trailing_bits(true);

fn printed(text: &str) -> Result<Vec<u8>, LinkError> {
    let mut bytes = Vec::with_capacity(text.len() * 2 / 3 + 1);
    for group in text.as_bytes().chunks(3) {
        let mut value = 0;
        for letter in group.iter().rev() {
            let place = ALPHABET.iter().position(|known| known == letter);
            value = value * BASE + place.ok_or(LinkError::Altered)? as u32;
        }
        match (group.len(), u16::try_from(value)) {
            (3, Ok(pair)) => bytes.extend(pair.to_be_bytes()),
            (2, Ok(single)) if single < 256 => bytes.push(single as u8),
            (1, _) => return Err(LinkError::Cut),
            _ => return Err(LinkError::Altered),
        }
    }
    Ok(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_alphabet_stands_in_the_standard_and_in_addresses() {
        // ISO/IEC 18004:2015, table 5 (from memory); RFC 3986, section 3.5, fragment.
        let standard = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
        let address = |c: char| c.is_ascii_alphanumeric() || "-._~!$&'()*+,;=:@/?".contains(c);
        for letter in ALPHABET.map(char::from) {
            assert!(standard.contains(letter) && address(letter), "{letter}");
        }
    }

    #[test]
    fn letters_are_told_from_strangers() {
        assert_eq!(decode_text("hello"), Err(LinkError::NotALink));
        assert_eq!(decode_text(""), Err(LinkError::NotALink));
        assert_eq!(decode_text("Q1"), Err(LinkError::Cut));
        assert_eq!(decode_text("Q:::"), Err(LinkError::Altered));
        let wrapped = encode_text(b"some bytes").replace('M', " M\n");
        assert_eq!(decode_text(&wrapped).unwrap(), b"some bytes");
        let address = format!("https://example.test/#{}", encode_qr_text(b"odd"));
        assert_eq!(decode_text(&address).unwrap(), b"odd");
    }

    proptest! {
        #[test]
        fn both_spellings_come_back(bytes: Vec<u8>) {
            prop_assert_eq!(&decode_text(&encode_text(&bytes)).unwrap(), &bytes);
            prop_assert_eq!(&decode_text(&encode_qr_text(&bytes)).unwrap(), &bytes);
        }

        #[test]
        fn any_text_is_read_or_refused(text: String) {
            let _ = decode_text(&text);
            let _ = decode_text(&format!("b{text}"));
            let _ = decode_text(&format!("Q{text}"));
        }
    }
}
