//! The short address of a wall: what a code beside an elevation opens on a device that has the job.
//!
//! It holds no plan, so that the code stays small enough to stand beside every elevation: a letter of its own,
//! the twelve letters of the version that stand on the sheet, and the number of the wall.

use crate::plan::WallId;

/// First letter of the spelling; not one of a link's two.
const MARK: char = 'W';
/// Between the version and the wall.
const BETWEEN: char = '.';
/// Letters of a version without what stands between its groups.
const VERSION: usize = 12;

/// A wall of a version of a plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spot {
    /// The letters of the version, as they stand on the sheets.
    pub version: String,
    /// The wall.
    pub wall: WallId,
}

impl Spot {
    /// A wall on a sheet that carries this version.
    pub fn of(version: &str, wall: WallId) -> Self {
        Self {
            version: grouped(&plain(version)),
            wall,
        }
    }

    /// How it stands behind the `#` of an address, in letters that a printed code holds tightly.
    pub fn spelled(&self) -> String {
        format!("{MARK}{}{BETWEEN}{}", plain(&self.version), self.wall.0)
    }

    /// Reads what stands behind a `#`; `None` where it is something else.
    pub fn read(fragment: &str) -> Option<Self> {
        let (version, wall) = fragment.trim().strip_prefix(MARK)?.split_once(BETWEEN)?;
        let version = plain(version);
        let is_digits = !wall.is_empty() && wall.bytes().all(|byte| byte.is_ascii_digit());
        let wall = wall.parse().ok().filter(|_| is_digits)?;
        (version.len() == VERSION).then(|| Self::of(&version, WallId(wall)))
    }
}

fn plain(version: &str) -> String {
    let letters = version.chars().filter(char::is_ascii_alphanumeric);
    letters.map(|letter| letter.to_ascii_uppercase()).collect()
}

/// Four letters at a time, as a version is printed.
fn grouped(plain: &str) -> String {
    let letters: Vec<char> = plain.chars().collect();
    let groups = letters.chunks(4).map(|four| four.iter().collect());
    groups.collect::<Vec<String>>().join("-")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::file::link;
    use crate::plan::Plan;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn what_is_spelled_is_read(wall: u32, version in "[A-Z]{4}-[A-Z]{4}-[A-Z]{4}") {
            let spot = Spot::of(&version, WallId(wall));
            prop_assert_eq!(&spot.version, &version);
            prop_assert_eq!(Spot::read(&spot.spelled()), Some(spot));
        }

        #[test]
        fn nothing_else_is_taken_for_one(text in ".{0,40}") {
            if let Some(spot) = Spot::read(&text) {
                prop_assert_eq!(Spot::read(&spot.spelled()), Some(spot));
            }
        }
    }

    #[test]
    fn it_is_no_link_and_no_link_is_one() {
        let version = link::version(&Plan::new()).code().unwrap();
        let spot = Spot::of(&version, WallId(7));
        assert_eq!(spot.version, version);
        assert!(link::decode_text(&spot.spelled()).is_err());
        assert_eq!(Spot::read(&link::encode_text(b"WABC.7")), None);
        assert_eq!(Spot::read(&link::encode_qr_text(b"WABC.7")), None);
        for odd in [
            "",
            "W",
            "WABCDEFGHJKLM",
            "WABCDEFGHJKLM.",
            "WABCDEFGHJKLM.+7",
            "WABC.7",
        ] {
            assert_eq!(Spot::read(odd), None, "{odd}");
        }
    }
}
