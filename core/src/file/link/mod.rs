//! The whole plan, without its drawings and the record of the site, in one link.
//!
//! A link's bytes are an envelope (version, length, checksum, deflated contents), its contents
//! are sections, and a section is columns of numbers; the texts of all sections stand together in
//! a last one. Bytes are spelled as letters by [`encode_text`] or [`encode_qr_text`].
//!
//! ```text
//! bytes     0xB0 + version | length of the rest, 3 bytes, lowest first | CRC-32 of the contents,
//!           4 bytes, lowest first | contents, deflated (RFC 1951)
//! contents  sections, by growing tag: tag | length | columns. A section that says nothing but
//!           the usual is left out. An odd tag must be understood; a reader that does not know an
//!           even one passes over it.
//! number    from zero up: seven bits a byte, lowest first, the high bit says that more follows
//! column    nothing for no values, else a mode and then: 0 all zero | 1 the one value | 2 the
//!           values | 3 steps from value to value | 4 a table (its length, its values as steps)
//!           and places in it. Values fold so that small ones stay short: 0, -1, 1, -2, ...
//! real      a column of kinds (0 thousandths, 1 sixteenths of an inch in millimetres, 2 bits), a
//!           column of values, then eight bytes for each of kind 2
//! texts     each closed by a zero; usual words are single bytes
//! ```
//!
//! What a tag, a column or a usual value means in a version never changes. New things get new
//! sections; a section that changes takes a new tag, or the whole a new version whose reader
//! stands beside the old one.

mod codes;
mod columns;
mod drops;
mod envelope;
mod levels;
mod printed;
mod privacy;
mod qr;
mod replies;
mod sections;
mod settings;
mod site;
mod spot;
mod text;
mod version;
mod walls;
mod words;

use std::fmt;

pub use privacy::{NAMELESS, Privacy};
pub use qr::{Modules, qr, qr_small};
pub use replies::{is_reply, read_reply, write_reply};
pub use spot::Spot;
pub use text::{decode_text, encode_qr_text, encode_text};
pub use version::{version, without_names};

use super::losses::Losses;
use super::{Opened, mend};
use crate::plan::{Plan, Sheet};

/// Why a link gives no plan, or a plan no link. `Display` is one sentence for the person.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LinkError {
    /// No link of ours.
    NotALink,
    /// Its end is missing.
    Cut,
    /// Something in it was changed.
    Altered,
    /// Made by a newer version of this program.
    TooNew,
    /// More than a link holds.
    TooLarge,
    /// More than one printed code holds.
    TooLongForCode,
}

impl fmt::Display for LinkError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NotALink => "This is not a Borewright link. Ask for the link again.",
            Self::Cut => "This link is cut short. Copy the whole of it, or ask for the plan file.",
            Self::Altered => {
                "This link was changed on its way. Ask for it again, or for the plan file."
            }
            Self::TooNew => {
                "This link was made by a newer Borewright. Ask for the plan file, or update this page."
            }
            Self::TooLarge => "This is more than a link holds. Use the plan file instead.",
            Self::TooLongForCode => {
                "This plan is too large for one printed code. Send the link itself instead."
            }
        })
    }
}

impl std::error::Error for LinkError {}

/// A plan as the bytes of a link. The same plan gives the same bytes.
///
/// # Errors
/// [`LinkError::TooLarge`] for a plan with more than 64 KB to say.
pub fn write(plan: &Plan, privacy: Privacy) -> Result<Vec<u8>, LinkError> {
    let plan = privacy::kept(plan, privacy);
    envelope::sealed(envelope::PLAN, &sections::write(&plan))
}

/// The plan in the bytes of a link. Total on any bytes; never unpacks more than 64 KB.
///
/// # Errors
/// [`LinkError`] where there is no plan to read.
pub fn read(bytes: &[u8]) -> Result<Opened, LinkError> {
    let (version, contents) = envelope::opened(envelope::PLAN, bytes)?;
    let mut plan = match version {
        1 => sections::read(&contents)?,
        _ => return Err(LinkError::Altered),
    };
    let mut losses = Losses::default();
    mend::mend(&mut plan, &mut losses);
    Ok(Opened {
        plan,
        losses: losses.into_sentences(),
    })
}

