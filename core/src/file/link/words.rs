//! Texts in a link: one after another, each closed by a zero, with the usual words of a house as
//! single bytes. The list of words is part of version 1 and never changes.

use super::LinkError;

/// Words that are written as one byte each: their place in this list gives the byte, counted
/// from 1 and stepping over the line break. Control characters never stand in a plan's texts.
const WORDS: [&str; 30] = [
    "Bed",
    "room",
    "Bath",
    "Kitchen",
    "Living",
    "Dining",
    "Hall",
    "Closet",
    "Garage",
    "Office",
    "Study",
    "Laundry",
    "Owner",
    "suite",
    "Entry",
    "Powder",
    "Pantry",
    "Storage",
    "Mechanical",
    "Family",
    "Great",
    "Basement",
    "Ground",
    "Upper",
    "Guest",
    "Mud",
    "Utility",
    "Den",
    "Loft",
    "House",
];

/// The next word is all capitals.
const CAPITALS: u8 = 0x7F;
/// Ends a text.
const END: u8 = 0;
/// Stands for itself, so it is no word.
const LINE_BREAK: u8 = b'\n';

/// Longest text that is read, in bytes: a field of the longest length in the widest letters.
const LONGEST: usize = 1600;

fn byte_of(place: usize) -> u8 {
    let byte = place as u8 + 1;
    match byte >= LINE_BREAK {
        true => byte + 1,
        false => byte,
    }
}

fn word_of(byte: u8) -> Option<&'static str> {
    let place = match byte {
        END | LINE_BREAK => return None,
        byte if byte < LINE_BREAK => byte - 1,
        byte => byte - 2,
    };
    WORDS.get(usize::from(place)).copied()
}

/// Appends a text. Control characters, which no edit lets in, are left out.
pub(super) fn pack(text: &str, bytes: &mut Vec<u8>) {
    let mut rest = text;
    while let Some(letter) = rest.chars().next() {
        let known = WORDS.iter().enumerate().find_map(|(place, word)| {
            let head = rest.get(..word.len())?;
            match () {
                () if head == *word => Some((place, false, word.len())),
                () if head == word.to_ascii_uppercase() => Some((place, true, word.len())),
                () => None,
            }
        });
        let length = match known {
            Some((place, capitals, length)) => {
                if capitals {
                    bytes.push(CAPITALS);
                }
                bytes.push(byte_of(place));
                length
            }
            None => {
                if letter == '\n' || !letter.is_control() {
                    bytes.extend(letter.encode_utf8(&mut [0; 4]).as_bytes());
                }
                letter.len_utf8()
            }
        };
        rest = rest.get(length..).unwrap_or_default();
    }
    bytes.push(END);
}

/// Texts being taken in the order they were packed.
pub(super) struct Texts<'a> {
    bytes: &'a [u8],
}

impl<'a> Texts<'a> {
    pub fn new(bytes: &'a [u8]) -> Self {
        Self { bytes }
    }

    /// Whether every text was taken.
    pub fn is_empty(&self) -> bool {
        self.bytes.is_empty()
    }

    /// The next text.
    pub fn next(&mut self) -> Result<String, LinkError> {
        let end = self.bytes.iter().position(|byte| *byte == END);
        let end = end.ok_or(LinkError::Altered)?;
        let (packed, rest) = self.bytes.split_at(end);
        self.bytes = rest.get(1..).unwrap_or_default();
        unpacked(packed)
    }
}

fn unpacked(packed: &[u8]) -> Result<String, LinkError> {
    let mut text = Vec::with_capacity(packed.len());
    let mut capitals = false;
    for &byte in packed {
        match (byte, word_of(byte)) {
            (CAPITALS, _) => capitals = true,
            (_, Some(word)) if capitals => {
                text.extend(word.to_ascii_uppercase().bytes());
                capitals = false;
            }
            (_, Some(word)) => text.extend(word.bytes()),
            (byte, None) => text.push(byte),
        }
        if text.len() > LONGEST {
            return Err(LinkError::Altered);
        }
    }
    String::from_utf8(text).map_err(|_| LinkError::Altered)
}

/// Whether a name is made of usual words, figures and marks alone, and so names nobody.
pub(super) fn is_usual(name: &str) -> bool {
    let parts = name.split(|c: char| !c.is_alphabetic());
    parts.filter(|part| !part.is_empty()).all(|part| {
        let mut packed = Vec::new();
        pack(&capital(part), &mut packed);
        packed
            .iter()
            .all(|byte| word_of(*byte).is_some() || *byte == END)
    })
}

/// "bedroom" and "BEDROOM" as "Bedroom"; "suite" and "room" stand small in the list.
fn capital(part: &str) -> String {
    let small = part.to_ascii_lowercase();
    if WORDS.contains(&small.as_str()) {
        return small;
    }
    let mut letters = small.chars();
    let first = letters.next().map(|c| c.to_ascii_uppercase());
    first.into_iter().chain(letters).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn packed(text: &str) -> usize {
        let mut bytes = Vec::new();
        pack(text, &mut bytes);
        pack("next", &mut bytes);
        let mut texts = Texts::new(&bytes);
        assert_eq!(texts.next().unwrap(), text);
        assert_eq!(texts.next().unwrap(), "next");
        assert!(texts.is_empty());
        bytes.len() - "next".len() - 2
    }

    #[test]
    fn usual_words_take_a_byte() {
        assert_eq!(packed("Kitchen"), 1);
        assert_eq!(packed("KITCHEN"), 2);
        assert_eq!(packed("Bedroom 2"), 4);
        assert_eq!(packed("BED 1"), 4);
        assert_eq!(packed(""), 0);
        packed("Büro\n書斎");
    }

    #[test]
    fn every_word_has_a_byte_of_its_own() {
        for (place, word) in WORDS.iter().enumerate() {
            assert_eq!(word_of(byte_of(place)), Some(*word));
            assert_eq!(packed(word), 1, "{word}");
        }
    }

    #[test]
    fn names_of_people_are_not_usual() {
        assert!(is_usual("Bedroom 2"));
        assert!(is_usual("GREAT ROOM / DINING"));
        assert!(is_usual("owner suite"));
        assert!(is_usual(""));
        assert!(!is_usual("Ann's room"));
        assert!(!is_usual("書斎"));
    }

    proptest! {
        #[test]
        fn every_text_comes_back(text in "\\PC{0,400}") {
            packed(&text);
        }

        #[test]
        fn any_bytes_are_read_or_refused(bytes: Vec<u8>) {
            let mut texts = Texts::new(&bytes);
            while texts.next().is_ok() {}
        }
    }
}