/// The plan as a link carries it: every level without its drawing and without how that lay, and
/// without the record of the site, which is the contractor's own and goes with the file.
pub fn without_drawings(plan: &Plan) -> Plan {
    let mut plan = Plan {
        record: crate::plan::SiteRecord::default(),
        ..plan.clone()
    };
    for level in &mut plan.levels {
        level.sheet = Sheet::default();
    }
    plan
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::file;
    use crate::plan::edit::sample;
    use proptest::prelude::*;

    fn link(plan: &Plan) -> Vec<u8> {
        write(plan, Privacy::Everything).unwrap()
    }

    fn check(plan: &Plan) {
        let opened = read(&link(plan)).unwrap();
        assert_eq!(opened.losses, Vec::<String>::new());
        assert_eq!(opened.plan, without_drawings(plan));
        assert_eq!(link(&opened.plan), link(plan));
    }

    fn house(letter: char) -> Plan {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../tests/plans");
        let bytes = std::fs::read(format!("{folder}/house-{letter}.json")).unwrap();
        file::read(&bytes).unwrap().plan
    }

    /// One code of version 25 on the cover holds the link: at most 900 bytes for a house of one
    /// storey, 1,500 for two storeys and a garage.
    #[test]
    fn links_of_houses_are_small() {
        for (letter, most) in [('a', 900), ('b', 1500), ('c', 1500)] {
            let plan = house(letter);
            check(&plan);
            let bytes = link(&plan);
            println!("house {letter}: {} bytes", bytes.len());
            assert!(bytes.len() <= most, "house {letter}: {}", bytes.len());
            let address = format!("https://example.test/plans/#{}", encode_qr_text(&bytes));
            let version = qr(&address).unwrap().version;
            println!("house {letter}: version {version}");
            assert!(version <= 25, "house {letter}: version {version}");
        }
    }

    #[test]
    fn an_empty_plan_costs_a_few_bytes() {
        check(&Plan::new());
        assert!(link(&Plan::new()).len() < 60);
    }

    #[test]
    fn a_plan_with_too_much_to_say_is_refused() {
        let mut plan = house('a');
        let mut noise = 1_u32;
        plan.dismissed = (0..400)
            .map(|n| crate::plan::Dismissal {
                key: format!("key {n}"),
                reason: std::iter::repeat_with(|| {
                    noise = noise.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                    char::from(b'!' + (noise >> 24) as u8 % 90)
                })
                .take(390)
                .collect(),
            })
            .collect();
        assert_eq!(write(&plan, Privacy::Everything), Err(LinkError::TooLarge));
        assert!(write(&plan, Privacy::WithoutNames).is_ok());
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(200))]

        #[test]
        fn every_plan_comes_back(seed: u64, edits in 0_usize..300) {
            check(&sample::plan(seed, edits));
        }

        #[test]
        fn without_names_the_house_stays(seed: u64) {
            let plan = sample::plan(seed, 150);
            let bytes = write(&plan, Privacy::WithoutNames).unwrap();
            let opened = read(&bytes).unwrap();
            prop_assert!(opened.losses.is_empty());
            prop_assert_eq!(opened.plan.drops.len(), plan.drops.len());
            prop_assert_eq!(opened.plan.title, "House");
        }

        #[test]
        fn harm_is_always_noticed(seed: u64, place: prop::sample::Index, bit in 0_u8..8) {
            let plan = sample::plan(seed, 100);
            let bytes = link(&plan);
            let mut harmed = bytes.clone();
            harmed[place.index(bytes.len())] ^= 1 << bit;
            // Other bits may unpack to the same contents: a copy of the same run elsewhere, or a
            // bit to spare behind the end. Then nothing was harmed.
            if let Ok(opened) = read(&harmed) {
                prop_assert_eq!(opened.plan, without_drawings(&plan));
            }
            let kept = place.index(bytes.len());
            prop_assert_eq!(read(&bytes[..kept]), Err(LinkError::Cut));
        }

        #[test]
        fn any_bytes_give_a_plan_or_a_sentence(bytes: Vec<u8>) {
            if let Err(error) = read(&bytes) {
                prop_assert!(error.to_string().ends_with('.'));
            }
        }

        /// Contents behind a right checksum, as a hostile hand could make them.
        #[test]
        fn any_contents_are_read_or_refused(
            seed: u64,
            scratches in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..6),
        ) {
            let plan = without_drawings(&sample::plan(seed, 100));
            let mut contents = sections::write(&plan);
            for (place, byte) in scratches {
                let place = place.index(contents.len());
                contents[place] = byte;
            }
            if let Ok(opened) = read(&envelope::sealed(envelope::PLAN, &contents).unwrap()) {
                check(&opened.plan);
            }
        }
    }
}
